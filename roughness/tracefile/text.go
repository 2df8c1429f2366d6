package tracefile

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"math"
	"slices"
)

// readText reads delimited text.
func readText(ctx context.Context, data []byte, hints *Hints, progress func(done, total int)) (*Trace, error) {
	d, err := decode(data)
	if err != nil {
		return nil, err
	}
	r := &reader{decoded: d, hints: *hints, ctx: ctx, progress: progress, room: &room{}, size: len(data),
		named: columns{x: hints.XColumn, y: hints.YColumn, z: hints.ZColumn}}
	r.absent = newAbsent(hints.Missing, grammar{decimal: '.'})
	if len(bytes.TrimSpace(r.data)) == 0 {
		return nil, &Error{Line: 1, Column: 1, Err: because(ErrEmpty, "nothing in the file")}
	}
	if err := r.skip(); err != nil {
		return nil, err
	}
	l, err := r.settle()
	if err != nil {
		return nil, err
	}
	r.absent = newAbsent(hints.Missing, grammar{decimal: l.decimal}) // as the file writes its numbers
	r.header = r.readHeader(l)
	matrix := hints.Heights == "matrix" || hints.Heights == "" && (hints.Row > 0 || hints.Column > 0) && l.cells > 3
	switch {
	case r.header.wrong >= 0:
		return nil, r.wrongRow(l, r.header.wrong)
	case hints.Trace > 1 && (matrix || hints.Heights == "rows"):
		return nil, r.errorAt(l.start, oneTrace())
	case matrix || hints.Heights == "rows":
		return r.heights(l, !matrix)
	}
	return r.table(l)
}

// skip passes the lines that the hints name, and a first line "sep=;", which names the delimiter.
func (r *reader) skip() error {
	for i := 0; i < r.hints.SkipLines; i++ {
		if _, r.top = r.nextLine(r.top); r.top >= len(r.data) {
			return &Error{Err: because(ErrHint, "hint \"skip_lines\": %d lines are to be skipped and the file has %d", r.hints.SkipLines, i+1)}
		}
	}
	line, next := r.nextLine(r.top)
	if v, ok := bytes.CutPrefix(bytes.ToLower(bytes.TrimSpace(line[:min(len(line), 8)])), []byte("sep=")); ok && len(line) < 8 {
		if r.hints.Delimiter == "" {
			if len(v) == 0 {
				v = []byte("\t")
			}
			if _, ok := delimiterByte(string(v)); ok {
				r.hints.Delimiter = string(v)
			}
		}
		r.top = next
	}
	return nil
}

// table reads one trace from columns.
func (r *reader) table(l *layout) (*Trace, error) {
	p, err := r.plan(l)
	if err != nil {
		return nil, err
	}
	rows, err := r.chosen(l, &p)
	if err != nil {
		return nil, err
	}
	l = at(l, rows.start)
	if p.y >= 0 {
		if err := r.pickTriples(l, &p, rows); err != nil {
			return nil, err
		}
	}
	t := &Trace{}
	if err := r.first(t, l, &p, rows); err != nil {
		return nil, err
	}
	step, bad := 0.0, 0
	if p.x >= 0 && len(rows.x) > 1 {
		switch step, bad, err = axis(rows.x); {
		case err == nil:
		case p.y >= 0:
			along := p.x
			if r.hints.Column > 0 {
				along = p.y
			}
			return nil, r.errorAt(r.cellAt(l, r.rowOffset(l, rows.start, rows.pick(bad)), along), err)
		default:
			where := r.rowOffset(l, rows.start, bad)
			if where == rows.part {
				return nil, r.errorAt(where, Questions{ask("trace", "x starts again after a blank line: the file holds more than one trace")})
			}
			if !r.hints.Resample || !errors.Is(err, ErrUneven) {
				return nil, r.errorAt(r.cellAt(l, where, p.x), err)
			}
		}
	}
	if err := r.ask(l, &p, rows, step); err != nil {
		return nil, err
	}
	if r.hints.Resample && p.x >= 0 {
		if i, err := strict(rows.x); err != nil {
			return nil, r.errorAt(r.cellAt(l, r.rowOffset(l, rows.start, i), p.x), err)
		}
	}
	if step < 0 {
		slices.Reverse(rows.x)
		t.Profile.Z = rows.z
		reverse(t)
	}
	if err := r.lay(t, l, &p, rows, step); err != nil {
		return nil, err
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
			return nil, r.errorAt(r.rowOffset(l, rows.start, i), because(ErrNumber, "a slope is missing here: the slopes after it cannot be integrated"))
		}
		t.note("integrated", "The slopes were integrated (trapezoids, from 0 at the first point).")
	}
	if err := r.finite(t, l); err != nil {
		return nil, err
	}
	r.fill(t, l, &p, rows)
	return t, nil
}

// lay gives the points their places: by x, or by the spacing that is given.
func (r *reader) lay(t *Trace, l *layout, p *plan, rows *rows, step float64) error {
	t.Profile.Z, t.Profile.Spacing = rows.z, p.spacing
	t.Report.SpacingBy = p.spacingBy
	n := len(rows.x)
	if p.x < 0 || n < 2 || p.xUnit.factor <= 0 {
		return nil
	}
	t.Origin = p.xUnit.value(rows.x[0])
	s := spacing(rows.x[0], rows.x[n-1], n, p.xUnit)
	if r.hints.Resample {
		to := s
		if p.spacing > 0 {
			to = p.spacing
		}
		for i := n - 1; i >= 0; i-- {
			rows.x[i] = p.xUnit.value(rows.x[i]) - t.Origin
		}
		if err := resample(t, rows.x, to); err != nil {
			err.Line, err.Column = r.place(rows.start)
			return err
		}
		rows.missing = 0
		for _, v := range t.Profile.Z {
			if v != v {
				rows.missing++
			}
		}
		return nil
	}
	switch {
	case p.spacing == 0:
		t.Profile.Spacing, t.Report.SpacingBy = s, "x"
	case math.Abs(s-p.spacing) > even*p.spacing:
		return r.errorAt(r.cellAt(l, r.rowOffset(l, rows.start, 1), p.x), because(ErrHint,
			"x goes in steps of %s µm, and the hint \"spacing\" says %s µm", number(s), number(p.spacing)))
	}
	h := r.header.step
	said := h.unit.value(h.value)
	switch {
	case !h.known || h.unit.slope:
	case math.Abs(said-s) <= 1e-9*s && p.spacing == 0: // the same, and not through a division
		t.Profile.Spacing = said
	case math.Abs(said-s) > even*s:
		t.note("spacing-differs", fmt.Sprintf("Line %d says a spacing of %s µm; x goes in steps of %s µm, which was used.",
			h.line, number(said), number(s)))
	}
	return nil
}

// finite holds lengths in µm against what a float64 can say.
func (r *reader) finite(t *Trace, l *layout) error {
	if s := t.Profile.Spacing; !(s > 0) || math.IsInf(s, 0) || math.IsInf(t.Origin, 0) || math.IsNaN(t.Origin) {
		return r.errorAt(l.start, because(ErrNumber, "x goes in steps of %g µm from %g µm, which cannot be counted with", s, t.Origin))
	}
	for i, v := range t.Profile.Z {
		if math.Abs(v) > math.MaxFloat64 {
			return r.errorAt(l.start, because(ErrNumber, "the height of point %d is too large to be counted in µm", i+1))
		}
	}
	return nil
}

// fill completes the report and the notes.
func (r *reader) fill(t *Trace, l *layout, p *plan, rows *rows) {
	rep := &t.Report
	rep.Format = "delimited text"
	rep.Encoding, rep.LineEnds = r.encoding, r.lineEnds
	if l.cells > 1 || l.trailing > 0 {
		rep.Delimiter = delimiterName(l.delimiter)
	}
	if l.mark >= 0 {
		rep.Decimal = map[byte]string{'.': "point", ',': "comma"}[l.decimal]
	}
	rep.XColumn, rep.ZColumn = p.x+1, p.z+1
	rep.XName, rep.ZName = r.columnName(p.x), r.columnName(p.z)
	rep.XUnit, rep.XUnitBy = p.xUnit.text, p.xBy
	rep.ZUnit, rep.ZUnitBy = p.zUnit.text, p.zBy
	rep.Spacing = t.Profile.Spacing
	rep.Points, rep.Invalid = len(t.Profile.Z), rows.missing
	rep.FirstLine, _ = r.place(l.start)
	rep.LastRow, _ = r.place(rows.lastLine)
	rep.Lines = r.header.taken
	for _, at := range l.skipped {
		line, _ := r.nextLine(at)
		n, _ := r.place(at)
		rep.Lines = append(rep.Lines, Line{n, clipLine(line), "results above the data, not read"})
	}
	slices.SortFunc(rep.Lines, func(a, b Line) int { return a.Number - b.Number })
	at := l.start
	for i := 0; i < 4 && at < len(r.data) && at <= rows.lastLine; i++ {
		line, next := r.nextLine(at)
		rep.Lines = append(rep.Lines, Line{rep.FirstLine + i, clipLine(line), "row"})
		at = next
	}
	if at <= rows.lastLine {
		line, _ := r.nextLine(rows.lastLine)
		rep.Lines = append(rep.Lines, Line{rep.LastRow, clipLine(line), "row"})
	}
	if h := r.header.points; h.line > 0 && h.value != float64(rep.Points) {
		t.note("count-differs", fmt.Sprintf("Line %d says %s points; %d were read.", h.line, number(h.value), rep.Points))
	}
	if r.markSettled {
		t.note("decimal-by-header", fmt.Sprintf("The decimal mark is read as the %s, although the file could be read in another way; if this is wrong, say so (hint decimal).", rep.Decimal))
	}
	if r.plainNames {
		t.note("delimiter-by-header", fmt.Sprintf("The comma is read as the mark between cells, because it separates %q; if it is the decimal mark, say so (hint decimal).", clip(r.header.nameText)))
	}
	if n := len(r.header.above); n > 0 {
		t.note("numbers-above", fmt.Sprintf("%s with numbers above the rows, up to line %d, were not read.", plural(n, "line"), r.header.above[0]))
	}
	if a := r.header.almost; a != nil {
		t.note("title", fmt.Sprintf("Line %d, %q, was read as a title. If it is the first row of numbers, correct the cell that is not a number.", a.Number, a.Text))
	}
	if rows.blanks > 0 {
		t.note("blank-lines", fmt.Sprintf("%s inside the trace were read as invalid points.", plural(rows.blanks, "blank line")))
	}
}

func (r *reader) columnName(c int) string {
	if c < 0 || c >= len(r.header.names) || r.header.nameLine == r.header.unitLine {
		return ""
	}
	return r.header.names[c]
}
