package figure

import (
	"math"
)

// GroovePlot draws a wide groove with the lines that its depth is fitted by.
type GroovePlot struct {
	Z             []float64
	Spacing       float64
	Centre, Width float64 // from the start of the trace
	Depth         float64
	Tilt, Land    float64 // slope of the lines, and the height of the upper one at the centre
}

// Draw draws the profile, the parts that count in the accent, the two lines, and the depth as a dimension.
func (d GroovePlot) Draw(o Options) Picture {
	c := newCanvas(o)
	p := c.plot(along(0, reach(d.Z, d.Spacing), "along the trace"), c.heightAxis(d.Z), 6, 24, c.pick(152, 126))
	p.axes()
	p.profile("prof faint", d.Z, 0, d.Spacing)
	drop := d.Depth * math.Hypot(1, d.Tilt) // straight down between the lines
	at := func(x float64, below bool) pt {
		y := d.Land + d.Tilt*(x-d.Centre)
		if below {
			y -= drop
		}
		return p.at(x, y)
	}
	w := d.Width
	t := columns("part", "from, mm", "to, mm", "line at its middle, µm")
	n := c.heightDecimals(extent(d.Z))
	for _, part := range []struct {
		name     string
		from, to float64
		below    bool
	}{{"land before", -1.5, -5.0 / 6, false}, {"bottom", -1.0 / 6, 1.0 / 6, true}, {"land behind", 5.0 / 6, 1.5, false}} {
		from, to := d.Centre+part.from*w, d.Centre+part.to*w
		first, last := max(0, int(math.Ceil(from/d.Spacing-1e-9))), min(len(d.Z)-1, int(math.Floor(to/d.Spacing+1e-9)))
		if first <= last {
			p.profile("acc", d.Z[first:last+1], float64(first)*d.Spacing, d.Spacing)
		}
		middle := d.Land + d.Tilt*(part.from+part.to)/2*w
		if part.below {
			middle -= drop
		}
		t.add(part.name, c.mm(from), c.mm(to), c.height(middle, n))
	}
	c.line("acc dash", at(d.Centre-1.5*w, false), at(d.Centre+1.5*w, false))
	c.line("acc dash", at(d.Centre-0.5*w, true), at(d.Centre+0.5*w, true))
	c.dimension("dim", at(d.Centre, false), at(d.Centre, true))
	depth := c.digits(c.in(d.Depth, "µm"), 4)
	middle := at(d.Centre, false)
	c.text(middle.x+6, (middle.y+at(d.Centre, true).y)/2+4, "d "+depth, "tp", start)
	t.add("depth d", "", "", depth)
	return c.picture("Depth of a groove", c.sprintf("The depth between the lines is %s µm.", depth),
		"Lines are fitted on the marked parts only. "+upper(p.exaggeration())+p.thinned(len(d.Z)), t)
}
