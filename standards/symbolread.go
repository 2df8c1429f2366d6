package standards

// What display and judgement ask of the list of symbols.

type quantity = Quantity

const (
	height  = Height
	ratio   = Ratio
	number  = Number
	count   = PeakCount
	spacing = Spacing
)

type rowed struct {
	quantity Quantity
	min      int
	name     string
}

func rowOf(symbol string) rowed {
	y, _ := symbolOf(symbol)
	return rowed{y.Quantity, y.Min, y.Name}
}
