package params_test

import (
	"math"

	"gonum.org/v1/gonum/mat"
	"gonum.org/v1/gonum/stat/distuv"
)

// probability are Rpq, Rvq and Rmq by ISO 13565-3, annex A, as remembered: the conic by a general least-squares routine, the normal
// distribution of a general library, and where a ray meets the conic by the quadratic equation along it.
func (s plainly) probability() (out [3]float64) {
	nan := [3]float64{math.NaN(), math.NaN(), math.NaN()}
	z, n := s.falling(), float64(len(s.z))
	if len(z) < 100 {
		return nan
	}
	quantile := func(i int) float64 { return distuv.UnitNormal.Quantile((float64(i) + 0.5) / n) }
	var x, y []float64
	for k := -60; k <= 60; k++ {
		at := float64(k) * 0.05
		if math.Abs(at) > quantile(len(z)-1)+1e-9 {
			continue
		}
		i := 0
		for i+2 < len(z) && quantile(i+1) <= at {
			i++
		}
		x, y = append(x, at), append(y, z[i]+(z[i+1]-z[i])*(at-quantile(i))/(quantile(i+1)-quantile(i)))
	}
	// The first conic says where the bend is; the second derivative beside it where the ends begin.
	bend, ok := meets(x, y, 0, 0)
	if !ok {
		return nan
	}
	middle := 0
	for middle < len(x)-1 && x[middle] < bend {
		middle++
	}
	curvature := func(i int) float64 { return y[i+1] - 2*y[i] + y[i-1] }
	var inner []float64
	a, b := max(1, middle-len(x)/4), min(len(x)-1, middle+len(x)/4+1)
	for i := a; i < b; i++ {
		inner = append(inner, curvature(i))
	}
	limit := max(6*deviation(inner), 1e-9*total(plainly{z: y}))
	from, to := a-1, b
	for from > 0 && math.Abs(curvature(from)) <= limit {
		from--
	}
	for to < len(x)-1 && math.Abs(curvature(to)) <= limit {
		to++
	}
	x, y = x[from:to+1], y[from:to+1]
	if len(x) < 8 {
		return nan
	}
	end, ok1 := meets(x, y, 7./8, 0)
	start, ok2 := meets(x, y, 0, 7./8)
	if !ok1 || !ok2 || end > start {
		return nan
	}
	var px, py, dx, dy []float64
	for i, v := range x {
		if v <= end+5e-8 {
			px, py = append(px, v), append(py, y[i])
		}
		if v >= start-5e-8 {
			dx, dy = append(dx, v), append(dy, y[i])
		}
	}
	if len(px) < 4 || len(dx) < 4 {
		return nan
	}
	b1, m1 := fitted(px, py)
	b2, m2 := fitted(dx, dy)
	cross := (b2 - b1) / (m1 - m2)
	if !(m2 < m1 && m1 <= 0 && cross > x[0] && cross < x[len(x)-1]) {
		return nan
	}
	return [3]float64{-m1, -m2, 100 * distuv.UnitNormal.CDF(cross)}
}

// fitted is the line through points by the normal equations: its height at 0 and its slope.
func fitted(x, y []float64) (offset, slope float64) {
	var n, sx, sy, sxx, sxy float64
	for i := range x {
		n, sx, sy, sxx, sxy = n+1, sx+x[i], sy+y[i], sxx+x[i]*x[i], sxy+x[i]*y[i]
	}
	slope = (n*sxy - sx*sy) / (n*sxx - sx*sx)
	return (sy - slope*sx) / n, slope
}

// meets fits a hyperbola to a falling curve in a unit square and says where a ray from its centre meets it: that which leaves the bisector
// of the asymptotes by a share of the angle towards the plateau or the dale.
func meets(x, y []float64, toPlateau, toDale float64) (float64, bool) {
	n := len(x)
	left, right, top, bottom := x[0], x[n-1], y[0], y[n-1]
	if n < 5 || !(top > bottom) {
		return 0, false
	}
	rows, side := mat.NewDense(n, 5, nil), mat.NewVecDense(n, nil)
	for i := range x {
		u, v := (x[i]-left)/(right-left), (y[i]-bottom)/(top-bottom)
		rows.SetRow(i, []float64{u * u, u * v, v * v, u, 1})
		side.SetVec(i, v)
	}
	var c mat.VecDense
	if err := c.SolveVec(rows, side); err != nil {
		return 0, false
	}
	a, b, d := c.AtVec(0), c.AtVec(1), c.AtVec(2)
	at := func(u, v float64) float64 { return a*u*u + b*u*v + d*v*v + c.AtVec(3)*u + c.AtVec(4) - v }
	if !(b*b-4*a*d > 1e-12) || d == 0 {
		return 0, false
	}
	root := math.Sqrt(b*b - 4*a*d)
	flat, steep := max((-b+root)/2/d, (-b-root)/2/d), min((-b+root)/2/d, (-b-root)/2/d)
	var centre mat.VecDense
	if err := centre.SolveVec(mat.NewDense(2, 2, []float64{2 * a, b, b, 2 * d}), mat.NewVecDense(2, []float64{-c.AtVec(3), 1})); err != nil {
		return 0, false
	}
	plateau, dale := math.Atan2(-flat, -1), math.Atan2(steep, 1) // directions from the centre
	for plateau < dale {
		plateau += 2 * math.Pi
	}
	if plateau-dale > math.Pi { // the smaller angle between them
		plateau -= 2 * math.Pi
	}
	angle := (plateau + dale) / 2
	angle += (plateau-angle)*toPlateau + (dale-angle)*toDale
	u, v := centre.AtVec(0), centre.AtVec(1)
	along := func(t float64) float64 { return at(u+t*math.Cos(angle), v+t*math.Sin(angle)) }
	p0, p1, p2 := along(0), along(1), along(-1)
	square, linear := (p1+p2)/2-p0, (p1-p2)/2
	t := math.Sqrt(max(0, linear*linear/4/square/square-p0/square)) - linear/2/square
	hit := u + t*math.Cos(angle)
	return left + (right-left)*hit, hit > 0 && hit < 1
}
