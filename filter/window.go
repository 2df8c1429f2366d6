package filter

import (
	"fmt"
	"math"
	"sync"
)

// alpha is √(ln2/π) = 0.4697..., the constant of the Gaussian weighting function that leaves half of a sine at the cut-off
// (ISO 16610-21; ISO 11562:1996; printed in NIST papers on the filter). alpha2 is that of the local parabola, the root
// of e^(-t)·(1+t) = 1/2 with t = π·alpha2² (ISO 16610-31; derived).
const (
	alpha  = 0.469718639349825667
	alpha2 = 0.730913428094676
)

// A window is the sampled bell laid around each point: heights at the distances 0, 1, ... half samples, with sums of its
// moments. Distances are measured in units of half, so that the moments keep a like size.
type window struct {
	m, a float64
	half int
	g    []float64
	sums [5][]float64 // sums[k][j] = Σ g(u)·u^k for u = 0..j

	lock  sync.Mutex
	banks map[bankKey]*bank // its kernels as transformed so far
}

type bankKey struct {
	of    string
	order int
	size  int
}

// recent keeps the last windows, first the newest, since most evaluations repeat the cut-off of the one before.
var recent struct {
	sync.Mutex
	windows []*window
}

const (
	keptWindows = 8
	longestKept = 1 << 16
)

// newWindow samples the bell for a cut-off of m samples. No more than reach distances are kept: beyond there are no points.
func newWindow(m, support float64, order, reach int) *window {
	a := alpha
	if order == 2 {
		a = alpha2
	}
	half := min(windowHalf(m, support), max(reach, 0))
	recent.Lock()
	defer recent.Unlock()
	for i, w := range recent.windows {
		if w.m == m && w.a == a && w.half == half {
			copy(recent.windows[1:i+1], recent.windows[:i])
			recent.windows[0] = w
			return w
		}
	}
	w := sampleWindow(m, a, half)
	if half > longestKept {
		return w
	}
	recent.windows = append([]*window{w}, recent.windows[:min(len(recent.windows), keptWindows-1)]...)
	return w
}

// windowHalf is the half width of the window in samples.
func windowHalf(m, support float64) int { return clampInt(math.Floor(float64(support*m) + 1e-9)) }

func sampleWindow(m, a float64, half int) *window {
	w := &window{m: m, a: a, half: half, g: make([]float64, half+1), banks: map[bankKey]*bank{}}
	for u := range w.g {
		q := float64(u) / (a * m)
		w.g[u] = exp(-math.Pi * float64(q*q))
	}
	for k := range w.sums {
		w.sums[k] = make([]float64, half+1)
		s := 0.0
		for u, g := range w.g {
			s += float64(g * power(w.distance(u), k))
			w.sums[k][u] = s
		}
	}
	return w
}

// bank returns kernels of the window transformed for blocks of a size.
func (w *window) bank(of string, order, size int, kernels func() []kernel) *bank {
	key := bankKey{of, order, size}
	w.lock.Lock()
	defer w.lock.Unlock()
	b := w.banks[key]
	if b == nil {
		b = newBank(key.size, kernels()...)
		w.banks[key] = b
	}
	return b
}

// slide lays the interior weights around the points lo to hi of x, zero outside. It sums directly where the window is short and
// goes through the Fourier transform, block by block, where it is long; both agree to rounding.
func (w *window) slide(dst, x []float64, lo, hi, order int) {
	if w.half < directTaps {
		correlateDirect(dst, x, lo, hi, w.interior(order))
		return
	}
	b := w.bank("interior", min(order, 2)/2, blockSize(hi-lo, 2, w.half), func() []kernel { return []kernel{w.interior(order)} })
	b.slide(dst, x, lo, hi)
}

func (w *window) distance(u int) float64 {
	return float64(u) / float64(max(w.half, 1))
}

func power(u float64, k int) float64 {
	p := 1.0
	for range k {
		p = float64(p * u)
	}
	return p
}

// moment returns the kernel g(u)·u^k.
func (w *window) moment(k int) kernel {
	taps := make([]float64, w.half+1)
	for u, g := range w.g {
		taps[u] = float64(g * power(w.distance(u), k))
	}
	return kernel{taps, k%2 == 1}
}

// kernels returns those of the moments 0 to order.
func (w *window) kernels(order int) []kernel {
	var k []kernel
	for j := range order + 1 {
		k = append(k, w.moment(j))
	}
	return k
}

// inside returns the moments Σ g(u)·u^k over the distances -left ... right.
func (w *window) inside(left, right, order int) (s [5]float64) {
	left, right = min(left, w.half), min(right, w.half)
	s[0] = w.sums[0][right] + w.sums[0][left] - w.g[0]
	for k := 1; k <= 2*order; k++ {
		if k%2 == 1 {
			s[k] = w.sums[k][right] - w.sums[k][left]
		} else {
			s[k] = w.sums[k][right] + w.sums[k][left]
		}
	}
	return s
}

// total returns the sum of all weights of the window.
func (w *window) total() float64 { return 2*w.sums[0][w.half] - w.g[0] }

// interior returns the weights that apply where the whole window lies inside, with sum 1.
func (w *window) interior(order int) kernel {
	s := w.inside(w.half, w.half, order)
	taps := make([]float64, w.half+1)
	if order < 2 {
		for u, g := range w.g {
			taps[u] = g / s[0]
		}
		return kernel{taps: taps}
	}
	det := float64(s[0]*s[4]) - float64(s[2]*s[2])
	if det <= 0 { // fewer than three points: the parabola is not defined
		for u, g := range w.g {
			taps[u] = g / s[0]
		}
		return kernel{taps: taps}
	}
	for u, g := range w.g {
		d := w.distance(u)
		taps[u] = float64(g*(s[4]-float64(s[2]*float64(d*d)))) / det
	}
	return kernel{taps: taps}
}

// Limits of a local fit: the share of the window's weight that must be present, and how far a polynomial may lever a
// value that lies beside its points.
const (
	leastWeight = 1e-6
	leastSpread = 1e-10
	mostLever   = 1e4
)

// local returns the value at distance 0 of the polynomial of the given order that fits best, from the moments s of the weights
// and t of the weighted heights, by Gram-Schmidt. Where the points do not carry the order asked for, a lower one is
// used; ok is false where hardly a point is there at all.
func local(s *[5]float64, t *[3]float64, order int, total float64) (value float64, ok bool) {
	if !(s[0] >= leastWeight*total) {
		return 0, false
	}
	value = t[0] / s[0]
	if order == 0 {
		return value, true
	}
	e := s[1] / s[0] // q1 = u - e
	d1 := s[2] - float64(e*s[1])
	if !(d1 > leastSpread*total) || float64(e*e)*s[0] > mostLever*d1 {
		return value, true
	}
	h1 := t[1] - float64(e*t[0])
	value -= float64(e * h1 / d1)
	if order == 1 {
		return value, true
	}
	c := s[2] / s[0]
	f := (s[3] - float64(e*s[2])) / d1 // q2 = u² - f·q1 - c
	d2 := s[4] - float64(f*f*d1) - float64(c*s[2])
	q := float64(f*e) - c
	if !(d2 > leastSpread*total) || float64(q*q)*s[0] > mostLever*d2 {
		return value, true
	}
	h2 := t[2] - float64(f*h1) - float64(c*t[0])
	return value + float64(q*h2/d2), true
}

// regress computes the local polynomial fit of a whole profile whose points all weigh the same.
func (w *window) regress(dst, y []float64, order int) {
	n := len(y)
	if n > 2*w.half {
		w.slide(dst[w.half:], y, w.half, n-w.half, order)
	}
	w.regressEnds(dst, y, order)
}

// regressEnds computes the points within half a window of each end. The tail is reversed, so that both ends are treated alike and
// the filter is symmetric; a transform takes head and tail as real and imaginary part.
func (w *window) regressEnds(dst, y []float64, order int) {
	n := len(y)
	edge := min(w.half, (n+1)/2)
	if edge == 0 {
		return
	}
	head := y[:min(n, edge+w.half)]
	room := lend(len(head))
	defer giveBack(room)
	tail := *room
	for i := range tail {
		tail[i] = y[n-1-i]
	}
	total := w.total()
	// fit takes the moments of the heights at a distance from both ends.
	fit := func(i int, fromHead, fromTail *[3]float64) {
		s := w.inside(i, n-1-i, order)
		dst[i], _ = local(&s, fromHead, order, total)
		dst[n-1-i], _ = local(&s, fromTail, order, total) // in the middle of an odd number both are one
	}
	if w.half < directTaps {
		var a, b [directTaps][3]float64
		var one [directTaps]float64
		for k := range order + 1 {
			moment := w.moment(k)
			for _, end := range []struct {
				z  []float64
				to *[directTaps][3]float64
			}{{head, &a}, {tail, &b}} {
				correlateDirect(one[:edge], end.z, 0, edge, moment)
				for i, v := range one[:edge] {
					end.to[i][k] = v
				}
			}
		}
		for i := range edge {
			fit(i, &a[i], &b[i])
		}
		return
	}
	b := w.bank("moments", order, blockSize(edge, 1, w.half), func() []kernel { return w.kernels(order) })
	buf := borrow(b.t.size)
	defer buf.giveBack()
	fromTail, fromHead := buf.moments()
	for at := 0; at < edge; at += b.step() {
		count := min(b.step(), edge-at)
		buf.load(head, at-b.half, tail, at-b.half)
		b.t.forward(buf.x)
		for k := range order + 1 {
			for i, c := range b.answer(buf.y, buf.x, k)[:count] {
				fromHead[i][k], fromTail[i][k] = real(c), imag(c)
			}
		}
		for i := range count {
			fit(at+i, &fromHead[i], (*[3]float64)(fromTail[i][:]))
		}
	}
}

func checkSupport(support float64) error {
	if !(support >= 0.25 && support <= 100) {
		return fmt.Errorf("filter: support %v cut-offs: %w", support, ErrOption)
	}
	return nil
}
