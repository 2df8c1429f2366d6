package decide

import (
	"errors"
	"fmt"
	"math"
	"slices"

	"example.com/furrow/standards"
)

// Word is the outcome of a judgement: one of four.
type Word string

// The four words.
const (
	Conforms       Word = "Conforms"
	DoesNotConform Word = "Does not conform"
	NotDecided     Word = "Not decided"    // the value lies in the guard band of its uncertainty: neither is proven
	NoVerdict      Word = "No verdict yet" // something is missing or open
)

// Whole is the one word for several limits: the first of Does not conform, No verdict yet and Not decided that holds for any of
// them, and Conforms only when every limit conforms. Without a limit there is no verdict.
func Whole(words ...Word) Word {
	for _, w := range []Word{DoesNotConform, NoVerdict, NotDecided} {
		if slices.Contains(words, w) {
			return w
		}
	}
	if len(words) == 0 {
		return NoVerdict
	}
	return Conforms
}

// A Judgement holds measured values against one limit. One value is the parameter over one evaluation length.
type Judgement struct {
	standards.Bound
	Tolerance float64 // distance to the other limit of the same parameter; 0 when there is one limit
	Rule      standards.Rule
	Spread    bool   // the 16 % rule by mean and standard deviation instead of by counting
	Sections  int    // sections behind each value, for Spread; 0 is five
	Guard     Guard  // how the uncertainty counts
	Text      string // the limit as the drawing writes it, in Unit; empty: its own number
	Unit      string // that the drawing writes; empty: that of the parameter, micrometres for a length
	Each      string // what one value comes from, for the words: "trace"; empty: "value"
	Positive  bool   // no value can be below 0: where the guard band reaches below 0, no value can prove conformity to an upper limit

	tooWide bool // it does
}

// A Ruling is the outcome with all that led to it. A value up to Accept proves that the surface conforms, one from Reject on
// that it does not (turned round for a lower limit), and between them nothing is proven.
type Ruling struct {
	standards.Bound
	Word     Word
	N        int     // values that count
	More     int     // further values that the rule needs; 0 unless the word is No verdict yet
	Accept   float64 // the limit less the guard band; NaN when no value can prove conformity
	Reject   float64 // the limit plus the guard band
	Quantity string  // what was compared: "largest value", "median", "values above" ...
	Value    float64 // of that quantity; NaN when there is none
	Sentence string
	Log      []string
}

// ErrBounds says that the limit cannot be judged by.
var ErrBounds = errors.New("decide: a limit must be a number, and its distance to another limit 0 or more")

// A ValueError says which value cannot be judged.
type ValueError struct {
	Index int // from 0
	Value float64
}

// Error returns the place of the value.
func (e *ValueError) Error() string {
	return fmt.Sprintf("decide: value %d is %g and cannot be judged", e.Index+1, e.Value)
}

// Judge returns the verdict on the values. All of them count, and their order never matters. It decides on the numbers as they
// are, never on rounded ones; a value equal to the limit does not exceed it, and two numbers closer than 1e-12 of the limit are
// equal.
//
// With a guard band the same rule is applied twice: to the limit moved inwards, which proves conformity when it passes, and
// to the limit moved outwards, which proves the opposite when it fails.
func (j Judgement) Judge(values []float64) (Ruling, error) {
	if err := j.check(values); err != nil {
		return Ruling{}, err
	}
	accept, reject, err := j.Guard.Bands(j.Tolerance)
	if err != nil {
		return Ruling{}, err
	}
	sorted := slices.Clone(values) // so that not even rounding depends on the order
	slices.Sort(sorted)
	in := test{Bound: j.Bound, shift: accept}
	out := test{Bound: j.Bound, shift: -reject, strict: reject > 0}
	if j.Positive && j.Side == standards.Upper && in.edge() < 0 {
		in.shift, j.tooWide = math.Inf(1), true
	}
	v := Ruling{Bound: j.Bound, N: len(values), Accept: in.edge(), Reject: out.edge()}
	pass, fail := j.run(in, sorted), j.run(out, sorted)
	if math.IsInf(in.shift, 1) {
		v.Accept = math.NaN()
		pass = outcome{state: failed}
	}
	switch {
	case pass.state == passed:
		v.Word = Conforms
	case fail.state == failed:
		v.Word = DoesNotConform
	case len(values) == 0:
		v.Word, v.More = NoVerdict, max(pass.more, fail.more)
	case pass.state == open:
		v.Word, v.More = NoVerdict, pass.more
	case fail.state == open:
		v.Word, v.More = NoVerdict, fail.more
	default:
		v.Word = NotDecided
	}
	j.say(&v, in, out, sorted)
	return v, nil
}

func (j Judgement) check(values []float64) error {
	if !finite(j.Value) || !(j.Tolerance >= 0) {
		return ErrBounds
	}
	for i, x := range values {
		if !finite(x) {
			return &ValueError{i, x}
		}
	}
	if j.Rule != standards.Maximum && j.Rule != standards.SixteenPercent && j.Rule != standards.Median {
		return fmt.Errorf("decide: no acceptance rule %q", j.Rule)
	}
	return nil
}

func finite(v float64) bool { return !math.IsNaN(v) && !math.IsInf(v, 0) }

// run applies the rule once, to values in rising order.
func (j Judgement) run(t test, sorted []float64) outcome {
	switch {
	case j.Rule == standards.Median:
		return t.middle(sorted)
	case j.Rule == standards.SixteenPercent && j.Spread:
		return t.meanAndSpread(sorted, j.Sections)
	case j.Rule == standards.SixteenPercent:
		return t.sixteen(sorted)
	}
	return t.maximum(sorted)
}
