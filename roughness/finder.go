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

	"example.com/furrow/roughness/internal/parallel"
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

// misfit is how far v lies from p in halves of the last digit: at most 1 when v prints as p does. A part in 1e9 is left for the
// tie at the half.
func (p Printed) misfit(v float64) float64 {
	d := math.Abs(v-p.Value) / p.Half
	switch {
	case math.IsNaN(d):
		return math.Inf(1)
	case d <= 1+1e-9:
		return min(d, 1)
	}
	return d
}

// A Grid lists what [Find] tries, the likeliest first in each list.
type Grid struct {
	Editions []standards.EditionID
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
	second := 2
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
			{Filter: "robust-gaussian", Order: &second},
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
		return fmt.Sprintf("%d of %d combinations give the printed values: they do not show which one was used.", n, f.Tried)
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
	var mu sync.Mutex
	found := &Finding{}
	err := parallel.Do(ctx, len(g.Forms)*len(g.Short), func(i int) error {
		s := Settings{}
		if base != nil {
			s = *base
		}
		form, short := i/len(g.Short), i%len(g.Short)
		s.Form, s.Short = g.Forms[form], g.Short[short]
		ev, err := NewEvaluator(nil) // keeps the primary profile, which all L-filters of the grid share
		if err != nil {
			return err
		}
		for l := range g.Long {
			if err := ctx.Err(); err != nil {
				return err
			}
			s.Long = g.Long[l]
			fits, tried := tryAll(ctx, p, ev, s, printed, g)
			mu.Lock()
			found.Tried += tried
			found.Skipped += len(g.Editions)*len(g.Sections) - tried
			for _, f := range fits {
				f.Distance += form + short + l
				if f.Misfit <= 1 {
					found.Fits = append(found.Fits, f)
				} else {
					found.Closest = append(found.Closest, f)
				}
			}
			mu.Unlock()
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

// tryAll evaluates one L-filter under every edition and number of sections. It keeps the exact fits, and the best of the
// others.
func tryAll(ctx context.Context, p Profile, ev *Evaluator, s Settings, printed []Printed, g Grid) (fits []Fit, tried int) {
	best := Fit{Misfit: math.Inf(1)}
	for _, v := range printed {
		s.Parameters = append(s.Parameters[:len(s.Parameters):len(s.Parameters)], v.Symbol)
	}
	for ei, id := range g.Editions {
		s.Edition = id
		for ni, n := range g.Sections {
			s.Sections = n
			with, err := ev.With(&s)
			if err != nil {
				break // the edition lacks a symbol
			}
			e, err := with.Measure(ctx, p)
			if err != nil || e.Sections < n {
				continue
			}
			fit := Fit{Settings: e.Settings, Distance: ei + ni}
			for i, v := range e.Values {
				fit.Values = append(fit.Values, v.Value)
				fit.Misfit = max(fit.Misfit, printed[i].misfit(v.Value))
			}
			switch {
			case math.IsInf(fit.Misfit, 1):
				continue
			case fit.Misfit <= 1:
				fits = append(fits, fit)
			case fit.Misfit < best.Misfit:
				best = fit
			}
			tried++
		}
	}
	if !math.IsInf(best.Misfit, 1) {
		fits = append(fits, best)
	}
	return fits, tried
}
