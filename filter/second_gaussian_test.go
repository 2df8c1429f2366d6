package filter_test

import (
	"fmt"
	"math"
	"testing"

	"example.com/furrow/filter"
)

// plainRegression fits a polynomial at every point by the normal equations, solved with pivoting, and sums all weights one by
// one: slow, and nothing like the way of the package.
func plainRegression(z, delta []float64, m, support float64, order int) []float64 {
	a := math.Sqrt(math.Ln2 / math.Pi)
	if order == 2 {
		a = 0.730913428094676
	}
	half := int(support*m + 1e-9)
	w := make([]float64, len(z))
	for i := range z {
		var s [5]float64
		var t [3]float64
		for j := max(0, i-half); j <= min(len(z)-1, i+half); j++ {
			u := float64(j-i) / m
			g := math.Exp(-math.Pi * u * u / (a * a))
			if delta != nil {
				g *= delta[j]
			}
			p := g
			for k := range s {
				s[k] += p
				if k < 3 {
					t[k] += p * z[j]
				}
				p *= u
			}
		}
		k := order + 1
		m := make([][]float64, k)
		for r := range m {
			m[r] = make([]float64, k+1)
			for c := range k {
				m[r][c] = s[r+c]
			}
			m[r][k] = t[r]
		}
		w[i] = solve(m)[0]
	}
	return w
}

// solve eliminates the rows of m, whose last column is the right side, with pivoting.
func solve(m [][]float64) []float64 {
	n := len(m)
	for c := range n {
		p := c
		for r := c; r < n; r++ {
			if math.Abs(m[r][c]) > math.Abs(m[p][c]) {
				p = r
			}
		}
		m[c], m[p] = m[p], m[c]
		for r := c + 1; r < n; r++ {
			q := m[r][c] / m[c][c]
			if q == 0 {
				continue
			}
			for k := c; k <= n; k++ {
				m[r][k] -= q * m[c][k]
			}
		}
	}
	x := make([]float64, n)
	for r := n - 1; r >= 0; r-- {
		x[r] = m[r][n]
		for c := r + 1; c < n; c++ {
			x[r] -= m[r][c] * x[c]
		}
		x[r] /= m[r][r]
	}
	return x
}

// Transformed, summed in place, and the plain fit at every point agree to 1e-12 of the range, also on a slope a thousand times
// the range, on short profiles and for kernels on both sides of the change from sum to transform.
func TestGaussianPlain(t *testing.T) {
	for _, n := range []int{5, 60, 401, 2500} {
		for _, m := range []float64{2.5, 13.7, 78, 81, 300} {
			z := rough(n, uint64(n))
			for order := range 3 {
				if order == 2 && m*2 < 4 {
					continue
				}
				f := filter.GaussianRegression{Cutoff: m, Order: order, Support: 1 + float64(order/2)}
				if order == 0 {
					f.Order = filter.Order0
				}
				want := plainRegression(z, nil, m, f.Support, order)
				if d := greatest(apply(t, f, z, 1), want); d > 1e-12 {
					t.Errorf("order %d, n = %d, m = %v: off by %g", order, n, m, d)
				}
				if order == 0 {
					continue
				}
				tilted := make([]float64, n)
				for i := range z {
					tilted[i] = z[i] + 1000*(float64(i)/float64(n)-0.3)
				}
				for i, v := range apply(t, f, tilted, 1) {
					if d := v - want[i] - 1000*(float64(i)/float64(n)-0.3); math.Abs(d) > 2e-12 {
						t.Fatalf("order %d, n = %d, m = %v, tilted: off by %g", order, n, m, d)
					}
				}
			}
		}
	}
}

// The same with a weight at each point.
func TestWeightedPlain(t *testing.T) {
	for _, m := range []float64{13.7, 50, 300} {
		z := rough(1700, 9)
		delta := make([]float64, len(z))
		for i := range delta {
			delta[i] = math.Abs(math.Sin(float64(i * i)))
			if (i+50)%97 < 12 {
				delta[i] = 0
			}
		}
		for order := range 3 {
			f := filter.GaussianRegression{Cutoff: m, Order: order, Support: 1.25}
			if order == 0 {
				f.Order = filter.Order0
			}
			w, err := f.ApplyWeighted(nil, z, delta, 1)
			if err != nil {
				t.Fatal(err)
			}
			if d := greatest(w, plainRegression(z, delta, m, 1.25, order)); d > 1e-11 {
				t.Errorf("order %d, m = %v: off by %g", order, m, d)
			}
		}
	}
}

// The invented points, written down one by one, and the plain sum over them.
func TestEndsPlain(t *testing.T) {
	const n = 90
	z := rough(n, 4)
	for _, m := range []float64{7.3, 82, 200} {
		half := int(m + 1e-9)
		for _, e := range []filter.Ends{filter.Zero, filter.LineSymmetric, filter.PointSymmetric} {
			var at func(i int) float64
			at = func(i int) float64 {
				switch {
				case i >= 0 && i < n:
					return z[i]
				case e == filter.Zero:
					return 0
				case e == filter.LineSymmetric && i < 0:
					return at(-i)
				case e == filter.LineSymmetric:
					return at(2*(n-1) - i)
				case i < 0:
					return 2*z[0] - at(-i)
				}
				return 2*z[n-1] - at(2*(n-1)-i)
			}
			w := apply(t, filter.Gaussian{Cutoff: m, Ends: e}, z, 1)
			for i := range z {
				var s, sum float64
				for k := -half; k <= half; k++ {
					g := math.Pow(2, -math.Pi*math.Pi*float64(k*k)/(m*m*math.Ln2*math.Ln2)) // the same bell, to base 2
					s += g * at(i+k)
					sum += g
				}
				near(t, fmt.Sprintf("%v, m = %v, w[%d]", e, m, i), w[i], s/sum, 1e-12*8, "plain sum")
			}
		}
	}
}
