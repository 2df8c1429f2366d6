package filter

import (
	"fmt"
	"math"
	"slices"
	"sort"
)

// Hampel looks for spikes: points that stand farther from the median of their neighbourhood than its own scatter explains.
//
//	|zᵢ - median| > Factor · 1.4826 · median of |z - median|,  both medians over Window around point i
//
// It only proposes. Nothing is removed: a pore is a spike too, and whether it belongs to the surface is for a person to say.
//
// Source: F. R. Hampel 1974, the usual identifier of outliers (textbook, memory); ISO 16610-30:2015 names spikes (excerpt).
type Hampel struct {
	// Window is the full width of the neighbourhood. It must hold at least three points.
	Window float64
	// Factor is in standard deviations of a normal distribution. 0 means 3.
	Factor float64
	// Least is a distance below which no point is proposed, for instance the resolution of the instrument.
	Least float64
}

// A Spike is a point that Hampel proposes.
type Spike struct {
	Index    int
	Distance float64 // from the median of the neighbourhood, positive upward
	Scatter  float64 // 1.4826 times the median distance in the neighbourhood
}

// Propose lists the points that look like spikes. At the ends the neighbourhood is what is there of it.
func (h Hampel) Propose(z []float64, dx float64) ([]Spike, error) {
	if err := checkLength("spacing", dx, ErrSpacing); err != nil {
		return nil, err
	}
	factor := h.Factor
	if factor == 0 {
		factor = 3
	}
	if !(factor > 0 && factor <= huge && h.Least >= 0 && h.Window <= huge) {
		return nil, fmt.Errorf("filter: spikes of more than %v deviations and %v: %w", h.Factor, h.Least, ErrOption)
	}
	half := samples(h.Window/2, dx)
	if half < 1 {
		return nil, fmt.Errorf("filter: window of %v at spacing %v: %w", h.Window, dx, ErrSampling)
	}
	if err := checkHeights(z, nil); err != nil {
		return nil, err
	}
	var spikes []Spike
	near := slices.Clone(z[:min(half, len(z))])
	slices.Sort(near)
	for i, v := range z {
		if j := i + half; j < len(z) {
			at := sort.SearchFloat64s(near, z[j])
			near = slices.Insert(near, at, z[j])
		}
		if j := i - half - 1; j >= 0 {
			at := sort.SearchFloat64s(near, z[j])
			near = slices.Delete(near, at, at+1)
		}
		mid := middle(near)
		scatter := 1.4826 * spread(near, mid)
		if d := v - mid; math.Abs(d) > factor*scatter && math.Abs(d) > h.Least {
			spikes = append(spikes, Spike{i, d, scatter})
		}
	}
	return spikes, nil
}

// middle returns the median of ordered values.
func middle(v []float64) float64 {
	n := len(v)
	return v[(n-1)/2] + (v[n/2]-v[(n-1)/2])/2
}

// spread returns the median distance of ordered values from mid: the values nearest to mid lie in a run, whose least width is
// found by halving.
func spread(v []float64, mid float64) float64 {
	n := len(v)
	kth := func(k int) float64 { // the k-th smallest distance, from 1
		// A run of k values from i on is the nearest one where its first is no nearer than the one after its last.
		i := sort.Search(n-k, func(i int) bool { return mid-v[i] <= v[i+k]-mid })
		return max(mid-v[i], v[i+k-1]-mid)
	}
	return (kth((n+1)/2) + kth(n/2+1)) / 2
}
