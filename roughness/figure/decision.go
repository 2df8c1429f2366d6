package figure

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"example.com/furrow/standards"
)

// Limit is a bound of a requirement, with the zone in which nothing is proven.
type Limit struct {
	Value  float64
	Lower  bool    // the value must not be below it; otherwise not above it
	Accept float64 // up to here (for a lower limit: from here on) conformity is proven; NaN: nowhere
	Reject float64 // beyond here the opposite is proven; both equal to Value: no zone
}

// Measured is one value with its uncertainty.
type Measured struct {
	Name     string // "trace 2"
	Value    float64
	U        float64 // expanded uncertainty to both sides; 0 is none
	Deciding bool
}

// Decision draws values on one number line against the limits, a row each.
type Decision struct {
	Symbol string // "Rz"
	Unit   string // "µm"
	Limits []Limit
	Values []Measured
}

// open says whether nothing is proven in a zone around the limit.
func (l Limit) open() bool { return l.Accept != l.Value || l.Reject != l.Value }

// Draw draws the line.
func (d Decision) Draw(o Options) Picture {
	c := newCanvas(o)
	d.Limits, d.Values = slices.Clone(d.Limits), slices.Clone(d.Values)
	var numbers []*float64
	for i := range d.Limits {
		numbers = append(numbers, &d.Limits[i].Value, &d.Limits[i].Accept, &d.Limits[i].Reject)
	}
	for i := range d.Values {
		numbers = append(numbers, &d.Values[i].Value, &d.Values[i].U)
	}
	c.scale(&d.Unit, numbers...)
	const row, top = 26, 32.0
	left := c.pick(12, 8)
	for _, v := range d.Values {
		left = max(left, c.pick(textWidth(v.Name, 14)+16, 22))
	}
	p := c.lay(d.axis(), axis{high: 1},
		min(left, float64(c.w)/3), float64(c.w)-10, top, top+max(2, float64(len(d.Values)))*row+18)
	for _, l := range d.Limits {
		d.zone(p, l)
	}
	p.bottomAxis()
	for _, l := range d.Limits {
		at := p.x.at(l.Value)
		c.stroke("limit", at, top-6, at, p.bottom+4)
		c.centred(at, top-12, "limit "+c.short(l.Value, 6), "strong", 13)
	}
	d.sides(p)
	for i, v := range d.Values {
		d.row(p, v, i+1, top+float64(i)*row+20)
	}
	return c.picture("Decision", d.words(c), d.caption(), d.table(c))
}

// axis is the number line: it holds values with their uncertainty and limits with their zones.
func (d Decision) axis() axis {
	low, high := math.Inf(1), math.Inf(-1)
	grow := func(v float64) {
		if !math.IsNaN(v) && !math.IsInf(v, 0) {
			low, high = min(low, v), max(high, v)
		}
	}
	for _, v := range d.Values {
		grow(v.Value - v.U)
		grow(v.Value + v.U)
	}
	for _, l := range d.Limits {
		grow(l.Value)
		grow(l.Accept)
		grow(l.Reject)
	}
	return roomy(low, high, 0.3, counted(d.Symbol, d.Unit))
}

// zone hatches the part around a limit in which nothing is proven.
func (d Decision) zone(p *plot, l Limit) {
	accept := l.Accept
	if math.IsNaN(accept) { // no value can prove conformity: up to the other limit
		accept = p.x.low
		if l.Lower {
			accept = p.x.high
		}
		for _, other := range d.Limits {
			if other.Lower != l.Lower {
				accept = other.Value
			}
		}
	}
	a, b := p.x.at(min(accept, l.Reject)), p.x.at(max(accept, l.Reject))
	if b-a >= 0.5 {
		p.hatched(false, pt{a, p.top}, pt{b, p.top}, pt{b, p.bottom}, pt{a, p.bottom})
	}
}

// sides writes what is proven at each side, where there is room beside the names of the limits.
func (d Decision) sides(p *plot) {
	if len(d.Limits) != 1 {
		return
	}
	l := d.Limits[0]
	low, high := p.say("proven to conform", "proven within"), p.say("proven not to conform", "proven beyond")
	if !l.open() {
		low, high = "conforms", "does not conform"
	}
	lowEnd, highEnd := l.Accept, l.Reject
	if l.Lower {
		low, high, lowEnd, highEnd = high, low, highEnd, lowEnd
	}
	at := p.x.at(l.Value)
	half := textWidth("limit "+p.short(l.Value, 6), 13)/2 + 8
	// A side without an end is not a number, and so is the room there.
	write := func(a, b float64, s string) {
		if b-a > textWidth(s, 12) {
			p.text((a+b)/2, p.top-12, s, "u", middle)
		}
	}
	write(p.left, min(p.x.at(lowEnd), at-half), low)
	write(max(p.x.at(highEnd), at+half), p.right, high)
}

// row draws one value: a bar to both sides, a dot, the figure before it.
func (d Decision) row(p *plot, v Measured, number int, y float64) {
	bar, dot, size, classes, name := "bar", "dot open", 4.0, "", "u"
	if v.Deciding {
		bar, dot, size, classes, name = "bar on", "dot", 5, "strong", "strong"
	}
	at := p.x.at(v.Value)
	from, to := at-size, at+size
	if v.U > 0 {
		from, to = p.x.at(v.Value-v.U), p.x.at(v.Value+v.U)
		p.stroke(bar, from, y, to, y)
		p.stroke("bar", from, y-4, from, y+4)
		p.stroke("bar", to, y-4, to, y+4)
	}
	p.circle(dot, pt{at, y}, size)
	d.figure(p, p.digits(v.Value, 3), classes, from-8, to+8, y+4)
	if p.narrow {
		p.text(8, y+4, fmt.Sprint(number), name, start)
	} else {
		p.text(p.left-8, y+4, v.Name, name, end)
	}
}

// figure writes a value before its bar or, where a limit or the edge stands there, behind it.
func (d Decision) figure(p *plot, s, classes string, before, behind, y float64) {
	left := before - textWidth(s, 14)
	free := left >= p.left
	for _, l := range d.Limits {
		if at := p.x.at(l.Value); at > left-3 && at < before+6 {
			free = false
		}
	}
	if free {
		p.text(before, y, s, classes, end)
	} else {
		p.text(behind, y, s, strings.TrimSpace(classes+" plated"), start)
	}
}

func (d Decision) caption() string {
	text := ""
	if slices.ContainsFunc(d.Values, func(v Measured) bool { return v.U > 0 }) {
		text = "Each value with U to both sides. "
	}
	if slices.ContainsFunc(d.Limits, Limit.open) {
		return text + "In the hatched zone around the limit nothing is proven."
	}
	return text + "The limit itself decides."
}

func (d Decision) table(c *canvas) Table {
	t := columns("what", counted("value", d.Unit), "from", "to")
	for _, v := range d.Values {
		name, from, to := v.Name, "", ""
		if v.Deciding {
			name += " (decides)"
		}
		n := max(0, decimalsFor(math.Abs(v.Value), 4))
		if v.U > 0 {
			from, to = c.fixed(v.Value-v.U, n), c.fixed(v.Value+v.U, n)
		}
		t.add(name, c.fixed(v.Value, n), from, to)
	}
	for _, l := range d.Limits {
		name, low, high := "upper limit", l.Accept, l.Reject
		if l.Lower {
			name, low, high = "lower limit", l.Reject, l.Accept
		}
		t.add(name, c.short(l.Value, 6), "", "")
		if l.open() {
			t.add("nothing is proven", "", c.digits(low, 4), c.digits(high, 4))
		}
	}
	return t
}

// words says the values and the limits with the figures of the table.
func (d Decision) words(c *canvas) string {
	var b strings.Builder
	unit := strings.TrimSpace(" " + d.Unit)
	for _, r := range d.table(c).Rows {
		switch {
		case r[1] == "":
			fmt.Fprintf(&b, "From %s to %s %s nothing is proven. ", r[2], r[3], unit)
		case r[2] == "":
			fmt.Fprintf(&b, "%s: %s %s. ", upper(r[0]), r[1], unit)
		default:
			fmt.Fprintf(&b, "%s: %s %s, from %s to %s with its uncertainty. ", upper(r[0]), r[1], unit, r[2], r[3])
		}
	}
	b.WriteString(standards.Caution) // the picture says what conforms, and goes out alone too
	return b.String()
}
