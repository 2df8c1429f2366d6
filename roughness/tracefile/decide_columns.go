package tracefile

import (
	"fmt"
	"math"
	"slices"
)

// The third pass, third question: which columns hold x and z, and which rows are the trace?

// plan is what the columns of a table hold.
type plan struct {
	columns
	xUnit, zUnit unit
	xBy, zBy     string
	spacing      float64 // µm, where no x says it
	spacingBy    string
	counterCol   int  // a column that only counts, from 0, or -1
	slopes       bool // z holds slopes
	paired       bool // the hint "trace" has chosen a pair of columns
	area         bool // every number is a height
	column       int  // that of an area which is the trace, from 1, or 0
}

// columns decides which columns hold x and z, from hints first and the header second, and reads the rows.
func (r *reader) columns(l *layout) (plan, *rows, error) {
	h := &r.hints
	p := plan{columns: columns{h.XColumn - 1, h.YColumn - 1, h.ZColumn - 1}, counterCol: -1}
	if h.Spacing > 0 {
		p.spacing, p.spacingBy = h.Spacing, "hint spacing"
	}
	matrix := h.Heights == "matrix" || h.Heights == "" && (h.Row > 0 || h.Column > 0) && l.cells > 3
	if p.area = matrix || h.Heights == "rows"; p.area {
		if h.Trace > 1 {
			return p, nil, r.errorAt(l.start, noTrace(1))
		}
		p.columns = columns{-1, -1, 0}
		got, err := r.readHeights(l, !matrix)
		if matrix {
			p.column = h.Column
			plain := *r.header
			plain.names, plain.units = nil, nil
			r.header = &plain
		}
		return p, got, err
	}
	if err := r.plan(l, &p); err != nil {
		return p, nil, err
	}
	got, err := r.chosen(l, &p)
	if err == nil && p.y >= 0 {
		err = r.pickTriples(l.at(got.start), got)
	}
	return p, got, err
}

// plan decides about the columns of a table.
func (r *reader) plan(l *layout, p *plan) error {
	hints, h := &r.hints, r.header
	for _, c := range []struct {
		key string
		n   int
	}{{"x_column", hints.XColumn}, {"z_column", hints.ZColumn}, {"y_column", hints.YColumn}} {
		if c.n > l.cells {
			return r.fail(l.start, ErrHint, "hint %q: column %d is asked for and the rows have %s", c.key, c.n, plural(l.cells, "cell"))
		}
	}
	roles := make([]role, l.cells)
	for i := range min(len(roles), len(h.names)) {
		roles[i] = h.names[i].column()
	}
	only := func(want role) int { // the one column with a role, or -1
		at := -1
		for i, ro := range roles {
			if ro == want && !p.has(i) {
				if at >= 0 {
					return -1
				}
				at = i
			}
		}
		return at
	}
	if err := r.doubleComma(l); err != nil {
		return err
	}
	if err := r.columnPairs(l, p, roles); err != nil {
		return err
	}
	triples := hints.Heights == "triples" || l.cells == 3 && (hints.Row > 0 || hints.Column > 0) && hints.Heights == ""
	switch {
	case triples && l.cells < 3:
		return r.fail(l.start, ErrHint, "hint \"heights\": triples need three columns and the rows have %s", plural(l.cells, "cell"))
	case triples:
		p.x, p.y, p.z = or(p.x, only(isX), 0), or(p.y, only(isY), 1), or(p.z, only(isZ), 2)
		if p.x == p.y || p.y == p.z || p.x == p.z {
			return r.fail(l.start, ErrHint, "x, y and z cannot share a column: give \"x_column\", \"y_column\" and \"z_column\"")
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
		return r.open(l.start, ask("row", "the columns are x, y and z of an area; which profile is meant"))
	case p.z < 0:
		if p.z = only(isZ); p.z < 0 {
			if l.rows == 1 {
				return r.open(l.start, ask("heights", "one row of %d cells", l.cells).only(answers("rows", "each is a height", "column", "they are one point")))
			}
			q := r.which("z_column", "the heights", l, p.x)
			if h.names == nil {
				q.Answers = append(q.Answers, HintAnswer{Hint: "heights", Value: `"rows"`, Text: "every number is a height, row after row"},
					HintAnswer{Hint: "heights", Value: `"matrix"`, Text: "every number is a height of an area"})
			}
			return r.open(l.start, q)
		}
	}
	if p.x < 0 && l.cells != 1 && p.spacing == 0 {
		if p.x = only(isX); p.x < 0 && (only(isCounter) < 0 || h.step.line == 0) {
			q := r.which("x_column", "x", l, p.z)
			q.Answers = append(q.Answers, HintAnswer{Hint: "spacing", Unit: "µm", Text: "none of them; distance between points"})
			return r.open(l.start, q)
		}
	}
	free := p.x >= 0 && hints.XColumn == 0 && !triples // x need not be used
	switch {
	case free && p.spacing > 0 && !hints.Resample:
		p.x = -1
	case free && roles[p.x] == isCounter && hints.XUnit == "" && r.headerUnit(p.x).line == 0:
		p.counterCol, p.x = p.x, -1
	}
	r.named = p.columns
	if l.cells <= 2 && hints.XColumn == 0 && hints.ZColumn == 0 {
		r.named = nothing // every cell has to be a number
	}
	p.slopes = roles[p.z] == isSlope || h.slopeLine > 0
	return nil
}

// doubleComma explains rows with twice as many cells as the header has names: commas between the cells and in the numbers.
func (r *reader) doubleComma(l *layout) error {
	if l.delimiter != ',' || l.cells%2 != 0 || r.header.names != nil || r.named.z >= 0 {
		return nil
	}
	half := *l
	half.cells /= 2
	if h := r.readHeader(&half); h.nameLine == 0 || !slices.ContainsFunc(h.names, name.telling) {
		return nil
	}
	return r.fail(l.start, ErrCells, "%d cells where the header names %d: the comma seems to separate the cells and to be the decimal mark as well; export with "+
		"another delimiter, or with quotes", l.cells, half.cells)
}

// columnPairs finds columns x z x z and chooses the pair that the hint "trace" names.
func (r *reader) columnPairs(l *layout, p *plan, roles []role) error {
	if l.cells < 4 || p.x >= 0 || p.z >= 0 || r.hints.Heights == "triples" {
		return nil
	}
	told := slices.ContainsFunc(roles, func(ro role) bool { return ro != unnamed })
	plain := !told && l.cells%2 == 0 && r.hints.Trace > 0 // nothing names the columns
	var pairs []HintAnswer
	var at []int
	for i := 0; i+1 < len(roles); i++ {
		if roles[i] == isX && roles[i+1] != isX || plain && i%2 == 0 {
			at = append(at, i)
			pairs = append(pairs, HintAnswer{Value: fmt.Sprint(len(at)), Text: fmt.Sprintf("columns %d and %d", i+1, i+2)})
		}
	}
	switch n := r.hints.Trace; {
	case len(at) < 2:
	case n == 0:
		return r.open(l.start, ask("trace", "the columns hold %s", plural(len(at), "trace")).only(pairs))
	case n > len(at):
		return r.errorAt(l.start, noTrace(len(at)))
	default:
		p.x, p.z, p.paired = at[n-1], at[n-1]+1, true
	}
	return nil
}

// which asks for a column other than the one that is taken.
func (r *reader) which(hint, what string, l *layout, taken int) HintQuestion {
	var columns []HintAnswer
	for i := range min(l.cells, most) {
		if i == taken {
			continue
		}
		a := HintAnswer{Value: fmt.Sprint(i + 1), Text: fmt.Sprintf("column %d", i+1)}
		if n := r.columnName(i); n != "" {
			a.Text += ", " + clip(n)
		}
		columns = append(columns, a)
	}
	return ask(hint, "the rows have %d columns and none of them is certain to be %s", l.cells, what).with(l.cells, columns)
}

// chosen reads the trace of the file that the hint "trace" names. Without the hint a second trace is a question.
func (r *reader) chosen(l *layout, p *plan) (*rows, error) {
	got, err := r.readRows(l, p.columns, l.start)
	wanted := r.hints.Trace
	if p.paired {
		wanted = 0
	}
	if err != nil || wanted == 0 && got.next < 0 {
		return got, err
	}
	var traces []HintAnswer
	for n := 1; ; n++ {
		if n == wanted {
			return got, nil
		}
		if n <= most {
			traces = append(traces, HintAnswer{Value: fmt.Sprint(n), Text: fmt.Sprintf("trace %d, %s from line %d", n, plural(len(got.z), "point"), r.line(got.start))})
		}
		switch {
		case got.next >= 0:
		case wanted > 0:
			return nil, r.errorAt(l.start, noTrace(n))
		default:
			return nil, r.open(l.start, ask("trace", "the file holds %s", plural(n, "trace")).with(n, traces))
		}
		_, above := r.nextLine(got.lastLine)
		start := got.next
		if got, err = r.readRows(l, p.columns, start); err != nil {
			return nil, err
		}
		if wanted > 0 {
			r.header = r.laterHeader(l, above, start)
		}
	}
}

// laterHeader reads the header of a later trace; what it does not say the first one has said.
func (r *reader) laterHeader(l *layout, from, start int) *header {
	own, first := *r, r.header
	own.top = from
	h := own.readHeader(l.at(start))
	if h.names == nil {
		h.names, h.nameLine, h.units, h.unitLine, h.delimiter = first.names, first.nameLine, first.units, first.unitLine, first.delimiter
	}
	for _, s := range []struct{ own, first *statements }{{&h.x, &first.x}, {&h.z, &first.z}, {&h.step, &first.step}} {
		if s.own.line == 0 {
			s.own.said = s.first.said
		}
	}
	h.slopeLine = max(h.slopeLine, first.slopeLine)
	h.nameText = first.nameText
	return h
}

// takeFirst takes off what a single column begins with before its heights.
func (r *reader) takeFirst(t *Trace, l *layout, p *plan, rows *rows) error {
	kind, z := r.hints.First, rows.z
	single := p.x < 0 && l.cells == 1
	fail := func(row int, format string, args ...any) error {
		at := l.start
		if row >= 0 {
			at = r.rowOffset(l, rows.start, row)
		}
		return r.fail(at, ErrHint, "hint \"first\""+format, args...)
	}
	n := 2
	if kind == "spacing" {
		n = 1
	}
	switch {
	case kind == "" && single && len(z) > 2 && z[0] > 0 && z[1] == float64(len(z)-2):
		t.note("first-numbers", "The first two numbers, %s and %s, were read as heights and may be the length in mm and the count of those that follow; "+
			"if they are, say so (hint first).", number(z[0]), number(z[1]))
	case kind == "" && single && len(z) > 1 && z[0] > 0 && (z[0] == p.spacing || z[0] == r.header.step.value):
		t.note("first-numbers", "The first number, %s, was read as a height and is equal to the spacing; if it is not a height, say so (hint first).", number(z[0]))
	case kind == "":
	case !single:
		return fail(-1, " is for a single column")
	case len(z) <= n:
		return fail(-1, ": no height follows")
	default:
		for i, v := range z[:n] {
			if !(v > 0) || math.IsInf(v, 0) {
				return fail(i, ": %s is not above 0", number(v))
			}
		}
		if p.spacing > 0 {
			return r.fail(l.start, ErrHint, "hint \"spacing\" and hint \"first\" say the spacing twice")
		}
		p.spacing, p.spacingBy, rows.z = z[0], "first number", z[n:]
		if n == 2 {
			p.spacingBy = "length and count"
			if z[1] != float64(len(rows.z)) {
				return fail(1, ": %s points are announced and %d follow", number(z[1]), len(rows.z))
			}
			parts := z[1]
			if kind == "span-count" {
				parts--
			}
			if parts < 1 {
				return fail(-1, ": one point spans no length")
			}
			p.spacing = z[0] * 1000 / parts
		}
		if r.hints.ZUnit == "" && !r.header.z.known && len(r.headerUnits(p.z)) == 0 { // this way of writing a trace counts in µm
			p.zUnit, _ = parseUnit("µm")
			p.zBy = "hint first"
		}
	}
	return nil
}

// integrate turns slopes into heights by trapezoids and returns -1, or the index of a missing one.
func integrate(z []float64, dx float64) int {
	sum, before := 0.0, 0.0
	for i, s := range z {
		if s != s {
			return i
		}
		if i > 0 {
			sum += float64(dx * (before + s) / 2)
		}
		z[i] = sum
		before = s
	}
	return -1
}

// maxTriples bounds the rows or columns of an area that is written as triples.
const maxTriples = 20_000

// pickTriples keeps the points of one row (the same y) or one column (the same x) of an area.
func (r *reader) pickTriples(l *layout, rows *rows) error {
	along, across, key, n := rows.x, rows.y, "row", r.hints.Row
	if r.hints.Column > 0 {
		along, across, key, n = rows.y, rows.x, "column", r.hints.Column
	}
	order := map[float64]int{}
	var value float64
	for i, v := range across {
		if order[v] > 0 {
			continue
		}
		if len(order) == maxTriples {
			return r.fail(r.rowOffset(l, rows.start, i), ErrLimit, "the triples hold more than %d %ss and are not a grid", maxTriples, key)
		}
		if order[v] = len(order) + 1; len(order) == n {
			value = v
		}
	}
	switch {
	case n == 0:
		return r.open(l.start, ask("row", "the triples hold %s; which profile is meant", plural(len(order), "row")))
	case n > len(order):
		return r.fail(l.start, ErrHint, "hint %q: %d is asked for and the triples have %d", key, n, len(order))
	case rows.x == nil:
		return r.fail(l.start, ErrHint, "hint \"y_column\": the points of an area have an x too; give the hint \"x_column\"")
	}
	k := 0
	for i, v := range across {
		if v == value {
			along[k], rows.z[k] = along[i], rows.z[i]
			k++
		}
	}
	rows.x, rows.z, rows.y = along[:k], rows.z[:k], nil
	rows.pick = func(point int) int {
		for i, v := range across {
			if v == value {
				if point == 0 {
					return i
				}
				point--
			}
		}
		return len(across)
	}
	return nil
}
