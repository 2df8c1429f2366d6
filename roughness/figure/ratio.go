package figure

import (
	"cmp"
	"math"
	"slices"

	"example.com/furrow/params"
)

// windowLabel is the label by which the construction of the Rk family names the flattest part.
const windowLabel = "40 %"

// drawRatio draws the profile at the left (in the wide design) and the material ratio curve beside it on the same
// heights, with the construction. Dimension lines at 0 % and 100 % stand at the right of the curve.
func (d ConstructionPlot) drawRatio(c *canvas) (title, caption string) {
	y, height := d.heights(c), c.tall(24, 300, 250)
	left, right := c.margin(y, height), float64(c.w)-c.pick(70, 60)
	curveLeft := left
	caption = "How much of the profile is material at each height."
	if !c.narrow {
		beside := left + 0.36*(right-left)
		curveLeft = beside + 30
		x := along(0, max(float64(len(d.Z)), 1)*d.Spacing, "of the evaluation length")
		p := c.lay(x, y, left, beside, 24, 24+height)
		ProfilePlot{Z: d.Z, Spacing: d.Spacing}.draw(p, "prof soft")
		p.clipped(func() {
			d.in(params.ProfilePlane).ghost(p)
			d.in(params.ProfilePlane).drawSteps(p)
		})
		d.in(params.ProfilePlane).nameSteps(p)
		caption = "Left, the profile; right, how much of it is material at each height."
		y.name, y.ticks = "", func(*canvas, axis) []tick { return nil }
	}
	p := c.lay(axis{high: 100, name: "material ratio, %", ticks: func(c *canvas, s axis) []tick { return c.decimal(s, 5) }}, y, curveLeft, right, 24, 24+height)
	p.axes()
	d.ratioMarks(p, left)
	for m := range d.marks() {
		if triangular(m) {
			caption += " The hatched parts and the triangles drawn over them have equal areas."
			break
		}
	}
	return "Material ratio curve with the construction of " + d.Of.Symbol, caption
}

func triangular(m params.Mark) bool { return m.Kind == params.AreaMark && len(m.Points) == 3 }

// ratioMarks draws areas, levels and drops, then the curve, then what stands on it.
func (d ConstructionPlot) ratioMarks(p *plot, left float64) {
	var marks []params.Mark
	curve := params.MaterialRatioCurve(d.Z, 4*int(p.right-p.left))
	for m := range d.marks() {
		if m.Kind == params.LineMark && len(m.Points) > strip { // that of another profile
			curve = m.Points
		} else if len(m.Points) > 0 {
			marks = append(marks, m)
		}
	}
	for _, m := range marks {
		points := p.places(m)
		first, last := points[0], points[len(points)-1]
		switch {
		case triangular(m):
			p.path("tri", lineTo(points)+"Z")
		case m.Kind == params.AreaMark:
			p.hatched(true, points...)
		case m.Kind == params.LevelMark:
			if m.Points[0].X == 0 && m.Points[len(points)-1].X == 100 { // through the profile too
				first.x = left
			}
			p.line("accl dash", first, last)
		case upright(m):
			p.line("accl dots", first, last)
		}
	}
	if d.Before != nil {
		p.clipped(func() { p.through("prof faint dash", params.MaterialRatioCurve(d.Before.Z, 4*int(p.right-p.left))) })
		d.ghost(p)
	}
	p.through("curve", curve)
	var beside, named []params.Mark
	within := p.within(12, 2)
	for _, m := range marks {
		switch line := m.Kind == params.LineMark; {
		case line && m.Label == windowLabel:
			p.window(m, within)
		case line && upright(m):
			p.drop(m, within)
		case line:
			p.line("acc", p.places(m)...)
			named = append(named, m)
		case m.Kind == params.SpanMark && upright(m) && (m.Points[0].X == 0 || m.Points[0].X == 100):
			beside = append(beside, m)
		case m.Kind == params.AreaMark, m.Kind == params.LevelMark:
			named = append(named, m)
		default:
			p.mark(m, strongly)
			named = append(named, m)
		}
	}
	if p.o.Hidden != "" {
		return
	}
	p.beside(beside)
	for _, m := range named {
		p.name(m, within)
	}
}

func upright(m params.Mark) bool {
	return len(m.Points) == 2 && m.Points[0].X == m.Points[1].X && m.Kind != params.LevelMark
}

// window draws the flattest part of the curve.
func (p *plot) window(m params.Mark, within box) {
	points := p.places(m)
	a, b := points[0], points[len(points)-1]
	p.line("acc fat", points...)
	p.circle("accf", a, 3.2)
	p.circle("accf", b, 3.2)
	label := p.say("flattest 40 % of the curve", "flattest 40 %")
	mid := pt{(a.x + b.x) / 2, (a.y + b.y) / 2}
	// The label may have to end at the right edge: over the line where it begins.
	edge := pt{x: p.right}
	edge.y = mid.y + (edge.x-4-textWidth(label, 12)-mid.x)*(b.y-a.y)/max(b.x-a.x, 1)
	p.label(label, "tp", 12, within, spot{mid, 12, -10}, spot{edge, -4, -10}, spot{mid, -12, 22})
}

// drop names a line dropped to the axis, with the ratio where it stands.
func (p *plot) drop(m params.Mark, within box) {
	if m.Label == "" || p.o.Hidden != "" {
		return
	}
	x, side := m.Points[0].X, 5.0
	if x > 50 {
		side = -5
	}
	at := pt{p.x.at(x), p.bottom}
	p.label(p.say(m.Label+" "+p.digits(x, 3)+" %", m.Label), "tp", 12, within, spot{at, side, -7}, spot{at, side, -23})
}

// beside draws upright spans as dimensions at the right of the curve, with their lengths, from top to bottom.
func (p *plot) beside(spans []params.Mark) {
	x := p.right + 12
	centre := func(m params.Mark) float64 { return (p.y.at(m.Points[0].Y) + p.y.at(m.Points[1].Y)) / 2 }
	slices.SortStableFunc(spans, func(a, b params.Mark) int { return cmp.Compare(centre(a), centre(b)) })
	free := 0.0
	for _, m := range spans {
		a, b := m.Points[0], m.Points[1]
		for _, q := range m.Points {
			p.line("accl dots", p.at(q.X, q.Y), pt{x + 3, p.y.at(q.Y)})
		}
		p.dimension("acd", pt{x, p.y.at(a.Y)}, pt{x, p.y.at(b.Y)})
		top := max(centre(m)-14, free)
		p.text(x+7, top+12, m.Label, "ta", start)
		p.text(x+7, top+26, p.digits(p.in(math.Abs(a.Y-b.Y), "µm"), 3), "ta", start)
		free = top + 32
	}
}
