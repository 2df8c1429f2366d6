package filter

import "math"

// exp returns e**x. It is written out because math.Exp gives other last digits on amd64 than elsewhere, and page and
// library must agree; the error is below one unit in the last place.
//
// The range is reduced to |r| <= ln2/2, and e**r = 1 + 2r/(R(r²) - r) with a polynomial of degree 5 for R, as in the
// FreeBSD mathematics library.
func exp(x float64) float64 {
	const (
		ln2Hi = 6.93147180369123816490e-01
		ln2Lo = 1.90821492927058770002e-10
		log2e = 1.44269504088896338700e+00
	)
	switch {
	case math.IsNaN(x):
		return x
	case x > 709.7:
		return math.Inf(1)
	case x < -745.2:
		return 0
	}
	k := math.Floor(float64(log2e*x) + 0.5)
	hi := x - float64(k*ln2Hi)
	lo := float64(k * ln2Lo)
	r := hi - lo
	t := float64(r * r)
	c := r - float64(t*(1.66666666666666657415e-01+float64(t*(-2.77777777770155933842e-03+
		float64(t*(6.61375632143793436117e-05+float64(t*(-1.65339022054652515390e-06+float64(t*4.13813679705723846039e-08)))))))))
	y := 1 - ((lo - float64(r*c)/(2-c)) - hi)
	return math.Ldexp(y, int(k))
}

// gauss returns 2**(-(cutoff/wavelength)²), the share of a sine that a Gaussian leaves in the long waves.
func gauss(cutoff, wavelength float64) float64 {
	q := cutoff / wavelength
	return exp(-math.Ln2 * float64(q*q))
}
