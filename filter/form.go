package filter

import (
	"fmt"
	"math"
)

// A Form is a shape that can be fitted to a profile and subtracted from it.
//
// Fit returns the height of the fitted shape at every point, in dst if that is not nil; the residual is z minus that,
// taken in z. use says which points take part, nil for all; a point that does not may have any height, NaN too. dst may be z
// itself.
type Form interface {
	Fit(dst, z []float64, dx float64, use []bool) ([]float64, error)
}

// Mean is the mean height.
//
//	c = 1/N Σ zᵢ
//
// The sum runs over the N points that take part.
//
//   - Input: heights, at least one that takes part.
//   - Errors: [ErrFewPoints], [ErrSpacing], [ErrNotFinite] inside a [PointError].
//   - Source: ISO 4287:1997 (excerpt).
type Mean struct{}

// Fit returns the mean height at every point.
func (Mean) Fit(dst, z []float64, dx float64, use []bool) ([]float64, error) {
	if err := checkForm(z, dx, use, 1); err != nil {
		return nil, err
	}
	var sum, n float64
	for i, v := range z {
		if use == nil || use[i] {
			sum += v
			n++
		}
	}
	mean := sum / n
	dst = target(dst, z)
	for i := range dst {
		dst[i] = mean
	}
	return dst, nil
}

// Line is the straight line with the least sum of squared distances in z.
//
//	Σ (zᵢ - c - s·xᵢ)² = min
//
// The sum runs over the points that take part; c is the height at x = 0, and s the slope.
//
//   - Input: heights, at least two that take part.
//   - Errors: [ErrFewPoints], [ErrSpacing], [ErrNotFinite] inside a [PointError].
//   - Source: ISO 4287:1997, nominal form by least squares (memory).
type Line struct{}

// Fit returns the height of the line at every point.
func (Line) Fit(dst, z []float64, dx float64, use []bool) ([]float64, error) {
	if err := checkForm(z, dx, use, 2); err != nil {
		return nil, err
	}
	mid, slope := lineOf(z, weightsOf(use))
	return drawLine(target(dst, z), mid, slope), nil
}

func drawLine(dst []float64, mid, slope float64) []float64 {
	centre := middle(len(dst))
	for i := range dst {
		dst[i] = mid + float64(slope*(float64(i)-centre))
	}
	return dst
}

func weightsOf(use []bool) []float64 {
	if use == nil {
		return nil
	}
	w := make([]float64, len(use))
	for i, u := range use {
		if u {
			w[i] = 1
		}
	}
	return w
}

// checkForm refuses what a form with so many unknowns cannot be fitted to.
func checkForm(z []float64, dx float64, use []bool, unknowns int) error {
	if use != nil && len(use) != len(z) {
		panic("filter: use and z differ in length")
	}
	if err := checkLength(dx, ErrSpacing); err != nil {
		return err
	}
	n := 0
	for i, v := range z {
		if use != nil && !use[i] {
			continue
		}
		n++
		if !(math.Abs(v) <= huge) {
			return checkHeights(z[i:i+1], nil).(*PointError).at(i)
		}
	}
	if n < unknowns {
		return fmt.Errorf("filter: %d of %d points for a form of %d unknowns: %w", n, len(z), unknowns, ErrFewPoints)
	}
	return nil
}

func (e *PointError) at(i int) error { return &PointError{i, e.Err} }
