package record

import (
	"fmt"
	"slices"
	"strings"

	"example.com/furrow/filter"
	"example.com/furrow/params"
	"example.com/furrow/roughness"
)

// ParseSettings reads a settings file. Every key is optional; an unknown one is refused by name. The error is an *Error.
// What only the trace or the edition can decide is left to roughness.Evaluate, whose *SettingError names a key that [Locate]
// finds in the file.
func ParseSettings(data []byte) (*roughness.Settings, error) {
	root, err := parse(data)
	if err != nil {
		return nil, err
	}
	return settingsOf(data, root)
}

func settingsOf(data []byte, n *node) (*roughness.Settings, error) {
	s := &roughness.Settings{}
	f := open(data, n)
	f.version("furrow_settings", SettingsVersion)
	f.text("name", &s.Name)
	f.text("edition", (*string)(&s.Edition))
	if v := f.get("profile"); v != nil {
		t, _ := v.value.(string)
		if t != "R" && t != "P" && t != "W" {
			f.fail(v, `must be "R", "P" or "W"`)
		} else {
			s.Profile = roughness.Letter(t[0])
		}
	}
	if v := f.get("input"); v != nil {
		t, _ := v.value.(string)
		in, ok := roughness.ParseInput(t)
		if !ok {
			f.fail(v, `must be "raw", "levelled" or "filtered"`)
		}
		s.Input = in
	}
	f.boolean("invert", &s.Invert)
	f.crop(&s.Crop)
	f.exclude(&s.Exclude)
	if v := f.get("gaps"); v != nil {
		g := open(data, v)
		var b float64
		g.number("bridge", &b)
		if g.obj.fields["bridge"] != nil {
			s.Bridge = &b
		}
		f.join(g)
	}
	if v := f.get("form"); v != nil {
		g := open(data, v)
		g.text("kind", &s.Form.Kind)
		g.integer("degree", &s.Form.Degree)
		if s.Form.Kind == "polynomial" && g.obj.fields["degree"] == nil {
			g.fail(v, "the key degree of the polynomial is missing")
		}
		g.number("radius", &s.Form.Radius)
		f.join(g)
	}
	f.band("short", &s.Short)
	f.band("long", &s.Long)
	f.nullable("waviness_limit", func() { f.positive("waviness_limit", &s.WavinessLimit) })
	f.integer("sections", &s.Sections)
	if v := f.obj.fields["sections"]; v != nil && f.err == nil && s.Sections < 1 {
		f.fail(v, "must be a whole number, 1 or more")
	}
	f.nullable("section", func() { f.positive("section", &s.SectionLength) })
	f.nullable("start", func() {
		var v float64
		f.number("start", &v)
		s.Start = &v
	})
	f.choices(s)
	for _, v := range f.list("parameters") {
		t, ok := v.value.(string)
		if !ok {
			f.fail(v, "must be a name in quotes")
		}
		s.Parameters = append(s.Parameters, t)
	}
	return s, f.close()
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

func (f *fields) crop(dst *[2]float64) {
	l := f.list("crop")
	if l == nil {
		return
	}
	if len(l) != 2 {
		f.fail(f.obj.fields["crop"], "must be two lengths: cut from the start, cut from the end")
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

func (f *fields) exclude(dst *[]roughness.Exclusion) {
	for _, v := range f.list("exclude") {
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

func (f *fields) band(name string, dst *roughness.Band) {
	n := f.get(name)
	if n == nil {
		return
	}
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

// choices reads the switches; stratified_filter belongs to roughness, the others to params.
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
	known := []string{"stratified_filter", "skid"}
	for _, x := range params.Switches() {
		known = append(known, x.Key)
	}
	for _, name := range o.names {
		v := o.fields[name]
		if !slices.Contains(known, name) {
			f.fail(v, "there is no switch %q; there are %s", name, strings.Join(known, ", "))
			continue
		}
		t := ""
		switch x := v.value.(type) {
		case string:
			t = x
		default:
			t = strings.Trim(fmt.Sprint(x), `"`)
		}
		if name == "stratified_filter" {
			if t != roughness.StratifiedByLong && t != roughness.StratifiedByEdition {
				f.fail(v, "must be %q or %q", roughness.StratifiedByLong, roughness.StratifiedByEdition)
			}
			s.Stratified = t
			continue
		}
		if name == "skid" {
			if t != "refuse" && t != "insist" {
				f.fail(v, `must be "refuse" or "insist"`)
			}
			s.InsistOnSkid = t == "insist"
			continue
		}
		if err := s.Choices.Set(name, t); err != nil {
			f.fail(v, "%s", strings.TrimPrefix(err.Error(), "params: "))
		}
	}
}

// AppendSettings appends the settings as a JSON object to b. Written from the settings of an evaluation it is a complete
// settings file; indent is put before every line but the first.
func AppendSettings(b []byte, s *roughness.Settings, indent string) []byte {
	w := writer{b: b, indent: indent}
	w.open()
	w.number("furrow_settings", SettingsVersion)
	w.text("name", s.Name)
	w.text("edition", string(s.Edition))
	w.text("profile", s.Profile.String())
	w.text("input", s.Input.String())
	w.raw("invert", fmt.Sprint(s.Invert))
	w.raw("crop", "["+number(s.Crop[0])+", "+number(s.Crop[1])+"]")
	ex := make([]string, len(s.Exclude))
	for i, e := range s.Exclude {
		ex[i] = fmt.Sprintf(`{"from": %s, "to": %s, "reason": %s}`, number(e.From), number(e.To), quote(e.Reason))
	}
	w.raw("exclude", "["+strings.Join(ex, ", ")+"]")
	if s.Bridge != nil {
		w.raw("gaps", `{"bridge": `+number(*s.Bridge)+"}")
	}
	form := `{"kind": ` + quote(s.Form.Kind)
	if s.Form.Kind == "polynomial" {
		form += fmt.Sprintf(`, "degree": %d`, s.Form.Degree)
	}
	if s.Form.Radius != 0 {
		form += `, "radius": ` + number(s.Form.Radius)
	}
	w.raw("form", form+"}")
	w.raw("short", band(s.Short))
	w.raw("long", band(s.Long))
	if s.WavinessLimit > 0 {
		w.number("waviness_limit", s.WavinessLimit)
	} else {
		w.raw("waviness_limit", "null")
	}
	w.number("sections", float64(s.Sections))
	if s.SectionLength > 0 {
		w.number("section", s.SectionLength)
	} else {
		w.raw("section", "null")
	}
	if s.Start != nil {
		w.number("start", *s.Start)
	} else {
		w.raw("start", "null")
	}
	var ch []string
	for _, sw := range params.Switches() {
		ch = append(ch, quote(sw.Key)+": "+quote(s.Choices.Get(sw.Key)))
	}
	if s.Stratified != "" {
		ch = append(ch, `"stratified_filter": `+quote(s.Stratified))
	}
	if s.InsistOnSkid {
		ch = append(ch, `"skid": "insist"`)
	}
	w.raw("choices", "{"+strings.Join(ch, ", ")+"}")
	names := make([]string, len(s.Parameters))
	for i, p := range s.Parameters {
		names[i] = quote(p)
	}
	w.raw("parameters", "["+strings.Join(names, ", ")+"]")
	return w.close()
}

func band(b roughness.Band) string {
	if b.Off || b.Spec == (roughness.FilterSpec{}) {
		return "null"
	}
	s := b.Spec
	var out []string
	put := func(key, v string) { out = append(out, quote(key)+": "+v) }
	if s.Filter != "" {
		put("filter", quote(s.Filter))
	}
	for _, o := range filter.Options() {
		if v, stated := o.Get(s); stated {
			put(o.Key, number(v))
		} else if o.Word && s.Ends != "" {
			put(o.Key, quote(s.Ends))
		}
	}
	return "{" + strings.Join(out, ", ") + "}"
}
