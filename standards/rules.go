package standards

import (
	"fmt"
	"math"
	"slices"
)

// outcome is how far one pass of a rule came.
type outcome struct {
	state    state
	more     int    // further values needed at least
	quantity string // what was held against the limit
	value    float64
	steps    []Step
}

type state uint8

const (
	open state = iota
	passed
	failed
)

// A Step is one line of the log: after how many values, and what was found.
type Step struct {
	N    int
	Text string
}

// test is a bound moved by a guard band: what a value is held against in one pass of a rule.
type test struct {
	bound  Bound
	shift  float64
	strict bool // a value on the moved bound is outside
	unit   string
}

func (t test) outside(v float64) bool { return t.bound.outside(v, t.shift, t.strict) }

// edge is the moved bound.
func (t test) edge() float64 {
	if t.bound.Side == Lower {
		return t.bound.Value + t.shift
	}
	return t.bound.Value - t.shift
}

// beyond words what being outside is.
func (t test) beyond() string {
	if t.bound.Side == Lower {
		return "below"
	}
	return "above"
}

// say prints a value so that it stands on the same side of the edge as the number itself does.
func (t test) say(v float64) string { return besides(v, t.edge()) + t.unit }

func (t test) sayEdge() string { return besides(t.edge(), t.edge()) + t.unit }

// maximum: no value may be outside.
func (t test) maximum(values []float64) outcome {
	if len(values) == 0 {
		return outcome{more: 1, value: math.NaN()}
	}
	worst := values[0]
	for i, v := range values {
		if (t.bound.Side == Upper && v > worst) || (t.bound.Side == Lower && v < worst) {
			worst = v
		}
		if t.outside(v) {
			return outcome{state: failed, quantity: ordinal(i+1) + " value", value: v, steps: []Step{{i + 1,
				fmt.Sprintf("The %s value, %s, is %s %s; no value may be.", ordinal(i+1), t.say(v), t.beyond(), t.sayEdge())}}}
		}
	}
	name := "largest value"
	if t.bound.Side == Lower {
		name = "smallest value"
	}
	text := fmt.Sprintf("The %s of %d, %s, is not %s %s.", name, len(values), t.say(worst), t.beyond(), t.sayEdge())
	if len(values) == 1 {
		name = "value"
		text = fmt.Sprintf("The value %s is not %s %s.", t.say(worst), t.beyond(), t.sayEdge())
	}
	if len(values) < 3 {
		text += " Three traces, where the surface looks worst, are usual."
	}
	return outcome{state: passed, quantity: name, value: worst, steps: []Step{{len(values), text}}}
}

// The plan of ISO 4288:1996, Annex A (informative; the steps were seen, the wording is remembered).
var plan = []struct{ values, allowed int }{{3, 0}, {6, 1}, {12, 2}}

// firstShare is the share of an upper limit that the first value must keep to end the plan at once. There is no such
// step for a lower limit.
const firstShare = 0.7

// sequential is the 16 % rule by its plan of 1, 3, 6 and 12 values.
func (t test) sequential(values []float64) outcome {
	o := outcome{quantity: "values " + t.beyond(), more: 1}
	log := func(n int, format string, args ...any) {
		o.steps = append(o.steps, Step{n, fmt.Sprintf(format, args...)})
	}
	over := 0
	for i, v := range values {
		n := i + 1
		out := t.outside(v)
		if out {
			over++
			log(n, "The %s value, %s, is %s %s: %s so far.", ordinal(n), t.say(v), t.beyond(), t.sayEdge(), inWords(over))
		}
		o.value = float64(over)
		if n == 1 && t.bound.Side == Upper {
			small := test{bound: Bound{t.bound.Symbol, Upper, firstShare * t.edge()}, unit: t.unit}
			if !small.outside(v) {
				log(n, "The first value, %s, is at most 70 %% of the limit, %s: accepted.", small.say(v), small.sayEdge())
				return o.end(passed)
			}
			if !out {
				log(n, "The first value, %s, is above 70 %% of the limit, %s: three values are needed.", small.say(v), small.sayEdge())
			}
		}
		if over > plan[len(plan)-1].allowed {
			log(n, "A third value %s the limit: twelve values may hold two at most, so the end is certain.", t.beyond())
			return o.end(failed)
		}
		for _, p := range plan {
			if n == p.values && over <= p.allowed {
				log(n, "Of the first %s values, %s %s; %s allowed: accepted.", inWordsTo12(n), noneIs(over), t.beyond(), noneIs(p.allowed))
				return o.end(passed)
			}
		}
	}
	n := len(values)
	for _, p := range plan {
		if n < p.values && over <= p.allowed {
			o.more = p.values - n
			break
		}
	}
	if n == 0 {
		o.more = 1
		return o
	}
	log(n, "After %d, %s %s: %d more needed.", n, noneIs(over), t.beyond(), o.more)
	return o
}

// end closes an outcome.
func (o outcome) end(s state) outcome {
	o.state, o.more = s, 0
	return o
}

// meanAndSpread is the 16 % rule for normal values: mean plus standard deviation for an upper limit, minus for a lower.
// With another number of sections than five behind each value, s is converted: σ5 = σn √(n/5) (ISO 4288:1996, remembered).
func (t test) meanAndSpread(values []float64, sections int) outcome {
	sign, name := "+", "mean plus standard deviation"
	if t.bound.Side == Lower {
		sign, name = "−", "mean less standard deviation"
	}
	if len(values) < 2 {
		return outcome{more: 2 - len(values), quantity: name, value: math.NaN(),
			steps: []Step{{len(values), "Mean and standard deviation need two values at least."}}}
	}
	m, s := meanOf(values), sampleDeviation(values)
	conversion := ""
	if sections > 0 && sections != 5 {
		was := s
		s = SigmaFive(s, sections)
		conversion = fmt.Sprintf(" The standard deviation %s of values over %s sections counts as %s over five.", digits6(was), inWords(sections), digits6(s))
	}
	v := m + s
	if t.bound.Side == Lower {
		v = m - s
	}
	o := outcome{quantity: name, value: v, state: passed}
	verb := "is not"
	if t.outside(v) {
		o.state, verb = failed, "is"
	}
	o.steps = []Step{{len(values), fmt.Sprintf("Mean %s %s standard deviation %s gives %s, which %s %s %s.%s",
		digits6(m), sign, digits6(s), t.say(v), verb, t.beyond(), t.sayEdge(), conversion)}}
	return o
}

// SigmaFive converts the standard deviation of values that are means over n sections to that of values over five.
//
//	σ5 = σn · √(n/5)
//
// Source: ISO 4288:1996, 4.4 (memory).
func SigmaFive(sigma float64, n int) float64 { return sigma * math.Sqrt(float64(n)/5) }

// middle: the median of at least three values.
func (t test) middle(values []float64) outcome {
	if len(values) < 3 {
		return outcome{more: 3 - len(values), quantity: "median", value: math.NaN(), steps: []Step{{len(values),
			fmt.Sprintf("The median needs three values at least: %d more.", 3-len(values))}}}
	}
	v := median(values)
	o := outcome{quantity: "median", value: v, state: passed}
	verb := "is not"
	if t.outside(v) {
		o.state, verb = failed, "is"
	}
	o.steps = []Step{{len(values), fmt.Sprintf("The median of %d values, %s, %s %s %s; single values may be.",
		len(values), t.say(v), verb, t.beyond(), t.sayEdge())}}
	return o
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
	return s[n/2-1] + (s[n/2]-s[n/2-1])/2
}

func ordinal(n int) string {
	suffix := "th"
	if n%100 < 11 || n%100 > 13 {
		switch n % 10 {
		case 1:
			suffix = "st"
		case 2:
			suffix = "nd"
		case 3:
			suffix = "rd"
		}
	}
	return fmt.Sprint(n) + suffix
}

// noneIs says how many there are, with the verb: "none is", "one is", "two are".
func noneIs(n int) string {
	switch n {
	case 0:
		return "none is"
	case 1:
		return "one is"
	}
	return inWords(n) + " are"
}

func inWordsTo12(n int) string {
	if n == 12 {
		return "twelve"
	}
	return inWords(n)
}
