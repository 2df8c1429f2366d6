package standards

import (
	"math"
	"strconv"
	"strings"
)

// shortest prints a number with the digits it needs and no more.
func shortest(v float64) string { return strconv.FormatFloat(v, 'f', -1, 64) }

// digits6 prints a number to six digits at most.
func digits6(v float64) string {
	r, err := strconv.ParseFloat(strconv.FormatFloat(v, 'g', 6, 64), 64)
	if err != nil || math.IsNaN(v) {
		return "?"
	}
	return shortest(r)
}

// besides prints v to six digits, or to as many as it takes to stand on the same side of edge as v does.
func besides(v, edge float64) string {
	e, _ := strconv.ParseFloat(digits6(edge), 64)
	for n := 6; n <= 17; n++ {
		r, _ := strconv.ParseFloat(strconv.FormatFloat(v, 'g', n, 64), 64)
		if sameSide(v, edge, r, e) {
			return shortest(r)
		}
	}
	return shortest(v)
}

// sameSide tells whether shown stands to shownEdge as v stands to edge.
func sameSide(v, edge, shown, shownEdge float64) bool {
	tol := closeEnough * math.Abs(edge)
	switch {
	case v > edge+tol:
		return shown > shownEdge
	case v < edge-tol:
		return shown < shownEdge
	}
	return shown == shownEdge
}

// Length prints a length for a reader, to six digits: micrometres below 50 µm, millimetres from there.
func Length(um float64) string {
	if um < 50 {
		return digits6(um) + " µm"
	}
	return digits6(um/1000) + " mm"
}

// RoundHalfUp rounds the decimal number that v prints as to a number of decimals, halves away from zero: 2.675 gives
// 2.68, although the binary number beside it is a little less. It returns the text.
func RoundHalfUp(v float64, decimals int) string {
	if math.IsNaN(v) || math.IsInf(v, 0) {
		return strconv.FormatFloat(v, 'g', -1, 64)
	}
	decimals = min(max(decimals, 0), 20)
	text := scaledHalfUp(strconv.FormatFloat(math.Abs(v), 'e', -1, 64), decimals)
	zero := strings.Trim(text, "0") == ""
	if decimals > 0 {
		if len(text) <= decimals {
			text = strings.Repeat("0", decimals-len(text)+1) + text
		}
		text = text[:len(text)-decimals] + "." + text[len(text)-decimals:]
	}
	if v < 0 && !zero {
		text = "-" + text
	}
	return text
}

// scaledHalfUp returns the digits of a number of the form d.ddde±xx times a power of ten, rounded to a whole number.
func scaledHalfUp(number string, power int) string {
	mantissa, exponent, _ := strings.Cut(number, "e")
	digits := []byte(strings.Replace(mantissa, ".", "", 1))
	e, _ := strconv.Atoi(exponent)
	keep := e + 1 + power // digits before the point
	switch {
	case keep < 0:
		return "0"
	case keep >= len(digits):
		return string(digits) + strings.Repeat("0", keep-len(digits))
	}
	up := digits[keep] >= '5'
	digits = append([]byte{'0'}, digits[:keep]...)
	for i := len(digits) - 1; up; i-- {
		if digits[i] == '9' {
			digits[i] = '0'
			continue
		}
		digits[i]++
		up = false
	}
	if len(digits) > 1 && digits[0] == '0' {
		digits = digits[1:]
	}
	return string(digits)
}

// displayUnits are the units that heights are shown in.
var displayUnits = map[string]struct{ factor, digits float64 }{"µm": {1, 0}, "nm": {1000, -3}, "µin": {1 / 0.0254, -2}, "mm": {0.001, 3}}

// Decimals returns how many decimals a value of symbol is shown with, in a unit: for Ra four below 0.1 µm, three to
// 10 µm, two above; Rz and other extremes one less; material ratios one. An own habit, not a rule of a standard.
func Decimals(symbol string, value float64, unit string) int {
	return decimalsOf(quantityOf(symbol), symbol, value, unit)
}

func decimalsOf(q Quantity, symbol string, value float64, unit string) int {
	switch q {
	case Ratio:
		return 1
	case Number:
		return 3
	case PeakCount:
		return 1
	}
	d := 3
	switch v := math.Abs(value); {
	case v < 0.1:
		d = 4
	case v > 10:
		d = 2
	}
	if q == Spacing {
		d = 1
	} else if !strings.HasSuffix(symbol, "a") && !strings.HasSuffix(symbol, "q") {
		d--
	}
	return max(0, d+int(displayUnits[unit].digits))
}

// Show prints a value in micrometres for a reader, in the unit asked for (µm, nm, µin, mm; any other is shown as it
// is), rounded half up. Given the limits it was judged by, it takes more decimals where rounding would set it on the
// other side of a limit, so that the display never contradicts the verdict.
func Show(symbol string, value float64, unit string, bounds ...Bound) string {
	u, ok := displayUnits[unit]
	if !ok {
		u.factor = 1
	}
	v := value * u.factor
	text := ""
	for d := Decimals(symbol, value, unit); d <= 20; d++ {
		text = RoundHalfUp(v, d)
		shown, _ := strconv.ParseFloat(text, 64)
		good := true
		for _, b := range bounds {
			edge := b.Value * u.factor
			good = good && sameSide(v, edge, shown, nearest12(edge))
		}
		if good {
			break
		}
	}
	return text
}

// nearest12 is the number that twelve digits show, which takes the last bits of a change of unit away.
func nearest12(v float64) float64 {
	r, _ := strconv.ParseFloat(strconv.FormatFloat(v, 'g', 12, 64), 64)
	return r
}
