package tracefile

import (
	"bytes"
	"slices"
)

// plain reads what nearly all rows are, plain numbers beside cells that nobody looks at. It gives up on everything else, which the
// readers in rows.go look at.
type plain struct {
	b                          []byte
	decimal, delimiter, second byte // second parts cells too where blanks do
}

func (r *reader) plain(l *layout) plain {
	p := plain{r.data, l.decimal, l.delimiter, l.delimiter}
	if l.delimiter == ' ' {
		p.second = '\t'
	}
	return p
}

// plainRows reads rows with x, y and z, up to progressEvery of them. It returns where the first row begins that is anything else.
func (r *reader) plainRows(l *layout, want columns, out *rows, p int) int {
	f := r.plain(l)
	b, named, begin, n := r.data, r.named.z >= 0, p, len(out.z)
	if !named && want.x < 0 && len(r.absent.numbers) == 0 { // one column, so that a row is one number
		f.delimiter, f.second = '\n', '\n'
		if begin = f.numbers(p, &out.z); len(out.z) > n {
			out.lastLine = r.lineOf(begin - 1)
		}
		return begin
	}
	type column struct {
		cell, skip int // skip: cells that are passed before it
		to         *[]float64
		z, refused []float64
	}
	cols := []column{{cell: want.x, to: &out.x}, {cell: want.y, to: &out.y}, {cell: want.z, to: &out.z, refused: r.absent.numbers}}
	cols = slices.DeleteFunc(cols, func(c column) bool { return c.cell < 0 })
	slices.SortFunc(cols, func(a, b column) int { return a.cell - b.cell })
	last, before, most := len(cols)-1, -1, n+progressEvery
	for i := range cols {
		c := &cols[i]
		if c.z, c.skip, before = (*c.to)[:cap(*c.to)], c.cell-before-1, c.cell; c.skip < 0 { // a cell for two things
			return p
		}
		most = min(most, len(c.z))
	}
	q := 0
rows:
	for n < most && p < len(b) {
		for i := range cols {
			c := &cols[i]
			if c.skip > 0 {
				if p = f.skip(p, c.skip); p < 0 || i == 0 && mayBeRemark(b[f.blanks(begin)]) {
					break rows
				}
			}
			for uint(p) < uint(len(b)) && b[p] <= ' ' && (b[p] == ' ' || b[p] == f.second && f.second != f.delimiter) {
				p++
			}
			v, end, ok := plainNumber(b, p, f.decimal)
			if !ok {
				v, end, ok = f.quoted(p)
			}
			if !ok || i < last && (uint(end) >= uint(len(b)) || b[end] != f.delimiter && b[end] != f.second) ||
				len(c.refused) > 0 && slices.Contains(c.refused, v) {
				break rows
			}
			c.z[n] = v
			q, p = end, end+1
		}
		if q < len(b) && b[q] != '\n' {
			if named && (b[q] == f.delimiter || b[q] == f.second) {
				line, _ := r.nextLine(q)
				if bytes.IndexByte(line, '"') >= 0 {
					break
				}
				q += len(line)
			}
			if q < len(b) && b[q] == '\r' {
				q++
			}
			if q < len(b) && b[q] != '\n' {
				break
			}
		}
		n++
		p = q + 1
		begin = p
	}
	if n > len(out.z) {
		out.lastLine = r.lineOf(begin - 1)
	}
	for _, c := range cols {
		*c.to = c.z[:n]
	}
	return begin
}

// numbers appends numbers that each end at a delimiter or with their line, up to progressEvery of them. It returns where the first cell
// begins that is anything else.
func (f plain) numbers(p int, to *[]float64) int {
	b, z := f.b, *to
	for most := progressEvery; most > 0 && p < len(b); most-- {
		v, q, ok := plainNumber(b, p, f.decimal)
		if !ok && b[p] == ' ' {
			v, q, ok = plainNumber(b, f.blanks(p), f.decimal)
		}
		if ok && q < len(b) && b[q] == '\r' {
			q++
		}
		if !ok || q < len(b) && b[q] != '\n' && b[q] != f.delimiter && b[q] != f.second {
			break
		}
		z = append(z, v)
		p = q + 1
	}
	*to = z
	return p
}

// quoted reads a plain number between quotes.
func (f plain) quoted(p int) (v float64, end int, ok bool) {
	if p >= len(f.b) || f.b[p] != '"' {
		return 0, p, false
	}
	v, end, ok = plainNumber(f.b, p+1, f.decimal)
	return v, end + 1, ok && end < len(f.b) && f.b[end] == '"'
}

// blanks passes the blanks before a cell.
func (f plain) blanks(p int) int {
	for p < len(f.b) && f.b[p] <= ' ' && (f.b[p] == ' ' || f.b[p] == f.second && f.second != f.delimiter) {
		p++
	}
	return p
}

// skip passes cells of a line, and returns -1 where there are not so many or one has a quote.
func (f plain) skip(p, n int) int {
	b, delimiter, second := f.b, f.delimiter, f.second
	for ; n > 0; n-- {
		if p = f.blanks(p); p < len(b) && b[p] == '"' {
			return -1
		}
		for p < len(b) && b[p] != delimiter && b[p] != second && b[p] != '\n' {
			p++
		}
		if p >= len(b) || b[p] == '\n' {
			return -1
		}
		p++
	}
	return p
}
