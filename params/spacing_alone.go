package params

// Rsm returns the mean profile element spacing of the profile z at spacing dx, with sections of the given number of
// points.
//
//	Rsm = 1/m Σ Xsᵢ
//
// where Xsᵢ is the width of a hill with the dale beside it, from crossing to crossing of the reference line. What does not
// count is joined to its neighbours, the lowest first. The parts before the first and after the last crossing are left out.
//
// This function has the rule of ISO 21920-2: a hill counts from 10 % of Rp, a dale from 10 % of Rv, whatever their width, and
// every two neighbours make an element. [Evaluate] also has that of ISO 4287, ASME B46.1 and JIS B 0601: hill and dale count
// from 10 % of the mean Rz and from a width of 1 % of the section (by default the width of each; see [ElementWidth]), and no
// two elements share a part.
//
//   - Symbol: Rsm; Psm and Wsm are the same on the other profiles. ISO 4287 and ASME B46.1 write RSm, JIS 1994 Sm.
//   - Input: heights from the reference line; the spacing; the number of points in a section, 0 for all.
//   - Unit: that of dx.
//   - Evaluated over: the evaluation length (ISO 21920-2, ASME); each section, then the mean (ISO 4287, JIS 1994).
//   - Source: ISO 21920-2:2021, 5.2; furrow, thresholds and order of merging; ISO 4287:1997, 4.3.1; ISO 4287:1997, 3.2.6; ASME B46.1-2009, 1-4; JIS B 0601:1994.
//
// Special cases are:
//
//	Rsm = NaN where no hill stands complete beside a dale
func Rsm(z []float64, dx float64, section int) float64 {
	return alone(Input{Z: z, Dx: dx, Section: section}, elementMean(spacingOf))
}

// Rsmx returns the maximum profile element spacing of the profile z at spacing dx, with sections of the given number of
// points.
//
//	Rsmx = max Xsᵢ
//
// with the elements of [Rsm].
//
//   - Symbol: Rsmx; Psmx and Wsmx are the same on the other profiles.
//   - Input: that of [Rsm].
//   - Unit: that of dx.
//   - Evaluated over: the evaluation length.
//   - Source: ISO 21920-2:2021, 5.2; furrow, thresholds and order of merging.
//
// Special cases are those of [Rsm].
func Rsmx(z []float64, dx float64, section int) float64 {
	return alone(Input{Z: z, Dx: dx, Section: section}, elementLargest(spacingOf))
}

// Rsmq returns the standard deviation of the profile element spacings of the profile z at spacing dx, with sections of
// the given number of points.
//
//	Rsmq = √(1/m Σ (Xsᵢ - Rsm)²)
//
// with the elements of [Rsm]. The divisor m is furrow's own choice; [Choices] has m - 1 as well.
//
//   - Symbol: Rsmq; Psmq and Wsmq are the same on the other profiles.
//   - Input: that of [Rsm].
//   - Unit: that of dx.
//   - Evaluated over: the evaluation length.
//   - Source: ISO 21920-2:2021, 5.2; furrow, thresholds and order of merging.
//
// Special cases are those of [Rsm], and:
//
//	Rsmq of one element = 0
func Rsmq(z []float64, dx float64, section int) float64 {
	return alone(Input{Z: z, Dx: dx, Section: section}, elementDeviation(spacingOf))
}

// Rc returns the mean profile element height of the profile z, with sections of the given number of points.
//
//	Rc = 1/m Σ Ztᵢ
//
// where Ztᵢ is the height of a hill above the pit of the dale beside it. The elements are those of [Rsm]: by the rule of
// ISO 21920-2 here, and in [Evaluate] by that of ISO 4287 and JIS B 0601 too, which also ask for a width.
//
//   - Symbol: Rc; Pc and Wc are the same on the other profiles.
//   - Input: heights from the reference line; the number of points in a section, 0 for all.
//   - Unit: that of z.
//   - Evaluated over: the evaluation length (ISO 21920-2); each section, then the mean (ISO 4287).
//   - Source: ISO 21920-2:2021, 5.2; furrow, thresholds and order of merging; ISO 4287:1997, 4.1.4; ISO 4287:1997, 3.2.6.
//
// Special cases are those of [Rsm].
func Rc(z []float64, section int) float64 {
	return alone(Input{Z: z, Dx: 1, Section: section}, elementMean(heightOf))
}

// Rcx returns the maximum profile element height of the profile z, with sections of the given number of points.
//
//	Rcx = max Ztᵢ
//
// with the elements of [Rsm].
//
//   - Symbol: Rcx; Pcx and Wcx are the same on the other profiles.
//   - Input: that of [Rc].
//   - Unit: that of z.
//   - Evaluated over: the evaluation length.
//   - Source: ISO 21920-2:2021, 5.2; furrow, thresholds and order of merging.
//
// Special cases are those of [Rsm].
func Rcx(z []float64, section int) float64 {
	return alone(Input{Z: z, Dx: 1, Section: section}, elementLargest(heightOf))
}

// Rcq returns the standard deviation of the profile element heights of the profile z, with sections of the given number
// of points.
//
//	Rcq = √(1/m Σ (Ztᵢ - Rc)²)
//
// with the elements of [Rsm] and the divisor of [Rsmq].
//
//   - Symbol: Rcq; Pcq and Wcq are the same on the other profiles.
//   - Input: that of [Rc].
//   - Unit: that of z.
//   - Evaluated over: the evaluation length.
//   - Source: ISO 21920-2:2021, 5.2; furrow, thresholds and order of merging.
//
// Special cases are those of [Rsmq].
func Rcq(z []float64, section int) float64 {
	return alone(Input{Z: z, Dx: 1, Section: section}, elementDeviation(heightOf))
}

// Rpc returns the peak count parameter of the profile z at spacing dx, with sections of the given number of points.
//
//	Rpc = 10 mm / Rsm
//
// with dx in micrometres. The elements are those of [Rsm]: by the rule of ISO 21920-2 here, and in [Evaluate] for RPc of
// ISO 4287 and JIS B 0601 by theirs, which also asks for a width. The count of peaks through a band is [RPcBand].
//
//   - Symbol: Rpc; Ppc and Wpc are the same on the other profiles. ISO 4287 writes RPc.
//   - Input: that of [Rsm], with the spacing in micrometres.
//   - Unit: 1/10 mm.
//   - Evaluated over: the evaluation length (ISO 21920-2); each section, then the mean (ISO 4287).
//   - Source: ISO 21920-2:2021, 5.2; furrow, thresholds and order of merging; ISO 4287:1997, 4.3.2.
//
// Special cases are those of [Rsm].
func Rpc(z []float64, dx float64, section int) float64 { return 1e4 / Rsm(z, dx, section) }
