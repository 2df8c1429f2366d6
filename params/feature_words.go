package params

import "strconv"

// inWords says a number without unit, with four digits.
func inWords(v float64) string { return strconv.FormatFloat(v, 'g', 4, 64) }

// place says where and how high a point of the profile lies: "1.92 µm at 2.104 mm".
func place(p Point) string { return micrometres(p.Y) + " at " + millimetres(p.X) }

// lengthOf says a length along the trace: short ones in µm, others in mm.
func lengthOf(v float64) string {
	if v < 100 {
		return micrometres(v)
	}
	return millimetres(v)
}

// deviationOf is the worked standard deviation of terms, of the squared differences from their mean.
func deviationOf(symbol string, terms []float64, divisor Deviation, unit Unit) Arithmetic {
	m := mean(terms)
	squares := make([]float64, len(terms))
	for i, v := range terms {
		squares[i] = float64((v - m) * (v - m))
	}
	n := len(terms)
	if divisor == DivideByCountLessOne {
		n--
	}
	return Arithmetic{
		Symbol: symbol, Form: "√((" + termSum(len(terms)) + ") / " + strconv.Itoa(n) + ")",
		Terms: squares, Result: spread(terms, divisor), Unit: unit,
	}
}

// meanOf is the worked mean of terms.
func meanOf(symbol string, terms []float64, unit Unit) Arithmetic {
	return Arithmetic{Symbol: symbol, Form: meanForm(len(terms)), Terms: terms, Result: mean(terms), Unit: unit}
}
