package params

import "math"

// The meanings of the Rk family: the largest height and depth came with ISO 21920-2.
var (
	core21920 = []Meaning{meaning(editions21920, EvaluationLength, iso21920("4.5.3"))}
	coreSince = append(core21920[:1:1], meaning(editions13565, EvaluationLength, iso13565("2", "4")))
)

// coreRows are the parameters of stratified surfaces from the material ratio curve.
var coreRows = []Parameter{
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
	{
		Key: "Rk", Name: "core height", On: Stratified,
		Meanings:  coreSince,
		Formula:   "Rk = cu - cl",
		Sentence:  "The height of the core: how far the straight line through the flattest 40 % of the material ratio curve falls from 0 % to 100 %.",
		Practice:  "The core carries the load for most of the life of a running surface; a small Rk is taken as a sign of slow wear.",
		Blind:     "Peaks and dales outside the core. It is meant for an S-shaped curve; other curves give a number without this meaning.",
		eval:      coreValue(func(_ *work, k *core) float64 { return 0 - k.slope }),
		construct: constructCore("Rk"),
	},
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
	{
		Key: "Rpk", Name: "reduced peak height", On: Stratified,
		Meanings:  coreSince,
		Formula:   "Rpk = frac{2 × Ar_1}{Rmrk1}",
		Sentence:  "The height of a right triangle that has the area of the peaks above the core and their width Rmrk1.",
		Practice:  "Small: short running-in. Large: high peaks that wear off first, or that wear a seal.",
		Blind:     "How many peaks share the area, and the height of the highest; that is Rpkx.",
		eval:      coreValue(func(_ *work, k *core) float64 { return k.reducedPeak() }),
		construct: constructCore("Rpk"),
	},
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
	{
		Key: "Rvk", Name: "reduced pit depth", On: Stratified,
		Meanings:  coreSince,
		Formula:   "Rvk = frac{2 × Ar_2}{100% - Rmrk2}",
		Sentence:  "The depth of a right triangle that has the area of the dales below the core and their width 100 % − Rmrk2.",
		Practice:  "Large: the surface can hold oil; wanted on honed bores within limits, because too much oil is lost if it is too large.",
		Blind:     "How many dales share the area, and the depth of the deepest; that is Rvkx.",
		eval:      coreValue(func(_ *work, k *core) float64 { return k.reducedDale() }),
		construct: constructCore("Rvk"),
	},
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
	{
		Key: "Rpkx", Name: "maximum peak height above the core", On: Stratified,
		Meanings: core21920,
		Formula:  "Rpkx = max{}{z_i} - cu text{, at least 0}",
		Sentence: "How far the highest point is above the upper limit of the core; 0 if the core reaches higher.",
		Blind:    "All other peaks.",
		eval: coreValue(func(w *work, k *core) float64 {
			if k.ratio1 == 0 {
				return 0
			}
			return w.curve().z[0] - k.upper
		}),
		construct: constructCore("Rpkx"),
	},
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
	{
		Key: "Rvkx", Name: "maximum pit depth below the core", On: Stratified,
		Meanings: core21920,
		Formula:  "Rvkx = cl - min{}{z_i} text{, at least 0}",
		Sentence: "How far the lowest point is below the lower limit of the core; 0 if the core reaches lower.",
		Blind:    "All other pits.",
		eval: coreValue(func(w *work, k *core) float64 {
			if k.ratio2 == 1 {
				return 0
			}
			return k.lower - w.curve().z[w.n-1]
		}),
		construct: constructCore("Rvkx"),
	},
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
	{
		Key: "Rmrk1", Name: "material ratio at the upper core limit", On: Stratified, shape: true,
		Meanings:  coreSince,
		Formula:   "Rmrk1 = Rmr(cu)",
		Sentence:  "The share of the length on which the profile is above the core.",
		Practice:  "Small after running-in.",
		Blind:     "How high the peaks are.",
		eval:      coreRatio(func(k *core) float64 { return k.ratio1 }),
		construct: constructCore("Rmrk1"),
	},
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
	{
		Key: "Rmrk2", Name: "material ratio at the lower core limit", On: Stratified, shape: true,
		Meanings:  coreSince,
		Formula:   "Rmrk2 = Rmr(cl)",
		Sentence:  "The share of the length on which the profile is at or above the lower limit of the core; the rest is dales.",
		Practice:  "Large: dales take little of the length. Small: they take much of it.",
		Blind:     "How deep the dales are.",
		eval:      coreRatio(func(k *core) float64 { return k.ratio2 }),
		construct: constructCore("Rmrk2"),
	},
	// func Rak1(z []float64) float64
	//
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
	{
		Key: "Rak1", Name: "area of the hills", On: Stratified,
		Meanings:  coreSince,
		Formula:   "Rak1 = frac{Rpk × Rmrk1}{2 × 100%}",
		Sentence:  "The area of the peaks above the core, spread over the whole length; 1 µm is 1000 µm² on each millimetre.",
		Practice:  "Material that running-in removes.",
		Blind:     "Whether it is one peak or many.",
		eval:      coreValue(func(_ *work, k *core) float64 { return k.peaks }),
		construct: constructCore("Rak1"),
	},
	// func Rak2(z []float64) float64
	//
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
	{
		Key: "Rak2", Name: "area of the dales", On: Stratified,
		Meanings:  coreSince,
		Formula:   "Rak2 = frac{Rvk × (100% - Rmrk2)}{2 × 100%}",
		Sentence:  "The area of the dales below the core, spread over the whole length; 1 µm is 1000 µm² on each millimetre.",
		Practice:  "Volume that oil can fill when the core is worn.",
		Blind:     "Whether it is one dale or many, and whether they are connected.",
		eval:      coreValue(func(_ *work, k *core) float64 { return k.dales }),
		construct: constructCore("Rak2"),
	},
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
		tolerance := 1e-12 * max(height, math.Abs(z[0]), math.Abs(z[n-1]))
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
	half := float64(k.last-k.first) / 2
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

// constructCore shows the whole construction on the material ratio curve, and the arithmetic of the row with the key.
func constructCore(key string) constructor {
	return func(w *work, _ []float64, c *Construction) {
		c.Plane = RatioPlane
		k, curve := w.stratified(), w.curve()
		n := float64(w.n)
		first, last := (float64(k.first)+0.5)/n, (float64(k.last)+0.5)/n
		c.step("the curve is flattest over 40 % between "+percent(first)+" and "+percent(last), nan,
			line("40 %", Point{100 * first, curve.z[k.first]}, Point{100 * last, curve.z[k.last]}))
		c.step("the line through these points meets 0 % at "+micrometres(k.upper)+" and 100 % at "+micrometres(k.lower), k.upper-k.lower,
			line("equivalent straight line", Point{0, k.upper}, Point{100, k.lower}),
			level("", 0, 100, k.upper),
			level("", 0, 100, k.lower),
			dimension("Rk", Point{100, k.lower}, Point{100, k.upper}))
		c.add(w.peakStep(k))
		c.add(w.daleStep(k))
		workCore(w, c, key, k)
	}
}

func (w *work) peakStep(k *core) Step {
	if k.ratio1 == 0 {
		return step("no part of the curve lies above the core", 0)
	}
	rpk, ratio, corner := k.reducedPeak(), 100*k.ratio1, Point{0, k.upper}
	top := Point{0, k.upper + rpk}
	return step("above "+micrometres(k.upper)+", up to "+percent(k.ratio1)+", the peaks have the area of a triangle "+micrometres(rpk)+" high", rpk,
		area("A1", append([]Point{corner}, w.curve().outline(0, k.ratio1, curvePoints)...)...),
		area("Rpk", corner, top, Point{ratio, k.upper}),
		dimension("Rpk", corner, top),
		line("Rmrk1", Point{ratio, k.upper}, Point{ratio, w.extremes().low}))
}

func (w *work) daleStep(k *core) Step {
	if k.ratio2 == 1 {
		return step("no part of the curve lies below the core", 0)
	}
	rvk, ratio, corner := k.reducedDale(), 100*k.ratio2, Point{100, k.lower}
	bottom := Point{100, k.lower - rvk}
	return step("below "+micrometres(k.lower)+", from "+percent(k.ratio2)+" on, the dales have the area of a triangle "+micrometres(rvk)+" deep", rvk,
		area("A2", append(w.curve().outline(k.ratio2, 1, curvePoints), corner)...),
		area("Rvk", corner, bottom, Point{ratio, k.lower}),
		dimension("Rvk", bottom, corner),
		line("Rmrk2", Point{ratio, k.lower}, Point{ratio, w.extremes().low}))
}

// workCore adds the arithmetic of the row with the key; the two ratios have none.
func workCore(w *work, c *Construction, key string, k *core) {
	z := w.curve().z
	switch key {
	case "Rk":
		c.work("{1} - ({2})", k.upper, k.lower)
	case "Rpk":
		if k.ratio1 > 0 {
			c.work("2 · {1} / {2}", k.peaks, k.ratio1)
		}
	case "Rvk":
		if k.ratio2 < 1 {
			c.work("2 · {1} / (1 - {2})", k.dales, k.ratio2)
		}
	case "Rpkx":
		if k.ratio1 > 0 {
			c.work("{1} - ({2})", z[0], k.upper)
		}
	case "Rvkx":
		if k.ratio2 < 1 {
			c.work("{1} - ({2})", k.lower, z[w.n-1])
		}
	case "Rak1":
		c.work("{1} · {2} / 2", k.reducedPeak(), k.ratio1)
	case "Rak2":
		c.work("{1} · (1 - {2}) / 2", k.reducedDale(), k.ratio2)
	}
}
