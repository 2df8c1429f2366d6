package params

import "math"

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
		s := w.perSection()
		for k := range s {
			s[k] = nan
			if slopes := g.in(k*w.section, (k+1)*w.section); slopes != nil {
				s[k] = f(slopes)
			}
		}
		return meanOfDefined(s, "is too short for a slope", reasonSlope)
	}
}

func largestAbsolute(s []float64) float64 {
	largest := math.Abs(s[0])
	for _, v := range s[1:] {
		largest = max(largest, math.Abs(v))
	}
	return largest
}

// meanStretch returns the mean of √(1+g²) - 1, without losing small slopes to the 1.
func meanStretch(slope []float64) float64 {
	sum := 0.0
	for _, g := range slope {
		sum += float64(g / (math.Sqrt(float64(g*g)+1) + 1) * g)
	}
	return sum / float64(len(slope))
}
