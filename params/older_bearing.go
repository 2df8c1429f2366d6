package params

// bearingRows are material ratios under their older name, bearing length ratio, counted from the highest peak.
var bearingRows = []Parameter{
	// func Tp(z []float64, c float64) float64
	//
	// Tp returns the bearing length ratio of z at the depth c below its highest peak, in %.
	//
	//	tp = 100 · (length over which z ≥ max z - c) / l
	//
	// where the length is that of the polyline through the heights.
	//
	//   - Symbol: tp(c), on the roughness profile.
	//   - Input: heights, at least one, and the depth, 0 or more.
	//   - Unit: %.
	//   - Evaluated over: the evaluation length (ASME B46.1), which this function does; each section, then the mean (JIS B 0601:1994).
	//   - Source: ASME B46.1-2009, 1-4; JIS B 0601:1994.
	//
	// Special cases are:
	//
	//	Tp(z, c) = 100 where c is max z - min z or more
	{
		Key: "Tp", Name: "bearing length ratio",
		Meanings: []Meaning{
			{editionsASME, EvaluationLength, refs(asme()), bearingOverall, showBearing(false)},
			{editionsJIS1994, SectionMean, refs(jis1994()), bearingMean, showBearing(true)},
		},
		Args:     []Arg{{Name: "c", Unit: Micrometre, Default: 1, Text: "depth below the highest peak, down positive"}},
		Formula:  "tp(c) = 100% × frac{Ml(max{}{z_i} - c)}{lm}",
		Sentence: "The share of the length on which the profile is at or above a level c below its highest peak.",
		Practice: "An estimate of the bearing share after wear by c, if wear cuts the surface level.",
		Blind:    "Whether the material there is one plateau or many tips. The level is counted from the highest peak, so one speck changes the ratio. A ratio at a height from the mean line is another number.",
		check:    checkDepth,
	},
	// func Htp(z []float64, p, q float64) float64
	//
	// Htp returns the height between two bearing length ratios of z, p and q in %.
	//
	//	Htp = height with ratio p - height with ratio q
	//
	// where the heights are those of the material ratio curve of the polyline.
	//
	//   - Symbol: Htp(p,q), on the roughness profile; ISO 21920-2 calls it Rdc, ISO 4287 Rδc.
	//   - Input: heights, at least one, and the two ratios, the smaller first.
	//   - Unit: that of z.
	//   - Evaluated over: the evaluation length.
	//   - Source: ASME B46.1-2009, 1-4.
	//
	// Special cases are:
	//
	//	Htp(z, 0, 100) = max z - min z
	{
		Key: "Htp", Name: "height between two bearing length ratios",
		Meanings: []Meaning{meaning(editionsASME, EvaluationLength, asme())},
		Args: []Arg{
			{Name: "p", Unit: Percent, Default: 10, Text: "smaller bearing length ratio"},
			{Name: "q", Unit: Percent, Default: 80, Text: "larger bearing length ratio"},
		},
		Formula:  "Htp(p, q) = Rmc(p) - Rmc(q)",
		Sentence: "The height between the levels with the bearing length ratios p and q. ISO calls it Rdc.",
		Blind:    "The highest p % and the lowest (100 − q) % of the length, on purpose.",
		check:    checkOrder, eval: evalHeightDifference, construct: showHeightBetween,
	},
}

func checkDepth(args []float64) string {
	if !(args[0] >= 0) {
		return "c is a depth below the highest peak, 0 or more"
	}
	return ""
}

// bearing returns the ratio of z at the depth c below its own highest peak, in %, and the height of that level.
func bearing(z []float64, c float64) (ratio, level float64) {
	_, high := limits(z)
	level = high - c
	return 100 * (&work{z: z, n: len(z)}).materialRatio(level), level
}

func bearingOverall(w *work, args []float64) result {
	ratio, _ := bearing(w.z, args[0])
	return value(ratio)
}

func bearingMean(w *work, args []float64) result {
	return w.meanOfEach(func(k int) float64 {
		ratio, _ := bearing(w.sectionAt(k), args[0])
		return ratio
	})
}

// showBearing draws the level below the highest peak and what lies at or above it, over all or in each section.
func showBearing(sections bool) constructor {
	return func(w *work, args []float64, c *Construction) {
		count, length := 1, w.n
		if sections {
			count, length = w.count, w.section
		}
		var ratios []float64
		for k := range count {
			start := k * length
			z := w.z[start : start+length]
			ratio, height := bearing(z, args[0])
			high, _ := extremeIndices(z)
			peak := w.pointAt(start + high)
			s := step("highest peak "+place(peak)+"; the material ratio at "+micrometres(height)+" is "+inWords(ratio)+" %", ratio,
				point(PeakMark, "", peak),
				dimension("c", peak, Point{peak.X, height}))
			for _, piece := range piecesAbove(z, height) {
				s.Marks = append(s.Marks, level("", (float64(start)+piece[0])*w.dx, (float64(start)+piece[1])*w.dx, height))
			}
			ratios = append(ratios, ratio)
			if sections {
				s.Text = ": " + s.Text
				c.section(k, s)
			} else {
				c.add(s)
			}
		}
		c.mean(ratios)
	}
}

// piecesAbove returns the pieces, from and to in points, over which the polyline lies at level or above.
func piecesAbove(z []float64, level float64) [][2]float64 {
	var pieces [][2]float64
	add := func(from, to float64) {
		if n := len(pieces); n > 0 && pieces[n-1][1] == from {
			pieces[n-1][1] = to
			return
		}
		pieces = append(pieces, [2]float64{from, to})
	}
	for i := 0; i+1 < len(z); i++ {
		a, b, x := z[i], z[i+1], float64(i)
		switch {
		case a >= level && b >= level:
			add(x, x+1)
		case a >= level:
			add(x, x+(a-level)/(a-b))
		case b >= level:
			add(x+(level-a)/(b-a), x+1)
		}
	}
	return pieces
}

// showHeightBetween draws the two heights in the material ratio plane.
func showHeightBetween(w *work, args []float64, c *Construction) {
	c.Plane = RatioPlane
	upper, lower := w.materialHeight(args[0]/100), w.materialHeight(args[1]/100)
	c.step("height "+micrometres(upper)+" at "+inWords(args[0])+" %, height "+micrometres(lower)+" at "+inWords(args[1])+" %", upper-lower,
		point(PointMark, "p", Point{args[0], upper}),
		point(PointMark, "q", Point{args[1], lower}),
		level("", 0, args[0], upper),
		level("", 0, args[1], lower),
		dimension(c.Symbol, Point{0, upper}, Point{0, lower}))
	c.work("{1} - ({2})", upper, lower)
}
