package tracefile

import (
	"bytes"
	"math"
)

// rows are the numbers of one trace, and what was met on the way.
type rows struct {
	x, y, z  []float64       // x and y are nil where the trace has none
	pick     func(i int) int // the row in which a point stands that was taken out of triples
	start    int             // offset of the first row
	missing  int             // points without a height
	blanks   int             // of these, blank lines
	remarks  int             // lines of remarks between the rows
	lastLine int             // offset of the last row
	next     int             // where the next trace of the file begins, or -1
	part     int             // offset of a row behind a blank line, or -1: another trace may begin there
}

// cellsWanted are the cells, from 0, that hold x, y and z; -1 is none.
type cellsWanted struct{ x, y, z int }

// progressEvery is how many rows are read between two looks at the context.
const progressEvery = 1 << 16

// readRows reads one trace: from the row at start to the end of the file or of the block of rows. Every cell of a row is read
// where the columns are not named, so that a letter anywhere is an error.
func (r *reader) readRows(l *layout, want cellsWanted, start int) (*rows, error) {
	b := r.data
	out := &rows{start: start, next: -1, part: -1, lastLine: start}
	n, err := r.fits(want, start)
	if err != nil {
		return nil, err
	}
	out.z = take(&r.room.z, n)
	if want.x >= 0 {
		out.x = take(&r.room.x, n)
	}
	if want.y >= 0 {
		out.y = take(&r.room.y, n)
	}
	pending := 0 // blank lines not yet known to be inside the trace
	ended := -1  // the first row that has neither x nor z, for another trace beside this one is longer
	count := 0
	fast := r.plainRows(l, want)
	for p := start; p < len(b); {
		if fast != nil && pending == 0 {
			if p = fast(l, out, p, progressEvery); p >= len(b) {
				break
			}
			if err := r.tell(p); err != nil {
				return nil, err
			}
		}
		begin := p
		v, q, err := r.readRow(l, want, p)
		switch {
		case err == nil && v.blank:
			pending++
		case err == nil && v.remark:
			out.remarks++
		case err != nil:
			if next := r.separator(l, begin); next >= 0 {
				out.next = next
				return out, nil
			}
			return nil, err
		default:
			if pending > 0 && len(out.z) > 0 {
				switch {
				case r.hints.Trace > 0 && r.hints.BlankLines == "":
					out.next = begin
					return out, nil
				case want.x < 0 && r.hints.BlankLines != "skip":
					for range pending {
						out.z = append(out.z, math.NaN())
					}
					out.blanks += pending
					out.missing += pending
				case out.part < 0:
					out.part = begin
				}
			}
			pending = 0
			if want.x >= 0 {
				if v.x != v.x && v.z != v.z && r.named.named() && len(out.x) > 0 {
					if ended < 0 {
						ended = begin
					}
					p = q
					continue
				}
				if v.x != v.x || ended >= 0 {
					return nil, r.errorAt(r.cellAt(l, or(ended, begin), want.x), because(ErrMissingX, "no x in this row"))
				}
				out.x = append(out.x, v.x)
			}
			if want.y >= 0 {
				if v.y != v.y {
					return nil, r.errorAt(r.cellAt(l, begin, want.y), because(ErrMissingX, "no y in this row"))
				}
				out.y = append(out.y, v.y)
			}
			if v.z != v.z {
				out.missing++
			}
			out.z = append(out.z, v.z)
			out.lastLine = begin
		}
		if count++; count%progressEvery == 0 {
			if err := r.tell(p); err != nil {
				return nil, err
			}
		}
		p = q
	}
	return out, nil
}

// tell reports progress and asks whether to go on.
func (r *reader) tell(p int) error {
	if r.progress != nil {
		r.progress(p, len(r.data))
	}
	return r.ctx.Err()
}

// oneRow is what a line holds.
type oneRow struct {
	x, y, z       float64
	blank, remark bool
}

// readRow reads the line at p and returns where the next one begins.
func (r *reader) readRow(l *layout, want cellsWanted, p int) (v oneRow, next int, err error) {
	b, decimal, delimiter := r.data, l.decimal, l.delimiter
	blanks, named := delimiter == ' ', r.named.named()
	begin, cell, filled := p, 0, false
	beyond := !blanks // all cells beyond the last one that counts are empty
	nan := math.NaN()
	v = oneRow{x: nan, y: nan, z: nan}
	for {
		for p < len(b) && (b[p] == ' ' || b[p] == '\t' && delimiter != '\t') {
			p++
		}
		if p >= len(b) || b[p] == '\n' || b[p] == '\r' {
			if !blanks && cell > 0 && (cell != l.cells || named) { // an empty last cell
				cell++
			}
			break
		}
		value, q := nan, p
		switch {
		case cell == want.x || cell == want.z || cell == want.y || !named:
			var ok bool
			value, q, ok = plainNumber(b, p, decimal)
			if !blanks {
				for q < len(b) && (b[q] == ' ' || b[q] == '\t' && delimiter != '\t') {
					q++
				}
			}
			if ok && (q >= len(b) || b[q] == delimiter || b[q] == '\n' || b[q] == '\r' || blanks && b[q] == '\t') {
				filled = true
				beyond = beyond && cell < l.cells
			} else {
				if cell == 0 {
					if end, skip := r.remark(begin); skip {
						return oneRow{remark: true}, end, nil
					}
				}
				var state cellState
				value, q, state = r.oddCell(l, p)
				switch {
				case state == openQuote:
					return v, p, r.openQuote(p)
				case state == strange && (cell < l.cells || named):
					s, e := trim(b, p, q)
					return v, p, r.errorAt(s, r.notNumber(l, s, e))
				}
				if state != empty {
					filled = true
					beyond = beyond && cell < l.cells
				}
			}
			if cell == want.z && len(r.absent.numbers) > 0 { // x may well pass through such a number
				value = r.absent.value(value)
			}
		default:
			var open bool
			if q, open = r.skipCell(l, p); open {
				return v, p, r.openQuote(p)
			}
			filled = true
		}
		switch cell {
		case want.z:
			v.z = value
		case want.x:
			v.x = value
		case want.y:
			v.y = value
		}
		cell++
		p = q
		if p < len(b) && (b[p] == delimiter || blanks && b[p] == '\t') {
			p++
			continue
		}
		break
	}
	for p < len(b) && b[p] != '\n' {
		p++
	}
	next = p + 1
	switch {
	case !filled:
		v.blank = true
	case !named && cell > l.cells && beyond:
	case !named && cell != l.cells, named && cell < r.need():
		at := begin
		if cell > l.cells && !named {
			at = r.cellAt(l, begin, l.cells)
		}
		err = r.errorAt(at, because(ErrCells, "%s where the rows have %d", plural(cell, "cell"), max(l.cells, r.need())))
	}
	return v, next, err
}

// need is the highest cell that is looked at.
func (r *reader) need() int { return max(r.named.need(), r.named.y) }

// remark reports whether the line at p is one, and where the next one begins.
func (r *reader) remark(p int) (next int, ok bool) {
	line, next := r.nextLine(p)
	_, ok = comment(line)
	return next, ok
}

// separator reports where the next trace begins when the lines at p are the header of another one: text of which a line
// names columns or repeats the names of the first trace. It returns -1 for anything else, such as a wrong row.
func (r *reader) separator(l *layout, p int) int {
	header := false
	for lines := 0; p < len(r.data) && lines < 100; lines++ {
		line, next := r.nextLine(p)
		switch kind, cells, tail := r.look(line, l); {
		case kind == row && (cells == l.cells || cells > l.cells && cells-tail <= l.cells || r.named.named()):
			if header {
				return p
			}
			return -1
		case kind == other:
			header = header || r.isNameRow(line, l) || r.header.nameText != "" && r.header.nameText == string(bytes.TrimSpace(line))
		}
		p = next
	}
	return -1
}

// rowOffset finds the line of a row again, for an error that only shows when all rows are read.
func (r *reader) rowOffset(l *layout, start, index int) int {
	want := cellsWanted{-1, -1, -1}
	for p := start; p < len(r.data); {
		v, next, err := r.readRow(l, want, p)
		if err == nil && !v.blank && !v.remark {
			if index == 0 {
				return p
			}
			index--
		}
		p = next
		if err != nil {
			_, p = r.nextLine(p)
		}
	}
	return len(r.data)
}
