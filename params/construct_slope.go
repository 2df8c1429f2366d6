package params

import "math"

// constructSlope shows a mean slope as a flank of that slope in the middle of the trace.
func constructSlope(sections bool) constructor {
	return func(w *work, _ []float64, c *Construction) {
		x, run := w.length()/2, min(w.length()/2, 10*w.dx)
		rise := c.Result * run
		c.step(Step{
			Text:  "a flank of this slope rises " + micrometres(rise) + " on " + micrometres(run),
			Value: c.Result,
			Marks: []Mark{
				{Kind: LineMark, Label: digits(c.Result, 3), Points: []Point{{x - run/2, -rise / 2}, {x + run/2, rise / 2}}},
			},
		})
		if sections {
			r := sectionMeanSlope(rms)(w, nil)
			var terms []float64
			for _, v := range r.sections {
				if !math.IsNaN(v) {
					terms = append(terms, v)
				}
			}
			c.work(meanForm(len(terms)), terms...)
		}
	}
}

// constructSteepest shows the steepest place with its tangent.
func constructSteepest(w *work, _ []float64, c *Construction) {
	g := w.gradient()
	at := 0
	for i, v := range g.slope {
		if math.Abs(v) > math.Abs(g.slope[at]) {
			at = i
		}
	}
	p, slope := w.pointAt(g.first+at), g.slope[at]
	run := 5 * w.dx
	c.step(Step{
		Text:  "slope " + digits(slope, 3) + " at " + millimetres(p.X),
		Value: c.Result,
		Marks: []Mark{
			point(PointMark, "", p),
			{Kind: LineMark, Label: digits(slope, 3), Points: []Point{{p.X - run, p.Y - slope*run}, {p.X + run, p.Y + slope*run}}},
		},
	})
}

// constructDeveloped shows the length of the trace that the developed length is compared with.
func constructDeveloped(w *work, _ []float64, c *Construction) {
	l := w.length()
	excess := l * meanStretch(w.gradient().slope)
	c.step(Step{
		Text:  "the trace is " + millimetres(l) + " long, the profile pulled straight " + micrometres(excess) + " longer",
		Value: c.Result,
		Marks: []Mark{dimension(millimetres(l), Point{0, 0}, Point{l, 0})},
	})
	if c.Unit == Percent {
		c.work("100 · {1} / {2}", excess, l)
	} else {
		c.work("{1} + {2}", l, excess)
	}
}
