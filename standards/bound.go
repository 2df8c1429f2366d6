package standards

// A Bound is one limit to judge by.
type Bound struct {
	Symbol string
	Side   Side
	Value  float64

	Edition string // that the symbol is of, which tells what kind of number it is; empty: any that has the symbol
}

// closeEnough is the share of the limit within which two numbers count as equal: decimal fractions are not exact in
// binary, and a value equal to the limit does not exceed it.
const closeEnough = 1e-12

// outside tells whether v lies beyond the bound moved by shift towards the inside (negative: towards the outside).
// A value equal to the moved bound is inside, unless strict asks it to be outside.
func (b Bound) outside(v, shift float64, strict bool) bool {
	lim := b.Value - shift
	d := v - lim
	if b.Side == Lower {
		lim = b.Value + shift
		d = lim - v
	}
	tol := closeEnough * abs(b.Value)
	if strict {
		return d >= -tol
	}
	return d > tol
}

func abs(v float64) float64 {
	if v < 0 {
		return -v
	}
	return v
}
