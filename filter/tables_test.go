package filter_test

import (
	"fmt"
	"math"
	"math/cmplx"
	"testing"

	"example.com/furrow/filter"
)

// The weighting function of ISO 16610-21 (also printed in NIST papers on ISO 11562): values from the closed form.
func TestGaussianWeightTable(t *testing.T) {
	const m = 1000
	x, w := weights(t, filter.Gaussian{Cutoff: m}, m, m)
	peak := w[m]
	for _, c := range []struct{ x, height, share float64 }{
		{0, 2.128934039, 1}, {0.1, 1.846391345, 0.8672844304}, {0.2, 1.204504441, 0.5657781872}, {0.25, 0.874322980, 0.4106858004},
		{0.3, 0.591039022, 0.2776220454}, {0.4, 0.218145875, 0.1024671836}, {0.5, 0.060562104, 0.02844714909},
		{0.6, 0.012646723, 5.940401490e-3}, {0.8, 2.34694e-4, 1.102399981e-4}, {1, 1.394e-6, 6.548698489e-7},
	} {
		i := m + int(math.Round(c.x*m))
		if x[i] != c.x*m {
			t.Fatalf("distance %v at %d", x[i], i)
		}
		// Cutting the kernel off and normalising it adds 9.5e-8 of each weight.
		near(t, "s·λc", w[i]*m, c.height, 6e-10+2.2e-7*c.height/2, "closed form")
		near(t, "s/s(0)", w[i]/peak, c.share, 6e-11, "closed form")
	}
}

// Kernels cut off at 0.4 ... 1.25 cut-offs and normalised: the greatest error of T, where it lies, and T(λc); and the tail that is
// lost without normalising, erfc(√π·L/α), of which 0.76 % at half a cut-off is also printed in ISO 16610-21 (memory).
func TestGaussianTruncationTable(t *testing.T) {
	const m = 4000
	for _, c := range []struct{ support, tail, worst, cutoff float64 }{
		{0.40, 3.2795e-2, 4.788e-2, 0.547767}, {0.50, 7.6254e-3, 1.195e-2, 0.510666}, {0.55, 3.3350e-3, 5.387e-3, 0.504221},
		{0.60, 1.3654e-3, 2.264e-3, 0.501458}, {0.65, 5.2300e-4, 8.867e-4, 0.500428}, {0.70, 1.8733e-4, 3.237e-4, 0.500101},
		{0.75, 6.2720e-5, 1.101e-4, 0.500016}, {0.80, 1.9621e-5, 3.493e-5, 0.500000}, {0.90, 1.5646e-6, 2.847e-6, 0.4999995},
		{1.00, 9.4786e-8, 1.753e-7, 0.5}, {1.25, 2.55e-11, 4.84e-11, 0.5},
	} {
		near(t, "tail", math.Erfc(math.Sqrt(math.Pi)*c.support/math.Sqrt(math.Ln2/math.Pi)), c.tail, 6e-5*c.tail+2e-13, "closed form")
		f := filter.Gaussian{Cutoff: m, Support: c.support}
		x, w := weights(t, f, int(c.support*m), int(c.support*m))
		worst := 0.0
		for lam := 1.; lam < 3; lam *= 1.01 {
			worst = max(worst, math.Abs(sampledAt(x, w, lam*m)-f.Transmission(lam*m)))
		}
		near(t, fmt.Sprintf("worst error of T at support %v", c.support), worst, c.worst, 0.01*c.worst+2e-13, "quadrature")
		near(t, fmt.Sprintf("T at the cut-off at support %v", c.support), sampledAt(x, w, m), c.cutoff, 6e-7+0.003*math.Abs(c.cutoff-0.5), "quadrature")
	}
}

// The sampled kernel against the ideal near the shortest wave the samples can hold.
func TestGaussianNyquist(t *testing.T) {
	for _, c := range []struct{ m, sum, kernel, ideal float64 }{
		{2, 1.25e-1, 0.892337, 0.5}, {3, 3.9e-3, 0.418814, 0.210224}, {4, 3.1e-5, 0.124996, 0.0625}, {5, 6.0e-8, 0.02627801, 0.01313901},
		{5.3333, 5.5e-9, 0.01446680, 0.00723340}, {8, 1e-16, 3.05e-5, 1.53e-5},
	} {
		f := filter.Gaussian{Cutoff: c.m, Support: 3}
		x, w := weights(t, f, 40, 40)
		near(t, "kernel at two samples a wave", sampledAt(x, w, 2), c.kernel, 6e-4*c.kernel, "sum of the sampled kernel")
		near(t, "ideal at two samples a wave", f.Transmission(2), c.ideal, 6e-4*c.ideal+6e-8, "closed form")
		// The samples of the bell sum to 1 + 2^(1-m²) before normalising: what the middle weight was divided by.
		divided := 1 / (math.Sqrt(math.Ln2/math.Pi) * c.m) / w[len(w)/2]
		near(t, "sum of the samples less 1", divided-1, math.Pow(2, 1-c.m*c.m), 0.04*c.sum+2e-15, "Poisson's sum")
	}
}

// A closed profile: harmonic n is multiplied by 2^(-(n·λc/L)²).
func TestGaussianClosed(t *testing.T) {
	const n, m = 720, 90.0
	z := rough(n, 3)
	w := apply(t, filter.Gaussian{Cutoff: m, Support: 1.5, Closed: true}, z, 1)
	for _, h := range []int{0, 1, 2, 5, 8, 12, 20} {
		var a, b complex128
		for i := range z {
			e := cmplx.Exp(complex(0, -2*math.Pi*float64(h*i%n)/n))
			a += complex(z[i], 0) * e
			b += complex(w[i], 0) * e
		}
		f := float64(h) * m / n
		near(t, fmt.Sprintf("harmonic %d", h), real(b/a), math.Pow(2, -f*f), 1e-11, "closed form")
	}
}

// What a cubic gains away from the ends, 3·c·σ²·x.
func TestGaussianCubic(t *testing.T) {
	const m, n = 200, 2001
	z := make([]float64, n)
	for i := range z {
		x := float64(i-n/2) / m
		z[i] = x * x * x
	}
	w := apply(t, filter.Gaussian{Cutoff: m, Support: 1.5}, z, 1)
	for _, i := range []int{500, 1000, 1300} {
		x := float64(i-n/2) / m
		near(t, "gain of a cubic", w[i]-z[i], 3*0.0351152464*x, 1e-9, "3·c·σ²·x, derived")
	}
}

// The price of keeping lines at the very end: greatest weight, gain of white noise, and what a wave of half a cut-off leaks.
func TestRetainEndPrice(t *testing.T) {
	const m, n = 400, 2000
	f := filter.Gaussian{Cutoff: m}
	most, end, inner := 0.0, 0.0, 0.0
	for j := range m + 1 {
		z := make([]float64, n)
		z[j] = 1
		v := apply(t, f, z, 1)[0]
		most = max(most, v*m)
		end += v * v
	}
	_, w := weights(t, f, m, m)
	for _, v := range w {
		inner += v * v
	}
	near(t, "greatest weight at the end, times λc", most, 11.717, 0.2, "limit of fine samples, derived; the end sample speaks for half a cell more, 6/m")
	near(t, "gain of white noise at the end", math.Sqrt(end/inner), 2.52, 0.03, "limit of fine samples, derived")
	for _, c := range []struct{ phase, leak float64 }{{math.Pi / 2, 0.649}, {0, 0.863}} {
		fine := sine(80001, 1, 8000, c.phase)
		near(t, "leak of half a cut-off", apply(t, filter.Gaussian{Cutoff: 16000}, fine, 1)[0], c.leak, 6e-4, "limit of fine samples, derived")
	}
}

// The peak that a single point leaves, h·dx/(α·λc), and the gain of white noise at 1600 samples.
func TestGaussianImpulseAndNoise(t *testing.T) {
	const m = 1600
	z := make([]float64, 4*m+1)
	z[2*m] = 7
	w := apply(t, filter.Gaussian{Cutoff: m}, z, 1)
	near(t, "peak", w[2*m], 7/(0.469718639349825667*m), 1e-8, "closed form")
	gain := 0.0
	for i, v := range w {
		gain += v * v / 49
		near(t, "symmetry", v, w[len(w)-1-i], 1e-13, "a symmetric profile")
	}
	near(t, "gain of white noise", math.Sqrt(gain), 0.0306735, 6e-8, "closed form")
	// The highest point stays where it was, on a short profile too.
	short := make([]float64, 11)
	short[5] = 10
	for i, v := range apply(t, filter.Gaussian{Cutoff: 4}, short, 1) {
		if i != 5 && v >= apply(t, filter.Gaussian{Cutoff: 4}, short, 1)[5] {
			t.Errorf("point %d is as high as the middle", i)
		}
	}
}

// Frequency in place of wavelength: 50 % at 10 per unit, gains at 0, 5, 10, 20 per unit.
func TestGaussianByFrequency(t *testing.T) {
	f := filter.Gaussian{Cutoff: 1. / 10}
	for _, c := range []struct{ frequency, gain float64 }{{5, 0.8408964}, {10, 0.5}, {20, 0.0625}} {
		near(t, "gain", f.Transmission(1/c.frequency), c.gain, 6e-8, "acceptance case, recomputed")
	}
	near(t, "gain at 0", f.Transmission(math.Inf(1)), 1, 0, "constants pass")
}

// Ra and Rq of a unit sine over exactly four cut-offs, λc = 0.8 mm at 0.5 µm; and in the limit, Ra = (2/π)·R, Rq = R/√2.
func TestSineAfterFilter(t *testing.T) {
	for _, c := range []struct{ wavelength, ra float64 }{{0.2, 0.636597003}, {0.4, 0.596828016}, {0.8, 0.318309505}} {
		z := sine(16001, 0.0005, c.wavelength, 0)
		w := apply(t, filter.Gaussian{Cutoff: 0.8}, z, 0.0005)
		ra := 0.0
		for i := 4800; i < 11200; i++ {
			ra += math.Abs(z[i]-w[i]) / 6400
		}
		near(t, "Ra", ra, c.ra, 2e-9, "numpy")
	}
	for _, c := range []struct{ wavelength, r, ra, rq float64 }{
		{0.1, 1, 0.636619772, 0.707106781}, {0.5, 0.9375, 0.596831037, 0.662912607}, {1, 0.5, 0.318309886, 0.353553391},
		{1.25, 0.358287051, 0.228092621, 0.253347204}, {2, 0.159103585, 0.101288488, 0.112503224}, {5, 0.027345053, 0.017408401, 0.019335872},
	} {
		r := 1 - filter.Gaussian{Cutoff: 1}.Transmission(c.wavelength)
		near(t, "R", r, c.r, 6e-10, "closed form")
		near(t, "Ra", 2/math.Pi*r, c.ra, 6e-10, "closed form")
		near(t, "Rq", r/math.Sqrt2, c.rq, 6e-10, "closed form")
	}
}

// The local parabola: transmission, its own window constant and weights, and what shorter windows cost.
func TestRegressionOrder2(t *testing.T) {
	const alpha2 = 0.730913428094676
	u := math.Pi * alpha2 * alpha2
	near(t, "e^-t·(1+t)", math.Exp(-u)*(1+u), 0.5, 1e-14, "definition of the cut-off")
	near(t, "t", u, 1.67834699, 6e-9, "Newton's method")
	near(t, "α₂/α", alpha2/math.Sqrt(math.Ln2/math.Pi), 1.556066, 6e-7, "quotient")
	f := filter.GaussianRegression{Cutoff: 1, Order: 2}
	for _, c := range []struct{ wavelength, share float64 }{
		{0.25, 6e-11}, {1. / 3, 0.000004435}, {0.5, 0.009368236}, {0.8, 0.263085648}, {1, 0.5}, {1.25, 0.708507621}, {2, 0.933120493},
		{3, 0.984629815}, {5, 0.997844883},
	} {
		near(t, "T", f.Transmission(c.wavelength), c.share, 6e-10, "closed form")
	}
	// The window of orders 0 and 1 under a parabola would put the 50 % at 0.642646 cut-offs.
	near(t, "half amplitude of the wrong window", math.Sqrt(math.Ln2/math.Pi)/alpha2, 0.642646, 6e-7, "quotient")
	const m = 4000
	for _, c := range []struct{ support, worst, digit float64 }{{1, 1.8e-2, 5e-4}, {1.25, 1.2e-3, 6e-5}, {1.5, 3.5e-5, 6e-7}, {1.75, 4.4e-7, 1e-8}, {2, 2.7e-9, 6e-11}} {
		f := filter.GaussianRegression{Cutoff: m, Order: 2, Support: c.support}
		x, w := weights(t, f, int(c.support*m), int(c.support*m))
		worst := 0.0
		for lam := 0.4; lam < 4; lam *= 1.01 {
			worst = max(worst, math.Abs(sampledAt(x, w, lam*m)-f.Transmission(lam*m)))
		}
		near(t, fmt.Sprintf("worst error of T at support %v", c.support), worst, c.worst, c.digit+0.01*c.worst, "quadrature")
	}
	// The weights are the bell times 3/2 - u²/2σ².
	const sigma = 0.291592270 * m
	x, w := weights(t, filter.GaussianRegression{Cutoff: m, Order: 2}, 2*m, 2*m)
	for i := 0; i < len(x); i += 97 {
		q := x[i] / sigma
		near(t, "weight", w[i], math.Exp(-q*q/2)/(sigma*math.Sqrt(2*math.Pi))*(1.5-q*q/2), 1e-11, "closed form")
	}
}

// The step rises from 10 % to 90 % over 0.480301 cut-offs.
func TestGaussianStepWidth(t *testing.T) {
	const m = 2000
	z := make([]float64, 6*m)
	for i := 3 * m; i < len(z); i++ {
		z[i] = 1
	}
	w := apply(t, filter.Gaussian{Cutoff: m}, z, 1)
	at := func(level float64) float64 {
		for i := 1; ; i++ {
			if w[i] >= level {
				return float64(i) - (w[i]-level)/(w[i]-w[i-1])
			}
		}
	}
	near(t, "width of the step", (at(0.9)-at(0.1))/m, 0.480301, 2e-6, "closed form")
}

// Finer samples of the same profile change the mean line away from the ends by less than 2^(1-m²) and rounding.
func TestGaussianRefined(t *testing.T) {
	shape := func(x float64) float64 { return math.Sin(x) + 0.3*math.Cos(2.3*x) }
	coarse, fine := make([]float64, 401), make([]float64, 1601)
	for i := range fine {
		fine[i] = shape(float64(i) * 0.05)
		if i%4 == 0 {
			coarse[i/4] = fine[i]
		}
	}
	f := filter.Gaussian{Cutoff: 2, Support: 1.5} // 10 and 40 samples
	a, b := apply(t, f, coarse, 0.2), apply(t, f, fine, 0.05)
	for i := 50; i < 350; i++ {
		near(t, "w", a[i], b[4*i], 1e-14+1e-13, "spectral convergence")
	}
}
