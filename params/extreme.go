package params

import (
	"math"
)

// extremeRows are the highest and lowest points.
var extremeRows = []row{
	// func Rp(z []float64, section int) float64
	//
	// Rp returns the mean peak height of z, cut into sections of the given number of points.
	//
	//	Rp = 1/n Σ max z in section k
	//
	// The sum runs over the n sections k.
	//
	//   - Symbol: Rp; Pp and Wp are the same on the other profiles. ASME B46.1 calls it Rpm.
	//   - Input: heights from the reference line, at least one; the number of points in a section, 0 for all.
	//   - Unit: that of z.
	//   - Evaluated over: each section, then the mean.
	//   - Source: ISO 21920-2:2021, 5.1.3; ISO 4287:1997, 4.1.1; ASME B46.1-2009, 1-4.
	//
	// Special cases are:
	//
	//	Rp(nil, n) = NaN
	//	Rp is below zero when a section lies below the reference line
	{`Rp: mean peak height
also: Rpm
in iso-21920, each section, then the mean: ISO 21920-2:2021, 5.1.3 (excerpt)
in iso-4287 jis-b0601-2013, each section, then the mean: ISO 4287:1997, 4.1.1 (memory)
in asme-b46.1, each section, then the mean: ASME B46.1-2009, 1-4 (memory)
formula: Rp = frac{1}{nsc} * sum{i=1}{nsc}{Zp_i}
says: How far the highest point of a section is above the reference line, as the mean over the sections.
practice: Much larger than Rv: ridges stand above the surface and wear first.
blind: How broad the peaks are, and everything below them.`,
		evalPeak, constructExtremes(true, false)},
	// func Rv(z []float64, section int) float64
	//
	// Rv returns the mean pit depth of z, cut into sections of the given number of points. Depths are positive downwards.
	//
	//	Rv = 1/n Σ |min z| in section k
	//
	// The sum runs over the n sections k.
	//
	//   - Symbol: Rv; Pv and Wv are the same on the other profiles.
	//   - Input: heights from the reference line, at least one; the number of points in a section, 0 for all.
	//   - Unit: that of z.
	//   - Evaluated over: each section, then the mean.
	//   - Source: ISO 21920-2:2021, 5.1.5; ISO 4287:1997, 4.1.2.
	//
	// Special cases are:
	//
	//	Rv(nil, n) = NaN
	//	Rv is below zero when a section lies above the reference line
	{`Rv: mean pit depth
in iso-21920, each section, then the mean: ISO 21920-2:2021, 5.1.5 (excerpt)
in iso-4287 jis-b0601-2013, each section, then the mean: ISO 4287:1997, 4.1.2 (memory)
formula: Rv = frac{1}{nsc} * sum{i=1}{nsc}{Zv_i}
says: How far the lowest point of a section is below the reference line, as the mean over the sections.
practice: Much larger than Rp: grooves that can hold oil, or scratches.
blind: How wide the pits are, and everything above them.`,
		evalPit, constructExtremes(false, true)},
	// func Rz(z []float64, section int) float64
	//
	// Rz returns the maximum height of z, cut into sections of the given number of points.
	//
	//	Rz = 1/n Σ (max z - min z) in section k = Rp + Rv
	//
	// The sum runs over the n sections k.
	//
	//   - Symbol: Rz; Pz and Wz are the same on the other profiles. JIS B 0601:1994 calls it Ry.
	//   - Input: heights, at least one; the number of points in a section, 0 for all.
	//   - Unit: that of z.
	//   - Evaluated over: each section, then the mean.
	//   - Source: ISO 21920-2:2021, 5.1.6; ISO 4287:1997, 4.1.3; ASME B46.1-2009, 1-4; JIS B 0601:1994.
	//
	// Special cases are:
	//
	//	Rz(nil, n) = NaN
	{`Rz: maximum height
also: Ry
in iso-21920, each section, then the mean: ISO 21920-2:2021, 5.1.6 (excerpt)
in iso-4287 jis-b0601-2013, each section, then the mean: ISO 4287:1997, 4.1.3 (memory)
in asme-b46.1, each section, then the mean: ASME B46.1-2009, 1-4 (memory)
in jis-b0601-1994, each section, then the mean: JIS B 0601:1994 (excerpt)
formula: Rz = frac{1}{nsc} * sum{i=1}{nsc}{(Zp_i + Zv_i)}
says: The height from the lowest to the highest point of a section, as the mean over the sections.
practice: Often stated for sealing and bearing surfaces, because it reacts to single ridges and scratches that Ra averages away.
blind: Everything between the two extreme points of a section. A speck of height h on the highest peak of one section adds h / nsc.`,
		evalMaximumHeight, constructExtremes(true, true)},
	// func Rzx(z []float64, dx, l float64) float64
	//
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
	{`Rzx: maximum height per section
in iso-21920, a section that slides along the evaluation length: ISO 21920-2:2021, 4.2.7 (excerpt); furrow, window at every position (own choice)
argument: l µm - length of the window, the section length when left out
must: l > 0 a length must be above zero
formula: Rzx(l) = max{x}{[max{}{z} - min{}{z}]} text{, from } x text{ to } x + l
says: The largest height from lowest to highest point within any piece of the length l, wherever it begins; a setting takes the fixed sections instead (own choice).
practice: Stated where one bad place is enough to make the part fail. It covers the traced line, not the whole part.
blind: Everything outside the worst place.`,
		evalLargestHeight, constructLargestHeight},
	// func Rt(z []float64) float64
	//
	// Rt returns the total height of z.
	//
	//	Rt = max z - min z
	//
	// The two points may lie in different sections.
	//
	//   - Symbol: Rt; Pt and Wt are the same on the other profiles.
	//   - Input: heights, at least one.
	//   - Unit: that of z.
	//   - Evaluated over: the evaluation length.
	//   - Source: ISO 21920-2:2021, 4.2.6; ISO 4287:1997, 4.1.5; ASME B46.1-2009, 1-4.
	//
	// Special cases are:
	//
	//	Rt(nil) = NaN
	{`Rt: total height
in iso-21920, the evaluation length: ISO 21920-2:2021, 4.2.6 (excerpt)
in iso-4287 jis-b0601-2013, the evaluation length: ISO 4287:1997, 4.1.5 (memory)
in asme-b46.1, the evaluation length: ASME B46.1-2009, 1-4 (memory)
formula: Rt = max{}{z_i} - min{}{z_i}
says: The height from the lowest to the highest point of the whole evaluation length.
practice: Stated where no ridge or scratch is allowed. It covers the traced line, not the whole part.
blind: Everything between the two points. When more of the same profile is evaluated it can grow but never shrink.`,
		evalTotalHeight, constructExtremes(true, true)},
	// func Rpt(z []float64) float64
	//
	// Rpt returns the maximum peak height of z.
	//
	//	Rpt = max z
	//
	// The point may lie in any section.
	//
	//   - Symbol: Rpt; Ppt and Wpt are the same on the other profiles. ASME B46.1 calls it Rp.
	//   - Input: heights from the reference line, at least one.
	//   - Unit: that of z.
	//   - Evaluated over: the evaluation length.
	//   - Source: ISO 21920-2:2021, 5.1.2; ASME B46.1-2009, 1-4.
	//
	// Special cases are:
	//
	//	Rpt(nil) = NaN
	{`Rpt: maximum peak height
in iso-21920, the evaluation length: ISO 21920-2:2021, 5.1.2 (excerpt)
in asme-b46.1, the evaluation length: ASME B46.1-2009, 1-4 (memory)
formula: Rpt = max{}{z_i}
says: How far the highest point of the whole evaluation length is above the reference line.
blind: All other peaks. It is never below Rp. When more of the same profile is evaluated it can grow but never shrink.`,
		func(w *work, _ []float64) result { return value(w.extremes().high) }, constructExtremes(true, false)},
	// func Rvt(z []float64) float64
	//
	// Rvt returns the maximum pit depth of z, positive downwards.
	//
	//	Rvt = |min z|
	//
	// The point may lie in any section.
	//
	//   - Symbol: Rvt; Pvt and Wvt are the same on the other profiles. ASME B46.1 calls it Rv.
	//   - Input: heights from the reference line, at least one.
	//   - Unit: that of z.
	//   - Evaluated over: the evaluation length.
	//   - Source: ISO 21920-2:2021, 5.1.4; ASME B46.1-2009, 1-4.
	//
	// Special cases are:
	//
	//	Rvt(nil) = NaN
	{`Rvt: maximum pit depth
in iso-21920, the evaluation length: ISO 21920-2:2021, 5.1.4 (excerpt)
in asme-b46.1, the evaluation length: ASME B46.1-2009, 1-4 (memory)
formula: Rvt = -min{}{z_i}
says: How far the lowest point of the whole evaluation length is below the reference line.
blind: All other pits. It is never below Rv. When more of the same profile is evaluated it can grow but never shrink.`,
		func(w *work, _ []float64) result { return value(-w.extremes().low) }, constructExtremes(false, true)},
}

// extremes are the highest and lowest heights, over the evaluation length and in each section, with where they stand.
// Where a height occurs twice the first place counts. A section's extreme may stand on its border: it need not be a
// local maximum, so Rz = Rp + Rv and Rz ≤ Rt always hold.
type extremes struct {
	high, low     float64
	highAt, lowAt int
	sectionHigh   []int // index in z
	sectionLow    []int
}

func (w *work) extremes() *extremes {
	e := &w.extremal
	if e.sectionHigh == nil {
		e.highAt, e.lowAt = extremeIndices(w.z)
		e.high, e.low = w.z[e.highAt], w.z[e.lowAt]
		e.sectionHigh, e.sectionLow = w.ints(w.count), w.ints(w.count)
		for k := range w.count {
			hi, lo := extremeIndices(w.sectionAt(k))
			e.sectionHigh[k], e.sectionLow[k] = hi+k*w.section, lo+k*w.section
		}
	}
	return e
}

// extremeIndices returns where the highest and the lowest of z first stand; z is not empty.
func extremeIndices(z []float64) (high, low int) {
	top, bottom := z[0], z[0]
	for i, v := range z {
		if v > top {
			top, high = v, i
		} else if v < bottom {
			bottom, low = v, i
		}
	}
	return high, low
}

func evalTotalHeight(w *work, _ []float64) result {
	return value(w.extremes().high - w.extremes().low)
}

// fromSections makes an evaluator of a function of the highest and the lowest point of each section.
func fromSections(f func(high, low float64) float64) evaluator {
	return func(w *work, _ []float64) result {
		e := w.extremes()
		return w.bySections(w.each(func(k int) float64 { return f(w.z[e.sectionHigh[k]], w.z[e.sectionLow[k]]) }), "", "")
	}
}

var (
	evalPeak          = fromSections(func(high, _ float64) float64 { return high })
	evalPit           = fromSections(func(_, low float64) float64 { return -low })
	evalMaximumHeight = fromSections(func(high, low float64) float64 { return high - low })
)

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

// constructExtremes shows the highest point, the lowest point or both of each piece; where the largest section counts, its alone,
// beside the heights of all.
func constructExtremes(peak, pit bool) constructor {
	return func(w *work, _ []float64, c *Construction) {
		var heights []float64
		var best []Mark
		for _, p := range w.lengths() {
			from, to := w.ends(p)
			high, low := extremeIndices(p.z)
			text, height, marks := w.between(from, to, p.start+high, p.start+low, peak, pit)
			heights = append(heights, height)
			switch {
			case w.as.Over != LargestSection:
				c.in(p, text, height, marks...)
			case best == nil && height == c.Result:
				best = marks
				fallthrough
			default:
				c.in(p, text, height)
			}
		}
		if best != nil {
			c.step("the largest", nan, best...)
		}
		if w.as.Over == EvaluationLength {
			c.workBetween(w.extremes().high, w.extremes().low, peak, pit)
		} else {
			c.bySections(w, heights)
		}
	}
}

// workBetween works out a height, with the depth of the pit counted downwards.
func (c *Construction) workBetween(high, low float64, peak, pit bool) {
	switch {
	case peak && pit:
		c.work("{1} + {2}", high, -low)
	case peak:
		c.work("{1}", high)
	default:
		c.work("{1}", -low)
	}
}

// between says and marks the extremes of a piece: a peak above the line, a pit below it, or both with the levels they stand on.
func (w *work) between(from, to float64, high, low int, peak, pit bool) (text string, height float64, marks []Mark) {
	top, bottom := w.pointAt(high), w.pointAt(low)
	middle := (from + to) / 2
	switch {
	case peak && pit:
		height = top.Y - bottom.Y
		return "peak " + place(top) + ", pit " + place(bottom), height, []Mark{
			point(PeakMark, micrometres(top.Y), top), point(PitMark, micrometres(bottom.Y), bottom),
			level("", from, to, top.Y), level("", from, to, bottom.Y),
			dimension(micrometres(height), Point{middle, bottom.Y}, Point{middle, top.Y})}
	case peak:
		return "peak " + place(top), top.Y, []Mark{point(PeakMark, micrometres(top.Y), top), dimension("Zp", Point{top.X, 0}, top)}
	}
	return "pit " + place(bottom), -bottom.Y, []Mark{point(PitMark, micrometres(bottom.Y), bottom), dimension("Zv", bottom, Point{bottom.X, 0})}
}

func constructLargestHeight(w *work, args []float64, c *Construction) {
	p, _ := w.largestHeight(args[0])
	from, to := float64(p.from)*w.dx, float64(p.to)*w.dx
	text, height, marks := w.between(from, to, p.highAt, p.lowAt, true, true)
	low := w.extremes().low
	c.step("worst place: from "+millimetres(from)+" to "+millimetres(to)+": "+text, height,
		append(marks, dimension("worst place", Point{from, low}, Point{to, low}))...)
	c.workBetween(w.z[p.highAt], w.z[p.lowAt], true, true)
}
