package filter

import (
	"fmt"
	"math"
)

// The morphological filters compute an envelope of the profile in place of a mean line (ISO 16610-41:2015, scope excerpt).
//
//	dilation  D(x) = max over |u| <= U of z(x+u) + b(u)
//	erosion   E(x) = min over |u| <= U of z(x+u) - b(u)
//	closing = E(D(z)) >= z,  opening = D(E(z)) <= z
//	disk of radius r: b(u) = √(r²-u²), U = r;   level segment of length L: b = 0, U = L/2
//
// The element is laid on the samples alone; between two samples a disk of radius r hangs lower by up to dx²/8r: where that matters, interpolate the profile first. Points
// outside the profile play no part. One spike lifts a closing over the whole width of the element: look for spikes first.
// The cost is N·log K for an element of K samples; only the part of a disk that can touch the profile counts.

// DiskClosing is the envelope of a disk that rolls over the profile from above; it bridges valleys narrower than the disk.
//
//   - Weighting function: none, the filter is not linear.
//   - Input: heights, at least one, in the length unit of dx.
//   - Errors: [ErrOption], [ErrSpacing], [ErrNotFinite] inside a [PointError].
//   - Source: ISO 16610-41:2015 (scope excerpt; operators are textbook).
type DiskClosing struct{ Radius float64 }

// DiskOpening is the envelope of a disk that rolls along below the profile; it cuts off peaks narrower than the disk.
// Errors and source as [DiskClosing].
type DiskOpening struct{ Radius float64 }

// DiskAlternating is a closing followed by an opening with the same disk, or, with OpenFirst, the other way round; the two differ.
// Errors as [DiskClosing]; source ISO 16610-49:2015 (title excerpt; operators are textbook).
type DiskAlternating struct {
	Radius    float64
	OpenFirst bool
}

// SegmentClosing is the closing by a level segment, which fills valleys narrower than Length to their lower rim.
// Errors and source as [DiskClosing].
type SegmentClosing struct{ Length float64 }

// SegmentOpening is the opening by a level segment, which cuts off peaks narrower than Length.
// Errors and source as [DiskClosing].
type SegmentOpening struct{ Length float64 }

// shaped checks, makes an element and runs work on it.
func shaped(dst, z []float64, dx, size float64, make func(z []float64, dx, size float64) element, work func(b element, dst []float64)) ([]float64, error) {
	if err := checkLength(dx, ErrSpacing); err != nil {
		return nil, err
	}
	if !(size >= 1/huge && size <= huge) {
		return nil, fmt.Errorf("filter: radius or length %v: %w", size, ErrOption)
	}
	if err := checkHeights(z, nil); err != nil {
		return nil, err
	}
	dst = target(dst, z)
	work(make(z, dx, size), dst)
	return dst, nil
}

// Apply returns the envelope above.
func (f DiskClosing) Apply(dst, z []float64, dx float64) ([]float64, error) {
	return shaped(dst, z, dx, f.Radius, disk, func(b element, dst []float64) { b.closing(dst, z) })
}

// Apply returns the envelope below.
func (f DiskOpening) Apply(dst, z []float64, dx float64) ([]float64, error) {
	return shaped(dst, z, dx, f.Radius, disk, func(b element, dst []float64) { b.opening(dst, z) })
}

// Apply returns the profile closed and opened.
func (f DiskAlternating) Apply(dst, z []float64, dx float64) ([]float64, error) {
	return shaped(dst, z, dx, f.Radius, disk, func(b element, dst []float64) {
		if f.OpenFirst {
			b.opening(dst, z)
			b.closing(dst, dst)
		} else {
			b.closing(dst, z)
			b.opening(dst, dst)
		}
	})
}

// Apply returns the envelope above.
func (f SegmentClosing) Apply(dst, z []float64, dx float64) ([]float64, error) {
	return shaped(dst, z, dx, f.Length, segment, func(b element, dst []float64) { b.closing(dst, z) })
}

// Apply returns the envelope below.
func (f SegmentOpening) Apply(dst, z []float64, dx float64) ([]float64, error) {
	return shaped(dst, z, dx, f.Length, segment, func(b element, dst []float64) { b.opening(dst, z) })
}

// Transmission is NaN: the filter does not act on sines one by one.
func (DiskClosing) Transmission(float64) float64 { return math.NaN() }

// Transmission is NaN: the filter does not act on sines one by one.
func (DiskOpening) Transmission(float64) float64 { return math.NaN() }

// Transmission is NaN: the filter does not act on sines one by one.
func (DiskAlternating) Transmission(float64) float64 { return math.NaN() }

// Transmission is NaN: the filter does not act on sines one by one.
func (SegmentClosing) Transmission(float64) float64 { return math.NaN() }

// Transmission is NaN: the filter does not act on sines one by one.
func (SegmentOpening) Transmission(float64) float64 { return math.NaN() }
