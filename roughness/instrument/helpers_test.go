package instrument_test

import (
	"slices"

	"example.com/furrow/roughness"
	"example.com/furrow/testdata/trial"
)

var (
	off      = trial.Off
	gaussian = trial.Gaussian
	evaluate = trial.Evaluate
	value    = trial.Value
	near     = trial.Near
	sine     = trial.Sine
	trace    = trial.Trace
	tipOver  = trial.TipOver
)

// raised are three traces with the values of p, each at a height of its own.
func raised(p roughness.Profile) []roughness.Profile {
	list := []roughness.Profile{p}
	for up := range 2 {
		other := p
		other.Z = slices.Clone(p.Z)
		for i := range other.Z {
			other.Z[i] += float64(up+1) / 8
		}
		list = append(list, other)
	}
	return list
}
