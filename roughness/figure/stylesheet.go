package figure

import (
	"sort"
	"strings"
)

// StyleSheet is what the classes of a picture look like, as a style sheet for a page that holds pictures without
// presentation attributes. Colours are custom properties: --paper, --ink, --ink2, --rule, --wash, --wash2, --accent,
// --accent-wash, --trace, --faint. [Colours] has their light values.
func StyleSheet() string {
	var b strings.Builder
	b.WriteString(".pic { font: 12px/1 " + sans + "; }\n.pic text { fill: var(--ink); }\n.pic path { fill: none; }\n")
	for _, s := range styles {
		b.WriteString(".pic ." + s.class + " { " + declarations(s.attrs) + " }\n")
	}
	names := make([]string, 0, len(combined))
	for name := range combined {
		names = append(names, name)
	}
	sort.Strings(names)
	for _, name := range names {
		b.WriteString(".pic ." + strings.ReplaceAll(name, " ", ".") + " { " + declarations(combined[name]) + " }\n")
	}
	return b.String()
}

// declarations turns presentation attributes into style declarations.
func declarations(attrs string) string {
	var list []string
	for _, a := range strings.Split(attrs, ";") {
		name, value, _ := strings.Cut(a, ":")
		switch {
		case strings.HasPrefix(value, "@"):
			value = "var(--" + value[1:] + ")"
		case name == "font-size":
			value += "px"
		}
		list = append(list, name+": "+value+";")
	}
	return strings.Join(list, " ")
}

// Colours are the light values of the colours of a picture, by the names of the custom properties without the dashes.
func Colours() map[string]string {
	m := make(map[string]string, len(light))
	for k, v := range light {
		m[k] = v
	}
	return m
}
