package params_test

import (
	"math"
	"testing"

	"example.com/furrow/params"
)

func curvesOf(t *testing.T, in *params.Input) map[string]params.Curve {
	t.Helper()
	m := map[string]params.Curve{}
	for _, c := range params.Curves(in) {
		if m[c.Key].Key != "" || c.Name == "" || c.X.Name == "" || c.Y.Name == "" {
			t.Errorf("curve %q is incomplete or there twice", c.Key)
		}
		m[c.Key] = c
	}
	return m
}

func TestCurvesOfASine(t *testing.T) {
	const n, periods, dx, a = 4000, 20, 0.5, 2.0
	z := cosines(n, periods, a)
	curves := curvesOf(t, &params.Input{Z: z, Dx: dx})

	amplitude := curves["amplitude-spectrum"].Points[periods]
	holds(t, "frequency", amplitude.X, periods/(n*dx)*1000, 1e-9, "periods per mm")
	holds(t, "amplitude", amplitude.Y, a, 1e-12, "the sine's own")

	psd := curves["power-spectral-density"]
	sum := 0.0
	for _, p := range psd.Points {
		sum += p.Y * (psd.Points[1].X - psd.Points[0].X)
	}
	holds(t, "Σ PSD·Δf", sum, a*a/2, 1e-12, "Rq² of a sine")
	holds(t, "check of the PSD", psd.Check.Result, a*a/2, 1e-12, "Rq² of a sine")

	acf := curves["autocorrelation"].Points
	holds(t, "autocorrelation at 0", acf[0].Y, 1, 0, "definition")
	// After one period the overlap holds whole periods, and the function is 1 again.
	holds(t, "autocorrelation at λ", acf[n/periods].Y, 1, 1e-12, "cos of a whole turn")
	holds(t, "shift", acf[n/periods].X, n*dx/periods, 1e-12, "the period")

	density := curves["height-density"].Points
	total, width := 0.0, density[1].X-density[0].X
	for i, p := range density {
		total += p.Y * width
		if i > 4 && i < len(density)-5 { // away from the poles of the arcsine law
			holds(t, "height density", p.Y, 1/(math.Pi*math.Sqrt(a*a-p.X*p.X)), 0.02, "arcsine law of a sine")
		}
	}
	holds(t, "height density in all", total, 1, 1e-12, "a density")

	slopes := curves["slope-distribution"].Points
	total, width = 0, slopes[1].X-slopes[0].X
	for _, p := range slopes {
		total += p.Y * width
	}
	holds(t, "slope density in all", total, 1, 1e-12, "a density")
	steepest := 2 * math.Pi * a * periods / (n * dx)
	holds(t, "steepest class", slopes[len(slopes)-1].X+width/2, steepest, 1e-3*steepest, "2πA/λ")

	paper := curves["material-probability"].Points
	for _, p := range paper {
		// The heights stand on 100 levels up to 2πA/200 = 0.063 apart.
		holds(t, "normal paper", p.Y, a*math.Cos(math.Pi*params.NormalShare(p.X)), 0.04, "material ratio curve of a sine")
	}
	ratio := curves["material-ratio"].Points
	if len(ratio) < 2 || ratio[0].X != 0 || ratio[len(ratio)-1].X != 100 {
		t.Errorf("material ratio curve from %v to %v", ratio[0], ratio[len(ratio)-1])
	}
}

func TestHeightDensity(t *testing.T) {
	// A triangle spends equal lengths at all heights; a level half lies in one class.
	for _, p := range params.HeightDensity([]float64{-1, 1, -1, 1}, 8) {
		holds(t, "density of a triangle", p.Y, 0.5, 1e-15, "1/(2A)")
	}
	got := params.HeightDensity([]float64{0, 0, 0, 4}, 4)
	for i, want := range []float64{2.0/3 + 1.0/12, 1.0 / 12, 1.0 / 12, 1.0 / 12} {
		holds(t, "density with a level part", got[i].Y, want, 1e-15, "by hand")
		holds(t, "middle", got[i].X, float64(i)+0.5, 1e-15, "by hand")
	}
	// The sum of the classes below is the material ratio there.
	z := seededWalk(3, 500)
	density := params.HeightDensity(z, 50)
	width := density[1].X - density[0].X
	below := 0.0
	for _, p := range density {
		below += p.Y * width
		want := 1 - params.Rmr(z, p.X+width/2)/100
		if math.Abs(below-want) > 1e-9 && p != density[len(density)-1] {
			t.Errorf("share below %v: %v, want %v", p.X+width/2, below, want)
		}
	}
	if params.HeightDensity([]float64{1, 1}, 5) != nil || params.HeightDensity(nil, 5) != nil || params.HeightDensity([]float64{1, 2}, 0) != nil {
		t.Error("a density of nothing")
	}
}

func TestCurvesOfLittle(t *testing.T) {
	for _, z := range [][]float64{nil, {1}, {0, 0, 0}, {1, 2}} {
		for key, c := range curvesOf(t, &params.Input{Z: z, Dx: 1}) {
			for _, p := range c.Points {
				if math.IsNaN(p.X-p.X) || math.IsNaN(p.Y-p.Y) {
					t.Errorf("%s of %v has the point %v", key, z, p)
				}
			}
		}
	}
}
