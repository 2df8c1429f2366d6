package figure

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"example.com/furrow/standards"
)

// A line is one row on a number line: a bar, a dot, or both, with its name at the left and its figure behind it.
type line struct {
	name, figure string
	from, to     float64 // of the bar; equal: none
	at           float64 // of the dot; NaN: none
	strong       bool
}

// rows are lines above each other on one number line, perhaps with a washed range and an upright line through all.
type rows struct {
	title, caption string
	axis           axis
	washed         [2]float64 // equal: none
	upright        float64    // NaN: none
	name           string     // of the upright line
	lines          []line
	table          Table
	desc           string
}

// draw draws the washed range, the axis, the upright line and the lines, from the back to the front.
func (d rows) draw(c *canvas) Picture {
	const top = 30.0
	row := c.pick(26, 42)
	left, right := c.pick(12, 10), 10.0
	for _, l := range d.lines {
		if !c.narrow {
			left = max(left, textWidth(l.name, 12)+18)
		}
		right = max(right, textWidth(l.figure, 12)+14)
	}
	p := c.lay(d.axis, axis{high: 1}, min(left, float64(c.w)*0.5), float64(c.w)-min(right, float64(c.w)/4), top, top+row*float64(len(d.lines))+10)
	if d.washed[0] < d.washed[1] {
		c.rect("sec on", p.x.at(d.washed[0]), p.top, p.x.at(d.washed[1]), p.bottom)
	}
	p.bottomAxis()
	if !math.IsNaN(d.upright) {
		p.upright("limit", d.upright, 4)
		c.centred(p.x.at(d.upright), p.top-10, d.name, "strong", 13)
	}
	for i, l := range d.lines {
		y := top + (float64(i)+c.pick(0.6, 0.75))*row
		classes, figure := "u", ""
		if l.strong {
			classes, figure = "strong", "strong"
		}
		if c.narrow {
			c.text(10, y-15, l.name, strings.TrimSpace(classes+" plated"), start)
		} else {
			c.text(p.left-12, y+4, l.name, classes, end)
		}
		behind := p.left
		if l.from != l.to {
			a, b := p.x.at(min(l.from, l.to)), p.x.at(max(l.from, l.to))
			c.rect("up", a, y-6, b, y+6)
			behind = b
		}
		if !math.IsNaN(l.at) {
			dot, size := "dot open", 4.0
			if l.strong {
				dot, size = "dot", 5
			}
			c.circle(dot, pt{p.x.at(l.at), y}, size)
			behind = max(behind, p.x.at(l.at)+size)
		}
		c.text(behind+8, y+4, l.figure, strings.TrimSpace(figure+" plated"), start)
	}
	return c.picture(d.title, c.prose(d.desc), d.caption, d.table)
}

// Moved is the value that one condition gives; NaN where the trace does not allow it.
type Moved struct {
	Name  string // "every second point"
	Value float64
}

// SteadinessChart draws how far a value moves: as the sections move along the trace, and with each condition.
type SteadinessChart struct {
	Symbol, Unit string
	Value        float64
	Low, High    float64 // as the sections move along the trace
	Conditions   []Moved
}

// Draw draws the value as an upright line, its range as a bar, and a dot for each condition.
func (d SteadinessChart) Draw(o Options) Picture {
	c := newCanvas(o)
	d.Conditions = slices.Clone(d.Conditions)
	numbers := []*float64{&d.Value, &d.Low, &d.High}
	for i := range d.Conditions {
		numbers = append(numbers, &d.Conditions[i].Value)
	}
	c.scale(&d.Unit, numbers...)
	low, high := min(d.Value, d.Low), max(d.Value, d.High)
	for _, m := range d.Conditions {
		if !math.IsNaN(m.Value) {
			low, high = min(low, m.Value), max(high, m.Value)
		}
	}
	n := spreadDecimals(low, high)
	r := rows{title: "How steady " + d.Symbol + " is", caption: "The value, its range as the sections move along the trace, and the value under each changed condition.",
		axis: roomy(low, high, 0.2, counted(d.Symbol, d.Unit)), upright: d.Value, name: d.Symbol + " " + c.fixed(d.Value, n),
		table: columns("condition", counted("value", d.Unit), "change")}
	r.table.add("as evaluated", c.fixed(d.Value, n), "")
	if d.Low < d.High {
		r.lines = append(r.lines, line{name: "sections moved", figure: c.fixed(d.Low, n) + " to " + c.fixed(d.High, n), from: d.Low, to: d.High, at: math.NaN()})
		r.table.add("sections moved", c.fixed(d.Low, n)+" to "+c.fixed(d.High, n), "")
		r.desc = fmt.Sprintf("%s is %s; as the sections move, it goes from %s to %s.", d.Symbol, c.fixed(d.Value, n), c.fixed(d.Low, n), c.fixed(d.High, n))
	} else {
		r.desc = fmt.Sprintf("%s is %s.", d.Symbol, c.fixed(d.Value, n))
	}
	for _, m := range d.Conditions {
		if math.IsNaN(m.Value) {
			r.table.add(m.Name, "not possible", "")
			continue
		}
		change := c.fixed(m.Value-d.Value, n)
		r.lines = append(r.lines, line{name: m.Name, figure: c.fixed(m.Value, n), at: m.Value})
		r.table.add(m.Name, c.fixed(m.Value, n), change)
		r.desc += " " + upper(m.Name) + ": " + c.fixed(m.Value, n) + "."
	}
	return r.draw(c)
}

// Influence is one line of an uncertainty budget.
type Influence struct {
	Name   string
	Effect float64 // standard uncertainty that it brings to the value
	Share  float64 // of the variance, from 0 to 1
}

// BudgetChart draws the shares of the influences in the variance of a value.
type BudgetChart struct {
	Symbol, Unit string
	Value, U     float64 // with its expanded uncertainty
	K            float64
	Influences   []Influence
}

// Draw draws a bar for each influence.
func (d BudgetChart) Draw(o Options) Picture {
	c := newCanvas(o)
	d.Influences = slices.Clone(d.Influences)
	numbers := []*float64{&d.Value, &d.U}
	for i := range d.Influences {
		numbers = append(numbers, &d.Influences[i].Effect)
	}
	c.scale(&d.Unit, numbers...)
	whole := c.digits(d.Value, 4) + " ± " + c.digits(d.U, 2) + " " + d.Unit
	r := rows{title: "What the uncertainty of " + d.Symbol + " is made of", caption: "Share of each influence in the variance; together 100 %.",
		axis: axis{low: 0, high: 1, name: "share of the variance, %"}, upright: math.NaN(),
		table: columns("influence", counted("effect u", d.Unit), "share, %")}
	r.desc = fmt.Sprintf("%s %s (k = %s).", d.Symbol, whole, c.fixed(d.K, 2))
	for _, x := range d.Influences {
		share := c.fixed(100*x.Share, 1)
		r.lines = append(r.lines, line{name: x.Name, figure: share + " %", to: 100 * x.Share, at: math.NaN()})
		r.axis.high = max(r.axis.high, 100*x.Share)
		r.table.add(x.Name, c.digits(x.Effect, 3), share)
		r.desc += " " + upper(x.Name) + ": " + share + " %."
	}
	r.table.add("together", whole+", k = "+c.fixed(d.K, 2), "")
	return r.draw(c)
}

// AllowanceChart draws the traces of a specimen and their mean against the certificate and what is allowed around it.
type AllowanceChart struct {
	Symbol, Unit string
	Certificate  float64
	Allowed      float64 // to both sides
	Values       []float64
	Mean         float64 // NaN without values
}

// Draw draws the allowance as a washed range, the certificate as an upright line, the traces as open dots and the mean as a full one.
func (d AllowanceChart) Draw(o Options) Picture {
	c := newCanvas(o)
	d.Values = slices.Clone(d.Values)
	numbers := []*float64{&d.Certificate, &d.Allowed, &d.Mean}
	for i := range d.Values {
		numbers = append(numbers, &d.Values[i])
	}
	c.scale(&d.Unit, numbers...)
	from, to := d.Certificate-d.Allowed, d.Certificate+d.Allowed
	low, high := from, to
	for _, v := range d.Values {
		low, high = min(low, v), max(high, v)
	}
	n := max(spreadDecimals(low, high), decimalsFor(d.Allowed, 2))
	r := rows{title: "Specimen against its certificate", caption: "Within the washed range the mean is allowed to lie.", washed: [2]float64{from, to},
		axis: roomy(low, high, 0.25, counted(d.Symbol, d.Unit)), upright: d.Certificate, name: "certificate " + c.short(d.Certificate, 6),
		table: columns("what", counted("value", d.Unit), "from", "to")}
	r.table.add("certificate", c.short(d.Certificate, 6), c.fixed(from, n), c.fixed(to, n))
	r.desc = fmt.Sprintf("Certificate %s %s; from %s to %s is allowed.", c.short(d.Certificate, 6), d.Unit, c.fixed(from, n), c.fixed(to, n))
	for i, v := range d.Values {
		name := fmt.Sprintf("trace %d", i+1)
		r.lines = append(r.lines, line{name: name, figure: c.fixed(v, n), at: v})
		r.table.add(name, c.fixed(v, n), "", "")
	}
	if len(d.Values) > 0 && !math.IsNaN(d.Mean) {
		r.lines = append(r.lines, line{name: "mean", figure: c.fixed(d.Mean, n), at: d.Mean, strong: true})
		r.table.add("mean", c.fixed(d.Mean, n), "", "")
		r.desc += fmt.Sprintf(" The mean is %s.", c.fixed(d.Mean, n))
	}
	r.desc += " " + standards.Caution // the picture says what is allowed, and goes out alone too
	return r.draw(c)
}
