package filter

import (
	"math"
	"testing"
)

// A damped triangle solves (AᵀA + d·diag(AᵀA))·x = Aᵀb, here by Cramer's rule; without damping, the least squares.
func TestDampedByCramer(t *testing.T) {
	rows := [][]float64{{1, 2, 0.5}, {-3, 1, 2}, {0.25, -1, 4}, {2, 2, -1}, {0, 5, 1}}
	right := []float64{1, -2, 3, 0.5, 7}
	for _, damping := range []float64{0, 1e-3, 0.25, 1, 40} {
		l := newLittle(3)
		var a [3][3]float64
		var b [3]float64
		for i, row := range rows {
			l.add(row, right[i])
			for j := range 3 {
				for k := range 3 {
					a[j][k] += row[j] * row[k]
				}
				b[j] += row[j] * right[i]
			}
		}
		for j := range 3 {
			a[j][j] *= 1 + damping
		}
		det := func(m [3][3]float64) float64 {
			return m[0][0]*(m[1][1]*m[2][2]-m[1][2]*m[2][1]) - m[0][1]*(m[1][0]*m[2][2]-m[1][2]*m[2][0]) + m[0][2]*(m[1][0]*m[2][1]-m[1][1]*m[2][0])
		}
		x, ok := l.damped(damping)
		for j := range 3 {
			m := a
			for k := range 3 {
				m[k][j] = b[k]
			}
			if want := det(m) / det(a); !ok || math.Abs(x[j]-want) > 1e-12 {
				t.Errorf("damping %g: x%d = %v, want %v", damping, j, x, want)
			}
		}
		again, _ := l.solve()
		if damping == 0 {
			for j := range x {
				if math.Abs(again[j]-x[j]) > 1e-13 {
					t.Errorf("undamped %v, solved %v", x, again)
				}
			}
		}
	}
	l := newLittle(2) // both columns are one
	l.add([]float64{1, 1}, 3)
	if x, ok := l.solve(); ok {
		t.Errorf("two unknowns from one row: %v", x)
	}
	if x, ok := newLittle(2).damped(0.5); ok {
		t.Errorf("two unknowns from nothing: %v", x)
	}
}

// The search ends at the least squares: at once where the rows are linear, along the curved valley of Rosenbrock at (1, 1), and at a stationary
// point where nothing vanishes; it never leaves the start where there is no value.
func TestDescend(t *testing.T) {
	line := func(p []float64, i int, d []float64) (float64, bool) {
		x, z := float64(i), []float64{0, 1, 1, 3, 3}[i]
		d[0], d[1] = 1, x
		return p[0] + p[1]*x - z, true
	}
	if p, s := descend(5, []float64{1e6, -1e6}, line); math.Abs(p[0]) > 1e-9 || math.Abs(p[1]-0.8) > 1e-9 || math.Abs(s-0.8) > 1e-12 { // slope 0.8 through the mean (2, 1.6)
		t.Errorf("line %v, %v", p, s)
	}
	calls := 0
	valley := func(p []float64, i int, d []float64) (float64, bool) {
		calls++
		if i == 0 {
			d[0], d[1] = -20*p[0], 10
			return 10 * (p[1] - p[0]*p[0]), true
		}
		d[0], d[1] = -1, 0
		return 1 - p[0], true
	}
	for _, start := range [][]float64{{-1.2, 1}, {1, 1}, {0, 0}, {40, -7}} {
		calls = 0
		if p, s := descend(2, start, valley); math.Abs(p[0]-1) > 1e-9 || math.Abs(p[1]-1) > 1e-9 || s > 1e-18 || calls > 700 {
			t.Errorf("from %v: %v, %v, after %d rows", start, p, s, calls)
		}
	}
	// (x² + 1)² is least at 0, where its derivative vanishes and so does the column.
	if p, s := descend(1, []float64{1}, func(p []float64, _ int, d []float64) (float64, bool) { d[0] = 2 * p[0]; return p[0]*p[0] + 1, true }); math.Abs(p[0]) > 1e-3 || s < 1 || s > 1+1e-5 {
		t.Errorf("%v, %v", p, s)
	}
	for _, v := range []float64{math.NaN(), 1} {
		p, s := descend(3, []float64{2}, func(_ []float64, i int, _ []float64) (float64, bool) { return v, i != 2 })
		if p[0] != 2 || !math.IsInf(s, 1) {
			t.Errorf("no value at the start: %v, %v", p, s)
		}
	}
	// √x has a value from 0 on alone: a step beyond is taken back.
	p, s := descend(1, []float64{100}, func(p []float64, _ int, d []float64) (float64, bool) {
		d[0] = 0.5 / math.Sqrt(p[0])
		return math.Sqrt(p[0]) - 1e-3, p[0] >= 0
	})
	if math.Abs(p[0]-1e-6) > 1e-12 || s > 1e-12 {
		t.Errorf("root: %v, %v", p, s)
	}
}
