package params

import (
	"math"
)

// extremeRows are the highest and lowest points.
var extremeRows = []Parameter{
	// func Rp(z []float64, section int) float64
	//
	// Rp returns the mean peak height of z, cut into sections of the given number of points.
	//
	//	Rp = 1/n Σ max z in section k
	//
	//   - Symbol: Rp; Pp and Wp are the same on the other profiles.
	//   - Input: heights from the reference line, at least one; the number of points in a section, 0 for all.
	//   - Unit: that of z.
	//   - Evaluated over: each section, then the mean.
	//   - Source: ISO 21920-2:2021, 5.1.3; ISO 4287:1997, 4.1.1.
	//
	// Special cases are:
	//
	//	Rp(nil, n) = NaN
	//	Rp is below zero when a section lies below the reference line
	{
		Key: "Rp", Name: "mean peak height",
		Meanings: []Meaning{
			meaning(editions21920, SectionMean, iso21920("5.1.3")),
			meaning(editions4287, SectionMean, iso4287("4.1.1")),
		},
		Formula:   "Rp = frac{1}{nsc} * sum{i=1}{nsc}{Zp_i}",
		Sentence:  "How far the highest point of a section is above the reference line, as the mean over the sections.",
		Practice:  "Much larger than Rv: ridges stand above the surface and wear first.",
		Blind:     "How broad the peaks are, and everything below them.",
		eval:      evalPeak,
		construct: constructExtremes(true, false),
	},
	// func Rv(z []float64, section int) float64
	//
	// Rv returns the mean pit depth of z, cut into sections of the given number of points. Depths are positive downwards.
	//
	//	Rv = 1/n Σ |min z| in section k
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
	{
		Key: "Rv", Name: "mean pit depth",
		Meanings: []Meaning{
			meaning(editions21920, SectionMean, iso21920("5.1.5")),
			meaning(editions4287, SectionMean, iso4287("4.1.2")),
		},
		Formula:   "Rv = frac{1}{nsc} * sum{i=1}{nsc}{Zv_i}",
		Sentence:  "How far the lowest point of a section is below the reference line, as the mean over the sections.",
		Practice:  "Much larger than Rp: grooves that can hold oil, or scratches.",
		Blind:     "How wide the pits are, and everything above them.",
		eval:      evalPit,
		construct: constructExtremes(false, true),
	},
	// func Rz(z []float64, section int) float64
	//
	// Rz returns the maximum height of z, cut into sections of the given number of points.
	//
	//	Rz = 1/n Σ (max z - min z) in section k = Rp + Rv
	//
	//   - Symbol: Rz; Pz and Wz are the same on the other profiles.
	//   - Input: heights, at least one; the number of points in a section, 0 for all.
	//   - Unit: that of z.
	//   - Evaluated over: each section, then the mean.
	//   - Source: ISO 21920-2:2021, 5.1.6; ISO 4287:1997, 4.1.3; ASME B46.1-2009, 1-4.
	//
	// Special cases are:
	//
	//	Rz(nil, n) = NaN
	{
		Key: "Rz", Name: "maximum height",
		Meanings: []Meaning{
			meaning(editions21920, SectionMean, iso21920("5.1.6")),
			meaning(editions4287, SectionMean, iso4287("4.1.3")),
			meaning(editionsASME, SectionMean, asme()),
		},
		Formula:   "Rz = frac{1}{nsc} * sum{i=1}{nsc}{(Zp_i + Zv_i)}",
		Sentence:  "The height from the lowest to the highest point of a section, as the mean over the sections.",
		Practice:  "Often stated for sealing and bearing surfaces, because it reacts to single ridges and scratches that Ra averages away.",
		Blind:     "Everything between the two extreme points of a section. A speck of height h on the highest peak of one section adds h / nsc.",
		eval:      evalMaximumHeight,
		construct: constructExtremes(true, true),
	},
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
	{
		Key: "Rzx", Name: "maximum height per section",
		Meanings: []Meaning{
			meaning(editions21920, SlidingSection, iso21920("4.2.7"), ownChoice("window at every position")),
		},
		Args:      []Arg{{Name: "l", Unit: Micrometre, Default: nan, Text: "length of the window, the section length when left out"}},
		Formula:   "Rzx(l) = max{x}{[max{}{z} - min{}{z}]} text{, from } x text{ to } x + l",
		Sentence:  "The largest height from lowest to highest point within any piece of the length l, wherever it begins; a setting takes the fixed sections instead (own choice).",
		Practice:  "Stated where one bad place is enough to make the part fail. It covers the traced line, not the whole part.",
		Blind:     "Everything outside the worst place.",
		check:     checkLength,
		eval:      evalLargestHeight,
		construct: constructLargestHeight,
	},
	// func Rt(z []float64) float64
	//
	// Rt returns the total height of z.
	//
	//	Rt = max z - min z
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
	{
		Key: "Rt", Name: "total height",
		Meanings: []Meaning{
			meaning(editions21920, EvaluationLength, iso21920("4.2.6")),
			meaning(editions4287, EvaluationLength, iso4287("4.1.5")),
			meaning(editionsASME, EvaluationLength, asme()),
		},
		Formula:   "Rt = max{}{z_i} - min{}{z_i}",
		Sentence:  "The height from the lowest to the highest point of the whole evaluation length.",
		Practice:  "Stated where no ridge or scratch is allowed. It covers the traced line, not the whole part.",
		Blind:     "Everything between the two points. When more of the same profile is evaluated it can grow but never shrink.",
		eval:      evalTotalHeight,
		construct: constructTotal(true, true),
	},
	// func Rpt(z []float64) float64
	//
	// Rpt returns the maximum peak height of z.
	//
	//	Rpt = max z
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
	{
		Key: "Rpt", Name: "maximum peak height",
		Meanings: []Meaning{
			meaning(editions21920, EvaluationLength, iso21920("5.1.2")),
			meaning(editionsASME, EvaluationLength, asme()),
		},
		Formula:   "Rpt = max{}{z_i}",
		Sentence:  "How far the highest point of the whole evaluation length is above the reference line.",
		Blind:     "All other peaks. It is never below Rp. When more of the same profile is evaluated it can grow but never shrink.",
		eval:      func(w *work, _ []float64) result { return value(w.extremes().high) },
		construct: constructTotal(true, false),
	},
	// func Rvt(z []float64) float64
	//
	// Rvt returns the maximum pit depth of z, positive downwards.
	//
	//	Rvt = |min z|
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
	{
		Key: "Rvt", Name: "maximum pit depth",
		Meanings: []Meaning{
			meaning(editions21920, EvaluationLength, iso21920("5.1.4")),
			meaning(editionsASME, EvaluationLength, asme()),
		},
		Formula:   "Rvt = -min{}{z_i}",
		Sentence:  "How far the lowest point of the whole evaluation length is below the reference line.",
		Blind:     "All other pits. It is never below Rv. When more of the same profile is evaluated it can grow but never shrink.",
		eval:      func(w *work, _ []float64) result { return value(-w.extremes().low) },
		construct: constructTotal(false, true),
	},
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
	for i, v := range z {
		if v > z[high] {
			high = i
		}
		if v < z[low] {
			low = i
		}
	}
	return high, low
}

func evalTotalHeight(w *work, _ []float64) result {
	return value(w.extremes().high - w.extremes().low)
}

func evalPeak(w *work, _ []float64) result {
	high := w.extremes().sectionHigh
	return w.meanOfEach(func(k int) float64 { return w.z[high[k]] })
}

func evalPit(w *work, _ []float64) result {
	low := w.extremes().sectionLow
	return w.meanOfEach(func(k int) float64 { return -w.z[low[k]] })
}

func evalMaximumHeight(w *work, _ []float64) result {
	e := w.extremes()
	return w.meanOfEach(func(k int) float64 { return w.z[e.sectionHigh[k]] - w.z[e.sectionLow[k]] })
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

// constructExtremes shows the highest point, the lowest point or both in each section.
func constructExtremes(peak, pit bool) constructor {
	return func(w *work, _ []float64, c *Construction) {
		e := w.extremes()
		terms := make([]float64, w.count)
		for k := range terms {
			from, to := w.bounds(k)
			s := pieceStep(w, ": ", from, to, e.sectionHigh[k], e.sectionLow[k], peak, pit)
			terms[k] = s.Value
			c.section(k, s)
		}
		c.mean(terms)
	}
}

// constructTotal shows the same over the evaluation length.
func constructTotal(peak, pit bool) constructor {
	return func(w *work, _ []float64, c *Construction) {
		e := w.extremes()
		constructPiece(w, c, "over the evaluation length: ", 0, w.length(), e.highAt, e.lowAt, peak, pit)
	}
}

func constructPiece(w *work, c *Construction, where string, from, to float64, high, low int, peak, pit bool) {
	c.add(pieceStep(w, where, from, to, high, low, peak, pit))
	switch {
	case peak && pit:
		c.work("{1} + {2}", w.z[high], -w.z[low])
	case peak:
		c.work("{1}", w.z[high])
	default:
		c.work("{1}", -w.z[low])
	}
}

// pieceStep marks the extremes of a piece of the profile, with the level lines and the height between them.
func pieceStep(w *work, where string, from, to float64, high, low int, peak, pit bool) Step {
	s := Step{Text: where}
	top, bottom := 0.0, 0.0
	if peak {
		p := w.pointAt(high)
		top = p.Y
		s.Text += "peak " + place(p)
		s.Marks = append(s.Marks, point(PeakMark, micrometres(p.Y), p))
	}
	if pit {
		p := w.pointAt(low)
		bottom = p.Y
		if peak {
			s.Text += ", "
		}
		s.Text += "pit " + place(p)
		s.Marks = append(s.Marks, point(PitMark, micrometres(p.Y), p))
	}
	s.Value = top - bottom
	middle := (from + to) / 2
	s.Marks = append(s.Marks,
		level("", from, to, top), level("", from, to, bottom),
		dimension(micrometres(s.Value), Point{middle, bottom}, Point{middle, top}))
	return s
}

func constructLargestHeight(w *work, args []float64, c *Construction) {
	p, _ := w.largestHeight(args[0])
	from, to := float64(p.from)*w.dx, float64(p.to)*w.dx
	constructPiece(w, c, "from "+millimetres(from)+" to "+millimetres(to)+": ", from, to, p.highAt, p.lowAt, true, true)
}
