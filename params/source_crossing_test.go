package params_test

import (
	"math"
	"slices"
	"testing"

	"example.com/furrow/params"
)

// crossings returns the places of the crossings, in points, as the construction of Rsm shows them. With the two end
// parts being incomplete, they are the ends of the parts between.
func crossings(t *testing.T, z []float64, symbol string) []float64 {
	t.Helper()
	in := params.Input{Z: z, Dx: 1}
	call, err := params.Lookup("iso-21920", 'R', symbol)
	if err != nil {
		t.Fatal(err)
	}
	c, err := params.Construct(&in, call)
	if err != nil {
		return nil
	}
	var at []float64
	for _, s := range c.Steps {
		for _, m := range s.Marks {
			if m.Kind == params.PointMark {
				at = append(at, m.Points[0].X)
			}
		}
	}
	slices.Sort(at)
	return slices.Compact(at)
}

// TestCrossingsOnZeros: points exactly on the line. Two detection libraries have counted 2 crossings or 4 in the first,
// and a touch as a crossing in the second (raphaelvallat/antropy issue 17, mne-features issues 45 and 46).
func TestCrossingsOnZeros(t *testing.T) {
	got := crossings(t, []float64{1, 0, -1, 0, 1, 0, -1}, "Rsm")
	if !slices.Equal(got, []float64{1, 3, 5}) {
		t.Errorf("crossings %v, want 1 3 5", got)
	}
	// One crossing makes no element; a further dale and hill make the one at 2.5 visible.
	got = crossings(t, []float64{1, 0, 1, -1, 1, -1}, "Rsm")
	if !slices.Equal(got, []float64{2.5, 3.5, 4.5}) {
		t.Errorf("crossings %v, want 2.5 3.5 4.5: touching the line is not crossing it", got)
	}
	in := params.Input{Z: []float64{1, 0, 1, -1}, Dx: 1}
	if v := ask(t, in, "iso-21920", "Rsm")["Rsm"]; !math.IsNaN(v.Value) || v.Reason == "" {
		t.Errorf("Rsm with one crossing = %v, reason %q; want undefined", v.Value, v.Reason)
	}
	z := make([]float64, 400)
	for i := range z {
		z[i] = math.Sin(2 * math.Pi * float64(i) / 100)
		if i%50 == 0 {
			z[i] = 0
		}
	}
	if got := crossings(t, z, "Rsm"); !slices.Equal(got, []float64{50, 100, 150, 200, 250, 300, 350}) {
		t.Errorf("crossings of four waves of 100 points: %v", got)
	}
	holds(t, "Rsm", params.Rsm(z, 1, 0), 100, 0, "four waves of 100 points")
	z = z[:0]
	for i := range 10 {
		z = append(z, math.Sin(8*math.Pi*float64(i)/9)) // the last is -9.8e-16
	}
	if got := crossings(t, z, "Rsm"); len(got) != 7 {
		t.Errorf("four waves in ten points: %d crossings inside, want 7: 9 count the ends, 8 only one of them", len(got))
	}
}

// TestMergeOrder: a profile on which the order of merging decides, worked by hand for thresholds of 1, smallest part
// first. A second section with a peak and a pit of 15 beside those of 5 makes 10 % of the mean heights just 1.
func TestMergeOrder(t *testing.T) {
	z := []float64{-1, 4, -5, 0.3, -0.2, 5, -4, 4, -4, 4, -0.4, 0.5, -4, 3, -3}
	n := len(z)
	z = append(z, -3, -15, 15, -15)
	for len(z) < 2*n {
		z = append(z, -1)
	}
	in := params.Input{Z: z, Dx: 1, Section: n}
	widths := []float64{2.7434, 4.1111, 3.5566, 1.9444, 2, 3.6111, 4.0714, 2.3889}
	borders := []float64{0.2, 1.4444, 2.9434, 5.5556, 6.5, 7.5, 8.5, 11.1111, 12.5714}
	heights := []float64{9, 10, 9, 8, 8, 8, 8, 7}
	const source = "worked by hand"
	for symbol, values := range map[string][]float64{"Rsm": widths, "Rc": heights} {
		call, err := params.Lookup("iso-21920", 'R', symbol)
		if err != nil {
			t.Fatal(err)
		}
		c, err := params.Construct(&in, call)
		if err != nil {
			t.Fatal(err)
		}
		// The first step is the thresholds; the last of the eight elements ends in the second section.
		if y := c.Steps[0].Marks[0].Points[0].Y; math.Abs(y-1) > 1e-12 {
			t.Fatalf("threshold %v, want 1", y)
		}
		for i := range 7 {
			s := c.Steps[i+1]
			holds(t, symbol, s.Value, values[i], 5e-5, source)
			if symbol == "Rsm" { // Rc marks peak and pit, not the crossings
				holds(t, "border", s.Marks[0].Points[0].X, borders[i], 5e-5, source)
			}
		}
	}
	// The example alone, with 0.5 made 0.49 so that its own thresholds of 0.5 give the same parts.
	z = z[:n]
	z[11] = 0.49
	in = params.Input{Z: z, Dx: 1}
	v := ask(t, in, "iso-21920", "Rsm", "Rc", "Rsmx", "Rcx")
	holds(t, "Rsmx", v["Rsmx"].Value, 4.1111, 5e-5, source)
	holds(t, "Rsm", v["Rsm"].Value, 3.053373, 1e-3, source+", with 0.5 for 0.49")
	holds(t, "Rc", v["Rc"].Value, 8.375, 1e-12, source)
	holds(t, "Rcx", v["Rcx"].Value, 10, 1e-12, source)
	// Neither direction nor side matters.
	for i, j := 0, n-1; i < j; i, j = i+1, j-1 {
		z[i], z[j] = z[j], z[i]
	}
	back := ask(t, in, "iso-21920", "Rsm", "Rc", "Rsmx")
	for i := range z {
		z[i] = -z[i]
	}
	over := ask(t, in, "iso-21920", "Rsm", "Rc", "Rsmx")
	for symbol := range back {
		holds(t, symbol+" backwards", back[symbol].Value, v[symbol].Value, 1e-12, "the same from the other end")
		holds(t, symbol+" turned over", over[symbol].Value, v[symbol].Value, 1e-12, "the same upside down")
	}
}
