package callout

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"example.com/furrow/standards"
)

// waviness finds the settings of a W-parameter. Under ISO 4287 the band must be given; under ISO 21920-3, 4.2, a class or
// an S-filter index is enough, and that this index is the cut-off between roughness and waviness is inferred.
func (d *deriving) waviness() {
	r, t, e := d.r, d.t, d.e
	var row standards.TableRow
	why := from(e.Columns.Long, "goes with the stated cut-off")
	switch {
	case r.Long > 0:
		var ok bool
		if row, ok = e.RowOfLong(r.Long); !ok {
			row = standards.TableRow{Long: r.Long, Section: r.Long, Sections: 5, MaxSpacing: e.Default.MaxSpacing, TipRadius: e.Default.TipRadius}
			if e.Short.Name != "" && r.Short == 0 {
				row.Short = e.Default.Short
			}
			why = own("cut-off outside the table", "the partner of 0.8 mm")
		}
	case e.FromLimit && (r.Class != "" || r.Short > 0):
		row, _ = d.class()
		if r.Class == "" {
			var ok bool
			if row, ok = e.RowOfLong(r.Short); !ok {
				d.askClass("The nesting index is not one of the five of the setting classes: which class?")
				return
			}
			defer func(short float64) { r.Short = short }(r.Short)
			r.Short = 0
		}
		why = from(ref("ISO 21920-3:2021", "4.2", standards.Memory), "the class sets the cut-off between roughness and waviness; which numbers belong to W was not seen")
		why.Unconfirmed = true
	case e.FromLimit:
		d.askClass("%s needs a setting class or a nesting index.", r.Symbol)
		return
	default:
		d.askBand()
		return
	}
	d.fill(row, why)
	switch {
	case r.WavinessLimit > 0:
		t.put("waviness_limit", r.WavinessLimit, stated)
		if r.WavinessLimit <= row.Long {
			d.refuse("waviness_limit", "the long limit of the waviness must be longer than its cut-off")
		}
		t.put("section", r.WavinessLimit, from(ref("ISO 4287:1997", "3.1.9", standards.Memory), "as long as the long limit of the waviness"))
	case e.FromLimit && r.Section == 0 && r.Sections == 0:
		one := from(ref("ISO 21920-2:2021", "", standards.Memory), "one section, as long as the evaluation length")
		t.put("section", row.Evaluation, one)
		t.put("sections", 1, one)
	default:
		t.because(from(ref("practice where waviness has no long limit", "", standards.Trade), "as long as the cut-off"), "section")
	}
	d.override()
}

// primary finds the settings of a P-parameter: an S-filter and the length of the feature.
func (d *deriving) primary() {
	r, t, e := d.r, d.t, d.e
	short, why := r.Short, stated
	if row, ok := d.class(); ok && short == 0 {
		short, why = row.Short, from(e.Columns.Short, "class "+r.Class+", stated")
	}
	if short == 0 && e.Short.Name != "" {
		d.askShort()
		return
	}
	if short > 0 {
		t.put("short.cutoff", short, why)
		t.say("short.filter", "gaussian", from(e.Short.Source, ofEdition))
		d.stateFilter("short", r.ShortFilter)
	}
	pair, ok := d.ofShort(short)
	if !ok {
		pair = e.Default
	}
	const goes = "goes with the S-filter"
	t.put("max_spacing", pair.MaxSpacing, from(e.Columns.MaxSpacing, goes))
	t.put("tip_radius", pair.TipRadius, from(e.Columns.TipRadius, goes))
	sections := float64(max(1, r.Sections))
	feature := from(ref("ISO 4287:1997", "3.1.9", standards.Excerpt), "the length of the feature")
	if e.FromLimit {
		feature.Ref = ref("ISO 21920-3:2021", "4.4.6", standards.Memory)
	}
	evaluation := cmp.Or(r.Evaluation, r.Section*sections)
	if evaluation > 0 {
		feature = stated
	}
	t.put("sections", sections, feature)
	t.put("section", evaluation/sections, feature)
	t.put("evaluation", evaluation, feature)
}

// motif finds the settings of a motif parameter: operators, evaluation length and S-filter.
func (d *deriving) motif() {
	r, t, e := d.r, d.t, d.e
	row, why := e.Default, from(e.Columns.Long, "the default of the motif method")
	if r.A > 0 || r.B > 0 {
		near := func(table, stated float64) bool { return stated == 0 || standards.Near(table, stated) }
		if found, ok := d.rowWhere(func(c standards.TableRow) bool { return near(c.A, r.A) && near(c.B, r.B) }); ok {
			row, why.Text = found, "goes with the stated operator"
		} else {
			why = own("operators outside the table", why.Text)
			if !slices.ContainsFunc(e.Rows, func(c standards.TableRow) bool { return near(c.A, r.A) }) {
				row.B = 5 * r.A
			}
		}
	}
	d.fill(row, why)
	for key, number := range map[string]float64{"a": r.A, "b": r.B, "evaluation": r.Evaluation, "short.cutoff": r.Short} {
		if number > 0 {
			t.put(key, number, stated)
		}
	}
	if t["a"].Number >= t["b"].Number {
		d.refuse("a", "operator A must be shorter than operator B")
	}
	if r.Evaluation > 0 {
		t.number("section", r.Evaluation)
	}
}

// stateFilter lets a filter that is written take the place of another.
func (d *deriving) stateFilter(band, name string) {
	switch key := band + ".filter"; name {
	case "":
	case d.t[key].Word:
		d.t.because(stated, key)
	default:
		d.t.say(key, name, stated)
	}
}

// override lets written entries replace their own default, and no other; lengths must then agree with each other.
func (d *deriving) override() {
	r, t := d.r, d.t
	filter := func(band, name string, cutoff float64) {
		d.stateFilter(band, name)
		if cutoff > 0 {
			if key := band + ".filter"; t[key].Word == "" {
				t.say(key, "gaussian", own("filter not named", "the Gaussian"))
			}
			t.put(band+".cutoff", cutoff, stated)
		}
	}
	filter("long", r.LongFilter, r.Long)
	filter("short", r.ShortFilter, r.Short)
	if s := d.e.Stratified; r.LongFilter == "robust-gaussian" && isStratified(r.sym) && s.Name == r.LongFilter {
		t.number("long.filter", float64(s.Order))
	}
	long, short := t["long.cutoff"].Number, t["short.cutoff"].Number
	if short == 0 {
		t.off("short")
	}
	if long > 0 && short >= long {
		d.refuse("short", "the S-filter must be shorter than the L-filter")
	}
	if row, ok := d.ofShort(r.Short); ok && row.MaxSpacing != t["max_spacing"].Number {
		goes := own("row of the stated S-filter", "goes with the stated S-filter")
		t.put("max_spacing", row.MaxSpacing, goes)
		t.put("tip_radius", row.TipRadius, goes)
	}
	d.lengths()
}

// lengths makes section, number and evaluation length agree.
func (d *deriving) lengths() {
	r, t := d.r, d.t
	if r.Section > 0 {
		t.put("section", r.Section, stated)
	}
	if r.Sections > 0 {
		t.put("sections", float64(r.Sections), stated)
	}
	section, sections := t["section"].Number, t["sections"].Number
	if r.Evaluation == 0 {
		t.number("evaluation", section*sections)
		if r.Section > 0 || r.Sections > 0 {
			t.because(written(sectionsOf(sections, section)), "evaluation")
		}
		return
	}
	t.put("evaluation", r.Evaluation, stated)
	n := r.Evaluation / section
	whole := math.Round(n)
	switch {
	case r.Sections > 0 && r.Section == 0:
		t.put("section", r.Evaluation/sections, written("evaluation length over the number of sections"))
	case r.Sections > 0:
		if !standards.Near(float64(section*sections), r.Evaluation) {
			d.refuse("evaluation", "%s do not make %s", sectionsOf(sections, section), standards.Length(r.Evaluation))
		}
	case n >= 0.5 && n < 1000 && standards.Near(whole, n):
		t.put("sections", whole, written("evaluation length over the section length"))
	default:
		d.refuse("evaluation", "%s is no whole number of sections of %s: state the number or the length of the sections", standards.Length(r.Evaluation), standards.Length(section))
	}
}

// sectionsOf says so many sections of a length.
func sectionsOf(n, length float64) string {
	return fmt.Sprintf("%.0f sections of %s", n, standards.Length(length))
}
