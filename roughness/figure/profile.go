package figure

import (
	"fmt"
	"math"
)

// Profile draws a profile in its sections.
type Profile struct {
	Letter  string    // "R", "W" or "P"
	Z       []float64 // the whole profile, ends and all
	Spacing float64
	Origin  float64 // place of the first point along the trace
	Layout  Layout
	From    float64 // part drawn, along the trace; both zero: all of it
	To      float64
	Picked  int // section picked out, from 1; 0 is none
}

var profileNames = map[string]string{"R": "Roughness profile", "W": "Waviness profile", "P": "Primary profile"}

func (d Profile) name() string {
	if n, ok := profileNames[d.Letter]; ok {
		return n
	}
	return "Profile"
}

// ends are the places of the first and the last point.
func (d Profile) ends() [2]float64 { return [2]float64{d.Origin, d.Origin + reach(d.Z, d.Spacing)} }

// view is the part drawn.
func (d Profile) view() [2]float64 {
	e := d.ends()
	from, to := math.Max(e[0], d.From), math.Min(e[1], d.To)
	if !(from < to) {
		return e
	}
	return [2]float64{from, to}
}

// visible are the points in the part drawn, with one neighbour to each side, and the place of the first.
func (d Profile) visible() (z []float64, x0 float64) {
	v := d.view()
	first := max(0, int(math.Floor((v[0]-d.Origin)/d.Spacing)))
	last := min(len(d.Z), int(math.Ceil((v[1]-d.Origin)/d.Spacing))+1)
	if first >= last {
		return nil, 0
	}
	return d.Z[first:last], d.Origin + float64(first)*d.Spacing
}

// Draw draws the profile.
func (d Profile) Draw(o Options) Picture {
	c := newCanvas(o)
	height := pick(c, 182.0, 160)
	heights := c.heightRange(d.Z)
	p := c.newPlot(c.margin(heights, height), float64(c.w)-6, 24, 24+height, d.view(), heights)
	e := d.ends()
	p.sections(d.Layout, e[0], e[1], d.Picked, 14)
	d.draw(p, "prof", "along the trace")
	c.h = int(p.bottom()) + 40
	table := c.extremes(d.Layout.parts(d.Z, d.Origin, d.Spacing), heightDecimals(extent(d.Z)))
	title := d.name()
	if n := d.Layout.Sections; n > 0 {
		title += fmt.Sprintf(" in %s %s", count(n), plural(n, "section", "sections"))
	}
	z, _ := d.visible()
	return c.picture(title, c.fromWhole(upper(lower(d.name()))+":", table), p.exaggeration()+c.thinned(len(z), p), table)
}

// draw draws axes, reference line and the visible heights.
func (d Profile) draw(p *plot, classes, along string) {
	p.heightAxis("µm")
	p.lengthAxis(along)
	if p.y.inside(0) {
		p.c.line("ref", p.at(p.x.low, 0), p.at(p.x.high, 0))
	}
	z, x0 := d.visible()
	if d.From < d.To {
		p.clipped(func() { p.profile(classes, z, x0, d.Spacing) })
		return
	}
	p.profile(classes, z, x0, d.Spacing)
}

// clipped cuts what is drawn at the edges of the plot.
func (p *plot) clipped(draw func()) {
	c := p.c
	id := fmt.Sprintf("%s-clip-%d", c.o.ID, len(c.defined))
	c.defined[id] = true
	fmt.Fprintf(&c.defs, `<clipPath id="%s"><rect x="%s" y="%s" width="%s" height="%s"/></clipPath>`, id,
		coord(p.left()), coord(p.top()-10), coord(p.right()-p.left()), coord(p.bottom()-p.top()+20))
	fmt.Fprintf(&c.b, `<g clip-path="url(#%s)">`, id)
	draw()
	c.b.WriteString("</g>")
}

// Spark draws a profile without axes, as small as a word in a table.
type Spark struct {
	Z       []float64
	Spacing float64
}

// Draw draws the profile over the whole width, 36 pixels high. It is decoration beside a table that holds the figures.
func (d Spark) Draw(o Options) Picture {
	if o.Width == 0 {
		o.Width = 230
	}
	c := newCanvas(o)
	c.w = max(o.Width, 40)
	c.h = 36
	length := reach(d.Z, d.Spacing)
	p := c.newPlot(0, float64(c.w), 2, 34, [2]float64{0, length}, c.heightRange(d.Z))
	p.profile("prof", d.Z, 0, d.Spacing)
	t := c.extremes(Layout{}.parts(d.Z, 0, d.Spacing), heightDecimals(extent(d.Z)))
	return c.picture("Profile", c.fromWhole("Heights", t), "", t)
}
