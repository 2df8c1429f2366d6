package filter

import (
	"fmt"
	"math"
)

// RobustGaussian is the robust Gaussian regression filter: the regression filter, repeated with weights that take from each
// point the more of its say the farther it stands from the mean line, so that grooves and pores do not draw the line down.
//
//	rⱼ = zⱼ - wⱼ,  c = 3·1.4826·median|r|
//	δⱼ = (1 - (rⱼ/c)²)²  where |rⱼ| < c, else 0       Tukey's biweight
//
// The first pass has δ = 1. The median is taken over the whole profile, about zero. The passes end when c changes by no more
// than Tolerance, or after Passes of them; ApplyReport says which. If more than half of the residuals vanish there is no scale
// to judge by, and the mean line of that pass is returned.
//
//   - Weighting function: none of its own; with all δ = 1 that of [GaussianRegression].
//   - Input: heights, at least one; where points do not carry the order, a lower one is used there, and where the window
//     holds no weight the mean line runs straight across.
//   - Half amplitude: a sine as long as Cutoff, as far as no point is an outlier.
//   - Errors: as [Gaussian].
//   - Source: ISO 16610-31:2016 (memory); default order, tolerance and limit of passes are own choices, the standard's are
//     not known.
type RobustGaussian struct {
	Cutoff float64
	// Order is the degree of the local polynomial: 1 or 2, or Order0. 0 means 2, which follows curved form.
	Order int
	// Tolerance is the relative change of c at which the passes end. 0 means 1e-3.
	Tolerance float64
	// Passes is the greatest number of passes. 0 means 50.
	Passes int
	// Support is the half width of the window in cut-offs. 0 means 1, and 2 for order 2.
	Support float64
}

// A Stop is the reason why a robust filter made no further pass.
type Stop uint8

const (
	Settled       Stop = iota // the scale changed by no more than the tolerance
	PassLimit                 // the greatest number of passes was reached
	ScaleVanished             // the median of the residuals vanished: the profile lies on its mean line
)

// String returns the reason in words.
func (s Stop) String() string {
	switch s {
	case Settled:
		return "settled"
	case PassLimit:
		return "limit of passes reached"
	case ScaleVanished:
		return "residuals vanish"
	}
	return fmt.Sprintf("Stop(%d)", uint8(s))
}

// A RobustReport tells how a robust filter came to its end.
type RobustReport struct {
	Passes   int     // fits made, the first one, with all weights 1, included
	Stop     Stop    // why no more
	Scale    float64 // c of the last pass: residuals from there on weigh nothing
	Excluded int     // points that weighed nothing in the last fit
	Crossed  int     // points at which the window held no weight, so that the mean line runs straight across
}

// Apply returns the mean line.
func (f RobustGaussian) Apply(dst, z []float64, dx float64) ([]float64, error) {
	dst, _, err := f.ApplyReport(dst, z, dx)
	return dst, err
}

// ApplyReport returns the mean line and how it was reached.
func (f RobustGaussian) ApplyReport(dst, z []float64, dx float64) ([]float64, RobustReport, error) {
	return f.apply(dst, z, nil, dx)
}

// ApplyWeighted returns the mean line of points that each have a weight beside the robust one.
func (f RobustGaussian) ApplyWeighted(dst, z, weight []float64, dx float64) ([]float64, error) {
	z, weight, err := masked(z, weight)
	if err != nil {
		return nil, err
	}
	dst, _, err = f.apply(dst, z, weight, dx)
	return dst, err
}

func (f RobustGaussian) apply(dst, z, weight []float64, dx float64) ([]float64, RobustReport, error) {
	order, err := orderOf(f.Order, 2)
	if err != nil {
		return nil, RobustReport{}, err
	}
	given := order
	if order == 0 {
		given = Order0
	}
	win, _, err := GaussianRegression{f.Cutoff, given, f.Support}.prepare(z, dx)
	if err != nil {
		return nil, RobustReport{}, err
	}
	rule, err := newBiweight(f.Tolerance, f.Passes)
	if err != nil {
		return nil, RobustReport{}, err
	}
	dst = target(dst, z)
	var report RobustReport
	level(dst, z, weight, order, func(y []float64) {
		report = rule.run(dst, y, weight, highest(z), func(delta []float64) int {
			switch {
			case delta == nil && win.coarseness(order) == 0:
				win.regress(dst, y, order)
				return 0
			case delta == nil:
				ones := lend(len(y))
				defer giveBack(ones)
				delta = *ones
				for i := range delta {
					delta[i] = 1
				}
			}
			return win.regressWeighted(dst, y, delta, order)
		})
	})
	return dst, report, nil
}

// Transmission is NaN: the filter does not act on sines one by one.
func (f RobustGaussian) Transmission(float64) float64 { return math.NaN() }

func highest(z []float64) float64 {
	most := 0.0
	for _, v := range z {
		if v = math.Abs(v); v > most {
			most = v
		}
	}
	return most
}

// A biweight repeats a fit with Tukey's weights until their scale no longer changes.
type biweight struct {
	tolerance float64
	passes    int
}

// The stop rule where none is stated (own choice).
const (
	usualTolerance = 1e-3
	usualPasses    = 50
)

func newBiweight(tolerance float64, passes int) (biweight, error) {
	b := biweight{tolerance, passes}
	if tolerance == 0 {
		b.tolerance = usualTolerance
	}
	if passes == 0 {
		b.passes = usualPasses
	}
	if !(b.tolerance > 0 && b.tolerance <= 1) {
		return b, fmt.Errorf("filter: tolerance %v: %w", tolerance, ErrOption)
	}
	if b.passes < 1 || b.passes > 10000 {
		return b, fmt.Errorf("filter: %d passes: %w", passes, ErrOption)
	}
	return b, nil
}

// scaleOf is 3 times the factor 1.4826 that makes of the median of |r| the standard deviation of a normal distribution.
const scaleOf = 3 * 1.4826

// run repeats fit, which computes the mean line w of y under the weights given (nil: all 1) and says at how many points
// it had to run straight across. size is the greatest height of the profile; scales lost in its rounding count as zero.
func (b biweight) run(w, y, weight []float64, size float64, fit func(delta []float64) int) (r RobustReport) {
	weights, rests := lend(len(y)), lend(len(y))
	defer giveBack(weights)
	defer giveBack(rests)
	delta, rest := *weights, *rests
	for {
		if r.Passes == 0 && weight == nil {
			fit(nil)
		} else {
			if r.Passes == 0 {
				copy(delta, weight)
			}
			r.Crossed = fit(delta)
		}
		r.Passes++
		rest = rest[:len(y)]
		left := 0 // points that count
		for i, v := range y {
			rest[left] = math.Abs(v - w[i])
			if weight == nil || weight[i] > 0 {
				left++
			}
		}
		rest = rest[:left]
		c := float64(scaleOf * median(rest))
		last := r.Scale
		r.Scale = c
		switch {
		case !(c > 1e-14*size):
			r.Stop = ScaleVanished
			return r
		case r.Passes > 1 && math.Abs(c-last) <= b.tolerance*last:
			r.Stop = Settled
			return r
		case r.Passes >= b.passes:
			r.Stop = PassLimit
			return r
		}
		r.Excluded = 0
		for i, v := range y {
			q := (v - w[i]) / c
			d := 1 - float64(q*q)
			if d <= 0 {
				delta[i] = 0
			} else {
				delta[i] = float64(d * d)
			}
			if weight != nil {
				delta[i] *= weight[i]
			}
			if delta[i] == 0 && (weight == nil || weight[i] > 0) {
				r.Excluded++
			}
		}
	}
}
