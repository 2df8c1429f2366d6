package figure

import (
	"fmt"
	"math"
)

// Form draws, above, the trace with the fitted shape and, below, the primary profile that is left.
type Form struct {
	Read    []float64 // what the shape was fitted to
	Fitted  []float64
	Primary []float64
	Spacing float64
	Origin  float64 // place of the first point along the trace
	Name    string  // of the shape: "straight line"; "" is "fitted shape"
}

// Draw draws the form removal.
func (d Form) Draw(o Options) Picture {
	c := newCanvas(o)
	name := d.Name
	if name == "" {
		name = "fitted shape"
	}
	x := [2]float64{d.Origin, d.Origin + reach(d.Read, d.Spacing)}
	above := c.heightRange(d.Read, d.Fitted)
	below := c.heightRange(d.Primary)
	high := pick(c, 104.0, 88)
	low := pick(c, 92.0, 78)
	left := math.Max(c.margin(above, high), c.margin(below, low))
	right := float64(c.w) - 6
	p := c.newPlot(left, right, 24, 24+high, x, above)
	p.heightAxis("µm")
	p.profile("prof faint", d.Read, x[0], d.Spacing)
	p.smooth("acc dash", d.Fitted, x[0], d.Spacing)
	c.text(pt{left + 8, 13}, pick(c, "trace, and the "+name+" removed", "trace, and the "+name), "lab", start)

	q := c.newPlot(left, right, 24+high+52, 24+high+52+low, x, below)
	q.heightAxis("µm")
	q.lengthAxis("along the trace")
	c.line("thin", q.at(x[0], 0), q.at(x[1], 0))
	q.profile("prof", d.Primary, x[0], d.Spacing)
	c.text(pt{left + 8, q.top() - 11}, pick(c, "what remains: the primary profile P", "what is left: P"), "lab", start)
	c.h = int(q.bottom()) + 40

	t := Table{Columns: []string{"line", "starts at, µm", "ends at, µm", "lowest, µm", "at, mm", "highest, µm", "at, mm"}}
	for _, l := range []struct {
		name string
		z    []float64
	}{{"trace", d.Read}, {name, d.Fitted}, {"primary profile", d.Primary}} {
		if len(l.z) == 0 {
			continue
		}
		m := measure(l.name, l.z, x[0], d.Spacing, x[0], x[1])
		n := heightDecimals(m.low, m.high)
		t.Rows = append(t.Rows, []string{l.name, c.fixed(l.z[0], n), c.fixed(l.z[len(l.z)-1], n), c.fixed(m.low, n), c.mm(m.lowPlace), c.fixed(m.high, n), c.mm(m.highPlace)})
	}
	desc := ""
	if len(t.Rows) == 3 {
		f, r := t.Rows[1], t.Rows[2]
		desc = fmt.Sprintf("Above, the trace with the %s, which goes from %s µm to %s µm. Below, the primary profile that remains, from %s µm to %s µm.", name, f[1], f[2], r[3], r[5])
	}
	return c.picture("Form removal", desc, "The trace with the "+name+", and what remains of it. Below: "+lower(q.exaggeration())+c.thinned(len(d.Read), q), t)
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
	x := [2]float64{d.Origin, d.Origin + reach(d.Primary, d.Spacing)}
	heights := c.heightRange(d.Primary, d.Waviness)
	height := pick(c, 128.0, 110)
	left := c.margin(heights, height)
	p := c.newPlot(left, float64(c.w)-6, 24, 24+height, x, heights)
	p.heightAxis("µm")
	p.lengthAxis("along the trace")
	p.profile("prof faint", d.Primary, x[0], d.Spacing)
	p.smooth("acc wide", d.Waviness, x[0], d.Spacing)
	c.text(pt{left + 8, 13}, pick(c, "primary profile P, and through it the waviness W; R is the height of P above W", "P, and through it the waviness W"), "lab", start)
	c.h = int(p.bottom()) + 40
	t := Table{Columns: []string{"profile", "lowest, µm", "at, mm", "highest, µm", "at, mm"}}
	n := heightDecimals(extent(d.Primary))
	for _, l := range []struct {
		name string
		z    []float64
	}{{"primary profile P", d.Primary}, {"waviness W", d.Waviness}} {
		m := measure(l.name, l.z, x[0], d.Spacing, x[0], x[1])
		if !m.empty {
			t.Rows = append(t.Rows, []string{l.name, c.fixed(m.low, n), c.mm(m.lowPlace), c.fixed(m.high, n), c.mm(m.highPlace)})
		}
	}
	desc := ""
	if len(t.Rows) == 2 {
		desc = fmt.Sprintf("The primary profile lies between %s and %s µm, the waviness line through it between %s and %s µm.", t.Rows[0][1], t.Rows[0][3], t.Rows[1][1], t.Rows[1][3])
	}
	return c.picture("Primary profile and waviness", desc, "What the L-filter drew on this trace. "+p.exaggeration(), t)
}
