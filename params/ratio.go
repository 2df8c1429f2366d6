package params

import "math"

// The polyline through the points of a profile takes every height between its lowest and its highest. Its material
// ratio at a height c is the share of the length over which it lies at c or above.

// materialRatio returns the material ratio of the polyline at height c as a fraction. A piece that is level at c counts
// as material.
func (w *work) materialRatio(c float64) float64 {
	if w.n == 1 {
		if w.z[0] >= c {
			return 1
		}
		return 0
	}
	whole, part := 0, 0.0
	a := w.z[0]
	for _, b := range w.z[1:] {
		if a >= c && b >= c {
			whole++
		} else if low, high := min(a, b), max(a, b); high > c {
			part += (high - c) / (high - low)
		}
		a = b
	}
	return (float64(whole) + part) / float64(w.n-1)
}

// materialHeight is the inverse of materialRatio: the lowest height whose ratio is at most p, a fraction.
//
// Between two neighbouring heights of the sorted points the ratio is linear in the height, so the inverse is exact once
// the two are found, by halving. Only the pieces that reach into the bracket differ within it; the points are spread
// almost like the polyline, so a narrow bracket about the guess p N nearly always holds the height.
func (w *work) materialHeight(p float64) float64 {
	z := w.sorted()
	last := w.n - 1
	if p <= 0 || z[0] == z[last] {
		return z[0]
	}
	if p >= 1 {
		return z[last]
	}
	guess, reach := int(p*float64(last)), 16+w.n/64
	above, below := max(0, guess-reach), min(last, guess+reach)
	b := w.bracket(z[above], z[below])
	if b.ratio(z[above], false) >= p || b.ratio(z[below], false) < p {
		above, below = 0, last
		b = w.bracket(z[above], z[below])
		if b.ratio(z[0], false) >= p {
			return z[0] // a plateau at the top
		}
	}
	for below-above > 1 {
		if middle := (above + below) / 2; b.ratio(z[middle], false) < p {
			above = middle
		} else {
			below = middle
		}
	}
	// The ratio at z[above] is below p, that at z[below] is not; a plateau there makes it jump.
	low := b.ratio(z[below], true)
	if low <= p {
		return z[below]
	}
	high := b.ratio(z[above], false)
	t := (p - high) / (low - high)
	return z[above] + float64(t*(z[below]-z[above]))
}

// A bracket counts the material ratio at heights between two levels.
type bracket struct {
	z      []float64
	whole  int   // pieces that are material at every height of the bracket
	pieces []int // first points of those that are so at some
}

// bracket sorts out the pieces for heights from low to high. It takes the room of the bracket before.
func (w *work) bracket(high, low float64) bracket {
	if w.pieces == nil {
		w.pieces = w.ints(w.n)
	}
	b := bracket{z: w.z, pieces: w.pieces[:0]}
	a := w.z[0]
	for i, v := range w.z[1:] {
		switch {
		case a > high && v > high:
			b.whole++
		case a >= low || v >= low:
			b.pieces = append(b.pieces, i)
		}
		a = v
	}
	return b
}

// ratio returns the material ratio at a height of the bracket. With open set a piece that is level at the height does
// not count: this is the ratio just above a plateau.
func (b *bracket) ratio(c float64, open bool) float64 {
	whole, part := b.whole, 0.0
	for _, i := range b.pieces {
		low, high := min(b.z[i], b.z[i+1]), max(b.z[i], b.z[i+1])
		switch {
		case low >= c:
			if high > c || !open {
				whole++
			}
		case high > c:
			part += (high - c) / (high - low)
		}
	}
	return (float64(whole) + part) / float64(len(b.z)-1)
}

// A ratioCurve is the material ratio curve of the sorted points: heights falling at the ratios (i+1/2)/N, straight
// between them, level before the first and after the last. It keeps the mean of the heights exactly.
type ratioCurve struct {
	z    []float64 // falling
	void []float64 // between the level z[0] and the curve, from 0 to (i+1/2)/N
}

func (w *work) curve() *ratioCurve {
	c := &w.ratio
	if c.z != nil {
		return c
	}
	c.z = w.sorted()
	c.void = w.floats(w.n)
	top, n := c.z[0], float64(w.n)
	sum := 0.0
	for i := 1; i < w.n; i++ {
		sum += ((top - c.z[i-1]) + (top - c.z[i])) / 2
		c.void[i] = sum / n
	}
	return c
}

// locate returns the piece of the curve that p, a fraction, lies in: between the ratios of points i and i+1, at the
// share t of the way; i is -1 before the first point.
func (c *ratioCurve) locate(p float64) (i int, t float64) {
	u := float64(p*float64(len(c.z))) - 0.5
	f := math.Floor(u)
	i = max(-1, min(len(c.z)-1, int(f)))
	return i, u - float64(i)
}

// height returns the height of the curve at p, a fraction.
func (c *ratioCurve) height(p float64) float64 {
	i, t := c.locate(p)
	switch {
	case i < 0:
		return c.z[0]
	case i >= len(c.z)-1:
		return c.z[len(c.z)-1]
	}
	return c.z[i] + float64(t*(c.z[i+1]-c.z[i]))
}

// integral returns the integral of (height - level) from 0 to p, a fraction.
func (c *ratioCurve) integral(p, level float64) float64 {
	n, top := len(c.z), c.z[0]
	i, t := c.locate(p)
	void := 0.0
	switch {
	case i < 0:
	case i >= n-1:
		void = c.void[n-1] + float64((top-c.z[n-1])*t)/float64(n)
	default:
		void = c.void[i] + float64(((top-c.z[i])+(top-c.height(p)))/2*t)/float64(n)
	}
	return float64((top-level)*p) - void
}

// reaches returns the first ratio at which the curve has come down to height c, within the tolerance.
func (c *ratioCurve) reaches(height, tolerance float64) float64 {
	n := len(c.z)
	if height >= c.z[0]-tolerance {
		return 0
	}
	for i := 1; i < n; i++ {
		if c.z[i] <= height+tolerance {
			return (float64(i) - 0.5 + share(c.z[i-1], c.z[i], height)) / float64(n)
		}
	}
	return 1
}

// leaves returns the last ratio at which the curve is still at height c, within the tolerance.
func (c *ratioCurve) leaves(height, tolerance float64) float64 {
	n := len(c.z)
	if height <= c.z[n-1]+tolerance {
		return 1
	}
	for i := n - 2; i >= 0; i-- {
		if c.z[i] >= height-tolerance {
			return (float64(i) + 0.5 + share(c.z[i], c.z[i+1], height)) / float64(n)
		}
	}
	return 0
}

// share returns how far on the way from a down to b the height h lies, from 0 to 1.
func share(a, b, h float64) float64 {
	return min(1, max(0, (a-h)/(a-b)))
}
