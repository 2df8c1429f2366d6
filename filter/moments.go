package filter

// A momentBank computes, for a window, the moments Σ δ·g·u^k of the weights and Σ δ·z·g·u^k of the weighted heights at
// every point, and from them the local polynomial. Its kernels are transformed once and used in every pass of a robust
// filter.
type momentBank struct {
	win     *window
	order   int
	kernels []kernel
	bank    *bank // nil when summed directly
	good    []bool
	heavy   []float64
}

func (w *window) moments(order int) *momentBank {
	return &momentBank{win: w, order: order, kernels: w.kernels(2 * order)}
}

// regress fits the profile y, whose points have weights, into dst and returns at how many points too little weight lay in the
// window, so that the mean line had to run straight across.
func (m *momentBank) regress(dst, y, weight []float64) (crossed int) {
	n := len(y)
	if m.good == nil {
		m.good, m.heavy = make([]bool, n), make([]float64, n)
	}
	good, heavy := m.good, m.heavy
	// Weights and heights share a transform, whose rounding mixes them a little: both are brought to the size of 1.
	size := highest(y)
	for i, v := range y {
		heavy[i] = 0
		if v != 0 {
			heavy[i] = float64(v / size * weight[i])
		}
	}
	if m.win.half < directTaps/2 {
		m.direct(dst, heavy, weight, good)
	} else {
		m.blocks(dst, heavy, weight, good)
	}
	for i := range dst {
		dst[i] *= size
	}
	return bridge(dst, good)
}

// blocks lets the weights travel as the real part and the weighted heights as the imaginary part of one signal.
func (m *momentBank) blocks(dst, heavy, weight []float64, good []bool) {
	n := len(dst)
	if m.bank == nil {
		m.bank = m.win.bank("moments", 2*m.order, n, 1, func() []kernel { return m.kernels })
	}
	total := m.win.total()
	together(n, m.bank.step(), func(at, count int) {
		buf := borrow(m.bank.t.size)
		defer buf.giveBack()
		if buf.s == nil {
			buf.s, buf.t = make([][5]float64, m.bank.t.size), make([][3]float64, m.bank.t.size)
		}
		s, t := buf.s[:count], buf.t[:count]
		buf.load(weight, at-m.bank.half, heavy, at-m.bank.half)
		m.bank.t.forward(buf.x)
		for k := range m.kernels {
			out := m.bank.answer(buf.y, buf.x, k)[:count]
			for i, c := range out {
				s[i][k] = real(c)
			}
			if k <= m.order {
				for i, c := range out {
					t[i][k] = imag(c)
				}
			}
		}
		for i := range count {
			dst[at+i], good[at+i] = local(&s[i], &t[i], m.order, total)
		}
	})
}

func (m *momentBank) direct(dst, heavy, weight []float64, good []bool) {
	n := len(dst)
	total := m.win.total()
	for i := range dst {
		var s [5]float64
		var t [3]float64
		for u := -min(m.win.half, i); u <= min(m.win.half, n-1-i); u++ {
			d, h := weight[i+u], heavy[i+u]
			if d == 0 {
				continue
			}
			sign := 1.0
			for k := range m.kernels {
				g := sign * m.kernels[k].taps[max(u, -u)]
				s[k] += float64(g * d)
				if k <= m.order {
					t[k] += float64(g * h)
				}
				if u < 0 {
					sign = -sign
				}
			}
		}
		dst[i], good[i] = local(&s, &t, m.order, total)
	}
}

// bridge fills the points that are not good by straight lines between their good neighbours, level beyond the last one, and
// returns their number.
func bridge(w []float64, good []bool) (filled int) {
	last := -1
	for i := 0; i <= len(w); i++ {
		if i < len(w) && !good[i] {
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
