package params

import "math"

// A Probability is the material probability curve of a surface made in two processes, with its two straight parts.
//
// The abscissa of the curve is the standard normal quantile of the material ratio, on which normally distributed heights
// lie on a straight line that falls by their standard deviation per unit.
type Probability struct {
	S, Z                []float64 // the curve at equal steps of s
	Plateau, Dale       Line      // the regression lines of the two straight parts
	Upper, PlateauEnd   float64   // limits in s of the plateau part: UPL, LPL
	DaleStart, Lower    float64   // limits in s of the dale part: UVL, LVL
	CrossingS           float64   // where the two lines cross
	Rpq, Rvq, Rmq       float64   // slopes downwards, and the material ratio of the crossing in %
	transition          float64   // first estimate of the transition from plateau to dales
	initial, normalised conic
}

// A Line is y = Offset + Slope·x.
type Line struct{ Offset, Slope float64 }

// At returns the height of the line at x.
func (l Line) At(x float64) float64 { return l.Offset + float64(l.Slope*x) }

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
	p.initial = first
	d, ok := first.meets(first.bisector())
	if !ok {
		return nil, reasonOneProcess
	}
	p.transition = d
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
	p.normalised = second
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
func regression(x, y []float64) Line {
	mx, my := mean(x), mean(y)
	xx, xy := 0.0, 0.0
	for i := range x {
		dx := x[i] - mx
		xx += float64(dx * dx)
		xy += float64(dx * (y[i] - my))
	}
	slope := xy / xx
	return Line{Offset: my - float64(slope*mx), Slope: slope}
}
