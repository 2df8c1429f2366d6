package roughness

import (
	"fmt"
	"reflect"
	"slices"

	"example.com/furrow/filter"
	"example.com/furrow/standards"
)

// An aspect is a part of the settings that is changed as one: the unit in which two settings differ.
type aspect struct {
	key  string
	get  func(*Settings) any
	copy func(dst, src *Settings)
}

// aspects in the order of the evaluation: the rows of the table of settings, with a filter's kind, cut-off and ends as three of them, so
// that a difference can be shared out between them; where the kinds differ in what they can be told, they move together (see changes).
var aspects = func() []aspect {
	var list []aspect
	rows := slices.DeleteFunc(Table(), func(f Setting) bool { return f.turn == 0 })
	slices.SortFunc(rows, func(a, b Setting) int { return a.turn - b.turn })
	for i := range rows {
		f := &rows[i]
		if f.Key == "long" {
			list = append(list, partsOfLong...)
			continue
		}
		list = append(list, aspect{f.Key, f.value, f.Copy})
	}
	return list
}()

var partsOfLong = []aspect{
	{"long", func(s *Settings) any { return kindOf(s.Long) }, func(d, s *Settings) {
		cutoff, ends := d.Long.Spec.Cutoff, endsOf(d.Long)
		fieldOf("long").Copy(d, s)
		if simple(d.Long) && cutoff > 0 {
			d.Long.Spec.Cutoff = cutoff
			ends.put(&d.Long)
		}
	}},
	{"long.cutoff", func(s *Settings) any { return s.Long.Spec.Cutoff }, func(d, s *Settings) { d.Long.Spec.Cutoff = s.Long.Spec.Cutoff }},
	{"long.ends", func(s *Settings) any { return endsOf(s.Long) }, func(d, s *Settings) { endsOf(s.Long).put(&d.Long) }},
}

// ends is how a filter treats the ends of the trace.
type ends struct {
	how         string
	fit, length float64
}

func endsOf(b Band) ends { return ends{b.Spec.Ends, b.Spec.Fit, b.Spec.DiscardLength} }

func (e ends) put(b *Band) { b.Spec.Ends, b.Spec.Fit, b.Spec.DiscardLength = e.how, e.fit, e.length }

// kindOf is a filter without its cut-off and ends.
func kindOf(b Band) Band {
	ends{}.put(&b)
	b.Spec.Cutoff = 0
	return b
}

// simple reports whether a filter is described by a cut-off and ends like the Gaussian.
func simple(b Band) bool {
	f := filter.Find(b.Spec.Filter)
	return !b.Off && f != nil && f.AnyEnds
}

// A Change is one aspect in which two settings differ.
type Change struct {
	Key      string // "long.cutoff"
	From, To string // in words

	aspect   aspect
	from, to any
}

// Changes returns the aspects in which two complete settings differ, in the order of the evaluation.
func Changes(a, b *Settings) []Change {
	var list []Change
	for _, x := range changes(a, b) {
		list = append(list, x.change(a, b))
	}
	return list
}

// Make changes this aspect of dst to what it is in src, one of the two settings that were compared.
func (c Change) Make(dst, src *Settings) { c.aspect.copy(dst, src) }

// changes returns the aspects in which two complete settings differ.
func changes(a, b *Settings) []aspect {
	together := !reflect.DeepEqual(kindOf(a.Long), kindOf(b.Long)) && !(simple(a.Long) && simple(b.Long))
	var list []aspect
	for _, x := range aspects {
		if together {
			switch x.key {
			case "long":
				if !reflect.DeepEqual(a.Long, b.Long) {
					list = append(list, aspect{"long", fieldOf("long").value, fieldOf("long").Copy})
				}
				continue
			case "long.cutoff", "long.ends":
				continue
			}
		}
		if !reflect.DeepEqual(x.get(a), x.get(b)) {
			list = append(list, x)
		}
	}
	return list
}

func (x aspect) change(a, b *Settings) Change {
	from, to := x.get(a), x.get(b)
	return Change{Key: x.key, From: words(from), To: words(to), aspect: x, from: from, to: to}
}

// Plain returns both sides in the words that a reader expects: lengths with their unit, filters by kind and size. Where these are the same,
// the difference is in the digits or in what else a filter has, and both sides have it all.
func (c Change) Plain() (from, to string) {
	if from, to = plainWords(c.from), plainWords(c.to); from != to {
		return from, to
	}
	return allWords(c.from), allWords(c.to)
}

// words prints one side of a change.
func words(v any) string {
	switch v := v.(type) {
	case ends:
		if v.length > 0 {
			return fmt.Sprintf("%s %g µm", v.how, v.length)
		}
		if v.how == "" {
			return "its own"
		}
		return v.how
	case *float64:
		if v == nil {
			return "in the middle"
		}
		return fmt.Sprintf("%g µm", *v)
	case float64:
		return fmt.Sprintf("%g µm", v) // every number among the aspects is a length
	}
	return fmt.Sprint(v)
}

// String names the filter of the band with its settings, or "none".
func (b Band) String() string {
	if b.Off {
		return "none"
	}
	return b.Spec.String()
}

// plainWords prints one side of a deviation with lengths as a reader expects them.
func plainWords(v any) string {
	switch v := v.(type) {
	case float64:
		if v == 0 {
			return "none"
		}
		return standards.Length(v)
	case Band:
		return v.Plain()
	}
	return words(v)
}

// allWords prints one side of a deviation with every digit and all that a filter has.
func allWords(v any) string {
	b, ok := v.(Band)
	if !ok || b.Off {
		return words(v)
	}
	return b.Spec.Whole()
}

// Plain names the filter of the band as people do, with its size, or "none".
func (b Band) Plain() string {
	f := filter.Find(b.Spec.Filter)
	if l := b.Spec.Size(); !b.Off && l > 0 && f != nil {
		return f.Name + " " + standards.Length(l)
	}
	return b.String()
}
