package figure

import (
	"math"
	"sort"

	"example.com/furrow/params"
)

// Labels by which the construction of the Rk family names its lines.
const (
	windowLabel = "40 %"
	lineLabel   = "equivalent straight line"
)

// drawRatio draws the profile at the left (in the wide design) and the material ratio curve beside it on the same
// heights, with the construction. Dimension lines at 0 % and 100 % stand at the right of the curve.
func (d Construction) drawRatio(o Options) Picture {
	c := newCanvas(o)
	height := pick(c, 300.0, 250)
	heights := d.heights(c)
	left, right := c.margin(heights, height), float64(c.w)-pick(c, 70.0, 60)
	length := math.Max(float64(len(d.Z)), 1) * d.Spacing
	curveLeft := left
	if !c.narrow {
		beside := left + 0.36*(right-left)
		curveLeft = beside + 30
		q := c.newPlot(left, beside, 24, 24+height, [2]float64{0, length}, heights)
		Profile{Z: d.Z, Spacing: d.Spacing}.draw(q, "prof soft", "of the evaluation length")
	}
	p := c.newPlot(curveLeft, right, 24, 24+height, [2]float64{0, 100}, heights)
	if c.narrow {
		p.heightAxis("µm")
	} else {
		p.leftAxis(nil, "")
	}
	p.bottomAxis(c.ticks(0, 100, pick(c, 5, 5), 1), "material ratio, %")
	d.ratioMarks(p, left)
	c.h = int(p.bottom()) + 40
	caption := "How much of the profile is material at each height."
	if !c.narrow {
		caption = "Left, the profile; right, how much of it is material at each height."
	}
	if d.hasTriangles() {
		caption += " The hatched parts and the triangles drawn over them have equal areas."
	}
	return c.picture("Material ratio curve with the construction of "+d.Of.Symbol, d.words(c), caption, d.table(c))
}

func (d Construction) hasTriangles() bool {
	for _, s := range d.Of.Steps {
		for _, m := range s.Marks {
			if m.Kind == params.AreaMark && len(m.Points) == 3 {
				return true
			}
		}
	}
	return false
}

// ratioMarks draws areas, levels and drops, then the curve, then what stands on it.
func (d Construction) ratioMarks(p *plot, left float64) {
	c := p.c
	each := func(draw func(m params.Mark, points []pt)) {
		for _, s := range d.Of.Steps {
			for _, m := range s.Marks {
				points := make([]pt, len(m.Points))
				for i, q := range m.Points {
					points[i] = p.at(q.X, q.Y)
				}
				if len(points) > 0 {
					draw(m, points)
				}
			}
		}
	}
	each(func(m params.Mark, points []pt) {
		last := points[len(points)-1]
		switch {
		case m.Kind == params.AreaMark && len(points) == 3:
			c.path("tri", lineTo(points)+"Z")
		case m.Kind == params.AreaMark:
			c.hatched(true, points)
		case m.Kind == params.LevelMark && whole(m):
			c.line("accl dash", pt{left, points[0].y}, last)
		case m.Kind == params.LevelMark:
			c.line("accl dash", points[0], last)
		case upright(m):
			c.line("accl dots", points[0], last)
		}
	})
	c.path("curve", p.thinPoints(params.MaterialRatioCurve(d.Z, 4*int(p.right()-p.left()))))
	var beside []params.Mark
	within := box{p.left(), p.top() - 12, p.right(), p.bottom() - 2}
	var named []params.Mark
	each(func(m params.Mark, points []pt) {
		switch {
		case m.Kind == params.LineMark && m.Label == windowLabel:
			c.line("acc fat", points...)
			c.circle("accf", points[0], 3.2)
			c.circle("accf", points[len(points)-1], 3.2)
			m.Label = pick(c, "flattest 40 % of the curve", "flattest 40 %")
			a, b := points[0], points[len(points)-1]
			mid := pt{(a.x + b.x) / 2, (a.y + b.y) / 2}
			edge := pt{p.right() - 4, 0} // the label may have to end at the right edge: over the line where it begins
			edge.y = mid.y + (edge.x-textWidth(m.Label, 12)-mid.x)*(b.y-a.y)/math.Max(b.x-a.x, 1) - 10
			c.label(m.Label, "tp", 12, within, []place{{mid.x + 12, mid.y - 10, start}, {edge.x, edge.y, end}, {mid.x - 12, mid.y + 22, end}})
		case m.Kind == params.LineMark && !upright(m):
			c.line("acc", points...)
			if m.Label != lineLabel {
				named = append(named, m)
			}
		case upright(m) && m.Kind == params.LineMark:
			p.drop(m, within)
		case m.Kind == params.SpanMark && (m.Points[0].X == 0 || m.Points[0].X == 100) && upright(m):
			beside = append(beside, m)
		case m.Kind == params.AreaMark:
		case m.Kind == params.LevelMark:
			named = append(named, m)
		default:
			p.mark(m, points, strongly)
			named = append(named, m)
		}
	})
	p.beside(beside)
	for _, m := range named {
		p.name(m, within)
	}
}

func whole(m params.Mark) bool {
	return m.Points[0].X == 0 && m.Points[len(m.Points)-1].X == 100
}

func upright(m params.Mark) bool {
	return len(m.Points) == 2 && m.Points[0].X == m.Points[1].X && m.Kind != params.LevelMark
}

// drop names a line dropped to the axis, with the ratio where it stands.
func (p *plot) drop(m params.Mark, within box) {
	if m.Label == "" {
		return
	}
	c := p.c
	x := m.Points[0].X
	label := pick(c, m.Label+" "+c.digits(x, 3)+" %", m.Label)
	at := place{p.x.at(x) + 5, p.bottom() - 7, start}
	if x > 50 {
		at = place{p.x.at(x) - 5, p.bottom() - 7, end}
	}
	c.label(label, "tp", 12, within, []place{at, {at.x, at.y - 16, at.anchor}})
}

// beside draws upright spans as dimensions at the right of the curve, with their lengths, from top to bottom.
func (p *plot) beside(spans []params.Mark) {
	c := p.c
	x := p.right() + 12
	middleOf := func(m params.Mark) float64 { return (p.y.at(m.Points[0].Y) + p.y.at(m.Points[1].Y)) / 2 }
	sort.SliceStable(spans, func(i, j int) bool { return middleOf(spans[i]) < middleOf(spans[j]) })
	free := 0.0
	for _, m := range spans {
		for _, q := range m.Points {
			c.line("accl dots", p.at(q.X, q.Y), pt{x + 3, p.y.at(q.Y)})
		}
		c.dimension("acd", "acdf", pt{x, p.y.at(m.Points[0].Y)}, pt{x, p.y.at(m.Points[1].Y)})
		top := math.Max(middleOf(m)-14, free)
		c.text(pt{x + 7, top + 12}, m.Label, "ta", start)
		c.text(pt{x + 7, top + 26}, c.digits(math.Abs(m.Points[0].Y-m.Points[1].Y), 3), "ta", start)
		free = top + 32
	}
}
