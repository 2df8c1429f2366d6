package tracefile

import (
	"fmt"
	"math"
	"slices"
)

// The third pass, fourth question: in which units do the columns count, and how far apart are the points?

// units determines the units and the spacing, or returns all open questions. step is that of x in its own unit.
func (r *reader) units(l *layout, p *plan, rows *rows, step float64) error {
	h := r.header
	open, where := r.contradictions(l, p)
	asked := func(hint string) bool {
		return slices.ContainsFunc(open, func(q HintQuestion) bool { return q.Hint == hint })
	}
	if where < 0 || rows.which != nil {
		where = l.start
	}
	open = append(rows.which, open...)
	same := h.step.length() && step != 0 && math.Abs(math.Abs(step)-h.step.value) <= even*h.step.value
	switch own := r.headerUnit(p.x); {
	case p.x < 0 && p.spacing == 0 && !asked("spacing"):
		unit := h.step.unit
		if !h.step.length() {
			unit = h.x.unit
		}
		if h.step.line > 0 && (h.step.length() || h.x.length()) {
			p.spacing, p.spacingBy = h.step.value*unit.factor, h.step.place()
		} else {
			open = append(open, r.askSpacing(l, p, rows.z))
		}
	case p.x < 0:
	case r.hints.XUnit != "":
		p.xUnit, _ = parseUnit(r.hints.XUnit)
		p.xBy = "hint x_unit"
	case own.length():
		p.xUnit, p.xBy = own.unit, own.place()
	case h.x.length():
		p.xUnit, p.xBy = h.x.unit, h.x.place()
	case same:
		p.xUnit, p.xBy = h.step.unit, h.step.place()+", which gives the same spacing as x"
	case p.spacing == 0 && !asked("x_unit"):
		open = append(open, ask("x_unit", "the file does not say the unit of x"))
	}
	if p.x >= 0 && len(rows.x) < 2 && p.spacing == 0 {
		open = append(open, ask("spacing", "one point has no spacing"))
	}
	switch own := r.headerUnit(p.z); {
	case p.zBy != "":
	case r.hints.ZUnit != "":
		p.zUnit, _ = parseUnit(r.hints.ZUnit)
		p.zBy = "hint z_unit"
	case own.known:
		p.zUnit, p.zBy = own.unit, own.place()
	case h.z.known:
		p.zUnit, p.zBy = h.z.unit, h.z.place()
	case p.slopes || r.hints.Integrate:
		open = append(open, ask("z_unit", "the file does not say the unit of the slopes").only(
			answers("µrad", "microradians", "mrad", "milliradians", "rad", "radians", "deg", "degrees")))
	default:
		open = append(open, ask("z_unit", "the file does not say the unit of the heights"))
	}
	p.slopes = p.zUnit.slope || p.slopes && r.hints.ZUnit == "" // a unit of length in the hints makes heights of them
	switch {
	case p.slopes && !r.hints.Integrate:
		what := ""
		if p.zUnit.text != "" {
			what = " (" + p.zUnit.text + ")"
		}
		open = append(open, ask("integrate", "column %d holds slopes%s, not heights", p.z+1, what))
	case r.hints.Integrate && p.zUnit.factor > 0 && !p.zUnit.slope:
		return r.fail(l.start, ErrHint, "hint \"integrate\": the unit of column %d is %s, which is no slope", p.z+1, p.zUnit.text)
	}
	p.slopes = p.slopes || r.hints.Integrate
	if len(open) > 0 {
		return r.open(where, open...)
	}
	return nil
}

// leastHeight is how many µm a trace in nanometres is high at least, or else the unit is doubted: the noise of tracing instruments is about
// as high (own choice).
const leastHeight = 0.02

// doubtUnits tells where a hint says another unit than the file, and where the file says nanometres of heights that are too small for it.
func (r *reader) doubtUnits(t *Trace, p *plan) {
	for _, c := range []struct {
		hint, axis string
		used       unit
		all        []said
	}{{r.hints.XUnit, "x", p.xUnit, append(r.headerUnits(p.x), r.header.x.all...)}, {r.hints.ZUnit, "z", p.zUnit, append(r.headerUnits(p.z), r.header.z.all...)}} {
		i := slices.IndexFunc(c.all, func(s said) bool { return s.known && (s.unit.factor != c.used.factor || s.unit.slope != c.used.slope) })
		if c.hint != "" && i >= 0 {
			t.note("unit-doubt", "By line %d the unit of %s is %s; the hint says %s, which was used. Look which of them is right: every value depends on it.", c.all[i].line, c.axis, c.all[i].unit.text, c.used.text)
		}
	}
	if r.hints.ZUnit != "" || p.zUnit.slope || p.zUnit.factor != 1e-3 {
		return
	}
	low, high := math.Inf(1), math.Inf(-1)
	for _, v := range t.Profile.Z {
		if v < low {
			low = v
		}
		if v > high {
			high = v
		}
	}
	if high > low && high-low < leastHeight {
		t.note("unit-doubt", "In nanometres (%s) the trace is %s nm high, as little as the noise of a tracing instrument. If the heights are micrometres, say so (hint z_unit).", p.zBy, number(math.Round((high-low)*1e5)/100))
	}
}

// askSpacing asks for the distance between points, which a single column may begin with.
func (r *reader) askSpacing(l *layout, p *plan, z []float64) HintQuestion {
	q := ask("spacing", "the file does not say the distance between points")
	if p.counterCol >= 0 {
		q = ask("spacing", "column %d only counts the points, and the file does not say their distance", p.counterCol+1)
	}
	first := func(value, format string) {
		q.Answers = append(q.Answers, HintAnswer{Hint: "first", Value: jsonString(value), Text: fmt.Sprintf("the column begins with "+format, number(z[0]))})
	}
	if l.cells == 1 && len(z) > 1 && z[0] > 0 && (r.hints.Heights == "" || r.hints.Heights == "column") {
		first("spacing", "it: %s µm")
		if len(z) > 3 && z[1] == float64(len(z)-2) {
			first("length-count", "the length of the trace, %s mm, and the number of points")
			first("span-count", "the distance from the first point to the last, %s mm, and the number of points")
		}
	}
	return q
}

// contradictions asks for what a file says twice and not the same, unless a hint has answered it: the units of x and z, and the
// spacing where no x gives it. at is the offset of the first place that contradicts one above it, or -1.
func (r *reader) contradictions(l *layout, p *plan) (open Questions, at int) {
	h, at := r.header, -1
	unit := func(a, b said) bool { return a.unit.factor != b.unit.factor || a.unit.slope != b.unit.slope }
	for _, c := range []struct {
		hint, what string
		column     int
		all        []said
		settled    bool
		differ     func(a, b said) bool
	}{
		{"x_unit", "that the unit of x is", p.x, append(r.headerUnits(p.x), h.x.all...), p.x < 0 || r.hints.XUnit != "", unit},
		{"z_unit", "that the unit of z is", p.z, append(r.headerUnits(p.z), h.z.all...), p.zBy != "" || r.hints.ZUnit != "", unit},
		{"spacing", "a spacing of", -1, slices.Clone(h.step.all), p.x >= 0 || p.spacing > 0, func(first, s said) bool {
			a, b := first.value, s.value
			if first.known && s.known { // where one has no unit it is that of the other
				a, b = first.unit.value(a), s.unit.value(b)
			}
			return math.Abs(a-b) > 1e-9*a
		}},
	} {
		slices.SortStableFunc(c.all, func(a, b said) int { return a.line - b.line })
		i := slices.IndexFunc(c.all, func(s said) bool { return c.differ(c.all[0], s) })
		if c.settled || i < 0 {
			continue
		}
		first, s := c.all[0], c.all[i]
		where := r.lineOffset(s.line)
		if c.column >= 0 && (s.line == h.nameLine || s.line == h.unitLine) {
			where = r.cellAt(l, where, c.column)
		}
		open = append(open, ask(c.hint, "line %d says %s %s, and line %d says %s", first.line, c.what, first.says(), s.line, s.says()))
		if at < 0 || where < at {
			at = where
		}
	}
	return open, at
}

// headerUnit is the unit that a row of units or a name gives to a column, line 0 is none.
func (r *reader) headerUnit(c int) said {
	if all := r.headerUnits(c); len(all) > 0 {
		return all[len(all)-1]
	}
	return said{}
}

// headerUnits are the units that the names and a row of units give to a column.
func (r *reader) headerUnits(c int) []said {
	h := r.header
	var out []said
	if c >= 0 && c < len(h.names) && h.nameLine != h.unitLine {
		if n := h.names[c]; n.known && (n.base != "" || h.unitLine > 0) {
			out = append(out, said{line: h.nameLine, unit: n.unit, known: true})
		}
	}
	if c >= 0 && c < len(h.units) {
		if u, ok := parseUnit(trimBrackets(h.units[c].text)); ok {
			out = append(out, said{line: h.unitLine, unit: u, known: true})
		}
	}
	return out
}

// lineOffset is where a line begins.
func (r *reader) lineOffset(number int) int {
	for at := range r.lines(0, len(r.data)) {
		if number--; number == 0 {
			return at
		}
	}
	return len(r.data)
}
