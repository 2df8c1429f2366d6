package params

// extremeRows are the highest and lowest points.
var extremeRows = []Parameter{
	{
		Key: "Rp", Name: "mean peak height", Group: GroupHeight,
		Meanings: []Meaning{
			{Editions: editions21920, Over: SectionMean, Refs: refs(iso21920("5.1.3"))},
			{Editions: editions4287, Over: SectionMean, Refs: refs(iso4287("4.1.1"))},
		},
		Formula:   "Rp = frac{1}{nsc} * sum{i=1}{nsc}{Zp_i}",
		Sentence:  "How far the highest point of a section is above the reference line, as the mean over the sections.",
		Practice:  "Much larger than Rv: ridges stand above the surface and wear first.",
		Blind:     "How broad the peaks are, and everything below them.",
		eval:      evalPeak,
		construct: constructExtremes(true, false),
	},
	{
		Key: "Rv", Name: "mean pit depth", Group: GroupHeight,
		Meanings: []Meaning{
			{Editions: editions21920, Over: SectionMean, Refs: refs(iso21920("5.1.5"))},
			{Editions: editions4287, Over: SectionMean, Refs: refs(iso4287("4.1.2"))},
		},
		Formula:   "Rv = frac{1}{nsc} * sum{i=1}{nsc}{Zv_i}",
		Sentence:  "How far the lowest point of a section is below the reference line, as the mean over the sections.",
		Practice:  "Much larger than Rp: grooves that can hold oil, or scratches.",
		Blind:     "How wide the pits are, and everything above them.",
		eval:      evalPit,
		construct: constructExtremes(false, true),
	},
	{
		Key: "Rz", Name: "maximum height", Group: GroupHeight,
		Meanings: []Meaning{
			{Editions: editions21920, Over: SectionMean, Refs: refs(iso21920("5.1.6"))},
			{Editions: editions4287, Over: SectionMean, Refs: refs(iso4287("4.1.3"))},
			{Editions: editionsASME, Over: SectionMean, Refs: refs(asme())},
		},
		Formula:   "Rz = frac{1}{nsc} * sum{i=1}{nsc}{(Zp_i + Zv_i)}",
		Sentence:  "The height from the lowest to the highest point of a section, as the mean over the sections.",
		Practice:  "Often stated for sealing and bearing surfaces, because it reacts to single ridges and scratches that Ra averages away.",
		Blind:     "Everything between the two extreme points of a section. A speck of height h on the highest peak of one section adds h / nsc.",
		eval:      evalMaximumHeight,
		construct: constructExtremes(true, true),
	},
	{
		Key: "Rzx", Name: "maximum height per section", Group: GroupHeight,
		Meanings: []Meaning{
			{Editions: editions21920, Over: SlidingSection, Refs: refs(iso21920("4.2.7"), ownChoice("window at every position"))},
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
	{
		Key: "Rt", Name: "total height", Group: GroupHeight,
		Meanings: []Meaning{
			{Editions: editions21920, Over: EvaluationLength, Refs: refs(iso21920("4.2.6"))},
			{Editions: editions4287, Over: EvaluationLength, Refs: refs(iso4287("4.1.5"))},
			{Editions: editionsASME, Over: EvaluationLength, Refs: refs(asme())},
		},
		Formula:   "Rt = max{}{z_i} - min{}{z_i}",
		Sentence:  "The height from the lowest to the highest point of the whole evaluation length.",
		Practice:  "Stated where no ridge or scratch is allowed. It covers the traced line, not the whole part.",
		Blind:     "Everything between the two points. When more of the same profile is evaluated it can grow but never shrink.",
		eval:      func(w *work, _ []float64) result { return value(w.extremes().high - w.extremes().low) },
		construct: constructTotal(true, true),
	},
	{
		Key: "Rpt", Name: "maximum peak height", Group: GroupHeight,
		Meanings: []Meaning{
			{Editions: editions21920, Over: EvaluationLength, Refs: refs(iso21920("5.1.2"))},
			{Editions: editionsASME, Over: EvaluationLength, Refs: refs(asme())},
		},
		Formula:   "Rpt = max{}{z_i}",
		Sentence:  "How far the highest point of the whole evaluation length is above the reference line.",
		Blind:     "All other peaks. It is never below Rp. When more of the same profile is evaluated it can grow but never shrink.",
		eval:      func(w *work, _ []float64) result { return value(w.extremes().high) },
		construct: constructTotal(true, false),
	},
	{
		Key: "Rvt", Name: "maximum pit depth", Group: GroupHeight,
		Meanings: []Meaning{
			{Editions: editions21920, Over: EvaluationLength, Refs: refs(iso21920("5.1.4"))},
			{Editions: editionsASME, Over: EvaluationLength, Refs: refs(asme())},
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

func evalPeak(w *work, _ []float64) result {
	s := w.perSection()
	for k, i := range w.extremes().sectionHigh {
		s[k] = w.z[i]
	}
	return result{value: mean(s), sections: s}
}

func evalPit(w *work, _ []float64) result {
	s := w.perSection()
	for k, i := range w.extremes().sectionLow {
		s[k] = -w.z[i]
	}
	return result{value: mean(s), sections: s}
}

func evalMaximumHeight(w *work, _ []float64) result {
	e := w.extremes()
	s := w.perSection()
	for k := range s {
		s[k] = w.z[e.sectionHigh[k]] - w.z[e.sectionLow[k]]
	}
	return result{value: mean(s), sections: s}
}

// Rp returns the mean peak height of z, cut into sections of the given number of points.
//
//		Rp = 1/n Σ max z in section k
//
//	  - Symbol: Rp; Pp and Wp are the same on the other profiles.
//	  - Input: heights from the reference line, at least one; the number of points in a section, 0 for all.
//	  - Unit: that of z.
//	  - Evaluated over: each section, then the mean.
//	  - Source: ISO 21920-2:2021, 5.1.3; ISO 4287:1997, 4.1.1.
//
// Special cases are:
//
//	Rp(nil, n) = NaN
//	Rp is below zero when a section lies below the reference line
func Rp(z []float64, section int) float64 {
	return alone(Input{Z: z, Dx: 1, Section: section}, evalPeak)
}

// Rv returns the mean pit depth of z, cut into sections of the given number of points. Depths are positive downwards.
//
//		Rv = 1/n Σ |min z| in section k
//
//	  - Symbol: Rv; Pv and Wv are the same on the other profiles.
//	  - Input: heights from the reference line, at least one; the number of points in a section, 0 for all.
//	  - Unit: that of z.
//	  - Evaluated over: each section, then the mean.
//	  - Source: ISO 21920-2:2021, 5.1.5; ISO 4287:1997, 4.1.2.
//
// Special cases are:
//
//	Rv(nil, n) = NaN
//	Rv is below zero when a section lies above the reference line
func Rv(z []float64, section int) float64 {
	return alone(Input{Z: z, Dx: 1, Section: section}, evalPit)
}

// Rz returns the maximum height of z, cut into sections of the given number of points.
//
//		Rz = 1/n Σ (max z - min z) in section k = Rp + Rv
//
//	  - Symbol: Rz; Pz and Wz are the same on the other profiles.
//	  - Input: heights, at least one; the number of points in a section, 0 for all.
//	  - Unit: that of z.
//	  - Evaluated over: each section, then the mean.
//	  - Source: ISO 21920-2:2021, 5.1.6; ISO 4287:1997, 4.1.3; ASME B46.1-2009, 1-4.
//
// Special cases are:
//
//	Rz(nil, n) = NaN
func Rz(z []float64, section int) float64 {
	return alone(Input{Z: z, Dx: 1, Section: section}, evalMaximumHeight)
}

// Rt returns the total height of z.
//
//		Rt = max z - min z
//
//	  - Symbol: Rt; Pt and Wt are the same on the other profiles.
//	  - Input: heights, at least one.
//	  - Unit: that of z.
//	  - Evaluated over: the evaluation length.
//	  - Source: ISO 21920-2:2021, 4.2.6; ISO 4287:1997, 4.1.5; ASME B46.1-2009, 1-4.
//
// Special cases are:
//
//	Rt(nil) = NaN
func Rt(z []float64) float64 {
	if len(z) == 0 || notFinite(z) >= 0 {
		return nan
	}
	high, low := extremeIndices(z)
	return z[high] - z[low]
}

// Rpt returns the maximum peak height of z.
//
//		Rpt = max z
//
//	  - Symbol: Rpt; Ppt and Wpt are the same on the other profiles. ASME B46.1 calls it Rp.
//	  - Input: heights from the reference line, at least one.
//	  - Unit: that of z.
//	  - Evaluated over: the evaluation length.
//	  - Source: ISO 21920-2:2021, 5.1.2; ASME B46.1-2009, 1-4.
//
// Special cases are:
//
//	Rpt(nil) = NaN
func Rpt(z []float64) float64 {
	if len(z) == 0 || notFinite(z) >= 0 {
		return nan
	}
	high, _ := extremeIndices(z)
	return z[high]
}

// Rvt returns the maximum pit depth of z, positive downwards.
//
//		Rvt = |min z|
//
//	  - Symbol: Rvt; Pvt and Wvt are the same on the other profiles. ASME B46.1 calls it Rv.
//	  - Input: heights from the reference line, at least one.
//	  - Unit: that of z.
//	  - Evaluated over: the evaluation length.
//	  - Source: ISO 21920-2:2021, 5.1.4; ASME B46.1-2009, 1-4.
//
// Special cases are:
//
//	Rvt(nil) = NaN
func Rvt(z []float64) float64 {
	if len(z) == 0 || notFinite(z) >= 0 {
		return nan
	}
	_, low := extremeIndices(z)
	return -z[low]
}
