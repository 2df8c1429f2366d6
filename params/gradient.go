package params

import (
	"math"
	"slices"
)

// slopeRows are the gradients and what is made of them.
var slopeRows = []Parameter{
	// func Rdq(z []float64, dx float64) float64
	//
	// Rdq returns the root mean square gradient of the profile z at spacing dx.
	//
	//	Rdq = √(1/l ∫ (dz/dx)² dx)      as defined
	//	Rdq = √(1/N Σ (dz/dx)²ᵢ)        as computed
	//
	// with the local slope by the seven-point formula of ISO 4287:1997, 3.2.9; the three points at each end that lack
	// neighbours stay out of the mean.
	//
	//   - Symbol: Rdq; Pdq and Wdq are the same on the other profiles. ISO 4287 and ASME B46.1 write RΔq.
	//   - Input: heights, at least three; the spacing.
	//   - Unit: none.
	//   - Evaluated over: the evaluation length (ISO 21920-2, ASME); each section, then the mean (ISO 4287).
	//   - Source: ISO 21920-2:2021, 4.4.2; ISO 4287:1997, 4.4.1; ASME B46.1-2009, 1-4.
	//
	// Special cases are:
	//
	//	Rdq of fewer than seven points uses the five- or three-point formula
	//	Rdq of fewer than three points = NaN
	{
		Key: "Rdq", Name: "root mean square gradient",
		Meanings: []Meaning{
			{editions21920, EvaluationLength, refs(iso21920("4.4.2")), wholeSlope(Rq), nil},
			{editions4287, SectionMean, refs(iso4287("4.4.1")), sectionMeanSlope(Rq), constructSlope(true)},
			{editionsASME, EvaluationLength, refs(asme()), wholeSlope(Rq), nil},
		},
		Formula:   "Rdq = sqrt{frac{1}{Ng} * sum{i=1}{Ng}{g_i^{2}}}",
		Defined:   "Rdq = sqrt{frac{1}{le} * int{0}{le}{g(x)^{2}}{x}}",
		Sentence:  "The square root of the mean squared slope: how steep the flanks are. A slope of 0.1 is a rise of 1 in 10.",
		Practice:  "Used for friction, sealing and the look of a surface; steep flanks deform more easily.",
		Blind:     "Whether the flanks are long or short. It depends on the point spacing and on the S-filter.",
		construct: constructSlope(false),
	},
	// func Rda(z []float64, dx float64) float64
	//
	// Rda returns the arithmetic mean of the absolute gradient of the profile z at spacing dx.
	//
	//	Rda = 1/l ∫ |dz/dx| dx      as defined
	//	Rda = 1/N Σ |dz/dx|ᵢ        as computed
	//
	// with the local slopes of [Rdq].
	//
	//   - Symbol: Rda; Pda and Wda are the same on the other profiles. ASME B46.1 writes RΔa.
	//   - Input: heights, at least three; the spacing.
	//   - Unit: none.
	//   - Evaluated over: the evaluation length.
	//   - Source: ISO 21920-2:2021, 4.4.3; ASME B46.1-2009, 1-4.
	//
	// Special cases are those of [Rdq].
	{
		Key: "Rda", Name: "arithmetic mean of absolute gradient",
		Meanings: []Meaning{
			meaning(editions21920, EvaluationLength, iso21920("4.4.3")),
			meaning(editionsASME, EvaluationLength, asme()),
		},
		Formula:   "Rda = frac{1}{Ng} * sum{i=1}{Ng}{abs{g_i}}",
		Sentence:  "The mean steepness of the profile; up and down count alike.",
		Practice:  "As for Rdq.",
		Blind:     "Single steep places. It depends on the point spacing and on the S-filter.",
		eval:      wholeSlope(Ra),
		construct: constructSlope(false),
	},
	// func Rdt(z []float64, dx float64) float64
	//
	// Rdt returns the maximum absolute gradient of the profile z at spacing dx.
	//
	//	Rdt = max |dz/dx|
	//
	// with the local slopes of [Rdq].
	//
	//   - Symbol: Rdt; Pdt and Wdt are the same on the other profiles.
	//   - Input: heights, at least three; the spacing.
	//   - Unit: none.
	//   - Evaluated over: the evaluation length.
	//   - Source: ISO 21920-2:2021, 4.4.4.
	//
	// Special cases are those of [Rdq].
	{
		Key: "Rdt", Name: "maximum absolute gradient",
		Meanings:  []Meaning{meaning(editions21920, EvaluationLength, iso21920("4.4.4"))},
		Formula:   "Rdt = max{i}{abs{g_i}}",
		Sentence:  "The steepness at the steepest place.",
		Blind:     "Everything but one place, which may be a fault of the measurement.",
		eval:      wholeSlope(largest),
		construct: constructSteepest,
	},
	// func Rdl(z []float64, dx float64) float64
	//
	// Rdl returns the developed length of the profile z at spacing dx.
	//
	//	Rdl = ∫ √(1 + (dz/dx)²) dx              as defined
	//	Rdl = N dx 1/N Σ √(1 + (dz/dx)²ᵢ)       as computed
	//
	// with the local slopes of [Rdq]. Heights and spacing must have one unit.
	//
	//   - Symbol: Rdl; Pdl and Wdl are the same on the other profiles.
	//   - Input: heights, at least three; the spacing.
	//   - Unit: that of dx.
	//   - Evaluated over: the evaluation length.
	//   - Source: ISO 21920-2:2021, 4.4.5.
	//
	// Special cases are those of [Rdq].
	{
		Key: "Rdl", Name: "developed length",
		Meanings:  []Meaning{meaning(editions21920, EvaluationLength, iso21920("4.4.5"))},
		Formula:   "Rdl = frac{le}{Ng} * sum{i=1}{Ng}{sqrt{1 + g_i^{2}}}",
		Sentence:  "The length of the profile line when it is pulled straight.",
		Blind:     "Where the extra length is. On a ground or turned surface it is usually less than 1 % longer than the evaluation length.",
		eval:      evalDevelopedLength,
		construct: constructDeveloped,
	},
	// func Rdr(z []float64, dx float64) float64
	//
	// Rdr returns the developed length ratio of the profile z at spacing dx, in %.
	//
	//	Rdr = 100 1/l ∫ (√(1 + (dz/dx)²) - 1) dx       as defined
	//	Rdr = 100 1/N Σ (√(1 + (dz/dx)²ᵢ) - 1)         as computed
	//
	// with the local slopes of [Rdq]. Heights and spacing must have one unit.
	//
	//   - Symbol: Rdr; Pdr and Wdr are the same on the other profiles.
	//   - Input: heights, at least three; the spacing.
	//   - Unit: %.
	//   - Evaluated over: the evaluation length.
	//   - Source: ISO 21920-2:2021, 4.4.6.
	//
	// Special cases are those of [Rdq].
	{
		Key: "Rdr", Name: "developed length ratio",
		Meanings:  []Meaning{meaning(editions21920, EvaluationLength, iso21920("4.4.6"))},
		Formula:   "Rdr = 100% × frac{1}{Ng} * sum{i=1}{Ng}{(sqrt{1 + g_i^{2}} - 1)}",
		Sentence:  "By how many percent the profile line, pulled straight, is longer than the evaluation length; for small slopes close to 50 × Rdq² %.",
		Practice:  "Stated where a coating or an adhesive must hold.",
		Blind:     "Where the extra length is. It depends on the point spacing and on the S-filter.",
		eval:      wholeSlope(func(slope []float64) float64 { return 100 * meanStretch(slope) }),
		construct: constructDeveloped,
	},
}

func evalDevelopedLength(w *work, _ []float64) result {
	g := w.gradient()
	if g.slope == nil {
		return undefined(reasonSlope)
	}
	return value(float64(w.n) * w.dx * (1 + meanStretch(g.slope)))
}

// A gradient holds the local slopes of the profile.
//
// Where the profile goes on beyond the evaluation length (Input.Lead and Input.Tail), every point has one. Otherwise up
// to three points at each end have none and stay out of the averages: a one-sided formula would amplify the noise.
type gradient struct {
	slope []float64
	first int // index in z of slope[0]
}

// centralWeights are those of the central difference of the first derivative of order 2, 4 and 6, each the weight of
// z[i+j] - z[i-j] for j = 1, 2, 3, to be divided by dx. The last is the formula of ISO 4287:1997, 3.2.9:
//
//	dz/dx = (z₊₃ - 9 z₊₂ + 45 z₊₁ - 45 z₋₁ + 9 z₋₂ - z₋₃) / (60 dx)
var centralWeights = [...][]float64{
	1: {1.0 / 2},
	2: {8.0 / 12, -1.0 / 12},
	3: {45.0 / 60, -9.0 / 60, 1.0 / 60},
}

// gradient returns the slopes by the seven-point formula, by the five- or three-point formula when the profile has fewer
// points than seven or five; nil slopes when it has fewer than three.
func (w *work) gradient() *gradient {
	g := &w.slopes
	if w.have.slopes {
		return g
	}
	w.have.slopes = true
	lead := w.in.Lead[max(0, len(w.in.Lead)-3):]
	tail := w.in.Tail[:min(3, len(w.in.Tail))]
	z := w.z
	if len(lead)+len(tail) > 0 {
		z = w.floats(len(lead) + w.n + len(tail))
		copy(z, lead)
		copy(z[len(lead):], w.z)
		copy(z[len(lead)+w.n:], tail)
	}
	reach := min(3, (len(z)-1)/2)
	if reach < 1 {
		return g
	}
	from, to := max(reach, len(lead)), min(len(z)-reach, len(lead)+w.n)
	if to <= from {
		return g
	}
	g.first = from - len(lead)
	g.slope = w.floats(to - from)
	weights := centralWeights[reach]
	for i := range g.slope {
		sum := 0.0
		for j, c := range weights {
			sum += float64(c * (z[from+i+j+1] - z[from+i-j-1]))
		}
		g.slope[i] = sum / w.dx
	}
	return g
}

// in returns the slopes of the points from index a to before b of z.
func (g *gradient) in(a, b int) []float64 {
	a, b = max(0, a-g.first), min(len(g.slope), b-g.first)
	if a >= b {
		return nil
	}
	return g.slope[a:b]
}

const reasonSlope = "a slope needs three points"

// wholeSlope makes an evaluator of a function of the slopes, over the evaluation length.
func wholeSlope(f func(slope []float64) float64) evaluator {
	return func(w *work, _ []float64) result {
		g := w.gradient()
		if g.slope == nil {
			return undefined(reasonSlope)
		}
		return value(f(g.slope))
	}
}

// sectionMeanSlope makes one in each section, then the mean. A slope at the border of a section uses the points beyond
// it: the profile goes on.
func sectionMeanSlope(f func(slope []float64) float64) evaluator {
	return func(w *work, _ []float64) result {
		g := w.gradient()
		s := w.each(func(k int) float64 {
			if slopes := g.in(k*w.section, (k+1)*w.section); slopes != nil {
				return f(slopes)
			}
			return nan
		})
		return meanOfDefined(s, "is too short for a slope", reasonSlope)
	}
}

// meanStretch returns the mean of √(1+g²) - 1, without losing small slopes to the 1.
func meanStretch(slope []float64) float64 {
	sum := 0.0
	for _, g := range slope {
		sum += float64(g / (math.Sqrt(float64(g*g)+1) + 1) * g)
	}
	return sum / float64(len(slope))
}

// constructSlope shows a mean slope as a flank of that slope in the middle of the trace.
func constructSlope(sections bool) constructor {
	return func(w *work, _ []float64, c *Construction) {
		x, run := w.length()/2, min(w.length()/2, 10*w.dx)
		rise := c.Result * run
		c.step("a flank of this slope rises "+micrometres(rise)+" on "+micrometres(run), c.Result,
			line(digits(c.Result, 3), Point{x - run/2, -rise / 2}, Point{x + run/2, rise / 2}))
		if sections {
			c.mean(slices.DeleteFunc(sectionMeanSlope(Rq)(w, nil).sections, math.IsNaN))
		}
	}
}

// constructSteepest shows the steepest place with its tangent.
func constructSteepest(w *work, _ []float64, c *Construction) {
	g := w.gradient()
	at := 0
	for i, v := range g.slope {
		if math.Abs(v) > math.Abs(g.slope[at]) {
			at = i
		}
	}
	p, slope := w.pointAt(g.first+at), g.slope[at]
	run := 5 * w.dx
	c.step("slope "+digits(slope, 3)+" at "+millimetres(p.X), c.Result,
		point(PointMark, "", p),
		line(digits(slope, 3), Point{p.X - run, p.Y - slope*run}, Point{p.X + run, p.Y + slope*run}))
}

// constructDeveloped shows the length of the trace that the developed length is compared with.
func constructDeveloped(w *work, _ []float64, c *Construction) {
	l := w.length()
	excess := l * meanStretch(w.gradient().slope)
	c.step("the trace is "+millimetres(l)+" long, the profile pulled straight "+micrometres(excess)+" longer", c.Result,
		dimension(millimetres(l), Point{0, 0}, Point{l, 0}))
	if c.Unit == Percent {
		c.work("100 · {1} / {2}", excess, l)
	} else {
		c.work("{1} + {2}", l, excess)
	}
}
