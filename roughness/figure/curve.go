package figure

import (
	"slices"

	"example.com/furrow/params"
)

// drawCurve draws a construction in a plane that is neither the profile's nor that of the material ratio, on the curve
// that it brings along: its first line. The other marks stand on it.
func (d ConstructionPlot) drawCurve(c *canvas) (title, caption string) {
	x, y, caption := d.curveAxes()
	p := c.plot(x, d.fixed(c, y), c.pick(12, 8), 30, c.tall(30, 220, 190))
	p.axes()
	line := "curve"
	switch d.Of.Plane {
	case params.SpectrumPlane:
		line = "prof"
	case params.LagPlane:
		p.level("thin", 0)
	}
	marks := slices.Collect(d.marks())
	p.clipped(func() {
		d.ghost(p)
		first := true
		for _, m := range marks {
			if first && m.Kind == params.LineMark {
				p.through(line, m.Points)
				first = false
			} else {
				p.mark(m, strongly)
			}
		}
	})
	if p.o.Hidden != "" {
		marks = nil
	}
	for _, m := range marks[min(1, len(marks)):] {
		p.name(m, p.within(14, 1))
	}
	return "Construction of " + d.Of.Symbol, caption
}

// curveAxes are the axes of the plane of a curve, and what is drawn in it.
func (d ConstructionPlot) curveAxes() (x, y axis, caption string) {
	r, heights := bounds(d.marks())
	if !(r[0] < r[1]) {
		r = [2]float64{0, 1}
	}
	switch d.Of.Plane {
	case params.SpectrumPlane:
		return waves(r[0], r[1]), axis{high: max(heights[1], 1e-12) * 1.1, name: "µm"}, "The height of the wave of each wavelength in the profile."
	case params.ProbabilityPlane:
		return axis{low: r[0], high: r[1], name: "material ratio on normal paper, %", ticks: (*canvas).ratioTicks}, roomy(heights[0], heights[1], 0.07, "µm"),
			"The material ratio curve on normal paper: normally distributed heights make a straight line."
	}
	if d.Of.Result > 0 { // the crossing lies near the start of a long curve
		r[1] = min(r[1], 12*d.Of.Result)
	}
	return along(r[0], r[1], "shift along the trace"), axis{low: min(heights[0], 0) - 0.05, high: 1.05}, "How similar the profile is to itself when it is shifted along the trace."
}
