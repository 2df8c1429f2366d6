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

// The data of W. Gander, G. H. Golub and R. Strebel, BIT 34 (1994): centre (4.739782, 2.983533), radius 4.714226 by geometric
// least squares, residual sum of squares 1.227599.
func TestCircleGander(t *testing.T) {
	x, z := []float64{1, 2, 5, 7, 9, 3}, []float64{7, 6, 8, 7, 5, 7}
	c := &cloud{one: 1}
	for i := range x {
		c.u, c.v = append(c.u, x[i]), append(c.v, z[i])
	}
	found := func(radius float64) Arc {
		r, err := Circle{radius}.fit(c)
		if err != nil {
			t.Fatal(err)
		}
		return c.arc(r)
	}
	near := func(t *testing.T, what string, got, want, tol float64, source string) {
		t.Helper()
		if !(math.Abs(got-want) <= tol) {
			t.Errorf("%s = %.12g, want %.12g (tolerance %.1g, %s)", what, got, want, tol, source)
		}
	}
	a := found(0)
	near(t, "x", a.X, 4.739782, 6e-7, "Gander, Golub, Strebel 1994")
	near(t, "z", a.Z, 2.983533, 6e-7, "Gander, Golub, Strebel 1994")
	near(t, "radius", a.Radius, 4.714226, 6e-7, "Gander, Golub, Strebel 1994")
	s := 0.0
	for i := range x {
		d := math.Hypot(x[i]-a.X, z[i]-a.Z) - a.Radius
		s += d * d
	}
	near(t, "sum of squares", s, 1.227599, 6e-7, "computed in numpy")
	a = found(4.714226)
	near(t, "x for the radius given", a.X, 4.739782, 6e-6, "the same circle")
	near(t, "z for the radius given", a.Z, 2.983533, 6e-6, "the same circle")
}
