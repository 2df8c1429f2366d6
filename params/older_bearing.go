package params

// bearingRows are material ratios under their older name, counted from the highest peak.
var bearingRows = []row{
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
	{`Tp: bearing length ratio
in asme-b46.1, the evaluation length: ASME B46.1-2009, 1-4 (memory)
in jis-b0601-1994, each section, then the mean: JIS B 0601:1994 (excerpt)
argument: c µm 1 depth below the highest peak, down positive
must: c >= 0 c is a depth below the highest peak, 0 or more
formula: tp(c) = 100% × frac{Ml(max{}{z_i} - c)}{lm}
says: The share of the length on which the profile is at or above a level c below its highest peak.
practice: An estimate of the bearing share after wear by c, if wear cuts the surface level.
blind: Whether the material there is one plateau or many tips. The level is counted from the highest peak, so one speck changes the ratio. A ratio at a height from the mean line is another number.`,
		evalBearing, showBearing},
}

// bearing returns the ratio of z at the depth c below its own highest peak, in %, and the height of that level.
func bearing(z []float64, c float64) (ratio, level float64) {
	_, high := limits(z)
	level = high - c
	return 100 * (&work{z: z, n: len(z)}).materialRatio(level), level
}

func evalBearing(w *work, args []float64) result {
	if w.as.Over == EvaluationLength {
		ratio, _ := bearing(w.z, args[0])
		return value(ratio)
	}
	return w.bySections(w.each(func(k int) float64 {
		ratio, _ := bearing(w.sectionAt(k), args[0])
		return ratio
	}), "", "")
}

// showBearing draws the level below the highest peak and what lies at or above it, over all or in each section.
func showBearing(w *work, args []float64, c *Construction) {
	var ratios []float64
	for _, p := range w.lengths() {
		ratio, height := bearing(p.z, args[0])
		high, _ := extremeIndices(p.z)
		peak := w.pointAt(p.start + high)
		c.in(p, "highest peak "+place(peak)+"; the material ratio at "+micrometres(height)+" is "+inWords(ratio)+" %", ratio,
			point(PeakMark, "", peak), dimension("c", peak, Point{peak.X, height}))
		length := c.bearing(w, p, "below it", c.Symbol, height)
		if len(ratios) == 0 {
			symbol := c.Symbol
			if p.section > 0 {
				symbol += " of section 1"
			}
			c.workAs(symbol, ratio, c.Unit, "100 · {1} / {2}", length, w.run(p))
		}
		ratios = append(ratios, ratio)
	}
	if w.as.Over != EvaluationLength {
		c.mean(ratios)
	}
}
