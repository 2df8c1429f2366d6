package params

import "math"

// Rzx returns the largest height from pit to peak that any piece of length l of the profile z, at spacing dx, shows.
//
//	Rzx(l) = max over all x₀ of (max z - min z) on x₀ ... x₀ + l
//
// The piece holds floor(l/dx) + 1 points and slides point by point.
//
//   - Symbol: Rzx; Pzx and Wzx are the same on the other profiles.
//   - Input: heights, at least one; the spacing; the length of the piece, at most N dx.
//   - Unit: that of z.
//   - Evaluated over: a section that slides along the evaluation length.
//   - Source: ISO 21920-2:2021, 4.2.7; furrow, window at every position.
//
// Special cases are:
//
//	Rzx(z, dx, l) = NaN if l is longer than the profile, shorter than dx or not above zero
func Rzx(z []float64, dx, l float64) float64 {
	if checkLength([]float64{l}) != "" {
		return nan
	}
	return alone(Input{Z: z, Dx: dx}, evalLargestHeight, l)
}

func checkLength(args []float64) string {
	if args[0] <= 0 {
		return "a length must be above zero"
	}
	return ""
}

// A span is a piece of the profile with its extremes.
type span struct{ from, to, highAt, lowAt int } // to is not part of it

func evalLargestHeight(w *work, args []float64) result {
	s, reason := w.largestHeight(args[0])
	if reason != "" {
		return undefined(reason)
	}
	return value(w.z[s.highAt] - w.z[s.lowAt])
}

// largestHeight returns the piece of length l, NaN for a section, that has the largest height; the first of equals.
func (w *work) largestHeight(l float64) (span, string) {
	points := float64(w.section)
	if !math.IsNaN(l) {
		points = l / w.dx
	}
	if points < 1-1e-9 {
		return span{}, "the window is shorter than the spacing of the points"
	}
	if points > float64(w.n)*(1+1e-9) {
		return span{}, "the window is longer than the evaluation length"
	}
	if w.in.Choices.HeightWindow == FixedSections {
		return w.largestOfFixed(max(1, int(math.Round(points)))), ""
	}
	// A piece of length l that starts on a point ends on or before the floor(l/dx)-th after it. Where only as many
	// points are there as the length has cells, the piece is the whole profile.
	return w.largestOfSliding(min(w.n, int(math.Floor(points+1e-9))+1)), ""
}

func (w *work) largestOfFixed(points int) span {
	best, height := span{}, math.Inf(-1)
	for from := 0; from+points <= w.n; from += points {
		high, low := extremeIndices(w.z[from : from+points])
		if h := w.z[from+high] - w.z[from+low]; h > height {
			best, height = span{from, from + points, from + high, from + low}, h
		}
	}
	return best
}

// largestOfSliding keeps two queues of candidates, falling for the highest and rising for the lowest, so that each point
// enters and leaves once.
func (w *work) largestOfSliding(points int) span {
	queue := w.ints(2 * w.n)
	high, low := queue[:w.n], queue[w.n:]
	h0, h1, l0, l1 := 0, 0, 0, 0 // live parts of the queues
	best, height := span{}, math.Inf(-1)
	for i, v := range w.z {
		for h1 > h0 && w.z[high[h1-1]] < v {
			h1--
		}
		high[h1] = i
		h1++
		for l1 > l0 && w.z[low[l1-1]] > v {
			l1--
		}
		low[l1] = i
		l1++
		from := i + 1 - points
		if from < 0 {
			continue
		}
		if high[h0] < from {
			h0++
		}
		if low[l0] < from {
			l0++
		}
		if d := w.z[high[h0]] - w.z[low[l0]]; d > height {
			best, height = span{from, i + 1, high[h0], low[l0]}, d
		}
	}
	return best
}
