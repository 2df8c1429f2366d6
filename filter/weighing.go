package filter

import "math"

// A Weighing filter is a linear one that can show the weights it lays around a point far from both ends: x holds the
// distances from the point, negative before it, w the weights, whose sum is 1. Both are nil where the filter refuses its
// cut-off or the spacing.
type Weighing interface {
	Filter
	Weights(dx float64) (x, w []float64)
}

// A Weighted filter can give every point its own weight. A point of weight zero takes no part, and its height may be
// anything, NaN too; the long-wave part is computed there as well, from its neighbours.
type Weighted interface {
	Filter
	ApplyWeighted(dst, z, weight []float64, dx float64) ([]float64, error)
}

// twoSided unfolds an even kernel.
func twoSided(k kernel, dx float64) (x, w []float64) {
	half := len(k.taps) - 1
	x, w = make([]float64, 2*half+1), make([]float64, 2*half+1)
	for u, v := range k.taps {
		x[half-u], x[half+u] = -float64(u)*dx, float64(u)*dx
		w[half-u], w[half+u] = v, v
	}
	return x, w
}

// kernelAt returns the amplitude that the sampled weights of f leave of a sine.
func kernelAt(f Weighing, wavelength, dx float64) float64 {
	x, w := f.Weights(dx)
	if x == nil {
		return math.NaN()
	}
	var re, im float64
	for i, v := range w {
		sin, cos := math.Sincos(2 * math.Pi * x[i] / wavelength)
		re += float64(v * cos)
		im += float64(v * sin)
	}
	return math.Hypot(re, im)
}
