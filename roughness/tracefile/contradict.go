package tracefile

import (
	"fmt"
	"math"
	"slices"
)

// contradictions asks for what a file says twice and not the same, unless a hint has answered it: the units of x and z, and the
// spacing where no x gives it. at is the offset of the first place that contradicts one above it, or -1.
func (r *reader) contradictions(l *layout, p *plan) (open Questions, at int) {
	h, at := &r.header, -1
	say := func(hint string, where int, text string) {
		open = append(open, ask(hint, text))
		if at < 0 || where < at {
			at = where
		}
	}
	for _, c := range []struct {
		hint, what string
		column     int
		stated     []said
		settled    bool
	}{
		{"x_unit", "x", p.x, h.all.x, p.x < 0 || r.hints.XUnit != ""},
		{"z_unit", "z", p.z, h.all.z, p.zBy != "" || r.hints.ZUnit != ""},
	} {
		if c.settled {
			continue
		}
		all := append(r.headerUnits(c.column), c.stated...)
		slices.SortStableFunc(all, func(a, b said) int { return a.line - b.line })
		for i, s := range all {
			if first := all[0].unit; i > 0 && (s.unit.factor != first.factor || s.unit.slope != first.slope) {
				where := r.lineOffset(s.line)
				if s.line == h.nameLine || s.line == h.unitLine {
					where = r.cellAt(l, where, c.column)
				}
				say(c.hint, where, fmt.Sprintf("line %d says that the unit of %s is %s, and line %d says %s", all[0].line, c.what, first.text, s.line, s.unit.text))
				break
			}
		}
	}
	if p.x >= 0 || p.spacing > 0 {
		return open, at
	}
	all := slices.Clone(h.all.step)
	slices.SortStableFunc(all, func(a, b said) int { return a.line - b.line })
	for i, s := range all {
		first := all[0]
		a, b := first.value, s.value
		if first.known && s.known { // where one has no unit it is that of the other
			a, b = first.unit.value(a), s.unit.value(b)
		}
		if i > 0 && math.Abs(a-b) > 1e-9*a {
			say("spacing", r.lineOffset(s.line), fmt.Sprintf("line %d says a spacing of %s, and line %d says %s", first.line, first.quantity(), s.line, s.quantity()))
			break
		}
	}
	return open, at
}

func (s said) quantity() string {
	if !s.known {
		return number(s.value)
	}
	return number(s.value) + " " + s.unit.text
}

// place is where a statement stands.
func (s said) place() string { return fmt.Sprintf("line %d", s.line) }

// headerUnits are the units that the names and a row of units give to a column.
func (r *reader) headerUnits(c int) []said {
	h := &r.header
	var out []said
	if c < len(h.names) && h.nameLine != h.unitLine {
		if base, u, known := splitUnit(h.names[c]); known && (base != "" || h.unitLine > 0) {
			out = append(out, said{line: h.nameLine, unit: u, known: true})
		}
	}
	if c < len(h.units) {
		if u, ok := parseUnit(trimBrackets(h.units[c])); ok {
			out = append(out, said{line: h.unitLine, unit: u, known: true})
		}
	}
	return out
}

// lineOffset is where a line begins.
func (r *reader) lineOffset(number int) int {
	p := 0
	for ; number > 1 && p < len(r.data); number-- {
		_, p = r.nextLine(p)
	}
	return p
}
