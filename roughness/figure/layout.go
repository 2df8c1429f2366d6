package figure

import (
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
func (l Layout) End() float64 { return l.edge(l.Sections) }

// edge is where section k ends and the next one starts.
func (l Layout) edge(k int) float64 { return l.Start + float64(k)*l.Length }

// number says how many sections there are.
func (l Layout) number() string {
	if l.Sections == 1 {
		return "one section"
	}
	return count(l.Sections) + " sections"
}

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
	if l.Sections == 0 {
		return
	}
	clip := func(v float64) float64 { return p.x.at(max(p.x.low, min(p.x.high, v))) }
	band := func(classes string, a, b float64) (middle, width float64) {
		a, b = clip(a), clip(b)
		if b-a > 0.2 {
			p.rect(classes, a, p.top, b, p.bottom)
		}
		return (a + b) / 2, b - a
	}
	for _, ends := range [2][2]float64{{from, l.Start}, {l.End(), to}} {
		x, width := band("ends", ends[0], ends[1])
		if label > 0 && !p.narrow && width > 40 {
			p.text(x, p.bottom-15, "end", "u", middle)
		}
	}
	w := p.x.at(l.Length) - p.x.at(0)
	every := max(1, int(math.Ceil(18/max(w, 0.1)))) // label every n-th, where sections are narrow
	for k := 1; k <= l.Sections; k++ {
		classes, words := "sec", "u"
		switch {
		case k == picked:
			classes, words = "sec on", "ta"
		case k%2 == 0:
			classes = "sec b"
		}
		x, width := band(classes, l.edge(k-1), l.edge(k))
		if label == 0 || width < 12 || k%every != 0 && k != picked {
			continue
		}
		name := strconv.Itoa(k)
		if !p.narrow && w > 62 {
			name = "section " + name
		}
		p.text(x, label, name, words, middle)
	}
	for k := 0; k <= l.Sections; k++ {
		if p.x.inside(l.edge(k)) {
			p.upright("secl", l.edge(k), 4)
		}
	}
}

// dimensions draws the line below a trace: end, evaluation length with its sections, end. A part that the trace is too
// short for is open and dashed.
func (p *plot) dimensions(l Layout, length, dx, y float64) {
	needed := max(length, l.End())
	post := func(v, above, below float64) { p.stroke("thin", p.x.at(v), y-above, p.x.at(v), y+below) }
	for _, v := range []float64{0, l.Start, l.End(), needed} {
		post(v, 14, 5)
	}
	for k := 1; k < l.Sections; k++ {
		post(l.edge(k), 4, 4)
	}
	piece := func(a, b float64) {
		if b-a > 1.5*dx {
			p.dimension("dim", pt{p.x.at(a), y}, pt{p.x.at(b), y})
		}
	}
	write := func(v float64, s, classes, anchor string) { p.text(p.x.at(v), y+18, s, classes, anchor) }
	piece(0, l.Start)
	all := p.mm(l.End() - l.Start)
	if short := l.missing(length, dx); short > 0 {
		piece(l.Start, length)
		p.stroke("dim dash", p.x.at(length), y, p.x.at(needed), y)
		post(length, 14, 5)
		write(needed, p.short(p.in(short/1000, "mm"), 3)+p.unit(" mm missing"), "strong", end)
		write(0, p.say(p.sprintf("%s mm needed, %s mm traced", all, p.mm(length)), all+" needed"), "", start)
		return
	}
	piece(l.Start, l.End())
	piece(l.End(), length)
	write(l.Start+(l.End()-l.Start)/2, p.say(
		p.sprintf("evaluation length l_{e} = %s mm, %s of %s mm", all, l.number(), p.mm(l.Length)),
		p.sprintf("%s mm evaluated, %d × %s", all, l.Sections, p.mm(l.Length))), "", middle)
	word := p.say("end ", "")
	if l.Start > 0 {
		write(0, word+p.mm(l.Start), "", start)
	}
	if rest := length - l.End(); rest > 1.5*dx {
		write(length, word+p.mm(rest), "", end)
	}
}

// stretch is a part of a profile with its extremes.
type stretch struct {
	low, high           float64 // infinite where there are no points
	lowPlace, highPlace float64
}

// measure finds the extremes of the points of z, the first of which lies at x0, between two places. The stretch does
// not hold its end, save where that is the end of the profile.
func measure(z []float64, x0, dx, from, to float64) stretch {
	q := stretch{low: math.Inf(1), high: math.Inf(-1)}
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
	return q
}

func (q stretch) empty() bool { return math.IsInf(q.low, 0) }

// extremes are the cells of a stretch in a table with the columns lowest, at, highest, at.
func (c *canvas) extremes(q stretch, decimals int) []string {
	return []string{c.height(q.low, decimals), c.mm(q.lowPlace), c.height(q.high, decimals), c.mm(q.highPlace)}
}

// parts is the table of a profile: all of it, then end, sections, end.
func (c *canvas) parts(l Layout, z []float64, x0, dx float64) Table {
	t := columns("part", "from, mm", "to, mm", "lowest, µm", "at, mm", "highest, µm", "at, mm")
	decimals := c.heightDecimals(extent(z))
	add := func(name string, from, to float64) {
		cells := []string{"no points", "", "", ""}
		if q := measure(z, x0, dx, from, to); !q.empty() {
			cells = c.extremes(q, decimals)
		}
		t.add(append([]string{name, c.mm(from), c.mm(to)}, cells...)...)
	}
	stop := x0 + reach(z, dx)
	add("whole", x0, stop)
	if l.Sections == 0 {
		return t
	}
	if l.Start-x0 > dx/2 {
		add("first end", x0, l.Start)
	}
	for k := 1; k <= l.Sections && l.edge(k-1) < stop; k++ {
		add("section "+strconv.Itoa(k), l.edge(k-1), min(l.edge(k), stop))
	}
	if stop-l.End() > 1.5*dx {
		add("last end", l.End(), stop)
	}
	return t
}

// fromWhole says the extremes of a whole profile in the words of its table.
func (c *canvas) fromWhole(what string, t Table) string {
	r := t.Rows[0]
	if r[4] == "" {
		return "There are no points to draw."
	}
	return c.sprintf("%s from %s µm at %s mm to %s µm at %s mm; drawn from %s to %s mm.", what, r[3], r[4], r[5], r[6], r[1], r[2])
}
