package filter

import "math"

// RobustSpline is the spline filter repeated with weights that take from each point the more of its say the farther it
// stands from the spline.
//
//	(Δ + β·a²·P + (1-β)·a⁴·Q)·w = Δ·z     Δ = diag(δ)
//
// with the weights δ, the scale c and the end of the passes of [RobustGaussian]. The ends are free, as in [Spline].
//
//   - Weighting function: none of its own; with all δ = 1 that of [Spline].
//   - Input: heights, at least one.
//   - Half amplitude: a sine as long as Cutoff, as far as no point is an outlier.
//   - Errors: as [Spline].
//   - Source: ISO/TR 16610-32:2023 (scope excerpt: biweight as in ISO 16610-31); the L1 norm of ISO/TS 16610-32:2009 is not
//     offered, since its scale is not known.
type RobustSpline struct {
	Cutoff    float64
	Tension   float64
	Tolerance float64 // relative change of c at which the passes end; 0 means 1e-3
	Passes    int     // greatest number of passes; 0 means 50
}

// Apply returns the spline.
func (f RobustSpline) Apply(dst, z []float64, dx float64) ([]float64, error) {
	dst, _, err := f.apply(dst, z, nil, dx)
	return dst, err
}

// ApplyReport returns the spline and how it was reached.
func (f RobustSpline) ApplyReport(dst, z []float64, dx float64) ([]float64, RobustReport, error) {
	return f.apply(dst, z, nil, dx)
}

// ApplyWeighted returns the spline through points that each have a weight beside the robust one.
func (f RobustSpline) ApplyWeighted(dst, z, weight []float64, dx float64) ([]float64, error) {
	z, weight, err := masked(z, weight)
	if err != nil {
		return nil, err
	}
	dst, _, err = f.apply(dst, z, weight, dx)
	return dst, err
}

func (f RobustSpline) apply(dst, z, weight []float64, dx float64) ([]float64, RobustReport, error) {
	spline := Spline{Cutoff: f.Cutoff, Tension: f.Tension}
	if err := spline.check(z, dx); err != nil {
		return nil, RobustReport{}, err
	}
	rule, err := newBiweight(f.Tolerance, f.Passes)
	if err != nil {
		return nil, RobustReport{}, err
	}
	dst = target(dst, z)
	var report RobustReport
	level(dst, z, weight, spline.keeps(), func(y []float64) {
		report = rule.run(dst, y, weight, highest(z), func(delta []float64) int {
			if delta == nil {
				spline.stiffness(dx, nil, len(y)).solve(dst, y)
			} else {
				spline.weighted(dst, y, delta, dx)
			}
			return 0
		})
	})
	return dst, report, nil
}

// Transmission is NaN: the filter does not act on sines one by one.
func (f RobustSpline) Transmission(float64) float64 { return math.NaN() }
