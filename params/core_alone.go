package params

// Rk returns the core height of z.
//
//	Rk = height of the equivalent straight line at 0 % - height at 100 %
//
// The line is the least squares line, residuals in height, through the points of the material ratio curve inside the
// window of 40 % in which the curve is flattest; of several equally flat windows the first. z should come from a filter for
// stratified surfaces.
//
//   - Symbol: Rk; Pk and Wk are the same on the other profiles.
//   - Input: heights, at least two.
//   - Unit: that of z.
//   - Evaluated over: the evaluation length.
//   - Source: ISO 21920-2:2021, 4.5.3; ISO 13565-2:1996, 4.
//
// Special cases are:
//
//	Rk of fewer than two heights = NaN
//	Rk = 0 where 40 % of the heights or more are equal
func Rk(z []float64) float64 { return alone(Input{Z: z, Dx: 1}, evalCore) }

// Rpk returns the reduced peak height of z.
//
//	Rpk = 2 Rak1 / Rmrk1
//
// It is the height of the right triangle on the ratios 0 to Rmrk1 that has the area of the curve above the core; see [Rk].
//
//   - Symbol: Rpk; Ppk and Wpk are the same on the other profiles.
//   - Input: heights, at least two.
//   - Unit: that of z.
//   - Evaluated over: the evaluation length.
//   - Source: ISO 21920-2:2021, 4.5.3; ISO 13565-2:1996, 4.
//
// Special cases are:
//
//	Rpk = 0 where no part of the curve lies above the core
func Rpk(z []float64) float64 { return alone(Input{Z: z, Dx: 1}, evalReducedPeak) }

// Rvk returns the reduced pit depth of z.
//
//	Rvk = 2 Rak2 / (100 % - Rmrk2)
//
// It is the depth of the right triangle on the ratios Rmrk2 to 100 % that has the area of the curve below the core; see [Rk].
//
//   - Symbol: Rvk; Pvk and Wvk are the same on the other profiles.
//   - Input: heights, at least two.
//   - Unit: that of z.
//   - Evaluated over: the evaluation length.
//   - Source: ISO 21920-2:2021, 4.5.3; ISO 13565-2:1996, 4.
//
// Special cases are:
//
//	Rvk = 0 where no part of the curve lies below the core
func Rvk(z []float64) float64 { return alone(Input{Z: z, Dx: 1}, evalReducedDale) }

// Rpkx returns the maximum peak height above the core of z.
//
//	Rpkx = max z - height of the equivalent straight line at 0 %
//
// The line is that of [Rk].
//
//   - Symbol: Rpkx; Ppkx and Wpkx are the same on the other profiles.
//   - Input: heights, at least two.
//   - Unit: that of z.
//   - Evaluated over: the evaluation length.
//   - Source: ISO 21920-2:2021, 4.5.3.
//
// Special cases are:
//
//	Rpkx = 0 where no part of the curve lies above the core
func Rpkx(z []float64) float64 { return alone(Input{Z: z, Dx: 1}, evalHighestPeak) }

// Rvkx returns the maximum pit depth below the core of z.
//
//	Rvkx = height of the equivalent straight line at 100 % - min z
//
// The line is that of [Rk].
//
//   - Symbol: Rvkx; Pvkx and Wvkx are the same on the other profiles.
//   - Input: heights, at least two.
//   - Unit: that of z.
//   - Evaluated over: the evaluation length.
//   - Source: ISO 21920-2:2021, 4.5.3.
//
// Special cases are:
//
//	Rvkx = 0 where no part of the curve lies below the core
func Rvkx(z []float64) float64 { return alone(Input{Z: z, Dx: 1}, evalDeepestDale) }

// Rmrk1 returns the material ratio at the upper core limit of z, in %.
//
//	Rmrk1 = ratio at which the curve meets the height of the equivalent straight line at 0 %
//
// The line is that of [Rk].
//
//   - Symbol: Rmrk1; Pmrk1 and Wmrk1 are the same on the other profiles. ISO 13565-2 writes Mr1.
//   - Input: heights, at least two.
//   - Unit: %.
//   - Evaluated over: the evaluation length.
//   - Source: ISO 21920-2:2021, 4.5.3; ISO 13565-2:1996, 4.
//
// Special cases are:
//
//	Rmrk1 = 0 where no part of the curve lies above the core
//	Rmrk1 of equal heights = NaN
func Rmrk1(z []float64) float64 { return alone(Input{Z: z, Dx: 1}, evalUpperRatio) }

// Rmrk2 returns the material ratio at the lower core limit of z, in %.
//
//	Rmrk2 = ratio at which the curve meets the height of the equivalent straight line at 100 %
//
// The line is that of [Rk].
//
//   - Symbol: Rmrk2; Pmrk2 and Wmrk2 are the same on the other profiles. ISO 13565-2 writes Mr2.
//   - Input: heights, at least two.
//   - Unit: %.
//   - Evaluated over: the evaluation length.
//   - Source: ISO 21920-2:2021, 4.5.3; ISO 13565-2:1996, 4.
//
// Special cases are:
//
//	Rmrk2 = 100 where no part of the curve lies below the core
//	Rmrk2 of equal heights = NaN
func Rmrk2(z []float64) float64 { return alone(Input{Z: z, Dx: 1}, evalLowerRatio) }

// Rak1 returns the area of the hills of z, above the core.
//
//	Rak1 = Rpk Rmrk1 / (2 · 100 %)
//
// It is a height, 1 µm being 1000 µm²/mm; see [Rk].
//
//   - Symbol: Rak1; Pak1 and Wak1 are the same on the other profiles. ISO 13565-2 writes A1.
//   - Input: heights, at least two.
//   - Unit: that of z.
//   - Evaluated over: the evaluation length.
//   - Source: ISO 21920-2:2021, 4.5.3; ISO 13565-2:1996, 4.
//
// Special cases are:
//
//	Rak1 = 0 where no part of the curve lies above the core
func Rak1(z []float64) float64 { return alone(Input{Z: z, Dx: 1}, evalPeakArea) }

// Rak2 returns the area of the dales of z, below the core.
//
//	Rak2 = Rvk (100 % - Rmrk2) / (2 · 100 %)
//
// It is a height, 1 µm being 1000 µm²/mm; see [Rk].
//
//   - Symbol: Rak2; Pak2 and Wak2 are the same on the other profiles. ISO 13565-2 writes A2.
//   - Input: heights, at least two.
//   - Unit: that of z.
//   - Evaluated over: the evaluation length.
//   - Source: ISO 21920-2:2021, 4.5.3; ISO 13565-2:1996, 4.
//
// Special cases are:
//
//	Rak2 = 0 where no part of the curve lies below the core
func Rak2(z []float64) float64 { return alone(Input{Z: z, Dx: 1}, evalDaleArea) }
