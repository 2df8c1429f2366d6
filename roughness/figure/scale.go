package figure

import "math"

// scale maps values of an axis to pixels.
type scale struct {
	low, high float64 // values at the ends
	a, b      float64 // pixels there
	log       bool
}

func (s scale) at(v float64) float64 {
	low, high := s.low, s.high
	if s.log {
		v, low, high = math.Log(v), math.Log(low), math.Log(high)
	}
	return s.a + (v-low)/(high-low)*(s.b-s.a)
}

// value is the inverse of at.
func (s scale) value(pixel float64) float64 {
	t := (pixel - s.a) / (s.b - s.a)
	if s.log {
		return s.low * math.Pow(s.high/s.low, t)
	}
	return s.low + t*(s.high-s.low)
}

// inside says whether a value lies on the axis.
func (s scale) inside(v float64) bool { return v >= s.low && v <= s.high }

// tick is a place on an axis with its number.
type tick struct {
	v     float64
	label string
}

// step is the smallest of 1, 2, 5 times a power of ten that puts at most n ticks on a range.
func step(length float64, n int) float64 {
	power := math.Pow(10, math.Floor(math.Log10(length/float64(n))))
	for _, m := range []float64{1, 2, 5, 10, 20} {
		if length/(m*power) <= float64(n)+1e-9 {
			return m * power
		}
	}
	return 50 * power
}

// ticks puts at most n ticks on a range; the numbers are those of the values times unit.
func (p printer) ticks(low, high float64, n int, unit float64) []tick {
	d := step((high-low)*unit, n)
	decimals := max(0, -int(math.Floor(math.Log10(d)+1e-9)))
	first := math.Ceil(low*unit/d - 1e-9)
	var list []tick
	for i := first; i*d <= high*unit+d*1e-9; i++ {
		list = append(list, tick{i * d / unit, p.short(i*d, decimals)})
	}
	return list
}

// plot is one pair of axes on the canvas.
type plot struct {
	c    *canvas
	x, y scale
}

// newPlot lays a plot on the canvas and notes its frame.
func (c *canvas) newPlot(left, right, top, bottom float64, x, y [2]float64) *plot {
	p := &plot{c, scale{low: x[0], high: x[1], a: left, b: right}, scale{low: y[0], high: y[1], a: bottom, b: top}}
	c.frames = append(c.frames, Frame{left, right, top, bottom, x[0], x[1], y[0], y[1], false})
	return p
}

func (p *plot) at(x, y float64) pt { return pt{p.x.at(x), p.y.at(y)} }

func (p *plot) top() float64    { return p.y.b }
func (p *plot) bottom() float64 { return p.y.a }
func (p *plot) left() float64   { return p.x.a }
func (p *plot) right() float64  { return p.x.b }

// heightAxis draws the left axis and its unit above.
func (p *plot) heightAxis(unit string) {
	p.leftAxis(p.c.ticks(p.y.low, p.y.high, yTicks(p.bottom()-p.top()), 1), unit)
}

// yTicks is the number of ticks that a left axis of a height has room for.
func yTicks(height float64) int { return max(2, min(8, int(height/22))) }

// leftAxis draws the left axis with its ticks and its unit above.
func (p *plot) leftAxis(ticks []tick, unit string) {
	c := p.c
	c.line("axis", pt{p.left(), p.top()}, pt{p.left(), p.bottom()})
	for _, t := range ticks {
		y := p.y.at(t.v)
		c.line("axis", pt{p.left() - 4, y}, pt{p.left(), y})
		c.text(pt{p.left() - 8, y + 4}, t.label, "n", end)
	}
	if unit != "" {
		c.text(pt{p.left() - 8, p.top() - 13}, unit, "u", end)
	}
}

// lengthAxis draws the bottom axis, which counts in mm, or in µm where it is short.
func (p *plot) lengthAxis(what string) {
	unit, name := 1e-3, "mm"
	if p.x.high-p.x.low < 100 {
		unit, name = 1, "µm"
	}
	p.bottomAxis(p.c.ticks(p.x.low, p.x.high, p.c.xTicks(p.right()-p.left()), unit), name+" "+what)
}

// xTicks is the number of ticks that a bottom axis of a width has room for.
func (c *canvas) xTicks(width float64) int { return max(2, min(10, int(width/pick(c, 56.0, 50)))) }

// bottomAxis draws the bottom axis with its ticks and what it counts.
func (p *plot) bottomAxis(ticks []tick, what string) {
	c := p.c
	c.line("axis", pt{p.left(), p.bottom()}, pt{p.right(), p.bottom()})
	for _, t := range ticks {
		x := p.x.at(t.v)
		c.line("axis", pt{x, p.bottom()}, pt{x, p.bottom() + 4})
		half := textWidth(t.label, 12) / 2 // a number at the edge stays on the canvas
		c.text(pt{math.Min(math.Max(x, half), float64(c.w)-half), p.bottom() + 18}, t.label, "n", middle)
	}
	if what != "" {
		c.text(pt{p.right(), p.bottom() + 34}, what, "u", end)
	}
}

// heightRange is the range of a height axis: the extremes of the heights with a little room, or as fixed.
func (c *canvas) heightRange(zs ...[]float64) [2]float64 {
	if c.o.Heights[0] < c.o.Heights[1] {
		return c.o.Heights
	}
	low, high := math.Inf(1), math.Inf(-1)
	for _, z := range zs {
		a, b := extent(z)
		low, high = math.Min(low, a), math.Max(high, b)
	}
	return roomy(low, high, 0.07)
}

// roomy widens a range by a share at both ends; an empty one becomes one unit.
func roomy(low, high, share float64) [2]float64 {
	if !(low < high) {
		if math.IsInf(low, 0) || math.IsNaN(low) {
			low = 0
		}
		room := math.Max(0.5, math.Abs(low)*0.01)
		return [2]float64{low - room, low + room}
	}
	room := (high - low) * share
	return [2]float64{low - room, high + room}
}

// extent is the lowest and highest finite height; +Inf, -Inf when there is none.
func extent(z []float64) (low, high float64) {
	low, high = math.Inf(1), math.Inf(-1)
	for _, h := range z {
		if h < low {
			low = h
		}
		if h > high {
			high = h
		}
	}
	return low, high
}

// finite says whether every height is there; what averages over all of them needs that.
func finite(z []float64) bool {
	for _, h := range z {
		if math.IsNaN(h) || math.IsInf(h, 0) {
			return false
		}
	}
	return true
}

const gaps = "Some heights are missing: the picture needs all of them."

// margin is the room that the numbers of a height axis need at the left.
func (c *canvas) margin(heights [2]float64, plotHeight float64) float64 {
	widest := 0.0
	for _, t := range c.ticks(heights[0], heights[1], yTicks(plotHeight), 1) {
		widest = math.Max(widest, textWidth(t.label, 12))
	}
	return math.Max(pick(c, 44.0, 34), math.Ceil(widest+14))
}

// exaggeration says how much larger heights are drawn than lengths.
func (p *plot) exaggeration() string {
	ratio := (p.y.a - p.y.b) / (p.y.high - p.y.low) / ((p.x.b - p.x.a) / (p.x.high - p.x.low))
	switch {
	case ratio >= 1.05:
		return "Heights are drawn " + p.c.digits(ratio, 3) + " times larger than lengths."
	case ratio <= 0.95:
		return "Heights are drawn " + p.c.digits(1/ratio, 3) + " times smaller than lengths."
	}
	return "Heights and lengths have the same scale."
}
