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

func arithmeticMean(z []float64) float64 {
	if len(z) == 0 {
		return nan
	}
	sum := 0.0
	for _, v := range z {
		sum += math.Abs(v)
	}
	return sum / float64(len(z))
}

func rms(z []float64) float64 {
	if len(z) == 0 {
		return nan
	}
	sum := 0.0
	for _, v := range z {
		sum += float64(v * v)
	}
	return math.Sqrt(sum / float64(len(z)))
}

// skewness returns the third moment over the third power of Rq, NaN when Rq is at most flat. The heights are divided
// by Rq before they are raised, so that no power leaves the range of floating point.
func skewness(z []float64, flat float64) float64 {
	q := rms(z)
	if !(q > flat) {
		return nan
	}
	sum := 0.0
	for _, v := range z {
		u := v / q
		sum += float64(float64(u*u) * u)
	}
	return sum / float64(len(z))
}

// kurtosis returns the fourth moment over the fourth power of Rq, NaN when Rq is at most flat.
func kurtosis(z []float64, flat float64) float64 {
	q := rms(z)
	if !(q > flat) {
		return nan
	}
	sum := 0.0
	for _, v := range z {
		u := v / q
		u2 := float64(u * u)
		sum += float64(u2 * u2)
	}
	return sum / float64(len(z))
}

// deviation returns the standard deviation of s about m by the chosen divisor; with one item and n-1 it is NaN.
func deviation(s []float64, m float64, d Deviation) float64 {
	sum := 0.0
	for _, v := range s {
		sum += float64((v - m) * (v - m))
	}
	n := float64(len(s))
	if d == DivideByCountLessOne {
		n--
	}
	if n <= 0 {
		return nan
	}
	return math.Sqrt(sum / n)
}
