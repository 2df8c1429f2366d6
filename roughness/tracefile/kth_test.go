package tracefile

import (
	"math"
	"math/rand/v2"
	"slices"
	"testing"
)

// kthStep is what sorting gives.
func TestKthStep(t *testing.T) {
	r := rand.New(rand.NewPCG(1, 2))
	for n := 2; n < 60; n++ {
		x := make([]float64, n)
		for i := range x {
			switch r.IntN(4) {
			case 0:
				x[i] = float64(r.IntN(5)) - 2
			case 1:
				x[i] = math.Ldexp(r.Float64()-0.5, r.IntN(2000)-1000)
			default:
				x[i] = float64(i) * 0.25
			}
		}
		steps := make([]float64, n-1)
		for i := range steps {
			steps[i] = x[i+1] - x[i]
		}
		slices.Sort(steps)
		for k, want := range steps {
			if got := kthStep(x, k); got != want {
				t.Fatalf("%d of %v: %g, want %g", k, steps, got, want)
			}
		}
	}
}
