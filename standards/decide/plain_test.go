package decide_test

import (
	"errors"
	"fmt"
	"math"
	"strings"
	"testing"

	"example.com/furrow/standards"
	"example.com/furrow/standards/decide"
)

// series are n values around 5 of which some are at x and the others on the inner side.
func series(n, some int, x, others float64) (values []float64) {
	for i := range n {
		if i < some {
			values = append(values, x)
		} else {
			values = append(values, others)
		}
	}
	return values
}

// plainly are the three rules in words turned into ifs, for so many values of which so many are outside. The values inside are above 70 %.
func plainly(rule standards.Rule, n, outside int) (word decide.Word, more int) {
	yes, no, wait := decide.Conforms, decide.DoesNotConform, decide.NoVerdict
	switch {
	case n == 0:
		return wait, map[standards.Rule]int{standards.Maximum: 1, standards.SixteenPercent: 3, standards.Median: 3}[rule]
	case rule == standards.Maximum && outside == 0:
		return yes, 0
	case rule == standards.Maximum:
		return no, 0
	case rule == standards.Median && n < 3:
		return wait, 3 - n
	case rule == standards.Median && (2*outside > n || 2*outside == n && outside > 0): // half of them outside: the mean of two is outside
		return no, 0
	case rule == standards.Median:
		return yes, 0
	case n > 12 && float64(outside) <= 0.16*float64(n)+1e-9:
		return yes, 0
	case n > 12, outside > 2:
		return no, 0
	}
	need := []int{3, 6, 12}[outside]
	if n >= need {
		return yes, 0
	}
	return wait, need - n
}

// Every number of values up to 26 with every number outside, on both sides, for limits of metric and inch drawings; a value on the limit is inside, one
// beyond it by a billionth is not.
func TestRulesPlainly(t *testing.T) {
	for _, rule := range []standards.Rule{standards.Maximum, standards.SixteenPercent, standards.Median} {
		for n := range 27 {
			for outside := range n + 1 {
				for _, limit := range []float64{0.8, 1.6002} {
					for _, beyond := range []float64{1e-9, 0.3} {
						for _, side := range []standards.Side{standards.Upper, standards.Lower} {
							sign := []float64{1, -1}[side]
							values := series(n, outside, limit*(1+sign*beyond), limit)
							j := decide.Judgement{Bound: standards.Bound{Symbol: "Rz", Side: side, Value: limit}, Rule: rule}
							v, err := j.Judge(values)
							word, more := plainly(rule, n, outside)
							if err != nil || v.Word != word || v.More != more || v.N != n {
								t.Fatalf("%s, %d of %d outside the %s limit %g: %q, %d more, %v; want %q, %d", rule, outside, n, side, limit, v.Word, v.More, err, word, more)
							}
						}
					}
				}
			}
		}
	}
}

// Guard bands: what is proven by the same rules at the two moved limits, one of which a value may not reach.
func TestGuardedPlainly(t *testing.T) {
	for _, side := range []standards.Side{standards.Upper, standards.Lower} {
		sign := []float64{1, -1}[side]
		for _, c := range []struct {
			at   float64 // in bands beyond the limit
			word decide.Word
		}{{-2, decide.Conforms}, {-1, decide.Conforms}, {-0.999, decide.NotDecided}, {0, decide.NotDecided}, {0.999, decide.NotDecided}, {1, decide.DoesNotConform}, {1.001, decide.DoesNotConform}} {
			for _, rule := range []standards.Rule{standards.Maximum, standards.Median} {
				j := decide.Judgement{Bound: standards.Bound{Symbol: "Rz", Side: side, Value: 4}, Rule: rule, Guard: decide.Guard{Rule: decide.ExpandedU, Expanded: 0.25}}
				v, err := j.Judge(series(3, 3, 4+0.25*sign*c.at, 0))
				if err != nil || v.Word != c.word || v.Accept != 4-0.25*sign || v.Reject != 4+0.25*sign {
					t.Errorf("%s, %s limit, %g bands beyond: %q from %g to %g, %v", rule, side, c.at, v.Word, v.Accept, v.Reject, err)
				}
			}
		}
	}
}

// The uncertainty that stands for another: U = k u.
func TestGuardUncertainties(t *testing.T) {
	nan, inf := math.NaN(), math.Inf(1)
	for _, c := range []struct {
		g    decide.Guard
		u, U float64 // NaN: refused
	}{
		{decide.Guard{Standard: 0.5}, 0.5, 1}, {decide.Guard{Expanded: 0.5}, 0.25, 0.5}, {decide.Guard{Expanded: 0.5, K: 0.5}, 1, 0.5}, {decide.Guard{Standard: 0.5, K: 3}, 0.5, 1.5},
		{decide.Guard{Standard: 0.5, Expanded: 0.75}, 0.5, 0.75}, {decide.Guard{}, 0, 0}, {decide.Guard{Expanded: 1, K: 1}, 1, 1},
		{decide.Guard{Standard: -0.5}, nan, nan}, {decide.Guard{Expanded: -0.5}, nan, nan}, {decide.Guard{Expanded: 0.5, Standard: -1}, nan, nan}, {decide.Guard{Standard: 1, Expanded: -0.5}, nan, nan},
		{decide.Guard{Standard: inf}, nan, nan}, {decide.Guard{Expanded: inf}, nan, nan}, {decide.Guard{Standard: 1, Expanded: inf}, nan, nan}, {decide.Guard{Standard: inf, Expanded: 1}, nan, nan},
		{decide.Guard{Standard: nan}, nan, nan}, {decide.Guard{Expanded: nan}, nan, nan}, {decide.Guard{Expanded: 1, K: -2}, nan, nan}, {decide.Guard{Standard: 1, Expanded: 1, K: -2}, nan, nan}, {decide.Guard{Standard: 1, Expanded: 1, K: nan}, nan, nan},
	} {
		c.g.Rule = decide.ExpandedU
		accept, _, err := c.g.Bands(0)
		if math.IsNaN(c.U) {
			if !errors.Is(err, decide.ErrUncertainty) {
				t.Errorf("%+v: %v, %v", c.g, accept, err)
			}
			continue
		}
		if err != nil || accept != c.U {
			t.Errorf("%+v: U is %v, %v; want %v", c.g, accept, err, c.U)
		}
		c.g.Rule = decide.Probability
		accept, reject, err := c.g.Bands(0)
		if want := 1.6448536269514722 * c.u; err != nil || math.Abs(accept-want) > 1e-12 || accept != reject { // Φ⁻¹(0.95)
			t.Errorf("%+v: g is %v, %v; want %v", c.g, accept, err, want)
		}
	}
	// Two limits exactly two U apart leave one value that proves conformity; closer ones leave none.
	for tolerance, accept := range map[float64]float64{0.4: 0.2, 0.3999: inf, 0.41: 0.2} {
		got, reject, err := decide.Guard{Rule: decide.ExpandedU, Expanded: 0.2}.Bands(tolerance)
		if err != nil || got != accept || reject != 0.2 {
			t.Errorf("limits %g apart: %v, %v, %v", tolerance, got, reject, err)
		}
	}
	for _, chance := range []float64{-1, 0.5, 1, 2, nan} {
		if _, _, err := (decide.Guard{Rule: decide.Probability, Standard: 0.1, Chance: chance}).Bands(0); err == nil {
			t.Errorf("a chance of %g passes", chance)
		}
	}
}

// What cannot be a number is refused with its place, from 1.
func TestPlacesOfValues(t *testing.T) {
	for _, bad := range []float64{math.NaN(), math.Inf(1), math.Inf(-1)} {
		for at := range 4 {
			values := []float64{1, 1.1, 1.2, 1.3}
			values[at] = bad
			place := fmt.Sprintf("value %d is %g", at+1, bad)
			_, capability := decide.CapabilityOf(values, standards.Bound{Symbol: "Rz", Value: 3})
			_, ruling := decide.Judgement{Bound: standards.Bound{Symbol: "Rz", Value: 3}, Rule: standards.Maximum}.Judge(values)
			_, nested := decide.SplitNested([][]float64{{1, 1.1, 1.2, 1.3}, values})
			study := [][][]float64{{{1, 2}, {1, 3}}, {{1.5, 2}, {2, 2.5}}}
			study[1][at/2][at%2] = bad
			_, gage := decide.StudyGage(study)
			for name, err := range map[string]error{"capability": capability, "ruling": ruling} {
				if err == nil || !strings.Contains(err.Error(), place) {
					t.Errorf("%s: %v, want %s", name, err, place)
				}
			}
			var wrong *decide.ValueError
			if !errors.As(gage, &wrong) || wrong.Index != 4+at {
				t.Errorf("gage study: %v, want the place %d", gage, 4+at)
			}
			if wrong = nil; !errors.As(nested, &wrong) || wrong.Index != 1 {
				t.Errorf("places: %v, want the second one", nested)
			}
		}
	}
	for _, c := range []struct {
		study [][][]float64
		says  string
	}{
		{[][][]float64{{{1, 2}, {1, 3}}, {{1, 2}}}, "part 2 has 1 operators, not 2"},
		{[][][]float64{{{1, 2}, {1, 3}}, {{1, 2}, {2, 3}}, {{1, 2}, {2, 3}, {2, 3}}}, "part 3 has 3 operators, not 2"},
		{[][][]float64{{{1, 2}, {1}}, {{1, 2}, {2, 3}}}, "part 1, operator 2 has 1 repeats, not 2"},
		{[][][]float64{{{1, 2}, {1, 3}}, {{1, 2, 3}, {2, 3}}}, "part 2, operator 1 has 3 repeats, not 2"},
	} {
		if _, err := decide.StudyGage(c.study); err == nil || !strings.Contains(err.Error(), c.says) {
			t.Errorf("%v, want %s", err, c.says)
		}
	}
	for _, v := range []float64{math.NaN(), math.Inf(1), math.Inf(-1), -1e-300} {
		e, _ := standards.EditionByID("iso-4287")
		if _, err := decide.FindCutoff(e, "Ra", 1, func(float64) (float64, error) { return v, nil }); err == nil || !strings.Contains(err.Error(), fmt.Sprintf("gave %g", v)) {
			t.Errorf("a measured value of %g: %v", v, err)
		}
	}
	for _, c := range []decide.Contribution{{U: 1, Sensitivity: math.NaN()}, {U: 1, Sensitivity: math.Inf(-1)}, {U: math.Inf(1), Sensitivity: 1}, {U: 1, Sensitivity: 1, DoF: -1}, {U: 1, Sensitivity: 1, DoF: 0.999}, {U: 1, Sensitivity: 1, DoF: math.NaN()}} {
		if _, err := (decide.Budget{Contributions: []decide.Contribution{c}}).Combine(); !errors.Is(err, decide.ErrBudget) {
			t.Errorf("%+v: %v", c, err)
		}
	}
	line := decide.Contribution{U: 1, Sensitivity: 1}
	for _, c := range []struct {
		r  decide.Correlation
		ok bool
	}{{decide.Correlation{A: 0, B: 1, R: 1}, true}, {decide.Correlation{A: 1, B: 0, R: -1}, true}, {decide.Correlation{A: -1, B: 1, R: 0.5}, false}, {decide.Correlation{A: 0, B: -1, R: 0.5}, false}, {decide.Correlation{A: 2, B: 1, R: 0.5}, false},
		{decide.Correlation{A: 0, B: 2, R: 0.5}, false}, {decide.Correlation{A: 1, B: 1, R: 0.5}, false}, {decide.Correlation{A: 0, B: 1, R: 1.0001}, false}, {decide.Correlation{A: 0, B: 1, R: -1.0001}, false}, {decide.Correlation{A: 0, B: 1, R: math.NaN()}, false}} {
		got, err := decide.Budget{Contributions: []decide.Contribution{line, line}, Correlations: []decide.Correlation{c.r}}.Combine()
		if (err == nil) != c.ok || c.ok && math.Abs(got.Standard-(1+c.r.R)) > 1e-15 { // u² = 1 + 1 + 2 r, at r = ±1
			t.Errorf("%+v: %+v, %v", c.r, got, err)
		}
	}
	for _, bad := range [][2]float64{{math.Inf(1), 1}, {1, math.NaN()}, {-1, 0}, {1, math.Inf(1)}, {1, 1}, {1, 1.5}} {
		if v, err := decide.WithoutNoise("Rq", bad[0], bad[1]); err == nil {
			t.Errorf("%v without noise of %v: %v", bad[0], bad[1], v)
		}
	}
	if v, err := decide.WithoutNoise("Wq", 1, 0); err != nil || v != 1 {
		t.Errorf("without noise: %v, %v", v, err)
	}
}
