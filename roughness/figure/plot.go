package figure

import (
	"fmt"
	"math"

	"example.com/furrow/params"
)

// plot is one pair of axes on the canvas. What lies on it is drawn layer by layer, from the back to the front.
type plot struct {
	*canvas
	box
	x, y axis
}

// lay lays a plot on the canvas, notes its frame and makes the picture as high as its bottom axis needs.
func (c *canvas) lay(x, y axis, left, right, top, bottom float64) *plot {
	x, y = c.counting(x), c.counting(y)
	x.a, x.b, y.a, y.b = left, right, bottom, top
	c.frames = append(c.frames, Frame{left, right, top, bottom, x.low, x.high, y.low, y.high, x.log})
	c.h = int(bottom) + 40
	return &plot{c, box{left, top, right, bottom}, x, y}
}

// plot lays a plot over the width of the canvas, with room for the numbers of its left axis.
func (c *canvas) plot(x, y axis, right, top, height float64) *plot {
	return c.lay(x, y, c.margin(y, height), float64(c.w)-right, top, top+height)
}

// tall is the height of a plot whose upper edge is at top, in the wide or the narrow design, or so that the picture is as high as asked.
func (c *canvas) tall(top, wide, narrow float64) float64 {
	if c.o.Height > 0 {
		return max(40, float64(c.o.Height)-top-40)
	}
	return c.pick(wide, narrow)
}

// margin is the room that the numbers of a left axis of a height need.
func (c *canvas) margin(y axis, height float64) float64 {
	y = c.counting(y)
	y.a = height
	widest := 0.0
	for _, t := range c.numbers(y) {
		widest = max(widest, textWidth(t.label, 12))
	}
	return max(c.pick(44, 34), math.Ceil(widest+14))
}

func (p *plot) at(x, y float64) pt { return pt{p.x.at(x), p.y.at(y)} }

func (p *plot) axes() {
	p.leftAxis()
	p.bottomAxis()
}

func (p *plot) leftAxis() {
	p.stroke("axis", p.left, p.top, p.left, p.bottom)
	for _, t := range p.numbers(p.y) {
		y := p.y.at(t.v)
		p.stroke("axis", p.left-4, y, p.left, y)
		p.text(p.left-8, y+4, t.label, "n", end)
	}
	if p.y.name != "" {
		p.text(p.left-8, p.top-13, p.y.name, "u", end)
	}
}

func (p *plot) bottomAxis() {
	p.stroke("axis", p.left, p.bottom, p.right, p.bottom)
	for _, t := range p.numbers(p.x) {
		x := p.x.at(t.v)
		p.stroke("axis", x, p.bottom, x, p.bottom+4)
		p.centred(x, p.bottom+18, t.label, "n", 12)
	}
	p.text(p.right, p.bottom+34, p.x.name, "u", end)
}

// level draws a line from edge to edge.
func (p *plot) level(classes string, y float64) {
	p.stroke(classes, p.left, p.y.at(y), p.right, p.y.at(y))
}

// upright draws a line over the whole height and some pixels above it.
func (p *plot) upright(classes string, x, above float64) {
	p.stroke(classes, p.x.at(x), p.top-above, p.x.at(x), p.bottom)
}

// cutoff marks a wavelength with its name above the plot.
func (p *plot) cutoff(wave float64, name string) {
	p.upright("acc", wave, 8)
	p.text(p.x.at(wave), p.top-13, name, "ta", middle)
}

// note says above the plot what is drawn.
func (p *plot) note(y float64, wide, narrow string) {
	p.text(p.left+8, y, p.say(wide, narrow), "lab", start)
}

// clipped cuts what is drawn at the edges of the plot.
func (p *plot) clipped(draw func()) {
	id := fmt.Sprintf("%s-clip-%d", p.o.ID, len(p.defined))
	p.defined[id] = true
	fmt.Fprintf(&p.defs, `<clipPath id="%s"><rect %s/></clipPath>`, id,
		coords(`x="%s" y="%s" width="%s" height="%s"`, p.left, p.top-10, p.right-p.left, p.bottom-p.top+20))
	fmt.Fprintf(&p.b, `<g clip-path="url(#%s)">`, id)
	draw()
	p.b.WriteString("</g>")
}

// clippedIf draws only where there is something to draw.
func (p *plot) clippedIf(something bool, draw func()) {
	if something {
		p.clipped(draw)
	}
}

// exaggeration says how much larger heights are drawn than lengths.
func (p *plot) exaggeration() string {
	ratio := (p.bottom - p.top) / (p.y.high - p.y.low) / ((p.right - p.left) / (p.x.high - p.x.low))
	switch {
	case ratio >= 1.05:
		return "heights are drawn " + p.digits(ratio, 3) + " times larger than lengths."
	case ratio <= 0.95:
		return "heights are drawn " + p.digits(1/ratio, 3) + " times smaller than lengths."
	}
	return "heights and lengths have the same scale."
}

// thinned says that a profile with more points than pixels has lost none of its extremes.
func (p *plot) thinned(points int) string {
	if float64(points) > 2*(p.right-p.left) {
		return " Each column shows its highest and lowest point, so no peak or pit is lost."
	}
	return ""
}

// profile draws the heights z, whose first lies at x0 and the others dx apart. NaN leaves a gap.
func (p *plot) profile(classes string, z []float64, x0, dx float64) {
	p.path(classes, p.thin(len(z), func(i int) (x, y float64) { return x0 + float64(i)*dx, z[i] }))
}

// through draws the line through points of rising x.
func (p *plot) through(classes string, list []params.Point) {
	p.path(classes, p.thin(len(list), func(i int) (x, y float64) { return list[i].X, list[i].Y }))
}

// thin is the path through n points of rising x with at most four to a column: the first, the lowest, the highest and the last, in their
// order.
func (p *plot) thin(n int, at func(i int) (x, y float64)) string {
	wide := float64(max(1, p.o.Column))
	column := func(i int) float64 {
		x, _ := at(i)
		return math.Floor(p.x.at(x) / wide)
	}
	var b []byte
	var kept []pt
	count := 1 // of the points of the column before: this one has about as many
	for i := 0; i < n; {
		first, low, high := i, i, i
		_, y := at(i)
		if math.IsNaN(y) {
			b, kept = append(b, lineTo(kept)...), kept[:0]
			i++
			continue
		}
		lowest, highest, here, end := y, y, column(i), min(n, i+count)
		for end > i+1 && column(end-1) != here {
			end--
		}
		for end < n && column(end) == here {
			end++
		}
		count = end - i
		for i++; i < end; i++ {
			_, y := at(i)
			if math.IsNaN(y) {
				break
			}
			if y < lowest {
				low, lowest = i, y
			}
			if y > highest {
				high, highest = i, y
			}
		}
		before := -1
		for _, k := range [...]int{first, min(low, high), max(low, high), i - 1} {
			if k > before {
				kept = append(kept, p.at(at(k)))
				before = k
			}
		}
	}
	return string(b) + lineTo(kept)
}

// smooth draws a curve without short waves, a point every eight pixels. NaN leaves a gap.
func (p *plot) smooth(classes string, z []float64, x0, dx float64) {
	stride := max(1, int(8*(p.x.high-p.x.low)/(p.x.b-p.x.a)/dx))
	var points []pt
	for i, h := range z {
		if math.IsNaN(h) {
			p.line(classes, points...)
			points = nil
		} else if i%stride == 0 || i == len(z)-1 || points == nil {
			points = append(points, p.at(x0+float64(i)*dx, h))
		}
	}
	p.line(classes, points...)
}
