package synth

import "math"

// Tilt is a straight line: a tilt for the form removal.
type Tilt struct {
	Offset, Slope float64
}

// Heights samples the line.
func (s Tilt) Heights(n int, dx float64) []float64 {
	z := make([]float64, n)
	for i := range z {
		z[i] = s.Offset + float64(s.Slope*(float64(i)*dx))
	}
	return z
}

// Known says that a straight line has no roughness.
func (s Tilt) Known() []Known {
	l := &list{source: "a filter with moment retainment of order 1 follows a straight line"}
	l.length("Ra", 0, "0")
	l.length("Rz", 0, "0")
	return l.known
}

// Sum adds shapes. It knows no parameter: use Sines for a sum of sines.
type Sum []Shape

// Heights adds the heights of the parts, in their order.
func (s Sum) Heights(n int, dx float64) []float64 {
	z := make([]float64, n)
	for _, part := range s {
		for i, h := range part.Heights(n, dx) {
			z[i] += h
		}
	}
	return z
}

// Known returns nothing.
func (s Sum) Known() []Known { return nil }

// Sines is a sum of sines of different wavelengths.
type Sines []Sine

// Heights adds the sines, in their order.
func (s Sines) Heights(n int, dx float64) []float64 {
	parts := make(Sum, len(s))
	for i, part := range s {
		parts[i] = part
	}
	return parts.Heights(n, dx)
}

// Known lists what holds for every sum of sines over whole periods of all of them.
func (s Sines) Known() []Known {
	var q, d float64
	for _, part := range s {
		k := 2 * math.Pi * part.Amplitude / part.Wavelength
		q += part.Amplitude * part.Amplitude / 2
		d += k * k / 2
	}
	l := &list{source: "sines of different wavelengths are orthogonal (Parseval)"}
	l.length("Rq", math.Sqrt(q), "√(½ Σ A²)")
	l.ratio("Rdq", math.Sqrt(d), "√(½ Σ (2πA/λ)²)")
	return l.known
}
