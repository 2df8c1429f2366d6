package params

import "math"

// heightRows are the averages of the heights.
var heightRows = []Parameter{
	{
		Symbol: "Rq", Name: "root mean square height", Group: GroupHeight, Letters: allProfiles, Unit: Micrometre,
		Meanings: []Meaning{
			{Editions: []string{editionISO21920}, Over: EvaluationLength, Refs: refs(iso21920("4.2.3")), eval: whole(rms)},
			{Editions: editions4287, Over: SectionMean, Refs: refs(iso4287("4.2.2")), eval: sectionMean(rms)},
		},
		Formula:  "√(1/N Σ zᵢ²)",
		Sentence: "The root of the mean squared height: large heights weigh more than in Ra.",
		Blind:    "Whether peaks or dales make it up, and how far apart they stand.",
	},
}

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
//   - Evaluated over: the evaluation length (ISO 21920-2); each section, then the mean (ISO 4287).
//   - Source: ISO 21920-2:2021, 4.2.3; ISO 4287:1997, 4.2.2.
//
// Special cases are:
//
//	Rq(nil) = NaN
func Rq(z []float64) float64 { return rms(z) }

func rms(z []float64) float64 {
	if len(z) == 0 {
		return math.NaN()
	}
	sum := 0.0
	for _, v := range z {
		sum += float64(v * v)
	}
	return math.Sqrt(sum / float64(len(z)))
}
