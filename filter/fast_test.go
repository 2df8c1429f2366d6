package filter_test

import (
	"math"
	"testing"

	"example.com/furrow/filter"
)

// The error of the transmission over 0.01 to 100 cut-offs, from the answer to an impulse, is at most 2e-6.
func TestFastGaussianTransmission(t *testing.T) {
	for _, m := range []int{160, 333, 1600, 16000} {
		f := filter.FastGaussian{Cutoff: float64(m)}
		z := make([]float64, 10*m+1)
		z[5*m] = 1
		w := apply(t, f, z, 1)
		worst := 0.0
		for lam := 0.01; lam <= 100; lam *= 1.1 {
			if lam*float64(m) < 2 {
				continue
			}
			got := w[5*m]
			for k := 1; k < 3*m; k++ {
				got += (w[5*m-k] + w[5*m+k]) * math.Cos(2*math.Pi*float64(k)/(lam*float64(m)))
			}
			worst = max(worst, math.Abs(got-f.Transmission(lam*float64(m))))
		}
		t.Logf("m = %d: %.2g", m, worst)
		if worst > 2e-6 {
			t.Errorf("m = %d: transmission off by %g", m, worst)
		}
	}
}

// On rough profiles the result is that of the exact filter to 2e-6 of the range, and lines are kept.
func TestFastGaussianExact(t *testing.T) {
	for _, c := range []struct{ n, m int }{{2000, 100}, {2000, 400}, {2000, 600}, {30000, 161}, {100000, 1600}, {400000, 20000}} {
		z := rough(c.n, 7)
		for i := range z {
			z[i] += 0.01 * float64(i)
		}
		fast := apply(t, filter.FastGaussian{Cutoff: float64(c.m)}, z, 1)
		if d := greatest(fast, apply(t, filter.Gaussian{Cutoff: float64(c.m)}, z, 1)); d > 2e-6 {
			t.Errorf("n = %d, m = %d: off by %g", c.n, c.m, d)
		}
	}
}
