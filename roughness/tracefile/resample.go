package tracefile

import (
	"fmt"
	"math"
	"sort"
)

// resample lays the points on an even grid of the given spacing by a natural cubic spline through the valid ones. A new point
// between two valid ones that have an invalid one between them is invalid.
func (r *reader) resample(t *Trace, l *layout, p *plan, rows *rows, spacing float64) error {
	var x, z []float64
	var before []int // how many points lie before, to see gaps
	for i, v := range rows.z {
		if v == v {
			x = append(x, p.xUnit.value(rows.x[i])-p.xUnit.value(rows.x[0]))
			z = append(z, v)
			before = append(before, i)
		}
	}
	length := p.xUnit.value(rows.x[len(rows.x)-1]) - p.xUnit.value(rows.x[0])
	count := math.Floor(length/spacing+1e-9) + 1
	if !(count < 1<<28) {
		return r.errorAt(l.start, because(ErrLimit, "resampling at %s µm would make %s points", number(spacing), number(count)))
	}
	if len(x) < 2 {
		return r.errorAt(l.start, because(ErrNoData, "resampling needs two valid points"))
	}
	s := newSpline(x, z)
	out := make([]float64, int(count))
	k := 0
	for i := range out {
		at := float64(i) * spacing
		for k+2 < len(x) && x[k+1] <= at {
			k++
		}
		switch tol := 1e-9 * spacing; {
		case at < x[0]-tol || at > x[len(x)-1]+tol,
			before[k+1]-before[k] > 1 && at > x[k]+tol && at < x[k+1]-tol:
			out[i] = math.NaN()
		default:
			out[i] = s.at(at, k)
		}
	}
	rows.missing = 0
	for _, v := range out {
		if v != v {
			rows.missing++
		}
	}
	t.Profile.Z, t.Profile.Spacing = out, spacing
	t.Report.SpacingBy = "resampled"
	t.note("resampled", fmt.Sprintf("%s were laid on an even grid of %s µm (%s) by a natural cubic spline, as asked.",
		plural(len(rows.z), "point"), number(spacing), plural(len(out), "point")))
	return nil
}

// spline is a natural cubic spline: second derivatives at the knots, 0 at both ends.
type spline struct{ x, z, m []float64 }

// newSpline solves the tridiagonal system for the second derivatives; x rises strictly.
func newSpline(x, z []float64) *spline {
	n := len(x)
	m, c := make([]float64, n), make([]float64, n)
	for i := 1; i+1 < n; i++ {
		h0, h1 := x[i]-x[i-1], x[i+1]-x[i]
		d := 6 * ((z[i+1]-z[i])/h1 - (z[i]-z[i-1])/h0)
		b := 2*(h0+h1) - float64(h0*c[i-1])
		c[i] = h1 / b
		m[i] = (d - float64(h0*m[i-1])) / b
	}
	for i := n - 2; i > 0; i-- {
		m[i] -= float64(c[i] * m[i+1])
	}
	return &spline{x, z, m}
}

// at evaluates in the interval from knot k.
func (s *spline) at(x float64, k int) float64 {
	if i := sort.SearchFloat64s(s.x, x); i < len(s.x) && s.x[i] == x {
		return s.z[i]
	}
	h := s.x[k+1] - s.x[k]
	a, b := (s.x[k+1]-x)/h, (x-s.x[k])/h
	return float64(a*s.z[k]) + float64(b*s.z[k+1]) + (float64((a*a*a-a)*s.m[k])+float64((b*b*b-b)*s.m[k+1]))*h*h/6
}
