package params

import "strconv"

// wavinessRows are those of the waviness motifs, on the envelope.
var wavinessRows = sharing(limitA+limitB, []row{
	// func W(z []float64, dx, a, b float64) float64
	//
	// W returns the mean depth of the waviness motifs of z.
	//
	//	W = 1/m Σ HW_j, m = 2n depths of n motifs of the envelope
	//
	// where the envelope is the line through the peaks that end roughness motifs, outstanding ones lowered.
	//
	//   - Symbol: W, on this profile only.
	//   - Input: heights of the primary profile, the spacing, and the limits A and B, which are usually 500 µm and 2500 µm.
	//   - Unit: that of z.
	//   - Evaluated over: the evaluation length.
	//   - Source: ISO 12085:1996, 3.2.5.
	//
	// Special cases are:
	//
	//	W(z, …) = NaN where there is no motif
	{`W: mean depth of waviness motifs
in iso-12085, the evaluation length: ISO 12085:1996, 3.2.5 (excerpt)
formula: W = frac{1}{2 * n} * sum{i=1}{2 * n}{Hw_i}
says: The mean depth of the waviness motifs, measured on the envelope.
blind: What is below the envelope, except that a deep pit can change which peaks count.`,
		ofMotifs(motifDepths, average), showMotifs(depthMarks, motifDepths)},
	// func AW(z []float64, dx, a, b float64) float64
	//
	// AW returns the mean width of the waviness motifs of z.
	//
	//	AW = 1/n Σ AW_i
	//
	// where AW_i is the distance of the two peaks of the envelope that end motif i.
	//
	//   - Symbol: AW, on this profile only.
	//   - Input: heights of the primary profile, the spacing, and the limits A and B, which are usually 500 µm and 2500 µm.
	//   - Unit: that of dx.
	//   - Evaluated over: the evaluation length.
	//   - Source: ISO 12085:1996, 3.2.4.
	//
	// Special cases are:
	//
	//	AW(z, …) = NaN where there is no motif
	{`AW: mean spacing of waviness motifs
in iso-12085, the evaluation length: ISO 12085:1996, 3.2.4 (excerpt)
formula: AW = frac{1}{n} * sum{i=1}{n}{Ww_i}
says: The mean width of the waviness motifs, measured on the envelope.
blind: How deep they are.`,
		ofMotifs(motifWidths, average), showMotifs(widthMarks, motifWidths)},
	// func Wx(z []float64, dx, a, b float64) float64
	//
	// Wx returns the greatest depth of the waviness motifs of z.
	//
	//	Wx = max HW_j
	//
	// where the HW_j are the heights of a motif's two peaks over its pit, on the envelope.
	//
	//   - Symbol: Wx, on this profile only.
	//   - Input: heights of the primary profile, the spacing, and the limits A and B, which are usually 500 µm and 2500 µm.
	//   - Unit: that of z.
	//   - Evaluated over: the evaluation length.
	//   - Source: ISO 12085:1996, 3.2.
	//
	// Special cases are:
	//
	//	Wx(z, …) = NaN where there is no motif
	{`Wx: maximum depth of waviness
in iso-12085, the evaluation length: ISO 12085:1996, 3.2 (memory)
formula: Wx = max{i}{Hw_i}
says: The largest depth of a waviness motif.
blind: How often it occurs.`,
		ofMotifs(motifDepths, maximum), showDeepest},
	// func Wte(z []float64, dx, a, b float64) float64
	//
	// Wte returns the total depth of the waviness of z.
	//
	//	Wte = max - min of the envelope
	//
	// where the envelope is the line through the peaks that end roughness motifs, outstanding ones lowered.
	//
	//   - Symbol: Wte, on this profile only.
	//   - Input: heights of the primary profile, the spacing, and the limits A and B, which are usually 500 µm and 2500 µm.
	//   - Unit: that of z.
	//   - Evaluated over: the evaluation length.
	//   - Source: ISO 12085:1996, 3.2.
	//
	// Special cases are:
	//
	//	Wte(z, …) = NaN where there is no envelope
	{`Wte: total depth of waviness
in iso-12085, the evaluation length: ISO 12085:1996, 3.2 (memory)
formula: Wte = max{}{E_i} - min{}{E_i}
says: The height from the lowest to the highest point of the envelope.
blind: Whether it is one slow slope or many waves.`,
		evalEnvelope, showEnvelope},
	// func Nw(z []float64, dx, a, b float64) float64
	//
	// Nw returns the number of waviness motifs of z.
	//
	//	Nw = n
	//
	// where a waviness motif is one of the envelope, at most B wide.
	//
	//   - Symbol: Nw, on this profile only.
	//   - Input: heights of the primary profile, the spacing, and the limits A and B, which are usually 500 µm and 2500 µm.
	//   - Unit: none.
	//   - Evaluated over: the evaluation length.
	//   - Source: ISO 12085:1996.
	//
	// Special cases are:
	//
	//	Nw(z, …) = 0 where there is no motif, NaN for no heights
	{`Nw: number of waviness motifs
in iso-12085, the evaluation length: ISO 12085:1996 (memory)
formula: Nw = n
says: How many waviness motifs there are. With few of them, W and AW are not reliable.
blind: Their depth and width.`,
		countMotifs, showCounted},
	// func SW(z []float64, dx, a, b float64) float64
	//
	// SW returns the standard deviation of the depths of the waviness motifs of z.
	//
	//	SW = √(1/m Σ (HW_j - W)²)
	//
	// over all m = 2n depths.
	//
	//   - Symbol: SW, on this profile only.
	//   - Input: heights of the primary profile, the spacing, and the limits A and B, which are usually 500 µm and 2500 µm.
	//   - Unit: that of z.
	//   - Evaluated over: the evaluation length.
	//   - Source: ISO 12085:1996.
	//
	// Special cases are:
	//
	//	SW(z, …) = NaN where there is no motif
	{`SW: standard deviation of the depths of waviness motifs
in iso-12085, the evaluation length: ISO 12085:1996 (memory)
formula: SW = sqrt{frac{1}{2 * n} * sum{i=1}{2 * n}{(Hw_i - W)^{2}}}
says: How much the depths of the waviness motifs differ from their mean.
blind: The order along the trace.`,
		ofMotifs(motifDepths, spread), showScatter(depthMarks, motifDepths, "W")},
	// func SAW(z []float64, dx, a, b float64) float64
	//
	// SAW returns the standard deviation of the widths of the waviness motifs of z.
	//
	//	SAW = √(1/n Σ (AW_i - AW)²)
	//
	// over all n motifs.
	//
	//   - Symbol: SAW, on this profile only.
	//   - Input: heights of the primary profile, the spacing, and the limits A and B, which are usually 500 µm and 2500 µm.
	//   - Unit: that of dx.
	//   - Evaluated over: the evaluation length.
	//   - Source: ISO 12085:1996.
	//
	// Special cases are:
	//
	//	SAW(z, …) = NaN where there is no motif
	{`SAW: standard deviation of the spacings of waviness motifs
in iso-12085, the evaluation length: ISO 12085:1996 (memory)
formula: SAW = sqrt{frac{1}{n} * sum{i=1}{n}{(Ww_i - AW)^{2}}}
says: How much the widths of the waviness motifs differ from their mean.
blind: The order along the trace.`,
		ofMotifs(motifWidths, spread), showScatter(widthMarks, motifWidths, "AW")},
})

// evalEnvelope evaluates the height of the envelope.
func evalEnvelope(w *work, args []float64) result {
	m := w.motifs(args)
	if len(m.Envelope) < 2 {
		return undefined(reasonNoMotif)
	}
	high, low := envelopeEnds(m)
	return value(high.Y - low.Y)
}

// envelopeEnds returns the highest and the lowest point of the envelope, the leftmost of equals.
func envelopeEnds(m *motifs) (high, low Point) {
	high, low = m.Envelope[0], m.Envelope[0]
	for _, p := range m.Envelope {
		if p.Y > high.Y {
			high = p
		}
		if p.Y < low.Y {
			low = p
		}
	}
	return high, low
}

// envelope draws the envelope, for the waviness only.
func (c *Construction) envelope(w *work, args []float64) {
	m := w.motifs(args)
	if len(args) < 2 || len(m.Envelope) == 0 {
		return
	}
	text := "upper envelope through " + strconv.Itoa(len(m.Envelope)) + " peaks that end roughness motifs"
	if m.Lowered > 0 {
		text += "; " + strconv.Itoa(m.Lowered) + " outstanding peaks are lowered to a depth of " + micrometres(m.Limit)
	}
	c.step(text, nan, line("envelope", m.Envelope...))
}

// showEnvelope draws the envelope with its highest and lowest point and the distance between their levels.
func showEnvelope(w *work, args []float64, c *Construction) {
	c.envelope(w, args)
	high, low := envelopeEnds(w.motifs(args))
	middle, l := w.length()/2, w.length()
	c.step("envelope: highest "+place(high)+", lowest "+place(low), c.Result,
		point(PeakMark, micrometres(high.Y), high), point(PitMark, micrometres(low.Y), low), level("", 0, l, high.Y), level("", 0, l, low.Y),
		dimension(c.Symbol, Point{middle, low.Y}, Point{middle, high.Y}))
	c.work("{1} - {2}", high.Y, low.Y)
}
