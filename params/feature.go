package params

import (
	"math"
	"strconv"
)

// pruneShare is the share of the reference height that hills and dales must reach locally to stay.
const pruneShare = 0.05

// featureRows are those of the peaks and pits that pruning leaves.
var featureRows = []row{
	// func R5p(z []float64) float64
	//
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
	{`R5p: five-point peak height
in iso-21920, the evaluation length: ISO 21920-2:2021, 5.3 (memory); furrow, watershed pruned at 5 % of Rt (own choice)
formula: R5p = frac{1}{5} * sum{i=1}{5}{P_i}
says: The mean height, above the reference line, of the five highest peaks that pruning leaves in the whole evaluation length.
blind: All other peaks, and how steep the five are.
shape: needed`,
		ofExtremes((*work).five, true), showFive(true, false)},
	// func R5v(z []float64) float64
	//
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
	{`R5v: five-point pit depth
in iso-21920, the evaluation length: ISO 21920-2:2021, 5.3 (memory); furrow, watershed pruned at 5 % of Rt (own choice)
formula: R5v = frac{1}{5} * sum{i=1}{5}{V_i}
says: The mean depth, below the reference line, of the five deepest pits that pruning leaves in the whole evaluation length.
blind: All other pits, and how wide the five are.
shape: needed`,
		ofExtremes((*work).five, false), showFive(false, true)},
	// func R10z(z []float64) float64
	//
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
	{`R10z: ten-point height
in iso-21920, the evaluation length: ISO 21920-2:2021, 5.3 (excerpt); furrow, watershed pruned at 5 % of Rt (own choice)
formula: R10z = R5p + R5v
says: The mean height of the five highest peaks plus the mean depth of the five deepest pits that pruning leaves in the whole evaluation length.
practice: A single high speck changes it by about a fifth of what it changes Rt.
blind: How the ten are spread along the trace. A very high speck raises the pruning threshold; then other peaks drop out, and with fewer than five it is not defined. It is not the ten-point height of older standards.
shape: needed`,
		func(w *work, _ []float64) result {
			p, v := w.five(true), w.five(false)
			if math.IsNaN(p.value) {
				return p
			}
			if math.IsNaN(v.value) {
				return v
			}
			p.value += v.value
			if v.reason != "" {
				p.reason = v.reason
			}
			return p
		}, showFive(true, true)},
	// func Rpd(z []float64, dx float64) float64
	//
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
	{`Rpd: density of peaks
in iso-21920, the evaluation length: ISO 21920-2:2021, 5.3 (memory); furrow, watershed pruned at 5 % of Rt (own choice)
formula: Rpd = frac{np}{le}
says: How many peaks pruning leaves on 1 mm.
blind: How high they are. The number depends on the S-filter, the point spacing and the pruning threshold.
shape: needed`,
		ofExtremes((*work).density, true), showDensity(true)},
	// func Rvd(z []float64, dx float64) float64
	//
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
	{`Rvd: density of pits
in iso-21920, the evaluation length: ISO 21920-2:2021, 5.3 (memory); furrow, watershed pruned at 5 % of Rt (own choice)
formula: Rvd = frac{nv}{le}
says: How many pits pruning leaves on 1 mm.
blind: How deep they are. The number depends on the S-filter, the point spacing and the pruning threshold.
shape: needed`,
		ofExtremes((*work).density, false), showDensity(false)},
	// func Rmpc(z []float64, dx float64) float64
	//
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
	{`Rmpc: arithmetic mean peak curvature
in iso-21920, the evaluation length: ISO 21920-2:2021, 5.3 (memory); furrow, watershed pruned at 5 % of Rt (own choice)
formula: Rmpc = frac{1}{np} * sum{i=1}{np}{k2_i}
says: How sharp the peaks are: the mean of one divided by the radius of the circle that fits each peak.
practice: Sharp peaks deform and wear first.
blind: How high they are. It depends strongly on the S-filter: the shorter, the larger. A large tip makes peaks look rounder than they are.
shape: needed`,
		ofExtremes((*work).meanCurvature, true), showCurvature(true)},
	// func Rmvc(z []float64, dx float64) float64
	//
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
	{`Rmvc: arithmetic mean pit curvature
in iso-21920, the evaluation length: ISO 21920-2:2021, 5.3 (memory); furrow, watershed pruned at 5 % of Rt (own choice)
formula: Rmvc = frac{1}{nv} * sum{i=1}{nv}{k2_i}
says: How sharp the pits are: the mean of one divided by the radius of the circle that fits each pit.
blind: How deep they are. It depends strongly on the S-filter: the shorter, the larger. A large tip does not reach the bottom and makes pits look sharper than they are.
shape: needed`,
		ofExtremes((*work).meanCurvature, false), showCurvature(false)},
}

// pruned returns the peaks and pits of the evaluation length that are left after pruning.
func (w *work) pruned() []Extreme {
	if !w.lazy.havePruned {
		e := appendExtremes(w.lazy.extremes.take(countExtremes(w.z))[:0], w.z)
		w.lazy.pruned, w.lazy.havePruned = prune(e, pruneShare*w.pruneReference(), &w.lazy.scratch), true
	}
	return w.lazy.pruned
}

// pruneReference returns the height of which the threshold is a share: Rt, or Rz by choice.
func (w *work) pruneReference() float64 {
	if w.in.Choices.PruneReference == PruneByMaximum {
		return evalMaximumHeight(w, nil).value
	}
	return w.extremes().high - w.extremes().low
}

// topFive returns the highest peaks from the highest down, or the deepest pits from the deepest up, at most five, equals
// from left to right; and how many peaks or pits there are in all.
func (w *work) topFive(peaks bool) (best [5]Extreme, kept, count int) {
	sign := 1.0
	if !peaks {
		sign = -1
	}
	for _, x := range w.pruned() {
		if x.Peak == peaks {
			rank(&best, count, x, func(x Extreme) float64 { return sign * x.Z })
			count++
		}
	}
	return best, min(count, len(best)), count
}

// extremeNoun names peaks or pits in reasons and texts.
func extremeNoun(peaks bool) string {
	if peaks {
		return "peaks"
	}
	return "pits"
}

// ofExtremes makes the evaluator of a function of the peaks or of the pits.
func ofExtremes(f func(w *work, peaks bool) result, peaks bool) evaluator {
	return func(w *work, _ []float64) result { return f(w, peaks) }
}

// five returns the mean of the five largest peak heights or pit depths.
func (w *work) five(peaks bool) result {
	best, kept, count := w.topFive(peaks)
	r := result{}
	if count < 5 {
		reason := "fewer than five " + extremeNoun(peaks) + " are left after pruning (" + strconv.Itoa(count) + ")"
		if w.in.Choices.TooFew != TooFewUseAll || kept == 0 {
			return undefined(reason)
		}
		r.reason = reason + ": the mean is that of all"
	}
	for _, x := range best[:kept] {
		r.value += x.Z
	}
	r.value /= float64(kept)
	if !peaks {
		r.value = -r.value
	}
	return r
}

// density returns the number of peaks or pits per millimetre. Those whose hill or dale reaches the border count too.
func (w *work) density(peaks bool) result {
	count := 0
	for _, x := range w.pruned() {
		if x.Peak == peaks {
			count++
		}
	}
	return value(float64(count) / (float64(w.n) * w.dx) * 1000)
}

// meanCurvature returns the mean of -z″ at the peaks or z″ at the pits, per millimetre.
func (w *work) meanCurvature(peaks bool) result {
	sum, count := 0.0, 0
	for _, x := range w.pruned() {
		if x.Peak == peaks {
			if c, ok := w.curvature(x); ok {
				sum += c
				count++
			}
		}
	}
	if count == 0 {
		return undefined("no " + extremeNoun(peaks) + " are left after pruning that have three points on both sides")
	}
	return value(sum / float64(count))
}

// curvature returns -z″ of a peak or z″ of a pit, per millimetre, from seven points; at a plateau whose middle lies
// between two points the mean of both. It reports false within three points of the end of what was traced.
func (w *work) curvature(x Extreme) (float64, bool) {
	first, last := int(math.Floor(x.At)), int(math.Ceil(x.At))
	sum := 0.0
	for _, i := range [2]int{first, last} {
		var z [7]float64
		for k := range z {
			var ok bool
			if z[k], ok = w.height(i + k - 3); !ok {
				return 0, false
			}
		}
		sum += float64(270*(z[2]+z[4])) - float64(27*(z[1]+z[5])) + float64(2*(z[0]+z[6])) - float64(490*z[3])
	}
	c := sum / 2 / 180 / w.dx / w.dx * 1000
	if x.Peak {
		c = -c
	}
	return c, true
}

// height returns the height of point i, which may lie beyond the ends where the profile goes on.
func (w *work) height(i int) (float64, bool) {
	if i < 0 {
		i += len(w.in.Lead)
		if i < 0 {
			return 0, false
		}
		return w.in.Lead[i], true
	}
	if i < w.n {
		return w.z[i], true
	}
	if i -= w.n; i < len(w.in.Tail) {
		return w.in.Tail[i], true
	}
	return 0, false
}

// at returns an extreme as a point of the profile plane.
func (w *work) at(x Extreme) Point { return Point{float64(x.At * w.dx), x.Z} }

// pruning says what pruning leaves.
func (c *Construction) pruning(w *work) {
	c.step("hills and dales of at least "+percent(pruneShare)+" of "+micrometres(w.pruneReference())+", "+micrometres(pruneShare*w.pruneReference())+
		", stay: "+strconv.Itoa(len(w.pruned()))+" of "+strconv.Itoa(countExtremes(w.z))+" peaks and pits", nan)
}

// extreme adds a step that marks one peak or pit, says where it is, and counts it.
func (c *Construction) extreme(w *work, i int, x Extreme, more string, value float64, marks ...Mark) {
	noun, kind, letter := "pit ", PitMark, "V"
	if x.Peak {
		noun, kind, letter = "peak ", PeakMark, "P"
	}
	number, p := strconv.Itoa(i+1), w.at(x)
	c.step(noun+number+": "+place(p)+more, value, append([]Mark{point(kind, letter+number, p)}, marks...)...)
}

// showFive marks the five highest peaks, the five deepest pits, or both with the levels of their means.
func showFive(peaks, pits bool) constructor {
	return func(w *work, _ []float64, c *Construction) {
		c.pruning(w)
		var means []float64
		for _, isPeak := range []bool{true, false} {
			if isPeak && !peaks || !isPeak && !pits {
				continue
			}
			best, kept, _ := w.topFive(isPeak)
			var heights []float64
			for i, x := range best[:kept] {
				height := x.Z
				if !isPeak {
					height = -x.Z
				}
				heights = append(heights, height)
				var marks []Mark
				if !peaks || !pits {
					marks = []Mark{dimension(micrometres(height), Point{w.at(x).X, 0}, w.at(x))}
				}
				c.extreme(w, i, x, "", height, marks...)
			}
			means = append(means, mean(heights))
			if peaks && pits {
				c.meanAs(c.named(map[bool]string{true: "R5p", false: "R5v"}[isPeak]), mean(heights), c.Unit, heights)
			} else {
				c.mean(heights)
			}
		}
		if len(means) == 2 {
			middle, l := w.length()/2, w.length()
			c.step("the two means are "+micrometres(c.Result)+" apart", c.Result, level(c.named("R5p"), 0, l, means[0]), level(c.named("R5v"), 0, l, -means[1]),
				dimension(c.Symbol, Point{middle, -means[1]}, Point{middle, means[0]}))
			c.work("{1} + {2}", means...)
		}
	}
}

// showDensity marks every peak or pit that is left after pruning, and 1 mm.
func showDensity(peaks bool) constructor {
	return func(w *work, _ []float64, c *Construction) {
		c.pruning(w)
		count := 0
		for _, x := range w.pruned() {
			if x.Peak == peaks {
				c.extreme(w, count, x, "", nan)
				count++
			}
		}
		c.millimetre(w, strconv.Itoa(count)+" "+extremeNoun(peaks)+" on "+millimetres(w.length()))
		c.work("{1} / ({2} · {3}) · 1000", float64(count), float64(w.n), w.dx)
	}
}

// millimetre adds a ruler of 1 mm under the profile, or of what there is of it, with a text of what it is for.
func (c *Construction) millimetre(w *work, text string) {
	low, end := w.extremes().low, min(1000, w.length())
	label := "1 mm"
	if end < 1000 {
		label = millimetres(end) + " of 1 mm"
	}
	c.step(text+", for 1 mm", c.Result, dimension(label, Point{0, low}, Point{end, low}))
}

// showCurvature marks every peak or pit with its seven points and its curvature, drawn as the parabola through the middle.
func showCurvature(peaks bool) constructor {
	return func(w *work, _ []float64, c *Construction) {
		c.pruning(w)
		var terms []float64
		for _, x := range w.pruned() {
			curvature, ok := w.curvature(x)
			if x.Peak != peaks || !ok {
				continue
			}
			bend := curvature / 1000 / 2
			if x.Peak {
				bend = -bend
			}
			var arc []Point
			var dots []Mark
			for k := -3; k <= 3; k++ {
				d := float64(float64(k) * w.dx)
				arc = append(arc, Point{w.at(x).X + d, x.Z + float64(bend*d*d)})
				if i := int(x.At) + k; i >= 0 && i < w.n {
					dots = append(dots, point(PointMark, "", w.pointAt(i)))
				}
			}
			c.extreme(w, len(terms), x, ", curvature "+inWords(curvature)+"/mm, radius "+inWords(1/curvature)+" mm", curvature,
				append(dots, line("κ = "+inWords(curvature)+"/mm", arc...))...)
			terms = append(terms, curvature)
		}
		c.mean(terms)
	}
}
