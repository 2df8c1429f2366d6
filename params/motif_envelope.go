package params

import "example.com/furrow/standards"

// envelopeRows are the Rk family on the profile below the envelope of the motifs.
var envelopeRows = []Parameter{
	// func Rke(z []float64, dx, a float64) float64
	//
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
	envelopeRow(Parameter{
		Key: "Rke", Name: "core height below the motif envelope",
		Formula:  "Rke = cu - cl text{ on } z - E",
		Sentence: "The height of the core of the profile as measured from the motif envelope, where the envelope takes the place of a filter.",
		Practice: "As Rk.",
		Blind:    "Peaks and dales outside the core, and what is before the first and after the last peak of a motif.",
	}, func(_ *work, k *core) float64 { return k.upper - k.lower }, "Rk"),
	// func Rpke(z []float64, dx, a float64) float64
	//
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
	envelopeRow(Parameter{
		Key: "Rpke", Name: "reduced peak height below the motif envelope",
		Formula:  "Rpke = frac{2 × Ar_1}{Mr1e} text{ on } z - E",
		Sentence: "The height of a right triangle with the area of the peaks above that core and their width Mr1e.",
		Practice: "As Rpk.",
		Blind:    "The height of the highest peak.",
	}, func(_ *work, k *core) float64 { return k.reducedPeak() }, "Rpk"),
	// func Rvke(z []float64, dx, a float64) float64
	//
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
	envelopeRow(Parameter{
		Key: "Rvke", Name: "reduced pit depth below the motif envelope",
		Formula:  "Rvke = frac{2 × Ar_2}{100% - Mr2e} text{ on } z - E",
		Sentence: "The depth of a right triangle with the area of the dales below that core and their width 100 % − Mr2e.",
		Practice: "As Rvk.",
		Blind:    "The depth of the deepest pit.",
	}, func(_ *work, k *core) float64 { return k.reducedDale() }, "Rvk"),
	// func Mr1e(z []float64, dx, a float64) float64
	//
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
	envelopeRow(Parameter{
		Key: "Mr1e", Name: "material ratio at the upper limit of the core below the motif envelope",
		Formula:  "Mr1e = Rmr(cu) text{ on } z - E",
		Sentence: "The share of the length on which the profile is above that core.",
		Practice: "As Rmrk1.",
		Blind:    "How high the peaks are.",
	}, func(_ *work, k *core) float64 { return 100 * k.ratio1 }, "Rmrk1"),
	// func Mr2e(z []float64, dx, a float64) float64
	//
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
	envelopeRow(Parameter{
		Key: "Mr2e", Name: "material ratio at the lower limit of the core below the motif envelope",
		Formula:  "Mr2e = Rmr(cl) text{ on } z - E",
		Sentence: "The share of the length on which the profile is at or above the lower limit of that core.",
		Practice: "As Rmrk2.",
		Blind:    "How deep the dales are.",
	}, func(_ *work, k *core) float64 { return 100 * k.ratio2 }, "Rmrk2"),
}

func envelopeRow(p Parameter, pick func(*work, *core) float64, key string) Parameter {
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
		constructCore(key)(w.belowEnvelope(args), nil, c)
		m := w.motifs(args)
		c.Steps = append([]Step{step("material ratio curve of the profile below its upper envelope, from "+
			millimetres(m.Peaks[0].X)+" to "+millimetres(m.Peaks[len(m.Peaks)-1].X), nan)}, c.Steps...)
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
