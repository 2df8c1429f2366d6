package filter

import "math"

// An element is the upper side of what is laid on a profile or rolled over it: its height at the distances 0, 1, ... samples
// from its apex, falling ever more steeply or not at all. Beyond the last there is nothing.
type element []float64

// over computes the dilation: at each point the greatest of z[j] plus the element's height at the distance. Points outside the
// profile play no part.
//
// Copies of one concave shape cross at most once, so that from left to right each copy rules over one stretch. The stack
// holds those stretches; where a new copy begins to rule is found by halving, with the same sums that a plain search would make.
// The cost is N·log K for an element of K samples.
func (b element) over(dst, z []float64) {
	n, reach := len(z), len(b)-1
	if reach == 0 {
		copy(dst, z)
		return
	}
	type stretch struct{ apex, from int }
	stack := make([]stretch, 0, 4*len(b)) // of which two reaches still count
	k := 0                                // the stretch of the point that is next in out
	out := make([]float64, n)             // dst may be z, and a height is still needed after its own place
	for j := range n + reach {
		x := j - reach // the last point that copies behind j cannot touch
		if j < n {
			zj, from := z[j], max(x, 0)
			for len(stack) > k {
				top := stack[len(stack)-1]
				last := min(top.apex+reach, n-1)
				if x > last {
					break
				}
				// The first point of [lo, last+1] where j is higher than top; last+1 where top ends unbeaten. It matters only
				// from where top rules on: a copy beaten there goes at once.
				lo, hi := max(x, top.from), last+1
				zi := z[top.apex]
				if zj+b[distance(lo, j)] > zi+b[distance(lo, top.apex)] {
					hi = lo
				}
				for lo < hi {
					x := int(uint(lo+hi) / 2)
					if zj+b[distance(x, j)] > zi+b[distance(x, top.apex)] {
						hi = x
					} else {
						lo = x + 1
					}
				}
				from = lo
				if from > top.from {
					break
				}
				stack = stack[:len(stack)-1]
				from = max(x, 0)
			}
			if from < n {
				if len(stack) == cap(stack) {
					stack, k = stack[:copy(stack, stack[k:])], 0
				}
				stack = append(stack, stretch{j, from})
			}
		}
		if x >= 0 {
			for k+1 < len(stack) && stack[k+1].from <= x {
				k++
			}
			i := stack[k].apex
			out[x] = z[i] + b[distance(x, i)]
		}
	}
	copy(dst, out)
}

func distance(a, b int) int { return max(a-b, b-a) }

// under computes the erosion: at each point the least of z[j] minus the element's height at the distance.
func (b element) under(dst, z []float64) {
	upside := make([]float64, len(z))
	for i, v := range z {
		upside[i] = -v
	}
	b.over(dst, upside)
	for i := range dst {
		dst[i] = -dst[i]
	}
}

// closing rolls the element over the profile from above: no point of the result lies below z.
func (b element) closing(dst, z []float64) {
	lifted := make([]float64, len(z))
	b.over(lifted, z)
	b.under(lifted, lifted)
	for i, v := range z {
		dst[i] = max(v, lifted[i]) // rounding apart, lifted is never lower
	}
}

// opening rolls it along below: no point of the result lies above z.
func (b element) opening(dst, z []float64) {
	sunk := make([]float64, len(z))
	b.under(sunk, z)
	b.over(sunk, sunk)
	for i, v := range z {
		dst[i] = min(v, sunk[i])
	}
}

// sample makes an element of a falling shape, as far as it can touch a profile of n points of the given range of heights.
func sample(n int, dx, height float64, reach int, shape func(u float64) float64) element {
	b := element{0}
	for k := 1; k <= min(reach, n-1); k++ {
		v := shape(float64(k) * dx)
		if v < -height || math.IsNaN(v) {
			break
		}
		b = append(b, v)
	}
	return b
}

// disk returns the upper side of a disk with its top at zero: √(r²-u²) - r, written so that no digits are lost.
func disk(z []float64, dx, radius float64) element {
	return sample(len(z), dx, spanOf(z), samples(radius, dx), func(u float64) float64 {
		q := min(u/radius, 1)
		return -u * q / (1 + math.Sqrt(float64((1-q)*(1+q))))
	})
}

// segment returns a level line of the given length.
func segment(z []float64, dx, length float64) element {
	return make(element, min(samples(length/2, dx), len(z)-1)+1)
}

func spanOf(z []float64) float64 {
	lo, hi := z[0], z[0]
	for _, v := range z {
		lo, hi = min(lo, v), max(hi, v)
	}
	return hi - lo
}
