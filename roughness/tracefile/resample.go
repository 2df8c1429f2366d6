package tracefile

import (
	"fmt"
	"math"
)

// maxFiner bounds the points that resampling makes where they are more than four times those there are.
const maxFiner = 1 << 22

// resample lays the points at x (µm, rising strictly from 0) on an even grid by a natural cubic spline through the valid ones. A
// new point between two valid ones that have an invalid one between them is invalid. x and the heights of t are used up.
func resample(t *Trace, x []float64, spacing float64) *Error {
	length, points := x[len(x)-1], len(x)
	xs, z, gaps := valid(x, t.Profile.Z)
	count := math.Floor(length/spacing+1e-9) + 1
	switch {
	case !(count <= max(maxFiner, 4*float64(points))):
		return &Error{Err: because(ErrLimit, "resampling at %s µm would make %s points", number(spacing), number(count))}
	case len(xs) < 2:
		return &Error{Err: because(ErrNoData, "resampling needs two valid points")}
	}
	s := newSpline(xs, z)
	out := make([]float64, int(count))
	tolerance := 1e-9 * spacing
	k := 0
	for i := range out {
		at := float64(i) * spacing
		for k+2 < len(xs) && xs[k+1] <= at {
			k++
		}
		switch {
		case at < xs[0]-tolerance || at > xs[len(xs)-1]+tolerance,
			gaps != nil && gaps[k+1] && at > xs[k]+tolerance && at < xs[k+1]-tolerance:
			out[i] = math.NaN()
		default:
			out[i] = s.at(at, k)
		}
	}
	t.note("resampled", fmt.Sprintf("%s were resampled to an even grid of %s µm (%s) by a natural cubic spline, as asked.",
		plural(points, "point"), number(spacing), plural(len(out), "point")))
	t.Profile.Z, t.Profile.Spacing = out, spacing
	t.Report.SpacingBy = "resampled"
	return nil
}

// valid moves the valid points to the front of both slices. gaps, nil where all are valid, says of each point whether an invalid one
// stands before it.
func valid(x, z []float64) (_, _ []float64, gaps []bool) {
	k, gap := 0, false
	for i, v := range z {
		if v != v {
			if gaps == nil {
				gaps = make([]bool, len(z))
			}
			gap = true
			continue
		}
		if gaps != nil {
			gaps[k] = gap
		}
		x[k], z[k], gap = x[i], v, false
		k++
	}
	return x[:k], z[:k], gaps
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
	switch x {
	case s.x[k]:
		return s.z[k]
	case s.x[k+1]:
		return s.z[k+1]
	}
	h := s.x[k+1] - s.x[k]
	a, b := (s.x[k+1]-x)/h, (x-s.x[k])/h
	return float64(a*s.z[k]) + float64(b*s.z[k+1]) + (float64((a*a*a-a)*s.m[k])+float64((b*b*b-b)*s.m[k+1]))*h*h/6
}
