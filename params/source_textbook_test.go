package params_test

import (
	"math"
	"testing"

	"example.com/furrow/params"
)

func minus(z []float64, offset float64) []float64 {
	out := make([]float64, len(z))
	for i, v := range z {
		out[i] = v - offset
	}
	return out
}

func average(z []float64) float64 {
	sum := 0.0
	for _, v := range z {
		sum += v
	}
	return sum / float64(len(z))
}

// TestTextbookPeaksAndTroughs: 18 peak and trough heights in µm, a classic exercise (mazurekgravity.com asks for Ra, rms
// and Rz of it; the values are plain arithmetic on the list).
func TestTextbookPeaksAndTroughs(t *testing.T) {
	z := []float64{35, 22, 38, 26, 35, 18, 43, 28, 32, 21, 39, 26, 41, 22, 29, 18, 36, 16}
	const source = "exercise with 18 heights, arithmetic"
	m := average(z)
	holds(t, "mean", m, 29.1666667, 5e-8, source)
	z = minus(z, m)
	holds(t, "Ra", params.Ra(z), 7.2962963, 5e-8, source)
	holds(t, "Rq", params.Rq(z), 8.3082957, 5e-8, source)
	holds(t, "Rp", params.Rp(z, 0), 13.8333333, 5e-8, source)
	holds(t, "Rv", params.Rv(z, 0), 13.1666667, 5e-8, source)
	holds(t, "Rt", params.Rt(z), 27, 1e-12, source)
	holds(t, "Rz of one section", params.Rz(z, 0), 27, 1e-12, source+"; not the ten-point height 20.4")
	holds(t, "Rsk", params.Rsk(z), 0.02612275, 5e-9, source)
	holds(t, "Rku", params.Rku(z), 1.71749159, 5e-9, source)
}

// TestTextbookOrdinates: ten ordinates in µm, already distances from the mean line; P. C. Sharma, A Textbook of
// Production Engineering, example 11.2 (FOSSEE textbook companion): 0.23 and 0.248.
func TestTextbookOrdinates(t *testing.T) {
	y := []float64{.15, .25, .35, .25, .30, .15, .10, .30, .35, .10}
	const source = "Sharma, example 11.2"
	holds(t, "Ra", params.Ra(y), 0.23, 5e-4, source)
	holds(t, "Rq", params.Rq(y), 0.248, 5e-4, source)
	holds(t, "Rq", params.Rq(y), 0.24799194, 5e-9, source+", more digits")
	// The distances carry no sign: taking their mean away again is the mistake the numbers below show.
	again := minus(y, average(y))
	holds(t, "Ra again", params.Ra(again), 0.084, 1e-12, source)
	holds(t, "Rq again", params.Rq(again), 0.09273618, 5e-9, source)
}

// TestTextbookDeviations: 56 deviations in µm of a programming course exercise (solutioninn.com 13615870), about the
// given zero and about their mean.
func TestTextbookDeviations(t *testing.T) {
	z := []float64{-4.1, -2.2, -0.5, 1.2, 3.3, 4.6, 5.1, 2.1, 5.7, 0.2, -8.1, 3.6, -3.1, 1.2, 0.5, 2.2, 4.1, 2.5, 7.2, -2.3, 5.1, 7.3, 4.5, 1.7, -0.2, -1.2, -3.3, -4.6, -5.0, -2.2,
		-1.1, 0.8, 3.2, -0.1, -4.8, 7.2, -4.7, 1.2, 2.3, 0.5, 5.7, -0.2, 5.1, 4.6, -3.1, 1.2, 0.5, 5.2, 4.1, 2.5, 7.2, -2.3, 5.1, 7.3, 4.5, 1.7}
	const source = "exercise with 56 deviations, arithmetic"
	holds(t, "Ra", params.Ra(z), 3.305357, 5e-7, source)
	holds(t, "Rq", params.Rq(z), 3.954586, 5e-7, source)
	holds(t, "Rt", params.Rt(z), 15.4, 1e-12, source)
	m := average(z)
	holds(t, "mean", m, 1.408929, 5e-7, source)
	z = minus(z, m)
	holds(t, "Ra", params.Ra(z), 3.044643, 5e-7, source)
	holds(t, "Rq", params.Rq(z), 3.695087, 5e-7, source)
	holds(t, "Rsk", params.Rsk(z), -0.325436, 5e-7, source)
	holds(t, "Rku", params.Rku(z), 2.402355, 5e-7, source)
}

// TestClassicExamples: two lists of peak and trough heights of classic exam problems (from memory; plain arithmetic).
func TestClassicExamples(t *testing.T) {
	for _, c := range []struct {
		z                []float64
		mean, ra, rq, rt float64
	}{
		{[]float64{33, 25, 30, 19, 22, 18, 27, 29, 20}, 24.777778, 4.469136, 5.028315, 15},
		{[]float64{35, 25, 40, 22, 35, 18, 42, 25, 35, 22, 36, 18, 42, 22, 32, 21, 37, 18, 35, 20}, 29, 7.9, 8.402381, 24},
	} {
		const source = "classic exam problem, from memory"
		m := average(c.z)
		holds(t, "mean", m, c.mean, 5e-7, source)
		z := minus(c.z, m)
		holds(t, "Ra", params.Ra(z), c.ra, 5e-7, source)
		holds(t, "Rq", params.Rq(z), c.rq, 5e-7, source)
		holds(t, "Rt", params.Rt(z), c.rt, 1e-12, source)
	}
}

// TestRatiosOfWaveforms: Ra/Rq 0.90 of a sine and 0.86 of a saw-tooth; Kalpakjian & Schmid, Manufacturing Processes for
// Engineering Materials, problem 4.58. Rq/Ra about 1.25 of Gaussian heights; Davim, Tribology for Engineers, chapter 1.
func TestRatiosOfWaveforms(t *testing.T) {
	z := sampled(10000, 1, sine)
	holds(t, "Ra/Rq", params.Ra(z)/params.Rq(z), 0.90, 5e-3, "Kalpakjian & Schmid 4.58")
	z = sampled(10000, 1, sawtooth)
	holds(t, "Ra/Rq", params.Ra(z)/params.Rq(z), 0.866, 5e-4, "Kalpakjian & Schmid 4.58, 0.86 cut off")
	for i := range z {
		z[i] = normalQuantile((float64(i) + 0.5) / 10000)
	}
	holds(t, "Rq/Ra", params.Rq(z)/params.Ra(z), 1.25, 5e-3, "Davim, chapter 1")
}

// TestTurned: f = 0.2 mm, r = 0.8 mm gives Rz 6.25 µm and Ra 1.60 µm; worked example on machinecalcs.com. The tool's
// nose is taken as the parabola z = x²/2r, as the shop formula f²/8r does.
func TestTurned(t *testing.T) {
	const feed, nose = 200.0, 800.0
	z := sampled(50000, 5, func(u float64) float64 {
		x := (u - 0.5) * feed
		return x * x / (2 * nose)
	})
	z = minus(z, average(z))
	holds(t, "Rz", params.Rz(z, 10000), 6.25, 5e-3, "machinecalcs.com, f²/8r")
	holds(t, "Ra", params.Ra(z), 1.60, 5e-3, "machinecalcs.com, f²/31.2r")
	holds(t, "Ra", params.Ra(z), feed*feed/(18*math.Sqrt(3)*nose), 1e-6, "f²/(18√3 r), by integration")
	holds(t, "Rsm", params.Rsm(z, 5*feed/50000, 0), feed, 1e-6, "one element a feed")
	holds(t, "Rda", params.Rda(z, 5*feed/50000), feed/(4*nose), 1e-4, "f/4r, by integration")
	holds(t, "Rdq", params.Rdq(z, 5*feed/50000), feed/(2*math.Sqrt(3)*nose), 1e-4, "f/(2√3 r), by integration")
}

// TestSign: one deep pit or one high peak in five points; arithmetic.
func TestSign(t *testing.T) {
	const source = "five points, by hand"
	for _, sign := range []float64{-1, 1} {
		z := []float64{0, 0, 0, 0, 4 * sign}
		z = minus(z, average(z))
		holds(t, "Ra", params.Ra(z), 1.28, 1e-12, source)
		holds(t, "Rq", params.Rq(z), 1.6, 1e-12, source)
		holds(t, "Rsk", params.Rsk(z), 1.5*sign, 1e-12, source)
		holds(t, "Rku", params.Rku(z), 3.25, 1e-12, source)
		peak, pit := params.Rp(z, 0), params.Rv(z, 0)
		if sign < 0 {
			peak, pit = pit, peak
		}
		holds(t, "high side", peak, 3.2, 1e-12, source)
		holds(t, "low side", pit, 0.8, 1e-12, source)
	}
}

// TestConstantProfile: a constant trace minus its mean leaves rounding, which has no shape. Statistics libraries have
// returned a skewness of 1, of -105683727.5 and a kurtosis of 9.3e15 for these three (scipy issue 11086 and pull request
// 16061, polars issue 15067, pandas issue 11974).
func TestConstantProfile(t *testing.T) {
	for _, c := range []struct {
		v float64
		n int
	}{{14.3, 7}, {1.0042855193121334, 11}, {3075.3, 300}} {
		z := make([]float64, c.n)
		for i := range z {
			z[i] = c.v
		}
		z = minus(z, average(z))
		in := params.Input{Z: z, Dx: 1, Flat: 1e-12 * c.v}
		calls := params.Defaults("iso-21920", 'R')
		defined := 0
		for _, v := range params.Evaluate(&in, calls...) {
			switch v.Symbol {
			case "Ra", "Rq", "Rp", "Rv", "Rz", "Rt", "Rk":
				holds(t, v.Symbol, v.Value, 0, 1e-12*c.v, "a constant profile has no height")
			case "Rsk", "Rku", "Rsm", "Rc", "Rmrk1", "Rmrk2":
				if !math.IsNaN(v.Value) || v.Reason == "" {
					t.Errorf("%s of %v = %v, reason %q; want undefined with a reason", v.Symbol, c.v, v.Value, v.Reason)
				}
			}
			if math.IsNaN(v.Value) != (v.Reason != "") {
				t.Errorf("%s = %v with reason %q", v.Symbol, v.Value, v.Reason)
			}
			if !math.IsNaN(v.Value) {
				defined++
			}
		}
		if defined < 10 {
			t.Errorf("only %d values of a constant profile are defined", defined)
		}
	}
}
