package figure

import (
	"math"

	"example.com/furrow/params"
)

// weight is how strongly the marks of a step are drawn.
type weight uint8

const (
	lightly  weight = iota // one of very many
	plainly                // beside the picked one: dashed, thin
	strongly               // picked, or nothing is
)

// marks draws the marks of one step. Labels are kept for later, so that they stand on everything else.
func (p *plot) marks(list []params.Mark, w weight) {
	for _, m := range list {
		if len(m.Points) == 0 {
			continue
		}
		points := make([]pt, len(m.Points))
		for i, q := range m.Points {
			points[i] = p.at(q.X, q.Y)
		}
		p.mark(m, points, w)
	}
}

func (p *plot) mark(m params.Mark, points []pt, w weight) {
	c := p.c
	first, last := points[0], points[len(points)-1]
	switch m.Kind {
	case params.PeakMark, params.PitMark:
		c.triangle("accf", first, [...]float64{4, 8, 8}[w], m.Kind == params.PeakMark)
	case params.PointMark:
		c.circle("accf", first, [...]float64{1.6, 2.4, 3.2}[w])
	case params.LevelMark:
		c.line([...]string{"accl dash", "acc dash", "acc"}[w], first, last)
	case params.SpanMark:
		switch w {
		case lightly: // dimension lines of very many things only hide the profile
		case plainly:
			c.dimension("acd thinner", "thinnerf", first, last)
		default:
			c.dimension("acd", "acdf", first, last)
		}
	case params.AreaMark:
		c.hatched(true, points)
		c.path([...]string{"accl", "accl", "tri"}[w], lineTo(points)+"Z")
	default:
		if w == lightly && len(points) < 8 { // one small line of very many, as a dimension line
			return
		}
		classes := [...]string{"accl", "accl", "acc"}[w]
		if len(points) == 2 && first.y == last.y && w == strongly {
			classes = "acc fat" // a piece of a level: the material that a cut meets
		}
		c.path(classes, p.thinPoints(m.Points))
	}
}

// thinPoints is the path through points of rising x with at most four to a pixel column, as thin has it.
func (p *plot) thinPoints(list []params.Point) string {
	var kept []pt
	column := func(q params.Point) float64 { return math.Floor(p.x.at(q.X)) }
	for i := 0; i < len(list); {
		first, low, high := i, i, i
		for i++; i < len(list) && column(list[i]) == column(list[first]); i++ {
			if list[i].Y < list[low].Y {
				low = i
			}
			if list[i].Y > list[high].Y {
				high = i
			}
		}
		before := -1
		for _, k := range []int{first, min(low, high), max(low, high), i - 1} {
			if k > before {
				kept = append(kept, p.at(list[k].X, list[k].Y))
				before = k
			}
		}
	}
	return lineTo(kept)
}

// name writes the label of a mark where it belongs: above a peak, below a pit, beside an upright span, over a level one
// and over the end of a line. Where another label stands already, it is left out; the table has it.
func (p *plot) name(m params.Mark, within box) {
	if m.Label == "" || len(m.Points) == 0 {
		return
	}
	c := p.c
	first, last := p.at(m.Points[0].X, m.Points[0].Y), p.at(m.Points[len(m.Points)-1].X, m.Points[len(m.Points)-1].Y)
	mid := pt{(first.x + last.x) / 2, (first.y + last.y) / 2}
	label := c.prose(m.Label)
	var places []place
	switch m.Kind {
	case params.PeakMark:
		places = []place{{first.x, first.y - 13, middle}, {first.x + 8, first.y - 4, start}, {first.x - 8, first.y - 4, end}}
	case params.PitMark:
		places = []place{{first.x, first.y + 22, middle}, {first.x + 8, first.y + 12, start}, {first.x - 8, first.y + 12, end}}
	case params.PointMark:
		places = []place{{first.x + 7, first.y - 6, start}, {first.x - 7, first.y - 6, end}, {first.x + 7, first.y + 15, start}, {first.x - 7, first.y + 15, end}}
	case params.SpanMark:
		if math.Abs(first.x-last.x) < math.Abs(first.y-last.y) {
			places = []place{{mid.x + 6, mid.y + 4, start}, {mid.x - 6, mid.y + 4, end}}
		} else {
			places = []place{{mid.x, mid.y - 6, middle}, {mid.x, mid.y + 15, middle}}
		}
	case params.LevelMark:
		places = []place{{last.x - 4, last.y - 5, end}, {first.x + 4, first.y - 5, start}, {last.x - 4, last.y + 14, end}}
	case params.AreaMark:
		var x, y float64
		for _, q := range m.Points {
			x += p.x.at(q.X) / float64(len(m.Points))
			y += p.y.at(q.Y) / float64(len(m.Points))
		}
		places = []place{{x, y + 4, middle}}
	default:
		places = []place{{last.x + 6, last.y + 4, start}, {last.x - 6, last.y - 6, end}, {mid.x + 6, mid.y - 6, start}, {mid.x - 6, mid.y + 16, end}}
	}
	c.label(label, "tp", 12, within, places)
}
