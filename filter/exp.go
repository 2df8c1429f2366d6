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

// sincos returns sin x and cos x for |x| below 1e8. It is written out because the products of math.Sincos are fused into its sums where a
// platform can do that, and the last digits differ then; without fusing it gives the same bits as math.Sincos.
//
// The range is reduced by a multiple of π/2 in three parts to |z| <= π/4, and the polynomials are those of the Cephes library.
func sincos(x float64) (sin, cos float64) {
	const (
		part1 = 7.85398125648498535156e-1
		part2 = 3.77489470793079817668e-8
		part3 = 2.69515142907905952645e-15
	)
	a := math.Abs(x)
	octant := int64(a * (4 / math.Pi))
	octant += octant & 1 // an even number of eighths
	k := float64(octant)
	z := ((a - float64(k*part1)) - float64(k*part2)) - float64(k*part3)
	zz := float64(z * z)
	cos = 1 - float64(0.5*zz) + float64(zz*zz*(float64((float64((float64((float64((float64(-1.13585365213876817300e-11*zz)+
		2.08757008419747316778e-9)*zz)-2.75573141792967388112e-7)*zz)+2.48015872888517045348e-5)*zz)-1.38888888888730564116e-3)*zz)+
		4.16666666666665929218e-2))
	sin = z + float64(z*zz*(float64((float64((float64((float64((float64(1.58962301576546568060e-10*zz)-
		2.50507477628578072866e-8)*zz)+2.75573136213857245213e-6)*zz)-1.98412698295895385996e-4)*zz)+8.33333333332211858878e-3)*zz)-
		1.66666666666666307295e-1))
	switch octant & 7 {
	case 2:
		sin, cos = cos, -sin
	case 4:
		sin, cos = -sin, -cos
	case 6:
		sin, cos = -cos, sin
	}
	return math.Copysign(1, x) * sin, cos
}
