package params_test

import (
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"example.com/furrow/params"
)

// Second way: the definitions as double sums.
func TestSpectrumAgainstDirectSums(t *testing.T) {
	for _, n := range []int{1, 2, 3, 7, 64, 67, 134, 240, 1009} { // from 67 on, with large prime factors too
		rng := rand.New(rand.NewPCG(uint64(n), 3))
		z := make([]float64, n)
		for i := range z {
			z[i] = rng.NormFloat64() + 0.3
		}
		s := params.NewSpectrum(z, 0.5)
		if len(s.Amplitude) != n/2+1 {
			t.Fatalf("N = %d: %d amplitudes", n, len(s.Amplitude))
		}
		for k, got := range s.Amplitude {
			var re, im float64
			for i, v := range z {
				angle := 2 * math.Pi * float64(i*k%n) / float64(n)
				re += v * math.Cos(angle)
				im -= v * math.Sin(angle)
			}
			want := math.Hypot(re, im) / float64(n)
			if k > 0 && 2*k != n {
				want *= 2
			}
			if math.Abs(got-want) > 1e-12 {
				t.Errorf("N = %d: amplitude %d = %v, want %v", n, k, got, want)
			}
		}
		power := 0.0
		for _, d := range s.Density() {
			power += d * s.Step
		}
		if rq := params.Rq(z); math.Abs(power-rq*rq) > 1e-12 {
			t.Errorf("N = %d: Σ PSD·Δf = %v, Rq² = %v", n, power, rq*rq)
		}
		r := params.Autocorrelation(z)
		if len(r) != n/2+1 || r[0] != 1 {
			t.Fatalf("N = %d: autocorrelation %v", n, r)
		}
		for k, got := range r {
			var sum, zero float64
			for i := 0; i+k < n; i++ {
				sum += z[i] * z[i+k]
			}
			for _, v := range z {
				zero += v * v
			}
			if want := sum / float64(n-k) / (zero / float64(n)); math.Abs(got-want) > 1e-12 {
				t.Errorf("N = %d: autocorrelation %d = %v, want %v", n, k, got, want)
			}
		}
	}
}

// The closed forms of the autocorrelation of periodic waves. Normalised by the overlap they are exact only where that
// holds whole periods; the error falls with the number of periods.
func TestAutocorrelationLength(t *testing.T) {
	const n, periods = 400000, 1000
	const wavelength = 4000.0 / periods
	tests := []struct {
		name  string
		f     func(u float64) float64
		share float64 // Ral / λ at s = 0.2
	}{
		{"triangle", triangle, 0.216466}, // 1 - 24u² + 32u³
		{"square", square, 0.2},          // 1 - 4u
	}
	for _, tt := range tests {
		z := sampled(n, periods, tt.f)
		got := params.Ral(z, 4000.0/n, 0.2) / wavelength
		holds(t, "Ral/λ of the "+tt.name, got, tt.share, 1e-4, "closed form of its autocorrelation")
	}
}

// A process with exponential autocorrelation, made by a recursion of first order: Ral = τ ln 5. The value
// of one such profile scatters by 1.2 (simulated with 200), so the mean of 20 by 0.27, and the tolerance is four of that.
func TestAutocorrelationOfAProcess(t *testing.T) {
	const tau, n, runs = 20.0, 100000, 20
	rho := math.Exp(-1 / tau)
	sum := 0.0
	for seed := uint64(0); seed < runs; seed++ {
		rng := rand.New(rand.NewPCG(seed, 9))
		z := make([]float64, n)
		h := rng.NormFloat64()
		for i := range z {
			z[i] = h
			h = rho*h + math.Sqrt(1-rho*rho)*rng.NormFloat64()
		}
		sum += params.Ral(z, 1, 0.2)
	}
	holds(t, "Ral", sum/runs, tau*math.Log(5), 1.1, "Ral = τ ln 5 of exp(-t/τ)")
}

func TestDominantSpatialWavelength(t *testing.T) {
	const n, dx = 4000, 0.5
	wave := func(periods, a float64, i int) float64 {
		return a * math.Sin(2*math.Pi*periods*float64(i)/n+1)
	}
	z := make([]float64, n)
	for i := range z {
		z[i] = wave(25, 1, i) + wave(160, 0.7, i)
	}
	holds(t, "Rsw", params.Rsw(z, dx), n*dx/25, 1e-9, "25 periods are the stronger wave")
	for i := range z {
		z[i] = wave(25, 1, i) + wave(160, 1, i)
	}
	holds(t, "Rsw of two equal waves", params.Rsw(z, dx), n*dx/25, 1e-9, "the longer of equals, whatever the rounding")
	for i := range z {
		z[i] = wave(25, 1, i) + wave(160, 1.001, i)
	}
	holds(t, "Rsw", params.Rsw(z, dx), n*dx/160, 1e-9, "the stronger, if only by a thousandth")
}

// A published worked case of scaling: x[n] = 0.5 cos(2π·5n/64 + π/6) shows 0.5 in bin 5, and its mean square is 0.125
// (a question on a general library's issue tracker, restated as T14b in this project's list of needs).
func TestAmplitudeScaling(t *testing.T) {
	z := make([]float64, 64)
	for i := range z {
		z[i] = 0.5 * math.Cos(2*math.Pi*5*float64(i)/64+math.Pi/6)
	}
	s := params.NewSpectrum(z, 1)
	holds(t, "amplitude 5", s.Amplitude[5], 0.5, 1e-15, "definition of the amplitude")
	power := 0.0
	for _, d := range s.Density() {
		power += d * s.Step
	}
	holds(t, "Σ PSD·Δf", power, 0.125, 1e-15, "half the amplitude squared")
}

func TestSpatialUndefined(t *testing.T) {
	ramp := make([]float64, 101)
	for i := range ramp {
		ramp[i] = 1 + float64(i)/1000 // does not fall to 0.2 of itself
	}
	for name, z := range map[string][]float64{"none": nil, "flat": make([]float64, 10), "one": {1}, "ramp": ramp} {
		if got := params.Ral(z, 1, 0.2); !math.IsNaN(got) {
			t.Errorf("%s: Ral = %v, want undefined", name, got)
		}
		if name != "ramp" {
			if got := params.Rsw(z, 1); !math.IsNaN(got) {
				t.Errorf("%s: Rsw = %v, want undefined", name, got)
			}
		}
	}
	in := params.Input{Z: ramp, Dx: 1}
	for symbol, v := range ask(t, in, "iso-21920", "Ral", "Ral(0.5)") {
		if v.Reason == "" || !math.IsNaN(v.Value) {
			t.Errorf("%s: %v, %q", symbol, v.Value, v.Reason)
		}
	}
}

// The strongest wave is the one of the largest |F_k|. A wave of the amplitude 1 has two of N/2, at k and -k; the one at half
// the sampling rate stands alone with N times its amplitude.
func TestStrongestWave(t *testing.T) {
	wave := func(pair, last float64) []float64 {
		z := make([]float64, 100)
		for i := range z {
			z[i] = float64(pair*math.Sin(2*math.Pi*float64(i)/25)) + last*float64(1-2*(i%2))
		}
		return z
	}
	holds(t, "Rsw", params.Rsw(wave(1, 0.75), 1), 2, 0, "|F_k| = N·0.75 at N/2, N·0.5 at 4")
	holds(t, "Rsw", params.Rsw(wave(1, 0.4), 1), 25, 1e-12, "|F_k| = N·0.4 at N/2, N·0.5 at 4")
	for _, c := range []float64{0.1, 5, 1e4} { // what is left of the transform of a constant is rounding
		z := slices.Repeat([]float64{c}, 101)
		if got := params.Rsw(z, 1); !math.IsNaN(got) {
			t.Errorf("Rsw of 101 times %v = %v, want undefined", c, got)
		}
	}
}
