package figure

import (
	"fmt"
	"math"

	"example.com/furrow/params"
)

// A Weigher lays its weights around a point, as filter.Weighing does: distances and weights, whose sum is 1.
type Weigher interface {
	Weights(dx float64) (x, w []float64)
}

// Weights draws the weighting function of a filter.
type Weights struct {
	Name    string // of the filter: "Gaussian"
	Filter  Weigher
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
	points := make([]params.Point, len(x))
	low, high, sum := 0.0, 0.0, 0.0
	for i := range x {
		points[i] = params.Point{X: x[i], Y: w[i] / dx * 1000}
		low, high = math.Min(low, points[i].Y), math.Max(high, points[i].Y)
		sum += w[i]
	}
	_, unit := lengthUnit(x[0], x[len(x)-1])
	p := graph{x: [2]float64{x[0], x[len(x)-1]}, y: [2]float64{low * 1.15, high * 1.1}, below: unit + " from the point", above: "1/mm", xTicks: lengthTicks, zero: true,
		lines: []graphLine{{classes: "curve", points: points}}}.draw(c)
	for _, at := range []float64{-d.Cutoff / 2, d.Cutoff / 2} { // a cut-off wide
		if p.x.inside(at) {
			c.line("accl dots", pt{p.x.at(at), p.top()}, pt{p.x.at(at), p.bottom()})
		}
	}
	if p.x.inside(-d.Cutoff/2) && p.x.inside(d.Cutoff/2) {
		c.dimension("acd", "acdf", pt{p.x.at(-d.Cutoff / 2), p.top() - 6}, pt{p.x.at(d.Cutoff / 2), p.top() - 6})
		c.text(pt{p.x.at(0), p.top() - 12}, c.wave(d.Cutoff), "ta", middle)
	}
	t := Table{Columns: []string{"distance, cut-offs", "weight per length, 1/mm"}}
	for _, share := range []float64{-1, -0.75, -0.5, -0.25, -0.1, 0, 0.1, 0.25, 0.5, 0.75, 1} {
		if v := share * d.Cutoff; v >= x[0]-dx/2 && v <= x[len(x)-1]+dx/2 {
			i := min(len(x)-1, max(0, int(math.Round((v-x[0])/dx))))
			t.Rows = append(t.Rows, []string{c.short(share, 2), c.fixed(points[i].Y, 4)})
		}
	}
	peak := 0
	for i := range w {
		if w[i] > w[peak] {
			peak = i
		}
	}
	t.Rows = append(t.Rows, []string{"highest weight at " + c.short(x[peak]/1000, 4) + " mm", c.fixed(points[peak].Y, 4)}, []string{"sum of the weights", c.fixed(sum, 6)})
	desc := fmt.Sprintf("The weights are highest at %s mm from the point, %s per millimetre; their sum is %s.", c.short(x[peak]/1000, 4), c.fixed(points[peak].Y, 4), c.fixed(sum, 6))
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
	if v := d.Filter.Transmission(d.Cutoff); math.IsNaN(v) {
		return c.nothing(title, "This filter does not act on sines one by one: it has no transmission.")
	}
	x := [2]float64{d.Cutoff / 20, d.Cutoff * 20}
	long := make([]params.Point, 401)
	short := make([]params.Point, len(long))
	for i := range long {
		wave := x[0] * math.Pow(x[1]/x[0], float64(i)/float64(len(long)-1))
		v := 100 * d.Filter.Transmission(wave)
		long[i], short[i] = params.Point{X: wave, Y: v}, params.Point{X: wave, Y: 100 - v}
	}
	p := graph{x: x, y: [2]float64{0, 100}, xLog: true, below: "wavelength", above: "%",
		xTicks: func(c *canvas, s scale, _ float64) []tick { return c.waveTicks(s.low, s.high, s) },
		lines: []graphLine{
			{classes: "cut", points: short, name: pick(c, "short-wave part", "short"), at: x[0] * 1.1},
			{classes: "cut dash", points: long, name: pick(c, "long-wave part", "long"), at: d.Cutoff * 6},
		}}.draw(c)
	at := p.x.at(d.Cutoff)
	c.line("acc", pt{at, p.top() - 8}, pt{at, p.bottom()})
	c.text(pt{at, p.top() - 13}, c.wave(d.Cutoff), "ta", middle)
	t := Table{Columns: []string{"wavelength, cut-offs", "long-wave part, %", "short-wave part, %"}}
	for _, share := range []float64{0.1, 0.2, 0.5, 1, 2, 3, 5, 10} {
		v := 100 * d.Filter.Transmission(share*d.Cutoff)
		t.Rows = append(t.Rows, []string{c.short(share, 1), c.fixed(v, 3), c.fixed(100-v, 3)})
	}
	r := t.Rows[3]
	c.circle("accf", p.at(d.Cutoff, 100*d.Filter.Transmission(d.Cutoff)), 3.5)
	desc := fmt.Sprintf("At the cut-off (%s), %s %% of a wave stays in the long-wave part and %s %% in the short-wave part.", r[0], r[1], r[2])
	return c.picture(title, desc, "How much of a wave's height each part keeps.", t)
}
