package params

import (
	"math"
	"slices"
	"strings"
)

// slopeRows are the gradients and what is made of them.
var slopeRows = []row{
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
	{`Rdq: root mean square gradient
in iso-21920, the evaluation length: ISO 21920-2:2021, 4.4.2 (excerpt)
in iso-4287 jis-b0601-2013, each section, then the mean: ISO 4287:1997, 4.4.1 (memory)
in asme-b46.1, the evaluation length: ASME B46.1-2009, 1-4 (memory)
formula: Rdq = sqrt{frac{1}{Ng} * sum{i=1}{Ng}{g_i^{2}}}
defined: Rdq = sqrt{frac{1}{le} * int{0}{le}{g(x)^{2}}{x}}
says: The square root of the mean squared slope: how steep the flanks are. A slope of 0.1 is a rise of 1 in 10.
practice: Used for friction, sealing and the look of a surface; steep flanks deform more easily.
blind: Whether the flanks are long or short. It depends on the point spacing and on the S-filter.`,
		ofSlopes(Rq), constructRootSlope},
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
	{`Rda: arithmetic mean of absolute gradient
in iso-21920, the evaluation length: ISO 21920-2:2021, 4.4.3 (excerpt)
in asme-b46.1, the evaluation length: ASME B46.1-2009, 1-4 (memory)
formula: Rda = frac{1}{Ng} * sum{i=1}{Ng}{abs{g_i}}
says: The mean steepness of the profile; up and down count alike.
practice: As for Rdq.
blind: Single steep places. It depends on the point spacing and on the S-filter.`,
		ofSlopes(Ra), constructMeanSlope},
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
	{`Rdt: maximum absolute gradient
in iso-21920, the evaluation length: ISO 21920-2:2021, 4.4.4 (excerpt)
formula: Rdt = max{i}{abs{g_i}}
says: The steepness at the steepest place.
blind: Everything but one place, which may be a fault of the measurement.`,
		ofSlopes(largest), constructSteepest},
	// func Rdl(z []float64, dx float64) float64
	//
	// Rdl returns the developed length of the profile z at spacing dx.
	//
	//	Rdl = ∫ √(1 + (dz/dx)²) dx              as defined
	//	Rdl = N dx 1/N Σ √(1 + (dz/dx)²ᵢ)       as computed
	//
	// with the local slopes of [Rdq]. Heights and spacing must have one unit.
	//
	//   - Symbol: Rdl; Pdl and Wdl are the same on the other profiles. ISO 4287-1:1984 calls it Lo.
	//   - Input: heights, at least three; the spacing.
	//   - Unit: that of dx.
	//   - Evaluated over: the evaluation length.
	//   - Source: ISO 21920-2:2021, 4.4.5; ISO 4287-1:1984.
	//
	// Special cases are those of [Rdq].
	{`Rdl: developed length
also: Lo
in iso-21920, the evaluation length: ISO 21920-2:2021, 4.4.5 (excerpt)
in iso-4287, the evaluation length: ISO 4287-1:1984 (memory)
formula: Rdl = frac{le}{Ng} * sum{i=1}{Ng}{sqrt{1 + g_i^{2}}}
says: The length of the profile line when it is pulled straight.
blind: Where the extra length is. On a ground or turned surface it is usually less than 1 % longer than the evaluation length.`,
		evalDevelopedLength, constructDeveloped},
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
	{`Rdr: developed length ratio
in iso-21920, the evaluation length: ISO 21920-2:2021, 4.4.6 (excerpt)
formula: Rdr = 100% × frac{1}{Ng} * sum{i=1}{Ng}{(sqrt{1 + g_i^{2}} - 1)}
says: By how many percent the profile line, pulled straight, is longer than the evaluation length; for small slopes close to 50 × Rdq² %.
practice: Stated where a coating or an adhesive must hold.
blind: Where the extra length is. It depends on the point spacing and on the S-filter.`,
		ofSlopes(func(slope []float64) float64 { return 100 * meanStretch(slope) }), constructDeveloped},
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

// weightsSaid are those weights in words, without their divisor, which is the last.
var weightsSaid = [...][]string{1: {"1", "2"}, 2: {"8", "(-1)", "12"}, 3: {"45", "(-9)", "1", "60"}}

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
	slopes(g.slope, z, from, reach, w.dx)
	return g
}

// slopes computes those of the points of z from the index on, from so many neighbours on each side.
func slopes(slope, z []float64, from, reach int, dx float64) {
	weights := centralWeights[reach]
	for i := range slope {
		sum := 0.0
		for j, c := range weights {
			sum += float64(c * (z[from+i+j+1] - z[from+i-j-1]))
		}
		slope[i] = sum / dx
	}
}

// in returns the slopes of the points from index a to before b of z.
func (g *gradient) in(a, b int) []float64 {
	a, b = max(0, a-g.first), min(len(g.slope), b-g.first)
	if a >= b {
		return nil
	}
	return g.slope[a:b]
}

const (
	lacksSlope  = "is too short for a slope"
	reasonSlope = "a slope needs three points"
)

// ofSlopes makes an evaluator of a function of the slopes, over the length of the meaning. A slope at the border of a section uses the
// points beyond it: the profile goes on.
func ofSlopes(f func(slope []float64) float64) evaluator {
	return func(w *work, _ []float64) result {
		g := w.gradient()
		switch {
		case w.as.Over == SectionMean:
			s := w.each(func(k int) float64 {
				if slopes := g.in(k*w.section, (k+1)*w.section); slopes != nil {
					return f(slopes)
				}
				return nan
			})
			return meanOfDefined(s, lacksSlope, reasonSlope)
		case g.slope == nil:
			return undefined(reasonSlope)
		}
		return value(f(g.slope))
	}
}

// meanStretch returns the mean of √(1+g²) - 1, without losing small slopes to the 1.
func meanStretch(slope []float64) float64 {
	sum := 0.0
	for _, g := range slope {
		sum += stretchOf(g)
	}
	return sum / float64(len(slope))
}

// stretchOf returns √(1+g²) - 1.
func stretchOf(g float64) float64 { return float64(g / (math.Sqrt(float64(g*g)+1) + 1) * g) }

// sevenPoints shows how a slope comes about, at the place where its size is nearest to one: the neighbours with their weights, and the
// tangent through the middle.
func (c *Construction) sevenPoints(w *work, size float64) *Step {
	g := w.gradient()
	best := 0
	for i, v := range g.slope {
		if math.Abs(math.Abs(v)-size) < math.Abs(math.Abs(g.slope[best])-size) {
			best = i
		}
	}
	middle, slope := g.first+best, g.slope[best]
	at := w.pointAt(middle)
	weights := weightsSaid[min(3, (w.n+len(w.in.Lead)+len(w.in.Tail)-1)/2)]
	run := float64(float64(len(weights)-1) * w.dx)
	marks := []Mark{line("g = "+digits(slope, 3), Point{at.X - run, at.Y - float64(slope*run)}, Point{at.X + run, at.Y + float64(slope*run)}), point(PointMark, "", at)}
	for j, weight := range weights[:len(weights)-1] {
		for side, sign := range []string{"-", "+"} {
			if i := middle + (j+1)*(2*side-1); i >= 0 && i < w.n {
				marks = append(marks, point(PointMark, sign+weight, w.pointAt(i)))
			}
		}
	}
	return c.step("slope "+digits(slope, 3)+" at "+millimetres(at.X)+": the differences of the neighbours on both sides, weighted "+
		strings.Join(weights[:len(weights)-1], ", ")+", divided by "+weights[len(weights)-1]+" · "+micrometres(w.dx), nan, marks...)
}

// slopeStrip shows a function of all slopes along the trace, with marks of its own.
func (c *Construction) slopeStrip(w *work, text, label string, plane Plane, value float64, f func(g float64) float64, marks ...Mark) {
	g := w.gradient()
	all := piece{0, g.first, g.first + len(g.slope), nil}
	strip := line(label, w.strip(all, func(i int) float64 { return f(g.slope[i-g.first]) })...)
	c.step(text, value, append([]Mark{strip}, marks...)...).on(plane)
}

// workSlopes works out a mean over the slopes, by sections where the meaning goes by them.
func (c *Construction) workSlopes(w *work, frame, pattern string, term func(g float64) float64) {
	s, slopes, symbol, result := &sheet{}, w.gradient().slope, c.Symbol, c.Result
	sections := w.as.Over == SectionMean
	if sections {
		slopes, symbol = w.gradient().in(0, w.section), symbol+" of section 1"
		result = Rq(slopes)
	}
	if len(slopes) > 0 {
		form := s.sum(strings.NewReplacer("N", s.of(float64(len(slopes))), "l", s.of(w.length())).Replace(frame), pattern, slopes, term)
		c.workAs(symbol, result, c.Unit, form, s.terms...)
	}
	if sections {
		c.mean(slices.DeleteFunc(ofSlopes(Rq)(w, nil).sections, math.IsNaN))
	}
}

func constructRootSlope(w *work, _ []float64, c *Construction) {
	c.sevenPoints(w, c.Result)
	c.slopeStrip(w, "all slopes, and the band of their root mean square "+digits(c.Result, 3), "g", SlopePlane, c.Result, asIs,
		level(c.Symbol, 0, w.length(), c.Result), level("", 0, w.length(), -c.Result))
	c.workSlopes(w, "√((Σ) / N)", "#²", squares.of)
}

func constructMeanSlope(w *work, _ []float64, c *Construction) {
	c.sevenPoints(w, c.Result)
	c.slopeStrip(w, "all slopes turned up, and the rectangle with the same area, "+digits(c.Result, 3)+" high", "|g|", SlopePlane, c.Result, math.Abs,
		rectangle("same area", 0, w.length(), c.Result), level(c.Symbol, 0, w.length(), c.Result))
	c.workSlopes(w, "(Σ) / N", "|#|", math.Abs)
}

// constructSteepest shows the steepest place among all.
func constructSteepest(w *work, _ []float64, c *Construction) {
	g := w.gradient()
	at := steepest(g.slope)
	place := Point{float64(g.first+at) * w.dx, math.Abs(g.slope[at])}
	c.slopeStrip(w, "all slopes turned up; the steepest place is at "+millimetres(place.X), "|g|", SlopePlane, nan, math.Abs, point(PeakMark, c.Symbol, place))
	c.sevenPoints(w, c.Result).Value = c.Result
	c.work("|{1}|", g.slope[at])
}

// constructDeveloped shows one step of the profile as a triangle whose slanted side counts, by how much each piece is longer than its
// run, and the length against the trace: as itself, as a share, or as a percentage.
func constructDeveloped(w *work, _ []float64, c *Construction) {
	l, g := w.length(), w.gradient().slope
	stretch := meanStretch(g)
	first := w.gradient().first
	at := steepest(g[:min(len(g), w.n-1-first)])
	p, rise := w.pointAt(first+at), float64(g[at]*w.dx)
	c.step("one step: "+micrometres(w.dx)+" along and "+micrometres(rise)+" up; its slanted side counts", nan,
		area("run, rise, slanted side", p, Point{p.X + w.dx, p.Y}, Point{p.X + w.dx, p.Y + rise}))
	low := w.extremes().low
	if c.Unit == Percent {
		c.slopeStrip(w, "by how many percent each piece is longer than its run; the whole line by "+digits(c.Result, 3)+" %", "", StretchPlane, nan,
			func(g float64) float64 { return 100 * stretchOf(g) }, level(c.Symbol, 0, l, c.Result))
		c.step("the extra length as a percentage of the trace", c.Result, dimension("le = 100 %", Point{0, low}, Point{l, low}))
		c.workSlopes(w, "100 · (Σ) / N", "(√(1 + #²) - 1)", stretchOf)
		return
	}
	gathered, sum := make([]Point, len(g)), 0.0
	for i, v := range g {
		sum += stretchOf(v)
		gathered[i] = Point{float64(first+i) * w.dx, sum / float64(len(g)) * l}
	}
	c.step("extra length gathered along the trace: the profile line pulled straight is "+micrometres(l*stretch)+" longer than the trace of "+millimetres(l), nan,
		line("", thin(gathered)...), dimension("extra length", Point{l, 0}, Point{l, l * stretch})).on(LengthPlane)
	if c.Unit == None {
		c.step("the length of the trace counts as 1, that of the line as "+digits(c.Result, 4), c.Result, dimension("1", Point{0, low}, Point{l, low}))
		c.workAs("Rdl", l*(1+stretch), Micrometre, "{1} + {2}", l, l*stretch)
		c.work("{1} / {2}", l*(1+stretch), l)
		return
	}
	c.step("with the length of the trace, "+millimetres(c.Result), c.Result, dimension("le", Point{0, low}, Point{l, low}))
	c.workSlopes(w, "l · (Σ) / N", "√(1 + #²)", func(g float64) float64 { return 1 + stretchOf(g) })
}

// thin leaves of a rising line what strips have at most.
func thin(line []Point) []Point {
	every := max(1, len(line)/stripPoints)
	kept := line[:0:0]
	for i := 0; i < len(line); i += every {
		kept = append(kept, line[i])
	}
	return append(kept, line[len(line)-1])
}

// steepest is the index of the slope that is farthest from 0, the first of equals.
func steepest(slope []float64) int {
	at := 0
	for i, v := range slope {
		if math.Abs(v) > math.Abs(slope[at]) {
			at = i
		}
	}
	return at
}
