package callout

import (
	"fmt"
	"math"

	"example.com/furrow/standards"
)

// override lets written entries replace their own default, and no other; lengths must then agree with each other.
func (d *deriving) override() error {
	r, t := d.r, d.t
	filter := func(f *FilterSetting, name string, cutoff float64, key string) {
		if name != "" {
			if name != f.Filter {
				f.Filter, f.Order = name, 0
			}
			t.Origins[key+".filter"] = written("stated")
		}
		if cutoff > 0 {
			if f.Filter == "" {
				f.Filter = "gaussian"
				t.Origins[key+".filter"] = Origin{Ref: ref("filter not named", "", standards.OwnChoice), Text: "the Gaussian"}
			}
			f.Cutoff = cutoff
			t.Origins[key+".cutoff"] = written("stated")
		}
	}
	filter(&t.Long, r.LongFilter, r.Long, "long")
	filter(&t.Short, r.ShortFilter, r.Short, "short")
	if r.LongFilter == "robust-gaussian" && isStratified(r.sym) && d.e.Stratified.Name == r.LongFilter {
		t.Long.Order = d.e.Stratified.Order
	}
	if t.Short.Cutoff == 0 {
		t.Short = FilterSetting{}
		delete(t.Origins, "short.filter")
	}
	if t.Short.Cutoff > 0 && t.Long.Cutoff > 0 && t.Short.Cutoff >= t.Long.Cutoff {
		return d.refuse("short", "the S-filter must be shorter than the L-filter")
	}
	if r.Short > 0 {
		if near := nearestShort(d.e.Rows, r.Short); near.Short > 0 && near.MaxSpacing != t.MaxSpacing {
			t.MaxSpacing, t.TipRadius = near.MaxSpacing, near.TipRadius
			own := Origin{Ref: ref("row of the stated S-filter", "", standards.OwnChoice), Text: "goes with the stated S-filter"}
			t.Origins["max_spacing"], t.Origins["tip_radius"] = own, own
		}
	}
	return d.lengths()
}

// lengths makes section, number and evaluation length agree.
func (d *deriving) lengths() error {
	r, t := d.r, d.t
	if r.Section > 0 {
		t.Section = r.Section
		t.Origins["section"] = written("stated")
	}
	if r.Sections > 0 {
		t.Sections = r.Sections
		t.Origins["sections"] = written("stated")
	}
	if r.Evaluation > 0 {
		t.Evaluation = r.Evaluation
		t.Origins["evaluation"] = written("stated")
		switch n := r.Evaluation / t.Section; {
		case r.Sections > 0 && r.Section == 0:
			t.Section = r.Evaluation / float64(r.Sections)
			t.Origins["section"] = written("evaluation length over the number of sections")
		case r.Sections > 0:
			if !standards.Near(t.Section*float64(r.Sections), r.Evaluation) {
				return d.refuse("evaluation", "%d sections of %s do not make %s", r.Sections, standards.Length(t.Section), standards.Length(r.Evaluation))
			}
		case n >= 0.5 && n < 1000 && standards.Near(math.Round(n), n):
			t.Sections = int(math.Round(n))
			t.Origins["sections"] = written("evaluation length over the section length")
		default:
			return d.refuse("evaluation", "%s is no whole number of sections of %s: state the number or the length of the sections", standards.Length(r.Evaluation), standards.Length(t.Section))
		}
		return nil
	}
	t.Evaluation = t.Section * float64(t.Sections)
	if r.Section > 0 || r.Sections > 0 {
		t.Origins["evaluation"] = written(fmt.Sprintf("%d sections of %s", t.Sections, standards.Length(t.Section)))
	}
	return nil
}
