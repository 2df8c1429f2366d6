package filter

import (
	"math"
	"testing"
)

// The algebraic circle from which the search starts, on the data of W. Gander, G. H. Golub and R. Strebel, BIT 34 (1994): centre
// (4.742331, 3.835123), radius 4.108762 (linear least squares, also computed in numpy).
func TestCircleStart(t *testing.T) {
	x, z := []float64{1, 2, 5, 7, 9, 3}, []float64{7, 6, 8, 7, 5, 7}
	c := &cloud{one: 2, meanX: 4.5, meanZ: 6.5}
	for i := range x {
		c.u, c.v = append(c.u, (x[i]-c.meanX)/c.one), append(c.v, (z[i]-c.meanZ)/c.one)
	}
	a := c.arc(c.algebraic())
	for _, v := range [][2]float64{{a.X, 4.742331}, {a.Z, 3.835123}, {a.Radius, 4.108762}} {
		if math.Abs(v[0]-v[1]) > 6e-7 {
			t.Errorf("%.8f, want %.6f", v[0], v[1])
		}
	}
}

// The exponential, written out, is that of the standard library to a unit in the last place.
func TestExp(t *testing.T) {
	for x := -745.0; x < 709; x += 0.37 {
		if a, b := exp(x), math.Exp(x); math.Abs(a-b) > 2.3e-16*b+5e-324 {
			t.Errorf("exp(%v) = %v, want %v", x, a, b)
		}
	}
	if exp(-1000) != 0 || !math.IsInf(exp(800), 1) || !math.IsNaN(exp(math.NaN())) || exp(0) != 1 {
		t.Error("limits of exp")
	}
}
