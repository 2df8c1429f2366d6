package outputs

import (
	"math"

	"example.com/furrow/params"
	"example.com/furrow/roughness"
	"example.com/furrow/roughness/synth"
)

// rounded puts heights on a grid of 1e-6, so that they are the same to the last bit everywhere.
func rounded(z []float64) []float64 {
	for i, v := range z {
		z[i] = math.Round(v*1e6) / 1e6
	}
	return z
}

func ground(n int) []float64 {
	return rounded(synth.Sum{synth.Correlated{Sigma: 0.4, Length: 12, Seed: 1}, synth.Correlated{Sigma: 0.15, Length: 4, Seed: 2}}.Heights(n, 0.5))
}

func turned(n int) []float64 {
	return rounded(synth.Sum{synth.Turned{Feed: 80, Nose: 400}, synth.Correlated{Sigma: 0.1, Length: 10, Seed: 5}}.Heights(n, 0.5))
}

func worn(n int) []float64 {
	z := synth.Sum{synth.Correlated{Sigma: 0.5, Length: 15, Seed: 4}, synth.Correlated{Sigma: 0.05, Length: 4, Seed: 5}, synth.Tilt{Offset: 3, Slope: 0.002}, synth.Sine{Amplitude: 1, Wavelength: 900}}.Heights(n, 0.5)
	synth.Wear(z, 0.6)
	return rounded(z)
}

// centred takes the mean of heights away.
func centred(z []float64) []float64 {
	mean := 0.0
	for _, v := range z {
		mean += v / float64(len(z))
	}
	for i := range z {
		z[i] -= mean
	}
	return rounded(z)
}

// inputs are the surfaces that parameters are recorded on, five sections each.
func inputs() map[string]*params.Input {
	list := map[string]*params.Input{}
	for name, f := range map[string]func(int) []float64{"ground": ground, "turned": turned, "worn": worn} {
		z := centred(f(2100))
		list[name] = &params.Input{Z: z[50:2050], Dx: 0.5, Section: 400, Lead: z[47:50], Tail: z[2050:2053]}
	}
	return list
}

// A traced profile of 9 601 points or fewer.
func traced(name string, points int) roughness.Profile {
	z := map[string]func(int) []float64{"ground": ground, "turned": turned, "worn": worn}[name](points)
	return roughness.Profile{Z: z, Spacing: 0.5, Name: name}
}

// coarse are short profiles of few whole heights, whose sum is 0: equal heights, points on the mean line and on thresholds, flat tops.
func coarse(count int) []*params.Input {
	var seed source = 7
	var list []*params.Input
	for range count {
		half := 4 + seed.upTo(22)
		most := 1 + seed.upTo(4)
		z := make([]float64, 2*half)
		for i := range half {
			z[i] = float64(seed.upTo(2*most+1) - most)
		}
		for i := range half {
			z[half+i] = -z[(i*7+3)%half]
			if half%7 == 0 {
				z[half+i] = -z[i]
			}
		}
		in := &params.Input{Z: z, Dx: 0.5, Section: len(z) / (1 + seed.upTo(5))}
		if seed.upTo(2) == 0 {
			in.Lead, in.Tail = []float64{1, -1, 0}, []float64{0, -2, 1}
		}
		if seed.upTo(3) == 0 {
			in.Flat = 1
		}
		list = append(list, in)
	}
	return list
}
