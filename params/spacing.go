package params

import (
	"math"
	"slices"
	"strconv"
)

var (
	// elements21920 is where ISO 21920-2 treats profile elements; which height the 10 % refer to is not public.
	elements21920 = refs(memory21920("5.2"), ownChoice("thresholds and order of merging"))
)

// spacingRows are the parameters of profile elements.
var spacingRows = []Parameter{
	// func Rsm(z []float64, dx float64, section int) float64
	//
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
	{
		Key: "Rsm", Name: "mean profile element spacing",
		Meanings: []Meaning{
			{editions21920, EvaluationLength, elements21920, meanSpacing, nil},
			{editions4287, SectionMean, refs(iso4287("4.3.1"), excerpt4287("3.2.6")), sampledMean(theWidth), constructSampled(theWidth, theMean)},
			{editionsASME, EvaluationLength, refs(asme()), sampledOverall, constructOverall},
			{editionsJIS1994, SectionMean, refs(jis1994()), sampledMean(theWidth), constructSampled(theWidth, theMean)},
		},
		Formula:   "Rsm = frac{1}{m} * sum{i=1}{m}{Xs_i}",
		Sentence:  "The mean width of a hill together with the dale beside it. Hills and dales that are too small to count are joined to their neighbours first.",
		Practice:  "On a turned surface with clean feed marks it is near the feed. A small value means a fine pattern.",
		Blind:     "Heights, as long as the same hills and dales count. Too small in ISO 21920: below 10 % of Rp or Rv (own choice); in ISO 4287: below 10 % of Rz, or narrower than 1 % of a section. One high speck raises the threshold, and Rsm can become many times larger.",
		construct: constructElements(theWidth, theMean),
	},
	// func Rsmx(z []float64, dx float64, section int) float64
	//
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
	{
		Key: "Rsmx", Name: "maximum profile element spacing",
		Meanings:  []Meaning{meaning(editions21920, EvaluationLength, elements21920...)},
		Formula:   "Rsmx = max{i}{Xs_i}",
		Sentence:  "The width of the widest profile element.",
		Blind:     "All other elements.",
		eval:      elementLargest(theWidth),
		construct: constructElements(theWidth, theLargest),
	},
	// func Rsmq(z []float64, dx float64, section int) float64
	//
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
	{
		Key: "Rsmq", Name: "standard deviation of profile element spacings",
		Meanings:  []Meaning{meaning(editions21920, EvaluationLength, elements21920...)},
		Formula:   "Rsmq = sqrt{frac{1}{m} * sum{i=1}{m}{(Xs_i - Rsm)^{2}}}",
		Sentence:  "How much the widths of the profile elements differ from their mean.",
		Practice:  "Near zero for a turned surface, about 0.4 to 0.8 of Rsm for a ground one.",
		Blind:     "The order of the elements along the trace.",
		eval:      elementDeviation(theWidth),
		construct: constructElements(theWidth, theDeviation),
	},
	// func Rc(z []float64, section int) float64
	//
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
	{
		Key: "Rc", Name: "mean profile element height",
		Meanings: []Meaning{
			{editions21920, EvaluationLength, elements21920, elementMean(theHeight), nil},
			{editions4287, SectionMean, refs(iso4287("4.1.4"), excerpt4287("3.2.6")), sampledMean(theHeight), constructSampled(theHeight, theMean)},
		},
		Formula:   "Rc = frac{1}{m} * sum{i=1}{m}{Zt_i}",
		Sentence:  "The mean height of the profile elements: each hill plus the dale beside it.",
		Practice:  "Near Rz where all elements are alike, as on a turned surface; clearly below Rz on a ground one.",
		Blind:     "Which element is the highest, and every hill or dale below the thresholds.",
		construct: constructElements(theHeight, theMean),
	},
	// func Rcx(z []float64, section int) float64
	//
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
	{
		Key: "Rcx", Name: "maximum profile element height",
		Meanings:  []Meaning{meaning(editions21920, EvaluationLength, elements21920...)},
		Formula:   "Rcx = max{i}{Zt_i}",
		Sentence:  "The height of the highest profile element.",
		Blind:     "All other elements.",
		eval:      elementLargest(theHeight),
		construct: constructElements(theHeight, theLargest),
	},
	// func Rcq(z []float64, section int) float64
	//
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
	{
		Key: "Rcq", Name: "standard deviation of profile element heights",
		Meanings:  []Meaning{meaning(editions21920, EvaluationLength, elements21920...)},
		Formula:   "Rcq = sqrt{frac{1}{m} * sum{i=1}{m}{(Zt_i - Rc)^{2}}}",
		Sentence:  "How much the heights of the profile elements differ from their mean.",
		Practice:  "Near zero for a regular surface, such as a turned one.",
		Blind:     "The order of the elements along the trace.",
		eval:      elementDeviation(theHeight),
		construct: constructElements(theHeight, theDeviation),
	},
	// func Rpc(z []float64, dx float64, section int) float64
	//
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
	{
		Key: "Rpc", Name: "peak count parameter",
		Meanings: []Meaning{
			{editions21920, EvaluationLength, elements21920, elementCount, nil},
			{editions4287, SectionMean, refs(iso4287("4.3.2")), sampledCount, constructSampled(theWidth, theCount)},
		},
		Formula:   "Rpc = frac{L}{Rsm}",
		Sentence:  "How many profile elements fit side by side on 10 mm at their mean spacing.",
		Practice:  "Stated for sheet that is painted or formed.",
		Blind:     "Heights, as with Rsm. It is calculated from the mean spacing, not counted; RPc with two heights in brackets is counted.",
		construct: constructElements(theWidth, theCount),
	},
}

// A measure is an attribute of the elements.
type measure uint8

const (
	theWidth measure = iota
	theHeight
)

// of returns the attribute of an element.
func (m measure) of(w *work, e *element) float64 {
	if m == theWidth {
		return e.spacing() * w.dx
	}
	return e.height()
}

// all returns that of each element.
func (m measure) all(w *work, list []element) []float64 {
	s := w.floats(len(list))
	for i := range list {
		s[i] = m.of(w, &list[i])
	}
	return s
}

// overElements makes an evaluator of a function of an attribute of the elements of ISO 21920.
func overElements(m measure, f func(w *work, s []float64) float64) evaluator {
	return func(w *work, _ []float64) result {
		e := w.profileElements()
		if e.reason != "" {
			return undefined(e.reason)
		}
		return value(f(w, m.all(w, e.list)))
	}
}

func elementMean(m measure) evaluator {
	return overElements(m, func(_ *work, s []float64) float64 { return mean(s) })
}

func elementLargest(m measure) evaluator {
	return overElements(m, func(_ *work, s []float64) float64 { return largest(s) })
}

func elementDeviation(m measure) evaluator {
	inner := overElements(m, func(w *work, s []float64) float64 { return spread(s, w.in.Choices.Deviation) })
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
func sampledMean(m measure) evaluator { return byWidth(" µm", m.meanPerSection) }

// sampledCount evaluates the count on 10 mm from the mean spacing.
var sampledCount = byWidth(" per 10 mm", func(w *work, e *elements) result { return inCentimetre(theWidth.meanPerSection(w, e)) })

func (m measure) meanPerSection(w *work, e *elements) result {
	s, n := w.perSection(), w.ints(w.count)
	for i := range e.list {
		s[e.sections[i]] += m.of(w, &e.list[i])
		n[e.sections[i]]++
	}
	for k := range s {
		s[k] /= float64(n[k]) // 0/0 where there is none
	}
	return meanOfDefined(s, "has no element", reasonNoElement)
}

// sampledOverall evaluates the mean width over all elements of the evaluation length.
var sampledOverall = byWidth(" µm", func(w *work, e *elements) result { return value(mean(theWidth.all(w, e.list))) })

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

var meanSpacing = elementMean(theWidth)

func elementCount(w *work, a []float64) result { return inCentimetre(meanSpacing(w, a)) }

// inCentimetre turns a spacing in µm into a count on 10 mm.
func inCentimetre(r result) result {
	r.value = 1e4 / r.value
	for k, v := range r.sections {
		r.sections[k] = 1e4 / v
	}
	return r
}

// A statistic is what is made of an attribute of the elements.
type statistic uint8

const (
	theMean statistic = iota
	theLargest
	theDeviation
	theCount
)

// constructElements shows the profile elements of ISO 21920 one by one.
func constructElements(m measure, s statistic) constructor {
	return func(w *work, _ []float64, c *Construction) { w.constructList(c, w.profileElements(), m, s) }
}

// constructSampled shows those of ISO 4287.
func constructSampled(m measure, s statistic) constructor {
	return func(w *work, _ []float64, c *Construction) { w.constructList(c, w.samplingElements(), m, s) }
}

// constructOverall shows their widths for a mean over all, whatever their section.
func constructOverall(w *work, _ []float64, c *Construction) {
	e := *w.samplingElements()
	e.sections = nil
	w.constructList(c, &e, theWidth, theMean)
}

func (w *work) constructList(c *Construction, e *elements, m measure, s statistic) {
	if e.limits.hill > 0 || e.limits.dale > 0 {
		c.step("a hill counts from "+micrometres(e.limits.hill)+", a dale from "+micrometres(e.limits.dale)+w.widthText(e.limits), nan,
			level("least hill", 0, w.length(), e.limits.hill),
			level("least dale", 0, w.length(), -e.limits.dale))
	}
	values := m.all(w, e.list)
	for i := range e.list {
		s := w.elementStep(&e.list[i], i+1, m)
		s.Value = values[i]
		if e.sections == nil {
			c.add(s)
			continue
		}
		s.Text = ", " + s.Text
		c.section(e.sections[i], s)
	}
	w.workElements(c, e, m, values, s)
}

// widthText says what least width is asked of what, if any.
func (w *work) widthText(d discrimination) string {
	if d.width == 0 {
		return ""
	}
	of := "each"
	if d.of == WidthOfElement {
		of = "an element"
	}
	return ", " + of + " from a width of " + micrometres(d.width*w.dx)
}

// workElements adds the calculation: per section first where sections are evaluated one by one.
func (w *work) workElements(c *Construction, e *elements, m measure, values []float64, s statistic) {
	switch s {
	case theMean, theCount:
		terms := values
		if e.sections != nil {
			terms = slices.DeleteFunc(m.meanPerSection(w, e).sections, math.IsNaN)
		}
		form := meanForm(len(terms))
		if s == theCount {
			form = "10 000 µm / (" + form + ")"
		}
		c.work(form, terms...)
	case theLargest:
		c.work("{1}", c.Result)
	case theDeviation:
		c.deviation(values, w.in.Choices.Deviation)
	}
}

// elementStep marks the crossings, the peak and the pit of an element, and its width or its height.
func (w *work) elementStep(e *element, number int, m measure) Step {
	hill, dale := e.first, e.second
	if !hill.hill {
		hill, dale = dale, hill
	}
	peak, pit := w.pointAt(hill.top), w.pointAt(dale.top)
	from, middle, to := e.first.from*w.dx, e.first.to*w.dx, e.second.to*w.dx
	s := step("element "+strconv.Itoa(number)+": from "+millimetres(from)+" to "+millimetres(to), nan,
		point(PointMark, "", Point{from, 0}), point(PointMark, "", Point{middle, 0}), point(PointMark, "", Point{to, 0}))
	if m == theWidth {
		s.Text += ", " + micrometres(to-from) + " wide"
		s.Marks = append(s.Marks, dimension(micrometres(to-from), Point{from, 0}, Point{to, 0}))
		return s
	}
	beside := peak.X
	if math.Abs(pit.X-to) < math.Abs(peak.X-to) {
		beside = pit.X
	}
	s.Text += ", peak " + place(peak) + ", pit " + place(pit) + ", " + micrometres(e.height()) + " high"
	s.Marks = append(s.Marks,
		point(PeakMark, "", peak), point(PitMark, "", pit),
		dimension(micrometres(e.height()), Point{beside, pit.Y}, Point{beside, peak.Y}))
	return s
}
