package filter_test

import (
	"math"
	"slices"
	"testing"

	"example.com/furrow/filter"
)

// 2^-(λs/λ)²·(1 - 2^-(λc/λ)²) at some wavelengths, and the peak of the band (closed form).
func TestBandTransmission(t *testing.T) {
	for _, c := range []struct{ ratio, s, s2, s5, quarter, third, half, one, two, peak, at float64 }{
		{30, 0.5, 0.840896415, 0.972654947, 0.987737924, 0.991152862, 0.934616331, 0.499615066, 0.159072954, 0.991367531, 0.31919},
		{100, 0.5, 0.840896415, 0.972654947, 0.998876337, 0.997424455, 0.937240106, 0.499965344, 0.159100828, 0.998979482, 0.27433},
		{300, 0.5, 0.840896415, 0.972654947, 0.999861525, 0.997977698, 0.937471119, 0.499996149, 0.159103278, 0.999862148, 0.24650},
		{320, 0.5, 0.840896415, 0.972654947, math.NaN(), math.NaN(), 0.937474617, 0.499996616, 0.159103316, 0.999877579, 0.24512},
		{32, math.NaN(), math.NaN(), math.NaN(), math.NaN(), math.NaN(), math.NaN(), math.NaN(), math.NaN(), 0.992283869, 0.31620},
	} {
		b := filter.Band{Short: filter.Gaussian{Cutoff: 1 / c.ratio}, Long: filter.Gaussian{Cutoff: 1}}
		for _, p := range []struct{ wavelength, want float64 }{
			{1 / c.ratio, c.s}, {2 / c.ratio, c.s2}, {5 / c.ratio, c.s5}, {0.25, c.quarter}, {1. / 3, c.third}, {0.5, c.half}, {1, c.one}, {2, c.two},
		} {
			if !math.IsNaN(p.want) {
				near(t, "band", b.Transmission(p.wavelength), p.want, 2e-9, "closed form")
			}
		}
		peak, at := 0.0, 0.0
		for lam := 0.1; lam < 1; lam *= 1.00001 {
			if v := b.Transmission(lam); v > peak {
				peak, at = v, lam
			}
		}
		near(t, "peak", peak, c.peak, 6e-10, "closed form")
		near(t, "wavelength of the peak", at, c.at, 2e-5, "closed form")
	}
	w := filter.Band{Short: filter.Gaussian{Cutoff: 1}, Long: filter.Gaussian{Cutoff: 10}}
	for _, p := range []struct{ wavelength, want float64 }{
		{0.5, 0.0625}, {1, 0.5}, {2, 0.840896390}, {3, 0.925456136}, {math.Sqrt(10), 0.932121827}, {5, 0.911864013}, {10, 0.496546248}, {20, 0.158828118},
	} {
		near(t, "waviness band", w.Transmission(p.wavelength), p.want, 6e-10, "closed form")
	}
}

// P = W + R where no λf limits the waviness.
func TestBandSum(t *testing.T) {
	z := rough(3000, 15)
	s, l := filter.Gaussian{Cutoff: 5}, filter.Gaussian{Cutoff: 400}
	p, _ := filter.Band{Short: s}.Apply(nil, z, 1)
	r, err := filter.Band{Short: s, Long: l}.Apply(slices.Clone(z), z, 1)
	if err != nil {
		t.Fatal(err)
	}
	w := apply(t, l, p, 1)
	for i := range p {
		near(t, "W + R - P", w[i]+r[i]-p[i], 0, 1e-15, "r is formed by subtraction")
	}
	open, err := filter.Band{}.Apply(nil, z, 1)
	if err != nil || !slices.Equal(open, z) {
		t.Errorf("a band without limits changes the profile: %v", err)
	}
	if _, err := (filter.Band{Long: filter.Gaussian{}}).Apply(nil, z, 1); err == nil {
		t.Error("a filter without a cut-off is not refused")
	}
}

// A circle left in the profile: the mean line of a Gaussian at 0.8 mm stands 1.12 µm off on a radius of 10 mm. So form goes first.
func TestFormBeforeLongWaves(t *testing.T) {
	z := arc(8001, 0.5, 10000, 1)
	w := apply(t, filter.Gaussian{Cutoff: 800}, z, 0.5)
	near(t, "offset in the middle", z[4000]-w[4000], 1.12, 6e-3, "σ²/2R, derived")
	for _, o := range filter.Sequences() {
		form, long := slices.Index(o.R, filter.TakeForm), slices.Index(o.R, filter.LongWaves)
		if form < 0 || long >= 0 && long < form {
			t.Errorf("%s: %v", o.Edition, o.R)
		}
	}
}
