package filter_test

import (
	"math"
	"testing"

	"example.com/furrow/filter"
)

// A form does not depend on the unit of length: at a spacing and heights of any size the fit is the same multiple, and no square overflows.
func TestFormsScale(t *testing.T) {
	forms := map[string]filter.Form{"mean": filter.Mean{}, "line": filter.Line{}, "total line": filter.TotalLine{}, "polynomial": filter.Polynomial{Degree: 3}, "circle": filter.Circle{}}
	z := make([]float64, 200)
	for i := range z {
		x := float64(i) - 90
		z[i] = math.Sqrt(300*300-x*x) - 250 + float64(i*i%7)/4
	}
	for name, f := range forms {
		want, err := f.Fit(nil, z, 1, nil)
		if err != nil {
			t.Fatalf("%s: %v", name, err)
		}
		for _, power := range []int{-300, -200, -40, -3, 3, 40, 200, 300} { // powers of two are exact
			scaled := make([]float64, len(z))
			for i, v := range z {
				scaled[i] = math.Ldexp(v, power)
			}
			got, err := f.Fit(nil, scaled, math.Ldexp(1, power), nil)
			if err != nil {
				t.Errorf("%s at 2^%d: %v", name, power, err)
				continue
			}
			for i := range got {
				if d := math.Ldexp(got[i], -power) - want[i]; !(math.Abs(d) <= 1e-9) {
					t.Errorf("%s at 2^%d: point %d is %g off", name, power, i, d)
					break
				}
			}
		}
	}
	// A coarse spacing: the profile is wider than it is high, and the fit does not overflow.
	for _, power := range []int{20, 100, 200, 300} {
		dx := math.Ldexp(1, power)
		flat := make([]float64, 100)
		for i := range flat {
			x := float64(i) - 49.5
			flat[i] = math.Sqrt(100*100-x*x)*dx + float64(i%2)/8
		}
		for name, f := range map[string]filter.Form{"line": filter.Line{}, "total line": filter.TotalLine{}, "circle": filter.Circle{}, "ellipse": filter.Ellipse{}} {
			got, err := f.Fit(nil, flat, dx, nil)
			if err != nil {
				t.Errorf("%s, spacing 2^%d: %v", name, power, err)
				continue
			}
			for i, v := range got {
				if name == "circle" && !(math.Abs(v-flat[i]) < 1e-5*dx) || v-v != 0 {
					t.Errorf("%s, spacing 2^%d: point %d at %g, not %g", name, power, i, v, flat[i])
					break
				}
			}
		}
	}
}
