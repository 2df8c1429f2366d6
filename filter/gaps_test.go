package filter_test

import (
	"errors"
	"math"
	"slices"
	"testing"

	"example.com/furrow/filter"
)

// [1, 1, NaN, 1, 1, 1, 1]: the gap is filled, the mean line is 1 at every point, the gap stays marked. 40 values between five
// missing ones at each end stay 40.
func TestBridge(t *testing.T) {
	nan := math.NaN()
	b, err := filter.Bridge(nil, []float64{1, 1, nan, 1, 1, 1, 1}, 0.5, 0.5)
	if err != nil || b.From != 0 || b.To != 7 || !slices.Equal(b.Filled, []filter.Gap{{From: 2, To: 3}}) {
		t.Fatal(b, err)
	}
	for _, v := range apply(t, filter.Gaussian{Cutoff: 2}, b.Z, 0.5) {
		near(t, "w", v, 1, 1e-12, "constants pass")
	}
	long := []float64{nan, nan, nan, nan, nan}
	for range 40 {
		long = append(long, 2)
	}
	long = append(long, nan, nan, nan, nan, nan)
	b, err = filter.Bridge(nil, long, 1, 0)
	if err != nil || len(b.Z) != 40 || b.From != 5 || b.To != 45 || b.Filled != nil {
		t.Errorf("%+v, %v", b, err)
	}
	// Straight across, behind missing points, and in place.
	gap := []float64{nan, 0, nan, nan, math.Inf(1), 4, 5}
	b, err = filter.Bridge(gap, gap, 1, 3)
	if err != nil || !slices.Equal(b.Z, []float64{0, 1, 2, 3, 4, 5}) || b.Filled[0] != (filter.Gap{From: 2, To: 5}) || b.Filled[0].Length(1) != 3 {
		t.Errorf("%+v, %v", b, err)
	}
	var tooLong *filter.GapError
	_, err = filter.Bridge(nil, []float64{nan, 0, nan, nan, nan, 4}, 1, 2.9)
	if !errors.As(err, &tooLong) || tooLong.From != 2 || tooLong.To != 5 {
		t.Errorf("gap longer than allowed: %v", err)
	}
	if _, err = filter.Bridge(nil, []float64{nan, nan}, 1, 9); !errors.Is(err, filter.ErrFewPoints) {
		t.Errorf("nothing there: %v", err)
	}
	if got := filter.Gaps([]float64{nan, 1, nan, nan}); !slices.Equal(got, []filter.Gap{{From: 0, To: 1}, {From: 2, To: 4}}) {
		t.Errorf("Gaps = %v", got)
	}
}
