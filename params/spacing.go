package params

import (
	"math"
	"slices"
	"strconv"

	"example.com/furrow/standards"
)

// spacingRows are the parameters of profile elements. Which height the 10 % of ISO 21920-2 refer to is not public.
var spacingRows = []row{
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
	{`Rsm: mean profile element spacing
in iso-21920, the evaluation length: ISO 21920-2:2021, 5.2 (memory); furrow, thresholds and order of merging (own choice)
in iso-4287 jis-b0601-2013, each section, then the mean: ISO 4287:1997, 4.3.1 (memory); ISO 4287:1997, 3.2.6 (excerpt)
in asme-b46.1, the evaluation length: ASME B46.1-2009, 1-4 (memory)
in jis-b0601-1994, each section, then the mean: JIS B 0601:1994 (excerpt)
formula: Rsm = frac{1}{m} * sum{i=1}{m}{Xs_i}
says: The mean width of a hill together with the dale beside it. Hills and dales that are too small to count are joined to their neighbours first.
practice: On a turned surface with clean feed marks it is near the feed. A small value means a fine pattern.
blind: Heights, as long as the same hills and dales count. Too small in ISO 21920: below 10 % of Rp or Rv (own choice); in ISO 4287: below 10 % of Rz, or narrower than 1 % of a section. One high speck raises the threshold, and Rsm can become many times larger.`,
		ofElements(theWidth, theMean), constructElements(theWidth, theMean)},
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
	{`Rsmx: maximum profile element spacing
in iso-21920, the evaluation length: ISO 21920-2:2021, 5.2 (memory); furrow, thresholds and order of merging (own choice)
formula: Rsmx = max{i}{Xs_i}
says: The width of the widest profile element.
blind: All other elements.`,
		ofElements(theWidth, theLargest), constructElements(theWidth, theLargest)},
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
	{`Rsmq: standard deviation of profile element spacings
in iso-21920, the evaluation length: ISO 21920-2:2021, 5.2 (memory); furrow, thresholds and order of merging (own choice)
formula: Rsmq = sqrt{frac{1}{m} * sum{i=1}{m}{(Xs_i - Rsm)^{2}}}
says: How much the widths of the profile elements differ from their mean.
practice: Near zero for a turned surface, about 0.4 to 0.8 of Rsm for a ground one.
blind: The order of the elements along the trace.`,
		ofElements(theWidth, theDeviation), constructElements(theWidth, theDeviation)},
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
	{`Rc: mean profile element height
in iso-21920, the evaluation length: ISO 21920-2:2021, 5.2 (memory); furrow, thresholds and order of merging (own choice)
in iso-4287 jis-b0601-2013, each section, then the mean: ISO 4287:1997, 4.1.4 (memory); ISO 4287:1997, 3.2.6 (excerpt)
formula: Rc = frac{1}{m} * sum{i=1}{m}{Zt_i}
says: The mean height of the profile elements: each hill plus the dale beside it.
practice: Near Rz where all elements are alike, as on a turned surface; clearly below Rz on a ground one.
blind: Which element is the highest, and every hill or dale below the thresholds.`,
		ofElements(theHeight, theMean), constructElements(theHeight, theMean)},
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
	{`Rcx: maximum profile element height
in iso-21920, the evaluation length: ISO 21920-2:2021, 5.2 (memory); furrow, thresholds and order of merging (own choice)
formula: Rcx = max{i}{Zt_i}
says: The height of the highest profile element.
blind: All other elements.`,
		ofElements(theHeight, theLargest), constructElements(theHeight, theLargest)},
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
	{`Rcq: standard deviation of profile element heights
in iso-21920, the evaluation length: ISO 21920-2:2021, 5.2 (memory); furrow, thresholds and order of merging (own choice)
formula: Rcq = sqrt{frac{1}{m} * sum{i=1}{m}{(Zt_i - Rc)^{2}}}
says: How much the heights of the profile elements differ from their mean.
practice: Near zero for a regular surface, such as a turned one.
blind: The order of the elements along the trace.`,
		ofElements(theHeight, theDeviation), constructElements(theHeight, theDeviation)},
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
	{`Rpc: peak count parameter
in iso-21920, the evaluation length: ISO 21920-2:2021, 5.2 (memory); furrow, thresholds and order of merging (own choice)
in iso-4287 jis-b0601-2013, each section, then the mean: ISO 4287:1997, 4.3.2 (memory)
formula: Rpc = frac{L}{Rsm}
says: How many profile elements fit side by side on 10 mm at their mean spacing.
practice: Stated for sheet that is painted or formed.
blind: Heights, as with Rsm. It is calculated from the mean spacing, not counted; RPc with two heights in brackets is counted.`,
		ofElements(theWidth, theCount), constructElements(theWidth, theCount)},
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

// A statistic is what is made of an attribute of the elements.
type statistic uint8

const (
	theMean statistic = iota
	theLargest
	theDeviation
	theCount
)

// older tells whether the meaning has the elements of ISO 4287.
func (w *work) older() bool {
	return w.as != nil && !slices.Contains(w.as.Editions, standards.ISO21920)
}

// ofElements makes an evaluator of a statistic of an attribute of the elements.
func ofElements(m measure, s statistic) evaluator {
	return func(w *work, _ []float64) result {
		if w.older() {
			return w.byWidth(m, s)
		}
		e := w.profileElements()
		if e.reason != "" {
			return undefined(e.reason)
		}
		all := m.all(w, e.list)
		switch s {
		case theLargest:
			return value(largest(all))
		case theDeviation:
			r := value(spread(all, w.in.Choices.Deviation))
			if math.IsNaN(r.value) {
				return undefined("a standard deviation with the divisor n - 1 needs two elements")
			}
			return r
		case theCount:
			return inCentimetre(value(mean(all)))
		}
		return value(mean(all))
	}
}

// ofSampled returns the mean of elements of ISO 4287: per sampling length, then over those that have an element, or over all.
func (w *work) ofSampled(m measure, s statistic, e *elements) result {
	r := undefined(e.reason)
	switch {
	case e.reason != "":
	case w.as.Over == SectionMean:
		r = m.meanPerSection(w, e)
	default:
		r = value(mean(m.all(w, e.list)))
	}
	if s == theCount && e.reason == "" {
		r = inCentimetre(r)
	}
	return r
}

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

// widthShare is the share of a value by which another reading of the least width must differ to be told (own choice).
const widthShare = 0.1

// byWidth evaluates a reading of the elements of ISO 4287. Where it matters much what the least width is asked of, the note gives the
// value of each reading.
func (w *work) byWidth(m measure, s statistic) result {
	var all [3]result
	own := w.in.Choices.ElementWidth
	for of := range all {
		all[of] = w.ofSampled(m, s, w.elementsByWidth(ElementWidth(of)))
	}
	r := all[own]
	for _, other := range all {
		if d := math.Abs(other.value - r.value); d > widthShare*math.Abs(r.value) || math.IsNaN(d) && !(math.IsNaN(r.value) && math.IsNaN(other.value)) {
			unit := " µm"
			if s == theCount {
				unit = " per 10 mm"
			}
			r.note = widthNote(&all, own, unit)
		}
	}
	return r
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

// inCentimetre turns a spacing in µm into a count on 10 mm.
func inCentimetre(r result) result {
	r.value = 1e4 / r.value
	for k, v := range r.sections {
		r.sections[k] = 1e4 / v
	}
	return r
}

// constructElements shows what a statistic makes of an attribute of the elements.
func constructElements(m measure, s statistic) constructor {
	return func(w *work, _ []float64, c *Construction) {
		e := w.profileElements()
		if w.older() {
			e = w.samplingElements()
		}
		w.constructList(c, e, m, s)
	}
}

func (w *work) constructList(c *Construction, e *elements, m measure, s statistic) {
	if e.limits.hill > 0 || e.limits.dale > 0 {
		c.step("a hill counts from "+micrometres(e.limits.hill)+", a dale from "+micrometres(e.limits.dale)+w.widthText(e.limits), nan,
			level("least hill", 0, w.length(), e.limits.hill),
			level("least dale", 0, w.length(), -e.limits.dale))
	}
	values := m.all(w, e.list)
	terms, bySection := values, w.as != nil && w.as.Over == SectionMean && e.sections != nil
	if bySection {
		terms = slices.DeleteFunc(m.meanPerSection(w, e).sections, math.IsNaN)
	}
	var ticks []Mark // of all elements, where they are not shown one by one
	for i := range e.list {
		text, marks := w.elementMarks(&e.list[i], m)
		text = "element " + strconv.Itoa(i+1) + ": " + text
		switch {
		case s == theMean && bySection:
			c.step("section "+strconv.Itoa(e.sections[i]+1)+", "+text, values[i], marks...).Section = e.sections[i] + 1
		case s == theMean:
			c.step(text, values[i], marks...)
		case s == theLargest && values[i] == c.Result:
			c.step("the largest, "+text, values[i], marks...)
		case m == theWidth:
			ticks = append(ticks, marks[0], marks[2])
		default:
			ticks = append(ticks, marks[:2]...)
		}
	}
	if len(ticks) > 0 && s != theCount {
		c.step(map[measure]string{theWidth: "where each of the others begins and ends", theHeight: "peak and pit of each of the others"}[m], nan, ticks...)
	}
	switch s {
	case theMean:
		c.mean(terms)
	case theLargest:
		c.largestOf(values)
	case theDeviation:
		c.scatter(c.named(map[measure]string{theWidth: "Rsm", theHeight: "Rc"}[m]), values, micrometres)
		c.deviation("mean", values, w.in.Choices.Deviation)
	case theCount:
		spacing := mean(terms)
		ruler := []Mark{dimension(c.named("Rsm"), Point{0, 0}, Point{min(spacing, w.length()), 0})}
		for x := 0.0; x <= w.length() && len(ruler) < stripPoints; x += spacing {
			ruler = append(ruler, point(PointMark, "", Point{x, 0}))
		}
		c.step("the mean spacing is "+micrometres(spacing)+"; laid end to end, 10 mm hold "+digits(c.Result, 4)+" of it", c.Result, ruler...)
		c.meanAs(c.named("Rsm"), spacing, Micrometre, terms)
		c.work("10000 / {1}", spacing)
	}
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

// elementMarks says where an element is and marks what is measured of it: its three crossings and its width, or its peak, its pit and
// its height.
func (w *work) elementMarks(e *element, m measure) (string, []Mark) {
	hill, dale := e.first, e.second
	if !hill.hill {
		hill, dale = dale, hill
	}
	peak, pit := w.pointAt(hill.top), w.pointAt(dale.top)
	from, middle, to := w.at(Extreme{At: e.first.from}), w.at(Extreme{At: e.first.to}), w.at(Extreme{At: e.second.to})
	text := "from " + millimetres(from.X) + " to " + millimetres(to.X)
	if m == theWidth {
		return text + ", " + micrometres(to.X-from.X) + " wide", []Mark{point(PointMark, "", from), point(PointMark, "", middle), point(PointMark, "", to),
			dimension(micrometres(to.X-from.X), from, to)}
	}
	beside := peak.X
	if math.Abs(pit.X-to.X) < math.Abs(peak.X-to.X) {
		beside = pit.X
	}
	return text + ", peak " + place(peak) + ", pit " + place(pit) + ", " + micrometres(e.height()) + " high", []Mark{
		point(PeakMark, "", peak), point(PitMark, "", pit), dimension(micrometres(e.height()), Point{beside, pit.Y}, Point{beside, peak.Y})}
}
