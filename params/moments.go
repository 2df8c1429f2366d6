package params

import "math"

var nan = math.NaN()

// mean returns the arithmetic mean, NaN of nothing.
func mean(s []float64) float64 {
	if len(s) == 0 {
		return nan
	}
	sum := 0.0
	for _, v := range s {
		sum += v
	}
	return sum / float64(len(s))
}
