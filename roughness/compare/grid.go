package compare

import (
	"cmp"
	"math"
	"slices"
	"strings"

	"example.com/furrow/filter"
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
	fits                                              []roughness.FormSpec // those of forms
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
	g := &grid{forms: options(), fits: []roughness.FormSpec{usual.Form}}
	for _, f := range []roughness.FormSpec{{Kind: "line"}, {Kind: "none"}, {Kind: "mean"}, {Kind: "polynomial", Degree: 2}, {Kind: "circle"}, {Kind: "polynomial", Degree: 3}} {
		if f != usual.Form && usual.Input == roughness.Raw {
			g.forms = append(g.forms, option{true, len(g.forms), func(s *roughness.Settings) { s.Form = f }})
			g.fits = append(g.fits, f)
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

// A cell is one combination: which answer to each question of the grid.
type cell struct {
	at      [questions]uint8
	changes uint8
	far     uint8
}

// questions of the grid; the first is the form, the last the number of sections.
const questions = 6

// all are the answers to the questions, in the order in which they are put into settings.
func (g *grid) all() [questions][]option {
	return [...][]option{g.forms, g.cutoffs, g.shorts, g.kinds, g.editions, g.sections}
}

// settings are base with the answers of a cell to the first n questions.
func (g *grid) settings(base *roughness.Settings, c cell, n int) roughness.Settings {
	s := *base
	for q, list := range g.all() {
		if q < n {
			list[c.at[q]].put(&s)
		}
	}
	return s
}

// A task holds the combinations whose values are measured on one profile: behind the same S-filter, form and L-filter.
type task struct {
	form        int // which; of several forms that leave the same profile the first
	short, long string
	cells       []cell
	late        bool // done only where nothing else fits
}

// tasks lists all combinations by the profile that they are measured on; what takes long and is far from usual comes last, neighbours share as
// many steps as can be. own says that all printed values are measured on the profile of their letter.
func (g *grid) tasks(base *roughness.Settings, spacing float64, own bool) []*task {
	type key struct {
		form        int
		short, long string
	}
	found := map[key]*task{}
	var list []*task
	g.each(cell{}, 0, questions-1, func(c cell) {
		set := g.settings(base, c, questions-1)
		ed, _ := standards.EditionByID(set.Edition)
		short := behind(set.Short, ed.Short, ed.Default.Short)
		if spacing > short.Spec.Cutoff/4 {
			short = roughness.Band{Off: true}
		}
		long := behind(set.Long, ed.Long, ed.Default.Long)
		form := int(c.at[0])
		if own {
			form = g.firstAlike(form, &long)
		}
		k := key{form, short.String(), long.Spec.Whole()}
		t := found[k]
		if t == nil {
			t = &task{form: form, short: k.short, long: k.long, late: g.slow(form, &long)}
			found[k] = t
			list = append(list, t)
		}
		g.each(c, questions-1, questions, func(c cell) {
			t.cells = append(t.cells, c)
			t.late = t.late && c.changes == mostSteps
		})
	})
	slices.SortStableFunc(list, func(a, b *task) int {
		return cmp.Or(cmp.Compare(phase(a), phase(b)), cmp.Compare(a.form, b.form), strings.Compare(a.short, b.short), strings.Compare(a.long, b.long))
	})
	return list
}

// each visits the answers to questions from q on, as far as they make at most mostSteps changes.
func (g *grid) each(c cell, q, end int, visit func(c cell)) {
	if q == end {
		visit(c)
		return
	}
	for i, o := range g.all()[q] {
		next := c
		next.at[q] = uint8(i)
		next.far += uint8(o.far)
		if o.change {
			next.changes++
		}
		if next.changes <= mostSteps {
			g.each(next, q+1, end, visit)
		}
	}
}

// behind is the band with what it leaves to its edition, as far as the filter depends on it.
func behind(b roughness.Band, own standards.FilterKey, cutoff float64) roughness.Band {
	switch usual := roughness.BandOf(own, cutoff); {
	case !b.Given():
		b = usual
	case b.Spec.Filter == "" && !b.Off:
		b.Spec.Filter = cmp.Or(own.Name, "gaussian")
		b.Spec.Order = cmp.Or(b.Spec.Order, usual.Spec.Order)
	}
	b.Spec = b.Spec.Complete()
	return b
}

// degree is that of a form which an L-filter that keeps such polynomials takes away anyway.
func degree(f roughness.FormSpec) int {
	switch f.Kind {
	case "none":
		return -1
	case "mean":
		return 0
	case "line", "":
		return 1
	case "polynomial":
		return f.Degree
	}
	return math.MaxInt
}

// firstAlike is the first of the forms that leave the same roughness profile behind an L-filter: what the filter keeps is not in the profile.
func (g *grid) firstAlike(form int, long *roughness.Band) int {
	row := filter.Find(long.Spec.Filter)
	if long.Off || row == nil || row.AtCutoff == 0 || long.Spec.Whole() != (roughness.FilterSpec{Filter: long.Spec.Filter, Cutoff: long.Spec.Cutoff}).Complete().Whole() {
		return form
	}
	kept := func(f roughness.FormSpec) bool { return degree(f) <= row.Keeps }
	if kept(g.fits[form]) {
		return slices.IndexFunc(g.fits, kept)
	}
	return form
}

// slow reports whether a profile takes ten times as long as others.
func (g *grid) slow(form int, long *roughness.Band) bool {
	return strings.HasPrefix(long.Spec.Filter, "robust-") || g.fits[form].Kind == "circle"
}

// sizes are the numbers of combinations of the tasks of each phase.
func sizes(tasks []*task) (n [2]int) {
	for _, t := range tasks {
		n[phase(t)] += len(t.cells)
	}
	return n
}

// phase is 1 for a task that is late.
func phase(t *task) int {
	if t.late {
		return 1
	}
	return 0
}

// same reports whether two lists of values are the same to 1e-6.
func same(a, b []float64) bool {
	return slices.EqualFunc(a, b, func(x, y float64) bool { return math.Abs(x-y) <= 1e-6*max(math.Abs(x), math.Abs(y)) })
}
