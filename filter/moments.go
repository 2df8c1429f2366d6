package filter

import "math"

// regressWeighted fits the local polynomial to the profile y, whose points have weights, into dst, from the moments Σ δ·g·u^k of the
// weights and Σ δ·z·g·u^k of the weighted heights at every point. It returns at how many points too little weight lay in the window, so that
// the mean line had to run straight across.
func (w *window) regressWeighted(dst, y, weight []float64, order int) (crossed int) {
	room := lend(len(y))
	defer giveBack(room)
	heavy := *room
	// Weights and heights share a transform, whose rounding mixes them a little: both are brought to the size of 1.
	size := highest(y)
	for i, v := range y {
		heavy[i] = 0
		if v != 0 {
			heavy[i] = float64(v / size * weight[i])
		}
	}
	fit := func(i int, s *[5]float64, t *[3]float64) {
		v, ok := local(s, t, order, w.total())
		if !ok {
			v = math.NaN()
		}
		dst[i] = v * size
	}
	if w.half < directTaps/2 {
		sumMoments(heavy, weight, w.kernels(2*order), order, fit)
	} else if shift := w.coarseness(order); shift > 0 && w.coarse(dst, heavy, weight, shift) {
		for i := range dst {
			dst[i] *= size
		}
		return 0
	} else {
		transformMoments(heavy, weight, order, w.moments(len(y), order), fit)
	}
	return bridge(dst)
}

// moments returns the kernels of the moments that a fit of the order needs at every one of n points.
func (w *window) moments(n, order int) *bank {
	return w.bank("moments", 2*order, blockSize(n, 1, w.half), func() []kernel { return w.kernels(2 * order) })
}

// transformMoments lets the weights travel as the real part and the weighted heights as the imaginary part of one signal.
func transformMoments(heavy, weight []float64, order int, b *bank, fit func(i int, s *[5]float64, t *[3]float64)) {
	n := len(heavy)
	together(n, b.step(), func(at, count int) {
		buf := borrow(b.t.size)
		defer buf.giveBack()
		s, t := buf.moments()
		buf.load(weight, at-b.half, heavy, at-b.half)
		b.t.forward(buf.x)
		for k := range 2*order + 1 {
			out := b.answer(buf.y, buf.x, k)[:count]
			for i, c := range out {
				s[i][k] = real(c)
			}
			if k <= order {
				for i, c := range out {
					t[i][k] = imag(c)
				}
			}
		}
		for i := range count {
			fit(at+i, &s[i], &t[i])
		}
	})
}

// sumMoments sums them one by one, for short windows.
func sumMoments(heavy, weight []float64, kernels []kernel, order int, fit func(i int, s *[5]float64, t *[3]float64)) {
	n, half := len(heavy), len(kernels[0].taps)-1
	for i := range n {
		var s [5]float64
		var t [3]float64
		for u := -min(half, i); u <= min(half, n-1-i); u++ {
			d, h := weight[i+u], heavy[i+u]
			if d == 0 {
				continue
			}
			sign := 1.0
			for k := range kernels {
				g := sign * kernels[k].taps[max(u, -u)]
				s[k] += float64(g * d)
				if k <= order {
					t[k] += float64(g * h)
				}
				if u < 0 {
					sign = -sign
				}
			}
		}
		fit(i, &s, &t)
	}
}

// bridge fills the points that are NaN by straight lines between their neighbours, level beyond the last one, and returns their number.
func bridge(w []float64) (filled int) {
	last := -1
	for i := 0; i <= len(w); i++ {
		if i < len(w) && math.IsNaN(w[i]) {
			filled++
			continue
		}
		if i-last > 1 {
			for j := last + 1; j < i; j++ {
				switch {
				case last < 0 && i == len(w):
					w[j] = 0
				case last < 0:
					w[j] = w[i]
				case i == len(w):
					w[j] = w[last]
				default:
					w[j] = w[last] + float64((w[i]-w[last])*(float64(j-last)/float64(i-last)))
				}
			}
		}
		last = i
	}
	return filled
}
