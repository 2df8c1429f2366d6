package decide

import (
	"math"
	"slices"

	"example.com/furrow/standards"
)

// outcome is how far one application of a rule came.
type outcome struct {
	state state
	more  int // further values needed, while open
}

type state uint8

const (
	open state = iota
	passed
	failed
)

// test is a bound moved by a guard band: what a value is held against.
type test struct {
	standards.Bound
	shift  float64
	strict bool // a value on the moved bound is outside
}

// closeEnough is the share of the limit within which two numbers count as equal: decimal fractions are not exact in
// binary, and a value equal to the limit does not exceed it.
const closeEnough = 1e-12

// outside tells whether v lies beyond the bound moved by shift towards the inside (negative: towards the outside).
// A value equal to the moved bound is inside, unless strict asks it to be outside.
func (t test) outside(v float64) bool {
	d := v - t.edge()
	if t.Side == standards.Lower {
		d = -d
	}
	tol := closeEnough * math.Abs(t.Value)
	if t.strict {
		return d >= -tol
	}
	return d > tol
}

// edge is the moved bound.
func (t test) edge() float64 {
	if t.Side == standards.Lower {
		return t.Value + t.shift
	}
	return t.Value - t.shift
}

// count returns how many values are outside.
func (t test) count(values []float64) int {
	n := 0
	for _, v := range values {
		if t.outside(v) {
			n++
		}
	}
	return n
}

// worst is the value nearest to the limit or farthest beyond it.
func (t test) worst(sorted []float64) float64 {
	if len(sorted) == 0 {
		return math.NaN()
	}
	if t.Side == standards.Lower {
		return sorted[0]
	}
	return sorted[len(sorted)-1]
}

// decided is the outcome of a single comparison.
func (t test) decided(v float64) outcome {
	if t.outside(v) {
		return outcome{state: failed}
	}
	return outcome{state: passed}
}

// maximum: no value may be outside.
func (t test) maximum(sorted []float64) outcome {
	if len(sorted) == 0 {
		return outcome{more: 1}
	}
	return t.decided(t.worst(sorted))
}

// The steps of ISO 4288:1996, Annex A (informative; the steps were seen, the wording is remembered): so many values, of which so
// many may be outside.
var plan = []struct{ values, allowed int }{{3, 0}, {6, 1}, {12, 2}}

// firstShare is the share of an upper limit that one or two values must keep when there are no more. There is no such step
// for a lower limit.
const firstShare = 0.7

// small is the bound of that step; ok is false where there is none.
func (t test) small() (s test, ok bool) {
	edge := t.edge()
	return test{Bound: standards.Bound{Symbol: t.Symbol, Side: standards.Upper, Value: firstShare * edge}}, t.Side == standards.Upper && edge > 0
}

// sixteen is the 16 % rule by counting: all values count, whatever their order.
func (t test) sixteen(sorted []float64) outcome {
	n, a := len(sorted), t.count(sorted)
	if s, ok := t.small(); ok && (n == 1 || n == 2) && !s.outside(t.worst(sorted)) {
		return outcome{state: passed}
	}
	allowed := sixteenAllows(n)
	switch {
	case n >= 3 && a <= allowed:
		return outcome{state: passed}
	case n > 12 || a > plan[len(plan)-1].allowed:
		return outcome{state: failed}
	}
	for _, step := range plan {
		if n < step.values && a <= step.allowed {
			return outcome{more: step.values - n}
		}
	}
	return outcome{state: failed} // not reached: twelve values with two outside pass
}

// sixteenAllows returns how many of n values may be outside: by the steps up to twelve values, 16 % beyond.
func sixteenAllows(n int) int {
	if n > 12 {
		return 4 * n / 25
	}
	allowed := 0
	for _, step := range plan {
		if n >= step.values {
			allowed = step.allowed
		}
	}
	return allowed
}

// meanAndSpread is the 16 % rule for normal values: mean plus standard deviation for an upper limit, minus for a lower.
func (t test) meanAndSpread(sorted []float64, sections int) outcome {
	if len(sorted) < 2 {
		return outcome{more: 2 - len(sorted)}
	}
	return t.decided(t.spread(sorted, sections))
}

// spread is mean plus or minus standard deviation. With another number of sections than five behind each value, s is
// converted: σ5 = σn √(n/5) (ISO 4288:1996, remembered).
func (t test) spread(sorted []float64, sections int) float64 {
	m, s := meanOf(sorted), sampleDeviation(sorted)
	if sections > 0 && sections != 5 {
		s = SigmaFive(s, sections)
	}
	if t.Side == standards.Lower {
		return m - s
	}
	return m + s
}

// SigmaFive converts the standard deviation of values that are means over n sections to that of values over five.
//
//	σ5 = σn · √(n/5)
//
// Source: ISO 4288:1996, 4.4 (memory).
func SigmaFive(sigma float64, n int) float64 { return sigma * math.Sqrt(float64(n)/5) }

// middle: the median of at least three values.
func (t test) middle(sorted []float64) outcome {
	if n := len(sorted); n < 3 {
		return outcome{more: 3 - n}
	}
	return t.decided(median(sorted))
}

// median of any number of values; the mean of the two in the middle when they are even.
func median(values []float64) float64 {
	s := slices.Clone(values)
	slices.Sort(s)
	n := len(s)
	if n == 0 {
		return math.NaN()
	}
	if n%2 == 1 {
		return s[n/2]
	}
	return s[n/2-1] + float64((s[n/2]-s[n/2-1])/2)
}
