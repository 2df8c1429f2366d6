package tracefile

import (
	"bytes"
	"fmt"
	"math"
	"slices"
)

// readText reads delimited text.
func readText(data []byte, hints *Hints) (*Trace, error) {
	d, err := decode(data)
	if err != nil {
		return nil, err
	}
	r := &reader{decoded: d, hints: *hints, named: columns{hints.XColumn, hints.ZColumn}}
	r.absent = newAbsent(hints.Missing, grammar{decimal: '.'})
	if hints.Decimal == "," {
		r.absent = newAbsent(hints.Missing, grammar{decimal: ','})
	}
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
	r.header = r.readHeader(l)
	if hints.Heights == "rows" {
		return r.heightRows(l)
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
	if v, ok := bytes.CutPrefix(bytes.ToLower(bytes.TrimSpace(line)), []byte("sep=")); ok && len(line) < 8 {
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

// plan is what the columns of a table hold.
type plan struct {
	x, z       int // cells from 0; x is -1 where there is none
	xUnit      unit
	zUnit      unit
	xBy, zBy   string
	spacing    float64 // µm, where no x says it
	spacingBy  string
	counterCol int // a column that only counts, from 0, or -1
}

// table reads one trace from columns.
func (r *reader) table(l *layout) (*Trace, error) {
	p, err := r.plan(l)
	if err != nil {
		return nil, err
	}
	rows, err := r.readRows(l, p.x, p.z)
	if err != nil {
		return nil, err
	}
	t := &Trace{}
	rep := &t.Report
	step, bad, err := 0.0, 0, error(nil)
	if p.x >= 0 && len(rows.x) > 1 {
		if step, bad, err = axis(rows.x); err != nil {
			return nil, r.errorAt(r.cellAt(l, r.rowOffset(l, bad), p.x), err)
		}
	}
	if err := r.ask(l, &p, rows, step); err != nil {
		return nil, err
	}

	t.Profile.Z = rows.z
	t.Profile.Spacing = p.spacing
	rep.SpacingBy = p.spacingBy
	if p.x >= 0 && len(rows.x) > 1 && p.xUnit.factor > 0 {
		s := spacing(rows.x[0], rows.x[len(rows.x)-1], len(rows.x), p.xUnit.factor)
		switch {
		case p.spacing == 0:
			t.Profile.Spacing, rep.SpacingBy = s, "x"
		case math.Abs(s-p.spacing) > even*p.spacing:
			return nil, r.errorAt(r.cellAt(l, r.rowOffset(l, 1), p.x), because(ErrHint,
				"x goes in steps of %s µm, and the hint \"spacing\" says %s µm", number(s), number(p.spacing)))
		}
		if h := r.header.step; h.known && !h.unit.slope && math.Abs(h.value*h.unit.factor-s) > even*s {
			t.note("spacing-differs", fmt.Sprintf("Line %d says a spacing of %s µm; x goes in steps of %s µm, which was taken.",
				h.line, number(h.value*h.unit.factor), number(s)))
		}
		t.Origin = rows.x[0] * p.xUnit.factor
		if step < 0 {
			t.Origin = rows.x[len(rows.x)-1] * p.xUnit.factor
		}
	}
	if step < 0 {
		slices.Reverse(t.Profile.Z)
		rep.Turned = true
		t.note("turned", "x falls in the file; the trace was turned round.")
	}
	for i, v := range t.Profile.Z {
		t.Profile.Z[i] = p.zUnit.value(v)
	}
	r.fill(t, l, &p, rows)
	return t, nil
}

// fill completes the report and the notes.
func (r *reader) fill(t *Trace, l *layout, p *plan, rows *rows) {
	rep := &t.Report
	rep.Format = "delimited text"
	rep.Encoding, rep.LineEnds = r.encoding, r.lineEnds
	if l.cells > 1 || l.trailing {
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
		rep.Lines = append(rep.Lines, Line{n, string(line), "results above the data, not read"})
	}
	slices.SortFunc(rep.Lines, func(a, b Line) int { return a.Number - b.Number })
	at := l.start
	for i := 0; i < 4 && at < len(r.data) && at <= rows.lastLine; i++ {
		line, next := r.nextLine(at)
		rep.Lines = append(rep.Lines, Line{rep.FirstLine + i, string(line), "row"})
		at = next
	}
	if at <= rows.lastLine {
		line, _ := r.nextLine(rows.lastLine)
		rep.Lines = append(rep.Lines, Line{rep.LastRow, string(line), "row"})
	}
	for i, row := range rep.Lines {
		rep.Lines[i].Text = clip(row.Text)
	}
	if h := r.header.points; h.line > 0 && h.value != float64(rep.Points) {
		t.note("count-differs", fmt.Sprintf("Line %d says %s points; %d were read.", h.line, number(h.value), rep.Points))
	}
	if rows.blanks > 0 {
		t.note("blank-lines", fmt.Sprintf("%s inside the trace were taken for invalid points.", plural(rows.blanks, "blank line")))
	}
}

func (r *reader) columnName(c int) string {
	if c < 0 || c >= len(r.header.names) || r.header.nameLine == r.header.unitLine {
		return ""
	}
	return r.header.names[c]
}
