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
	x := func(i int) float64 { return (float64(i) - middle(n)) / half }
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
