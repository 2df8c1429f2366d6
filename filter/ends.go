package filter

import (
	"fmt"
	"math"
	"slices"
)

// Ends says what a filter does where its weights reach beyond the ends of an open profile (ISO 16610-28; the names are
// from its public preview, the mathematics is the usual one).
type Ends uint8

const (
	Retain         Ends = iota // moment retainment of order 1: what lies inside keeps straight lines. The default.
	Retain0                    // moment retainment of order 0: weights inside renormalised; keeps constants
	Retain2                    // moment retainment of order 2: keeps parabolas, has its own window, also away from the ends
	Zero                       // nothing but zeros outside; level the profile first
	Linear                     // a straight line fitted to a stretch at each end goes on outside
	LineSymmetric              // mirrored about the end ordinate, which is not repeated
	PointSymmetric             // turned by half a turn about the end point, so that the mean line passes through it
	Discard                    // as Retain0, and Trim says what to cut away
)

// A Treatment is one of the [Ends] in words.
type Treatment struct {
	Key  string // in settings: "retain"
	Name string // in a menu
	Hint string // in the terms of the trade
}

var treatments = [...]Treatment{
	Retain:         {"retain", "keep the slope", "moment criterion, order 1"},
	Retain0:        {"retain-0", "keep the height", "moment criterion, order 0"},
	Retain2:        {"retain-2", "keep the curvature", "moment criterion, order 2"},
	Zero:           {"zero", "continue at zero", "zero padding"},
	Linear:         {"linear", "continue as a straight line", "linear extrapolation"},
	LineSymmetric:  {"line-symmetric", "mirror the trace", "line symmetrical reflection"},
	PointSymmetric: {"point-symmetric", "rotate the trace about its end", "point symmetrical reflection"},
	Discard:        {"discard", "leave them unused", "half a nesting index at each end"},
}

// EndTreatments returns the treatments of the ends, in the order of [Ends].
func EndTreatments() []Treatment { return slices.Clone(treatments[:]) }

func endWords() []string {
	var words []string
	for _, t := range treatments {
		words = append(words, t.Key)
	}
	return words
}

// String returns the word used in settings: "retain", "retain-0", ...
func (e Ends) String() string {
	if int(e) < len(treatments) {
		return treatments[e].Key
	}
	return fmt.Sprintf("Ends(%d)", uint8(e))
}

// ParseEnds returns the treatment whose String is name.
func ParseEnds(name string) (Ends, error) {
	if i := slices.Index(endWords(), name); i >= 0 {
		return Ends(i), nil
	}
	return 0, fmt.Errorf("filter: no end treatment %q: %w", name, ErrOption)
}

// order returns the order of the moments that are retained.
func (e Ends) order() int {
	switch e {
	case Retain2:
		return 2
	case Retain0, Discard:
		return 0
	}
	return 1
}

// discarded is how many points [Discard] cuts away at each end of what a filter of the given size returns; a length of 0 is half of that size.
func discarded(length, size, dx float64) int {
	if length == 0 {
		length = size / 2
	}
	return samplesUp(length, dx)
}

// extend returns z with half invented points at each side.
func (e Ends) extend(z []float64, half, fit int) []float64 {
	n := len(z)
	out := make([]float64, n+2*half)
	copy(out[half:], z)
	var outside func(i int) float64
	switch e {
	case Zero:
		return out
	case Linear:
		c0, c1 := endLine(z[:fit])
		d0, d1 := endLine(z[n-fit:])
		outside = func(i int) float64 {
			if i < 0 {
				return c0 + float64(c1*float64(i))
			}
			return d0 + float64(d1*float64(i-n+fit))
		}
	default: // LineSymmetric, PointSymmetric
		outside = func(i int) float64 {
			if n == 1 {
				return z[0]
			}
			p := 2 * (n - 1)
			r := ((i % p) + p) % p
			inside := z[min(r, p-r)]
			lift := float64(2 * float64((i-r)/p) * (z[n-1] - z[0]))
			switch {
			case e == LineSymmetric:
				return inside
			case r < n:
				return inside + lift
			}
			return 2*z[n-1] - inside + lift
		}
	}
	for k := range half {
		out[k] = outside(k - half)
		out[half+n+k] = outside(n + k)
	}
	return out
}

// endLine fits c0 + c1·i to z by least squares.
func endLine(z []float64) (c0, c1 float64) {
	mean, slope := lineOf(z, nil)
	return mean - float64(slope*float64(len(z)-1)/2), slope
}

// wrap returns a closed profile with half points from the other end at each side.
func wrap(z []float64, half int) []float64 {
	n := len(z)
	out := make([]float64, n+2*half)
	j := ((-half)%n + n) % n
	for i := range out {
		out[i] = z[j]
		if j++; j == n {
			j = 0
		}
	}
	return out
}

// middle returns the index in the middle of n points. The conversion keeps the half from being fused into a sum.
func middle(n int) float64 { return float64(float64(n-1) / 2) }

// lineOf returns the mean height and the slope per sample of the least-squares line through z, about the middle of the
// slice. Points of weight zero stay out; the other weights do not matter here. The mean then is the height of the line in
// the middle.
func lineOf(z, weight []float64) (mid, slope float64) {
	centre := middle(len(z))
	var n, sx, sz float64
	for i, v := range z {
		if weight == nil || weight[i] > 0 {
			n++
			sx += float64(i) - centre
			sz += v
		}
	}
	if n == 0 {
		return 0, 0
	}
	mx, mz := sx/n, sz/n
	var sxx, sxz float64
	for i, v := range z {
		if weight == nil || weight[i] > 0 {
			u := float64(i) - centre - mx
			sxx += float64(u * u)
			sxz += float64(u * (v - mz))
		}
	}
	if sxx == 0 {
		return mz, 0
	}
	slope = sxz / sxx
	return mz - float64(slope*mx), slope
}

// samples returns how many whole samples a length spans, with a tolerance of 1e-9 for lengths that are meant whole.
func samples(length, dx float64) int {
	return clampInt(math.Floor(length/dx + 1e-9))
}

// samplesUp returns the fewest samples that span at least a length, with the same tolerance.
func samplesUp(length, dx float64) int {
	return clampInt(math.Ceil(length/dx - 1e-9))
}

func clampInt(v float64) int {
	return int(max(0, min(v, 1<<30)))
}
