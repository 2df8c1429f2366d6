package judge_test

import (
	"math"
	"slices"
	"testing"

	"example.com/furrow/roughness"
	"example.com/furrow/roughness/judge"
	"example.com/furrow/standards/decide"
)

// A trace that is given again is told, by its own name or by that of the first; points without a height are heights too.
func TestGiven(t *testing.T) {
	var g judge.Given
	z := []float64{1, math.NaN(), 3}
	for _, c := range []struct {
		name string
		z    []float64
		want string
	}{
		{"a", z, ""}, {"b", []float64{1, 2, 3}, ""}, {"a", z, "a is given twice, and its values count twice."},
		{"c", []float64{1, math.Inf(1), 3}, "c has the same heights as a, and its values count twice."},
		{"c", []float64{1, math.Inf(-1), 3}, "c has the same heights as a, and its values count twice."}, {"d", z[:2], ""}, {"e", []float64{math.NaN(), 1, 3}, ""}, {"f", nil, ""}, {"g", []float64{math.Copysign(0, -1)}, ""}, {"h", []float64{0}, ""},
	} {
		if got := g.Again(judge.HeightsSHA256(c.z), c.name, "its values count"); got != c.want {
			t.Errorf("%s: %q, want %q", c.name, got, c.want)
		}
	}
}

// The same trace again proves nothing more: where a rule counts values, copies alone make no surface conform, unless a person has agreed.
func TestCopies(t *testing.T) {
	a, b, c := rod(), rod(), rod()
	b.Z, c.Z = slices.Clone(b.Z), slices.Clone(c.Z)
	slices.Reverse(b.Z)
	c.Z[0] += 0.01
	for _, x := range []struct {
		text, agreed string
		traces       []roughness.Profile
		word         decide.Word
		why          string
	}{
		{"Ra 0,5 T16%", "", []roughness.Profile{a, a, a}, decide.NoVerdict, judge.WhyDeviates},
		{"Ra 0,5 T16%", "the drawing office", []roughness.Profile{a, a, a}, decide.Conforms, ""},
		{"Ra 0,5 T16%", "", []roughness.Profile{a, b, c}, decide.Conforms, ""},
		{"Ra 0,5 T16%", "", []roughness.Profile{a, b, c, a}, decide.Conforms, ""}, // without the copy as well
		{"Ra 0,5 Tmed", "", []roughness.Profile{a, b, a}, decide.NoVerdict, judge.WhyDeviates},
		{"Ra 0,5", "", []roughness.Profile{a, a}, decide.Conforms, ""}, // no value may exceed it: copies change nothing
		{"Ra 0,01 T16%", "", []roughness.Profile{a, a, a}, decide.DoesNotConform, ""},
	} {
		v := judged(t, judge.Judging{Requirement: requirement(t, x.text, ""), Agreed: x.agreed, Traces: x.traces})
		if v.Word != x.word || why(v) != x.why || (len(v.Agreed) > 0) != (x.agreed != "") {
			t.Errorf("%s, %d traces: %s, %s, %v: %s", x.text, len(x.traces), v.Word, why(v), v.Agreed, v.Sentence)
		}
	}
}
