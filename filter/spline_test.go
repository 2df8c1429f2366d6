package filter_test

import (
	"errors"
	"fmt"
	"math"
	"testing"

	"example.com/furrow/filter"
)

// Long-wave transmission for fine spacing, from the closed form (derived), and at 10 and 50 samples in a cut-off.
func TestSplineTransmission(t *testing.T) {
	bend, tense := filter.Spline{Cutoff: 1}, filter.Spline{Cutoff: 1, Tension: 0.62524}
	for _, c := range []struct{ wavelength, bend, tense float64 }{
		{0.25, 0.003891051, 0.009350828}, {1. / 3, 0.012195122, 0.027039655}, {0.5, 0.058823529, 0.105295079},
		{0.8, 0.290578888, 0.345795945}, {1, 0.5, 0.5}, {1.25, 0.709421112, 0.643643415}, {2, 0.941176471, 0.847649785},
		{3, 0.987804878, 0.931013936}, {5, 0.998402556, 0.975030240},
	} {
		near(t, "T", bend.Transmission(c.wavelength), c.bend, 6e-10, "closed form")
		near(t, "T with tension", tense.Transmission(c.wavelength), c.tense, 6e-10, "closed form")
	}
	for _, c := range []struct{ wavelength, ten, fifty float64 }{
		{0.5, 0.070971, 0.059262}, {2, 0.938372, 0.941067}, {5, 0.998298, 0.998399},
	} {
		near(t, "T at 10 samples", bend.TransmissionAt(c.wavelength, 1./10), c.ten, 6e-7, "closed form")
		near(t, "T at 50 samples", bend.TransmissionAt(c.wavelength, 1./50), c.fifty, 6e-7, "closed form")
	}
}

// The greatest difference from the Gaussian: 10.63 % without tension, 4.35 % with β = 0.62524 (4.36 % published by Zhang and
// Yuan, IJIGSP 1 (2009)), 2.90 % with β = 0.46993.
func TestSplineNearGaussian(t *testing.T) {
	for _, c := range []struct{ tension, worst, at, tol float64 }{
		{0, 0.1063, 1.713, 6e-5}, {0.62524, 0.0435, 0.4725, 6e-5}, {0.46993, 0.0290, 0, 6e-5},
	} {
		f, g := filter.Spline{Cutoff: 1, Tension: c.tension}, filter.Gaussian{Cutoff: 1}
		worst, at := 0.0, 0.0
		for lam := 0.05; lam < 50; lam *= 1.0005 {
			if d := math.Abs(f.Transmission(lam) - g.Transmission(lam)); d > worst {
				worst, at = d, lam
			}
		}
		near(t, "difference from the Gaussian", worst, c.worst, c.tol, "search over the closed forms")
		if c.at > 0 {
			near(t, "wavelength of it", at, c.at, 2e-3, "search over the closed forms")
		}
	}
}

// The weighting function in the continuous limit: (π/λc)·e^(-√2π|x|/λc)·sin(√2π|x|/λc + π/4).
func TestSplineWeights(t *testing.T) {
	const m = 400
	x, w := weights(t, filter.Spline{Cutoff: m}, 2*m, 4*m)
	sum := 0.0
	for i, v := range w {
		q := math.Sqrt2 * math.Pi * math.Abs(x[i]) / m
		near(t, "weight", v, math.Pi/m*math.Exp(-q)*math.Sin(q+math.Pi/4), 2e-7, "closed form, spacing 1/400")
		sum += v
	}
	near(t, "sum of the weights shown", sum, 1, 2e-4, "the tail beyond two cut-offs is e^-8.9")
}

// What the two ends keep, lengths in cut-offs, m = 1600; numpy from the definition.
func TestSplineEnds(t *testing.T) {
	const m, n = 1600, 8001
	line, parabola := make([]float64, n), make([]float64, n)
	for i := range line {
		x := float64(i) / m
		line[i], parabola[i] = x, x*x
	}
	bend, tense := filter.Spline{Cutoff: m}, filter.Spline{Cutoff: m, Tension: 0.62524}
	near(t, "line kept", greatest(apply(t, bend, line, 1), line), 0, 1e-12, "derived")
	near(t, "line with tension, w(0)", apply(t, tense, line, 1)[0], 0.109132, 1e-4, "numpy")
	w := apply(t, bend, parabola, 1)
	near(t, "parabola, w(0)", w[0], -0.050520, 1e-4, "numpy")
	near(t, "parabola, middle", w[n/2]-parabola[n/2], 0, 2e-6, "fourth difference vanishes; the ends are felt by e^-11")
}

// Form, fine roughness and six deep grooves: the biweight ends after few passes and follows the form.
func TestRobustSplineGrooves(t *testing.T) {
	const n, m = 8001, 800
	form, z := make([]float64, n), rough(n, 12)
	for i := range z {
		form[i] = 2 * math.Sin(2*math.Pi*float64(i)/8000)
		z[i] = form[i] + 0.1*math.Sin(float64(i*i%1237))
	}
	for g := range 6 {
		for k := range 60 {
			z[900+1100*g+k] -= 3
		}
	}
	rms := func(w []float64) float64 {
		s := 0.0
		for i := range w {
			s += (w[i] - form[i]) * (w[i] - form[i])
		}
		return math.Sqrt(s / n)
	}
	w, report, err := filter.RobustSpline{Cutoff: m}.ApplyReport(nil, z, 1)
	if err != nil || report.Stop != filter.Settled || report.Passes > 8 || report.Excluded != 360 {
		t.Errorf("%+v, %v, want settled within 8 passes and 360 points excluded", report, err)
	}
	linear := apply(t, filter.Spline{Cutoff: m}, z, 1)
	if rms(w) > 0.01 || rms(linear) < 0.1 {
		t.Errorf("rms error %g robust, %g linear", rms(w), rms(linear))
	}
}

// A single point that carries all weight gives its height; none is refused.
func TestSplineOneWeight(t *testing.T) {
	weight := make([]float64, 50)
	z := rough(50, 2)
	if _, err := (filter.Spline{Cutoff: 8}).ApplyWeighted(nil, z, weight, 1); !errors.Is(err, filter.ErrFewPoints) {
		t.Errorf("no weight: %v", err)
	}
	weight[20] = 3
	for _, f := range []filter.Weighted{filter.Spline{Cutoff: 8}, filter.RobustSpline{Cutoff: 8}, filter.GaussianRegression{Cutoff: 8}} {
		w, err := f.ApplyWeighted(nil, z, weight, 1)
		if err != nil {
			t.Fatal(err)
		}
		for i, v := range w {
			near(t, fmt.Sprintf("%T w[%d]", f, i), v, z[20], 1e-12, "one point says a height only")
		}
	}
}

// Two weights give the line through both points.
func TestSplineTwoWeights(t *testing.T) {
	weight, z := make([]float64, 50), rough(50, 2)
	weight[10], weight[30] = 1, 1
	z[10], z[30] = 1, 3
	w, err := filter.Spline{Cutoff: 8}.ApplyWeighted(nil, z, weight, 1)
	if err != nil {
		t.Fatal(err)
	}
	for i, v := range w {
		near(t, "w", v, 0.1*float64(i), 1e-9, "line through two points")
	}
}

// The banded solution against a dense one, with weights and tension.
func TestSplineDense(t *testing.T) {
	const n = 60
	z := rough(n, 21)
	weight := make([]float64, n)
	for i := range weight {
		weight[i] = float64((i * 7) % 5)
	}
	for _, m := range []float64{2, 6.5, 40, 500} {
		for _, tension := range []float64{0, 0.3, 0.62524, 1} {
			f := filter.Spline{Cutoff: m, Tension: tension}
			a2 := 1 / (4 * math.Pow(math.Sin(math.Pi/m), 2))
			full := func(delta func(i int) float64) []float64 {
				rows := make([][]float64, n)
				for i := range rows {
					rows[i] = make([]float64, n+1)
					rows[i][i] = delta(i)
					rows[i][n] = delta(i) * z[i]
				}
				square := func(at int, k float64, d ...float64) {
					for i, a := range d {
						for j, b := range d {
							rows[at+i][at+j] += k * a * b
						}
					}
				}
				for i := 0; i+1 < n; i++ {
					square(i, tension*a2, -1, 1)
				}
				for i := 0; i+2 < n; i++ {
					square(i, (1-tension)*a2*a2, 1, -2, 1)
				}
				return solve(rows)
			}
			if d := greatest(apply(t, f, z, 1), full(func(int) float64 { return 1 })); d > 1e-8 {
				t.Errorf("m = %v, β = %v: off by %g", m, tension, d)
			}
			w, err := f.ApplyWeighted(nil, z, weight, 1)
			if err != nil {
				t.Fatal(err)
			}
			if d := greatest(w, full(func(i int) float64 { return weight[i] / 4 })); d > 1e-7 {
				t.Errorf("m = %v, β = %v, weighted: off by %g", m, tension, d)
			}
		}
	}
}
