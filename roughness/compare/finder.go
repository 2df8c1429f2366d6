package compare

import (
	"cmp"
	"context"
	"errors"
	"fmt"
	"math"
	"slices"
	"sync"
	"sync/atomic"

	"example.com/furrow/params"
	"example.com/furrow/roughness"
	"example.com/furrow/roughness/internal/parallel"
	"example.com/furrow/standards"
)

// A Fit is a combination of settings with the values it gives.
type Fit struct {
	Settings roughness.Settings
	Values   []float64 // in the order of the printed values
	Changes  int       // from the usual settings
	Far      int       // how far the changes are from the likeliest, for the order
	Misfit   float64   // largest deviation in units of half the last digit; at most 1 for an exact fit
	Alike    []Fit     // further combinations that give the same values to 1e-6

	Plain   string   // "cut-off 2.5 mm instead of 0.8 mm gives Rz 3.40"
	Against []string // what speaks against it
}

// A Finding is what a search found.
type Finding struct {
	Printed []Printed
	Usual   roughness.Settings // complete: what the changes are counted from
	Values  []float64          // that the usual settings give
	Tried   int                // combinations with a value for every symbol
	Skipped int                // combinations that the trace is too short for, or whose edition lacks a symbol
	Fitting int                // of those tried, how many reproduce every printed value to its last digit
	Fits    []Fit              // them, those with the same values as one, fewest changes first
	Nearest []Fit              // without any, the five with the smallest misfit
}

// ErrNothingPrinted is returned by [NewSearch] without a printed value.
var ErrNothingPrinted = errors.New("compare: no printed value to look for")

// A Search looks for settings that give printed values on a trace. It tries all combinations of up to three changes from usual settings in
// edition, form, S-filter, cut-off, kind of the L-filter with its ends, and number of sections; those of three changes with a robust filter or a
// circle, which take most of the time, only where nothing else fits. Its tasks may be done at the same time, in their order; [Find] does all of them.
type Search struct {
	p       roughness.Profile
	printed []Printed
	base    roughness.Settings
	usual   roughness.Settings
	values  []float64
	grid    *grid
	tasks   []*task
	sizes   [2]int // of each phase
	ev      *roughness.Evaluator

	mu     sync.Mutex
	phases [2]found
}

// found is what the tasks of one phase have found.
type found struct {
	tried   int
	fitting []Fit
	others  []Fit // the best of each task that has none
}

// NewSearch prepares a search. base are the usual settings that changes are counted from, nil for today's defaults; what they state beside
// the questions of the search (parts left out, heights already filtered) holds for all combinations. The error is that of settings that
// cannot be followed.
func NewSearch(p roughness.Profile, printed []Printed, base *roughness.Settings) (*Search, error) {
	if len(printed) == 0 {
		return nil, ErrNothingPrinted
	}
	s := &Search{p: p, printed: printed}
	if base != nil {
		s.base = *base
	}
	s.base.Profile, s.base.Parameters = roughness.Letter(printed[0].call.Letter), nil
	usual, err := roughness.Complete(&s.base)
	if err != nil {
		return nil, err
	}
	s.usual = *usual
	if err := loosen(&s.base, usual); err != nil {
		return nil, err
	}
	own := s.base.Profile == roughness.R && !slices.ContainsFunc(printed, func(p Printed) bool { return p.call.Parameter.On != params.OwnProfile })
	s.grid = gridFor(p, &s.base, usual)
	s.tasks = s.grid.tasks(&s.base, p.Spacing, own)
	s.sizes = sizes(s.tasks)
	if s.ev, err = roughness.NewEvaluator(&s.base); err != nil {
		return nil, err
	}
	set := s.base
	if values, err := s.evaluate(&set, false); err == nil {
		s.values, s.usual = values, set
	}
	return s, nil
}

// loosen takes back what settings state as their edition has it anyway, so that another edition brings its own.
func loosen(base, usual *roughness.Settings) error {
	own, err := roughness.Complete(&roughness.Settings{Edition: usual.Edition, Profile: usual.Profile, Input: usual.Input,
		Long: roughness.Band{Off: usual.Long.Off, Spec: roughness.FilterSpec{Cutoff: usual.Long.Spec.Cutoff}}})
	if err != nil {
		return err
	}
	differs := map[string]bool{}
	for _, c := range roughness.Changes(own, usual) {
		differs[c.Key] = true
	}
	if !differs["short"] {
		base.Short = roughness.Band{}
	}
	if !differs["long"] && !differs["long.ends"] && !usual.Long.Off {
		base.Long = roughness.Band{Spec: roughness.FilterSpec{Cutoff: usual.Long.Spec.Cutoff}}
	}
	if !differs["choices.stratified_filter"] {
		base.Stratified = ""
	}
	if !differs["form"] {
		base.Form = roughness.FormSpec{}
	}
	if !differs["section"] {
		base.SectionLength = 0
	}
	if !differs["sections"] {
		base.Sections = 0
	}
	if !differs["gaps.bridge"] {
		base.Bridge = nil
	}
	base.Edition = usual.Edition
	return nil
}

// Tasks is the number of tasks.
func (s *Search) Tasks() int { return len(s.tasks) }

// Size is the number of combinations.
func (s *Search) Size() int { return s.sizes[0] + s.sizes[1] }

// errNone says that a combination gives no value.
var errNone = errors.New("compare: no value")

// evaluate returns the values of the printed symbols under settings, which it completes. whole asks for all sections.
func (s *Search) evaluate(set *roughness.Settings, whole bool) ([]float64, error) {
	names := make([]string, len(s.printed))
	for i := range s.printed {
		name, ok := s.printed[i].in(set)
		if !ok {
			return nil, errNone
		}
		names[i] = name
	}
	set.Parameters = names
	ev, err := s.ev.With(set)
	if err != nil {
		return nil, errNone
	}
	e, err := ev.Measure(context.Background(), s.p) // whoever calls looks at the context before the next one
	if err != nil {
		return nil, errNone
	}
	if whole && e.Sections < e.Settings.Sections {
		return nil, errNone
	}
	values := make([]float64, len(e.Values))
	for i, v := range e.Values {
		if math.IsNaN(v.Value) {
			return nil, errNone
		}
		values[i] = v.Value
	}
	*set = e.Settings
	return values, nil
}

// Do does task i: it evaluates all combinations on one profile. It ends soon after the context does, with its error.
func (s *Search) Do(ctx context.Context, i int) error {
	t := s.tasks[i]
	s.mu.Lock()
	needless := t.late && len(s.phases[0].fitting) > 0
	s.mu.Unlock()
	if needless {
		return ctx.Err()
	}
	type rest struct { // what combinations on one profile may differ in
		edition  standards.EditionID
		sections int
		section  float64
		stated   bool // the kind of the L-filter, on which the filter of stratified surfaces depends
	}
	done := map[rest]*Fit{}
	tried := 0
	var best *Fit
	var fitting []Fit
	for _, c := range t.cells {
		if err := ctx.Err(); err != nil {
			return err
		}
		set := s.grid.settings(&s.base, c, questions)
		key := rest{set.Edition, set.Sections, set.SectionLength, set.Long.Spec.Filter != ""}
		f := &Fit{Changes: int(c.changes), Far: int(c.far)}
		if like := done[key]; like != nil {
			f.Settings, f.Values, f.Misfit = like.Settings, like.Values, like.Misfit
			f.Settings.Form = s.grid.fits[c.at[0]]
		} else {
			values, err := s.evaluate(&set, set.Sections != s.base.Sections)
			if err != nil {
				continue
			}
			f.Settings, f.Values = set, values
			for k := range s.printed {
				f.Misfit = max(f.Misfit, s.printed[k].misfit(values[k]))
			}
			done[key] = f
		}
		tried++
		switch {
		case f.Misfit <= 1:
			fitting = append(fitting, *f)
		case best == nil || f.Misfit < best.Misfit:
			best = f
		}
	}
	s.mu.Lock()
	defer s.mu.Unlock()
	p := &s.phases[phase(t)]
	p.tried += tried
	p.fitting = append(p.fitting, fitting...)
	if best != nil && !math.IsInf(best.Misfit, 1) {
		p.others = append(p.others, *best)
	}
	return nil
}

// Finding returns what the tasks that were done have found.
func (s *Search) Finding() *Finding {
	s.mu.Lock()
	defer s.mu.Unlock()
	all, size := s.phases[0], s.sizes[0]
	if late := &s.phases[1]; len(all.fitting) == 0 { // otherwise it depends on chance which of them were done
		all.tried, size = all.tried+late.tried, s.Size()
		all.fitting = late.fitting
		all.others = slices.Concat(all.others, late.others)
	}
	f := &Finding{Printed: s.printed, Usual: s.usual, Values: s.values, Tried: all.tried, Skipped: size - all.tried, Fitting: len(all.fitting)}
	order := func(a, b Fit) int {
		return cmp.Or(cmp.Compare(a.Changes, b.Changes), cmp.Compare(a.Far, b.Far), cmp.Compare(a.Misfit, b.Misfit), cmp.Compare(identity(&a.Settings), identity(&b.Settings)))
	}
	fold := func(list []Fit) (folded []Fit) {
		for _, x := range list {
			if k := slices.IndexFunc(folded, func(y Fit) bool { return same(x.Values, y.Values) }); k >= 0 {
				folded[k].Alike = append(folded[k].Alike, x)
			} else {
				folded = append(folded, x)
			}
		}
		return folded
	}
	slices.SortFunc(all.fitting, order)
	f.Fits = fold(all.fitting)
	if len(f.Fits) == 0 {
		slices.SortFunc(all.others, func(a, b Fit) int { return cmp.Or(cmp.Compare(a.Misfit, b.Misfit), order(a, b)) })
		f.Nearest = fold(all.others[:min(100, len(all.others))])
		f.Nearest = f.Nearest[:min(5, len(f.Nearest))]
	}
	for _, list := range [][]Fit{f.Fits, f.Nearest} {
		for i := range list {
			f.explain(s.p, &list[i])
		}
	}
	return f
}

// identity orders fits that are alike otherwise, so that the result does not depend on which core was faster.
func identity(s *roughness.Settings) string {
	return fmt.Sprint(s.Edition, s.Form, s.Short, s.Long, s.Long.Spec.Ends, s.Long.Spec.Support, s.Sections)
}

// Find does a search on all cores. progress, which may be nil, is called after each task with the number of combinations behind it; calls
// come from one goroutine at a time. When the context ends, so does the search, within a few evaluations.
func Find(ctx context.Context, p roughness.Profile, printed []Printed, base *roughness.Settings, progress func(done, all int)) (*Finding, error) {
	s, err := NewSearch(p, printed, base)
	if err != nil {
		return nil, err
	}
	var done atomic.Int64
	var mu sync.Mutex
	err = parallel.Do(ctx, len(s.tasks), func(i int) error {
		if err := s.Do(ctx, i); err != nil {
			return err
		}
		n := int(done.Add(1))
		if progress != nil {
			mu.Lock()
			defer mu.Unlock()
			progress(n*s.Size()/len(s.tasks), s.Size())
		}
		return nil
	})
	if err != nil {
		return nil, err
	}
	return s.Finding(), nil
}
