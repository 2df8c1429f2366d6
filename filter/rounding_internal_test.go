package filter

import (
	"errors"
	"math"
	"testing"
)

// Lengths that are meant whole count as whole up to a billionth: just within that and just beyond it.
func TestLengthsMeantWhole(t *testing.T) {
	const within, beyond = 0.95e-9, 1.05e-9
	for _, c := range []struct {
		name      string
		got, want int
	}{
		{"samples", samples(3-within, 1), 3}, {"samples, less", samples(3-beyond, 1), 2}, {"samples, spacing", samples(0.3, 0.1), 3}, {"samples of nothing", samples(0, 1), 0}, {"samples before", samples(-5, 1), 0},
		{"up", samplesUp(3+within, 1), 3}, {"up, more", samplesUp(3+beyond, 1), 4}, {"up, spacing", samplesUp(0.3, 0.1), 3}, {"up of nothing", samplesUp(0, 1), 0},
		{"half a window", windowHalf(6-2*within, 0.5), 3}, {"half a window, less", windowHalf(6-2.1*1e-9, 0.5), 2}, {"half a window of a cut-off", windowHalf(5, 1), 5},
		{"as many as can be", samples(math.Inf(1), 1), 1 << 30}, {"as many as can be, up", samplesUp(1e300, 1), 1 << 30}, {"one less", samples(1<<30-1, 1), 1<<30 - 1},
	} {
		if c.got != c.want {
			t.Errorf("%s: %d, want %d", c.name, c.got, c.want)
		}
	}
	for _, c := range []struct {
		n          int
		dx, cutoff float64
		want       []error
	}{
		{100, 1, 4, nil}, {100, 1, 4 * (1 - within), nil}, {100, 1, 4 * (1 - beyond), []error{ErrFewSamples}}, {100, 0.1, 0.4, nil},
		{100, 1, 50 * (1 + within), nil}, {100, 1, 50 * (1 + beyond), []error{ErrShortProfile}}, {100, 1, 100 * (1 + within), []error{ErrShortProfile}}, {100, 1, 100 * (1 + beyond), []error{ErrNoMeanLine}},
		{3, 1, 3.5, []error{ErrFewSamples, ErrNoMeanLine}}, {3, 1, 2, []error{ErrFewSamples, ErrShortProfile}}, {0, 1, 10, []error{ErrNoMeanLine}},
	} {
		err := Advise(c.n, c.dx, c.cutoff)
		for _, e := range []error{ErrFewSamples, ErrShortProfile, ErrNoMeanLine} {
			told := false
			for _, w := range c.want {
				told = told || w == e
			}
			if errors.Is(err, e) != told {
				t.Errorf("%d points, %g, cut-off %.12g: %v, want %v", c.n, c.dx, c.cutoff, err, c.want)
			}
		}
	}
	z := make([]float64, 5)
	for _, c := range []struct {
		dx, cutoff float64
		want       error
	}{
		{1, 2, nil}, {1, 2 * (1 - within), nil}, {1, 2 * (1 - beyond), ErrSampling}, {1e-100, 1, nil}, {1e100, 1e100, ErrSampling}, {4e99, 1e100, nil}, {0.99e-100, 1, ErrSpacing}, {1.01e100, 1e100, ErrSpacing}, {1, 1.01e100, ErrCutoff},
		{1, 0.99e-100, ErrCutoff}, {1, math.NaN(), ErrCutoff}, {math.NaN(), 1, ErrSpacing}, {-1, 1, ErrSpacing}, {1, -1, ErrCutoff}, {1, math.Inf(1), ErrCutoff},
	} {
		if err := check(z, c.dx, c.cutoff); !errors.Is(err, c.want) || (err == nil) != (c.want == nil) {
			t.Errorf("spacing %g, cut-off %.12g: %v, want %v", c.dx, c.cutoff, err, c.want)
		}
	}
	for _, c := range []struct {
		v    float64
		want error
	}{{1e100, nil}, {-1e100, nil}, {1.01e100, ErrTooLarge}, {-1.01e100, ErrTooLarge}, {math.Inf(1), ErrNotFinite}, {math.Inf(-1), ErrNotFinite}, {math.NaN(), ErrNotFinite}} {
		var at *PointError
		err := checkHeights([]float64{0, 1, c.v, c.v}, nil)
		if (err == nil) != (c.want == nil) || c.want != nil && (!errors.Is(err, c.want) || !errors.As(err, &at) || at.Index != 2) {
			t.Errorf("height %g: %v, want %v at 2", c.v, err, c.want)
		}
		if err := checkHeights([]float64{c.v, 1}, []float64{0, 1}); err != nil {
			t.Errorf("height %g without weight: %v", c.v, err)
		}
	}
	nan := math.NaN()
	for _, c := range []struct {
		longest float64
		fits    bool
	}{{3, true}, {3 * (1 - within), true}, {3 * (1 - beyond), false}, {2, false}, {math.Inf(1), true}, {nan, false}} {
		b, err := Bridge(nil, []float64{nan, 0, 1, nan, nan, nan, 9, nan}, 1, c.longest)
		var gap *GapError
		if c.fits != (err == nil) || !c.fits && (!errors.As(err, &gap) || gap.Gap != (Gap{3, 6})) {
			t.Errorf("gaps up to %.12g: %v", c.longest, err)
		}
		if err == nil && (b.From != 1 || b.To != 7 || len(b.Filled) != 1 || b.Z[2] != 3 || b.Z[3] != 5 || b.Z[4] != 7 || len(b.Z) != 6) {
			t.Errorf("gaps up to %.12g: %+v", c.longest, b)
		}
	}
}
