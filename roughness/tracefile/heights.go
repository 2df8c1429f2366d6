package tracefile

import (
	"bytes"
	"fmt"
)

// heights reads a table of which every number is a height: all of them, row by row, or the row or column of an area that the hints name.
func (r *reader) heights(l *layout, all bool) (*Trace, error) {
	row, col := r.hints.Row, r.hints.Column
	got := &rows{start: l.start, lastLine: l.start}
	n := l.cells
	switch {
	case all:
		n, row, col = r.countCells(l), 0, 0
	case row == 0:
		var err error
		if n, err = r.fits(cellsWanted{-1, -1, 0}, l.start); err != nil {
			return nil, err
		}
	}
	if all || row > 0 || col > 0 {
		got.z = make([]float64, 0, n)
	}
	var c cell
	count := 0
	for p := l.start; p < len(r.data); {
		cut, next := r.lineCutter(l, p)
		line := cut.text[p:cut.end]
		if _, skip := comment(line); skip || blank(line) {
			p = next
			continue
		}
		count++
		if row > 0 && count == row {
			got.start = p
		}
		cells, tail := 0, 0
		for r.number(&cut, l, &c) {
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
			case !all && (count != row && cells != col || cells > l.cells):
				continue
			case all && c.kind == strange:
				return nil, r.errorAt(c.at, r.notNumber(l, cut.text[c.at:c.after]))
			case c.kind == strange:
				return nil, r.errorAt(c.start, r.notNumber(l, c.of(cut.text)))
			}
			v := r.absent.value(c.value)
			if v != v {
				got.missing++
			}
			got.z = append(got.z, v)
			got.lastLine = p
		}
		if !all && cells != l.cells && (cells < l.cells || cells-tail > l.cells) {
			return nil, r.errorAt(p, because(ErrCells, "%s where the rows have %d", plural(cells, "cell"), l.cells))
		}
		p = next
	}
	for _, c := range []struct {
		key       string
		want, has int
	}{{"row", row, count}, {"column", col, l.cells}} {
		if c.want > c.has {
			return nil, r.errorAt(l.start, because(ErrHint, "hint %q: %d is asked for and the matrix has %d", c.key, c.want, c.has))
		}
	}
	p := plan{x: -1, y: -1, z: 0, counterCol: -1}
	if r.hints.Spacing > 0 {
		p.spacing, p.spacingBy = r.hints.Spacing, "hint spacing"
	}
	if !all {
		r.header.names, r.header.units = nil, nil
	}
	err := r.ask(l, &p, got, 0)
	if !all && row == 0 && col == 0 {
		q := Questions{ask("row", fmt.Sprintf("the matrix has %s and %s; which profile is meant", plural(count, "row"), plural(l.cells, "column")))}
		return nil, r.errorAt(l.start, append(q, IsQuestion(err)...))
	}
	if err != nil {
		return nil, err
	}
	t := &Trace{}
	t.Profile.Z, t.Profile.Spacing = got.z, p.spacing
	for i, v := range got.z {
		got.z[i] = p.zUnit.value(v)
	}
	l = at(l, got.start)
	if err := r.finite(t, l); err != nil {
		return nil, err
	}
	r.fill(t, l, &p, got)
	t.Report.SpacingBy = p.spacingBy
	t.Report.ZColumn, t.Report.ZName = col, ""
	if all {
		t.note("rows", fmt.Sprintf("Every number, row by row, was read as a height (%d).", len(got.z)))
	}
	return t, nil
}

// countCells bounds how many numbers the rows hold, so that memory is taken once.
func (r *reader) countCells(l *layout) int {
	if l.delimiter != ' ' {
		return bytes.Count(r.data[l.start:], []byte{l.delimiter}) + bytes.Count(r.data[l.start:], []byte("\n")) + 1
	}
	n, before := 0, byte(' ')
	for _, c := range r.data[l.start:] {
		if c > ' ' && before <= ' ' {
			n++
		}
		before = c
	}
	return n
}
