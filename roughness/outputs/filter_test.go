package outputs

import (
	"fmt"
	"math"
	"slices"
	"testing"

	"example.com/furrow/filter"
)

func TestFilters(t *testing.T) {
	keep(t, "filters", func(p *page) {
		surfaces := [][]float64{ground(400), worn(37), worn(6), {1, 1, 1, 1, 1, 1, 1, 1}, {2}, {}}
		weights := make([]float64, 400)
		for i := range weights {
			weights[i] = float64((i*7)%5) / 4
		}
		for _, info := range filter.All() {
			p.sum("filter "+info.Key, info)
			for _, size := range []float64{2.5, 10, 33.3, 200} {
				sized := func() filter.Spec {
					s := filter.Spec{Filter: info.Key}
					for _, o := range filter.Options() {
						if o.Key == info.Size() {
							o.Set(&s, size)
						}
					}
					return s
				}
				p.sum(fmt.Sprintf("%s %g", info.Key, size), applied(sized(), surfaces, weights))
				for _, o := range filter.Options() {
					if !slices.Contains(info.Options, o.Key) || o.Key == info.Size() {
						continue
					}
					var list []any
					values := o.Values
					if o.Most > 0 {
						values = append(values, o.Least, (o.Least+o.Most)/2, o.Most, 0.9*o.Least+0.1*o.Most, 0.1*o.Least+0.9*o.Most)
					} else if o.Length() {
						values = append(values, 0, 3, 20, -1)
					}
					for _, v := range values {
						s := sized()
						o.Set(&s, v)
						list = append(list, v, s.Check())
						if s.Check() == nil {
							list = append(list, applied(s, surfaces[:3], nil))
						}
					}
					if o.Word {
						for _, ends := range append(info.EndsOf(), "no such word") {
							for _, fit := range []float64{0, 5} {
								s := sized()
								s.Ends, s.Fit = ends, fit
								list = append(list, ends, s.Check())
								if s.Check() == nil {
									list = append(list, applied(s, surfaces[:3], nil))
								}
							}
						}
					}
					p.sum(fmt.Sprintf("%s %g %s", info.Key, size, o.Key), list...)
				}
			}
			f := info.New(10)
			for _, bad := range []struct {
				name string
				z    []float64
				dx   float64
			}{{"nothing", nil, 0.5}, {"spacing 0", surfaces[0], 0}, {"spacing NaN", surfaces[0], math.NaN()}, {"NaN", []float64{1, 2, math.NaN(), 3, 4, 5, 6, 7, 8}, 0.5},
				{"Inf", []float64{1, 2, 3, 3, 4, 5, 6, 7, math.Inf(1)}, 0.5}, {"large", []float64{1, 2, -1e101, 3, 4, 5, 6, 7, 8}, 0.5}, {"coarse", surfaces[0], 6}, {"finest", surfaces[1], 5}} {
				w, err := f.Apply(nil, bad.z, bad.dx)
				p.sum(fmt.Sprintf("%s, %s", info.Key, bad.name), w, err)
			}
			for _, size := range []float64{0, -1, math.Inf(1), 1e101} {
				w, err := info.New(size).Apply(nil, surfaces[0], 0.5)
				p.sum(fmt.Sprintf("%s, size %g", info.Key, size), w, err)
			}
		}
		p.sum("options", filter.Options(), filter.EndTreatments())
	})
}

// applied is all that a filter gives.
func applied(s filter.Spec, surfaces [][]float64, weights []float64) []any {
	f := s.New()
	linear, own := s.Linear()
	list := []any{s.String(), s.Whole(), s.Size(), s.Complete(), linear != nil, own}
	for _, wavelength := range []float64{0, 1, 5, 10, 33.3, 100, 1000, math.Inf(1)} {
		list = append(list, f.Transmission(wavelength))
		if shifting, ok := f.(filter.Shifting); ok {
			size, lead := shifting.Response(wavelength)
			list = append(list, size, lead)
		}
		if spline, ok := f.(filter.Spline); ok {
			list = append(list, spline.TransmissionAt(wavelength, 0.5))
		}
	}
	for _, z := range surfaces {
		w, err := f.Apply(nil, z, 0.5)
		head, tail := s.Trim(len(z), 0.5)
		list = append(list, w, err, head, tail)
		if g, ok := f.(filter.Weighted); ok && len(z) == len(weights) {
			w, err = g.ApplyWeighted(nil, z, weights, 0.5)
			list = append(list, w, err)
			w, err = g.ApplyWeighted(nil, z, make([]float64, len(z)), 0.5)
			list = append(list, w, err)
		}
		switch g := f.(type) {
		case filter.RobustGaussian:
			w, report, err := g.ApplyReport(nil, z, 0.5)
			list = append(list, w, report, err)
		case filter.RobustSpline:
			w, report, err := g.ApplyReport(nil, z, 0.5)
			list = append(list, w, report, err)
		}
	}
	return list
}

// Long profiles, where filters compute in blocks; forms, gaps, tips and skids.
func TestShapes(t *testing.T) {
	keep(t, "shapes", func(p *page) {
		long := worn(20000)
		for _, info := range filter.All() {
			for _, size := range []float64{40, 1600} {
				if !info.Envelope() && info.Base != "" && size > 100 {
					continue // the robust ones pass over it many times
				}
				w, err := info.New(size).Apply(nil, long, 0.5)
				p.sum(fmt.Sprintf("long %s %g", info.Key, size), w, err)
			}
		}
		arc := make([]float64, 500)
		for i := range arc {
			x := (float64(i) - 180) * 0.5
			arc[i] = math.Sqrt(400*400-x*x) - 400 + 0.1*ground(500)[i]
		}
		hollow := make([]float64, len(arc))
		for i, v := range rounded(arc) {
			hollow[i] = -v
		}
		some := make([]bool, 500)
		for i := range some {
			some[i] = i%3 != 0 && i > 20
		}
		few := make([]bool, 500)
		few[3], few[400] = true, true
		for name, z := range map[string][]float64{"arc": arc, "hollow": hollow, "worn": worn(500), "flat": make([]float64, 500), "three": {1, 2, 5}, "one": {1}, "NaN": {1, 2, math.NaN(), 4, 5}} {
			forms := map[string]filter.Form{"mean": filter.Mean{}, "line": filter.Line{}, "total line": filter.TotalLine{}, "ellipse": filter.Ellipse{}, "circle": filter.Circle{}, "circle of 400": filter.Circle{Radius: 400},
				"circle of 50": filter.Circle{Radius: 50}, "circle of -1": filter.Circle{Radius: -1}}
			for degree := range 8 {
				forms[fmt.Sprint("polynomial ", degree)] = filter.Polynomial{Degree: 3 * degree}
			}
			for form, f := range forms {
				var list []any
				for _, use := range [][]bool{nil, some, few} {
					if len(z) != 500 && use != nil {
						use = use[:len(z)]
					}
					fit, err := f.Fit(nil, z, 0.5, use)
					list = append(list, fit, err)
					if c, ok := f.(filter.Circle); ok {
						found, err := c.Find(z, 0.5, use)
						list = append(list, found, err)
					}
				}
				p.sum(name+" "+form, list...)
			}
		}
		for _, tip := range []filter.Tip{{Radius: 2, Cone: 60}, {Radius: 5, Cone: 90}, {Radius: 10}, {Radius: 0, Cone: 60}, {}, {Radius: -1}, {Radius: 2, Cone: 180}, {Radius: 2, Cone: -60}} {
			a, err := tip.Trace(nil, ground(300), 0.5)
			b, err2 := tip.Trace(nil, coarse(1)[0].Z, 0.5)
			p.sum(fmt.Sprint("tip ", tip), a, err, b, err2)
		}
		for _, skid := range []filter.Skid{{Radius: 100, Lead: 10}, {Radius: 40, Lead: -20}, {Radius: 100}, {Radius: -1}, {Radius: 10, Lead: 1000}} {
			a, from, err := skid.Shown(worn(300), 0.5)
			p.sum(fmt.Sprint("skid ", skid), a, from, err)
		}
		for _, gaps := range [][]int{{}, {0}, {0, 1, 2}, {5}, {5, 6, 7}, {38, 39}, {0, 5, 6, 20, 21, 22, 23, 39}, {3, 4, 5, 6, 7, 8, 9}} {
			z := ground(40)
			for _, g := range gaps {
				z[g] = math.NaN()
			}
			list := []any{filter.Gaps(z)}
			for _, longest := range []float64{0, 0.5, 1, 1.5, 2, 3, -1} {
				b, err := filter.Bridge(nil, z, 0.5, longest)
				list = append(list, b, err)
			}
			p.sum(fmt.Sprint("gaps ", gaps), list...)
		}
		var advice digest
		for _, n := range []int{0, 1, 10, 99, 100, 101, 199, 200, 201, 1000} {
			for _, cutoff := range []float64{0, 0.5, 1, 1.5, 1.99, 2, 2.5, 24.99, 25, 49.5, 50, 50.5, 100, 1000, math.NaN()} {
				advice.put(filter.Advise(n, 0.5, cutoff))
			}
		}
		p.digest("advice", &advice)
		for _, word := range []string{"retain", "zero", "linear", "", "Zero", "discard"} {
			e, err := filter.ParseEnds(word)
			p.sum("ends "+word, e, err)
		}
		slices.Sort(p.lines)
	})
}
