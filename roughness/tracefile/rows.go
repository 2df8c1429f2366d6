package tracefile

import (
	"bytes"
	"math"
)

// The second pass at full speed: once the columns are decided, the cells of all rows become numbers.

// rows are the numbers of one trace, and what was met on the way.
type rows struct {
	x, y, z  []float64       // x and y are nil where the trace has none
	pick     func(i int) int // the row in which a point stands that was taken out of triples
	start    int             // offset of the first row
	blanks   int             // points without a height that are blank lines
	lastLine int             // offset of the last row
	next     int             // where the next trace of the file begins, or -1
	which    Questions       // which row or column of an area is meant
	part     int             // offset of a row behind a blank line, or -1: another trace may begin there
}

// progressEvery is how many rows are read between two looks at the context.
const progressEvery = 1 << 16

// readRows reads one trace: from the row at start to the end of the file or of the block of rows. Every cell of a row is read
// where the columns are not named, so that a letter anywhere is an error.
func (r *reader) readRows(l *layout, want columns, start int) (*rows, error) {
	out := &rows{start: start, next: -1, part: -1, lastLine: start, pick: func(i int) int { return i }}
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
	plain := r.named.z >= 0 || l.cells == 1 && want.x < 0 || l.cells == 2 && want.x >= 0 // no cell is read that is not wanted
	for p := start; p < len(r.data); {
		if plain && pending == 0 && ended < 0 {
			if p = r.plainRows(l, want, out, p); p >= len(r.data) {
				break
			}
			if err := r.tell(p); err != nil {
				return nil, err
			}
		}
		begin := p
		v, next, err := r.readRow(l, want, p)
		p = next
		if count++; count%progressEvery == 0 {
			if err := r.tell(p); err != nil {
				return nil, err
			}
		}
		switch {
		case err != nil:
			if out.next = r.separator(l, begin); out.next >= 0 {
				return out, nil
			}
			return nil, err
		case v.kind == blankLine:
			pending++
			continue
		case v.kind == remark:
			continue
		}
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
			case out.part < 0:
				out.part = begin
			}
		}
		pending = 0
		switch {
		case want.x >= 0 && v.x != v.x && v.z != v.z && r.named.z >= 0 && len(out.x) > 0:
			ended = or(ended, begin)
			continue
		case want.x >= 0 && (v.x != v.x || ended >= 0):
			return nil, r.fail(r.cellAt(l, or(ended, begin), want.x), ErrMissingX, "no x in this row")
		case want.y >= 0 && v.y != v.y:
			return nil, r.fail(r.cellAt(l, begin, want.y), ErrMissingX, "no y in this row")
		}
		if want.x >= 0 {
			out.x = append(out.x, v.x)
		}
		if want.y >= 0 {
			out.y = append(out.y, v.y)
		}
		out.z = append(out.z, v.z)
		out.lastLine = begin
	}
	return out, nil
}

// or returns the first that is not below 0.
func or(list ...int) int {
	for _, v := range list {
		if v >= 0 {
			return v
		}
	}
	return -1
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
	kind    lineKind
	x, y, z float64
}

// readRow reads the line at p and returns where the next one begins.
func (r *reader) readRow(l *layout, want columns, p int) (v oneRow, next int, err error) {
	cut, next := r.lineCutter(l, p)
	named, n, over := r.named.z >= 0, 0, p
	beyond := l.delimiter != ' ' // all cells beyond the last one that counts are empty
	v = oneRow{blankLine, math.NaN(), math.NaN(), math.NaN()}
	for c := (cell{}); ; n++ {
		looked := !named || want.has(n)
		if looked && !r.number(&cut, l, &c) || !looked && !cut.next(&c) {
			break
		}
		if n == l.cells {
			over = c.at
		}
		if c.at == cut.end { // an empty last cell
			continue
		}
		if n == 0 && mayBeRemark(cut.text[c.at]) {
			if _, is := comment(cut.text[p:cut.end]); is {
				return oneRow{kind: remark}, next, nil
			}
		}
		switch {
		case c.open:
			return v, next, r.openQuote(c.at)
		case looked && c.kind == strange && (named || n < l.cells):
			return v, next, r.strangeCell(l, c.at, c.after)
		case !looked || c.start < c.end:
			v.kind = row
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
	if v.kind == row && (named && n < r.need() || !named && n != l.cells && (n < l.cells || !beyond)) {
		err = r.wrongCells(over, n, max(l.cells, r.need()), "")
	}
	return v, next, err
}

// mayBeRemark reports whether a remark may begin with a byte.
func mayBeRemark(c byte) bool { return c == '#' || c == '%' || c == '!' || c == '/' }

// number parts and reads the next cell of a line in one go, for nearly all are plain numbers.
func (r *reader) number(cut *cutter, l *layout, c *cell) bool {
	if !cut.more() {
		return false
	}
	p, quote := cut.p, 0
	if p < cut.end && cut.text[p] == '"' {
		quote = 1
	}
	v, q, ok := plainNumber(cut.text, p+quote, l.decimal)
	if after := q + quote; ok && (quote == 0 || q < cut.end && cut.text[q] == '"') && (after >= cut.end || ends(cut.text[after], l.delimiter)) {
		*c = cell{at: p, start: p + quote, end: q, after: after, quoted: quote > 0, kind: counted, value: v}
		cut.pass(after)
		return true
	}
	if cut.next(c); !c.open {
		c.kind, c.value = r.typeOf(l.grammar, c.of(cut.text))
	}
	return true
}

// wrongCells is the error of a row that has n cells, and not as many as the rows.
func (r *reader) wrongCells(at, n, rows int, advice string) error {
	return r.fail(at, ErrCells, "%s where the rows have %d%s", plural(n, "cell"), rows, advice)
}

// strangeCell is the error of a cell among the rows that is no number.
func (r *reader) strangeCell(l *layout, from, to int) error {
	s, e := trim(r.data, from, to)
	return r.errorAt(s, l.notNumber(r.data[s:e]))
}

// separator reports where the next trace begins when the lines at p are the header of another one: text of which a line
// names columns or repeats the names of the first trace. It returns -1 for anything else, such as a wrong row.
func (r *reader) separator(l *layout, p int) int {
	header, lines := false, 0
	for at, line := range r.lines(p, len(r.data)) {
		if lines++; lines > 100 {
			break
		}
		switch kind, t := r.look(line, l); {
		case kind == row && (l.fits(t) || r.named.z >= 0):
			if header {
				return at
			}
			return -1
		case kind == other:
			header = header || r.isNameRow(line, l) || r.header.nameText != "" && r.header.nameText == string(bytes.TrimSpace(line))
		}
	}
	return -1
}

// rowOffset finds the line of a row again, for an error that only shows when all rows are read.
func (r *reader) rowOffset(l *layout, start, index int) int {
	for p := start; p < len(r.data); {
		v, next, err := r.readRow(l, columns{-1, -1, -1}, p)
		if err == nil && v.kind == row {
			if index == 0 {
				return p
			}
			index--
		}
		p = next
	}
	return len(r.data)
}

// readHeights reads a table of which every number is a height: all of them, row by row, or the row or column of an area that the hints
// name.
func (r *reader) readHeights(l *layout, all bool) (*rows, error) {
	wantRow, wantCol := r.hints.Row, r.hints.Column
	got := &rows{start: l.start, lastLine: l.start, next: -1, part: -1}
	n := l.cells
	if all {
		wantRow, wantCol = 0, 0
		n = countCells(r.data[l.start:], l.delimiter) // so that memory is taken once
		if l.delimiter != ' ' {
			n += bytes.Count(r.data[l.start:], []byte("\n"))
		}
	} else if wantRow == 0 {
		var err error
		if n, err = r.fits(columns{-1, -1, 0}, l.start); err != nil {
			return nil, err
		}
	}
	if all || wantRow > 0 || wantCol > 0 {
		got.z = take(&r.room.z, n)
	}
	var c cell
	plain := r.plain(l)
	last, count := l.start, 0 // the last number, and how many rows there are
	for p := l.start; p < len(r.data); {
		if all && len(r.absent.numbers) == 0 {
			if q := plain.numbers(p, &got.z); q > p {
				last, p = q-1, q
				if err := r.tell(p); err != nil {
					return nil, err
				}
				continue
			}
		}
		cut, next := r.lineCutter(l, p)
		line := r.data[p:cut.end]
		begins := p == 0 || r.data[p-1] == '\n' // else the plain numbers of a line are read
		if _, skip := comment(line); begins && (skip || blank(line)) {
			p = next
			continue
		}
		if count++; count == wantRow {
			got.start = p
		} else if !all && countCells(line, l.delimiter) == l.cells && bytes.IndexByte(line, '"') < 0 { // nothing but the column is looked at
			if wantCol == 0 {
				p = next
				continue
			}
			if at := plain.skip(p, wantCol-1); at >= 0 && len(r.absent.numbers) == 0 {
				if v, q, ok := plainNumber(r.data, plain.blanks(at), l.decimal); ok && (q == cut.end || ends(r.data[q], l.delimiter)) {
					got.z, last, p = append(got.z, v), at, next
					continue
				}
			}
		}
		cells, tail := 0, 0
		for {
			if looked := all || count == wantRow || cells+1 == wantCol; looked && !r.number(&cut, l, &c) || !looked && !cut.next(&c) {
				break
			}
			if all && c.at == cut.end { // an empty last cell
				break
			}
			cells++
			if tail++; c.at < c.after {
				tail = 0
			}
			switch {
			case c.open:
				return nil, r.openQuote(c.at)
			case !all && (count != wantRow && cells != wantCol || cells > l.cells):
				continue
			case c.kind == strange && all:
				return nil, r.strangeCell(l, c.at, c.after)
			case c.kind == strange:
				return nil, r.strangeCell(l, c.start, c.end)
			}
			got.z, last = append(got.z, r.absent.value(c.value)), c.at
		}
		if !all && cells != l.cells && (cells < l.cells || cells-tail > l.cells) {
			return nil, r.wrongCells(p, cells, l.cells, "")
		}
		p = next
	}
	got.lastLine = r.lineOf(last)
	if err := (&Hints{Row: wantRow, Column: wantCol}).beyond(count, l.cells, "matrix"); err != nil {
		return nil, r.errorAt(l.start, err)
	}
	if !all && wantRow == 0 && wantCol == 0 {
		got.which = Questions{ask("row", "the matrix has %s and %s; which profile is meant", plural(count, "row"), plural(l.cells, "column"))}
	}
	return got, nil
}

// countCells counts the cells of a line that has no quotes; of several lines it counts one too few for each end of a line at a
// delimiter that is no blank.
func countCells(b []byte, delimiter byte) int {
	if delimiter != ' ' {
		return bytes.Count(b, []byte{delimiter}) + 1
	}
	n, before := 0, byte(' ')
	for _, c := range b {
		if c > ' ' && before <= ' ' {
			n++
		}
		before = c
	}
	return n
}
