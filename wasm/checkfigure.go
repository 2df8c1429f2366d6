package main

import (
	"math"

	"example.com/furrow/roughness/figure"
)

// checkDrawings make the pictures of the latest comparison and of the latest check of the instrument, by name; nil where there is none.
var checkDrawings = map[string]func(m *module, o figureOptions) figure.Drawing{
	"shares":     drawShares,
	"steadiness": drawSteadiness,
	"budget":     drawBudget,
	"allowance":  drawAllowance,
	"groove":     drawGroove,
}

func drawShares(m *module, _ figureOptions) figure.Drawing {
	l := m.ledger
	if l == nil {
		return nil
	}
	d := figure.DifferenceChart{Symbol: l.Symbol, Unit: string(l.A.Unit), First: m.sides[0], Last: m.sides[1], From: l.A.Value, To: l.B.Value}
	for _, e := range l.Entries {
		d.Shares = append(d.Shares, figure.Share{Name: e.Plain, Value: e.Share})
	}
	return d
}

// drawSteadiness draws the symbol that is asked for, or the first.
func drawSteadiness(m *module, o figureOptions) figure.Drawing {
	for _, s := range m.steadyValues {
		if o.Symbol != "" && s.Symbol != o.Symbol || math.IsNaN(s.Value) {
			continue
		}
		d := figure.SteadinessChart{Symbol: s.Symbol, Unit: string(s.Unit), Value: s.Value, Low: s.Low, High: s.High}
		for _, t := range s.Trials {
			d.Conditions = append(d.Conditions, figure.Moved{Name: t.Text, Value: t.Value})
		}
		return d
	}
	return nil
}

func drawBudget(m *module, _ figureOptions) figure.Drawing {
	b := m.budget
	if b == nil {
		return nil
	}
	d := figure.BudgetChart{Symbol: b.Symbol, Unit: b.Unit, Value: b.Value, U: b.Result.Expanded, K: b.Result.K}
	for _, l := range b.Lines {
		d.Influences = append(d.Influences, figure.Influence{Name: l.Name, Effect: l.Effect, Share: l.Share})
	}
	return d
}

func drawAllowance(m *module, _ figureOptions) figure.Drawing {
	c := m.checked
	if c == nil || c.Held == nil {
		return nil
	}
	return figure.AllowanceChart{Symbol: c.Symbol, Unit: c.Unit, Certificate: c.Held.Certificate, Allowed: c.Held.Allowed, Values: c.Values,
		Mean: c.Held.Certificate + c.Held.Deviation}
}

// drawGroove draws the trace that is picked, from 1, or the first that has a groove.
func drawGroove(m *module, o figureOptions) figure.Drawing {
	for i, p := range m.grooves {
		if o.Picked > 0 && i+1 != o.Picked {
			continue
		}
		if g, err := m.grooveOf.Measure(p); err == nil {
			return figure.GroovePlot{Z: p.Z, Spacing: p.Spacing, Centre: g.Centre, Width: g.Width, Depth: g.Depth, Tilt: g.Tilt, Land: g.Land}
		}
	}
	return nil
}
