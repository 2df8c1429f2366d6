package filter

import (
	"fmt"
	"math"
	"slices"
	"testing"
)

// weightings are weights of a profile: none, smooth, rough, with grooves that weigh nothing, and with long stretches that weigh nothing.
var weightings = []struct {
	name   string
	whole  bool // a curve can be laid everywhere
	weight func(i, m int) float64
}{
	{"equal", true, func(int, int) float64 { return 1 }},
	{"smooth", true, func(i, m int) float64 { return 0.6 + 0.4*math.Sin(9*float64(i)/float64(m)) }},
	{"rough", true, func(i, _ int) float64 { return 0.3 + 0.7*math.Abs(math.Sin(1.7*float64(i*i%7919))) }},
	{"grooves", true, func(i, m int) float64 {
		if i%(m/8) < m/40 {
			return 0
		}
		return 1
	}},
	{"stretches", false, func(i, m int) float64 {
		if i%(3*m/2) > m/2 {
			return 0
		}
		return 1
	}},
}

// Moments at knots and a curve through them agree with moments at every point within 5e-14 of the highest point, at the ends, where both lose
// digits, within 3e-13, and there with plain sums within the 1e-12 that transforms lose; where they could not, they are not used. There are profiles shorter and longer than the window
// and of several blocks.
func TestCoarse(t *testing.T) {
	for _, c := range []struct{ m, n, shift int }{
		{300, 400, 2}, {300, 5001, 2}, {777, 2500, 3}, {1024, 3000, 4}, {1600, 9601, 4}, {4096, 13000, 6}, {500, 150000, 2}, {600, 5000, 3},
	} {
		for _, v := range weightings {
			t.Run(fmt.Sprintf("%s %d of %d", v.name, c.m, c.n), func(t *testing.T) {
				w := newWindow(float64(c.m), 2, 2, c.n-1)
				if got := w.coarseness(2); c.n > 3*c.m && got != c.shift {
					t.Fatalf("stride 2^%d, want 2^%d", got, c.shift)
				}
				weight, heavy := make([]float64, c.n), noise(c.n)
				size := highest(heavy)
				for i := range heavy {
					weight[i] = v.weight(i, c.m)
					heavy[i] = heavy[i] / size * weight[i]
				}
				got := make([]float64, c.n)
				if ok := w.coarse(got, heavy, weight, c.shift); ok != v.whole && c.n > 4*c.m && c.m >= 96<<c.shift {
					t.Fatalf("a curve was laid: %v", ok)
				} else if !ok {
					return
				}
				transformMoments(heavy, weight, 2, w.moments(c.n, 2), func(i int, s *[5]float64, h *[3]float64) {
					near := 5e-14
					if i < c.m || i >= c.n-c.m || v.name == "stretches" {
						near = 3e-13
					}
					if want, _ := local(s, h, 2, w.total()); !(math.Abs(got[i]-want) <= near) {
						t.Errorf("point %d: %v, moments at every point %v, off by %.1e", i, got[i], want, got[i]-want)
					}
				})
				for _, i := range []int{0, 7, 10, c.n/2 - 3, c.n / 2, c.n - 1} {
					var s [5]float64
					var h [3]float64
					for j := max(0, i-w.half); j <= min(c.n-1, i+w.half); j++ {
						x := float64(j-i) / float64(w.half)
						for k, p := 0, w.g[max(i-j, j-i)]; k < 5; k, p = k+1, p*x {
							s[k] += p * weight[j]
							if k < 3 {
								h[k] += p * heavy[j]
							}
						}
					}
					if want, _ := local(&s, &h, 2, w.total()); !(math.Abs(got[i]-want) <= 1e-12) {
						t.Errorf("point %d: %v, plain sums %v, off by %.1e", i, got[i], want, got[i]-want)
					}
				}
			})
		}
	}
	if w := newWindow(255, 2, 2, 9600); w.coarseness(2) != 0 {
		t.Error("a bell is coarse that is too narrow")
	}
	if w := newWindow(1600, 1.9, 2, 9600); w.coarseness(2) != 0 {
		t.Error("a bell is coarse that ends too early")
	}
}

// Where no curve can be laid, the mean line is that of moments at every point, and runs straight across what holds no weight.
func TestCoarseOrNot(t *testing.T) {
	const m, n = 400, 6000
	w := newWindow(m, 2, 2, n-1)
	z, weight := noise(n), slices.Repeat([]float64{1}, n)
	for i := n / 3; i < 2*n/3; i++ {
		z[i], weight[i] = 0, 0
	}
	got, want := make([]float64, n), make([]float64, n)
	crossed := w.regressWeighted(got, z, weight, 2)
	size := highest(z)
	for i := range z {
		z[i] /= size
	}
	transformMoments(z, weight, 2, w.moments(n, 2), func(i int, s *[5]float64, t *[3]float64) {
		v, ok := local(s, t, 2, w.total())
		want[i] = v * size
		if !ok {
			want[i] = math.NaN()
		}
	})
	if lacking := bridge(want); crossed == 0 || crossed != lacking {
		t.Errorf("%d points crossed, want %d", crossed, lacking)
	}
	if !slices.Equal(got, want) {
		t.Error("not the bits of moments at every point")
	}
}
