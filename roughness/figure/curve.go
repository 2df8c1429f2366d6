package figure

import (
	"math"

	"example.com/furrow/params"
)

// plane is how a construction is drawn that lies neither in the plane of the profile nor in that of the material ratio.
type plane struct {
	axis    axis
	unit    string
	curve   string // classes of the first line
	caption string
}

func (d Construction) plane(x [2]float64) plane {
	switch d.Of.Plane {
	case params.SpectrumPlane:
		return plane{waves(x[0], x[1]), "µm", "prof", "The height of the wave of each wavelength in the profile."}
	case params.ProbabilityPlane:
		return plane{axis{low: x[0], high: x[1], name: "material ratio on normal paper, %", ticks: (*canvas).ratioTicks}, "µm", "curve",
			"The material ratio curve on normal paper: normally distributed heights make a straight line."}
	}
	return plane{along(x[0], x[1], "shift along the trace"), "", "curve", "How similar the profile is to itself when it is shifted along the trace."}
}

// drawCurve draws a construction on the curve that it brings along: its first line. The other marks stand on it.
func (d Construction) drawCurve(o Options) Picture {
	c := newCanvas(o)
	x, heights := d.curveRange()
	of := d.plane(x)
	y := c.fixedOr(heights)
	y.name = of.unit
	p := c.plot(of.axis, y, c.pick(12, 8), 30, c.pick(220, 190))
	p.axes()
	if of.unit == "" {
		p.level("thin", 0)
	}
	p.clipped(func() {
		first := true
		for m := range d.marks() {
			if first && m.Kind == params.LineMark {
				p.path(of.curve, p.thin(m.Points))
				first = false
			} else {
				p.marks([]params.Mark{m}, strongly)
			}
		}
	})
	for i, s := range d.Of.Steps {
		for j, m := range s.Marks {
			if i > 0 || j > 0 {
				p.name(m, p.within(14, 1))
			}
		}
	}
	return c.picture("Construction of "+d.Of.Symbol, d.words(c), of.caption, d.table(c))
}

// curveRange are the ranges of the axes.
func (d Construction) curveRange() (x, y [2]float64) {
	x, y = bounds(d.marks())
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
