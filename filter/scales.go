package filter

import (
	"fmt"
	"math"
)

// ScaleSpace takes a profile apart by scale: it closes and opens with one disk after the other, each applied to the result
// of the one before (alternating sequential filter). levels[k] is the profile after radii[k]; z minus levels[0] and each
// level minus the next are the bands, which sum to z minus the last level.
//
// Source: ISO 16610-49:2015 (title excerpt; the operators are textbook, the ladder 1-2-5 of [Ladder] is from memory).
func ScaleSpace(z []float64, dx float64, radii []float64) (levels [][]float64, err error) {
	for k, r := range radii {
		if k > 0 && !(r > radii[k-1]) {
			return nil, fmt.Errorf("filter: radius %v after %v: the radii must increase: %w", r, radii[k-1], ErrOption)
		}
		if z, err = (DiskAlternating{Radius: r}).Apply(nil, z, dx); err != nil {
			return nil, err
		}
		levels = append(levels, z)
	}
	return levels, nil
}

// Ladder returns the radii of the series 1-2-5 from at least from to at most to: 1, 2, 5, 10, 20, 50, ...
func Ladder(from, to float64) []float64 {
	var radii []float64
	if !(from > 0 && to <= huge && from >= 1/huge) {
		return nil
	}
	for e := math.Floor(math.Log10(from)) - 1; ; e++ {
		for _, digit := range [...]float64{1, 2, 5} {
			r := digit * math.Pow(10, e)
			if e < 0 {
				r = digit / math.Pow(10, -e)
			}
			if r > to*(1+1e-12) {
				return radii
			}
			if r >= from*(1-1e-12) {
				radii = append(radii, r)
			}
		}
	}
}
