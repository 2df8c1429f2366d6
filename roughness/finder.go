package roughness

import (
	"cmp"
	"context"
	"errors"
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"
	"sync"

	"example.com/furrow/standards"
)

// Printed is a value as another evaluation printed it: its last digit says how exactly it is known.
type Printed struct {
	Symbol string  // as there: "Ra"
	Value  float64 // in the unit of the parameter (µm for heights)
	Half   float64 // half a unit of the last digit
}

// ParsePrinted reads "0.42" or "0,42": the value and, from the digits shown, how exactly it is known.
func ParsePrinted(symbol, text string) (Printed, error) {
	t := strings.Replace(strings.TrimSpace(strings.Replace(text, "−", "-", 1)), ",", ".", 1)
	v, err := strconv.ParseFloat(t, 64)
	if err != nil || !finite(v) || strings.ContainsAny(t, "xXpP_") {
		return Printed{}, fmt.Errorf("roughness: %q is not a printed number", text)
	}
	digits, exponent, _ := strings.Cut(strings.ToLower(t), "e")
	power := 0
	if exponent != "" {
		power, _ = strconv.Atoi(exponent)
	}
	if _, frac, ok := strings.Cut(digits, "."); ok {
		power -= len(frac)
	}
	return Printed{Symbol: symbol, Value: v, Half: 0.5 * math.Pow10(power)}, nil
}

// fits reports whether v prints as p does; a part in 1e9 of the last digit is left for the tie at the half.
func (p Printed) fits(v float64) bool { return math.Abs(v-p.Value) <= p.Half*(1+1e-9) }

// A Grid lists what [Find] tries, the likeliest first in each list.
type Grid struct {
	Editions []string
	Forms    []FormSpec
	Short    []Band
	Long     []Band
	Sections []int
}

// DefaultGrid returns what evaluations in practice differ in (own choice): editions, form, S-filter, L-filter with its
// cut-off and ends, number of sections. Of the cut-offs those are taken of which the trace holds at least one.
func DefaultGrid(p Profile) Grid {
	g := Grid{
		Forms: []FormSpec{{Kind: "line"}, {Kind: "none"}, {Kind: "mean"}, {Kind: "polynomial", Degree: 2}, {Kind: "circle"}},
		Short: []Band{shortOf(2.5), {Off: true}, shortOf(8), shortOf(25)},
	}
	for _, e := range standards.Editions() {
		if e.Long.Name != "" {
			g.Editions = append(g.Editions, e.ID)
		}
	}
	zeroOrder := 2
	for _, c := range []float64{800, 250, 2500, 80, 8000} {
		if c > float64(len(p.Z))*p.Spacing {
			continue
		}
		for _, s := range []FilterSpec{
			{Filter: "gaussian"},
			{Filter: "gaussian", Ends: "discard"},
			{Filter: "gaussian", Ends: "retain-0"},
			{Filter: "gaussian", Ends: "zero"},
			{Filter: "gaussian", Support: 0.5},
			{Filter: "two-rc"},
			{Filter: "two-rc-zero-phase", Transmission: 75},
			{Filter: "two-rc-zero-phase", Transmission: 50},
			{Filter: "robust-gaussian", Order: &zeroOrder},
			{Filter: "valley-suppression"},
			{Filter: "spline"},
		} {
			s.Cutoff = c
			g.Long = append(g.Long, Band{Spec: s})
		}
	}
	g.Long = append(g.Long, Band{Off: true})
	g.Sections = []int{5, 4, 3, 2, 1, 6, 7}
	return g
}

func shortOf(cutoff float64) Band { return Band{Spec: FilterSpec{Filter: "gaussian", Cutoff: cutoff}} }

// Size is the number of combinations.
func (g Grid) Size() int {
	return len(g.Editions) * len(g.Forms) * len(g.Short) * len(g.Long) * len(g.Sections)
}

// A Fit is a combination with the values it gives.
type Fit struct {
	Settings Settings
	Values   []float64 // in the order of the printed values
	Distance int       // how far from the first of each list: sum of the positions
	Misfit   float64   // largest deviation in units of half the last digit; at most 1 for an exact fit
}

// Finding is what [Find] found.
type Finding struct {
	Tried   int   // combinations with a value for every symbol
	Skipped int   // combinations that the trace is too short for, or whose edition lacks a symbol
	Fits    []Fit // reproduce every printed value to its last digit, the nearest to the defaults first
	Closest []Fit // without any, the five with the smallest misfit
}

// String says in words how much the finding is worth.
func (f *Finding) String() string {
	switch n := len(f.Fits); {
	case n == 0:
		return fmt.Sprintf("None of %d combinations gives the printed values.", f.Tried)
	case n == 1:
		return fmt.Sprintf("One of %d combinations gives the printed values.", f.Tried)
	default:
		return fmt.Sprintf("%d of %d combinations give the printed values: they do not suffice to tell which was used.", n, f.Tried)
	}
}

// ErrNothingPrinted is returned by [Find] without a printed value.
var ErrNothingPrinted = errors.New("roughness: no printed value to look for")

// Find tries all combinations of the grid on the trace and returns those that give the printed values. Base holds what
// all of them share (may be nil).
func Find(ctx context.Context, p Profile, printed []Printed, base *Settings, g Grid) (*Finding, error) {
	if len(printed) == 0 {
		return nil, ErrNothingPrinted
	}
	type task struct{ form, short, long int }
	var tasks []task
	for l := range g.Long {
		for s := range g.Short {
			for f := range g.Forms {
				tasks = append(tasks, task{f, s, l})
			}
		}
	}
	var mu sync.Mutex
	found := &Finding{}
	err := parallel(ctx, len(tasks), func(i int) error {
		t := tasks[i]
		s := Settings{}
		if base != nil {
			s = *base
		}
		s.Form, s.Short, s.Long = g.Forms[t.form], g.Short[t.short], g.Long[t.long]
		fits, tried := tryAll(p, s, printed, g)
		for k := range fits {
			fits[k].Distance += t.form + t.short + t.long
		}
		mu.Lock()
		defer mu.Unlock()
		found.Tried += tried
		found.Skipped += len(g.Editions)*len(g.Sections) - tried
		for _, f := range fits {
			if f.Misfit <= 1+1e-9 {
				found.Fits = append(found.Fits, f)
			} else {
				found.Closest = append(found.Closest, f)
			}
		}
		return nil
	})
	if err != nil {
		return nil, err
	}
	order := func(a, b Fit) int {
		return cmp.Or(cmp.Compare(a.Distance, b.Distance), cmp.Compare(a.Misfit, b.Misfit), cmp.Compare(identity(&a.Settings), identity(&b.Settings)))
	}
	slices.SortFunc(found.Fits, order)
	slices.SortFunc(found.Closest, func(a, b Fit) int { return cmp.Or(cmp.Compare(a.Misfit, b.Misfit), order(a, b)) })
	if len(found.Fits) > 0 {
		found.Closest = nil
	}
	found.Closest = found.Closest[:min(5, len(found.Closest))]
	return found, nil
}

// identity orders fits that are alike otherwise, so that the result does not depend on which core was faster.
func identity(s *Settings) string {
	return fmt.Sprint(s.Edition, s.Form, s.Short.Spec.String(), s.Long.Spec.String(), endsOf(s.Long), s.Long.Spec.Support, s.Sections)
}

// tryAll evaluates one set of profiles under every edition and number of sections. It keeps the exact fits, and the
// best of the others.
func tryAll(p Profile, s Settings, printed []Printed, g Grid) (fits []Fit, tried int) {
	best := Fit{Misfit: math.Inf(1)}
	var split *Evaluation
	var peak float64
	for ei, id := range g.Editions {
		s.Edition = id
		s.Parameters = nil
		for _, v := range printed {
			s.Parameters = append(s.Parameters, v.Symbol)
		}
		for ni, n := range g.Sections {
			s.Sections = n
			plan, err := resolve(&s, p.Spacing)
			if err != nil {
				break // the edition lacks a symbol
			}
			if split == nil {
				prep, err := prepare(p, &plan.set)
				if err != nil {
					return nil, tried
				}
				e := &Evaluation{Settings: plan.set, Origins: plan.origins, Spacing: p.Spacing, First: prep.first}
				if e.split(prep, plan) != nil {
					return nil, tried
				}
				split, peak = e, prep.peak
			}
			e := *split
			e.Settings, e.Origins, e.Notes = plan.set, plan.origins, nil
			if e.lay(plan) != nil || e.Sections < n {
				continue
			}
			fit := Fit{Settings: e.Settings, Distance: ei + ni}
			for i, v := range e.measure(plan, peak) {
				d := math.Abs(v.Value-printed[i].Value) / printed[i].Half
				if math.IsNaN(d) {
					d = math.Inf(1)
				}
				if printed[i].fits(v.Value) {
					d = min(d, 1)
				}
				fit.Values = append(fit.Values, v.Value)
				fit.Misfit = max(fit.Misfit, d)
			}
			if math.IsInf(fit.Misfit, 1) {
				continue
			}
			tried++
			if fit.Misfit <= 1 {
				fits = append(fits, fit)
			} else if fit.Misfit < best.Misfit {
				best = fit
			}
		}
	}
	if !math.IsInf(best.Misfit, 1) {
		fits = append(fits, best)
	}
	return fits, tried
}
