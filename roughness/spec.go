package roughness

import (
	"fmt"
	"math"
	"slices"

	"example.com/furrow/filter"
)

// FilterSpec is a filter as settings state it. Filter is the key that filter.All lists; fields that the filter does
// not have stay zero.
type FilterSpec struct {
	Filter        string
	Cutoff        float64
	Support       float64 // half width of the kernel in cut-offs; 0: the filter's own
	Order         *int    // of a regression filter; nil: the filter's own
	Tolerance     float64 // stop rule of the robust regression; 0: the filter's own
	Passes        int     // most passes of the robust regression; 0: the filter's own
	Tension       float64 // of a spline
	Transmission  float64 // percent at the cut-off of the zero-phase 2RC: 75 (default) or 50
	Radius        float64 // of a disk
	Length        float64 // of a segment
	Ends          string  // one of EndNames; empty: retain
	Fit           float64 // length of the fit of linear ends
	DiscardLength float64 // length discarded at each end; 0: half a cut-off
}

// EndNames lists the words for the treatment of the ends, in the order of filter.Ends.
var EndNames = []string{"retain", "retain-0", "retain-2", "zero", "linear", "line-symmetric", "point-symmetric", "discard"}

var endValues = []filter.Ends{filter.Retain, filter.Retain0, filter.Retain2, filter.Zero, filter.Linear,
	filter.LineSymmetric, filter.PointSymmetric, filter.Discard}

// keys that a filter takes beside "filter"
var filterKeys = map[string][]string{
	"gaussian":            {"cutoff", "support", "ends"},
	"gaussian-regression": {"cutoff", "order", "support", "ends"},
	"robust-gaussian":     {"cutoff", "order", "support", "tolerance", "passes", "ends"},
	"spline":              {"cutoff", "tension", "ends"},
	"robust-spline":       {"cutoff", "tension", "ends"},
	"two-rc":              {"cutoff", "ends"},
	"two-rc-zero-phase":   {"cutoff", "transmission", "ends"},
	"valley-suppression":  {"cutoff", "support", "ends"},
	"disk-closing":        {"radius", "ends"},
	"disk-opening":        {"radius", "ends"},
	"disk-alternating":    {"radius", "ends"},
	"segment-closing":     {"length", "ends"},
	"segment-opening":     {"length", "ends"},
}

// FilterNames returns the keys of the filters that settings can state, sorted.
func FilterNames() []string {
	names := make([]string, 0, len(filterKeys))
	for n := range filterKeys {
		names = append(names, n)
	}
	slices.Sort(names)
	return names
}

// convolves reports whether a filter has a choice of end treatments at all; the others can only discard.
func convolves(name string) bool { return name == "gaussian" || name == "valley-suppression" }

// scale returns the cut-off, or what stands in for it.
func (s FilterSpec) scale() float64 {
	switch {
	case s.Radius > 0:
		return s.Radius
	case s.Length > 0:
		return s.Length
	}
	return s.Cutoff
}

// check returns a *SettingError for a field out of its range or foreign to the filter. key is "short" or "long".
func (s FilterSpec) check(key string) error {
	keys, ok := filterKeys[s.Filter]
	if !ok {
		return settingErrorf(key+".filter", "no filter is called %q; there are %v", s.Filter, FilterNames())
	}
	positive := func(v float64) bool { return v > 0 && !math.IsInf(v, 0) }
	given := []struct {
		name string
		set  bool
		ok   bool
		want string
	}{
		{"cutoff", s.Cutoff != 0, positive(s.Cutoff), "a length above 0"},
		{"support", s.Support != 0, positive(s.Support) && s.Support <= 4, "a number above 0 and at most 4"},
		{"order", s.Order != nil, s.Order == nil || *s.Order >= 0 && *s.Order <= 2, "0, 1 or 2"},
		{"tolerance", s.Tolerance != 0, positive(s.Tolerance) && s.Tolerance < 1, "a number above 0 and below 1"},
		{"passes", s.Passes != 0, s.Passes > 0 && s.Passes <= 10000, "a whole number from 1 to 10000"},
		{"tension", s.Tension != 0, s.Tension > 0 && s.Tension <= 1, "a number from 0 to 1"},
		{"transmission", s.Transmission != 0, s.Transmission == 75 || s.Transmission == 50, "75 or 50"},
		{"radius", s.Radius != 0, positive(s.Radius), "a length above 0"},
		{"length", s.Length != 0, positive(s.Length), "a length above 0"},
	}
	for _, g := range given {
		has := slices.Contains(keys, g.name)
		if g.set && !has {
			return settingErrorf(key+"."+g.name, "does not belong to the filter %q", s.Filter)
		}
		if g.set && !g.ok {
			return settingErrorf(key+"."+g.name, "must be %s", g.want)
		}
		if !g.set && has && (g.name == "cutoff" || g.name == "radius" || g.name == "length") {
			return settingErrorf(key+"."+g.name, "is missing")
		}
	}
	if s.Ends != "" && !slices.Contains(EndNames, s.Ends) {
		return settingErrorf(key+".ends", "no treatment of the ends is called %q; there are %v", s.Ends, EndNames)
	}
	if s.Ends != "" && s.Ends != "retain" && s.Ends != "discard" && !convolves(s.Filter) {
		return settingErrorf(key+".ends", "the filter %q has no such choice; it can only discard", s.Filter)
	}
	if s.Fit != 0 && (s.Ends != "linear" || !positive(s.Fit)) {
		return settingErrorf(key+".fit", "must be a length above 0, and belongs to the ends \"linear\"")
	}
	if s.DiscardLength != 0 && (s.Ends != "discard" || !positive(s.DiscardLength)) {
		return settingErrorf(key+".discard_length", "must be a length above 0, and belongs to the ends \"discard\"")
	}
	return nil
}

// build returns the filter of a checked spec.
func (s FilterSpec) build() filter.Filter {
	ends := filter.Retain
	if i := slices.Index(EndNames, s.Ends); i >= 0 {
		ends = endValues[i]
	}
	order := 0 // the filter's own
	if s.Order != nil {
		order = *s.Order
		if order == 0 {
			order = filter.Order0
		}
	}
	switch s.Filter {
	case "gaussian":
		return filter.Gaussian{Cutoff: s.Cutoff, Support: s.Support, Ends: ends, Fit: s.Fit, DiscardLength: s.DiscardLength}
	case "gaussian-regression":
		return filter.GaussianRegression{Cutoff: s.Cutoff, Order: order, Support: s.Support}
	case "robust-gaussian":
		return filter.RobustGaussian{Cutoff: s.Cutoff, Order: order, Support: s.Support,
			Tolerance: s.Tolerance, Passes: s.Passes}
	case "valley-suppression":
		return filter.ValleySuppression{Cutoff: s.Cutoff, Support: s.Support, Ends: ends}
	case "spline":
		return filter.Spline{Cutoff: s.Cutoff, Tension: s.Tension}
	case "robust-spline":
		return filter.RobustSpline{Cutoff: s.Cutoff, Tension: s.Tension}
	case "two-rc":
		return filter.TwoRC{Cutoff: s.Cutoff}
	case "two-rc-zero-phase":
		return filter.TwoRCZeroPhase{Cutoff: s.Cutoff, Percent: s.Transmission}
	case "disk-closing":
		return filter.DiskClosing{Radius: s.Radius}
	case "disk-opening":
		return filter.DiskOpening{Radius: s.Radius}
	case "disk-alternating":
		return filter.DiskAlternating{Radius: s.Radius}
	case "segment-closing":
		return filter.SegmentClosing{Length: s.Length}
	case "segment-opening":
		return filter.SegmentOpening{Length: s.Length}
	}
	panic("roughness: filter spec was not checked: " + s.Filter)
}

// Linear returns the filter of the band whose transmission can be told: the band's own, or the linear one that a robust or a
// two-stage filter is built on, and then own is false. It is nil where there is no filter, or only an envelope.
func (b Band) Linear() (f filter.Filter, own bool) {
	s := b.Spec
	if b.Off || !(s.Cutoff > 0) {
		return nil, true
	}
	switch s.Filter {
	case "robust-gaussian":
		s.Filter = "gaussian-regression"
	case "robust-spline":
		s.Filter = "spline"
	case "valley-suppression":
		s.Filter = "gaussian"
	}
	return s.build(), s.Filter == b.Spec.Filter
}

// Orders of the regression filters where a spec leaves them out: the plain one keeps straight lines, the robust one follows form.
var defaultOrder = map[string]int{"gaussian-regression": 1, "robust-gaussian": 2}

// trim returns the points that the spec cuts from each end of n.
func (s FilterSpec) trim(f filter.Filter, n int, dx float64) (head, tail int) {
	if s.Ends == "discard" {
		length := s.DiscardLength
		if length == 0 {
			length = s.scale() / 2
		}
		k := int(math.Ceil(length/dx - 1e-9))
		head, tail = k, k
	}
	if t, ok := f.(filter.Trimmer); ok {
		h, l := t.Trim(n, dx)
		head, tail = max(head, h), max(tail, l)
	}
	return min(head, n), min(tail, n)
}

// complete fills the values that the filter uses when the spec leaves them out, so that it can be printed whole.
func (s FilterSpec) complete() FilterSpec {
	keys := filterKeys[s.Filter]
	has := func(k string) bool { return slices.Contains(keys, k) }
	if has("order") && s.Order == nil {
		o := defaultOrder[s.Filter]
		s.Order = &o
	}
	if has("support") && s.Support == 0 {
		s.Support = 1
		if s.Order != nil && *s.Order == 2 || s.Ends == "retain-2" {
			s.Support = 2
		}
	}
	if has("tolerance") && s.Tolerance == 0 {
		s.Tolerance = 1e-3
	}
	if has("passes") && s.Passes == 0 {
		s.Passes = 50
	}
	if has("transmission") && s.Transmission == 0 {
		s.Transmission = 75
	}
	if s.Ends == "" && convolves(s.Filter) {
		s.Ends = "retain"
	}
	if s.Ends == "discard" && s.DiscardLength == 0 {
		s.DiscardLength = s.scale() / 2
	}
	if s.Ends == "linear" && s.Fit == 0 {
		s.Fit = s.Cutoff / 2
	}
	return s
}

// FormSpec is the nominal form to remove.
type FormSpec struct {
	Kind   string  // one of FormNames; empty: line for raw heights, none otherwise
	Degree int     // of the polynomial
	Radius float64 // of the circle; 0: found by the fit
}

// FormNames lists the kinds of form that settings can state.
var FormNames = []string{"none", "mean", "line", "polynomial", "circle", "ellipse"}

const maxDegree = 20

func (f FormSpec) check() error {
	if f.Kind != "" && !slices.Contains(FormNames, f.Kind) {
		return settingErrorf("form.kind", "no form is called %q; there are %v", f.Kind, FormNames)
	}
	if f.Kind == "polynomial" && (f.Degree < 0 || f.Degree > maxDegree) {
		return settingErrorf("form.degree", "must be a whole number from 0 to %d", maxDegree)
	}
	if f.Kind != "polynomial" && f.Degree != 0 {
		return settingErrorf("form.degree", "belongs to the polynomial only")
	}
	if f.Radius != 0 && (f.Kind != "circle" || !(f.Radius > 0) || math.IsInf(f.Radius, 0)) {
		return settingErrorf("form.radius", "must be a length above 0, and belongs to the circle only")
	}
	return nil
}

func (f FormSpec) build() filter.Form {
	switch f.Kind {
	case "mean":
		return filter.Mean{}
	case "line":
		return filter.Line{}
	case "polynomial":
		return filter.Polynomial{Degree: f.Degree}
	case "circle":
		return filter.Circle{Radius: f.Radius}
	case "ellipse":
		return filter.Ellipse{}
	}
	return nil
}

// String names the form in words.
func (f FormSpec) String() string {
	switch {
	case f.Kind == "polynomial":
		return fmt.Sprintf("polynomial of degree %d", f.Degree)
	case f.Kind == "circle" && f.Radius != 0:
		return fmt.Sprintf("circle of radius %g µm", f.Radius)
	}
	return f.Kind
}
