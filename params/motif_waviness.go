package params

import (
	"strconv"

	"example.com/furrow/standards"
)

// wavinessRows are those of the waviness motifs, on the envelope.
var wavinessRows = []Parameter{
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
	wavinessRow(Parameter{
		Key: "W", Name: "mean depth of waviness motifs",
		Formula:  "W = frac{1}{2 * n} * sum{i=1}{2 * n}{Hw_i}",
		Sentence: "The mean depth of the waviness motifs, measured on the envelope.",
		Blind:    "What is below the envelope, except that a deep pit can change which peaks count.",
		eval:     ofMotifs(motifDepths, average), construct: showMotifs(motifDepths),
	}, "3.2.5", standards.Excerpt),
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
	wavinessRow(Parameter{
		Key: "AW", Name: "mean spacing of waviness motifs",
		Formula:  "AW = frac{1}{n} * sum{i=1}{n}{Ww_i}",
		Sentence: "The mean width of the waviness motifs, measured on the envelope.",
		Blind:    "How deep they are.",
		eval:     ofMotifs(motifWidths, average), construct: showMotifs(motifWidths),
	}, "3.2.4", standards.Excerpt),
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
	wavinessRow(Parameter{
		Key: "Wx", Name: "maximum depth of waviness",
		Formula:  "Wx = max{i}{Hw_i}",
		Sentence: "The largest depth of a waviness motif.",
		Blind:    "How often it occurs.",
		eval:     ofMotifs(motifDepths, maximum), construct: showDeepest,
	}, "3.2", standards.Memory),
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
	wavinessRow(Parameter{
		Key: "Wte", Name: "total depth of waviness",
		Formula:  "Wte = max{}{E_i} - min{}{E_i}",
		Sentence: "The height from the lowest to the highest point of the envelope.",
		Blind:    "Whether it is one slow slope or many waves.",
		eval: func(w *work, args []float64) result {
			m := w.motifs(args)
			if len(m.Envelope) < 2 {
				return undefined(reasonNoMotif)
			}
			high, low := envelopeEnds(m)
			return value(high.Y - low.Y)
		}, construct: showEnvelope,
	}, "3.2", standards.Memory),
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
	wavinessRow(Parameter{
		Key: "Nw", Name: "number of waviness motifs",
		Formula:  "Nw = n",
		Sentence: "How many waviness motifs there are. With few of them, W and AW are not reliable.",
		Blind:    "Their depth and width.",
		eval:     countMotifs, construct: showMotifs(nil),
	}, "", standards.Memory),
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
	wavinessRow(Parameter{
		Key: "SW", Name: "standard deviation of the depths of waviness motifs",
		Formula:  "SW = sqrt{frac{1}{2 * n} * sum{i=1}{2 * n}{(Hw_i - W)^{2}}}",
		Sentence: "How much the depths of the waviness motifs differ from their mean.",
		Blind:    "The order along the trace.",
		eval:     ofMotifs(motifDepths, spread), construct: showScatter(motifDepths),
	}, "", standards.Memory),
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
	wavinessRow(Parameter{
		Key: "SAW", Name: "standard deviation of the spacings of waviness motifs",
		Formula:  "SAW = sqrt{frac{1}{n} * sum{i=1}{n}{(Ww_i - AW)^{2}}}",
		Sentence: "How much the widths of the waviness motifs differ from their mean.",
		Blind:    "The order along the trace.",
		eval:     ofMotifs(motifWidths, spread), construct: showScatter(motifWidths),
	}, "", standards.Memory),
}

// wavinessRow is motifRow for the motifs of the envelope, which have a width of their own.
func wavinessRow(p Parameter, clause string, basis standards.Basis) Parameter {
	p = motifRow(p, clause, basis)
	p.Args = append(p.Args, waveWidth)
	return p
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

// addEnvelope draws the envelope, for the waviness only.
func addEnvelope(w *work, args []float64, c *Construction) {
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

// showEnvelope draws the envelope with its highest and lowest point.
func showEnvelope(w *work, args []float64, c *Construction) {
	addEnvelope(w, args, c)
	high, low := envelopeEnds(w.motifs(args))
	c.step("envelope: highest "+place(high)+", lowest "+place(low), c.Result,
		point(PeakMark, "", high),
		point(PitMark, "", low))
	c.work("{1} - ({2})", high.Y, low.Y)
}
