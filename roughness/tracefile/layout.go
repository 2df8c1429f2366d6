package tracefile

import (
	"bytes"
	"context"
	"math"
)

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
	marked   uint64 // the first columns of which a cell has a mark
	threes   uint64 // the first columns of which a cell is three digits and nothing else
	skipped  []int  // offsets of rows above the data that were read as results
}

// columns says which cells are looked at; the others may hold anything. Both are 0 where nothing is said.
type columns struct{ x, z, y int }

func (c columns) need() int   { return max(c.x, c.z) }
func (c columns) named() bool { return c.z > 0 }

// sampleLines bounds how many lines decide about the layout while they suffice to.
const sampleLines = 500

// reader holds what the steps of reading a text share.
type reader struct {
	decoded
	hints    Hints
	named    columns
	top      int // offset of the first line that is looked at
	header   header
	cells    []cell // of the text that was cut last
	absent   *absent
	room     *room // what earlier readings of rows have left to the next one
	size     int   // bytes of the file
	ctx      context.Context
	progress func(done, total int)

	markSettled bool // the decimal mark is what the header's delimiter leaves
	plainNames  bool // names that tell nothing have settled that a comma parts cells
}

// candidates lists the layouts that hints leave.
func (r *reader) candidates(sample []byte) []*layout {
	var delimiters []byte
	switch {
	case r.hints.Delimiter != "":
		d, _ := delimiterByte(r.hints.Delimiter)
		delimiters = []byte{d}
	default:
		for _, d := range []byte("\t;,|") {
			if bytes.IndexByte(sample, d) >= 0 {
				delimiters = append(delimiters, d)
			}
		}
		delimiters = append(delimiters, ' ')
	}
	marks := ".,"
	if r.hints.Decimal != "" {
		marks = r.hints.Decimal
	}
	quotes := bytes.IndexByte(sample, '"') >= 0
	var out []*layout
	for _, d := range delimiters {
		for _, m := range []byte(marks) {
			if d == ',' && m == ',' && !quotes {
				continue
			}
			g := grammar{decimal: m, group: '.' + ',' - m}
			if g.group == d && !quotes {
				g.group = 0
			}
			out = append(out, &layout{delimiter: d, grammar: g})
		}
	}
	if len(out) == 0 { // delimiter and decimal mark both ",", and no quotes: the rows will tell
		out = append(out, &layout{delimiter: ',', grammar: grammar{decimal: ','}})
	}
	return out
}

// try lays l over the sample [r.top, end): it finds the first row, the number of cells, and the first line behind it that
// does not fit.
func (r *reader) try(l *layout, end int) {
	type run struct{ start, rows, cells, empty int }
	var runs []run
	for p := r.top; p < end; {
		line, next := r.nextLine(p)
		kind, t := r.look(line, l)
		cells := t.n
		if r.hints.Heights == "rows" {
			cells = min(cells, 1)
		}
		switch kind {
		case row:
			if n := len(runs); n == 0 || runs[n-1].cells != cells {
				runs = append(runs, run{start: p, cells: cells, empty: t.tail})
			}
			last := &runs[len(runs)-1]
			last.rows++
			last.empty = min(last.empty, t.tail)
		case other:
			if n := len(runs); n > 0 && runs[n-1].rows > 0 {
				runs = append(runs, run{start: p})
			}
		}
		p = next
	}
	best := -1
	for i, u := range runs {
		if u.rows > 0 && (best < 0 || u.rows > runs[best].rows) {
			best = i
		}
	}
	l.fail, l.mark = -1, -1
	if best < 0 {
		return
	}
	l.cells = runs[best].cells
	begins := func(i int) bool { // a row may have empty cells too many, also the first one alone
		return runs[i].rows > 0 && (runs[i].cells == l.cells || runs[i].cells > l.cells && runs[i].cells-runs[i].empty <= l.cells)
	}
	first := 0
	for !begins(first) {
		first++
	}
	for first < best && runs[first].rows <= 3 && r.headerBetween(l, runs[first].start, runs[first].rows, runs[best].start) {
		l.skipped = append(l.skipped, runs[first].start)
		for first++; !begins(first); first++ {
		}
	}
	l.start = runs[first].start
	if r.named.named() || r.hints.Heights == "rows" {
		runs[best].empty = 0
	}
	for ; l.trailing < runs[best].empty && l.cells > 1; l.trailing++ { // as far as no name stands above it
		if names, _ := r.lastLineAs(l); names != nil && names[l.cells-1] != "" {
			break
		}
		l.cells--
	}
	r.check(l, l.start, end)
}

// lastLineAs takes the last line above the rows for names.
func (r *reader) lastLineAs(l *layout) (names []string, delimiter byte) {
	var last []byte
	r.preamble(l, func(line []byte, _, _ int, _ bool) { last = line })
	return r.names(last, l)
}

// headerBetween reports whether a line of column names follows the rows at start, so that they are results above the
// data and not data.
func (r *reader) headerBetween(l *layout, start, rows, end int) bool {
	for p := start; p < end; {
		line, next := r.nextLine(p)
		if kind, _ := r.look(line, l); kind == other && rows == 0 {
			return r.isNameRow(line, l)
		} else if kind == row {
			rows--
		}
		p = next
	}
	return false
}

// check reads on with a layout from p to end and adds up what it reads, so that two layouts can be told to agree.
func (r *reader) check(l *layout, p, end int) {
	const prime = 1099511628211 // FNV-1a over the values
	if l.sum == 0 {
		l.sum = 14695981039346656037
	}
	free := r.named.named() || r.hints.Heights == "rows" // any number of cells makes a row
	for p < end {
		line, next := r.nextLine(p)
		kind, t := r.look(line, l)
		if kind == other || kind == row && !free && !l.fits(t) {
			if l.rows > 0 {
				if start := r.separator(l, p); start >= 0 {
					p = start
					continue
				}
			}
			if l.fail < 0 {
				l.fail, l.quote = p, r.openRow(line, l)
			}
			return
		}
		if kind == row {
			l.rows++
			n := l.cells
			if free {
				n = t.n
			}
			for i, c := range t.cells[:min(n, len(t.cells), mostLooked)] {
				text := c.of(line)
				point, comma := bytes.IndexByte(text, '.') >= 0, bytes.IndexByte(text, ',') >= 0
				if l.mark < 0 && (point || comma) {
					l.mark = p + c.start
				}
				l.points, l.commas = l.points || point, l.commas || comma
				if point || comma {
					l.marked |= 1 << i
				} else if c.kind == counted && len(bytes.TrimLeft(text, "+-")) == 3 {
					l.threes |= 1 << i
				}
				l.sum = (l.sum ^ math.Float64bits(c.value)) * prime
			}
			l.sum = (l.sum ^ uint64(n)) * prime
		}
		p = next
	}
}
