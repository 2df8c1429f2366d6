package study

import (
	"errors"
	"math"
	"testing"

	"example.com/furrow/filter"
	"example.com/furrow/params"
	"example.com/furrow/roughness"
	"example.com/furrow/roughness/synth"
)

// A surface of another shape has the same Ra, and each in turn another shape.
func TestSameRa(t *testing.T) {
	d := &Desk{}
	for _, demo := range synth.Demos() {
		s := State{Surface: Demo, Demo: demo.Key, Symbol: "Ra"}
		want, err := d.Evaluate(s)
		if err != nil {
			t.Fatal(err)
		}
		kinds := map[string]bool{}
		for range 3 {
			if s, err = d.SameRa(s); err != nil {
				t.Fatalf("%s: %v", demo.Key, err)
			}
			got, err := d.Evaluate(s)
			if err != nil {
				t.Fatal(err)
			}
			if ra := params.Ra(got.Surface.Z); math.Abs(ra/want.Value.Value-1) > 2e-5 {
				t.Errorf("%s, %s: Ra %v, want %v", demo.Key, s.Parts[0].Kind, ra, want.Value.Value)
			}
			kinds[s.Parts[0].Kind] = true
		}
		if len(kinds) < 3 {
			t.Errorf("%s: the shapes are %v", demo.Key, kinds)
		}
	}
	var refused *RefusedError
	if _, err := d.SameRa(State{Surface: Typed, Heights: []float64{0, 0, 0, 0}}); !errors.As(err, &refused) {
		t.Errorf("a flat profile: %v", err)
	}
}

// An exercise on the worksheet's trace is evaluated as the worksheet does: its form and the kinds of its filters stay while a cut-off moves.
func TestSettingsOfTheWorksheet(t *testing.T) {
	demo := synth.Demos()[0]
	trace := &roughness.Profile{Z: demo.Heights(), Spacing: demo.Spacing}
	sheet := &roughness.Settings{Edition: roughness.DefaultEdition, Parameters: []string{"Rz"}}
	sheet.Form = roughness.FormSpec{Kind: "polynomial", Degree: 4}
	sheet.Long.Spec = filter.Spec{Filter: "spline", Cutoff: 800}
	want, err := roughness.Evaluate(*trace, sheet)
	if err != nil {
		t.Fatal(err)
	}
	d := &Desk{Trace: trace, Settings: &want.Settings}
	s := State{Surface: Sheet, Symbol: "Rz", Filter: Removal{Kind: "own", Long: 0.8, Short: want.Settings.Short.Spec.Cutoff}, Sections: Sections{Number: want.Sections, Length: float64(want.SectionPoints) * want.Spacing / millimetre}}
	got, err := d.Evaluate(s)
	if err != nil {
		t.Fatal(err)
	}
	if got.Value.Value != want.Values[0].Value {
		t.Errorf("Rz %v, on the worksheet %v", got.Value.Value, want.Values[0].Value)
	}
	plain, err := (&Desk{Trace: trace}).Evaluate(s)
	if err != nil || plain.Value.Value == got.Value.Value {
		t.Errorf("the Gaussian filter gives the same: %v %v", plain.Value.Value, err)
	}
	s.Filter.Long = 2.5
	if got, err = d.Evaluate(s); err != nil || got.Evaluation.Settings.Long.Spec.Filter != "spline" || got.Evaluation.Settings.Form.Kind != "polynomial" {
		t.Errorf("%+v %v", got.Evaluation.Settings.Long, err)
	}
}
