package filter

import (
	"math"
	"testing"
)

// A spline through two weighted points and nothing else bends nowhere: it is the straight line through them (the smoothing functional is 0
// for it; Reinsch, Numerische Mathematik 10 (1967), from memory). One point alone says no slope: the level of its height.
func TestSplineOfTwoPoints(t *testing.T) {
	z := make([]float64, 41)
	for i := range z {
		z[i] = math.Sin(float64(i))
	}
	weight := make([]float64, len(z))
	weight[8], weight[32] = 1, 1
	w, err := Spline{Cutoff: 10}.ApplyWeighted(nil, z, weight, 0.5)
	if err != nil {
		t.Fatal(err)
	}
	for i, got := range w {
		want := z[8] + (z[32]-z[8])*float64(i-8)/24
		if math.Abs(got-want) > 1e-6 {
			t.Fatalf("point %d: %g, the line is at %g", i, got, want)
		}
	}
	weight[8] = 0
	if w, err = (Spline{Cutoff: 10}).ApplyWeighted(nil, z, weight, 0.5); err != nil {
		t.Fatal(err)
	}
	for i, got := range w {
		if got != z[32] {
			t.Fatalf("one point, at %d: %g", i, got)
		}
	}
}
