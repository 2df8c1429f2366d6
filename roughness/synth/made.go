package synth

import (
	"math"
	"slices"
)

// Made is a surface made up to try things out: parts that are zero are left out, the others are added in the order of
// the fields.
type Made struct {
	Wave, Length float64 // height from crest to trough of a sine, and its wavelength
	Feed, Nose   float64 // cusps of turning: feed and nose radius
	Noise        float64 // standard deviation of a smooth random part, 10 long
	Scratch      float64 // depth of one scratch in the middle, 20 wide
	Plateau      float64 // share of the length that is worn level, in percent
	Seed         uint64  // of the random part
}

const (
	madeNoiseLength  = 10
	madeScratchWidth = 20
)

// parts are the shapes that are added up before scratch and plateau.
func (s Made) parts() []Shape {
	var list []Shape
	if s.Wave > 0 && s.Length > 0 {
		list = append(list, Sine{Amplitude: s.Wave / 2, Wavelength: s.Length})
	}
	if s.Feed > 0 && s.Nose > 0 {
		list = append(list, Turned{Feed: s.Feed, Nose: s.Nose})
	}
	if s.Noise > 0 {
		list = append(list, Correlated{s.Noise, madeNoiseLength, s.Seed})
	}
	return list
}

// Heights samples the surface.
func (s Made) Heights(n int, dx float64) []float64 {
	z := Sum(s.parts()).Heights(n, dx)
	if s.Scratch > 0 {
		middle := float64(n-1) * dx / 2
		for i := range z {
			if away := math.Abs(float64(float64(i)*dx)-middle) / (madeScratchWidth / 2); away < 1 {
				z[i] -= float64(s.Scratch * (1 - away))
			}
		}
	}
	if s.Plateau > 0 {
		Wear(z, s.Plateau)
	}
	return z
}

// Known lists what is known beforehand: all that the single part knows, or the Rq of a sum of independent parts. A
// scratch or a plateau leaves nothing that a formula gives.
func (s Made) Known() []Known {
	parts := s.parts()
	if s.Scratch > 0 || s.Plateau > 0 || len(parts) == 0 {
		return nil
	}
	if len(parts) == 1 {
		return parts[0].Known()
	}
	return Independent(parts...)
}

// Independent is what is known of a sum of parts that have nothing to do with each other: its Rq.
func Independent(parts ...Shape) []Known {
	square, expected := 0.0, false
	for _, part := range parts {
		for _, k := range part.Known() {
			if k.Symbol == "Rq" {
				square += float64(k.Value * k.Value)
				expected = expected || k.Expected
			}
		}
	}
	l := &list{source: "variances of independent parts add", expected: expected}
	l.length("Rq", math.Sqrt(square), "√(Σ Rq²) of the parts")
	return l.known
}

// Wear sets all heights above the one that share, in percent, of them lie above to that height.
func Wear(z []float64, share float64) {
	n := len(z)
	if n == 0 {
		return
	}
	sorted := slices.Clone(z)
	slices.Sort(sorted)
	worn := min(n-1, int(math.Round(float64(n)*share/100)))
	level := sorted[n-1-worn]
	for i := range z {
		z[i] = math.Min(z[i], level)
	}
}
