package params

import (
	"math"

	"example.com/furrow/standards"
)

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
	Edition   string
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
	eval := c.meaning.eval
	if eval == nil {
		eval = c.Parameter.eval
	}
	r := eval(w, c.Args)
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
	build := call.meaning.construct
	if build == nil {
		build = call.Parameter.construct
	}
	if build == nil {
		return c, &ConstructError{Symbol: v.Symbol, Reason: "has no construction"}
	}
	if math.IsNaN(v.Value) {
		return c, &ConstructError{Symbol: v.Symbol, Reason: v.Reason}
	}
	build(w, call.Args, &c)
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
