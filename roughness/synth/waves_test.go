package synth_test

import (
	"fmt"
	"math"
	"testing"

	"example.com/furrow/roughness/synth"
)

// Every wave against its own samples: the closed forms and the sampling were written from different formulas.
func TestKnownMatchesSamples(t *testing.T) {
	const n, dx = 200_000, 0.01 // 20 periods of 100
	shapes := []synth.Shape{
		synth.Sine{Amplitude: 1.5, Wavelength: 100},
		synth.Triangle{Amplitude: 2, Wavelength: 100},
		synth.Sawtooth{Amplitude: 1, Wavelength: 100, Rise: 0.8},
		synth.Turned{Feed: 100, Nose: 400},
		synth.Turned{Feed: 100, Nose: 80, Arc: true},
		synth.Rectified{Height: 2, Wavelength: 100},
		synth.Sines{{Amplitude: 1, Wavelength: 100}, {Amplitude: 0.4, Wavelength: 20, Phase: 0.3}},
	}
	for _, s := range shapes {
		t.Run(fmt.Sprintf("%T", s), func(t *testing.T) {
			z := s.Heights(n, dx)
			mean, ra, rq, rsk, rku := moments(z)
			low, high := extent(z)
			slopes := 0.0
			for i := range z {
				d := (z[(i+1)%n] - z[i]) / dx
				slopes += d * d / n
			}
			near(t, "mean", mean, 0, 1e-3)
			sampled := map[string]float64{"Ra": ra, "Rq": rq, "Rsk": rsk, "Rku": rku, "Rp": high, "Rv": -low,
				"Rz": high - low, "Rt": high - low, "Rdq": math.Sqrt(slopes)}
			for _, k := range s.Known() {
				got, ok := sampled[k.Symbol]
				if !ok {
					continue
				}
				near(t, k.Symbol, got, k.Value, 2e-3*math.Max(1, math.Abs(k.Value)))
				if k.Formula == "" || k.Source == "" {
					t.Errorf("%s has no formula or no source", k.Symbol)
				}
			}
		})
	}
}

// The table of closed forms, computed independently and printed to nine figures. Sine, triangle and square: textbook
// values; turned: shop formula f²/(8r); the Rk family and the volumes: derived.
func TestTableOfClosedForms(t *testing.T) {
	sine := synth.Sine{Amplitude: 1, Wavelength: 2 * math.Pi / 0.1} // k = 0.1
	turned := synth.Turned{Feed: 200, Nose: 800}
	h := known(t, turned, "Rt")
	for _, c := range []struct {
		shape  synth.Shape
		symbol string
		scale  float64
		want   float64
		within float64
	}{
		{sine, "Ra", 1, 0.636619772, 1e-9},
		{sine, "Rdr", 1, 0.24953319, 1e-8},
		{synth.Sine{Amplitude: 1, Wavelength: 4 * math.Pi}, "Rdr", 1, 5.9839380, 1e-7},
		{synth.Sine{Amplitude: 1, Wavelength: 2 * math.Pi}, "Rdr", 1, 21.600672, 1e-6},
		{sine, "Rk", 1, 1.77470207, 1e-8},
		{sine, "Rpk", 1, 0, 0},
		{sine, "Rvk", 1, 0.44391791, 1e-8},
		{sine, "Rmrk2", 1, 73.068941, 1e-6},
		{sine, "Rdc(10,80)", 1, 1.760074, 1e-6},
		{sine, "Rvmp(10)", 1, 0.00325751, 1e-8},
		{sine, "Rvmc(10,80)", 1, 0.83105394, 1e-8},
		{sine, "Rvvc(10,80)", 1, 0.92901957, 1e-8},
		{sine, "Rvvv(80)", 1, 0.02529446, 1e-8},
		{sine, "Ral", sine.Wavelength, 0.217953, 1e-6},
		{turned, "Rt", 1, 6.25, 1e-12},
		{turned, "Ra", 1, 1.60375, 1e-5},
		{turned, "Rq", h, 0.298142397, 1e-9},
		{turned, "Rk", h, 0.4, 1e-12},
		{turned, "Rpk", h, 0.57622895, 1e-8},
		{turned, "Rmrk1", 1, 38.898991, 1e-6},
		{turned, "Rdc(10,80)", h, 0.77, 1e-12},
		{turned, "Rvmp(10)", h, 0.00933333, 1e-8},
		{turned, "Rvvv(80)", h, 0.00533333, 1e-8},
		{synth.Turned{Feed: 200, Nose: 800, Arc: true}, "Rt", 1, 6.2746, 5e-5},
		{synth.Rectified{Height: 1, Wavelength: 1}, "Ra", 1, 0.268034319615, 1e-12},
		{synth.Rectified{Height: 1, Wavelength: 1}, "Rsk", 1, -0.497159952645, 1e-11},
		{synth.Rectified{Height: 1, Wavelength: 1}, "Rku", 1, 1.93153483679, 1e-10},
		{synth.NormalSet{Sigma: 1}, "Rk", 1, 2.57395611, 1e-8},
		{synth.NormalSet{Sigma: 1}, "Rpk", 1, 0.94503073, 1e-8},
		{synth.NormalSet{Sigma: 1}, "Rmrk1", 1, 9.905097, 1e-6},
		{synth.NormalSet{Sigma: 1}, "Rvmc(10,80)", 1, 0.90591573, 1e-8},
		{synth.NormalSet{Sigma: 1}, "Rvvc(10,80)", 1, 1.21725707, 1e-8},
		{synth.NormalSet{Sigma: 1}, "Rdc(10,80)", 1, 2.12317280, 1e-8},
	} {
		near(t, fmt.Sprintf("%T %s", c.shape, c.symbol), known(t, c.shape, c.symbol)/c.scale, c.want, c.within)
	}
}

// A sine with an even number of samples per wave, one of them on the crossing, has Ra = (2/n) cot(π/n); its Rq is
// exact (textbook trigonometry).
func TestSineSampledCoarsely(t *testing.T) {
	for n, want := range map[int]float64{8: 0.603553390593, 20: 0.631375151468, 100: 0.636410319075} {
		z := synth.Sine{Amplitude: 1, Wavelength: float64(n)}.Heights(40*n, 1)
		_, ra, rq, _, _ := moments(z)
		near(t, "Ra", ra, want, 1e-12)
		near(t, "Rq", rq, math.Sqrt(0.5), 1e-12)
	}
}

func TestLineAndSum(t *testing.T) {
	z := synth.Sum{synth.Tilt{Offset: 2, Slope: 0.5}, synth.Tilt{Offset: 1, Slope: 0.25}}.Heights(3, 2)
	for i, want := range []float64{3, 4.5, 6} {
		near(t, "height", z[i], want, 1e-15)
	}
}
