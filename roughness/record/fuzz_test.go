package record_test

import (
	"bytes"
	"testing"

	"example.com/furrow/roughness/record"
)

// Whatever the bytes, opening them is an error or a record; one that opens verifies without a panic and prints.
func FuzzOpen(f *testing.F) {
	r := made(f, short())
	f.Add(record.AppendRecord(nil, r))
	f.Add(record.AppendPage(nil, r, record.Display{}))
	f.Add([]byte("{}"))
	f.Add([]byte(`{"furrow_record": 1, "results": 1, "verdict": [], "heights": {}, "sha256": {}, "made": {}}`))
	f.Fuzz(func(t *testing.T, data []byte) {
		o, err := record.Open(data)
		if err != nil {
			if o != nil {
				t.Error("a record beside an error")
			}
			return
		}
		if v, err := o.Verify(); err == nil {
			v.Again.At(noon)
			if again, err := record.Open(record.AppendRecord(nil, v.Again)); err != nil || !bytes.Equal(record.AppendSheet(nil, &again.Sheet), record.AppendSheet(nil, &v.Again.Sheet)) {
				t.Errorf("made again it does not open: %v", err)
			}
		}
	})
}

// A record with checksums that belong to it, and with anything in it, is compared without a panic.
func TestForged(t *testing.T) {
	r := made(t, short())
	for _, forge := range []func(*record.Record){
		func(r *record.Record) { r.Evaluations = r.Evaluations[:1]; r.Traces = r.Traces[:1] },
		func(r *record.Record) { r.Verdict = nil },
		func(r *record.Record) { r.Evaluations[0].Values = r.Evaluations[0].Values[:1] },
		func(r *record.Record) { r.Verdict.Limits = nil },
		func(r *record.Record) { r.Traces[0].Profile.Spacing = 0 },
	} {
		o := opened(t, record.AppendRecord(nil, r))
		again, err := o.Sheet.Record()
		if err != nil {
			t.Fatal(err)
		}
		forge(again)
		again.At(noon)
		forged, err := record.Open(record.AppendRecord(nil, again))
		if err != nil {
			continue
		}
		if v, err := forged.Verify(); err == nil && v.Same {
			t.Error("a forged record comes out the same")
		}
	}
}
