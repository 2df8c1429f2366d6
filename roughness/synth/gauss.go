package synth

import "math"

// Noise is white: independent normal heights.
type Noise struct {
	Sigma float64 // standard deviation
	Seed  uint64
}

// Heights draws the heights.
func (s Noise) Heights(n int, dx float64) []float64 {
	r := NewRandom(s.Seed, 1)
	z := make([]float64, n)
	for i := range z {
		z[i] = s.Sigma * r.Normal()
	}
	return z
}

// Known lists the values of normal heights that do not depend on the order of the points.
func (s Noise) Known() []Known {
	l := &list{source: gaussian, expected: true}
	normalHeights(l, s.Sigma)
	return l.known
}

// Correlated is a normal process with the autocorrelation exp(-(t/β)²): a smooth random surface.
type Correlated struct {
	Sigma  float64 // standard deviation
	Length float64 // β: the autocorrelation falls to 1/e there
	Seed   uint64
}

// Heights draws white noise and weights it with a bell of half the width, whose own autocorrelation is the wanted one.
func (s Correlated) Heights(n int, dx float64) []float64 {
	if s.Length == 0 { // independent points
		return Noise{s.Sigma, s.Seed}.Heights(n, dx)
	}
	half := int(math.Ceil(3.2 * s.Length / dx)) // the bell is below 2e-9 there
	bell := make([]float64, 2*half+1)
	var square float64
	for i := range bell {
		t := float64(i-half) * dx / s.Length
		bell[i] = math.Exp(-2 * t * t)
		square += float64(bell[i] * bell[i])
	}
	scale := s.Sigma / math.Sqrt(square)
	white := Noise{1, s.Seed}.Heights(n+2*half, dx)
	z := make([]float64, n)
	for i := range z {
		var sum float64
		for j, b := range bell {
			sum += float64(b * white[i+j])
		}
		z[i] = scale * sum
	}
	return z
}

// Known lists what the distribution and the autocorrelation give.
func (s Correlated) Known() []Known {
	l := &list{source: gaussian, expected: true}
	normalHeights(l, s.Sigma)
	l.source = "S. O. Rice, Mathematical Analysis of Random Noise (1944-45, from memory)"
	l.ratio("Rdq", math.Sqrt2*s.Sigma/s.Length, "√2 σ/β")
	l.length("Rsm", math.Sqrt2*math.Pi*s.Length, "√2 πβ, without height discrimination")
	l.length("Ral", s.Length*math.Sqrt(math.Log(5)), "β√ln 5")
	return l.known
}

// NormalSet holds the quantiles σΦ⁻¹((i+½)/n) in random order: normal heights without any scatter.
type NormalSet struct {
	Sigma float64
	Seed  uint64 // of the order
}

// Heights returns the set of n heights.
func (s NormalSet) Heights(n int, dx float64) []float64 {
	z := make([]float64, n)
	for i := range z {
		z[i] = s.Sigma * Quantile((float64(i)+0.5)/float64(n))
	}
	NewRandom(s.Seed, 2).Shuffle(z)
	return z
}

// Known lists the values of the normal distribution.
func (s NormalSet) Known() []Known {
	l := &list{source: gaussian}
	normalHeights(l, s.Sigma)
	return l.known
}

// normalHeights adds what follows from a normal distribution of heights alone.
func normalHeights(l *list, sigma float64) {
	l.length("Ra", sigma*math.Sqrt(2/math.Pi), "σ√(2/π)")
	l.length("Rq", sigma, "σ")
	l.ratio("Rsk", 0, "0")
	l.ratio("Rku", 3, "3")
	z1, z8 := -Quantile(0.1), -Quantile(0.8)
	vm := func(p, z float64) float64 { return density(z) - z*p }
	volumes(l, sigma*vm(0.1, z1), sigma*vm(0.8, z8), sigma*z1, sigma*z8, "z(p) = -σΦ⁻¹(p)")
	normalCore(l, sigma)
}

// normalCore adds the values of the straight line through the middle 40 % of a normal distribution of heights.
func normalCore(l *list, sigma float64) {
	const w = 0.4
	u := Quantile(0.7)
	slope := 12 / (w * w * w) * math.Abs(-w*density(u)+(2*distribution(math.Sqrt2*u)-1)/(2*math.Sqrt(math.Pi)))
	mr1 := 1 - distribution(slope/2)
	peak := density(slope/2) - slope/2*mr1 // area of the curve above the core
	l.length("Rk", sigma*slope, "least-squares line of the curve over [30 %, 70 %]")
	core(l, sigma*2*peak/mr1, sigma*2*peak/mr1, 100*mr1, 100-100*mr1, "Rmrk1 = 1 - Φ(Rk/2σ), Rpk = 2 A1/Rmrk1")
}
