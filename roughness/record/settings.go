package record

import (
	"bytes"
	"errors"
	"fmt"
	"slices"
	"strings"

	"example.com/furrow/filter"
	"example.com/furrow/roughness"
	"example.com/furrow/standards"
)

// ParseSettings reads a settings file. Every key is optional; an unknown one is refused by name. The error is a *DocumentError.
// What only the trace or the edition can decide is left to roughness.Evaluate, whose *SettingError names a key that [Locate]
// finds in the file.
func ParseSettings(data []byte) (*roughness.Settings, error) {
	root, err := parse(data)
	if err != nil {
		return nil, err
	}
	return settingsOf(data, root)
}

// SettingsIn returns the settings that the bytes of a file hold: those of a settings file, of a result, or of a record, JSON or page, which is
// refused where [Open] refuses it. The error is an *[Error].
func SettingsIn(data []byte) (*roughness.Settings, error) {
	text, _, err := document(data)
	if err != nil {
		return nil, err
	}
	root, err := parseLarge(text)
	if err != nil {
		return nil, err
	}
	o, _ := root.value.(*object)
	switch {
	case o == nil || o.fields["furrow_record"] == nil && o.fields["furrow_result"] == nil:
		return ParseSettings(data)
	case o.fields["furrow_record"] != nil:
		r, err := Open(data)
		if err != nil {
			return nil, err
		}
		if r.Settings != nil {
			return r.Settings, nil
		}
	case o.fields["settings"] != nil:
		return settingsOf(text, o.fields["settings"])
	}
	return nil, place(text, root.offset, "settings", errors.New("the document holds no settings"))
}

// SettingsFor returns settings as [SettingsIn] does, but where limits of a result or a record are measured with settings of their own, those of the
// limit of a symbol. Limits of one symbol that differ in them are refused.
func SettingsFor(data []byte, symbol string) (*roughness.Settings, error) {
	s, err := SettingsIn(data)
	if err != nil {
		return nil, err
	}
	text, _, err := document(data)
	if err != nil {
		return nil, err
	}
	root, err := parseLarge(text)
	if err != nil {
		return nil, err
	}
	var own []*node // nil for a limit that shares those of the document
	for _, limit := range root.member("verdict").member("limits").elements() {
		if name := limit.member("symbol"); name == nil || name.value != symbol {
			continue
		}
		n := limit.member("settings")
		if n != nil && n.value == nil {
			n = nil
		}
		own = append(own, n)
	}
	if len(own) == 0 {
		return s, nil
	}
	var first []byte
	for i, n := range own {
		set := s
		if n != nil {
			if set, err = settingsOf(text, n); err != nil {
				return nil, err
			}
		}
		switch written := AppendSettings(nil, set, ""); {
		case i == 0:
			first = written
		case !bytes.Equal(first, written):
			return nil, place(text, root.member("verdict").offset, "verdict", fmt.Errorf("the limits of %s are measured with different settings: give a settings file", symbol))
		}
	}
	if own[0] == nil {
		return s, nil
	}
	return settingsOf(text, own[0])
}

// member is a member of an object, nil where there is none.
func (n *node) member(name string) *node {
	if n == nil {
		return nil
	}
	o, ok := n.value.(*object)
	if !ok {
		return nil
	}
	return o.fields[name]
}

// elements are those of a list.
func (n *node) elements() []*node {
	if n == nil {
		return nil
	}
	list, _ := n.value.([]*node)
	return list
}

// settingsOf walks the table of settings.
func settingsOf(data []byte, n *node) (*roughness.Settings, error) {
	s := &roughness.Settings{}
	f := open(data, n)
	f.version("furrow_settings", SettingsVersion)
	choices := false
	for _, row := range roughness.Table() {
		object, key, nested := strings.Cut(row.Key, ".")
		switch {
		case !nested:
			f.setting(row.Key, &row, s)
		case object != "choices":
			if v := f.get(object); v != nil {
				g := open(data, v)
				g.setting(key, &row, s)
				f.join(g)
			}
		case !choices:
			choices = true
			f.choices(s)
		}
	}
	return s, f.close()
}

// setting reads one setting by its kind. What is absent, or null where null may stand, states nothing.
func (f *fields) setting(key string, row *roughness.Setting, s *roughness.Settings) {
	n := f.obj.fields[key]
	if n == nil || row.Null && n.value == nil {
		f.get(key)
		return
	}
	switch p := row.At(s).(type) {
	case *string:
		f.text(key, p)
	case *standards.EditionID:
		f.text(key, (*string)(p))
	case *bool:
		f.boolean(key, p)
	case *int:
		f.integer(key, p)
		if f.err == nil && *p < 1 {
			f.fail(n, "must be a whole number, 1 or more")
		}
	case *float64:
		f.positive(key, p)
	case **float64:
		*p = new(float64)
		f.number(key, *p)
	case *[2]float64:
		f.pair(key, p)
	case *[]roughness.Exclusion:
		f.exclude(key, p)
	case *roughness.FormSpec:
		f.form(key, p)
	case *roughness.Band:
		f.band(key, p)
	case *[]string:
		for _, v := range f.list(key) {
			t, ok := v.value.(string)
			if !ok {
				f.fail(v, "must be a name in quotes")
			}
			*p = append(*p, t)
		}
	default:
		t, _ := f.get(key).value.(string)
		f.word(n, row, s, t)
	}
}

// word sets a setting that is one of a few words.
func (f *fields) word(n *node, row *roughness.Setting, s *roughness.Settings, word string) {
	err := row.SetWord(s, word)
	var wrong *roughness.SettingError
	switch {
	case errors.As(err, &wrong):
		f.fail(n, "%w", wrong.Err)
	case err != nil:
		f.fail(n, "%s", standards.Bare(err))
	}
}

// join takes over the fault of a member object.
func (f *fields) join(g *fields) {
	if err := g.close(); err != nil && f.err == nil {
		f.err = err
	}
}

// nullable calls read unless the member is absent or null.
func (f *fields) nullable(name string, read func()) {
	n := f.get(name)
	if n != nil && n.value != nil {
		read()
	}
}

func (f *fields) pair(name string, dst *[2]float64) {
	l := f.list(name)
	if l == nil {
		return
	}
	if len(l) != 2 {
		f.fail(f.obj.fields[name], "must be two lengths: cut from the start, cut from the end")
		return
	}
	for i, v := range l {
		x, err := asNumber(v)
		if err != nil {
			f.fail(v, "%w", err)
		}
		dst[i] = x
	}
}

func (f *fields) exclude(name string, dst *[]roughness.Exclusion) {
	for _, v := range f.list(name) {
		g := open(f.data, v)
		var e roughness.Exclusion
		g.number("from", &e.From)
		g.number("to", &e.To)
		g.text("reason", &e.Reason)
		for _, name := range []string{"from", "to"} {
			if g.obj.fields[name] == nil {
				g.fail(v, "the key %s is missing", name)
			}
		}
		f.join(g)
		*dst = append(*dst, e)
	}
}

func (f *fields) form(name string, dst *roughness.FormSpec) {
	v := f.get(name)
	g := open(f.data, v)
	g.text("kind", &dst.Kind)
	g.integer("degree", &dst.Degree)
	if dst.Kind == "polynomial" && g.obj.fields["degree"] == nil {
		g.fail(v, "the key degree of the polynomial is missing")
	}
	g.number("radius", &dst.Radius)
	f.join(g)
}

func (f *fields) band(name string, dst *roughness.Band) {
	n := f.get(name)
	if n.value == nil {
		dst.Off = true
		return
	}
	s := &dst.Spec
	g := open(f.data, n)
	g.text("filter", &s.Filter)
	for _, o := range filter.Options() {
		var v float64
		switch {
		case o.Word:
			g.text(o.Key, &s.Ends)
			continue
		case o.Whole:
			var k int
			g.integer(o.Key, &k)
			v = float64(k)
		case o.Above:
			g.positive(o.Key, &v)
		default:
			g.number(o.Key, &v)
		}
		if g.obj.fields[o.Key] != nil {
			o.Set(s, v)
		}
	}
	f.join(g)
}

// choices reads the switches.
func (f *fields) choices(s *roughness.Settings) {
	n := f.get("choices")
	if n == nil {
		return
	}
	o, ok := n.value.(*object)
	if !ok {
		f.fail(n, "must be an object in braces")
		return
	}
	rows := switches()
	for _, name := range o.names {
		v := o.fields[name]
		i := slices.IndexFunc(rows, func(r roughness.Setting) bool { return r.Key == "choices."+name })
		if i < 0 {
			var known []string
			for _, r := range rows {
				known = append(known, strings.TrimPrefix(r.Key, "choices."))
			}
			f.fail(v, "there is no switch %q; there are %s", name, strings.Join(known, ", "))
			continue
		}
		t, ok := v.value.(string)
		if !ok {
			t = strings.Trim(fmt.Sprint(v.value), `"`)
		}
		f.word(v, &rows[i], s, t)
	}
}

func switches() []roughness.Setting {
	return slices.DeleteFunc(roughness.Table(), func(r roughness.Setting) bool { return !strings.HasPrefix(r.Key, "choices.") })
}

// AppendSettings appends the settings as a JSON object to b. Written from the settings of an evaluation it is a complete
// settings file; indent is put before every line but the first.
func AppendSettings(b []byte, s *roughness.Settings, indent string) []byte {
	w := opened(b, indent)
	w.put("furrow_settings", SettingsVersion)
	choices := false
	for _, row := range roughness.Table() {
		object, key, nested := strings.Cut(row.Key, ".")
		switch {
		case !nested:
			w.put(row.Key, raw(settingText(&row, s)))
		case object != "choices":
			if row.Stated(s) {
				w.put(object, line(key, raw(settingText(&row, s))))
			}
		case !choices:
			choices = true
			w.put(object, choicesText(s))
		}
	}
	return w.close()
}

// settingsAt are settings as a value, null without any.
func settingsAt(s *roughness.Settings, indent string) any {
	if s == nil {
		return nil
	}
	return AppendSettings(nil, s, indent)
}

// settingText is one setting as JSON, by its kind.
func settingText(row *roughness.Setting, s *roughness.Settings) string {
	switch p := row.At(s).(type) {
	case *float64:
		if !(*p > 0) {
			return "null"
		}
		return number(*p)
	case **float64:
		if *p == nil {
			return "null"
		}
		return number(**p)
	case *[2]float64:
		return text(p[:])
	case *[]roughness.Exclusion:
		return text(inline(*p, func(e roughness.Exclusion) any { return line("from", e.From, "to", e.To, "reason", e.Reason) }))
	case *roughness.FormSpec:
		form := []any{"kind", p.Kind}
		if p.Kind == "polynomial" {
			form = append(form, "degree", p.Degree)
		}
		if p.Radius != 0 {
			form = append(form, "radius", p.Radius)
		}
		return text(line(form...))
	case *roughness.Band:
		return band(*p)
	case *string, *standards.EditionID, *bool, *int, *[]string:
		return text(p)
	}
	return quote(row.Word(s))
}

// choicesText is all switches of params, and behind them those of the evaluation that the settings state.
func choicesText(s *roughness.Settings) raw {
	var all, stated []any
	for _, row := range switches() {
		pair := []any{strings.TrimPrefix(row.Key, "choices."), row.Word(s)}
		switch row.At(s).(type) {
		case *string, *bool:
			if row.Stated(s) {
				stated = append(stated, pair...)
			}
		default:
			all = append(all, pair...)
		}
	}
	return line(append(all, stated...)...)
}

func band(b roughness.Band) string {
	if b.Off || b.Spec == (roughness.FilterSpec{}) {
		return "null"
	}
	s := b.Spec
	var out []any
	if s.Filter != "" {
		out = append(out, "filter", s.Filter)
	}
	for _, o := range filter.Options() {
		if v, stated := o.Get(s); stated {
			out = append(out, o.Key, v)
		} else if o.Word && s.Ends != "" {
			out = append(out, o.Key, s.Ends)
		}
	}
	return text(line(out...))
}
