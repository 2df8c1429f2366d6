package figure

import (
	"fmt"
	"math"
	"slices"
)

// Distribution draws how often each height occurs, beside the normal distribution of the same mean and standard deviation.
type Distribution struct {
	Z []float64 // heights over the evaluation length
}

// Draw draws the density.
func (d Distribution) Draw(o Options) Picture {
	c := newCanvas(o)
	const title = "Height density"
	if slices.ContainsFunc(d.Z, func(h float64) bool { return math.IsNaN(h) || math.IsInf(h, 0) }) {
		return c.nothing(title, "Some heights are missing: the picture needs all of them.")
	}
	low, high := extent(d.Z)
	if len(d.Z) < 2 || !(low < high) {
		return c.nothing(title, "All heights are equal: there is no distribution to draw.")
	}
	mean, sigma := spread(d.Z)
	bins := histogram(d.Z, low, high)
	width := (high - low) / float64(len(bins))
	peak := 1 / (sigma * math.Sqrt(2*math.Pi)) // of the normal density
	density := func(count int) float64 { return float64(count) / float64(len(d.Z)) / width }
	x := roomy(low, high, 0.05, "height, µm")
	p := c.plot(x, axis{high: max(peak, density(slices.Max(bins))) * 1.12, name: "1/µm"}, c.pick(12, 8), 30, c.tall(30, 200, 180))
	p.axes()
	stairs := []pt{p.at(low, 0)}
	for i, n := range append(bins, 0) {
		at := p.at(low+float64(i)*width, density(n))
		if i == len(bins) {
			at = p.at(high, 0)
		}
		stairs = append(stairs, pt{at.x, stairs[len(stairs)-1].y}, at)
	}
	const steps = 200
	normal := func(v float64) float64 { t := (v - mean) / sigma; return peak * math.Exp(-t*t/2) }
	p.clipped(func() {
		p.line("curve", stairs...)
		p.path("acc dash", p.thin(steps+1, func(i int) (float64, float64) {
			v := x.low + (x.high-x.low)*float64(i)/steps
			return v, normal(v)
		}))
	})
	at := p.at(mean+1.2*sigma, normal(x.low+math.Floor((mean+1.2*sigma-x.low)/(x.high-x.low)*steps)*(x.high-x.low)/steps))
	p.label("normal", "lab plated", 14, p.within(16, 1), spot{at, 6, -8}, spot{at, -6, -8}, spot{at, 6, 18}, spot{pt{p.right, p.top}, -4, 14})

	n := c.heightDecimals(low, high)
	t := columns("from", "to", "points", "share, %")
	t.add(c.height(low, n), c.height(high, n), fmt.Sprint(len(d.Z)), "100")
	for i, count := range bins {
		t.add(c.height(low+float64(i)*width, n+1), c.height(low+float64(i+1)*width, n+1), fmt.Sprint(count), c.fixed(100*float64(count)/float64(len(d.Z)), 2))
	}
	t.add("mean", c.height(mean, n+1), "", "")
	t.add("standard deviation of the heights", c.digits(c.in(sigma, "µm"), 4), "", "")
	desc := c.sprintf("The heights lie between %s and %s µm; their standard deviation is %s µm.", t.Rows[0][0], t.Rows[0][1], c.digits(c.in(sigma, "µm"), 4))
	return c.picture(title, desc, "How often each height occurs. Dashed, the normal distribution with the same mean and standard deviation.", t)
}

// spread is the mean and the standard deviation.
func spread(values []float64) (mean, sigma float64) {
	n := float64(len(values))
	for _, v := range values {
		mean += v / n
	}
	square := 0.0
	for _, v := range values {
		square += float64((v-mean)*(v-mean)) / n
	}
	return mean, math.Sqrt(square)
}

// histogram counts the values in equal bins, twice the cube root of their number of them
// (the Rice rule of elementary statistics), at most 60.
func histogram(values []float64, low, high float64) []int {
	bins := make([]int, max(4, min(60, int(math.Ceil(2*math.Cbrt(float64(len(values))))))))
	for _, v := range values {
		i := int((v - low) / (high - low) * float64(len(bins)))
		bins[min(max(i, 0), len(bins)-1)]++
	}
	return bins
}
