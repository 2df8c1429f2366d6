package decide

import "math"

// normalCDF is the share of a standard normal distribution below x.
func normalCDF(x float64) float64 { return float64(0.5 * math.Erfc(-x/math.Sqrt2)) }

// normalQuantile is the value that the share p of a standard normal distribution lies below, for 0 < p < 1.
func normalQuantile(p float64) float64 {
	if p > 0.5 {
		return upperTail(1 - p)
	}
	return -upperTail(p)
}

// upperTail is the value that the share q of a standard normal distribution lies above, for 0 < q <= 1/2.
func upperTail(q float64) float64 {
	x := float64(math.Sqrt2 * math.Erfcinv(2*q))
	// One step by Newton mends the last digits far out.
	return x + float64((float64(0.5*math.Erfc(x/math.Sqrt2))-q)*math.Exp(x*x/2)*math.Sqrt(2*math.Pi))
}

// studentCDF is the share of a t distribution with nu degrees of freedom below t; nu need not be whole.
func studentCDF(t, nu float64) float64 {
	if math.IsInf(nu, 1) {
		return normalCDF(t)
	}
	tail := float64(0.5 * incompleteBeta(nu/2, 0.5, nu/(nu+float64(t*t))))
	if t > 0 {
		return 1 - tail
	}
	return tail
}

// studentQuantile is the value that the share p of a t distribution with nu degrees of freedom lies below.
func studentQuantile(p, nu float64) float64 {
	switch {
	case math.IsInf(nu, 1):
		return normalQuantile(p)
	case p < 0.5:
		return -studentQuantile(1-p, nu)
	case p == 0.5:
		return 0
	}
	low, high := 0.0, 1.0
	for studentCDF(high, nu) < p && high < 1e300 {
		low, high = high, 2*high
	}
	low, high = bisect(low, high, func(t float64) bool { return studentCDF(t, nu) < p })
	return low + float64((high-low)/2)
}

// bisect narrows an interval down to two neighbouring numbers, of which below holds for the first alone.
func bisect(low, high float64, below func(x float64) bool) (float64, float64) {
	for range 200 {
		mid := low + float64((high-low)/2)
		if mid == low || mid == high {
			break
		}
		if below(mid) {
			low = mid
		} else {
			high = mid
		}
	}
	return low, high
}

// incompleteBeta is the regularised incomplete beta function I_x(a, b), by its continued fraction (the modified method
// of Lentz; Abramowitz and Stegun 26.5.8).
func incompleteBeta(a, b, x float64) float64 {
	switch {
	case x <= 0:
		return 0
	case x >= 1:
		return 1
	case x > (a+1)/(a+b+2):
		return 1 - incompleteBeta(b, a, 1-x)
	}
	ga, _ := math.Lgamma(a)
	gb, _ := math.Lgamma(b)
	gab, _ := math.Lgamma(a + b)
	front := math.Exp(gab-ga-gb+float64(a*math.Log(x))+float64(b*math.Log1p(-x))) / a
	const tiny = 1e-300
	c, d := 1.0, 1-(a+b)*x/(a+1)
	if math.Abs(d) < tiny {
		d = tiny
	}
	d = 1 / d
	f := d
	for m := 1; m <= 2000; m++ {
		m := float64(m)
		for _, n := range [2]float64{
			m * (b - m) * x / ((a + 2*m - 1) * (a + 2*m)),
			-(a + m) * (a + b + m) * x / ((a + 2*m) * (a + 2*m + 1)),
		} {
			d = 1 + float64(n*d)
			if math.Abs(d) < tiny {
				d = tiny
			}
			c = 1 + n/c
			if math.Abs(c) < tiny {
				c = tiny
			}
			d = 1 / d
			f *= c * d
		}
		if math.Abs(float64(c*d)-1) < 1e-16 {
			break
		}
	}
	return front * f
}
