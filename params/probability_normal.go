package params

import "math"

// The standard normal distribution in plain additions and multiplications, so that every platform gives the same
// digits: the library's Exp and Erf are assembly on some.

// normalShare returns Φ(x), the share of a standard normal distribution below x.
//
// Up to |x| = 3 it sums φ(x)·(x + x³/3 + x⁵/(3·5) + …), all of whose terms have one sign; beyond, the continued
// fraction φ(x)/(x + 1/(x + 2/(x + …))) of the tail. Both are textbook results (Abramowitz and Stegun 26.2.11, 26.2.14).
func normalShare(x float64) float64 {
	a := math.Abs(x)
	density := exponential(-float64(a*a)/2) / math.Sqrt(2*math.Pi)
	var tail float64 // the share beyond a
	if a <= 3 {
		term, sum := a, a
		for n := 3.0; term > sum*1e-17; n += 2 {
			term = float64(term * (a / n * a))
			sum += term
		}
		tail = 0.5 - float64(density*sum)
	} else {
		f := a
		for n := 120.0; n >= 1; n-- {
			f = a + n/f
		}
		tail = density / f
	}
	if x > 0 {
		return 1 - tail
	}
	return tail
}

// exponential returns eˣ for x ≤ 0, 0 where that is below 1e-300.
func exponential(x float64) float64 {
	if x < -690 {
		return 0
	}
	const ln2High, ln2Low = 6.93147180369123816490e-01, 1.90821492927058770002e-10 // their sum is ln 2; the first has 32 bits
	k := math.Round(x / math.Ln2)
	r := x - float64(k*ln2High) - float64(k*ln2Low) // |r| ≤ 0.35
	sum := 1.0
	for n := 14.0; n >= 1; n-- {
		sum = 1 + float64(r/n*sum)
	}
	return math.Ldexp(sum, int(k))
}

// normalQuantile returns the x with Φ(x) = p, infinite at 0 and 1.
//
// It is algorithm AS 241 (Wichura, Applied Statistics 37, 1988, pp. 477-484), good to about 1 part in 10¹⁶; the
// coefficients are from memory, and a test holds the results against Φ and a general library.
func normalQuantile(p float64) float64 {
	switch {
	case !(p >= 0 && p <= 1):
		return math.NaN()
	case p == 0:
		return math.Inf(-1)
	case p == 1:
		return math.Inf(1)
	}
	q := p - 0.5
	if math.Abs(q) <= 0.425 {
		r := 0.180625 - float64(q*q)
		return q * horner(&quantileA, r) / horner(&quantileB, r)
	}
	r := math.Sqrt(-math.Log(min(p, 1-p)))
	var x float64
	if r <= 5 {
		r -= 1.6
		x = horner(&quantileC, r) / horner(&quantileD, r)
	} else {
		r -= 5
		x = horner(&quantileE, r) / horner(&quantileF, r)
	}
	if q < 0 {
		return -x
	}
	return x
}

// horner returns c[0] + c[1]·x + … + c[7]·x⁷.
func horner(c *[8]float64, x float64) float64 {
	sum := c[7]
	for i := 6; i >= 0; i-- {
		sum = float64(sum*x) + c[i]
	}
	return sum
}

var (
	quantileA = [8]float64{3.3871328727963666080e0, 1.3314166789178437745e2, 1.9715909503065514427e3, 1.3731693765509461125e4,
		4.5921953931549871457e4, 6.7265770927008700853e4, 3.3430575583588128105e4, 2.5090809287301226727e3}
	quantileB = [8]float64{1, 4.2313330701600911252e1, 6.8718700749205790830e2, 5.3941960214247511077e3,
		2.1213794301586595867e4, 3.9307895800092710610e4, 2.8729085735721942674e4, 5.2264952788528545610e3}
	quantileC = [8]float64{1.42343711074968357734e0, 4.63033784615654529590e0, 5.76949722146069140550e0, 3.64784832476320460504e0,
		1.27045825245236838258e0, 2.41780725177450611770e-1, 2.27238449892691845833e-2, 7.74545014278341407640e-4}
	quantileD = [8]float64{1, 2.05319162663775882187e0, 1.67638483018380384940e0, 6.89767334985100004550e-1,
		1.48103976427480074590e-1, 1.51986665636164571966e-2, 5.47593808499534494600e-4, 1.05075007164441684324e-9}
	quantileE = [8]float64{6.65790464350110377720e0, 5.46378491116411436990e0, 1.78482653991729133580e0, 2.96560571828504891230e-1,
		2.65321895265761230930e-2, 1.24266094738807843860e-3, 2.71155556874348757815e-5, 2.01033439929228813265e-7}
	quantileF = [8]float64{1, 5.99832206555887937690e-1, 1.36929880922735805310e-1, 1.48753612908506148525e-2,
		7.86869131145613259100e-4, 1.84631831751005468180e-5, 1.42151175831644588870e-7, 2.04426310338993978564e-15}
)
