package params

import "example.com/furrow/standards"

// olderHeightRows are heights and means under the names of older editions and of ASME B46.1.
var olderHeightRows = []Parameter{
	// func Rpm(z []float64, section int) float64
	//
	// Rpm returns the mean over the sampling lengths of the highest point of z, cut into sections of the given number of points.
	//
	//	Rpm = 1/n Σ max z in section k
	//
	// where z is measured from the mean line.
	//
	//   - Symbol: Rpm; ISO 21920-2 and ISO 4287 call it Rp.
	//   - Input: heights from the mean line; the number of points in a section, 0 for all.
	//   - Unit: that of z.
	//   - Evaluated over: each section, then the mean.
	//   - Source: ASME B46.1-2009, 1-4.
	//
	// Special cases are:
	//
	//	Rpm(nil, n) = NaN
	{
		Key: "Rpm", Name: "mean of the peak heights of the sampling lengths",
		Meanings: []Meaning{meaning(editionsASME, SectionMean, asme())},
		Formula:  "Rpm = frac{1}{nsc} * sum{i=1}{nsc}{Zp_i}",
		Sentence: "How far the highest point of a sampling length is above the mean line, as the mean over the sampling lengths. ISO calls it Rp.",
		Blind:    "How broad the peaks are, and everything below them.",
		eval:     evalPeak, construct: showSectionPeaks,
	},
	// func Rmax(z []float64, section int) float64
	//
	// Rmax returns the largest height of z in a sampling length, cut into sections of the given number of points.
	//
	//	Rmax = max of (max z - min z) over the sections
	//
	// where the sections are the sampling lengths.
	//
	//   - Symbol: Rmax of ASME B46.1; JIS B 0601:1982 means [Rmax1982].
	//   - Input: heights; the number of points in a section, 0 for all.
	//   - Unit: that of z.
	//   - Evaluated over: each section, then the largest.
	//   - Source: ASME B46.1-2009, 1-4.
	//
	// Special cases are:
	//
	//	Rmax(nil, n) = NaN
	{
		Key: "Rmax", Name: "largest height of a sampling length",
		Meanings: []Meaning{meaning(editionsASME, LargestSection, asme())},
		Formula:  "Rmax = max{i}{(Zp_i + Zv_i)}",
		Sentence: "The height from lowest to highest point in the sampling length where it is largest.",
		Blind:    "All other sampling lengths. A peak and a pit on the two sides of a border are not taken together.",
		eval: func(w *work, args []float64) result {
			r := evalMaximumHeight(w, args)
			r.value = greatest(r.sections)
			return r
		},
		construct: showSectionHeights(true),
	},
	// func Ry(z []float64, section int) float64
	//
	// Ry returns the maximum height of z, cut into sections of the given number of points.
	//
	//	Ry = 1/n Σ (max z - min z) in section k
	//
	// where the sections are the reference lengths.
	//
	//   - Symbol: Ry; editions from 2001 on call it Rz.
	//   - Input: heights; the number of points in a section, 0 for all.
	//   - Unit: that of z.
	//   - Evaluated over: each section, then the mean.
	//   - Source: JIS B 0601:1994.
	//
	// Special cases are:
	//
	//	Ry(nil, n) = NaN
	{
		Key: "Ry", Name: "maximum height",
		Meanings: []Meaning{meaning(editionsJIS1994, SectionMean, jis1994())},
		Formula:  "Ry = frac{1}{nsc} * sum{i=1}{nsc}{(Zp_i + Zv_i)}",
		Sentence: "The height from lowest to highest point of a reference length, as the mean over the reference lengths. Since 2001 it is called Rz.",
		Practice: "On Japanese drawings of 1994 to 2000.",
		Blind:    "Everything between the two points of each reference length.",
		eval:     evalMaximumHeight, construct: showSectionHeights(false),
	},
	// func Rmax1982(z []float64, section int) float64
	//
	// Rmax1982 returns the maximum height of the section profile z, cut into sections of the given number of points.
	//
	//	Rmax = 1/n Σ (max z - min z) in section k
	//
	// where z has not been filtered.
	//
	//   - Symbol: Rmax of JIS B 0601:1982; ASME B46.1 means [Rmax].
	//   - Input: heights of the primary profile; the number of points in a section, 0 for all.
	//   - Unit: that of z.
	//   - Evaluated over: each section, then the mean.
	//   - Source: JIS B 0601:1982.
	//
	// Special cases are:
	//
	//	Rmax1982(nil, n) = NaN
	{
		Key: "Rmax1982", Name: "maximum height of the section profile", On: Primary,
		Meanings: []Meaning{meaning(editionsJIS1982, SectionMean, jis1982())},
		Formula:  "Rmax = frac{1}{nsc} * sum{i=1}{nsc}{(Zp_i + Zv_i)}",
		Sentence: "The height from lowest to highest point of a reference length, on the profile without a cut-off, as the mean over the reference lengths.",
		Practice: "On Japanese drawings up to 1993.",
		Blind:    "Everything between the two points. Waviness adds to it. The standard asks for a place without outstanding scratches; a calculation cannot choose the place.",
		eval:     evalMaximumHeight, construct: showSectionHeights(false),
	},
	// func Ra75(z []float64) float64
	//
	// Ra75 returns the centre-line mean roughness of z, a profile behind the 2RC filter with 75 % at the cut-off.
	//
	//	Ra75 = 1/l ∫ |z(x)| dx      as defined
	//	Ra75 = 1/N Σ |zᵢ|           as computed
	//
	// where z is measured from the mean line.
	//
	//   - Symbol: Ra75; JIS B 0601:1982, whose only filter is the 2RC, calls it Ra.
	//   - Input: heights from the mean line, at least one.
	//   - Unit: that of z.
	//   - Evaluated over: the evaluation length.
	//   - Source: JIS B 0601:2013, annex; JIS B 0601:1994.
	//
	// Special cases are:
	//
	//	Ra75(nil) = NaN
	{
		Key: "Ra75", Name: "centre-line mean roughness", On: TwoRC,
		Meanings: []Meaning{
			meaning([]standards.EditionID{editionJIS2013}, EvaluationLength, jis2013("annex")),
			meaning(editionsJIS1994, EvaluationLength, jis1994()),
		},
		Formula:  "Ra75 = frac{1}{N} * sum{i=1}{N}{abs{z_i}} text{, behind the 2RC filter}",
		Sentence: "The mean distance from the mean line behind a filter that works as the electric 2RC filter of older instruments: it passes 75 % of a sine at the cut-off.",
		Practice: "Needed to compare with Japanese values from before 1994.",
		Blind:    "Peaks or pits. The number differs from Ra behind a Gaussian filter.",
		eval:     whole(Ra), construct: showMeanAbsolute,
	},
}

// showSectionHeights marks peak and pit of every section, or only of the one that is largest, the first of equals.
func showSectionHeights(largestOnly bool) constructor {
	return func(w *work, _ []float64, c *Construction) {
		var heights []float64
		e := w.extremes()
		for k := range w.count {
			peak, pit := w.pointAt(e.sectionHigh[k]), w.pointAt(e.sectionLow[k])
			height := peak.Y - pit.Y
			if largestOnly && (height != c.Result || len(heights) > 0) {
				continue
			}
			heights = append(heights, height)
			c.section(k, step(": peak "+place(peak)+", pit "+place(pit), height,
				point(PeakMark, "", peak), point(PitMark, "", pit), dimension(micrometres(height), peak, Point{peak.X, pit.Y})))
		}
		c.mean(heights)
	}
}

// showMeanAbsolute draws the two levels at the mean distance from the mean line.
func showMeanAbsolute(w *work, _ []float64, c *Construction) {
	end := float64(w.n-1) * w.dx
	c.step("on average the profile is "+micrometres(c.Result)+" away from the mean line", c.Result,
		level("mean line", 0, end, 0),
		level(c.Symbol, 0, end, c.Result),
		level("", 0, end, -c.Result))
	c.work("{1} / {2}", float64(c.Result*float64(w.n)), float64(w.n))
}

// showSectionPeaks marks the highest point of every section.
func showSectionPeaks(w *work, _ []float64, c *Construction) {
	var heights []float64
	for k, high := range w.extremes().sectionHigh {
		peak := w.pointAt(high)
		heights = append(heights, peak.Y)
		c.section(k, step(": peak "+place(peak), peak.Y, point(PeakMark, "", peak), dimension("", Point{peak.X, 0}, peak)))
	}
	c.mean(heights)
}
