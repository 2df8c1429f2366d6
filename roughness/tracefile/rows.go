package tracefile

import (
	"bytes"
	"math"
)

// rows reads the rows of a text: the part that has to be fast.
type rows struct {
	x, z     []float64
	missing  int // points without a height
	blanks   int // of these, blank lines
	remarks  int // lines of remarks between the rows
	lastLine int // offset of the last row
	pending  int // blank lines not yet known to be inside the trace
}

// readRows reads from the first row to the end of the file. xc and zc are the cells of x and z from 0; xc is -1 where there is no
// x column. Every cell of a row is read where the columns are not named, so that a letter anywhere is an error.
func (r *reader) readRows(l *layout, xc, zc int) (*rows, error) {
	var (
		b       = r.data
		dec     = l.decimal
		blanks  = l.delimiter == ' '
		named   = r.named.named()
		want    = l.cells
		out     = &rows{}
		numbers = len(r.absent.numbers) > 0
	)
	n := bytes.Count(b[l.start:], []byte("\n")) + 1
	out.z = make([]float64, 0, n)
	if xc >= 0 {
		out.x = make([]float64, 0, n)
	}
	for p := l.start; p < len(b); {
		begin := p
		cell, found := 0, 0
		xv, zv := math.NaN(), math.NaN()
		filled := false
		for {
			for p < len(b) && (b[p] == ' ' || b[p] == '\t' && l.delimiter != '\t') {
				p++
			}
			if p >= len(b) || b[p] == '\n' || b[p] == '\r' {
				if !blanks && cell > 0 && !(cell == want && !named) { // an empty last cell
					cell++
				}
				break
			}
			v, q, ok := math.NaN(), p, true
			if cell == xc || cell == zc || !named {
				v, q, ok = plainNumber(b, p, dec)
				for q < len(b) && (b[q] == ' ' || b[q] == '\t' && l.delimiter != '\t') {
					if blanks {
						break
					}
					q++
				}
				if !ok || q < len(b) && b[q] != l.delimiter && b[q] != '\n' && b[q] != '\r' && !(blanks && b[q] == '\t') {
					if cell == 0 {
						if end, skip := r.remark(begin); skip {
							out.remarks++
							p = end
							goto next
						}
					}
					var state cellState
					v, q, state = r.oddCell(l, p)
					switch state {
					case openQuote:
						return nil, r.errorAt(p, because(ErrQuote, "a quoted cell begins here and does not end in this line"))
					case strange:
						if cell < want || named {
							p, q = trim(b, p, q)
							return nil, r.errorAt(p, r.notNumber(l, p, q))
						}
					case empty:
						filled = filled || false
					}
					ok = state != empty
				}
				if numbers {
					v = r.absent.value(v)
				}
				filled = filled || ok
			} else {
				for q < len(b) && !ends(b[q], l.delimiter) && b[q] != '\n' {
					if b[q] == '"' {
						_, q, _ = r.oddCell(l, q)
						break
					}
					q++
				}
				filled = true
			}
			switch cell {
			case xc:
				xv = v
				found++
			case zc:
				zv = v
				found++
			}
			cell++
			p = q
			if p < len(b) && (b[p] == l.delimiter || blanks && b[p] == '\t') {
				p++
				continue
			}
			break
		}
		switch {
		case !filled:
			// a blank line, or one of delimiters only
			if xc < 0 {
				out.pending++
			}
		case !named && cell != want, named && cell < r.named.need():
			at := begin
			if cell > want && !named {
				at = r.cellAt(l, begin, want)
			}
			return nil, r.errorAt(at, because(ErrCells, "%s where the rows have %d", plural(cell, "cell"), max(want, r.named.need())))
		default:
			if out.pending > 0 {
				for ; out.pending > 0; out.pending-- {
					out.z = append(out.z, math.NaN())
					out.blanks++
					out.missing++
				}
			}
			if xc >= 0 {
				if xv != xv {
					return nil, r.errorAt(r.cellAt(l, begin, xc), because(ErrMissingX, "no x in this row"))
				}
				out.x = append(out.x, xv)
			}
			if zv != zv {
				out.missing++
			}
			out.z = append(out.z, zv)
			out.lastLine = begin
		}
	next:
		for p < len(b) && b[p] != '\n' {
			p++
		}
		p++
	}
	return out, nil
}

// remark reports whether the line at p is one, and where it ends.
func (r *reader) remark(p int) (end int, ok bool) {
	line, _ := r.nextLine(p)
	_, ok = comment(line)
	return p + len(line), ok
}

// cellState is what oddCell found.
type cellState uint8

const (
	number_ cellState = iota
	invalid
	empty
	strange
	openQuote
)

// oddCell reads the cell that begins at p and is no plain number: missing, grouped, quoted or wrong.
func (r *reader) oddCell(l *layout, p int) (v float64, end int, state cellState) {
	line, _ := r.nextLine(p)
	c, open := firstCell(line, l.delimiter)
	if open {
		return math.NaN(), p + len(line), openQuote
	}
	end = p + c.after
	t := line[c.start:c.end]
	if v, ok := l.wholeNumber(t); ok {
		return v, end, number_
	}
	switch {
	case len(t) == 0:
		return math.NaN(), end, empty
	case r.absent.cell(t):
		return math.NaN(), end, invalid
	}
	return math.NaN(), end, strange
}

// oneCell is a cell and where the next one's delimiter stands.
type oneCell struct{ start, end, after int }

// firstCell takes the first cell of what is left of a line.
func firstCell(line []byte, delimiter byte) (oneCell, bool) {
	if len(line) > 0 && line[0] == '"' {
		// A quoted cell is short in any file of numbers: let splitCells look at what may hold it.
		stop := len(line)
		if k := bytes.IndexByte(line[1:], '"'); k >= 0 {
			stop = 1 + k + 1
			for stop < len(line) && (line[stop] == '"' || !ends(line[stop], delimiter)) {
				stop++
			}
		}
		spans, open := splitCells(line[:stop], delimiter, nil)
		if len(spans) == 0 {
			return oneCell{0, 0, stop}, open
		}
		return oneCell{spans[0].start, spans[0].end, stop}, open
	}
	j := 0
	for j < len(line) && !ends(line[j], delimiter) {
		j++
	}
	s, e := trim(line, 0, j)
	return oneCell{s, e, j}, false
}

// cellAt is the offset of a cell, counted from 0, in the line that begins at p.
func (r *reader) cellAt(l *layout, p, cell int) int {
	line, _ := r.nextLine(p)
	spans, _ := splitCells(line, l.delimiter, nil)
	if cell >= len(spans) {
		return p + len(line)
	}
	at := spans[cell].start
	if spans[cell].quoted {
		at--
	}
	return p + at
}

// notNumber says what is wrong with the cell at p, and what a likely cause is.
func (r *reader) notNumber(l *layout, p, end int) error {
	cell := bytes.TrimSpace(r.data[p:end])
	text := clip(string(cell))
	switch {
	case l.decimal == '.' && bytes.Count(cell, []byte(",")) == 1:
		if _, ok := (grammar{decimal: ','}).wholeNumber(cell); ok {
			return because(ErrNumber, "%q has a decimal comma; the rows before have a decimal point", text)
		}
	case l.decimal == ',' && bytes.Count(cell, []byte(".")) == 1:
		if _, ok := (grammar{decimal: '.'}).wholeNumber(cell); ok {
			return because(ErrNumber, "%q has a decimal point; the rows before have a decimal comma", text)
		}
	}
	return because(ErrNumber, "%q is not a finite decimal number", text)
}

// rowOffset finds the line of a row again, for an error that only shows when all rows are read.
func (r *reader) rowOffset(l *layout, index int) int {
	for p := l.start; p < len(r.data); {
		line, next := r.nextLine(p)
		if _, skip := comment(line); !skip && len(bytes.Trim(line, " \t\r\"\u00a0"+string(l.delimiter))) > 0 {
			if index == 0 {
				return p
			}
			index--
		}
		p = next
	}
	return len(r.data)
}

func plural(n int, what string) string {
	if n == 1 {
		return "1 " + what
	}
	return number(float64(n)) + " " + what + "s"
}
