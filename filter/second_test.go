package filter_test

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"example.com/furrow/filter"
	"example.com/furrow/roughness/selfcheck"
)

// secondOf has a second implementation of each filter at its defaults, in plain loops from the definition, for a size in samples.
var secondOf = map[string]func(z []float64, m float64) []float64{
	"gaussian":            func(z []float64, m float64) []float64 { return plainRegression(z, nil, m, 1, 1) },
	"gaussian-regression": func(z []float64, m float64) []float64 { return plainRegression(z, nil, m, 1, 1) },
	"robust-gaussian": func(z []float64, m float64) []float64 {
		return reweighted(z, func(delta []float64) []float64 { return plainRegression(z, delta, m, 2, 2) })
	},
	"spline": func(z []float64, m float64) []float64 { return bigSpline(z, m, 0) },
	"robust-spline": func(z []float64, m float64) []float64 {
		return reweighted(z, func(delta []float64) []float64 { return denseSpline(z, delta, m) })
	},
	"two-rc": func(z []float64, m float64) []float64 {
		g := highPass(len(z), m)
		w := make([]float64, len(z))
		for i := range z {
			for j := range i + 1 {
				for k := range i - j + 1 { // one high-pass behind the other
					w[i] -= g[k] * g[i-j-k] * (z[j] - z[0])
				}
			}
			w[i] += z[i]
		}
		return w
	},
	"two-rc-zero-phase": func(z []float64, m float64) []float64 {
		n := len(z)
		g := highPass(8*n, m)
		h := make([]float64, n) // what a high-pass each way leaves of a single 1 in the long waves
		h[0] = 1
		for k := range h {
			for j := 0; j+k < len(g); j++ {
				h[k] -= g[j] * g[j+k]
			}
		}
		w := make([]float64, n)
		for i := range z {
			rows := [][]float64{{0, 0, 0}, {0, 0, 0}} // a line under these weights
			for j := range z {
				u, v := float64(j-i), h[max(i-j, j-i)]
				rows[0][0], rows[0][1], rows[0][2] = rows[0][0]+v, rows[0][1]+v*u, rows[0][2]+v*z[j]
				rows[1][0], rows[1][1], rows[1][2] = rows[1][0]+v*u, rows[1][1]+v*u*u, rows[1][2]+v*u*z[j]
			}
			w[i] = solve(rows)[0]
		}
		return w
	},
	"valley-suppression": func(z []float64, m float64) []float64 {
		filled := plainRegression(z, nil, m, 1, 1)
		for i, v := range z {
			filled[i] = max(v, filled[i])
		}
		return plainRegression(filled, nil, m, 1, 1)
	},
	"disk-closing": func(z []float64, m float64) []float64 { return plainClosing(z, ball(m), m) },
	"disk-opening": func(z []float64, m float64) []float64 { return negative(plainClosing(negative(z), ball(m), m)) },
	"disk-alternating": func(z []float64, m float64) []float64 {
		return negative(plainClosing(negative(plainClosing(z, ball(m), m)), ball(m), m))
	},
	"segment-closing": func(z []float64, m float64) []float64 { return plainClosing(z, level, m/2) },
	"segment-opening": func(z []float64, m float64) []float64 { return negative(plainClosing(negative(z), level, m/2)) },
}

func ball(r float64) func(u float64) float64 {
	return func(u float64) float64 { return math.Sqrt(max(0, r*r-u*u)) }
}
func level(float64) float64 { return 0 }

func plainClosing(z []float64, shape func(u float64) float64, reach float64) []float64 {
	return negative(plainDilation(negative(plainDilation(z, shape, 1, reach)), shape, 1, reach))
}

// highPass is the answer to a single 1 of one analogue high-pass by the trapezium rule, exact at the cut-off m.
func highPass(n int, m float64) []float64 {
	t := math.Tan(math.Pi/m) / math.Sqrt(3)
	g := make([]float64, n)
	for k := range g {
		g[k] = math.Pow((1-t)/(1+t), float64(k)) / (1 + t)
		if k > 0 {
			g[k] -= math.Pow((1-t)/(1+t), float64(k-1)) / (1 + t)
		}
	}
	return g
}

// denseSpline solves the equations of the weighted spline by elimination.
func denseSpline(z, delta []float64, m float64) []float64 {
	n := len(z)
	rows := make([][]float64, n)
	for i := range rows {
		rows[i] = make([]float64, n+1)
		rows[i][i], rows[i][n] = delta[i], delta[i]*z[i]
	}
	a4 := math.Pow(2*math.Sin(math.Pi/m), -4)
	for at := 0; at+2 < n; at++ {
		for i, a := range []float64{1, -2, 1} {
			for j, b := range []float64{1, -2, 1} {
				rows[at+i][at+j] += a4 * a * b
			}
		}
	}
	return solve(rows)
}

// reweighted fits with the biweight of 3·1.4826·median|r| until that settles to a thousandth.
func reweighted(z []float64, fit func(delta []float64) []float64) []float64 {
	delta := slices.Repeat([]float64{1}, len(z))
	for last := 0.0; ; {
		w := fit(delta)
		rest := make([]float64, len(z))
		for i := range z {
			rest[i] = math.Abs(z[i] - w[i])
		}
		order := slices.Sorted(slices.Values(rest))
		c := 3 * 1.4826 * (order[(len(z)-1)/2] + order[len(z)/2]) / 2
		if last > 0 && math.Abs(c-last) <= 1e-3*last {
			return w
		}
		last = c
		for i, r := range rest {
			delta[i] = math.Pow(max(0, 1-r/c*r/c), 2)
		}
	}
}

// TestSecondImplementation: on random profiles, smooth and rough, with grooves and without, both implementations of each filter agree; and each
// filter has at least two checks from outside, with those of the register.
func TestSecondImplementation(t *testing.T) {
	checks := map[string]int{}
	for _, c := range selfcheck.Run("filter") {
		checks[c.Subject]++
		if c.Word != selfcheck.Agrees {
			t.Errorf("%s: found %.12g, want %.12g ± %g (%s) %s", c.ID, c.Found, c.Expected, c.Tolerance, c.Source, c.Fault)
		}
	}
	var worst []string
	for _, info := range filter.All() {
		second := secondOf[info.Key]
		if second == nil || checks[info.Key] < 1 {
			t.Errorf("%s: %d checks in the register, second implementation: %t", info.Key, checks[info.Key], second != nil)
			continue
		}
		most := 0.0
		for seed := range uint64(6) {
			z := rough(120+17*int(seed), seed)
			for i := range z {
				if seed%2 == 1 && i%37 < 3 {
					z[i] -= 8
				}
			}
			for _, m := range []float64{6.5, 23, 61} {
				want := second(z, m)
				most = max(most, greatest(apply(t, info.New(m), z, 1), want)/(slices.Max(z)-slices.Min(z)))
			}
		}
		if !(most < 1e-10) {
			t.Errorf("%s: off by %g of the range", info.Key, most)
		}
		worst = append(worst, fmt.Sprintf("%s %.0e", info.Key, most))
	}
	t.Logf("worst relative deviations: %s", strings.Join(worst, ", "))
}
