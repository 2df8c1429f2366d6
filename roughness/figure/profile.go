package figure

import (
	"cmp"
	"math"

	"example.com/furrow/params"
)

// ProfilePlot draws a profile in its sections.
type ProfilePlot struct {
	Letter  string    // "R", "W" or "P"
	Z       []float64 // the whole profile, ends and all
	Spacing float64
	Origin  float64 // place of the first point along the trace
	Layout  Layout
	From    float64 // part drawn, along the trace; both zero: all of it
	To      float64
	Picked  int // section picked out, from 1; 0 is none

	Before []float64     // an earlier state of the same places, drawn faint and dashed
	Marks  []params.Mark // on the profile; their places count from the start of the layout
}

var profileNames = map[string]string{"R": "Roughness profile", "W": "Waviness profile", "P": "Primary profile"}

// ends are the places of the first and the last point.
func (d ProfilePlot) ends() (from, to float64) { return d.Origin, d.Origin + reach(d.Z, d.Spacing) }

// view is the part drawn.
func (d ProfilePlot) view() (from, to float64) {
	a, b := d.ends()
	if from, to = max(a, d.From), min(b, d.To); from < to {
		return from, to
	}
	return a, b
}

// visible are the points in the part drawn, with one neighbour to each side, and the place of the first.
func (d ProfilePlot) visible() (z []float64, x0 float64) {
	from, to := d.view()
	first := max(0, int(math.Floor((from-d.Origin)/d.Spacing)))
	last := min(len(d.Z), int(math.Ceil((to-d.Origin)/d.Spacing))+1)
	if first >= last {
		return nil, 0
	}
	return d.Z[first:last], d.Origin + float64(first)*d.Spacing
}

// Draw draws the profile.
func (d ProfilePlot) Draw(o Options) Picture {
	c := newCanvas(o)
	low, high := d.view()
	p := c.plot(along(low, high, "along the trace"), c.heightAxis(d.Z, d.Before), 6, 24, c.tall(24, 182, 160))
	from, to := d.ends()
	p.sections(d.Layout, from, to, d.Picked, 14)
	points := d.draw(p, "prof")
	p.clippedIf(len(d.Marks) > 0, func() {
		for _, m := range d.Marks {
			p.mark(moved(m, d.Layout.Start), plainly)
		}
	})
	t := c.parts(d.Layout, d.Z, d.Origin, d.Spacing)
	name := cmp.Or(profileNames[d.Letter], "Profile")
	title := name
	if d.Layout.Sections > 0 {
		title += " in " + d.Layout.number()
	}
	desc := c.fromWhole(name+":", t)
	if hidden := c.o.Hidden; hidden != "" {
		t, desc = columns("height"), upper(hidden)+"."
		t.add(hidden)
	}
	return c.picture(title, desc, upper(p.exaggeration())+p.thinned(points), t)
}

// draw draws axes, reference line and the visible heights, and says how many these are.
func (d ProfilePlot) draw(p *plot, classes string) int {
	p.axes()
	if p.y.inside(0) {
		p.level("ref", 0)
	}
	z, x0 := d.visible()
	draw := func() {
		if d.Before != nil {
			before := d
			before.Z = d.Before
			b, at := before.visible()
			p.profile("prof faint dash", b, at, d.Spacing)
		}
		p.profile(classes, z, x0, d.Spacing)
	}
	if d.From < d.To || d.Before != nil {
		p.clipped(draw)
	} else {
		draw()
	}
	return len(z)
}

// moved is a mark at other places along the trace.
func moved(m params.Mark, by float64) params.Mark {
	points := make([]params.Point, len(m.Points))
	for i, q := range m.Points {
		points[i] = params.Point{X: q.X + by, Y: q.Y}
	}
	m.Points = points
	return m
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
	p := c.lay(axis{high: reach(d.Z, d.Spacing)}, c.heightAxis(d.Z), 0, float64(c.w), 2, 34)
	c.h = 36
	p.profile("prof", d.Z, 0, d.Spacing)
	t := c.parts(Layout{}, d.Z, 0, d.Spacing)
	return c.picture("Profile", c.fromWhole("Heights", t), "", t)
}
