package filter

import (
	"fmt"
	"math"
	"slices"
	"strings"
)

// A Spec is a filter as settings state it: its key and what it takes. What a filter does not have stays zero; zero where it has it
// stands for the filter's own default. [Options] describes the fields.
type Spec struct {
	Filter        string // a key of [All]
	Cutoff        float64
	Support       float64
	Order         *int // nil: the filter's own
	Tolerance     float64
	Passes        int
	Tension       float64
	Transmission  float64
	Radius        float64
	Length        float64
	Ends          string // a word of [EndTreatments]
	Fit           float64
	DiscardLength float64
}

// An Option is one of the numbers that filters take, or the treatment of the ends.
type Option struct {
	Key  string // in a settings file: "support"
	Says string // what it is

	// The range of a number: from Least to Most, the whole numbers alone, or a few values alone. Without Most it is a length.
	Least, Most  float64
	Above, Below bool // Least and Most are not in the range
	Whole        bool
	Values       []float64
	Word         bool // no number: the treatment of the ends

	with   string                           // the treatment of the ends that it belongs to; empty: a filter's row says who has it
	print  string                           // how it stands in the short name of a filter; empty where it is left out
	preset func(s *Spec, order int) float64 // the default, which may follow from other fields
	field  func(s *Spec) any                // *float64, *int, **int, *string
}

// The options, in the order of a settings file.
var options = []Option{
	{Key: "cutoff", Says: "wavelength at which the filter divides, λc or λs", Above: true, field: func(s *Spec) any { return &s.Cutoff }},
	{Key: "support", Says: "half width of the kernel in cut-offs", Above: true, Most: 4, field: func(s *Spec) any { return &s.Support },
		preset: func(s *Spec, order int) float64 { return defaultSupport(0, max(order, s.ends().order())) }},
	{Key: "order", Says: "degree of the local polynomial", Whole: true, Values: []float64{0, 1, 2}, print: ", order %g",
		field: func(s *Spec) any { return &s.Order }, preset: func(_ *Spec, order int) float64 { return float64(order) }},
	{Key: "tolerance", Says: "relative change of the scale at which the passes end", Above: true, Most: 1, Below: true,
		field: func(s *Spec) any { return &s.Tolerance }, preset: func(*Spec, int) float64 { return usualTolerance }},
	{Key: "passes", Says: "greatest number of passes", Whole: true, Least: 1, Most: 10000,
		field: func(s *Spec) any { return &s.Passes }, preset: func(*Spec, int) float64 { return usualPasses }},
	{Key: "tension", Says: "tension of the spline, 0 for bending alone", Most: 1, print: ", tension %g", field: func(s *Spec) any { return &s.Tension }},
	{Key: "transmission", Says: "percentage of the short waves that passes at the cut-off", Values: []float64{75, 50}, print: ", %g %%",
		field: func(s *Spec) any { return &s.Transmission }, preset: func(*Spec, int) float64 { return 75 }},
	{Key: "radius", Says: "radius of the disk", Above: true, field: func(s *Spec) any { return &s.Radius }},
	{Key: "length", Says: "length of the segment", Above: true, field: func(s *Spec) any { return &s.Length }},
	{Key: "ends", Says: "treatment of the ends", Word: true, field: func(s *Spec) any { return &s.Ends }},
	{Key: "fit", Says: "length of the fit of linear ends", Above: true, with: "linear", field: func(s *Spec) any { return &s.Fit },
		preset: func(s *Spec, _ int) float64 { return s.Cutoff / 2 }},
	{Key: "discard_length", Says: "length cut away at each end", Above: true, with: "discard", field: func(s *Spec) any { return &s.DiscardLength },
		preset: func(s *Spec, _ int) float64 { return s.Size() / 2 }},
}

// Options returns what filters take, in the order of a settings file.
func Options() []Option { return slices.Clone(options) }

func optionOf(key string) Option {
	return options[slices.IndexFunc(options, func(o Option) bool { return o.Key == key })]
}

// Get returns the number that a spec states, and whether it states one. For a word it returns 0.
func (o Option) Get(s Spec) (v float64, stated bool) {
	switch p := o.field(&s).(type) {
	case *float64:
		return *p, *p != 0
	case *int:
		return float64(*p), *p != 0
	case **int:
		if *p != nil {
			return float64(**p), true
		}
	}
	return 0, false
}

// Set states a number in s; a word stays as it is.
func (o Option) Set(s *Spec, v float64) {
	switch p := o.field(s).(type) {
	case *float64:
		*p = v
	case *int:
		*p = int(v)
	case **int:
		k := int(v)
		*p = &k
	}
}

// Length reports whether the option is a length, in the unit of the spacing.
func (o Option) Length() bool { return !o.Word && o.Most == 0 && o.Values == nil }

// Holds reports whether a number is in the range.
func (o Option) Holds(v float64) bool {
	switch {
	case o.Values != nil:
		return slices.Contains(o.Values, v)
	case o.Length():
		return v > 0 && !math.IsInf(v, 1)
	}
	return v >= o.Least && v <= o.Most && !(o.Above && v == o.Least) && !(o.Below && v == o.Most) && (!o.Whole || v == math.Trunc(v))
}

// Range returns the range in words: "a number above 0 and at most 4".
func (o Option) Range() string {
	noun := "a number"
	if o.Whole {
		noun = "a whole number"
	}
	switch {
	case o.Values != nil:
		words := strings.Fields(strings.Trim(fmt.Sprint(o.Values), "[]"))
		last := len(words) - 1
		return strings.Join(words[:last], ", ") + " or " + words[last]
	case o.Length():
		return "a length above 0"
	case !o.Above:
		return fmt.Sprintf("%s from %g to %g", noun, o.Least, o.Most)
	case o.Below:
		return fmt.Sprintf("%s above %g and below %g", noun, o.Least, o.Most)
	}
	return fmt.Sprintf("%s above %g and at most %g", noun, o.Least, o.Most)
}

// An OptionError says what is wrong with one field of a [Spec]. Key is that of the option, or "filter".
type OptionError struct{ Key, Text string }

// Error names the field and the reason. That there is no such filter names it already.
func (e *OptionError) Error() string {
	if e.Key == "filter" {
		return "filter: " + e.Text
	}
	return "filter: " + e.Key + ": " + e.Text
}

// Unwrap returns [ErrOption].
func (e *OptionError) Unwrap() error { return ErrOption }

func optionErrorf(key, format string, args ...any) error {
	return &OptionError{key, fmt.Sprintf(format, args...)}
}

// Check refuses, with an [OptionError], a filter that there is none of, a field out of its range or foreign to the filter, and one that is
// missing.
func (s Spec) Check() error {
	row := Find(s.Filter)
	if row == nil {
		var keys []string
		for _, i := range list {
			keys = append(keys, i.Key)
		}
		slices.Sort(keys)
		return optionErrorf("filter", "no filter is called %q; there are %v", s.Filter, keys)
	}
	for _, o := range options {
		v, stated := o.Get(s)
		switch has := slices.Contains(row.Options, o.Key); {
		case o.Word:
			if err := s.checkEnds(row); err != nil {
				return err
			}
		case o.with != "":
			if stated && (s.Ends != o.with || !o.Holds(v)) {
				return optionErrorf(o.Key, "must be %s, and belongs to the ends %q", o.Range(), o.with)
			}
		case stated && !has:
			return optionErrorf(o.Key, "does not belong to the filter %q", s.Filter)
		case stated && !o.Holds(v):
			return optionErrorf(o.Key, "must be %s", o.Range())
		case !stated && o.Key == row.Size():
			return optionErrorf(o.Key, "is missing")
		}
	}
	return nil
}

func (s Spec) checkEnds(row *Info) error {
	if s.Ends == "" {
		return nil
	}
	if _, err := ParseEnds(s.Ends); err != nil {
		return optionErrorf("ends", "no treatment of the ends is called %q; there are %v", s.Ends, endWords())
	}
	if !slices.Contains(row.EndsOf(), s.Ends) {
		return optionErrorf("ends", "the filter %q has no such choice; it can only discard", s.Filter)
	}
	return nil
}

// EndsOf returns the treatments of the ends that can be asked of the filter; the first is its default.
func (i *Info) EndsOf() []string {
	if i.AnyEnds {
		return endWords()
	}
	return []string{Retain.String(), Discard.String()}
}

// Complete fills in the values that the filter uses where the spec leaves them out, so that it can be printed whole. The spec must be one
// that Check accepts, or without a size.
func (s Spec) Complete() Spec {
	row := Find(s.Filter)
	if row == nil {
		return s
	}
	if s.Ends == "" && row.AnyEnds {
		s.Ends = row.EndsOf()[0]
	}
	for _, o := range options {
		if _, stated := o.Get(s); !stated && o.preset != nil && (slices.Contains(row.Options, o.Key) || o.with != "" && o.with == s.Ends) {
			order := row.Order
			if s.Order != nil {
				order = *s.Order
			}
			o.Set(&s, o.preset(&s, order))
		}
	}
	return s
}

// Size returns the cut-off, or the radius or length that stands in its place.
func (s Spec) Size() float64 {
	switch {
	case s.Radius > 0:
		return s.Radius
	case s.Length > 0:
		return s.Length
	}
	return s.Cutoff
}

// New makes the filter of a spec that Check accepts; it panics where there is no such filter.
func (s Spec) New() Filter {
	row := Find(s.Filter)
	if row == nil {
		panic("filter: spec was not checked: " + s.Filter)
	}
	return row.build(s)
}

// Linear returns the filter of the spec, or the linear one that a robust filter or one in two stages is built on, and then own is false.
// It is nil for a spec without a cut-off.
func (s Spec) Linear() (f Filter, own bool) {
	if !(s.Cutoff > 0) {
		return nil, true
	}
	own = true
	if row := Find(s.Filter); row != nil && row.Base != "" {
		s.Filter, own = row.Base, false
	}
	return s.New(), own
}

// Trim returns how many points of n are cut away at each end of what the filter returns: those that the spec discards, and those that the
// filter cannot vouch for.
func (s Spec) Trim(n int, dx float64) (head, tail int) {
	if s.Ends == Discard.String() {
		head = discarded(s.DiscardLength, s.Size(), dx)
		tail = head
	}
	if t, ok := s.New().(Trimmer); ok {
		h, l := t.Trim(n, dx)
		head, tail = max(head, h), max(tail, l)
	}
	return min(head, n), min(tail, n)
}

// String names the filter with its settings, lengths in micrometres: "gaussian 800 µm".
func (s Spec) String() string {
	text := s.Filter
	if l := s.Size(); l > 0 {
		text += fmt.Sprintf(" %g µm", l)
	}
	for _, o := range options {
		if v, stated := o.Get(s); stated && o.print != "" {
			text += fmt.Sprintf(o.print, v)
		}
	}
	return text
}

// Whole names the filter with everything that it has: what String leaves out follows.
func (s Spec) Whole() string {
	text := s.String()
	for _, o := range options {
		if v, stated := o.Get(s); stated && o.print == "" && !slices.Contains([]string{"cutoff", "radius", "length"}, o.Key) {
			text += fmt.Sprintf(", %s %g", strings.ReplaceAll(o.Key, "_", " "), v)
		}
	}
	if s.Ends != "" {
		text += ", ends " + s.Ends
	}
	return text
}

func (s Spec) ends() Ends {
	e, _ := ParseEnds(s.Ends) // Retain for none
	return e
}

func (s Spec) gaussian() Gaussian {
	return Gaussian{Cutoff: s.Cutoff, Support: s.Support, Ends: s.ends(), Fit: s.Fit, DiscardLength: s.DiscardLength}
}

// degree returns the order as the regression filters take it.
func (s Spec) degree() int {
	switch {
	case s.Order == nil:
		return 0
	case *s.Order == 0:
		return Order0
	}
	return *s.Order
}
