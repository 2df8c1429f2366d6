package filter_test

import (
	"errors"
	"math"
	"slices"
	"testing"

	"example.com/furrow/filter"
)

var forms = []struct {
	name string
	f    filter.Form
}{
	{"mean", filter.Mean{}}, {"line", filter.Line{}}, {"total line", filter.TotalLine{}}, {"parabola", filter.Polynomial{Degree: 2}},
	{"degree 7", filter.Polynomial{Degree: 7}}, {"circle", filter.Circle{}}, {"circle of 5000", filter.Circle{Radius: 5000}},
	{"ellipse", filter.Ellipse{}},
}

func fit(t testing.TB, f filter.Form, z []float64, dx float64, use []bool) []float64 {
	t.Helper()
	w, err := f.Fit(nil, z, dx, use)
	if err != nil {
		t.Fatalf("%#v: %v", f, err)
	}
	return w
}

func squares(a, b []float64) (s float64) {
	for i := range a {
		s += (a[i] - b[i]) * (a[i] - b[i])
	}
	return s
}

// x = 0..4, z = 0, 1, 1, 3, 3: slope 0.8 by least squares in z, 0.8401970252 by total least squares, with sums of squares 0.8
// and 0.4784237983 (formula, computed in numpy).
func TestTotalLine(t *testing.T) {
	z := []float64{0, 1, 1, 3, 3}
	w := fit(t, filter.Line{}, z, 1, nil)
	near(t, "slope", w[1]-w[0], 0.8, 1e-12, "formula")
	near(t, "sum of squares", squares(w, z), 0.8, 1e-12, "formula")
	w = fit(t, filter.TotalLine{}, z, 1, nil)
	slope := w[1] - w[0]
	near(t, "slope", slope, 0.8401970252, 6e-11, "formula")
	near(t, "sum of squares at right angles", squares(w, z)/(1+slope*slope), 0.4784237983, 6e-11, "formula")
	if _, err := (filter.TotalLine{}).Fit(nil, []float64{-9, 9, -9, 9, 9, -9, 9, -9}, 1, nil); !errors.Is(err, filter.ErrNoFit) {
		t.Errorf("upright line: %v", err)
	}
}

func arc(n int, dx, r float64, sign float64) []float64 {
	z := make([]float64, n)
	for i := range z {
		x := (float64(i) - float64(n-1)/2) * dx
		z[i] = sign * (math.Sqrt(r*r-x*x) - r)
	}
	return z
}

// An arc of R = 12.5 mm over 4 mm: sagitta 161.037 µm; what a parabola and a polynomial of degree 4 leave; the circle leaves
// nothing.
func TestArc(t *testing.T) {
	z := arc(8001, 0.5, 12500, 1)
	near(t, "sagitta", -z[0], 161.037, 6e-4, "circle geometry")
	span := func(w []float64) float64 {
		lo, hi := math.Inf(1), math.Inf(-1)
		for i := range w {
			lo, hi = min(lo, z[i]-w[i]), max(hi, z[i]-w[i])
		}
		return hi - lo
	}
	near(t, "left by a parabola", span(fit(t, filter.Polynomial{Degree: 2}, z, 0.5, nil)), 0.3411, 1e-4, "numpy")
	near(t, "left by degree 4", span(fit(t, filter.Polynomial{Degree: 4}, z, 0.5, nil)), 1.33e-3, 5e-6, "numpy")
	near(t, "left by the circle", span(fit(t, filter.Circle{}, z, 0.5, nil)), 0, 1e-9, "exact")
	near(t, "left by the circle given", span(fit(t, filter.Circle{Radius: 12500}, z, 0.5, nil)), 0, 1e-9, "exact")
}

// Bulge and hollow, flat and round, tilted and noisy: the circle is found.
func TestCircleFinds(t *testing.T) {
	for _, c := range []struct{ r, sign, tilt, noise, tol float64 }{
		{2500, 1, 0, 0, 1e-8}, {2500, -1, 0, 0, 1e-8}, {25000, 1, 0.01, 0, 1e-3}, {1e6, 1, 0, 0, 1e-4}, {1e6, -1, 0.001, 0, 1e-4},
		{25000, 1, 0, 0.1, 2e-3}, {1e6, 1, 0, 0.1, 5e-2}, {1001, 1, 0, 0, 1e-6},
	} {
		z := arc(4001, 0.5, c.r, c.sign)
		for i, v := range rough(len(z), 3) {
			z[i] += c.noise*v + c.tilt*float64(i)*0.5
		}
		a, err := filter.Circle{}.Find(z, 0.5, nil)
		if err != nil {
			t.Fatal(err)
		}
		if math.Abs(a.Radius/c.r-1) > c.tol || a.Convex != (c.sign > 0) {
			t.Errorf("%+v: %+v", c, a)
		}
		w := fit(t, filter.Circle{}, z, 0.5, nil)
		if d := math.Sqrt(squares(w, z) / float64(len(z))); d > 0.7*c.noise+1e-3+c.tilt {
			t.Errorf("%+v: rms of the rest %g", c, d)
		}
		if fixed := fit(t, filter.Circle{Radius: c.r}, z, 0.5, nil); squares(fixed, z) < squares(w, z)*(1-1e-3)-1e-6 {
			t.Errorf("%+v: given radius fits better than the found one: %g, %g", c, squares(fixed, z), squares(w, z))
		}
	}
	flat, err := filter.Circle{}.Find([]float64{1, 2, 3, 4, 5}, 1, nil)
	if err != nil || flat.Radius < 1e12 {
		t.Errorf("straight line: %+v, %v", flat, err)
	}
	if _, err := (filter.Circle{Radius: 10}).Fit(nil, arc(4001, 0.5, 2500, 1), 0.5, nil); !errors.Is(err, filter.ErrNoFit) {
		t.Errorf("circle narrower than the profile: %v", err)
	}
}

// A wide arc of an ellipse comes back, axes and tilt included.
func TestEllipse(t *testing.T) {
	const long, short, tilt, n = 3000.0, 1200.0, 0.05, 4001
	sin, cos := math.Sincos(tilt)
	z := make([]float64, n)
	for i := range z {
		x := float64(i) - n/2 // spacing 1
		// Points of the tilted ellipse above x: the upper root of its quadratic equation.
		p, q := 1/(long*long), 1/(short*short)
		a := p*sin*sin + q*cos*cos
		b := 2 * x * sin * cos * (p - q)
		c := x*x*(p*cos*cos+q*sin*sin) - 1
		z[i] = (-b + math.Sqrt(b*b-4*a*c)) / (2 * a)
	}
	w := fit(t, filter.Ellipse{}, z, 1, nil)
	near(t, "rest", greatest(w, z), 0, 1e-7, "exact")
	hollow := negative(z)
	near(t, "rest of the hollow", greatest(fit(t, filter.Ellipse{}, hollow, 1, nil), hollow), 0, 1e-7, "exact")
	// A circle is an ellipse; a parabola is not one.
	round := arc(2001, 1, 3000, 1)
	near(t, "rest of the circle", greatest(fit(t, filter.Ellipse{}, round, 1, nil), round), 0, 1e-6, "exact")
	open := make([]float64, 2001)
	for i := range open {
		x := (float64(i) - 1000) / 1000
		open[i] = -1000 * (math.Sqrt(1+x*x) - 1) // a hyperbola
	}
	if _, err := (filter.Ellipse{}).Fit(nil, open, 1, nil); !errors.Is(err, filter.ErrNoFit) {
		t.Errorf("hyperbola: %v", err)
	}
}

// Polynomials of any degree up to 30 are taken away whole, and the orthogonal sum equals the normal equations.
func TestPolynomial(t *testing.T) {
	const n = 500
	z := make([]float64, n)
	for degree := 0; degree <= 30; degree += 3 {
		for i := range z {
			x := 2*float64(i)/(n-1) - 1
			z[i] = 3
			for k := 1; k <= degree; k++ {
				z[i] = z[i]*x + math.Sin(float64(k*k))
			}
		}
		near(t, "rest", greatest(fit(t, filter.Polynomial{Degree: degree}, z, 0.5, nil), z), 0, 1e-11, "exact")
	}
	z = rough(n, 17)
	rows := make([][]float64, 4)
	for r := range rows {
		rows[r] = make([]float64, 5)
		for i, v := range z {
			x := 2*float64(i)/(n-1) - 1
			for c := range 4 {
				rows[r][c] += math.Pow(x, float64(r+c))
			}
			rows[r][4] += math.Pow(x, float64(r)) * v
		}
	}
	c := solve(rows)
	want := make([]float64, n)
	for i := range want {
		x := 2*float64(i)/(n-1) - 1
		want[i] = c[0] + x*(c[1]+x*(c[2]+x*c[3]))
	}
	near(t, "degree 3", greatest(fit(t, filter.Polynomial{Degree: 3}, z, 0.5, nil), want), 0, 1e-12, "normal equations")
}

// Points that take no part may be anything and change nothing.
func TestFormsLeaveOut(t *testing.T) {
	z := arc(801, 0.5, 5000, 1)
	for i, v := range rough(len(z), 9) {
		z[i] += 0.2*v + 1e-3*float64(i)
	}
	use := make([]bool, len(z))
	other := slices.Clone(z)
	for i := range use {
		use[i] = i%10 != 3 && (i < 300 || i > 340)
		if !use[i] {
			z[i], other[i] = math.NaN(), 1e50
		}
	}
	for _, c := range forms {
		a := fit(t, c.f, z, 0.5, use)
		if d := greatest(a, fit(t, c.f, other, 0.5, use)); d > 0 {
			t.Errorf("%s: left-out points matter by %g", c.name, d)
		}
		if _, err := c.f.Fit(nil, z, 0.5, nil); !errors.Is(err, filter.ErrNotFinite) {
			t.Errorf("%s: NaN that takes part: %v", c.name, err)
		}
		if _, err := c.f.Fit(nil, z, 0.5, make([]bool, len(z))); !errors.Is(err, filter.ErrFewPoints) {
			t.Errorf("%s: no point takes part: %v", c.name, err)
		}
		if _, err := c.f.Fit(nil, z, -1, use); !errors.Is(err, filter.ErrSpacing) {
			t.Errorf("%s: negative spacing: %v", c.name, err)
		}
		// In place.
		b, err := c.f.Fit(other, other, 0.5, use)
		if err != nil || greatest(a, b) > 0 || &b[0] != &other[0] {
			t.Errorf("%s: in place: %v, %g", c.name, err, greatest(a, b))
		}
		for i := range other {
			other[i] = z[i]
			if !use[i] {
				other[i] = 1e50
			}
		}
	}
}

// A shape of a kind is its own fit, a line is no rest for any but the mean, and a shift of the profile shifts the fit.
func TestFormsProject(t *testing.T) {
	z := arc(801, 0.5, 5000, 1)
	for i, v := range rough(len(z), 9) {
		z[i] += 0.2*v + 1e-3*float64(i)
	}
	for _, c := range forms {
		w := fit(t, c.f, z, 0.5, nil)
		near(t, c.name+": fit of the fit", greatest(fit(t, c.f, w, 0.5, nil), w), 0, 1e-6, "a fit is a projection")
		high := slices.Clone(z)
		for i := range high {
			high[i] += 1000
		}
		for i, v := range fit(t, c.f, high, 0.5, nil) {
			if math.Abs(v-w[i]-1000) > 1e-6 {
				t.Fatalf("%s: shifted by %g", c.name, v-w[i])
			}
		}
	}
}
