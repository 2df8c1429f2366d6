package figure

import (
	"fmt"
	"math"
)

// Trace draws the heights as read, with a dimension line below: end, evaluation length with its sections, end. Where
// the layout needs more than was traced, the missing part is an open dashed dimension.
type Trace struct {
	Title   string // "" is "Trace as read"
	Z       []float64
	Spacing float64
	Layout  Layout
}

// Draw draws the trace.
func (d Trace) Draw(o Options) Picture {
	c := newCanvas(o)
	length := reach(d.Z, d.Spacing)
	shown := math.Max(length, d.Layout.End())
	heights := c.heightRange(d.Z)
	height := pick(c, 152.0, 126)
	left := c.margin(heights, height)
	p := c.newPlot(left, float64(c.w)-6, 24, 24+height, [2]float64{0, shown}, heights)
	if l := d.Layout; l.Sections > 0 {
		c.rect("ends", p.left(), p.top(), p.x.at(l.Start), p.bottom())
		if l.End() < length {
			c.rect("ends", p.x.at(l.End()), p.top(), p.right(), p.bottom())
		}
	}
	p.heightAxis("µm")
	p.lengthAxis("along the trace")
	p.profile("prof", d.Z, 0, d.Spacing)
	c.h = int(p.bottom()) + 40
	if d.Layout.Sections > 0 {
		p.dimensions(d.Layout, length, d.Spacing, p.bottom()+58)
		c.h = int(p.bottom()) + 92
	}
	title := d.Title
	if title == "" {
		title = "Trace as read"
	}
	table := c.extremes(d.Layout.parts(d.Z, 0, d.Spacing), heightDecimals(extent(d.Z)))
	desc := c.fromWhole("Heights", table)
	if l := d.Layout; l.Sections > 0 {
		if l.missing(length, d.Spacing) > 0 {
			table.Rows = append(table.Rows, []string{"missing", c.mm(length), c.mm(l.End()), "", "", "", ""})
			desc += fmt.Sprintf(" The evaluation would need the trace to reach %s mm.", c.mm(l.End()))
		} else {
			desc += fmt.Sprintf(" What lies between %s and %s mm is evaluated, in %s %s.", c.mm(l.Start), c.mm(l.End()), count(l.Sections), plural(l.Sections, "section", "sections"))
		}
	}
	return c.picture(title, desc, title+". "+p.exaggeration()+c.thinned(len(d.Z), p), table)
}

// fromWhole says the extremes of a whole profile in the words of its table.
func (c *canvas) fromWhole(what string, t Table) string {
	r := t.Rows[0]
	if len(r) < 7 || r[4] == "" {
		return "There are no points to draw."
	}
	return fmt.Sprintf("%s from %s µm at %s mm to %s µm at %s mm; drawn from %s to %s mm.", what, r[3], r[4], r[5], r[6], r[1], r[2])
}

// thinned says that a profile with more points than pixels has lost none of its extremes.
func (c *canvas) thinned(points int, p *plot) string {
	if float64(points) > 2*(p.right()-p.left()) {
		return " Each column shows its highest and lowest point, so no peak or pit is lost."
	}
	return ""
}
