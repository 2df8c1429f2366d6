package outputs

import (
	"fmt"
	"math"
	"testing"

	"example.com/furrow/filter"
	"example.com/furrow/params"
	"example.com/furrow/roughness"
	"example.com/furrow/roughness/study"
	"example.com/furrow/standards"
)

// exercise draws an exercise from short lists of round numbers.
func (s *source) exercise() study.State {
	e := study.State{Edition: one(s, append(standards.EditionIDs(), standards.ISO21920, standards.ISO21920, standards.ISO21920, standards.ISO21920)...), Letter: one(s, "R", "R", "R", "R", "R", "P", "W")}
	calls := params.Defaults(e.Edition, e.Letter[0])
	if len(calls) == 0 {
		e.Letter = "R"
		calls = params.Defaults(e.Edition, 'R')
	}
	e.Symbol = one(s, calls...).Symbol
	e.Filter = study.Removal{Kind: one(s, "none", "none", "none", "own", "own", "class"), Long: one(s, 0.08, 0.25, 0.4, 0), Short: one(s, 2.5, 8, 25, 0)}
	if e.Letter != "R" {
		e.Filter.Kind, e.Filter.Long = "own", 0.08
	}
	e.Sections.Number = s.upTo(6)
	switch s.upTo(9) {
	case 0, 1, 2, 3:
		e.Surface, e.Length, e.Spacing = study.Made, one(s, 0.5, 1, 1.25, 2), one(s, 2.0, 4, 5, 10)
		all := study.Ingredients()
		for range 1 + s.upTo(3) {
			in := one(s, all...)
			part := study.Part{Kind: in.Kind}
			for _, f := range in.Fields {
				v := one(s, f.First, f.First, f.Low, f.High, f.First/2, 2*f.First, (f.Low+f.High)/2, f.Least, f.Most)
				if f.Whole {
					v = math.Round(v)
				}
				part.Values = append(part.Values, v)
			}
			e.Parts = append(e.Parts, part)
		}
	case 4:
		e.Surface = study.Sheet
	default:
		e.Surface, e.Spacing, e.Line = study.Typed, one(s, 10.0, 20, 25, 100), one(s, "zero", "mean", "line")
		e.Heights = randomWhole(one(s, 4, 8, 10, 12, 16, 20, 40, 60, 64), one(s, 1, 2, 3, 4, 10, 100), source(s.upTo(1000)))
	}
	if s.often(15) {
		start := one(s, 0, 0.1, 0.05, 0.25)
		e.Sections.Length, e.Sections.Start = one(s, 0, 0.1, 0.2, 0.08), &start
	}
	if s.often(30) {
		e.Point, e.Width, e.Every = one(s, 0, 1, 2, 7, 50, 101), one(s, 0, 1, 2, 4), one(s, 0, 1, 2, 4)
	}
	for range one(s, 0, 0, 0, 0, 1, 2) {
		e.Moved = append(e.Moved, study.MovedPoint{Point: one(s, 1, 3, 7, 8, 50, 64), By: one(s, 1, 5, -4, -0.5), Width: one(s, 1, 1, 2, 3, 8)})
	}
	e.Turned, e.Hide, e.Fade = s.often(20), one(s, 0, 0, 1, 2), one(s, 0, 0, 1, 2, 3)
	if s.often(15) {
		window, shift := one(s, 0.0, 0.05, 0.2, 1), one(s, 0.0, 5, 20, 100)
		e.Window, e.Shift = &window, &shift
	}
	return e
}

// Exercises drawn from short lists of round numbers, so that borders are met exactly.
func TestStudiesDrawn(t *testing.T) {
	keep(t, "drawn-studies", func(p *page) {
		sheet := short("turned", 300)
		usual := narrowly(3)
		usual.Form, usual.Short = roughness.FormSpec{Kind: "polynomial", Degree: 2}, roughness.Band{Off: true}
		other := &roughness.Settings{Edition: standards.ISO21920, Long: roughness.Band{Off: true}, Short: roughness.Band{Spec: filter.Spec{Filter: "spline", Cutoff: 8}}, Profile: roughness.P}
		desks := []*study.Desk{{Trace: &sheet}, {Trace: &sheet, Settings: usual}, {Trace: &sheet, Settings: other}, {}}
		for i := range 40 {
			s := source(i)
			var d digest
			for k := range 20 {
				e, desk := s.exercise(), one(&s, desks...)
				link, err := e.Link()
				d.put([]any{link, err})
				again, notes, err := study.OpenLink(link)
				d.put([]any{again, notes, err})
				r, err := desk.Evaluate(e)
				if d.put(err); err != nil {
					continue
				}
				shown, said := r.Change(nil)
				table, err := r.Table(k%2 == 0)
				moves := r.Moves()
				d.put([]any{r.Value, r.Shown(), shown, said, r.Notes(), r.Handles(), moves, r.Looked(), r.Ordinate(), r.Removed(), table, err})
				known, reason, err := desk.Known(e)
				d.put([]any{known, reason, err})
				if c, err := r.Construct(); err == nil {
					for _, how := range []*params.Construction{c, nil} {
						letters := r.Letters(how, one(&s, 0, 1, 2, len(c.Steps), len(c.Steps)+1))
						for _, name := range names(letters) {
							d.put([]any{name, letters[name]})
						}
					}
				}
				if b, err := r.Blanks(study.LastBlank + k%3); err == nil && b != nil {
					for n := range min(4, len(b.Blanks)) {
						v, _ := b.Check(nil, n, true)
						entries := make([]string, n+1)
						for _, entries[n] = range []string{v.Value, one(&s, near(v.Value)...), one(&s, near(v.Value)...), fmt.Sprint(one(&s, randomWhole(5, 20, s)...))} {
							v, err := b.Check(entries, n, false)
							d.put([]any{v, err})
						}
					}
				}
				for range 3 {
					m := one(&s, moves...)
					moved, err := r.Set(m.ID, one(&s, m.Low, m.High, m.Least, m.Most, m.Value, m.First, math.Round(m.Value)+1))
					if d.put([]any{moved, err}); err == nil {
						if after, err := desk.Evaluate(moved); err == nil {
							shown, said := after.Change(r)
							d.put([]any{after.Value, shown, said})
						}
					}
				}
				if k%2 == 0 {
					d.asked(desk, e, k)
				}
				if k%10 == 0 {
					other, err := desk.SameRa(e)
					d.put([]any{other, err})
				}
			}
			p.digest(fmt.Sprint("exercises ", i+1), &d)
		}
	})
}
