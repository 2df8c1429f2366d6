package roughness

import (
	"fmt"
	"slices"
	"strings"

	"example.com/furrow/standards"
	"example.com/furrow/standards/decide"
)

// A CutoffTurn is one measurement on the way to the cut-off, with the evaluation that gave it.
type CutoffTurn struct {
	decide.Turn
	Evaluation *Evaluation
}

// A CutoffSearch is how the cut-off was found on a trace whose drawing does not state one.
type CutoffSearch struct {
	By         string // the parameter whose value chooses: "Rz"
	Cutoff     float64
	Value      float64 // of By, measured with Cutoff
	Stable     bool    // the value belongs to the cut-off it was measured with
	Turns      []CutoffTurn
	Notes      []string
	Evaluation *Evaluation // of what the settings ask for, with the cut-off found
}

// FindCutoff runs the search for the cut-off on a trace: the procedure of ISO 4288:1996, 7.2, for an edition whose measured value
// chooses (basis: memory), and the loop that ISO 21920-3:2021, Annex D, recommends in substance when nothing at all is
// specified (basis: memory). See [standards.FindCutoff] for the steps.
//
// The settings name the edition and what stays as it is: form, parts left out, kind of filter, number of sections, and an
// S-filter where they state one; otherwise each cut-off brings its own. Their cut-off and section length are what is looked
// for. by is the parameter that chooses, see [CutoffBy]; estimate is a first guess of its value in µm, 0 without one.
//
// A trace that is too short for all sections is measured on fewer, and the turn says so. A turn that cannot be measured ends
// the search: it is returned with the turns so far, and the error.
func FindCutoff(p Profile, s *Settings, by string, estimate float64) (*CutoffSearch, error) {
	var base Settings
	if s != nil {
		base = *s
	}
	ed, ok := standards.EditionByID(edition(&base))
	if !ok {
		return nil, settingErrorf("edition", "no edition is called %q; there are %s", base.Edition, standards.EditionNames(standards.EditionIDs()))
	}
	if base.Long.Off || letter(&base) != R || base.Input == Filtered {
		return nil, settingErrorf("long", "a cut-off is looked for on a roughness profile that an L-filter makes")
	}
	if !slices.ContainsFunc(ed.Steps, func(t standards.Steps) bool { return t.By == by }) {
		return nil, settingErrorf("edition", "%s has no table of cut-offs by %s; it has them by %s", ed.Title, by, tables(ed))
	}
	c := &CutoffSearch{By: by}
	found, err := decide.FindCutoff(ed, by, estimate, func(cutoff float64) (float64, error) {
		e, err := evaluateOne(p, withCutoff(&base, ed, cutoff), by)
		if err != nil {
			return 0, err
		}
		if v := e.Values[0]; !finite(v.Value) {
			return 0, fmt.Errorf("roughness: %s is undefined: %s", by, v.Reason)
		}
		c.Turns = append(c.Turns, CutoffTurn{Evaluation: e})
		return e.Values[0].Value, nil
	})
	for i, t := range found.Turns {
		if e := c.Turns[i].Evaluation; e.Sections < e.Settings.Sections {
			t.Text += fmt.Sprintf(" The trace holds %d of %d sections.", e.Sections, e.Settings.Sections)
		}
		c.Turns[i].Turn = t
	}
	if err != nil {
		return c, err
	}
	c.Cutoff, c.Value, c.Stable = found.Cutoff, found.Value, found.Stable
	if found.Note != "" {
		c.Notes = append(c.Notes, found.Note)
	}
	final := withCutoff(&base, ed, found.Cutoff)
	if ed.FromLimit {
		c.Notes = append(c.Notes, "Nothing was specified: state the setting class with the value (ISO 21920-3:2021, Annex D, in substance; from memory).")
		c.spacingNote(p, final)
	}
	c.Evaluation, err = Evaluate(p, final)
	return c, err
}

// spacingNote says where the marks of the surface stand too far apart for the cut-off that its height asked for.
func (c *CutoffSearch) spacingNote(p Profile, s *Settings) {
	e, err := evaluateOne(p, s, "Rsm")
	if err != nil {
		return
	}
	if v := e.Values[0].Value; v > c.Cutoff/3 { // a third is an own choice for "several times"
		c.Notes = append(c.Notes, fmt.Sprintf("The mean spacing of %s is more than a third of the cut-off of %s: for marks that repeat, make the cut-off several times their spacing.",
			standards.Length(v), standards.Length(c.Cutoff)))
	}
}

// withCutoff returns the settings with one row of the edition's table.
func withCutoff(base *Settings, ed standards.Edition, cutoff float64) *Settings {
	s := *base
	row, ok := ed.RowOfLong(cutoff)
	if !ok {
		row = standards.TableRow{Long: cutoff, Section: cutoff, Sections: 5}
	}
	if !s.Long.given() {
		s.Long = Band{Spec: specOf(ed.Long, cutoff)}
		if s.Stratified == "" {
			s.Stratified = StratifiedByEdition // the settings leave the filter to the edition, so the Rk family has its own
		}
	}
	s.Long.Spec.Cutoff = cutoff
	if !s.Short.given() {
		s.Short = Band{Off: true}
		if ed.Short.Name != "" && row.Short > 0 {
			s.Short = Band{Spec: specOf(ed.Short, row.Short)}
		}
	}
	s.SectionLength = row.Section
	if s.Sections == 0 {
		s.Sections = row.Sections
	}
	return &s
}

// tables lists the parameters that choose a cut-off.
func tables(ed standards.Edition) string {
	var by []string
	for _, t := range ed.Steps {
		by = append(by, t.By)
	}
	if len(by) == 0 {
		return "none"
	}
	return strings.Join(by, ", ")
}

// CutoffBy returns the parameter whose measured value chooses the cut-off for symbol under an edition. For a periodic profile
// that is the mean spacing, if the edition tells the two kinds of profile apart (ISO 4288:1996, 7.2.2; basis: excerpt). ok
// is false when the edition has no table for the symbol.
func CutoffBy(edition standards.EditionID, symbol string, periodic bool) (by string, ok bool) {
	ed, _ := standards.EditionByID(edition)
	for _, t := range ed.Steps {
		if periodic && t.By == "RSm" || !periodic && slices.Contains(t.For, symbol) {
			return t.By, true
		}
	}
	if periodic {
		return CutoffBy(edition, symbol, false)
	}
	return "", false
}

// Room says whether a trace is long enough for settings. Nothing is ever shortened in silence: fewer sections are stated, and the
// cut-off stays.
type Room struct {
	Length    float64 // of the trace that enters: cropped, without invalid ends
	Left      float64 // of it, without the ends that the filters cut, and from the start that settings state
	Section   float64
	Wanted    int     // sections asked for
	Whole     int     // sections that fit
	WithRunUp int     // sections that fit with half a cut-off of run-up on each side, whatever the filter does at its ends
	Missing   float64 // length that is missing for the sections asked for
	Fits      bool
	Text      string
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
	r := Room{Length: float64(n) * p.Spacing, Wanted: plan.set.Sections, Notes: traceNotes(p, &plan.set)}
	head, tail := plan.cut(n, p.Spacing)
	if start := plan.set.Start; start != nil {
		head = max(head, points(*start, p.Spacing)-prep.first)
	}
	r.Left = max(0, float64(n-head-tail)*p.Spacing)
	r.Section = plan.set.SectionLength
	if plan.whole {
		r.Section, r.Whole, r.WithRunUp, r.Fits = r.Left/float64(r.Wanted), r.Wanted, r.Wanted, r.Left > 0
		r.Text = "The whole trace is evaluated."
		return r, nil
	}
	fit := func(length float64) int {
		return min(r.Wanted, max(0, points(length, r.Section)))
	}
	r.Whole = fit(r.Left)
	r.WithRunUp = fit(min(r.Left, r.Length-plan.set.Long.Spec.Cutoff))
	r.Fits = r.Whole == r.Wanted
	switch wanted := fmt.Sprintf("%d sections of %s", r.Wanted, standards.Length(r.Section)); {
	case r.Fits && r.WithRunUp == r.Wanted:
		r.Text = fmt.Sprintf("It fits: %s in a trace of %s.", wanted, standards.Length(r.Length))
	case r.Fits:
		r.Text = fmt.Sprintf("It fits: %s in a trace of %s, the outer ones without run-up for the filter.", wanted, standards.Length(r.Length))
	default:
		r.Missing = float64(r.Wanted)*r.Section - r.Left
		r.Text = fmt.Sprintf("%s are missing for %s.", standards.Length(r.Missing), wanted)
		if r.Whole > 0 {
			r.Text += fmt.Sprintf(" %d can be evaluated: state the number. The cut-off stays as it is.", r.Whole)
		} else {
			r.Text += " None fits: agree and state another cut-off or length. Nothing is chosen here."
		}
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
