package params

import (
	"cmp"
	"slices"
)

// ratioRows are the material ratio functions of the polyline.
var ratioRows = []row{
	// func Rmr(z []float64, c float64) float64
	//
	// Rmr returns the material ratio of the profile z at height c, in %.
	//
	//	Rmr(c) = 100 Ml(c) / l
	//
	// where Ml(c) is the length over which the polyline through the points lies at c or above; a level piece at c counts.
	//
	//   - Symbol: Rmr(c); Pmr(c) and Wmr(c) are the same on the other profiles.
	//   - Input: heights from the reference line, at least one; the height c from that line, up positive.
	//   - Unit: %.
	//   - Evaluated over: the evaluation length.
	//   - Source: ISO 21920-2:2021, 4.5.1; ISO 4287:1997, 4.5.1.
	//
	// Special cases are:
	//
	//	Rmr(c) = 100 if c is at most the lowest height
	//	Rmr(c) = 0 if c is above the highest height
	{`Rmr: material ratio
in iso-21920, the evaluation length: ISO 21920-2:2021, 4.5.1 (excerpt)
in iso-4287 jis-b0601-2013, the evaluation length: ISO 4287:1997, 4.5.1 (memory)
argument: c µm 0 height from the reference line, up positive
formula: Rmr(c) = 100% × frac{Ml(c)}{lm}
says: The share of the length on which the profile is at or above the height c.
practice: An estimate of the bearing share after wear down to c, if wear cuts the surface level.
blind: Whether the material at c is one plateau or many tips. c counts from the reference line, not from the highest peak.`,
		evalMaterialRatio, constructMaterialRatio},
	// func RmrFrom(z []float64, p, d float64) float64
	//
	// RmrFrom returns the material ratio of the profile z at the depth d below the height that has the ratio p, in %.
	//
	//	Rmr(p;d) = Rmr(Rmc(p) - d)
	//
	// The depth counts downwards from the height Rmc(p).
	//
	//   - Symbol: Rmr(p;d); Pmr(p;d) and Wmr(p;d) are the same on the other profiles.
	//   - Input: heights, at least one; the reference ratio in %, the depth below its height, down positive.
	//   - Unit: %.
	//   - Evaluated over: the evaluation length.
	//   - Source: ISO 21920-2:2021, 4.5.2; furrow, order of the arguments; ISO 4287:1997, 4.5.4.
	//
	// Special cases are those of [Rmr].
	{`RmrFrom: relative material ratio
in iso-21920, the evaluation length: ISO 21920-2:2021, 4.5.2 (excerpt); furrow, order of the arguments (own choice)
in iso-4287 jis-b0601-2013, the evaluation length: ISO 4287:1997, 4.5.4 (memory); furrow, order of the arguments (own choice)
argument: p % 5 reference material ratio
argument: d µm 1 depth below the height of that ratio, down positive
formula: Rmr(p; d) = Rmr(Rmc(p) - d)
says: The material ratio at a height that lies d below the height with the ratio p.
practice: Stated for running surfaces: p = 5 % stands for the peaks that wear off first. The drawing must give both p and d.
blind: Whether the material there is one plateau or many tips. The zero of the depth is the height of p, not the reference line.`,
		evalRelativeRatio, constructRelativeRatio},
	// func Rmc(z []float64, p float64) float64
	//
	// Rmc returns the height at which the profile z has the material ratio p, which is in %.
	//
	//	Rmc(p) = the height c with Rmr(c) = p
	//
	// At a plateau, where the ratio jumps, it is the height of the plateau.
	//
	//   - Symbol: Rmc(p); Pmc(p) and Wmc(p) are the same on the other profiles.
	//   - Input: heights from the reference line, at least one; the ratio in %.
	//   - Unit: that of z.
	//   - Evaluated over: the evaluation length.
	//   - Source: ISO 21920-2:2021, 4.5.1.
	//
	// Special cases are:
	//
	//	Rmc(0) = max z
	//	Rmc(100) = min z
	{`Rmc: inverse material ratio
in iso-21920, the evaluation length: ISO 21920-2:2021, 4.5.1 (excerpt)
argument: p % 50 material ratio
formula: Rmc(p) = c text{, where } Rmr(c) = p
says: The height, from the reference line, that has the material ratio p; at a plateau, where the ratio jumps, the height of the plateau.
blind: How the heights are spread above and below it.`,
		func(w *work, a []float64) result { return value(w.materialHeight(a[0] / 100)) }, constructMaterialHeight},
	// func Rdc(z []float64, p, q float64) float64
	//
	// Rdc returns the difference between the heights of the profile z at the material ratios p and q, which are in %.
	//
	//	Rdc(p,q) = Rmc(p) - Rmc(q)
	//
	// Both heights count from the reference line.
	//
	//   - Symbol: Rdc(p,q); Pdc(p,q) and Wdc(p,q) are the same on the other profiles. ISO 4287 writes Rδc, ASME B46.1 Htp.
	//   - Input: heights, at least one; the two ratios in %, the smaller first.
	//   - Unit: that of z.
	//   - Evaluated over: the evaluation length.
	//   - Source: ISO 21920-2:2021, 4.5.2; ISO 4287:1997, 4.5.3; ASME B46.1-2009, 1-4.
	//
	// Special cases are:
	//
	//	Rdc(0,100) = Rt
	{`Rdc: material ratio height difference
also: Htp
in iso-21920, the evaluation length: ISO 21920-2:2021, 4.5.2 (excerpt)
in iso-4287 jis-b0601-2013, the evaluation length: ISO 4287:1997, 4.5.3 (memory)
in asme-b46.1, the evaluation length: ASME B46.1-2009, 1-4 (memory)
argument: p % 10 smaller material ratio
argument: q % 80 larger material ratio
must: p < q the first material ratio must be below the second
formula: Rdc(p, q) = Rmc(p) - Rmc(q)
says: The height between the levels with the material ratios p and q.
practice: Used in place of Rt where the extreme peaks and pits must not count.
blind: The highest p % and the lowest (100 − q) % of the length, on purpose.`,
		evalHeightDifference, constructHeightDifference},
}

// ratioAt returns the material ratio at height c in %. On a flat profile rounding must not decide: it lies at zero.
func (w *work) ratioAt(c float64) float64 {
	if w.flat() {
		if c <= w.in.Flat {
			return 100
		}
		return 0
	}
	return 100 * w.materialRatio(c-w.in.Flat)
}

func evalMaterialRatio(w *work, a []float64) result { return value(w.ratioAt(a[0])) }

func evalRelativeRatio(w *work, a []float64) result {
	return value(w.ratioAt(w.materialHeight(a[0]/100) - a[1]))
}

func evalHeightDifference(w *work, a []float64) result {
	return value(w.materialHeight(a[0]/100) - w.materialHeight(a[1]/100))
}

// The polyline through the points of a profile takes every height between its lowest and its highest. Its material
// ratio at a height c is the share of the length over which it lies at c or above.

// materialRatio returns the material ratio of the polyline at height c as a fraction. A piece that is level at c counts
// as material.
func (w *work) materialRatio(c float64) float64 {
	if w.n == 1 {
		if w.z[0] >= c {
			return 1
		}
		return 0
	}
	whole, part := 0, 0.0
	a := w.z[0]
	for _, b := range w.z[1:] {
		if a >= c && b >= c {
			whole++
		} else if low, high := inOrder(a, b); high > c {
			part += (high - c) / (high - low)
		}
		a = b
	}
	return (float64(whole) + part) / float64(w.n-1)
}

// inOrder returns the lower of two heights first. min and max of Go look for NaN too.
func inOrder(a, b float64) (low, high float64) {
	if a < b {
		return a, b
	}
	return b, a
}

// materialHeight is the inverse of materialRatio: the lowest height whose ratio is at most p, a fraction.
//
// Between two neighbouring heights of the sorted points the ratio is linear in the height, so the inverse is exact once
// the two are found, by halving. Only the pieces that reach into the bracket differ within it; the points are spread
// almost like the polyline, so a narrow bracket about the guess p N nearly always holds the height.
func (w *work) materialHeight(p float64) float64 {
	z := w.sorted()
	last := w.n - 1
	if p <= 0 || z[0] == z[last] {
		return z[0]
	}
	if p >= 1 {
		return z[last]
	}
	guess, reach := int(p*float64(last)), 16+w.n/64
	above, below := max(0, guess-reach), min(last, guess+reach)
	b := w.bracket(z[above], z[below])
	if b.ratio(z[above], false) >= p || b.ratio(z[below], false) < p {
		above, below = 0, last
		b = w.bracket(z[above], z[below])
		if b.ratio(z[0], false) >= p {
			return z[0] // a plateau at the top
		}
	}
	for below-above > 1 {
		if middle := (above + below) / 2; b.ratio(z[middle], false) < p {
			above = middle
		} else {
			below = middle
		}
	}
	// The ratio at z[above] is below p, that at z[below] is not; a plateau there makes it jump.
	low := b.ratio(z[below], true)
	if low <= p {
		return z[below]
	}
	high := b.ratio(z[above], false)
	t := (p - high) / (low - high)
	return z[above] + float64(t*(z[below]-z[above]))
}

// A bracket counts the material ratio at heights between two levels.
type bracket struct {
	z      []float64
	whole  int   // pieces that are material at every height of the bracket
	pieces []int // first points of those that are so at some
}

// bracket sorts out the pieces for heights from low to high. It takes the room of the bracket before.
func (w *work) bracket(high, low float64) bracket {
	if w.pieces == nil {
		w.pieces = w.ints(w.n)
	}
	b := bracket{z: w.z, pieces: w.pieces[:0]}
	a := w.z[0]
	for i, v := range w.z[1:] {
		switch {
		case a > high && v > high:
			b.whole++
		case a >= low || v >= low:
			b.pieces = append(b.pieces, i)
		}
		a = v
	}
	return b
}

// ratio returns the material ratio at a height of the bracket. With open set a piece that is level at the height does
// not count: this is the ratio just above a plateau.
func (b *bracket) ratio(c float64, open bool) float64 {
	whole, part := b.whole, 0.0
	for _, i := range b.pieces {
		low, high := inOrder(b.z[i], b.z[i+1])
		switch {
		case low >= c:
			if high > c || !open {
				whole++
			}
		case high > c:
			part += (high - c) / (high - low)
		}
	}
	return (float64(whole) + part) / float64(len(b.z)-1)
}

// bearing adds the cut at a height and the pieces of the profile at or above it, and returns their length.
func (c *Construction) bearing(w *work, p piece, text, label string, height float64) (length float64) {
	from, to := w.ends(p)
	marks := []Mark{level(label, from, to, height)}
	for _, x := range w.materialPieces(p, height) {
		length += x[1] - x[0]
		marks = append(marks, line("", Point{x[0], height}, Point{x[1], height}))
	}
	c.in(p, text+", the cut at "+micrometres(height)+" meets material on "+millimetres(length)+" of "+millimetres(w.run(p)), nan, marks...)
	return length
}

// run returns the length of the line through the points of a piece, never 0.
func (w *work) run(p piece) float64 { return float64(max(1, p.end-p.start-1)) * w.dx }

// materialPieces returns where the line through the points of a piece lies at the height or above.
func (w *work) materialPieces(p piece, height float64) (pieces [][2]float64) {
	inside, from := false, 0.0
	for i := p.start; i < p.end; i++ {
		v, x := w.z[i], float64(float64(i)*w.dx)
		if v >= height == inside {
			continue
		}
		if i > p.start {
			x -= w.dx * (v - height) / (v - w.z[i-1])
		}
		if inside {
			pieces = append(pieces, [2]float64{from, x})
		}
		inside, from = !inside, x
	}
	if inside {
		pieces = append(pieces, [2]float64{from, float64(p.end-1) * w.dx})
	}
	return pieces
}

// onCurve adds the material ratio curve with a point of it: up from its ratio and across to its height.
func (c *Construction) onCurve(w *work, text, label string, ratio, height float64, more ...Mark) {
	at := Point{ratio, height}
	c.step(text, nan, append([]Mark{point(PointMark, label, at), line("", Point{ratio, w.extremes().low}, at), level("", 0, ratio, height)}, more...)...).on(RatioPlane)
}

// constructMaterialRatio shows the cut at height c, the pieces of the profile at or above it, and the point of the curve.
func constructMaterialRatio(w *work, args []float64, c *Construction) {
	length := c.bearing(w, w.whole(), "c = "+micrometres(args[0]), "c", args[0])
	c.onCurve(w, "the material ratio is "+digits(c.Result, 4)+" %", c.Symbol, c.Result, args[0])
	c.Steps[1].Value = c.Result
	c.work("100 · {1} / {2}", length, w.run(w.whole()))
}

// constructRelativeRatio shows the height of the reference ratio, the step down from it, and the cut there.
func constructRelativeRatio(w *work, args []float64, c *Construction) {
	c0 := w.materialHeight(args[0] / 100)
	c1 := c0 - args[1]
	c.onCurve(w, "the height with the ratio "+inWords(args[0])+" % is "+micrometres(c0), "p", args[0], c0)
	c.onCurve(w, micrometres(args[1])+" below it, at "+micrometres(c1)+", the ratio is "+digits(c.Result, 4)+" %", c.Symbol, c.Result, c1,
		dimension("d", Point{args[0], c1}, Point{args[0], c0}))
	c.Steps[1].Value = c.Result
	c.step("the step down from the height of p", nan, level("p", 0, w.length(), c0), dimension("d", Point{w.length() / 2, c1}, Point{w.length() / 2, c0}))
	length := c.bearing(w, w.whole(), "d below it", "", c1)
	c.workAs("c", c1, Micrometre, "{1} - {2}", c0, args[1])
	c.work("100 · {1} / {2}", length, w.run(w.whole()))
}

// constructMaterialHeight shows the height of a ratio on the curve and as a cut of the profile.
func constructMaterialHeight(w *work, args []float64, c *Construction) {
	p := args[0]
	c.onCurve(w, "the profile has "+inWords(p)+" % of its length at "+micrometres(c.Result)+" or above", c.Symbol, p, c.Result)
	c.Steps[0].Value = c.Result
	c.bearing(w, w.whole(), "with this ratio", c.Symbol, c.Result)
	// Between two neighbouring heights of the sorted points the ratio is linear in the height.
	z := w.sorted()
	i, _ := slices.BinarySearchFunc(z, c.Result, func(v, height float64) int { return cmp.Compare(height, v) })
	if i == 0 || z[min(i, w.n-1)] == c.Result {
		c.work("{1}", c.Result)
		return
	}
	above, below := z[i-1], z[i]
	r1, r2 := 100*w.materialRatio(above), 100*w.materialRatio(below)
	c.work("{1} - ({2} - {3}) / ({4} - {3}) · ({1} - {5})", above, p, r1, r2, below)
}

// constructHeightDifference shows the levels of two ratios on the curve and across the profile, and the distance between them.
func constructHeightDifference(w *work, args []float64, c *Construction) {
	var heights [2]float64
	for i, name := range [...]string{"p", "q"} {
		heights[i] = w.materialHeight(args[i] / 100)
		c.onCurve(w, "the height with the ratio "+inWords(args[i])+" % is "+micrometres(heights[i]), name, args[i], heights[i])
	}
	middle, l := w.length()/2, w.length()
	c.step("between the two levels lie "+micrometres(c.Result), c.Result,
		area("", Point{0, heights[0]}, Point{l, heights[0]}, Point{l, heights[1]}, Point{0, heights[1]}),
		dimension(c.Symbol, Point{middle, heights[1]}, Point{middle, heights[0]}))
	c.work("{1} - {2}", heights[0], heights[1])
}
