package filter

import (
	"math/bits"
	"sync"

	"gonum.org/v1/gonum/dsp/fourier"
)

// A kernel holds the weights at the distances 0, 1, ... samples. An odd kernel has the opposite sign on the left.
type kernel struct {
	taps []float64
	odd  bool
}

// directTaps is the kernel half width up to which the plain sum is the faster way (measured on amd64).
const directTaps = 80

// correlate computes Σ k(u)·x[i+u] for lo <= i < hi into dst[0:hi-lo], with x zero outside. It sums directly where kernels are
// short and goes through the Fourier transform, block by block, where they are long; both agree to rounding.
func correlate(dst, x []float64, lo, hi int, k kernel) {
	if len(k.taps) <= directTaps {
		correlateDirect(dst, x, lo, hi, k)
		return
	}
	b := newBank(hi-lo, k)
	b.slide(dst, x, lo, hi)
}

func correlateDirect(dst, x []float64, lo, hi int, k kernel) {
	n := len(x)
	half := len(k.taps) - 1
	for i := lo; i < hi; i++ {
		var s float64
		if !k.odd {
			s = float64(k.taps[0] * x[i])
		}
		both := min(half, i, n-1-i)
		if k.odd {
			for u := 1; u <= both; u++ {
				s += float64(k.taps[u] * (x[i+u] - x[i-u]))
			}
		} else {
			left, right := x[i-both:i+1], x[i:i+both+1]
			taps := k.taps[:both+1]
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
	half, size int
	spectra    [][]float64 // real part of an even kernel, imaginary part of an odd one, each divided by size
	odd        []bool
}

func newBank(n int, kernels ...kernel) *bank {
	b := &bank{half: len(kernels[0].taps) - 1}
	b.size = blockSize(n, b.half)
	p := borrow(b.size)
	defer p.giveBack()
	for _, k := range kernels {
		clear(p.in)
		for u, v := range k.taps {
			p.in[u] = v
			if u > 0 {
				p.in[b.size-u] = v
				if k.odd {
					p.in[b.size-u] = -v
				}
			}
		}
		p.fft.Coefficients(p.spec, p.in)
		spectrum := make([]float64, len(p.spec))
		for i, c := range p.spec {
			if k.odd {
				spectrum[i] = imag(c) / float64(b.size)
			} else {
				spectrum[i] = real(c) / float64(b.size)
			}
		}
		b.spectra = append(b.spectra, spectrum)
		b.odd = append(b.odd, k.odd)
	}
	return b
}

// slide applies the first kernel.
func (b *bank) slide(dst, x []float64, lo, hi int) {
	p := borrow(b.size)
	defer p.giveBack()
	step := b.size - 2*b.half
	for at := lo; at < hi; at += step {
		p.load(x, at-b.half)
		p.fft.Coefficients(p.spec, p.in)
		out := b.answer(p, p.spec, 0)
		copy(dst[at-lo:], out[:min(step, hi-at)])
	}
}

// answer multiplies a block's spectrum by kernel k and transforms back; the result lives until the next answer.
func (b *bank) answer(p *plan, spec []complex128, k int) []float64 {
	s := b.spectra[k]
	prod := p.prod[:len(s)]
	spec = spec[:len(s)]
	if b.odd[k] { // times the conjugate of an imaginary number: this is a correlation
		for i, v := range s {
			c := spec[i]
			prod[i] = complex(float64(imag(c)*v), -float64(real(c)*v))
		}
	} else {
		for i, v := range s {
			c := spec[i]
			prod[i] = complex(float64(real(c)*v), float64(imag(c)*v))
		}
	}
	p.fft.Sequence(p.out, prod)
	return p.out[b.half : b.size-b.half]
}

// blockSize returns the transform length that costs least for n results of a kernel of the given half width.
func blockSize(n, half int) int {
	best, bestCost := 0, 0.0
	limit := max(1<<16, 8*half)
	for _, f := range [...]int{1, 3, 5, 9, 15} {
		for size := f << 4; ; size <<= 1 {
			step := size - 2*half
			if step <= 0 {
				continue
			}
			blocks := (n + step - 1) / step
			cost := float64(blocks+1) * float64(size) * float64(bits.Len(uint(size))+2)
			if best == 0 || cost < bestCost {
				best, bestCost = size, cost
			}
			if blocks == 1 || size > limit {
				break
			}
		}
	}
	return best
}

// A plan is a Fourier transform of one size with its buffers.
type plan struct {
	fft        *fourier.FFT
	in, out    []float64
	spec, prod []complex128
	more       []complex128 // for a second signal
}

// plans holds idle plans by size, so that repeated evaluations reuse them and goroutines do not share them.
var plans sync.Map // int -> *sync.Pool

func borrow(size int) *plan {
	pool, ok := plans.Load(size)
	if !ok {
		pool, _ = plans.LoadOrStore(size, &sync.Pool{New: func() any {
			return &plan{
				fft: fourier.NewFFT(size),
				in:  make([]float64, size), out: make([]float64, size),
				spec: make([]complex128, size/2+1), prod: make([]complex128, size/2+1), more: make([]complex128, size/2+1),
			}
		}})
	}
	return pool.(*sync.Pool).Get().(*plan)
}

func (p *plan) giveBack() {
	if pool, ok := plans.Load(len(p.in)); ok {
		pool.(*sync.Pool).Put(p)
	}
}

// load copies x[at:at+size] into the input, zero where x has no such point.
func (p *plan) load(x []float64, at int) {
	from, to := max(at, 0), min(at+len(p.in), len(x))
	if from >= to {
		clear(p.in)
		return
	}
	clear(p.in[:from-at])
	n := copy(p.in[from-at:], x[from:to])
	clear(p.in[from-at+n:])
}
