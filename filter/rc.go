package filter

import (
	"fmt"
	"math"
)

// TwoRC is the filter of analogue instruments: two equal RC high-passes one after the other, in the direction of travel.
//
//	H(λ) = (iωT/(1 + iωT))²,  ω = 2π/λ,  T = λc/A,  A = 2π/√3
//	|H(λ)| = 1/(1 + (λ/λc)²/3)                      the share that stays in the short waves: 75 % at λc
//	phase  = 2·atan(λ/(√3·λc))                      it leads: 60° at λc
//	S(x)  = (A/λc)·(2 - A·x/λc)·e^(-A·x/λc)         weights of the mean line, over points already passed
//	yᵢ = ((1-t)·yᵢ₋₁ + xᵢ - xᵢ₋₁)/(1+t),  t = tan(π·dx/λc)·A/2π      twice; exact at λc for every spacing
//
// What the instrument showed is z - w. The long-wave part w of this filter exceeds the profile around 2.4 cut-offs and is no
// waviness; the instruments had a filter of its own for that.
//
// The filter starts on the first height with nothing stored. A tilt or a form left in the profile is felt like a step: after
// two cut-offs 0.4 % of a step are left, so Trim cuts two cut-offs away at the head. Level the profile first.
//
//   - Weighting function: S, one-sided.
//   - Input: heights, at least one, in the direction of travel.
//   - Transmission at the cut-off: 75 % in the short waves; Response gives size and phase.
//   - Errors: as [Gaussian].
//   - Source: ISO 3274:1975 and ASME B46.1-2002 (memory; the response derived); the run-up is common practice. B46.1 prints
//     A = 3.64, a rounding.
type TwoRC struct {
	Cutoff float64
	// Constant is A. 0 means 2π/√3 = 3.6276, which transmits exactly 75 %; 3.64 is printed in ASME B46.1.
	Constant float64
}

func (f TwoRC) constant() float64 {
	if f.Constant == 0 {
		return 2 * math.Pi / math.Sqrt(3)
	}
	return f.Constant
}

func (f TwoRC) step(z []float64, dx float64) (t float64, err error) {
	if err := check(z, dx, f.Cutoff); err != nil {
		return 0, err
	}
	if !(f.constant() >= 0.1 && f.constant() <= 100) {
		return 0, fmt.Errorf("filter: constant %v of a 2RC filter: %w", f.Constant, ErrOption)
	}
	return prewarped(dx, f.Cutoff, f.constant()), nil
}

// prewarped returns t = tan(π·dx/λc)·A/2π, which is at most large where the cut-off spans two samples.
func prewarped(dx, cutoff, constant float64) float64 {
	return math.Tan(math.Pi*min(dx/cutoff, 0.4999999)) * constant / (2 * math.Pi)
}

// Apply returns the long-wave part: the profile minus what the two high-passes let through.
func (f TwoRC) Apply(dst, z []float64, dx float64) ([]float64, error) {
	t, err := f.step(z, dx)
	if err != nil {
		return nil, err
	}
	dst = target(dst, z)
	// Each section: y' = (1-t)/(1+t)·y + (x' - x)/(1+t), starting at rest on the first height.
	p, gain := (1-t)/(1+t), 1/(1+t)
	var y1, y2, before float64
	last := z[0]
	for i, v := range z {
		y1 = float64(p*y1) + float64(gain*(v-last))
		y2 = float64(p*y2) + float64(gain*(y1-before))
		last, before = v, y1
		dst[i] = v - y2
	}
	return dst, nil
}

// Transmission returns the size of what stays of a sine in the long waves, |1 - H|, which exceeds 1 for long waves. The long and
// the short part are out of step, so that their sizes do not sum to 1; see Response.
func (f TwoRC) Transmission(wavelength float64) float64 {
	q := 2 * math.Pi * f.Cutoff / (f.constant() * wavelength) // ωT
	if math.IsInf(q, 1) {
		return 0
	}
	return math.Hypot(1, 2*q) / (1 + float64(q*q))
}

// Response returns what the instrument showed of a sine: the share of its size and the lead of its phase in radians.
func (f TwoRC) Response(wavelength float64) (size, lead float64) {
	q := f.constant() * wavelength / (2 * math.Pi * f.Cutoff) // 1/ωT
	return 1 / (1 + float64(q*q)), 2 * math.Atan(q)
}

// Trim says to cut two cut-offs away where the stylus came from.
func (f TwoRC) Trim(n int, dx float64) (head, tail int) {
	return min(samplesUp(2*f.Cutoff, dx), n), 0
}

// TwoRCZeroPhase is the 2RC filter without shift: one RC high-pass in each direction.
//
//	R(λ) = 1/(1 + (λ/λc)²/3)        75 % of the short-wave amplitude at λc, T = √3·λc/2π
//	R(λ) = 1/(1 + (λ/λc)²)          50 %, T = λc/2π
//	s(x) = 1/(2T)·e^(-|x|/T)        weights of the mean line
//
// computed by one recursion in each direction, pre-warped so that R(λc) is exact for every spacing. At the ends the weights
// inside keep straight lines (moment retainment of order 1, own choice).
//
//   - Weighting function: s.
//   - Input: heights, at least one.
//   - Transmission at the cut-off: as Percent says, in the short waves.
//   - Errors: as [Gaussian].
//   - Source: ASME B46.1-2002 and older instruments (memory: both percentages were in use, so that one must be named); derived.
type TwoRCZeroPhase struct {
	Cutoff float64
	// Percent is the share of the short-wave amplitude at the cut-off, 75 or 50. 0 means 75.
	Percent float64
}

// constant returns A = λc/T.
func (f TwoRCZeroPhase) constant() float64 {
	switch f.Percent {
	case 0, 75:
		return 2 * math.Pi / math.Sqrt(3)
	case 50:
		return 2 * math.Pi
	}
	return math.NaN()
}

func (f TwoRCZeroPhase) step(z []float64, dx float64) (t float64, err error) {
	if err := check(z, dx, f.Cutoff); err != nil {
		return 0, err
	}
	if math.IsNaN(f.constant()) {
		return 0, fmt.Errorf("filter: 2RC filter of %v %%, must be 75 or 50: %w", f.Percent, ErrOption)
	}
	return prewarped(dx, f.Cutoff, f.constant()), nil
}

// Apply returns the mean line.
func (f TwoRCZeroPhase) Apply(dst, z []float64, dx float64) ([]float64, error) {
	t, err := f.step(z, dx)
	if err != nil {
		return nil, err
	}
	dst = target(dst, z)
	level(dst, z, nil, 1, func(y []float64) { twoSidedDecay(dst, y, t) })
	return dst, nil
}

// twoSidedDecay lays the weights h₀ = t/(1+t), h_k = t/(1+t)²·p^(k-1) with p = (1-t)/(1+t) on both sides, whose transform is
// t²(1+cos)/(t²(1+cos) + (1-cos)), and corrects by the moments of what lies inside.
func twoSidedDecay(w, y []float64, t float64) {
	n := len(y)
	h0, h1, p := t/(1+t), t/float64((1+t)*(1+t)), (1-t)/(1+t)
	// From each side: Σ p^(k-1)·k^j over the points at distance k >= 1, of heights and of ones.
	type sums struct{ z0, z1, s0, s1, s2 float64 }
	next := func(s sums, z float64) sums {
		return sums{
			z0: float64(p*s.z0) + z, z1: float64(p*(s.z1+s.z0)) + z,
			s0: float64(p*s.s0) + 1, s1: float64(p*(s.s1+s.s0)) + 1, s2: float64(p*(s.s2+2*s.s1+s.s0)) + 1,
		}
	}
	ahead := make([]sums, n)
	for i := n - 2; i >= 0; i-- {
		ahead[i] = next(ahead[i+1], y[i+1])
	}
	var behind sums
	for i := range y {
		if i > 0 {
			behind = next(behind, y[i-1])
		}
		a := ahead[i]
		z0 := float64(h0*y[i]) + float64(h1*(a.z0+behind.z0))
		z1 := float64(h1 * (a.z1 - behind.z1))
		s0 := h0 + float64(h1*(a.s0+behind.s0))
		s1 := float64(h1 * (a.s1 - behind.s1))
		s2 := float64(h1 * (a.s2 + behind.s2))
		det := float64(s0*s2) - float64(s1*s1)
		if det > 1e-12*float64(s0*s2) {
			w[i] = (float64(z0*s2) - float64(z1*s1)) / det
		} else {
			w[i] = z0 / s0
		}
	}
}

// Transmission returns the share of a sine that stays in the mean line.
func (f TwoRCZeroPhase) Transmission(wavelength float64) float64 {
	q := 2 * math.Pi * f.Cutoff / (f.constant() * wavelength)
	return 1 / (1 + float64(q*q))
}
