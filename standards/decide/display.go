package decide

import (
	"math"
	"strconv"
	"strings"

	"example.com/furrow/standards"
)

// shortest prints a number with the digits it needs and no more.
func shortest(v float64) string { return strconv.FormatFloat(v, 'f', -1, 64) }

// besides prints v to six digits, or to as many as it takes to stand on the same side of edge as v does.
func besides(v, edge float64) string {
	e, _ := strconv.ParseFloat(standards.Digits(edge), 64)
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
	tol := float64(closeEnough * math.Abs(edge))
	switch {
	case v > edge+tol:
		return shown > shownEdge
	case v < edge-tol:
		return shown < shownEdge
	}
	return shown == shownEdge
}

// displayUnits are the units that heights are shown in.
var displayUnits = map[string]struct{ factor, digits float64 }{"µm": {1, 0}, "nm": {1000, -3}, "µin": {1 / 0.0254, -2}, "mm": {0.001, 3}}

// decimals returns how many decimals a value of symbol is shown with, in a unit: for Ra four below 0.1 µm, three to
// 10 µm, two above; Rz and other extremes one less; material ratios one. An own habit, not a rule of a standard.
func decimals(q standards.Quantity, symbol string, value float64, unit string) int {
	switch q {
	case standards.Ratio:
		return 1
	case standards.Number:
		return 3
	case standards.PeakCount:
		return 1
	}
	d := 3
	switch v := math.Abs(value); {
	case v < 0.1:
		d = 4
	case v > 10:
		d = 2
	}
	if q == standards.Spacing {
		d = 1
	} else if !strings.HasSuffix(symbol, "a") && !strings.HasSuffix(symbol, "q") {
		d--
	}
	return max(0, d+int(displayUnits[unit].digits))
}

// Show prints a value in micrometres for a reader, in the unit asked for (µm, nm, µin, mm; any other is shown as it
// is), rounded half up. Given the limits it was judged by, it takes more decimals where rounding would set it on the
// other side of a limit, so that the display never contradicts the verdict.
func Show(symbol string, value float64, unit string, bounds ...standards.Bound) string {
	u, ok := displayUnits[unit]
	if !ok {
		u.factor = 1
	}
	v := float64(value * u.factor)
	text := ""
	for d := decimals(standards.Bound{Symbol: symbol}.Kind(), symbol, value, unit); d <= 20; d++ {
		text = standards.RoundHalfUp(v, d)
		shown, _ := strconv.ParseFloat(text, 64)
		good := true
		for _, b := range bounds {
			edge := float64(b.Value * u.factor)
			good = good && sameSide(v, edge, shown, standards.RoundDigits(edge, 12))
		}
		if good {
			break
		}
	}
	return text
}
