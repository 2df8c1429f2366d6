package params

import (
	"math"
	"strconv"
)

// pointAt returns the place of point i of the profile.
func (w *work) pointAt(i int) Point { return Point{float64(i) * w.dx, w.z[i]} }

// bounds returns where section k begins and ends.
func (w *work) bounds(k int) (from, to float64) {
	length := float64(w.section) * w.dx
	return float64(k) * length, float64(k+1) * length
}

// length returns the evaluation length.
func (w *work) length() float64 { return float64(w.n) * w.dx }

func level(label string, from, to, y float64) Mark {
	return Mark{Kind: LevelMark, Label: label, Points: []Point{{from, y}, {to, y}}}
}

func dimension(label string, a, b Point) Mark {
	return Mark{Kind: SpanMark, Label: label, Points: []Point{a, b}}
}

func point(kind Kind, label string, at Point) Mark {
	return Mark{Kind: kind, Label: label, Points: []Point{at}}
}

func (c *Construction) step(s Step) { c.Steps = append(c.Steps, s) }

func (c *Construction) work(form string, terms ...float64) {
	c.Worked = append(c.Worked, Arithmetic{Symbol: c.Symbol, Form: form, Terms: terms, Result: c.Result, Unit: c.Unit})
}

// A moment is one of the averages of the heights, with its calculation.
type moment struct {
	of    func(z []float64, flat float64) float64
	power int
	level string // what the level drawn is: the value itself, or Rq
	form  string // with the sum of the powers, the count and, where it enters, Rq
}

var (
	arithmeticMoment = moment{of: func(z []float64, _ float64) float64 { return arithmeticMean(z) }, power: 1, form: "{1} / {2}"}
	secondMoment     = moment{of: func(z []float64, _ float64) float64 { return rms(z) }, power: 2, form: "√({1} / {2})"}
	thirdMoment      = moment{of: skewness, power: 3, level: "Rq", form: "{1} / ({2} · {3}³)"}
	fourthMoment     = moment{of: kurtosis, power: 4, level: "Rq", form: "{1} / ({2} · {3}⁴)"}
)

// constructHeights shows an average of the heights as a level above and below the reference line: in each section, or
// over the evaluation length.
func constructHeights(m moment, sections bool) constructor {
	return func(w *work, _ []float64, c *Construction) {
		if !sections {
			c.step(m.step(w, c, 0, w.length(), w.z, "over the evaluation length of "+millimetres(w.length())))
			terms := []float64{m.sum(w.z), float64(w.n)}
			if m.level != "" {
				terms = append(terms, w.rq())
			}
			c.work(m.form, terms...)
			return
		}
		var terms []float64
		for k := range w.count {
			from, to := w.bounds(k)
			s := m.step(w, c, from, to, w.sectionAt(k), "section "+strconv.Itoa(k+1))
			if math.IsNaN(s.Value) {
				continue
			}
			s.Section = k + 1
			terms = append(terms, s.Value)
			c.step(s)
		}
		c.work(meanForm(len(terms)), terms...)
	}
}

func (m *moment) step(w *work, c *Construction, from, to float64, z []float64, where string) Step {
	v := m.of(z, w.in.Flat)
	high, label := v, c.Symbol
	if m.level != "" {
		high, label = rms(z), m.level
	}
	return Step{
		Text:  where + ": " + digits(v, 4) + unitText(c.Unit),
		Value: v,
		Marks: []Mark{level("", from, to, 0), level(label, from, to, high), level("", from, to, -high)},
	}
}

// sum returns the sum of the powers of the heights, of their absolute values for the first.
func (m *moment) sum(z []float64) float64 {
	sum := 0.0
	for _, v := range z {
		if m.power == 1 {
			v = math.Abs(v)
		}
		term := v
		for range m.power - 1 {
			term *= v
		}
		sum += term
	}
	return sum
}

func unitText(u Unit) string {
	if u == None {
		return ""
	}
	return " " + string(u)
}

// constructExtremes shows the highest point, the lowest point or both in each section.
func constructExtremes(peak, pit bool) constructor {
	return func(w *work, _ []float64, c *Construction) {
		e := w.extremes()
		terms := make([]float64, w.count)
		for k := range terms {
			from, to := w.bounds(k)
			text := "section " + strconv.Itoa(k+1) + ": "
			s := pieceStep(w, from, to, e.sectionHigh[k], e.sectionLow[k], peak, pit)
			s.Text, s.Section = text+s.Text, k+1
			terms[k] = s.Value
			c.step(s)
		}
		c.work(meanForm(w.count), terms...)
	}
}

// constructTotal shows the same over the evaluation length.
func constructTotal(peak, pit bool) constructor {
	return func(w *work, _ []float64, c *Construction) {
		e := w.extremes()
		s := pieceStep(w, 0, w.length(), e.highAt, e.lowAt, peak, pit)
		s.Text = "over the evaluation length: " + s.Text
		c.step(s)
		constructDifference(w, c, e.highAt, e.lowAt, peak, pit)
	}
}

func constructDifference(w *work, c *Construction, high, low int, peak, pit bool) {
	switch {
	case peak && pit:
		c.work("{1} + {2}", w.z[high], -w.z[low])
	case peak:
		c.work("{1}", w.z[high])
	default:
		c.work("{1}", -w.z[low])
	}
}

// pieceStep marks the extremes of a piece of the profile, with the level lines and the height between them.
func pieceStep(w *work, from, to float64, high, low int, peak, pit bool) Step {
	var s Step
	top, bottom := 0.0, 0.0
	if peak {
		p := w.pointAt(high)
		top = p.Y
		s.Text = "peak " + micrometres(p.Y) + " at " + millimetres(p.X)
		s.Marks = append(s.Marks, point(PeakMark, micrometres(p.Y), p))
	}
	if pit {
		p := w.pointAt(low)
		bottom = p.Y
		if peak {
			s.Text += ", "
		}
		s.Text += "pit " + micrometres(p.Y) + " at " + millimetres(p.X)
		s.Marks = append(s.Marks, point(PitMark, micrometres(p.Y), p))
	}
	s.Value = top - bottom
	middle := (from + to) / 2
	s.Marks = append(s.Marks,
		level("", from, to, top), level("", from, to, bottom),
		dimension(micrometres(s.Value), Point{middle, bottom}, Point{middle, top}))
	return s
}

func constructLargestHeight(w *work, args []float64, c *Construction) {
	p, _ := w.largestHeight(args[0])
	from, to := float64(p.from)*w.dx, float64(p.to)*w.dx
	s := pieceStep(w, from, to, p.highAt, p.lowAt, true, true)
	s.Text = "from " + millimetres(from) + " to " + millimetres(to) + ": " + s.Text
	c.step(s)
	constructDifference(w, c, p.highAt, p.lowAt, true, true)
}
