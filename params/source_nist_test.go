package params_test

import (
	"math"
	"testing"

	"example.com/furrow/params"
)

// TestOffset: what counts heights from one another does not lose digits when the whole profile stands high, as it may
// when its heights come already filtered.
func TestOffset(t *testing.T) {
	z := sampled(8000, 7, func(u float64) float64 { return math.Round(1024*sine(u)) / 1024 })
	const offset = 1 << 23 // adds without rounding
	high := minus(z, -offset)
	for _, c := range []struct {
		name string
		f    func(z []float64) float64
	}{
		{"Rt", params.Rt}, {"Rk", params.Rk}, {"Rpk", params.Rpk}, {"Rvk", params.Rvk}, {"Rmrk1", params.Rmrk1}, {"Rmrk2", params.Rmrk2},
		{"Rak1", params.Rak1}, {"Rak2", params.Rak2},
		{"Rvmp", func(z []float64) float64 { return params.Rvmp(z, 10) }},
		{"Rvmc", func(z []float64) float64 { return params.Rvmc(z, 10, 80) }},
		{"Rvvv", func(z []float64) float64 { return params.Rvvv(z, 80) }},
		{"Rdc", func(z []float64) float64 { return params.Rdc(z, 10, 80) }},
		{"Rdq", func(z []float64) float64 { return params.Rdq(z, 0.5) }},
	} {
		holds(t, c.name, c.f(high), c.f(z), 1e-8, "the same profile without an offset of 2^23")
	}
}
