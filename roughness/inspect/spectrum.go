package inspect

import (
	"math"
	"slices"

	"gonum.org/v1/gonum/dsp/fourier"
)

// transform takes the trace apart into waves.
func (t *trace) transform() {
	n := fastLength(len(t.rest))
	if n < 64 {
		return
	}
	w := make([]float64, n)
	for i := range w { // Hann window
		w[i] = t.rest[i] * (0.5 - float64(0.5*math.Cos(2*math.Pi*float64(i)/float64(n))))
	}
	coefficients := fourier.NewFFT(n).Coefficients(nil, w)
	t.power, t.waves = make([]float64, len(coefficients)), n
	for i, c := range coefficients {
		t.power[i] = float64(real(c)*real(c)) + float64(imag(c)*imag(c))
	}
}

// spectrum looks for signs of an earlier filter, and for one wave that dominates the trace.
func (t *trace) spectrum() {
	power, length := t.power, float64(t.waves)*t.p.Spacing
	if len(power) == 0 {
		return
	}
	// band is the median power of the waves from short to long, which a single strong wave does not move.
	band := func(short, long float64) (float64, int) {
		from, to := int(math.Ceil(length/long)), int(math.Floor(length/short))
		from, to = max(from, 1), min(to, len(power)-1)
		if to < from {
			return 0, 0
		}
		part := slices.Clone(power[from : to+1])
		return median(part), len(part)
	}
	t.dominant(power, length)
	if c := t.c.Long; c > 0 && !t.c.Filtered {
		long, a := band(1.6*c, 5*c)
		short, b := band(c/4, 0.7*c)
		// A Gaussian L-filter leaves 1/40 of the power at two cut-offs, and with it neither offset nor slope; surfaces do not fall
		// towards long waves.
		if a >= 2 && b >= 4 && long < 0.25*short && math.Abs(t.middle) < 0.1*t.sigma && math.Abs(t.rise) < 0.3*t.sigma {
			t.find(Observation{Code: "long-waves-missing", Number: long / short,
				Advice: "If these heights are the roughness profile, say so (input: filtered), or they are filtered twice."},
				"Waves longer than the long cut-off %v µm have %v %% of the power of those below it: the trace looks filtered already.", c, round3(100*long/short))
		}
	}
	if c := t.c.Short; c > 0 && t.p.Spacing <= c/5*(1+1e-9) {
		short, a := band(c/3, c/2.2)
		long, b := band(c, 2*c)
		// A Gaussian S-filter leaves 1/800 of the power at c/2.2; surfaces and noise fall less than fiftyfold from c to there.
		if a >= 4 && b >= 4 && short < 5e-3*long {
			t.find(Observation{Code: "short-waves-missing", Number: short / long,
				Advice: "The S-filter was applied by the instrument, or a large tip or a coarse interpolation smoothed the trace; leave the S-filter out if the first is certain."},
				"Waves shorter than half the short cut-off %v µm have %v of the power of those above it: they were removed before.", c, round3(short/long))
		}
	}
}

// dominant looks for a wave that, with its overtones, holds more than three quarters of the power.
func (t *trace) dominant(power []float64, length float64) {
	best, total := 3, 0.0
	for _, p := range power[1:] {
		total += p
	}
	for i := 4; i+2 < len(power); i++ {
		if power[i] > power[best] {
			best = i
		}
	}
	if best < 5 || total == 0 { // fewer than five waves are no period
		return
	}
	// The centre of the peak is the place of the wave to a fraction of a bin.
	sum, at := 0.0, 0.0
	for i := best - 2; i <= best+2; i++ {
		sum += power[i]
		at += float64(power[i] * float64(i))
	}
	at /= sum
	for k := 2; k <= 20; k++ {
		c := int(math.Round(at * float64(k)))
		for i := max(c-2, best+3); i <= c+2 && i < len(power); i++ {
			sum += power[i]
		}
	}
	if share := sum / total; share > 0.75 {
		wave := length / at
		t.find(Observation{Code: "periodic", Number: wave, Unit: "µm",
			Advice: "Choose the cut-off by the mean width of the profile elements (Rsm); the trace should cross the lay."},
			"One wave of %v µm and its overtones hold %v %% of the power: the surface is periodic.", round3(wave), math.Round(100*share))
	}
}

// fastLength is the largest length up to n that has only the factors 2, 3 and 5.
func fastLength(n int) int {
	for m := n; m > 0; m-- {
		k := m
		for _, f := range []int{2, 3, 5} {
			for k%f == 0 {
				k /= f
			}
		}
		if k == 1 {
			return m
		}
	}
	return 0
}
