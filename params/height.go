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
		Formula:   "1/N Σ |zᵢ|",
		Sentence:  "The mean distance of the profile from its reference line, peaks and dales alike.",
		Blind:     "Whether the heights are few and large or many and small, up or down, close or far apart.",
		construct: constructHeights(arithmeticMoment, false),
	},
	{
		Key: "Rq", Name: "root mean square height", Group: GroupHeight,
		Meanings: []Meaning{
			{Editions: editions21920, Over: EvaluationLength, Refs: refs(iso21920("4.2.3")), eval: whole(rms)},
			{Editions: editions4287, Over: SectionMean, Refs: refs(iso4287("4.2.2")), eval: sectionMean(rms), construct: constructHeights(secondMoment, true)},
			{Editions: editionsASME, Over: EvaluationLength, Refs: refs(asme()), eval: whole(rms)},
		},
		Formula:   "√(1/N Σ zᵢ²)",
		Sentence:  "The root of the mean squared height: large heights weigh more than in Ra.",
		Blind:     "Whether peaks or dales make it up, and how far apart they stand.",
		construct: constructHeights(secondMoment, false),
	},
	{
		Key: "Rsk", Name: "skewness", Group: GroupHeight,
		Meanings: []Meaning{
			{Editions: editions21920, Over: EvaluationLength, Refs: refs(iso21920("4.2.4")), eval: wholeShape(skewness)},
			{Editions: editions4287, Over: SectionMean, Refs: refs(iso4287("4.2.3")), eval: sectionMeanShape(skewness), construct: constructHeights(thirdMoment, true)},
			{Editions: editionsASME, Over: EvaluationLength, Refs: refs(asme()), eval: wholeShape(skewness)},
		},
		Formula:   "1/(N Rq³) Σ zᵢ³",
		Sentence:  "Below zero, deep dales in a plateau; above zero, high peaks on a flat ground; zero, as much up as down.",
		Blind:     "How high the profile is, and how far apart things stand; one scratch can decide its sign.",
		construct: constructHeights(thirdMoment, false),
	},
	{
		Key: "Rku", Name: "kurtosis", Group: GroupHeight,
		Meanings: []Meaning{
			{Editions: editions21920, Over: EvaluationLength, Refs: refs(iso21920("4.2.5")), eval: wholeShape(kurtosis)},
			{Editions: editions4287, Over: SectionMean, Refs: refs(iso4287("4.2.4")), eval: sectionMeanShape(kurtosis), construct: constructHeights(fourthMoment, true)},
			{Editions: editionsASME, Over: EvaluationLength, Refs: refs(asme()), eval: wholeShape(kurtosis)},
		},
		Formula:   "1/(N Rq⁴) Σ zᵢ⁴",
		Sentence:  "How much single extreme heights stand out: 3 for Gaussian heights, 1.5 for a sine, far more with spikes.",
		Blind:     "Whether the extremes are peaks or dales; no 3 is subtracted, as some statistics programs do.",
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
