package params

import (
	"math"
	"strconv"

	"example.com/furrow/standards"
)

func iso12085(clause string, basis standards.Basis) standards.Ref {
	return standards.Ref{Doc: "ISO 12085:1996", Clause: clause, Basis: basis}
}

var (
	motifWidth = Arg{Name: "A", Unit: Micrometre, Default: defaultMotifLimit, HasDefault: true, Text: "the largest width of a roughness motif"}
	waveWidth  = Arg{Name: "B", Unit: Micrometre, Default: defaultWavingLimit, HasDefault: true, Text: "the largest width of a waviness motif"}
)

// motifRow completes a row of ISO 12085: measured on the primary profile, of one profile, evaluated once.
func motifRow(p Parameter, clause string, basis standards.Basis) Parameter {
	p.Group, p.On = GroupMotif, Primary
	p.Meanings = []Meaning{{Editions: []string{editionISO12085}, Over: EvaluationLength, Refs: refs(iso12085(clause, basis))}}
	p.Args = []Arg{motifWidth}
	if p.Letters == "W" {
		p.Args = append(p.Args, waveWidth)
	}
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

var motifRows = []Parameter{
	motifRow(Parameter{
		Symbol: "R", Name: "mean depth of roughness motifs", Letters: "R", Unit: Micrometre,
		Formula:  "1/m Σ H_j, m = 2n depths of n motifs",
		Sentence: "How deep the fine grooves are on average, each seen from the peaks that frame it.",
		Blind:    "How far apart the motifs are, and anything outside the first and last peak.",
		eval:     roughnessMotifs(func(m []Motif, _ Choices) float64 { return mean(motifDepths(m)) }), construct: showMotifs(motifDepths),
	}, "3.2", standards.Excerpt),
	motifRow(Parameter{
		Symbol: "AR", Name: "mean spacing of roughness motifs", Letters: "R", Unit: Micrometre,
		Formula:  "1/n Σ AR_i",
		Sentence: "How wide the fine grooves are on average, from peak to peak.",
		Blind:    "How deep they are.",
		eval:     roughnessMotifs(func(m []Motif, _ Choices) float64 { return mean(motifWidths(m)) }), construct: showMotifs(motifWidths),
	}, "3.2.1", standards.Excerpt),
	motifRow(Parameter{
		Symbol: "Rx", Name: "maximum depth of profile irregularity", Letters: "R", Unit: Micrometre,
		Formula:  "max H_j",
		Sentence: "The deepest step from a framing peak down to the pit of its motif.",
		Blind:    "Whether it is one scratch or all of them.",
		eval:     roughnessMotifs(func(m []Motif, _ Choices) float64 { return greatest(motifDepths(m)) }), construct: showDeepest,
	}, "3.2", standards.Excerpt),
	motifRow(Parameter{
		Symbol: "Nr", Name: "number of roughness motifs", Letters: "R", Unit: None,
		Formula:  "n",
		Sentence: "How many roughness motifs were found, which says how far R and AR can be trusted.",
		Blind:    "Their depth and width.",
		eval: func(w *work, args []float64) result {
			return value(float64(len(w.motifs(args).Roughness)))
		}, construct: showMotifs(nil),
	}, "", standards.Memory),
	motifRow(Parameter{
		Symbol: "SR", Name: "standard deviation of the depths of roughness motifs", Letters: "R", Unit: Micrometre,
		Formula:  "√(1/m Σ (H_j - R)²)",
		Sentence: "How unlike in depth the fine grooves are.",
		Blind:    "Whether the scatter is regular or chance.",
		eval:     roughnessMotifs(func(m []Motif, c Choices) float64 { return spread(motifDepths(m), c.Deviation) }), construct: showScatter(motifDepths),
	}, "", standards.Memory),
	motifRow(Parameter{
		Symbol: "SAR", Name: "standard deviation of the spacings of roughness motifs", Letters: "R", Unit: Micrometre,
		Formula:  "√(1/n Σ (AR_i - AR)²)",
		Sentence: "How unlike in width the fine grooves are.",
		Blind:    "Their order along the trace.",
		eval:     roughnessMotifs(func(m []Motif, c Choices) float64 { return spread(motifWidths(m), c.Deviation) }), construct: showScatter(motifWidths),
	}, "", standards.Memory),
	motifRow(Parameter{
		Symbol: "W", Name: "mean depth of waviness motifs", Letters: "W", Unit: Micrometre,
		Formula:  "1/m Σ HW_j, m = 2n depths of n motifs of the envelope",
		Sentence: "How deep the long waves are on average, seen on the line laid over the peaks of the fine grooves.",
		Blind:    "Everything below the envelope.",
		eval:     wavinessMotifs(func(m []Motif, _ Choices) float64 { return mean(motifDepths(m)) }), construct: showMotifs(motifDepths),
	}, "3.2.5", standards.Excerpt),
	motifRow(Parameter{
		Symbol: "AW", Name: "mean spacing of waviness motifs", Letters: "W", Unit: Micrometre,
		Formula:  "1/n Σ AW_i",
		Sentence: "How long the waves under the fine grooves are on average.",
		Blind:    "How deep they are.",
		eval:     wavinessMotifs(func(m []Motif, _ Choices) float64 { return mean(motifWidths(m)) }), construct: showMotifs(motifWidths),
	}, "3.2.4", standards.Excerpt),
	motifRow(Parameter{
		Symbol: "Wx", Name: "maximum depth of waviness", Letters: "W", Unit: Micrometre,
		Formula:  "max HW_j",
		Sentence: "The deepest step of the envelope from a framing peak down to the pit of its motif.",
		Blind:    "How often it occurs.",
		eval:     wavinessMotifs(func(m []Motif, _ Choices) float64 { return greatest(motifDepths(m)) }), construct: showDeepest,
	}, "3.2", standards.Memory),
	motifRow(Parameter{
		Symbol: "Wte", Name: "total depth of waviness", Letters: "W", Unit: Micrometre,
		Formula:  "max - min of the envelope",
		Sentence: "How far the line over the peaks rises and falls in all.",
		Blind:    "Whether that is one slow slope or many waves.",
		eval: func(w *work, args []float64) result {
			m := w.motifs(args)
			if len(m.Envelope) < 2 {
				return undefined(reasonNoMotif)
			}
			high, low := envelopeEnds(m)
			return value(high.Y - low.Y)
		}, construct: showEnvelope,
	}, "3.2", standards.Memory),
	motifRow(Parameter{
		Symbol: "Nw", Name: "number of waviness motifs", Letters: "W", Unit: None,
		Formula:  "n",
		Sentence: "How many waviness motifs were found, which says how far W and AW can be trusted.",
		Blind:    "Their depth and width.",
		eval: func(w *work, args []float64) result {
			return value(float64(len(w.motifs(args).Waviness)))
		}, construct: showMotifs(nil),
	}, "", standards.Memory),
	motifRow(Parameter{
		Symbol: "SW", Name: "standard deviation of the depths of waviness motifs", Letters: "W", Unit: Micrometre,
		Formula:  "√(1/m Σ (HW_j - W)²)",
		Sentence: "How unlike in depth the long waves are.",
		Blind:    "Whether the scatter is regular or chance.",
		eval:     wavinessMotifs(func(m []Motif, c Choices) float64 { return spread(motifDepths(m), c.Deviation) }), construct: showScatter(motifDepths),
	}, "", standards.Memory),
	motifRow(Parameter{
		Symbol: "SAW", Name: "standard deviation of the spacings of waviness motifs", Letters: "W", Unit: Micrometre,
		Formula:  "√(1/n Σ (AW_i - AW)²)",
		Sentence: "How unlike in length the waves are.",
		Blind:    "Their order along the trace.",
		eval:     wavinessMotifs(func(m []Motif, c Choices) float64 { return spread(motifWidths(m), c.Deviation) }), construct: showScatter(motifWidths),
	}, "", standards.Memory),
}

const (
	reasonNoMotif     = "no roughness motif: fewer than two peaks lie within the limit A of each other"
	reasonNoWave      = "no waviness motif: the envelope has fewer than two peaks within the limit B of each other"
	reasonFewMotifs   = "not reliable: fewer than three motifs"
	reasonOneDeviates = "the standard deviation of one value with divisor n - 1 has none"
)

// motifs returns the motifs for the limits in args, A and perhaps B.
func (w *work) motifs(args []float64) *Motifs {
	key := [2]float64{defaultMotifLimit, defaultWavingLimit}
	copy(key[:], args)
	m := w.lazy.motifs[key]
	if m == nil {
		m = FindMotifs(w.z, w.dx, key[0], key[1], w.in.Choices)
		if w.lazy.motifs == nil {
			w.lazy.motifs = map[[2]float64]*Motifs{}
		}
		w.lazy.motifs[key] = m
	}
	return m
}

func roughnessMotifs(f func([]Motif, Choices) float64) evaluator {
	return func(w *work, args []float64) result {
		return ofMotifs(w.motifs(args).Roughness, w.in.Choices, f, reasonNoMotif)
	}
}

func wavinessMotifs(f func([]Motif, Choices) float64) evaluator {
	return func(w *work, args []float64) result {
		m := w.motifs(args)
		if len(m.Envelope) < 2 {
			return undefined(reasonNoMotif)
		}
		return ofMotifs(m.Waviness, w.in.Choices, f, reasonNoWave)
	}
}

func ofMotifs(m []Motif, c Choices, f func([]Motif, Choices) float64, none string) result {
	if len(m) == 0 {
		return undefined(none)
	}
	r := value(f(m, c))
	switch {
	case math.IsNaN(r.value):
		r.reason = reasonOneDeviates
	case len(m) < 3:
		r.reason = reasonFewMotifs
	}
	return r
}

// motifWidths returns the widths of the motifs.
func motifWidths(motifs []Motif) []float64 {
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

// envelopeEnds returns the highest and the lowest point of the envelope, the leftmost of equals.
func envelopeEnds(m *Motifs) (high, low Point) {
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

// shownMotifs returns the motifs a row is about: with one limit those of the roughness, with two those of the waviness.
func (w *work) shownMotifs(args []float64) []Motif {
	if len(args) > 1 {
		return w.motifs(args).Waviness
	}
	return w.motifs(args).Roughness
}

// showMotifs draws every motif; terms are the values the parameter is made of, one or two per motif, if any.
func showMotifs(terms func([]Motif) []float64) constructor {
	return func(w *work, args []float64, c *Construction) {
		motifs := w.shownMotifs(args)
		addEnvelope(w, args, c)
		for i, m := range motifs {
			step := motifStep(i, m)
			if terms != nil {
				step.Value = mean(terms([]Motif{m}))
			}
			c.Steps = append(c.Steps, step)
		}
		if terms != nil {
			c.Worked = append(c.Worked, meanOf(c.Symbol, terms(motifs), c.Unit))
		}
	}
}

// showScatter draws every motif and works out the standard deviation of its terms.
func showScatter(terms func([]Motif) []float64) constructor {
	return func(w *work, args []float64, c *Construction) {
		showMotifs(terms)(w, args, c)
		c.Worked[0].Symbol = "mean"
		c.Worked = append(c.Worked, deviationOf(c.Symbol, terms(w.shownMotifs(args)), w.in.Choices.Deviation, c.Unit))
	}
}

// showDeepest draws the motif with the greatest depth, the leftmost of equals.
func showDeepest(w *work, args []float64, c *Construction) {
	addEnvelope(w, args, c)
	for i, m := range w.shownMotifs(args) {
		if left, right := m.Depths(); max(left, right) == c.Result {
			step := motifStep(i, m)
			step.Value = c.Result
			c.Steps = append(c.Steps, step)
			c.Worked = append(c.Worked, Arithmetic{
				Symbol: c.Symbol, Form: "{1} - ({2})", Terms: []float64{max(m.Left.Y, m.Right.Y), m.Pit.Y}, Result: c.Result, Unit: c.Unit,
			})
			return
		}
	}
}

// motifStep draws one motif and says where it is.
func motifStep(i int, m Motif) Step {
	left, right := m.Depths()
	level := math.Max(m.Left.Y, m.Right.Y)
	return Step{
		Text: "motif " + strconv.Itoa(i+1) + ": peaks " + place(m.Left) + " and " + place(m.Right) + ", pit " + place(m.Pit) +
			"; depths " + micrometres(left) + " and " + micrometres(right) + ", width " + lengthOf(m.Width()),
		Value: nan,
		Marks: []Mark{
			{Kind: LineMark, Points: []Point{m.Left, m.Pit, m.Right}},
			{Kind: PeakMark, Points: []Point{m.Left}},
			{Kind: PeakMark, Points: []Point{m.Right}},
			{Kind: PitMark, Points: []Point{m.Pit}},
			{Kind: SpanMark, Label: "width", Points: []Point{{m.Left.X, level}, {m.Right.X, level}}},
			{Kind: SpanMark, Label: "depth", Points: []Point{m.Left, {m.Left.X, m.Pit.Y}}},
			{Kind: SpanMark, Label: "depth", Points: []Point{m.Right, {m.Right.X, m.Pit.Y}}},
		},
	}
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
	c.Steps = append(c.Steps, Step{Text: text, Value: nan, Marks: []Mark{{Kind: LineMark, Label: "envelope", Points: m.Envelope}}})
}

// showEnvelope draws the envelope with its highest and lowest point.
func showEnvelope(w *work, args []float64, c *Construction) {
	addEnvelope(w, args, c)
	high, low := envelopeEnds(w.motifs(args))
	c.Steps = append(c.Steps, Step{
		Text:  "envelope: highest " + place(high) + ", lowest " + place(low),
		Value: c.Result,
		Marks: []Mark{{Kind: PeakMark, Points: []Point{high}}, {Kind: PitMark, Points: []Point{low}}},
	})
	c.Worked = append(c.Worked, Arithmetic{Symbol: c.Symbol, Form: "{1} - ({2})", Terms: []float64{high.Y, low.Y}, Result: c.Result, Unit: c.Unit})
}
