package params

// ratioRows are the material ratio functions of the polyline.
var ratioRows = []Parameter{
	{
		Key: "Rmr", Name: "material ratio", Group: GroupRatio,
		Meanings: []Meaning{
			{Editions: editions21920, Over: EvaluationLength, Refs: refs(iso21920("4.5.1"))},
			{Editions: editions4287, Over: EvaluationLength, Refs: refs(iso4287("4.5.1"))},
		},
		Args:      []Arg{{Name: "c", Unit: Micrometre, Default: 0, Text: "height from the reference line, up positive"}},
		Formula:   "Rmr(c) = 100% × frac{Ml(c)}{lm}",
		Sentence:  "The share of the length on which the profile is at or above the height c.",
		Practice:  "An estimate of the bearing share after wear down to c, if wear cuts the surface level.",
		Blind:     "Whether the material at c is one plateau or many tips. c counts from the reference line, not from the highest peak.",
		eval:      evalMaterialRatio,
		construct: constructMaterialRatio,
	},
	{
		Key: "RmrFrom", Name: "relative material ratio", Group: GroupRatio,
		Meanings: []Meaning{
			{Editions: editions21920, Over: EvaluationLength, Refs: refs(iso21920("4.5.2"), ownChoice("order of the arguments"))},
			{Editions: editions4287, Over: EvaluationLength, Refs: refs(iso4287("4.5.4"), ownChoice("order of the arguments"))},
		},
		Args: []Arg{
			{Name: "p", Unit: Percent, Default: 5, Text: "reference material ratio"},
			{Name: "d", Unit: Micrometre, Default: 1, Text: "depth below the height of that ratio, down positive"},
		},
		Formula:   "Rmr(p; d) = Rmr(Rmc(p) - d)",
		Sentence:  "The material ratio at a height that lies d below the height with the ratio p.",
		Practice:  "Stated for running surfaces: p = 5 % stands for the peaks that wear off first. The drawing must give both p and d.",
		Blind:     "Whether the material there is one plateau or many tips. The zero of the depth is the height of p, not the reference line.",
		eval:      evalRelativeRatio,
		construct: constructRelativeRatio,
	},
	{
		Key: "Rmc", Name: "inverse material ratio", Group: GroupRatio,
		Meanings: []Meaning{
			{Editions: editions21920, Over: EvaluationLength, Refs: refs(iso21920("4.5.1"))},
		},
		Args:      []Arg{{Name: "p", Unit: Percent, Default: 50, Text: "material ratio"}},
		Formula:   "Rmc(p) = c text{, where } Rmr(c) = p",
		Sentence:  "The height, from the reference line, that has the material ratio p; at a plateau, where the ratio jumps, the height of the plateau.",
		Blind:     "How the heights are spread above and below it.",
		eval:      func(w *work, a []float64) result { return value(w.materialHeight(a[0] / 100)) },
		construct: constructMaterialHeight,
	},
	{
		Key: "Rdc", Name: "material ratio height difference", Group: GroupRatio,
		Meanings: []Meaning{
			{Editions: editions21920, Over: EvaluationLength, Refs: refs(iso21920("4.5.2"))},
			{Editions: editions4287, Over: EvaluationLength, Refs: refs(iso4287("4.5.3"))},
		},
		Args: []Arg{
			{Name: "p", Unit: Percent, Default: 10, Text: "smaller material ratio"},
			{Name: "q", Unit: Percent, Default: 80, Text: "larger material ratio"},
		},
		Formula:   "Rdc(p, q) = Rmc(p) - Rmc(q)",
		Sentence:  "The height between the levels with the material ratios p and q.",
		Practice:  "Used in place of Rt where the extreme peaks and pits must not count.",
		Blind:     "The highest p % and the lowest (100 − q) % of the length, on purpose.",
		check:     checkOrder,
		eval:      evalHeightDifference,
		construct: constructHeightDifference,
	},
}

// ratioAt returns the material ratio at height c in %. On a flat profile rounding must not decide: it lies at zero.
func (w *work) ratioAt(c float64) float64 {
	if w.flat() {
		if c <= w.in.Flat {
			return 100
		}
		return 0
	}
	return 100 * w.materialRatio(c-w.in.Flat)
}

func evalMaterialRatio(w *work, a []float64) result { return value(w.ratioAt(a[0])) }

func evalRelativeRatio(w *work, a []float64) result {
	return value(w.ratioAt(w.materialHeight(a[0]/100) - a[1]))
}

func evalHeightDifference(w *work, a []float64) result {
	return value(w.materialHeight(a[0]/100) - w.materialHeight(a[1]/100))
}

// Rmr returns the material ratio of the profile z at height c, in %.
//
//	Rmr(c) = 100 Ml(c) / l
//
// where Ml(c) is the length over which the polyline through the points lies at c or above; a level piece at c counts.
//
//   - Symbol: Rmr(c); Pmr(c) and Wmr(c) are the same on the other profiles.
//   - Input: heights from the reference line, at least one; the height c from that line, up positive.
//   - Unit: %.
//   - Evaluated over: the evaluation length.
//   - Source: ISO 21920-2:2021, 4.5.1; ISO 4287:1997, 4.5.1.
//
// Special cases are:
//
//	Rmr(c) = 100 if c is at most the lowest height
//	Rmr(c) = 0 if c is above the highest height
func Rmr(z []float64, c float64) float64 { return alone(Input{Z: z, Dx: 1}, evalMaterialRatio, c) }

// RmrFrom returns the material ratio of the profile z at the depth d below the height that has the ratio p, in %.
//
//		Rmr(p;d) = Rmr(Rmc(p) - d)
//
//	  - Symbol: Rmr(p;d); Pmr(p;d) and Wmr(p;d) are the same on the other profiles.
//	  - Input: heights, at least one; the reference ratio in %, the depth below its height, down positive.
//	  - Unit: %.
//	  - Evaluated over: the evaluation length.
//	  - Source: ISO 21920-2:2021, 4.5.2; furrow, order of the arguments; ISO 4287:1997, 4.5.4.
//
// Special cases are those of [Rmr].
func RmrFrom(z []float64, p, d float64) float64 {
	return alone(Input{Z: z, Dx: 1}, evalRelativeRatio, p, d)
}

// Rmc returns the height at which the profile z has the material ratio p, in %.
//
//	Rmc(p) = the height c with Rmr(c) = p
//
// At a plateau, where the ratio jumps, it is the height of the plateau.
//
//   - Symbol: Rmc(p); Pmc(p) and Wmc(p) are the same on the other profiles.
//   - Input: heights from the reference line, at least one; the ratio in %.
//   - Unit: that of z.
//   - Evaluated over: the evaluation length.
//   - Source: ISO 21920-2:2021, 4.5.1.
//
// Special cases are:
//
//	Rmc(0) = max z
//	Rmc(100) = min z
func Rmc(z []float64, p float64) float64 {
	if len(z) == 0 || notFinite(z) >= 0 {
		return nan
	}
	return newWork(&Input{Z: z, Dx: 1}).materialHeight(p / 100)
}

// Rdc returns the difference in height between two material ratios of the profile z, in %.
//
//		Rdc(p,q) = Rmc(p) - Rmc(q)
//
//	  - Symbol: Rdc(p,q); Pdc(p,q) and Wdc(p,q) are the same on the other profiles. ISO 4287 writes Rδc.
//	  - Input: heights, at least one; the two ratios in %, the smaller first.
//	  - Unit: that of z.
//	  - Evaluated over: the evaluation length.
//	  - Source: ISO 21920-2:2021, 4.5.2; ISO 4287:1997, 4.5.3.
//
// Special cases are:
//
//	Rdc(0,100) = Rt
func Rdc(z []float64, p, q float64) float64 {
	return alone(Input{Z: z, Dx: 1}, evalHeightDifference, p, q)
}
