// Code generated from the comments above the rows by TestFunctionsCurrent. DO NOT EDIT.

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
func Rk(z []float64) float64 {
	// The row stands in core.go.
	return rowAlone("Rk", Input{Z: z, Dx: 1})
}

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
func Rpk(z []float64) float64 {
	// The row stands in core.go.
	return rowAlone("Rpk", Input{Z: z, Dx: 1})
}

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
func Rvk(z []float64) float64 {
	// The row stands in core.go.
	return rowAlone("Rvk", Input{Z: z, Dx: 1})
}

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
func Rpkx(z []float64) float64 {
	// The row stands in core.go.
	return rowAlone("Rpkx", Input{Z: z, Dx: 1})
}

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
func Rvkx(z []float64) float64 {
	// The row stands in core.go.
	return rowAlone("Rvkx", Input{Z: z, Dx: 1})
}

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
func Rmrk1(z []float64) float64 {
	// The row stands in core.go.
	return rowAlone("Rmrk1", Input{Z: z, Dx: 1})
}

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
func Rmrk2(z []float64) float64 {
	// The row stands in core.go.
	return rowAlone("Rmrk2", Input{Z: z, Dx: 1})
}

// Rak1 returns the area of the hills of z, above the core.
//
//	Rak1 = Rpk Rmrk1 / (2 · 100 %)
//
// It is a height, 1 µm being 1000 µm²/mm; see [Rk].
//
//   - Symbol: Rak1; Pak1 and Wak1 are the same on the other profiles. ISO 13565-2, the formula of [Rpk] and the picture write A1.
//   - Input: heights, at least two.
//   - Unit: that of z.
//   - Evaluated over: the evaluation length.
//   - Source: ISO 21920-2:2021, 4.5.3; ISO 13565-2:1996, 4.
//
// Special cases are:
//
//	Rak1 = 0 where no part of the curve lies above the core
func Rak1(z []float64) float64 {
	// The row stands in core.go.
	return rowAlone("Rak1", Input{Z: z, Dx: 1})
}

// Rak2 returns the area of the dales of z, below the core.
//
//	Rak2 = Rvk (100 % - Rmrk2) / (2 · 100 %)
//
// It is a height, 1 µm being 1000 µm²/mm; see [Rk].
//
//   - Symbol: Rak2; Pak2 and Wak2 are the same on the other profiles. ISO 13565-2, the formula of [Rvk] and the picture write A2.
//   - Input: heights, at least two.
//   - Unit: that of z.
//   - Evaluated over: the evaluation length.
//   - Source: ISO 21920-2:2021, 4.5.3; ISO 13565-2:1996, 4.
//
// Special cases are:
//
//	Rak2 = 0 where no part of the curve lies below the core
func Rak2(z []float64) float64 {
	// The row stands in core.go.
	return rowAlone("Rak2", Input{Z: z, Dx: 1})
}

// WDSm returns the mean period length of the dominant waviness of z at the spacing dx.
//
//	WDSm = wavelength of the peak of the amplitude spectrum that stands out 4 times over the median
//
// under a Hann window, between 20 µm and a fifth of the evaluation length; the peak exceeds 4 times the median of each octave
// beside it, too. The wavelength is read between the bins.
//
//   - Symbol: WDSm.
//   - Input: heights of the primary profile, and the spacing in µm.
//   - Unit: that of dx.
//   - Evaluated over: the evaluation length.
//   - Source: works standard on dominant waviness; furrow, band limits and threshold of the dominating wave.
//
// Special cases are:
//
//	WDSm(z, dx) = NaN where no wave dominates
func WDSm(z []float64, dx float64) float64 {
	// The row stands in dominant.go.
	return rowAlone("WDSm", Input{Z: z, Dx: dx})
}

// WDc returns the mean height of the dominant waviness of z at the spacing dx.
//
//	WDc = mean height of the elements of the profile between wavelengths WDSm/√2 and √2·WDSm
//
// from the profile without its regression line; each wave in the band passes unchanged and unshifted, and the elements are
// those of [Rc].
//
//   - Symbol: WDc.
//   - Input: heights of the primary profile, and the spacing in µm.
//   - Unit: that of z.
//   - Evaluated over: the evaluation length.
//   - Source: works standard on dominant waviness; furrow, band limits and threshold of the dominating wave.
//
// Special cases are:
//
//	WDc(z, dx) = NaN where no wave dominates
func WDc(z []float64, dx float64) float64 {
	// The row stands in dominant.go.
	return rowAlone("WDc", Input{Z: z, Dx: dx})
}

// WDt returns the total height of the dominant waviness of z at the spacing dx.
//
//	WDt = max - min of the profile between wavelengths WDSm/√2 and √2·WDSm
//
// from the profile without its regression line; each wave in the band passes unchanged and unshifted.
//
//   - Symbol: WDt.
//   - Input: heights of the primary profile, and the spacing in µm.
//   - Unit: that of z.
//   - Evaluated over: the evaluation length.
//   - Source: works standard on dominant waviness; furrow, band limits and threshold of the dominating wave.
//
// Special cases are:
//
//	WDt(z, dx) = NaN where no wave dominates
func WDt(z []float64, dx float64) float64 {
	// The row stands in dominant.go.
	return rowAlone("WDt", Input{Z: z, Dx: dx})
}

// Rp returns the mean peak height of z, cut into sections of the given number of points.
//
//	Rp = 1/n Σ max z in section k
//
// The sum runs over the n sections k.
//
//   - Symbol: Rp; Pp and Wp are the same on the other profiles. ASME B46.1 calls it Rpm.
//   - Input: heights from the reference line, at least one; the number of points in a section, 0 for all.
//   - Unit: that of z.
//   - Evaluated over: each section, then the mean.
//   - Source: ISO 21920-2:2021, 5.1.3; ISO 4287:1997, 4.1.1; ASME B46.1-2009, 1-4.
//
// Special cases are:
//
//	Rp(nil, n) = NaN
//	Rp is below zero when a section lies below the reference line
func Rp(z []float64, section int) float64 {
	// The row stands in extreme.go.
	return rowAlone("Rp", Input{Z: z, Dx: 1, Section: section})
}

// Rv returns the mean pit depth of z, cut into sections of the given number of points. Depths are positive downwards.
//
//	Rv = 1/n Σ |min z| in section k
//
// The sum runs over the n sections k.
//
//   - Symbol: Rv; Pv and Wv are the same on the other profiles.
//   - Input: heights from the reference line, at least one; the number of points in a section, 0 for all.
//   - Unit: that of z.
//   - Evaluated over: each section, then the mean.
//   - Source: ISO 21920-2:2021, 5.1.5; ISO 4287:1997, 4.1.2.
//
// Special cases are:
//
//	Rv(nil, n) = NaN
//	Rv is below zero when a section lies above the reference line
func Rv(z []float64, section int) float64 {
	// The row stands in extreme.go.
	return rowAlone("Rv", Input{Z: z, Dx: 1, Section: section})
}

// Rz returns the maximum height of z, cut into sections of the given number of points.
//
//	Rz = 1/n Σ (max z - min z) in section k = Rp + Rv
//
// The sum runs over the n sections k.
//
//   - Symbol: Rz; Pz and Wz are the same on the other profiles. JIS B 0601:1994 calls it Ry.
//   - Input: heights, at least one; the number of points in a section, 0 for all.
//   - Unit: that of z.
//   - Evaluated over: each section, then the mean.
//   - Source: ISO 21920-2:2021, 5.1.6; ISO 4287:1997, 4.1.3; ASME B46.1-2009, 1-4; JIS B 0601:1994.
//
// Special cases are:
//
//	Rz(nil, n) = NaN
func Rz(z []float64, section int) float64 {
	// The row stands in extreme.go.
	return rowAlone("Rz", Input{Z: z, Dx: 1, Section: section})
}

// Rzx returns the largest height from pit to peak that any piece of length l of the profile z, at spacing dx, shows.
//
//	Rzx(l) = max over all x₀ of (max z - min z) on x₀ ... x₀ + l
//
// The piece holds floor(l/dx) + 1 points and slides point by point.
//
//   - Symbol: Rzx; Pzx and Wzx are the same on the other profiles.
//   - Input: heights, at least one; the spacing; the length of the piece, at most N dx.
//   - Unit: that of z.
//   - Evaluated over: a section that slides along the evaluation length.
//   - Source: ISO 21920-2:2021, 4.2.7; furrow, window at every position.
//
// Special cases are:
//
//	Rzx(z, dx, l) = NaN if l is longer than the profile, shorter than dx or not above zero
func Rzx(z []float64, dx, l float64) float64 {
	// The row stands in extreme.go.
	return rowAlone("Rzx", Input{Z: z, Dx: dx}, l)
}

// Rt returns the total height of z.
//
//	Rt = max z - min z
//
// The two points may lie in different sections.
//
//   - Symbol: Rt; Pt and Wt are the same on the other profiles.
//   - Input: heights, at least one.
//   - Unit: that of z.
//   - Evaluated over: the evaluation length.
//   - Source: ISO 21920-2:2021, 4.2.6; ISO 4287:1997, 4.1.5; ASME B46.1-2009, 1-4.
//
// Special cases are:
//
//	Rt(nil) = NaN
func Rt(z []float64) float64 {
	// The row stands in extreme.go.
	return rowAlone("Rt", Input{Z: z, Dx: 1})
}

// Rpt returns the maximum peak height of z.
//
//	Rpt = max z
//
// The point may lie in any section.
//
//   - Symbol: Rpt; Ppt and Wpt are the same on the other profiles. ASME B46.1 calls it Rp.
//   - Input: heights from the reference line, at least one.
//   - Unit: that of z.
//   - Evaluated over: the evaluation length.
//   - Source: ISO 21920-2:2021, 5.1.2; ASME B46.1-2009, 1-4.
//
// Special cases are:
//
//	Rpt(nil) = NaN
func Rpt(z []float64) float64 {
	// The row stands in extreme.go.
	return rowAlone("Rpt", Input{Z: z, Dx: 1})
}

// Rvt returns the maximum pit depth of z, positive downwards.
//
//	Rvt = |min z|
//
// The point may lie in any section.
//
//   - Symbol: Rvt; Pvt and Wvt are the same on the other profiles. ASME B46.1 calls it Rv.
//   - Input: heights from the reference line, at least one.
//   - Unit: that of z.
//   - Evaluated over: the evaluation length.
//   - Source: ISO 21920-2:2021, 5.1.4; ASME B46.1-2009, 1-4.
//
// Special cases are:
//
//	Rvt(nil) = NaN
func Rvt(z []float64) float64 {
	// The row stands in extreme.go.
	return rowAlone("Rvt", Input{Z: z, Dx: 1})
}

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
func R5p(z []float64) float64 {
	// The row stands in feature.go.
	return rowAlone("R5p", Input{Z: z, Dx: 1})
}

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
func R5v(z []float64) float64 {
	// The row stands in feature.go.
	return rowAlone("R5v", Input{Z: z, Dx: 1})
}

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
func R10z(z []float64) float64 {
	// The row stands in feature.go.
	return rowAlone("R10z", Input{Z: z, Dx: 1})
}

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
func Rpd(z []float64, dx float64) float64 {
	// The row stands in feature.go.
	return rowAlone("Rpd", Input{Z: z, Dx: dx})
}

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
func Rvd(z []float64, dx float64) float64 {
	// The row stands in feature.go.
	return rowAlone("Rvd", Input{Z: z, Dx: dx})
}

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
func Rmpc(z []float64, dx float64) float64 {
	// The row stands in feature.go.
	return rowAlone("Rmpc", Input{Z: z, Dx: dx})
}

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
func Rmvc(z []float64, dx float64) float64 {
	// The row stands in feature.go.
	return rowAlone("Rmvc", Input{Z: z, Dx: dx})
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
func Rdq(z []float64, dx float64) float64 {
	// The row stands in gradient.go.
	return rowAlone("Rdq", Input{Z: z, Dx: dx})
}

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
	// The row stands in gradient.go.
	return rowAlone("Rda", Input{Z: z, Dx: dx})
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
	// The row stands in gradient.go.
	return rowAlone("Rdt", Input{Z: z, Dx: dx})
}

// Rdl returns the developed length of the profile z at spacing dx.
//
//	Rdl = ∫ √(1 + (dz/dx)²) dx              as defined
//	Rdl = N dx 1/N Σ √(1 + (dz/dx)²ᵢ)       as computed
//
// with the local slopes of [Rdq]. Heights and spacing must have one unit.
//
//   - Symbol: Rdl; Pdl and Wdl are the same on the other profiles. ISO 4287-1:1984 calls it Lo.
//   - Input: heights, at least three; the spacing.
//   - Unit: that of dx.
//   - Evaluated over: the evaluation length.
//   - Source: ISO 21920-2:2021, 4.4.5; ISO 4287-1:1984.
//
// Special cases are those of [Rdq].
func Rdl(z []float64, dx float64) float64 {
	// The row stands in gradient.go.
	return rowAlone("Rdl", Input{Z: z, Dx: dx})
}

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
	// The row stands in gradient.go.
	return rowAlone("Rdr", Input{Z: z, Dx: dx})
}

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
func Rsk(z []float64) float64 {
	// The row stands in height.go.
	return rowAlone("Rsk", Input{Z: z, Dx: 1})
}

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
func Rku(z []float64) float64 {
	// The row stands in height.go.
	return rowAlone("Rku", Input{Z: z, Dx: 1})
}

// Rke returns the core height of z below its motif envelope.
//
//	Rke = height of the equivalent straight line at 0 % - at 100 %, on z - envelope
//
// where the construction is that of [Rk], and the envelope the line through the peaks that end roughness motifs,
// outstanding ones as they stand.
//
//   - Symbol: Rke, on the roughness profile only.
//   - Input: heights of the primary profile, the spacing, and the limit A, which is usually 500 µm.
//   - Unit: that of z.
//   - Evaluated over: the evaluation length, between the first peak of the envelope and the last.
//   - Source: ISO 12085:1996; ISO 13565-2:1996, 4; furrow, outstanding peaks as they stand.
//
// Special cases are:
//
//	Rke(z, …) = NaN where there is no envelope
func Rke(z []float64, dx, a float64) float64 {
	// The row stands in motif_envelope.go.
	return rowAlone("Rke", Input{Z: z, Dx: dx}, a)
}

// Rpke returns the reduced peak height of z below its motif envelope.
//
//	Rpke = 2 · (area of the curve above the core)/(Mr1e/100), on z - envelope
//
// where the construction is that of [Rk], and the envelope the line through the peaks that end roughness motifs,
// outstanding ones as they stand.
//
//   - Symbol: Rpke, on the roughness profile only.
//   - Input: heights of the primary profile, the spacing, and the limit A, which is usually 500 µm.
//   - Unit: that of z.
//   - Evaluated over: the evaluation length, between the first peak of the envelope and the last.
//   - Source: ISO 12085:1996; ISO 13565-2:1996, 4; furrow, outstanding peaks as they stand.
//
// Special cases are:
//
//	Rpke(z, …) = NaN where there is no envelope
func Rpke(z []float64, dx, a float64) float64 {
	// The row stands in motif_envelope.go.
	return rowAlone("Rpke", Input{Z: z, Dx: dx}, a)
}

// Rvke returns the reduced pit depth of z below its motif envelope.
//
//	Rvke = 2 · (area of the curve below the core)/(1 - Mr2e/100), on z - envelope
//
// where the construction is that of [Rk], and the envelope the line through the peaks that end roughness motifs,
// outstanding ones as they stand.
//
//   - Symbol: Rvke, on the roughness profile only.
//   - Input: heights of the primary profile, the spacing, and the limit A, which is usually 500 µm.
//   - Unit: that of z.
//   - Evaluated over: the evaluation length, between the first peak of the envelope and the last.
//   - Source: ISO 12085:1996; ISO 13565-2:1996, 4; furrow, outstanding peaks as they stand.
//
// Special cases are:
//
//	Rvke(z, …) = NaN where there is no envelope
func Rvke(z []float64, dx, a float64) float64 {
	// The row stands in motif_envelope.go.
	return rowAlone("Rvke", Input{Z: z, Dx: dx}, a)
}

// Mr1e returns the material ratio at the upper limit of the core of z below its motif envelope.
//
//	Mr1e = ratio at which the curve comes down to the line at 0 %, on z - envelope
//
// where the construction is that of [Rk], and the envelope the line through the peaks that end roughness motifs,
// outstanding ones as they stand.
//
//   - Symbol: Mr1e, on the roughness profile only.
//   - Input: heights of the primary profile, the spacing, and the limit A, which is usually 500 µm.
//   - Unit: %.
//   - Evaluated over: the evaluation length, between the first peak of the envelope and the last.
//   - Source: ISO 12085:1996; ISO 13565-2:1996, 4; furrow, outstanding peaks as they stand.
//
// Special cases are:
//
//	Mr1e(z, …) = NaN where there is no envelope
func Mr1e(z []float64, dx, a float64) float64 {
	// The row stands in motif_envelope.go.
	return rowAlone("Mr1e", Input{Z: z, Dx: dx}, a)
}

// Mr2e returns the material ratio at the lower limit of the core of z below its motif envelope.
//
//	Mr2e = ratio at which the curve leaves the line at 100 %, on z - envelope
//
// where the construction is that of [Rk], and the envelope the line through the peaks that end roughness motifs,
// outstanding ones as they stand.
//
//   - Symbol: Mr2e, on the roughness profile only.
//   - Input: heights of the primary profile, the spacing, and the limit A, which is usually 500 µm.
//   - Unit: %.
//   - Evaluated over: the evaluation length, between the first peak of the envelope and the last.
//   - Source: ISO 12085:1996; ISO 13565-2:1996, 4; furrow, outstanding peaks as they stand.
//
// Special cases are:
//
//	Mr2e(z, …) = NaN where there is no envelope
func Mr2e(z []float64, dx, a float64) float64 {
	// The row stands in motif_envelope.go.
	return rowAlone("Mr2e", Input{Z: z, Dx: dx}, a)
}

// R returns the mean depth of the roughness motifs of z.
//
//	R = 1/m Σ H_j, m = 2n depths of n motifs
//
// where the H_j are the heights of a motif's two peaks over its pit.
//
//   - Symbol: R, on this profile only.
//   - Input: heights of the primary profile, the spacing, and the limit A, which is usually 500 µm.
//   - Unit: that of z.
//   - Evaluated over: the evaluation length.
//   - Source: ISO 12085:1996, 3.2.
//
// Special cases are:
//
//	R(z, …) = NaN where there is no motif
func R(z []float64, dx, a float64) float64 {
	// The row stands in motif_roughness.go.
	return rowAlone("R", Input{Z: z, Dx: dx}, a)
}

// AR returns the mean width of the roughness motifs of z.
//
//	AR = 1/n Σ AR_i
//
// where AR_i is the distance of the two peaks of motif i.
//
//   - Symbol: AR, on this profile only.
//   - Input: heights of the primary profile, the spacing, and the limit A, which is usually 500 µm.
//   - Unit: that of dx.
//   - Evaluated over: the evaluation length.
//   - Source: ISO 12085:1996, 3.2.1.
//
// Special cases are:
//
//	AR(z, …) = NaN where there is no motif
func AR(z []float64, dx, a float64) float64 {
	// The row stands in motif_roughness.go.
	return rowAlone("AR", Input{Z: z, Dx: dx}, a)
}

// Rx returns the greatest depth of the roughness motifs of z.
//
//	Rx = max H_j
//
// where the H_j are the heights of a motif's two peaks over its pit.
//
//   - Symbol: Rx, on this profile only.
//   - Input: heights of the primary profile, the spacing, and the limit A, which is usually 500 µm.
//   - Unit: that of z.
//   - Evaluated over: the evaluation length.
//   - Source: ISO 12085:1996, 3.2.
//
// Special cases are:
//
//	Rx(z, …) = NaN where there is no motif
func Rx(z []float64, dx, a float64) float64 {
	// The row stands in motif_roughness.go.
	return rowAlone("Rx", Input{Z: z, Dx: dx}, a)
}

// Nr returns the number of roughness motifs of z.
//
//	Nr = n
//
// where a roughness motif is one at most A wide.
//
//   - Symbol: Nr, on this profile only.
//   - Input: heights of the primary profile, the spacing, and the limit A, which is usually 500 µm.
//   - Unit: none.
//   - Evaluated over: the evaluation length.
//   - Source: ISO 12085:1996.
//
// Special cases are:
//
//	Nr(z, …) = 0 where there is no motif, NaN for no heights
func Nr(z []float64, dx, a float64) float64 {
	// The row stands in motif_roughness.go.
	return rowAlone("Nr", Input{Z: z, Dx: dx}, a)
}

// SR returns the standard deviation of the depths of the roughness motifs of z.
//
//	SR = √(1/m Σ (H_j - R)²)
//
// over all m = 2n depths.
//
//   - Symbol: SR, on this profile only.
//   - Input: heights of the primary profile, the spacing, and the limit A, which is usually 500 µm.
//   - Unit: that of z.
//   - Evaluated over: the evaluation length.
//   - Source: ISO 12085:1996.
//
// Special cases are:
//
//	SR(z, …) = NaN where there is no motif
func SR(z []float64, dx, a float64) float64 {
	// The row stands in motif_roughness.go.
	return rowAlone("SR", Input{Z: z, Dx: dx}, a)
}

// SAR returns the standard deviation of the widths of the roughness motifs of z.
//
//	SAR = √(1/n Σ (AR_i - AR)²)
//
// over all n motifs.
//
//   - Symbol: SAR, on this profile only.
//   - Input: heights of the primary profile, the spacing, and the limit A, which is usually 500 µm.
//   - Unit: that of dx.
//   - Evaluated over: the evaluation length.
//   - Source: ISO 12085:1996.
//
// Special cases are:
//
//	SAR(z, …) = NaN where there is no motif
func SAR(z []float64, dx, a float64) float64 {
	// The row stands in motif_roughness.go.
	return rowAlone("SAR", Input{Z: z, Dx: dx}, a)
}

// W returns the mean depth of the waviness motifs of z.
//
//	W = 1/m Σ HW_j, m = 2n depths of n motifs of the envelope
//
// where the envelope is the line through the peaks that end roughness motifs, outstanding ones lowered.
//
//   - Symbol: W, on this profile only.
//   - Input: heights of the primary profile, the spacing, and the limits A and B, which are usually 500 µm and 2500 µm.
//   - Unit: that of z.
//   - Evaluated over: the evaluation length.
//   - Source: ISO 12085:1996, 3.2.5.
//
// Special cases are:
//
//	W(z, …) = NaN where there is no motif
func W(z []float64, dx, a, b float64) float64 {
	// The row stands in motif_waviness.go.
	return rowAlone("W", Input{Z: z, Dx: dx}, a, b)
}

// AW returns the mean width of the waviness motifs of z.
//
//	AW = 1/n Σ AW_i
//
// where AW_i is the distance of the two peaks of the envelope that end motif i.
//
//   - Symbol: AW, on this profile only.
//   - Input: heights of the primary profile, the spacing, and the limits A and B, which are usually 500 µm and 2500 µm.
//   - Unit: that of dx.
//   - Evaluated over: the evaluation length.
//   - Source: ISO 12085:1996, 3.2.4.
//
// Special cases are:
//
//	AW(z, …) = NaN where there is no motif
func AW(z []float64, dx, a, b float64) float64 {
	// The row stands in motif_waviness.go.
	return rowAlone("AW", Input{Z: z, Dx: dx}, a, b)
}

// Wx returns the greatest depth of the waviness motifs of z.
//
//	Wx = max HW_j
//
// where the HW_j are the heights of a motif's two peaks over its pit, on the envelope.
//
//   - Symbol: Wx, on this profile only.
//   - Input: heights of the primary profile, the spacing, and the limits A and B, which are usually 500 µm and 2500 µm.
//   - Unit: that of z.
//   - Evaluated over: the evaluation length.
//   - Source: ISO 12085:1996, 3.2.
//
// Special cases are:
//
//	Wx(z, …) = NaN where there is no motif
func Wx(z []float64, dx, a, b float64) float64 {
	// The row stands in motif_waviness.go.
	return rowAlone("Wx", Input{Z: z, Dx: dx}, a, b)
}

// Wte returns the total depth of the waviness of z.
//
//	Wte = max - min of the envelope
//
// where the envelope is the line through the peaks that end roughness motifs, outstanding ones lowered.
//
//   - Symbol: Wte, on this profile only.
//   - Input: heights of the primary profile, the spacing, and the limits A and B, which are usually 500 µm and 2500 µm.
//   - Unit: that of z.
//   - Evaluated over: the evaluation length.
//   - Source: ISO 12085:1996, 3.2.
//
// Special cases are:
//
//	Wte(z, …) = NaN where there is no envelope
func Wte(z []float64, dx, a, b float64) float64 {
	// The row stands in motif_waviness.go.
	return rowAlone("Wte", Input{Z: z, Dx: dx}, a, b)
}

// Nw returns the number of waviness motifs of z.
//
//	Nw = n
//
// where a waviness motif is one of the envelope, at most B wide.
//
//   - Symbol: Nw, on this profile only.
//   - Input: heights of the primary profile, the spacing, and the limits A and B, which are usually 500 µm and 2500 µm.
//   - Unit: none.
//   - Evaluated over: the evaluation length.
//   - Source: ISO 12085:1996.
//
// Special cases are:
//
//	Nw(z, …) = 0 where there is no motif, NaN for no heights
func Nw(z []float64, dx, a, b float64) float64 {
	// The row stands in motif_waviness.go.
	return rowAlone("Nw", Input{Z: z, Dx: dx}, a, b)
}

// SW returns the standard deviation of the depths of the waviness motifs of z.
//
//	SW = √(1/m Σ (HW_j - W)²)
//
// over all m = 2n depths.
//
//   - Symbol: SW, on this profile only.
//   - Input: heights of the primary profile, the spacing, and the limits A and B, which are usually 500 µm and 2500 µm.
//   - Unit: that of z.
//   - Evaluated over: the evaluation length.
//   - Source: ISO 12085:1996.
//
// Special cases are:
//
//	SW(z, …) = NaN where there is no motif
func SW(z []float64, dx, a, b float64) float64 {
	// The row stands in motif_waviness.go.
	return rowAlone("SW", Input{Z: z, Dx: dx}, a, b)
}

// SAW returns the standard deviation of the widths of the waviness motifs of z.
//
//	SAW = √(1/n Σ (AW_i - AW)²)
//
// over all n motifs.
//
//   - Symbol: SAW, on this profile only.
//   - Input: heights of the primary profile, the spacing, and the limits A and B, which are usually 500 µm and 2500 µm.
//   - Unit: that of dx.
//   - Evaluated over: the evaluation length.
//   - Source: ISO 12085:1996.
//
// Special cases are:
//
//	SAW(z, …) = NaN where there is no motif
func SAW(z []float64, dx, a, b float64) float64 {
	// The row stands in motif_waviness.go.
	return rowAlone("SAW", Input{Z: z, Dx: dx}, a, b)
}

// Tp returns the bearing length ratio of z at the depth c below its highest peak, in %.
//
//	tp = 100 · (length over which z ≥ max z - c) / l
//
// where the length is that of the polyline through the heights.
//
//   - Symbol: tp(c), on the roughness profile.
//   - Input: heights, at least one, and the depth, 0 or more.
//   - Unit: %.
//   - Evaluated over: the evaluation length (ASME B46.1), which this function does; each section, then the mean (JIS B 0601:1994).
//   - Source: ASME B46.1-2009, 1-4; JIS B 0601:1994.
//
// Special cases are:
//
//	Tp(z, c) = 100 where c is max z - min z or more
func Tp(z []float64, c float64) float64 {
	// The row stands in older_bearing.go.
	return rowAlone("Tp", Input{Z: z, Dx: 1}, c)
}

// RPcBand returns the number of peaks of z per 10 mm that leave a band between two levels.
//
//	RPc(c1,c2) = 10 mm / l · (times z rises above c1 and then falls below c2)
//
// where touching a level is not enough, and what has only risen at the end does not count.
//
//   - Symbol: RPc(c1,c2); without levels RPc is the count made of the mean spacing, see [Rpc].
//   - Input: heights from the reference line, the spacing in µm, and the two levels, usually ±0.5 µm.
//   - Unit: 1/10 mm.
//   - Evaluated over: the evaluation length.
//   - Source: EN 10049:2013.
//
// Special cases are:
//
//	RPcBand(z, …) = 0 where z stays inside the band
func RPcBand(z []float64, dx, c1, c2 float64) float64 {
	// The row stands in older_count.go.
	return rowAlone("RPcBand", Input{Z: z, Dx: dx}, c1, c2)
}

// Pc returns the peak density of z: peaks per 10 mm that leave a band about the mean line.
//
//	Pc = 10 mm / l · (times z rises above c1 and then falls below c2)
//
// counted as [RPcBand] does; counts per inch are 2.54 times as large.
//
//   - Symbol: Pc(c1,c2), on the roughness profile.
//   - Input: heights from the mean line, the spacing in µm, and the two levels, usually ±25 µin = ±0.635 µm.
//   - Unit: 1/10 mm.
//   - Evaluated over: the evaluation length.
//   - Source: ASME B46.1-2009, 1-4; SAE J911, band of ±25 µin.
//
// Special cases are:
//
//	Pc(z, …) = 0 where z stays inside the band
func Pc(z []float64, dx, c1, c2 float64) float64 {
	// The row stands in older_count.go.
	return rowAlone("Pc", Input{Z: z, Dx: dx}, c1, c2)
}

// HSC returns the high spot count of z: regions above a level, per 10 mm.
//
//	HSC = 10 mm / l · (regions in which z is above c)
//
// where the regions that the ends of the profile cut off count too.
//
//   - Symbol: HSC(c), on the roughness profile.
//   - Input: heights from the mean line, the spacing in µm, and the level, usually 0.
//   - Unit: 1/10 mm.
//   - Evaluated over: the evaluation length.
//   - Source: ASME B46.1-2009, 1-4.
//
// Special cases are:
//
//	HSC(z, …) = 0 where no point is above c
func HSC(z []float64, dx, c float64) float64 {
	// The row stands in older_count.go.
	return rowAlone("HSC", Input{Z: z, Dx: dx}, c)
}

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
func Rmax(z []float64, section int) float64 {
	// The row stands in older_heights.go.
	return rowAlone("Rmax", Input{Z: z, Dx: 1, Section: section})
}

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
func Rmax1982(z []float64, section int) float64 {
	// The row stands in older_heights.go.
	return rowAlone("Rmax1982", Input{Z: z, Dx: 1, Section: section})
}

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
func Ra75(z []float64) float64 {
	// The row stands in older_heights.go.
	return rowAlone("Ra75", Input{Z: z, Dx: 1})
}

// S returns the mean spacing of the local peaks of z at the spacing dx, cut into sections of the given number of points.
//
//	S = 1/n Σ S_i, S_i between neighbouring local maxima in section k, then the mean
//
// where a plateau is one local maximum, at its middle.
//
//   - Symbol: S.
//   - Input: heights, the spacing, and the number of points in a section, 0 for all.
//   - Unit: that of dx.
//   - Evaluated over: each section, then the mean.
//   - Source: JIS B 0601:1994; ISO 4287-1:1984.
//
// Special cases are:
//
//	S(z, …) = NaN where no section has two local peaks
func S(z []float64, dx float64, section int) float64 {
	// The row stands in older_spacing.go.
	return rowAlone("S", Input{Z: z, Dx: dx, Section: section})
}

// D returns the density of the local peaks of z at the spacing dx, cut into sections of the given number of points.
//
//	D = 1/S
//
// with S as [S] returns it.
//
//   - Symbol: D.
//   - Input: heights, the spacing in µm, and the number of points in a section, 0 for all.
//   - Unit: 1/mm.
//   - Evaluated over: each section, then the mean, of S.
//   - Source: ISO 4287-1:1984.
//
// Special cases are:
//
//	D(z, …) = NaN where no section has two local peaks
func D(z []float64, dx float64, section int) float64 {
	// The row stands in older_spacing.go.
	return rowAlone("D", Input{Z: z, Dx: dx, Section: section})
}

// LambdaA returns the average wavelength of z at the spacing dx.
//
//	λa = 2π Ra/Δa
//
// where Δa is the mean absolute slope, see [Rda].
//
//   - Symbol: λa.
//   - Input: heights from the mean line, and the spacing.
//   - Unit: that of dx.
//   - Evaluated over: the evaluation length.
//   - Source: ASME B46.1-2009, 1-4; ISO 4287-1:1984.
//
// Special cases are:
//
//	LambdaA(z, dx) = NaN for a flat profile
func LambdaA(z []float64, dx float64) float64 {
	// The row stands in older_spacing.go.
	return rowAlone("LambdaA", Input{Z: z, Dx: dx})
}

// LambdaQ returns the root mean square average wavelength of z at the spacing dx.
//
//	λq = 2π Rq/Δq
//
// where Δq is the root mean square slope, see [Rdq].
//
//   - Symbol: λq.
//   - Input: heights from the mean line, and the spacing.
//   - Unit: that of dx.
//   - Evaluated over: the evaluation length.
//   - Source: ASME B46.1-2009, 1-4; ISO 4287-1:1984.
//
// Special cases are:
//
//	LambdaQ(z, dx) = NaN for a flat profile
func LambdaQ(z []float64, dx float64) float64 {
	// The row stands in older_spacing.go.
	return rowAlone("LambdaQ", Input{Z: z, Dx: dx})
}

// LengthRatio returns the profile length ratio of z at the spacing dx.
//
//	lr = Rdl/l
//
// where l is the evaluation length.
//
//   - Symbol: lr.
//   - Input: heights, and the spacing.
//   - Unit: none.
//   - Evaluated over: the evaluation length.
//   - Source: ISO 4287-1:1984.
//
// Special cases are:
//
//	LengthRatio(z, dx) = NaN for fewer than three heights
func LengthRatio(z []float64, dx float64) float64 {
	// The row stands in older_spacing.go.
	return rowAlone("LengthRatio", Input{Z: z, Dx: dx})
}

// RzJIS returns the ten-point height of z, cut into sections of the given number of points.
//
//	RzJIS = 1/5 Σ (five highest peaks) + 1/5 Σ (five deepest valleys) in section k, then the mean
//
// where a peak is the highest point of a part above the reference line between two crossings, and a valley the lowest
// of a part below it.
//
//   - Symbol: RzJIS; JIS B 0601:1994 calls it Rz.
//   - Input: heights from the reference line; the number of points in a section, 0 for all.
//   - Unit: that of z.
//   - Evaluated over: each section, then the mean.
//   - Source: JIS B 0601:2013, annex; JIS B 0601:1994.
//
// Special cases are:
//
//	RzJIS(z, n) = NaN where no section has five peaks and five valleys
func RzJIS(z []float64, section int) float64 {
	// The row stands in older_ten.go.
	return rowAlone("RzJIS", Input{Z: z, Dx: 1, Section: section})
}

// Rz1982 returns the ten-point height of the section profile z, cut into sections of the given number of points.
//
//	Rz = 1/5 Σ (five highest peaks) + 1/5 Σ (five deepest valleys) in section k, then the mean
//
// where z has not been filtered, so that the peaks and valleys are those about the least-squares line of each section.
//
//   - Symbol: Rz of JIS B 0601:1982.
//   - Input: heights of the primary profile; the number of points in a section, 0 for all.
//   - Unit: that of z.
//   - Evaluated over: each section, then the mean.
//   - Source: JIS B 0601:1982; furrow, peaks and valleys about the mean line of the section.
//
// Special cases are:
//
//	Rz1982(z, n) = NaN where no section has five peaks and five valleys
func Rz1982(z []float64, section int) float64 {
	// The row stands in older_ten.go.
	return rowAlone("Rz1982", Input{Z: z, Dx: 1, Section: section})
}

// R3z returns the mean third height of z, cut into sections of the given number of points.
//
//	R3z = third-highest peak + depth of third-deepest valley in section k, then the mean
//
// where peaks and valleys are those of [RzJIS].
//
//   - Symbol: R3z.
//   - Input: heights from the reference line; the number of points in a section, 0 for all.
//   - Unit: that of z.
//   - Evaluated over: each section, then the mean.
//   - Source: works standards of the car industry, R3z; furrow, no least height or width of a peak.
//
// Special cases are:
//
//	R3z(z, n) = NaN where no section has three peaks and three valleys
func R3z(z []float64, section int) float64 {
	// The row stands in older_ten.go.
	return rowAlone("R3z", Input{Z: z, Dx: 1, Section: section})
}

// R3zm returns the largest third height of z, cut into sections of the given number of points.
//
//	R3zm = max of (third-highest peak + depth of third-deepest valley) over the sections
//
// where peaks and valleys are those of [RzJIS].
//
//   - Symbol: R3zm.
//   - Input: heights from the reference line; the number of points in a section, 0 for all.
//   - Unit: that of z.
//   - Evaluated over: each section, then the largest.
//   - Source: works standards of the car industry, R3z; furrow, no least height or width of a peak.
//
// Special cases are:
//
//	R3zm(z, n) = NaN where no section has three peaks and three valleys
func R3zm(z []float64, section int) float64 {
	// The row stands in older_ten.go.
	return rowAlone("R3zm", Input{Z: z, Dx: 1, Section: section})
}

// Rpq returns the root mean square height of the plateaus of the profile z, whose order does not matter.
//
//	Rpq = -slope of the regression line z(s) of the plateau part
//
// where s is the standard normal quantile of the material ratio and [FitProbability] finds the part.
//
//   - Symbol: Rpq; Ppq and Wpq are the same on the other profiles.
//   - Input: heights from the reference line, at least 100.
//   - Unit: that of z.
//   - Evaluated over: the evaluation length.
//   - Source: ISO 21920-2:2021, 4.5.4; ISO 13565-3:1998, annex A.
//
// Special cases are:
//
//	Rpq(z) = NaN where the curve does not have two straight parts
func Rpq(z []float64) float64 {
	// The row stands in probability.go.
	return rowAlone("Rpq", Input{Z: z, Dx: 1})
}

// Rvq returns the root mean square height of the dales of the profile z, whose order does not matter.
//
//	Rvq = -slope of the regression line z(s) of the dale part
//
// where s is the standard normal quantile of the material ratio and [FitProbability] finds the part.
//
//   - Symbol: Rvq; Pvq and Wvq are the same on the other profiles.
//   - Input: heights from the reference line, at least 100.
//   - Unit: that of z.
//   - Evaluated over: the evaluation length.
//   - Source: ISO 21920-2:2021, 4.5.4; ISO 13565-3:1998, annex A.
//
// Special cases are:
//
//	Rvq(z) = NaN where the curve does not have two straight parts
func Rvq(z []float64) float64 {
	// The row stands in probability.go.
	return rowAlone("Rvq", Input{Z: z, Dx: 1})
}

// Rmq returns the material ratio at which the plateaus of the profile z, whose order does not matter, go over to its
// dales, in %.
//
//	Rmq = 100·Φ(s) where the two regression lines cross
//
// where s is the standard normal quantile of the material ratio and [FitProbability] finds the parts.
//
//   - Symbol: Rmq; Pmq and Wmq are the same on the other profiles.
//   - Input: heights from the reference line, at least 100.
//   - Unit: %.
//   - Evaluated over: the evaluation length.
//   - Source: ISO 21920-2:2021, 4.5.4; ISO 13565-3:1998, annex A.
//
// Special cases are:
//
//	Rmq(z) = NaN where the curve does not have two straight parts
func Rmq(z []float64) float64 {
	// The row stands in probability.go.
	return rowAlone("Rmq", Input{Z: z, Dx: 1})
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
func Rmr(z []float64, c float64) float64 {
	// The row stands in ratio.go.
	return rowAlone("Rmr", Input{Z: z, Dx: 1}, c)
}

// RmrFrom returns the material ratio of the profile z at the depth d below the height that has the ratio p, in %.
//
//	Rmr(p;d) = Rmr(Rmc(p) - d)
//
// The depth counts downwards from the height Rmc(p).
//
//   - Symbol: Rmr(p;d); Pmr(p;d) and Wmr(p;d) are the same on the other profiles.
//   - Input: heights, at least one; the reference ratio in %, the depth below its height, down positive.
//   - Unit: %.
//   - Evaluated over: the evaluation length.
//   - Source: ISO 21920-2:2021, 4.5.2; furrow, order of the arguments; ISO 4287:1997, 4.5.4.
//
// Special cases are those of [Rmr].
func RmrFrom(z []float64, p, d float64) float64 {
	// The row stands in ratio.go.
	return rowAlone("RmrFrom", Input{Z: z, Dx: 1}, p, d)
}

// Rmc returns the height at which the profile z has the material ratio p, which is in %.
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
	// The row stands in ratio.go.
	return rowAlone("Rmc", Input{Z: z, Dx: 1}, p)
}

// Rdc returns the difference between the heights of the profile z at the material ratios p and q, which are in %.
//
//	Rdc(p,q) = Rmc(p) - Rmc(q)
//
// Both heights count from the reference line.
//
//   - Symbol: Rdc(p,q); Pdc(p,q) and Wdc(p,q) are the same on the other profiles. ISO 4287 writes Rδc, ASME B46.1 Htp.
//   - Input: heights, at least one; the two ratios in %, the smaller first.
//   - Unit: that of z.
//   - Evaluated over: the evaluation length.
//   - Source: ISO 21920-2:2021, 4.5.2; ISO 4287:1997, 4.5.3; ASME B46.1-2009, 1-4.
//
// Special cases are:
//
//	Rdc(0,100) = Rt
func Rdc(z []float64, p, q float64) float64 {
	// The row stands in ratio.go.
	return rowAlone("Rdc", Input{Z: z, Dx: 1}, p, q)
}

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
	// The row stands in spacing.go.
	return rowAlone("Rsm", Input{Z: z, Dx: dx, Section: section})
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
	// The row stands in spacing.go.
	return rowAlone("Rsmx", Input{Z: z, Dx: dx, Section: section})
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
	// The row stands in spacing.go.
	return rowAlone("Rsmq", Input{Z: z, Dx: dx, Section: section})
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
	// The row stands in spacing.go.
	return rowAlone("Rc", Input{Z: z, Dx: 1, Section: section})
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
	// The row stands in spacing.go.
	return rowAlone("Rcx", Input{Z: z, Dx: 1, Section: section})
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
	// The row stands in spacing.go.
	return rowAlone("Rcq", Input{Z: z, Dx: 1, Section: section})
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
func Rpc(z []float64, dx float64, section int) float64 {
	// The row stands in spacing.go.
	return rowAlone("Rpc", Input{Z: z, Dx: dx, Section: section})
}

// Ral returns the autocorrelation length of z at the spacing dx: the smallest shift at which the autocorrelation
// function has fallen to s, which is usually 0.2.
//
//	Ral = smallest t with fACF(t) ≤ s, fACF(t) = [1/(l-t) ∫ z(x) z(x+t) dx] / [1/l ∫ z(x)² dx]      as defined
//	fACF(k·dx) = [Σ zᵢ zᵢ₊ₖ/(N-k)] / [Σ zᵢ²/N], straight between                                    as computed
//
// where every shift is normalised by its own overlap, and shifts up to half the length are looked at.
//
//   - Symbol: Ral; Pal and Wal are the same on the other profiles.
//   - Input: heights from the reference line, the spacing, and the threshold 0 ≤ s < 1.
//   - Unit: that of dx.
//   - Evaluated over: the evaluation length.
//   - Source: ISO 21920-2:2021, 4.3.2; furrow, default threshold s = 0.2 from memory.
//
// Special cases are:
//
//	Ral(z, …) = NaN where the function does not fall to s, and for a flat profile
func Ral(z []float64, dx, s float64) float64 {
	// The row stands in spectrum.go.
	return rowAlone("Ral", Input{Z: z, Dx: dx}, s)
}

// Rsw returns the dominant spatial wavelength of z at the spacing dx: that of the largest |F_k| in its spectrum.
//
//	Rsw = wavelength of the largest |∫ z(x) exp(-2πi·px) dx|, p > 0                          as defined
//	Rsw = N·dx/k, k the place of the largest |Σ zᵢ exp(-2πi·ik/N)| for 1 ≤ k ≤ N/2           as computed
//
// where no window is applied. The wavelengths next to it differ by about Rsw²/(N·dx); of equal amplitudes the longer
// wave counts.
//
//   - Symbol: Rsw; Psw and Wsw are the same on the other profiles.
//   - Input: heights from the reference line, and the spacing.
//   - Unit: that of dx.
//   - Evaluated over: the evaluation length.
//   - Source: ISO 21920-2:2021, 4.3.3.
//
// Special cases are:
//
//	Rsw(z, dx) = NaN for a flat profile
func Rsw(z []float64, dx float64) float64 {
	// The row stands in spectrum.go.
	return rowAlone("Rsw", Input{Z: z, Dx: dx})
}

// Rvm returns the material volume of z at the material ratio p, in %.
//
//	Rvm(p) = ∫₀ᵖ (z(q) - z(p)) dq
//
// where z(p) is the material ratio curve of the sorted heights, ratios as fractions.
//
//   - Symbol: Rvm(p); Pvm(p) and Wvm(p) are the same on the other profiles.
//   - Input: heights, at least one; the material ratio in %.
//   - Unit: that of z; 1 µm is 1 ml/m².
//   - Evaluated over: the evaluation length.
//   - Source: ISO 21920-2:2021, 4.5.5.
//
// Special cases are:
//
//	Rvm(0) = 0
func Rvm(z []float64, p float64) float64 {
	// The row stands in volume.go.
	return rowAlone("Rvm", Input{Z: z, Dx: 1}, p)
}

// Rvv returns the void volume of z at the material ratio p, in %.
//
//	Rvv(p) = ∫ₚ¹ (z(p) - z(q)) dq
//
// where z(p) is the material ratio curve of the sorted heights, ratios as fractions.
//
//   - Symbol: Rvv(p); Pvv(p) and Wvv(p) are the same on the other profiles.
//   - Input: heights, at least one; the material ratio in %.
//   - Unit: that of z; 1 µm is 1 ml/m².
//   - Evaluated over: the evaluation length.
//   - Source: ISO 21920-2:2021, 4.5.5.
//
// Special cases are:
//
//	Rvv(100) = 0
func Rvv(z []float64, p float64) float64 {
	// The row stands in volume.go.
	return rowAlone("Rvv", Input{Z: z, Dx: 1}, p)
}

// Rvmp returns the peak material volume of z at the material ratio p, in %, by default 10.
//
//	Rvmp(p) = Rvm(p)
//
// where z(p) is the material ratio curve of the sorted heights, ratios as fractions.
//
//   - Symbol: Rvmp(p); Pvmp(p) and Wvmp(p) are the same on the other profiles.
//   - Input: heights, at least one; the material ratio in %.
//   - Unit: that of z; 1 µm is 1 ml/m².
//   - Evaluated over: the evaluation length.
//   - Source: ISO 21920-2:2021, 4.5.5.
//
// Special cases are:
//
//	Rvmp(0) = 0
func Rvmp(z []float64, p float64) float64 {
	// The row stands in volume.go.
	return rowAlone("Rvmp", Input{Z: z, Dx: 1}, p)
}

// Rvmc returns the core material volume of z between the material ratios p and q, in %, by default 10 and 80.
//
//	Rvmc(p,q) = Rvm(q) - Rvm(p)
//
// where z(p) is the material ratio curve of the sorted heights, ratios as fractions.
//
//   - Symbol: Rvmc(p,q); Pvmc(p,q) and Wvmc(p,q) are the same on the other profiles.
//   - Input: heights, at least one; the material ratios in %.
//   - Unit: that of z; 1 µm is 1 ml/m².
//   - Evaluated over: the evaluation length.
//   - Source: ISO 21920-2:2021, 4.5.5.
//
// Special cases are:
//
//	Rvmc(p,p) = 0
func Rvmc(z []float64, p, q float64) float64 {
	// The row stands in volume.go.
	return rowAlone("Rvmc", Input{Z: z, Dx: 1}, p, q)
}

// Rvvc returns the core void volume of z between the material ratios p and q, in %, by default 10 and 80.
//
//	Rvvc(p,q) = Rvv(p) - Rvv(q)
//
// where z(p) is the material ratio curve of the sorted heights, ratios as fractions.
//
//   - Symbol: Rvvc(p,q); Pvvc(p,q) and Wvvc(p,q) are the same on the other profiles.
//   - Input: heights, at least one; the material ratios in %.
//   - Unit: that of z; 1 µm is 1 ml/m².
//   - Evaluated over: the evaluation length.
//   - Source: ISO 21920-2:2021, 4.5.5.
//
// Special cases are:
//
//	Rvvc(p,p) = 0
func Rvvc(z []float64, p, q float64) float64 {
	// The row stands in volume.go.
	return rowAlone("Rvvc", Input{Z: z, Dx: 1}, p, q)
}

// Rvvv returns the dale void volume of z at the material ratio q, in %, by default 80.
//
//	Rvvv(q) = Rvv(q)
//
// where z(p) is the material ratio curve of the sorted heights, ratios as fractions.
//
//   - Symbol: Rvvv(q); Pvvv(q) and Wvvv(q) are the same on the other profiles.
//   - Input: heights, at least one; the material ratio in %.
//   - Unit: that of z; 1 µm is 1 ml/m².
//   - Evaluated over: the evaluation length.
//   - Source: ISO 21920-2:2021, 4.5.5.
//
// Special cases are:
//
//	Rvvv(100) = 0
func Rvvv(z []float64, q float64) float64 {
	// The row stands in volume.go.
	return rowAlone("Rvvv", Input{Z: z, Dx: 1}, q)
}
