package synth

import "math"

// Line is a straight line: a tilt for the form removal.
type Line struct {
	Offset, Slope float64
}

// Heights samples the line.
func (s Line) Heights(n int, dx float64) []float64 {
	z := make([]float64, n)
	for i := range z {
		z[i] = s.Offset + float64(s.Slope*(float64(i)*dx))
	}
	return z
}

// Known says that a straight line has no roughness.
func (s Line) Known() []Known {
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
	z := make([]float64, n)
	for _, part := range s {
		for i, h := range part.Heights(n, dx) {
			z[i] += h
		}
	}
	return z
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

// TwoCosines is z = A₁ cos θ + A₂ cos 2θ with θ = 2πx/λ: the simplest profile with a skewness.
type TwoCosines struct {
	First, Second, Wavelength float64 // A₁, A₂, λ
}

// Heights samples the two cosines.
func (s TwoCosines) Heights(n int, dx float64) []float64 {
	return sample(n, dx, s.Wavelength, 0, func(u float64) float64 {
		return s.First*math.Cos(2*math.Pi*u) + float64(s.Second*math.Cos(4*math.Pi*u))
	})
}

// Known lists the closed forms. The extremes hold for positive amplitudes with A₁ ≤ 4A₂, where the lowest point lies
// at cos θ = -A₁/4A₂.
func (s TwoCosines) Known() []Known {
	a, b := s.First, s.Second
	q := math.Sqrt((a*a + b*b) / 2)
	k1, k2 := 2*math.Pi*a/s.Wavelength, 4*math.Pi*b/s.Wavelength
	l := &list{source: derived}
	l.length("Rq", q, "√((A₁²+A₂²)/2)")
	l.ratio("Rsk", 0.75*a*a*b/(q*q*q), "¾A₁²A₂/Rq³")
	l.ratio("Rku", (0.375*(a*a*a*a+b*b*b*b)+1.5*a*a*b*b)/(q*q*q*q), "(⅜(A₁⁴+A₂⁴) + 3/2 A₁²A₂²)/Rq⁴")
	l.ratio("Rdq", math.Sqrt((k1*k1+k2*k2)/2), "√(½((2πA₁/λ)² + (4πA₂/λ)²))")
	if a > 0 && b > 0 && a <= 4*b {
		extremes(l, a+b, b+a*a/(8*b))
	}
	return l.known
}
