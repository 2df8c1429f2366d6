package params_test

import (
	"encoding/json"
	"fmt"
	"math"
	"os"
	"strconv"
	"testing"

	"example.com/furrow/params"
)

// TestGolden compares with values that testdata/params/golden.py computed with numpy and scipy: moments, windows,
// gradient weights from a Vandermonde system, quantiles, the inverse ratio by root finding, areas by trapezoids, the
// core line by polynomial fit, and the profile elements by taking out one part at a time.
func TestGolden(t *testing.T) {
	text, err := os.ReadFile("../testdata/params/golden.json")
	if err != nil {
		t.Fatal(err)
	}
	var golden []struct {
		Name      string
		Dx        float64
		Section   int
		Z         []float64
		Values    map[string]float64
		Quantiles map[string]float64
	}
	if err := json.Unmarshal(text, &golden); err != nil {
		t.Fatal(err)
	}
	if len(golden) < 5 {
		t.Fatalf("only %d profiles", len(golden))
	}
	for _, g := range golden {
		in := params.Input{Z: g.Z, Dx: g.Dx, Section: g.Section}
		for symbol, want := range g.Values {
			v := ask(t, in, "iso-21920", symbol)[symbol]
			holds(t, g.Name+" "+symbol, v.Value, want, 1e-9*math.Max(1, math.Abs(want)), fmt.Sprint("numpy and scipy", v.Reason))
		}
		for p, want := range g.Quantiles {
			ratio, _ := strconv.ParseFloat(p, 64)
			curve := params.MaterialRatioCurve(g.Z, 0)
			holds(t, g.Name+" curve at "+p, interpolate(curve, ratio), want, 1e-9, "numpy quantile, Hazen's rule")
		}
	}
}

// interpolate reads a curve at x.
func interpolate(curve []params.Point, x float64) float64 {
	for i := 1; i < len(curve); i++ {
		a, b := curve[i-1], curve[i]
		if x <= b.X {
			return a.Y + (x-a.X)/(b.X-a.X)*(b.Y-a.Y)
		}
	}
	return curve[len(curve)-1].Y
}
