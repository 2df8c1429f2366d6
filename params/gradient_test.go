package params_test

import (
	"fmt"
	"math"
	"testing"

	"example.com/furrow/params"
)

// TestGradientGain: what the seven-point formula of ISO 4287, 3.2.9, and the shorter ones make of the slope of a sine with
// few points in a wave: (sin 3θ - 9 sin 2θ + 45 sin θ)/(30 θ) with θ = 2π/M, derived from the formula.
func TestGradientGain(t *testing.T) {
	for _, c := range []struct {
		perWave int
		gain    float64
	}{{10, 0.99959300}, {20, 0.99999326}, {40, 0.999999893}} {
		// Whole waves with the profile going on at both ends: every point has a slope, and Rq of the slopes is exact.
		z := make([]float64, 4*c.perWave+6)
		for i := range z {
			z[i] = math.Sin(2 * math.Pi * float64(i) / float64(c.perWave))
		}
		n := len(z)
		in := params.Input{Z: z[3 : n-3], Dx: 1, Lead: z[:3], Tail: z[n-3:]}
		want := c.gain * 2 * math.Pi / float64(c.perWave) / math.Sqrt2
		holds(t, "Rdq", ask(t, in, "iso-21920", "Rdq")["Rdq"].Value, want, 5e-9, fmt.Sprint("gain of the formula at ", c.perWave, " points a wave"))
	}
	// Five and three points fall back to the shorter formulas: exact on a parabola, whose slope 2x is 0 in the middle.
	for _, n := range []int{3, 4, 5, 6, 7} {
		z := make([]float64, n)
		for i := range z {
			z[i] = float64(i * i)
		}
		reach := min(3, (n-1)/2)
		want := 2 * float64(n-1-reach) // steepest at the last point that has a slope
		holds(t, "Rdt", params.Rdt(z, 1), want, 1e-12, fmt.Sprint("parabola of ", n, " points"))
	}
	if v := params.Rdq([]float64{1, 2}, 1); !math.IsNaN(v) {
		t.Errorf("Rdq of two points = %v", v)
	}
}
