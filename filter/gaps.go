package filter

import (
	"fmt"
	"math"
)

// A Gap is a stretch of missing points, from index From up to, not including, To.
type Gap struct{ From, To int }

// Length returns the length of the missing points: their number times the spacing.
func (g Gap) Length(dx float64) float64 { return float64(g.To-g.From) * dx }

// A GapError tells of a gap that is too long to bridge.
type GapError struct {
	Gap
	Size, Longest float64
}

// Error names the gap and both lengths.
func (e *GapError) Error() string {
	return fmt.Sprintf("filter: points %d to %d are missing: a gap of %.6g, and at most %.6g may be bridged", e.From, e.To-1, e.Size, e.Longest)
}

// Gaps lists the stretches of z that are not finite numbers.
func Gaps(z []float64) []Gap {
	var gaps []Gap
	for i := 0; i < len(z); i++ {
		if finite(z[i]) {
			continue
		}
		from := i
		for i < len(z) && !finite(z[i]) {
			i++
		}
		gaps = append(gaps, Gap{from, i})
	}
	return gaps
}

func finite(v float64) bool { return !math.IsNaN(v) && !math.IsInf(v, 0) }

// A Bridged profile has no missing points.
type Bridged struct {
	Z        []float64 // the heights From to To of the profile, gaps filled
	Filled   []Gap     // what was filled, in indices of the profile: invented points, to be shown as such
	From, To int       // what is left between missing points at both ends
}

// Bridge fills the gaps of z that are at most longest long by straight lines; Z lies in dst if that is not nil. A longer gap is
// refused with a [GapError]. Missing points at both ends are no gaps between points: they are left out, not filled.
//
// How long a gap may be is for the caller to say; half a cut-off is the most that makes sense for a filter that needs every
// point (own choice). A [Weighted] filter needs no bridges.
func Bridge(dst, z []float64, dx, longest float64) (Bridged, error) {
	if err := checkLength(dx, ErrSpacing); err != nil {
		return Bridged{}, err
	}
	b := Bridged{To: len(z)}
	for b.From < b.To && !finite(z[b.From]) {
		b.From++
	}
	for b.To > b.From && !finite(z[b.To-1]) {
		b.To--
	}
	if b.From == b.To {
		return Bridged{}, fmt.Errorf("filter: no point of %d is a finite number: %w", len(z), ErrFewPoints)
	}
	gaps := Gaps(z[b.From:b.To])
	for i, g := range gaps {
		gaps[i] = Gap{g.From + b.From, g.To + b.From}
		if size := g.Length(dx); !(size <= longest*(1+1e-9)) {
			return Bridged{}, &GapError{gaps[i], size, longest}
		}
	}
	b.Filled = gaps
	b.Z = append(target(dst, z)[:0], z[b.From:b.To]...)
	for _, g := range gaps {
		from, to := g.From-b.From, g.To-b.From
		before, after := b.Z[from-1], b.Z[to]
		for i := from; i < to; i++ {
			q := float64(i-from+1) / float64(to-from+1)
			b.Z[i] = float64(before*(1-q)) + float64(after*q)
		}
	}
	return b, nil
}
