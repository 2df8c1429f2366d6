package filter

import (
	"math"
	"math/rand/v2"
	"testing"
)

// The sum with a kernel at every place of short profiles, both ends and kernels longer than the profile included, against the
// definition: Σ k(u)·x[i+u], with k(-u) = k(u) or, of an odd kernel, -k(u), and x zero outside.
func TestCorrelateDirect(t *testing.T) {
	draw := rand.New(rand.NewPCG(1, 2))
	for _, n := range []int{1, 2, 5, 9, 40} {
		for half := range 13 {
			for _, odd := range []bool{false, true} {
				x, k := make([]float64, n), kernel{make([]float64, half+1), odd}
				for i := range x {
					x[i] = draw.NormFloat64()
				}
				for u := range k.taps {
					k.taps[u] = draw.NormFloat64()
				}
				got := make([]float64, n)
				correlateDirect(got, x, 0, n, k)
				for i := range n {
					want := 0.0
					for u := -half; u <= half; u++ {
						if i+u < 0 || i+u >= n || odd && u == 0 {
							continue
						}
						weight := k.taps[max(u, -u)]
						if odd && u < 0 {
							weight = -weight
						}
						want += weight * x[i+u]
					}
					if math.Abs(got[i]-want) > 1e-13 {
						t.Fatalf("%d points, half width %d, odd %v: %g at %d, want %g", n, half, odd, got[i], i, want)
					}
				}
			}
		}
	}
}

// Equations that leave an unknown open have no solution; the others come out as worked by hand: 2x + y = 5, 3y = 6.
func TestLittleSolve(t *testing.T) {
	s := newLittle(2)
	if _, ok := s.solve(); ok {
		t.Error("no equations at all were solved")
	}
	copy(s.r[0], []float64{2, 1, 5})
	if _, ok := s.solve(); ok {
		t.Error("one equation for two unknowns was solved")
	}
	copy(s.r[1], []float64{0, 3, 6})
	if x, ok := s.solve(); !ok || x[0] != 1.5 || x[1] != 2 {
		t.Errorf("%v, %v", x, ok)
	}
	copy(s.r[1], []float64{0, 1, 2})
	if x, ok := s.solve(); !ok || x[0] != 1.5 || x[1] != 2 {
		t.Errorf("%v, %v", x, ok)
	}
}
