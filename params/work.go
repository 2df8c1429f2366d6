package params

import (
	"math"
	"sync"

	"gonum.org/v1/gonum/dsp/fourier"
)

// work is what the parameters of one evaluation share. Everything in it is computed when first asked for, once.
//
// To add something shared, add a field and a method that fills it on the first call. Take slices from floats and ints,
// which lend them from blocks that the next evaluation uses again.
type work struct {
	in *Input
	z  []float64 // the heights
	dx float64
	n  int      // number of heights
	as *Meaning // by which the row in hand is computed

	section int // points in a section, at most n
	count   int // number of whole sections

	floatArena arena[float64]
	intArena   arena[int]
	partArena  arena[part]
	pairs      arena[element]
	keys       arena[uint64]
	out        []float64 // rest of the block for per-section values, which outlive the work

	have struct {
		rq, slopes, parts, elements, core bool
		sampled                           [3]bool
	}
	rqValue    float64
	descending []float64
	extremal   extremes
	slopes     gradient
	ratio      ratioCurve
	pieces     []int // room for one bracket
	core       core
	parts      []part
	bySection  [][]part
	elements   elements    // as ISO 21920 has them
	sampled    [3]elements // as ISO 4287 has them, by what the least width is asked of

	lazy lazyWork // what the rarer families share
}

// pool keeps the blocks of works that are done with.
var pool = sync.Pool{New: func() any { return new(work) }}

// newWork returns the work on an input. It may be given back with release when nothing refers to its slices.
func newWork(in *Input) *work {
	w := pool.Get().(*work)
	w.in, w.z, w.dx, w.n, w.section = in, in.Z, in.Dx, len(in.Z), in.Section
	if w.section <= 0 || w.section > w.n {
		w.section = w.n
	}
	if w.n > 0 {
		w.count = w.n / w.section
	}
	return w
}

// release clears the work, but for its blocks, and puts it back.
func (w *work) release() {
	w.floatArena.reset()
	w.intArena.reset()
	w.partArena.reset()
	w.pairs.reset()
	w.keys.reset()
	w.lazy.reset()
	*w = work{lazy: lazyWork{scratch: w.lazy.scratch}, floatArena: w.floatArena, intArena: w.intArena, partArena: w.partArena, pairs: w.pairs, keys: w.keys}
	pool.Put(w)
}

// floats returns n zeros that live as long as the work.
func (w *work) floats(n int) []float64 { return w.floatArena.take(n) }

// ints returns n zeros that live as long as the work.
func (w *work) ints(n int) []int { return w.intArena.take(n) }

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
// defined value may carry a reason too, what the reader must know about it, and either a note.
type result struct {
	value    float64
	sections []float64
	reason   string
	note     string
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
		w.rqValue, w.have.rq = Rq(w.z), true
	}
	return w.rqValue
}

// lazyWork is the part of the shared work that only the rarer families need: each field is filled by the method beside
// which it is used, once.
type lazyWork struct {
	spectrum    Spectrum
	correlation []float64 // its first lags, or all
	scaled      []float64

	pruned     []Extreme
	havePruned bool

	probability       *Probability
	probabilityReason string

	excursions excursions // of the section looked at last

	motifs map[[2]float64]*motifs // by the two limits

	dominance *dominance
	wave      *work // on the profile of the dominating wave

	scratch
}

// scratch is what a work keeps for the next one: blocks, and transforms with their tables.
type scratch struct {
	coefficients arena[complex128]
	extremes     arena[Extreme]
	links        arena[link]
	near         arena[neighbours]
	plans        [2]*fourier.FFT
	older        int // of the plans, the one to be replaced
}

// reset takes back the blocks.
func (s *scratch) reset() {
	s.coefficients.reset()
	s.extremes.reset()
	s.links.reset()
	s.near.reset()
}

// plan returns the transform of length n. A profile needs two lengths, its own and that of the autocorrelation.
func (s *scratch) plan(n int) *fourier.FFT {
	for _, p := range s.plans {
		if p != nil && p.Len() == n {
			return p
		}
	}
	at := s.older
	s.older = 1 - at
	if s.plans[at] == nil {
		s.plans[at] = new(fourier.FFT)
	}
	s.plans[at].Reset(n)
	return s.plans[at]
}

// An arena lends slices and takes them all back at once, so that evaluating many profiles in turn allocates little.
type arena[T any] struct {
	block []T
	used  int // of the block
	dirty int // the block is zero from here on
	asked int // items lent since the last reset
	want  int // items lent in the round before, where that was more than the block had
}

// take returns n zero values, with no room to grow.
func (a *arena[T]) take(n int) []T {
	a.asked += n
	if a.used+n > len(a.block) {
		a.block, a.used, a.dirty = make([]T, max(n, 2*len(a.block), a.want, 64)), 0, 0
	}
	s := a.block[a.used : a.used+n : a.used+n]
	a.used += n
	clear(s[:min(n, max(0, a.dirty-(a.used-n)))])
	a.dirty = max(a.dirty, a.used)
	return s
}

// reset takes all slices back. What did not fit into one block gets a new one when the next round asks first: who evaluates
// a single long profile never pays for it.
func (a *arena[T]) reset() {
	if a.asked > len(a.block) {
		a.block, a.dirty, a.want = nil, 0, a.asked
	}
	a.used, a.asked = 0, 0
}
