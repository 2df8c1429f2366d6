package callout

import (
	"fmt"

	"example.com/furrow/standards"
)

// waviness finds the settings of a W-parameter. Under ISO 4287 the band must be given; under ISO 21920-3, 4.2, a class or
// an S-filter index is enough, and that this index is the cut-off between roughness and waviness is inferred.
func (d *deriving) waviness() error {
	r, t, e := d.r, d.t, d.e
	var row standards.Row
	why := Origin{Ref: e.Columns.Long, Text: "goes with the stated cut-off"}
	switch {
	case r.Long > 0:
		var ok bool
		if row, ok = e.RowOfLong(r.Long); !ok {
			row = standards.Row{Long: r.Long, Section: r.Long, Sections: 5, MaxSpacing: e.Default.MaxSpacing, TipRadius: e.Default.TipRadius}
			if e.Short.Name != "" && r.Short == 0 {
				row.Short = e.Default.Short
			}
			why = Origin{Ref: ref("cut-off outside the table", "", standards.OwnChoice), Text: "the partner of 0.8 mm"}
		}
	case e.FromLimit && (r.Class != "" || r.Short > 0):
		var ok bool
		for _, c := range e.Rows {
			if (r.Class != "" && c.Name == r.Class) || (r.Class == "" && standards.Near(c.Long, r.Short)) {
				row, ok = c, true
			}
		}
		if !ok {
			d.askClass("The nesting index is not one of the five of the setting classes: which class?")
			return nil
		}
		why = Origin{Ref: ref("ISO 21920-3:2021", "4.2", standards.Memory), Unconfirmed: true,
			Text: "the class sets the cut-off between roughness and waviness; which numbers belong to W was not seen"}
		if r.Class == "" {
			saved := r.Short
			r.Short = 0
			defer func() { r.Short = saved }()
		}
	case e.FromLimit:
		d.askClass(fmt.Sprintf("%s needs a setting class or a nesting index.", r.Symbol))
		return nil
	default:
		d.askBand()
		return nil
	}
	d.fill(row, why)
	if r.WavinessLimit > 0 {
		t.WavinessLimit = r.WavinessLimit
		t.Origins["waviness_limit"] = written("stated")
		if r.WavinessLimit <= row.Long {
			return d.refuse("waviness_limit", "the long limit of the waviness must be longer than its cut-off")
		}
		t.Section = r.WavinessLimit
		t.Origins["section"] = Origin{Ref: ref("ISO 4287:1997", "3.1.9", standards.Memory), Text: "as long as the long limit of the waviness"}
	} else if e.FromLimit && r.Section == 0 && r.Sections == 0 {
		one := Origin{Ref: ref("ISO 21920-2:2021", "", standards.Memory), Text: "one section, as long as the evaluation length"}
		t.Section, t.Sections = row.Evaluation, 1
		t.Origins["section"], t.Origins["sections"] = one, one
	} else {
		t.Origins["section"] = Origin{Ref: ref("practice where waviness has no long limit", "", standards.Trade), Text: "as long as the cut-off"}
	}
	t.Evaluation = t.Section * float64(t.Sections)
	return d.override()
}

// primary finds the settings of a P-parameter: an S-filter and the length of the feature.
func (d *deriving) primary() {
	r, t, e := d.r, d.t, d.e
	short := r.Short
	why := written("stated")
	if short == 0 && r.Class != "" {
		for _, c := range e.Rows {
			if c.Name == r.Class {
				short = c.Short
				why = Origin{Ref: e.Columns.Short, Text: "class " + r.Class + ", stated"}
			}
		}
	}
	if short == 0 && e.Short.Name != "" {
		d.askShort()
		return
	}
	if short > 0 {
		t.Short = FilterSetting{Filter: "gaussian", Cutoff: short}
		t.Origins["short.cutoff"] = why
		t.Origins["short.filter"] = Origin{Ref: e.Short.Source, Text: "the filter of the edition"}
		if r.ShortFilter != "" {
			t.Short.Filter = r.ShortFilter
			t.Origins["short.filter"] = written("stated")
		}
	}
	pair := nearestShort(e.Rows, short)
	if pair.Short == 0 {
		pair = e.Default
	}
	t.MaxSpacing, t.TipRadius = pair.MaxSpacing, pair.TipRadius
	t.Origins["max_spacing"] = Origin{Ref: e.Columns.MaxSpacing, Text: "goes with the S-filter"}
	t.Origins["tip_radius"] = Origin{Ref: e.Columns.TipRadius, Text: "goes with the S-filter"}
	t.Sections = 1
	if r.Sections > 0 {
		t.Sections = r.Sections
	}
	feature := Origin{Ref: ref("ISO 4287:1997", "3.1.9", standards.Excerpt), Text: "the length of the feature"}
	if e.FromLimit {
		feature.Ref = ref("ISO 21920-3:2021", "4.4.6", standards.Memory)
	}
	t.Origins["sections"], t.Origins["section"], t.Origins["evaluation"] = feature, feature, feature
	if r.Section > 0 && r.Evaluation == 0 {
		r.Settings.Evaluation = r.Section * float64(t.Sections)
	} else {
		t.Evaluation = r.Evaluation
	}
	if t.Evaluation > 0 {
		t.Section = t.Evaluation / float64(t.Sections)
		stated := written("stated")
		t.Origins["sections"], t.Origins["section"], t.Origins["evaluation"] = stated, stated, stated
	}
}

// motif finds the settings of a motif parameter: operators, evaluation length and S-filter.
func (d *deriving) motif() error {
	r, t, e := d.r, d.t, d.e
	row := e.Default
	why := Origin{Ref: e.Columns.Long, Text: "the default of the motif method"}
	if r.A > 0 || r.B > 0 {
		found := false
		for _, c := range e.Rows {
			if (r.A == 0 || standards.Near(c.A, r.A)) && (r.B == 0 || standards.Near(c.B, r.B)) {
				row, found = c, true
			}
		}
		why.Text = "goes with the stated operator"
		if !found {
			why = Origin{Ref: ref("operators outside the table", "", standards.OwnChoice), Text: "the default of the motif method"}
		}
		if r.A > 0 && !found && !nearA(e.Rows, r.A) {
			row.B = 5 * r.A
		}
	}
	d.fill(row, why)
	t.Long = FilterSetting{}
	if r.A > 0 {
		t.A = r.A
		t.Origins["a"] = written("stated")
	}
	if r.B > 0 {
		t.B = r.B
		t.Origins["b"] = written("stated")
	}
	if t.A >= t.B {
		return d.refuse("a", "operator A must be shorter than operator B")
	}
	if r.Short > 0 {
		t.Short = FilterSetting{Filter: "gaussian", Cutoff: r.Short}
		t.Origins["short.cutoff"] = written("stated")
	}
	if r.ShortFilter != "" {
		t.Short.Filter = r.ShortFilter
	}
	if r.Evaluation > 0 {
		t.Evaluation, t.Section = r.Evaluation, r.Evaluation
		t.Origins["evaluation"] = written("stated")
	}
	return nil
}

// nearA tells whether a row has this operator A.
func nearA(rows []standards.Row, a float64) bool {
	for _, r := range rows {
		if standards.Near(r.A, a) {
			return true
		}
	}
	return false
}
