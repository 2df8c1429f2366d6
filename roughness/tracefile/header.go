package tracefile

import (
	"bytes"
	"slices"
	"strings"
	"unicode"
)

// header is what the lines above the rows say.
type header struct {
	delimiter byte     // that splits the line of names
	names     []string // one per cell, or nil
	nameLine  int
	nameText  string   // the line itself
	units     []string // a row of units below the names, or nil
	unitLine  int

	x, z      said // units from a line of their own, such as "unit z: um"
	step      said // "dx [um]: 0.5"
	points    said // "points: 401"
	all       struct{ x, z, step []said }
	slopeLine int // "Data type: SLOPE"
	taken     []Line
	wrong     int   // offset of a line that has to be a row and cannot be read, or -1
	above     []int // numbers of lines that hold numbers and are no rows
	almost    *Line // a line taken for a title that may be a row gone wrong
}

// said is a statement of the header with its line; line 0 is none.
type said struct {
	line  int
	value float64
	unit  unit
	known bool // the unit is one
}

// mostHeader bounds how many lines above the rows are looked at.
const mostHeader = 1000

// longestHeader bounds what a line of names or statements can be, in bytes; a longer one tells nothing.
const longestHeader = 1 << 16

// preamble calls f for each line above the rows that is not blank, with comment marks taken off.
func (r *reader) preamble(l *layout, f func(line []byte, number, at int, remark bool)) {
	number := 1 + bytes.Count(r.data[:r.top], []byte("\n"))
	for p := r.top; p < l.start; {
		line, next := r.nextLine(p)
		lines := 1
		for lines < 10 && next < l.start { // a quoted cell may go on in the next line
			if !r.cut(line, l.delimiter).open {
				break
			}
			_, next = r.nextLine(next)
			line = bytes.TrimRight(r.data[p:next], "\r\n")
			lines++
		}
		inner, remark := comment(line)
		if remark {
			line = inner
		}
		if t := bytes.TrimSpace(line); len(t) > 1 && t[0] == ';' {
			line = bytes.TrimSpace(bytes.TrimLeft(t, "; "))
		}
		if len(bytes.TrimSpace(line)) > 0 {
			f(line, number, p, remark)
		}
		number += lines
		p = next
	}
}

// readHeader looks for names, units and statements in the lines above the rows.
func (r *reader) readHeader(l *layout) header {
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
		aside := remark || r.drawn(line, l) || statement && bytes.ContainsFunc(key, unicode.IsLetter)
		lines = append(lines, one{line, number, at, aside})
	})
	lines = lines[max(0, len(lines)-mostHeader):]
	h := header{wrong: -1}
	unexplained, last := 0, -1 // lines between the names and the rows that are neither
	doubtful := false          // the names say nothing: a line above may show that they are a damaged row
	for back := len(lines) - 1; back >= 0; back-- {
		at := lines[back]
		pass := func() { // a line that is neither names nor a row
			unexplained++
			if !at.aside {
				last = at.at
			}
		}
		if what := r.statement(&h, string(at.line[:min(len(at.line), longestHeader+1)]), at.number, l); what != "" {
			h.taken = append(h.taken, Line{at.number, clipLine(at.line), what})
			continue
		}
		if h.nameLine != 0 {
			if doubtful = doubtful && unexplained <= 3 && !r.typed(at.line, l).numbers(); !doubtful {
				continue
			}
			if names, delimiter := r.names(at.line, l); names != nil && unmistakable(names) {
				h.names, h.nameLine, h.delimiter, h.nameText = names, at.number, delimiter, string(bytes.TrimSpace(at.line))
				h.wrong, doubtful = last, false
			}
			pass()
			continue
		}
		if !at.aside && r.attempt(at.line, at.at, l, unexplained == 0) {
			h.wrong = at.at
			continue
		}
		names, delimiter := r.names(at.line, l)
		switch {
		case names == nil && r.typed(at.line, l).numbers():
			h.above = append(h.above, at.number)
			pass()
		case r.drawn(at.line, l):
			// below the names
		case names == nil || unexplained > 0 && !r.certain(names):
			if unexplained == 0 && !at.aside && r.almostRow(at.line, l) {
				h.almost = &Line{Number: at.number, Text: clipLine(at.line)}
			}
			if pass(); unexplained > 3 {
				h.nameLine = -1
			}
		case h.units == nil && unexplained == 0 && allUnits(names) && l.cells > 0:
			h.units, h.unitLine = names, at.number
		default:
			h.names, h.nameLine, h.delimiter, h.nameText = names, at.number, delimiter, string(bytes.TrimSpace(at.line))
			if unexplained > 0 {
				h.wrong = last
			}
			doubtful = h.wrong < 0 && h.units == nil && !r.telling(names)
			unexplained, last = 0, -1
			if !at.aside {
				last = at.at
			}
		}
	}
	if h.nameLine <= 0 {
		h.nameLine = h.unitLine
		h.names, h.delimiter = h.units, l.delimiter
	}
	for _, at := range lines {
		switch at.number {
		case h.unitLine:
			h.taken = append(h.taken, Line{at.number, clipLine(at.line), "units of the columns"})
		case h.nameLine:
			h.taken = append(h.taken, Line{at.number, clipLine(at.line), "names of the columns"})
		}
	}
	return h
}

// drawn reports whether a line is drawn, as below the names of a table, and no cell of it means a missing height.
func (r *reader) drawn(line []byte, l *layout) bool {
	t := r.typed(line, l)
	for _, c := range t.cells {
		if cell := c.of(line); len(cell) < 2 || len(bytes.Trim(cell, "-=_~+*|")) > 0 || c.kind == missing {
			return false
		}
	}
	return !t.open
}

// allUnits reports whether a line holds units and nothing else.
func allUnits(names []string) bool {
	found := false
	for _, n := range names {
		n = trimBrackets(n)
		_, ok := parseUnit(n)
		if n != "" && n != "-" && !ok {
			return false
		}
		found = found || ok
	}
	return found
}

// statement reads a line such as "key = value unit", "key: value" or "key<TAB>value<TAB>unit" and returns how it was read.
func (r *reader) statement(h *header, text string, lineNumber int, l *layout) string {
	if len(text) > longestHeader {
		return ""
	}
	key, value, ok := strings.Cut(text, "=")
	if !ok {
		key, value, ok = strings.Cut(text, ":")
	}
	switch {
	case ok:
		value = strings.Trim(value, "\" \t;")
		if _, u, isNumber := quantity(value, l); !isNumber || u != "" && !isUnit(u) { // value and unit are cells of their own
			value = strings.ReplaceAll(value, string(l.delimiter), " ")
		}
	case l.delimiter != ' ':
		t := r.cut([]byte(text), l.delimiter)
		if ok = t.n > 1 && !t.open; ok {
			names := t.names()
			key, value = names[0], strings.Join(names[1:], " ")
		}
	}
	if !ok {
		return ""
	}
	value = strings.Trim(strings.Join(strings.Fields(value), " "), "\" ;")
	base, u, known := splitUnit(key)
	base = strings.ToLower(strings.Trim(base, "\" _-"))
	v, valueUnit, isNumber := quantity(value, l)
	if isNumber && valueUnit != "" {
		u, known = parseUnit(trimBrackets(valueUnit))
	}
	words := strings.FieldsFunc(strings.ToLower(key), func(c rune) bool { return strings.ContainsRune(" _-.:()[]\"", c) })
	has := func(list ...string) bool {
		return slices.ContainsFunc(words, func(w string) bool { return slices.Contains(list, w) })
	}
	line := said{line: lineNumber, value: v, unit: u, known: known}
	switch {
	case isNumber && slices.Contains(stepWords, base) && v > 0:
		h.step = line
		h.all.step = append(h.all.step, line)
		if known && !u.slope {
			return "spacing " + number(v*u.factor) + " µm"
		}
		return "spacing " + number(v) + ", unit not said"
	case isNumber && slices.Contains(pointWords, base):
		h.points = line
		return "number of points"
	case has("unit", "units", "einheit", "unité"):
		u, ok := parseUnit(trimBrackets(value))
		switch {
		case ok && has("x"):
			h.x = said{line: lineNumber, unit: u, known: true}
			h.all.x = append(h.all.x, h.x)
			return "unit of x"
		case ok && has("z", "height", "heights", "höhe"):
			h.z = said{line: lineNumber, unit: u, known: true}
			h.all.z = append(h.all.z, h.z)
			return "unit of z"
		}
	case has("type") && strings.EqualFold(value, "slope"):
		h.slopeLine = lineNumber
		return "the values are slopes"
	}
	return ""
}

func isUnit(s string) bool {
	_, ok := parseUnit(trimBrackets(s))
	return ok
}

// quantity parts "0,2 mm" into number and unit.
func quantity(s string, l *layout) (v float64, unit string, ok bool) {
	s = strings.TrimSpace(s)
	end := strings.IndexFunc(s, func(c rune) bool { return !strings.ContainsRune("0123456789+-.,eEdD", c) })
	if end < 0 {
		end = len(s)
	}
	if end > 100 { // no number that a header says
		return 0, "", false
	}
	for ; end > 0; end-- {
		for _, g := range []grammar{l.grammar, {decimal: '.'}, {decimal: ','}} {
			if v, ok := g.wholeNumber([]byte(s[:end])); ok {
				return v, strings.TrimSpace(s[end:]), true
			}
		}
	}
	return 0, "", false
}
