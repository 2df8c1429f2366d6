package params

import "strconv"

// at returns an extreme as a point of the profile plane.
func (w *work) at(x Extreme) Point { return Point{x.At * w.dx, x.Z} }

// extremeStep marks one peak or pit and says where it is.
func (w *work) extremeStep(i int, x Extreme) Step {
	noun, kind := "pit ", PitMark
	if x.Peak {
		noun, kind = "peak ", PeakMark
	}
	p := w.at(x)
	return Step{
		Text: noun + strconv.Itoa(i+1) + ": " + place(p), Value: nan,
		Marks: []Mark{{Kind: kind, Label: strconv.Itoa(i + 1), Points: []Point{p}}},
	}
}

// showFive marks the five highest peaks, the five deepest pits, or both.
func showFive(peaks, pits bool) constructor {
	return func(w *work, _ []float64, c *Construction) {
		var terms []float64
		half := func(isPeak bool) {
			best, kept, _ := w.topFive(isPeak)
			e := best[:kept]
			var heights []float64
			for i, x := range e {
				step := w.extremeStep(i, x)
				step.Value = x.Z
				if !isPeak {
					step.Value = -x.Z
				}
				heights = append(heights, step.Value)
				step.Marks = append(step.Marks, Mark{Kind: SpanMark, Points: []Point{{w.at(x).X, 0}, w.at(x)}})
				c.Steps = append(c.Steps, step)
			}
			symbol := "mean pit depth of " + strconv.Itoa(len(e))
			if isPeak {
				symbol = "mean peak height of " + strconv.Itoa(len(e))
			}
			worked := meanOf(symbol, heights, c.Unit)
			terms = append(terms, worked.Result)
			c.Worked = append(c.Worked, worked)
		}
		if peaks {
			half(true)
		}
		if pits {
			half(false)
		}
		if len(terms) == 2 {
			c.Worked = append(c.Worked, Arithmetic{Symbol: c.Symbol, Form: "{1} + {2}", Terms: terms, Result: c.Result, Unit: c.Unit})
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
				c.Steps = append(c.Steps, w.extremeStep(count, x))
				count++
			}
		}
		c.Worked = append(c.Worked, Arithmetic{
			Symbol: c.Symbol, Form: "{1} / ({2} · {3}) · 1000",
			Terms: []float64{float64(count), float64(w.n), w.dx}, Result: c.Result, Unit: c.Unit,
		})
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
			step.Marks = append(step.Marks, Mark{Kind: LineMark, Points: arc})
			terms = append(terms, curvature)
			c.Steps = append(c.Steps, step)
		}
		c.Worked = append(c.Worked, meanOf(c.Symbol, terms, c.Unit))
	}
}
