package figure

import (
	"math"
	"strconv"
)

// Strip draws a profile in its sections with the value of each section above it: one design for the first screen, for the record and for
// lists. Where the result is the mean of the values they are joined by plus signs.
type Strip struct {
	ProfilePlot
	Symbol string       // of the values: "Rz"
	Values []float64    // one for each section; nil: none
	Added  bool         // whether the result is their mean
	Levels [][2]float64 // heights of a lower and an upper line in each section; NaN: none
	Tips   bool         // whether the lines mark the lowest pit and the highest peak
}

// margin is how much of each end is drawn beside the sections, µm.
const stripMargin = 130

// Draw draws the strip, 190 pixels high (150 in the narrow design).
func (d Strip) Draw(o Options) Picture {
	c := newCanvas(o)
	a, b := d.ends()
	if l := d.Layout; l.Sections > 0 {
		a, b = max(a, l.Start-stripMargin), min(b, l.End()+stripMargin)
		if a < b {
			d.From, d.To = a, b
		}
	}
	p := c.plot(along(a, b, ""), c.heightAxis(d.Z), 6, 26, c.pick(138, 98))
	c.h = int(p.bottom) + 26
	from, to := d.ends()
	p.sections(d.Layout, from, to, 0, 0)
	p.leftAxis()
	if p.y.inside(0) {
		p.level("ref", 0)
	}
	z, x0 := d.visible()
	p.clipped(func() { p.profile("prof", z, x0, d.Spacing) })
	d.levels(p)
	d.sum(p)
	l := d.Layout
	if l.Sections > 0 {
		y := p.bottom + 18
		words := p.sprintf("%d × %s mm", l.Sections, p.mm(l.Length))
		half := textWidth(words, 12)/2 + 7
		left, right := p.x.at(l.Start), p.x.at(l.End())
		for _, x := range []float64{left, right} {
			p.stroke("thin", x, y-5, x, y+5)
		}
		middleX := (left + right) / 2
		p.stroke("dim", left, y, middleX-half, y)
		p.stroke("dim", middleX+half, y, right, y)
		p.text(middleX, y+4, words, "", middle)
	}
	name := profileNames[d.Letter]
	t := d.numbers(c)
	return c.picture(name+" with the value of each section", d.words(c, t), d.caption(p), t)
}

// levels draws the lines of each section, with a triangle on peak and pit.
func (d Strip) levels(p *plot) {
	for k, pair := range d.Levels {
		a, b := d.Layout.edge(k), d.Layout.edge(k+1)
		q := measure(d.Z, d.Origin, d.Spacing, a, b)
		for i, v := range pair {
			if math.IsNaN(v) {
				continue
			}
			p.stroke("acc", p.x.at(a)+3, p.y.at(v), p.x.at(b)-3, p.y.at(v))
			switch {
			case !d.Tips || q.empty():
			case i == 0:
				p.triangle("accf", p.at(q.lowPlace, v), 7, 1)
			default:
				p.triangle("accf", p.at(q.highPlace, v), 7, -1)
			}
		}
	}
}

// sum writes the values above the sections.
func (d Strip) sum(p *plot) {
	if p.x.at(d.Layout.Length)-p.x.at(0) < p.pick(40, 34) {
		return
	}
	for k, v := range d.Values {
		classes := "ta big"
		if math.IsNaN(v) {
			classes = "u"
		}
		p.text((p.x.at(d.Layout.edge(k))+p.x.at(d.Layout.edge(k+1)))/2, 14, p.digits(p.in(v, "µm"), 3), classes, middle)
		if d.Added && k > 0 {
			p.text(p.x.at(d.Layout.edge(k)), 14, "+", "u", middle)
		}
	}
}

func (d Strip) numbers(c *canvas) Table {
	t := columns("section", counted(d.Symbol, "µm"), "lowest, µm", "at, mm", "highest, µm", "at, mm")
	decimals := c.heightDecimals(extent(d.Z))
	for k := range d.Layout.Sections {
		value := ""
		if k < len(d.Values) {
			value = c.digits(c.in(d.Values[k], "µm"), 3)
		}
		cells := []string{"no points", "", "", ""}
		if q := measure(d.Z, d.Origin, d.Spacing, d.Layout.edge(k), d.Layout.edge(k+1)); !q.empty() {
			cells = c.extremes(q, decimals)
		}
		t.add(append([]string{strconv.Itoa(k + 1), value}, cells...)...)
	}
	return t
}

func (d Strip) words(c *canvas, t Table) string {
	text := ""
	for _, r := range t.Rows {
		if text != "" {
			text += " "
		}
		text += "Section " + r[0] + ": "
		if r[1] != "" {
			text += d.Symbol + " " + r[1] + c.unit(" µm, ")
		}
		if r[3] == "" {
			text += r[2] + "."
		} else {
			text += c.sprintf("from %s µm at %s mm to %s µm at %s mm.", r[2], r[3], r[4], r[5])
		}
	}
	if text == "" {
		return "There are no sections."
	}
	return text
}

func (d Strip) caption(p *plot) string {
	name := profileNames[d.Letter]
	text := name + ". "
	switch {
	case len(d.Levels) > 0 && d.Tips && d.Added:
		text += "In each section: the height from the lowest pit to the highest peak. Their mean is " + d.Symbol + ". "
	case len(d.Levels) > 0 && d.Tips:
		text += "In each section: the lowest pit and the highest peak. "
	case len(d.Levels) > 0:
		text += "In each section: " + d.Symbol + " on both sides of the line at 0. "
	}
	return text + upper(p.exaggeration())
}
