package callout

import (
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
		t.WavinessLimit = r.WavinessLimit
		t.because(stated, "waviness_limit")
		if r.WavinessLimit <= row.Long {
			d.refuse("waviness_limit", "the long limit of the waviness must be longer than its cut-off")
		}
		t.Section = r.WavinessLimit
		t.because(from(ref("ISO 4287:1997", "3.1.9", standards.Memory), "as long as the long limit of the waviness"), "section")
	case e.FromLimit && r.Section == 0 && r.Sections == 0:
		t.Section, t.Sections = row.Evaluation, 1
		t.because(from(ref("ISO 21920-2:2021", "", standards.Memory), "one section, as long as the evaluation length"), "section", "sections")
	default:
		t.because(from(ref("practice where waviness has no long limit", "", standards.Trade), "as long as the cut-off"), "section")
	}
	t.Evaluation = t.Section * float64(t.Sections)
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
		t.Short = FilterSetting{Filter: "gaussian", Cutoff: short}
		t.because(why, "short.cutoff")
		t.because(from(e.Short.Source, ofEdition), "short.filter")
		d.stateFilter(&t.Short, r.ShortFilter, "short")
	}
	pair, ok := d.ofShort(short)
	if !ok {
		pair = e.Default
	}
	t.MaxSpacing, t.TipRadius = pair.MaxSpacing, pair.TipRadius
	const goes = "goes with the S-filter"
	t.because(from(e.Columns.MaxSpacing, goes), "max_spacing")
	t.because(from(e.Columns.TipRadius, goes), "tip_radius")
	t.Sections = max(1, r.Sections)
	feature := from(ref("ISO 4287:1997", "3.1.9", standards.Excerpt), "the length of the feature")
	if e.FromLimit {
		feature.Ref = ref("ISO 21920-3:2021", "4.4.6", standards.Memory)
	}
	if t.Evaluation = r.Evaluation; t.Evaluation == 0 {
		t.Evaluation = r.Section * float64(t.Sections)
	}
	if t.Evaluation > 0 {
		t.Section = t.Evaluation / float64(t.Sections)
		feature = stated
	}
	t.because(feature, "sections", "section", "evaluation")
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
			if r.A > 0 && !slices.ContainsFunc(e.Rows, func(c standards.TableRow) bool { return near(c.A, r.A) }) {
				row.B = 5 * r.A
			}
		}
	}
	d.fill(row, why)
	t.Long = FilterSetting{}
	for _, x := range []struct {
		key    string
		to     *float64
		stated float64
	}{{"a", &t.A, r.A}, {"b", &t.B, r.B}, {"evaluation", &t.Evaluation, r.Evaluation}, {"short.cutoff", &t.Short.Cutoff, r.Short}} {
		if x.stated > 0 {
			*x.to = x.stated
			t.because(stated, x.key)
		}
	}
	if t.A >= t.B {
		d.refuse("a", "operator A must be shorter than operator B")
	}
	if r.Short > 0 {
		t.Short.Filter = "gaussian"
	}
	if r.ShortFilter != "" {
		t.Short.Filter = r.ShortFilter
	}
	if r.Evaluation > 0 {
		t.Section = r.Evaluation
	}
}

// stateFilter lets a filter that is written take the place of another.
func (d *deriving) stateFilter(f *FilterSetting, name, key string) {
	if name != "" {
		if name != f.Filter {
			f.Filter, f.Order = name, 0
		}
		d.t.because(stated, key+".filter")
	}
}

// override lets written entries replace their own default, and no other; lengths must then agree with each other.
func (d *deriving) override() {
	r, t := d.r, d.t
	filter := func(f *FilterSetting, name string, cutoff float64, key string) {
		d.stateFilter(f, name, key)
		if cutoff > 0 {
			if f.Filter == "" {
				f.Filter = "gaussian"
				t.because(own("filter not named", "the Gaussian"), key+".filter")
			}
			f.Cutoff = cutoff
			t.because(stated, key+".cutoff")
		}
	}
	filter(&t.Long, r.LongFilter, r.Long, "long")
	filter(&t.Short, r.ShortFilter, r.Short, "short")
	if s := d.e.Stratified; r.LongFilter == "robust-gaussian" && isStratified(r.sym) && s.Name == r.LongFilter {
		t.Long.Order = s.Order
	}
	if t.Short.Cutoff == 0 {
		t.Short = FilterSetting{}
		t.forget("short.filter")
	}
	if t.Long.Cutoff > 0 && t.Short.Cutoff >= t.Long.Cutoff {
		d.refuse("short", "the S-filter must be shorter than the L-filter")
	}
	if row, ok := d.ofShort(r.Short); ok && row.MaxSpacing != t.MaxSpacing {
		t.MaxSpacing, t.TipRadius = row.MaxSpacing, row.TipRadius
		t.because(own("row of the stated S-filter", "goes with the stated S-filter"), "max_spacing", "tip_radius")
	}
	d.lengths()
}

// lengths makes section, number and evaluation length agree.
func (d *deriving) lengths() {
	r, t := d.r, d.t
	if r.Section > 0 {
		t.Section = r.Section
		t.because(stated, "section")
	}
	if r.Sections > 0 {
		t.Sections = r.Sections
		t.because(stated, "sections")
	}
	if r.Evaluation == 0 {
		t.Evaluation = t.Section * float64(t.Sections)
		if r.Section > 0 || r.Sections > 0 {
			t.because(written(sectionsOf(t.Sections, t.Section)), "evaluation")
		}
		return
	}
	t.Evaluation = r.Evaluation
	t.because(stated, "evaluation")
	n := t.Evaluation / t.Section
	whole := math.Round(n)
	switch {
	case r.Sections > 0 && r.Section == 0:
		t.Section = r.Evaluation / float64(r.Sections)
		t.because(written("evaluation length over the number of sections"), "section")
	case r.Sections > 0:
		if !standards.Near(t.Section*float64(r.Sections), r.Evaluation) {
			d.refuse("evaluation", "%s do not make %s", sectionsOf(r.Sections, t.Section), standards.Length(r.Evaluation))
		}
	case n >= 0.5 && n < 1000 && standards.Near(whole, n):
		t.Sections = int(whole)
		t.because(written("evaluation length over the section length"), "sections")
	default:
		d.refuse("evaluation", "%s is no whole number of sections of %s: state the number or the length of the sections", standards.Length(r.Evaluation), standards.Length(t.Section))
	}
}

// sectionsOf says so many sections of a length.
func sectionsOf(n int, length float64) string {
	return fmt.Sprintf("%d sections of %s", n, standards.Length(length))
}
