package callout

import (
	"fmt"
	"math"
	"slices"

	"example.com/furrow/standards"
)

// sources says of each entry that the text does not state whether the standard chose it or this package.
func (t *Settings) sources() {
	for key, o := range t.Origins {
		switch {
		case o.From != "":
			continue
		case o.Basis == standards.OwnChoice:
			o.From = SetHere
		default:
			o.From = FromStandard
		}
		t.Origins[key] = o
	}
}

// deriving works out the settings of one requirement.
type deriving struct {
	p     *parser
	r     *Requirement
	e     standards.Edition
	t     *Settings
	other *Requirement // the other of two limits on the same parameter
}

func (d *deriving) all() error {
	r, t := d.r, d.t
	if d.e.ID == standards.ISO12085 && r.sym.Key == "RPcBand" { // the motif method has no cut-off; a count of peaks takes that of ISO 4287
		m := editionOf(standards.ISO4287)
		d.e.Rows, d.e.Columns, d.e.Default, d.e.Long, d.e.Short = m.Rows, m.Columns, m.Default, m.Long, m.Short
	}
	t.Parameters = []string{r.Symbol}
	t.Profile = string(rune(r.sym.Letter))
	t.Origins["edition"] = Origin{Ref: ref(d.e.Title, "", standards.OwnChoice), From: SetHere, Text: "edition chosen for the text"}
	t.Origins["rule"] = Origin{Ref: d.e.RuleSource, Text: "the rule of the edition when none is written"}
	if r.RuleWritten {
		t.Origins["rule"] = written("stated")
	}
	t.Form = "line"
	t.Origins["form.kind"] = Origin{Ref: ref(d.e.Documents[0], "", standards.OwnChoice), From: SetHere, Text: "a straight line, unless the surface is round"}
	switch {
	case r.cutoffOpen || r.editionOpen:
		return nil // a question stands
	case r.beside != nil && d.e.ID != standards.ISO12085 && r.sym.Letter != 'P':
		d.askClass(fmt.Sprintf("A class or cut-off is written for one of two limits on the line: what holds for %s %s?", r.Symbol, r.limitWords()))
		return nil
	case d.e.ID == standards.ISO12085 && r.sym.Key != "RPcBand":
		return d.motif()
	case t.Profile == "P":
		d.primary()
		return nil
	case t.Profile == "W":
		return d.waviness()
	}
	return d.roughness()
}

func written(text string) Origin {
	return Origin{Ref: ref("the requirement", "", standards.TextRead), Text: text, From: FromDrawing}
}

// roughness finds the row of an R-parameter, then lets what is written override single entries.
func (d *deriving) roughness() error {
	r := d.r
	row, why, ok := d.row()
	if !ok {
		return nil // a question stands
	}
	d.fill(row, why)
	if d.e.ID == standards.JIS1982 && (r.Symbol == "Rz" || r.Symbol == "Rmax") && r.Long == 0 && r.LongFilter == "" {
		d.sectionProfile(row, why)
	}
	if isStratified(r.sym) && d.e.Stratified.Name != "" && r.LongFilter == "" {
		d.t.Long.Filter, d.t.Long.Order = d.e.Stratified.Name, d.e.Stratified.Order
		d.t.Origins["long.filter"] = Origin{Ref: d.e.Stratified.Source, Text: "the filter of the edition for stratified surfaces"}
	}
	return d.override()
}

// sectionProfile takes the filter away from the heights of JIS B 0601:1982, which are those of the profile without a
// cut-off over one reference length.
func (d *deriving) sectionProfile(row standards.Row, why Origin) {
	t := d.t
	t.Long = FilterSetting{}
	delete(t.Origins, "long.filter")
	delete(t.Origins, "long.cutoff")
	t.Sections, t.Evaluation = 1, row.Section
	one := Origin{Ref: d.e.Columns.Section, Text: "one reference length, on the profile without a cut-off", Provisional: why.Provisional}
	t.Origins["sections"], t.Origins["evaluation"] = one, one
}

// row chooses the row: from a stated cut-off, a stated class, or the limit.
func (d *deriving) row() (standards.Row, Origin, bool) {
	r, e := d.r, d.e
	if r.Long > 0 {
		if row, ok := e.RowOfLong(r.Long); ok {
			return row, Origin{Ref: e.Columns.Short, Text: "goes with the stated cut-off"}, true
		}
		if r.Short > 0 || e.Short.Name == "" {
			row := standards.Row{Long: r.Long, Short: r.Short, Section: r.Long, Sections: 5, Evaluation: 5 * r.Long,
				MaxSpacing: r.Short / 5, TipRadius: e.Default.TipRadius}
			if near := nearestShort(e.Rows, r.Short); near.Short > 0 {
				row.MaxSpacing, row.TipRadius = near.MaxSpacing, near.TipRadius
			}
			return row, Origin{Ref: ref("cut-off outside the table", "", standards.OwnChoice), Text: "section as long as the stated cut-off"}, true
		}
		d.askLengths()
		return standards.Row{}, Origin{}, false
	}
	if r.Class != "" {
		for _, row := range e.Rows {
			if row.Name == r.Class {
				return row, Origin{Ref: e.Columns.Long, Text: "class " + r.Class + ", stated", From: FromDrawing}, true
			}
		}
	}
	if e.FromLimit {
		return d.rowFromLimit()
	}
	return d.rowFromMeasured()
}

// rowFromLimit is ISO 21920-3, 4.4.3 to 4.4.5.
func (d *deriving) rowFromLimit() (standards.Row, Origin, bool) {
	r := d.r
	from, note := r, ""
	unconfirmed := false
	switch o := d.other; {
	case o != nil && o.explicit():
		// each limit then has its own settings
	case o != nil:
		unconfirmed = true
		note = "; the clause for two limits was not seen: the upper limit chooses the class for both"
		if r.Side == standards.Lower {
			from = o
		}
	case r.Side == standards.Lower:
		unconfirmed = true
		note = "; the clause for a lower limit alone was not seen: the table for upper limits is used"
	}
	if !slices.ContainsFunc(editionOf(standards.ISO21920).Steps, func(s standards.Steps) bool { return s.Serves(r.Symbol) }) {
		d.askClass(fmt.Sprintf("%s needs a setting class or a nesting index: no default follows from its limit.", r.Symbol))
		return standards.Row{}, Origin{}, false
	}
	c, err := standards.Class(from.Symbol, from.Limit)
	if err != nil { // the limit is open
		return standards.Row{}, Origin{}, false
	}
	return c.Row, Origin{Ref: c.By.Source, Text: "class " + c.Reason(from.Limit) + note, Unconfirmed: c.Unconfirmed || unconfirmed}, true
}

// rowFromMeasured is ISO 4288:1996 and its kin: the measured value decides, the limit is a first estimate.
func (d *deriving) rowFromMeasured() (standards.Row, Origin, bool) {
	r, e := d.r, d.e
	if isStratified(r.sym) {
		return e.Default, Origin{Ref: e.Stratified.Source, Text: "0.8 mm unless 2.5 mm is stated"}, true
	}
	for _, s := range e.Steps {
		if !s.Serves(r.Symbol) {
			continue
		}
		row, text := e.Default, "0.8 mm to begin with"
		if s.By == r.Symbol && !math.IsNaN(r.Limit) {
			if i, ok := s.Row(r.Limit); ok {
				row, text = e.Rows[i], "first estimate from the limit"
			}
		}
		r.note("No cut-off is stated: the measured %s decides, and the limit gives no more than a first estimate (%s).", s.By, s.Source)
		return row, Origin{Ref: s.Source, Text: s.Title + ": " + text + "; the measured " + s.By + " decides", Provisional: true}, true
	}
	d.askClass(fmt.Sprintf("%s needs a cut-off: no table gives one for it.", r.Symbol))
	return standards.Row{}, Origin{}, false
}

// fill takes all entries from a row.
func (d *deriving) fill(row standards.Row, why Origin) {
	t, e := d.t, d.e
	put := func(key string, source standards.Ref) {
		o := why
		if o.Basis != standards.OwnChoice && !o.Unconfirmed && !o.Provisional {
			o.Ref = source
		}
		o.From = ""
		t.Origins[key] = o
	}
	if row.Long > 0 && e.Long.Name != "" {
		t.Long = FilterSetting{Filter: e.Long.Name, Order: e.Long.Order, Cutoff: row.Long}
		put("long.cutoff", e.Columns.Long)
		t.Origins["long.filter"] = Origin{Ref: e.Long.Source, Text: "the filter of the edition"}
	}
	if row.Short > 0 && e.Short.Name != "" {
		t.Short = FilterSetting{Filter: e.Short.Name, Cutoff: row.Short}
		put("short.cutoff", e.Columns.Short)
		t.Origins["short.filter"] = Origin{Ref: e.Short.Source, Text: "the filter of the edition"}
	}
	t.Section, t.Sections, t.Evaluation = row.Section, row.Sections, row.Evaluation
	put("section", e.Columns.Section)
	put("sections", e.Columns.Sections)
	put("evaluation", e.Columns.Evaluation)
	if row.A > 0 {
		t.A, t.B = row.A, row.B
		put("a", e.Columns.Long)
		put("b", e.Columns.Long)
	}
	t.MaxSpacing, t.TipRadius = row.MaxSpacing, row.TipRadius
	put("max_spacing", e.Columns.MaxSpacing)
	put("tip_radius", e.Columns.TipRadius)
}

// refuse makes a refusal at the place of an entry.
func (d *deriving) refuse(key, format string, args ...any) error {
	at, ok := d.r.at[key]
	if !ok {
		at = d.r.at["begin"]
	}
	return d.p.fail(at.from, ErrSyntax, format, args...)
}

// explicit tells whether the requirement states what chooses its row.
func (r *Requirement) explicit() bool { return r.Long > 0 || r.Class != "" }

// nearestShort returns the row of exactly this S-filter, or none.
func nearestShort(rows []standards.Row, short float64) standards.Row {
	for _, row := range rows {
		if row.Short > 0 && standards.Near(row.Short, short) {
			return row
		}
	}
	return standards.Row{}
}
