package standards

import (
	"errors"
	"fmt"
	"math"
)

// Word is the outcome of a judgement: one of three.
type Word string

// The three words.
const (
	Conforms       Word = "Conforms"
	NotDecided     Word = "Not decided"
	DoesNotConform Word = "Does not conform"
)

// A Judgement holds measured values against one limit or two. One value is the parameter over one evaluation length.
type Judgement struct {
	Bounds   []Bound // one limit, or an upper and a lower one of the same parameter
	Rule     Rule
	Spread   bool   // the 16 % rule by mean and standard deviation instead of its plan of 1, 3, 6 and 12 values
	Sections int    // sections behind each value; 0 is five
	Guard    Guard  // how the uncertainty counts
	Unit     string // for the words; empty: that of the parameter, micrometres for a length
}

// A Verdict is the outcome with all that led to it.
type Verdict struct {
	Word     Word
	More     int // further values needed at least; 0 when none would change the outcome
	Sentence string
	Log      []Step
	Zones    []Zone
}

// A Zone is one limit with what was held against it: a value up to Accept proves that the surface conforms, one from
// Reject on that it does not (turned round for a lower limit), and between them nothing is proven.
type Zone struct {
	Bound
	Accept   float64 // the limit less the guard band; NaN when no value can prove conformity
	Reject   float64 // the limit plus the guard band
	Quantity string  // what was compared: "largest value", "median", "values above" ...
	Value    float64 // of that quantity
	Word     Word
}

// ErrBounds says that the limits cannot be judged by.
var ErrBounds = errors.New("standards: one limit, or an upper above a lower of the same parameter, is needed")

// A ValueError says which value cannot be judged.
type ValueError struct {
	Index int // from 0
	Value float64
}

// Error returns the place of the value.
func (e *ValueError) Error() string {
	return fmt.Sprintf("standards: value %d is %g and cannot be judged", e.Index+1, e.Value)
}

// Judge returns the verdict on the values, in the order they were measured. It decides on the numbers as they are,
// never on rounded ones; a value equal to the limit does not exceed it, and two numbers closer than 1e-12 of the limit
// are equal.
//
// With a guard band, the same rule is applied twice: to the limits moved inwards, which proves conformity when it
// passes, and to the limits moved outwards, which proves the opposite when it fails.
func (j Judgement) Judge(values []float64) (Verdict, error) {
	if err := j.check(values); err != nil {
		return Verdict{}, err
	}
	tolerance := 0.0
	if len(j.Bounds) == 2 {
		tolerance = math.Abs(j.Bounds[0].Value - j.Bounds[1].Value)
	}
	accept, reject, err := j.Guard.Bands(tolerance)
	if err != nil {
		return Verdict{}, err
	}
	v := Verdict{Word: Conforms}
	for _, b := range j.Bounds {
		z, more, log := j.one(b, accept, reject, values)
		v.Zones = append(v.Zones, z)
		v.Log = append(v.Log, log...)
		switch {
		case z.Word == DoesNotConform:
			v.Word = DoesNotConform
		case z.Word == NotDecided && v.Word != DoesNotConform:
			v.Word = NotDecided
		}
		if more > v.More {
			v.More = more
		}
	}
	if v.Word != NotDecided {
		v.More = 0
	}
	v.Sentence = j.sentence(v)
	return v, nil
}

func (j Judgement) check(values []float64) error {
	switch len(j.Bounds) {
	case 1:
	case 2:
		a, b := j.Bounds[0], j.Bounds[1]
		if a.Side == Lower {
			a, b = b, a
		}
		if a.Side != Upper || b.Side != Lower || a.Symbol != b.Symbol || !(a.Value >= b.Value) {
			return ErrBounds
		}
	default:
		return ErrBounds
	}
	for _, b := range j.Bounds {
		if math.IsNaN(b.Value) || math.IsInf(b.Value, 0) {
			return ErrBounds
		}
	}
	for i, x := range values {
		if math.IsNaN(x) || math.IsInf(x, 0) {
			return &ValueError{i, x}
		}
	}
	if j.Rule != Maximum && j.Rule != SixteenPercent && j.Rule != Median {
		return fmt.Errorf("standards: no acceptance rule %q", j.Rule)
	}
	return nil
}

// one judges by one bound.
func (j Judgement) one(b Bound, accept, reject float64, values []float64) (Zone, int, []Step) {
	in := test{bound: b, shift: accept, unit: j.unit()}
	out := test{bound: b, shift: -reject, strict: reject > 0, unit: j.unit()}
	z := Zone{Bound: b, Accept: in.edge(), Reject: out.edge(), Word: NotDecided}
	var log []Step
	if accept > 0 || reject > 0 {
		log = append(log, Step{0, j.guardWords(in, out, accept)})
	}
	if math.IsInf(accept, 1) {
		z.Accept = math.NaN()
	}
	pass, fail := j.run(in, values), j.run(out, values)
	z.Quantity, z.Value = pass.quantity, pass.value
	switch {
	case pass.state == passed && !math.IsInf(accept, 1):
		z.Word = Conforms
		return z, 0, append(log, pass.steps...)
	case fail.state == failed:
		z.Word = DoesNotConform
		z.Quantity, z.Value = fail.quantity, fail.value
		return z, 0, append(log, fail.steps...)
	case len(values) == 0:
		return z, pass.more, append(log, Step{0, "No value yet."})
	case pass.state == open && !math.IsInf(accept, 1):
		return z, pass.more, append(log, pass.steps...)
	}
	if !math.IsInf(accept, 1) {
		log = append(log, pass.steps...)
	}
	more := 0
	if fail.state == open {
		more = fail.more
		log = append(log, fail.steps...)
	}
	return z, more, append(log, Step{len(values), "Inside the zone of the uncertainty nothing is proven, neither the one nor the other."})
}

// run applies the rule once.
func (j Judgement) run(t test, values []float64) outcome {
	switch {
	case j.Rule == Median:
		return t.middle(values)
	case j.Rule == SixteenPercent && j.Spread:
		return t.meanAndSpread(values, j.Sections)
	case j.Rule == SixteenPercent:
		return t.sequential(values)
	}
	return t.maximum(values)
}

// unit is that of the words, with a blank before it: the one given, or that of the parameter.
func (j Judgement) unit() string {
	if j.Unit != "" {
		return " " + j.Unit
	}
	switch rowOf(j.Bounds[0].Symbol).quantity {
	case number:
		return ""
	case ratio:
		return " %"
	case count:
		return " /cm"
	}
	return " µm"
}

// guardWords says what the uncertainty does to the limit.
func (j Judgement) guardWords(in, out test, accept float64) string {
	rule := "ISO 14253-1:2017, 95 %"
	switch {
	case j.Guard.Rule == ExpandedU:
		rule = "ISO 14253-1:1998, expanded uncertainty"
	case j.Guard.chance() != 0.95:
		rule = fmt.Sprintf("ISO 14253-1:2017, %s %%", digits6(100*j.Guard.chance()))
	}
	inside, outside := "at most", "from"
	if in.bound.Side == Lower {
		inside, outside = "at least", "down from"
	}
	if math.IsInf(accept, 1) {
		return fmt.Sprintf("Guard band (%s): the two limits are too close for this uncertainty; no value can prove that the surface conforms.", rule)
	}
	return fmt.Sprintf("Guard band (%s): %s %s proves that the surface conforms, %s %s that it does not; the limit is %s.",
		rule, inside, digits6(in.edge())+in.unit, outside, digits6(out.edge())+out.unit, digits6(in.bound.Value)+in.unit)
}

// sentence says the outcome in one sentence, with what follows for who has to prove.
func (j Judgement) sentence(v Verdict) string {
	switch {
	case v.Word == Conforms:
		return "The surface conforms to " + j.boundWords() + "."
	case v.Word == DoesNotConform:
		return "The surface does not conform to " + j.boundWords() + "."
	case v.More > 0:
		more := capital(inWords(v.More)) + " more values are needed."
		if v.More == 1 {
			more = "One more value is needed."
		}
		return more
	}
	text := "The value lies too near the limit for its uncertainty: neither is proven."
	switch j.Guard.Proof {
	case Maker:
		text += " The maker has to prove that the surface conforms, and has not."
	case Buyer:
		text += " The buyer has to prove that the surface does not conform, and has not."
	}
	return text
}

func (j Judgement) boundWords() string {
	b := j.Bounds[0]
	words := b.Symbol
	if words == "" {
		words = "the value"
	}
	for i, b := range j.Bounds {
		if i > 0 {
			words += " and"
		}
		words += map[Side]string{Upper: " at most ", Lower: " at least "}[b.Side] + digits6(b.Value) + j.unit()
	}
	return words
}
