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
