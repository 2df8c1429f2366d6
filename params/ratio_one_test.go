package params

import "testing"

// Material at a height c lies at c or above (ISO 21920-2, material ratio, from memory): a single point at c is all material.
func TestMaterialOfOnePoint(t *testing.T) {
	w := &work{n: 1}
	w.z = []float64{2}
	for c, want := range map[float64]float64{1.5: 1, 2: 1, 2.5: 0} {
		if got := w.materialRatio(c); got != want {
			t.Errorf("at %g: %g, want %g", c, got, want)
		}
	}
}
