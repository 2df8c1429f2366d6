package filter_test

import (
	"math"
	"testing"

	"example.com/furrow/filter"
)

// near reports a value that differs from what source says by more than tol.
func near(t *testing.T, what string, got, want, tol float64, source string) {
	t.Helper()
	if !(math.Abs(got-want) <= tol) {
		t.Errorf("%s = %.12g, want %.12g (tolerance %.1g, %s)", what, got, want, tol, source)
	}
}

// apply filters or fails the test.
func apply(t testing.TB, f filter.Filter, z []float64, dx float64) []float64 {
	t.Helper()
	w, err := f.Apply(nil, z, dx)
	if err != nil {
		t.Fatalf("%#v: %v", f, err)
	}
	return w
}

// greatest returns the greatest absolute difference of two slices.
func greatest(a, b []float64) float64 {
	if len(a) != len(b) {
		return math.Inf(1)
	}
	d := 0.0
	for i := range a {
		switch e := math.Abs(a[i] - b[i]); {
		case math.IsNaN(e):
			return math.Inf(1)
		case e > d:
			d = e
		}
	}
	return d
}

// rough returns a rough-looking profile of n points between about -3 and 3 that needs no package to make.
func rough(n int, seed uint64) []float64 {
	z := make([]float64, n)
	s := seed*2862933555777941757 + 3037000493
	next := func() float64 {
		s ^= s << 13
		s ^= s >> 7
		s ^= s << 17
		return float64(s>>11) / (1 << 53)
	}
	for range 5 {
		next()
	}
	slow := 0.0
	for i := range z {
		slow = 0.98*slow + 0.2*(next()-0.5)
		z[i] = slow + next() - 0.5
	}
	return z
}

func sine(n int, dx, wavelength, phase float64) []float64 {
	z := make([]float64, n)
	for i := range z {
		z[i] = math.Sin(2*math.Pi*float64(i)*dx/wavelength + phase)
	}
	return z
}

// weights returns the weights that a linear filter lays around a point far from both ends: its answer to a single 1, turned round, at the
// distances -half to half. What lies outside must not be felt over run more points.
func weights(t testing.TB, f filter.Filter, half, run int) (x, w []float64) {
	t.Helper()
	z := make([]float64, 2*(run+half)+1)
	z[run+half] = 1
	answer := apply(t, f, z, 1)[run : run+2*half+1]
	for i := range answer {
		x, w = append(x, float64(i-half)), append(w, answer[2*half-i])
	}
	return x, w
}

// sampledAt returns the share of a sine that weights leave.
func sampledAt(x, w []float64, wavelength float64) (share float64) {
	for i, v := range w {
		share += v * math.Cos(2*math.Pi*x[i]/wavelength)
	}
	return share
}
