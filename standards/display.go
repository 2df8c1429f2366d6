package standards

import (
	"strconv"
)

// shortest prints a number with the digits it needs and no more.
func shortest(v float64) string { return strconv.FormatFloat(v, 'f', -1, 64) }

// Length prints a length for a reader, to six digits: micrometres below 50 µm, millimetres from there.
func Length(um float64) string {
	unit := " µm"
	if um >= 50 {
		um, unit = um/1000, " mm"
	}
	v, _ := strconv.ParseFloat(strconv.FormatFloat(um, 'g', 6, 64), 64)
	return shortest(v) + unit
}
