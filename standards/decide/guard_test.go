package decide_test

import (
	"math"
	"strings"
	"testing"

	"example.com/furrow/standards"
	"example.com/furrow/standards/decide"
)

// A guard band wider than the limit: where no value can be below 0 none can prove conformity, and no edge below 0 is shown; otherwise one can.
func TestGuardBandWiderThanLimit(t *testing.T) {
	for _, rule := range []standards.Rule{standards.Maximum, standards.SixteenPercent, standards.Median} {
		j := decide.Judgement{Bound: standards.Bound{Symbol: "Rz", Value: 1}, Rule: rule, Guard: decide.Guard{Rule: decide.ExpandedU, Expanded: 1.5}, Positive: true}
		v, err := j.Judge([]float64{0, 0.1, 0.2})
		if err != nil || v.Word != decide.NotDecided || !math.IsNaN(v.Accept) || v.Reject != 2.5 || !strings.HasPrefix(v.Sentence, "The guard band is wider than the limit") {
			t.Errorf("%s: %v, %q, %v to %v: %s", rule, err, v.Word, v.Accept, v.Reject, v.Sentence)
		}
		if v, _ := j.Judge([]float64{2.5, 2.6, 2.7}); v.Word != decide.DoesNotConform {
			t.Errorf("%s: %q", rule, v.Word)
		}
		j.Positive = false
		if v, _ := j.Judge([]float64{-1, -0.9, -0.8}); v.Word != decide.Conforms || v.Accept != -0.5 {
			t.Errorf("%s: %q, %v", rule, v.Word, v.Accept)
		}
	}
}
