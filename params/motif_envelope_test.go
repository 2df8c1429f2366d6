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

// Below the level envelope of a sine stands the sine: the family is that of its closed form.
func TestEnvelopeCoreOfASine(t *testing.T) {
	const a = 2.0
	z := make([]float64, 40000)
	for i := range z {
		z[i] = a * math.Sin(2*math.Pi*float64(i)/2000)
	}
	const source = "closed form of the sine, least squares line over the first 40 %"
	holds(t, "Rke", params.Rke(z, 0.1, 500), 1.77470207*a, 2e-3, source)
	holds(t, "Rpke", params.Rpke(z, 0.1, 500), 0, 1e-3, source)
	holds(t, "Rvke", params.Rvke(z, 0.1, 500), 0.44391791*a, 2e-3, source)
	holds(t, "Mr1e", params.Mr1e(z, 0.1, 500), 0, 0.1, source)
	holds(t, "Mr2e", params.Mr2e(z, 0.1, 500), 73.068941, 0.1, source)
	// With no motif up to A the envelope still runs through the peaks.
	holds(t, "Rke without motifs", params.Rke(z, 0.1, 100), 1.77470207*a, 2e-3, source)
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

// Below the level envelope over the tips of a turned profile stands the parabola that the tool's nose leaves, here with
// the height 3: what the sine does not have, peaks over the core.
func TestEnvelopeCoreOfTurning(t *testing.T) {
	const h = 3.0
	z := make([]float64, 40001) // four feeds of 10 000 points, so the sorted heights come in steps of 1/5000
	for i := range z {
		z[i] = h * cusp(math.Mod(float64(i), 10000)/10000)
	}
	const source = "closed form of the parabola, least squares line over the last 40 %"
	holds(t, "Rke", params.Rke(z, 0.01, 500), 0.4*h, 2e-3, source)
	holds(t, "Rpke", params.Rpke(z, 0.01, 500), 0.57622895*h, 2e-3, source)
	holds(t, "Rvke", params.Rvke(z, 0.01, 500), 0, 1e-3, source)
	holds(t, "Mr1e", params.Mr1e(z, 0.01, 500), 38.898991, 0.03, source)
	holds(t, "Mr2e", params.Mr2e(z, 0.01, 500), 100, 0.1, source)
}
