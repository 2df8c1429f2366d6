package study

import (
	"math"
	"slices"
	"strings"
	"testing"

	"example.com/furrow/roughness/synth"
)

// The window of Rzx begins where its height is the value, and has the height of its own place elsewhere; the copy for Ral has there the
// threshold; a limit of the motifs is moved as its argument.
func TestLooked(t *testing.T) {
	d := &Desk{}
	demo := synth.Demos()[0].Key
	for _, c := range []struct {
		id string
		s  State
		to float64
	}{
		{"window-from", State{Surface: Demo, Demo: demo, Symbol: "Rzx"}, 1.25},
		{"shift", State{Surface: Demo, Demo: demo, Symbol: "Ral"}, 100},
		{"limit-a", State{Surface: Demo, Demo: demo, Edition: "iso-12085", Symbol: "R"}, 300},
		{"limit-b", State{Surface: Demo, Demo: demo, Edition: "iso-12085", Letter: "W", Symbol: "W"}, 2000},
	} {
		r, err := d.Evaluate(c.s)
		if err != nil {
			t.Fatal(err)
		}
		i := slices.IndexFunc(r.Handles(), func(h Handle) bool { return h.ID == c.id && h.Kind == "along" })
		k := slices.IndexFunc(r.Moves(), func(m Move) bool { return m.ID == c.id })
		if i < 0 || k < 0 {
			t.Errorf("%s: no handle %d or no field %d", c.id, i, k)
			continue
		}
		z, dx := r.Input.Z, r.Input.Dx
		switch at := r.Handles()[i].Value; c.id {
		case "window-from":
			n := int(math.Round(float64(r.Evaluation.SectionPoints)))
			from := int(math.Round(at * millimetre / dx))
			if w := z[from : from+n]; math.Abs(slices.Max(w)-slices.Min(w)-r.Value.Value) > 1e-9 {
				t.Errorf("the window at %v mm is %v high, Rzx is %v", at, slices.Max(w)-slices.Min(w), r.Value.Value)
			}
		case "shift":
			if f := alike(z, int(math.Round(at/dx))); math.Abs(f-0.2) > 0.05 {
				t.Errorf("at Ral the copy is alike by %v", f)
			}
		}
		s, err := r.Set(c.id, c.to)
		if err != nil {
			t.Errorf("%s: %v", c.id, err)
			continue
		}
		moved, err := d.Evaluate(s)
		if err != nil {
			t.Fatal(err)
		}
		marks := moved.Looked()
		if len(marks) == 0 {
			t.Errorf("%s: nothing is marked", c.id)
			continue
		}
		switch c.id {
		case "window-from":
			from, n := int(math.Round(c.to*millimetre/dx)), r.Evaluation.SectionPoints
			w := z[from : from+n]
			if want := "height here " + Printed(slices.Max(w)-slices.Min(w)) + " µm"; marks[0].Label != want || moved.Value.Value != r.Value.Value {
				t.Errorf("the window says %q, want %q", marks[0].Label, want)
			}
		case "shift":
			if p := marks[0].Points[0]; p.X != c.to || p.Y != z[0] || !strings.HasPrefix(marks[0].Label, "copy, f = ") {
				t.Errorf("the copy begins at %v: %q", p, marks[0].Label)
			}
		default:
			if p := marks[0].Points; p[1].X-p[0].X != c.to || !strings.Contains(moved.State.Symbol, "(") {
				t.Errorf("%s: marked %v, %s", c.id, p, moved.State.Symbol)
			}
		}
	}
}
