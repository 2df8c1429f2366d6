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
	return fmt.Sprintf("filter: points %d to %d are missing: a gap of %.6g, to be bridged are %.6g at most", e.From, e.To-1, e.Size, e.Longest)
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

// Bridge fills the gaps of z that are at most longest long by straight lines, into dst if that is not nil, and returns which
// gaps it filled: the filled points are invented and must be shown as such. A longer gap is refused with a [GapError]. Missing points
// at both ends are no gaps between points: they are not filled, but left out, so that the result holds z[from:to].
//
// How long a gap may be is for the caller to say; half a cut-off is the most that makes sense for a filter that needs every
// point (own choice). A [Weighted] filter needs no bridges.
func Bridge(dst, z []float64, dx, longest float64) (filled []float64, bridged []Gap, from, to int, err error) {
	if err := checkLength("spacing", dx, ErrSpacing); err != nil {
		return nil, nil, 0, 0, err
	}
	to = len(z)
	for from < to && !finite(z[from]) {
		from++
	}
	for to > from && !finite(z[to-1]) {
		to--
	}
	if from == to {
		return nil, nil, 0, 0, fmt.Errorf("filter: no point of %d is a finite number: %w", len(z), ErrFewPoints)
	}
	filled = append(target(dst, z)[:0], z[from:to]...)
	for _, g := range Gaps(filled) {
		if size := g.Length(dx); !(size <= longest*(1+1e-9)) {
			return nil, nil, 0, 0, &GapError{Gap{g.From + from, g.To + from}, size, longest}
		}
		a, b := filled[g.From-1], filled[g.To]
		for i := g.From; i < g.To; i++ {
			q := float64(i-g.From+1) / float64(g.To-g.From+1)
			filled[i] = float64(a*(1-q)) + float64(b*q)
		}
		bridged = append(bridged, Gap{g.From + from, g.To + from})
	}
	return filled, bridged, from, to, nil
}
