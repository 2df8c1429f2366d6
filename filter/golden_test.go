package filter_test

import (
	"encoding/json"
	"math"
	"os"
	"testing"

	"example.com/furrow/filter"
)

// The values in testdata/filter/golden.json were computed by numpy and scipy; golden.py beside it made them.
func TestGolden(t *testing.T) {
	data, err := os.ReadFile("../testdata/filter/golden.json")
	if err != nil {
		t.Fatal(err)
	}
	var golden map[string][]float64
	if err := json.Unmarshal(data, &golden); err != nil {
		t.Fatal(err)
	}
	const n = 150
	z, grooved, weight, arc := make([]float64, n), make([]float64, n), make([]float64, n), make([]float64, n)
	for i := range z {
		h := float64((7*i*i+3*i+11)%1009) / 250
		z[i] = h + 0.02*float64(i)
		grooved[i] = z[i]
		if i >= 40 && i < 46 {
			grooved[i] -= 30
		}
		if i >= 101 && i < 104 {
			grooved[i] -= 20
		}
		weight[i] = float64(i*5%7) / 6
		u := float64(i) - 70
		arc[i] = math.Sqrt(900*900-u*u) - 900 + 0.01*h
	}
	of := func(f filter.Filter, z []float64) func() ([]float64, error) {
		return func() ([]float64, error) { return f.Apply(nil, z, 1) }
	}
	weighted := func(f filter.Weighted) func() ([]float64, error) {
		return func() ([]float64, error) { return f.ApplyWeighted(nil, z, weight, 1) }
	}
	form := func(f filter.Form, z []float64) func() ([]float64, error) {
		return func() ([]float64, error) { return f.Fit(nil, z, 1, nil) }
	}
	ends := func(e filter.Ends) func() ([]float64, error) { return of(filter.Gaussian{Cutoff: 16, Ends: e}, z) }
	cases := map[string]func() ([]float64, error){
		"gaussian retain":             ends(filter.Retain),
		"gaussian retain-0":           ends(filter.Retain0),
		"gaussian retain-2":           ends(filter.Retain2),
		"gaussian zero":               ends(filter.Zero),
		"gaussian linear":             ends(filter.Linear),
		"gaussian line-symmetric":     ends(filter.LineSymmetric),
		"gaussian point-symmetric":    ends(filter.PointSymmetric),
		"gaussian support 0.5":        of(filter.Gaussian{Cutoff: 16, Support: 0.5}, z),
		"gaussian closed":             of(filter.Gaussian{Cutoff: 16, Closed: true}, z),
		"regression order 0 weighted": weighted(filter.GaussianRegression{Cutoff: 16, Order: filter.Order0}),
		"regression order 1 weighted": weighted(filter.GaussianRegression{Cutoff: 16, Order: 1}),
		"regression order 2 weighted": weighted(filter.GaussianRegression{Cutoff: 16, Order: 2}),
		"robust order 0":              of(filter.RobustGaussian{Cutoff: 16, Order: filter.Order0}, grooved),
		"robust order 1":              of(filter.RobustGaussian{Cutoff: 16, Order: 1}, grooved),
		"robust order 2":              of(filter.RobustGaussian{Cutoff: 16, Order: 2}, grooved),
		"spline":                      of(filter.Spline{Cutoff: 16}, z),
		"spline tension":              of(filter.Spline{Cutoff: 16, Tension: 0.62524}, z),
		"spline weighted":             weighted(filter.Spline{Cutoff: 16}),
		"spline closed":               of(filter.Spline{Cutoff: 16, Closed: true}, z),
		"robust spline":               of(filter.RobustSpline{Cutoff: 16}, grooved),
		"two-rc":                      of(filter.TwoRC{Cutoff: 16}, z),
		"two-rc-zero-phase 75":        of(filter.TwoRCZeroPhase{Cutoff: 16}, z),
		"two-rc-zero-phase 50":        of(filter.TwoRCZeroPhase{Cutoff: 16, Percent: 50}, z),
		"valley suppression":          of(filter.ValleySuppression{Cutoff: 16}, grooved),
		"disk closing":                of(filter.DiskClosing{Radius: 12.5}, grooved),
		"disk opening":                of(filter.DiskOpening{Radius: 12.5}, grooved),
		"disk alternating":            of(filter.DiskAlternating{Radius: 12.5}, grooved),
		"segment closing":             of(filter.SegmentClosing{Length: 12}, grooved),
		"segment opening":             of(filter.SegmentOpening{Length: 12}, grooved),
		"form mean":                   form(filter.Mean{}, z),
		"form line":                   form(filter.Line{}, z),
		"form total line":             form(filter.TotalLine{}, z),
		"form polynomial 5":           form(filter.Polynomial{Degree: 5}, z),
		"form circle":                 form(filter.Circle{}, arc),
		"form circle 900":             form(filter.Circle{Radius: 900}, arc),
	}
	for name, f := range cases {
		w, err := f()
		if err != nil {
			t.Errorf("%s: %v", name, err)
			continue
		}
		tol := 1e-10
		if name == "form circle" || name == "form circle 900" {
			tol = 1e-7 // the optimiser of scipy stops there
		}
		if name == "spline closed" {
			tol = 1e-9
		}
		if d := greatest(w, golden[name]); d > tol {
			t.Errorf("%s: off by %g", name, d)
		}
	}
	for name := range golden {
		if cases[name] == nil {
			t.Errorf("golden values %q are not used", name)
		}
	}
}
