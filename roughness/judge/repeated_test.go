package judge_test

import (
	"math"
	"testing"

	"example.com/furrow/roughness/judge"
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
