package params

var spatialRows = []Parameter{
	{
		Key: "Ral", Name: "autocorrelation length", Group: GroupSpatial,
		Meanings: []Meaning{{
			Editions: editions21920, Over: EvaluationLength,
			Refs: refs(iso21920("4.3.2"), ownChoice("default threshold s = 0.2 from memory")),
		}},
		Formula:  "Ral = min{}{t} text{ with } f(t) <= s",
		Defined:  "f(t) = frac{frac{1}{le - t} * int{0}{le - t}{z(x) * z(x + t)}{x}}{frac{1}{le} * int{0}{le}{z(x)^{2}}{x}}",
		Sentence: "The smallest shift at which the autocorrelation function has fallen to s, 0.2 unless stated.",
		Practice: "Small: short waves decide. Large: long waves decide. On an irregular surface, places several Ral apart are nearly independent.",
		Blind:    "Heights: a profile of half the height has the same length. A regular profile resembles itself again after one wave.",
		Args: []Arg{{
			Name: "s", Unit: None, Default: 0.2, Text: "the height of the autocorrelation function at which likeness ends",
		}},
		check: func(args []float64) string {
			if !(args[0] >= 0 && args[0] < 1) {
				return "the threshold s is from 0 up to, not including, 1"
			}
			return ""
		},
		eval:      evalAutocorrelationLength,
		construct: showAutocorrelation,
	},
	{
		Key: "Rsw", Name: "dominant spatial wavelength", Group: GroupSpatial,
		Meanings: []Meaning{{Editions: editions21920, Over: EvaluationLength, Refs: refs(iso21920("4.3.3"))}},
		Formula:  "Rsw = frac{N * dx}{jd}",
		Sentence: "The wavelength of the sine that is strongest in the profile.",
		Practice: "On a turned surface the feed. Chatter shows here only if its wave is the strongest in the profile.",
		Blind:    "Whether that sine is much stronger than the others. Long wavelengths come in coarse steps.",
		eval: func(w *work, _ []float64) result {
			k := w.spectrum().Peak()
			switch {
			case w.flat():
				return undefined(reasonFlat)
			case k == 0:
				return undefined("the spectrum has no wave: fewer than 2 points, or all of equal height")
			}
			return value(w.spectrum().Wavelength(k))
		},
		construct: showDominantWave,
	},
}

func evalAutocorrelationLength(w *work, args []float64) result {
	if w.flat() {
		return undefined(reasonFlat)
	}
	k, part := fallsTo(w.correlation(), args[0])
	if k < 0 {
		return undefined("the autocorrelation function does not fall to " + inWords(args[0]) + " within half the evaluation length")
	}
	return value((float64(k) + part) * w.dx)
}

// fallsTo returns where r, straight between its values, first falls to s, as the index before and the part of the step;
// -1 where it never does.
func fallsTo(r []float64, s float64) (k int, part float64) {
	for i := 1; i < len(r); i++ {
		if r[i] <= s {
			return i - 1, (r[i-1] - s) / (r[i-1] - r[i])
		}
	}
	return -1, 0
}

// Ral returns the autocorrelation length of z at the spacing dx: the smallest shift at which the autocorrelation
// function has fallen to s, which is usually 0.2.
//
//	Ral = smallest t with fACF(t) ≤ s, fACF(t) = [1/(l-t) ∫ z(x) z(x+t) dx] / [1/l ∫ z(x)² dx]      as defined
//	fACF(k·dx) = [Σ zᵢ zᵢ₊ₖ/(N-k)] / [Σ zᵢ²/N], straight between                                    as computed
//
// where every shift is normalised by its own overlap, and shifts up to half the length are looked at.
//
//   - Symbol: Ral; Pal and Wal are the same on the other profiles.
//   - Input: heights from the reference line, the spacing, and the threshold 0 ≤ s < 1.
//   - Unit: that of dx.
//   - Evaluated over: the evaluation length.
//   - Source: ISO 21920-2:2021, 4.3.2; furrow, default threshold s = 0.2 from memory.
//
// Special cases are:
//
//	Ral(z, …) = NaN where the function does not fall to s, and for a flat profile
func Ral(z []float64, dx, s float64) float64 {
	return rowAlone(spatialRows, "Ral", Input{Z: z, Dx: dx}, s)
}

// Rsw returns the dominant spatial wavelength of z at the spacing dx: that of the largest |F_k| in its spectrum.
//
//	Rsw = wavelength of the largest |∫ z(x) exp(-2πi·px) dx|, p > 0                          as defined
//	Rsw = N·dx/k, k the place of the largest |Σ zᵢ exp(-2πi·ik/N)| for 1 ≤ k ≤ N/2           as computed
//
// where no window is applied. The wavelengths next to it differ by about Rsw²/(N·dx); of equal amplitudes the longer
// wave counts.
//
//   - Symbol: Rsw; Psw and Wsw are the same on the other profiles.
//   - Input: heights from the reference line, and the spacing.
//   - Unit: that of dx.
//   - Evaluated over: the evaluation length.
//   - Source: ISO 21920-2:2021, 4.3.3.
//
// Special cases are:
//
//	Rsw(z, dx) = NaN for a flat profile
func Rsw(z []float64, dx float64) float64 {
	return rowAlone(spatialRows, "Rsw", Input{Z: z, Dx: dx})
}

// showAutocorrelation draws the autocorrelation function, the threshold and where it is crossed.
func showAutocorrelation(w *work, args []float64, c *Construction) {
	c.Plane = LagPlane
	r := w.correlation()
	k, part := fallsTo(r, args[0])
	curve := make([]Point, len(r))
	for i, v := range r {
		curve[i] = Point{float64(i) * w.dx, v}
	}
	at := (float64(k) + part) * w.dx
	c.Steps = append(c.Steps,
		Step{
			Text:  "autocorrelation function, 1 at no shift, up to a shift of " + millimetres(curve[len(curve)-1].X),
			Value: nan,
			Marks: []Mark{{Kind: LineMark, Label: "fACF", Points: curve}},
		},
		Step{
			Text:  "it falls to " + inWords(args[0]) + " at a shift of " + lengthOf(at),
			Value: at,
			Marks: []Mark{
				{Kind: LevelMark, Label: "s", Points: []Point{{0, args[0]}, {curve[len(curve)-1].X, args[0]}}},
				{Kind: PointMark, Points: []Point{{at, args[0]}}},
				{Kind: SpanMark, Label: c.Symbol, Points: []Point{{0, args[0]}, {at, args[0]}}},
			},
		})
	c.Worked = append(c.Worked, Arithmetic{
		Symbol: c.Symbol, Form: "({1} + ({2} - {3}) / ({2} - {4})) · {5}",
		Terms: []float64{float64(k), r[k], args[0], r[k+1], w.dx}, Result: at, Unit: c.Unit,
	})
}

// showDominantWave draws the amplitudes over wavelength, and the largest of them. The bin without a wavelength is left out.
func showDominantWave(w *work, _ []float64, c *Construction) {
	c.Plane = SpectrumPlane
	s := w.spectrum()
	k := s.Peak()
	curve := make([]Point, 0, len(s.Amplitude))
	for i := len(s.Amplitude) - 1; i > 0; i-- {
		curve = append(curve, Point{s.Wavelength(i), s.Amplitude[i]})
	}
	top := Point{s.Wavelength(k), s.Amplitude[k]}
	text := "strongest wave, of the amplitude " + micrometres(top.Y) + " at a wavelength of " + lengthOf(top.X)
	if k+1 < len(s.Amplitude) {
		text += "; the next shorter wave of the spectrum has " + lengthOf(s.Wavelength(k+1))
	}
	if k > 1 {
		text += "; the next longer wave has " + lengthOf(s.Wavelength(k-1))
	}
	c.Steps = append(c.Steps,
		Step{Text: "amplitude spectrum of the evaluation length", Value: nan, Marks: []Mark{{Kind: LineMark, Points: curve}}},
		Step{Text: text, Value: top.X, Marks: []Mark{{Kind: PeakMark, Label: c.Symbol, Points: []Point{top}}}})
	c.Worked = append(c.Worked, Arithmetic{
		Symbol: c.Symbol, Form: "{1} · {2} / {3}", Terms: []float64{float64(s.N), w.dx, float64(k)}, Result: top.X, Unit: c.Unit,
	})
}
