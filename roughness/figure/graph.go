package figure

import (
	"math"
	"strconv"

	"example.com/furrow/params"
)

// graph is one plot of one or two curves, the common ground of the pictures that are not profiles.
type graph struct {
	x, y       [2]float64
	xLog, yLog bool
	xTicks     func(c *canvas, s scale, width float64) []tick
	below      string // what the bottom axis counts
	above      string // unit above the left axis
	height     [2]float64
	lines      []graphLine
	zero       bool // draw the line of zero
}

type graphLine struct {
	classes string
	points  []params.Point
	name    string  // written in italics at its place
	at      float64 // where along x, in the units of x; the name stands above the line there
	steps   bool    // a staircase: level from each point to the next
}

// draw draws the graph and returns its plot.
func (g graph) draw(c *canvas) *plot {
	height := pick(c, g.height[0], g.height[1])
	if height == 0 {
		height = pick(c, 200.0, 180)
	}
	var left []tick
	if g.yLog {
		left = powerTicks(g.y[0], g.y[1])
	} else {
		left = c.ticks(g.y[0], g.y[1], yTicks(height), 1)
	}
	margin := pick(c, 44.0, 34)
	for _, t := range left {
		margin = math.Max(margin, textWidth(t.label, 12)+14)
	}
	p := c.newPlot(math.Ceil(margin), float64(c.w)-pick(c, 12.0, 8), 30, 30+height, g.x, g.y)
	p.x.log, p.y.log = g.xLog, g.yLog
	c.frames[len(c.frames)-1].XLog = g.xLog
	p.leftAxis(left, g.above)
	ticks := g.xTicks
	if ticks == nil {
		ticks = func(c *canvas, s scale, width float64) []tick { return c.ticks(s.low, s.high, c.xTicks(width), 1) }
	}
	p.bottomAxis(ticks(c, p.x, p.right()-p.left()), g.below)
	if g.zero && p.y.inside(0) {
		c.line("thin", p.at(p.x.low, 0), p.at(p.x.high, 0))
	}
	p.clipped(func() {
		for _, l := range g.lines {
			if l.steps {
				c.path(l.classes, p.staircase(l.points))
			} else {
				c.path(l.classes, p.thinPoints(l.points))
			}
		}
	})
	within := box{p.left(), p.top() - 16, p.right(), p.bottom() - 1}
	for _, l := range g.lines {
		if l.name != "" {
			at := p.at(l.at, nearest(l.points, l.at))
			c.label(l.name, "lab plated", 14, within, []place{{at.x + 6, at.y - 8, start}, {at.x - 6, at.y - 8, end}, {at.x + 6, at.y + 18, start}, {p.right() - 4, p.top() + 14, end}})
		}
	}
	c.h = int(p.bottom()) + 40
	return p
}

// nearest is the height of a curve of rising x at a place.
func nearest(points []params.Point, x float64) float64 {
	best := math.NaN()
	for _, q := range points {
		if math.IsNaN(best) || q.X <= x {
			best = q.Y
		}
	}
	return best
}

// staircase is the path that stays level from each point to the next one.
func (p *plot) staircase(list []params.Point) string {
	var points []pt
	for i, q := range list {
		at := p.at(q.X, q.Y)
		if i > 0 {
			points = append(points, pt{at.x, points[len(points)-1].y})
		}
		points = append(points, at)
	}
	return lineTo(points)
}

// powerTicks are the powers of ten of an axis, every second or third where there are many.
func powerTicks(low, high float64) []tick {
	first, last := int(math.Ceil(math.Log10(low)-1e-9)), int(math.Floor(math.Log10(high)+1e-9))
	every := max(1, int(math.Ceil(float64(last-first+1)/8)))
	var list []tick
	for e := first; e <= last; e++ {
		if (e-first)%every == 0 {
			list = append(list, tick{math.Pow(10, float64(e)), "10" + superscript(e)})
		}
	}
	return list
}

var superscripts = map[rune]string{'-': "⁻", '0': "⁰", '1': "¹", '2': "²", '3': "³", '4': "⁴", '5': "⁵", '6': "⁶", '7': "⁷", '8': "⁸", '9': "⁹"}

func superscript(n int) string {
	s := ""
	for _, r := range strconv.Itoa(n) {
		s += superscripts[r]
	}
	return s
}

// lengthTicks are ticks in mm, or in µm where the axis is short.
func lengthTicks(c *canvas, s scale, width float64) []tick {
	unit, _ := lengthUnit(s.low, s.high)
	return c.ticks(s.low, s.high, c.xTicks(width), unit)
}

// lengthUnit is the unit of an axis of lengths.
func lengthUnit(low, high float64) (factor float64, name string) {
	if high-low < 100 {
		return 1, "µm"
	}
	return 1e-3, "mm"
}
