package filter

import (
	"fmt"
	"math"
)

// Order0 asks for the weighted mean in GaussianRegression and RobustGaussian, whose zero value asks for the default order.
const Order0 = -1

// GaussianRegression is the linear Gaussian regression filter: at each point a polynomial is fitted with Gaussian
// weights, and its value there is the mean line.
//
//	Σⱼ δⱼ·g(xⱼ-xᵢ)·(zⱼ - Σₖ bₖ·(xⱼ-xᵢ)^k)² = min,  wᵢ = b₀
//	g(u) = exp(-π·(u/(α·λc))²)                      α = 0.4697; 0.7309 for order 2, so that T(λc) = 1/2
//	T(λ) = 2^(-(λc/λ)²)                             orders 0 and 1
//	T(λ) = e^(-t)·(1+t),  t = π·(α·λc/λ)²           order 2
//
// All points weigh the same (δ = 1) in Apply. The sums are correlations, so that a profile of N points costs N·log N.
//
//   - Weighting function: the bell; for order 2 the bell times 3/2 - u²/(2σ²).
//   - Input: heights, at least one; where points do not carry the order, a lower one is used there.
//   - Half amplitude: a sine as long as Cutoff.
//   - Errors: as [Gaussian].
//   - Source: ISO 16610-31:2016 (memory), J. Seewig, J. Phys. Conf. Ser. 13 (2005) 254; constants derived.
type GaussianRegression struct {
	Cutoff float64
	// Order is the degree of the polynomial: 1 or 2, or Order0. 0 means 1.
	Order int
	// Support is the half width of the window in cut-offs. 0 means 1, and 2 for order 2 (greatest error of T 3e-9).
	Support float64
}

func orderOf(order, standard int) (int, error) {
	switch order {
	case 0:
		return standard, nil
	case Order0:
		return 0, nil
	case 1, 2:
		return order, nil
	}
	return 0, fmt.Errorf("filter: order %d of a regression filter: %w", order, ErrOption)
}

// Apply returns the mean line.
func (f GaussianRegression) Apply(dst, z []float64, dx float64) ([]float64, error) {
	win, order, err := f.prepare(z, dx)
	if err != nil {
		return nil, err
	}
	dst = target(dst, z)
	level(dst, z, nil, order, func(y []float64) { win.regress(dst, y, order) })
	return dst, nil
}

func (f GaussianRegression) prepare(z []float64, dx float64) (*window, int, error) {
	order, err := orderOf(f.Order, 1)
	if err != nil {
		return nil, 0, err
	}
	if err := check(z, dx, f.Cutoff); err != nil {
		return nil, 0, err
	}
	support := defaultSupport(f.Support, order)
	if err := checkSupport(support); err != nil {
		return nil, 0, err
	}
	return newWindow(f.Cutoff/dx, support, order, len(z)-1), order, nil
}

// ApplyWeighted returns the mean line of points that each have a weight δ. Where the window holds hardly any weight, the
// mean line runs straight between the nearest points at which it is defined.
func (f GaussianRegression) ApplyWeighted(dst, z, weight []float64, dx float64) ([]float64, error) {
	z, weight, err := masked(z, weight)
	if err != nil {
		return nil, err
	}
	win, order, err := f.prepare(z, dx)
	if err != nil {
		return nil, err
	}
	dst = target(dst, z)
	level(dst, z, weight, order, func(y []float64) { win.regressWeighted(dst, y, weight, order) })
	return dst, nil
}

// masked checks weights and heights and returns copies in which points of weight zero stand at height zero and the
// greatest weight is 1.
func masked(z, weight []float64) ([]float64, []float64, error) {
	if err := checkWeights(z, weight); err != nil {
		return nil, nil, err
	}
	if err := checkHeights(z, weight); err != nil {
		return nil, nil, err
	}
	most := 0.0
	for _, v := range weight {
		most = max(most, v)
	}
	y, d := make([]float64, len(z)), make([]float64, len(z))
	for i, v := range weight {
		if v > 0 {
			y[i], d[i] = z[i], v/most
		}
	}
	return y, d, nil
}

// Transmission returns the share of a sine that stays in the mean line, away from the ends.
func (f GaussianRegression) Transmission(wavelength float64) float64 {
	order, err := orderOf(f.Order, 1)
	switch {
	case err != nil:
		return math.NaN()
	case order < 2:
		return gauss(f.Cutoff, wavelength)
	}
	q := alpha2 * f.Cutoff / wavelength
	t := float64(math.Pi * q * q)
	if math.IsInf(t, 1) {
		return 0
	}
	return exp(-t) * (1 + t)
}
