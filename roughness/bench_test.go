package roughness_test

import (
	"testing"

	"example.com/furrow/roughness"
	"example.com/furrow/roughness/synth"
)

// A whole evaluation of a trace of 4.8 mm at 0.5 µm: with the Gaussian alone and five values, as most drawings ask, and with the whole
// catalogue, whose Rk family brings the robust filter.
func BenchmarkEvaluate(b *testing.B) {
	d := synth.Demos()[0]
	p := roughness.Profile{Z: d.Heights(), Spacing: d.Spacing}
	for _, c := range []struct {
		name string
		set  *roughness.Settings
	}{
		{"five values", &roughness.Settings{Parameters: []string{"Ra", "Rq", "Rz", "Rt", "Rsm"}}},
		{"catalogue", nil},
	} {
		b.Run(c.name, func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				if _, err := roughness.Evaluate(p, c.set); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}
