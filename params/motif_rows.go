package params

import (
	"math"

	"example.com/furrow/standards"
)

func iso12085(clause string, basis standards.Basis) standards.Ref {
	return standards.Ref{Doc: "ISO 12085:1996", Clause: clause, Basis: basis}
}

var (
	motifWidth = Arg{Name: "A", Unit: Micrometre, Default: defaultMotifLimit, Text: "the largest width of a roughness motif"}
	waveWidth  = Arg{Name: "B", Unit: Micrometre, Default: defaultWavingLimit, Text: "the largest width of a waviness motif"}
)

// motifRow completes a row of ISO 12085 about roughness motifs: measured on the primary profile, evaluated once.
func motifRow(p Parameter, clause string, basis standards.Basis) Parameter {
	p.Group, p.On = GroupMotif, Primary
	p.Meanings = []Meaning{{Editions: []string{editionISO12085}, Over: EvaluationLength, Refs: refs(iso12085(clause, basis))}}
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

// wavinessRow is motifRow for the motifs of the envelope, which have a width of their own.
func wavinessRow(p Parameter, clause string, basis standards.Basis) Parameter {
	p = motifRow(p, clause, basis)
	p.Args = append(p.Args, waveWidth)
	return p
}

var motifRows = []Parameter{
	motifRow(Parameter{
		Key: "R", Name: "mean depth of roughness motifs",
		Formula:  "R = frac{1}{2 * n} * sum{i=1}{2 * n}{H_i}",
		Sentence: "The mean depth of the roughness motifs, each measured from both of its end peaks.",
		Blind:    "How wide the motifs are, and what is before the first and after the last peak.",
		eval:     roughnessMotifs(func(m []Motif, _ Choices) float64 { return mean(motifDepths(m)) }), construct: showMotifs(motifDepths),
	}, "3.2", standards.Excerpt),
	motifRow(Parameter{
		Key: "AR", Name: "mean spacing of roughness motifs",
		Formula:  "AR = frac{1}{n} * sum{i=1}{n}{Wr_i}",
		Sentence: "The mean width of the roughness motifs, from peak to peak.",
		Blind:    "How deep they are.",
		eval:     roughnessMotifs(func(m []Motif, _ Choices) float64 { return mean(motifWidths(m)) }), construct: showMotifs(motifWidths),
	}, "3.2.1", standards.Excerpt),
	motifRow(Parameter{
		Key: "Rx", Name: "maximum depth of profile irregularity",
		Formula:  "Rx = max{i}{H_i}",
		Sentence: "The largest depth of a roughness motif, from one of its end peaks.",
		Blind:    "Whether it is one scratch or all motifs.",
		eval:     roughnessMotifs(func(m []Motif, _ Choices) float64 { return greatest(motifDepths(m)) }), construct: showDeepest,
	}, "3.2", standards.Excerpt),
	motifRow(Parameter{
		Key: "Nr", Name: "number of roughness motifs",
		Formula:  "Nr = n",
		Sentence: "How many roughness motifs there are. With fewer than three, R and AR are not reliable.",
		Blind:    "Their depth and width.",
		eval: func(w *work, args []float64) result {
			return value(float64(len(w.motifs(args).Roughness)))
		}, construct: showMotifs(nil),
	}, "", standards.Memory),
	motifRow(Parameter{
		Key: "SR", Name: "standard deviation of the depths of roughness motifs",
		Formula:  "SR = sqrt{frac{1}{2 * n} * sum{i=1}{2 * n}{(H_i - R)^{2}}}",
		Sentence: "How much the depths of the roughness motifs differ from their mean.",
		Blind:    "The order along the trace.",
		eval:     roughnessMotifs(func(m []Motif, c Choices) float64 { return spread(motifDepths(m), c.Deviation) }), construct: showScatter(motifDepths),
	}, "", standards.Memory),
	motifRow(Parameter{
		Key: "SAR", Name: "standard deviation of the spacings of roughness motifs",
		Formula:  "SAR = sqrt{frac{1}{n} * sum{i=1}{n}{(Wr_i - AR)^{2}}}",
		Sentence: "How much the widths of the roughness motifs differ from their mean.",
		Blind:    "The order along the trace.",
		eval:     roughnessMotifs(func(m []Motif, c Choices) float64 { return spread(motifWidths(m), c.Deviation) }), construct: showScatter(motifWidths),
	}, "", standards.Memory),
	wavinessRow(Parameter{
		Key: "W", Name: "mean depth of waviness motifs",
		Formula:  "W = frac{1}{2 * n} * sum{i=1}{2 * n}{Hw_i}",
		Sentence: "The mean depth of the waviness motifs, measured on the envelope.",
		Blind:    "What is below the envelope, except that a deep pit can change which peaks count.",
		eval:     wavinessMotifs(func(m []Motif, _ Choices) float64 { return mean(motifDepths(m)) }), construct: showMotifs(motifDepths),
	}, "3.2.5", standards.Excerpt),
	wavinessRow(Parameter{
		Key: "AW", Name: "mean spacing of waviness motifs",
		Formula:  "AW = frac{1}{n} * sum{i=1}{n}{Ww_i}",
		Sentence: "The mean width of the waviness motifs, measured on the envelope.",
		Blind:    "How deep they are.",
		eval:     wavinessMotifs(func(m []Motif, _ Choices) float64 { return mean(motifWidths(m)) }), construct: showMotifs(motifWidths),
	}, "3.2.4", standards.Excerpt),
	wavinessRow(Parameter{
		Key: "Wx", Name: "maximum depth of waviness",
		Formula:  "Wx = max{i}{Hw_i}",
		Sentence: "The largest depth of a waviness motif.",
		Blind:    "How often it occurs.",
		eval:     wavinessMotifs(func(m []Motif, _ Choices) float64 { return greatest(motifDepths(m)) }), construct: showDeepest,
	}, "3.2", standards.Memory),
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
	wavinessRow(Parameter{
		Key: "Nw", Name: "number of waviness motifs",
		Formula:  "Nw = n",
		Sentence: "How many waviness motifs there are. With few of them, W and AW are not reliable.",
		Blind:    "Their depth and width.",
		eval: func(w *work, args []float64) result {
			return value(float64(len(w.motifs(args).Waviness)))
		}, construct: showMotifs(nil),
	}, "", standards.Memory),
	wavinessRow(Parameter{
		Key: "SW", Name: "standard deviation of the depths of waviness motifs",
		Formula:  "SW = sqrt{frac{1}{2 * n} * sum{i=1}{2 * n}{(Hw_i - W)^{2}}}",
		Sentence: "How much the depths of the waviness motifs differ from their mean.",
		Blind:    "The order along the trace.",
		eval:     wavinessMotifs(func(m []Motif, c Choices) float64 { return spread(motifDepths(m), c.Deviation) }), construct: showScatter(motifDepths),
	}, "", standards.Memory),
	wavinessRow(Parameter{
		Key: "SAW", Name: "standard deviation of the spacings of waviness motifs",
		Formula:  "SAW = sqrt{frac{1}{n} * sum{i=1}{n}{(Ww_i - AW)^{2}}}",
		Sentence: "How much the widths of the waviness motifs differ from their mean.",
		Blind:    "The order along the trace.",
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
