package roughness

import (
	"fmt"
	"maps"
	"reflect"
	"slices"

	"example.com/furrow/params"
	"example.com/furrow/standards/callout"
)

// Credit gives s, where it is what asked asks for, the origins that asked has, and leaves what differs to whoever set it.
func (s *Settings) Credit(asked *Settings) {
	from := maps.Clone(s.From)
	if from == nil {
		from = map[string]callout.Origin{}
	}
	for key, o := range asked.From {
		if sameAt(key, s, asked) {
			from[key] = o
		}
	}
	s.From = from
}

// sameAt reports whether two settings are the same where an origin with the key says where they come from.
func sameAt(key string, a, b *Settings) bool {
	f := fieldOf(key)
	if f == nil {
		return false
	}
	switch p := f.at(a).(type) {
	case *FormSpec:
		return p.Kind == b.Form.Kind
	case *Band:
		q := f.at(b).(*Band)
		switch key {
		case f.Key + ".filter":
			return p.Spec.Filter == q.Spec.Filter
		case f.Key + ".cutoff":
			return p.Spec.Cutoff == q.Spec.Cutoff
		}
		return p.Off && q.Off
	}
	return f.Key != "parameters" && reflect.DeepEqual(f.value(a), f.value(b))
}

// Against says in which settings over departs from what a requirement asks; nil when in none.
func (over *Settings) Against(asked *Settings) []Note {
	var notes []Note
	for _, key := range []string{"long", "short", "form", "section", "sections", "profile", "input"} {
		f := fieldOf(key)
		was, got := f.value(asked), f.value(over)
		if !f.Stated(over) || reflect.DeepEqual(was, got) {
			continue
		}
		if b, ok := got.(Band); ok && sameFilter(b, was.(Band)) {
			continue
		}
		name := "the " + NameOf(key)
		if key == "input" {
			name = "what the heights hold"
		}
		if _, ok := got.(int); !ok { // numbers with a point are lengths
			was, got = words(was), words(got)
		}
		notes = append(notes, Note{Code: "differs-from-requirement", Text: fmt.Sprintf("The settings file overrides the requirement: %s is %v there and %v here.", name, was, got)})
	}
	return notes
}

// sameFilter compares what a requirement can say of a filter.
func sameFilter(a, b Band) bool {
	return a.Off == b.Off && a.Spec.Filter == b.Spec.Filter && a.Spec.Cutoff == b.Spec.Cutoff
}

// Only returns the settings (nil for the defaults) with a single parameter.
func (s *Settings) Only(symbol string) *Settings {
	one := Settings{}
	if s != nil {
		one = *s
	}
	one.Parameters = []string{symbol}
	return &one
}

// WithParameters returns the settings (nil for none) with the parameters added that they do not ask for yet. Settings that name none
// ask for all that the edition has for the profile.
func WithParameters(s *Settings, names ...string) *Settings {
	if s == nil {
		s = &Settings{}
	}
	c := *s
	c.Parameters = slices.Clone(s.Parameters)
	if len(c.Parameters) == 0 {
		for _, call := range params.Defaults(s.InEdition(), byte(s.OnProfile())) {
			c.Parameters = append(c.Parameters, call.Symbol)
		}
	}
	for _, n := range names {
		if !slices.Contains(c.Parameters, n) {
			c.Parameters = append(c.Parameters, n)
		}
	}
	return &c
}
