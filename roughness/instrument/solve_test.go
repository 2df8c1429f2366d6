package instrument

import (
	"math"
	"math/rand/v2"
	"testing"
)

// Three equations have the solution that was put into them, whatever their order; equations that depend on each other have none.
func TestSolve3(t *testing.T) {
	r := rand.New(rand.NewPCG(1, 3))
	for i := range 300 {
		var m [3][4]float64
		want := [3]float64{float64(r.IntN(9) - 4), float64(r.IntN(9) - 4), float64(r.IntN(9) - 4)}
		for k := range m {
			for c := range 3 {
				m[k][c] = float64(r.IntN(7) - 3)
				m[k][3] += m[k][c] * want[c]
			}
		}
		det := m[0][0]*(m[1][1]*m[2][2]-m[1][2]*m[2][1]) - m[0][1]*(m[1][0]*m[2][2]-m[1][2]*m[2][0]) + m[0][2]*(m[1][0]*m[2][1]-m[1][1]*m[2][0])
		if det == 0 { // of which rounding may leave something
			continue
		}
		x, ok := solve3(m)
		for k := range x {
			if !ok || math.Abs(x[k]-want[k]) > 1e-9 {
				t.Errorf("%d: %v, want %v", i, x, want)
				break
			}
		}
	}
	for _, m := range [][3][4]float64{{{0, 0, 0, 1}, {0, 1, 0, 1}, {0, 0, 1, 1}}, {{1, 0, 0, 1}, {1, 0, 0, 1}, {0, 0, 1, 1}}, {{1, 2, 0, 1}, {2, 4, 0, 1}, {0, 0, 0, 1}}} {
		if x, ok := solve3(m); ok {
			t.Errorf("%v: %v", m, x)
		}
	}
}

// Where neighbours differ in sign, or are not alike at all, the variance is that of points on their own: s² Σ w², with s² = Σ r²/(n - 3). Where each two are alike, a
// distance of one counts too, with its weights twice.
func TestPropagated(t *testing.T) {
	const n = 40
	alternate, pairs, none, weights := make([]float64, n), make([]float64, n), make([]float64, n), make([]float64, n)
	for i := range n {
		alternate[i], weights[i] = 0.5-float64(i%2), 0.1*float64(1+i%3)
		pairs[i] = 2 * (0.5 - float64(i/2%2))
	}
	squares, next := 0.0, 0.0
	for i, w := range weights {
		squares += w * w
		if i > 0 {
			next += w * weights[i-1]
		}
	}
	for name, c := range map[string]struct {
		leaves        []float64
		variance, dof float64
	}{
		"alternating": {alternate, 0.25 * squares / (1 - 3.0/n), n}, "nothing left": {none, 0, n},
		// Of 39 neighbours 20 are equal and 19 opposite: c(1) = 1/39.
		"pairs": {pairs, (squares + 2*next/39) / (1 - 3*(1+2.0/39)/n), math.Floor(n / 3.0)},
	} {
		variance, dof := propagated(c.leaves, weights, n)
		if math.Abs(variance-c.variance) > 1e-12*c.variance || dof != c.dof {
			t.Errorf("%s: %g with %g degrees of freedom, want %g with %g", name, variance, dof, c.variance, c.dof)
		}
	}
	// A point that does not count is left out of the pairs.
	weights[7] = 0
	if variance, _ := propagated(alternate, weights, n-1); math.Abs(variance-0.25*(squares-0.04)/(1-3.0/(n-1))) > 1e-12 {
		t.Errorf("without a point: %g", variance)
	}
}

// The median is the middle value, or half way between two.
func TestMedian(t *testing.T) {
	for _, c := range []struct {
		z    []float64
		want float64
	}{{[]float64{3}, 3}, {[]float64{5, 1}, 3}, {[]float64{9, 1, 2}, 2}, {[]float64{4, 1, 9, 2}, 3}, {[]float64{1, 1, 1, 8, 9}, 1}} {
		if got := median(c.z); got != c.want {
			t.Errorf("%v: %g, want %g", c.z, got, c.want)
		}
	}
}

// Student's distribution has the variance ν/(ν - 2) (closed form) and a median of 0; with many degrees of freedom or 0, for infinitely many, it is the normal one.
func TestStudent(t *testing.T) {
	r := rand.New(rand.NewPCG(2, 7))
	const n = 200_000
	for _, c := range []struct{ dof, variance, within float64 }{{0, 1, 0.02}, {10, 10.0 / 8, 0.03}, {5.9, 5.0 / 3, 0.1}, {50, 50.0 / 48, 0.02}, {51, 1, 0.02}} {
		square, above := 0.0, 0
		for range n {
			x := student(r, c.dof)
			square += x * x
			if x > 0 {
				above++
			}
		}
		if math.Abs(square/n-c.variance) > c.within || math.Abs(float64(above)/n-0.5) > 0.005 {
			t.Errorf("%g degrees of freedom: variance %g, want %g; %g above 0", c.dof, square/n, c.variance, float64(above)/n)
		}
	}
}
