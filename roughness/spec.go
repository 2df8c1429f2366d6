package roughness

import (
	"fmt"
	"math"
	"slices"

	"example.com/furrow/filter"
)

// FilterSpec is a filter as settings state it. Lengths are in micrometres.
type FilterSpec = filter.Spec

// Linear returns the filter of the band whose transmission can be told: the band's own, or the linear one that a robust or a
// two-stage filter is built on, and then own is false. It is nil where there is no filter, or only an envelope.
func (b Band) Linear() (f filter.Filter, own bool) {
	if b.Off {
		return nil, true
	}
	return b.Spec.Linear()
}

// FormSpec is the nominal form to remove.
type FormSpec struct {
	Kind   string  // one of FormNames; empty: line for raw heights, none otherwise
	Degree int     // of the polynomial
	Radius float64 // of the circle; 0: found by the fit
}

var formNames = []string{"none", "mean", "line", "polynomial", "circle", "ellipse"}

// FormNames returns the kinds of form that settings can state.
func FormNames() []string { return slices.Clone(formNames) }

const maxDegree = 20

func (f FormSpec) check() error {
	if f.Kind != "" && !slices.Contains(formNames, f.Kind) {
		return settingErrorf("form.kind", "no form is called %q; there are %v", f.Kind, formNames)
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
