package params

import "example.com/furrow/standards"

// envelopeRows are the Rk family on the profile below the envelope of the motifs.
var envelopeRows = []Parameter{
	envelopeRow(Parameter{
		Key: "Rke", Name: "core height below the motif envelope",
		Formula:  "height of the equivalent straight line at 0 % - at 100 %, on z - envelope",
		Sentence: "The height of the core that carries, the waviness being taken out by the line over the peaks instead of a filter.",
		Blind:    "The few highest peaks and deepest pits, and whatever stands outside the first and last motif.",
	}, func(_ *work, k *core) float64 { return k.upper - k.lower }, coreHeight),
	envelopeRow(Parameter{
		Key: "Rpke", Name: "reduced peak height below the motif envelope",
		Formula:  "2 · (area of the curve above the core)/(Mr1e/100), on z - envelope",
		Sentence: "How high the peaks over the core are, which wear off first.",
		Blind:    "One outstanding peak: its area counts, not its height.",
	}, func(_ *work, k *core) float64 { return k.reducedPeak() }, corePeak),
	envelopeRow(Parameter{
		Key: "Rvke", Name: "reduced pit depth below the motif envelope",
		Formula:  "2 · (area of the curve below the core)/(1 - Mr2e/100), on z - envelope",
		Sentence: "How deep the pits under the core are, which hold oil.",
		Blind:    "One outstanding pit: its area counts, not its depth.",
	}, func(_ *work, k *core) float64 { return k.reducedDale() }, coreDale),
	envelopeRow(Parameter{
		Key: "Mr1e", Name: "material ratio at the upper limit of the core below the motif envelope",
		Formula:  "ratio at which the curve comes down to the line at 0 %, on z - envelope",
		Sentence: "What share of the surface is peaks over the core.",
		Blind:    "How high they are.",
	}, func(_ *work, k *core) float64 { return 100 * k.ratio1 }, coreRatio1),
	envelopeRow(Parameter{
		Key: "Mr2e", Name: "material ratio at the lower limit of the core below the motif envelope",
		Formula:  "ratio at which the curve leaves the line at 100 %, on z - envelope",
		Sentence: "What share of the surface is not pits under the core.",
		Blind:    "How deep the pits are.",
	}, func(_ *work, k *core) float64 { return 100 * k.ratio2 }, coreRatio2),
}

func envelopeRow(p Parameter, pick func(*work, *core) float64, member coreMember) Parameter {
	p = motifRow(p, "", standards.Memory)
	p.Meanings[0].Refs = append(p.Meanings[0].Refs, iso13565("2", "4"), ownChoice("outstanding peaks as they stand"))
	p.eval = func(w *work, args []float64) result {
		below := w.belowEnvelope(args)
		if below == nil {
			return undefined(reasonNoMotif)
		}
		if p.Unit == Percent && below.flat() {
			return undefined(reasonFlat)
		}
		return coreValue(pick)(below, nil)
	}
	p.construct = func(w *work, args []float64, c *Construction) {
		constructCore(member)(w.belowEnvelope(args), nil, c)
		m := w.motifs(args)
		c.Steps = append([]Step{{
			Text: "material ratio curve of the profile below its upper envelope, from " + millimetres(m.Peaks[0].X) +
				" to " + millimetres(m.Peaks[len(m.Peaks)-1].X),
			Value: nan,
		}}, c.Steps...)
	}
	return p
}

// belowEnvelope returns the work on the profile below the motif envelope, nil where there is no envelope.
func (w *work) belowEnvelope(args []float64) *work {
	m := w.motifs(args)
	if len(m.Peaks) < 2 {
		return nil
	}
	if m.below == nil {
		heights, _ := m.Below(w.z, w.dx)
		m.below = newWork(&Input{Z: heights, Dx: w.dx, Choices: w.in.Choices, Flat: w.in.Flat})
	}
	return m.below
}

// Rke returns the core height of z below its motif envelope.
//
//	Rke = height of the equivalent straight line at 0 % - at 100 %, on z - envelope
//
// where the construction is that of [Rk], and the envelope the line through the peaks that end roughness motifs,
// outstanding ones as they stand.
//
//   - Symbol: Rke, on the roughness profile only.
//   - Input: heights of the primary profile, the spacing, and the limit A, which is usually 500 µm.
//   - Unit: that of z.
//   - Evaluated over: the evaluation length, between the first peak of the envelope and the last.
//   - Source: ISO 12085:1996; ISO 13565-2:1996, 4; furrow, outstanding peaks as they stand.
//
// Special cases are:
//
//	Rke(z, …) = NaN where there is no envelope
func Rke(z []float64, dx, a float64) float64 {
	return rowAlone(envelopeRows, "Rke", Input{Z: z, Dx: dx}, a)
}

// Rpke returns the reduced peak height of z below its motif envelope.
//
//	Rpke = 2 · (area of the curve above the core)/(Mr1e/100), on z - envelope
//
// where the construction is that of [Rk], and the envelope the line through the peaks that end roughness motifs,
// outstanding ones as they stand.
//
//   - Symbol: Rpke, on the roughness profile only.
//   - Input: heights of the primary profile, the spacing, and the limit A, which is usually 500 µm.
//   - Unit: that of z.
//   - Evaluated over: the evaluation length, between the first peak of the envelope and the last.
//   - Source: ISO 12085:1996; ISO 13565-2:1996, 4; furrow, outstanding peaks as they stand.
//
// Special cases are:
//
//	Rpke(z, …) = NaN where there is no envelope
func Rpke(z []float64, dx, a float64) float64 {
	return rowAlone(envelopeRows, "Rpke", Input{Z: z, Dx: dx}, a)
}

// Rvke returns the reduced pit depth of z below its motif envelope.
//
//	Rvke = 2 · (area of the curve below the core)/(1 - Mr2e/100), on z - envelope
//
// where the construction is that of [Rk], and the envelope the line through the peaks that end roughness motifs,
// outstanding ones as they stand.
//
//   - Symbol: Rvke, on the roughness profile only.
//   - Input: heights of the primary profile, the spacing, and the limit A, which is usually 500 µm.
//   - Unit: that of z.
//   - Evaluated over: the evaluation length, between the first peak of the envelope and the last.
//   - Source: ISO 12085:1996; ISO 13565-2:1996, 4; furrow, outstanding peaks as they stand.
//
// Special cases are:
//
//	Rvke(z, …) = NaN where there is no envelope
func Rvke(z []float64, dx, a float64) float64 {
	return rowAlone(envelopeRows, "Rvke", Input{Z: z, Dx: dx}, a)
}

// Mr1e returns the material ratio at the upper limit of the core of z below its motif envelope.
//
//	Mr1e = ratio at which the curve comes down to the line at 0 %, on z - envelope
//
// where the construction is that of [Rk], and the envelope the line through the peaks that end roughness motifs,
// outstanding ones as they stand.
//
//   - Symbol: Mr1e, on the roughness profile only.
//   - Input: heights of the primary profile, the spacing, and the limit A, which is usually 500 µm.
//   - Unit: %.
//   - Evaluated over: the evaluation length, between the first peak of the envelope and the last.
//   - Source: ISO 12085:1996; ISO 13565-2:1996, 4; furrow, outstanding peaks as they stand.
//
// Special cases are:
//
//	Mr1e(z, …) = NaN where there is no envelope
func Mr1e(z []float64, dx, a float64) float64 {
	return rowAlone(envelopeRows, "Mr1e", Input{Z: z, Dx: dx}, a)
}

// Mr2e returns the material ratio at the lower limit of the core of z below its motif envelope.
//
//	Mr2e = ratio at which the curve leaves the line at 100 %, on z - envelope
//
// where the construction is that of [Rk], and the envelope the line through the peaks that end roughness motifs,
// outstanding ones as they stand.
//
//   - Symbol: Mr2e, on the roughness profile only.
//   - Input: heights of the primary profile, the spacing, and the limit A, which is usually 500 µm.
//   - Unit: %.
//   - Evaluated over: the evaluation length, between the first peak of the envelope and the last.
//   - Source: ISO 12085:1996; ISO 13565-2:1996, 4; furrow, outstanding peaks as they stand.
//
// Special cases are:
//
//	Mr2e(z, …) = NaN where there is no envelope
func Mr2e(z []float64, dx, a float64) float64 {
	return rowAlone(envelopeRows, "Mr2e", Input{Z: z, Dx: dx}, a)
}
