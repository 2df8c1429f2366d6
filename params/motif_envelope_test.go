package params_test

import (
	"math"
	"testing"

	"example.com/furrow/params"
)

// Triangles of amplitude 1 and period 100 µm on a slope: the envelope is the straight line through their tips, and below it
// stands the material ratio curve of the triangle, a straight line of height 2.
func TestEnvelopeCoreOfTriangles(t *testing.T) {
	z := make([]float64, 50001)
	for i := range z {
		u := math.Mod(float64(i), 1000) / 1000
		z[i] = 1 - 4*math.Abs(u-0.5) + 0.0004*float64(i) // gentler than the flanks, so the tips stay peaks
	}
	const source = "straight material ratio curve of a triangle"
	holds(t, "Rke", params.Rke(z, 0.1, 500), 2, 2e-3, source)
	holds(t, "Rpke", params.Rpke(z, 0.1, 500), 0, 2e-3, source)
	holds(t, "Rvke", params.Rvke(z, 0.1, 500), 0, 2e-3, source)
	holds(t, "Mr1e", params.Mr1e(z, 0.1, 500), 0, 0.2, source)
	holds(t, "Mr2e", params.Mr2e(z, 0.1, 500), 100, 0.2, source)
}

// Below the level envelope of a sine stands the sine, whatever A is.
func TestEnvelopeCoreOfASine(t *testing.T) {
	const a = 2.0
	z := make([]float64, 40000)
	for i := range z {
		z[i] = a * math.Sin(2*math.Pi*float64(i)/2000)
	}
	// With no motif up to A the envelope still runs through the peaks.
	holds(t, "Rke without motifs", params.Rke(z, 0.1, 100), params.Rke(z, 0.1, 500), 1e-12, "the same envelope")
}

func TestEnvelopeBelow(t *testing.T) {
	z := []float64{0, 2, 0, 1, 3, 1, 4, 0}
	m := params.FindMotifs(z, 2, 100, 1000, params.Choices{})
	heights, from := m.Below(z, 2)
	want := []float64{0, 0 - 7.0/3, 1 - 8.0/3, 0, 1 - 3.5, 0} // peaks 2, 3, 4 at points 1, 4, 6
	if from != 1 || len(heights) != len(want) {
		t.Fatalf("%v from %d", heights, from)
	}
	for i, v := range want {
		holds(t, "below the envelope", heights[i], v, 1e-15, "worked by hand")
	}
	if h, _ := params.FindMotifs([]float64{1, 2, 1}, 1, 10, 10, params.Choices{}).Below([]float64{1, 2, 1}, 1); h != nil {
		t.Errorf("%v below no envelope", h)
	}
}
