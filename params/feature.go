package params

import (
	"math"
	"strconv"

	"example.com/furrow/standards"
)

// pruneShare is the share of the reference height that hills and dales must reach locally to stay.
const pruneShare = 0.05

func featureRow(p Parameter, basis standards.Basis) Parameter {
	p.shape = true
	p.Meanings = []Meaning{meaning(editions21920, EvaluationLength, standards.Ref{Doc: "ISO 21920-2:2021", Clause: "5.3", Basis: basis}, ownChoice("watershed pruned at 5 % of Rt"))}
	return p
}

var featureRows = []Parameter{
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
	featureRow(Parameter{
		Key: "R5p", Name: "five-point peak height",
		Formula:  "R5p = frac{1}{5} * sum{i=1}{5}{P_i}",
		Sentence: "The mean height, above the reference line, of the five highest peaks that pruning leaves in the whole evaluation length.",
		Blind:    "All other peaks, and how steep the five are.",
		eval:     ofExtremes((*work).five, true), construct: showFive(true, false),
	}, standards.Memory),
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
	featureRow(Parameter{
		Key: "R5v", Name: "five-point pit depth",
		Formula:  "R5v = frac{1}{5} * sum{i=1}{5}{V_i}",
		Sentence: "The mean depth, below the reference line, of the five deepest pits that pruning leaves in the whole evaluation length.",
		Blind:    "All other pits, and how wide the five are.",
		eval:     ofExtremes((*work).five, false), construct: showFive(false, true),
	}, standards.Memory),
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
	featureRow(Parameter{
		Key: "R10z", Name: "ten-point height",
		Formula:  "R10z = R5p + R5v",
		Sentence: "The mean height of the five highest peaks plus the mean depth of the five deepest pits that pruning leaves in the whole evaluation length.",
		Practice: "A single high speck changes it by about a fifth of what it changes Rt.",
		Blind:    "How the ten are spread along the trace. A very high speck raises the pruning threshold; then other peaks drop out, and with fewer than five it is not defined. It is not the ten-point height of older standards.",
		eval: func(w *work, _ []float64) result {
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
		},
		construct: showFive(true, true),
	}, standards.Excerpt),
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
	featureRow(Parameter{
		Key: "Rpd", Name: "density of peaks",
		Formula:  "Rpd = frac{np}{le}",
		Sentence: "How many peaks pruning leaves on 1 mm.",
		Blind:    "How high they are. The number depends on the S-filter, the point spacing and the pruning threshold.",
		eval:     ofExtremes((*work).density, true), construct: showDensity(true),
	}, standards.Memory),
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
	featureRow(Parameter{
		Key: "Rvd", Name: "density of pits",
		Formula:  "Rvd = frac{nv}{le}",
		Sentence: "How many pits pruning leaves on 1 mm.",
		Blind:    "How deep they are. The number depends on the S-filter, the point spacing and the pruning threshold.",
		eval:     ofExtremes((*work).density, false), construct: showDensity(false),
	}, standards.Memory),
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
	featureRow(Parameter{
		Key: "Rmpc", Name: "arithmetic mean peak curvature",
		Formula:  "Rmpc = frac{1}{np} * sum{i=1}{np}{k2_i}",
		Sentence: "How sharp the peaks are: the mean of one divided by the radius of the circle that fits each peak.",
		Practice: "Sharp peaks deform and wear first.",
		Blind:    "How high they are. It depends strongly on the S-filter: the shorter, the larger. A large tip makes peaks look rounder than they are.",
		eval:     ofExtremes((*work).meanCurvature, true), construct: showCurvature(true),
	}, standards.Memory),
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
	featureRow(Parameter{
		Key: "Rmvc", Name: "arithmetic mean pit curvature",
		Formula:  "Rmvc = frac{1}{nv} * sum{i=1}{nv}{k2_i}",
		Sentence: "How sharp the pits are: the mean of one divided by the radius of the circle that fits each pit.",
		Blind:    "How deep they are. It depends strongly on the S-filter: the shorter, the larger. A large tip does not reach the bottom and makes pits look sharper than they are.",
		eval:     ofExtremes((*work).meanCurvature, false), construct: showCurvature(false),
	}, standards.Memory),
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
func (w *work) at(x Extreme) Point { return Point{x.At * w.dx, x.Z} }

// extremeStep marks one peak or pit and says where it is.
func (w *work) extremeStep(i int, x Extreme) Step {
	noun, kind := "pit ", PitMark
	if x.Peak {
		noun, kind = "peak ", PeakMark
	}
	number, p := strconv.Itoa(i+1), w.at(x)
	return step(noun+number+": "+place(p), nan, point(kind, number, p))
}

// showFive marks the five highest peaks, the five deepest pits, or both.
func showFive(peaks, pits bool) constructor {
	return func(w *work, _ []float64, c *Construction) {
		var terms []float64
		half := func(isPeak bool) {
			best, kept, _ := w.topFive(isPeak)
			var heights []float64
			for i, x := range best[:kept] {
				step := w.extremeStep(i, x)
				step.Value = x.Z
				if !isPeak {
					step.Value = -x.Z
				}
				heights = append(heights, step.Value)
				step.Marks = append(step.Marks, dimension("", Point{w.at(x).X, 0}, w.at(x)))
				c.add(step)
			}
			symbol := "mean pit depth of "
			if isPeak {
				symbol = "mean peak height of "
			}
			terms = append(terms, mean(heights))
			c.workAs(symbol+strconv.Itoa(kept), mean(heights), meanForm(kept), heights...)
		}
		if peaks {
			half(true)
		}
		if pits {
			half(false)
		}
		if len(terms) == 2 {
			c.work("{1} + {2}", terms...)
		} else {
			c.Worked[0].Symbol = c.Symbol
		}
	}
}

// showDensity marks every peak or pit that is left after pruning.
func showDensity(peaks bool) constructor {
	return func(w *work, _ []float64, c *Construction) {
		count := 0
		for _, x := range w.pruned() {
			if x.Peak == peaks {
				c.add(w.extremeStep(count, x))
				count++
			}
		}
		c.work("{1} / ({2} · {3}) · 1000", float64(count), float64(w.n), w.dx)
	}
}

// showCurvature marks every peak or pit with its curvature, drawn as the parabola through three points around it.
func showCurvature(peaks bool) constructor {
	return func(w *work, _ []float64, c *Construction) {
		var terms []float64
		for _, x := range w.pruned() {
			if x.Peak != peaks {
				continue
			}
			curvature, ok := w.curvature(x)
			if !ok {
				continue
			}
			step := w.extremeStep(len(terms), x)
			step.Text += ", curvature " + inWords(curvature) + "/mm, radius " + inWords(1/curvature) + " mm"
			step.Value = curvature
			bend := curvature / 1000 / 2
			if x.Peak {
				bend = -bend
			}
			var arc []Point
			for k := -3; k <= 3; k++ {
				d := float64(k) * w.dx
				arc = append(arc, Point{w.at(x).X + d, x.Z + float64(bend*d*d)})
			}
			step.Marks = append(step.Marks, line("", arc...))
			terms = append(terms, curvature)
			c.add(step)
		}
		c.mean(terms)
	}
}
