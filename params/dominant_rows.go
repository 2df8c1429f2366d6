package params

import "math"

// dominantRow completes a row of dominant waviness: measured on the primary profile, from which the wave is taken out.
func dominantRow(p Parameter) Parameter {
	p.Group, p.On = GroupSpatial, Primary
	p.Meanings = []Meaning{{
		Editions: []string{editionISO21920, editionISO4287}, Over: EvaluationLength,
		Refs: refs(trade("works standard on dominant waviness", ""), ownChoice("band limits and threshold of the dominating wave")),
	}}
	return p
}

var dominantRows = []Parameter{
	dominantRow(Parameter{
		Key: "WDSm", Name: "mean period length of dominant waviness",
		Formula:  "WDSm = lam text{ of the largest line above the limit}",
		Sentence: "The wavelength of the largest line in the spectrum of the primary profile that stands out: above 4 times the median of all lines and of the lines around it.",
		Practice: "Stated for sealing surfaces, where feed marks and chatter matter.",
		Blind:    "Every other wave. The limits are our own choice, because the text of the standard was not seen.",
		eval: func(w *work, _ []float64) result {
			d, reason := w.dominance()
			if reason != "" {
				return undefined(reason)
			}
			return value(d.Wavelength)
		},
		construct: showDominance,
	}),
	dominantRow(Parameter{
		Key: "WDc", Name: "mean height of dominant waviness",
		Formula:  "WDc = frac{1}{m} * sum{i=1}{m}{Zt_i} text{ on the profile } w",
		Sentence: "The mean height of the dominant wave, from crest to trough.",
		Blind:    "Every other wave. Band limits are our own choice.",
		eval: func(w *work, _ []float64) result {
			wave, reason := w.dominantWave()
			if reason != "" {
				return undefined(reason)
			}
			return elementMean(heightOf)(wave, nil)
		},
		construct: showDominantElements,
	}),
	dominantRow(Parameter{
		Key: "WDt", Name: "total height of dominant waviness",
		Formula:  "WDt = max{}{w_i} - min{}{w_i}",
		Sentence: "The height from the lowest trough to the highest crest of the dominant wave.",
		Blind:    "Every other wave. Band limits are our own choice.",
		eval: func(w *work, _ []float64) result {
			wave, reason := w.dominantWave()
			if reason != "" {
				return undefined(reason)
			}
			low, high := limits(wave.z)
			return value(high - low)
		},
		construct: showDominantProfile,
	}),
}

// dominance returns the dominating wave, or the reason why there is none.
func (w *work) dominance() (*Dominance, string) {
	if w.flat() {
		return nil, reasonFlat
	}
	if w.lazy.dominance == nil {
		w.lazy.dominance = FindDominance(w.z, w.dx)
	}
	if math.IsNaN(w.lazy.dominance.Wavelength) {
		return nil, "no wave dominates: no peak of the spectrum exceeds four times the median amplitude, of all and of each octave beside it"
	}
	return w.lazy.dominance, ""
}

// dominantWave returns the work on the profile of the dominating wave, or the reason why there is none.
func (w *work) dominantWave() (*work, string) {
	d, reason := w.dominance()
	if reason != "" {
		return nil, reason
	}
	if w.lazy.wave == nil {
		w.lazy.wave = newWork(&Input{Z: DominantProfile(w.z, w.dx, d.Wavelength), Dx: w.dx, Choices: w.in.Choices, Flat: w.in.Flat})
	}
	return w.lazy.wave, ""
}

// WDSm returns the mean period length of the dominant waviness of z at the spacing dx.
//
//	WDSm = wavelength of the peak of the amplitude spectrum that stands out 4 times over the median
//
// as [FindDominance] looks for it.
//
//   - Symbol: WDSm.
//   - Input: heights of the primary profile, and the spacing in µm.
//   - Unit: that of dx.
//   - Evaluated over: the evaluation length.
//   - Source: works standard on dominant waviness; furrow, band limits and threshold of the dominating wave.
//
// Special cases are:
//
//	WDSm(z, dx) = NaN where no wave dominates
func WDSm(z []float64, dx float64) float64 {
	return rowAlone(dominantRows, "WDSm", Input{Z: z, Dx: dx})
}

// WDc returns the mean height of the dominant waviness of z at the spacing dx.
//
//	WDc = mean height of the elements of the profile between wavelengths WDSm/√2 and √2·WDSm
//
// as [DominantProfile] takes it out; the elements are those of [Rc].
//
//   - Symbol: WDc.
//   - Input: heights of the primary profile, and the spacing in µm.
//   - Unit: that of z.
//   - Evaluated over: the evaluation length.
//   - Source: works standard on dominant waviness; furrow, band limits and threshold of the dominating wave.
//
// Special cases are:
//
//	WDc(z, dx) = NaN where no wave dominates
func WDc(z []float64, dx float64) float64 {
	return rowAlone(dominantRows, "WDc", Input{Z: z, Dx: dx})
}

// WDt returns the total height of the dominant waviness of z at the spacing dx.
//
//	WDt = max - min of the profile between wavelengths WDSm/√2 and √2·WDSm
//
// as [DominantProfile] takes it out.
//
//   - Symbol: WDt.
//   - Input: heights of the primary profile, and the spacing in µm.
//   - Unit: that of z.
//   - Evaluated over: the evaluation length.
//   - Source: works standard on dominant waviness; furrow, band limits and threshold of the dominating wave.
//
// Special cases are:
//
//	WDt(z, dx) = NaN where no wave dominates
func WDt(z []float64, dx float64) float64 {
	return rowAlone(dominantRows, "WDt", Input{Z: z, Dx: dx})
}

// showDominance draws the amplitude spectrum over the wavelengths looked at, the limit, and the peak.
func showDominance(w *work, _ []float64, c *Construction) {
	c.Plane = SpectrumPlane
	d, _ := w.dominance()
	wavelength := func(k int) float64 { return 1 / (float64(k) * d.Step) }
	var curve []Point
	for k := d.Last; k >= d.First; k-- {
		curve = append(curve, Point{wavelength(k), d.Amplitudes[k]})
	}
	shortest, longest := wavelength(d.Last), wavelength(d.First)
	c.Steps = append(c.Steps,
		Step{
			Text:  "amplitude spectrum from " + lengthOf(shortest) + " to " + millimetres(longest) + ", own band limits",
			Value: nan, Marks: []Mark{{Kind: LineMark, Points: curve}},
		},
		Step{
			Text:  "four times the median amplitude, of all or of an octave beside the peak, is " + micrometres(d.Limit),
			Value: nan, Marks: []Mark{{Kind: LevelMark, Label: "limit", Points: []Point{{shortest, d.Limit}, {longest, d.Limit}}}},
		},
		Step{
			Text:  "the largest peak is " + micrometres(d.Amplitudes[d.Bin]) + "; the wavelength is " + lengthOf(d.Wavelength),
			Value: d.Wavelength,
			Marks: []Mark{{Kind: PeakMark, Label: c.Symbol, Points: []Point{{d.Wavelength, d.Amplitudes[d.Bin]}}}},
		})
}

// showDominantElements draws the profile of the dominating wave and the heights of its elements.
func showDominantElements(w *work, _ []float64, c *Construction) {
	wave, _ := w.dominantWave()
	c.step(w.dominantLine())
	wave.constructList(c, wave.profileElements(), theHeight, theMean)
}

// dominantLine draws the profile of the dominating wave.
func (w *work) dominantLine() Step {
	wave, _ := w.dominantWave()
	d, _ := w.dominance()
	line := make([]Point, wave.n)
	for i, v := range wave.z {
		line[i] = Point{float64(i) * wave.dx, v}
	}
	return Step{
		Text:  "the profile between the wavelengths " + lengthOf(d.Wavelength/math.Sqrt2) + " and " + lengthOf(d.Wavelength*math.Sqrt2),
		Value: nan, Marks: []Mark{{Kind: LineMark, Label: "dominant waviness", Points: line}},
	}
}

// showDominantProfile draws that profile with its highest crest and lowest trough.
func showDominantProfile(w *work, _ []float64, c *Construction) {
	wave, _ := w.dominantWave()
	hi, lo := extremeIndices(wave.z)
	crest, trough := wave.pointAt(hi), wave.pointAt(lo)
	c.step(w.dominantLine())
	c.step(Step{
		Text:  "highest crest " + place(crest) + ", lowest trough " + place(trough),
		Value: crest.Y - trough.Y,
		Marks: []Mark{{Kind: PeakMark, Points: []Point{crest}}, {Kind: PitMark, Points: []Point{trough}}},
	})
}
