package params

import "gonum.org/v1/gonum/dsp/fourier"

// lazyWork is the part of the shared work that only the rarer families need: each field is filled by the method beside
// which it is used, once.
type lazyWork struct {
	spectrum    Spectrum
	correlation []float64

	pruned     []Extreme
	havePruned bool

	probability       *Probability
	probabilityReason string

	excursions excursions // of the section looked at last

	motifs map[[2]float64]*Motifs // by the two limits

	dominance *Dominance
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
