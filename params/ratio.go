package params

// ratioRows are the material ratio functions of the polyline.
var ratioRows = []Parameter{
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
	{
		Key: "Rmr", Name: "material ratio",
		Meanings: []Meaning{
			meaning(editions21920, EvaluationLength, iso21920("4.5.1")),
			meaning(editions4287, EvaluationLength, iso4287("4.5.1")),
		},
		Args:      []Arg{{Name: "c", Unit: Micrometre, Default: 0, Text: "height from the reference line, up positive"}},
		Formula:   "Rmr(c) = 100% × frac{Ml(c)}{lm}",
		Sentence:  "The share of the length on which the profile is at or above the height c.",
		Practice:  "An estimate of the bearing share after wear down to c, if wear cuts the surface level.",
		Blind:     "Whether the material at c is one plateau or many tips. c counts from the reference line, not from the highest peak.",
		eval:      evalMaterialRatio,
		construct: constructMaterialRatio,
	},
	// func RmrFrom(z []float64, p, d float64) float64
	//
	// RmrFrom returns the material ratio of the profile z at the depth d below the height that has the ratio p, in %.
	//
	//	Rmr(p;d) = Rmr(Rmc(p) - d)
	//
	//   - Symbol: Rmr(p;d); Pmr(p;d) and Wmr(p;d) are the same on the other profiles.
	//   - Input: heights, at least one; the reference ratio in %, the depth below its height, down positive.
	//   - Unit: %.
	//   - Evaluated over: the evaluation length.
	//   - Source: ISO 21920-2:2021, 4.5.2; furrow, order of the arguments; ISO 4287:1997, 4.5.4.
	//
	// Special cases are those of [Rmr].
	{
		Key: "RmrFrom", Name: "relative material ratio",
		Meanings: []Meaning{
			meaning(editions21920, EvaluationLength, iso21920("4.5.2"), ownChoice("order of the arguments")),
			meaning(editions4287, EvaluationLength, iso4287("4.5.4"), ownChoice("order of the arguments")),
		},
		Args: []Arg{
			{Name: "p", Unit: Percent, Default: 5, Text: "reference material ratio"},
			{Name: "d", Unit: Micrometre, Default: 1, Text: "depth below the height of that ratio, down positive"},
		},
		Formula:   "Rmr(p; d) = Rmr(Rmc(p) - d)",
		Sentence:  "The material ratio at a height that lies d below the height with the ratio p.",
		Practice:  "Stated for running surfaces: p = 5 % stands for the peaks that wear off first. The drawing must give both p and d.",
		Blind:     "Whether the material there is one plateau or many tips. The zero of the depth is the height of p, not the reference line.",
		eval:      evalRelativeRatio,
		construct: constructRelativeRatio,
	},
	// func Rmc(z []float64, p float64) float64
	//
	// Rmc returns the height at which the profile z has the material ratio p, in %.
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
	{
		Key: "Rmc", Name: "inverse material ratio",
		Meanings: []Meaning{
			meaning(editions21920, EvaluationLength, iso21920("4.5.1")),
		},
		Args:      []Arg{{Name: "p", Unit: Percent, Default: 50, Text: "material ratio"}},
		Formula:   "Rmc(p) = c text{, where } Rmr(c) = p",
		Sentence:  "The height, from the reference line, that has the material ratio p; at a plateau, where the ratio jumps, the height of the plateau.",
		Blind:     "How the heights are spread above and below it.",
		eval:      func(w *work, a []float64) result { return value(w.materialHeight(a[0] / 100)) },
		construct: constructMaterialHeight,
	},
	// func Rdc(z []float64, p, q float64) float64
	//
	// Rdc returns the difference in height between two material ratios of the profile z, in %.
	//
	//	Rdc(p,q) = Rmc(p) - Rmc(q)
	//
	//   - Symbol: Rdc(p,q); Pdc(p,q) and Wdc(p,q) are the same on the other profiles. ISO 4287 writes Rδc.
	//   - Input: heights, at least one; the two ratios in %, the smaller first.
	//   - Unit: that of z.
	//   - Evaluated over: the evaluation length.
	//   - Source: ISO 21920-2:2021, 4.5.2; ISO 4287:1997, 4.5.3.
	//
	// Special cases are:
	//
	//	Rdc(0,100) = Rt
	{
		Key: "Rdc", Name: "material ratio height difference",
		Meanings: []Meaning{
			meaning(editions21920, EvaluationLength, iso21920("4.5.2")),
			meaning(editions4287, EvaluationLength, iso4287("4.5.3")),
		},
		Args: []Arg{
			{Name: "p", Unit: Percent, Default: 10, Text: "smaller material ratio"},
			{Name: "q", Unit: Percent, Default: 80, Text: "larger material ratio"},
		},
		Formula:   "Rdc(p, q) = Rmc(p) - Rmc(q)",
		Sentence:  "The height between the levels with the material ratios p and q.",
		Practice:  "Used in place of Rt where the extreme peaks and pits must not count.",
		Blind:     "The highest p % and the lowest (100 − q) % of the length, on purpose.",
		check:     checkOrder,
		eval:      evalHeightDifference,
		construct: constructHeightDifference,
	},
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
		} else if low, high := min(a, b), max(a, b); high > c {
			part += (high - c) / (high - low)
		}
		a = b
	}
	return (float64(whole) + part) / float64(w.n-1)
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
		low, high := min(b.z[i], b.z[i+1]), max(b.z[i], b.z[i+1])
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

// constructMaterialRatio shows the cut at height c and the material it meets, in the profile plane.
func constructMaterialRatio(w *work, args []float64, c *Construction) {
	height := args[0]
	s := step("at the height "+micrometres(height)+" the cut meets material on "+digits(c.Result, 4)+" % of the length", c.Result,
		level("c = "+micrometres(height), 0, w.length(), height))
	length := 0.0
	for _, p := range w.materialPieces(height) {
		length += p[1] - p[0]
		s.Marks = append(s.Marks, line("", Point{p[0], height}, Point{p[1], height}))
	}
	c.add(s)
	c.work("100 · {1} / {2}", length, float64(max(1, w.n-1))*w.dx)
}

// materialPieces returns where the polyline lies at the height or above.
func (w *work) materialPieces(height float64) [][2]float64 {
	var pieces [][2]float64
	inside, from := false, 0.0
	for i, v := range w.z {
		x := float64(i) * w.dx
		if v >= height == inside {
			continue
		}
		if i > 0 {
			a := w.z[i-1]
			x -= w.dx * (v - height) / (v - a)
		}
		if inside {
			pieces = append(pieces, [2]float64{from, x})
		}
		inside, from = !inside, x
	}
	if inside {
		pieces = append(pieces, [2]float64{from, float64(w.n-1) * w.dx})
	}
	return pieces
}

// drop marks a point of the curve with the lines down to the ratio axis and across to the height axis.
func drop(label string, ratio, height, floor float64) []Mark {
	at := Point{ratio, height}
	return []Mark{
		point(PointMark, label, at),
		line("", Point{ratio, floor}, at),
		level("", 0, ratio, height),
	}
}

func constructMaterialHeight(w *work, args []float64, c *Construction) {
	c.Plane = RatioPlane
	c.step("the profile has "+digits(args[0], 4)+" % of its length at "+micrometres(c.Result)+" or above", c.Result,
		drop(c.Symbol, args[0], c.Result, w.extremes().low)...)
}

func constructHeightDifference(w *work, args []float64, c *Construction) {
	c.Plane = RatioPlane
	heights := [2]float64{w.materialHeight(args[0] / 100), w.materialHeight(args[1] / 100)}
	for i, h := range heights {
		c.step("the height at "+digits(args[i], 4)+" % is "+micrometres(h), h,
			drop(digits(args[i], 4)+" %", args[i], h, w.extremes().low)...)
	}
	c.step("between them lie "+micrometres(c.Result), c.Result,
		dimension(micrometres(c.Result), Point{args[1], heights[1]}, Point{args[1], heights[0]}))
	c.work("{1} - ({2})", heights[0], heights[1])
}

func constructRelativeRatio(w *work, args []float64, c *Construction) {
	c.Plane = RatioPlane
	c0 := w.materialHeight(args[0] / 100)
	c1 := c0 - args[1]
	floor := w.extremes().low
	c.step("the height at "+digits(args[0], 4)+" % is "+micrometres(c0), nan,
		drop("c0", args[0], c0, floor)...)
	c.step(micrometres(args[1])+" below it, at "+micrometres(c1)+", the ratio is "+digits(c.Result, 4)+" %", c.Result,
		append(drop("c1", c.Result, c1, floor), dimension(micrometres(args[1]), Point{args[0], c1}, Point{args[0], c0}))...)
}
