package roughness

import (
	"fmt"

	"example.com/furrow/standards"
)

// Room says whether a trace is long enough for settings. Nothing is ever shortened in silence: fewer sections are stated, and the
// cut-off stays.
type Room struct {
	Section   float64
	Wanted    int      // sections asked for
	Whole     int      // sections that fit
	WithRunUp int      // sections that fit with half a cut-off of run-up on each side, whatever the filter does at its ends
	Missing   float64  // length that is missing for the sections asked for
	Notes     []string // where points stand too far apart, or the tip is too large, for the cut-off
}

// RoomFor holds the length of a trace against settings, without evaluating it. A trace that does not hold a single section is
// no error: Whole is 0. The error is that of settings or a trace that cannot be evaluated for another reason.
func RoomFor(p Profile, s *Settings) (Room, error) {
	plan, err := resolve(s)
	if err != nil {
		return Room{}, err
	}
	plan = plan.at(p.Spacing)
	var prep prepared
	if err := prep.prepare(p, &plan.set); err != nil {
		return Room{}, err
	}
	n := len(prep.z)
	r := Room{Wanted: plan.set.Sections, Notes: traceNotes(p, &plan.set)}
	head, tail := plan.cut(n, p.Spacing)
	if start := plan.set.Start; start != nil {
		head = max(head, points(*start, p.Spacing)-prep.first)
	}
	left := max(0, float64(n-head-tail)*p.Spacing)
	r.Section = plan.set.SectionLength
	if plan.whole {
		r.Section, r.Whole, r.WithRunUp = left/float64(r.Wanted), r.Wanted, r.Wanted
		return r, nil
	}
	fit := func(length float64) int {
		return min(r.Wanted, max(0, points(length, r.Section)))
	}
	r.Whole = fit(left)
	r.WithRunUp = fit(min(left, float64(float64(n)*p.Spacing)-plan.set.Long.Spec.Cutoff))
	if r.Whole < r.Wanted {
		r.Missing = float64(float64(r.Wanted)*r.Section) - left
	}
	return r, nil
}

// traceNotes holds spacing and tip against what goes with the cut-off (ISO 3274:1996, Table 1; basis: excerpt).
func traceNotes(p Profile, s *Settings) []string {
	ed, _ := standards.EditionByID(s.Edition)
	row, ok := ed.RowOfLong(s.Long.Spec.Cutoff)
	if !ok || s.Profile == P {
		return nil
	}
	var notes []string
	if row.MaxSpacing > 0 && p.Spacing > row.MaxSpacing*(1+1e-9) {
		notes = append(notes, fmt.Sprintf("The points are %.6g µm apart; with a cut-off of %s they should be at most %.6g µm apart (%s).",
			p.Spacing, standards.Length(row.Long), row.MaxSpacing, ed.Columns.MaxSpacing))
	}
	if tip := p.Traced.TipRadius; row.TipRadius > 0 && tip > row.TipRadius*(1+1e-9) {
		notes = append(notes, fmt.Sprintf("The tip has a radius of %.6g µm; with a cut-off of %s it should have at most %.6g µm (%s).",
			tip, standards.Length(row.Long), row.TipRadius, ed.Columns.TipRadius))
	}
	return notes
}

// cut is how many of n points the filters take from the ends of the trace.
func (p *plan) cut(n int, dx float64) (head, tail int) {
	if p.short != nil {
		head, tail = p.set.Short.Spec.Trim(n, dx)
	}
	if p.long != nil && p.set.Profile != P {
		h, t := p.set.Long.Spec.Trim(n, dx)
		head, tail = max(head, h), max(tail, t)
	}
	return head, tail
}
