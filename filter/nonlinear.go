package filter

import "math"

// A rowOf gives, for the unknowns p, the residual of point i and its derivatives by each unknown. It says false where p has
// no value at the point.
type rowOf func(p []float64, i int, derivatives []float64) (residual float64, ok bool)

// descend looks for the unknowns with the least sum of squared residuals over n points, from start (Levenberg-Marquardt; each
// step is solved by rotations, not by normal equations). It returns the best found and their sum of squares, +Inf where start
// itself has no value.
func descend(n int, start []float64, row rowOf) (best []float64, least float64) {
	k := len(start)
	best = append([]float64(nil), start...)
	d := make([]float64, k)
	sum := func(p []float64) float64 {
		s := 0.0
		for i := range n {
			r, ok := row(p, i, d)
			if !ok || math.IsNaN(r) {
				return math.Inf(1)
			}
			s += float64(r * r)
		}
		return s
	}
	least = sum(best)
	if math.IsInf(least, 1) {
		return best, least
	}
	damping := 1e-3
	for range 200 {
		t := newLittle(k)
		for i := range n {
			r, _ := row(best, i, d)
			t.add(d, -r)
		}
		improved := false
		for range 30 {
			step, ok := t.damped(damping)
			if !ok {
				break
			}
			next := make([]float64, k)
			change := 0.0
			for j := range next {
				next[j] = best[j] + step[j]
				change = max(change, math.Abs(step[j])/(math.Abs(best[j])+1e-6))
			}
			if s := sum(next); s <= least {
				settled := change < 1e-11 || least-s <= 1e-15*least
				best, least = next, s
				damping = max(damping/100, 1e-15)
				improved = !settled
				break
			}
			if change < 1e-11 || damping > 1e6 {
				break
			}
			damping *= 10
		}
		if !improved {
			break
		}
	}
	// Two plain steps take away what the damping left, so that the result does not hang on where the descent ended.
	for range 2 {
		t := newLittle(k)
		for i := range n {
			r, _ := row(best, i, d)
			t.add(d, -r)
		}
		step, ok := t.solve()
		if !ok {
			break
		}
		next := make([]float64, k)
		for j := range next {
			next[j] = best[j] + step[j]
		}
		s := sum(next)
		if !(s <= least*(1+1e-9)) {
			break
		}
		best, least = next, s
	}
	return best, least
}

// A little is a small triangle with its right side, to which rows are rotated one after the other.
type little struct {
	k int
	r [][]float64 // row j holds columns 0..k, the last one the right side
}

func newLittle(k int) *little {
	t := &little{k: k}
	for range k {
		t.r = append(t.r, make([]float64, k+1))
	}
	return t
}

func (t *little) add(row []float64, right float64) {
	v := append(append(make([]float64, 0, t.k+1), row...), right)
	t.rotate(v)
}

func (t *little) rotate(v []float64) {
	for c := range t.k {
		if v[c] == 0 {
			continue
		}
		own := t.r[c]
		cos, sin, r := givens(own[c], v[c])
		for j := c + 1; j <= t.k; j++ {
			own[j], v[j] = float64(cos*own[j])+float64(sin*v[j]), float64(cos*v[j])-float64(sin*own[j])
		}
		own[c], v[c] = r, 0
	}
}

// damped solves with a row √damping times the size of each column added.
func (t *little) damped(damping float64) (x []float64, ok bool) {
	c := newLittle(t.k)
	for j := range t.r {
		copy(c.r[j], t.r[j])
	}
	for j := range t.k {
		size := 0.0
		for i := 0; i <= j; i++ {
			size += float64(t.r[i][j] * t.r[i][j])
		}
		v := make([]float64, t.k+1)
		v[j] = math.Sqrt(damping * size)
		c.rotate(v)
	}
	return c.solve()
}

func (t *little) solve() (x []float64, ok bool) {
	x = make([]float64, t.k)
	for j := t.k - 1; j >= 0; j-- {
		v := t.r[j][t.k]
		for i := j + 1; i < t.k; i++ {
			v -= float64(t.r[j][i] * x[i])
		}
		if t.r[j][j] == 0 {
			return nil, false
		}
		x[j] = v / t.r[j][j]
		if math.IsNaN(x[j]) || math.IsInf(x[j], 0) {
			return nil, false
		}
	}
	return x, true
}
