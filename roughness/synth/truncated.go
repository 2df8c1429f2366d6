package synth

import "math"

// TruncatedTriangle is a triangle wave cut off at the height Level·Amplitude: a plateau that takes P = (1-Level)/2 of
// the length, with V-shaped grooves between.
type TruncatedTriangle struct {
	Amplitude, Wavelength, Phase float64
	Level                        float64 // between -1 and 1
}

// Heights samples the truncated triangle, measured from its mean.
func (t TruncatedTriangle) Heights(n int, dx float64) []float64 {
	z := Triangle{t.Amplitude, t.Wavelength, t.Phase}.Heights(n, dx)
	mean := -t.Amplitude * t.plateau() * t.plateau()
	for i := range z {
		z[i] = math.Min(z[i], t.Amplitude*t.Level) - mean
	}
	return z
}

func (t TruncatedTriangle) plateau() float64 { return (1 - t.Level) / 2 }

// Known lists the closed forms. The material ratio values hold for P ≥ 40 %, where the straight line lies on the
// plateau.
func (t TruncatedTriangle) Known() []Known {
	a, p := t.Amplitude, t.plateau()
	mean := -p * p
	// moment is the k-th moment about the mean: the plateau, and heights spread evenly from -1 to the level.
	moment := func(k float64) float64 {
		top, bottom := t.Level-mean, -1-mean
		return p*math.Pow(top, k) + (math.Pow(top, k+1)-math.Pow(bottom, k+1))/(2*(k+1))
	}
	q := math.Sqrt(moment(2))
	l := &list{source: derived}
	l.length("Ra", a*(1-p*p)*(1-p*p)/2, "A(1-P²)²/2")
	l.length("Rq", a*q, "√μ₂")
	l.ratio("Rsk", moment(3)/(q*q*q), "μ₃/μ₂^1.5")
	l.ratio("Rku", moment(4)/(q*q*q*q), "μ₄/μ₂²")
	extremes(l, a*(t.Level-mean), a*(1+mean))
	l.length("Rsm", t.Wavelength, "λ")
	l.length("Rc", a*(1+t.Level), "A(1+t)")
	if p >= 0.4 {
		l.length("Rk", 0, "0: the line lies on the plateau")
		core(l, 0, 2*a*(1-p), 0, 100*p, "Rvk = 2A(1-P), Rmrk2 = P")
	}
	return l.known
}
