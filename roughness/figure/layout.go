package figure

import (
	"fmt"
	"math"
	"strconv"
)

// Layout is where the sections lie on the trace. The zero value has none.
type Layout struct {
	Sections int
	Length   float64 // of one section
	Start    float64 // of the first one, from the start of the trace
}

// End is where the last section ends.
func (l Layout) End() float64 { return l.Start + float64(l.Sections)*l.Length }

// reach is the length of a profile from its first to its last point. The evaluation counts a spacing more, one for each
// point; on paper nobody writes 4.8005 mm.
func reach(z []float64, dx float64) float64 { return float64(max(1, len(z)-1)) * dx }

// missing is how much a trace of a length falls short of the last section; the last point of a section stands one
// spacing before its end.
func (l Layout) missing(length, dx float64) float64 {
	if short := l.End() - length; short > 1.5*dx {
		return short
	}
	return 0
}

// sections washes every second section, darkens the ends, picks one out and draws the dotted boundaries. from and to
// are the ends of the profile. Labels stand at the height label, or nowhere when it is 0.
func (p *plot) sections(l Layout, from, to float64, picked int, label float64) {
	c := p.c
	if l.Sections == 0 {
		return
	}
	clip := func(v float64) float64 { return p.x.at(math.Max(p.x.low, math.Min(p.x.high, v))) }
	band := func(classes string, a, b float64) (left, right float64) {
		left, right = clip(a), clip(b)
		if right-left > 0.2 {
			c.rect(classes, left, p.top(), right, p.bottom())
		}
		return left, right
	}
	for _, ends := range [2][2]float64{{from, l.Start}, {l.End(), to}} {
		left, right := band("ends", ends[0], ends[1])
		if label > 0 && !c.narrow && right-left > 40 {
			c.text(pt{(left + right) / 2, p.bottom() - 15}, "end", "u", middle)
		}
	}
	every := 1 // label every n-th, where sections are narrow
	if w := (p.x.at(l.Length) - p.x.at(0)); w < 18 {
		every = int(math.Ceil(18 / math.Max(w, 0.1)))
	}
	wide := !c.narrow && p.x.at(l.Length)-p.x.at(0) > 62
	for k := 1; k <= l.Sections; k++ {
		a := l.Start + float64(k-1)*l.Length
		classes := "sec"
		switch {
		case k == picked:
			classes = "sec on"
		case k%2 == 0:
			classes = "sec b"
		}
		left, right := band(classes, a, a+l.Length)
		if label == 0 || right-left < 12 || k%every != 0 && k != picked {
			continue
		}
		name, classes := strconv.Itoa(k), "u"
		if wide {
			name = "section " + name
		}
		if k == picked {
			classes = "ta"
		}
		c.text(pt{(left + right) / 2, label}, name, classes, middle)
	}
	for k := 0; k <= l.Sections; k++ {
		if v := l.Start + float64(k)*l.Length; p.x.inside(v) {
			c.line("secl", pt{p.x.at(v), p.top() - 4}, pt{p.x.at(v), p.bottom()})
		}
	}
}

// dimensions draws the line below a trace: end, evaluation length with its sections, end. A part that the trace is too
// short for is open and dashed.
func (p *plot) dimensions(l Layout, length, dx, y float64) {
	c := p.c
	if l.Sections == 0 {
		return
	}
	needed := math.Max(length, l.End())
	for _, v := range []float64{0, l.Start, l.End(), needed} {
		c.line("thin", pt{p.x.at(v), y - 14}, pt{p.x.at(v), y + 5})
	}
	for k := 1; k < l.Sections; k++ {
		x := p.x.at(l.Start + float64(k)*l.Length)
		c.line("thin", pt{x, y - 4}, pt{x, y + 4})
	}
	piece := func(a, b float64) {
		if b-a > 1.5*dx {
			c.dimension("dim", "dimf", pt{p.x.at(a), y}, pt{p.x.at(b), y})
		}
	}
	piece(0, l.Start)
	middleText := fmt.Sprintf("evaluation length l_{e} = %s mm, %s %s of %s mm", c.mm(l.End()-l.Start), count(l.Sections), plural(l.Sections, "section", "sections"), c.mm(l.Length))
	if c.narrow {
		middleText = fmt.Sprintf("%s mm evaluated, %d × %s", c.mm(l.End()-l.Start), l.Sections, c.mm(l.Length))
	}
	if short := l.missing(length, dx); short > 0 {
		piece(l.Start, length)
		c.line("dim dash", pt{p.x.at(length), y}, pt{p.x.at(needed), y})
		c.line("thin", pt{p.x.at(length), y - 14}, pt{p.x.at(length), y + 5})
		c.text(pt{p.x.at(needed), y + 18}, c.short(short/1000, 3)+" mm missing", "strong", end)
		c.text(pt{p.x.at(0), y + 18}, pick(c, c.mm(l.End()-l.Start)+" mm needed, "+c.mm(length)+" mm traced", c.mm(l.End()-l.Start)+" needed"), "", start)
		return
	}
	piece(l.Start, l.End())
	piece(l.End(), length)
	c.text(pt{p.x.at(l.Start + (l.End()-l.Start)/2), y + 18}, middleText, "", middle)
	word := pick(c, "end ", "")
	if l.Start > 0 {
		c.text(pt{p.x.at(0), y + 18}, word+c.mm(l.Start), "", start)
	}
	if rest := length - l.End(); rest > 1.5*dx {
		c.text(pt{p.x.at(length), y + 18}, word+c.mm(rest), "", end)
	}
}

// part is a stretch of a profile with its extremes, for the table.
type part struct {
	name                string
	from, to            float64
	low, high           float64
	lowPlace, highPlace float64
	empty               bool
}

// measure finds the extremes of the points of z, the first of which lies at x0, between two places. The stretch does
// not hold its end, save where that is the end of the profile.
func measure(name string, z []float64, x0, dx, from, to float64) part {
	q := part{name: name, from: from, to: to, low: math.Inf(1), high: math.Inf(-1), empty: true}
	first, last := max(0, int(math.Ceil((from-x0)/dx-1e-6))), len(z)
	if to-x0 < reach(z, dx) {
		last = min(last, int(math.Ceil((to-x0)/dx-1e-6)))
	}
	for i := first; i < last; i++ {
		if z[i] < q.low {
			q.low, q.lowPlace = z[i], x0+float64(i)*dx
		}
		if z[i] > q.high {
			q.high, q.highPlace = z[i], x0+float64(i)*dx
		}
	}
	q.empty = math.IsInf(q.low, 0)
	return q
}

// parts splits a profile into end, sections, end.
func (l Layout) parts(z []float64, x0, dx float64) []part {
	stop := x0 + reach(z, dx)
	list := []part{measure("whole", z, x0, dx, x0, stop)}
	if l.Sections == 0 {
		return list
	}
	if l.Start-x0 > dx/2 {
		list = append(list, measure("first end", z, x0, dx, x0, l.Start))
	}
	for k := 1; k <= l.Sections; k++ {
		if a := l.Start + float64(k-1)*l.Length; a < stop {
			list = append(list, measure("section "+strconv.Itoa(k), z, x0, dx, a, math.Min(a+l.Length, stop)))
		}
	}
	if stop-l.End() > 1.5*dx {
		list = append(list, measure("last end", z, x0, dx, l.End(), stop))
	}
	return list
}

// extremes is the table of the parts.
func (c *canvas) extremes(list []part, decimals int) Table {
	t := Table{Columns: []string{"part", "from, mm", "to, mm", "lowest, µm", "at, mm", "highest, µm", "at, mm"}}
	for _, q := range list {
		row := []string{q.name, c.mm(q.from), c.mm(q.to)}
		if q.empty {
			row = append(row, "no points", "", "", "")
		} else {
			row = append(row, c.fixed(q.low, decimals), c.mm(q.lowPlace), c.fixed(q.high, decimals), c.mm(q.highPlace))
		}
		t.Rows = append(t.Rows, row)
	}
	return t
}
