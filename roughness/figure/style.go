package figure

import (
	"iter"
	"maps"
	"slices"
	"strings"
)

// The light colours and the faces, by what they are for.
var light = map[string]string{
	"sans": "system-ui, 'Noto Sans', 'Liberation Sans', sans-serif", "serif": "Charter, Cambria, 'Noto Serif', 'Liberation Serif', serif",
	"paper": "#fbfaf7", "ink": "#1e1b18", "ink2": "#5b554d", "rule": "#ddd8ce", "wash": "#f1eee7", "wash2": "#e9e5db",
	"accent": "#7c2867", "accent-wash": "#f3e6ef", "trace": "#3d3833", "faint": "#8f867a",
}

type style struct{ class, attrs string }

// each yields the attributes one by one.
func (s style) each() iter.Seq2[string, string] {
	return func(yield func(name, value string) bool) {
		for a := range strings.SplitSeq(s.attrs, ";") {
			if name, value, _ := strings.Cut(a, ":"); !yield(name, value) {
				return
			}
		}
	}
}

// styles says what each class looks like: presentation attributes, colours and faces by name with a leading @. [StyleSheet] says the
// same; a later class of an element overrides an earlier one.
var styles = []style{
	// Text: units and numbers, names in italics, strong, accent with and without a halo.
	{"u", "fill:@ink2"},
	{"n", "fill:@ink2"},
	{"lab", "font-family:@serif;font-style:italic;font-size:14"},
	{"strong", "font-weight:600;font-size:13"},
	{"ta", "fill:@accent;font-weight:600"},
	{"tl", "fill:@accent"},
	{"tp", "fill:@accent;paint-order:stroke;stroke:@paper;stroke-width:4;stroke-linejoin:round"},
	{"plated", "paint-order:stroke;stroke:@paper;stroke-width:4;stroke-linejoin:round"},
	{"sub", "font-size:9"},
	{"big", "font-size:14"},
	// Lines: axes, thin lines, the reference line, section boundaries.
	{"axis", "stroke:@ink2;stroke-width:1"},
	{"thin", "stroke:@ink2;stroke-width:0.75"},
	{"grid", "stroke:@rule"},
	{"ref", "stroke:@ink;stroke-width:0.75"},
	{"secl", "stroke:@ink2;stroke-width:0.75;stroke-dasharray:2 3"},
	// The profile: full, under constructions, behind another line. Curves.
	{"prof", "stroke:@trace;stroke-width:1;stroke-linejoin:round"},
	{"soft", "stroke-width:0.8;opacity:0.78"},
	{"faint", "stroke:@faint"},
	{"curve", "stroke:@ink;stroke-width:1.75"},
	{"cut", "stroke:@ink;stroke-width:1.75"},
	// Constructions: lines, filled marks, dimension lines, areas.
	{"acc", "stroke:@accent;stroke-width:1.5"},
	{"accl", "stroke:@accent;stroke-width:0.9"},
	{"wide", "stroke-width:2"},
	{"fat", "stroke-width:4"},
	{"accf", "fill:@accent"},
	{"dash", "stroke-dasharray:6 4"},
	{"dots", "stroke-dasharray:1.5 3"},
	{"acd", "stroke:@accent;stroke-width:1.25"},
	{"acdf", "fill:@accent"},
	{"thinner", "stroke-width:0.9"},
	{"thinnerf", "fill:@accent"},
	{"dim", "stroke:@ink2;stroke-width:0.9"},
	{"dimf", "fill:@ink2"},
	{"tri", "stroke:@accent;stroke-width:1.25;fill:@accent;fill-opacity:0.14"},
	{"hatch", "stroke:@ink2;stroke-width:0.9"},
	// Grounds: washes, ends, sections, boxes.
	{"wash", "fill:@wash"},
	{"ends", "fill:@wash2"},
	{"sec", "fill:none"},
	{"b", "fill:@wash"},
	{"band", "fill:none;stroke:@ink2;stroke-width:0.75"},
	// Decisions: limit, bar of an uncertainty, dot of a value, differences.
	{"limit", "stroke:@ink;stroke-width:3"},
	{"bar", "stroke:@ink;stroke-width:1"},
	{"dot", "fill:@ink"},
	{"open", "fill:@paper;stroke:@ink;stroke-width:1.5"},
	{"up", "fill:@accent-wash;stroke:@accent;stroke-width:1.25"},
	{"down", "fill:@accent-wash;stroke:@accent;stroke-width:1.25;stroke-dasharray:3 2"},
	// Classes that mean something else together.
	{"band on", "fill:@accent-wash;stroke:@accent;stroke-width:1.75"},
	{"bar on", "stroke-width:2"},
	{"hatch acc", "stroke:@accent;stroke-width:0.9"},
	{"sec on", "fill:@accent-wash"},
}

// attributes are the presentation attributes of an element with these classes, in the light colours. Paths that no
// class fills are not filled; text is ink.
func attributes(element, classes string) string {
	set := map[string]string{}
	switch element {
	case "path":
		set["fill"] = "none"
	case "text":
		set["fill"] = light["ink"]
	}
	names := strings.Fields(classes)
	for _, s := range styles {
		if s.class != classes && !slices.Contains(names, s.class) {
			continue
		}
		for name, value := range s.each() {
			if colour, ok := strings.CutPrefix(value, "@"); ok {
				value = light[colour]
			}
			set[name] = value
		}
	}
	var b strings.Builder
	for _, k := range slices.Sorted(maps.Keys(set)) {
		b.WriteString(" " + k + `="` + set[k] + `"`)
	}
	return b.String()
}

// StyleSheet is what the classes of a picture look like, as a style sheet for a page that holds pictures without
// presentation attributes. Colours and faces are custom properties that the page sets: --paper, --ink, --ink2, --rule, --wash, --wash2,
// --accent, --accent-wash, --trace, --faint, --sans, --serif.
func StyleSheet() string {
	var b strings.Builder
	b.WriteString(".pic { font: 12px/1 var(--sans); }\n.pic text { fill: var(--ink); }\n.pic path { fill: none; }\n")
	for _, s := range styles {
		b.WriteString(".pic ." + strings.ReplaceAll(s.class, " ", ".") + " {")
		for name, value := range s.each() {
			if colour, ok := strings.CutPrefix(value, "@"); ok {
				value = "var(--" + colour + ")"
			} else if name == "font-size" {
				value += "px"
			}
			b.WriteString(" " + name + ": " + value + ";")
		}
		b.WriteString(" }\n")
	}
	return b.String()
}
