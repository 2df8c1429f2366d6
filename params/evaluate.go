package params

import (
	"math"
	"strconv"
	"strings"

	"example.com/furrow/standards"
)

// Input is one profile ready for evaluation, as every parameter sees it.
type Input struct {
	// Z holds the heights over the evaluation length, measured from the reference line, positive out of the
	// material. No parameter subtracts a further mean. All values are finite.
	Z []float64
	// Dx is the spacing, in the length unit of Z.
	Dx float64
	// Section is the number of points in a section; section k is Z[k*Section:(k+1)*Section]. 0 means all of Z.
	Section int
	// Lead and Tail hold up to three heights of the same profile just before and just after Z, where there are any:
	// the gradients at the ends use them.
	Lead, Tail []float64
	// Flat is the height up to which Rq counts as zero: the caller sets it to 1e-12 of the largest absolute height
	// read, so that the rounding of a constant trace has no shape. 0 means only an exactly constant profile is flat. By the same
	// measure heights are equal to a level: what a filter leaves of heights that are all at the level decides neither a material
	// ratio nor a count nor a crossing.
	Flat float64
	// Choices are the switches where the text of a standard leaves room; the zero value is the default of each.
	Choices Choices
}

// fault says what is wrong with the input, "" when nothing. No parameter has a value on a faulty one.
func (in *Input) fault() string {
	if in == nil {
		return reasonEmpty
	}
	if !(in.Dx > 0) || math.IsInf(in.Dx, 0) {
		return "the spacing " + strconv.FormatFloat(in.Dx, 'g', -1, 64) + " is not a length above 0"
	}
	for _, part := range []struct {
		z     []float64
		where string
	}{{in.Z, "the height"}, {in.Lead, "before the first height, the height"}, {in.Tail, "behind the last height, the height"}} {
		if i := notFinite(part.z); i >= 0 {
			return part.where + " at point " + strconv.Itoa(i+1) + " is no finite number"
		}
	}
	return ""
}

// notFinite returns the index of the first height that is no finite number, -1 when all are.
func notFinite(z []float64) int {
	for i, v := range z {
		if v-v != 0 {
			return i
		}
	}
	return -1
}

// A Value is the outcome of one call.
type Value struct {
	Symbol   string        // exactly as asked
	Value    float64       // NaN when undefined
	Unit     Unit          //
	Sections []float64     // one per section for parameters that have them, NaN where undefined; else empty
	Source   standards.Ref // where the edition defines it
	Reason   string        // why there is no value; empty when there is one
	Note     string        // what the reader must know about the value; else empty
}

// A Call is a parameter with its arguments, as asked of one edition and profile. Calls come from [Lookup] and [Defaults].
type Call struct {
	Parameter *Parameter
	Symbol    string    // exactly as asked
	Args      []float64 // complete; NaN where the default follows from the input
	Edition   standards.EditionID
	Letter    byte

	symbol  *standards.Symbol
	meaning *Meaning
}

// Evaluate computes the calls on one input, in their order. What they share (sorted heights, crossings, spectrum) is
// computed once. A parameter that cannot be computed has a NaN and a reason; it never fails the others. On an input with a
// height that is no finite number, or without a spacing, that is the reason of all; a Call that is empty has its own.
func Evaluate(in *Input, calls ...Call) []Value {
	values := make([]Value, len(calls))
	fault := in.fault()
	if fault != "" {
		for i := range calls {
			values[i] = calls[i].undefined(fault)
		}
		return values
	}
	w := newWork(in)
	defer w.release()
	for i := range calls {
		values[i] = calls[i].evaluate(w)
	}
	return values
}

// Meaning returns what the edition of the call makes of the parameter.
func (c *Call) Meaning() Meaning {
	if c.meaning == nil {
		return Meaning{}
	}
	return *c.meaning
}

// undefined is the value of a call that has none, for the reason given; an empty call has its own.
func (c *Call) undefined(reason string) Value {
	v := Value{Symbol: c.Symbol, Value: math.NaN(), Reason: reason}
	if c.Parameter == nil || c.meaning == nil {
		v.Reason = reasonCall
		return v
	}
	v.Unit = c.Parameter.Unit
	if len(c.meaning.Refs) > 0 {
		v.Source = c.meaning.Refs[0]
	}
	return v
}

func (c *Call) evaluate(w *work) Value {
	v := c.undefined("")
	if v.Reason == reasonCall {
		return v
	}
	if w.n == 0 {
		v.Reason = reasonEmpty
		return v
	}
	return c.finish(v, c.Parameter.evaluate(w, c.meaning, c.Args))
}

// finish fills in what was computed: no value is infinite or NaN without a reason, and none has a reason but a note.
func (c *Call) finish(v Value, r result) Value {
	v.Value, v.Sections, v.Reason, v.Note = r.value, r.sections, r.reason, r.note
	for k, s := range v.Sections {
		if math.IsInf(s, 0) {
			v.Sections[k] = math.NaN()
		}
	}
	if math.IsInf(v.Value, 0) || v.Reason == "" && math.IsNaN(v.Value) {
		v.Value, v.Reason = math.NaN(), reasonRange
	}
	if v.Reason != "" && !math.IsNaN(v.Value) {
		v.Note, v.Reason = v.Reason, ""
		if r.note != "" {
			v.Note += "; " + r.note
		}
	}
	return v
}

// Construct shows how the value of a call came about.
func Construct(in *Input, call Call) (Construction, error) {
	v := call.undefined(in.fault())
	if v.Reason != "" {
		return Construction{Symbol: v.Symbol, Unit: v.Unit, Result: v.Value, Plane: ProfilePlane}, &ConstructError{Symbol: v.Symbol, Reason: v.Reason}
	}
	w := newWork(in)
	v = call.evaluate(w)
	c := Construction{Symbol: v.Symbol, Unit: v.Unit, Result: v.Value, Plane: ProfilePlane}
	if math.IsNaN(v.Value) {
		return c, &ConstructError{Symbol: v.Symbol, Reason: v.Reason}
	}
	call.Parameter.row.construct(w, call.Args, &c)
	return c, nil
}

// A ConstructError says why there is nothing to show for a value.
type ConstructError struct{ Symbol, Reason string }

// Error returns the symbol and the reason.
func (e *ConstructError) Error() string { return "params: " + e.Symbol + ": " + e.Reason }

// Reasons shared by several parameters.
const (
	reasonCall  = "the call is empty: no parameter was looked up"
	reasonEmpty = "there are no points"
	reasonRange = "the numbers are too large or too small to calculate with"
	reasonFlat  = "the profile is flat: Rq = 0"
)

// each returns the value of f for each section.
func (w *work) each(f func(k int) float64) []float64 {
	s := w.perSection()
	for k := range s {
		s[k] = f(k)
	}
	return s
}

// over makes an evaluator of a function of heights and of the height up to which a profile is flat, over the length of the
// meaning. Over the evaluation length the value of each section is shown beside it. What says what a section without a value
// lacks, none is the reason when all lack it.
func over(f func(z []float64, flat float64) float64, what, none string) evaluator {
	return func(w *work, _ []float64) result {
		s := w.each(func(k int) float64 { return f(w.sectionAt(k), w.in.Flat) })
		if w.as.Over == EvaluationLength {
			return result{value: f(w.z, w.in.Flat), sections: s}
		}
		return w.bySections(s, what, none)
	}
}

// bySections makes the result of the values of the sections: their mean, or the largest by the meaning of the row.
func (w *work) bySections(s []float64, what, none string) result {
	r := meanOfDefined(s, what, none)
	if w.as.Over == LargestSection {
		r.value = nan
		for _, v := range s {
			if v == v && !(r.value >= v) {
				r.value = v
			}
		}
	}
	return r
}

// meanOfDefined is the mean over the sections that have a value. The reason names those that have none: what says
// what they lack, none is the reason when all lack it.
func meanOfDefined(s []float64, what, none string) result {
	sum, n := 0.0, 0
	var missing []string
	for k, v := range s {
		if math.IsNaN(v) {
			missing = append(missing, strconv.Itoa(k+1))
			continue
		}
		sum += v
		n++
	}
	r := result{value: sum / float64(n), sections: s}
	switch {
	case n == 0:
		return result{value: nan, sections: s, reason: none}
	case len(missing) == 1:
		r.reason = "section " + missing[0] + " " + what + ": the mean is taken over the others"
	case len(missing) > 1:
		r.reason = "each of the sections " + strings.Join(missing, ", ") + " " + what + ": the mean is taken over the others"
	}
	return r
}

// rowAlone evaluates the row with the key by itself, by the newest meaning: what the exported function of that name is. Without a
// height, or with an input that has a fault, there is no value.
func rowAlone(key string, in Input, args ...float64) float64 {
	if len(in.Z) == 0 || in.fault() != "" {
		return nan
	}
	c := catalogue()
	p := &c.rows[c.index[key]]
	w := newWork(&in)
	defer w.release()
	return p.evaluate(w, &p.Meanings[0], args).value
}

// evaluate computes the row by one of its meanings.
func (p *Parameter) evaluate(w *work, m *Meaning, args []float64) result {
	if w.as = m; p.shape && w.flat() {
		return undefined(reasonFlat)
	}
	return p.row.eval(w, args)
}
