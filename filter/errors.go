package filter

import (
	"errors"
	"fmt"
	"math"
)

// What a filter or a fit refuses. Each error returned wraps one of these.
var (
	ErrSpacing   = errors.New("spacing is not a positive number between 1e-100 and 1e100")
	ErrCutoff    = errors.New("cut-off is not a positive number between 1e-100 and 1e100")
	ErrSampling  = errors.New("cut-off is shorter than two steps from point to point")
	ErrNotFinite = errors.New("height is not a finite number")
	ErrTooLarge  = errors.New("height is beyond 1e100")
	ErrWeight    = errors.New("weight is not a finite number of 0 or more")
	ErrOption    = errors.New("option out of range")
	ErrTooShort  = errors.New("profile is too short")
	ErrFewPoints = errors.New("too few points are used")
	ErrNoFit     = errors.New("shape does not fit these points")
)

// A PointError says which height a filter could not take. Index counts from 0.
type PointError struct {
	Index int
	Err   error
}

// Error names the point and the reason.
func (e *PointError) Error() string { return fmt.Sprintf("filter: point %d: %v", e.Index, e.Err) }

// Unwrap returns the reason, one of the errors of this package.
func (e *PointError) Unwrap() error { return e.Err }

// huge bounds heights and lengths, so that no sum of squares overflows.
const huge = 1e100

// mostTaps bounds the work a single point can ask for where a filter invents data beyond the ends.
const mostTaps = 8

func checkLength(v float64, why error) error {
	if !(v >= 1/huge && v <= huge) { // also false for NaN
		return fmt.Errorf("filter: %w: %v", why, v)
	}
	return nil
}

// check refuses what no filter with a cut-off can work on.
func check(z []float64, dx, cutoff float64) error {
	if err := checkLength(dx, ErrSpacing); err != nil {
		return err
	}
	if err := checkLength(cutoff, ErrCutoff); err != nil {
		return err
	}
	if cutoff < 2*dx*(1-1e-9) {
		return fmt.Errorf("filter: cut-off %.6g at spacing %.6g: %w", cutoff, dx, ErrSampling)
	}
	return checkHeights(z, nil)
}

// checkHeights refuses an empty profile and heights that are not finite; points of weight zero may be anything.
func checkHeights(z, weight []float64) error {
	if len(z) == 0 {
		return fmt.Errorf("filter: no points: %w", ErrTooShort)
	}
	for i, v := range z {
		if weight != nil && weight[i] == 0 {
			continue
		}
		if a := math.Abs(v); !(a <= huge) {
			if math.IsNaN(v) || math.IsInf(v, 0) {
				return &PointError{i, ErrNotFinite}
			}
			return &PointError{i, ErrTooLarge}
		}
	}
	return nil
}

// checkWeights refuses weights that are negative or not finite, and weights that leave no point.
func checkWeights(z, weight []float64) error {
	if len(weight) != len(z) {
		panic("filter: weight and z differ in length")
	}
	some := false
	for i, v := range weight {
		if !(v >= 0 && v <= huge) {
			return &PointError{i, ErrWeight}
		}
		some = some || v > 0
	}
	if !some && len(z) > 0 {
		return fmt.Errorf("filter: every weight is zero: %w", ErrFewPoints)
	}
	return nil
}

// target returns dst, or a new slice for nil.
func target(dst, z []float64) []float64 {
	if dst == nil {
		return make([]float64, len(z))
	}
	if len(dst) != len(z) {
		panic("filter: dst and z differ in length")
	}
	return dst
}
