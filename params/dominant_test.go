package params_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"example.com/furrow/params"
)

// cosines returns n heights of a cosine that is even about the middle, so that it has no slope.
func cosines(n int, periods, amplitude float64) []float64 {
	z := make([]float64, n)
	for i := range z {
		z[i] = amplitude * math.Cos(2*math.Pi*periods*(float64(i)+0.5)/float64(n))
	}
	return z
}

// A pure sine of amplitude a is its own dominant waviness: WDSm = λ, WDc = WDt = 2a. The lengths have small and large
// prime factors, which take different ways through the transform.
func TestDominantWavinessOfASine(t *testing.T) {
	for _, n := range []int{8000, 7993, 2 * 3989} {
		const dx, a = 0.5, 1.5
		z := cosines(n, 20, a)
		wavelength := float64(n) * dx / 20
		const source = "a sine is its own dominant waviness"
		holds(t, "WDSm", params.WDSm(z, dx), wavelength, 1e-6*wavelength, source)
		holds(t, "WDt", params.WDt(z, dx), 2*a, 1e-3, source) // a crest may fall between two points
		holds(t, "WDc", params.WDc(z, dx), 2*a, 1e-3, source)
		wave := params.DominantProfile(z, dx, wavelength)
		for i := range z {
			if math.Abs(wave[i]-z[i]) > 1e-11 {
				t.Fatalf("N = %d: point %d is %v, want %v", n, i, wave[i], z[i])
			}
		}
	}
}

// A wave as long as the profile is the lowest there is, and one of two points the highest; both pass whole, whatever factors the length has.
func TestDominantProfileAtTheEnds(t *testing.T) {
	for _, n := range []int{64, 67, 134, 7993} {
		for _, periods := range []float64{1, math.Floor(float64(n-1) / 2)} {
			z := cosines(n, periods, 1.5)
			wave := params.DominantProfile(z, 0.5, float64(n)*0.5/periods)
			for i := range z {
				if math.Abs(wave[i]-z[i]) > 1e-10 {
					t.Errorf("%g waves in %d points: point %d is %v, want %v", periods, n, i, wave[i], z[i])
					break
				}
			}
		}
	}
}

// A wavelength that does not fit the length is read between the bins: to a hundredth of a bin or better.
func TestDominantWavelengthBetweenBins(t *testing.T) {
	const n, dx = 8000, 0.5
	for _, periods := range []float64{10.1, 17.25, 20.5, 33.4, 49.9} {
		z := cosines(n, periods, 1)
		wavelength := n * dx / periods
		bin := wavelength / periods // width of a bin there, in wavelength
		holds(t, "WDSm", params.WDSm(z, dx), wavelength, 0.01*bin, "the sine's own wavelength")
	}
}

// Feed marks under noise and a slope: the wave is found, and the noise beside its band is gone.
func TestDominantWavinessUnderNoise(t *testing.T) {
	const n, dx, a, wavelength = 8000, 0.5, 1.0, 160.0
	for seed := uint64(0); seed < 20; seed++ {
		rng := rand.New(rand.NewPCG(seed, 3))
		z := cosines(n, n*dx/wavelength, a)
		for i := range z {
			z[i] += 0.3*rng.NormFloat64() + 0.001*float64(i)
		}
		// White noise of 0.3 leaves 0.3·√(2·18/8000) = 0.02 rms in the 18 bins of the band.
		holds(t, "WDSm", params.WDSm(z, dx), wavelength, 1, "the wave put in")
		holds(t, "WDc", params.WDc(z, dx), 2*a, 0.15, "the wave put in")
		holds(t, "WDt", params.WDt(z, dx), 2*a, 0.4, "the wave put in")
	}
}

func TestNoDominantWaviness(t *testing.T) {
	rng := rand.New(rand.NewPCG(1, 1))
	noise := make([]float64, 8000)
	for i := range noise {
		noise[i] = rng.NormFloat64()
	}
	short := cosines(8000, 400, 1) // 10 µm, below the shortest wave looked at
	long := cosines(8000, 2, 1)    // two periods only
	for name, z := range map[string][]float64{"noise": noise, "short": short, "long": long, "few": {1, 2, 1, 2}, "flat": make([]float64, 1000)} {
		in := params.Input{Z: z, Dx: 0.5}
		for _, symbol := range []string{"WDSm", "WDc", "WDt"} {
			call, err := params.Lookup("iso-4287", 'W', symbol)
			if err != nil {
				t.Fatal(err)
			}
			if v := params.Evaluate(&in, call)[0]; !math.IsNaN(v.Value) || v.Reason == "" {
				t.Errorf("%s: %s = %v, %q", name, symbol, v.Value, v.Reason)
			}
		}
	}
}

// The band takes what lies within half an octave and leaves what does not.
func TestDominantProfileIsABand(t *testing.T) {
	const n, dx = 6000, 1.0
	inside, outside := cosines(n, 60, 1), cosines(n, 100, 1)
	z := make([]float64, n)
	for i := range z {
		z[i] = inside[i] + outside[i]
	}
	wave := params.DominantProfile(z, dx, 100)
	for i := range z {
		if math.Abs(wave[i]-inside[i]) > 1e-12 {
			t.Fatalf("point %d: %v, want %v", i, wave[i], inside[i])
		}
	}
}

// Of rough surfaces without a wave, whether their spectrum is level or falls, hardly any shows one by chance: with the
// limit of four medians at most 2 in 100 did in a simulation of 300 of each.
func TestChanceDoesNotDominate(t *testing.T) {
	for _, rho := range []float64{0, 0.9, 0.99} {
		found := 0
		for seed := uint64(0); seed < 100; seed++ {
			rng := rand.New(rand.NewPCG(seed, 98))
			z := make([]float64, 8000)
			h := 0.0
			for i := range z {
				h = rho*h + rng.NormFloat64()
				z[i] = h
			}
			if !math.IsNaN(params.WDSm(z, 0.5)) {
				found++
			}
		}
		if found > 6 {
			t.Errorf("%d of 100 surfaces of chance, ρ = %v, have a dominating wave", found, rho)
		}
	}
}
