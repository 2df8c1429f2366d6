package synth_test

import (
	"math"
	"sort"
	"testing"

	"example.com/furrow/roughness/synth"
)

// The first numbers of the generator's public demonstration program, seed 42, stream 54 (from memory).
func TestGeneratorPublished(t *testing.T) {
	r := synth.NewRandom(42, 54)
	for i, want := range []uint32{0xa15c02b7, 0x7b47f409, 0xba1d3330, 0x83d2f293, 0xbfa4784b, 0xcbed606e} {
		if got := r.Uint32(); got != want {
			t.Errorf("number %d = %#x, want %#x", i, got, want)
		}
	}
}

// Quantiles of the normal distribution as in every statistical table.
func TestQuantile(t *testing.T) {
	for p, want := range map[float64]float64{0.5: 0, 0.975: 1.959963984540, 0.7: 0.524400512708, 0.001: -3.090232306168} {
		near(t, "Φ⁻¹", synth.Quantile(p), want, 1e-11)
	}
}

func TestNoiseIsNormal(t *testing.T) {
	z := synth.Noise{Sigma: 2, Seed: 7}.Heights(100_000, 1)
	mean, ra, rq, rsk, rku := moments(z)
	// Four standard errors of each.
	near(t, "mean", mean, 0, 4*2/math.Sqrt(1e5))
	near(t, "Ra", ra, 2*math.Sqrt(2/math.Pi), 4*2*0.6/math.Sqrt(1e5))
	near(t, "Rq", rq, 2, 4*2/math.Sqrt(2e5))
	near(t, "Rsk", rsk, 0, 4*math.Sqrt(6/1e5))
	near(t, "Rku", rku, 3, 4*math.Sqrt(24/1e5))
	if again := (synth.Noise{Sigma: 2, Seed: 7}).Heights(100_000, 1); again[99_999] != z[99_999] {
		t.Error("the same seed gives other heights")
	}
	if other := (synth.Noise{Sigma: 2, Seed: 8}).Heights(1, 1); other[0] == z[0] {
		t.Error("another seed gives the same heights")
	}
}

// correlation at a lag, for heights of mean zero.
func correlation(z []float64, lag int) float64 {
	var a, b float64
	for i := range z[lag:] {
		a += z[i] * z[i+lag]
	}
	for _, h := range z {
		b += h * h
	}
	return a / b * float64(len(z)) / float64(len(z)-lag)
}

func TestProcessesHaveTheirAutocorrelation(t *testing.T) {
	const n, dx = 200_000, 0.5
	bell := synth.Correlated{Sigma: 1.5, Length: 10, Seed: 3}
	z := bell.Heights(n, dx)
	_, _, rq, _, _ := moments(z)
	near(t, "Rq", rq, 1.5, 0.03)
	near(t, "at β", correlation(z, 20), math.Exp(-1), 0.03)
	near(t, "at β/2", correlation(z, 10), math.Exp(-0.25), 0.02)
	near(t, "at Ral", correlation(z, int(known(t, bell, "Ral")/dx)), 0.2, 0.03)
	ups := 0
	for i := 1; i < n; i++ {
		if z[i-1] < 0 && z[i] >= 0 {
			ups++
		}
	}
	near(t, "Rsm by crossings", n*dx/float64(ups), known(t, bell, "Rsm"), 1)
}

func TestSetsHoldTheirQuantiles(t *testing.T) {
	const n = 10_000
	set := synth.NormalSet{Sigma: 1, Seed: 5}
	z := set.Heights(n, 1)
	if sort.Float64sAreSorted(z) {
		t.Error("the set is in order")
	}
	_, ra, rq, rsk, rku := moments(z)
	near(t, "Ra", ra, known(t, set, "Ra"), 1e-4)
	near(t, "Rq", rq, 1, 1e-3)
	near(t, "Rsk", rsk, 0, 1e-12)
	near(t, "Rku", rku, 3, 0.02)
}

func TestHonedIsTheLowerOfTwo(t *testing.T) {
	s := synth.Honed{Plateau: 0.2, Groove: 1.5, PlateauLength: 2, GrooveLength: 3, Offset: 1.2, Seed: 11}
	mean, _, rq, rsk, _ := moments(s.Heights(200_000, 1))
	near(t, "mean", mean, 0, 0.02)
	near(t, "Rq", rq, known(t, s, "Rq"), 0.02)
	if rsk > -1 {
		t.Errorf("Rsk = %g: a honed bore has deep grooves", rsk)
	}
}
