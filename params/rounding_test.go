package params_test

import (
	"fmt"
	"math"
	"testing"

	"example.com/furrow/params"
	"example.com/furrow/standards"
)

// The window of Rzx(l) counts whole steps up to a billionth: just within that and just beyond.
func TestSlidingLengths(t *testing.T) {
	z := []float64{0, 1, 3, 6, 10, 15, 21, 28, 36, 45} // the height over k steps is largest at the end
	over := func(k int) float64 { return z[len(z)-1] - z[max(0, len(z)-1-k)] }
	for _, c := range []struct {
		length, want float64 // NaN: refused
	}{
		{3, over(3)}, {3 - 0.95e-9, over(3)}, {3 - 1.05e-9, over(2)}, {3.9, over(3)}, {1, over(1)}, {1 - 0.95e-9, over(1)}, {1 - 1.05e-9, math.NaN()}, {0.5, math.NaN()}, {0, math.NaN()}, {-1, math.NaN()},
		{9, over(9)}, {9.5, over(9)}, {10, over(9)}, {10 * (1 + 0.95e-9), over(9)}, {10 * (1 + 1.05e-9), math.NaN()}, {11, math.NaN()},
	} {
		in := params.Input{Z: z, Dx: 1, Section: 5}
		calls := params.Defaults(standards.ISO21920, 'R')
		found := false
		for _, call := range calls {
			if call.Parameter.Key != "Rzx" {
				continue
			}
			found = true
			call.Args = []float64{c.length}
			v := params.Evaluate(&in, call)[0]
			if math.IsNaN(c.want) != (v.Reason != "") || !math.IsNaN(c.want) && v.Value != c.want {
				t.Errorf("Rzx over %.12g: %v, %q, want %v", c.length, v.Value, v.Reason, c.want)
			}
		}
		if !found {
			t.Fatal(fmt.Sprint("no Rzx among ", len(calls)))
		}
	}
}

// A straight curve with its last point lowered: the lower limit of the core, half a step below the straight end, meets the curve between the
// last two points, and where that point lies on the limit itself no dale is left.
func TestCoreEndsAtTheLastPoint(t *testing.T) {
	for n := 8; n < 40; n++ {
		z := make([]float64, n)
		for i := range z {
			z[i] = -float64(i)
		}
		down, rmrk2 := 0.75, 100*(float64(n)-1.5+1.5/1.75)/float64(n)
		if n%4 == 0 {
			down, rmrk2 = 0.5, 100
		}
		z[n-1] -= down
		for name, want := range map[string]float64{"Rmrk2": rmrk2, "Rmrk1": 0} {
			call, err := params.Lookup(standards.ISO21920, 'R', name)
			if err != nil {
				t.Fatal(err)
			}
			in := &params.Input{Z: z, Dx: 1, Section: n}
			c, err := params.Construct(in, call)
			if v := params.Evaluate(in, call)[0].Value; err != nil || math.Abs(v-want) > 1e-9 || c.Result != v || len(c.Worked) == 0 || math.Abs(c.Worked[len(c.Worked)-1].Result-v) > 1e-9 {
				t.Errorf("%d points: %s is %v, worked out %v, want %v, %v", n, name, v, c.Worked, want, err)
			}
		}
	}
}
