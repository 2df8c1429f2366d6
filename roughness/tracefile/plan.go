package tracefile

import (
	"fmt"
	"math"
	"slices"
)

// plan is what the columns of a table hold.
type plan struct {
	x, y, z    int // cells from 0; -1 where there is none
	xUnit      unit
	zUnit      unit
	xBy, zBy   string
	spacing    float64 // µm, where no x says it
	spacingBy  string
	counterCol int  // a column that only counts, from 0, or -1
	slopes     bool // z holds slopes
	paired     bool // the hint "trace" has chosen a pair of columns
}

// plan decides which columns hold x and z, from hints first and the header second.
func (r *reader) plan(l *layout) (plan, error) {
	p := plan{x: r.hints.XColumn - 1, y: r.hints.YColumn - 1, z: r.hints.ZColumn - 1, counterCol: -1}
	h := &r.header
	for _, c := range []struct {
		key string
		n   int
	}{{"x_column", r.hints.XColumn}, {"z_column", r.hints.ZColumn}, {"y_column", r.hints.YColumn}} {
		if c.n > l.cells {
			return p, r.errorAt(l.start, because(ErrHint, "hint %q: column %d is asked for and the rows have %s", c.key, c.n, plural(l.cells, "cell")))
		}
	}
	if r.hints.Spacing > 0 {
		p.spacing, p.spacingBy = r.hints.Spacing, "hint spacing"
	}
	roles := make([]role, l.cells)
	for i := range roles {
		if i < len(h.names) {
			roles[i] = columnRole(h.names[i])
		}
	}
	only := func(want role) int { // the one column with a role, or -1
		at := -1
		for i, ro := range roles {
			if ro == want && i != p.x && i != p.z && i != p.y {
				if at >= 0 {
					return -1
				}
				at = i
			}
		}
		return at
	}
	if err := r.doubleComma(l); err != nil {
		return p, err
	}
	if err := r.columnPairs(l, &p, roles); err != nil {
		return p, err
	}
	triples := r.hints.Heights == "triples" || l.cells == 3 && (r.hints.Row > 0 || r.hints.Column > 0) && r.hints.Heights == ""
	switch {
	case triples && l.cells < 3:
		return p, r.errorAt(l.start, because(ErrHint, "hint \"heights\": triples need three columns and the rows have %s", plural(l.cells, "cell")))
	case triples:
		p.x, p.y, p.z = or(p.x, only(isX), 0), or(p.y, only(isY), 1), or(p.z, only(isZ), 2)
		if p.x == p.y || p.y == p.z || p.x == p.z {
			return p, r.errorAt(l.start, because(ErrHint, "x, y and z cannot share a column: give \"x_column\", \"y_column\" and \"z_column\""))
		}
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
	case p.z < 0 && l.cells == 3 && only(isX) >= 0 && only(isY) >= 0 && only(isZ) >= 0:
		return p, r.errorAt(l.start, Questions{ask("row", "the columns are x, y and z of an area; which profile is meant")})
	case p.z < 0:
		if p.z = only(isZ); p.z < 0 {
			if l.rows == 1 {
				return p, r.errorAt(l.start, Questions{ask("heights", fmt.Sprintf("one row of %d cells", l.cells),
					Answer{Value: `"rows"`, Text: "each is a height"}, Answer{Value: `"column"`, Text: "they are one point"})})
			}
			q := r.which("z_column", "the heights", l, p.x)
			if h.names == nil {
				q.Answers = append(q.Answers, Answer{Hint: "heights", Value: `"rows"`, Text: "every number is a height, row after row"},
					Answer{Hint: "heights", Value: `"matrix"`, Text: "every number is a height of an area"})
			}
			return p, r.errorAt(l.start, Questions{q})
		}
	}
	if p.x < 0 && l.cells > 2 && p.spacing == 0 {
		if p.x = only(isX); p.x < 0 {
			if c := only(isCounter); c < 0 || h.step.line == 0 {
				q := r.which("x_column", "x", l, p.z)
				q.Answers = append(q.Answers, Answer{Hint: "spacing", Unit: "µm", Text: "none of them; distance between points"})
				return p, r.errorAt(l.start, Questions{q})
			}
		}
	}
	if p.x >= 0 && p.spacing > 0 && r.hints.XColumn == 0 && !r.hints.Resample && !triples {
		p.x = -1 // with a spacing no x column is needed
	}
	if p.x >= 0 && roles[p.x] == isCounter && r.hints.XColumn == 0 && r.hints.XUnit == "" && r.headerUnit(p.x).line == 0 {
		p.counterCol, p.x = p.x, -1
	}
	r.named = columns{x: p.x + 1, y: p.y + 1, z: p.z + 1}
	if l.cells <= 2 && r.hints.XColumn == 0 && r.hints.ZColumn == 0 {
		r.named = columns{} // every cell has to be a number
	}
	p.slopes = roles[p.z] == isSlope || h.slopeLine > 0
	return p, nil
}

// doubleComma explains rows with twice as many cells as the header has names: commas between the cells and in the numbers.
func (r *reader) doubleComma(l *layout) error {
	if l.delimiter != ',' || l.cells%2 != 0 || r.header.names != nil || r.named.named() {
		return nil
	}
	half := *l
	half.cells /= 2
	if h := r.readHeader(&half); h.nameLine == 0 || !r.telling(h.names) {
		return nil
	}
	return r.errorAt(l.start, because(ErrCells, "%d cells where the header names %d: the comma seems to separate the cells and to be the decimal mark as well; export with "+
		"another delimiter, or with quotes", l.cells, half.cells))
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

// columnPairs finds columns x z x z and chooses the pair that the hint "trace" names.
func (r *reader) columnPairs(l *layout, p *plan, roles []role) error {
	if l.cells < 4 || p.x >= 0 || p.z >= 0 || r.hints.Heights == "triples" {
		return nil
	}
	var at []int
	for i := 0; i+1 < len(roles); i++ {
		if roles[i] == isX && roles[i+1] != isX {
			at = append(at, i)
		}
	}
	told := slices.ContainsFunc(roles, func(ro role) bool { return ro != unnamed })
	if len(at) < 2 && !told && l.cells%2 == 0 && r.hints.Trace > 0 {
		at = nil
		for i := 0; i < l.cells; i += 2 {
			at = append(at, i)
		}
	}
	switch {
	case len(at) < 2:
		return nil
	case r.hints.Trace > len(at):
		return r.errorAt(l.start, because(errNoTrace, "hint \"trace\": the file has %s", plural(len(at), "trace")))
	case r.hints.Trace > 0:
		p.x = at[r.hints.Trace-1]
		p.z, p.paired = p.x+1, true
		return nil
	}
	var answers []Answer
	for i, c := range at {
		answers = append(answers, Answer{Value: fmt.Sprint(i + 1), Text: fmt.Sprintf("columns %d and %d", c+1, c+2)})
	}
	return r.errorAt(l.start, Questions{askFor("trace", fmt.Sprintf("the columns hold %s", plural(len(at), "trace")), answers)})
}

// most is the number of readings that a question lists one by one.
const most = 12

// which asks for a column other than the one that is taken.
func (r *reader) which(hint, what string, l *layout, taken int) Question {
	var answers []Answer
	for i := 0; i < l.cells && i < most; i++ {
		if i == taken {
			continue
		}
		a := Answer{Value: fmt.Sprint(i + 1), Text: fmt.Sprintf("column %d", i+1)}
		if n := r.columnName(i); n != "" {
			a.Text += ", " + clip(n)
		}
		answers = append(answers, a)
	}
	text := fmt.Sprintf("the rows have %d columns and none of them is certain to be %s", l.cells, what)
	if l.cells > most {
		return ask(hint, text, answers...)
	}
	return askFor(hint, text, answers)
}

// headerUnit is the unit that a row of units or a name gives to a column, line 0 is none.
func (r *reader) headerUnit(c int) said {
	if all := r.headerUnits(c); len(all) > 0 {
		return all[len(all)-1]
	}
	return said{}
}

// ask determines the units and the spacing, or returns all open questions. step is that of x in its own unit.
func (r *reader) ask(l *layout, p *plan, rows *rows, step float64) error {
	l = at(l, rows.start)
	h := &r.header
	open, where := r.contradictions(l, p)
	asked := func(hint string) bool {
		return slices.ContainsFunc(open, func(q Question) bool { return q.Hint == hint })
	}
	if where < 0 {
		where = l.start
	}
	if p.x >= 0 {
		switch own := r.headerUnit(p.x); {
		case r.hints.XUnit != "":
			p.xUnit, _ = parseUnit(r.hints.XUnit)
			p.xBy = "hint x_unit"
		case own.known && !own.unit.slope:
			p.xUnit, p.xBy = own.unit, own.place()
		case h.x.known && !h.x.unit.slope:
			p.xUnit, p.xBy = h.x.unit, h.x.place()
		case h.step.known && !h.step.unit.slope && step != 0 &&
			math.Abs(math.Abs(step)-h.step.value) <= even*h.step.value:
			p.xUnit, p.xBy = h.step.unit, h.step.place()+", which gives the same spacing as x"
		case p.spacing > 0, asked("x_unit"):
		default:
			open = append(open, ask("x_unit", "the file does not say the unit of x"))
		}
		if len(rows.x) < 2 && p.spacing == 0 {
			open = append(open, ask("spacing", "one point has no spacing"))
		}
	} else if p.spacing == 0 && !asked("spacing") {
		switch {
		case h.step.line > 0 && h.step.known && !h.step.unit.slope:
			p.spacing, p.spacingBy = h.step.value*h.step.unit.factor, h.step.place()
		case h.step.line > 0 && h.x.known && !h.x.unit.slope:
			p.spacing, p.spacingBy = h.step.value*h.x.unit.factor, h.step.place()
		default:
			text := "the file does not say the distance between points"
			if p.counterCol >= 0 {
				text = fmt.Sprintf("column %d only counts the points, and the file does not say their distance", p.counterCol+1)
			}
			q := ask("spacing", text)
			if z := rows.z; l.cells == 1 && len(z) > 1 && z[0] > 0 && (r.hints.Heights == "" || r.hints.Heights == "column") {
				q.Answers = append(q.Answers, Answer{Hint: "first", Value: `"spacing"`, Text: fmt.Sprintf("the column begins with it: %s µm", number(z[0]))})
				if len(z) > 3 && z[1] == float64(len(z)-2) {
					q.Answers = append(q.Answers,
						Answer{Hint: "first", Value: `"length-count"`, Text: fmt.Sprintf("the column begins with the length of the trace, %s mm, and the number of points", number(z[0]))},
						Answer{Hint: "first", Value: `"span-count"`, Text: fmt.Sprintf("the column begins with the distance from the first point to the last, %s mm, and the number of points", number(z[0]))})
				}
			}
			open = append(open, q)
		}
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
	default:
		q := ask("z_unit", "the file does not say the unit of the heights")
		if p.slopes || r.hints.Integrate {
			q = askFor("z_unit", "the file does not say the unit of the slopes", []Answer{{Value: `"µrad"`, Text: "microradians"},
				{Value: `"mrad"`, Text: "milliradians"}, {Value: `"rad"`, Text: "radians"}, {Value: `"deg"`, Text: "degrees"}})
		}
		open = append(open, q)
	}
	p.slopes = p.zUnit.slope || p.slopes && r.hints.ZUnit == "" // a unit of length in the hints makes heights of them
	switch {
	case p.slopes && !r.hints.Integrate:
		what := ""
		if p.zUnit.text != "" {
			what = " (" + p.zUnit.text + ")"
		}
		open = append(open, ask("integrate", fmt.Sprintf("column %d holds slopes%s, not heights", p.z+1, what)))
	case r.hints.Integrate && p.zUnit.factor > 0 && !p.zUnit.slope:
		return r.errorAt(l.start, because(ErrHint, "hint \"integrate\": the unit of column %d is %s, which is no slope", p.z+1, p.zUnit.text))
	}
	p.slopes = p.slopes || r.hints.Integrate
	if len(open) > 0 {
		return r.errorAt(where, open)
	}
	return nil
}
