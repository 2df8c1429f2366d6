package filter

import "fmt"

// Polynomial is the polynomial of the given degree with the least sum of squared distances in z.
//
//	p₀ = 1,  p₁ = x - a₀,  pₖ₊₁ = (x - aₖ)·pₖ - bₖ·pₖ₋₁
//	shape = Σ (z·pₖ)/(pₖ·pₖ) · pₖ
//
// with x about the middle of the profile and scaled to half its length, and products summed over the points that take part. These
// polynomials are orthogonal on just these points (Forsythe), so that high degrees lose no digits.
//
//   - Input: heights, more that take part than the degree.
//   - Errors: [ErrOption] for a degree below 0 or above 30, [ErrFewPoints], [ErrSpacing], [ErrNotFinite] inside a [PointError].
//   - Source: G. E. Forsythe 1957 (textbook, memory). No standard known names a degree.
type Polynomial struct {
	Degree int
}

// Fit returns the height of the polynomial at every point.
func (f Polynomial) Fit(dst, z []float64, dx float64, use []bool) ([]float64, error) {
	if f.Degree < 0 || f.Degree > 30 {
		return nil, fmt.Errorf("filter: polynomial of degree %d: %w", f.Degree, ErrOption)
	}
	if err := checkForm(z, dx, use, f.Degree+1); err != nil {
		return nil, err
	}
	n := len(z)
	half := max(float64(n-1)/2, 1)
	x := func(i int) float64 { return (float64(i) - float64(n-1)/2) / half }
	last, p, fit := make([]float64, n), make([]float64, n), make([]float64, n)
	for i := range p {
		p[i] = 1
	}
	rest := make([]float64, n)
	for i, v := range z {
		if use == nil || use[i] {
			rest[i] = v
		}
	}
	before := 1.0
	for k := 0; ; k++ {
		var pp, zp, xpp float64
		for i, v := range p {
			if use == nil || use[i] {
				q := float64(v * v)
				pp += q
				xpp += float64(x(i) * q)
				zp += float64(rest[i] * v)
			}
		}
		for i, v := range p {
			t := float64(zp / pp * v)
			fit[i] += t
			rest[i] -= t // what is left for the next degree: keeps rounding down
		}
		if k == f.Degree {
			break
		}
		a, b := xpp/pp, 0.0
		if k > 0 {
			b = pp / before
		}
		before = pp
		for i, v := range p {
			p[i], last[i] = float64((x(i)-a)*v)-float64(b*last[i]), v
		}
	}
	return append(target(dst, z)[:0], fit...), nil
}

// FormLeft returns how much bow is left in a profile from which a form was taken: by how much the least-squares parabola
// stands above its chord in the middle; negative for a hollow.
//
//	bow = -c·(N·dx)²/4 where c·x² is the square term
//
// Source: own choice, a number for the eye.
func FormLeft(rest []float64, dx float64, use []bool) (bow float64, err error) {
	if err := checkForm(rest, dx, use, 3); err != nil {
		return 0, err
	}
	fit, err := Polynomial{Degree: 2}.Fit(nil, rest, dx, use)
	if err != nil {
		return 0, err
	}
	n := len(fit)
	if n < 3 {
		return 0, nil
	}
	// The second difference over a third of the profile, from which c follows exactly: Δ² = 2·c·h².
	h := (n - 1) / 2
	c := (fit[0] - 2*fit[h] + fit[2*h]) / (2 * float64(h) * float64(h))
	return -c * float64(n) * float64(n) / 4, nil
}
