package params

import "strconv"

// showPeakSpacing marks the local peaks of every section.
func showPeakSpacing(w *work, _ []float64, c *Construction) {
	var spacings []float64
	for k := range w.count {
		start := float64(k*w.section) * w.dx
		step := Step{Section: k + 1, Value: nan}
		var places []Point
		for _, x := range Extremes(w.sectionAt(k)) {
			if x.Peak {
				places = append(places, Point{start + float64(x.At*w.dx), x.Z})
			}
		}
		for _, p := range places {
			step.Marks = append(step.Marks, Mark{Kind: PeakMark, Points: []Point{p}})
		}
		step.Text = "section " + strconv.Itoa(k+1) + ": " + plural(len(places), "local peak")
		if n := len(places); n > 1 {
			step.Value = (places[n-1].X - places[0].X) / float64(n-1)
			step.Text += ", the first " + place(places[0]) + ", the last " + place(places[n-1]) + ", mean spacing " + lengthOf(step.Value)
			spacings = append(spacings, step.Value)
		}
		c.Steps = append(c.Steps, step)
	}
	worked := meanOf("S", spacings, Micrometre)
	c.Worked = append(c.Worked, worked)
	if c.Unit == PerMillimetre {
		c.Worked = append(c.Worked, Arithmetic{Symbol: c.Symbol, Form: "1000 / {1}", Terms: []float64{worked.Result}, Result: c.Result, Unit: c.Unit})
	}
}

// showAverageWavelength draws one wavelength as a span in the middle of the profile.
func showAverageWavelength(f func([]float64) float64, height, slope string) constructor {
	return func(w *work, _ []float64, c *Construction) {
		h, s := f(w.z), f(w.gradient().slope)
		middle := float64(w.n) * w.dx / 2
		c.Steps = append(c.Steps, Step{
			Text:  height + " " + micrometres(h) + " and " + slope + " " + inWords(s) + " are those of a sine of wavelength " + lengthOf(c.Result),
			Value: c.Result,
			Marks: []Mark{{Kind: SpanMark, Label: c.Symbol, Points: []Point{{middle - c.Result/2, 0}, {middle + c.Result/2, 0}}}},
		})
		c.Worked = append(c.Worked, Arithmetic{Symbol: c.Symbol, Form: "2π · {1} / {2}", Terms: []float64{h, s}, Result: c.Result, Unit: c.Unit})
	}
}

// showDevelopedLength draws the profile as the line whose length it is.
func showDevelopedLength(w *work, _ []float64, c *Construction) {
	line := make([]Point, w.n)
	for i, v := range w.z {
		line[i] = Point{float64(i) * w.dx, v}
	}
	length := float64(w.n) * w.dx
	stretch := 1 + meanStretch(w.gradient().slope)
	c.Steps = append(c.Steps, Step{
		Text:  "the profile over " + millimetres(length) + " is " + millimetres(length*stretch) + " long when pulled straight",
		Value: c.Result,
		Marks: []Mark{{Kind: LineMark, Points: line}},
	})
	form, terms := "{1} · {2}", []float64{length, stretch}
	if c.Unit == None {
		form, terms = "{1} / {2}", []float64{length * stretch, length}
	}
	c.Worked = append(c.Worked, Arithmetic{Symbol: c.Symbol, Form: form, Terms: terms, Result: c.Result, Unit: c.Unit})
}
