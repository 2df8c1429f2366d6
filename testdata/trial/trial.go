// Package trial is what the tests of roughness and of the packages under it share.
package trial

import (
	"math"
	"testing"

	"example.com/furrow/filter"
	"example.com/furrow/roughness"
	"example.com/furrow/roughness/synth"
)

// Off is a filter that is switched off.
func Off() roughness.Band { return roughness.Band{Off: true} }

// Gaussian is a Gaussian filter with a cut-off.
func Gaussian(cutoff float64) roughness.Band {
	return roughness.Band{Spec: roughness.FilterSpec{Filter: "gaussian", Cutoff: cutoff}}
}

// Evaluate is an evaluation that must not fail.
func Evaluate(t *testing.T, z []float64, dx float64, s *roughness.Settings) *roughness.Evaluation {
	t.Helper()
	e, err := roughness.Evaluate(roughness.Profile{Z: z, Spacing: dx}, s)
	if err != nil {
		t.Fatal(err)
	}
	return e
}

// Value is a value that the evaluation must have.
func Value(t *testing.T, e *roughness.Evaluation, symbol string) float64 {
	t.Helper()
	v, ok := e.Value(symbol)
	if !ok {
		t.Fatalf("the evaluation has no %s", symbol)
	}
	return v.Value
}

// Near fails unless two numbers agree within a tolerance.
func Near(t *testing.T, what string, got, want, tol float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tol) {
		t.Errorf("%s = %.12g, want %.12g within %.2g", what, got, want, tol)
	}
}

// Sine is a sine wave of a height from peak to valley.
func Sine(height, wavelength, length, spacing float64) roughness.Profile {
	z := synth.Sine{Amplitude: height / 2, Wavelength: wavelength}.Heights(int(length/spacing), spacing)
	return roughness.Profile{Z: z, Spacing: spacing}
}

// Trace is a surface of two grains on a wave and a slope.
func Trace(seed uint64) roughness.Profile {
	z := synth.Sum{
		synth.Correlated{Sigma: 0.4, Length: 9, Seed: seed}, synth.Correlated{Sigma: 0.2, Length: 3.5, Seed: seed + 1000},
		synth.Sine{Amplitude: 0.3, Wavelength: 1700 + float64(seed%7)*150, Phase: 0.3}, synth.Tilt{Offset: 1, Slope: 0.0004},
	}.Heights(3001, 1)
	return roughness.Profile{Z: z, Spacing: 1}
}

// TipOver is the trace that a tip of a radius makes of a surface.
func TipOver(t *testing.T, p roughness.Profile, radius float64) roughness.Profile {
	t.Helper()
	z, err := filter.Tip{Radius: radius}.Trace(nil, p.Z, p.Spacing)
	if err != nil {
		t.Fatal(err)
	}
	p.Z = z
	return p
}
