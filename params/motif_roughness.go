package params

import (
	"math"
	"strconv"

	"example.com/furrow/standards"
)

// motifRows are the parameters of the roughness motifs.
var motifRows = []Parameter{
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
	motifRow(Parameter{
		Key: "R", Name: "mean depth of roughness motifs",
		Formula:  "R = frac{1}{2 * n} * sum{i=1}{2 * n}{H_i}",
		Sentence: "The mean depth of the roughness motifs, each measured from both of its end peaks.",
		Blind:    "How wide the motifs are, and what is before the first and after the last peak.",
		eval:     ofMotifs(motifDepths, average), construct: showMotifs(motifDepths),
	}, "3.2", standards.Excerpt),
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
	motifRow(Parameter{
		Key: "AR", Name: "mean spacing of roughness motifs",
		Formula:  "AR = frac{1}{n} * sum{i=1}{n}{Wr_i}",
		Sentence: "The mean width of the roughness motifs, from peak to peak.",
		Blind:    "How deep they are.",
		eval:     ofMotifs(motifWidths, average), construct: showMotifs(motifWidths),
	}, "3.2.1", standards.Excerpt),
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
	motifRow(Parameter{
		Key: "Rx", Name: "maximum depth of profile irregularity",
		Formula:  "Rx = max{i}{H_i}",
		Sentence: "The largest depth of a roughness motif, from one of its end peaks.",
		Blind:    "Whether it is one scratch or all motifs.",
		eval:     ofMotifs(motifDepths, maximum), construct: showDeepest,
	}, "3.2", standards.Excerpt),
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
	motifRow(Parameter{
		Key: "Nr", Name: "number of roughness motifs",
		Formula:  "Nr = n",
		Sentence: "How many roughness motifs there are. With fewer than three, R and AR are not reliable.",
		Blind:    "Their depth and width.",
		eval:     countMotifs, construct: showMotifs(nil),
	}, "", standards.Memory),
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
	motifRow(Parameter{
		Key: "SR", Name: "standard deviation of the depths of roughness motifs",
		Formula:  "SR = sqrt{frac{1}{2 * n} * sum{i=1}{2 * n}{(H_i - R)^{2}}}",
		Sentence: "How much the depths of the roughness motifs differ from their mean.",
		Blind:    "The order along the trace.",
		eval:     ofMotifs(motifDepths, spread), construct: showScatter(motifDepths),
	}, "", standards.Memory),
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
	motifRow(Parameter{
		Key: "SAR", Name: "standard deviation of the spacings of roughness motifs",
		Formula:  "SAR = sqrt{frac{1}{n} * sum{i=1}{n}{(Wr_i - AR)^{2}}}",
		Sentence: "How much the widths of the roughness motifs differ from their mean.",
		Blind:    "The order along the trace.",
		eval:     ofMotifs(motifWidths, spread), construct: showScatter(motifWidths),
	}, "", standards.Memory),
}

func iso12085(clause string, basis standards.Basis) standards.Ref {
	return standards.Ref{Doc: "ISO 12085:1996", Clause: clause, Basis: basis}
}

var (
	motifWidth = Arg{Name: "A", Unit: Micrometre, Default: defaultMotifLimit, Text: "the largest width of a roughness motif"}
	waveWidth  = Arg{Name: "B", Unit: Micrometre, Default: defaultWavingLimit, Text: "the largest width of a waviness motif"}
)

// motifRow completes a row of ISO 12085 about roughness motifs: measured on the primary profile, evaluated once.
func motifRow(p Parameter, clause string, basis standards.Basis) Parameter {
	p.On = Primary
	p.Meanings = []Meaning{meaning([]standards.EditionID{editionISO12085}, EvaluationLength, iso12085(clause, basis))}
	p.Args = []Arg{motifWidth}
	p.check = func(args []float64) string {
		for _, limit := range args {
			if !(limit > 0) {
				return "the limits A and B are widths above 0"
			}
		}
		return ""
	}
	return p
}

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
func ofMotifs(terms func([]motif) []float64, of func(v []float64, divisor Deviation) float64) evaluator {
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

func average(v []float64, _ Deviation) float64 { return mean(v) }
func maximum(v []float64, _ Deviation) float64 { return greatest(v) }

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

// showMotifs draws every motif and works out the mean of its terms: the values the parameter is made of, one or two per
// motif, if any.
func showMotifs(terms func([]motif) []float64) constructor {
	return func(w *work, args []float64, c *Construction) {
		drawMotifs(w, args, c, terms)
		if terms != nil {
			c.mean(terms(w.shownMotifs(args)))
		}
	}
}

func drawMotifs(w *work, args []float64, c *Construction, terms func([]motif) []float64) {
	addEnvelope(w, args, c)
	for i, m := range w.shownMotifs(args) {
		s := motifStep(i, m)
		if terms != nil {
			s.Value = mean(terms([]motif{m}))
		}
		c.add(s)
	}
}

// showScatter draws every motif and works out the standard deviation of its terms.
func showScatter(terms func([]motif) []float64) constructor {
	return func(w *work, args []float64, c *Construction) {
		drawMotifs(w, args, c, terms)
		v := terms(w.shownMotifs(args))
		c.workAs("mean", mean(v), meanForm(len(v)), v...)
		c.deviation(v, w.in.Choices.Deviation)
	}
}

// showDeepest draws the motif with the greatest depth, the leftmost of equals.
func showDeepest(w *work, args []float64, c *Construction) {
	addEnvelope(w, args, c)
	for i, m := range w.shownMotifs(args) {
		if left, right := m.Depths(); max(left, right) == c.Result {
			step := motifStep(i, m)
			step.Value = c.Result
			c.add(step)
			c.work("{1} - ({2})", max(m.Left.Y, m.Right.Y), m.Pit.Y)
			return
		}
	}
}

// motifStep draws one motif and says where it is.
func motifStep(i int, m motif) Step {
	left, right := m.Depths()
	top := max(m.Left.Y, m.Right.Y)
	return step("motif "+strconv.Itoa(i+1)+": peaks "+place(m.Left)+" and "+place(m.Right)+", pit "+place(m.Pit)+
		"; depths "+micrometres(left)+" and "+micrometres(right)+", width "+lengthOf(m.Width()), nan,
		line("", m.Left, m.Pit, m.Right),
		point(PeakMark, "", m.Left),
		point(PeakMark, "", m.Right),
		point(PitMark, "", m.Pit),
		dimension("width", Point{m.Left.X, top}, Point{m.Right.X, top}),
		dimension("depth", m.Left, Point{m.Left.X, m.Pit.Y}),
		dimension("depth", m.Right, Point{m.Right.X, m.Pit.Y}))
}
