package tracefile

import (
	"strings"
	"time"
)

// traced takes instrument and date of the measurement out of the fields of a file, as far as they say anything.
func (t *Trace) traced() {
	var instrument []string
	for _, key := range []string{"INSTRUMENT_ID", "INSTRUMENT_SERIAL", "Record2/Instrument/Manufacturer", "Record2/Instrument/Model", "Record2/Instrument/Serial"} {
		v := strings.TrimSpace(t.field(key))
		switch strings.ToLower(v) {
		case "", "unknown", "none", "n/a", "-":
		default:
			instrument = append(instrument, v)
		}
	}
	t.Profile.Traced.Instrument = strings.Join(instrument, " ")
	for _, d := range []struct{ key, layout, as string }{
		{"Record2/Date", time.RFC3339, time.RFC3339},
		{"Record2/Date", "2006-01-02T15:04:05", "2006-01-02T15:04:05"},
		{"CreateDate", "020120061504", "2006-01-02T15:04"},
		{"DATE", "2-Jan-2006", time.DateOnly},
	} {
		if at, err := time.Parse(d.layout, strings.TrimSpace(t.field(d.key))); err == nil && at.Unix() != 0 { // the writers' word for unknown
			t.Profile.Traced.Date = at.Format(d.as)
			return
		}
	}
}
