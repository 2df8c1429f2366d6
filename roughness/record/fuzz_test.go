package record_test

import (
	"bytes"
	"crypto/sha256"
	"fmt"
	"slices"
	"strings"
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
		func(r *record.Record) { r.Verdict.Sentence = "Conforms." },
		func(r *record.Record) { r.Verdict.Acceptance = "simple acceptance" },
		func(r *record.Record) { r.Verdict.Limits[0].Text = "6.3 µm" },
		func(r *record.Record) { r.Verdict.Limits[0].Log = []string{"The value is proven."} },
		func(r *record.Record) { r.Cautions = r.Cautions[1:] },
	} {
		o := opened(t, record.AppendRecord(nil, r))
		again, err := o.Sheet.Record(noon)
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

// A page that prints something else than its record gives does not come out the same, in whatever units it is printed.
func TestForgedPage(t *testing.T) {
	r := made(t, short())
	for _, d := range []record.Display{{}, {Comma: true}, {Inch: true}} {
		page := record.AppendPage(nil, r, d)
		if v, err := opened(t, page).Verify(); err != nil || !v.Same {
			t.Fatalf("%+v: %v, %+v", d, err, v)
		}
		for _, c := range [][2]string{{`id="record-word">` + string(r.Verdict.Word), `id="record-word">Not decided now`}, {"Invented data. Not a measurement.", ""}, {"</main>", "<p>Conforms.</p></main>"}} {
			front, back, _ := bytes.Cut(page, []byte(`<script type="application/json"`))
			forged := bytes.Replace(front, []byte(c[0]), []byte(c[1]), 1)
			if bytes.Equal(forged, front) {
				t.Fatalf("the page has no %q", c[0])
			}
			sum := func(b []byte) []byte { return fmt.Appendf(nil, "%x", sha256.Sum256(b)) }
			back = bytes.Replace(back, sum(front), sum(forged), 1)
			v, err := opened(t, slices.Concat(forged, []byte(`<script type="application/json"`), back)).Verify()
			if err != nil || v.Same || len(v.Differences) != 1 || !strings.Contains(v.Differences[0].What, "printed page") {
				t.Errorf("%+v, %q: %v, %+v", d, c[1], err, v)
			}
		}
	}
}
