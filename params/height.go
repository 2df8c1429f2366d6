package params

// heightRows are the averages of the heights.
var heightRows = []Parameter{
	{
		Key: "Ra", Name: "arithmetic mean height", Group: GroupHeight,
		Meanings: []Meaning{
			{Editions: editions21920, Over: EvaluationLength, Refs: refs(iso21920("4.2.2")), eval: whole(arithmeticMean)},
			{Editions: editions4287, Over: SectionMean, Refs: refs(excerpt4287("4.2.1")), eval: sectionMean(arithmeticMean), construct: constructHeights(arithmeticMoment, true)},
			{Editions: editionsASME, Over: EvaluationLength, Refs: refs(asme()), eval: whole(arithmeticMean)},
			{Editions: editionsJIS1982, Over: EvaluationLength, Refs: refs(jis1982()), eval: whole(arithmeticMean)},
			{Editions: editionsJIS1994, Over: SectionMean, Refs: refs(jis1994()), eval: sectionMean(arithmeticMean), construct: constructHeights(arithmeticMoment, true)},
		},
		Formula:   "Ra = frac{1}{N} * sum{i=1}{N}{abs{z_i}}",
		Defined:   "Ra = frac{1}{le} * int{0}{le}{abs{z(x)}}{x}",
		Sentence:  "The mean distance of the profile from its reference line; hills and dales count alike.",
		Practice:  "Used to watch whether a process stays the same. It says little about how a surface works.",
		Blind:     "Shape: peaks or pits, few large or many small, close or far apart.",
		construct: constructHeights(arithmeticMoment, false),
	},
	{
		Key: "Rq", Name: "root mean square height", Group: GroupHeight,
		Meanings: []Meaning{
			{Editions: editions21920, Over: EvaluationLength, Refs: refs(iso21920("4.2.3")), eval: whole(rms)},
			{Editions: editions4287, Over: SectionMean, Refs: refs(iso4287("4.2.2")), eval: sectionMean(rms), construct: constructHeights(secondMoment, true)},
			{Editions: editionsASME, Over: EvaluationLength, Refs: refs(asme()), eval: whole(rms)},
		},
		Formula:   "Rq = sqrt{frac{1}{N} * sum{i=1}{N}{z_i^{2}}}",
		Defined:   "Rq = sqrt{frac{1}{le} * int{0}{le}{z(x)^{2}}{x}}",
		Sentence:  "The square root of the mean of the squared heights; large heights count more than in Ra.",
		Practice:  "Used for optical surfaces: the light that a smooth surface scatters grows with the square of Rq.",
		Blind:     "Peaks or pits, and how far apart they are.",
		construct: constructHeights(secondMoment, false),
	},
	{
		Key: "Rsk", Name: "skewness", Group: GroupHeight,
		Meanings: []Meaning{
			{Editions: editions21920, Over: EvaluationLength, Refs: refs(iso21920("4.2.4")), eval: wholeShape(skewness)},
			{Editions: editions4287, Over: SectionMean, Refs: refs(iso4287("4.2.3")), eval: sectionMeanShape(skewness), construct: constructHeights(thirdMoment, true)},
			{Editions: editionsASME, Over: EvaluationLength, Refs: refs(asme()), eval: wholeShape(skewness)},
		},
		Formula:   "Rsk = frac{1}{Rq^{3}} * frac{1}{N} * sum{i=1}{N}{z_i^{3}}",
		Defined:   "Rsk = frac{1}{Rq^{3}} * frac{1}{le} * int{0}{le}{z(x)^{3}}{x}",
		Sentence:  "Compares the cubes of the heights above the line with those below it, so heights far from the line decide.",
		Practice:  "Negative: the far pits outweigh the far peaks, as on a plateau-honed bore. Positive: the far peaks outweigh the far pits, as on a turned surface with sharp ridges. Zero: the two sums are equal; the profile need not be symmetric.",
		Blind:     "How large the heights are, and their order along the trace. One scratch can decide its sign.",
		construct: constructHeights(thirdMoment, false),
	},
	{
		Key: "Rku", Name: "kurtosis", Group: GroupHeight,
		Meanings: []Meaning{
			{Editions: editions21920, Over: EvaluationLength, Refs: refs(iso21920("4.2.5")), eval: wholeShape(kurtosis)},
			{Editions: editions4287, Over: SectionMean, Refs: refs(iso4287("4.2.4")), eval: sectionMeanShape(kurtosis), construct: constructHeights(fourthMoment, true)},
			{Editions: editionsASME, Over: EvaluationLength, Refs: refs(asme()), eval: wholeShape(kurtosis)},
		},
		Formula:   "Rku = frac{1}{Rq^{4}} * frac{1}{N} * sum{i=1}{N}{z_i^{4}}",
		Defined:   "Rku = frac{1}{Rq^{4}} * frac{1}{le} * int{0}{le}{z(x)^{4}}{x}",
		Sentence:  "How much of the spread comes from few heights far from the line: 3 for normally distributed heights, 1.5 for a sine.",
		Practice:  "Well above 3: few heights far from the line, such as the grooves of a plateau-honed bore, scratches or dust. Below 3: heights that stay within a band, as on a turned surface.",
		Blind:     "Whether the far heights are peaks or pits, and where they are. Some statistics programs subtract 3; here nothing is subtracted.",
		construct: constructHeights(fourthMoment, false),
	},
}

// Ra returns the arithmetic mean height of z.
//
//	Ra = 1/l ∫ |z(x)| dx      as defined
//	Ra = 1/N Σ |zᵢ|           as computed
//
// where z is measured from the reference line.
//
//   - Symbol: Ra; Pa and Wa are the same on the other profiles.
//   - Input: heights from the reference line, at least one.
//   - Unit: that of z.
//   - Evaluated over: the evaluation length (ISO 21920-2, ASME, JIS 1982); each section, then the mean (ISO 4287, JIS 1994).
//   - Source: ISO 21920-2:2021, 4.2.2; ISO 4287:1997, 4.2.1; ASME B46.1-2009, 1-4; JIS B 0601:1982; JIS B 0601:1994.
//
// Special cases are:
//
//	Ra(nil) = NaN
func Ra(z []float64) float64 { return arithmeticMean(z) }

// Rq returns the root mean square height of z.
//
//	Rq = √(1/l ∫ z(x)² dx)      as defined
//	Rq = √(1/N Σ zᵢ²)           as computed
//
// where z is measured from the reference line.
//
//   - Symbol: Rq; Pq and Wq are the same on the other profiles.
//   - Input: heights from the reference line, at least one.
//   - Unit: that of z.
//   - Evaluated over: the evaluation length (ISO 21920-2, ASME); each section, then the mean (ISO 4287).
//   - Source: ISO 21920-2:2021, 4.2.3; ISO 4287:1997, 4.2.2; ASME B46.1-2009, 1-4.
//
// Special cases are:
//
//	Rq(nil) = NaN
func Rq(z []float64) float64 { return rms(z) }

// Rsk returns the skewness of the heights z.
//
//	Rsk = 1/Rq³ 1/l ∫ z(x)³ dx      as defined
//	Rsk = 1/(N Rq³) Σ zᵢ³           as computed
//
// where z is measured from the reference line. The divisor is N: this is the plain moment, with no correction for a sample.
//
//   - Symbol: Rsk; Psk and Wsk are the same on the other profiles.
//   - Input: heights from the reference line, not all zero.
//   - Unit: none.
//   - Evaluated over: the evaluation length (ISO 21920-2, ASME); each section, then the mean (ISO 4287).
//   - Source: ISO 21920-2:2021, 4.2.4; ISO 4287:1997, 4.2.3; ASME B46.1-2009, 1-4.
//
// Special cases are:
//
//	Rsk(z) = NaN if Rq(z) = 0 or z is empty
func Rsk(z []float64) float64 { return skewness(z, 0) }

// Rku returns the kurtosis of the heights z.
//
//	Rku = 1/Rq⁴ 1/l ∫ z(x)⁴ dx      as defined
//	Rku = 1/(N Rq⁴) Σ zᵢ⁴           as computed
//
// where z is measured from the reference line. Gaussian heights have 3: no 3 is subtracted.
//
//   - Symbol: Rku; Pku and Wku are the same on the other profiles.
//   - Input: heights from the reference line, not all zero.
//   - Unit: none.
//   - Evaluated over: the evaluation length (ISO 21920-2, ASME); each section, then the mean (ISO 4287).
//   - Source: ISO 21920-2:2021, 4.2.5; ISO 4287:1997, 4.2.4; ASME B46.1-2009, 1-4.
//
// Special cases are:
//
//	Rku(z) = NaN if Rq(z) = 0 or z is empty
func Rku(z []float64) float64 { return kurtosis(z, 0) }
