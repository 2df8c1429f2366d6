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

// Against medians taken by sorting every neighbourhood.
func TestHampelPlain(t *testing.T) {
	z := rough(400, 6)
	for _, i := range []int{0, 57, 58, 200, 399} {
		z[i] += 8 * float64(i%3-1)
	}
	h := filter.Hampel{Window: 20, Factor: 2.5}
	got, err := h.Propose(z, 1)
	if err != nil {
		t.Fatal(err)
	}
	median := func(v []float64) float64 {
		v = slices.Clone(v)
		slices.Sort(v)
		return (v[(len(v)-1)/2] + v[len(v)/2]) / 2
	}
	k := 0
	for i := range z {
		near10 := z[max(0, i-10):min(len(z), i+11)]
		mid := median(near10)
		var d []float64
		for _, v := range near10 {
			d = append(d, math.Abs(v-mid))
		}
		if scatter := 1.4826 * median(d); math.Abs(z[i]-mid) > 2.5*scatter {
			if k >= len(got) || got[k].Index != i || math.Abs(got[k].Scatter-scatter) > 1e-12 || math.Abs(got[k].Distance-(z[i]-mid)) > 1e-12 {
				t.Fatalf("point %d is a spike and is not proposed so", i)
			}
			k++
		}
	}
	if k != len(got) || k < 3 {
		t.Errorf("%d proposed, %d are", len(got), k)
	}
	for _, bad := range []filter.Hampel{{}, {Window: 1}, {Window: 9, Factor: -1}, {Window: math.NaN()}, {Window: 9, Least: math.NaN()}} {
		if _, err := bad.Propose(z, 1); err == nil {
			t.Errorf("%+v is not refused", bad)
		}
	}
}

// Spikes on a smooth wave are found and nothing else; a least distance keeps quantised profiles quiet.
func TestHampelFinds(t *testing.T) {
	z := sine(2000, 1, 500, 0)
	z[300] += 0.8
	z[1200] -= 0.8
	spikes, err := filter.Hampel{Window: 30, Factor: 6}.Propose(z, 1)
	if err != nil || len(spikes) != 2 || spikes[0].Index != 300 || spikes[1].Index != 1200 || spikes[1].Distance > -0.7 {
		t.Errorf("%+v, %v", spikes, err)
	}
	step := make([]float64, 100)
	step[50], step[70] = 0.01, 5
	spikes, _ = filter.Hampel{Window: 10, Least: 0.02}.Propose(step, 1)
	if len(spikes) != 1 || spikes[0].Index != 70 {
		t.Errorf("%+v", spikes)
	}
}
