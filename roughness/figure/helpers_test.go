package figure_test

import (
	"encoding/xml"
	"io"
	"math"
	"strconv"
	"strings"
	"sync"
	"testing"

	"example.com/furrow/params"
	"example.com/furrow/roughness/figure"
	"example.com/furrow/roughness/synth"
	"example.com/furrow/standards"
)

// half has the transmission of the Gaussian filter: 50 % at the cut-off.
type half struct{ cutoff float64 }

func (f half) Transmission(wavelength float64) float64 {
	return math.Exp2(-(f.cutoff / wavelength) * (f.cutoff / wavelength))
}

// surface is five sections of 800 with ends of 400, turned with a little noise, on a grid of 0.001.
var surface = sync.OnceValue(func() []float64 {
	z := synth.Sum{
		synth.Turned{Feed: 160, Nose: 800},
		synth.Correlated{Sigma: 0.4, Length: 20, Seed: 5},
	}.Heights(2401, 2)
	for i := range z {
		z[i] = math.Round(z[i]*1000) / 1000
	}
	return z
})

var layout = figure.Layout{Sections: 5, Length: 800, Start: 400}

// construct is the construction of a value of the surface's evaluation length.
func construct(t testing.TB, edition standards.EditionID, name string) figure.ConstructionPlot {
	t.Helper()
	call, err := params.Lookup(edition, 'R', name)
	if err != nil {
		t.Fatal(err)
	}
	z := surface()[200:2200]
	c, err := params.Construct(&params.Input{Z: z, Dx: 2, Section: 400}, call)
	if err != nil {
		t.Fatal(err)
	}
	return figure.ConstructionPlot{Of: c, Z: z, Spacing: 2, Sections: 5}
}

func picked(d figure.ConstructionPlot, step int) figure.ConstructionPlot {
	d.Picked = step
	return d
}

func closer(d figure.ConstructionPlot, step int) figure.ConstructionPlot {
	d.Picked, d.Close = step, true
	return d
}

// drawings are one of each kind.
func drawings(t testing.TB) map[string]figure.Drawing {
	z := surface()
	tilted := synth.Sum{synth.Tilt{Offset: -1, Slope: 0.001}}.Heights(len(z), 2)
	read := make([]float64, len(z))
	for i := range z {
		read[i] = z[i] + tilted[i]
	}
	wave := synth.Sine{Amplitude: 0.5, Wavelength: 2400}.Heights(len(z), 2)
	return map[string]figure.Drawing{
		"trace":        figure.TracePlot{Z: read, Spacing: 2, Layout: layout},
		"trace-short":  figure.TracePlot{Z: read[:1800], Spacing: 2, Layout: layout},
		"form":         figure.FormPlot{Read: read, Fitted: tilted, Primary: z, Spacing: 2, Name: "straight line"},
		"waves":        figure.Waves{Primary: z, Waviness: wave, Spacing: 2},
		"transmission": figure.Transmission{Short: half{2.5}, Long: half{800}, ShortCutoff: 2.5, LongCutoff: 800, Wave: 250},
		"profile":      figure.ProfilePlot{Letter: "R", Z: z, Spacing: 2, Layout: layout, Picked: 3},
		"profile-part": figure.ProfilePlot{Letter: "R", Z: z, Spacing: 2, Layout: layout, From: 1000, To: 1500},
		"strip": figure.Strip{ProfilePlot: figure.ProfilePlot{Letter: "R", Z: z, Spacing: 2, Layout: layout}, Symbol: "Rz", Values: []float64{2.1, 3.16, 2.6, 3.05, 3.69},
			Levels: [][2]float64{{-1, 1}, {-1.1, 0.9}, {-1, math.NaN()}, {-1, 1}, {-1, 1}}, Added: true, Tips: true},
		"strip-plain": figure.Strip{ProfilePlot: figure.ProfilePlot{Letter: "W", Z: z, Spacing: 2, Layout: layout}},
		"spark":       figure.Spark{Z: z, Spacing: 2},
		"heights":     figure.Distribution{Z: z},
		"decision": figure.Decision{Symbol: "Rz", Unit: "µm", Limits: []figure.Limit{{Value: 3.2, Accept: 3.1, Reject: 3.3}},
			Values: []figure.Measured{{Name: "trace 1", Value: 2.87, U: 0.12}, {Name: "trace 2", Value: 2.912, U: 0.12, Deciding: true}}},
		"decision-plain": figure.Decision{Symbol: "Ra", Unit: "µm", Limits: []figure.Limit{{Value: 0.8, Accept: 0.8, Reject: 0.8}},
			Values: []figure.Measured{{Name: "trace 1", Value: 0.87, Deciding: true}}},
		"difference": figure.DifferenceChart{Symbol: "Rz", Unit: "µm", First: "A: this sheet", Last: "B: the other laboratory", From: 2.91, To: 2.99,
			Shares: []figure.Share{{Name: "no S-filter", Value: 0.04}, {Name: "three sections instead of five", Value: -0.03}, {Name: "2RC instead of Gaussian", Value: 0.07}}},
		"steadiness": figure.SteadinessChart{Symbol: "Rz", Unit: "µm", Value: 2.92, Low: 2.887, High: 3.144,
			Conditions: []figure.Moved{{Name: "every second point", Value: 2.938}, {Name: "L-filter one step longer", Value: 3.067}, {Name: "a tip of 5 µm in place of 2 µm", Value: math.NaN()}}},
		"budget": figure.BudgetChart{Symbol: "Rz", Unit: "µm", Value: 2.92, U: 0.0912, K: 2,
			Influences: []figure.Influence{{Name: "certificate of the specimen", Effect: 0.0438, Share: 0.925}, {Name: "noise", Effect: 0.0098, Share: 0.046}, {Name: "spacing of the points", Effect: 0.0078, Share: 0.029}}},
		"allowance": figure.AllowanceChart{Symbol: "Ra", Unit: "µm", Certificate: 0.816, Allowed: 0.03, Values: []float64{0.784, 0.787, 0.784}, Mean: 0.785},
		"groove":    groove(),
		"classes": figure.Classes{Symbol: "Rz", Unit: "µm", Limit: 3.2, Classes: []figure.Class{
			{Name: "Sc1", To: 0.16, Nic: 80}, {Name: "Sc2", To: 0.8, Nic: 250}, {Name: "Sc3", To: 16, Nic: 800}, {Name: "Sc4", To: 80, Nic: 2500}, {Name: "Sc5", To: math.Inf(1), Nic: 8000}}},
		"ral":       construct(t, "iso-21920", "Ral"),
		"rsw":       construct(t, "iso-21920", "Rsw"),
		"r10z":      construct(t, "iso-21920", "R10z"),
		"rz":        picked(construct(t, "iso-21920", "Rz"), 3),
		"rt":        construct(t, "iso-21920", "Rt"),
		"rsm":       picked(construct(t, "iso-21920", "Rsm"), 2),
		"rsm-close": closer(construct(t, "iso-21920", "Rsm"), 4),
		"rmr":       construct(t, "iso-21920", "Rmr(0.5)"),
		"rk":        construct(t, "iso-21920", "Rk"),
		"rdc":       construct(t, "iso-21920", "Rdc(10,80)"),
		"rvmc":      construct(t, "iso-21920", "Rvmc(10,80)"),
	}
}

// groove is one of 100 µm and 1.5 µm on a tilted trace.
func groove() figure.GroovePlot {
	z := make([]float64, 1001)
	for i := range z {
		x := float64(i) * 0.5
		z[i] = 0.002*x + 0.02*math.Sin(x)
		if math.Abs(x-250) < 50 {
			z[i] -= 1.5
		}
	}
	return figure.GroovePlot{Z: z, Spacing: 0.5, Centre: 250, Width: 100, Depth: 1.5, Tilt: 0.002, Land: 0.5}
}

// node is an element of a picture.
type node struct {
	name  string
	attrs map[string]string
	text  string
}

// nodes reads the SVG as XML, so that a picture that is none fails every test.
func nodes(t *testing.T, svg string) []node {
	t.Helper()
	var list []node
	decoder := xml.NewDecoder(strings.NewReader(svg))
	for {
		token, err := decoder.Token()
		if err == io.EOF {
			return list
		}
		if err != nil {
			t.Fatal(err)
		}
		switch e := token.(type) {
		case xml.StartElement:
			n := node{e.Name.Local, map[string]string{}, ""}
			for _, a := range e.Attr {
				n.attrs[a.Name.Local] = a.Value
			}
			list = append(list, n)
		case xml.CharData:
			if len(list) > 0 {
				list[len(list)-1].text += string(e)
			}
		}
	}
}

// points are the places of an absolute path.
func points(t *testing.T, d string) [][2]float64 {
	t.Helper()
	var list [][2]float64
	for _, part := range strings.FieldsFunc(d, func(r rune) bool { return r == 'M' || r == 'L' }) {
		x, y, found := strings.Cut(part, " ")
		if !found {
			t.Fatalf("path %q is not one of places", d)
		}
		list = append(list, [2]float64{number(t, x), number(t, y)})
	}
	return list
}

func number(t *testing.T, s string) float64 {
	t.Helper()
	v, err := strconv.ParseFloat(strings.Replace(s, "−", "-", 1), 64)
	if err != nil {
		t.Fatal(err)
	}
	return v
}
