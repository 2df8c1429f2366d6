package tracefile

import (
	"fmt"
	"math"
)

// at is a layout with its first row elsewhere.
func at(l *layout, start int) *layout {
	if l.start == start {
		return l
	}
	c := *l
	c.start = start
	return &c
}

// chosen reads the trace of the file that the hint "trace" names. Without the hint a second trace is a question.
func (r *reader) chosen(l *layout, p *plan) (*rows, error) {
	want := cellsWanted{p.x, p.y, p.z}
	got, err := r.readRows(l, want, l.start)
	if err != nil {
		return nil, err
	}
	wanted := r.hints.Trace
	if p.paired {
		wanted = 0
	}
	if wanted == 0 && got.next < 0 {
		return got, nil
	}
	if wanted == 0 {
		var answers []Answer
		n := 1
		for ; ; n++ {
			if n <= most {
				line, _ := r.place(got.start)
				answers = append(answers, Answer{Value: fmt.Sprint(n), Text: fmt.Sprintf("trace %d, %s from line %d", n, plural(len(got.z), "point"), line)})
			}
			if got.next < 0 {
				break
			}
			if got, err = r.readRows(l, want, got.next); err != nil {
				return nil, err
			}
		}
		q := askFor("trace", fmt.Sprintf("the file holds %s", plural(n, "trace")), answers)
		if n > most {
			q = ask(q.Hint, q.Text, answers...)
		}
		return nil, r.errorAt(l.start, Questions{q})
	}
	for n := 1; n < wanted; n++ {
		if got.next < 0 {
			return nil, r.errorAt(l.start, because(errNoTrace, "hint \"trace\": the file has %s", plural(n, "trace")))
		}
		_, above := r.nextLine(got.lastLine)
		start := got.next
		if got, err = r.readRows(l, want, start); err != nil {
			return nil, err
		}
		r.headerOf(l, above, start)
	}
	return got, nil
}

// headerOf reads the header of a later trace; what it does not say the first one has said.
func (r *reader) headerOf(l *layout, from, start int) {
	own := *r
	own.top = from
	h := own.readHeader(at(l, start))
	first := r.header
	if h.names == nil {
		h.names, h.nameLine, h.units, h.unitLine, h.delimiter = first.names, first.nameLine, first.units, first.unitLine, first.delimiter
	}
	for _, s := range []struct{ own, first *said }{{&h.x, &first.x}, {&h.z, &first.z}, {&h.step, &first.step}} {
		if s.own.line == 0 {
			*s.own = *s.first
		}
	}
	h.slopeLine = max(h.slopeLine, first.slopeLine)
	h.nameText = first.nameText
	r.header = h
}

// first takes off what a single column begins with before its heights.
func (r *reader) first(t *Trace, l *layout, p *plan, rows *rows) error {
	kind := r.hints.First
	if kind == "" {
		if p.x < 0 && l.cells == 1 {
			r.noteFirst(t, p, rows.z)
		}
		return nil
	}
	n := 2
	if kind == "spacing" {
		n = 1
	}
	if p.x >= 0 || l.cells != 1 {
		return r.errorAt(l.start, because(ErrHint, "hint \"first\" is for a single column"))
	}
	if len(rows.z) <= n {
		return r.errorAt(l.start, because(ErrHint, "hint \"first\": no height follows"))
	}
	head := rows.z[:n]
	for i, v := range head {
		if !(v > 0) || math.IsInf(v, 0) {
			return r.errorAt(r.rowOffset(l, rows.start, i), because(ErrHint, "hint \"first\": %s is not above 0", number(v)))
		}
	}
	rows.z = rows.z[n:]
	if p.spacing > 0 {
		return r.errorAt(l.start, because(ErrHint, "hint \"spacing\" and hint \"first\" say the spacing twice"))
	}
	p.spacingBy = "first number"
	if kind == "spacing" {
		p.spacing = head[0]
	} else {
		p.spacingBy = "length and count"
		if count := int(head[1]); float64(count) != head[1] || count != len(rows.z) {
			return r.errorAt(r.rowOffset(l, rows.start, 1), because(ErrHint, "hint \"first\": %s points are announced and %d follow", number(head[1]), len(rows.z)))
		}
		parts := head[1]
		if kind == "span-count" {
			parts--
		}
		if parts < 1 {
			return r.errorAt(l.start, because(ErrHint, "hint \"first\": one point spans no length"))
		}
		p.spacing = head[0] * 1000 / parts
	}
	if r.hints.ZUnit == "" && !r.header.z.known && len(r.headerUnits(p.z)) == 0 { // this way of writing a trace counts in µm
		p.zUnit, _ = parseUnit("µm")
		p.zBy = "hint first"
	}
	return nil
}

// noteFirst says so where a column seems to begin with its spacing, or with length and count, and these were read as heights.
func (r *reader) noteFirst(t *Trace, p *plan, z []float64) {
	switch n := len(z); {
	case n > 2 && z[0] > 0 && z[1] == float64(n-2):
		t.note("first-numbers", fmt.Sprintf("The first two numbers, %s and %s, were read as heights and may be the length in mm and the count of those that follow; "+
			"if they are, say so (hint first).", number(z[0]), number(z[1])))
	case n > 1 && z[0] > 0 && (z[0] == p.spacing || z[0] == r.header.step.value):
		t.note("first-numbers", fmt.Sprintf("The first number, %s, was read as a height and is equal to the spacing; if it is not a height, say so (hint first).", number(z[0])))
	}
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
func (r *reader) pickTriples(l *layout, p *plan, rows *rows) error {
	along, across, key, n := rows.x, rows.y, "row", r.hints.Row
	if r.hints.Column > 0 {
		along, across, key, n = rows.y, rows.x, "column", r.hints.Column
	}
	order := map[float64]int{}
	var value float64
	for i, v := range across {
		if _, ok := order[v]; !ok {
			if len(order) == maxTriples {
				return r.errorAt(r.rowOffset(l, rows.start, i), because(ErrLimit, "the triples hold more than %d %ss and are not a grid", maxTriples, key))
			}
			order[v] = len(order) + 1
			if len(order) == n {
				value = v
			}
		}
	}
	switch {
	case n == 0:
		return r.errorAt(l.start, Questions{ask("row", fmt.Sprintf("the triples hold %s; which profile is meant", plural(len(order), "row")))})
	case n > len(order):
		return r.errorAt(l.start, because(ErrHint, "hint %q: %d is asked for and the triples have %d", key, n, len(order)))
	}
	k := 0
	rows.missing = 0
	for i, v := range across {
		if v == value {
			along[k], rows.z[k] = along[i], rows.z[i]
			if rows.z[k] != rows.z[k] {
				rows.missing++
			}
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
