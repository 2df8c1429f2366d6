package tracefile

import (
	"bytes"
	"math"
)

// The second pass over a text: what each cell and each line is under a layout. What the columns hold is for the third pass.

// kind is what a cell is.
type kind uint8

const (
	strange kind = iota
	counted
	missing
)

// typeOf reads the text of a cell.
func (r *reader) typeOf(g grammar, text []byte) (kind, float64) {
	if v, ok := g.wholeNumber(text); ok {
		return counted, v
	}
	if r.absent.cell(text) {
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

// number parts and reads the next cell of a line in one go, for nearly all are plain numbers.
func (r *reader) number(cut *cutter, l *layout, c *cell) bool {
	if !cut.blanks() {
		return false
	}
	p := cut.p
	if v, q, ok := plainNumber(cut.text, p, l.decimal); ok && (q >= cut.end || ends(cut.text[q], l.delimiter)) {
		c.at, c.start, c.end, c.after = p, p, q, q
		c.quoted, c.open, c.kind, c.value = false, false, counted, v
		cut.p, cut.done = q+1, q >= cut.end
		return true
	}
	cut.next(c)
	if !c.open {
		c.kind, c.value = r.typeOf(l.grammar, c.of(cut.text))
	}
	return true
}

// looksAt reports whether the cell i of a row, from 0, is looked at.
func (r *reader) looksAt(i int) bool {
	return !r.named.named() || i+1 == r.named.x || i+1 == r.named.z || i+1 == r.named.y
}

// odd is the first cell that is looked at and is neither a number nor a missing one, or nil.
func (r *reader) odd(t tokens) *cell {
	for i := range t.cells {
		if r.looksAt(i) && t.cells[i].kind == strange {
			return &t.cells[i]
		}
	}
	return nil
}

// numbers reports whether a text holds nothing but numbers.
func (t tokens) numbers() bool {
	for _, c := range t.cells {
		if c.kind != counted {
			return false
		}
	}
	return !t.open
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
	case !t.filled():
		return blankLine, tokens{}
	case t.n < r.need():
		return other, t
	}
	return row, t
}

// filled reports whether a cell holds anything.
func (t tokens) filled() bool {
	for _, c := range t.cells {
		if c.start < c.end {
			return true
		}
	}
	return false
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
	if !t.open || t.n > len(t.cells) || !r.named.named() && t.n > l.cells {
		return false
	}
	numbers := 0
	for i, c := range t.cells {
		switch {
		case !r.looksAt(i):
		case c.kind == counted:
			numbers++
		case i < t.n-1 && c.kind == strange:
			return false
		}
	}
	return numbers > 0
}

// notNumber says what is wrong with a cell, and what a likely cause is.
func (r *reader) notNumber(l *layout, text []byte) error {
	text = bytes.TrimSpace(text)
	this, that := "comma", "point"
	if l.decimal == ',' {
		this, that = that, this
	}
	mark := '.' + ',' - l.decimal
	if bytes.Count(text, []byte{mark}) == 1 {
		if _, ok := (grammar{decimal: mark}).wholeNumber(text); ok {
			return because(ErrNumber, "%q has a decimal %s where a decimal %s is expected", clip(string(text)), this, that)
		}
	}
	return because(ErrNumber, "%q is not a finite decimal number", clip(string(text)))
}

func (r *reader) openQuote(p int) *Error {
	return r.errorAt(p, because(ErrQuote, "a quoted cell begins here and does not end in this line"))
}
