package synth

import (
	"math"
	"slices"
)

// A Demo is an invented trace of the demonstration scenario: a workshop that refurbishes the hydraulic cylinders of
// canal lock gates. No surface was measured for it.
type Demo struct {
	Key     string  // "ground-rod"
	Title   string  // "Ground piston rod"
	Note    string  // says what it shows, and that it is invented
	Spacing float64 // in µm
	parts   Sum
}

// The demonstration traces are 4.8 mm long at 0.5 µm.
const (
	demoPoints  = 9601
	demoSpacing = 0.5
	demoGrid    = 1000 // heights per µm
)

var demos = []Demo{
	{"ground-rod", "Ground piston rod",
		"Invented: the rod of a lock gate's cylinder, ground before plating, traced along the axis. A little tilt, a little waviness.",
		demoSpacing,
		Sum{
			skewed{0.07, Sum{
				Correlated{0.455, 12, 101},
				Correlated{0.305, 5, 102},
			}},
			Tilt{-1.1, 0.0005}, Sine{0.30, 1900, 0.15}, Sine{0.10, 1150, 0.6},
		}},
	{"turned-pin", "Turned hinge pin",
		"Invented: the hinge pin of a lock gate, turned at a feed of 0.2 mm with a nose radius of 0.8 mm, traced along the axis.",
		demoSpacing,
		Sum{
			Turned{Feed: 200, Nose: 800, Phase: 0.3, Arc: true},
			Correlated{0.22, 11, 201}, Correlated{0.06, 3, 202},
			Tilt{0.9, -0.0004}, Sine{0.25, 2400, 0.4},
		}},
	{"honed-bore", "Plateau-honed bore",
		"Invented: the bore of a lock gate's cylinder, honed to a plateau; the grooves of the first honing hold the oil.",
		demoSpacing,
		Sum{
			Honed{Plateau: 0.16, Groove: 1.5, PlateauLength: 5, GrooveLength: 13, Offset: 1.2, Seed: 301},
			Tilt{-0.4, 0.0002}, Sine{0.2, 2100, 0.7},
		}},
	{"cast-face", "Cast paddle face",
		"Invented: the face of a cast sluice paddle. So rough that five sections would need a longer trace than this one.",
		demoSpacing,
		Sum{
			skewed{0.12, Sum{
				Correlated{8, 130, 401},
				Correlated{2.4, 26, 402},
				Correlated{0.5, 5, 403},
			}},
			Tilt{3, -0.002},
		}},
}

// Demos returns the demonstration traces; the first is the one that the page and the command open with.
func Demos() []Demo { return slices.Clone(demos) }

// FindDemo returns the demonstration trace with a key.
func FindDemo(key string) (Demo, bool) {
	for _, d := range demos {
		if d.Key == key {
			return d, true
		}
	}
	return Demo{}, false
}

// Heights computes the trace in µm, on a grid of 0.001 µm: its parts and the noise of an instrument. It is the same numbers
// on every platform, since the grid hides what the last bits of a calculation do.
func (d Demo) Heights() []float64 {
	z := append(d.parts[:len(d.parts):len(d.parts)], Noise{0.006, 900}).Heights(demoPoints, d.Spacing)
	for i, h := range z {
		z[i] = math.Round(h*demoGrid) / demoGrid
	}
	return z
}

// skewed bends the heights of a shape so that pits are deeper than peaks are high.
type skewed struct {
	bend  float64 // share of the standard deviation
	shape Sum
}

func (s skewed) Heights(n int, dx float64) []float64 {
	z := s.shape.Heights(n, dx)
	var square float64
	for _, h := range z {
		square += float64(h*h) / float64(n)
	}
	sigma := math.Sqrt(square)
	for i, h := range z {
		z[i] = h - float64(s.bend*(float64(h*h)/sigma-sigma))
	}
	return z
}

func (s skewed) Known() []Known { return nil }
