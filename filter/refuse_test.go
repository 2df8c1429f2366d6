package filter_test

import (
	"errors"
	"math"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"example.com/furrow/filter"
)

// Each number that a filter, a form, a tip or a skid takes is refused just outside its range, and taken at its bounds.
func TestOptionBounds(t *testing.T) {
	z := rough(400, 5)
	filters := func(f filter.Filter) error { _, err := f.Apply(nil, z, 1); return err }
	forms := func(f filter.Form) error { _, err := f.Fit(nil, z, 1, nil); return err }
	skid := func(s filter.Skid) error { _, _, err := s.Shown(z, 1); return err }
	tip := func(p filter.Tip) error { _, err := p.Trace(nil, z, 1); return err }
	for _, c := range []struct {
		name           string
		try            func(v float64) error
		taken, refused []float64
	}{
		{"support", func(v float64) error { return filters(filter.Gaussian{Cutoff: 20, Support: v}) }, []float64{0.25, 4, 100}, []float64{0.2499, 100.1, -1, math.NaN(), math.Inf(1)}},
		{"support of a regression", func(v float64) error { return filters(filter.GaussianRegression{Cutoff: 20, Support: v}) }, []float64{0.25, 100}, []float64{0.2499, 100.1, -1, math.NaN()}},
		{"order", func(v float64) error { return filters(filter.GaussianRegression{Cutoff: 20, Order: int(v)}) }, []float64{1, 2, filter.Order0}, []float64{3, filter.Order0 - 1}},
		{"fit", func(v float64) error { return filters(filter.Gaussian{Cutoff: 20, Ends: filter.Linear, Fit: v}) }, []float64{0, 1e100}, []float64{-1e-9, 1.1e100, math.NaN()}},
		{"ends", func(v float64) error { return filters(filter.Gaussian{Cutoff: 20, Ends: filter.Ends(v)}) }, []float64{float64(filter.Retain), float64(filter.Discard)}, []float64{float64(filter.Discard) + 1}},
		{"tolerance", func(v float64) error { return filters(filter.RobustGaussian{Cutoff: 20, Tolerance: v}) }, []float64{0, 1e-9, 1}, []float64{1.0001, -1e-9, math.NaN()}},
		{"passes", func(v float64) error { return filters(filter.RobustGaussian{Cutoff: 20, Passes: int(v)}) }, []float64{0, 1, 10000}, []float64{-1, 10001}},
		{"tension", func(v float64) error { return filters(filter.Spline{Cutoff: 20, Tension: v}) }, []float64{0, 1}, []float64{-1e-9, 1.001, math.NaN()}},
		{"tension of a robust spline", func(v float64) error { return filters(filter.RobustSpline{Cutoff: 20, Tension: v}) }, []float64{0, 1}, []float64{-1e-9, 1.001}},
		{"constant", func(v float64) error { return filters(filter.TwoRC{Cutoff: 20, Constant: v}) }, []float64{0, 0.1, 3.64, 100}, []float64{0.099, 100.1, -1, math.NaN()}},
		{"percent", func(v float64) error { return filters(filter.TwoRCZeroPhase{Cutoff: 20, Percent: v}) }, []float64{0, 50, 75}, []float64{60, -75, math.NaN()}},
		{"disk", func(v float64) error { return filters(filter.DiskClosing{Radius: v}) }, []float64{1e-100, 1e100}, []float64{0, 0.9e-100, 1.1e100, -1, math.NaN()}},
		{"segment", func(v float64) error { return filters(filter.SegmentOpening{Length: v}) }, []float64{1e-100, 1e100}, []float64{0, -1}},
		{"degree", func(v float64) error { return forms(filter.Polynomial{Degree: int(v)}) }, []float64{0, 30}, []float64{-1, 31}},
		{"circle", func(v float64) error { return forms(filter.Circle{Radius: v}) }, []float64{0, 1e4}, []float64{-1, 1.1e100, math.NaN()}},
		{"skid", func(v float64) error { return skid(filter.Skid{Radius: v}) }, []float64{1, 1e100}, []float64{0, -1, 1.1e100}},
		{"lead", func(v float64) error { return skid(filter.Skid{Radius: 10, Lead: v}) }, []float64{-100, 0, 100}, []float64{1.1e100, -1.1e100, math.NaN()}},
		{"tip", func(v float64) error { return tip(filter.Tip{Radius: v}) }, []float64{1e-100, 2}, []float64{0, -1, 1.1e100, math.NaN()}},
		{"cone", func(v float64) error { return tip(filter.Tip{Radius: 2, Cone: v}) }, []float64{0, 1.01, 60, 178.9}, []float64{1, 179, -60, math.NaN()}},
	} {
		for _, v := range c.taken {
			if err := c.try(v); err != nil {
				t.Errorf("%s %g: %v", c.name, v, err)
			}
		}
		for _, v := range c.refused {
			if err := c.try(v); !errors.Is(err, filter.ErrOption) {
				t.Errorf("%s %g is taken: %v", c.name, v, err)
			}
		}
	}
	// Spacing and cut-off, of what takes one.
	for _, v := range []float64{0, -1, 0.9e-100, 1.1e100, math.NaN(), math.Inf(1)} {
		for name, err := range map[string]error{
			"tip": func() error { _, err := filter.Tip{Radius: 2}.Trace(nil, z, v); return err }(), "gaps": func() error { _, err := filter.Bridge(nil, z, v, 1); return err }(),
			"form": func() error { _, err := filter.Line{}.Fit(nil, z, v, nil); return err }(), "found circle": func() error { _, err := filter.Circle{}.Find(z, v, nil); return err }(),
			"filter": func() error { _, err := filter.Spline{Cutoff: 20}.Apply(nil, z, v); return err }(), "disk": func() error { _, err := filter.DiskOpening{Radius: 2}.Apply(nil, z, v); return err }(),
		} {
			if !errors.Is(err, filter.ErrSpacing) {
				t.Errorf("%s at a spacing of %g: %v", name, v, err)
			}
		}
	}
	for _, cutoff := range []float64{2, 2 * (1 - 0.9e-9)} {
		if err := filters(filter.Gaussian{Cutoff: cutoff}); err != nil {
			t.Errorf("two points in a cut-off: %v", err)
		}
	}
	if err := filters(filter.Gaussian{Cutoff: 2 * (1 - 1.1e-9)}); !errors.Is(err, filter.ErrSampling) {
		t.Errorf("fewer than two points in a cut-off: %v", err)
	}
}

// A weight that is none, and a height that is none or too large, are named with their point.
func TestPointErrors(t *testing.T) {
	for _, c := range []struct {
		z, weight []float64
		err       error
		index     int
		text      string
	}{
		{[]float64{1, 2, 3, math.NaN()}, nil, filter.ErrNotFinite, 3, "filter: point 3: height is not a finite number"},
		{[]float64{1, math.Inf(-1), 3, 4}, nil, filter.ErrNotFinite, 1, "filter: point 1: height is not a finite number"},
		{[]float64{-1.1e100, 2, 3, 4}, nil, filter.ErrTooLarge, 0, "filter: point 0: height is beyond 1e100"},
		{[]float64{1, 2, 3, 4}, []float64{1, 1, -1e-9, 1}, filter.ErrWeight, 2, "filter: point 2: weight is not a finite number of 0 or more"},
		{[]float64{1, 2, 3, 4}, []float64{1, math.NaN(), 1, 1}, filter.ErrWeight, 1, "filter: point 1: weight is not a finite number of 0 or more"},
		{[]float64{1, 2, 3, 4}, []float64{1.1e100, 1, 1, 1}, filter.ErrWeight, 0, "filter: point 0: weight is not a finite number of 0 or more"},
	} {
		var list []error
		for _, f := range []filter.Weighted{filter.GaussianRegression{Cutoff: 2}, filter.Spline{Cutoff: 2}} {
			_, err := f.ApplyWeighted(nil, c.z, either(c.weight, []float64{1, 1, 1, 1}), 1)
			list = append(list, err)
		}
		if c.weight == nil {
			for _, i := range filter.All() {
				_, err := i.New(2).Apply(nil, c.z, 1)
				list = append(list, err)
			}
		}
		for _, err := range list {
			var p *filter.PointError
			if !errors.Is(err, c.err) || !errors.As(err, &p) || p.Index != c.index || err.Error() != c.text {
				t.Errorf("%v: %v, want %s", c.z, err, c.text)
			}
		}
	}
	for _, z := range [][]float64{{1e100, -1e100, 0, 1}} {
		if _, err := (filter.Gaussian{Cutoff: 2}).Apply(nil, z, 1); err != nil {
			t.Errorf("%v: %v", z, err)
		}
	}
}

func either(a, b []float64) []float64 {
	if a != nil {
		return a
	}
	return b
}

// Slices of different lengths are a fault of the program.
func TestLengthsDiffer(t *testing.T) {
	z := rough(10, 1)
	for what, f := range map[string]func(){
		"dst and z": func() { filter.Gaussian{Cutoff: 4}.Apply(make([]float64, 9), z, 1) }, "weight and z": func() { filter.Spline{Cutoff: 4}.ApplyWeighted(nil, z, make([]float64, 11), 1) },
		"use and z": func() { filter.Line{}.Fit(nil, z, 1, make([]bool, 9)) }, "dst and z ": func() { filter.Line{}.Fit(make([]float64, 11), z, 1, nil) },
		"not checked": func() { filter.Spec{Filter: "none"}.New() },
	} {
		func() {
			defer func() {
				if said, ok := recover().(string); !ok || !strings.Contains(said, strings.TrimSpace(what)) {
					t.Errorf("%s: %v", what, said)
				}
			}()
			f()
		}()
	}
}

// A fit that there is none of is refused, in place of a shape that is no such one.
func TestNoFit(t *testing.T) {
	steep := make([]float64, 100)
	for i := range steep {
		steep[i] = 1e6 * float64(i%2)
	}
	for _, c := range []struct {
		name string
		f    filter.Form
		z    []float64
		err  error
	}{
		{"two points for a circle", filter.Circle{}, []float64{1, 2}, filter.ErrFewPoints}, {"one point for a circle of known radius", filter.Circle{Radius: 9}, []float64{1}, filter.ErrFewPoints},
		{"four points for an ellipse", filter.Ellipse{}, []float64{1, 2, 2, 1}, filter.ErrFewPoints}, {"one point for a line", filter.Line{}, []float64{1}, filter.ErrFewPoints},
		{"a circle that the points are wider than", filter.Circle{Radius: 30}, steep, filter.ErrNoFit},
	} {
		if _, err := c.f.Fit(nil, c.z, 1, nil); !errors.Is(err, c.err) {
			t.Errorf("%s: %v", c.name, err)
		}
	}
	// Exactly as many points as unknowns: the shape goes through all.
	for name, c := range map[string]struct {
		f filter.Form
		z []float64
	}{"circle": {filter.Circle{}, []float64{0, 1, 0}}, "circle of known radius": {filter.Circle{Radius: 5}, []float64{0, 1}}, "line": {filter.Line{}, []float64{3, 7}}, "mean": {filter.Mean{}, []float64{3}}} {
		if w, err := c.f.Fit(nil, c.z, 1, nil); err != nil || greatest(w, c.z) > 1e-8 {
			t.Errorf("%s through %v: %v, %v", name, c.z, w, err)
		}
	}
}

// A spec in words, short and whole, and what it stands for where it leaves things out.
func TestSpecInWords(t *testing.T) {
	order := 2
	for _, c := range []struct {
		s           filter.Spec
		size        float64
		text, whole string
	}{
		{filter.Spec{Filter: "gaussian", Cutoff: 800}, 800, "gaussian 800 µm", "gaussian 800 µm"},
		{filter.Spec{Filter: "gaussian", Cutoff: 2.5, Support: 1.5, Ends: "linear", Fit: 3}, 2.5, "gaussian 2.5 µm", "gaussian 2.5 µm, support 1.5, fit 3, ends linear"},
		{filter.Spec{Filter: "gaussian", Cutoff: 800, Ends: "discard", DiscardLength: 400}, 800, "gaussian 800 µm", "gaussian 800 µm, discard length 400, ends discard"},
		{filter.Spec{Filter: "robust-gaussian", Cutoff: 800, Order: &order, Tolerance: 1e-3, Passes: 40}, 800, "robust-gaussian 800 µm, order 2", "robust-gaussian 800 µm, order 2, tolerance 0.001, passes 40"},
		{filter.Spec{Filter: "spline", Cutoff: 250, Tension: 0.6}, 250, "spline 250 µm, tension 0.6", "spline 250 µm, tension 0.6"},
		{filter.Spec{Filter: "two-rc-zero-phase", Cutoff: 250, Transmission: 50}, 250, "two-rc-zero-phase 250 µm, 50 %", "two-rc-zero-phase 250 µm, 50 %"},
		{filter.Spec{Filter: "disk-closing", Radius: 500}, 500, "disk-closing 500 µm", "disk-closing 500 µm"},
		{filter.Spec{Filter: "segment-opening", Length: 20}, 20, "segment-opening 20 µm", "segment-opening 20 µm"},
		{filter.Spec{Filter: "spline"}, 0, "spline", "spline"},
	} {
		if c.s.Size() != c.size || c.s.String() != c.text || c.s.Whole() != c.whole {
			t.Errorf("%g, %q, %q, want %g, %q, %q", c.s.Size(), c.s, c.s.Whole(), c.size, c.text, c.whole)
		}
	}
	for _, c := range []struct{ s, want filter.Spec }{
		{filter.Spec{Filter: "gaussian", Cutoff: 800}, filter.Spec{Filter: "gaussian", Cutoff: 800, Support: 1, Ends: "retain"}},
		{filter.Spec{Filter: "gaussian", Cutoff: 800, Ends: "retain-2"}, filter.Spec{Filter: "gaussian", Cutoff: 800, Support: 2, Ends: "retain-2"}},
		{filter.Spec{Filter: "gaussian", Cutoff: 800, Ends: "linear"}, filter.Spec{Filter: "gaussian", Cutoff: 800, Support: 1, Ends: "linear", Fit: 400}},
		{filter.Spec{Filter: "disk-opening", Radius: 500, Ends: "discard"}, filter.Spec{Filter: "disk-opening", Radius: 500, Ends: "discard", DiscardLength: 250}},
		{filter.Spec{Filter: "segment-opening", Length: 30, Ends: "discard"}, filter.Spec{Filter: "segment-opening", Length: 30, Ends: "discard", DiscardLength: 15}},
		{filter.Spec{Filter: "two-rc-zero-phase", Cutoff: 80}, filter.Spec{Filter: "two-rc-zero-phase", Cutoff: 80, Transmission: 75}},
		{filter.Spec{Filter: "spline", Cutoff: 80, Tension: 1}, filter.Spec{Filter: "spline", Cutoff: 80, Tension: 1}},
		{filter.Spec{Filter: "none", Cutoff: 80}, filter.Spec{Filter: "none", Cutoff: 80}},
	} {
		if got := c.s.Complete(); got != c.want {
			t.Errorf("%+v, want %+v", got, c.want)
		}
	}
	// The order sets the support, 2 cut-offs under a parabola and 1 under less.
	for given, want := range map[int]float64{0: 1, 1: 1, 2: 2} {
		s := filter.Spec{Filter: "gaussian-regression", Cutoff: 80, Order: &given}.Complete()
		if s.Support != want || *s.Order != given {
			t.Errorf("order %d: support %g, order %d", given, s.Support, *s.Order)
		}
	}
	for key, want := range map[string][2]float64{"gaussian-regression": {1, 1}, "robust-gaussian": {2, 2}} {
		s := filter.Spec{Filter: key, Cutoff: 80}.Complete()
		if s.Order == nil || [2]float64{float64(*s.Order), s.Support} != want {
			t.Errorf("%s: %+v", key, s)
		}
	}
}

// The linear filter that another is built on, and the order that a spec states, 0 among them.
func TestSpecLinear(t *testing.T) {
	zero, two := 0, 2
	for _, c := range []struct {
		s    filter.Spec
		want filter.Filter
		own  bool
	}{
		{filter.Spec{Filter: "gaussian", Cutoff: 8}, filter.Gaussian{Cutoff: 8}, true},
		{filter.Spec{Filter: "robust-gaussian", Cutoff: 8, Order: &two}, filter.GaussianRegression{Cutoff: 8, Order: 2}, false},
		{filter.Spec{Filter: "robust-gaussian", Cutoff: 8, Order: &zero}, filter.GaussianRegression{Cutoff: 8, Order: filter.Order0}, false},
		{filter.Spec{Filter: "valley-suppression", Cutoff: 8, Support: 2}, filter.Gaussian{Cutoff: 8, Support: 2}, false},
		{filter.Spec{Filter: "robust-spline", Cutoff: 8, Tension: 0.5}, filter.Spline{Cutoff: 8, Tension: 0.5}, false},
		{filter.Spec{Filter: "disk-closing", Radius: 8}, nil, true}, {filter.Spec{Filter: "gaussian"}, nil, true},
	} {
		if f, own := c.s.Linear(); f != c.want || own != c.own {
			t.Errorf("%v: %#v, %v", c.s, f, own)
		}
	}
}

// What a settings file may not say of a filter is refused with the key and the range.
func TestSpecCheck(t *testing.T) {
	three := 3
	for _, c := range []struct {
		s         filter.Spec
		key, text string
	}{
		{filter.Spec{Filter: "box", Cutoff: 8}, "filter", `no filter is called "box"; there are [disk-alternating disk-closing `},
		{filter.Spec{Filter: "gaussian"}, "cutoff", "is missing"}, {filter.Spec{Filter: "disk-closing"}, "radius", "is missing"},
		{filter.Spec{Filter: "gaussian", Cutoff: -8}, "cutoff", "must be a length above 0"}, {filter.Spec{Filter: "gaussian", Cutoff: math.Inf(1)}, "cutoff", "must be a length above 0"},
		{filter.Spec{Filter: "gaussian", Cutoff: 8, Support: 4.001}, "support", "must be a number above 0 and at most 4"},
		{filter.Spec{Filter: "gaussian", Cutoff: 8, Radius: 3}, "radius", `does not belong to the filter "gaussian"`},
		{filter.Spec{Filter: "gaussian-regression", Cutoff: 8, Order: &three}, "order", "must be 0, 1 or 2"},
		{filter.Spec{Filter: "robust-gaussian", Cutoff: 8, Tolerance: 1}, "tolerance", "must be a number above 0 and below 1"},
		{filter.Spec{Filter: "robust-gaussian", Cutoff: 8, Passes: 10001}, "passes", "must be a whole number from 1 to 10000"},
		{filter.Spec{Filter: "spline", Cutoff: 8, Tension: 1.1}, "tension", "must be a number from 0 to 1"},
		{filter.Spec{Filter: "two-rc-zero-phase", Cutoff: 8, Transmission: 60}, "transmission", "must be 75 or 50"},
		{filter.Spec{Filter: "gaussian", Cutoff: 8, Ends: "mirror"}, "ends", `no treatment of the ends is called "mirror"; there are [retain `},
		{filter.Spec{Filter: "spline", Cutoff: 8, Ends: "zero"}, "ends", `the filter "spline" has no such choice; it can only discard`},
		{filter.Spec{Filter: "gaussian", Cutoff: 8, Fit: 3}, "fit", `must be a length above 0, and belongs to the ends "linear"`},
		{filter.Spec{Filter: "gaussian", Cutoff: 8, Ends: "linear", Fit: -3}, "fit", `must be a length above 0, and belongs to the ends "linear"`},
		{filter.Spec{Filter: "spline", Cutoff: 8, DiscardLength: 3}, "discard_length", `must be a length above 0, and belongs to the ends "discard"`},
	} {
		err := c.s.Check()
		var wrong *filter.OptionError
		if !errors.As(err, &wrong) || !errors.Is(err, filter.ErrOption) || wrong.Key != c.key || !strings.HasPrefix(wrong.Text, c.text) {
			t.Errorf("%+v: %v, want %s", c.s, err, c.text)
			continue
		}
		if text := "filter: " + c.key + ": "; strings.HasPrefix(err.Error(), text) != (c.key != "filter") {
			t.Errorf("%v", err)
		}
	}
	for _, s := range []filter.Spec{
		{Filter: "gaussian", Cutoff: 8, Support: 4}, {Filter: "robust-gaussian", Cutoff: 8, Passes: 10000, Tolerance: 0.9999}, {Filter: "spline", Cutoff: 8, Tension: 1},
		{Filter: "spline", Cutoff: 8, Ends: "discard", DiscardLength: 3}, {Filter: "gaussian", Cutoff: 8, Ends: "linear", Fit: 1e-9}, {Filter: "two-rc-zero-phase", Cutoff: 8, Transmission: 50},
	} {
		if err := s.Check(); err != nil {
			t.Errorf("%+v: %v", s, err)
		}
	}
	if list := filter.Options(); len(list) == 0 || !slices.ContainsFunc(list, func(o filter.Option) bool { return o.Length() }) {
		t.Error("no options")
	}
}

// What no filter passes, and what all pass: waves of no length and waves without end.
func TestTransmissionAtTheEnds(t *testing.T) {
	for _, i := range filter.All() {
		f := i.New(8)
		short, long := f.Transmission(0), f.Transmission(math.Inf(1))
		if !i.Linear() {
			if !math.IsNaN(short) || !math.IsNaN(long) {
				t.Errorf("%s: %g, %g", i.Key, short, long)
			}
			continue
		}
		if short != 0 || long != 1 {
			t.Errorf("%s: %g of no wave, %g of a wave without end", i.Key, short, long)
		}
		near(t, i.Key+" at the cut-off", f.Transmission(8), i.AtCutoff, 1e-14, "the list of filters")
	}
	if !math.IsNaN((filter.GaussianRegression{Cutoff: 8, Order: 3}).Transmission(8)) {
		t.Error("the transmission of an order that there is none of")
	}
}

// Of the two halves of a circle the fit is that from which the heights differ less in sum, also where they are scattered about both.
func TestCircleHalf(t *testing.T) {
	r := rand.New(rand.NewPCG(3, 5))
	upper, lower := 0, 0
	for range 700 {
		z := make([]float64, 4+r.IntN(6))
		for i := range z {
			z[i] = r.ExpFloat64() * []float64{1, 3, 9}[r.IntN(3)] * float64(1-2*(r.IntN(9)/8))
		}
		f := filter.Circle{Radius: float64(len(z)) * (0.5 + r.Float64())}
		w, err := f.Fit(nil, z, 1, nil)
		if err != nil {
			continue
		}
		arc, err := f.Find(z, 1, nil)
		if err != nil {
			t.Fatal(err)
		}
		var halves [2][]float64
		var sums [2]float64
		for i, v := range z {
			x := float64(i) - arc.X
			half := math.Sqrt(arc.Radius*arc.Radius - x*x)
			for k, sign := range []float64{1, -1} {
				halves[k] = append(halves[k], arc.Z+sign*half)
				sums[k] += math.Abs(halves[k][i] - v)
			}
		}
		if math.Abs(sums[0]-sums[1]) < 1e-6 {
			continue
		}
		want := halves[0]
		if sums[1] < sums[0] {
			want = halves[1]
		}
		if d := greatest(w, want); d > 1e-6*f.Radius {
			t.Errorf("%v: %v, want %v", z, w, want)
		}
		// The half on the side of the mean height is the other one.
		mean := 0.0
		for _, v := range z {
			mean += v / float64(len(z))
		}
		if sums[1] < sums[0] == (arc.Z < mean) {
			upper++
		} else {
			lower++
		}
	}
	if upper == 0 || lower == 0 {
		t.Errorf("%d times the one half, %d times the other", upper, lower)
	}
}

// What a skid shows, by the lowest path of the disk at each point and a straight line between two of them.
func TestSkidPlainly(t *testing.T) {
	z, dx := rough(60, 8), 0.25
	for _, radius := range []float64{0.1, 0.25, 1, 4.3, 100} {
		path := make([]float64, len(z))
		for i := range path {
			path[i] = math.Inf(-1)
			for j, v := range z {
				if u := dx * math.Abs(float64(i-j)); u <= radius {
					path[i] = max(path[i], v+math.Sqrt(radius*radius-u*u)-radius)
				}
			}
		}
		for _, lead := range []float64{0, 0.25, -0.25, 0.1, -0.1, 3.33, -3.33, 7.5, -7.5, 14.75, -14.75, 14.5, 14.6, -14.6, 0.25 + 1e-12, 2.2e-10, 1e-8} {
			var want []float64
			first := -1
			for i := range z {
				at := float64(i) + lead/dx
				j := int(math.Floor(at))
				part := at - float64(j)
				if part < 1e-9 {
					part = 0
				}
				if j < 0 || j > len(z)-1 || part > 0 && j+1 > len(z)-1 {
					continue
				}
				if first < 0 {
					first = i
				}
				p := path[j]
				if part > 0 {
					p += part * (path[j+1] - path[j])
				}
				want = append(want, z[i]-p)
			}
			got, from, err := filter.Skid{Radius: radius, Lead: lead}.Shown(z, dx)
			if len(want) == 0 {
				if !errors.Is(err, filter.ErrTooShort) {
					t.Errorf("radius %g, lead %g: %v", radius, lead, err)
				}
				continue
			}
			if err != nil || from != first || greatest(got, want) > 1e-9 {
				t.Errorf("radius %g, lead %g: from %d, %d points, %v; want from %d, %d points; off by %g", radius, lead, from, len(got), err, first, len(want), greatest(got, want))
			}
		}
	}
}
