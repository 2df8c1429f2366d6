package filter

import "math"

// ValleySuppression is the filter in two stages for surfaces with deep valleys, which draw a Gaussian mean line down.
//
//	w1  = Gaussian mean line of z
//	z'ᵢ = max(zᵢ, w1ᵢ)                 the valleys below the mean line are filled
//	w   = Gaussian mean line of z'
//
// The roughness profile is z - w, with z the unfilled heights.
//
//   - Weighting function: none of its own; both stages use that of [Gaussian], whose fields it has.
//   - Input: heights, at least one. Both stages treat the ends alike.
//   - Half amplitude: both stages at Cutoff; the whole is not linear.
//   - Errors: as [Gaussian].
//   - Source: ISO 13565-1:1996 (scope excerpt, steps memory).
type ValleySuppression Gaussian

// Apply returns the mean line of the second stage.
func (f ValleySuppression) Apply(dst, z []float64, dx float64) ([]float64, error) {
	filled, err := Gaussian(f).Apply(nil, z, dx)
	if err != nil {
		return nil, err
	}
	for i, v := range z {
		filled[i] = max(v, filled[i])
	}
	return Gaussian(f).Apply(target(dst, z), filled, dx)
}

// Transmission is NaN: the filter does not act on sines one by one.
func (f ValleySuppression) Transmission(float64) float64 { return math.NaN() }

// Trim says what Discard cuts away at each end.
func (f ValleySuppression) Trim(n int, dx float64) (head, tail int) { return Gaussian(f).Trim(n, dx) }
