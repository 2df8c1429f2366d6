package figure

import (
	"cmp"
)

// FormPlot draws, above, the trace with the fitted shape and, below, the primary profile that is left.
type FormPlot struct {
	Read    []float64 // what the shape was fitted to
	Fitted  []float64
	Primary []float64
	Spacing float64
	Origin  float64 // place of the first point along the trace
	Name    string  // of the shape: "straight line"; "" is "fitted shape"
}

// Draw draws the form removal.
func (d FormPlot) Draw(o Options) Picture {
	c := newCanvas(o)
	name := cmp.Or(d.Name, "fitted shape")
	x := along(d.Origin, d.Origin+reach(d.Read, d.Spacing), "along the trace")
	above, below := c.heightAxis(d.Read, d.Fitted), c.heightAxis(d.Primary)
	high, low := c.pick(104, 88), c.pick(92, 78)
	left, right := max(c.margin(above, high), c.margin(below, low)), float64(c.w)-6
	p := c.lay(x, above, left, right, 24, 24+high)
	p.leftAxis()
	p.profile("prof faint", d.Read, x.low, d.Spacing)
	p.smooth("acc dash", d.Fitted, x.low, d.Spacing)
	p.note(13, "trace, and the "+name+" removed", "trace, and the "+name)

	q := c.lay(x, below, left, right, 24+high+52, 24+high+52+low)
	q.axes()
	q.level("thin", 0)
	q.profile("prof", d.Primary, x.low, d.Spacing)
	q.note(q.top-11, "what remains: the primary profile P", "what is left: P")

	t := columns("line", "starts at, µm", "ends at, µm", "lowest, µm", "at, mm", "highest, µm", "at, mm")
	for _, l := range []struct {
		name string
		z    []float64
	}{{"trace", d.Read}, {name, d.Fitted}, {"primary profile", d.Primary}} {
		if len(l.z) > 0 {
			m := measure(l.z, x.low, d.Spacing, x.low, x.high)
			n := c.heightDecimals(m.low, m.high)
			t.add(append([]string{l.name, c.height(l.z[0], n), c.height(l.z[len(l.z)-1], n)}, c.extremes(m, n)...)...)
		}
	}
	desc := ""
	if len(t.Rows) == 3 {
		f, r := t.Rows[1], t.Rows[2]
		desc = c.sprintf("Above, the trace with the %s, which goes from %s µm to %s µm. Below, the primary profile that remains, from %s µm to %s µm.", name, f[1], f[2], r[3], r[5])
	}
	return c.picture("Form removal", desc, "The trace with the "+name+", and what remains of it. Below: "+q.exaggeration()+q.thinned(len(d.Read)), t)
}

// Waves draws the primary profile with the waviness through it.
type Waves struct {
	Primary  []float64
	Waviness []float64
	Spacing  float64
	Origin   float64 // place of the first point along the trace
}

// Draw draws the two profiles.
func (d Waves) Draw(o Options) Picture {
	c := newCanvas(o)
	x := along(d.Origin, d.Origin+reach(d.Primary, d.Spacing), "along the trace")
	p := c.plot(x, c.heightAxis(d.Primary, d.Waviness), 6, 24, c.pick(128, 110))
	p.axes()
	p.profile("prof faint", d.Primary, x.low, d.Spacing)
	p.smooth("acc wide", d.Waviness, x.low, d.Spacing)
	p.note(13, "primary profile P, and through it the waviness W; R is the height of P above W", "P, and through it the waviness W")
	t := columns("profile", "lowest, µm", "at, mm", "highest, µm", "at, mm")
	add := func(name string, z []float64) {
		if m := measure(z, x.low, d.Spacing, x.low, x.high); !m.empty() {
			t.add(append([]string{name}, c.extremes(m, c.heightDecimals(extent(d.Primary)))...)...)
		}
	}
	add("primary profile P", d.Primary)
	add("waviness W", d.Waviness)
	desc := ""
	if len(t.Rows) == 2 {
		desc = c.sprintf("The primary profile lies between %s and %s µm, the waviness line through it between %s and %s µm.", t.Rows[0][1], t.Rows[0][3], t.Rows[1][1], t.Rows[1][3])
	}
	return c.picture("Primary profile and waviness", desc, "What the L-filter drew on this trace. "+upper(p.exaggeration()), t)
}
