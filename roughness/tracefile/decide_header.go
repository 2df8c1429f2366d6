package tracefile

import (
	"bytes"
	"fmt"
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"
)

// The third pass, second question: what do the lines above the rows say?

// header is what they say.
type header struct {
	delimiter byte   // that splits the line of names
	names     []name // one per cell, or nil
	nameLine  int
	nameText  string // the line itself
	units     []name // a row of units below the names, or nil
	unitLine  int

	x, z, step statements // "unit x: mm", "unit z: um", "dx [um]: 0.5"
	points     said       // "points: 401"
	slopeLine  int        // "Data type: SLOPE"
	taken      []LineRead
	wrong      int       // offset of a line that has to be a row and cannot be read, or -1
	above      []int     // numbers of lines that hold numbers and are no rows
	almost     *LineRead // a line taken for a title that may be a row gone wrong
}

// said is a statement of the header with its line; line 0 is none.
type said struct {
	line  int
	value float64
	unit  unit
	known bool // the unit is one
}

// length reports whether the statement has a unit of length.
func (s said) length() bool { return s.known && !s.unit.slope }

// place is where a statement stands.
func (s said) place() string { return fmt.Sprintf("line %d", s.line) }

// says is what a statement says, without its key.
func (s said) says() string {
	switch {
	case s.value == 0:
		return s.unit.text
	case !s.known:
		return number(s.value)
	}
	return number(s.value) + " " + s.unit.text
}

// statements are those of one thing: the one that counts, and all of them.
type statements struct {
	said
	all []said
}

func (s *statements) add(one said) {
	s.said = one
	s.all = append(s.all, one)
}

// mostHeader bounds how many lines above the rows are looked at.
const mostHeader = 1000

// longestHeader bounds what a line of names or statements can be, in bytes; a longer one tells nothing.
const longestHeader = 1 << 16

// longestSaid bounds what is kept of a line for its reader, in bytes.
const longestSaid = 1 << 10

// preamble calls f for each line above the rows that is not blank, with comment marks taken off.
func (r *reader) preamble(l *layout, f func(line []byte, number, at int, remark bool)) {
	number := r.line(r.top)
	for p := r.top; p < l.start; {
		line, next := r.nextLine(p)
		lines := 1
		for ; lines < 10 && next < l.start && r.cut(line, l.delimiter).open; lines++ { // a quoted cell may go on in the next line
			_, next = r.nextLine(next)
			line = bytes.TrimRight(r.data[p:next], "\r\n")
		}
		inner, remark := comment(line)
		if remark {
			line = inner
		}
		if t := bytes.TrimSpace(line); len(t) > 1 && t[0] == ';' {
			line = bytes.TrimSpace(bytes.TrimLeft(t, "; "))
		}
		if !blank(line) {
			f(line, number, p, remark)
		}
		number += lines
		p = next
	}
}

// headerOf looks for names, units and statements in the lines above the rows of a layout.
func (r *reader) headerOf(l *layout) *header {
	if l.header == nil {
		l.header = r.readHeader(l)
	}
	return l.header
}

func (r *reader) readHeader(l *layout) *header {
	type one struct {
		line       []byte
		number, at int
		aside      bool // it cannot be a damaged row: a remark, a line drawn, "key = value"
	}
	var lines []one
	r.preamble(l, func(line []byte, number, at int, remark bool) {
		if len(lines) == 2*mostHeader {
			lines = lines[:copy(lines, lines[mostHeader:])]
		}
		key, _, statement := bytes.Cut(line, []byte("="))
		aside := remark || r.typed(line, l).drawn() || statement && bytes.ContainsFunc(key, unicode.IsLetter)
		lines = append(lines, one{line, number, at, aside})
	})
	lines = lines[max(0, len(lines)-mostHeader):]
	h := &header{wrong: -1}
	unexplained, last := 0, -1 // lines between the names and the rows that are neither
	doubtful := false          // the names say nothing: a line above may show that they are a damaged row
	for _, at := range slices.Backward(lines) {
		pass := func() { // a line that is neither names nor a row
			if unexplained++; !at.aside {
				last = at.at
			}
		}
		named := func(names []name, delimiter byte) {
			h.names, h.nameLine, h.delimiter, h.nameText = names, at.number, delimiter, string(bytes.TrimSpace(at.line))
		}
		if what := r.statement(h, at.line, at.number, l); what != "" {
			h.taken = append(h.taken, LineRead{at.number, clipLine(at.line), what})
			continue
		}
		if h.nameLine == 0 && !at.aside && r.attempt(at.line, at.at, l, unexplained == 0) {
			h.wrong = at.at
			continue
		}
		if h.nameLine != 0 && !doubtful {
			continue
		}
		numbers, drawn := r.typed(at.line, l).numbers(), r.typed(at.line, l).drawn()
		names, delimiter := r.names(at.line, l)
		switch {
		case h.nameLine != 0:
			if doubtful = unexplained <= 3 && !numbers; doubtful {
				if names != nil && unmistakable(names) {
					named(names, delimiter)
					h.wrong, doubtful = last, false
				}
				pass()
			}
		case names == nil && numbers:
			h.above = append(h.above, at.number)
			pass()
		case drawn:
			// below the names
		case names == nil || unexplained > 0 && !certain(names):
			if unexplained == 0 && !at.aside && r.almostRow(at.line, l) {
				h.almost = &LineRead{Number: at.number, Text: clipLine(at.line)}
			}
			if pass(); unexplained > 3 {
				h.nameLine = -1
			}
		case h.units == nil && unexplained == 0 && allUnits(names):
			h.units, h.unitLine = names, at.number
		default:
			named(names, delimiter)
			if unexplained > 0 {
				h.wrong = last
			}
			doubtful = h.wrong < 0 && h.units == nil && !slices.ContainsFunc(names, name.telling)
			unexplained, last = 0, -1
			if !at.aside {
				last = at.at
			}
		}
	}
	if h.nameLine <= 0 {
		h.nameLine, h.names, h.delimiter = h.unitLine, h.units, l.delimiter
	}
	for _, at := range lines {
		switch at.number {
		case h.unitLine:
			h.taken = append(h.taken, LineRead{at.number, clipLine(at.line), "units of the columns"})
		case h.nameLine:
			h.taken = append(h.taken, LineRead{at.number, clipLine(at.line), "names of the columns"})
		}
	}
	return h
}

// certain reports whether names leave no doubt that rows follow: several of them that tell, or one with a unit.
func certain(names []name) bool {
	return len(names) > 1 && slices.ContainsFunc(names, name.telling) || names[0].united() && len(names) == 1
}

// unmistakable reports whether a line cannot be a title or a row: two of its names tell, or the one that there is has a unit.
func unmistakable(names []name) bool {
	n := 0
	for _, name := range names {
		if name.tells() {
			n++
		}
	}
	return n >= 2 || len(names) == 1 && n == 1 && names[0].united()
}

func allTell(names []name) bool {
	return !slices.ContainsFunc(names, func(n name) bool { return n.text != "" && !n.tells() })
}

// plainNames reports whether each name is one word; an empty column may stand between others.
func plainNames(names []name) bool {
	return !slices.ContainsFunc(names, func(n name) bool {
		first, _ := utf8.DecodeRuneInString(n.base)
		return n.text != "" && (!unicode.IsLetter(first) || strings.ContainsAny(n.base, " :"))
	})
}

// allUnits reports whether a line holds units and nothing else.
func allUnits(names []name) bool {
	found := false
	for _, n := range names {
		text := trimBrackets(n.text)
		if ok := isUnit(text); ok {
			found = true
		} else if text != "" && text != "-" {
			return false
		}
	}
	return found
}

// statement reads a line such as "key = value unit", "key: value" or "key<TAB>value<TAB>unit" and returns how it was read.
func (r *reader) statement(h *header, line []byte, lineNumber int, l *layout) string {
	if len(line) > longestHeader {
		return ""
	}
	key, value, ok := strings.Cut(string(line), "=")
	if !ok {
		key, value, ok = strings.Cut(string(line), ":")
	}
	switch {
	case ok:
		value = strings.Trim(value, "\" \t;")
		if _, u, isNumber := quantity(value, l); !isNumber || u != "" && !isUnit(u) { // value and unit are cells of their own
			value = strings.ReplaceAll(value, string(l.delimiter), " ")
		}
	case l.delimiter != ' ':
		if t := r.cut(line, l.delimiter); t.n > 1 && !t.open {
			texts := t.texts()
			key, value, ok = texts[0], strings.Join(texts[1:], " "), true
		}
	}
	if !ok {
		return ""
	}
	value = strings.Trim(strings.Join(strings.Fields(value), " "), "\" ;")
	n := nameOf(key)
	base := strings.ToLower(strings.Trim(n.base, "\" _-"))
	v, valueUnit, isNumber := quantity(value, l)
	s := said{lineNumber, v, n.unit, n.known}
	if isNumber && valueUnit != "" {
		s.unit, s.known = parseUnit(trimBrackets(valueUnit))
	}
	words := strings.FieldsFunc(strings.ToLower(key), func(c rune) bool { return strings.ContainsRune(" _-.:()[]\"", c) })
	has := func(list ...string) bool {
		return slices.ContainsFunc(words, func(w string) bool { return slices.Contains(list, w) })
	}
	switch {
	case isNumber && slices.Contains(stepWords, base) && v > 0:
		if h.step.add(s); !s.length() {
			return "spacing " + number(v) + ", unit not said"
		}
		return "spacing " + number(v*s.unit.factor) + " µm"
	case isNumber && slices.Contains(pointWords, base):
		h.points = s
		return "number of points"
	case has("unit", "units", "einheit", "unité"):
		u, ok := parseUnit(trimBrackets(value))
		s = said{line: lineNumber, unit: u, known: true}
		switch {
		case ok && has("x"):
			h.x.add(s)
			return "unit of x"
		case ok && has("z", "height", "heights", "höhe"):
			h.z.add(s)
			return "unit of z"
		}
	case has("type") && strings.EqualFold(value, "slope"):
		h.slopeLine = lineNumber
		return "the values are slopes"
	}
	return ""
}
