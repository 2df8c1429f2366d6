package figure

import (
	"math"
	"strings"
)

// profile draws the heights z, whose first lies at x0 and the others dx apart. NaN leaves a gap.
func (p *plot) profile(classes string, z []float64, x0, dx float64) {
	p.c.path(classes, p.thin(z, x0, dx))
}

// thin is the path of the heights with at most four points to a pixel column: the first, the lowest, the highest and
// the last, in their order.
func (p *plot) thin(z []float64, x0, dx float64) string {
	var b strings.Builder
	up := false // the next point starts a line
	put := func(i int) {
		b.WriteByte("ML"[btoi(up)])
		b.WriteString(at(p.at(x0+float64(i)*dx, z[i])))
		up = true
	}
	column := func(i int) int { return int(math.Floor(p.x.at(x0 + float64(i)*dx))) }
	for i := 0; i < len(z); {
		if math.IsNaN(z[i]) {
			up = false
			i++
			continue
		}
		first, low, high := i, i, i
		here := column(i)
		for i++; i < len(z) && !math.IsNaN(z[i]) && column(i) == here; i++ {
			if z[i] < z[low] {
				low = i
			}
			if z[i] > z[high] {
				high = i
			}
		}
		put(first)
		a, c := min(low, high), max(low, high)
		if a != first {
			put(a)
		}
		if c != a && c != first {
			put(c)
		}
		if last := i - 1; last != c && last != a && last != first {
			put(last)
		}
	}
	return b.String()
}

// smooth draws a curve without short waves, a point every eight pixels. NaN leaves a gap.
func (p *plot) smooth(classes string, z []float64, x0, dx float64) {
	stride := max(1, int(8*(p.x.high-p.x.low)/(p.x.b-p.x.a)/dx))
	var points []pt
	for i := 0; i < len(z); i++ {
		if math.IsNaN(z[i]) {
			p.c.line(classes, points...)
			points = nil
		} else if i%stride == 0 || i == len(z)-1 || points == nil {
			points = append(points, p.at(x0+float64(i)*dx, z[i]))
		}
	}
	p.c.line(classes, points...)
}

// function draws f over the axis, a point every eight pixels at most.
func (p *plot) function(classes string, f func(x float64) float64) []pt {
	n := max(2, int(math.Ceil((p.x.b-p.x.a)/4)))
	points := make([]pt, n+1)
	for i := range points {
		pixel := p.x.a + (p.x.b-p.x.a)*float64(i)/float64(n)
		points[i] = pt{pixel, p.y.at(f(p.x.value(pixel)))}
	}
	p.c.line(classes, points...)
	return points
}

func btoi(b bool) int {
	if b {
		return 1
	}
	return 0
}
