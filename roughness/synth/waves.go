package synth

import "math"

// Sine is z = A sin 2π(x/λ + φ), with φ counted in periods.
type Sine struct {
	Amplitude, Wavelength, Phase float64
}

// Heights samples the sine.
func (s Sine) Heights(n int, dx float64) []float64 {
	return sample(n, dx, s.Wavelength, s.Phase, func(u float64) float64 { return s.Amplitude * math.Sin(2*math.Pi*u) })
}

// Known lists the closed forms of the sine, with k = 2πA/λ.
//
// The window of the straight line of Rk lies equally flat at both ends of the curve; the values are those of the first
// window, [0 %, 40 %].
func (s Sine) Known() []Known {
	a := s.Amplitude
	k := 2 * math.Pi * a / s.Wavelength
	l := &list{source: textbook}
	l.length("Ra", 2*a/math.Pi, "2A/π")
	l.length("Rq", a/math.Sqrt2, "A/√2")
	l.ratio("Rsk", 0, "0")
	l.ratio("Rku", 1.5, "3/2")
	extremes(l, a, a)
	l.length("Rsm", s.Wavelength, "λ")
	l.length("Rc", 2*a, "2A")
	l.ratio("Rdq", k/math.Sqrt2, "k/√2, k = 2πA/λ")
	l.ratio("Rda", 4*a/s.Wavelength, "4A/λ")
	l.ratio("Rdt", k, "k")
	l.share("Rdr", 100*(2/math.Pi*math.Sqrt(1+k*k)*ellipticE(k*k/(1+k*k))-1), "(2/π)√(1+k²) E(k²/(1+k²)) - 1")
	l.length("Ral", math.Acos(0.2)/(2*math.Pi)*s.Wavelength, "λ arccos(0.2)/2π")
	l.length("Rsw", s.Wavelength, "λ")
	l.source = derived
	sin1, cos1 := math.Sincos(math.Pi * 0.1)
	sin8, cos8 := math.Sincos(math.Pi * 0.8)
	material := func(p, sin, cos float64) float64 { return a * (sin/math.Pi - p*cos) }
	volumes(l, material(0.1, sin1, cos1), material(0.8, sin8, cos8), a*cos1, a*cos8, "z(p) = A cos πp")
	const w = 0.4
	sin, cos := math.Sincos(math.Pi * w)
	slope := 12 / (w * w * w) * (w*sin/math.Pi + (cos-1)/(math.Pi*math.Pi) - w/2*sin/math.Pi) * a
	low := a*sin/(math.Pi*w) - slope*w/2 + slope // of the line at 100 %
	mr2 := math.Acos(low/a) / math.Pi
	valley := a*math.Sin(math.Pi*mr2)/math.Pi + low*(1-mr2) // area under the core
	l.length("Rk", -slope, "least-squares line of A cos πp over [0, 0.4]")
	l.length("Rpk", 0, "0: the line lies above the profile at 0 %")
	l.length("Rvk", 2*valley/(1-mr2), "2 A2/(1 - Rmrk2)")
	l.share("Rmrk1", 0, "0")
	l.share("Rmrk2", 100*mr2, "arccos(c/A)/π, c the line at 100 %")
	return l.known
}

// Triangle is the symmetric triangle wave of amplitude A: it rises from -A to A in the first half of its period.
type Triangle struct {
	Amplitude, Wavelength, Phase float64
}

// Heights samples the triangle.
func (t Triangle) Heights(n int, dx float64) []float64 {
	return Sawtooth{t.Amplitude, t.Wavelength, t.Phase, 0.5}.Heights(n, dx)
}

// Known lists the closed forms of the triangle.
func (t Triangle) Known() []Known {
	return Sawtooth{t.Amplitude, t.Wavelength, t.Phase, 0.5}.Known()
}

// Sawtooth rises from -A to A over the share Rise of its period and falls back over the rest.
type Sawtooth struct {
	Amplitude, Wavelength, Phase float64
	Rise                         float64 // between 0 and 1
}

// Heights samples the sawtooth.
func (s Sawtooth) Heights(n int, dx float64) []float64 {
	a, d := s.Amplitude, s.Rise
	return sample(n, dx, s.Wavelength, s.Phase, func(u float64) float64 {
		if u < d {
			return a * (2*u/d - 1)
		}
		return a * (1 - 2*(u-d)/(1-d))
	})
}

// Known lists the closed forms of the sawtooth; d is the share of the period that it rises.
func (s Sawtooth) Known() []Known {
	a, d, w := s.Amplitude, s.Rise, s.Wavelength
	l := &list{source: textbook}
	l.length("Ra", a/2, "A/2")
	l.length("Rq", a/math.Sqrt(3), "A/√3")
	l.ratio("Rsk", 0, "0")
	l.ratio("Rku", 1.8, "9/5")
	extremes(l, a, a)
	l.length("Rsm", w, "λ")
	l.length("Rc", 2*a, "2A")
	up, down := 2*a/(d*w), 2*a/((1-d)*w)
	l.ratio("Rdq", 2*a/w/math.Sqrt(d*(1-d)), "(2A/λ)/√(d(1-d))")
	l.ratio("Rda", 4*a/w, "4A/λ")
	l.ratio("Rdt", math.Max(up, down), "2A/(λ min(d, 1-d))")
	l.share("Rdr", 100*(d*math.Sqrt(1+up*up)+(1-d)*math.Sqrt(1+down*down)-1), "d√(1+(2A/dλ)²) + (1-d)√(1+(2A/(1-d)λ)²) - 1")
	l.length("Rsw", w, "λ")
	l.source = derived
	volumes(l, 0.01*a, 0.64*a, 0.8*a, -0.6*a, "z(p) = A(1-2p)")
	l.length("Rk", 2*a, "2A: the curve is the line")
	core(l, 0, 0, 0, 100, "0: the curve is the line")
	return l.known
}

// edge keeps a sample that rounding put just before the end of a period on the side where it belongs.
const edge = 1e-9

// sample calls f with the place within the period, 0 ≤ u < 1, of n points.
func sample(n int, dx, wavelength, phase float64, f func(u float64) float64) []float64 {
	z := make([]float64, n)
	for i := range z {
		u := float64(i)*dx/wavelength + phase
		u -= math.Floor(u)
		if u > 1-edge {
			u = 0
		}
		z[i] = f(u)
	}
	return z
}

func extremes(l *list, peak, pit float64) {
	l.length("Rp", peak, "highest point")
	l.length("Rv", pit, "lowest point")
	l.length("Rz", peak+pit, "highest to lowest point")
	l.length("Rt", peak+pit, "highest to lowest point")
}

func core(l *list, rpk, rvk, mr1, mr2 float64, formula string) {
	l.length("Rpk", rpk, formula)
	l.length("Rvk", rvk, formula)
	l.share("Rmrk1", mr1, formula)
	l.share("Rmrk2", mr2, formula)
}

// volumes adds the volume parameters at 10 % and 80 %: Vm(p) = ∫₀ᵖ (z(q)-z(p)) dq and Vv(p) = Vm(p) + z(p), for
// heights measured from the mean.
func volumes(l *list, vm1, vm8, z1, z8 float64, curve string) {
	l.length("Rdc(10,80)", z1-z8, curve)
	l.length("Rvmp(10)", vm1, "Vm(10 %), "+curve)
	l.length("Rvmc(10,80)", vm8-vm1, "Vm(80 %) - Vm(10 %), "+curve)
	l.length("Rvvc(10,80)", vm1+z1-vm8-z8, "Vv(10 %) - Vv(80 %), "+curve)
	l.length("Rvvv(80)", vm8+z8, "Vv(80 %), "+curve)
}

// ellipticE is the complete elliptic integral of the second kind with parameter m, by the arithmetic-geometric mean.
func ellipticE(m float64) float64 {
	a, b := 1.0, math.Sqrt(1-m)
	sum, power := m/2, 0.5
	for range 40 {
		c := (a - b) / 2
		a, b = (a+b)/2, math.Sqrt(a*b)
		power *= 2
		sum += power * c * c
		if c == 0 {
			break
		}
	}
	return math.Pi / (2 * a) * (1 - sum)
}
