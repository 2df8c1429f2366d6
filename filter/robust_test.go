package filter_test

import (
	"math"
	"testing"

	"example.com/furrow/filter"
)

// spiked is the check run: a line with a wave of eight samples and a spike two samples wide.
func spiked() []float64 {
	z := make([]float64, 101)
	for i := range z {
		z[i] = 0.01*float64(i) + 0.5*math.Sin(2*math.Pi*float64(i)/8)
	}
	z[50] += 10
	z[51] += 10
	return z
}

// Values computed in numpy by weighted least squares at every point, with c = 3·1.4826·median|r| and no truncation.
func TestRobustCheckRun(t *testing.T) {
	const source = "numpy, weighted least squares at every point"
	at := [...]int{0, 25, 50, 75, 100}
	for _, c := range []struct {
		order          int
		linear, robust [5]float64
		scale, first   float64
	}{
		{filter.Order0, [5]float64{0.203295714, 0.272097087, 3.120430445, 0.772097087, 1.161462813},
			[5]float64{0.203230082, 0.270921959, 0.385786188, 0.770922268, 1.159802951}, 1.479476708, 1.474251348},
		{1, [5]float64{0.292135864, 0.272097087, 3.120430445, 0.772097087, 1.292135864},
			[5]float64{0.291997923, 0.270922546, 0.385476286, 0.770922323, 1.291997923}, 1.479449858, 1.474251348},
		{2, [5]float64{0.310712319, 0.253303523, 3.021643563, 0.753287693, 1.310712319},
			[5]float64{0.309360527, 0.253154891, 0.356833060, 0.753161595, 1.309360523}, 1.558502448, 1.557841361},
	} {
		z := spiked()
		linear := apply(t, filter.GaussianRegression{Cutoff: 16, Order: c.order, Support: 7}, z, 1)
		f := filter.RobustGaussian{Cutoff: 16, Order: c.order, Support: 7, Tolerance: 1e-12}
		robust, report, err := f.ApplyReport(nil, z, 1)
		if err != nil {
			t.Fatal(err)
		}
		for k, i := range at {
			near(t, "linear w", linear[i], c.linear[k], 6e-10, source)
			near(t, "robust w", robust[i], c.robust[k], 6e-10, source)
		}
		near(t, "c", report.Scale, c.scale, 6e-10, source)
		if report.Stop != filter.Settled || report.Passes < 16 || report.Passes > 24 {
			t.Errorf("order %d: %+v, want 18 to 20 passes", c.order, report)
		}
		f.Passes = 1
		if _, report, _ = f.ApplyReport(nil, z, 1); report.Stop != filter.PassLimit || report.Passes != 1 {
			t.Errorf("one pass: %+v", report)
		}
		near(t, "first c", report.Scale, c.first, 6e-10, source)
		f.Passes, f.Tolerance = 0, 0
		if _, report, _ = f.ApplyReport(nil, z, 1); report.Passes < 3 || report.Passes > 4 {
			t.Errorf("default tolerance: %+v, want 3 or 4 passes", report)
		}
	}
	for _, c := range []struct {
		order int
		w50   float64
	}{{1, 0.544543137}, {2, 0.726027989}} {
		w, _, err := filter.RobustGaussian{Cutoff: 16, Order: c.order, Support: 7, Passes: 2}.ApplyReport(nil, spiked(), 1)
		if err != nil {
			t.Fatal(err)
		}
		near(t, "w[50] after one reweighting", w[50], c.w50, 6e-10, source)
	}
}

// The default order is 2.
func TestRobustDefaults(t *testing.T) {
	z := rough(3000, 1)
	a := apply(t, filter.RobustGaussian{Cutoff: 300}, z, 1)
	b := apply(t, filter.RobustGaussian{Cutoff: 300, Order: 2, Tolerance: 1e-3, Passes: 50, Support: 2}, z, 1)
	if greatest(a, b) != 0 {
		t.Error("the zero value is not order 2, tolerance 1e-3, 50 passes, support 2")
	}
}

// A profile that lies on its mean line has no scale.
func TestRobustScaleVanishes(t *testing.T) {
	z := make([]float64, 400)
	for i := range z {
		z[i] = 3 + 0.25*float64(i)
	}
	w, report, err := filter.RobustGaussian{Cutoff: 50}.ApplyReport(nil, z, 1)
	if err != nil || report.Stop != filter.ScaleVanished || greatest(w, z) > 1e-12 {
		t.Errorf("line: %+v, %v, off by %g", report, err, greatest(w, z))
	}
}

// Where a stretch wider than the window weighs nothing, the line runs across it.
func TestWithoutWeights(t *testing.T) {
	for _, cutoff := range []float64{16, 300} { // summed directly, and transformed
		n := int(cutoff) * 20
		z := rough(n, 3)
		weight := make([]float64, n)
		for i := range z {
			weight[i] = 1
			if i > n*2/5 && i < n*3/5 {
				z[i], weight[i] = math.NaN(), 0
			}
		}
		for _, order := range []int{filter.Order0, 1, 2} {
			for _, f := range []filter.Weighted{
				filter.GaussianRegression{Cutoff: cutoff, Order: order}, filter.RobustGaussian{Cutoff: cutoff, Order: order},
			} {
				w, err := f.ApplyWeighted(nil, z, weight, 1)
				if err != nil {
					t.Fatal(err)
				}
				for i, v := range w {
					if !(math.Abs(v) < 30) {
						t.Fatalf("%#v: w[%d] = %v", f, i, v)
					}
				}
				i := n / 2
				near(t, "second difference in the middle", w[i-1]-2*w[i]+w[i+1], 0, 1e-12, "straight across")
			}
		}
	}
}

// All weights 1 is no weights at all.
func TestEqualWeights(t *testing.T) {
	for _, cutoff := range []float64{16, 300} {
		z := rough(2000, 5)
		weight := make([]float64, len(z))
		for i := range weight {
			weight[i] = 0.25
		}
		for _, order := range []int{filter.Order0, 1, 2} {
			f := filter.GaussianRegression{Cutoff: cutoff, Order: order}
			w, err := f.ApplyWeighted(nil, z, weight, 1)
			if d := greatest(w, apply(t, f, z, 1)); err != nil || d > 1e-12 {
				t.Errorf("cut-off %v, order %d: %v, off by %g", cutoff, order, err, d)
			}
		}
	}
}
