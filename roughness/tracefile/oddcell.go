package tracefile

import (
	"bytes"
	"math"
)

// cellState is what oddCell found.
type cellState uint8

const (
	counted cellState = iota
	invalid
	empty
	strange
	openQuote
)

// oddCell reads the cell that begins at p and is no plain number: missing, grouped, quoted or wrong.
func (r *reader) oddCell(l *layout, p int) (v float64, end int, state cellState) {
	c, open := r.cellFrom(l, p)
	if open {
		return math.NaN(), c.after, openQuote
	}
	t := r.data[c.start:c.end]
	if v, ok := l.wholeNumber(t); ok {
		return v, c.after, counted
	}
	switch {
	case len(t) == 0:
		return math.NaN(), c.after, empty
	case r.absent.cell(t):
		return math.NaN(), c.after, invalid
	}
	return math.NaN(), c.after, strange
}

// skipCell passes a cell that is not looked at.
func (r *reader) skipCell(l *layout, p int) (after int, open bool) {
	c, open := r.cellFrom(l, p)
	return c.after, open
}

func (r *reader) openQuote(p int) *Error {
	return r.errorAt(p, because(ErrQuote, "a quoted cell begins here and does not end in this line"))
}

// cellPlace is a cell in the file, and where the delimiter behind it stands.
type cellPlace struct{ start, end, after int }

// cellFrom finds the cell that begins at p. A quoted one that does not end in its line is open.
func (r *reader) cellFrom(l *layout, p int) (c cellPlace, open bool) {
	b := r.data
	if b[p] == '"' {
		q := p + 1
		for q < len(b) && b[q] != '\n' && (b[q] != '"' || q+1 < len(b) && b[q+1] == '"') {
			if b[q] == '"' {
				q++
			}
			q++
		}
		if q >= len(b) || b[q] != '"' {
			return cellPlace{p, q, q}, true
		}
		e := q
		for q++; q < len(b) && blankByte(b[q]) && !ends(b[q], l.delimiter); q++ {
		}
		if q >= len(b) || b[q] == '\n' || ends(b[q], l.delimiter) {
			s, e := trim(b, p+1, e)
			return cellPlace{s, e, q}, false
		}
	}
	q := p
	for q < len(b) && b[q] != '\n' && !ends(b[q], l.delimiter) {
		q++
	}
	s, e := trim(b, p, q)
	return cellPlace{s, e, q}, false
}

// cellAt is the offset of a cell, counted from 0, in the line that begins at p.
func (r *reader) cellAt(l *layout, p, cell int) int {
	line, _ := r.nextLine(p)
	end := p + len(line)
	for ; ; cell-- {
		for p < end && blankByte(r.data[p]) && r.data[p] != delimiterOf(l.delimiter) {
			p++
		}
		if cell == 0 || p >= end {
			return p
		}
		c, _ := r.cellFrom(l, p)
		p = min(c.after+1, end)
	}
}

// notNumber says what is wrong with the cell at p, and what a likely cause is.
func (r *reader) notNumber(l *layout, p, end int) error {
	cell := bytes.TrimSpace(r.data[p:end])
	text := clip(string(cell))
	for _, other := range []struct {
		mark, group byte
		this, that  string
	}{{'.', ',', "comma", "point"}, {',', '.', "point", "comma"}} {
		if l.decimal == other.mark && bytes.Count(cell, []byte{other.group}) == 1 {
			if _, ok := (grammar{decimal: other.group}).wholeNumber(cell); ok {
				return because(ErrNumber, "%q has a decimal %s where a decimal %s is expected", text, other.this, other.that)
			}
		}
	}
	return because(ErrNumber, "%q is not a finite decimal number", text)
}

func plural(n int, what string) string {
	if n == 1 {
		return "1 " + what
	}
	return number(float64(n)) + " " + what + "s"
}
