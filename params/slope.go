package params

// slopeRows are the gradients and what is made of them.
var slopeRows = []Parameter{
	{
		Key: "Rdq", Name: "root mean square gradient", Group: GroupGradient,
		Meanings: []Meaning{
			{Editions: editions21920, Over: EvaluationLength, Refs: refs(iso21920("4.4.2")), eval: wholeSlope(rms)},
			{Editions: editions4287, Over: SectionMean, Refs: refs(iso4287("4.4.1")), eval: sectionMeanSlope(rms), construct: constructSlope(true)},
			{Editions: editionsASME, Over: EvaluationLength, Refs: refs(asme()), eval: wholeSlope(rms)},
		},
		Formula:   "Rdq = sqrt{frac{1}{Ng} * sum{i=1}{Ng}{g_i^{2}}}",
		Defined:   "Rdq = sqrt{frac{1}{le} * int{0}{le}{g(x)^{2}}{x}}",
		Sentence:  "The square root of the mean squared slope: how steep the flanks are. A slope of 0.1 is a rise of 1 in 10.",
		Practice:  "Used for friction, sealing and the look of a surface; steep flanks deform more easily.",
		Blind:     "Whether the flanks are long or short. It depends on the point spacing and on the S-filter.",
		construct: constructSlope(false),
	},
	{
		Key: "Rda", Name: "arithmetic mean of absolute gradient", Group: GroupGradient,
		Meanings: []Meaning{
			{Editions: editions21920, Over: EvaluationLength, Refs: refs(iso21920("4.4.3"))},
			{Editions: editionsASME, Over: EvaluationLength, Refs: refs(asme())},
		},
		Formula:   "Rda = frac{1}{Ng} * sum{i=1}{Ng}{abs{g_i}}",
		Sentence:  "The mean steepness of the profile; up and down count alike.",
		Practice:  "As for Rdq.",
		Blind:     "Single steep places. It depends on the point spacing and on the S-filter.",
		eval:      wholeSlope(arithmeticMean),
		construct: constructSlope(false),
	},
	{
		Key: "Rdt", Name: "maximum absolute gradient", Group: GroupGradient,
		Meanings:  []Meaning{{Editions: editions21920, Over: EvaluationLength, Refs: refs(iso21920("4.4.4"))}},
		Formula:   "Rdt = max{i}{abs{g_i}}",
		Sentence:  "The steepness at the steepest place.",
		Blind:     "Everything but one place, which may be a fault of the measurement.",
		eval:      wholeSlope(largestAbsolute),
		construct: constructSteepest,
	},
	{
		Key: "Rdl", Name: "developed length", Group: GroupGradient,
		Meanings:  []Meaning{{Editions: editions21920, Over: EvaluationLength, Refs: refs(iso21920("4.4.5"))}},
		Formula:   "Rdl = frac{le}{Ng} * sum{i=1}{Ng}{sqrt{1 + g_i^{2}}}",
		Sentence:  "The length of the profile line when it is pulled straight.",
		Blind:     "Where the extra length is. On a ground or turned surface it is usually less than 1 % longer than the evaluation length.",
		eval:      evalDevelopedLength,
		construct: constructDeveloped,
	},
	{
		Key: "Rdr", Name: "developed length ratio", Group: GroupGradient,
		Meanings:  []Meaning{{Editions: editions21920, Over: EvaluationLength, Refs: refs(iso21920("4.4.6"))}},
		Formula:   "Rdr = 100% × frac{1}{Ng} * sum{i=1}{Ng}{(sqrt{1 + g_i^{2}} - 1)}",
		Sentence:  "By how many percent the profile line, pulled straight, is longer than the evaluation length; for small slopes close to 50 × Rdq² %.",
		Practice:  "Stated where a coating or an adhesive must hold.",
		Blind:     "Where the extra length is. It depends on the point spacing and on the S-filter.",
		eval:      wholeSlope(func(slope []float64) float64 { return 100 * meanStretch(slope) }),
		construct: constructDeveloped,
	},
}

func evalDevelopedLength(w *work, _ []float64) result {
	g := w.gradient()
	if g.slope == nil {
		return undefined(reasonSlope)
	}
	return value(float64(w.n) * w.dx * (1 + meanStretch(g.slope)))
}

// Rdq returns the root mean square gradient of the profile z at spacing dx.
//
//	Rdq = √(1/l ∫ (dz/dx)² dx)      as defined
//	Rdq = √(1/N Σ (dz/dx)²ᵢ)        as computed
//
// with the local slope by the seven-point formula of ISO 4287:1997, 3.2.9; the three points at each end that lack
// neighbours stay out of the mean.
//
//   - Symbol: Rdq; Pdq and Wdq are the same on the other profiles. ISO 4287 and ASME B46.1 write RΔq.
//   - Input: heights, at least three; the spacing.
//   - Unit: none.
//   - Evaluated over: the evaluation length (ISO 21920-2, ASME); each section, then the mean (ISO 4287).
//   - Source: ISO 21920-2:2021, 4.4.2; ISO 4287:1997, 4.4.1; ASME B46.1-2009, 1-4.
//
// Special cases are:
//
//	Rdq of fewer than seven points uses the five- or three-point formula
//	Rdq of fewer than three points = NaN
func Rdq(z []float64, dx float64) float64 { return alone(Input{Z: z, Dx: dx}, wholeSlope(rms)) }

// Rda returns the arithmetic mean of the absolute gradient of the profile z at spacing dx.
//
//	Rda = 1/l ∫ |dz/dx| dx      as defined
//	Rda = 1/N Σ |dz/dx|ᵢ        as computed
//
// with the local slopes of [Rdq].
//
//   - Symbol: Rda; Pda and Wda are the same on the other profiles. ASME B46.1 writes RΔa.
//   - Input: heights, at least three; the spacing.
//   - Unit: none.
//   - Evaluated over: the evaluation length.
//   - Source: ISO 21920-2:2021, 4.4.3; ASME B46.1-2009, 1-4.
//
// Special cases are those of [Rdq].
func Rda(z []float64, dx float64) float64 {
	return alone(Input{Z: z, Dx: dx}, wholeSlope(arithmeticMean))
}

// Rdt returns the maximum absolute gradient of the profile z at spacing dx.
//
//	Rdt = max |dz/dx|
//
// with the local slopes of [Rdq].
//
//   - Symbol: Rdt; Pdt and Wdt are the same on the other profiles.
//   - Input: heights, at least three; the spacing.
//   - Unit: none.
//   - Evaluated over: the evaluation length.
//   - Source: ISO 21920-2:2021, 4.4.4.
//
// Special cases are those of [Rdq].
func Rdt(z []float64, dx float64) float64 {
	return alone(Input{Z: z, Dx: dx}, wholeSlope(largestAbsolute))
}

// Rdl returns the developed length of the profile z at spacing dx.
//
//	Rdl = ∫ √(1 + (dz/dx)²) dx              as defined
//	Rdl = N dx 1/N Σ √(1 + (dz/dx)²ᵢ)       as computed
//
// with the local slopes of [Rdq]. Heights and spacing must have one unit.
//
//   - Symbol: Rdl; Pdl and Wdl are the same on the other profiles.
//   - Input: heights, at least three; the spacing.
//   - Unit: that of dx.
//   - Evaluated over: the evaluation length.
//   - Source: ISO 21920-2:2021, 4.4.5.
//
// Special cases are those of [Rdq].
func Rdl(z []float64, dx float64) float64 { return alone(Input{Z: z, Dx: dx}, evalDevelopedLength) }

// Rdr returns the developed length ratio of the profile z at spacing dx, in %.
//
//	Rdr = 100 1/l ∫ (√(1 + (dz/dx)²) - 1) dx       as defined
//	Rdr = 100 1/N Σ (√(1 + (dz/dx)²ᵢ) - 1)         as computed
//
// with the local slopes of [Rdq]. Heights and spacing must have one unit.
//
//   - Symbol: Rdr; Pdr and Wdr are the same on the other profiles.
//   - Input: heights, at least three; the spacing.
//   - Unit: %.
//   - Evaluated over: the evaluation length.
//   - Source: ISO 21920-2:2021, 4.4.6.
//
// Special cases are those of [Rdq].
func Rdr(z []float64, dx float64) float64 {
	return alone(Input{Z: z, Dx: dx}, wholeSlope(func(slope []float64) float64 { return 100 * meanStretch(slope) }))
}
