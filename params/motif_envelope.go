package params

// envelopeRows are the Rk family on the profile below the envelope of the motifs.
var envelopeRows = sharing(limitA, []row{
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
	{`Rke: core height below the motif envelope
in iso-12085, the evaluation length: ISO 12085:1996 (memory); ISO 13565-2:1996, 4 (memory); furrow, outstanding peaks as they stand (own choice)
formula: Rke = cu - cl text{ on } z - E
says: The height of the core of the profile as measured from the motif envelope, where the envelope takes the place of a filter.
practice: As Rk.
blind: Peaks and dales outside the core, and what is before the first and after the last peak of a motif.`,
		belowEnvelope(func(_ *work, k *core) float64 { return k.upper - k.lower }, false), showBelow(coreHeight)},
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
	{`Rpke: reduced peak height below the motif envelope
in iso-12085, the evaluation length: ISO 12085:1996 (memory); ISO 13565-2:1996, 4 (memory); furrow, outstanding peaks as they stand (own choice)
formula: Rpke = frac{2 × Ar_1}{Mr1e} text{ on } z - E
says: The height of a right triangle with the area of the peaks above that core and their width Mr1e.
practice: As Rpk.
blind: The height of the highest peak.`,
		belowEnvelope(func(_ *work, k *core) float64 { return k.reducedPeak() }, false), showBelow(reducedPeak)},
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
	{`Rvke: reduced pit depth below the motif envelope
in iso-12085, the evaluation length: ISO 12085:1996 (memory); ISO 13565-2:1996, 4 (memory); furrow, outstanding peaks as they stand (own choice)
formula: Rvke = frac{2 × Ar_2}{100% - Mr2e} text{ on } z - E
says: The depth of a right triangle with the area of the dales below that core and their width 100 % − Mr2e.
practice: As Rvk.
blind: The depth of the deepest pit.`,
		belowEnvelope(func(_ *work, k *core) float64 { return k.reducedDale() }, false), showBelow(reducedDale)},
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
	{`Mr1e: material ratio at the upper limit of the core below the motif envelope
in iso-12085, the evaluation length: ISO 12085:1996 (memory); ISO 13565-2:1996, 4 (memory); furrow, outstanding peaks as they stand (own choice)
formula: Mr1e = Rmr(cu) text{ on } z - E
says: The share of the length on which the profile is above that core.
practice: As Rmrk1.
blind: How high the peaks are.`,
		belowEnvelope(func(_ *work, k *core) float64 { return 100 * k.ratio1 }, true), showBelow(upperRatio)},
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
	{`Mr2e: material ratio at the lower limit of the core below the motif envelope
in iso-12085, the evaluation length: ISO 12085:1996 (memory); ISO 13565-2:1996, 4 (memory); furrow, outstanding peaks as they stand (own choice)
formula: Mr2e = Rmr(cl) text{ on } z - E
says: The share of the length on which the profile is at or above the lower limit of that core.
practice: As Rmrk2.
blind: How deep the dales are.`,
		belowEnvelope(func(_ *work, k *core) float64 { return 100 * k.ratio2 }, true), showBelow(lowerRatio)},
})

// belowEnvelope makes an evaluator of a value of the core of the profile below the motif envelope. A ratio needs a shape there.
func belowEnvelope(pick func(*work, *core) float64, ratio bool) evaluator {
	eval := coreValue(pick)
	return func(w *work, args []float64) result {
		below := w.belowEnvelope(args)
		if below == nil {
			return undefined(reasonNoMotif)
		}
		if ratio && below.flat() {
			return undefined(reasonFlat)
		}
		return eval(below, nil)
	}
}

// showBelow shows the core of the profile below the motif envelope, which hangs from it at 0. It begins at the first peak of the
// envelope.
func showBelow(show coreView) constructor {
	return func(w *work, args []float64, c *Construction) {
		below, m := w.belowEnvelope(args), w.motifs(args)
		start := m.Peaks[0].X
		c.step("the profile below its upper envelope, which is the line at 0 here, from "+millimetres(start)+" to "+millimetres(m.Peaks[len(m.Peaks)-1].X), nan,
			line("z - E", below.strip(below.whole(), below.heightOf)...)).on(ProfilePlane)
		c.step("its material ratio curve", nan, line("", below.curve().outline(0, 1, curvePoints)...)).on(RatioPlane)
		constructCore(show)(below, nil, c)
		for i := range c.Steps {
			if s := &c.Steps[i]; s.Plane == ProfilePlane {
				for _, m := range s.Marks {
					for k := range m.Points {
						m.Points[k].X += start
					}
				}
			}
		}
	}
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
