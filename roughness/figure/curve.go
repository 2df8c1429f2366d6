package figure

import (
	"math"

	"example.com/furrow/params"
)

// drawCurve draws a construction in a plane that is neither the profile's nor that of the material ratio: the first
// line is the curve, the other marks stand on it.
func (d Construction) drawCurve(o Options) Picture {
	c := newCanvas(o)
	x, y := d.curveRange()
	if c.o.Heights[0] < c.o.Heights[1] {
		y = c.o.Heights
	}
	height := pick(c, 220.0, 190)
	p := c.newPlot(c.margin(y, height), float64(c.w)-pick(c, 12.0, 8), 30, 30+height, x, y)
	switch d.Of.Plane {
	case params.SpectrumPlane:
		p.x.log = true
		c.frames[0].XLog = true
		p.heightAxis("µm")
		p.bottomAxis(c.waveTicks(x[0], x[1], p.x), "wavelength")
	case params.ProbabilityPlane:
		p.heightAxis("µm")
		p.bottomAxis(c.ratioTicks(p.x), "material ratio on normal paper, %")
	default:
		p.heightAxis("")
		p.lengthAxis("shift along the trace")
		c.line("thin", p.at(x[0], 0), p.at(x[1], 0))
	}
	within := box{p.left(), p.top() - 14, p.right(), p.bottom() - 1}
	p.clipped(func() {
		first := true
		for _, s := range d.Of.Steps {
			for _, m := range s.Marks {
				if first && m.Kind == params.LineMark {
					classes := "curve"
					if d.Of.Plane == params.SpectrumPlane {
						classes = "prof"
					}
					c.path(classes, p.thinPoints(m.Points))
					first = false
					continue
				}
				p.marks([]params.Mark{m}, strongly)
			}
		}
	})
	for i, s := range d.Of.Steps {
		for j, m := range s.Marks {
			if i > 0 || j > 0 {
				p.name(m, within)
			}
		}
	}
	c.h = int(p.bottom()) + 40
	return c.picture("Construction of "+d.Of.Symbol, d.words(c), curveCaptions[d.Of.Plane], d.table(c))
}

var curveCaptions = map[params.Plane]string{
	params.LagPlane:         "How similar the profile is to itself when it is shifted along the trace.",
	params.SpectrumPlane:    "The height of the wave of each wavelength in the profile.",
	params.ProbabilityPlane: "The material ratio curve on normal paper: normally distributed heights make a straight line.",
}

// curveRange are the ranges of the axes.
func (d Construction) curveRange() (x, y [2]float64) {
	x = [2]float64{math.Inf(1), math.Inf(-1)}
	y = x
	grow := func(r *[2]float64, v float64) { r[0], r[1] = math.Min(r[0], v), math.Max(r[1], v) }
	for _, s := range d.Of.Steps {
		for _, m := range s.Marks {
			for _, q := range m.Points {
				grow(&x, q.X)
				grow(&y, q.Y)
			}
		}
	}
	if !(x[0] < x[1]) {
		x = [2]float64{0, 1}
	}
	switch d.Of.Plane {
	case params.LagPlane: // the crossing lies near the start of a long curve
		if d.Of.Result > 0 {
			x[1] = math.Min(x[1], 12*d.Of.Result)
		}
		return x, [2]float64{math.Min(y[0], 0) - 0.05, 1.05}
	case params.SpectrumPlane:
		return x, [2]float64{0, math.Max(y[1], 1e-12) * 1.1}
	}
	return x, roomy(y[0], y[1], 0.07)
}

// normalMarks are the ratios in % that normal paper has room for, with their quantiles, in order of importance.
var normalMarks = []struct{ percent, s float64 }{
	{50, 0}, {10, -1.2815515655446004}, {90, 1.2815515655446004}, {1, -2.3263478740408408}, {99, 2.3263478740408408},
	{0.1, -3.090232306167813}, {99.9, 3.090232306167813}, {25, -0.6744897501960817}, {75, 0.6744897501960817},
	{0.01, -3.719016485455709}, {99.99, 3.719016485455709},
}

// ratioTicks puts ratios on normal paper as far as there is room.
func (c *canvas) ratioTicks(x scale) []tick {
	var list []tick
	for _, m := range normalMarks {
		label := c.short(m.percent, 2)
		room := x.inside(m.s)
		for _, t := range list {
			if math.Abs(x.at(t.v)-x.at(m.s)) < (textWidth(label, 12)+textWidth(t.label, 12))/2+6 {
				room = false
			}
		}
		if room {
			list = append(list, tick{m.s, label})
		}
	}
	return list
}
