package params

import (
	"math"
	"slices"
)

// work is what the parameters of one evaluation share. Everything in it is computed when first asked for, once.
//
// To add something shared, add a field and a method that fills it on the first call. Take slices from floats and ints,
// which carve them from few large blocks.
type work struct {
	in *Input
	z  []float64 // the heights
	dx float64
	n  int // number of heights

	section int // points in a section, at most n
	count   int // number of whole sections

	block    []float64 // rest of the current block of floats
	intBlock []int     // rest of the current block of ints
	out      []float64 // rest of the block for per-section values, which outlive the work

	have       struct{ rq, slopes, parts, elements, sampled, core bool }
	rqValue    float64
	descending []float64
	extremal   extremes
	slopes     gradient
	ratio      ratioCurve
	core       core
	parts      []part
	elements   elements // as ISO 21920 has them
	sampled    elements // as ISO 4287 has them

	lazy lazyWork // what the rarer families share
}

func newWork(in *Input) *work {
	w := new(work)
	w.reset(in)
	return w
}

func (w *work) reset(in *Input) {
	*w = work{in: in, z: in.Z, dx: in.Dx, n: len(in.Z), section: in.Section}
	if w.section <= 0 || w.section > w.n {
		w.section = w.n
	}
	if w.n > 0 {
		w.count = w.n / w.section
	}
}

// floats returns n zeros.
func (w *work) floats(n int) []float64 {
	if n > len(w.block) {
		w.block = make([]float64, max(n, 8*w.n, 64))
	}
	s := w.block[:n:n]
	w.block = w.block[n:]
	return s
}

// ints returns n zeros.
func (w *work) ints(n int) []int {
	if n > len(w.intBlock) {
		w.intBlock = make([]int, max(n, 2*w.n, 64))
	}
	s := w.intBlock[:n:n]
	w.intBlock = w.intBlock[n:]
	return s
}

// perSection returns a slice for one value per section, which the caller of Evaluate keeps.
func (w *work) perSection() []float64 {
	if w.count > len(w.out) {
		w.out = make([]float64, 32*w.count)
	}
	s := w.out[:w.count:w.count]
	w.out = w.out[w.count:]
	return s
}

// sectionAt returns the heights of section k.
func (w *work) sectionAt(k int) []float64 { return w.z[k*w.section : (k+1)*w.section] }

// result is what an evaluator returns: a value with its per-section values where it has them, or NaN and a reason. A
// defined value may carry a reason too: what the reader must know about it.
type result struct {
	value    float64
	sections []float64
	reason   string
}

// value returns a defined result.
func value(v float64) result { return result{value: v} }

// undefined returns a result that has no value, for the reason given.
func undefined(reason string) result { return result{value: math.NaN(), reason: reason} }

// flat tells whether the profile counts as flat: it has heights, but no shape.
func (w *work) flat() bool { return !(w.rq() > w.in.Flat) }

// rq returns the root mean square height over the evaluation length.
func (w *work) rq() float64 {
	if !w.have.rq {
		w.rqValue, w.have.rq = rms(w.z), true
	}
	return w.rqValue
}

// sorted returns all heights from the highest to the lowest.
func (w *work) sorted() []float64 {
	if w.descending == nil {
		s := w.floats(w.n)
		for i, v := range w.z {
			s[i] = -v
		}
		slices.Sort(s)
		for i, v := range s {
			s[i] = -v
		}
		w.descending = s
	}
	return w.descending
}
