package tracefile

import (
	"fmt"
	"math"
)

// plan decides which columns hold x and z and in which units, from hints first and the header second.
func (r *reader) plan(l *layout) (plan, error) {
	p := plan{x: -1, z: -1, counterCol: -1}
	h := &r.header
	for _, c := range []struct {
		key string
		n   int
	}{{"x_column", r.hints.XColumn}, {"z_column", r.hints.ZColumn}} {
		if c.n > l.cells {
			return p, r.errorAt(l.start, because(ErrHint, "hint %q: column %d is asked for and the rows have %s", c.key, c.n, plural(l.cells, "cell")))
		}
	}
	roles := make([]role, l.cells)
	for i := range roles {
		if i < len(h.names) {
			roles[i] = roleOf(h.names[i])
		}
	}
	p.z = r.hints.ZColumn - 1
	p.x = r.hints.XColumn - 1
	if r.hints.Spacing > 0 {
		p.spacing, p.spacingBy = r.hints.Spacing, "hint spacing"
	}
	only := func(want role) int { // the one column with a role, or -1
		at := -1
		for i, ro := range roles {
			if ro == want && i != p.x && i != p.z {
				if at >= 0 {
					return -1
				}
				at = i
			}
		}
		return at
	}
	switch {
	case l.cells == 1:
		p.z, p.x = 0, -1
	case l.cells == 2 && p.z < 0 && p.x < 0:
		p.x, p.z = 0, 1
		if roles[1] == isX && roles[0] != isX {
			p.x, p.z = 1, 0
		}
	case l.cells == 2 && p.z < 0:
		p.z = 1 - p.x
	case l.cells == 2 && p.x < 0:
		p.x = 1 - p.z
	case p.z < 0:
		if p.z = only(isZ); p.z < 0 {
			return p, r.errorAt(l.start, Questions{r.which("z_column", "the heights", l)})
		}
	}
	if p.x < 0 && l.cells > 2 && p.spacing == 0 {
		if p.x = only(isX); p.x < 0 {
			if c := only(isCounter); c < 0 || h.step.line == 0 {
				return p, r.errorAt(l.start, Questions{r.which("x_column", "x", l), {Hint: "spacing", Text: "or the spacing in µm"}})
			}
		}
	}
	if p.x >= 0 && p.spacing > 0 && r.hints.XColumn == 0 {
		p.x = -1 // with a spacing no x column is needed
	}
	if p.x >= 0 && roles[p.x] == isCounter && r.hints.XColumn == 0 && r.hints.XUnit == "" && !r.hasUnit(p.x) {
		p.counterCol, p.x = p.x, -1
	}
	r.named = columns{p.x + 1, p.z + 1}
	if l.cells <= 2 && r.hints.XColumn == 0 && r.hints.ZColumn == 0 {
		r.named = columns{} // every cell has to be a number
	}
	if p.z >= 0 && (roles[p.z] == isSlope || h.slopeLine > 0) {
		return p, r.errorAt(l.start, because(ErrHint, "column %d holds slopes, not heights", p.z+1))
	}
	return p, nil
}

// which asks for a column.
func (r *reader) which(hint, what string, l *layout) Question {
	q := Question{Hint: hint, Text: fmt.Sprintf("the rows have %d columns and none of them is certain to be %s", l.cells, what)}
	for i := 0; i < l.cells && i < 12; i++ {
		a := Answer{Value: fmt.Sprint(i + 1)}
		if n := r.columnName(i); n != "" {
			a.Text = clip(n)
		}
		q.Answers = append(q.Answers, a)
	}
	return q
}

func (r *reader) hasUnit(c int) bool {
	u, _ := r.headerUnit(c)
	return u.factor > 0
}

// headerUnit is the unit that a row of units or a name gives to a column.
func (r *reader) headerUnit(c int) (unit, string) {
	h := &r.header
	if c < len(h.units) {
		if u, ok := parseUnit(trimBrackets(h.units[c])); ok {
			return u, fmt.Sprintf("line %d", h.unitLine)
		}
	}
	if c < len(h.names) {
		if base, u, known := splitUnit(h.names[c]); known && (base != "" || h.unitLine > 0) {
			return u, fmt.Sprintf("line %d", h.nameLine)
		}
	}
	return unit{}, ""
}

// ask settles the units and the spacing, or returns all questions that are left. step is that of x in its own unit.
func (r *reader) ask(l *layout, p *plan, rows *rows, step float64) error {
	h := &r.header
	var open Questions
	where := l.start
	if p.x >= 0 {
		switch u, by := r.headerUnit(p.x); {
		case r.hints.XUnit != "":
			p.xUnit, _ = parseUnit(r.hints.XUnit)
			p.xBy = "hint x_unit"
		case u.factor > 0 && !u.slope:
			p.xUnit, p.xBy = u, by
		case h.x.known && !h.x.unit.slope:
			p.xUnit, p.xBy = h.x.unit, fmt.Sprintf("line %d", h.x.line)
		case h.step.known && !h.step.unit.slope && step != 0 &&
			math.Abs(math.Abs(step)-h.step.value) <= even*h.step.value:
			p.xUnit, p.xBy = h.step.unit, fmt.Sprintf("line %d, whose spacing x has", h.step.line)
		case p.spacing > 0:
		default:
			open = append(open, Question{Hint: "x_unit", Text: "the file does not say the unit of x"})
		}
		if len(rows.x) < 2 && p.spacing == 0 {
			open = append(open, Question{Hint: "spacing", Text: "one point has no spacing"})
		}
	} else if p.spacing == 0 {
		switch {
		case h.step.line > 0 && h.step.known && !h.step.unit.slope:
			p.spacing, p.spacingBy = h.step.value*h.step.unit.factor, fmt.Sprintf("line %d", h.step.line)
		case h.step.line > 0 && h.x.known && !h.x.unit.slope:
			p.spacing, p.spacingBy = h.step.value*h.x.unit.factor, fmt.Sprintf("line %d", h.step.line)
		default:
			text := "the file does not say the distance between points (µm)"
			if p.counterCol >= 0 {
				text = fmt.Sprintf("column %d only counts the points, and the file does not say their distance (µm)", p.counterCol+1)
			}
			open = append(open, Question{Hint: "spacing", Text: text})
		}
	}
	switch u, by := r.headerUnit(p.z); {
	case r.hints.ZUnit != "":
		p.zUnit, _ = parseUnit(r.hints.ZUnit)
		p.zBy = "hint z_unit"
	case u.factor > 0:
		p.zUnit, p.zBy = u, by
	case h.z.known:
		p.zUnit, p.zBy = h.z.unit, fmt.Sprintf("line %d", h.z.line)
	default:
		open = append(open, Question{Hint: "z_unit", Text: "the file does not say the unit of the heights"})
	}
	if p.zUnit.slope && len(open) == 0 {
		return r.errorAt(l.start, because(ErrHint, "column %d holds slopes (%s), not heights", p.z+1, p.zUnit.text))
	}
	if len(open) > 0 {
		return r.errorAt(where, open)
	}
	return nil
}
