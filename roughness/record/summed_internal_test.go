package record

import (
	"bytes"
	"errors"
	"slices"
	"strings"
	"testing"
	"time"

	"example.com/furrow/roughness"
	"example.com/furrow/roughness/synth"
)

// resummed is a record of the demonstration with a text changed in it, and checksums that fit.
func resummed(t *testing.T, old, changed string) []byte {
	t.Helper()
	d, _ := synth.FindDemo("ground-rod")
	s := Sheet{Asked: Asked{Text: "Rz 3,2"}, Traces: []SheetTrace{{Profile: roughness.Profile{Name: "rod.csv", Z: d.Heights(), Spacing: d.Spacing}}}}
	r, err := s.Record(time.Date(2026, 11, 28, 8, 0, 0, 0, time.UTC))
	if err != nil {
		t.Fatal(err)
	}
	content := r.content()
	if !bytes.Contains(content, []byte(old)) {
		t.Fatalf("no %s in the record", old)
	}
	content = bytes.Replace(content, []byte(old), []byte(changed), 1)
	w := writer{b: bytes.Clone(content), more: true}
	w.b = w.b[:len(w.b)-1]
	w.name("sha256")
	w.b = append(w.b, sums(content)...)
	r.Made.Number = r.Made.number(digest(content))
	w.put("made", r.Made.json())
	return append(w.close(), '\n')
}

// A record whose checksums were made to fit a change is found out where the change contradicts the rest of it.
func TestResummed(t *testing.T) {
	if o, err := Open(resummed(t, `"points": 9601`, `"points": 9601`)); err != nil {
		t.Fatal(err)
	} else if v, err := o.Verify(); err != nil || !v.Same {
		t.Fatalf("unchanged: %v %v", v, err)
	}
	_, err := Open(resummed(t, `"points": 9601`, `"points": 9600`))
	if !errors.Is(err, ErrChanged) || !strings.Contains(err.Error(), "there are 9601 heights of trace 1, rod.csv, which has 9600 points") {
		t.Errorf("points: %v", err)
	}
	for _, c := range []struct{ old, changed, want string }{
		{"from the limit of Rz", "from the limit of Ra", "the origin of"},
		{`"from": "standard"`, `"from": "drawing"`, "the origin of"},
		{"class Sc3", "class Sc2", "the origin of"},
	} {
		o, err := Open(resummed(t, c.old, c.changed))
		if err != nil {
			t.Fatal(err)
		}
		v, err := o.Verify()
		if err != nil || v.Same || !strings.Contains(v.Differences[0].String(), c.want) {
			t.Errorf("%s: %+v %v", c.changed, v, err)
		}
	}
}

// What makes the values of a trace doubtful stands among the cautions of its record, on the printed page too.
func TestFindingsAmongCautions(t *testing.T) {
	d, _ := synth.FindDemo("ground-rod")
	z := d.Heights()
	top := slices.Max(z) / 3
	for i := range z {
		z[i] = min(z[i], top)
	}
	s := Sheet{Asked: Asked{Text: "Rz 3,2"}, Traces: []SheetTrace{{Profile: roughness.Profile{Name: "rod.csv", Z: z, Spacing: d.Spacing}}}}
	r, err := s.Record(time.Date(2026, 11, 28, 8, 0, 0, 0, time.UTC))
	if err != nil {
		t.Fatal(err)
	}
	page := string(AppendPage(nil, r, Display{}))
	printed, _, _ := strings.Cut(page, scriptOpen)
	const said = "peak values from here are too small"
	if !strings.Contains(strings.Join(r.Cautions, " "), said) || !strings.Contains(printed, said) {
		t.Errorf("cautions %q", r.Cautions)
	}
	if o, err := Open([]byte(page)); err != nil {
		t.Error(err)
	} else if v, err := o.Verify(); err != nil || !v.Same {
		t.Errorf("%+v %v", v, err)
	}
}
