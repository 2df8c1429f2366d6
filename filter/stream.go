package filter

import "errors"

// A Local filter is one whose mean line at a point follows from the heights near it, so that a profile of any length can go through it in
// blocks.
type Local interface {
	Filter
	// Reach returns how many points away a height still counts, and whether there is such a limit.
	Reach(dx float64) (points int, ok bool)
	// Keeps returns the degree of the polynomials that the mean line equals, up to the very ends: -1 for none.
	Keeps() int
}

// Reach returns the half width of the window, or what the line at each end is fitted to where that is longer. There is none around a closed
// profile.
func (f Gaussian) Reach(dx float64) (points int, ok bool) {
	half := windowHalf(f.Cutoff/dx, f.support())
	if f.Ends == Linear {
		half = max(half, f.fitted(dx))
	}
	return half, !f.Closed
}

// Keeps returns 1 or 2 where lines or parabolas are kept up to the ends, 0 where constants are, and -1 with zeros outside.
func (f Gaussian) Keeps() int {
	switch {
	case f.Closed || f.Ends == LineSymmetric:
		return 0
	case f.Ends == Zero:
		return -1
	}
	return f.order()
}

// Reach returns the half width of the window.
func (f GaussianRegression) Reach(dx float64) (points int, ok bool) {
	order, err := orderOf(f.Order, 1)
	return windowHalf(f.Cutoff/dx, defaultSupport(f.Support, order)), err == nil
}

// Keeps returns the order.
func (f GaussianRegression) Keeps() int {
	order, _ := orderOf(f.Order, 1)
	return order
}

// A Stream passes a profile of any length through a filter, in blocks. The mean line is that of Apply on the whole profile, but for rounding
// (1e-13 of the range of the heights); it needs memory for some windows of the filter, whatever the length.
type Stream struct {
	f     Local
	dx    float64
	emit  func(z, w []float64) error
	reach int
	z, w  []float64
	first int // point of the profile that z starts with
	done  int // points of z that are answered
}

// leastBlock is the least number of points that a Stream filters at once.
const leastBlock = 1 << 16

// NewStream returns a Stream. It calls emit with heights and their mean line, in order and without a gap; emit must not keep them. A filter
// that needs the whole profile gives [ErrOption].
func NewStream(f Local, dx float64, emit func(z, w []float64) error) (*Stream, error) {
	reach, ok := f.Reach(dx)
	if !ok {
		return nil, errWhole
	}
	s := &Stream{f: f, dx: dx, emit: emit, reach: reach}
	s.z = make([]float64, 0, max(leastBlock, 8*reach))
	return s, nil
}

var errWhole = &OptionError{"filter", "the filter needs the whole profile at once"}

// Write takes the next heights. Its error is that of Apply or of emit; the index of a [PointError] counts from the start of the profile.
func (s *Stream) Write(z []float64) error {
	for len(z) > 0 {
		n := min(len(z), cap(s.z)-len(s.z))
		s.z, z = append(s.z, z[:n]...), z[n:]
		if len(s.z) == cap(s.z) {
			if err := s.pass(len(s.z) - s.reach); err != nil {
				return err
			}
		}
	}
	return nil
}

// Close answers the points that are left.
func (s *Stream) Close() error {
	if len(s.z) == 0 {
		return checkHeights(nil, nil)
	}
	return s.pass(len(s.z))
}

// pass answers the points before to, and keeps those that the next ones need.
func (s *Stream) pass(to int) error {
	if cap(s.w) == 0 {
		s.w = make([]float64, cap(s.z))
	}
	w, err := s.f.Apply(s.w[:len(s.z)], s.z, s.dx)
	if p := (*PointError)(nil); errors.As(err, &p) {
		return p.at(s.first + p.Index)
	}
	if err != nil {
		return err
	}
	if err := s.emit(s.z[s.done:to], w[s.done:to]); err != nil {
		return err
	}
	from := max(0, to-s.reach)
	s.z = s.z[:copy(s.z, s.z[from:])]
	s.first, s.done = s.first+from, to-from
	return nil
}
