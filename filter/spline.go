package filter

import (
	"fmt"
	"math"
)

// Spline is the linear spline filter: a smoothing spline through the profile, with tension if asked for.
//
//	(I + β·a²·P + (1-β)·a⁴·Q)·w = z,  a = 1/(2·sin(π·dx/λc))
//	P = D1ᵀD1, Q = D2ᵀD2              first and second differences, free at the ends
//	T(λ) = 1/(1 + β·(λc/λ)² + (1-β)·(λc/λ)⁴)          for dx much shorter than λ
//
// Without tension (β = 0) constants and straight lines are kept to the very ends, and nothing need be cut away. With
// β = 0.62524 the transmission comes within 4.4 % of the Gaussian one, but lines are no longer kept at the ends. The sum of
// w always equals the sum of z. The cost is proportional to the number of points, whatever the cut-off.
//
//   - Weighting function: for β = 0, (π/λc)·e^(-√2·π·|x|/λc)·sin(√2·π·|x|/λc + π/4).
//   - Input: heights, at least one.
//   - Half amplitude: a sine as long as Cutoff, for every β and spacing.
//   - Errors: as [Gaussian].
//   - Source: ISO 16610-22:2015 (excerpt: its equation quoted in J. Res. NIST 120 (2015) 010; the factor a⁴ at Q derived).
type Spline struct {
	Cutoff float64
	// Tension is β, from 0 (bending only, the default) to 1.
	Tension float64
	// Closed says that the last point is followed by the first one. The cut-off then is at most twice the circumference.
	Closed bool
}

func (f Spline) stiffness(dx float64, weight []float64, n int) stiffness {
	// Beyond a thousand times the profile the spline is its line to the last digit; a longer one would overflow.
	cutoff := min(f.Cutoff, 1000*float64(max(n, 3))*dx)
	sin, _ := sincos(math.Pi * dx / cutoff)
	a := 1 / (2 * sin)
	a2 := float64(a * a)
	return stiffness{weight: weight, p: float64(f.Tension * a2), q: float64((1 - f.Tension) * float64(a2*a2))}
}

func (f Spline) check(z []float64, dx float64) error {
	if err := check(z, dx, f.Cutoff); err != nil {
		return err
	}
	if !(f.Tension >= 0 && f.Tension <= 1) {
		return fmt.Errorf("filter: tension %v: %w", f.Tension, ErrOption)
	}
	return nil
}

// Apply returns the spline.
func (f Spline) Apply(dst, z []float64, dx float64) ([]float64, error) {
	if err := f.check(z, dx); err != nil {
		return nil, err
	}
	dst = target(dst, z)
	if f.Closed {
		return f.closed(dst, z, dx)
	}
	level(dst, z, nil, f.keeps(), func(y []float64) { f.stiffness(dx, nil, len(z)).solve(dst, y) })
	return dst, nil
}

// keeps returns the degree of the polynomials that pass unchanged.
func (f Spline) keeps() int {
	if f.Tension == 0 {
		return 1
	}
	return 0
}

// closed solves the ring cut open, with enough of it repeated at both sides that the free ends are not felt: the influence of
// a point falls by e^(-2π·x/λc·0.7) or faster.
func (f Spline) closed(dst, z []float64, dx float64) ([]float64, error) {
	n := len(z)
	if f.Cutoff > 2*dx*float64(n) {
		return nil, fmt.Errorf("filter: cut-off is over twice the circumference: %w", ErrTooShort)
	}
	half := samplesUp(10*f.Cutoff, dx)
	long := wrap(z, half)
	mean := 0.0
	for _, v := range z {
		mean += v / float64(n)
	}
	for i := range long {
		long[i] -= mean
	}
	w := make([]float64, len(long))
	s := f.stiffness(dx, nil, len(long))
	s.solve(w, long)
	for i := range dst {
		dst[i] = w[half+i] + mean
	}
	return dst, nil
}

// ApplyWeighted returns the spline through points that each have a weight δ, with Λ of the weights in place of I; where
// they are all zero the spline bends over the gap. Closed profiles are refused.
func (f Spline) ApplyWeighted(dst, z, weight []float64, dx float64) ([]float64, error) {
	z, weight, err := masked(z, weight)
	if err != nil {
		return nil, err
	}
	if err := f.check(z, dx); err != nil {
		return nil, err
	}
	if f.Closed {
		return nil, fmt.Errorf("filter: weights on a closed profile: %w", ErrOption)
	}
	dst = target(dst, z)
	level(dst, z, weight, f.keeps(), func(y []float64) { f.weighted(dst, y, weight, dx) })
	return dst, nil
}

// weighted solves with weights, or gives up the bending where a single point carries weight, which cannot say a slope.
func (f Spline) weighted(w, y, weight []float64, dx float64) {
	carry, last := 0, 0
	for i, d := range weight {
		if d > leastWeight {
			carry++
			last = i
		}
	}
	if carry < 2 {
		for i := range w {
			w[i] = y[last]
		}
		return
	}
	f.stiffness(dx, weight, len(y)).solve(w, y)
}

// Transmission returns the share of a sine that stays in the spline, for spacing much shorter than the wave.
func (f Spline) Transmission(wavelength float64) float64 {
	q := f.Cutoff / wavelength
	q *= q
	return 1 / (1 + float64(q*(f.Tension+float64((1-f.Tension)*q))))
}

// TransmissionAt returns the share of a sine that stays in the spline at spacing dx.
//
//	T = 1/(1 + 4·β·a²·sin²(π·dx/λ) + 16·(1-β)·a⁴·sin⁴(π·dx/λ))
func (f Spline) TransmissionAt(wavelength, dx float64) float64 {
	a := math.Sin(math.Pi*dx/wavelength) / math.Sin(math.Pi*dx/f.Cutoff)
	a *= a
	return 1 / (1 + float64(a*(f.Tension+float64((1-f.Tension)*a))))
}
