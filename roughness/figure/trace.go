package figure

import (
	"cmp"
)

// TracePlot draws the heights as read, with a dimension line below: end, evaluation length with its sections, end. Where
// the layout needs more than was traced, the missing part is an open dashed dimension.
type TracePlot struct {
	Title   string // "" is "Trace as read"
	Z       []float64
	Spacing float64
	Layout  Layout
}

// Draw draws the trace.
func (d TracePlot) Draw(o Options) Picture {
	c := newCanvas(o)
	l, length := d.Layout, reach(d.Z, d.Spacing)
	p := c.plot(along(0, max(length, l.End()), "along the trace"), c.heightAxis(d.Z), 6, 24, c.pick(152, 126))
	if l.Sections > 0 {
		c.rect("ends", p.left, p.top, p.x.at(l.Start), p.bottom)
		if l.End() < length {
			c.rect("ends", p.x.at(l.End()), p.top, p.right, p.bottom)
		}
	}
	p.axes()
	p.profile("prof", d.Z, 0, d.Spacing)
	title := cmp.Or(d.Title, "Trace as read")
	t := c.parts(l, d.Z, 0, d.Spacing)
	desc := c.fromWhole("Heights", t)
	if l.Sections > 0 {
		p.dimensions(l, length, d.Spacing, p.bottom+58)
		c.h = int(p.bottom) + 92
		if l.missing(length, d.Spacing) > 0 {
			t.add("missing", c.mm(length), c.mm(l.End()), "", "", "", "")
			desc += c.sprintf(" The evaluation would need the trace to reach %s mm.", c.mm(l.End()))
		} else {
			desc += c.sprintf(" What lies between %s and %s mm is evaluated, in %s.", c.mm(l.Start), c.mm(l.End()), l.number())
		}
	}
	return c.picture(title, desc, title+". "+upper(p.exaggeration())+p.thinned(len(d.Z)), t)
}
