package params

import "math"

// ofProbability makes an evaluator of a value of the fit.
func ofProbability(pick func(*Probability) float64) evaluator {
	return func(w *work, _ []float64) result {
		fit, reason := w.probability()
		if fit == nil {
			return undefined(reason)
		}
		return value(pick(fit))
	}
}

// probabilityRows are the two straight parts of the material probability curve.
var probabilityRows = []row{
	// func Rpq(z []float64) float64
	//
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
	{`Rpq: plateau root mean square height
in iso-21920, the evaluation length: ISO 21920-2:2021, 4.5.4 (excerpt); ISO 13565-3:1998, annex A (memory)
in iso-4287 jis-b0601-2013 asme-b46.1, the evaluation length: ISO 13565-3:1998, annex A (memory)
on: stratified
formula: Rpq = -b_1
says: How steeply the plateau line of the probability graph falls: the standard deviation of the heights of the last, fine process, if they are normally distributed.
practice: The roughness that the last, finest process left.
blind: The dales, and the few highest peaks, which are cut off. It needs two straight parts. A surface of one process usually has no Rpq, but the method can find two parts by chance; then Rpq and Rvq are nearly equal and mean nothing.
shape: needed`,
		ofProbability(func(p *Probability) float64 { return p.Rpq }), constructPart(func(p *Probability) (string, straightLine, float64, float64) {
			return "plateau", p.Plateau, p.Upper, p.PlateauEnd
		})},
	// func Rvq(z []float64) float64
	//
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
	{`Rvq: dale root mean square height
in iso-21920, the evaluation length: ISO 21920-2:2021, 4.5.4 (excerpt); ISO 13565-3:1998, annex A (memory)
in iso-4287 jis-b0601-2013 asme-b46.1, the evaluation length: ISO 13565-3:1998, annex A (memory)
on: stratified
formula: Rvq = -b_2
says: How steeply the dale line of the probability graph falls: the standard deviation of the heights of the first, coarse process, if they are normally distributed.
practice: The roughness of the first process, of which only the dales are left.
blind: The plateaus, and the few deepest scratches, which are cut off.
shape: needed`,
		ofProbability(func(p *Probability) float64 { return p.Rvq }), constructPart(func(p *Probability) (string, straightLine, float64, float64) {
			return "dale", p.Dale, p.DaleStart, p.Lower
		})},
	// func Rmq(z []float64) float64
	//
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
	{`Rmq: material ratio of the plateau-to-dale transition
in iso-21920, the evaluation length: ISO 21920-2:2021, 4.5.4 (excerpt); ISO 13565-3:1998, annex A (memory)
in iso-4287 jis-b0601-2013 asme-b46.1, the evaluation length: ISO 13565-3:1998, annex A (memory)
on: stratified
formula: Rmq = 100% × Phi(frac{a_2 - a_1}{b_1 - b_2})
says: The material ratio at which the plateau line and the dale line cross.
practice: About the share of the surface that the finer process has levelled.
blind: How rough either part is.
shape: needed`,
		ofProbability(func(p *Probability) float64 { return p.Rmq }), constructTransition},
}

// probability returns the fit to the material probability curve, or nil and the reason.
func (w *work) probability() (*Probability, string) {
	if w.lazy.probability == nil && w.lazy.probabilityReason == "" {
		w.lazy.probability, w.lazy.probabilityReason = FitProbability(w.sorted())
	}
	return w.lazy.probability, w.lazy.probabilityReason
}

// curve adds the curve on normal paper.
func (p *Probability) curve(c *Construction) {
	c.Plane = ProbabilityPlane
	curve := make([]Point, len(p.S))
	for i := range p.S {
		curve[i] = Point{p.S[i], p.Z[i]}
	}
	c.step("material probability curve from "+ratioInWords(p.S[0])+" to "+ratioInWords(p.S[len(p.S)-1]), nan, line("", curve...))
}

// constructPart shows the regression line of one straight part, and by how much it falls over one standard deviation.
func constructPart(of func(*Probability) (name string, l straightLine, from, to float64)) constructor {
	return func(w *work, _ []float64, c *Construction) {
		p, _ := w.probability()
		p.curve(c)
		name, l, from, to := of(p)
		a, b := Point{from, l.At(from)}, Point{to, l.At(to)}
		c.step(name+" line, fitted from "+ratioInWords(from)+" to "+ratioInWords(to), nan,
			line(name, a, b), point(PointMark, "", a), point(PointMark, "", b))
		corner := Point{from + 1, a.Y}
		c.step("over one standard deviation it falls by "+micrometres(-l.Slope), -l.Slope,
			level("1", a.X, corner.X, a.Y), dimension(c.Symbol, corner, Point{corner.X, l.At(corner.X)}), line("", a, Point{corner.X, l.At(corner.X)}))
		c.work("({1} - {2}) / ({3} - {4})", a.Y, b.Y, to, from)
	}
}

// constructTransition shows where the two lines cross, on the curve and as a level of the profile.
func constructTransition(w *work, _ []float64, c *Construction) {
	p, _ := w.probability()
	p.curve(c)
	at := Point{p.CrossingS, p.Plateau.At(p.CrossingS)}
	c.step("plateau line and dale line", nan, line("plateau", Point{p.Upper, p.Plateau.At(p.Upper)}, at), line("dales", at, Point{p.Lower, p.Dale.At(p.Lower)}))
	c.step("the lines cross at "+ratioInWords(p.CrossingS)+", at a height of "+micrometres(at.Y), p.Rmq,
		point(PointMark, c.Symbol, at), line("", at, Point{at.X, p.Z[len(p.Z)-1]}))
	c.bearing(w, w.whole(), "in the profile", "transition", at.Y)
	c.Steps[len(c.Steps)-1].Plane = ProfilePlane
	c.workAs("u", p.CrossingS, None, "({1} - {2}) / ({3} - {4})", p.Dale.Offset, p.Plateau.Offset, p.Plateau.Slope, p.Dale.Slope)
	c.work("100 · Φ({1})", p.CrossingS)
}

// ratioInWords says a place on normal paper as the material ratio there.
func ratioInWords(s float64) string { return inWords(100*normalShare(s)) + " %" }

// A Probability is the material probability curve of a surface made in two processes, with its two straight parts.
//
// The abscissa of the curve is the standard normal quantile of the material ratio, on which normally distributed heights
// lie on a straight line that falls by their standard deviation per unit.
type Probability struct {
	S, Z              []float64    // the curve at equal steps of s
	Plateau, Dale     straightLine // the regression lines of the two straight parts
	Upper, PlateauEnd float64      // limits in s of the plateau part: UPL, LPL
	DaleStart, Lower  float64      // limits in s of the dale part: UVL, LVL
	CrossingS         float64      // where the two lines cross
	Rpq, Rvq, Rmq     float64      // slopes downwards, and the material ratio of the crossing in %
}

// A straightLine is y = Offset + Slope·x.
type straightLine struct{ Offset, Slope float64 }

// At returns the height of the line at x.
func (l straightLine) At(x float64) float64 { return l.Offset + float64(l.Slope*x) }

const (
	probabilityRange = 3.0  // the curve is used within ± this many standard deviations
	probabilityStep  = 0.05 // and read at this step
	probabilityPeak  = 6.0  // its second derivative marks an end where it passes this many standard deviations
	bisections       = 3    // of the angles between the bisector and the asymptotes
	leastHeights     = 100  // own choice: below, the curve is a staircase
	leastPoints      = 4    // own choice: points of the curve in each straight part, at least
)

const (
	reasonOneHeight   = "all heights are equal"
	reasonFewHeights  = "fewer than 100 points: too few for a material probability curve"
	reasonOneProcess  = "not a two-process surface: the material probability curve has no plateau and dale part with a bend between them"
	reasonShortBranch = "cannot be determined: a straight part of the material probability curve has fewer than 4 of its points"
)

// FitProbability finds the two straight parts of the material probability curve of the heights sorted, which fall from
// the highest to the lowest. Without two such parts it returns nil and the reason.
//
// The procedure follows annex A of ISO 13565-3 as remembered: a conic through the curve gives a first estimate of the
// transition, the second derivative beside it cuts off the ends, a conic through the rest, in a unit square, gives
// asymptotes, and a ray at an eighth of the angle between bisector and asymptote marks where each straight part ends.
// The first conic, too, is fitted in a unit square, so that the unit of the heights does not matter (own choice).
func FitProbability(sorted []float64) (*Probability, string) {
	n := len(sorted)
	if n < leastHeights {
		return nil, reasonFewHeights
	}
	if sorted[0] == sorted[n-1] {
		return nil, reasonOneHeight
	}
	p := &Probability{}
	p.S, p.Z = probabilityCurve(sorted)
	columns := make([]float64, 6*len(p.S))
	first, ok := fitUnitConic(p.S, p.Z, columns)
	if !ok {
		return nil, reasonOneProcess
	}
	d, ok := first.meets(first.bisector())
	if !ok {
		return nil, reasonOneProcess
	}
	from, to := cutEnds(p.S, p.Z, d)
	s, z := p.S[from:to], p.Z[from:to]
	if len(s) < 2*leastPoints {
		return nil, reasonShortBranch
	}
	p.Upper, p.Lower = s[0], s[len(s)-1]
	second, ok := fitUnitConic(s, z, columns)
	if !ok {
		return nil, reasonOneProcess
	}
	left, right := second.bisector(), second.bisector()
	for range bisections {
		left, right = between(left, second.plateau), between(right, second.dale)
	}
	var okLeft, okRight bool
	p.PlateauEnd, okLeft = second.meets(left)
	p.DaleStart, okRight = second.meets(right)
	if !okLeft || !okRight || !(p.PlateauEnd <= p.DaleStart) {
		return nil, reasonOneProcess
	}
	if reason := p.lines(s, z); reason != "" {
		return nil, reason
	}
	return p, ""
}

// lines fits the two straight parts and returns the reason why they make no sense, if so.
func (p *Probability) lines(s, z []float64) string {
	plateau, dale := 0, len(s)
	for plateau < len(s) && s[plateau] <= p.PlateauEnd+probabilityStep*1e-6 {
		plateau++
	}
	for dale > 0 && s[dale-1] >= p.DaleStart-probabilityStep*1e-6 {
		dale--
	}
	if plateau < leastPoints || len(s)-dale < leastPoints {
		return reasonShortBranch
	}
	p.Plateau, p.Dale = regression(s[:plateau], z[:plateau]), regression(s[dale:], z[dale:])
	p.Rpq, p.Rvq = -p.Plateau.Slope, -p.Dale.Slope
	if !(p.Rvq > p.Rpq) || p.Rpq < 0 {
		return reasonOneProcess
	}
	p.CrossingS = (p.Dale.Offset - p.Plateau.Offset) / (p.Plateau.Slope - p.Dale.Slope)
	if !(p.CrossingS > p.Upper && p.CrossingS < p.Lower) {
		return reasonOneProcess
	}
	p.Rmq = 100 * normalShare(p.CrossingS)
	return ""
}

// probabilityCurve reads the curve s_i = Φ⁻¹((i-½)/N), straight between its points, at the multiples of the step that
// lie within the range.
func probabilityCurve(sorted []float64) (s, z []float64) {
	n := len(sorted)
	quantile := func(i int) float64 { return normalQuantile((float64(i) + 0.5) / float64(n)) }
	reach := min(probabilityRange, quantile(n-1))
	steps := int(reach/probabilityStep + 1e-9)
	points := 2*steps + 1
	block := make([]float64, 2*points)
	s, z = block[:0:points], block[points:points]
	for k := -steps; k <= steps; k++ {
		at := float64(float64(k) * probabilityStep)
		i := int(float64(normalShare(at)*float64(n)) - 0.5)
		i = max(0, min(i, n-2))
		a, b := quantile(i), quantile(i+1)
		t := (at - a) / (b - a)
		s = append(s, at)
		z = append(z, sorted[i]+float64(t*(sorted[i+1]-sorted[i])))
	}
	return s, z
}

// cutEnds returns the part of the curve that belongs to neither end: from the transition outwards, up to where the
// second derivative first passes six of its standard deviations in the middle half of the curve.
func cutEnds(s, z []float64, transition float64) (from, to int) {
	n := len(s)
	middle := 0
	for middle < n-1 && s[middle] < transition {
		middle++
	}
	second := func(i int) float64 { return z[i+1] - 2*z[i] + z[i-1] } // up to the square of the step
	a, b := max(1, middle-n/4), min(n-1, middle+n/4+1)
	m, deviation := 0.0, 0.0
	for i := a; i < b; i++ {
		m += second(i)
	}
	m /= float64(b - a)
	for i := a; i < b; i++ {
		d := second(i) - m
		deviation += float64(d * d)
	}
	limit := probabilityPeak * math.Sqrt(deviation/float64(b-a))
	// Rounding alone must not end a part: straight data have no second derivative to compare with.
	limit = max(limit, 1e-9*(z[0]-z[n-1]))
	from, to = 0, n
	for i := a - 1; i >= 1; i-- {
		if math.Abs(second(i)) > limit {
			from = i
			break
		}
	}
	for i := b; i < n-1; i++ {
		if math.Abs(second(i)) > limit {
			to = i + 1
			break
		}
	}
	return from, to
}

// regression returns the line through (x, y) with the least squares in y.
func regression(x, y []float64) straightLine {
	mx, my := mean(x), mean(y)
	xx, xy := 0.0, 0.0
	for i := range x {
		dx := x[i] - mx
		xx += float64(dx * dx)
		xy += float64(dx * (y[i] - my))
	}
	slope := xy / xx
	return straightLine{Offset: my - float64(slope*mx), Slope: slope}
}
