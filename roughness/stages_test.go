package roughness

import (
	"context"
	"math"
	"slices"
	"testing"

	"example.com/furrow/filter"
)

// A counted filter or form counts how often it is applied.
type counted struct {
	filter.Filter
	filter.Form
	calls *int
}

func (c counted) Apply(dst, z []float64, dx float64) ([]float64, error) {
	*c.calls++
	return c.Filter.Apply(dst, z, dx)
}

func (c counted) Fit(dst, z []float64, dx float64, use []bool) ([]float64, error) {
	*c.calls++
	return c.Form.Fit(dst, z, dx, use)
}

// What a change of the settings repeats, by the calls of the filters and of the form: a moved cut-off neither S-filter nor form.
func TestStagesRepeated(t *testing.T) {
	z := make([]float64, 8000)
	for i := range z {
		z[i] = math.Sin(float64(i)/40) + 0.3*math.Sin(float64(i)/7)
	}
	p := Profile{Z: z, Spacing: 0.5}
	var short, form, long, behind int
	base := func() *Settings {
		return &Settings{Parameters: []string{"Ra", "Rk"}, Long: Band{Spec: FilterSpec{Cutoff: 250}}}
	}
	ev, err := NewEvaluator(base())
	if err != nil {
		t.Fatal(err)
	}
	for i, c := range []struct {
		change                    func(s *Settings)
		short, form, long, behind int // calls
		trace                     func(p Profile) Profile
	}{
		{func(*Settings) {}, 1, 1, 1, 1, nil},
		{func(*Settings) {}, 0, 0, 0, 0, nil},
		{func(s *Settings) { s.Long.Spec.Cutoff = 80 }, 0, 0, 1, 1, nil},
		{func(s *Settings) { s.Long.Spec.Cutoff = 80; s.Parameters = []string{"Rz"}; s.Sections = 3 }, 0, 0, 0, 0, nil},
		{func(s *Settings) { s.Long.Spec.Cutoff = 80; s.Profile = W; s.Parameters = []string{"Wz"} }, 0, 0, 0, 0, nil},
		{func(s *Settings) { s.Long.Spec.Cutoff = 80; s.Form.Kind = "mean" }, 0, 1, 1, 1, nil},
		{func(s *Settings) { s.Long.Spec.Cutoff = 80; s.Form.Kind = "mean"; s.Short.Off = true }, 0, 1, 1, 1, nil},
		{func(s *Settings) { s.Long.Spec.Cutoff = 80; s.Form.Kind = "mean" }, 0, 1, 1, 1, nil},
		{func(s *Settings) { s.Long.Spec.Cutoff = 80; s.Form.Kind = "mean"; s.Invert = true }, 1, 1, 1, 1, nil},
		{func(s *Settings) { s.Crop = [2]float64{0.1, 0} }, 1, 1, 1, 1, nil}, // less than a point, but turned back
		{func(s *Settings) { s.Crop = [2]float64{0.1, 0.2} }, 0, 0, 0, 0, nil},
		{func(s *Settings) {}, 0, 0, 0, 0, func(p Profile) Profile { p.Z = slices.Clone(p.Z); return p }},
		{func(s *Settings) {}, 1, 1, 1, 1, func(p Profile) Profile { p.Z = slices.Clone(p.Z); p.Z[4000] += 1e-12; return p }},
		{func(s *Settings) {}, 1, 1, 1, 1, func(p Profile) Profile { p.Spacing = 0.51; return p }},
	} {
		s := base()
		c.change(s)
		with, err := ev.With(s)
		if err != nil {
			t.Fatal(err)
		}
		plan := with.plan
		for _, f := range []struct {
			at    *filter.Filter
			calls *int
		}{{&plan.short, &short}, {&plan.long, &long}, {&plan.behind, &behind}} {
			if *f.at != nil {
				*f.at = counted{Filter: *f.at, calls: f.calls}
			}
		}
		plan.shape = counted{Form: plan.shape, calls: &form}
		short, form, long, behind = 0, 0, 0, 0
		trace := p
		if c.trace != nil {
			trace = c.trace(p)
		}
		if _, err := with.Evaluate(context.Background(), trace); err != nil {
			t.Fatal(err)
		}
		if short != c.short || form != c.form || long != c.long || behind != c.behind {
			t.Errorf("case %d: S-filter %d, form %d, L-filter %d, filter for stratified surfaces %d times, want %d, %d, %d, %d",
				i, short, form, long, behind, c.short, c.form, c.long, c.behind)
		}
	}
}

// Filters and forms are compared by their fields to see whether a step is to be taken again.
func TestFiltersCompare(t *testing.T) {
	for _, info := range filter.All() {
		f := info.New(1)
		if f != info.New(1) || f == info.New(2) {
			t.Errorf("%s: does not compare by its size", info.Key)
		}
	}
	for _, kind := range FormNames() {
		a, b := FormSpec{Kind: kind, Degree: 2}.build(), FormSpec{Kind: kind, Degree: 2}.build()
		if a != b {
			t.Errorf("%s: two forms alike are not the same", kind)
		}
	}
}

// A length that lacks a thousand-millionth of a point is whole; one that lacks more is not.
func TestWholePoints(t *testing.T) {
	for _, c := range []struct {
		length float64
		want   int
	}{{10, 10}, {10 - 0.95e-9, 10}, {10 - 1.05e-9, 9}, {10.999, 10}, {0.5, 0}} {
		if got := points(c.length*2, 2); got != c.want {
			t.Errorf("%.12g points: %d, want %d", c.length, got, c.want)
		}
	}
}
