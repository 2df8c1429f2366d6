package tracefile

import (
	"bytes"
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"
)

// names splits a line into as many names as a row has cells: at the delimiter of the rows, or else at another one.
func (r *reader) names(line []byte, l *layout) ([]string, byte) {
	if len(line) > longestHeader || bytes.IndexByte(line, '=') >= 0 { // a statement, though a comma in it may part it in two
		return nil, 0
	}
	for _, d := range []byte{l.delimiter, '\t', ';', ',', ' '} {
		t := r.cut(line, d)
		if t.open || t.n > mostCells {
			continue
		}
		if d == ' ' {
			t.cells = glue(line, t.cells)
		}
		if l.cells == 1 && d == ' ' && len(t.cells) > 1 {
			t.cells = []cell{{end: len(line)}}
		}
		for n := len(t.cells); n > l.cells && t.cells[n-1].start == t.cells[n-1].end; n-- {
			t.cells = t.cells[:n-1]
		}
		if len(t.cells) != l.cells {
			continue
		}
		names := t.names()
		words := 0
		for i, name := range names {
			if d == ' ' {
				name = strings.TrimRight(name, ";,")
				names[i] = name
			}
			if _, ok := l.wholeNumber([]byte(name)); ok || amount(name) {
				return nil, 0
			}
			if name != "" {
				words++
			}
		}
		if words == 0 || l.cells == 1 && strings.ContainsAny(names[0], ":=") {
			continue
		}
		if l.cells > 1 && d != l.delimiter && !r.telling(names) {
			continue
		}
		return names, d
	}
	return nil, 0
}

// certain reports whether names leave no doubt that rows follow: several of them that tell, or one with a unit.
func (r *reader) certain(names []string) bool {
	if len(names) > 1 {
		return r.telling(names)
	}
	base, _, known := splitUnit(names[0])
	return known && base != ""
}

// telling reports whether one of the names says what it is the name of.
func (r *reader) telling(names []string) bool {
	for _, n := range names {
		if _, _, known := splitUnit(n); known || roleOf(n) != unnamed {
			return true
		}
	}
	return false
}

// isNameRow reports whether a line among the rows is a line of names.
func (r *reader) isNameRow(line []byte, l *layout) bool {
	names, _ := r.names(line, l)
	return names != nil && r.telling(names)
}

// heads reports whether the names of a header settle how the rows are split: the delimiter of the rows parts them, and they are
// names and not a title with a comma in it. That they are when each tells something, or when each is one word with no blank
// between it and the delimiter, as a program writes names: "a,b", but not "Shaft 7, ground".
func (r *reader) heads(h *header, l *layout) bool {
	if h.nameLine == 0 || h.delimiter != l.delimiter {
		return false
	}
	if h.names[0] == "" || h.names[len(h.names)-1] == "" {
		return false
	}
	if !allUnits(h.names) && slices.ContainsFunc(h.names, isUnit) { // one name with its unit: "Height, µm"
		return false
	}
	return allTell(h.names) || plainNames(h.names) && !strings.Contains(h.nameText, string(l.delimiter)+" ")
}

// unmistakable reports whether a line cannot be a title or a row: two of its names tell, or the one that there is has a unit.
func unmistakable(names []string) bool {
	n := 0
	for _, name := range names {
		if tells(name) {
			n++
		}
	}
	base, _, known := splitUnit(names[0])
	return n >= 2 || len(names) == 1 && n == 1 && known && base != ""
}

func allTell(names []string) bool {
	for _, n := range names {
		if n != "" && !tells(n) {
			return false
		}
	}
	return true
}

// tells reports whether a name can hardly be anything else: it has a unit and is no length of something ("Rod 100 mm"), or its
// only word is what a column is called.
func tells(name string) bool {
	base, _, known := splitUnit(name)
	words := strings.Fields(base)
	if known {
		bracketed := strings.ContainsAny(name[len(name)-1:], ")]}>")
		return len(words) == 0 || bracketed || !amount(words[len(words)-1])
	}
	return len(words) == 1 && roleOf(name) != unnamed
}

func plainNames(names []string) bool {
	for _, n := range names {
		if n == "" { // an empty column between others
			continue
		}
		base, _, _ := splitUnit(n)
		first, _ := utf8.DecodeRuneInString(base)
		if !unicode.IsLetter(first) || strings.ContainsAny(base, " :") {
			return false
		}
	}
	return true
}

// amount reports whether a text is a number with a unit, "0,1 mm", which names nothing.
func amount(s string) bool {
	if len(s) > 40 {
		return false
	}
	_, u, ok := quantity(s, &layout{grammar: grammar{decimal: '.'}})
	if ok && u != "" {
		_, ok = parseUnit(trimBrackets(u))
	}
	return ok
}
