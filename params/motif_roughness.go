package params

import (
	"math"
	"strconv"
)

// motifRows are the parameters of the roughness motifs.
var motifRows = sharing(limitA, []row{
	// func R(z []float64, dx, a float64) float64
	//
	// R returns the mean depth of the roughness motifs of z.
	//
	//	R = 1/m Σ H_j, m = 2n depths of n motifs
	//
	// where the H_j are the heights of a motif's two peaks over its pit.
	//
	//   - Symbol: R, on this profile only.
	//   - Input: heights of the primary profile, the spacing, and the limit A, which is usually 500 µm.
	//   - Unit: that of z.
	//   - Evaluated over: the evaluation length.
	//   - Source: ISO 12085:1996, 3.2.
	//
	// Special cases are:
	//
	//	R(z, …) = NaN where there is no motif
	{`R: mean depth of roughness motifs
in iso-12085, the evaluation length: ISO 12085:1996, 3.2 (excerpt)
formula: R = frac{1}{2 * n} * sum{i=1}{2 * n}{H_i}
says: The mean depth of the roughness motifs, each measured from both of its end peaks.
blind: How wide the motifs are, and what is before the first and after the last peak.`,
		ofMotifs(motifDepths, average), showMotifs(depthMarks, motifDepths)},
	// func AR(z []float64, dx, a float64) float64
	//
	// AR returns the mean width of the roughness motifs of z.
	//
	//	AR = 1/n Σ AR_i
	//
	// where AR_i is the distance of the two peaks of motif i.
	//
	//   - Symbol: AR, on this profile only.
	//   - Input: heights of the primary profile, the spacing, and the limit A, which is usually 500 µm.
	//   - Unit: that of dx.
	//   - Evaluated over: the evaluation length.
	//   - Source: ISO 12085:1996, 3.2.1.
	//
	// Special cases are:
	//
	//	AR(z, …) = NaN where there is no motif
	{`AR: mean spacing of roughness motifs
in iso-12085, the evaluation length: ISO 12085:1996, 3.2.1 (excerpt)
formula: AR = frac{1}{n} * sum{i=1}{n}{Wr_i}
says: The mean width of the roughness motifs, from peak to peak.
blind: How deep they are.`,
		ofMotifs(motifWidths, average), showMotifs(widthMarks, motifWidths)},
	// func Rx(z []float64, dx, a float64) float64
	//
	// Rx returns the greatest depth of the roughness motifs of z.
	//
	//	Rx = max H_j
	//
	// where the H_j are the heights of a motif's two peaks over its pit.
	//
	//   - Symbol: Rx, on this profile only.
	//   - Input: heights of the primary profile, the spacing, and the limit A, which is usually 500 µm.
	//   - Unit: that of z.
	//   - Evaluated over: the evaluation length.
	//   - Source: ISO 12085:1996, 3.2.
	//
	// Special cases are:
	//
	//	Rx(z, …) = NaN where there is no motif
	{`Rx: maximum depth of profile irregularity
in iso-12085, the evaluation length: ISO 12085:1996, 3.2 (excerpt)
formula: Rx = max{i}{H_i}
says: The largest depth of a roughness motif, from one of its end peaks.
blind: Whether it is one scratch or all motifs.`,
		ofMotifs(motifDepths, maximum), showDeepest},
	// func Nr(z []float64, dx, a float64) float64
	//
	// Nr returns the number of roughness motifs of z.
	//
	//	Nr = n
	//
	// where a roughness motif is one at most A wide.
	//
	//   - Symbol: Nr, on this profile only.
	//   - Input: heights of the primary profile, the spacing, and the limit A, which is usually 500 µm.
	//   - Unit: none.
	//   - Evaluated over: the evaluation length.
	//   - Source: ISO 12085:1996.
	//
	// Special cases are:
	//
	//	Nr(z, …) = 0 where there is no motif, NaN for no heights
	{`Nr: number of roughness motifs
in iso-12085, the evaluation length: ISO 12085:1996 (memory)
formula: Nr = n
says: How many roughness motifs there are. With fewer than three, R and AR are not reliable.
blind: Their depth and width.`,
		countMotifs, showCounted},
	// func SR(z []float64, dx, a float64) float64
	//
	// SR returns the standard deviation of the depths of the roughness motifs of z.
	//
	//	SR = √(1/m Σ (H_j - R)²)
	//
	// over all m = 2n depths.
	//
	//   - Symbol: SR, on this profile only.
	//   - Input: heights of the primary profile, the spacing, and the limit A, which is usually 500 µm.
	//   - Unit: that of z.
	//   - Evaluated over: the evaluation length.
	//   - Source: ISO 12085:1996.
	//
	// Special cases are:
	//
	//	SR(z, …) = NaN where there is no motif
	{`SR: standard deviation of the depths of roughness motifs
in iso-12085, the evaluation length: ISO 12085:1996 (memory)
formula: SR = sqrt{frac{1}{2 * n} * sum{i=1}{2 * n}{(H_i - R)^{2}}}
says: How much the depths of the roughness motifs differ from their mean.
blind: The order along the trace.`,
		ofMotifs(motifDepths, spread), showScatter(depthMarks, motifDepths, "R")},
	// func SAR(z []float64, dx, a float64) float64
	//
	// SAR returns the standard deviation of the widths of the roughness motifs of z.
	//
	//	SAR = √(1/n Σ (AR_i - AR)²)
	//
	// over all n motifs.
	//
	//   - Symbol: SAR, on this profile only.
	//   - Input: heights of the primary profile, the spacing, and the limit A, which is usually 500 µm.
	//   - Unit: that of dx.
	//   - Evaluated over: the evaluation length.
	//   - Source: ISO 12085:1996.
	//
	// Special cases are:
	//
	//	SAR(z, …) = NaN where there is no motif
	{`SAR: standard deviation of the spacings of roughness motifs
in iso-12085, the evaluation length: ISO 12085:1996 (memory)
formula: SAR = sqrt{frac{1}{n} * sum{i=1}{n}{(Wr_i - AR)^{2}}}
says: How much the widths of the roughness motifs differ from their mean.
blind: The order along the trace.`,
		ofMotifs(motifWidths, spread), showScatter(widthMarks, motifWidths, "AR")},
})

const (
	reasonNoMotif     = "no roughness motif: fewer than two peaks lie within the limit A of each other"
	reasonNoWave      = "no waviness motif: the envelope has fewer than two peaks within the limit B of each other"
	reasonFewMotifs   = "not reliable: fewer than three motifs"
	reasonOneDeviates = "the standard deviation of one value with divisor n - 1 has none"
)

// motifs returns the motifs for the limits in args, A and perhaps B.
func (w *work) motifs(args []float64) *motifs {
	key := [2]float64{defaultMotifLimit, defaultWavingLimit}
	copy(key[:], args)
	m := w.lazy.motifs[key]
	if m == nil {
		m = findMotifs(w.z, w.dx, key[0], key[1], w.in.Choices)
		if w.lazy.motifs == nil {
			w.lazy.motifs = map[[2]float64]*motifs{}
		}
		w.lazy.motifs[key] = m
	}
	return m
}

// ofMotifs makes the evaluator of a statistic of the terms of the motifs a row is about.
func ofMotifs(terms func([]motif) []float64, of func(v []float64, divisor Divisor) float64) evaluator {
	return func(w *work, args []float64) result {
		none := reasonNoMotif
		if len(args) > 1 && len(w.motifs(args).Envelope) > 1 {
			none = reasonNoWave
		}
		m := w.shownMotifs(args)
		if len(m) == 0 {
			return undefined(none)
		}
		r := value(of(terms(m), w.in.Choices.Deviation))
		switch {
		case math.IsNaN(r.value):
			r.reason = reasonOneDeviates
		case len(m) < 3:
			r.reason = reasonFewMotifs
		}
		return r
	}
}

func average(v []float64, _ Divisor) float64 { return mean(v) }
func maximum(v []float64, _ Divisor) float64 { return greatest(v) }

func countMotifs(w *work, args []float64) result { return value(float64(len(w.shownMotifs(args)))) }

// motifWidths returns the widths of the motifs.
func motifWidths(motifs []motif) []float64 {
	widths := make([]float64, len(motifs))
	for i, m := range motifs {
		widths[i] = m.Width()
	}
	return widths
}

// greatest returns the largest of v, NaN of nothing.
func greatest(v []float64) float64 {
	if len(v) == 0 {
		return nan
	}
	_, high := limits(v)
	return high
}

// shownMotifs returns the motifs a row is about: with one limit those of the roughness, with two those of the waviness.
func (w *work) shownMotifs(args []float64) []motif {
	if len(args) > 1 {
		return w.motifs(args).Waviness
	}
	return w.motifs(args).Roughness
}

// Marks of a motif: what is measured of it.
type motifMarks func(m motif) []Mark

// depthMarks are its end peaks, its lowest point, and the depths from both peaks.
func depthMarks(m motif) []Mark {
	left, right := m.Depths()
	return []Mark{point(PeakMark, "", m.Left), point(PeakMark, "", m.Right), point(PitMark, "", m.Pit),
		dimension("H = "+micrometres(left), m.Left, Point{m.Left.X, m.Pit.Y}), dimension("H = "+micrometres(right), m.Right, Point{m.Right.X, m.Pit.Y})}
}

// widthMarks are its end peaks and the width between them.
func widthMarks(m motif) []Mark {
	top := max(m.Left.Y, m.Right.Y)
	return []Mark{point(PeakMark, "", m.Left), point(PeakMark, "", m.Right), dimension(lengthOf(m.Width()), Point{m.Left.X, top}, Point{m.Right.X, top})}
}

// motifText says where a motif is.
func motifText(i int, m motif) string {
	left, right := m.Depths()
	return "motif " + strconv.Itoa(i+1) + ": peaks " + place(m.Left) + " and " + place(m.Right) + ", pit " + place(m.Pit) +
		"; depths " + micrometres(left) + " and " + micrometres(right) + ", width " + lengthOf(m.Width())
}

// showMotifs draws what is measured of every motif and works out the mean of its terms.
func showMotifs(marks motifMarks, terms func([]motif) []float64) constructor {
	return func(w *work, args []float64, c *Construction) {
		c.motifs(w, args, marks, terms)
		c.mean(terms(w.shownMotifs(args)))
	}
}

func (c *Construction) motifs(w *work, args []float64, marks motifMarks, terms func([]motif) []float64) {
	c.envelope(w, args)
	for i, m := range w.shownMotifs(args) {
		c.step(motifText(i, m), mean(terms([]motif{m})), marks(m)...)
	}
}

// showScatter does so and works out the standard deviation of the terms, which it draws as dots about their mean.
func showScatter(marks motifMarks, terms func([]motif) []float64, name string) constructor {
	return func(w *work, args []float64, c *Construction) {
		v := terms(w.shownMotifs(args))
		c.scatter(name, v, lengthOf)
		c.motifs(w, args, marks, terms)
		c.deviation("mean", v, w.in.Choices.Deviation)
	}
}

// showCounted numbers every motif under the profile.
func showCounted(w *work, args []float64, c *Construction) {
	c.envelope(w, args)
	e := w.extremes()
	low, bracket := e.low, (e.high-e.low)/30
	for i, m := range w.shownMotifs(args) {
		c.step(motifText(i, m), 1, line(strconv.Itoa(i+1), Point{m.Left.X, low}, Point{m.Left.X, low - bracket}, Point{m.Right.X, low - bracket}, Point{m.Right.X, low}))
	}
	c.work("{1}", c.Result)
}

// showDeepest draws the motif with the greatest depth, the leftmost of equals, and the dimension that counts.
func showDeepest(w *work, args []float64, c *Construction) {
	c.envelope(w, args)
	depths := motifDepths(w.shownMotifs(args))
	for i, m := range w.shownMotifs(args) {
		if left, right := m.Depths(); max(left, right) == c.Result {
			peak := m.Left
			if right > left {
				peak = m.Right
			}
			c.step(motifText(i, m), c.Result, point(PeakMark, "", peak), point(PitMark, "", m.Pit), line("", m.Left, m.Pit, m.Right),
				dimension(c.Symbol, peak, Point{peak.X, m.Pit.Y}))
			c.workAs("H", c.Result, c.Unit, "{1} - {2}", peak.Y, m.Pit.Y)
			break
		}
	}
	c.largestOf(depths)
}
