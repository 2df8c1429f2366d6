package params

import "strconv"

// inWords says a number without unit, with four digits.
func inWords(v float64) string { return strconv.FormatFloat(v, 'g', 4, 64) }

// place says where and how high a point of the profile lies: "1.92 µm at 2.104 mm".
func place(p Point) string { return micrometres(p.Y) + " at " + millimetres(p.X) }

// meanOf is the worked mean of terms.
func meanOf(symbol string, terms []float64, unit Unit) Arithmetic {
	return Arithmetic{Symbol: symbol, Form: meanForm(len(terms)), Terms: terms, Result: mean(terms), Unit: unit}
}
