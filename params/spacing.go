package params

import "math"

var (
	// elements21920 is where ISO 21920-2 treats profile elements; which height the 10 % refer to is not public.
	elements21920 = refs(memory21920("5.2"), ownChoice("thresholds and order of merging"))
)

// spacingRows are the parameters of profile elements.
var spacingRows = []Parameter{
	{
		Key: "Rsm", Name: "mean profile element spacing", Group: GroupSpacing,
		Meanings: []Meaning{
			{Editions: editions21920, Over: EvaluationLength, Refs: elements21920, eval: elementMean(spacingOf)},
			{Editions: editions4287, Over: SectionMean, Refs: refs(iso4287("4.3.1"), excerpt4287("3.2.6")), eval: sampledMean(spacingOf), construct: constructSampled(theWidth, theMean)},
			{Editions: editionsASME, Over: EvaluationLength, Refs: refs(asme()), eval: sampledOverall(spacingOf), construct: constructOverall(theWidth, theMean)},
			{Editions: editionsJIS1994, Over: SectionMean, Refs: refs(jis1994()), eval: sampledMean(spacingOf), construct: constructSampled(theWidth, theMean)},
		},
		Formula:   "Rsm = frac{1}{m} * sum{i=1}{m}{Xs_i}",
		Sentence:  "The mean width of a hill together with the dale beside it. Hills and dales that are too small to count are joined to their neighbours first.",
		Practice:  "On a turned surface with clean feed marks it is near the feed. A small value means a fine pattern.",
		Blind:     "Heights, as long as the same hills and dales count. Too small in ISO 21920: below 10 % of Rp or Rv (own choice); in ISO 4287: below 10 % of Rz, or narrower than 1 % of a section. One high speck raises the threshold, and Rsm can become many times larger.",
		construct: constructElements(theWidth, theMean),
	},
	{
		Key: "Rsmx", Name: "maximum profile element spacing", Group: GroupSpacing,
		Meanings:  []Meaning{{Editions: editions21920, Over: EvaluationLength, Refs: elements21920}},
		Formula:   "Rsmx = max{i}{Xs_i}",
		Sentence:  "The width of the widest profile element.",
		Blind:     "All other elements.",
		eval:      elementLargest(spacingOf),
		construct: constructElements(theWidth, theLargest),
	},
	{
		Key: "Rsmq", Name: "standard deviation of profile element spacings", Group: GroupSpacing,
		Meanings:  []Meaning{{Editions: editions21920, Over: EvaluationLength, Refs: elements21920}},
		Formula:   "Rsmq = sqrt{frac{1}{m} * sum{i=1}{m}{(Xs_i - Rsm)^{2}}}",
		Sentence:  "How much the widths of the profile elements differ from their mean.",
		Practice:  "Near zero for a turned surface, about 0.4 to 0.8 of Rsm for a ground one.",
		Blind:     "The order of the elements along the trace.",
		eval:      elementDeviation(spacingOf),
		construct: constructElements(theWidth, theDeviation),
	},
	{
		Key: "Rc", Name: "mean profile element height", Group: GroupSpacing,
		Meanings: []Meaning{
			{Editions: editions21920, Over: EvaluationLength, Refs: elements21920, eval: elementMean(heightOf)},
			{Editions: editions4287, Over: SectionMean, Refs: refs(iso4287("4.1.4"), excerpt4287("3.2.6")), eval: sampledMean(heightOf), construct: constructSampled(theHeight, theMean)},
		},
		Formula:   "Rc = frac{1}{m} * sum{i=1}{m}{Zt_i}",
		Sentence:  "The mean height of the profile elements: each hill plus the dale beside it.",
		Practice:  "Near Rz where all elements are alike, as on a turned surface; clearly below Rz on a ground one.",
		Blind:     "Which element is the highest, and every hill or dale below the thresholds.",
		construct: constructElements(theHeight, theMean),
	},
	{
		Key: "Rcx", Name: "maximum profile element height", Group: GroupSpacing,
		Meanings:  []Meaning{{Editions: editions21920, Over: EvaluationLength, Refs: elements21920}},
		Formula:   "Rcx = max{i}{Zt_i}",
		Sentence:  "The height of the highest profile element.",
		Blind:     "All other elements.",
		eval:      elementLargest(heightOf),
		construct: constructElements(theHeight, theLargest),
	},
	{
		Key: "Rcq", Name: "standard deviation of profile element heights", Group: GroupSpacing,
		Meanings:  []Meaning{{Editions: editions21920, Over: EvaluationLength, Refs: elements21920}},
		Formula:   "Rcq = sqrt{frac{1}{m} * sum{i=1}{m}{(Zt_i - Rc)^{2}}}",
		Sentence:  "How much the heights of the profile elements differ from their mean.",
		Practice:  "Near zero for a regular surface, such as a turned one.",
		Blind:     "The order of the elements along the trace.",
		eval:      elementDeviation(heightOf),
		construct: constructElements(theHeight, theDeviation),
	},
	{
		Key: "Rpc", Name: "peak count parameter", Group: GroupSpacing,
		Meanings: []Meaning{
			{Editions: editions21920, Over: EvaluationLength, Refs: elements21920, eval: countOf(elementMean(spacingOf))},
			{Editions: editions4287, Over: SectionMean, Refs: refs(iso4287("4.3.2")),
				eval: sampledCount(), construct: constructSampled(theWidth, theCount)},
		},
		Formula:   "Rpc = frac{L}{Rsm}",
		Sentence:  "How many profile elements fit side by side on 10 mm at their mean spacing.",
		Practice:  "Stated for sheet that is painted or formed.",
		Blind:     "Heights, as with Rsm. It is calculated from the mean spacing, not counted; RPc with two heights in brackets is counted.",
		construct: constructElements(theWidth, theCount),
	},
}

// spacingOf and heightOf are the two attributes of an element.
func spacingOf(w *work, e *element) float64 { return e.spacing() * w.dx }
func heightOf(_ *work, e *element) float64  { return e.height() }

type attribute func(w *work, e *element) float64

func (w *work) attributes(list []element, of attribute) []float64 {
	s := w.floats(len(list))
	for i := range list {
		s[i] = of(w, &list[i])
	}
	return s
}

// overElements makes an evaluator of a function of an attribute of the elements of ISO 21920.
func overElements(of attribute, f func(w *work, s []float64) float64) evaluator {
	return func(w *work, _ []float64) result {
		e := w.profileElements()
		if e.reason != "" {
			return undefined(e.reason)
		}
		return value(f(w, w.attributes(e.list, of)))
	}
}

func elementMean(of attribute) evaluator {
	return overElements(of, func(_ *work, s []float64) float64 { return mean(s) })
}

func elementLargest(of attribute) evaluator {
	return overElements(of, func(_ *work, s []float64) float64 { return largestAbsolute(s) })
}

func elementDeviation(of attribute) evaluator {
	inner := overElements(of, func(w *work, s []float64) float64 { return deviation(s, mean(s), w.in.Choices.Deviation) })
	return func(w *work, a []float64) result {
		r := inner(w, a)
		if r.reason == "" && math.IsNaN(r.value) {
			return undefined("a standard deviation with the divisor n - 1 needs two elements")
		}
		return r
	}
}

// A reading makes a result of elements.
type reading func(w *work, e *elements) result

// sampledMean evaluates the mean per sampling length, then over those that have an element.
func sampledMean(of attribute) evaluator { return byWidth(" µm", meanPerSection(of)) }

// sampledCount evaluates the count on 10 mm from the mean spacing.
func sampledCount() evaluator {
	spacing := meanPerSection(spacingOf)
	return byWidth(" per 10 mm", func(w *work, e *elements) result { return inCentimetre(spacing(w, e)) })
}

func meanPerSection(of attribute) reading {
	return func(w *work, e *elements) result {
		s, n := w.perSection(), w.ints(w.count)
		for i := range e.list {
			s[e.sections[i]] += of(w, &e.list[i])
			n[e.sections[i]]++
		}
		for k := range s {
			s[k] /= float64(n[k]) // 0/0 where there is none
		}
		return meanOfDefined(s, "has no element", reasonNoElement)
	}
}

// sampledOverall evaluates the mean over all elements of the evaluation length.
func sampledOverall(of attribute) evaluator {
	return byWidth(" µm", func(w *work, e *elements) result { return value(mean(w.attributes(e.list, of))) })
}

// widthShare is the share of a value by which another reading of the least width must differ to be told (own choice).
const widthShare = 0.1

// byWidth makes the evaluator of a reading of the elements of ISO 4287. Where it matters much what the least width is asked of, the note
// gives the value of each reading.
func byWidth(unit string, f reading) evaluator {
	return func(w *work, _ []float64) result {
		var all [3]result
		own := w.in.Choices.ElementWidth
		for of := range all {
			all[of] = undefined(w.elementsByWidth(ElementWidth(of)).reason)
			if all[of].reason == "" {
				all[of] = f(w, w.elementsByWidth(ElementWidth(of)))
			}
		}
		r := all[own]
		for _, other := range all {
			if d := math.Abs(other.value - r.value); d > widthShare*math.Abs(r.value) || math.IsNaN(d) && !(math.IsNaN(r.value) && math.IsNaN(other.value)) {
				r.note = widthNote(&all, own, unit)
			}
		}
		return r
	}
}

func widthNote(all *[3]result, own ElementWidth, unit string) string {
	var said [3]string
	for of, r := range all {
		said[of] = "no value"
		if !math.IsNaN(r.value) {
			said[of] = digits(r.value, 3) + unit
		}
	}
	return "the text does not say clearly what must be 1 % of the section wide: each hill and each dale gives " + said[WidthOfPart] +
		", the profile element " + said[WidthOfElement] + ", no least width " + said[WidthNotAsked] +
		"; the value here is that of " + [...]string{"each hill and each dale", "the profile element", "no least width"}[own] + " (rsm_width)"
}

// countOf turns the spacing of an evaluator into a count on 10 mm.
func countOf(spacing evaluator) evaluator {
	return func(w *work, a []float64) result { return inCentimetre(spacing(w, a)) }
}

// inCentimetre turns a spacing in µm into a count on 10 mm.
func inCentimetre(r result) result {
	r.value = 1e4 / r.value
	for k, v := range r.sections {
		r.sections[k] = 1e4 / v
	}
	return r
}
