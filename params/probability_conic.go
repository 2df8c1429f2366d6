package params

import "math"

// A conic is z = a s² + b s z + c z² + d s + e, a hyperbola, fitted to a curve that was mapped on the unit square, with
// its centre and asymptotes.
type conic struct {
	a, b, c, d, e  float64
	s0, z0, ds, dz float64 // the unit square in the units of the curve: s = s0 + ds·u
	centre         [2]float64
	plateau, dale  [2]float64 // unit vectors from the centre, left along the one asymptote and right along the other
	value          float64    // of the polynomial at the centre
}

// fitUnitConic fits a conic to the falling curve, its least squares in the algebraic form, and reports whether it is a
// hyperbola with one flat and one steep asymptote. It needs six columns to work in.
func fitUnitConic(s, z, columns []float64) (conic, bool) {
	n := len(s)
	q := conic{s0: s[0], ds: s[n-1] - s[0], z0: z[n-1], dz: z[0] - z[n-1]}
	if !(q.dz > 0) || n < 5 {
		return q, false
	}
	column := func(k int) []float64 { return columns[k*n : (k+1)*n] }
	for i := range s {
		u, v := (s[i]-q.s0)/q.ds, (z[i]-q.z0)/q.dz
		column(0)[i], column(1)[i], column(2)[i] = u*u, u*v, v*v
		column(3)[i], column(4)[i], column(5)[i] = u, 1, v
	}
	x, ok := leastSquares(columns, n)
	if !ok {
		return q, false
	}
	q.a, q.b, q.c, q.d, q.e = x[0], x[1], x[2], x[3], x[4]

	discriminant := float64(q.b*q.b) - float64(4*q.a*q.c)
	if !(discriminant > 1e-12) || q.c == 0 {
		return q, false
	}
	root := math.Sqrt(discriminant)
	m1, m2 := (-q.b+root)/(2*q.c), (-q.b-root)/(2*q.c)
	flat, steep := max(m1, m2), min(m1, m2)
	q.plateau, q.dale = unit(-1, -flat), unit(1, steep)
	// The centre is where both derivatives vanish: 2a s + b z + d = 0 and b s + 2c z - 1 = 0.
	q.centre[0] = (float64(q.b) + float64(2*q.c*q.d)) / discriminant
	q.centre[1] = (float64(-q.b*q.d) - float64(2*q.a)) / discriminant
	u, v := q.centre[0], q.centre[1]
	q.value = float64(q.a*u*u) + float64(q.b*u*v) + float64(q.c*v*v) + float64(q.d*u) - v + q.e
	return q, true
}

// bisector returns the direction from the centre that halves the angle between the two asymptotes, on the side of the
// curve.
func (q *conic) bisector() [2]float64 { return between(q.plateau, q.dale) }

// meets returns the s at which a ray from the centre meets the curve, and reports whether that is beside the curve
// that was fitted. Two exactly straight lines are a conic through its own centre, where every ray meets it at once.
func (q *conic) meets(direction [2]float64) (float64, bool) {
	u, v := direction[0], direction[1]
	form := float64(q.a*u*u) + float64(q.b*u*v) + float64(q.c*v*v)
	t := math.Sqrt(max(0, -q.value/form))
	at := q.centre[0] + float64(t*u)
	return q.s0 + float64(q.ds*at), at > 0 && at < 1
}

func unit(x, y float64) [2]float64 {
	l := math.Sqrt(float64(x*x) + float64(y*y))
	return [2]float64{x / l, y / l}
}

// between returns the unit vector that halves the angle between two.
func between(a, b [2]float64) [2]float64 { return unit(a[0]+b[0], a[1]+b[1]) }

// leastSquares solves for the five coefficients of columns 0 … 4 that come nearest to column 5, by orthogonalising the
// columns in turn, twice each; it reports false when a column says nothing new. The columns are overwritten.
func leastSquares(columns []float64, n int) (x [5]float64, ok bool) {
	var r [6][6]float64
	column := func(k int) []float64 { return columns[k*n : (k+1)*n] }
	for k := range 6 {
		c := column(k)
		before := norm(c)
		for range 2 {
			for j := range k {
				q := column(j)
				dot := 0.0
				for i := range c {
					dot += float64(q[i] * c[i])
				}
				r[j][k] += dot
				for i := range c {
					c[i] -= float64(dot * q[i])
				}
			}
		}
		if k == 5 {
			break
		}
		r[k][k] = norm(c)
		if !(r[k][k] > 1e-13*before) {
			return x, false
		}
		for i := range c {
			c[i] /= r[k][k]
		}
	}
	for k := 4; k >= 0; k-- {
		x[k] = r[k][5]
		for j := k + 1; j < 5; j++ {
			x[k] -= float64(r[k][j] * x[j])
		}
		x[k] /= r[k][k]
	}
	return x, true
}

func norm(c []float64) float64 {
	sum := 0.0
	for _, v := range c {
		sum += float64(v * v)
	}
	return math.Sqrt(sum)
}
