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
	for damping, passes := 1e-3, 0; passes < 200 && !math.IsInf(least, 1); passes++ {
		t := newLittle(k)
		for i := range n {
			r, _ := row(best, i, d)
			t.add(d, -r)
		}
		for {
			step, ok := t.damped(damping)
			if !ok {
				return best, least
			}
			next, change := make([]float64, k), 0.0
			for j := range next {
				next[j] = best[j] + step[j]
				change = max(change, math.Abs(step[j])/(math.Abs(best[j])+1e-6))
			}
			s := sum(next)
			if change < 1e-9 {
				// One plain step removes what the damping leaves, so that the result does not depend on the way here.
				if step, ok = t.damped(0); ok {
					for j := range next {
						next[j] = best[j] + step[j]
					}
					if plain := sum(next); plain <= least*(1+1e-12) {
						return next, plain
					}
				}
				return best, least
			}
			if s <= least {
				best, least = next, s
				damping = max(damping/100, 1e-15)
				break
			}
			if damping *= 10; damping > 1e9 {
				return best, least
			}
		}
	}
	return best, least
}

// A little is a small triangle with its right side, to which rows are rotated one after the other.
type little struct {
	k   int
	r   [][]float64 // row j holds columns 0..k, the last one the right side
	row []float64
}

func newLittle(k int) *little {
	t := &little{k: k, row: make([]float64, k+1)}
	for range k {
		t.r = append(t.r, make([]float64, k+1))
	}
	return t
}

func (t *little) add(row []float64, right float64) {
	copy(t.row, row)
	t.row[t.k] = right
	t.rotate(t.row)
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
		v[j] = math.Sqrt(damping * size) // nothing to rotate without damping
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
		x[j] = v / t.r[j][j] // by 0: no number
		if math.IsNaN(x[j]) || math.IsInf(x[j], 0) {
			return nil, false
		}
	}
	return x, true
}
