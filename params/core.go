package params

import "math"

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

// coreValue makes an evaluator of one value of the construction; ratios have none on a flat profile.
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
	inner := coreValue(func(_ *work, k *core) float64 { return 100 * f(k) })
	return func(w *work, a []float64) result {
		if w.flat() {
			return undefined(reasonFlat)
		}
		return inner(w, a)
	}
}

var (
	evalCore        = coreValue(func(_ *work, k *core) float64 { return 0 - k.slope })
	evalReducedPeak = coreValue(func(_ *work, k *core) float64 { return k.reducedPeak() })
	evalReducedDale = coreValue(func(_ *work, k *core) float64 { return k.reducedDale() })
	evalHighestPeak = coreValue(func(w *work, k *core) float64 {
		if k.ratio1 == 0 {
			return 0
		}
		return w.curve().z[0] - k.upper
	})
	evalDeepestDale = coreValue(func(w *work, k *core) float64 {
		if k.ratio2 == 1 {
			return 0
		}
		return k.lower - w.curve().z[w.n-1]
	})
	evalUpperRatio = coreRatio(func(k *core) float64 { return k.ratio1 })
	evalLowerRatio = coreRatio(func(k *core) float64 { return k.ratio2 })
	evalPeakArea   = coreValue(func(_ *work, k *core) float64 { return k.peaks })
	evalDaleArea   = coreValue(func(_ *work, k *core) float64 { return k.dales })
)
