package outputs

import (
	"fmt"
	"math"
	"testing"

	"example.com/furrow/filter"
	"example.com/furrow/params"
	"example.com/furrow/roughness/figure"
	"example.com/furrow/roughness/synth"
	"example.com/furrow/standards"
)

// drawings are pictures of each kind, with what each can show.
func drawings() map[string]figure.Drawing {
	z := turned(2401)
	gap := ground(1500)
	gap[200], gap[201], gap[900] = math.NaN(), math.NaN(), math.NaN()
	tilted := rounded(synth.Sum{synth.Tilt{Offset: -1, Slope: 0.001}}.Heights(len(z), 0.5))
	read := make([]float64, len(z))
	for i := range z {
		read[i] = z[i] + tilted[i]
	}
	wave := rounded(synth.Sine{Amplitude: 0.5, Wavelength: 600}.Heights(len(z), 0.5))
	groove := make([]float64, 1001)
	for i := range groove {
		x := float64(i) * 0.5
		groove[i] = 0.002*x + 0.02*ground(1001)[i]
		if math.Abs(x-250) < 50 {
			groove[i] -= 1.5
		}
	}
	layout := figure.Layout{Sections: 5, Length: 200, Start: 100}
	profile := figure.ProfilePlot{Letter: "R", Z: z, Spacing: 0.5, Layout: layout, Picked: 3}
	part, before, far := profile, profile, profile
	part.From, part.To, part.Picked = 300, 420, 0
	before.Before, before.Marks = read, []params.Mark{{Kind: params.PeakMark, Label: "peak", Points: []params.Point{{X: 100, Y: 1}}}, {Kind: params.LineMark, Points: []params.Point{{X: 100, Y: 1}, {X: 150, Y: -1}}},
		{Kind: params.SpanMark, Label: "span", Points: []params.Point{{X: 300, Y: 0}, {X: 400, Y: 0}}}, {Kind: params.LevelMark, Points: []params.Point{{X: 0, Y: 0.5}, {X: 500, Y: 0.5}}}, {Kind: params.PitMark, Points: []params.Point{{X: 170, Y: -1}}}}
	far.Origin, far.Letter, far.Z = 5000, "W", wave
	limits := []figure.Limit{{Value: 3.2, Accept: 3.1, Reject: 3.3}, {Value: 1, Lower: true, Accept: 1.1, Reject: 0.9}}
	return map[string]figure.Drawing{
		"trace": figure.TracePlot{Z: read, Spacing: 0.5, Layout: layout}, "trace with gaps": figure.TracePlot{Title: "place 3", Z: gap, Spacing: 0.5, Layout: figure.Layout{Sections: 2, Length: 250, Start: 0}}, "trace without sections": figure.TracePlot{Z: gap[300:800], Spacing: 3},
		"trace, long": figure.TracePlot{Z: z, Spacing: 40, Layout: layout}, "trace, one": figure.TracePlot{Z: []float64{1}, Spacing: 1}, "trace, none": figure.TracePlot{}, "trace, flat": figure.TracePlot{Z: make([]float64, 500), Spacing: 1},
		"form":              figure.FormPlot{Read: read, Fitted: tilted, Primary: z, Spacing: 0.5, Name: "straight line"},
		"form, far":         figure.FormPlot{Read: read, Fitted: tilted, Primary: z, Spacing: 0.5, Origin: 1e4, Name: "circle"},
		"waves":             figure.Waves{Primary: z, Waviness: wave, Spacing: 0.5, Origin: 70},
		"transmission":      figure.Transmission{Short: filter.Gaussian{Cutoff: 2.5}, Long: filter.Gaussian{Cutoff: 800}, ShortCutoff: 2.5, LongCutoff: 800, ShortName: "Gaussian", LongName: "Gaussian", Wave: 250},
		"transmission, one": figure.Transmission{Long: filter.TwoRC{Cutoff: 250}, LongCutoff: 250, LongName: "2RC", From: 10, To: 5000},
		"profile":           profile, "profile, part": part, "profile, before": before, "profile, far": far,
		"strip":        figure.Strip{ProfilePlot: profile, Symbol: "Rz", Values: []float64{2.1, 3.16, 2.6, 3.05, 3.69}, Levels: [][2]float64{{-1, 1}, {-1.1, 0.9}, {-1, math.NaN()}, {-1, 1}, {-1, 1}}, Added: true, Tips: true},
		"strip, plain": figure.Strip{ProfilePlot: far}, "spark": figure.Spark{Z: z, Spacing: 0.5}, "spark with gaps": figure.Spark{Z: gap, Spacing: 0.5}, "heights": figure.Distribution{Z: z}, "heights, few": figure.Distribution{Z: []float64{1, 1, 2}},
		"decision":       figure.Decision{Symbol: "Rz", Unit: "µm", Limits: limits, Values: []figure.Measured{{Name: "trace 1", Value: 2.87, U: 0.12}, {Name: "trace 2", Value: 3.412, U: 0.12, Deciding: true}, {Name: "trace 3", Value: 0.5}}},
		"decision, one":  figure.Decision{Symbol: "Ra", Unit: "µm", Limits: limits[:1], Values: []figure.Measured{{Name: "a trace with a long name, place 7", Value: 3.2, Deciding: true}}},
		"decision, none": figure.Decision{Symbol: "Rsk", Limits: []figure.Limit{{Value: -0.5, Accept: -0.5, Reject: -0.5}}},
		"difference": figure.DifferenceChart{Symbol: "Rz", Unit: "µm", First: "A: this sheet", Last: "B: the other laboratory", From: 2.91, To: 2.99,
			Shares: []figure.Share{{Name: "no S-filter", Value: 0.04}, {Name: "three sections instead of five", Value: -0.03}, {Name: "2RC instead of Gaussian", Value: 0.07}}},
		"difference, none": figure.DifferenceChart{Symbol: "Ra", Unit: "µm", First: "A", Last: "B", From: 1, To: 1},
		"steadiness": figure.SteadinessChart{Symbol: "Rz", Unit: "µm", Value: 2.92, Low: 2.887, High: 3.144,
			Conditions: []figure.Moved{{Name: "every second point", Value: 2.938}, {Name: "L-filter one step longer", Value: 3.067}, {Name: "a tip of 5 µm in place of 2 µm", Value: math.NaN()}}},
		"budget": figure.BudgetChart{Symbol: "Rz", Unit: "µm", Value: 2.92, U: 0.0912, K: 2,
			Influences: []figure.Influence{{Name: "certificate of the specimen", Effect: 0.0438, Share: 0.925}, {Name: "noise", Effect: 0.0098, Share: 0.046}, {Name: "spacing of the points", Effect: 0, Share: 0.029}}},
		"allowance":      figure.AllowanceChart{Symbol: "Ra", Unit: "µm", Certificate: 0.816, Allowed: 0.03, Values: []float64{0.784, 0.787, 0.784}, Mean: 0.785},
		"allowance, far": figure.AllowanceChart{Symbol: "d", Unit: "µm", Certificate: 2.4, Allowed: 0.01, Values: []float64{2.1, 2.6}, Mean: 2.35},
		"groove":         figure.GroovePlot{Z: groove, Spacing: 0.5, Centre: 250, Width: 100, Depth: 1.5, Tilt: 0.002, Land: 0.5},
		"classes": figure.Classes{Symbol: "Rz", Unit: "µm", Limit: 3.2, Classes: []figure.Class{
			{Name: "Sc1", To: 0.16, Nic: 80}, {Name: "Sc2", To: 0.8, Nic: 250}, {Name: "Sc3", To: 16, Nic: 800}, {Name: "Sc4", To: 80, Nic: 2500}, {Name: "Sc5", To: math.Inf(1), Nic: 8000}}},
		"transmission, wave at its start": figure.Transmission{Long: filter.Gaussian{Cutoff: 250}, LongCutoff: 250, From: 10, To: 5000, Wave: 10},
		"transmission, wave at its end":   figure.Transmission{Short: filter.Gaussian{Cutoff: 25}, ShortCutoff: 25, ShortName: "Gaussian", From: 10, To: 5000, Wave: 5000},
		"transmission, short alone":       figure.Transmission{Short: filter.Gaussian{Cutoff: 8}, ShortCutoff: 8, Wave: 8}, "transmission, none": figure.Transmission{From: 5, To: 5, Wave: 1},
		"construction, one point":  figure.ConstructionPlot{Of: params.Construction{Symbol: "Rt", Plane: params.ProfilePlane}, Z: []float64{1}, Spacing: 2},
		"construction, two points": figure.ConstructionPlot{Of: params.Construction{Symbol: "Rt", Plane: params.ProfilePlane}, Z: []float64{1, -1}, Spacing: 2, Sections: 2},
		"construction, none":       figure.ConstructionPlot{Of: params.Construction{Symbol: "Rt", Plane: params.ProfilePlane}},
		"trace, two":               figure.TracePlot{Z: []float64{1, 3}, Spacing: 1, Layout: figure.Layout{Sections: 1, Length: 1, Start: 1}}, "trace, high": figure.TracePlot{Z: []float64{1e5, -1e5, 3e4, 0}, Spacing: 1000},
		"trace, low":     figure.TracePlot{Z: []float64{1e-4, -2e-4, 3e-4, 0, 1e-4}, Spacing: 0.01, Layout: figure.Layout{Sections: 2, Length: 0.02}},
		"profile, limit": figure.ProfilePlot{Letter: "P", Z: z[:300], Spacing: 0.5, Layout: figure.Layout{Sections: 1, Length: 150}, From: 150, To: 150, Picked: 1},
		"waves, one":     figure.Waves{Primary: []float64{1}, Waviness: []float64{1}, Spacing: 1}, "spark, none": figure.Spark{}, "spark, flat": figure.Spark{Z: []float64{2, 2, 2}, Spacing: 1},
		"heights, one": figure.Distribution{Z: []float64{4}}, "heights, two equal": figure.Distribution{Z: []float64{4, 4}}, "heights, whole": figure.Distribution{Z: randomWhole(64, 4, 2)},
		"decision, at its limits": figure.Decision{Symbol: "Rz", Unit: "µm", Limits: limits, Values: []figure.Measured{{Name: "1", Value: 3.2, U: 0.1}, {Name: "2", Value: 3.1, U: 0.1}, {Name: "3", Value: 3.3, U: 0}, {Name: "4", Value: 1, U: 2}, {Name: "5", Value: math.NaN()}}},
		"decision, below zero":    figure.Decision{Symbol: "Rsk", Limits: []figure.Limit{{Value: -0.5, Lower: true, Accept: -0.4, Reject: -0.6}}, Values: []figure.Measured{{Name: "1", Value: -0.5}, {Name: "2", Value: 0}}},
		"difference, one":         figure.DifferenceChart{Symbol: "Rsk", First: "A", Last: "B", From: -1, To: 1, Shares: []figure.Share{{Name: "all of it", Value: 2}, {Name: "nothing", Value: 0}}},
		"steadiness, none":        figure.SteadinessChart{Symbol: "Rsk", Value: -0.2, Low: -0.2, High: -0.2}, "budget, none": figure.BudgetChart{Symbol: "Ra", Unit: "µm", Value: 1},
		"allowance, at its limit": figure.AllowanceChart{Symbol: "Ra", Unit: "µm", Certificate: 1, Allowed: 0.25, Values: []float64{1.25, 0.75, 1}, Mean: 1}, "allowance, one": figure.AllowanceChart{Symbol: "Ra", Unit: "µm", Certificate: 1, Allowed: 0.25, Values: []float64{2}, Mean: 2},
		"classes, at a limit": figure.Classes{Symbol: "Rz", Unit: "µm", Limit: 0.8, Classes: []figure.Class{{Name: "Sc1", To: 0.16, Nic: 80}, {Name: "Sc2", To: 0.8, Nic: 250}, {Name: "Sc3", To: math.Inf(1), Nic: 800}}},
		"classes, low":        figure.Classes{Symbol: "Ra", Unit: "µm", Limit: 0.01, Classes: []figure.Class{{Name: "Sc1", To: 0.02, Nic: 80}, {Name: "Sc2", To: 0.1, Nic: 250}}},
	}
}

func TestFigures(t *testing.T) {
	keep(t, "figures", func(p *page) {
		options := []figure.Options{{}, {Width: 350, ID: "a"}, {Width: 736, Standalone: true, DecimalComma: true}, {Width: 520, Inch: true, ID: "b"}, {Width: 240, Standalone: true, Notes: []string{"a note", "another note that is a good deal longer than the picture is wide"}},
			{Width: 900, Heights: [2]float64{-4, 4}, Height: 180}, {Width: 640, Hidden: "Rz"}, {Width: 640, Inch: true, DecimalComma: true, Standalone: true}}
		list := drawings()
		for _, name := range names(list) {
			for i, o := range options {
				p.sum(fmt.Sprint(name, " ", i+1), list[name].Draw(o))
			}
		}
		p.sum("style", figure.StyleSheet())
	})
}

// The construction of every parameter, as a whole, with each step picked, and close.
func TestFiguresOfConstructions(t *testing.T) {
	keep(t, "figures-of-constructions", func(p *page) {
		surfaces := inputs()
		in, worn := surfaces["turned"], surfaces["worn"]
		seen := map[string]bool{}
		for _, edition := range standards.EditionIDs() {
			for i, call := range params.Defaults(edition, 'R') {
				c, err := params.Construct(in, call)
				if seen[call.Symbol+call.Parameter.Key] || err != nil {
					continue
				}
				seen[call.Symbol+call.Parameter.Key] = true
				var d digest
				plot := figure.ConstructionPlot{Of: c, Z: in.Z, Spacing: in.Dx, Sections: 5}
				before := plot
				d.put(plot.Draw(figure.Options{Width: 350 + 10*(i%7)}))
				for step := range c.Steps {
					plot.Picked, plot.Close = step+1, step%2 == 0
					d.put(plot.Draw(figure.Options{Width: 640, DecimalComma: step%3 == 0, Inch: step%4 == 0}))
				}
				other, err := params.Construct(worn, call)
				if err == nil {
					before.Before = &figure.ConstructionPlot{Of: other, Z: worn.Z, Spacing: in.Dx, Sections: 5}
					d.put(before.Draw(figure.Options{Width: 500, Standalone: true, Hidden: call.Symbol}))
				}
				p.digest(fmt.Sprint(edition, " ", call.Symbol), &d)
			}
		}
	})
}
