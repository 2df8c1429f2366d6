package standards

// Side tells whether a limit is an upper or a lower one.
type Side uint8

// The two sides.
const (
	Upper Side = iota
	Lower
)

// String returns "upper" or "lower".
func (s Side) String() string {
	if s == Lower {
		return "lower"
	}
	return "upper"
}

// A Bound is one limit to judge by.
type Bound struct {
	Symbol string
	Side   Side
	Value  float64

	Edition EditionID // that the symbol is of, which tells what kind of number it is; empty: any that has the symbol
}

// Kind is what kind of number the limited parameter is: in an edition as that edition has it, as Pc is a height in some and a count in
// another, and without one as the first edition that has the symbol. A symbol that no edition knows counts as a height.
func (b Bound) Kind() Quantity {
	y, _ := FindSymbol(b.Edition, b.Symbol)
	return y.Quantity
}

// OwnUnit reports whether a unit is the one that values of the limited parameter are counted in: micrometres for a height or a length.
func (b Bound) OwnUnit(unit string) bool { return unit == b.Kind().Unit() }

// ToOwnUnit takes a value from a unit to the one that values of the limited parameter are counted in; ok is false for a unit that it
// cannot have.
func (b Bound) ToOwnUnit(v float64, unit string) (own float64, ok bool) {
	f := b.Kind().In(unit)
	if f == 0 {
		return 0, false
	}
	if f == 1 {
		return v, true
	}
	return RoundDigits(v/f, 12), true
}
