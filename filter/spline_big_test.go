package filter_test

import (
	"math"
	"math/big"
	"testing"

	"example.com/furrow/filter"
)

// bigSpline solves the equation of the spline with 250 bits, by elimination of the five diagonals without any care.
func bigSpline(z []float64, m, tension float64) []float64 {
	n := len(z)
	num := func(v float64) *big.Float { return new(big.Float).SetPrec(250).SetFloat64(v) }
	add := func(x, y *big.Float) *big.Float { return new(big.Float).SetPrec(250).Add(x, y) }
	mul := func(x, y *big.Float) *big.Float { return new(big.Float).SetPrec(250).Mul(x, y) }
	div := func(x, y *big.Float) *big.Float { return new(big.Float).SetPrec(250).Quo(x, y) }
	neg := func(x *big.Float) *big.Float { return new(big.Float).SetPrec(250).Neg(x) }
	a := num(1 / (2 * math.Sin(math.Pi/m)))
	a2 := mul(a, a)
	p, q := mul(num(tension), a2), mul(num(1-tension), mul(a2, a2))
	d, e, f := make([]*big.Float, n), make([]*big.Float, n), make([]*big.Float, n)
	b := make([]*big.Float, n)
	for i := range n {
		d[i], e[i], f[i], b[i] = num(1), num(0), num(0), num(z[i])
	}
	for i := 0; i+1 < n; i++ {
		d[i], d[i+1] = add(d[i], p), add(d[i+1], p)
		e[i] = add(e[i], neg(p))
	}
	for i := 0; i+2 < n; i++ {
		d[i], d[i+1], d[i+2] = add(d[i], q), add(d[i+1], mul(num(4), q)), add(d[i+2], q)
		e[i], e[i+1] = add(e[i], mul(num(-2), q)), add(e[i+1], mul(num(-2), q))
		f[i] = add(f[i], q)
	}
	for i := range n {
		if i+1 < n {
			l := div(e[i], d[i])
			d[i+1] = add(d[i+1], neg(mul(l, e[i])))
			e[i+1] = add(e[i+1], neg(mul(l, f[i])))
			b[i+1] = add(b[i+1], neg(mul(l, b[i])))
		}
		if i+2 < n {
			l := div(f[i], d[i])
			d[i+2] = add(d[i+2], neg(mul(l, f[i])))
			b[i+2] = add(b[i+2], neg(mul(l, b[i])))
		}
	}
	w := make([]float64, n)
	for i := n - 1; i >= 0; i-- {
		if i+1 < n {
			b[i] = add(b[i], neg(mul(e[i], b[i+1])))
		}
		if i+2 < n {
			b[i] = add(b[i], neg(mul(f[i], b[i+2])))
		}
		b[i] = div(b[i], d[i])
		w[i], _ = b[i].Float64()
	}
	return w
}

// Whatever the cut-off in samples, the solution keeps twelve digits of the range.
func TestSplineBig(t *testing.T) {
	for _, n := range []int{1, 2, 3, 7, 50, 1000, 20000} {
		for _, m := range []float64{2, 8, 160, 1600, 16000, 160000, 1e6, 1e8} {
			if m > 500*float64(n) || n == 20000 && m != 16000 {
				continue
			}
			for _, tension := range []float64{0, 0.62524, 1} {
				z := rough(n, 8)
				w := apply(t, filter.Spline{Cutoff: m, Tension: tension}, z, 1)
				d := greatest(w, bigSpline(z, m, tension))
				if d > 1e-12 {
					t.Errorf("n = %d, m = %g, β = %g: off by %g", n, m, tension, d)
				}
			}
		}
	}
}
