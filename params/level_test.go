package params_test

import (
	"fmt"
	"math"
	"math/rand/v2"
	"testing"

	"example.com/furrow/params"
)

// worn is the truncated triangle min(1 - 2u, t) of facts known in closed form: a share p = (1-t)/2 of the length is worn to the height t, the
// rest falls in a straight line to -1. Where peaks are left, a share of them rises from the flat to 2.
func worn(n int, share, peaks float64) []float64 {
	z := make([]float64, n)
	t := 1 - 2*share
	for i := range z {
		u := (float64(i) + 0.5) / float64(n)
		z[i] = min(1-2*u, t)
		if u < peaks {
			z[i] = t + (1 - u/peaks)
		}
	}
	return z
}

// A level worn over 40 % of the length or more has Rk = 0; Rmrk1 and Rmrk2 are where it begins and ends, and Rvk is the doubled height of the
// rest (closed form of the truncated triangle). What rounding leaves on the level decides nothing.
func TestWornLevel(t *testing.T) {
	const n = 4000
	for _, c := range []struct{ share, peaks float64 }{{0.6, 0}, {0.45, 0}, {0.4 + 2.0/n, 0}, {0.9, 0}, {0.6, 0.1}, {0.7, 0.25}} {
		for _, noise := range []float64{0, 1e-17, 1e-15, 1e-13, 1e-11} {
			for _, scale := range []float64{1, 1e-3, 1e3} {
				rng := rand.New(rand.NewPCG(3, 9))
				z := worn(n, c.share, c.peaks)
				for i := range z {
					z[i] = scale * (z[i] - (1 - 2*c.share) + noise*rng.NormFloat64())
				}
				rng.Shuffle(n, func(i, j int) { z[i], z[j] = z[j], z[i] })
				name := fmt.Sprintf("level of %g %%, peaks %g, noise %g, scale %g", 100*c.share, c.peaks, noise, scale)
				const source = "closed form of the truncated triangle"
				step := 100.0 / n // one point of the curve
				holds(t, name+": Rk", params.Rk(z), 0, 1e-12*scale, source)
				holds(t, name+": Rmrk1", params.Rmrk1(z), 100*c.peaks, step*min(1, 1e6*c.peaks), source)
				holds(t, name+": Rmrk2", params.Rmrk2(z), 100*c.share, step, source)
				holds(t, name+": Rvk", params.Rvk(z), 2*(1-c.share)*scale, 1e-3*scale, source)
				if c.peaks > 0 {
					holds(t, name+": Rpk", params.Rpk(z), scale, 1e-2*scale, source)
				}
			}
		}
	}
}

// Of two levels of the same width the first counts, the higher one, whatever rounding leaves on them: Rk = 0, Rmrk1 = 0 and Rmrk2 where the
// first one ends.
func TestEquallyLevel(t *testing.T) {
	const n = 1000
	for _, noise := range []float64{0, 1e-17, 1e-14, 1e-12} {
		for seed := range uint64(5) {
			rng := rand.New(rand.NewPCG(seed, 1))
			z := make([]float64, n)
			for i := range z {
				z[i] = 1
				if i >= n/2 {
					z[i] = -1
				}
				z[i] += noise * rng.NormFloat64()
			}
			name := fmt.Sprintf("two levels, noise %g, %d", noise, seed)
			const source = "square wave: Rk = 0, Rmrk2 = 50 %, Rvk = 2 h"
			holds(t, name+": Rk", params.Rk(z), 0, 1e-13, source)
			holds(t, name+": Rmrk1", params.Rmrk1(z), 0, 0, source)
			holds(t, name+": Rmrk2", params.Rmrk2(z), 50, 100.0/n, source)
			holds(t, name+": Rvk", params.Rvk(z), 4, 0.01, source)
		}
	}
	if v := params.Rk(make([]float64, 10)); v != 0 || math.Signbit(v) {
		t.Errorf("Rk of a flat = %v", v)
	}
}
