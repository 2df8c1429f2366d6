package filter

import (
	"math/bits"
	"runtime"
	"slices"
	"sync"
	"sync/atomic"
)

// A kernel holds the weights at the distances 0, 1, ... samples. An odd kernel has the opposite sign on the left.
type kernel struct {
	taps []float64
	odd  bool
}

// directTaps is the length of kernel up to which the plain sum is the faster way (measured on amd64).
const directTaps = 48

// correlateDirect computes Σ k(u)·x[i+u] for lo <= i < hi into dst[0:hi-lo], with x zero outside.
func correlateDirect(dst, x []float64, lo, hi int, k kernel) {
	n := len(x)
	half := len(k.taps) - 1
	if a, b := max(lo, half), min(hi, n-half); a < b && !k.odd { // tap by tap where the whole kernel lies inside
		inside := dst[a-lo : b-lo]
		for i, v := range x[a:b] {
			inside[i] = float64(k.taps[0] * v)
		}
		for u := 1; u <= half; u++ {
			tap, left, right := k.taps[u], x[a-u:][:len(inside)], x[a+u:][:len(inside)]
			for i := range inside {
				inside[i] += float64(tap * (right[i] + left[i]))
			}
		}
		correlateDirect(dst[:a-lo], x, lo, a, k)
		lo, dst = b, dst[b-lo:]
	}
	for i := lo; i < hi; i++ {
		var s float64
		if !k.odd {
			s = float64(k.taps[0] * x[i])
		}
		both := min(half, i, n-1-i)
		left, right := x[i-both:i+1], x[i:i+both+1]
		taps := k.taps[:both+1]
		if k.odd {
			for u := 1; u < len(taps); u++ {
				s += float64(taps[u] * (right[u] - left[len(taps)-1-u]))
			}
		} else {
			for u := 1; u < len(taps); u++ {
				s += float64(taps[u] * (right[u] + left[len(taps)-1-u]))
			}
		}
		for u := both + 1; u <= half && i+u < n; u++ {
			s += float64(k.taps[u] * x[i+u])
		}
		for u := both + 1; u <= half && i-u >= 0; u++ {
			if k.odd {
				s -= float64(k.taps[u] * x[i-u])
			} else {
				s += float64(k.taps[u] * x[i-u])
			}
		}
		dst[i-lo] = s
	}
}

// A bank is a set of kernels of one length, transformed for blocks of one size (overlap-save).
type bank struct {
	half    int
	t       *transform
	spectra [][]float64 // real part of an even kernel, imaginary part of an odd one, each divided by size
	odd     []bool
}

func newBank(size int, kernels ...kernel) *bank {
	b := &bank{half: len(kernels[0].taps) - 1, t: transformOf(size)}
	b.spectra, b.odd = make([][]float64, len(kernels)), make([]bool, len(kernels))
	buf := borrow(b.t.size)
	defer buf.giveBack()
	// Two kernels of one parity share a transform: the spectrum of an even one is real, of an odd one imaginary.
	for k := range kernels {
		if b.spectra[k] != nil {
			continue
		}
		other := k
		for j := k + 1; j < len(kernels) && other == k; j++ {
			if kernels[j].odd == kernels[k].odd {
				other = j
			}
		}
		b.pair(buf.x, kernels, k, other)
	}
	return b
}

func (b *bank) pair(x []complex128, kernels []kernel, k, other int) {
	size, odd := b.t.size, kernels[k].odd
	clear(x)
	for u, v := range kernels[k].taps {
		c := complex(v, kernels[other].taps[u])
		x[u] = c
		if u > 0 {
			x[size-u] = c
			if odd {
				x[size-u] = -c
			}
		}
	}
	b.t.forward(x)
	one, two := make([]float64, size), make([]float64, size)
	for i, c := range x {
		if odd {
			one[i], two[i] = imag(c)/float64(size), -real(c)/float64(size)
		} else {
			one[i], two[i] = real(c)/float64(size), imag(c)/float64(size)
		}
	}
	b.spectra[other], b.spectra[k] = two, one
	b.odd[other], b.odd[k] = odd, odd
}

func (b *bank) step() int { return b.t.size - 2*b.half }

// slide applies the first kernel, two blocks at a time.
func (b *bank) slide(dst, x []float64, lo, hi int) {
	step := b.step()
	together(hi-lo, 2*step, func(at, _ int) {
		buf := borrow(b.t.size)
		defer buf.giveBack()
		at += lo
		buf.load(x, at-b.half, x, at+step-b.half)
		b.t.forward(buf.x)
		out := b.answer(buf.x, buf.x, 0)
		for i := range min(step, hi-at) {
			dst[at-lo+i] = real(out[i])
		}
		for i := range min(step, hi-at-step) {
			dst[at+step-lo+i] = imag(out[i])
		}
	})
}

// manyPoints is the length from which a profile is worth the cores.
const manyPoints = 1 << 15

// together calls work for the blocks of step points that n points are made of, with the first point of the block and the number of points
// in it: those of a long profile on all cores, in any order, so that a block must not read what another one writes.
func together(n, step int, work func(at, count int)) {
	cores := runtime.GOMAXPROCS(0)
	if n < manyPoints || n <= step || cores == 1 {
		for at := 0; at < n; at += step {
			work(at, min(step, n-at))
		}
		return
	}
	var next atomic.Int64
	blocks := func() {
		for {
			at := int(next.Add(1)-1) * step
			if at >= n {
				return
			}
			work(at, min(step, n-at))
		}
	}
	var wait sync.WaitGroup
	for range cores - 1 {
		wait.Go(blocks)
	}
	blocks()
	wait.Wait()
}

// answer multiplies a spectrum by that of kernel k, transforms back into y and returns the part of it that is whole.
func (b *bank) answer(y, spectrum []complex128, k int) []complex128 {
	s := b.spectra[k]
	y, spectrum = y[:len(s)], spectrum[:len(s)]
	if b.odd[k] { // times the conjugate of an imaginary number: this is a correlation
		for i, v := range s {
			c := spectrum[i]
			y[i] = complex(float64(imag(c)*v), -float64(real(c)*v))
		}
	} else {
		for i, v := range s {
			c := spectrum[i]
			y[i] = complex(float64(real(c)*v), float64(imag(c)*v))
		}
	}
	b.t.backward(y)
	return y[b.half : len(y)-b.half]
}

// blockSize returns the transform that costs least for n results of a kernel of the given half width, when each pass gives so
// many blocks.
func blockSize(n, blocks, half int) int {
	best, bestCost := 0, 0.0
	// A block that leaves the cache costs more than its arithmetic, but one that hardly holds the kernel costs most.
	most := max(1<<16, 8*half)
	for size := leastSize; ; size = nextSize(size) {
		if step := size - 2*half; step > 0 && (size <= most || best == 0) {
			passes := (n + step*blocks - 1) / (step * blocks)
			cost := float64(2*passes+1) * float64(size) * float64(bits.Len(uint(size))+1)
			if best == 0 || cost < bestCost {
				best, bestCost = size, cost
			}
		}
		if size >= n+2*half {
			return best
		}
	}
}

// A buffer is room for transforms of one size, and for the moments at its points.
type buffer struct {
	x, y []complex128
	s    [][5]float64
	t    [][3]float64
}

// buffers holds idle buffers by size, so that repeated evaluations reuse them and goroutines do not share them.
var buffers sync.Map // int -> *sync.Pool

func borrow(size int) *buffer {
	pool, ok := buffers.Load(size)
	if !ok {
		pool, _ = buffers.LoadOrStore(size, &sync.Pool{New: func() any {
			return &buffer{x: make([]complex128, size), y: make([]complex128, size)}
		}})
	}
	return pool.(*sync.Pool).Get().(*buffer)
}

// moments returns the buffer's room for moments.
func (b *buffer) moments() ([][5]float64, [][3]float64) {
	if b.s == nil {
		b.s, b.t = make([][5]float64, len(b.x)), make([][3]float64, len(b.x))
	}
	return b.s, b.t
}

// rooms are slices to work in, lent to the next evaluation.
var rooms = sync.Pool{New: func() any { return new([]float64) }}

// lend returns n numbers to work in, which hold anything, until giveBack.
func lend(n int) *[]float64 {
	room := rooms.Get().(*[]float64)
	*room = slices.Grow((*room)[:0], n)[:n]
	return room
}

func giveBack(room *[]float64) { rooms.Put(room) }

func (b *buffer) giveBack() {
	if pool, ok := buffers.Load(len(b.x)); ok {
		pool.(*sync.Pool).Put(b)
	}
}

// load makes of p from index i on the real part, of q from index j on the imaginary part, zero where there is no such point.
func (b *buffer) load(p []float64, i int, q []float64, j int) {
	clear(b.x)
	from := max(0, -i)
	if to := min(len(b.x), len(p)-i); from < to {
		x := b.x[from:to]
		for k, v := range p[from+i : to+i] {
			x[k] = complex(v, 0)
		}
	}
	from = max(0, -j)
	if to := min(len(b.x), len(q)-j); from < to {
		x := b.x[from:to]
		for k, v := range q[from+j : to+j] {
			x[k] = complex(real(x[k]), v)
		}
	}
}
