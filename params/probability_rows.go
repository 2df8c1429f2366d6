package params

// probabilityRow completes a row of the material probability family.
func probabilityRow(p Parameter, pick func(*Probability) float64, show constructor) Parameter {
	p.Group, p.On = GroupProbability, Stratified
	p.Meanings = []Meaning{
		{Editions: editions21920, Over: EvaluationLength, Refs: refs(iso21920("4.5.4"), iso13565("3", "annex A"))},
		{Editions: editions13565, Over: EvaluationLength, Refs: refs(iso13565("3", "annex A"))},
	}
	p.eval = func(w *work, _ []float64) result {
		if w.flat() {
			return undefined(reasonFlat)
		}
		fit, reason := w.probability()
		if fit == nil {
			return undefined(reason)
		}
		return value(pick(fit))
	}
	p.construct = show
	return p
}

var probabilityRows = []Parameter{
	probabilityRow(Parameter{
		Key: "Rpq", Name: "plateau root mean square height",
		Formula:  "Rpq = -b_1",
		Sentence: "How steeply the plateau line of the probability graph falls: the standard deviation of the heights of the last, fine process, if they are normally distributed.",
		Practice: "The roughness that the last, finest process left.",
		Blind:    "The dales, and the few highest peaks, which are cut off. It needs two straight parts. A surface of one process usually has no Rpq, but the method can find two parts by chance; then Rpq and Rvq are nearly equal and mean nothing.",
	}, func(p *Probability) float64 { return p.Rpq }, showProbability(true, false)),
	probabilityRow(Parameter{
		Key: "Rvq", Name: "dale root mean square height",
		Formula:  "Rvq = -b_2",
		Sentence: "How steeply the dale line of the probability graph falls: the standard deviation of the heights of the first, coarse process, if they are normally distributed.",
		Practice: "The roughness of the first process, of which only the dales are left.",
		Blind:    "The plateaus, and the few deepest scratches, which are cut off.",
	}, func(p *Probability) float64 { return p.Rvq }, showProbability(false, true)),
	probabilityRow(Parameter{
		Key: "Rmq", Name: "material ratio of the plateau-to-dale transition",
		Formula:  "Rmq = 100% × Phi(frac{a_2 - a_1}{b_1 - b_2})",
		Sentence: "The material ratio at which the plateau line and the dale line cross.",
		Practice: "About the share of the surface that the finer process has levelled.",
		Blind:    "How rough either part is.",
	}, func(p *Probability) float64 { return p.Rmq }, showProbability(true, true)),
}

// probability returns the fit to the material probability curve, or nil and the reason.
func (w *work) probability() (*Probability, string) {
	if w.lazy.probability == nil && w.lazy.probabilityReason == "" {
		w.lazy.probability, w.lazy.probabilityReason = FitProbability(w.sorted())
	}
	return w.lazy.probability, w.lazy.probabilityReason
}

// Rpq returns the root mean square height of the plateaus of the profile z, whose order does not matter.
//
//	Rpq = -slope of the regression line z(s) of the plateau part
//
// where s is the standard normal quantile of the material ratio and [FitProbability] finds the part.
//
//   - Symbol: Rpq; Ppq and Wpq are the same on the other profiles.
//   - Input: heights from the reference line, at least 100.
//   - Unit: that of z.
//   - Evaluated over: the evaluation length.
//   - Source: ISO 21920-2:2021, 4.5.4; ISO 13565-3:1998, annex A.
//
// Special cases are:
//
//	Rpq(z) = NaN where the curve does not have two straight parts
func Rpq(z []float64) float64 { return rowAlone(probabilityRows, "Rpq", Input{Z: z, Dx: 1}) }

// Rvq returns the root mean square height of the dales of the profile z, whose order does not matter.
//
//	Rvq = -slope of the regression line z(s) of the dale part
//
// where s is the standard normal quantile of the material ratio and [FitProbability] finds the part.
//
//   - Symbol: Rvq; Pvq and Wvq are the same on the other profiles.
//   - Input: heights from the reference line, at least 100.
//   - Unit: that of z.
//   - Evaluated over: the evaluation length.
//   - Source: ISO 21920-2:2021, 4.5.4; ISO 13565-3:1998, annex A.
//
// Special cases are:
//
//	Rvq(z) = NaN where the curve does not have two straight parts
func Rvq(z []float64) float64 { return rowAlone(probabilityRows, "Rvq", Input{Z: z, Dx: 1}) }

// Rmq returns the material ratio at which the plateaus of the profile z, whose order does not matter, go over to its
// dales, in %.
//
//	Rmq = 100·Φ(s) where the two regression lines cross
//
// where s is the standard normal quantile of the material ratio and [FitProbability] finds the parts.
//
//   - Symbol: Rmq; Pmq and Wmq are the same on the other profiles.
//   - Input: heights from the reference line, at least 100.
//   - Unit: %.
//   - Evaluated over: the evaluation length.
//   - Source: ISO 21920-2:2021, 4.5.4; ISO 13565-3:1998, annex A.
//
// Special cases are:
//
//	Rmq(z) = NaN where the curve does not have two straight parts
func Rmq(z []float64) float64 { return rowAlone(probabilityRows, "Rmq", Input{Z: z, Dx: 1}) }

// showProbability draws the curve on normal paper, the two lines and where they cross.
func showProbability(plateau, dale bool) constructor {
	return func(w *work, _ []float64, c *Construction) {
		c.Plane = ProbabilityPlane
		p, _ := w.probability()
		curve := make([]Point, len(p.S))
		for i := range p.S {
			curve[i] = Point{p.S[i], p.Z[i]}
		}
		c.Steps = append(c.Steps, Step{
			Text: "material probability curve from " + ratioInWords(p.S[0]) + " to " + ratioInWords(p.S[len(p.S)-1]), Value: nan,
			Marks: []Mark{{Kind: LineMark, Points: curve}},
		})
		line := func(name string, l Line, from, to float64) {
			c.Steps = append(c.Steps, Step{
				Text: name + " line, fitted from " + ratioInWords(from) + " to " + ratioInWords(to) +
					", falls by " + micrometres(-l.Slope) + " per standard deviation",
				Value: -l.Slope,
				Marks: []Mark{
					{Kind: LineMark, Label: name, Points: []Point{{from, l.At(from)}, {to, l.At(to)}}},
					{Kind: PointMark, Points: []Point{{from, l.At(from)}}},
					{Kind: PointMark, Points: []Point{{to, l.At(to)}}},
				},
			})
		}
		if plateau {
			line("plateau", p.Plateau, p.Upper, p.PlateauEnd)
		}
		if dale {
			line("dale", p.Dale, p.DaleStart, p.Lower)
		}
		if plateau && dale {
			at := Point{p.CrossingS, p.Plateau.At(p.CrossingS)}
			c.Steps = append(c.Steps, Step{
				Text: "the lines cross at " + ratioInWords(p.CrossingS) + ", at a height of " + micrometres(at.Y), Value: p.Rmq,
				Marks: []Mark{
					{Kind: LineMark, Points: []Point{{p.PlateauEnd, p.Plateau.At(p.PlateauEnd)}, at, {p.DaleStart, p.Dale.At(p.DaleStart)}}},
					{Kind: PointMark, Label: c.Symbol, Points: []Point{at}},
				},
			})
			c.Worked = append(c.Worked, Arithmetic{
				Symbol: "s", Form: "({1} - {2}) / ({3} - {4})",
				Terms:  []float64{p.Dale.Offset, p.Plateau.Offset, p.Plateau.Slope, p.Dale.Slope},
				Result: p.CrossingS, Unit: None,
			}, Arithmetic{Symbol: c.Symbol, Form: "100 · Φ({1})", Terms: []float64{p.CrossingS}, Result: p.Rmq, Unit: Percent})
		}
	}
}

// ratioInWords says a place on normal paper as the material ratio there.
func ratioInWords(s float64) string { return inWords(100*normalShare(s)) + " %" }
