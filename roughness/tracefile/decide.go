package tracefile

import (
	"bytes"
	"context"
	"errors"
	"math"
	"slices"
)

// The third pass over a text: it takes typed lines and the hints, and gives the trace, or what is open or wrong. Its questions are
//
//	decide_layout.go   how are the lines parted, and what is the decimal mark?
//	decide_header.go   what do the lines above the rows say?
//	decide_columns.go  which columns hold x and z, and which rows are the trace?
//	decide_units.go    in which units, and how far apart?

// reader holds what the passes share.
type reader struct {
	decoded
	hints    Hints
	named    columns // the cells that are looked at where z is one; otherwise all are
	top      int     // offset of the first line that is looked at
	header   *header
	cells    []cell // of the text that was cut last
	absent   *absent
	room     *room // what earlier readings of rows have left to the next one
	size     int   // bytes of the file
	ctx      context.Context
	progress func(done, total int)

	markSettled bool // the decimal mark is what the header's delimiter leaves
	plainNames  bool // names that tell nothing have settled that a comma parts cells
}

// readText reads delimited text.
func readText(ctx context.Context, data []byte, hints *Hints, progress func(done, total int)) (*Trace, error) {
	d, err := decode(data)
	if err != nil {
		return nil, err
	}
	r := &reader{decoded: d, hints: *hints, ctx: ctx, progress: progress, room: &room{}, header: &header{}, size: len(data),
		named: columns{hints.XColumn - 1, hints.YColumn - 1, hints.ZColumn - 1}}
	r.absent = newAbsent(hints.Missing, grammar{decimal: '.'})
	if blank(r.data) {
		return nil, r.fail(0, ErrEmpty, "nothing in the file")
	}
	if err := r.skip(); err != nil {
		return nil, err
	}
	l, err := r.settle()
	if err != nil {
		return nil, err
	}
	r.absent = newAbsent(hints.Missing, grammar{decimal: l.decimal}) // as the file writes its numbers
	r.header = r.headerOf(l)
	if r.header.wrong >= 0 {
		return nil, r.wrongRow(l, r.header.wrong)
	}
	return r.trace(l)
}

// skip passes the lines that the hints name, and a first line "sep=;", which names the delimiter.
func (r *reader) skip() error {
	for i := range r.hints.SkipLines {
		if _, r.top = r.nextLine(r.top); r.top >= len(r.data) {
			return &Error{Err: because(ErrHint, "hint \"skip_lines\": %d lines are to be skipped and the file has %d", r.hints.SkipLines, i+1)}
		}
	}
	line, next := r.nextLine(r.top)
	if v, ok := bytes.CutPrefix(bytes.ToLower(bytes.TrimSpace(line[:min(len(line), 8)])), []byte("sep=")); ok && len(line) < 8 {
		if len(v) == 0 {
			v = []byte("\t")
		}
		if _, ok := delimiterByte(string(v)); ok && r.hints.Delimiter == "" {
			r.hints.Delimiter = string(v)
		}
		r.top = next
	}
	return nil
}

// wrongRow says what is wrong with the line at p, which has to be a row.
func (r *reader) wrongRow(l *layout, p int) error {
	line, _ := r.nextLine(p)
	open := r.openRow(line, l)
	t := r.typed(line, l)
	at := p
	switch bad := r.odd(t); {
	case open:
		return r.openQuote(p + t.cells[len(t.cells)-1].at)
	case bad != nil:
		return r.errorAt(p+bad.start, l.notNumber(bad.of(line)))
	case t.n > l.cells:
		at = r.cellAt(l, p, l.cells)
	}
	return r.wrongCells(at, t.n, l.cells, "; if this line is not a row, skip it with the hint \"skip_lines\"")
}

// trace decides about columns, rows and units under a layout, and makes the trace.
func (r *reader) trace(l *layout) (*Trace, error) {
	p, rows, err := r.columns(l)
	if err != nil {
		return nil, err
	}
	l = l.at(rows.start)
	t := &Trace{}
	if !p.area {
		if err := r.takeFirst(t, l, &p, rows); err != nil {
			return nil, err
		}
	}
	step, bad := 0.0, 0
	if p.x >= 0 && len(rows.x) > 1 {
		if step, bad, err = axis(rows.x); err != nil {
			where, column := r.rowOffset(l, rows.start, rows.pick(bad)), p.x
			if r.hints.Column > 0 && p.y >= 0 {
				column = p.y
			}
			switch {
			case where == rows.part:
				return nil, r.open(where, ask("trace", "x starts again after a blank line: the file holds more than one trace"))
			case p.y >= 0, !r.hints.Resample, !errors.Is(err, ErrUneven):
				return nil, r.errorAt(r.cellAt(l, where, column), err)
			}
		}
	}
	if err := r.units(l, &p, rows, step); err != nil {
		return nil, err
	}
	if r.hints.Resample && p.x >= 0 {
		if i, err := strict(rows.x); err != nil {
			return nil, r.errorAt(r.cellAt(l, r.rowOffset(l, rows.start, i), p.x), err)
		}
	}
	t.Profile.Z, t.Profile.Spacing = rows.z, p.spacing
	t.Report.SpacingBy = p.spacingBy
	if step < 0 {
		slices.Reverse(rows.x)
		reverse(t)
	}
	if p.x >= 0 && len(rows.x) > 1 && p.xUnit.factor > 0 {
		if err := r.lay(t, l, &p, rows); err != nil {
			return nil, err
		}
	}
	if p.zUnit.factor != 1 || p.zUnit.slope {
		for i, v := range t.Profile.Z {
			t.Profile.Z[i] = p.zUnit.value(v)
		}
	}
	if p.slopes {
		if i := integrate(t.Profile.Z, t.Profile.Spacing); i >= 0 {
			if t.Report.Turned {
				i = len(rows.z) - 1 - i
			}
			return nil, r.fail(r.rowOffset(l, rows.start, i), ErrNumber, "a slope is missing here: the slopes after it cannot be integrated")
		}
		t.note("integrated", "The slopes were integrated (trapezoids, from 0 at the first point).")
	}
	if err := r.finite(t, l); err != nil {
		return nil, err
	}
	r.report(t, l, &p, rows)
	return t, nil
}

// lay gives the points their places by x.
func (r *reader) lay(t *Trace, l *layout, p *plan, rows *rows) error {
	x := rows.x
	t.Origin = p.xUnit.value(x[0])
	s := spacing(x[0], x[len(x)-1], len(x), p.xUnit)
	if r.hints.Resample {
		to := s
		if p.spacing > 0 {
			to = p.spacing
		}
		if err := resample(t, x, p.xUnit, to); err != nil {
			return r.errorAt(rows.start, err)
		}
		return nil
	}
	switch {
	case p.spacing == 0:
		t.Profile.Spacing, t.Report.SpacingBy = s, "x"
	case math.Abs(s-p.spacing) > even*p.spacing:
		return r.fail(r.cellAt(l, r.rowOffset(l, rows.start, 1), p.x), ErrHint,
			"x goes in steps of %s µm, and the hint \"spacing\" says %s µm", number(s), number(p.spacing))
	}
	h := &r.header.step
	said := h.unit.value(h.value)
	switch {
	case !h.length():
	case math.Abs(said-s) <= 1e-9*s && p.spacing == 0: // the same, and not through a division
		t.Profile.Spacing = said
	case math.Abs(said-s) > even*s:
		t.note("spacing-differs", "Line %d says a spacing of %s µm; x goes in steps of %s µm, which was used.", h.line, number(said), number(s))
	}
	return nil
}

// finite holds lengths in µm against what a float64 can say, and counts the points without a height.
func (r *reader) finite(t *Trace, l *layout) error {
	if s := t.Profile.Spacing; !(s > 0) || math.IsInf(s, 0) || math.IsInf(t.Origin, 0) || math.IsNaN(t.Origin) {
		return r.fail(l.start, ErrNumber, "x goes in steps of %g µm from %g µm, which cannot be counted with", s, t.Origin)
	}
	for i, v := range t.Profile.Z {
		if v != v {
			t.Report.Invalid++
		} else if math.Abs(v) > math.MaxFloat64 {
			return r.fail(l.start, ErrNumber, "the height of point %d is too large to be counted in µm", i+1)
		}
	}
	return nil
}

// report says how the trace was read.
func (r *reader) report(t *Trace, l *layout, p *plan, rows *rows) {
	rep, h := &t.Report, r.header
	rep.Format, rep.Encoding, rep.LineEnds = "delimited text", r.encoding, r.lineEnds
	if l.cells > 1 || l.trailing > 0 {
		rep.Delimiter = delimiterName(l.delimiter)
	}
	if l.mark >= 0 {
		rep.Decimal = map[byte]string{'.': "point", ',': "comma"}[l.decimal]
	}
	rep.XColumn, rep.XName, rep.XUnit, rep.XUnitBy = p.x+1, r.columnName(p.x), p.xUnit.text, p.xBy
	rep.ZColumn, rep.ZName, rep.ZUnit, rep.ZUnitBy = p.z+1, r.columnName(p.z), p.zUnit.text, p.zBy
	if p.area {
		rep.ZColumn, rep.ZName = p.column, ""
	}
	rep.Spacing = t.Profile.Spacing
	rep.Points = len(t.Profile.Z)
	rep.FirstLine, rep.LastRow = r.line(l.start), r.line(rows.lastLine)
	rep.Lines = h.taken
	add := func(at, number int, taken string) {
		line, _ := r.nextLine(at)
		rep.Lines = append(rep.Lines, LineRead{number, clipLine(line), taken})
	}
	for _, at := range l.skipped {
		add(at, r.line(at), "results above the data, not read")
	}
	slices.SortFunc(rep.Lines, func(a, b LineRead) int { return a.Number - b.Number })
	n := 0
	for at := range r.lines(l.start, rows.lastLine+1) {
		if n++; n > 4 {
			add(rows.lastLine, rep.LastRow, "row")
			break
		}
		add(at, rep.FirstLine+n-1, "row")
	}
	if r.hints.Trace <= 1 {
		r.preamble(l, func(line []byte, _, _ int, _ bool) {
			if len(t.above) < mostHeader && len(line) <= longestSaid {
				t.above = append(t.above, string(line))
			}
		})
	}
	r.doubtUnits(t, p)
	if h.points.line > 0 && h.points.value != float64(rep.Points) {
		t.note("count-differs", "Line %d says %s points; %d were read.", h.points.line, number(h.points.value), rep.Points)
	}
	if r.markSettled {
		t.note("decimal-by-header", "The decimal mark is read as the %s, although the file could be read in another way; if this is wrong, say so (hint decimal).", rep.Decimal)
	}
	if r.plainNames {
		t.note("delimiter-by-header", "The comma is read as the mark between cells, because it separates %q; if it is the decimal mark, say so (hint decimal).", clip(h.nameText))
	}
	if n := len(h.above); n > 0 {
		t.note("numbers-above", "%s with numbers above the rows, up to line %d, were not read.", plural(n, "line"), h.above[0])
	}
	if a := h.almost; a != nil {
		t.note("title", "Line %d, %q, was read as a title. If it is the first row of numbers, correct the cell that is not a number.", a.Number, a.Text)
	}
	if rows.blanks > 0 {
		t.note("blank-lines", "%s inside the trace were read as invalid points.", plural(rows.blanks, "blank line"))
	}
	if r.hints.Heights == "rows" {
		t.note("rows", "Every number, row by row, was read as a height (%d).", len(t.Profile.Z))
	}
}

func (r *reader) columnName(c int) string {
	if h := r.header; c >= 0 && c < len(h.names) && h.nameLine != h.unitLine {
		return h.names[c].text
	}
	return ""
}
