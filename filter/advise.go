package filter

import "errors"

// What [Advise] tells.
var (
	ErrFewSamples   = errors.New("cut-off spans fewer than four samples, so that the sampled weights transmit too much")
	ErrShortProfile = errors.New("profile is shorter than two cut-offs, so that no point has its whole window")
	ErrNoMeanLine   = errors.New("profile is shorter than the cut-off, so that its mean line says little")
)

// Advise returns what a person should know before relying on a filter of the given cut-off on n points at spacing dx: any of
// ErrFewSamples, ErrShortProfile and ErrNoMeanLine, joined, or nil. The filters compute all of these nevertheless.
//
// Fewer than four samples: the transmission at the cut-off is 0.502 at four, 0.56 at three, 0.89 at two (derived). N
// points at spacing dx make a profile N·dx long.
func Advise(n int, dx, cutoff float64) error {
	var few, short error
	if cutoff < 4*dx*(1-1e-9) {
		few = ErrFewSamples
	}
	switch length := float64(n) * dx * (1 + 1e-9); {
	case length < cutoff:
		short = ErrNoMeanLine
	case length < 2*cutoff:
		short = ErrShortProfile
	}
	return errors.Join(few, short)
}
