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
			{Editions: editions4287, Over: SectionMean, Refs: refs(iso4287("4.3.1"), excerpt4287("3.2.6")), eval: sampledMean(spacingOf), construct: constructSampled(spacingOf, theMean)},
			{Editions: editionsASME, Over: EvaluationLength, Refs: refs(asme()), eval: sampledOverall(spacingOf), construct: constructOverall(spacingOf, theMean)},
			{Editions: editionsJIS1994, Over: SectionMean, Refs: refs(jis1994()), eval: sampledMean(spacingOf), construct: constructSampled(spacingOf, theMean)},
		},
		Formula:   "1/m Σ Xsᵢ",
		Sentence:  "How far apart hills stand: the mean width of a hill with its neighbouring dale, where both are high enough to count.",
		Blind:     "How high they are, and all that is finer than a tenth of the height.",
		construct: constructElements(spacingOf, theMean),
	},
	{
		Key: "Rsmx", Name: "maximum profile element spacing", Group: GroupSpacing,
		Meanings:  []Meaning{{Editions: editions21920, Over: EvaluationLength, Refs: elements21920}},
		Formula:   "max Xsᵢ",
		Sentence:  "The widest hill with its neighbouring dale.",
		Blind:     "All the others.",
		eval:      elementLargest(spacingOf),
		construct: constructElements(spacingOf, theLargest),
	},
	{
		Key: "Rsmq", Name: "standard deviation of profile element spacings", Group: GroupSpacing,
		Meanings:  []Meaning{{Editions: editions21920, Over: EvaluationLength, Refs: elements21920}},
		Formula:   "√(1/m Σ (Xsᵢ - Rsm)²)",
		Sentence:  "How evenly hills are spaced: near zero for a turned surface, near Rsm for a ground one.",
		Blind:     "The order in which they stand.",
		eval:      elementDeviation(spacingOf),
		construct: constructElements(spacingOf, theDeviation),
	},
	{
		Key: "Rc", Name: "mean profile element height", Group: GroupSpacing,
		Meanings: []Meaning{
			{Editions: editions21920, Over: EvaluationLength, Refs: elements21920, eval: elementMean(heightOf)},
			{Editions: editions4287, Over: SectionMean, Refs: refs(iso4287("4.1.4"), excerpt4287("3.2.6")), eval: sampledMean(heightOf), construct: constructSampled(heightOf, theMean)},
		},
		Formula:   "1/m Σ Ztᵢ",
		Sentence:  "The mean height of a hill over its neighbouring dale: what Rz would be if no hill stood out.",
		Blind:     "The highest and the lowest, which only enter the mean.",
		construct: constructElements(heightOf, theMean),
	},
	{
		Key: "Rcx", Name: "maximum profile element height", Group: GroupSpacing,
		Meanings:  []Meaning{{Editions: editions21920, Over: EvaluationLength, Refs: elements21920}},
		Formula:   "max Ztᵢ",
		Sentence:  "The height of the highest hill over its neighbouring dale.",
		Blind:     "All the others.",
		eval:      elementLargest(heightOf),
		construct: constructElements(heightOf, theLargest),
	},
	{
		Key: "Rcq", Name: "standard deviation of profile element heights", Group: GroupSpacing,
		Meanings:  []Meaning{{Editions: editions21920, Over: EvaluationLength, Refs: elements21920}},
		Formula:   "√(1/m Σ (Ztᵢ - Rc)²)",
		Sentence:  "How alike the hills are in height.",
		Blind:     "The order in which they stand.",
		eval:      elementDeviation(heightOf),
		construct: constructElements(heightOf, theDeviation),
	},
	{
		Key: "Rpc", Name: "peak count parameter", Group: GroupSpacing,
		Meanings: []Meaning{
			{Editions: editions21920, Over: EvaluationLength, Refs: elements21920, eval: perCentimetre(elementMean(spacingOf))},
			{Editions: editions4287, Over: SectionMean, Refs: refs(iso4287("4.3.2")),
				eval: perCentimetre(sampledMean(spacingOf)), construct: constructSampled(spacingOf, theCount)},
		},
		Formula:   "10 mm / Rsm",
		Sentence:  "How many profile elements stand on 10 mm, by their mean spacing.",
		Blind:     "What Rsm does not see. It is not the count of peaks through a band of EN 10049, which is RPc with two heights in brackets.",
		construct: constructElements(spacingOf, theCount),
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

// sampledMean is the mean per sampling length, then over those that have an element.
func sampledMean(of attribute) evaluator {
	return func(w *work, _ []float64) result {
		e := w.samplingElements()
		if e.reason != "" {
			return undefined(e.reason)
		}
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

// sampledOverall is the mean over all elements of the evaluation length.
func sampledOverall(of attribute) evaluator {
	return func(w *work, _ []float64) result {
		e := w.samplingElements()
		if e.reason != "" {
			return undefined(e.reason)
		}
		return value(mean(w.attributes(e.list, of)))
	}
}

// perCentimetre turns a spacing in µm into a count on 10 mm.
func perCentimetre(spacing evaluator) evaluator {
	return func(w *work, a []float64) result {
		r := spacing(w, a)
		r.value = 1e4 / r.value
		for k, v := range r.sections {
			r.sections[k] = 1e4 / v
		}
		return r
	}
}
