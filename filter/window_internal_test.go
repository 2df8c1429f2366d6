package filter

import (
	"math"
	"testing"
)

// The last eight windows are kept, the one asked for last at the front, and none that is very wide. A kept one is given again for the
// same cut-off, bell and half width alone.
func TestKeptWindows(t *testing.T) {
	recent.Lock()
	before := recent.windows
	recent.windows = nil
	recent.Unlock()
	defer func() {
		recent.Lock()
		recent.windows = before
		recent.Unlock()
	}()
	first := newWindow(10, 1, 1, 1000)
	if w := newWindow(10, 1, 0, 1000); w != first {
		t.Error("orders 0 and 1 have one bell, and two windows")
	}
	for what, w := range map[string]*window{"another cut-off": newWindow(11, 1, 1, 1000), "another bell": newWindow(10, 1, 2, 1000), "another support": newWindow(10, 2, 1, 1000), "a shorter reach": newWindow(10, 1, 1, 9)} {
		if w == first {
			t.Errorf("%s has the same window", what)
		}
	}
	if w := newWindow(10, 1, 1, 1000); w != first || recent.windows[0] != first || len(recent.windows) != 5 {
		t.Errorf("%d windows kept", len(recent.windows))
	}
	var all []*window
	for m := range 12 {
		all = append(all, newWindow(float64(20+m), 1, 1, 1000))
	}
	if len(recent.windows) != 8 {
		t.Fatalf("%d windows kept", len(recent.windows))
	}
	for i, w := range recent.windows {
		if w != all[11-i] {
			t.Errorf("in place %d stands a window of %g", i, w.m)
		}
	}
	if newWindow(24, 1, 1, 1000) != all[4] || newWindow(23, 1, 1, 1000) == all[3] {
		t.Error("the eighth last is not kept, or the ninth last is")
	}
	// 65 536 points on each side are kept, one more are not.
	if w := newWindow(65536, 1, 1, 1<<20); recent.windows[0] != w || w.half != 65536 {
		t.Errorf("half a width of %d is not kept", w.half)
	}
	if w := newWindow(65537, 1, 1, 1<<20); recent.windows[0] == w || len(recent.windows) != 8 {
		t.Errorf("half a width of %d is kept", w.half)
	}
	if w := newWindow(10, 1, 1, -1); w.half != 0 || len(w.g) != 1 || w.g[0] != 1 {
		t.Errorf("no point: %+v", w)
	}
}

// Where a local fit takes a lower order: at a weight of 1e-6 of the window, a spread of 1e-10 of it, and a lever of 10 000; just at the border and
// just beyond.
func TestLocalBorders(t *testing.T) {
	const total = 4.0
	// Two or three points with weights, from which the moments are plain sums.
	moments := func(points ...[3]float64) (s [5]float64, h [3]float64) {
		for _, p := range points { // place, weight, height
			u := 1.0
			for k := range s {
				s[k] += p[1] * u
				if k < 3 {
					h[k] += p[1] * p[2] * u
				}
				u *= p[0]
			}
		}
		return s, h
	}
	for _, c := range []struct {
		name   string
		order  int
		want   float64 // NaN: none
		points [][3]float64
	}{
		{"weight enough", 0, 7, [][3]float64{{0, 1.01e-6 * total, 7}}},
		{"too little weight", 0, math.NaN(), [][3]float64{{0, 0.99e-6 * total, 7}}},
		{"one point has no slope", 1, 7, [][3]float64{{0.5, 1, 7}}},
		// Two points at ±d with the weight 1 spread 2d², and the line through 1 and 3 has 2 in the middle wherever they stand.
		{"a line through two", 1, 2, [][3]float64{{-0.1, 1, 1}, {0.1, 1, 3}}},
		{"a line beside two", 1, 5, [][3]float64{{-0.3, 1, 2}, {-0.2, 1, 3}}},
		// A spread of 1e-10 is at 2d² = 1e-10·total: d = 1.414e-5. Beside 0 by d the line has -1 and the mean 1, from heights 0 and 2 at 0.5d and 1.5d.
		{"spread enough for a line", 1, -1, [][3]float64{{0.5 * 2.9e-5, 1, 0}, {1.5 * 2.9e-5, 1, 2}}},
		{"too little spread for a line", 1, 1, [][3]float64{{0.5 * 2.8e-5, 1, 0}, {1.5 * 2.8e-5, 1, 2}}},
		// Points at a ± b with the weight 1: e = a, the spread 2b², the lever a²·2/2b² = (a/b)², which is 10 000 at a = 100 b.
		{"a lever that carries", 1, 2 - 99, [][3]float64{{0.99 - 0.01, 1, 1}, {0.99 + 0.01, 1, 3}}},
		{"too long a lever", 1, 2, [][3]float64{{0.9 - 0.0089, 1, 1}, {0.9 + 0.0089, 1, 3}}},
		// Three points: the parabola through (-1, 1), (0, 5), (1, 3) has 5 in the middle; with a middle of weight m the line has less.
		{"a parabola through three", 2, 5, [][3]float64{{-1, 1, 1}, {0, 1, 5}, {1, 1, 3}}},
		{"two points have no parabola", 2, 2, [][3]float64{{-1, 1, 1}, {1, 1, 3}}},
		// Weights 1, m, 1 at -1, 0, 1: what is left of u² is 2m/(2+m), and the lever 4/(2+m), which is 10 000 times that at m = 2e-4.
		{"a middle that is too light", 2, (1 + 3 + 1.95e-4*5) / (2 + 1.95e-4), [][3]float64{{-1, 1, 1}, {0, 1.95e-4, 5}, {1, 1, 3}}},
		{"a middle that is heavy enough", 2, 5, [][3]float64{{-1, 1, 1}, {0, 2.05e-4, 5}, {1, 1, 3}}},
		// Weights 1 at -d, 0 and d leave 2d⁴/3 of u², which is 1e-10·total at d = 4.949e-3.
		{"spread enough for a parabola", 2, 5, [][3]float64{{-5e-3, 1, 1}, {0, 1, 5}, {5e-3, 1, 3}}},
		{"too little spread for a parabola", 2, 3, [][3]float64{{-4.9e-3, 1, 1}, {0, 1, 5}, {4.9e-3, 1, 3}}},
	} {
		s, h := moments(c.points...)
		got, ok := local(&s, &h, c.order, total)
		if ok == math.IsNaN(c.want) || ok && math.Abs(got-c.want) > 1e-6*(1+math.Abs(c.want)) {
			t.Errorf("%s: %v, %v, want %v", c.name, got, ok, c.want)
		}
	}
}
