package record

import (
	"example.com/furrow/roughness/judge"
	"example.com/furrow/standards"
)

// SeriesVersion is the newest version of a series that this package writes.
const SeriesVersion = 1

// AppendSeries appends a series of traces as a JSON document to b, with a verdict when there is one.
func AppendSeries(b []byte, s *judge.Series, verdict *judge.Verdict) []byte {
	w := writer{b: b}
	w.open()
	w.number("furrow_series", SeriesVersion)
	w.name("settings")
	if s.Settings.Edition == "" { // values typed in, and nothing asked for
		w.b = append(w.b, "{}"...)
	} else {
		w.b = AppendSettings(w.b, &s.Settings, " ")
	}
	w.name("traces")
	w.b = appendList(w.b, len(s.Traces), func(i int) string {
		t := s.Traces[i]
		return `{"name": ` + quote(t.Name) + `, "values": ` + inline(len(t.Values), func(k int) string {
			text := `{"symbol": ` + quote(s.Symbols[k]) + `, "value": ` + number(t.Values[k])
			if t.Reasons[k] != "" {
				text += `, "reason": ` + quote(t.Reasons[k])
			}
			return text + "}"
		}) + "}"
	})
	w.name("typed")
	w.b = appendList(w.b, len(s.Typed), func(i int) string {
		t := s.Typed[i]
		return `{"symbol": ` + quote(t.Symbol) + `, "value": ` + number(t.Value) + "}"
	})
	w.name("summary")
	w.b = appendList(w.b, len(s.Symbols), func(i int) string {
		u := s.Summary(s.Symbols[i])
		return `{"symbol": ` + quote(s.Symbols[i]) + `, "unit": ` + quote(s.Units[i]) + `, "n": ` + number(float64(u.N)) +
			`, "mean": ` + number(u.Mean) + `, "s": ` + number(u.S) + `, "min": ` + number(u.Min) + `, "max": ` + number(u.Max) +
			`, "median": ` + number(u.Median) + `, "proposed_outliers": ` + inline(len(u.Outliers), func(k int) string {
			o := u.Outliers[k]
			return `{"value": ` + number(s.Values(s.Symbols[i])[o.Index]) + `, "name": ` + quote(s.NameOf(s.Symbols[i], o.Index)) +
				`, "g": ` + number(o.G) + `, "critical": ` + number(o.Critical) + "}"
		}) + "}"
	})
	if verdict != nil {
		w.name("verdict")
		w.b = AppendVerdict(w.b, verdict, " ")
	}
	w.text("caution", standards.Caution)
	return append(w.close(), '\n')
}
