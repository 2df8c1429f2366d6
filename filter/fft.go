package filter

import (
	"math"
	"sync"
)

// A transform is the Fourier transform of one size, 4^a times 1, 2, 3 or 6, of complex signals.
//
// It is written for convolutions: forward leaves the coefficients in the order in which its stages drop them, and backward takes
// them in that order, so that nothing is ever sorted. Coefficients of the same index belong to the same frequency in both
// signals, which is all that a product needs. Two real signals travel as real and imaginary part of one complex signal; a real kernel
// keeps them apart. It is several times faster than a transform of a general package, which tests compare it with.
type transform struct {
	size   int
	stages []stage          // down to runs of 16
	last   [3][4]complex128 // the twiddles of the two stages of radix 4 that are left then
	turn   float64          // sin 120°
}

// A stage splits runs of length radix·len(w[0]) into radix runs. w[k][j] is e^(-2πi·j·(k+1)/(radix·q)).
type stage struct {
	radix int
	w     [3][]complex128
}

var transforms sync.Map // int -> *transform

const leastSize = 32

// nextSize is the size of a transform that follows a size: 32, 48, 64, 96, 128 ...
func nextSize(size int) int {
	if size&(size-1) == 0 {
		return size + size/2
	}
	return size + size/3
}

func transformOf(size int) *transform {
	if t, ok := transforms.Load(size); ok {
		return t.(*transform)
	}
	t := &transform{size: size, turn: math.Sqrt(3) / 2}
	for run := size; run > 16; {
		radix := 4
		switch {
		case run%3 == 0:
			radix = 3
		case !powerOf4(run):
			radix = 2
		}
		s := stage{radix: radix}
		q := run / radix
		for k := range radix - 1 {
			s.w[k] = make([]complex128, q)
			for j := range q {
				s.w[k][j] = unit(j*(k+1), run)
			}
		}
		t.stages = append(t.stages, s)
		run = q
	}
	for k := range t.last {
		for j := range t.last[k] {
			t.last[k][j] = unit(j*(k+1), 16)
		}
	}
	kept, _ := transforms.LoadOrStore(size, t)
	return kept.(*transform)
}

// unit returns e^(-2πi·j/n).
func unit(j, n int) complex128 {
	sin, cos := sincos(2 * math.Pi * float64(j%n) / float64(n))
	return complex(cos, -sin)
}

func powerOf4(n int) bool {
	for n%4 == 0 {
		n /= 4
	}
	return n == 1
}

// forward transforms x in place: X[f] = Σ x[n]·e^(-2πi·f·n/size), in the order of the stages.
func (t *transform) forward(x []complex128) {
	run := t.size
	for _, s := range t.stages {
		q := run / s.radix
		for at := 0; at < t.size; at += run {
			switch s.radix {
			case 4:
				split4(x[at:at+q:at+q], x[at+q:at+2*q], x[at+2*q:at+3*q], x[at+3*q:at+run], s.w[0], s.w[1], s.w[2])
			case 3:
				t.split3(x[at:at+q:at+q], x[at+q:at+2*q], x[at+2*q:at+run], s.w[0], s.w[1])
			default:
				split2(x[at:at+q:at+q], x[at+q:at+run], s.w[0])
			}
		}
		run = q
	}
	split16(x, &t.last)
}

// backward undoes forward, but for the factor size.
func (t *transform) backward(x []complex128) {
	join16(x, &t.last)
	q := 16
	for i := len(t.stages) - 1; i >= 0; i-- {
		s := t.stages[i]
		run := q * s.radix
		for at := 0; at < t.size; at += run {
			switch s.radix {
			case 4:
				join4(x[at:at+q:at+q], x[at+q:at+2*q], x[at+2*q:at+3*q], x[at+3*q:at+run], s.w[0], s.w[1], s.w[2])
			case 3:
				t.join3(x[at:at+q:at+q], x[at+q:at+2*q], x[at+2*q:at+run], s.w[0], s.w[1])
			default:
				join2(x[at:at+q:at+q], x[at+q:at+run], s.w[0])
			}
		}
		q = run
	}
}

func times(a, w complex128) complex128 {
	return complex(float64(real(a)*real(w))-float64(imag(a)*imag(w)), float64(real(a)*imag(w))+float64(imag(a)*real(w)))
}

// timesConj returns a times the conjugate of w.
func timesConj(a, w complex128) complex128 {
	return complex(float64(real(a)*real(w))+float64(imag(a)*imag(w)), float64(imag(a)*real(w))-float64(real(a)*imag(w)))
}

// Each split works on the parts of one run; each join undoes it. Slices are cut to one length so that the checks of their
// bounds fall away.

func split2(a, b, w []complex128) {
	b, w = b[:len(a)], w[:len(a)]
	for j, p := range a {
		q := b[j]
		a[j], b[j] = p+q, times(p-q, w[j])
	}
}

func join2(a, b, w []complex128) {
	b, w = b[:len(a)], w[:len(a)]
	for j, p := range a {
		q := timesConj(b[j], w[j])
		a[j], b[j] = p+q, p-q
	}
}

func (t *transform) split3(a, b, c, w1, w2 []complex128) {
	b, c, w1, w2 = b[:len(a)], c[:len(a)], w1[:len(a)], w2[:len(a)]
	for j, p := range a {
		s, d := b[j]+c[j], b[j]-c[j]
		m := complex(real(p)-float64(0.5*real(s)), imag(p)-float64(0.5*imag(s)))
		r := complex(float64(t.turn*imag(d)), -float64(t.turn*real(d))) // -i·sin120°·d
		a[j], b[j], c[j] = p+s, times(m+r, w1[j]), times(m-r, w2[j])
	}
}

func (t *transform) join3(a, b, c, w1, w2 []complex128) {
	b, c, w1, w2 = b[:len(a)], c[:len(a)], w1[:len(a)], w2[:len(a)]
	for j, p := range a {
		x, y := timesConj(b[j], w1[j]), timesConj(c[j], w2[j])
		s, d := x+y, x-y
		m := complex(real(p)-float64(0.5*real(s)), imag(p)-float64(0.5*imag(s)))
		r := complex(-float64(t.turn*imag(d)), float64(t.turn*real(d))) // i·sin120°·d
		a[j], b[j], c[j] = p+s, m+r, m-r
	}
}

func split4(a, b, c, d, w1, w2, w3 []complex128) {
	b, c, d, w1, w2, w3 = b[:len(a)], c[:len(a)], d[:len(a)], w1[:len(a)], w2[:len(a)], w3[:len(a)]
	for j, p := range a {
		q, r, s := b[j], c[j], d[j]
		t0, t1, t2, t3 := p+r, p-r, q+s, q-s
		t3 = complex(imag(t3), -real(t3)) // -i·t3
		a[j], b[j], c[j], d[j] = t0+t2, times(t1+t3, w1[j]), times(t0-t2, w2[j]), times(t1-t3, w3[j])
	}
}

func join4(a, b, c, d, w1, w2, w3 []complex128) {
	b, c, d, w1, w2, w3 = b[:len(a)], c[:len(a)], d[:len(a)], w1[:len(a)], w2[:len(a)], w3[:len(a)]
	for j, p := range a {
		q, r, s := timesConj(b[j], w1[j]), timesConj(c[j], w2[j]), timesConj(d[j], w3[j])
		t0, t1, t2, t3 := p+r, p-r, q+s, q-s
		t3 = complex(-imag(t3), real(t3)) // i·t3
		a[j], b[j], c[j], d[j] = t0+t2, t1+t3, t0-t2, t1-t3
	}
}

// split16 is the two last stages in one: runs of 16, then of 4, whose twiddles are 1.
func split16(x []complex128, w *[3][4]complex128) {
	for ; len(x) >= 16; x = x[16:] {
		v := (*[16]complex128)(x)
		for j := range 4 {
			p, q, r, s := v[j], v[j+4], v[j+8], v[j+12]
			t0, t1, t2, t3 := p+r, p-r, q+s, q-s
			t3 = complex(imag(t3), -real(t3)) // -i·t3
			v[j], v[j+4], v[j+8], v[j+12] = t0+t2, times(t1+t3, w[0][j]), times(t0-t2, w[1][j]), times(t1-t3, w[2][j])
		}
		for j := 0; j < 16; j += 4 {
			p, q, r, s := v[j], v[j+1], v[j+2], v[j+3]
			t0, t1, t2, t3 := p+r, p-r, q+s, q-s
			t3 = complex(imag(t3), -real(t3)) // -i·t3
			v[j], v[j+1], v[j+2], v[j+3] = t0+t2, t1+t3, t0-t2, t1-t3
		}
	}
}

func join16(x []complex128, w *[3][4]complex128) {
	for ; len(x) >= 16; x = x[16:] {
		v := (*[16]complex128)(x)
		for j := 0; j < 16; j += 4 {
			p, q, r, s := v[j], v[j+1], v[j+2], v[j+3]
			t0, t1, t2, t3 := p+r, p-r, q+s, q-s
			t3 = complex(-imag(t3), real(t3)) // i·t3
			v[j], v[j+1], v[j+2], v[j+3] = t0+t2, t1+t3, t0-t2, t1-t3
		}
		for j := range 4 {
			p, q, r, s := v[j], timesConj(v[j+4], w[0][j]), timesConj(v[j+8], w[1][j]), timesConj(v[j+12], w[2][j])
			t0, t1, t2, t3 := p+r, p-r, q+s, q-s
			t3 = complex(-imag(t3), real(t3)) // i·t3
			v[j], v[j+4], v[j+8], v[j+12] = t0+t2, t1+t3, t0-t2, t1-t3
		}
	}
}
