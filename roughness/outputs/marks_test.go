package outputs

import (
	"fmt"
	"math"
	"slices"
	"testing"

	"example.com/furrow/filter"
	"example.com/furrow/params"
	"example.com/furrow/roughness/figure"
)

var (
	markKinds = []params.Kind{params.PeakMark, params.PitMark, params.PointMark, params.LineMark, params.LevelMark, params.SpanMark, params.AreaMark}
	planes    = []params.Plane{params.ProfilePlane, params.RatioPlane, params.LagPlane, params.SpectrumPlane, params.ProbabilityPlane, params.DistributionPlane, params.SquarePlane, params.CubePlane,
		params.FourthPlane, params.SlopePlane, params.StretchPlane, params.LengthPlane, params.ItemPlane}
)

// marked are marks of a kind with points of several shapes, at several places of a plane that reaches to a place.
func marked(kind params.Kind, to float64) []params.Mark {
	var list []params.Mark
	add := func(label string, points ...params.Point) {
		list = append(list, params.Mark{Kind: kind, Label: label, Points: points})
	}
	at := func(share, y float64) params.Point { return params.Point{X: share * to, Y: y} }
	add("none")
	for i, share := range []float64{0, 0.07, 0.5, 0.51, 1} {
		label := []string{"a", "Rz 3", "40 %", ""}[i%4]
		y := []float64{1.9, 0, -2.3}[i%3]
		add(label, at(share, y))
		add(label+"u", at(share, y), at(share, y+0.7))
		add("up", at(share, y+0.4), at(share, y-0.4))
		add(label, at(share, y), at(1-share, y))
		add(label, at(share, y), at(1-share, 0.8-y))
		add("a long name of a mark", at(share, y), at(share+0.01, y-0.1), at(share, y-0.2))
		add(label, at(share*0.9, y), at(share*0.9+0.02, y), at(share*0.9+0.02, y-0.3), at(share*0.9, y-0.3))
	}
	for _, n := range []int{12, 13, 59, 60, 61} {
		var points []params.Point
		for i := range n {
			points = append(points, at((float64(i)+0.5)/float64(n), float64(i%5)-2))
		}
		add(fmt.Sprint(n), points...)
	}
	return list
}

// Pictures of marks of each kind, shape and place in each plane, alone and among many.
func TestMarks(t *testing.T) {
	keep(t, "marks", func(p *page) {
		whole := turned(900)
		z := whole[:260]
		widths := []figure.Options{{Width: 350}, {Width: 736}, {Width: 640, Inch: true, DecimalComma: true}, {Width: 560, Height: 170}, {Width: 560, Heights: [2]float64{-1.5, 1.5}}, {Width: 470, Hidden: "hidden"}, {Width: 700, Column: 3}}
		ends := map[params.Plane]float64{params.ProfilePlane: 130, params.RatioPlane: 100, params.LagPlane: 40, params.ProbabilityPlane: 3, params.DistributionPlane: 30, params.ItemPlane: 12}
		for i, plane := range planes {
			end := ends[plane]
			if end == 0 {
				end = 130
			}
			for j, kind := range markKinds {
				var one, several, beside digest
				list := marked(kind, end)
				if plane == params.SpectrumPlane || plane == params.LagPlane || plane == params.ProbabilityPlane {
					curve := params.Mark{Kind: params.LineMark, Points: []params.Point{{X: 0.01 * end, Y: 0.9}, {X: 0.5 * end, Y: 0.2}, {X: end, Y: -0.3}}}
					for k := range list {
						list[k].Points = append([]params.Point{}, list[k].Points...)
						for m := range list[k].Points {
							list[k].Points[m].X = max(list[k].Points[m].X, 0.01*end)
						}
					}
					list = append([]params.Mark{curve}, list...)
				}
				for k, m := range list {
					c := params.Construction{Symbol: "Rz", Unit: params.Unit([]string{"µm", "", "mm"}[k%3]), Plane: plane, Result: []float64{1.5, math.NaN(), 0}[k%3], Steps: []params.Step{{Text: "step -1.5 of 3.", Value: 1.5, Marks: []params.Mark{m}}}}
					if k > 0 && len(list[0].Points) == 3 {
						c.Steps[0].Marks = []params.Mark{list[0], m}
					}
					plot := figure.ConstructionPlot{Of: c, Z: z, Spacing: 0.5}
					one.put(plot.Draw(widths[(k+j)%len(widths)]))
					plot.Picked, plot.Close = 1, k%2 == 0
					one.put(plot.Draw(widths[(k+j+1)%len(widths)]))
					other := params.Plane(planes[(i+1+k)%len(planes)])
					plot.Of.Plane, plot.Of.Steps[0].Plane = other, plane
					plot.Picked = k % 2
					beside.put(plot.Draw(widths[(k+j+2)%len(widths)]))
				}
				for _, n := range []int{2, 3, 4, 5, 12, 13} {
					c := params.Construction{Symbol: "Rp", Unit: "µm", Plane: plane, Result: 1}
					for s := range n {
						c.Steps = append(c.Steps, params.Step{Text: fmt.Sprint("step ", s+1), Section: s + 1, Value: []float64{1, 0.5, 1.5, math.NaN()}[s%4], Marks: []params.Mark{list[(5*s+j)%len(list)]}})
					}
					plot := figure.ConstructionPlot{Of: c, Z: z, Spacing: 0.5, Sections: n, Picked: n % 3}
					plot.Before = &figure.ConstructionPlot{Of: c, Z: z[:240], Spacing: 0.5}
					several.put(plot.Draw(widths[n%2]))
					many := params.Step{Text: "all", Value: math.NaN(), Marks: list[:n]}
					several.put(figure.ConstructionPlot{Of: params.Construction{Symbol: "Rc", Plane: plane, Steps: []params.Step{many, c.Steps[0]}}, Z: z, Spacing: 0.5, Picked: 1}.Draw(widths[(n+1)%len(widths)]))
				}
				p.digest(fmt.Sprint(plane, " ", kind), &one)
				p.digest(fmt.Sprint(plane, " ", kind, " of another plane"), &beside)
				p.digest(fmt.Sprint(plane, " ", kind, " several"), &several)
			}
		}
		terms, near := digest{}, digest{}
		mark := []params.Mark{{Kind: params.PointMark, Points: []params.Point{{X: 30, Y: 1}}}}
		for sections := range 16 {
			for k, values := range [][]float64{{1, 2, 3}, {1, 1, 1, 1}, {2, math.NaN(), 2}, {0.0123, 123.456}} {
				c := params.Construction{Symbol: "Rz", Unit: []params.Unit{"µm", "1/mm", ""}[k%3], Plane: params.ProfilePlane, Result: []float64{2, 1, 2 * (1 + 2e-9), 0.0123}[k]}
				for s := range sections + k%2 {
					c.Steps = append(c.Steps, params.Step{Text: "x", Section: s + 1 - k/3*(s%2), Value: values[s%len(values)], Marks: mark})
				}
				for picked := range 3 {
					terms.put(figure.ConstructionPlot{Of: c, Z: z, Spacing: 0.5, Sections: sections, Picked: picked}.Draw(figure.Options{Width: []int{350, 500, 900}[(picked+sections)%3], Inch: k == 1}))
				}
			}
		}
		p.digest("values of sections", &terms)
		for _, from := range []float64{0, 3, 80, 200, 400, 449} {
			for _, length := range []float64{0, 0.5, 4, 8.8, 8.9, 9, 9.1, 20, 44, 45, 46, 90, 300} {
				c := params.Construction{Symbol: "Rz", Plane: params.ProfilePlane, Steps: []params.Step{{Text: "x", Marks: []params.Mark{{Kind: params.SpanMark, Label: "l", Points: []params.Point{{X: from, Y: 0.5}, {X: from + length, Y: 0.5}}}}}}}
				two := c
				two.Steps = append(slices.Clone(c.Steps), c.Steps[0])
				for k, plot := range []figure.ConstructionPlot{{Of: c}, {Of: c, Picked: 1, Close: true}, {Of: two}, {Of: two, Picked: 2, Close: true}, {Of: two, Close: true}} {
					plot.Z, plot.Spacing = whole, 0.5
					near.put(plot.Draw(figure.Options{Width: 350 + 100*k}))
				}
			}
		}
		p.digest("surroundings of a mark", &near)
	})
}

// limitedTo draws between two heights.
type limitedTo struct {
	figure.Drawing
	height float64
}

func (l limitedTo) Draw(o figure.Options) figure.Picture {
	o.Heights = [2]float64{-l.height, l.height}
	return l.Drawing.Draw(o)
}

// Charts as one number of them moves over its range: limits, classes, values and names in each other's way.
func TestCharts(t *testing.T) {
	keep(t, "charts", func(p *page) {
		z := turned(1200)
		wide := []figure.Options{{Width: 350}, {Width: 640}, {Width: 736, Inch: true, DecimalComma: true}}
		over := func(name string, values []float64, draw func(v float64) figure.Drawing) {
			var d digest
			for _, v := range values {
				for _, o := range wide {
					d.put(draw(v).Draw(o))
				}
			}
			p.digest(name, &d)
		}
		sizes := append(append([]float64{-1, 0, 0.004, 0.02, 0.04, 0.08, 0.16, 0.8, 16, 80, 80.1, 400}, sweep(0.05, 60, 20)...), sweep(0.16*0.9, 0.16*1.2, 20)...)
		over("class of a limit", sizes, func(v float64) figure.Drawing {
			return figure.Classes{Symbol: "Rz", Unit: "µm", Limit: v, Classes: []figure.Class{{Name: "Sc1", To: 0.16, Nic: 80}, {Name: "Sc2", To: 0.8, Nic: 250}, {Name: "Sc3", To: 16, Nic: 800}, {Name: "Sc4", To: 80, Nic: 2500}, {Name: "Sc5", To: math.Inf(1), Nic: 8000}}}
		})
		over("few classes", []float64{0.1, 0.9, 3}, func(v float64) figure.Drawing {
			return figure.Classes{Symbol: "Ra", Unit: "µm", Limit: v, Classes: []figure.Class{{Name: "Sc1", To: 0.16, Nic: 80}, {Name: "Sc2", To: 0.8, Nic: 250}}[:min(2, int(v)+1)]}
		})
		for _, lower := range []bool{false, true} {
			for k, open := range []float64{0, 0.1, math.NaN()} {
				over(fmt.Sprint("value at a limit, lower ", lower, " ", k), append(sweep(0.3, 30, 24), sweep(2.9, 3.5, 24)...), func(v float64) figure.Drawing {
					limit := figure.Limit{Value: 3.2, Lower: lower, Accept: 3.2 - open, Reject: 3.2 + open}
					if lower {
						limit.Accept, limit.Reject = limit.Reject, limit.Accept
					}
					if math.IsNaN(open) {
						limit.Reject = 3.3
					}
					limits := []figure.Limit{limit}
					if k > 0 && v > 3.2 {
						limits = append(limits, figure.Limit{Value: v * 1.3, Lower: !lower, Accept: v * 1.28, Reject: v * 1.33})
					}
					return figure.Decision{Symbol: "Rz", Unit: "µm", Limits: limits, Values: []figure.Measured{{Name: "trace 1", Value: v}, {Name: "the second trace", Value: v * 1.02, U: 0.03 * v, Deciding: true}, {Name: "3", Value: 9.996, U: 0.2}}[:1+int(10*v)%3]}
				})
			}
		}
		over("shares", append(sweep(0.001, 5, 24), -0.5, -2, 0), func(v float64) figure.Drawing {
			return figure.DifferenceChart{Symbol: "Rz", Unit: "µm", First: "A", Last: "B, with a name that is long", From: 3, To: 3 + v, Shares: []figure.Share{{Name: "one thing", Value: 2 * v}, {Name: "another thing that is long to say in a chart that is not wide", Value: -v}}}
		})
		over("conditions", append(sweep(0.5, 5, 20), math.NaN()), func(v float64) figure.Drawing {
			return figure.SteadinessChart{Symbol: "Rz", Unit: "µm", Value: 2, Low: min(2, v), High: max(2, 2.5*v), Conditions: []figure.Moved{{Name: "another", Value: v}, {Name: "no value", Value: math.NaN()}, {Name: "a condition with a long name that may need half of the width", Value: 2.2}}}
		})
		over("influences", append(sweep(0.001, 1, 16), 0), func(v float64) figure.Drawing {
			return figure.BudgetChart{Symbol: "Rz", Unit: "µm", Value: 3 * v, U: v / 7, K: 2 + v, Influences: []figure.Influence{{Name: "one", Effect: v / 10, Share: v}, {Name: "other", Effect: 0.1, Share: 1 - v}}}
		})
		over("allowance", append(sweep(0.5, 2, 20), 0), func(v float64) figure.Drawing {
			return figure.AllowanceChart{Symbol: "Ra", Unit: "µm", Certificate: 1, Allowed: 0.017 * v, Values: []float64{v, 1.01, 0.98}[:1+max(0, int(10*v))%3], Mean: v}
		})
		over("groove", sweep(20, 500, 20), func(v float64) figure.Drawing {
			return figure.GroovePlot{Z: z, Spacing: 0.5, Centre: 300 - v/7, Width: v, Depth: v / 100, Tilt: v / 5e4, Land: 0.3}
		})
		over("wave", append(sweep(0.5, 8000, 20), 0, 2.5, 80, 800), func(v float64) figure.Drawing {
			return figure.Transmission{Short: filter.Gaussian{Cutoff: 2.5}, Long: filter.Gaussian{Cutoff: 800}, ShortCutoff: 2.5, LongCutoff: 800, ShortName: "Gaussian", LongName: "Gaussian", Wave: v}
		})
		over("range of waves", sweep(5, 50000, 24), func(v float64) figure.Drawing {
			return figure.Transmission{Long: filter.Gaussian{Cutoff: 250}, LongCutoff: 250, From: v / 20, To: v * 3, Wave: v}
		})
		layout := func(v float64) figure.Layout {
			return figure.Layout{Sections: 1 + int(v)%7, Length: v, Start: v * 0.3}
		}
		lengths := append(sweep(4, 700, 40), 59.6, 59.8, 60, 60.2, 85.5, 119.8, 120)
		over("sections on a trace", lengths, func(v float64) figure.Drawing {
			return figure.TracePlot{Title: "t", Z: z, Spacing: 0.5, Layout: layout(v)}
		})
		over("sections of a profile", lengths, func(v float64) figure.Drawing {
			return figure.ProfilePlot{Letter: "R", Z: z, Spacing: 0.5, Origin: v / 3, Layout: layout(v), From: v / 2, To: 2 * v, Picked: int(v) % 4}
		})
		over("many sections", sweep(4, 40, 40), func(v float64) figure.Drawing {
			return figure.ProfilePlot{Z: z, Spacing: 0.5, Layout: figure.Layout{Sections: int(590 / v), Length: v, Start: 5}, Picked: 3}
		})
		over("strip", lengths, func(v float64) figure.Drawing {
			return figure.Strip{ProfilePlot: figure.ProfilePlot{Letter: "W", Z: z, Spacing: 0.5, Origin: v / 9, Layout: layout(v)}, Symbol: "Wz", Values: []float64{v, 9.996, math.NaN(), 0.0123}[:int(v)%5], Levels: [][2]float64{{-1, 1}, {math.NaN(), 0.9}, {-0.7, 0.7}}[:int(v)%3], Added: int(v)%2 == 0, Tips: int(v)%3 > 0}
		})
		over("length", append(sweep(0.02, 3, 20), 0.099, 0.1, 0.101), func(v float64) figure.Drawing {
			return figure.ProfilePlot{Z: z[:998+int(20*v)%5], Spacing: v, Before: z[100:900], Marks: []params.Mark{{Kind: params.PeakMark, Points: []params.Point{{X: 50 * v, Y: 1}}}}}
		})
		whole := turned(760)
		for n := 260; n < 760; n += 1 {
			if n > 345 && n < 640 || n > 700 { // about the widths of the two designs: a point a pixel
				continue
			}
			var d digest
			for _, v := range []float64{12, 18, 40, 62} {
				for _, o := range wide[:2] {
					d.put(figure.ProfilePlot{Z: whole[:n:n], Spacing: 1, Layout: figure.Layout{Sections: 3, Length: v, Start: 40}}.Draw(o))
				}
			}
			if n%8 == 0 {
				p.digest(fmt.Sprint("sections of whole pixels ", n), &d)
			}
		}
		over("far beyond its heights", []float64{1e-6, 1e-12, 1e-16, 1e-20}, func(v float64) figure.Drawing {
			return limitedTo{figure.TracePlot{Z: z[:40], Spacing: 1}, v}
		})
		over("range of heights", append(sweep(1e-5, 1e5, 40), 0), func(v float64) figure.Drawing {
			high := make([]float64, 300)
			for i := range high {
				high[i] = math.Round(z[i]*1e6*v) / 1e6
			}
			return []figure.Drawing{figure.TracePlot{Z: high, Spacing: 0.5}, figure.Waves{Primary: high, Waviness: high[10:280], Spacing: 1, Origin: v}, figure.FormPlot{Read: high, Fitted: high[:200], Primary: high, Spacing: 2}, figure.Distribution{Z: high}, figure.Spark{Z: high, Spacing: 1}}[int(math.Abs(math.Log10(v+1e-9))*7)%5]
		})
		over("number of heights", []float64{2, 3, 5, 8, 9, 27, 28, 64, 300, 1000, 1200}, func(v float64) figure.Drawing { return figure.Distribution{Z: z[:int(v)]} })
		over("scale", sweep(0.5, 2, 30), func(v float64) figure.Drawing {
			return figure.ProfilePlot{Z: []float64{0, 40 * v, 0, 80 * v, 0, 120 * v, 5, 7, 80 * v, 0}, Spacing: 70}
		})
		for i, z := range [][]float64{{1}, {math.NaN(), 1, math.NaN(), 2}, {math.NaN()}, {1, math.Inf(1), 2}, {3, 3, 3, 3, 3, 1, 1, 1, 1, 4, 4, math.NaN(), 4}} {
			for _, dx := range []float64{0.5, 0.001, 1e4} {
				p.sum(fmt.Sprint("gaps ", i+1, " ", dx), figure.TracePlot{Z: z, Spacing: dx}.Draw(wide[0]), figure.ProfilePlot{Z: z, Spacing: dx, Origin: 3, Layout: figure.Layout{Sections: 2, Length: 2 * dx}}.Draw(wide[1]), figure.Distribution{Z: z}.Draw(wide[1]), figure.Spark{Z: z, Spacing: dx}.Draw(wide[0]))
			}
		}
	})
}
