package params

// R5p returns the mean height of the five highest peaks of z.
//
//	R5p = 1/5 Σ of the five largest peak heights after pruning
//
// where a peak counts when its hill is left after pruning at 5 % of Rt, as [Watershed] does it.
//
//   - Symbol: R5p; P5p and W5p are the same on the other profiles.
//   - Input: heights from the reference line.
//   - Unit: that of z.
//   - Evaluated over: the evaluation length.
//   - Source: ISO 21920-2:2021, 5.3; furrow, watershed pruned at 5 % of Rt.
//
// Special cases are:
//
//	R5p(z) = NaN for fewer than five peaks
func R5p(z []float64) float64 { return rowAlone(featureRows, "R5p", Input{Z: z, Dx: 1}) }

// R5v returns the mean depth of the five deepest pits of z, positive downwards.
//
//	R5v = 1/5 Σ of the five largest pit depths after pruning
//
// where a pit counts when its dale is left after pruning at 5 % of Rt, as [Watershed] does it.
//
//   - Symbol: R5v; P5v and W5v are the same on the other profiles.
//   - Input: heights from the reference line.
//   - Unit: that of z.
//   - Evaluated over: the evaluation length.
//   - Source: ISO 21920-2:2021, 5.3; furrow, watershed pruned at 5 % of Rt.
//
// Special cases are:
//
//	R5v(z) = NaN for fewer than five pits
func R5v(z []float64) float64 { return rowAlone(featureRows, "R5v", Input{Z: z, Dx: 1}) }

// R10z returns the ten-point height of z.
//
//	R10z = R5p + R5v
//
// where a peak counts when its hill is left after pruning at 5 % of Rt, as [Watershed] does it.
//
//   - Symbol: R10z; P10z and W10z are the same on the other profiles.
//   - Input: heights from the reference line.
//   - Unit: that of z.
//   - Evaluated over: the evaluation length.
//   - Source: ISO 21920-2:2021, 5.3; furrow, watershed pruned at 5 % of Rt.
//
// Special cases are:
//
//	R10z(z) = NaN for fewer than five peaks or pits
func R10z(z []float64) float64 { return rowAlone(featureRows, "R10z", Input{Z: z, Dx: 1}) }

// Rpd returns the density of the peaks of z.
//
//	Rpd = peaks after pruning / l
//
// where a peak counts when its hill is left after pruning at 5 % of Rt, as [Watershed] does it.
// Hills that reach an end of the profile count.
//
//   - Symbol: Rpd; Ppd and Wpd are the same on the other profiles.
//   - Input: heights from the reference line, and the spacing in µm.
//   - Unit: 1/mm.
//   - Evaluated over: the evaluation length.
//   - Source: ISO 21920-2:2021, 5.3; furrow, watershed pruned at 5 % of Rt.
//
// Special cases are:
//
//	Rpd(z, dx) = NaN for a flat profile
func Rpd(z []float64, dx float64) float64 { return rowAlone(featureRows, "Rpd", Input{Z: z, Dx: dx}) }

// Rvd returns the density of the pits of z.
//
//	Rvd = pits after pruning / l
//
// where a pit counts when its dale is left after pruning at 5 % of Rt, as [Watershed] does it.
// Dales that reach an end of the profile count.
//
//   - Symbol: Rvd; Pvd and Wvd are the same on the other profiles.
//   - Input: heights from the reference line, and the spacing in µm.
//   - Unit: 1/mm.
//   - Evaluated over: the evaluation length.
//   - Source: ISO 21920-2:2021, 5.3; furrow, watershed pruned at 5 % of Rt.
//
// Special cases are:
//
//	Rvd(z, dx) = NaN for a flat profile
func Rvd(z []float64, dx float64) float64 { return rowAlone(featureRows, "Rvd", Input{Z: z, Dx: dx}) }

// Rmpc returns the mean curvature of the peaks of z.
//
//	Rmpc = -1/n Σ z″ at the peaks after pruning
//
// where a peak counts when its hill is left after pruning at 5 % of Rt, as [Watershed] does it.
// The second derivative is the central one of seven points; a peak within three points of an end stays out.
//
//   - Symbol: Rmpc; Pmpc and Wmpc are the same on the other profiles.
//   - Input: heights from the reference line, and the spacing in µm.
//   - Unit: 1/mm.
//   - Evaluated over: the evaluation length.
//   - Source: ISO 21920-2:2021, 5.3; furrow, watershed pruned at 5 % of Rt.
//
// Special cases are:
//
//	Rmpc(z, dx) = NaN for no such peak
func Rmpc(z []float64, dx float64) float64 { return rowAlone(featureRows, "Rmpc", Input{Z: z, Dx: dx}) }

// Rmvc returns the mean curvature of the pits of z.
//
//	Rmvc = 1/n Σ z″ at the pits after pruning
//
// where a pit counts when its dale is left after pruning at 5 % of Rt, as [Watershed] does it.
// The second derivative is the central one of seven points; a pit within three points of an end stays out.
//
//   - Symbol: Rmvc; Pmvc and Wmvc are the same on the other profiles.
//   - Input: heights from the reference line, and the spacing in µm.
//   - Unit: 1/mm.
//   - Evaluated over: the evaluation length.
//   - Source: ISO 21920-2:2021, 5.3; furrow, watershed pruned at 5 % of Rt.
//
// Special cases are:
//
//	Rmvc(z, dx) = NaN for no such pit
func Rmvc(z []float64, dx float64) float64 { return rowAlone(featureRows, "Rmvc", Input{Z: z, Dx: dx}) }
