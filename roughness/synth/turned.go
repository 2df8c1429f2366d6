package synth

import "math"

// Turned is the profile that a tool with a round nose leaves at a feed per revolution: cusps, one per feed. It holds
// while only the nose cuts.
type Turned struct {
	Feed, Nose float64 // feed per revolution and nose radius
	Phase      float64 // in feeds
	Arc        bool    // circular arcs; otherwise the parabolas of the shop formula
}

// Heights samples the cusps, measured from their mean. A groove begins at its ridge.
func (t Turned) Heights(n int, dx float64) []float64 {
	f, r := t.Feed, t.Nose
	mean := t.mean()
	return sample(n, dx, f, t.Phase, func(u float64) float64 {
		x := (u - 0.5) * f
		if t.Arc {
			return x*x/(r+math.Sqrt(r*r-x*x)) - mean
		}
		return x*x/(2*r) - mean
	})
}

// mean is the mean height above the bottom of the groove.
func (t Turned) mean() float64 {
	h, r := t.Feed/2, t.Nose
	if t.Arc {
		return r - arcArea(h, r)/h
	}
	return h * h / (6 * r)
}

// arcArea is the integral of √(r²-x²) from 0 to x.
func arcArea(x, r float64) float64 {
	return (x*math.Sqrt(r*r-x*x) + r*r*math.Asin(x/r)) / 2
}

// Known lists the closed forms. Those of the arc lose about four digits to cancellation.
func (t Turned) Known() []Known {
	f, r := t.Feed, t.Nose
	if t.Arc {
		return t.knownArc()
	}
	h := f * f / (8 * r)
	l := &list{source: "shop formula of turning Rt = f²/(8r) (machining texts), the others derived from the parabola"}
	l.length("Ra", f*f/(18*math.Sqrt(3)*r), "f²/(18√3 r)")
	l.length("Rq", f*f/(12*math.Sqrt(5)*r), "f²/(12√5 r)")
	l.ratio("Rsk", 2*math.Sqrt(5)/7, "2√5/7")
	l.ratio("Rku", 15.0/7, "15/7")
	extremes(l, 2*h/3, h/3)
	l.length("Rsm", f, "f")
	l.length("Rc", h, "h = f²/(8r)")
	l.ratio("Rdq", f/(2*math.Sqrt(3)*r), "f/(2√3 r)")
	l.ratio("Rda", f/(4*r), "f/(4r)")
	l.ratio("Rdt", f/(2*r), "f/(2r)")
	l.length("Rsw", f, "f")
	l.source = derived
	z := func(p float64) float64 { return h * ((1-p)*(1-p) - 1.0/3) }
	vm := func(p float64) float64 { return h * ((1-(1-p)*(1-p)*(1-p))/3 - p*(1-p)*(1-p)) }
	volumes(l, vm(0.1), vm(0.8), z(0.1), z(0.8), "z(p) = h((1-p)² - ⅓)")
	const w = 0.4
	l.length("Rk", w*h, "0.4 h: least-squares line over the flattest 40 %, at the bottom")
	// The line falls by w h from its height at 0 %; with v = 1-p it is wv - w²/6.
	top := w - w*w/6          // above the bottom, in h
	mr1 := 1 - math.Sqrt(top) // where the curve leaves the core
	area := (1-top*math.Sqrt(top))/3 - top*mr1
	core(l, h*2*area/mr1, 0, 100*mr1, 100, "line wv - w²/6 with v = 1-p, w = 0.4")
	return l.known
}

func (t Turned) knownArc() []Known {
	h, r := t.Feed/2, t.Nose
	level := arcArea(h, r) / h // mean of √(r²-x²)
	x0 := math.Sqrt(r*r - level*level)
	depth := h * h / (r + math.Sqrt(r*r-h*h))
	pit := r - level
	l := &list{source: "circle segment, derived by integration"}
	l.length("Ra", 2/h*(arcArea(x0, r)-level*x0), "(2/h) ∫ (√(r²-x²) - m) dx to the crossing of the mean, h = f/2")
	l.length("Rq", math.Sqrt(r*r-h*h/3-level*level), "√(r² - h²/3 - m²)")
	extremes(l, depth-pit, pit)
	l.length("Rsm", t.Feed, "f")
	l.length("Rc", depth, "r - √(r² - f²/4)")
	return l.known
}

// Rectified is |sin πx/λ|·H: round ridges with sharp grooves, one per wavelength.
type Rectified struct {
	Height, Wavelength, Phase float64
}

// Heights samples the rectified sine, measured from its mean.
func (s Rectified) Heights(n int, dx float64) []float64 {
	return sample(n, dx, s.Wavelength, s.Phase, func(u float64) float64 {
		return s.Height * (math.Sin(math.Pi*u) - 2/math.Pi)
	})
}

// Known lists the closed forms of the rectified sine.
func (s Rectified) Known() []Known {
	h, m := s.Height, 2/math.Pi
	u0 := math.Asin(m) / math.Pi // first crossing of the mean
	q := math.Sqrt(0.5 - m*m)
	third := 4/(3*math.Pi) - 3*m/2 + 2*m*m*m
	fourth := 3.0/8 - 4*m*4/(3*math.Pi) + 3*m*m - 3*m*m*m*m
	l := &list{source: derived}
	l.length("Ra", h*4*(m*u0-(1-math.Cos(math.Pi*u0))/math.Pi), "4H ∫ (m - sin πu) du to the first crossing of the mean m = 2/π")
	l.length("Rq", h*q, "H√(½ - 4/π²)")
	l.ratio("Rsk", third/(q*q*q), "(4/3π - 3m/2 + 2m³)/(½ - m²)^1.5")
	l.ratio("Rku", fourth/(q*q*q*q), "(3/8 - 16m/3π + 3m² - 3m⁴)/(½ - m²)²")
	extremes(l, h*(1-m), h*m)
	l.length("Rsm", s.Wavelength, "λ")
	l.length("Rc", h, "H")
	return l.known
}
