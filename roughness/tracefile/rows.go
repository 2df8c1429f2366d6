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
	plain := len(r.absent.numbers) == 0 && want.y < 0 && (r.named.named() || l.cells == 1 && want.x < 0 || l.cells == 2 && want.x >= 0)
	for p := start; p < len(b); {
		if plain && pending == 0 && ended < 0 {
			if p = r.plainRows(l, want, out, p, progressEvery); p >= len(b) {
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
	cut, next := r.lineCutter(l, p)
	named, nan := r.named.named(), math.NaN()
	n, filled, over := 0, false, p
	beyond := l.delimiter != ' ' // all cells beyond the last one that counts are empty
	v = oneRow{x: nan, y: nan, z: nan}
	for c := (cell{}); ; n++ {
		looked := !named || n == want.x || n == want.y || n == want.z
		if looked && !r.number(&cut, l, &c) || !looked && !cut.next(&c) {
			break
		}
		if n == l.cells {
			over = c.at
		}
		if c.at == cut.end { // an empty last cell
			continue
		}
		if n == 0 && looked && c.kind != counted {
			if _, remark := comment(cut.text[p:cut.end]); remark {
				return oneRow{remark: true}, next, nil
			}
		}
		switch {
		case c.open:
			return v, next, r.openQuote(c.at)
		case looked && c.kind == strange && (named || n < l.cells):
			s, e := trim(cut.text, c.at, c.after)
			return v, next, r.errorAt(s, r.notNumber(l, cut.text[s:e]))
		case !looked || c.start < c.end:
			filled = true
			beyond = beyond && n < l.cells
		}
		switch n {
		case want.z: // x may well pass through a number that means a missing height
			v.z = r.absent.value(c.value)
		case want.x:
			v.x = c.value
		case want.y:
			v.y = c.value
		}
	}
	switch {
	case !filled:
		v.blank = true
	case !named && n > l.cells && beyond:
	case !named && n != l.cells, named && n < r.need():
		err = r.errorAt(over, because(ErrCells, "%s where the rows have %d", plural(n, "cell"), max(l.cells, r.need())))
	}
	return v, next, err
}

// need is the highest cell that is looked at.
func (r *reader) need() int { return max(r.named.need(), r.named.y) }

// separator reports where the next trace begins when the lines at p are the header of another one: text of which a line
// names columns or repeats the names of the first trace. It returns -1 for anything else, such as a wrong row.
func (r *reader) separator(l *layout, p int) int {
	header := false
	for lines := 0; p < len(r.data) && lines < 100; lines++ {
		line, next := r.nextLine(p)
		switch kind, t := r.look(line, l); {
		case kind == row && (l.fits(t) || r.named.named()):
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
	}
	return len(r.data)
}
