package params

import (
	"math"
	"strconv"
)

// A statistic is what is made of an attribute of the elements.
type statistic uint8

const (
	theMean statistic = iota
	theLargest
	theDeviation
	theCount
)

// A measure is the attribute of the elements that a construction marks.
type measure uint8

const (
	theWidth measure = iota
	theHeight
)

func (m measure) of() attribute {
	if m == theWidth {
		return spacingOf
	}
	return heightOf
}

// constructElements shows the profile elements of ISO 21920 one by one.
func constructElements(m measure, s statistic) constructor {
	return func(w *work, _ []float64, c *Construction) { w.constructList(c, w.profileElements(), m, s) }
}

// constructSampled shows those of ISO 4287.
func constructSampled(m measure, s statistic) constructor {
	return func(w *work, _ []float64, c *Construction) { w.constructList(c, w.samplingElements(), m, s) }
}

// constructOverall shows them for a mean over all, whatever their section.
func constructOverall(m measure, s statistic) constructor {
	return func(w *work, _ []float64, c *Construction) {
		e := *w.samplingElements()
		e.sections = nil
		w.constructList(c, &e, m, s)
	}
}

func (w *work) constructList(c *Construction, e *elements, m measure, s statistic) {
	if e.limits.hill > 0 || e.limits.dale > 0 {
		c.step(Step{
			Text:  "a hill counts from " + micrometres(e.limits.hill) + ", a dale from " + micrometres(e.limits.dale) + w.widthText(e.limits),
			Value: nan,
			Marks: []Mark{
				level("least hill", 0, w.length(), e.limits.hill),
				level("least dale", 0, w.length(), -e.limits.dale),
			},
		})
	}
	values := make([]float64, len(e.list))
	for i := range e.list {
		values[i] = m.of()(w, &e.list[i])
		step := w.elementStep(&e.list[i], i+1, m)
		step.Value = values[i]
		if e.sections != nil {
			step.Section = e.sections[i] + 1
			step.Text = "section " + strconv.Itoa(step.Section) + ", " + step.Text
		}
		c.step(step)
	}
	w.workElements(c, e, values, s)
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
func (w *work) workElements(c *Construction, e *elements, values []float64, s statistic) {
	switch s {
	case theMean, theCount:
		terms := values
		if e.sections != nil {
			terms = w.sectionMeans(e, values)
		}
		form := meanForm(len(terms))
		if s == theCount {
			form = "10 000 µm / (" + form + ")"
		}
		c.work(form, terms...)
	case theLargest:
		c.work("{1}", c.Result)
	case theDeviation:
		m := mean(values)
		squares := make([]float64, len(values))
		for i, v := range values {
			squares[i] = (v - m) * (v - m)
		}
		n := len(values)
		if w.in.Choices.Deviation == DivideByCountLessOne {
			n--
		}
		c.work("√(("+termSum(len(values))+") / "+strconv.Itoa(n)+")", squares...)
	}
}

func (w *work) sectionMeans(e *elements, values []float64) []float64 {
	sums, counts := make([]float64, w.count), make([]float64, w.count)
	for i, k := range e.sections {
		sums[k] += values[i]
		counts[k]++
	}
	var means []float64
	for k := range sums {
		if counts[k] > 0 {
			means = append(means, sums[k]/counts[k])
		}
	}
	return means
}

// elementStep marks the crossings, the peak and the pit of an element, and its width or its height.
func (w *work) elementStep(e *element, number int, m measure) Step {
	hill, dale := e.first, e.second
	if !hill.hill {
		hill, dale = dale, hill
	}
	peak, pit := w.pointAt(hill.top), w.pointAt(dale.top)
	from, middle, to := e.first.from*w.dx, e.first.to*w.dx, e.second.to*w.dx
	s := Step{
		Text: "element " + strconv.Itoa(number) + ": from " + millimetres(from) + " to " + millimetres(to),
		Marks: []Mark{
			point(PointMark, "", Point{from, 0}), point(PointMark, "", Point{middle, 0}), point(PointMark, "", Point{to, 0}),
		},
	}
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
