package params

import (
	"math"
	"strconv"
)

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
