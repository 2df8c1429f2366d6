package params

import "math"

// coreRows are the parameters of stratified surfaces from the material ratio curve.
var coreRows = []row{
	// func Rk(z []float64) float64
	//
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
	{`Rk: core height
in iso-21920, the evaluation length: ISO 21920-2:2021, 4.5.3 (excerpt)
in iso-4287 jis-b0601-2013 asme-b46.1, the evaluation length: ISO 13565-2:1996, 4 (memory)
on: stratified
formula: Rk = cu - cl
says: The height of the core: how far the straight line through the flattest 40 % of the material ratio curve falls from 0 % to 100 %.
practice: The core carries the load for most of the life of a running surface; a small Rk is taken as a sign of slow wear.
blind: Peaks and dales outside the core. It is meant for an S-shaped curve; other curves give a number without this meaning.`,
		coreValue(func(_ *work, k *core) float64 { return 0 - k.slope }), constructCore(coreHeight)},
	// func Rpk(z []float64) float64
	//
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
	{`Rpk: reduced peak height
in iso-21920, the evaluation length: ISO 21920-2:2021, 4.5.3 (excerpt)
in iso-4287 jis-b0601-2013 asme-b46.1, the evaluation length: ISO 13565-2:1996, 4 (memory)
on: stratified
formula: Rpk = frac{2 × Ar_1}{Rmrk1}
says: The height of a right triangle that has the area of the peaks above the core and their width Rmrk1.
practice: Small: short running-in. Large: high peaks that wear off first, or that wear a seal.
blind: How many peaks share the area, and the height of the highest; that is Rpkx.`,
		coreValue(func(_ *work, k *core) float64 { return k.reducedPeak() }), constructCore(reducedPeak)},
	// func Rvk(z []float64) float64
	//
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
	{`Rvk: reduced pit depth
in iso-21920, the evaluation length: ISO 21920-2:2021, 4.5.3 (excerpt)
in iso-4287 jis-b0601-2013 asme-b46.1, the evaluation length: ISO 13565-2:1996, 4 (memory)
on: stratified
formula: Rvk = frac{2 × Ar_2}{100% - Rmrk2}
says: The depth of a right triangle that has the area of the dales below the core and their width 100 % − Rmrk2.
practice: Large: the surface can hold oil; wanted on honed bores within limits, because too much oil is lost if it is too large.
blind: How many dales share the area, and the depth of the deepest; that is Rvkx.`,
		coreValue(func(_ *work, k *core) float64 { return k.reducedDale() }), constructCore(reducedDale)},
	// func Rpkx(z []float64) float64
	//
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
	{`Rpkx: maximum peak height above the core
in iso-21920, the evaluation length: ISO 21920-2:2021, 4.5.3 (excerpt)
on: stratified
formula: Rpkx = max{}{z_i} - cu text{, at least 0}
says: How far the highest point is above the upper limit of the core; 0 if the core reaches higher.
blind: All other peaks.`,
		coreValue(func(w *work, k *core) float64 {
			if k.ratio1 == 0 {
				return 0
			}
			return w.curve().z[0] - k.upper
		}), constructCore(highestPoint)},
	// func Rvkx(z []float64) float64
	//
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
	{`Rvkx: maximum pit depth below the core
in iso-21920, the evaluation length: ISO 21920-2:2021, 4.5.3 (excerpt)
on: stratified
formula: Rvkx = cl - min{}{z_i} text{, at least 0}
says: How far the lowest point is below the lower limit of the core; 0 if the core reaches lower.
blind: All other pits.`,
		coreValue(func(w *work, k *core) float64 {
			if k.ratio2 == 1 {
				return 0
			}
			return k.lower - w.curve().z[w.n-1]
		}), constructCore(lowestPoint)},
	// func Rmrk1(z []float64) float64
	//
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
	{`Rmrk1: material ratio at the upper core limit
in iso-21920, the evaluation length: ISO 21920-2:2021, 4.5.3 (excerpt)
in iso-4287 jis-b0601-2013 asme-b46.1, the evaluation length: ISO 13565-2:1996, 4 (memory)
on: stratified
formula: Rmrk1 = Rmr(cu)
says: The share of the length on which the profile is above the core.
practice: Small after running-in.
blind: How high the peaks are.
shape: needed`,
		coreRatio(func(k *core) float64 { return k.ratio1 }), constructCore(upperRatio)},
	// func Rmrk2(z []float64) float64
	//
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
	{`Rmrk2: material ratio at the lower core limit
in iso-21920, the evaluation length: ISO 21920-2:2021, 4.5.3 (excerpt)
in iso-4287 jis-b0601-2013 asme-b46.1, the evaluation length: ISO 13565-2:1996, 4 (memory)
on: stratified
formula: Rmrk2 = Rmr(cl)
says: The share of the length on which the profile is at or above the lower limit of the core; the rest is dales.
practice: Large: dales take little of the length. Small: they take much of it.
blind: How deep the dales are.
shape: needed`,
		coreRatio(func(k *core) float64 { return k.ratio2 }), constructCore(lowerRatio)},
	// func Rak1(z []float64) float64
	//
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
	{`Rak1: area of the hills
in iso-21920, the evaluation length: ISO 21920-2:2021, 4.5.3 (excerpt)
in iso-4287 jis-b0601-2013 asme-b46.1, the evaluation length: ISO 13565-2:1996, 4 (memory)
on: stratified
formula: Rak1 = frac{Rpk × Rmrk1}{2 × 100%}
says: The area of the peaks above the core, spread over the whole length; 1 µm is 1000 µm² on each millimetre.
practice: Material that running-in removes.
blind: Whether it is one peak or many.`,
		coreValue(func(_ *work, k *core) float64 { return k.peaks }), constructCore(peakArea)},
	// func Rak2(z []float64) float64
	//
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
	{`Rak2: area of the dales
in iso-21920, the evaluation length: ISO 21920-2:2021, 4.5.3 (excerpt)
in iso-4287 jis-b0601-2013 asme-b46.1, the evaluation length: ISO 13565-2:1996, 4 (memory)
on: stratified
formula: Rak2 = frac{Rvk × (100% - Rmrk2)}{2 × 100%}
says: The area of the dales below the core, spread over the whole length; 1 µm is 1000 µm² on each millimetre.
practice: Volume that oil can fill when the core is worn.
blind: Whether it is one dale or many, and whether they are connected.`,
		coreValue(func(_ *work, k *core) float64 { return k.dales }), constructCore(daleArea)},
}

// A core is the construction of the Rk family on the material ratio curve. Ratios are fractions.
type core struct {
	first, last  int     // points of the sorted curve in the flattest 40 %
	slope        float64 // of the equivalent straight line, height per ratio
	upper, lower float64 // where it meets the ratios 0 and 1
	ratio1       float64 // where the curve comes down to the upper height
	ratio2       float64 // where it leaves the lower height
	peaks, dales float64 // areas of the curve above and below
	reason       string  // why there is none
}

// coreWidth is the width of the window, a share of the material ratio (ISO 13565-2:1996, clause 4; memory).
const coreWidth = 0.4

// tieTolerance, a share of the whole height, is how much flatter a later window must be to be taken instead of an
// earlier one. The first of equals counts, and on a symmetric curve rounding must not choose. A line that falls by no more is
// level: what the filters leave on a worn flat is not its height.
const tieTolerance = 1e-9

// stratified returns the construction: the flattest window of 40 %, the least squares line through the points of the
// curve inside it, and the areas that stand out above and below.
func (w *work) stratified() *core {
	k := &w.core
	if w.have.core {
		return k
	}
	w.have.core = true
	if w.n < 2 {
		k.reason = "a core needs two points"
		return k
	}
	c := w.curve()
	n, z := w.n, c.z
	width := min(n-1, int(math.Round(coreWidth*float64(n))))
	height := z[0] - z[n-1]
	least := math.Inf(1)
	for i := 0; i+width < n; i++ {
		least = min(least, z[i]-z[i+width])
	}
	for z[k.first]-z[k.first+width] > least+float64(tieTolerance*height) {
		k.first++
	}
	k.last = k.first + width

	k.fit(z)
	if least := float64(tieTolerance * height); -k.slope <= least {
		k.level(z, least)
	} else {
		tolerance := float64(1e-12 * max(height, math.Abs(z[0]), math.Abs(z[n-1])))
		k.ratio1 = c.reaches(k.upper, tolerance)
		k.ratio2 = c.leaves(k.lower, tolerance)
	}
	if k.ratio1 > 0 {
		k.peaks = max(0, c.integral(k.ratio1, k.upper))
	}
	if k.ratio2 < 1 {
		k.dales = max(0, c.integral(k.ratio2, k.lower)-c.integral(1, k.lower))
	}
	return k
}

// fit lays the least squares line, residuals in height, through the points of the window.
func (k *core) fit(z []float64) {
	n := float64(len(z))
	m := float64(k.last - k.first + 1)
	middle := z[(k.first+k.last)/2]
	sum := 0.0
	for _, v := range z[k.first : k.last+1] {
		sum += v - middle
	}
	mean := sum / m
	half := float64(float64(k.last-k.first) / 2)
	cross := 0.0
	for i, v := range z[k.first : k.last+1] {
		cross += float64((float64(i) - half) * (v - middle - mean))
	}
	// Σ (i - half)² over m points is m (m² - 1) / 12.
	k.slope = min(0, cross/(m*(float64(m*m)-1)/12)*n)
	centre := (float64(k.first) + half + 0.5) / n
	k.upper = middle + mean - float64(k.slope*centre)
	k.lower = middle + mean + float64(k.slope*(1-centre))
}

// level makes a core of the plateau that the window stands on: no height, and the ratios where the plateau begins and ends.
func (k *core) level(z []float64, tolerance float64) {
	n, first, last := len(z), k.first, k.last
	for first > 0 && z[first-1]-z[k.first] <= tolerance {
		first--
	}
	for last < n-1 && z[k.first]-z[last+1] <= tolerance {
		last++
	}
	sum := 0.0
	for _, v := range z[first : last+1] {
		sum += v - z[k.first]
	}
	k.slope = 0
	k.upper = z[k.first] + sum/float64(last+1-first)
	k.lower = k.upper
	k.ratio1, k.ratio2 = 0, 1
	if first > 0 {
		k.ratio1 = (float64(first) + 0.5) / float64(n)
	}
	if last < n-1 {
		k.ratio2 = (float64(last) + 0.5) / float64(n)
	}
}

// reducedPeak is the height of the right triangle on the ratio 0 to ratio1 with the area of the peaks.
func (k *core) reducedPeak() float64 {
	if k.ratio1 == 0 {
		return 0
	}
	return 2 * k.peaks / k.ratio1
}

// reducedDale is the depth of the right triangle on the ratio ratio2 to 1 with the area of the dales.
func (k *core) reducedDale() float64 {
	if k.ratio2 == 1 {
		return 0
	}
	return 2 * k.dales / (1 - k.ratio2)
}

// coreValue makes an evaluator of one value of the construction.
func coreValue(f func(w *work, k *core) float64) evaluator {
	return func(w *work, _ []float64) result {
		k := w.stratified()
		if k.reason != "" {
			return undefined(k.reason)
		}
		return value(f(w, k))
	}
}

func coreRatio(f func(k *core) float64) evaluator {
	return coreValue(func(_ *work, k *core) float64 { return 100 * f(k) })
}
