package compare

import (
	"cmp"
	"math"
	"slices"
	"strings"

	"example.com/furrow/roughness"
	"example.com/furrow/standards"
)

// An option is one answer to a question of the search. How far it is from usual orders the fits that need as many changes.
type option struct {
	change bool // false: as in the usual settings
	far    int
	put    func(*roughness.Settings)
}

// A grid holds what the search tries (own choice): of each question first what the usual settings say, then what evaluations in practice
// differ in, the likeliest first.
type grid struct {
	forms, shorts, cutoffs, kinds, editions, sections []option
}

// options makes a list of options, the first of which changes nothing.
func options(puts ...func(*roughness.Settings)) []option {
	list := []option{{put: func(*roughness.Settings) {}}}
	for i, put := range puts {
		list = append(list, option{change: true, far: i + 1, put: put})
	}
	return list
}

// gridFor makes the grid around usual settings, which are stated in part (base) and complete (usual). Of the cut-offs those are taken of
// which the trace holds at least one.
func gridFor(p roughness.Profile, base, usual *roughness.Settings) *grid {
	g := &grid{}
	g.forms = options()
	for _, f := range []roughness.FormSpec{{Kind: "line"}, {Kind: "none"}, {Kind: "mean"}, {Kind: "polynomial", Degree: 2}, {Kind: "circle"}, {Kind: "polynomial", Degree: 3}} {
		if f != usual.Form && usual.Input == roughness.Raw {
			g.forms = append(g.forms, option{true, len(g.forms), func(s *roughness.Settings) { s.Form = f }})
		}
	}
	if usual.Input == roughness.Filtered { // nothing is filtered again
		g.shorts, g.cutoffs, g.kinds = options(), options(), options()
	} else {
		g.filters(p, base, usual)
	}
	g.editions = options()
	for _, e := range standards.Editions() {
		if e.Long.Name != "" && e.ID != usual.Edition {
			g.editions = append(g.editions, option{true, len(g.editions), func(s *roughness.Settings) { s.Edition = e.ID }})
		}
	}
	g.sections = options()
	for _, n := range []int{5, 4, 3, 1, 2, 6, 7, 8, 10} {
		if n != usual.Sections {
			g.sections = append(g.sections, option{true, len(g.sections), func(s *roughness.Settings) { s.Sections = n }})
		}
	}
	return g
}

// filters fills in what the grid tries of the filters.
func (g *grid) filters(p roughness.Profile, base, usual *roughness.Settings) {
	short := func(c float64) func(*roughness.Settings) {
		return func(s *roughness.Settings) {
			s.Short = roughness.Band{Off: c == 0}
			if c > 0 {
				s.Short.Spec = roughness.FilterSpec{Filter: "gaussian", Cutoff: c}
			}
		}
	}
	g.shorts = options()
	for _, c := range []float64{0, 2.5, 8, 25} {
		if c != usual.Short.Spec.Cutoff || usual.Short.Off != (c == 0) {
			g.shorts = append(g.shorts, option{true, len(g.shorts), short(c)})
		}
	}
	length := float64(len(p.Z)) * p.Spacing
	cutoff := func(c float64) func(*roughness.Settings) {
		return func(s *roughness.Settings) {
			s.Long.Spec.Cutoff, s.Long.Off = c, false
			if s.SectionLength == usual.Long.Spec.Cutoff || usual.Long.Off { // the section goes with the cut-off
				s.SectionLength = 0
			}
		}
	}
	g.cutoffs = options()
	ladder := rows()
	at := slices.IndexFunc(ladder, func(r standards.TableRow) bool { return r.Long >= usual.Long.Spec.Cutoff })
	far := func(i int) int { return max(i-at, at-i) }
	order := make([]int, len(ladder))
	for i := range order {
		order[i] = i
	}
	slices.SortStableFunc(order, func(i, j int) int { return far(i) - far(j) })
	for _, i := range order {
		r := ladder[i]
		if r.Long == usual.Long.Spec.Cutoff || r.Long > length {
			continue
		}
		g.cutoffs = append(g.cutoffs, option{true, len(g.cutoffs), cutoff(r.Long)})
		if r.Short != usual.Short.Spec.Cutoff && !usual.Short.Off { // the whole row is one change
			g.cutoffs = append(g.cutoffs, option{true, len(g.cutoffs), func(s *roughness.Settings) { cutoff(r.Long)(s); short(r.Short)(s) }})
		}
	}
	second := 2
	g.kinds = options()
	for _, spec := range []roughness.FilterSpec{
		{}, // the edition's own
		{Filter: "gaussian"},
		{Filter: "two-rc"},
		{Filter: "robust-gaussian", Order: &second},
		{Filter: "gaussian", Ends: "discard"},
		{Filter: "two-rc-zero-phase", Transmission: 75},
		{Filter: "spline"},
		{Filter: "valley-suppression"},
		{Filter: "gaussian", Ends: "retain-0"},
		{Filter: "gaussian", Ends: "zero"},
		{Filter: "gaussian", Support: 0.5},
		{Filter: "two-rc-zero-phase", Transmission: 50},
		{Filter: "robust-spline"},
	} {
		if spec == (roughness.FilterSpec{}) && base.Long.Spec.Filter == "" {
			continue
		}
		g.kinds = append(g.kinds, option{true, len(g.kinds), func(s *roughness.Settings) {
			own := spec
			own.Cutoff = s.Long.Spec.Cutoff
			s.Long = roughness.Band{Spec: own}
		}})
	}
	if !usual.Long.Off {
		g.kinds = append(g.kinds, option{true, len(g.kinds), func(s *roughness.Settings) {
			s.Long = roughness.Band{Off: true}
			s.SectionLength = usual.SectionLength
		}})
	}
}

// mostSteps is how many changes the search makes at once (own choice: an instrument that differs in more is not found by three values).
const mostSteps = 3

// A task is all that the search does behind one filter: every edition and number of sections.
type task struct {
	settings roughness.Settings
	changes  int
	far      int
	form     int // which
	least    int // changes that are tried
	most     int
	late     bool // done only where nothing else fits
}

// tasks lists the combinations of form, S-filter, cut-off and kind of filter, so that neighbours share as many steps as can be.
func (g *grid) tasks(base *roughness.Settings) []task {
	var list []task
	for i, form := range g.forms {
		for _, short := range g.shorts {
			for _, cutoff := range g.cutoffs {
				for _, kind := range g.kinds {
					t := task{settings: *base, form: i}
					for _, o := range []option{form, cutoff, short, kind} {
						o.put(&t.settings)
						t.far += o.far
						if o.change {
							t.changes++
						}
					}
					if t.changes > mostSteps {
						continue
					}
					t.most = mostSteps
					if strings.HasPrefix(t.settings.Long.Spec.Filter, "robust-") || t.settings.Form.Kind == "circle" { // they take ten times as long
						late := t
						late.least, late.late = mostSteps, true
						list = append(list, late)
						if t.most--; t.changes > t.most {
							continue
						}
					}
					list = append(list, t)
				}
			}
		}
	}
	slices.SortStableFunc(list, func(a, b task) int {
		return cmp.Or(cmp.Compare(phase(a), phase(b)), cmp.Compare(a.form, b.form), strings.Compare(a.settings.Short.String(), b.settings.Short.String()))
	})
	return list
}

// sizes are the numbers of combinations of the tasks of each phase.
func (g *grid) sizes(tasks []task) (n [2]int) {
	for _, t := range tasks {
		g.inner(t, func(*roughness.Settings, int, int) bool { n[phase(t)]++; return true })
	}
	return n
}

// phase is 1 for a task that is late.
func phase(t task) int {
	if t.late {
		return 1
	}
	return 0
}

// inner calls visit with the settings of every edition and number of sections of a task, until it returns false.
func (g *grid) inner(t task, visit func(s *roughness.Settings, changes, far int) bool) {
	for _, e := range g.editions {
		for _, n := range g.sections {
			s, changes, far := t.settings, t.changes, t.far
			for _, o := range []option{e, n} {
				o.put(&s)
				far += o.far
				if o.change {
					changes++
				}
			}
			if changes >= t.least && changes <= t.most && !visit(&s, changes, far) {
				return
			}
		}
	}
}

// same reports whether two lists of values are the same to 1e-6.
func same(a, b []float64) bool {
	return slices.EqualFunc(a, b, func(x, y float64) bool { return math.Abs(x-y) <= 1e-6*max(math.Abs(x), math.Abs(y)) })
}
