package decide_test

import (
	"math"
	"testing"

	"gonum.org/v1/gonum/stat/distuv"

	"example.com/furrow/standards/decide"
)

func close(got, want, tol float64) bool { return math.Abs(got-want) <= tol*math.Max(1, math.Abs(want)) }

// Reference: gonum/stat/distuv.
func TestQuantiles(t *testing.T) {
	ps := []float64{1e-6, 0.001, 0.02275, 0.05, 0.158655, 0.3, 0.5, 0.6, 0.84, 0.95, 0.975, 0.99, 0.9995, 0.999999}
	n := distuv.UnitNormal
	for _, p := range ps {
		if got, want := decide.NormalQuantile(p), n.Quantile(p); !close(got, want, 1e-12) {
			t.Errorf("normal quantile of %g: %.16g, want %.16g", p, got, want)
		}
		for _, nu := range []float64{1, 2, 3, 4.5, 7, 16, 25.6, 100, 1e4} {
			s := distuv.StudentsT{Mu: 0, Sigma: 1, Nu: nu}
			if got, want := decide.StudentQuantile(p, nu), s.Quantile(p); !close(got, want, 1e-9) {
				t.Errorf("t quantile of %g, %g degrees: %.16g, want %.16g", p, nu, got, want)
			}
		}
		if decide.StudentQuantile(p, math.Inf(1)) != decide.NormalQuantile(p) {
			t.Errorf("t quantile of %g with infinitely many degrees of freedom is not normal", p)
		}
	}
	for _, x := range []float64{-8, -3, -1, 0, 0.5, 1.6449, 2.5, 6} {
		if got, want := decide.NormalCDF(x), n.CDF(x); !close(got, want, 1e-14) {
			t.Errorf("normal below %g: %.16g, want %.16g", x, got, want)
		}
		for _, nu := range []float64{1, 3, 25.6, 400} {
			s := distuv.StudentsT{Mu: 0, Sigma: 1, Nu: nu}
			if got, want := decide.StudentCDF(x, nu), s.CDF(x); !close(got, want, 1e-12) {
				t.Errorf("t below %g, %g degrees: %.16g, want %.16g", x, nu, got, want)
			}
		}
	}
	for _, f := range []float64{0.3, 1, 2.7, 9} {
		s := distuv.F{D1: 18, D2: 60}
		if got, want := decide.FTail(f, 18, 60), 1-s.CDF(f); !close(got, want, 1e-10) {
			t.Errorf("F above %g: %.12g, want %.12g", f, got, want)
		}
	}
}

// Published t factors: JCGM 100:2008, Table G.2.
func TestStudentTable(t *testing.T) {
	for _, c := range []struct{ p, nu, want float64 }{
		{0.95, 1, 12.71}, {0.95, 5, 2.57}, {0.95, 16, 2.12}, {0.99, 16, 2.92}, {0.9545, 10, 2.28}, {0.9545, 50, 2.05}, {0.6827, 3, 1.20},
	} {
		if got := decide.StudentQuantile((1+c.p)/2, c.nu); math.Abs(got-c.want) > 0.005 {
			t.Errorf("t(%g, %g) = %.4f, want %.2f", c.p, c.nu, got, c.want)
		}
	}
}
