package tracefile

import (
	"bytes"
	"math"
	"slices"
	"strings"
)

// The second pass over a text: what each cell and each line is under a layout. What the columns hold is for the third pass, which
// begins in decide.go.

// layout is one way to read the rows of a file.
type layout struct {
	delimiter byte
	grammar
	cells    int  // cells in a row
	trailing int  // empty cells that every row has behind them
	start    int  // where the first row begins, as an offset
	rows     int  // rows of the sample that can be read so
	fail     int  // offset of the first line that cannot, or -1
	quote    bool // that line is a row with a quoted cell that does not end
	mark     int  // offset of the first cell whose reading depends on the mark or the delimiter, or -1
	sum      uint64
	points   bool // a point stands in a cell
	commas   bool
	marked   uint64  // the first columns of which a cell has a mark
	threes   uint64  // the first columns of which a cell is three digits and nothing else
	skipped  []int   // offsets of rows above the data that were read as results
	header   *header // what the lines above the rows say, when it was asked for
}

// at is a layout with its first row elsewhere.
func (l *layout) at(start int) *layout {
	c := *l
	c.start, c.header = start, nil
	return &c
}

// kind is what a cell is.
type kind uint8

const (
	strange kind = iota
	counted
	missing
)

// typeOf reads the text of a cell.
func (r *reader) typeOf(g grammar, text []byte) (kind, float64) {
	v, ok := g.wholeNumber(text)
	switch {
	case ok:
		return counted, v
	case r.absent.cell(text):
		return missing, math.NaN()
	}
	return strange, math.NaN()
}

// typed parts a text as the layout does, and reads its cells.
func (r *reader) typed(text []byte, l *layout) tokens {
	t := r.cut(text, l.delimiter)
	for i := range t.cells {
		c := &t.cells[i]
		c.kind, c.value = r.typeOf(l.grammar, c.of(text))
	}
	return t
}

// columns are the cells of a row, from 0, that hold x, y and z; -1 is none.
type columns struct{ x, y, z int }

var nothing = columns{-1, -1, -1}

// has reports whether cell i is one of them.
func (c columns) has(i int) bool { return i == c.x || i == c.y || i == c.z }

// looksAt reports whether the cell i of a row, from 0, is looked at: all are, unless hints or the header name columns.
func (r *reader) looksAt(i int) bool { return r.named.z < 0 || r.named.has(i) }

// need is how many cells a row must have for those that are looked at.
func (r *reader) need() int { return 1 + max(r.named.x, r.named.y, r.named.z) }

// free reports whether any number of cells makes a row.
func (r *reader) free() bool { return r.named.z >= 0 || r.hints.Heights == "rows" }

// first is the first cell of a kind that is looked at, or nil.
func (r *reader) first(t tokens, k kind) *cell {
	for i := range t.cells {
		if r.looksAt(i) && t.cells[i].kind == k {
			return &t.cells[i]
		}
	}
	return nil
}

// odd is the first cell that is looked at and is neither a number nor a missing one, or nil.
func (r *reader) odd(t tokens) *cell { return r.first(t, strange) }

// numbers reports whether a text holds nothing but numbers.
func (t tokens) numbers() bool {
	return !t.open && !slices.ContainsFunc(t.cells, func(c cell) bool { return c.kind != counted })
}

// drawn reports whether a line is drawn, as below the names of a table, and no cell of it means a missing height.
func (t tokens) drawn() bool {
	return !t.open && !slices.ContainsFunc(t.cells, func(c cell) bool {
		cell := c.of(t.text)
		return len(cell) < 2 || len(bytes.Trim(cell, "-=_~+*|")) > 0 || c.kind == missing
	})
}

// lineKind is what a line is under a layout.
type lineKind uint8

const (
	blankLine lineKind = iota
	remark
	row
	other
)

// mostLooked bounds how many cells of a line say what it is.
const mostLooked = 1000

// look judges one line.
func (r *reader) look(line []byte, l *layout) (lineKind, tokens) {
	if blank(line) {
		return blankLine, tokens{}
	}
	if _, ok := comment(line); ok {
		return remark, tokens{}
	}
	t := r.typed(line, l)
	first := t
	first.cells = t.cells[:min(len(t.cells), mostLooked+1)]
	switch {
	case t.open || r.odd(first) != nil:
		return other, t
	case !slices.ContainsFunc(t.cells, func(c cell) bool { return c.start < c.end }):
		return blankLine, tokens{}
	case t.n < r.need():
		return other, t
	}
	return row, t
}

// fits reports whether a row has as many cells as the rows have, or more of which those beyond are empty.
func (l *layout) fits(t tokens) bool {
	return t.n == l.cells || t.n > l.cells && t.n-t.tail <= l.cells
}

// openRow reports whether a line is a row up to a quoted cell that does not end in it.
func (r *reader) openRow(line []byte, l *layout) bool {
	if _, remark := comment(line); remark {
		return false
	}
	t := r.typed(line, l)
	if !t.open || t.n > len(t.cells) || r.named.z < 0 && t.n > l.cells {
		return false
	}
	bad := r.odd(t)
	return r.first(t, counted) != nil && (bad == nil || bad == &t.cells[t.n-1])
}

// names splits a line into as many names as a row has cells: at the delimiter of the rows, or else at another one.
func (r *reader) names(line []byte, l *layout) ([]name, byte) {
	if len(line) > longestHeader || bytes.IndexByte(line, '=') >= 0 { // a statement, though a comma in it may part it in two
		return nil, 0
	}
	for _, d := range []byte{l.delimiter, '\t', ';', ',', ' '} {
		t := r.cut(line, d)
		if t.open || t.n > mostCells {
			continue
		}
		if d == ' ' {
			t = t.glue()
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
		names, words, telling := make([]name, l.cells), false, false
		for i, text := range t.texts() {
			if d == ' ' {
				text = strings.TrimRight(text, ";,")
			}
			if _, ok := l.wholeNumber([]byte(text)); ok || amount(text) {
				return nil, 0
			}
			names[i] = nameOf(text)
			words, telling = words || text != "", telling || names[i].telling()
		}
		switch {
		case !words, l.cells == 1 && strings.ContainsAny(names[0].text, ":="), l.cells > 1 && d != l.delimiter && !telling:
			continue
		}
		return names, d
	}
	return nil, 0
}

// isNameRow reports whether a line among the rows is a line of names.
func (r *reader) isNameRow(line []byte, l *layout) bool {
	names, _ := r.names(line, l)
	return slices.ContainsFunc(names, name.telling)
}

// attempt reports whether a line above the first row would be one, were it not for a cell that is no number here: such a line is
// an error, because a point would be lost unnoticed if the line passed as a name or a title. next reports that the rows follow it. It is one
//   - when its other cells are numbers and the odd one is a number to a programmer (inf, 1e400, 0x1p-2, 1_000), or, next to the
//     rows, what a program writes in the place of a number (null, #VALUE!, 1..5);
//   - next to the rows, when x is a number, whatever the rest is;
//   - when numbers stand before a quote that is not closed.
func (r *reader) attempt(line []byte, at int, l *layout, next bool) bool {
	if own, _ := r.nextLine(at); r.openRow(own, l) {
		return true
	}
	t := r.typed(line, l)
	if t.open || t.n != l.cells && r.hints.Heights != "rows" && (r.named.z < 0 || t.n < r.need()) {
		return false
	}
	odd, text := false, false
	for i, c := range t.cells {
		if !r.looksAt(i) || c.kind != strange {
			continue
		}
		if cell := c.of(line); programmers(cell) || next && placeholder(cell) {
			odd = true
		} else {
			text = true
		}
	}
	return odd && !text || text && next && l.delimiter != ' ' && r.looksAt(max(r.named.x, 0)) && r.countsX(t)
}

// countsX reports whether the cell of a row that holds x, if one does, is a number.
func (r *reader) countsX(t tokens) bool {
	x := max(r.named.x, 0)
	return x < len(t.cells) && t.cells[x].kind == counted
}

// almostRow reports whether a title parted by blanks could be a row gone wrong: it has as many cells, and x is a number.
func (r *reader) almostRow(line []byte, l *layout) bool {
	t := r.typed(line, l)
	return !t.open && l.delimiter == ' ' && l.cells > 1 && t.n == l.cells && r.countsX(t)
}

// notNumber says what is wrong with a cell, and what a likely cause is.
func (l *layout) notNumber(text []byte) error {
	text = bytes.TrimSpace(text)
	this, that := "comma", "point"
	if l.decimal == ',' {
		this, that = that, this
	}
	mark := '.' + ',' - l.decimal
	if _, ok := (grammar{decimal: mark}).wholeNumber(text); ok && bytes.Count(text, []byte{mark}) == 1 {
		return because(ErrNumber, "%q has a decimal %s where a decimal %s is expected", clip(string(text)), this, that)
	}
	return notDecimal(text)
}

func (r *reader) openQuote(p int) error {
	return r.fail(p, ErrQuote, "a quoted cell begins here and does not end in this line")
}
