package filter

import (
	"errors"
	"fmt"
	"math"
)

// ErrAbscissa says that abscissae do not rise from point to point.
var ErrAbscissa = errors.New("x does not increase")

// UnevenSpline is the spline filter without tension for points at uneven spacing.
//
//	Σ δᵢ·Δxᵢ·(zᵢ - s(xᵢ))² + (λc/2π)⁴·∫ s″(x)² dx = min
//
// where Δxᵢ is half the distance between the neighbours of point i, and s is the natural cubic spline that the minimum leads
// to. For points at even, fine spacing it is [Spline] with β = 0; the weights at the two end points differ.
//
//   - Weighting function: that of [Spline], away from the ends.
//   - Input: abscissae that rise, heights; at least one.
//   - Half amplitude: a sine as long as Cutoff.
//   - Errors: [ErrCutoff], [ErrSampling] for a cut-off below 1e-9 of the profile, [ErrAbscissa], [ErrNotFinite], [ErrWeight] inside a [PointError], [ErrFewPoints].
//   - Source: ISO/TR 16610-32:2023 (scope excerpt); C. H. Reinsch 1967, smoothing splines (textbook, memory).
type UnevenSpline struct {
	Cutoff float64
}

// Smooth returns the spline at the abscissae x of the heights z, in dst if that is not nil. weight may be nil.
func (f UnevenSpline) Smooth(dst, x, z, weight []float64) ([]float64, error) {
	if len(x) != len(z) {
		panic("filter: x and z differ in length")
	}
	if err := checkLength("cut-off", f.Cutoff, ErrCutoff); err != nil {
		return nil, err
	}
	if weight != nil {
		var err error
		if z, weight, err = masked(z, weight); err != nil {
			return nil, err
		}
	} else if err := checkHeights(z, nil); err != nil {
		return nil, err
	}
	for i, v := range x {
		switch {
		case !(math.Abs(v) <= huge):
			return nil, &PointError{i, fmt.Errorf("x: %w", ErrNotFinite)}
		case i > 0 && !(v-x[i-1] >= 1/huge):
			return nil, &PointError{i, ErrAbscissa}
		}
	}
	dst = target(dst, z)
	n := len(x)
	if n == 1 {
		dst[0] = z[0]
		return dst, nil
	}
	if f.Cutoff < 1e-9*(x[n-1]-x[0]) {
		return nil, fmt.Errorf("filter: cut-off %v on a profile %v long: %w", f.Cutoff, x[n-1]-x[0], ErrSampling)
	}
	mid, slope, centre := unevenLine(x, z, weight)
	// Lengths in cut-offs, at most a thousand times the profile: beyond that the spline is its line.
	unit := min(f.Cutoff, 1000*(x[n-1]-x[0]))
	s := newHermite(n)
	for i := range n {
		cell := x[min(i+1, n-1)] - x[max(i-1, 0)]
		d := cell / (2 * unit)
		if weight != nil {
			d *= weight[i]
		}
		s.datum(math.Sqrt(d), z[i]-(mid+float64(slope*(x[i]-centre))))
		if i+1 < n {
			s.advance((x[i+1] - x[i]) / unit)
		}
	}
	s.finish(dst)
	for i := range dst {
		dst[i] += mid + float64(slope*(x[i]-centre))
	}
	return dst, nil
}

func unevenLine(x, z, weight []float64) (mid, slope, centre float64) {
	n := 0.0
	for i := range x {
		if weight == nil || weight[i] > 0 {
			n++
			centre += (x[i] - centre) / n
			mid += (z[i] - mid) / n
		}
	}
	reach := max(x[len(x)-1]-centre, centre-x[0])
	var sxx, sxz float64
	for i := range x {
		if weight == nil || weight[i] > 0 {
			u := (x[i] - centre) / reach
			sxx += float64(u * u)
			sxz += float64(u * (z[i] - mid))
		}
	}
	if sxx > 0 {
		slope = sxz / sxx / reach
	}
	return mid, slope, centre
}

// A hermite solves for the values and slopes of a smoothing spline at its points by rotating one row after the other into a
// triangle. Each point has two columns, value and slope; a row never reaches farther than the next point.
type hermite struct {
	rows [][2][5]float64 // two finished rows for each point: two columns of its own, two of the next, right side
	at   int
}

func newHermite(n int) *hermite { return &hermite{rows: make([][2][5]float64, n)} }

// add rotates a row into the two rows of the present point, and returns the rest of it.
func (h *hermite) add(row [5]float64) [5]float64 {
	own := &h.rows[h.at]
	for c := range 2 {
		cos, sin, r := givens(own[c][c], row[c])
		if row[c] == 0 {
			continue
		}
		for k := c + 1; k < 5; k++ {
			own[c][k], row[k] = float64(cos*own[c][k])+float64(sin*row[k]), float64(cos*row[k])-float64(sin*own[c][k])
		}
		own[c][c], row[c] = r, 0
	}
	return row
}

// datum adds the row of a height with the root of its weight.
func (h *hermite) datum(root, z float64) {
	h.add([5]float64{root, 0, 0, 0, root * z})
}

// advance adds the two rows whose squares sum to μ·∫s″² over the stretch of length l to the next point, and goes there. s″ runs
// straight from one end to the other: its mean is the difference of the slopes over l, its rise is
// 6/l²·(l·(s'₀+s'₁) - 2·(w₁-w₀)), and the integral is l·mean² + l·rise²/12.
func (h *hermite) advance(l float64) {
	const root = 1 / (4 * math.Pi * math.Pi) // √μ for a cut-off of 1
	mean := root / math.Sqrt(l)
	rise := root * math.Sqrt(l/12) * 6 / (l * l)
	a := h.add([5]float64{0, -mean, 0, mean, 0})
	b := h.add([5]float64{2 * rise, l * rise, -2 * rise, l * rise, 0})
	h.at++
	h.add([5]float64{a[2], a[3], 0, 0, a[4]})
	h.add([5]float64{b[2], b[3], 0, 0, b[4]})
}

// finish solves the triangle from the end and writes the values.
func (h *hermite) finish(w []float64) {
	var value, slope float64
	for i := len(w) - 1; i >= 0; i-- {
		r := &h.rows[i]
		right := [2]float64{}
		for c := range right {
			right[c] = r[c][4] - float64(r[c][2]*value) - float64(r[c][3]*slope)
		}
		s := 0.0
		if r[1][1] != 0 { // no slope is known where a single point carries all weight
			s = right[1] / r[1][1]
		}
		value, slope = (right[0]-float64(r[0][1]*s))/r[0][0], s
		w[i] = value
	}
}
