package params

import (
	"math"
	"testing"
)

// A plateau that is level within the tolerance: its height is the mean of its points, and its ratios are where they begin and end.
func TestLevelCore(t *testing.T) {
	for _, c := range []struct {
		z              []float64
		at             int
		tolerance      float64
		first, last    int
		ratio1, ratio2 float64
	}{
		{[]float64{10, 2.25, 2.125, 2, 2, 1.75, -5}, 3, 0.25, 1, 5, 1.5 / 7, 5.5 / 7},
		{[]float64{10, 2.26, 2.25, 2, 2, 1.74, -5}, 3, 0.25, 2, 4, 2.5 / 7, 4.5 / 7},
		{[]float64{2.25, 2, 2, 1.75}, 1, 0.25, 0, 3, 0, 1},
		{[]float64{3, 2, 1}, 1, 0, 1, 1, 1.5 / 3, 1.5 / 3},
	} {
		k := core{}
		k.first, k.last = c.at, c.at
		k.level(c.z, c.tolerance)
		mean := 0.0
		for _, v := range c.z[c.first : c.last+1] {
			mean += v / float64(c.last+1-c.first)
		}
		if math.Abs(k.upper-mean) > 1e-15 || k.lower != k.upper || k.slope != 0 || k.ratio1 != c.ratio1 || k.ratio2 != c.ratio2 {
			t.Errorf("%v: %v from %v to %v, want %v from %v to %v", c.z, k.upper, k.ratio1, k.ratio2, mean, c.ratio1, c.ratio2)
		}
	}
}

// An end of the probability curve begins where its second derivative passes the limit, which is a billionth of the range where the middle is
// straight, and six standard deviations where it is not.
func TestCutEnds(t *testing.T) {
	s, z := make([]float64, 101), make([]float64, 101)
	for _, c := range []struct {
		bend, rough float64 // of the range
		from, to    int
	}{{0.95e-9, 0, 0, 101}, {1.05e-9, 0, 10, 91}, {-1.05e-9, 0, 10, 91}, {0.05, 0.009, 0, 101}, {0.05, 0.0083, 10, 91}} {
		for i := range z {
			s[i], z[i] = float64(i-50)/10, 100-float64(i)
			if i < 10 {
				z[i] += float64(10-i) * c.bend * 100
			}
			if i > 90 {
				z[i] -= float64(i-90) * c.bend * 100
			}
			if i > 10 && i < 90 { // a second derivative of + and - 4 times as much, but for the ends
				z[i] += float64(1-i%2*2) * c.rough * 100 / 4
			}
		}
		if c.rough > 0 { // the roughness would be seen outside the middle half itself, at its ends
			for i := range z {
				if i < 24 || i > 76 {
					z[i] = 100 - float64(i)
					if i < 10 {
						z[i] += float64(10-i) * c.bend * 100
					}
					if i > 90 {
						z[i] -= float64(i-90) * c.bend * 100
					}
				}
			}
		}
		from, to := cutEnds(s, z, 0)
		if from != c.from || to != c.to {
			t.Errorf("bend %g, roughness %g: from %d to %d, want %d and %d", c.bend, c.rough, from, to, c.from, c.to)
		}
	}
}
