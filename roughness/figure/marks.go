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

// strip is the number of points from which a line is drawn thinly.
const strip = 60

// marks draws the marks of one step. Labels are kept for later, so that they stand on everything else.
func (p *plot) marks(list []params.Mark, w weight) {
	for _, m := range list {
		if len(list) > crowd && len(m.Points) == 1 {
			p.mark(m, lightly)
		} else {
			p.mark(m, w)
		}
	}
}

// places are the points of a mark on the canvas.
func (p *plot) places(m params.Mark) []pt {
	points := make([]pt, len(m.Points))
	for i, q := range m.Points {
		points[i] = p.at(q.X, q.Y)
	}
	return points
}

func (p *plot) mark(m params.Mark, w weight) {
	points := p.places(m)
	if len(points) == 0 {
		return
	}
	first, last := points[0], points[len(points)-1]
	classes := [...]string{"accl", "accl", "acc"}[w]
	switch m.Kind {
	case params.PeakMark:
		p.triangle("accf", first, [...]float64{4, 8, 8}[w], -1)
	case params.PitMark:
		p.triangle("accf", first, [...]float64{4, 8, 8}[w], 1)
	case params.PointMark:
		p.circle("accf", first, [...]float64{1.6, 2.4, 3.2}[w])
	case params.LevelMark:
		p.line([...]string{"accl dash", "acc dash", "acc"}[w], first, last)
	case params.SpanMark:
		if w != lightly { // dimension lines of very many things only hide the profile
			p.dimension([...]string{"", "acd thinner", "acd"}[w], first, last)
		}
	case params.AreaMark:
		p.hatched(true, points...)
		p.path([...]string{"accl", "accl", "tri"}[w], lineTo(points)+"Z")
	default:
		if w == lightly && len(points) < 4 { // one small line of very many, as a dimension line
			return
		}
		if len(points) == 2 && first.y == last.y && w == strongly {
			classes = "acc fat" // a piece of a level: the material that a cut meets
		}
		if len(points) > strip {
			classes = "accl" // a line along the whole trace would hide what stands on it
		}
		p.through(classes, m.Points)
	}
}

// openMark draws a mark of an earlier state: its outline, faint.
func (p *plot) openMark(m params.Mark) {
	points := p.places(m)
	if len(points) == 0 || len(points) > strip {
		return
	}
	switch m.Kind {
	case params.PeakMark:
		p.triangle("faint", points[0], 8, -1)
	case params.PitMark:
		p.triangle("faint", points[0], 8, 1)
	case params.PointMark:
		p.path("faint", coords("M%s %sa3 3 0 1 0 6 0a3 3 0 1 0 -6 0", points[0].x-3, points[0].y))
	case params.AreaMark:
		p.path("faint dash", lineTo(points)+"Z")
	default:
		p.line("faint dash", points...)
	}
}

// name writes the label of a mark where it belongs: above a peak, below a pit, beside an upright span, over a level one
// and over the end of a line. Where another label stands already, it is left out; the table has it.
func (p *plot) name(m params.Mark, within box) {
	if m.Label == "" || len(m.Points) == 0 {
		return
	}
	points := p.places(m)
	first, last := points[0], points[len(points)-1]
	mid := pt{(first.x + last.x) / 2, (first.y + last.y) / 2}
	spots := []spot{{last, 6, 4}, {last, -6, -6}, {mid, 6, -6}, {mid, -6, 16}}
	switch m.Kind {
	case params.PeakMark:
		spots = []spot{{first, 0, -13}, {first, 8, -4}, {first, -8, -4}}
	case params.PitMark:
		spots = []spot{{first, 0, 22}, {first, 8, 12}, {first, -8, 12}}
	case params.PointMark:
		spots = []spot{{first, 7, -6}, {first, -7, -6}, {first, 7, 15}, {first, -7, 15}}
	case params.SpanMark:
		spots = []spot{{mid, 0, -6}, {mid, 0, 15}}
		if math.Abs(first.x-last.x) < math.Abs(first.y-last.y) {
			spots = []spot{{mid, 6, 4}, {mid, -6, 4}}
		}
	case params.LevelMark:
		spots = []spot{{last, -4, -5}, {first, 4, -5}, {last, -4, 14}}
	case params.AreaMark:
		var centre pt
		low, high := points[0], points[0]
		for _, q := range points {
			centre.x += q.x / float64(len(points))
			centre.y += q.y / float64(len(points))
			low, high = pt{min(low.x, q.x), min(low.y, q.y)}, pt{max(high.x, q.x), max(high.y, q.y)}
		}
		spots = []spot{{centre, 0, 4}}
		if high.x-low.x < 24 && high.y-low.y < 24 { // the name would hide it
			spots = []spot{{pt{high.x, centre.y}, 6, 4}, {pt{low.x, centre.y}, -6, 4}}
		}
	}
	p.label(p.prose(m.Label), "tp", 12, within, spots...)
}
