package figure

import (
	"fmt"
	"math"
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

// Draw draws the line.
func (d Decision) Draw(o Options) Picture {
	c := newCanvas(o)
	const row = 26
	top := 32.0
	bottom := top + math.Max(2, float64(len(d.Values)))*row + 18
	left := pick(c, 12.0, 8)
	for _, v := range d.Values {
		left = math.Max(left, pick(c, textWidth(v.Name, 14)+16, 22))
	}
	left = math.Min(left, float64(c.w)/3)
	x := d.span()
	p := c.newPlot(left, float64(c.w)-10, top, bottom, x, [2]float64{0, 1})
	for _, l := range d.Limits {
		d.zone(p, l)
	}
	p.bottomAxis(c.ticks(x[0], x[1], c.xTicks(p.right()-p.left()), 1), strings.TrimSuffix(d.Symbol+", "+d.Unit, ", "))
	for _, l := range d.Limits {
		at := p.x.at(l.Value)
		c.line("limit", pt{at, top - 6}, pt{at, bottom + 4})
		text := "limit " + c.short(l.Value, 6)
		c.text(pt{d.clamp(p, at, text, 13), top - 12}, text, "strong", middle)
	}
	d.sides(p)
	for i, v := range d.Values {
		d.row(p, v, i+1, top+float64(i)*row+20)
	}
	c.h = int(bottom) + 40
	return c.picture("Decision", d.words(c), d.caption(), d.table(c))
}

// clamp keeps a centred text on the canvas.
func (d Decision) clamp(p *plot, x float64, text string, size float64) float64 {
	half := textWidth(text, size) / 2
	return math.Min(math.Max(x, half), float64(p.c.w)-half)
}

// span is the range of the number line: values with their uncertainty and limits with their zones.
func (d Decision) span() [2]float64 {
	low, high := math.Inf(1), math.Inf(-1)
	grow := func(v float64) {
		if !math.IsNaN(v) && !math.IsInf(v, 0) {
			low, high = math.Min(low, v), math.Max(high, v)
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
	return roomy(low, high, 0.3)
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
	a, b := p.x.at(math.Min(accept, l.Reject)), p.x.at(math.Max(accept, l.Reject))
	if b-a < 0.5 {
		return
	}
	p.c.hatched(false, []pt{{a, p.top()}, {b, p.top()}, {b, p.bottom()}, {a, p.bottom()}})
}

// sides writes what is proven at each side, where there is room beside the names of the limits.
func (d Decision) sides(p *plot) {
	c := p.c
	y := p.top() - 12
	if len(d.Limits) != 1 {
		return
	}
	l := d.Limits[0]
	conform, not := pick(c, "proven to conform", "proven within"), pick(c, "proven not to conform", "proven beyond")
	if l.Accept == l.Value && l.Reject == l.Value {
		conform, not = "conforms", "does not conform"
	}
	lowText, highText := conform, not
	lowEnd, highEnd := l.Accept, l.Reject
	if l.Lower {
		lowText, highText, lowEnd, highEnd = not, conform, l.Reject, l.Accept
	}
	at := p.x.at(l.Value)
	half := textWidth("limit "+c.short(l.Value, 6), 13)/2 + 8
	if end := math.Min(p.x.at(lowEnd), at-half); !math.IsNaN(lowEnd) && end-p.left() > textWidth(lowText, 12) {
		c.text(pt{(p.left() + end) / 2, y}, lowText, "u", middle)
	}
	if begin := math.Max(p.x.at(highEnd), at+half); !math.IsNaN(highEnd) && p.right()-begin > textWidth(highText, 12) {
		c.text(pt{(p.right() + begin) / 2, y}, highText, "u", middle)
	}
}

// row draws one value: a bar to both sides, a dot, the figure before it.
func (d Decision) row(p *plot, v Measured, number int, y float64) {
	c := p.c
	bar, dot, size, classes, name := "bar", "dot open", 4.0, "", "u"
	if v.Deciding {
		bar, dot, size, classes, name = "bar on", "dot", 5, "strong", "strong"
	}
	at := p.x.at(v.Value)
	from, to := at-size, at+size
	if v.U > 0 {
		a, b := p.x.at(v.Value-v.U), p.x.at(v.Value+v.U)
		from, to = a, b
		c.line(bar, pt{a, y}, pt{b, y})
		c.line("bar", pt{a, y - 4}, pt{a, y + 4})
		c.line("bar", pt{b, y - 4}, pt{b, y + 4})
	}
	c.circle(dot, pt{at, y}, size)
	d.figure(p, c.digits(v.Value, 3), classes, from-8, to+8, y+4)
	if c.narrow {
		c.text(pt{8, y + 4}, fmt.Sprint(number), name, start)
	} else {
		c.text(pt{p.left() - 8, y + 4}, v.Name, name, end)
	}
}

// figure writes a value before its bar or, where a limit or the edge stands there, behind it.
func (d Decision) figure(p *plot, s, classes string, before, behind, y float64) {
	w := textWidth(s, 14)
	free := before-w >= p.left()
	for _, l := range d.Limits {
		if at := p.x.at(l.Value); at > before-w-3 && at < before+6 {
			free = false
		}
	}
	if free {
		p.c.text(pt{before, y}, s, classes, end)
	} else {
		p.c.text(pt{behind, y}, s, strings.TrimSpace(classes+" plated"), start)
	}
}

func (d Decision) caption() string {
	text := ""
	for _, v := range d.Values {
		if v.U > 0 {
			text = "Each value with U to both sides."
		}
	}
	for _, l := range d.Limits {
		if l.Accept != l.Value || l.Reject != l.Value {
			return strings.TrimSpace(text + " In the hatched zone around the limit nothing is proven.")
		}
	}
	return strings.TrimSpace(text + " The limit itself decides.")
}

func (d Decision) table(c *canvas) Table {
	t := Table{Columns: []string{"what", strings.TrimSuffix("value, "+d.Unit, ", "), "from", "to"}}
	for _, v := range d.Values {
		name := v.Name
		if v.Deciding {
			name += " (decides)"
		}
		n := decimalsFor(math.Abs(v.Value), 4)
		row := []string{name, c.fixed(v.Value, max(0, n)), "", ""}
		if v.U > 0 {
			row[2], row[3] = c.fixed(v.Value-v.U, max(0, n)), c.fixed(v.Value+v.U, max(0, n))
		}
		t.Rows = append(t.Rows, row)
	}
	for _, l := range d.Limits {
		name := "upper limit"
		if l.Lower {
			name = "lower limit"
		}
		t.Rows = append(t.Rows, []string{name, c.short(l.Value, 6), "", ""})
		if l.Accept != l.Value || l.Reject != l.Value {
			low, high := l.Accept, l.Reject
			if l.Lower {
				low, high = high, low
			}
			t.Rows = append(t.Rows, []string{"nothing is proven", "", c.digits(low, 4), c.digits(high, 4)})
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
