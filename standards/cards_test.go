package standards_test

import (
	"math"
	"testing"

	"example.com/furrow/standards"
)

// N grades are upper limits of Ra: 7.4 µm meets N10, not N9.
func TestGrades(t *testing.T) {
	for ra, want := range map[float64]string{7.4: "N10", 6.3: "N9", 0.4: "N5", 0.41: "N6", 0.02: "N1", 51: "", 3.2: "N8"} {
		if got := standards.GradeMet(ra); got != want {
			t.Errorf("%g: %q, want %q", ra, got, want)
		}
	}
	if got := standards.GradeMet(math.NaN()); got != "" {
		t.Errorf("NaN meets %q", got)
	}
	g := standards.Grades()
	for i := range g {
		if i > 0 && math.Abs(g[i].Ra/g[i-1].Ra-2) > 0.05 {
			t.Errorf("%s is not about twice %s", g[i].Name, g[i-1].Name)
		}
		// The pairs are preferred numbers, within 2 % of the exact conversion.
		if exact := g[i].Microinch * 0.0254; math.Abs(exact/g[i].Ra-1) > 0.02 {
			t.Errorf("%s: %g µin is %g µm, not near %g", g[i].Name, g[i].Microinch, exact, g[i].Ra)
		}
	}
}

// f = 0.2 mm, r = 0.8 mm: Rt 6.3 µm, Ra 1.6 µm (common practice); Ra = 0.0321 f²/r, and the parabola by numbers.
func TestIdealTurning(t *testing.T) {
	rt, ra, err := standards.IdealTurning(200, 800)
	if err != nil || math.Abs(rt-6.25) > 1e-12 || math.Abs(ra-1.6) > 0.01 || math.Abs(ra-0.0321*200*200/800) > 0.002 {
		t.Errorf("%g %g %v", rt, ra, err)
	}
	const n = 100000
	sum := 0.0
	for i := range n {
		x := (float64(i)+0.5)/n*2 - 1
		sum += math.Abs(x*x - 1.0/3)
	}
	if got := rt * sum / n; math.Abs(got-ra) > 1e-8 {
		t.Errorf("Ra of the parabola is %.10f, not %.10f", got, ra)
	}
	for _, bad := range [][2]float64{{0, 1}, {1, 0}, {2, 1}, {math.NaN(), 1}} {
		if _, _, err := standards.IdealTurning(bad[0], bad[1]); err == nil {
			t.Errorf("%v passes", bad)
		}
	}
}

// Each card says where it comes from and holds ranges that are ranges.
func TestCards(t *testing.T) {
	seen := map[string]bool{}
	for _, p := range standards.ProcessRanges() {
		if !(p.Low > 0) || !(p.Low < p.High) || seen[p.Process] {
			t.Errorf("%+v", p)
		}
		seen[p.Process] = true
	}
	if len(seen) != 28 {
		t.Errorf("%d processes", len(seen))
	}
	for _, g := range standards.Guides() {
		if g.Use == "" || g.Source.Doc == "" || g.Source.Basis == "" || (len(g.Limits) == 0 && g.Note == "") {
			t.Errorf("%+v", g)
		}
		for _, l := range g.Limits {
			if !(l.High > l.Low) {
				t.Errorf("%s: %+v", g.Use, l)
			}
		}
	}
	for _, c := range standards.Cautions() {
		if c.Key == "" || c.Text == "" || seen[c.Key] {
			t.Errorf("%+v", c)
		}
		seen[c.Key] = true
	}
	for mark, n := range map[string]int{"▽": 5, "▽▽▽▽": 4, "~": 0} { // DIN 3141 leaves series 1 of the finest mark open
		if got := len(standards.TriangleMarks(mark)); got != n {
			t.Errorf("%s: %d readings, want %d", mark, got, n)
		}
	}
}
