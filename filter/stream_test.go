package filter_test

import (
	"errors"
	"fmt"
	"math"
	"math/rand/v2"
	"testing"

	"example.com/furrow/filter"
)

// streamed filters a profile in blocks of uneven size.
func streamed(t *testing.T, f filter.Local, z []float64, dx float64) []float64 {
	t.Helper()
	var out []float64
	s, err := filter.NewStream(f, dx, func(x, w []float64) error {
		for i, v := range x {
			if at := len(out) + i; z[at] != v {
				return fmt.Errorf("point %d is %v, not %v", at, v, z[at])
			}
		}
		out = append(out, w...)
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
	for i, step := 0, 1; i < len(z); i, step = i+step, 3*step+1 {
		if err := s.Write(z[i:min(len(z), i+step)]); err != nil {
			t.Fatal(err)
		}
	}
	if err := s.Close(); err != nil {
		t.Fatal(err)
	}
	return out
}

// What a stream gives is what the filter gives on the whole profile, for all treatments of the ends, profiles of less than a block and
// of several, windows that are summed and windows that are transformed, and lines as long as the fit of the ends.
func TestStreamIsApply(t *testing.T) {
	rng := rand.New(rand.NewPCG(1, 7))
	for _, n := range []int{1, 2, 300, 1 << 16, 1<<16 + 1, 200001} {
		z := make([]float64, n)
		for i := range z {
			z[i] = rng.NormFloat64() + 3*math.Sin(float64(i)/900) + 1e-4*float64(i)
		}
		var all []filter.Local
		for e := filter.Retain; e <= filter.Discard; e++ {
			for _, cutoff := range []float64{5, 400, 9000} {
				all = append(all, filter.Gaussian{Cutoff: cutoff, Ends: e}, filter.Gaussian{Cutoff: cutoff, Ends: e, Fit: 2.5 * cutoff, Support: 0.5})
			}
		}
		for _, order := range []int{filter.Order0, 1, 2} {
			all = append(all, filter.GaussianRegression{Cutoff: 400, Order: order})
		}
		for _, f := range all {
			want, err := f.Apply(nil, z, 0.5)
			if errors.Is(err, filter.ErrTooShort) {
				continue // a few points and a long cut-off, with invented points outside
			}
			if err != nil {
				t.Fatal(err)
			}
			got := streamed(t, f, z, 0.5)
			if len(got) != n {
				t.Fatalf("%d points, %+v: %d answered", n, f, len(got))
			}
			for i := range want {
				if !(math.Abs(got[i]-want[i]) <= 1e-11) { // 1e-13 of a range of up to 26, and of what the moments at the ends lose
					t.Fatalf("%d points, %+v: point %d: %v in blocks, %v whole", n, f, i, got[i], want[i])
				}
			}
		}
	}
}

// Keeps is what the mean line equals to the very ends.
func TestLocalKeeps(t *testing.T) {
	for e := filter.Retain; e <= filter.Discard; e++ {
		f := filter.Gaussian{Cutoff: 50, Ends: e}
		kept := -1
		for degree := 0; degree <= 3; degree++ {
			z := make([]float64, 400)
			for i := range z {
				z[i] = math.Pow(float64(i)/100, float64(degree))
			}
			w, err := f.Apply(nil, z, 1)
			if err != nil {
				t.Fatal(err)
			}
			worst := 0.0
			for i := range z {
				worst = max(worst, math.Abs(w[i]-z[i]))
			}
			if worst > 1e-9 {
				break
			}
			kept = degree
		}
		if e == filter.Retain2 {
			kept = min(kept, 2) // inside, an odd power is kept as well
		}
		if got := f.Keeps(); got != kept {
			t.Errorf("ends %v keep %d, not %d", e, kept, got)
		}
	}
}

func TestStreamRefuses(t *testing.T) {
	none := func(_, _ []float64) error { return nil }
	if _, err := filter.NewStream(filter.Gaussian{Cutoff: 8, Closed: true}, 1, none); !errors.Is(err, filter.ErrOption) {
		t.Errorf("a closed profile: %v", err)
	}
	s, _ := filter.NewStream(filter.Gaussian{Cutoff: 8}, 1, none)
	if err := s.Close(); !errors.Is(err, filter.ErrTooShort) {
		t.Errorf("no points: %v", err)
	}
	z := make([]float64, 150000)
	z[140000] = math.NaN()
	s, _ = filter.NewStream(filter.Gaussian{Cutoff: 8}, 1, none)
	err := s.Write(z)
	if err == nil {
		err = s.Close()
	}
	var p *filter.PointError
	if !errors.As(err, &p) || p.Index != 140000 {
		t.Errorf("no number at point 140000: %v", err)
	}
	stop := errors.New("enough")
	s, _ = filter.NewStream(filter.Gaussian{Cutoff: 8}, 1, func(_, _ []float64) error { return stop })
	if err := s.Write(make([]float64, 100000)); err != stop {
		t.Errorf("the error of emit: %v", err)
	}
}

// What a filter keeps up to the ends and how far its window reaches, by its options.
func TestKeepsAndReach(t *testing.T) {
	for _, c := range []struct {
		f            filter.Local
		keeps, reach int
	}{
		{filter.GaussianRegression{Cutoff: 10}, 1, 20}, {filter.GaussianRegression{Cutoff: 10, Order: filter.Order0}, 0, 20}, {filter.GaussianRegression{Cutoff: 10, Order: 1}, 1, 20}, {filter.GaussianRegression{Cutoff: 10, Order: 2}, 2, 40},
		{filter.GaussianRegression{Cutoff: 10, Order: 2, Support: 0.5}, 2, 10}, {filter.GaussianRegression{Cutoff: 10, Support: 0.5}, 1, 10},
		{filter.Gaussian{Cutoff: 10}, 1, 20}, {filter.Gaussian{Cutoff: 10, Closed: true}, 0, -1}, {filter.Gaussian{Cutoff: 10, Ends: filter.LineSymmetric}, 0, 20}, {filter.Gaussian{Cutoff: 10, Ends: filter.Zero}, -1, 20}, {filter.Gaussian{Cutoff: 10, Support: 0.5}, 1, 10}, {filter.Gaussian{Cutoff: 10, Ends: filter.Linear, Fit: 25}, 1, 50}, {filter.Gaussian{Cutoff: 10, Ends: filter.Linear, Fit: 5}, 1, 20},
	} {
		reach, ok := c.f.Reach(0.5)
		if keeps := c.f.Keeps(); keeps != c.keeps || ok != (c.reach >= 0) || ok && reach != c.reach {
			t.Errorf("%+v keeps %d and reaches %d, %t; want %d, %d", c.f, keeps, reach, ok, c.keeps, c.reach)
		}
	}
	if _, ok := (filter.GaussianRegression{Cutoff: 10, Order: 3}).Reach(0.5); ok {
		t.Error("order 3 has a reach")
	}
}

// The support of a Gaussian lies between a quarter of a cut-off and a hundred.
func TestBordersOfTheSupport(t *testing.T) {
	z := make([]float64, 50)
	for support, ok := range map[float64]bool{0.2499: false, 0.25: true, 0.26: true, 100: true, 100.1: false, -1: false, math.NaN(): false, math.Inf(1): false} {
		if _, err := (filter.Gaussian{Cutoff: 10, Support: support}).Apply(nil, z, 0.5); (err == nil) != ok || !ok && !errors.Is(err, filter.ErrOption) {
			t.Errorf("a support of %g: %v", support, err)
		}
	}
}
