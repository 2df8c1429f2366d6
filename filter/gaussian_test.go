package filter_test

import (
	"errors"
	"math"
	"testing"

	"example.com/furrow/filter"
)

// A cut-off of 0.8 mm, unit sine, interior: W and R amplitudes asked for by people who wrote their own filter.
func TestGaussianAmplitudes(t *testing.T) {
	for _, c := range []struct{ wavelength, w, r float64 }{
		{0.25, 0.00082690, 0.99917310}, {0.4, 0.0625, 0.9375}, {0.8, 0.5, 0.5}, {1.6, 0.84089642, 0.15910358},
		{2.5, 0.93148213, 0.06851787}, {8, 0.99309250, 0.00690750},
	} {
		f := filter.Gaussian{Cutoff: 0.8}
		near(t, "W", f.Transmission(c.wavelength), c.w, 5e-9, "acceptance case, recomputed")
		near(t, "R", 1-f.Transmission(c.wavelength), c.r, 5e-9, "acceptance case, recomputed")
	}
}

// Half a kernel, the largest error of the transmission and the value at the cut-off, from quadrature (derived).
func TestGaussianSupport(t *testing.T) {
	const m = 4000
	for _, c := range []struct{ support, worst, at, cutoff float64 }{
		{0.5, 1.195e-2, 1.21, 0.510666}, {0.6, 2.264e-3, 1.38, 0.501458}, {0.75, 1.101e-4, 1.65, 0.500016},
		{1, 1.753e-7, 2.13, 0.5}, {1.5, 2.4e-15, 2, 0.5},
	} {
		f := filter.Gaussian{Cutoff: m, Support: c.support}
		x, w := weights(t, f, int(c.support*m), int(c.support*m))
		worst := 0.0
		for lam := 0.2; lam < 10; lam *= 1.02 {
			worst = max(worst, math.Abs(sampledAt(x, w, lam*m)-f.Transmission(lam*m)))
		}
		// The sampled kernel ends on a sample, half a spacing beyond the end of the quadrature: 1/m of the peak there.
		near(t, "worst error of T", worst, c.worst, 0.01*c.worst+1e-13, "quadrature")
		near(t, "T at the cut-off", sampledAt(x, w, m), c.cutoff, 5e-7+0.003*math.Abs(c.cutoff-0.5), "quadrature")
	}
}

// The transmission at the cut-off of the sampled, normalised kernel of m samples in a cut-off.
func TestGaussianSampling(t *testing.T) {
	for _, c := range []struct{ m, share, tol float64 }{
		{2, 0.892337, 5e-7}, {3, 0.560327, 5e-7}, {4, 0.501938, 5e-7}, {5, 0.500015229, 5e-9}, {5.3333, 0.500002222, 1e-8}, {8, 0.5, 1e-9},
	} {
		x, w := weights(t, filter.Gaussian{Cutoff: c.m, Support: 3}, 40, 40)
		near(t, "T at the cut-off", sampledAt(x, w, c.m), c.share, c.tol, "sum of the sampled kernel")
	}
	if err := filter.Advise(1000, 1, 3.9); !errors.Is(err, filter.ErrFewSamples) {
		t.Errorf("3.9 samples in a cut-off: advice %v", err)
	}
	if err := filter.Advise(1000, 0.5, 2.5); err != nil {
		t.Errorf("5 samples in a cut-off: advice %v", err)
	}
}

// Values at the left end, lengths in cut-offs, m = 1600; computed from the definitions in numpy.
func TestGaussianEndValues(t *testing.T) {
	const m = 1600
	make1 := func(shape func(x float64) float64) []float64 {
		z := make([]float64, 5*m+1)
		for i := range z {
			z[i] = shape(float64(i) / m)
		}
		return z
	}
	shapes := []struct {
		name  string
		shape func(x float64) float64
		w     [6]float64 // zero, line-symmetric, point-symmetric, retain-0, retain, retain-2
		tol   float64
	}{
		{"line", func(x float64) float64 { return x }, [6]float64{0.0747580, 0.1495161, 0, 0.149317, 0, 0}, 6e-7},
		{"one", func(float64) float64 { return 1 }, [6]float64{0.500665, 1, 1, 1, 1, 1}, 6e-7},
		{"parabola", func(x float64) float64 { return x * x }, [6]float64{0.017558, 0.0351152, 0, 0.035069, -0.026308, 0}, 1e-6},
		{"cosine", func(x float64) float64 { return math.Cos(10 * math.Pi * x) }, [6]float64{0.0007, 0, 1, 0.0013, 0.0592, 0.0913}, 6e-5},
		{"sine", func(x float64) float64 { return math.Sin(10 * math.Pi * x) }, [6]float64{0.0699, 0.1398, 0, 0.1397, 0.3834, 0.4350}, 6e-5},
	}
	ends := [...]filter.Ends{filter.Zero, filter.LineSymmetric, filter.PointSymmetric, filter.Retain0, filter.Retain, filter.Retain2}
	for _, s := range shapes {
		z := make1(s.shape)
		for k, e := range ends {
			w := apply(t, filter.Gaussian{Cutoff: 1, Ends: e}, z, 1./m)
			near(t, s.name+" "+e.String()+" w(0)", w[0], s.w[k], s.tol, "numpy from the definition")
		}
	}
	for _, e := range ends[:5] {
		w := apply(t, filter.Gaussian{Cutoff: 1, Ends: e}, make1(func(x float64) float64 { return x * x }), 1./m)
		near(t, "bias on a parabola", w[4000]-6.25, 0.0351152, 1e-6, "c·σ²")
	}
	w := apply(t, filter.Gaussian{Cutoff: 1, Ends: filter.Linear}, make1(shapes[4].shape), 1./m)
	near(t, "sine linear w(0)", w[0], 0.1331, 6e-5, "numpy, line fitted over half a cut-off")
	w = apply(t, filter.Gaussian{Cutoff: 1, Ends: filter.Linear, Fit: 2. / m}, make1(shapes[4].shape), 1./m)
	near(t, "sine linear through two points w(0)", w[0], -2.2785, 6e-5, "numpy")
}

// A ramp on a trace of 21 points: nothing may be left of it, and each wrong treatment of the ends has its fingerprint.
func TestGaussianRamp(t *testing.T) {
	z := make([]float64, 21)
	for i := range z {
		z[i] = float64(i)
	}
	const dx, cutoff = 0.1, 0.8
	for i, w := range apply(t, filter.Gaussian{Cutoff: cutoff}, z, dx) {
		near(t, "R of the ramp", z[i]-w, 0, 1e-9, "a straight line is kept")
	}
	for _, c := range []struct {
		ends filter.Ends
		r    [3]float64
	}{
		{filter.LineSymmetric, [3]float64{-1.151, -0.417, -0.109}},
		{filter.Retain0, [3]float64{-0.909, -0.428, -0.150}},
	} {
		w := apply(t, filter.Gaussian{Cutoff: cutoff, Ends: c.ends}, z, dx)
		for i, want := range c.r {
			near(t, c.ends.String(), z[i]-w[i], want, 6e-4, "acceptance case, recomputed")
		}
	}
	w := apply(t, filter.Gaussian{Cutoff: cutoff, Ends: filter.Zero}, z, dx)
	ra := 0.0
	for i := range z {
		ra += math.Abs(z[i]-w[i]) / 21
	}
	near(t, "Ra with zeros outside", ra, 0.629, 6e-4, "acceptance case, recomputed")
}

// The whole way of a sine: five sections of one cut-off, one cut-off dropped at each end.
func TestGaussianSinePipeline(t *testing.T) {
	for _, c := range []struct{ wavelength, ra, rq float64 }{
		{0.25, 0.636060, 0.706522}, {0.4, 0.596782, 0.662913}, {0.8, 0.318303, 0.353553},
	} {
		z := sine(2801, 0.002, c.wavelength, 0)
		w := apply(t, filter.Gaussian{Cutoff: 0.8, Ends: filter.Discard, DiscardLength: 0.8}, z, 0.002)
		var ra, rq float64
		for i := 400; i < 2400; i++ {
			ra += math.Abs(z[i]-w[i]) / 2000
			rq += (z[i] - w[i]) * (z[i] - w[i]) / 2000
		}
		near(t, "Ra", ra, c.ra, 2e-5, "acceptance case, recomputed")
		near(t, "Rq", math.Sqrt(rq), c.rq, 2e-5, "acceptance case, recomputed")
	}
}

func TestGaussianTrim(t *testing.T) {
	for _, c := range []struct {
		f    filter.Gaussian
		n    int
		dx   float64
		head int
		tail int
	}{
		{filter.Gaussian{Cutoff: 800}, 9601, 0.5, 0, 0},
		{filter.Gaussian{Cutoff: 800, Ends: filter.Discard}, 9601, 0.5, 800, 800},
		{filter.Gaussian{Cutoff: 800, Ends: filter.Discard, DiscardLength: 100.1}, 9601, 0.5, 201, 201},
		{filter.Gaussian{Cutoff: 0.8, Ends: filter.Discard}, 100, 0.1, 4, 4},
		{filter.Gaussian{Cutoff: 800, Ends: filter.Discard}, 1000, 0.5, 800, 200},
		{filter.Gaussian{Cutoff: 800, Ends: filter.Discard, Closed: true}, 1000, 0.5, 0, 0},
	} {
		if head, tail := c.f.Trim(c.n, c.dx); head != c.head || tail != c.tail {
			t.Errorf("%+v.Trim(%d, %v) = %d, %d, want %d, %d", c.f, c.n, c.dx, head, tail, c.head, c.tail)
		}
	}
}

func TestRefusals(t *testing.T) {
	nan, inf := math.NaN(), math.Inf(1)
	good := []float64{1, 2, 3, 4}
	for _, c := range []struct {
		name string
		f    filter.Filter
		z    []float64
		dx   float64
		want error
		at   int
	}{
		{"no cut-off", filter.Gaussian{}, good, 1, filter.ErrCutoff, -1},
		{"negative cut-off", filter.Gaussian{Cutoff: -1}, good, 1, filter.ErrCutoff, -1},
		{"cut-off not a number", filter.Gaussian{Cutoff: nan}, good, 1, filter.ErrCutoff, -1},
		{"endless cut-off", filter.Gaussian{Cutoff: inf}, good, 1, filter.ErrCutoff, -1},
		{"no spacing", filter.Gaussian{Cutoff: 8}, good, 0, filter.ErrSpacing, -1},
		{"spacing not a number", filter.Gaussian{Cutoff: 8}, good, nan, filter.ErrSpacing, -1},
		{"under-sampled", filter.Gaussian{Cutoff: 1.9}, good, 1, filter.ErrSampling, -1},
		{"no points", filter.Gaussian{Cutoff: 8}, nil, 1, filter.ErrTooShort, -1},
		{"missing point", filter.Gaussian{Cutoff: 8}, []float64{1, 2, nan}, 1, filter.ErrNotFinite, 2},
		{"infinite point", filter.RobustGaussian{Cutoff: 8}, []float64{1, -inf, 3}, 1, filter.ErrNotFinite, 1},
		{"height beyond all sense", filter.ValleySuppression{Cutoff: 8}, []float64{1e101, 0, 3}, 1, filter.ErrTooLarge, 0},
		{"support", filter.Gaussian{Cutoff: 8, Support: -1}, good, 1, filter.ErrOption, -1},
		{"ends", filter.Gaussian{Cutoff: 8, Ends: 99}, good, 1, filter.ErrOption, -1},
		{"fit", filter.Gaussian{Cutoff: 8, Ends: filter.Linear, Fit: nan}, good, 1, filter.ErrOption, -1},
		{"order", filter.GaussianRegression{Cutoff: 8, Order: 3}, good, 1, filter.ErrOption, -1},
		{"passes", filter.RobustGaussian{Cutoff: 8, Passes: -2}, good, 1, filter.ErrOption, -1},
		{"tolerance", filter.RobustGaussian{Cutoff: 8, Tolerance: 2}, good, 1, filter.ErrOption, -1},
		{"closed and far too short", filter.Gaussian{Cutoff: 800, Closed: true}, good, 1, filter.ErrTooShort, -1},
	} {
		w, err := c.f.Apply(nil, c.z, c.dx)
		if w != nil || !errors.Is(err, c.want) {
			t.Errorf("%s: %v, %v, want %v", c.name, w, err, c.want)
		}
		var point *filter.PointError
		if errors.As(err, &point) != (c.at >= 0) || point != nil && point.Index != c.at {
			t.Errorf("%s: %v, want point %d", c.name, err, c.at)
		}
	}
}

// Profiles of one, two, three points have a mean line too.
func TestFewPoints(t *testing.T) {
	for _, f := range []filter.Filter{
		filter.Gaussian{Cutoff: 8}, filter.Gaussian{Cutoff: 8, Ends: filter.Retain2}, filter.Gaussian{Cutoff: 2, Ends: filter.LineSymmetric},
		filter.Gaussian{Cutoff: 2, Closed: true}, filter.RobustGaussian{Cutoff: 8}, filter.ValleySuppression{Cutoff: 8},
	} {
		for n := 1; n < 4; n++ {
			z := []float64{3, 5, 4}[:n]
			for _, v := range apply(t, f, z, 1) {
				if !(v >= 2 && v <= 6) {
					t.Errorf("%#v of %v: %v", f, z, v)
				}
			}
		}
	}
}
