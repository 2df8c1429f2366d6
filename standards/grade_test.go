package standards_test

import (
	"math"
	"slices"
	"strconv"
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

// The grades of ISO 1302:1992 with their Ra in micrometres and the customary microinches (also printed in trade tables).
func TestGradeTable(t *testing.T) {
	for name, want := range map[string][2]float64{"N1": {0.025, 1}, "N2": {0.05, 2}, "N3": {0.1, 4}, "N4": {0.2, 8}, "N5": {0.4, 16}, "N6": {0.8, 32},
		"N7": {1.6, 63}, "N8": {3.2, 125}, "N9": {6.3, 250}, "N10": {12.5, 500}, "N11": {25, 1000}, "N12": {50, 2000}, "N0": {}, "N13": {}, "": {}, "n7": {}} {
		if got := standards.GradeLimit(name); got != want[0] {
			t.Errorf("%s: %g, want %g", name, got, want[0])
		}
		if want[0] == 0 {
			continue
		}
		for _, limit := range []float64{want[0], want[1] * 0.0254} {
			if got := standards.GradeOf(limit); got != name {
				t.Errorf("%g is the limit of %q, want %s", limit, got, name)
			}
		}
		if got := standards.GradeMet(want[0]); got != name {
			t.Errorf("%g meets %q, want %s", want[0], got, name)
		}
	}
	for _, ra := range []float64{-0.001, math.Inf(1), 50.001} {
		if got := standards.GradeMet(ra); got != "" {
			t.Errorf("%g meets %q", ra, got)
		}
	}
	if got := standards.GradeMet(0); got != "N1" {
		t.Errorf("0 meets %q", got)
	}
}

// The numbers beside triangles: JIS B 0031:1982, 0.2a to 25a, and the four series of Rt of DIN 3141:1960 (both from memory).
func TestTriangleMarks(t *testing.T) {
	rows := map[string][]float64{"▽": {25, 160, 100, 63, 25}, "▽▽": {6.3, 40, 25, 16, 10}, "▽▽▽": {1.6, 16, 6.3, 4, 2.5}, "▽▽▽▽": {0.2, 0, 1, 1, 0.4}, "~": nil, "▽▽▽▽▽": nil, "": nil}
	for mark, row := range rows {
		var want []standards.TriangleMark
		for i, v := range row {
			switch {
			case i == 0:
				want = append(want, standards.TriangleMark{System: "JIS", Symbol: "Ra", Limit: v})
			case v > 0:
				want = append(want, standards.TriangleMark{System: "DIN 3141", Symbol: "Rt", Limit: v, Series: strconv.Itoa(i)})
			}
		}
		if got := standards.TriangleMarks(mark); !slices.Equal(got, want) {
			t.Errorf("%s: %v, want %v", mark, got, want)
		}
	}
}
