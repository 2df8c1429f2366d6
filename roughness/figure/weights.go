package figure

import (
	"fmt"
	"math"
)

// Weights draws the weighting function of a filter.
type Weights struct {
	Name   string      // of the filter: "Gaussian"
	Filter interface { // as filter.Weighing: distances from the point and weights, whose sum is 1
		Weights(dx float64) (x, w []float64)
	}
	Cutoff  float64
	Spacing float64 // that the function is sampled at; 0 is a two hundredth of the cut-off
}

// Draw draws the weights per length over the distance from the point.
func (d Weights) Draw(o Options) Picture {
	c := newCanvas(o)
	title := "Weighting function, " + d.Name
	dx := d.Spacing
	if dx == 0 {
		dx = d.Cutoff / 200
	}
	x, w := d.Filter.Weights(dx)
	if len(x) < 2 {
		return c.nothing(title, "This filter has no weighting function at this cut-off and spacing.")
	}
	points := sampled(len(x), func(i int) (float64, float64) { return x[i], w[i] / dx * 1000 })
	low, high, sum, peak := 0.0, 0.0, 0.0, 0
	for i, q := range points {
		low, high = min(low, q.Y), max(high, q.Y)
		sum += w[i]
		if w[i] > w[peak] {
			peak = i
		}
	}
	half := d.Cutoff / 2
	p := c.graph(along(x[0], x[len(x)-1], "from the point"), axis{low: low * 1.15, high: high * 1.1, name: "1/mm"})
	p.level("thin", 0)
	p.curves(curve{classes: "curve", points: points})
	ends := 0 // of one cut-off, that lie on the axis
	for _, at := range []float64{-half, half} {
		if p.x.inside(at) {
			p.upright("accl dots", at, 0)
			ends++
		}
	}
	if ends == 2 {
		c.dimension("acd", pt{p.x.at(-half), p.top - 6}, pt{p.x.at(half), p.top - 6})
		c.text(p.x.at(0), p.top-12, c.wave(d.Cutoff), "ta", middle)
	}
	t := columns("distance, cut-offs", "weight per length, 1/mm")
	for _, share := range []float64{-1, -0.75, -0.5, -0.25, -0.1, 0, 0.1, 0.25, 0.5, 0.75, 1} {
		if v := share * d.Cutoff; v >= x[0]-dx/2 && v <= x[len(x)-1]+dx/2 {
			i := min(len(x)-1, max(0, int(math.Round((v-x[0])/dx))))
			t.add(c.short(share, 2), c.fixed(points[i].Y, 4))
		}
	}
	at, weight, total := c.mm(x[peak])+" mm", c.fixed(points[peak].Y, 4), c.fixed(sum, 6)
	t.add("highest weight at "+at, weight)
	t.add("sum of the weights", total)
	desc := fmt.Sprintf("The weights are highest at %s from the point, %s per millimetre; their sum is %s.", at, weight, total)
	return c.picture(title, desc, "How much each point around it counts in the mean line. The dimension is one cut-off wide.", t)
}

// Response draws what a single filter leaves of a sine in the long-wave part and in the short-wave part.
type Response struct {
	Name   string
	Filter Transmitter
	Cutoff float64
}

// Draw draws both shares over the wavelength.
func (d Response) Draw(o Options) Picture {
	c := newCanvas(o)
	title := "Transmission, " + d.Name
	long := func(wave float64) float64 { return 100 * d.Filter.Transmission(wave) }
	if math.IsNaN(long(d.Cutoff)) {
		return c.nothing(title, "This filter does not act on sines one by one: it has no transmission.")
	}
	x := waves(d.Cutoff/20, d.Cutoff*20)
	const n = 400
	wave := func(i int) float64 { return x.low * math.Pow(x.high/x.low, float64(i)/n) }
	p := c.graph(x, axis{high: 100, name: "%"})
	p.curves(
		curve{classes: "cut", points: sampled(n+1, func(i int) (x, y float64) { return wave(i), 100 - long(wave(i)) }), name: c.say("short-wave part", "short"), at: x.low * 1.1},
		curve{classes: "cut dash", points: sampled(n+1, func(i int) (x, y float64) { return wave(i), long(wave(i)) }), name: c.say("long-wave part", "long"), at: d.Cutoff * 6})
	p.cutoff(d.Cutoff, c.wave(d.Cutoff))
	t := columns("wavelength, cut-offs", "long-wave part, %", "short-wave part, %")
	for _, share := range []float64{0.1, 0.2, 0.5, 1, 2, 3, 5, 10} {
		v := long(share * d.Cutoff)
		t.add(c.short(share, 1), c.fixed(v, 3), c.fixed(100-v, 3))
	}
	r := t.Rows[3]
	c.circle("accf", p.at(d.Cutoff, long(d.Cutoff)), 3.5)
	desc := fmt.Sprintf("At the cut-off (%s), %s %% of a wave stays in the long-wave part and %s %% in the short-wave part.", r[0], r[1], r[2])
	return c.picture(title, desc, "How much of a wave's height each part keeps.", t)
}
