package callout

import (
	"slices"

	"example.com/furrow/standards"
)

// sources says of each entry that the text does not state whether the standard chose it or this package.
func (t Derived) sources() {
	for key, o := range t {
		switch {
		case o.From != "" || o.Text == "":
		case o.Basis == standards.OwnChoice:
			o.From = SetHere
		default:
			o.From = FromStandard
		}
		t[key] = o
	}
}

// put sets a number with its origin.
func (t Derived) put(key string, number float64, o Origin) {
	t[key] = DerivedEntry{Number: number, Origin: o}
}

// say sets a word with its origin.
func (t Derived) say(key, word string, o Origin) { t[key] = DerivedEntry{Word: word, Origin: o} }

// filter sets a filter of the edition.
func (t Derived) filter(key string, f standards.FilterKey, why string) {
	t[key+".filter"] = DerivedEntry{float64(f.Order), f.Name, from(f.Source, why)}
}

// number sets a number, which keeps its origin.
func (t Derived) number(key string, number float64) {
	e := t[key]
	e.Number = number
	t[key] = e
}

// because says where entries come from.
func (t Derived) because(o Origin, keys ...string) {
	for _, key := range keys {
		e := t[key]
		e.Origin = o
		t[key] = e
	}
}

// off takes a filter away.
func (t Derived) off(band string) {
	delete(t, band+".filter")
	delete(t, band+".cutoff")
}

// deriving works out the settings of one requirement.
type deriving struct {
	p     *parser
	r     *Item
	e     standards.Edition
	t     Derived
	other *Item // the other of two limits on the same parameter
}

func (d *deriving) all() {
	r, t, e := d.r, d.t, &d.e
	motif := e.ID == standards.ISO12085
	if motif && r.sym.Key == "RPcBand" { // the motif method has no cut-off; a count of peaks takes that of ISO 4287
		m := editionOf(standards.ISO4287)
		e.Rows, e.Columns, e.Default, e.Long, e.Short = m.Rows, m.Columns, m.Default, m.Long, m.Short
		motif = false
	}
	profile := string(rune(r.sym.Letter))
	t["parameters"], t["profile"] = DerivedEntry{Word: r.Symbol}, DerivedEntry{Word: profile}
	t.because(own(e.Title, "edition chosen for the text"), "edition")
	t.say("form.kind", "line", own(e.Documents[0], "a straight line, unless the surface is round"))
	t.say("rule", string(r.Rule), from(e.RuleSource, "the rule of the edition when none is written"))
	if r.RuleWritten {
		t.because(stated, "rule")
	}
	switch {
	case r.cutoffOpen || r.editionOpen: // a question stands
	case r.beside != nil && e.ID != standards.ISO12085 && profile != "P":
		d.askClass("A class or cut-off is written for one of two limits on the line: what holds for %s %s?", r.Symbol, r.limitWords())
	case motif:
		d.motif()
	case profile == "P":
		d.primary()
	case profile == "W":
		d.waviness()
	default:
		d.roughness()
	}
}

// from is the origin of an entry in a place of a document.
func from(source standards.Ref, text string) Origin { return Origin{Ref: source, Text: text} }

// own is the origin of an entry that is a choice of this package.
func own(doc, text string) Origin { return from(ref(doc, "", standards.OwnChoice), text) }

// written is the origin of an entry that the text states.
func written(text string) Origin {
	return Origin{Ref: ref("the requirement", "", standards.TextRead), Text: text, From: FromDrawing}
}

var stated = written("stated")

// classAgrees refuses a class beside a cut-off that is not the one of the class.
func (d *deriving) classAgrees() {
	r := d.r
	if row, ok := d.class(); ok && r.Long > 0 && !standards.Near(row.Long, r.Long) {
		d.p.bad(max(r.at["class"].from, r.at["long"].from), "class %s has the cut-off %s, and the text states %s", r.Class, standards.Length(row.Long), standards.Length(r.Long))
	}
}

// class returns the row of the stated class.
func (d *deriving) class() (standards.TableRow, bool) {
	return d.rowWhere(func(row standards.TableRow) bool { return d.r.Class != "" && row.Name == d.r.Class })
}

// rowWhere returns the last row for which something holds.
func (d *deriving) rowWhere(holds func(row standards.TableRow) bool) (found standards.TableRow, ok bool) {
	for _, row := range d.e.Rows {
		if holds(row) {
			found, ok = row, true
		}
	}
	return found, ok
}

// ofShort returns the row of exactly this S-filter; of several the first.
func (d *deriving) ofShort(short float64) (standards.TableRow, bool) {
	i := slices.IndexFunc(d.e.Rows, func(row standards.TableRow) bool { return row.Short > 0 && standards.Near(row.Short, short) })
	if i < 0 {
		return standards.TableRow{}, false
	}
	return d.e.Rows[i], true
}

// roughness finds the row of an R-parameter, then lets what is written override single entries.
func (d *deriving) roughness() {
	r, t := d.r, d.t
	d.samplingLength()
	row, why, ok := d.row()
	if !ok {
		return // a question stands
	}
	d.fill(row, why)
	silent := r.LongFilter == ""
	if d.sectionProfile() && r.Long == 0 && silent {
		t.off("long")
		one := from(d.e.Columns.Section, "one reference length, on the profile without a cut-off")
		one.Provisional = why.Provisional
		t.put("sections", 1, one)
		t.put("evaluation", row.Section, one)
	}
	if s := d.e.Stratified; isStratified(r.sym) && s.Name != "" && silent {
		t.filter("long", s, "the filter of the edition for stratified surfaces")
	}
	d.override()
}

// sectionProfile reports whether the parameter is one of the heights of JIS B 0601:1982, on the profile without a cut-off over one reference length.
func (d *deriving) sectionProfile() bool {
	return d.e.ID == standards.JIS1982 && (d.r.Symbol == "Rz" || d.r.Symbol == "Rmax")
}

// samplingLength takes a stated sampling length for the cut-off: where a measured value chooses, they are one length (ISO 4288:1996, 7.1,
// ASME B46.1 and JIS B 0601:1994; memory).
func (d *deriving) samplingLength() {
	r, key := d.r, "section"
	length := r.Section
	if length == 0 && r.Sections > 0 {
		length, key = r.Evaluation/float64(r.Sections), "evaluation"
	}
	switch {
	case length == 0 || d.e.FromLimit || d.sectionProfile():
	case r.Long == 0:
		r.Long = length
	case !standards.Near(r.Long, length):
		d.refuse(key, "a sampling length of %s, and the cut-off is %s: they are one length", standards.Length(length), standards.Length(r.Long))
	}
}

// row chooses the row: from a stated cut-off, a stated class, or the limit.
func (d *deriving) row() (row standards.TableRow, why Origin, ok bool) {
	r, e := d.r, d.e
	if r.Long == 0 {
		if row, ok := d.class(); ok {
			return row, from(e.Columns.Long, "class "+r.Class+", stated"), true
		}
		if e.FromLimit {
			return d.rowFromLimit()
		}
		return d.rowFromMeasured()
	}
	if row, ok = e.RowOfLong(r.Long); ok {
		return row, from(e.Columns.Short, "goes with the stated cut-off"), true
	}
	if r.Short == 0 && e.Short.Name != "" {
		d.askLengths()
		return row, why, false
	}
	pair, ok := d.ofShort(r.Short)
	if !ok {
		pair = standards.TableRow{MaxSpacing: r.Short / 5, TipRadius: e.Default.TipRadius}
	}
	row = standards.TableRow{Long: r.Long, Short: r.Short, Section: r.Long, Sections: 5, MaxSpacing: pair.MaxSpacing, TipRadius: pair.TipRadius}
	return row, own("cut-off outside the table", "section as long as the stated cut-off"), true
}

// rowFromLimit is ISO 21920-3, 4.4.3 to 4.4.5.
func (d *deriving) rowFromLimit() (row standards.TableRow, why Origin, ok bool) {
	r, o := d.r, d.other
	limit, note := r, ""
	switch {
	case o != nil && o.explicit():
		// each limit then has its own settings
	case o != nil:
		note = "; the clause for two limits was not seen: the upper limit chooses the class for both"
		if r.Side == standards.Lower {
			limit = o
		}
	case r.Side == standards.Lower:
		note = "; the clause for a lower limit alone was not seen: the table for upper limits is used"
	}
	if !hasClass(r.Symbol) {
		d.askClass("%s needs a setting class or a nesting index: no default follows from its limit.", r.Symbol)
		return row, why, false
	}
	c, err := standards.Class(limit.Symbol, limit.Limit)
	if err != nil { // the limit is open
		return row, why, false
	}
	why = from(c.By.Source, "class "+c.Reason(limit.Limit)+note)
	why.Unconfirmed = c.Unconfirmed || note != ""
	return c.TableRow, why, true
}

// rowFromMeasured is ISO 4288:1996 and its kin: the measured value decides, the limit is a first estimate.
func (d *deriving) rowFromMeasured() (row standards.TableRow, why Origin, ok bool) {
	r, e := d.r, d.e
	row = e.Default
	if isStratified(r.sym) {
		return row, from(e.Stratified.Source, "0.8 mm unless 2.5 mm is stated"), true
	}
	k := slices.IndexFunc(e.Steps, func(s standards.Steps) bool { return s.Serves(r.Symbol) })
	if k < 0 {
		d.askClass("%s needs a cut-off: no table gives one for it.", r.Symbol)
		return row, why, false
	}
	s, text := e.Steps[k], "0.8 mm to begin with"
	if i, inside := s.Row(r.Limit); inside && s.By == r.Symbol {
		row, text = e.Rows[i], "first estimate from the limit"
	}
	r.note("No cut-off is stated: the measured %s decides, and the limit gives no more than a first estimate (%s).", s.By, s.Source)
	why = from(s.Source, s.Title+": "+text+"; the measured "+s.By+" decides")
	why.Provisional = true
	return row, why, true
}

// fill takes all entries from a row. The source of a number is that of its column, where it stands: ISO 21920-3, 4.4. What has chosen the row
// (4.4.3, for a limit) the text says; its source counts where it is the weaker one: a remembered table, a first estimate, own choice.
func (d *deriving) fill(row standards.TableRow, why Origin) {
	t, e := d.t, d.e
	put := func(key string, number float64, source standards.Ref) {
		o := why
		if o.Basis != standards.OwnChoice && !o.Unconfirmed && !o.Provisional {
			o.Ref = source
		}
		t.put(key, number, o)
	}
	if row.Long > 0 && e.Long.Name != "" {
		put("long.cutoff", row.Long, e.Columns.Long)
		t.filter("long", e.Long, ofEdition)
	}
	if row.Short > 0 && e.Short.Name != "" {
		put("short.cutoff", row.Short, e.Columns.Short)
		t.filter("short", e.Short, ofEdition)
	}
	put("section", row.Section, e.Columns.Section)
	put("sections", float64(row.Sections), e.Columns.Sections)
	put("evaluation", row.Evaluation, e.Columns.Evaluation)
	if row.A > 0 {
		put("a", row.A, e.Columns.Long)
		put("b", row.B, e.Columns.Long)
	}
	put("max_spacing", row.MaxSpacing, e.Columns.MaxSpacing)
	put("tip_radius", row.TipRadius, e.Columns.TipRadius)
}

const ofEdition = "the filter of the edition"

// refuse makes a refusal at the place of an entry.
func (d *deriving) refuse(key, format string, args ...any) {
	at, ok := d.r.at[key]
	if !ok {
		at = d.r.at["begin"]
	}
	d.p.bad(at.from, format, args...)
}

// explicit tells whether the requirement states what chooses its row.
func (r *Item) explicit() bool { return r.Long > 0 || r.Class != "" }
