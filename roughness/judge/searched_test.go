package judge_test

import (
	"example.com/furrow/roughness/judge"
	"fmt"
	"math"
	"slices"
	"testing"

	"example.com/furrow/roughness"
	"example.com/furrow/standards"
	"example.com/furrow/standards/decide"
)

// marks is a trace of marks that repeat, 15 mm long.
func marks(name string, period, amplitude float64) roughness.Profile {
	p := roughness.Profile{Z: make([]float64, 30001), Spacing: 0.5, Name: name}
	for i := range p.Z {
		p.Z[i] = amplitude * math.Sin(2*math.Pi*float64(i)*p.Spacing/period)
	}
	return p
}

// Without a stated cut-off ISO 4288:1996, 7.2 has two ways to it, by the height and, for marks that repeat, by their spacing (memory).
// Marks 0.5 mm apart ask for 2.5 mm; with 0.8 mm the filter takes part of them, so a value that conforms there proves nothing.
func TestRepeatingMarks(t *testing.T) {
	turned := marks("turned", 500, 3) // Rz is 5.0 µm with 0.8 mm and 5.9 µm with 2.5 mm
	for _, c := range []struct {
		text string
		word decide.Word
		why  string
	}{
		{"Rz 5,5", decide.NoVerdict, judge.WhyRequirementOpen},
		{"-0,8/Rz 5,5", decide.Conforms, ""}, // stated: nothing is looked for
		{"-2,5/Rz 5,5", decide.DoesNotConform, ""},
		{"Rz 9", decide.Conforms, ""}, // by both
		{"Rz 4", decide.DoesNotConform, ""},
	} {
		j := judge.Judging{Requirement: requirement(t, c.text, "iso-4287"), Rule: standards.Maximum, Agreed: "the drawing office", Traces: []roughness.Profile{turned}}
		if v := judged(t, j); v.Word != c.word || why(v) != c.why {
			t.Errorf("%s: %s, %s: %s", c.text, v.Word, why(v), v.Sentence)
		}
	}
	// Traces of one name are still two traces: the one with repeating marks holds the verdict open wherever it stands.
	low := marks("turned", 100, 1)
	for _, traces := range [][]roughness.Profile{{turned, low}, {low, turned}} {
		j := judge.Judging{Requirement: requirement(t, "Rz 5,5", "iso-4287"), Rule: standards.Maximum, Agreed: "the drawing office", Traces: traces}
		if v := judged(t, j); v.Word != decide.NoVerdict {
			t.Errorf("two traces: %s: %s", v.Word, v.Sentence)
		}
	}
	// A ground surface, whose spacing asks for no longer cut-off, keeps its verdict.
	if v := judged(t, judge.Judging{Requirement: requirement(t, "Rz 3,2", "iso-4287"), Traces: []roughness.Profile{rod()}, Rule: standards.Maximum, Agreed: "the drawing office"}); v.Word != decide.Conforms {
		t.Errorf("ground: %s: %s", v.Word, v.Sentence)
	}
}

// The cut-off that is looked for does not depend on which trace comes first.
func TestSearchedCutoffOrder(t *testing.T) {
	traces := []roughness.Profile{marks("low", 100, 4.2), marks("high", 100, 5.6), rod()}
	r := requirement(t, "Rz 12,5", "iso-4287")
	var first string
	for k := range 3 {
		turned := append(slices.Clone(traces[k:]), traces[:k]...)
		v := judged(t, judge.Judging{Requirement: r, Traces: turned})
		says := fmt.Sprint(v.Limits[0].Settings.Long.Spec.Cutoff, v.Word)
		if first == "" {
			first = says
		}
		if says != first {
			t.Errorf("order %d: %s, not %s", k, says, first)
		}
	}
	if s, err := r.On(traces, 0, nil); err != nil || s.Long.Spec.Cutoff != 2500 {
		t.Errorf("the longest cut-off: %v, %v", s, err)
	}
}

// What the requirement asks for beside the cut-off that is looked for stays asked for: the S-filter where the points stand too far apart for it,
// and an evaluation length that goes with another cut-off.
func TestSearchedBeside(t *testing.T) {
	coarse := marks("coarse", 100, 1)
	coarse.Spacing, coarse.Z = 4, coarse.Z[:4000]
	for _, c := range []struct {
		text  string
		trace roughness.Profile
		why   string
	}{
		{"Rz 9", coarse, judge.WhyDeviates},
		{"Rz 9", marks("fine", 100, 1), ""},
		{"Rz 25 ln 12,5", marks("fine", 100, 2), judge.WhyDeviates}, // measured on 0.8 mm, 4 mm
		{"Rz 25 ln 12,5", marks("high", 100, 7), ""},
	} {
		j := judge.Judging{Requirement: requirement(t, c.text, "iso-4287"), Rule: standards.Maximum, Traces: []roughness.Profile{c.trace}}
		j.Requirement.Items[0].Rule = standards.Maximum
		if v := judged(t, j); why(v) != c.why {
			t.Errorf("%s on %s: %s, %s: %s", c.text, c.trace.Name, v.Word, why(v), v.Sentence)
		}
	}
	if _, err := judge.ParseLimits("Rz <= 08", ""); err == nil {
		t.Error("08 is read")
	}
}
