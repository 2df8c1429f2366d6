package params

import (
	"math"
	"slices"
)

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
		sum += float64(((top - c.z[i-1]) + (top - c.z[i])) / 2)
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

// curvePoints is how many points the outline of an area under the material ratio curve gets at most.
const curvePoints = 200

// MaterialRatioCurve returns the material ratio curve of the heights z: ratios in % against heights, from 0 to 100 %.
// With points = 0 it has a point for each height and one at either end; otherwise at most the given number, evenly spread, and no more than
// those.
func MaterialRatioCurve(z []float64, points int) []Point {
	if len(z) == 0 {
		return nil
	}
	c := newWork(&Input{Z: z}).curve()
	if points > 0 {
		return c.outline(0, 1, points)
	}
	n := float64(len(z))
	curve := make([]Point, 0, len(z)+2)
	curve = append(curve, Point{0, c.z[0]})
	for i, h := range c.z {
		curve = append(curve, Point{100 * (float64(i) + 0.5) / n, h})
	}
	return append(curve, Point{100, c.z[len(z)-1]})
}

// outline returns points of the curve between two ratios, both ends included.
func (c *ratioCurve) outline(from, to float64, points int) []Point {
	n := float64(len(c.z))
	points = max(2, min(points, int((to-from)*n)+2))
	p := make([]Point, points)
	for i := range p {
		x := from + (to-from)*float64(i)/float64(points-1)
		p[i] = Point{100 * x, c.height(x)}
	}
	return p
}

// radixFrom is the number of heights from which counting digits is faster than comparing.
const radixFrom = 512

// sorted returns all heights from the highest to the lowest.
func (w *work) sorted() []float64 {
	if w.descending != nil {
		return w.descending
	}
	s := w.floats(w.n)
	w.descending = s
	if w.n < radixFrom {
		copy(s, w.z)
		slices.Sort(s)
		slices.Reverse(s)
		return s
	}
	keys := w.keys.take(2 * w.n)
	for i, v := range w.z {
		keys[i] = fallingKey(v)
	}
	for i, k := range radixSort(keys[:w.n], keys[w.n:]) {
		s[i] = fallingHeight(k)
	}
	return s
}

// fallingKey maps heights to numbers that rise as the heights fall: the bits of a float already rise with it above
// zero, and fall with it below.
func fallingKey(v float64) uint64 {
	b := math.Float64bits(v)
	if b>>63 == 0 {
		return b ^ (1<<63 - 1)
	}
	return b
}

// fallingHeight is the inverse of fallingKey.
func fallingHeight(k uint64) float64 {
	if k>>63 == 0 {
		return math.Float64frombits(k ^ (1<<63 - 1))
	}
	return math.Float64frombits(k)
}

// radixSort sorts keys, rising, by one byte after the other from the last; other is room for as many. It returns the one
// of the two that holds the result.
func radixSort(keys, other []uint64) []uint64 {
	var counts [8][256]int
	for _, k := range keys {
		for d := range counts {
			counts[d][byte(k>>(8*d))]++
		}
	}
	for d := range counts {
		count := &counts[d]
		if count[byte(keys[0]>>(8*d))] == len(keys) {
			continue // all alike
		}
		at := 0
		for i, c := range count {
			count[i] = at
			at += c
		}
		for _, k := range keys {
			i := byte(k >> (8 * d))
			other[count[i]] = k
			count[i]++
		}
		keys, other = other, keys
	}
	return keys
}
