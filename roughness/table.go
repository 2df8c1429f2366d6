package roughness

import (
	"math"
	"reflect"
	"slices"
	"strings"

	"example.com/furrow/params"
	"example.com/furrow/standards"
)

// A Setting is one row of the table of settings: all that a settings file, its schema, a declaration for scripts, origins, differences
// and merging know of one setting. What a filter has stands in filter.Options, what a switch of params has in params.Switches.
type Setting struct {
	Key  string // in a settings file, behind the object that it stands in: "gaps.bridge"
	Says string // in the schema; may be empty
	Name string // in a sentence: "S-filter"; empty where the key says it

	Words []string // that it can be; empty for what is no word
	Free  bool     // the words depend on more than this list, and are looked at when the settings are filled in
	Above bool     // a number that is above 0, where others are 0 or more
	Null  bool     // null may stand in a file, for a setting that is not stated

	want      string // what it must be, for an error
	otherwise string // why it is what it is where nothing is said; empty where that depends on more
	turn      int    // its place among the differences, in the order of the evaluation; 0 where it is no difference of an evaluation
	at        func(*Settings) any
}

// A choice is a switch of params in settings.
type choice struct {
	in  *params.Choices
	key string
}

// fields are the rows, in the order of a settings file.
var fields = append(slices.Insert([]Setting{
	{Key: "name", Says: "free text", at: func(s *Settings) any { return &s.Name }},
	{Key: "edition", turn: 15, Words: editionIDs(), Free: true, otherwise: "today's edition, because none is named", at: func(s *Settings) any { return &s.Edition }},
	{Key: "profile", turn: 11, Words: []string{"R", "P", "W"}, want: "R, P or W", otherwise: "the roughness profile, because none is named",
		at: func(s *Settings) any { return &s.Profile }},
	{Key: "input", turn: 1, Says: "what the heights hold", Name: "heights", Words: inputNames[:], want: "one of [raw levelled filtered]",
		otherwise: "heights as traced, because nothing else is said", at: func(s *Settings) any { return &s.Input }},
	{Key: "invert", turn: 2, Says: "turn the heights over, as for a replica", otherwise: unchanged, at: func(s *Settings) any { return &s.Invert }},
	{Key: "crop", turn: 3, Says: "lengths cut from the start and the end", otherwise: unchanged, at: func(s *Settings) any { return &s.Crop }},
	{Key: "exclude", turn: 4, otherwise: unchanged, at: func(s *Settings) any { return &s.Exclude }},
	{Key: "gaps.bridge", turn: 5, Says: "longest gap bridged by a straight line", Name: "longest gap bridged", want: "a length, 0 or more", otherwise: "half the cut-off of the L-filter",
		at: func(s *Settings) any { return &s.Bridge }},
	{Key: "form", turn: 7, at: func(s *Settings) any { return &s.Form }},
	{Key: "short", turn: 6, Says: "S-filter; null switches it off", Name: "S-filter", at: func(s *Settings) any { return &s.Short }},
	{Key: "long", turn: 8, Says: "L-filter; null switches it off", Name: "L-filter", at: func(s *Settings) any { return &s.Long }},
	{Key: "waviness_limit", turn: 10, Name: "long limit of the waviness", Above: true, Null: true, want: "a length above 0, or null",
		otherwise: "none: no standard defines it", at: func(s *Settings) any { return &s.WavinessLimit }},
	{Key: "sections", turn: 13, Name: "number of sections", want: "a whole number from 1 to 100000", at: func(s *Settings) any { return &s.Sections }},
	{Key: "section", turn: 12, Name: "section length", Above: true, Null: true, want: "a length above 0", at: func(s *Settings) any { return &s.SectionLength }},
	{Key: "start", turn: 14, Says: "where the first section begins, from the start of the trace; null: in the middle", Null: true,
		want: "a length, 0 or more, or null", otherwise: "the sections are in the middle of the remaining trace", at: func(s *Settings) any { return &s.Start }},
	{Key: "choices.stratified_filter", turn: 9, Says: "what filters for the Rk family: the L-filter, or the edition's own for stratified surfaces",
		Name: "filter for stratified surfaces", Words: []string{StratifiedByLong, StratifiedByEdition}, want: `"long" or "edition"`,
		otherwise: "the L-filter of the settings, if they state its kind", at: func(s *Settings) any { return &s.Stratified }},
	{Key: "choices.skid", turn: 16, Words: []string{"refuse", "insist"}, at: func(s *Settings) any { return &s.InsistOnSkid }},
}, 17, switchFields()...), Setting{Key: "parameters", otherwise: "all that the edition has for the profile", at: func(s *Settings) any { return &s.Parameters }})

const unchanged = "nothing is changed, because nothing is said"

func editionIDs() []string {
	var ids []string
	for _, e := range standards.Editions() {
		ids = append(ids, string(e.ID))
	}
	return ids
}

func switchFields() []Setting {
	var list []Setting
	for i, sw := range params.Switches() {
		f := Setting{Key: "choices." + sw.Key, Says: sw.Text, turn: 17 + i, at: func(s *Settings) any { return choice{&s.Choices, sw.Key} }}
		for _, o := range sw.Options {
			f.Words = append(f.Words, o.Word)
		}
		list = append(list, f)
	}
	return list
}

// Table returns the settings in the order of a settings file. The order of Words is that of their meaning; where a setting has
// a default that is the same for all, it is the first.
func Table() []Setting { return slices.Clone(fields) }

// withMemory are the rows whose values are more than the structure holds.
var withMemory = func() (list []*Setting) {
	for i := range fields {
		switch fields[i].at(&Settings{}).(type) {
		case **float64, *Band, *[]Exclusion, *[]string:
			list = append(list, &fields[i])
		}
	}
	return list
}()

// fieldOf returns the row of a key, which may be that of a part: "long.cutoff". It is nil for what is no setting.
func fieldOf(key string) *Setting {
	for i := range fields {
		if f := &fields[i]; f.Key == key || strings.HasPrefix(key, f.Key+".") {
			return f
		}
	}
	return nil
}

// NameOf names a setting or a part of one in a sentence: "L-filter" for "long.cutoff".
func NameOf(key string) string {
	if key == "long.ends" {
		return "ends of the L-filter"
	}
	if f := fieldOf(key); f != nil && f.Name != "" {
		return f.Name
	}
	return key
}

// At returns the address of the setting in s, by which its kind is known as well; for a switch it is none, see Word.
func (f *Setting) At(s *Settings) any { return f.at(s) }

// Word returns the word that s has for a setting with Words.
func (f *Setting) Word(s *Settings) string {
	switch p := f.at(s).(type) {
	case choice:
		return p.in.Get(p.key)
	case *Letter:
		return p.String()
	case *Heights:
		return p.String()
	case *bool:
		if *p {
			return f.Words[1]
		}
		return f.Words[0]
	case *string:
		return *p
	}
	return ""
}

// SetWord sets a setting with Words to one of them. The error names them.
func (f *Setting) SetWord(s *Settings, word string) error {
	i := slices.Index(f.Words, word)
	if c, ok := f.at(s).(choice); ok {
		return c.in.Set(c.key, word)
	}
	if i < 0 {
		last := len(f.Words) - 1
		return settingErrorf(f.Key, `must be "%s" or "%s"`, strings.Join(f.Words[:last], `", "`), f.Words[last])
	}
	switch p := f.at(s).(type) {
	case *Letter:
		*p = Letter(word[0])
	case *Heights:
		*p = Heights(i)
	case *bool:
		*p = i == 1
	case *string:
		*p = word
	}
	return nil
}

// Stated reports whether s states the setting. A switch at its default states nothing.
func (f *Setting) Stated(s *Settings) bool {
	switch p := f.at(s).(type) {
	case choice:
		return f.Word(s) != f.Words[0]
	case *FormSpec:
		return p.Kind != ""
	case *[]Exclusion:
		return len(*p) > 0
	case *[]string:
		return len(*p) > 0
	}
	return !reflect.ValueOf(f.at(s)).Elem().IsZero()
}

// Copy sets the setting of dst to that of src; they share no memory.
func (f *Setting) Copy(dst, src *Settings) {
	switch to := f.at(dst).(type) {
	case choice:
		if err := to.in.Set(to.key, f.Word(src)); err != nil {
			panic("roughness: " + err.Error()) // a word of the same switch
		}
	case **float64:
		*to = cloned(*f.at(src).(**float64))
	case *Band:
		*to = *f.at(src).(*Band)
		to.Spec.Order = cloned(to.Spec.Order)
	case *[]Exclusion:
		*to = slices.Clone(*f.at(src).(*[]Exclusion))
	case *[]string:
		*to = slices.Clone(*f.at(src).(*[]string))
	default:
		reflect.ValueOf(to).Elem().Set(reflect.ValueOf(f.at(src)).Elem())
	}
}

func cloned[T any](p *T) *T {
	if p == nil {
		return nil
	}
	v := *p
	return &v
}

// value is the setting of s, to compare and to print.
func (f *Setting) value(s *Settings) any {
	if _, ok := f.at(s).(choice); ok {
		return f.Word(s)
	}
	return reflect.ValueOf(f.at(s)).Elem().Interface()
}

// check refuses what the setting alone cannot be.
func (f *Setting) check(s *Settings) error {
	ok := true
	switch p := f.at(s).(type) {
	case *float64:
		ok = *p == 0 || *p > 0 && finite(*p)
	case **float64:
		ok = *p == nil || **p >= 0 && finite(**p)
	case *int:
		ok = *p >= 0 && *p <= maxSections
	case *Letter:
		ok = *p == 0 || slices.Contains(f.Words, p.String())
	case *Heights:
		ok = int(*p) < len(f.Words)
	case *string:
		ok = *p == "" || slices.Contains(f.Words, *p)
	}
	if !ok {
		return settingErrorf(f.Key, "must be %s", f.want)
	}
	return nil
}

const maxSections = 100000

func finite(v float64) bool { return !math.IsNaN(v) && !math.IsInf(v, 0) }
