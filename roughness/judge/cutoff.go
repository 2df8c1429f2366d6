package judge

import (
	"example.com/furrow/roughness"
	"fmt"
	"slices"
	"strings"

	"example.com/furrow/standards"
	"example.com/furrow/standards/decide"
)

// A CutoffTurn is one measurement on the way to the cut-off, with the evaluation that gave it.
type CutoffTurn struct {
	decide.Turn
	Evaluation *roughness.Evaluation
}

// A CutoffSearch is how the cut-off was found on a trace whose drawing does not state one.
type CutoffSearch struct {
	By         string // the parameter whose value chooses: "Rz"
	Cutoff     float64
	Value      float64 // of By, measured with Cutoff
	Stable     bool    // the value belongs to the cut-off it was measured with
	Turns      []CutoffTurn
	Notes      []string
	Evaluation *roughness.Evaluation // of what the settings ask for, with the cut-off found

	short roughness.Band // that the settings ask for: an evaluation leaves it out where the points stand too far apart
}

// FindCutoff runs the search for the cut-off on a trace: the procedure of ISO 4288:1996, 7.2, for an edition whose measured value
// chooses (basis: memory), and the loop that ISO 21920-3:2021, Annex D, recommends in substance when nothing at all is
// specified (basis: memory). See [decide.FindCutoff] for the steps.
//
// The settings name the edition and what stays as it is: form, parts left out, kind of filter, number of sections, and an
// S-filter where they state one; otherwise each cut-off brings its own. Their cut-off and section length are what is looked
// for. by is the parameter that chooses, see [CutoffBy]; estimate is a first guess of its value in µm, 0 without one.
//
// A trace that is too short for all sections is measured on fewer, and the turn says so. A turn that cannot be measured ends
// the search: it is returned with the turns so far, and the error.
func FindCutoff(p roughness.Profile, s *roughness.Settings, by string, estimate float64) (*CutoffSearch, error) {
	var base roughness.Settings
	if s != nil {
		base = *s
	}
	ed, ok := standards.EditionByID(base.InEdition())
	if !ok {
		return nil, settingErrorf("edition", "no edition is called %q; there are %s", base.Edition, standards.EditionNames(standards.EditionIDs()))
	}
	if base.Long.Off || base.OnProfile() != roughness.R || base.Input == roughness.Filtered {
		return nil, settingErrorf("long", "a cut-off is looked for on a roughness profile that an L-filter makes")
	}
	if !slices.ContainsFunc(ed.Steps, func(t standards.Steps) bool { return t.By == by }) {
		return nil, settingErrorf("edition", "%s has no table of cut-offs by %s; it has them by %s", ed.Title, by, tables(ed))
	}
	c := &CutoffSearch{By: by}
	found, err := decide.FindCutoff(ed, by, estimate, func(cutoff float64) (float64, error) {
		e, err := roughness.Evaluate(p, withCutoff(&base, ed, cutoff).Only(by))
		if err != nil {
			return 0, err
		}
		if v := e.Values[0]; !finite(v.Value) {
			return 0, fmt.Errorf("judge: %s is undefined: %s", by, v.Reason)
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
	c.short = final.Short
	if ed.FromLimit {
		c.Notes = append(c.Notes, "Nothing was specified: state the setting class with the value (ISO 21920-3:2021, Annex D, in substance; from memory).")
		c.spacingNote(p, final)
	}
	c.Evaluation, err = roughness.Evaluate(p, final)
	return c, err
}

// spacingNote says where the marks of the surface stand too far apart for the cut-off that its height asked for.
func (c *CutoffSearch) spacingNote(p roughness.Profile, s *roughness.Settings) {
	e, err := roughness.Evaluate(p, s.Only("Rsm"))
	if err != nil {
		return
	}
	if v := e.Values[0].Value; v > c.Cutoff/3 { // a third is an own choice for "several times"
		c.Notes = append(c.Notes, fmt.Sprintf("The mean spacing of %s is more than a third of the cut-off of %s: for marks that repeat, make the cut-off several times their spacing.",
			standards.Length(v), standards.Length(c.Cutoff)))
	}
}

// withCutoff returns the settings with one row of the edition's table.
func withCutoff(base *roughness.Settings, ed standards.Edition, cutoff float64) *roughness.Settings {
	s := *base
	row, ok := ed.RowOfLong(cutoff)
	if !ok {
		row = standards.TableRow{Long: cutoff, Section: cutoff, Sections: 5}
	}
	if !s.Long.Given() {
		s.Long = roughness.BandOf(ed.Long, cutoff)
		if s.Stratified == "" {
			s.Stratified = roughness.StratifiedByEdition // the settings leave the filter to the edition, so the Rk family has its own
		}
	}
	s.Long.Spec.Cutoff = cutoff
	if !s.Short.Given() {
		s.Short = roughness.Band{Off: true}
		if ed.Short.Name != "" && row.Short > 0 {
			s.Short = roughness.BandOf(ed.Short, row.Short)
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
