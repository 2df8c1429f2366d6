package outputs

import (
	"fmt"
	"math"
	"testing"

	"example.com/furrow/filter"
	"example.com/furrow/params"
	"example.com/furrow/roughness/figure"
)

// figure draws a picture of few round numbers.
func (s *source) figure() figure.Drawing {
	unit := one(s, "µm", "µm", "", "%", "mm")
	some := func() float64 { return one(s, 0, 1, 1, 2, 0.5, -0.5, 3.2, 10, 100, 0.001, 1234.5, -3) }
	values := func(n int) (z []float64) {
		for range s.upTo(n) {
			z = append(z, some())
		}
		return z
	}
	z := randomWhole(one(s, 1, 2, 3, 8, 60, 400), one(s, 1, 2, 3, 10), source(s.upTo(100)))
	for range one(s, 0, 0, 0, 1, 5) {
		z[s.upTo(len(z))] = math.NaN()
	}
	dx := one(s, 0.5, 1, 5, 100)
	span := float64(len(z)-1) * dx
	layout := figure.Layout{Sections: one(s, 0, 1, 2, 3, 5, 12, 40), Start: one(s, 0, 0, 0.1, 0.25, -0.1) * span}
	layout.Length = one(s, 1, 1, 0.5, 1.25) * (span - layout.Start) / float64(max(1, layout.Sections))
	profile := figure.ProfilePlot{Letter: one(s, "R", "W", "P"), Z: z, Spacing: dx, Layout: layout, Origin: one(s, 0.0, 0, 100, 5000), Picked: s.upTo(layout.Sections + 1)}
	if s.often(30) {
		profile.From, profile.To = one(s, 0, 0.25, 0.5)*span+profile.Origin, one(s, 0.3, 0.5, 1, 1.5)*span+profile.Origin
	}
	if s.often(20) {
		profile.Before = randomWhole(len(z), 3, source(s.upTo(9)))
	}
	name := one(s, "", "1", "trace 2", "a trace with a long name, place 7", "<b>&")
	switch s.upTo(13) {
	case 0:
		return figure.TracePlot{Title: name, Z: z, Spacing: dx, Layout: layout}
	case 1:
		return profile
	case 2:
		strip := figure.Strip{ProfilePlot: profile, Symbol: one(s, "Rz", "Ra"), Added: s.often(50), Tips: s.often(50)}
		for range layout.Sections {
			strip.Values, strip.Levels = append(strip.Values, some()), append(strip.Levels, [2]float64{one(s, -1, -2, math.NaN()), one(s, 1, 2, math.NaN())})
		}
		if s.often(30) {
			strip.Levels = nil
		}
		return strip
	case 3:
		d := figure.Decision{Symbol: one(s, "Rz", "Rmr(0.5)"), Unit: unit}
		for range 1 + s.upTo(2) {
			v, band := some(), one(s, 0, 0, 0.1, 1)
			l := figure.Limit{Value: v, Lower: s.often(40), Accept: v - band, Reject: v + band}
			if l.Lower {
				l.Accept, l.Reject = v+band, v-band
			}
			d.Limits = append(d.Limits, l)
		}
		for range s.upTo(4) {
			d.Values = append(d.Values, figure.Measured{Name: name, Value: some(), U: one(s, 0, 0, 0.1, 1), Deciding: s.often(30)})
		}
		return d
	case 4:
		d := figure.DifferenceChart{Symbol: "Rz", Unit: unit, First: name, Last: "B", From: some()}
		d.To = d.From
		for _, v := range values(5) {
			d.Shares, d.To = append(d.Shares, figure.Share{Name: name, Value: v}), d.To+v
		}
		return d
	case 5:
		d := figure.SteadinessChart{Symbol: "Rz", Unit: unit, Value: some()}
		d.Low, d.High = d.Value-one(s, 0, 0, 0.5, 1), d.Value+one(s, 0, 0, 0.5, 1)
		for _, v := range values(4) {
			d.Conditions = append(d.Conditions, figure.Moved{Name: name, Value: one(s, v, v, d.Value, math.NaN())})
		}
		return d
	case 6:
		d := figure.BudgetChart{Symbol: "Rz", Unit: unit, Value: some(), U: one(s, 0, 0.1, 1), K: one(s, 1.0, 2, 2.1)}
		for range s.upTo(4) {
			d.Influences = append(d.Influences, figure.Influence{Name: name, Effect: one(s, 0, 0.01, 0.1), Share: one(s, 0, 0.005, 0.5, 1, 0.333)})
		}
		return d
	case 7:
		d := figure.AllowanceChart{Symbol: one(s, "Ra", "d"), Unit: unit, Certificate: some(), Allowed: one(s, 0, 0.1, 1), Values: values(4), Mean: math.NaN()}
		if len(d.Values) > 0 {
			d.Mean = some()
		}
		return d
	case 8:
		d := figure.Classes{Symbol: "Rz", Unit: unit, Limit: one(s, some(), 0.16, 0.8)}
		for i, to := range []float64{0.16, 0.8, 16, 80, math.Inf(1)}[s.upTo(3):] {
			d.Classes = append(d.Classes, figure.Class{Name: fmt.Sprint("Sc", i+1), To: to, Nic: one(s, 80.0, 250, 800, 2500)})
		}
		d.Classes = d.Classes[:1+s.upTo(len(d.Classes))]
		return d
	case 9:
		return figure.GroovePlot{Z: z, Spacing: dx, Centre: span / 2, Width: one(s, 0.1, 0.25, 1.0/3) * span, Depth: one(s, 1.0, 2, -1), Tilt: one(s, 0, 0.01, -0.1), Land: some()}
	case 10:
		d := figure.Transmission{From: one(s, 0, 0, 2.5, 10), To: one(s, 0.0, 800, 10), Wave: one(s, 0, 2.5, 10, 80, 800.0)}
		if short := one(s, 0, 0.5, 2.5, 8); short > 0 {
			d.Short, d.ShortCutoff, d.ShortName = filter.Gaussian{Cutoff: short}, short, one(s, "", "λ_{s}")
		}
		if long := one(s, 0.0, 8, 80, 800); long > 0 {
			d.Long, d.LongCutoff = one[figure.Transmitter](s, filter.Gaussian{Cutoff: long}, filter.TwoRC{Cutoff: long}), long
		}
		return d
	case 11:
		return one[figure.Drawing](s, figure.Distribution{Z: z}, figure.Spark{Z: z, Spacing: dx}, figure.Waves{Primary: z, Waviness: make([]float64, len(z)), Spacing: dx, Origin: profile.Origin}, figure.FormPlot{Read: z, Fitted: make([]float64, len(z)), Primary: z, Spacing: dx, Origin: profile.Origin, Name: name})
	}
	c := params.Construction{Symbol: one(s, "Rz", "Rmr(0.5)"), Unit: params.Unit(one(s, "µm", "%", "")), Plane: one(s, planes...), Result: one(s, 1.5, math.NaN(), 0)}
	for range s.upTo(4) {
		step := params.Step{Text: "step.", Value: one(s, 1, 0, math.NaN()), Section: s.upTo(3)}
		for range 1 + s.upTo(3) {
			m := params.Mark{Kind: one(s, markKinds...), Label: one(s, "", "a", "Rz 3", "40 %", "a long name of a mark")}
			for range 1 + s.upTo(3) {
				m.Points = append(m.Points, params.Point{X: one(s, 0, 0.25, 0.5, 0.5, 1) * max(span, 1), Y: one(s, 0.0, 1, -1, 2)})
			}
			step.Marks = append(step.Marks, m)
		}
		c.Steps = append(c.Steps, step)
	}
	clean := randomWhole(len(z), 3, source(len(z)))
	return figure.ConstructionPlot{Of: c, Z: clean, Spacing: dx, Sections: one(s, 0, 1, 2, 5), Picked: s.upTo(len(c.Steps) + 1), Close: s.often(40)}
}

// Pictures drawn from short lists of round numbers, so that labels meet, bars end at axes and values lie on limits.
func TestFiguresDrawn(t *testing.T) {
	keep(t, "drawn-figures", func(p *page) {
		for i := range 50 {
			s := source(i)
			var d digest
			for range 90 {
				d.put(s.figure().Draw(figure.Options{Width: one(&s, 0, 0, 240, 300, 350, 520, 521, 736, 900), DecimalComma: s.often(30), Inch: s.often(30), Standalone: s.often(20), Height: one(&s, 0, 0, 0, 120, 180), Heights: one(&s, [2]float64{}, [2]float64{}, [2]float64{-1, 1}), Column: one(&s, 0, 0, 0, 1, 4), Hidden: one(&s, "", "", "", "Rz"), Notes: one(&s, nil, []string{"a note"})}))
			}
			p.digest(fmt.Sprint("pictures ", i+1), &d)
		}
	})
}
