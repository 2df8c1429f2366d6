package figure

import (
	"fmt"
	"math"
	"slices"

	"example.com/furrow/params"
)

// Distribution draws how often each height occurs (or, with Slopes, each local slope), beside the normal distribution
// of the same mean and standard deviation.
type Distribution struct {
	Z       []float64 // heights over the evaluation length
	Spacing float64   // for the slopes
	Slopes  bool
}

// Draw draws the density.
func (d Distribution) Draw(o Options) Picture {
	c := newCanvas(o)
	title, what, unit, above := "Height density", "height", "µm", "1/µm"
	values := d.Z
	if d.Slopes {
		title, what, unit, above = "Slope distribution", "slope", "", ""
		values = slopes(d.Z, d.Spacing)
	}
	if !finite(values) {
		return c.nothing(title, gaps)
	}
	low, high := extent(values)
	if len(values) < 2 || !(low < high) {
		return c.nothing(title, "All "+what+"s are equal: there is no distribution to draw.")
	}
	mean, sigma := spread(values)
	bins := histogram(values, low, high)
	width := (high - low) / float64(len(bins))
	peak := 1 / (sigma * math.Sqrt(2*math.Pi)) // of the normal density
	top := peak
	stairs := []params.Point{{X: low, Y: 0}}
	for i, n := range bins {
		density := float64(n) / float64(len(values)) / width
		top = max(top, density)
		stairs = append(stairs, params.Point{X: low + float64(i)*width, Y: density})
	}
	stairs = append(stairs, params.Point{X: high, Y: 0})
	x := roomy(low, high, 0.05, counted(what, unit))
	const steps = 200
	normal := sampled(steps+1, func(i int) (float64, float64) {
		v := x.low + (x.high-x.low)*float64(i)/steps
		t := (v - mean) / sigma
		return v, peak * math.Exp(-t*t/2)
	})
	c.graph(x, axis{high: top * 1.12, name: above}).curves(
		curve{classes: "curve", points: stairs, steps: true},
		curve{classes: "acc dash", points: normal, name: "normal", at: mean + 1.2*sigma})

	n := heightDecimals(low, high)
	t := columns("from", "to", "points", "share, %")
	t.add(c.fixed(low, n), c.fixed(high, n), fmt.Sprint(len(values)), "100")
	for i, count := range bins {
		t.add(c.fixed(low+float64(i)*width, n+1), c.fixed(low+float64(i+1)*width, n+1), fmt.Sprint(count), c.fixed(100*float64(count)/float64(len(values)), 2))
	}
	t.add("mean", c.fixed(mean, n+1), "", "")
	t.add("standard deviation of the "+what+"s", c.digits(sigma, 4), "", "")
	if unit != "" {
		unit = " " + unit
	}
	desc := fmt.Sprintf("The %ss lie between %s and %s%s; their standard deviation is %s%s.", what, t.Rows[0][0], t.Rows[0][1], unit, c.digits(sigma, 4), unit)
	return c.picture(title, desc, "How often each "+what+" occurs. Dashed, the normal distribution with the same mean and standard deviation.", t)
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

// slopes are the local slopes by the seven-point formula (ISO 4287:1997, 3.2.9), of the points that have three
// neighbours at each side.
func slopes(z []float64, dx float64) []float64 {
	if len(z) < 7 {
		return nil
	}
	s := make([]float64, len(z)-6)
	for i := range s {
		s[i] = (float64(45*(z[i+4]-z[i+2])) - float64(9*(z[i+5]-z[i+1])) + z[i+6] - z[i]) / (60 * dx)
	}
	return s
}

// NormalPaper draws the material ratio curve on normal paper, where normally distributed heights make a straight line.
type NormalPaper struct {
	Z []float64 // heights over the evaluation length
}

// Draw draws the curve with the line of the normal distribution of the same mean and standard deviation.
func (d NormalPaper) Draw(o Options) Picture {
	c := newCanvas(o)
	const title = "Material ratio curve on normal paper"
	if !finite(d.Z) {
		return c.nothing(title, gaps)
	}
	low, high := extent(d.Z)
	if len(d.Z) < 2 || !(low < high) {
		return c.nothing(title, "All heights are equal: there is no curve to draw.")
	}
	edge := quantile(1 - 1/float64(len(d.Z))) // of the first and the last of the sorted heights
	mean, sigma := spread(d.Z)
	sorted := slices.Clone(d.Z)
	slices.Sort(sorted)
	slices.Reverse(sorted)
	points := sampled(len(sorted), func(i int) (float64, float64) { return quantile((2*float64(i)+1)/float64(len(sorted)) - 1), sorted[i] })
	y := roomy(min(low, mean-edge*sigma), max(high, mean+edge*sigma), 0.05, "µm")
	c.graph(axis{low: -edge, high: edge, name: "material ratio, %", ticks: (*canvas).ratioTicks}, y).curves(
		curve{classes: "acc dash", points: []params.Point{{X: -edge, Y: mean + sigma*edge}, {X: edge, Y: mean - sigma*edge}}, name: "normal", at: -edge},
		curve{classes: "curve", points: points})
	t := columns("material ratio, %", "height, µm", "height of the normal line, µm")
	n := heightDecimals(low, high)
	for _, percent := range []float64{0.1, 1, 10, 25, 50, 75, 90, 99, 99.9} {
		if s := quantile(percent/50 - 1); math.Abs(s) <= edge {
			t.add(c.short(percent, 1), c.fixed(nearest(points, s), n), c.fixed(mean-sigma*s, n))
		}
	}
	desc := "The curve on normal paper."
	if len(t.Rows) > 2 {
		a, b := t.Rows[0], t.Rows[len(t.Rows)-1]
		desc = fmt.Sprintf("The curve falls from %s µm at %s %% to %s µm at %s %%; the normal line from %s to %s µm.", a[1], a[0], b[1], b[0], a[2], b[2])
	}
	return c.picture(title, desc, "Normally distributed heights make a straight line (dashed); two straight parts show two processes.", t)
}

// finite says whether every height is there; what averages over all of them needs that.
func finite(z []float64) bool {
	return !slices.ContainsFunc(z, func(h float64) bool { return math.IsNaN(h) || math.IsInf(h, 0) })
}

const gaps = "Some heights are missing: the picture needs all of them."
