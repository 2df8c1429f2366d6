package filter

import "fmt"

// Gaussian is the linear Gaussian filter.
//
//	s(x) = 1/(α·λc) · exp(-π·(x/(α·λc))²)       α = √(ln2/π) = 0.4697
//	w(x) = ∫ z(x-u)·s(u) du                     as defined
//	wᵢ   = Σ aₖ·zᵢ₋ₖ,  aₖ = s(k·dx)/Σ s(k·dx)   as computed: sampled and normalised by the actual sum
//	T(λ) = 2^(-(λc/λ)²)
//
// Long kernels go through the Fourier transform in blocks, short ones are summed; both agree within 1e-12 of the range of
// the heights. Where the cut-off spans few samples the sampled kernel transmits somewhat more than T.
//
//   - Weighting function: the bell above, cut off at Support on each side.
//   - Input: heights, at least one; profiles shorter than two cut-offs are computed, but see [Advise].
//   - Half amplitude: a sine as long as Cutoff.
//   - Errors: [ErrCutoff], [ErrSpacing], [ErrSampling], [ErrOption], [ErrTooShort], [ErrNotFinite] inside a [PointError].
//   - Source: ISO 16610-21:2011 (excerpt; weighting function and constant also printed in NIST papers on ISO 11562:1996);
//     ends by ISO 16610-28:2016 (names excerpt, mathematics derived).
type Gaussian struct {
	// Cutoff is the wavelength λc at which half of the amplitude is transmitted.
	Cutoff float64
	// Support is the half width of the weights in cut-offs. 0 means 1 (greatest error of T 1.8e-7); 0.5 is common in old
	// instruments (1.2 %), 1.5 reaches machine precision. With Retain2, 0 means 2.
	Support float64
	// Ends is the treatment of the ends of an open profile.
	Ends Ends
	// Fit is the length of the stretch at each end that Linear fits its line to. 0 means half a cut-off.
	Fit float64
	// DiscardLength is what Discard cuts away at each end. 0 means half a cut-off.
	DiscardLength float64
	// Closed says that the last point is followed by the first one, as around a shaft. Ends then has no meaning.
	Closed bool
}

func (f Gaussian) order() int {
	if f.Closed {
		return 1
	}
	return f.Ends.order()
}

func (f Gaussian) support() float64 {
	return defaultSupport(f.Support, f.order())
}

// defaultSupport returns the half width in cut-offs: 1, or 2 for the wider window of the local parabola.
func defaultSupport(support float64, order int) float64 {
	switch {
	case support != 0:
		return support
	case order == 2:
		return 2
	}
	return 1
}

// Apply returns the mean line. With Discard all points are computed, those to cut away with renormalised weights.
func (f Gaussian) Apply(dst, z []float64, dx float64) ([]float64, error) {
	if err := check(z, dx, f.Cutoff); err != nil {
		return nil, err
	}
	if err := f.checkOptions(); err != nil {
		return nil, err
	}
	dst = target(dst, z)
	if f.Closed || f.Ends >= Zero && f.Ends < Discard {
		if err := f.extended(dst, z, dx); err != nil {
			return nil, err
		}
		return dst, nil
	}
	order := f.order()
	win := newWindow(f.Cutoff/dx, f.support(), order, len(z)-1)
	level(dst, z, nil, order, func(y []float64) { win.regress(dst, y, order) })
	return dst, nil
}

func (f Gaussian) checkOptions() error {
	if err := checkSupport(f.support()); err != nil {
		return err
	}
	if f.Ends > Discard {
		return fmt.Errorf("filter: end treatment %v: %w", f.Ends, ErrOption)
	}
	for _, v := range [...]float64{f.Fit, f.DiscardLength} {
		if !(v >= 0 && v <= huge) {
			return fmt.Errorf("filter: length %v: %w", v, ErrOption)
		}
	}
	return nil
}

// extended filters a profile that goes on beyond its ends, by wrapping or by invented points.
func (f Gaussian) extended(dst, z []float64, dx float64) error {
	n := len(z)
	win := newWindow(f.Cutoff/dx, f.support(), 0, mostTaps*n+1)
	if win.half > mostTaps*n {
		return fmt.Errorf("filter: kernel reaches over %d times the profile: %w", mostTaps, ErrTooShort)
	}
	var long []float64
	if f.Closed {
		long = wrap(z, win.half)
	} else {
		long = f.Ends.extend(z, win.half, min(n, f.fitted(dx)))
	}
	mean := 0.0
	for _, v := range z {
		mean += v / float64(n)
	}
	for i := range long {
		long[i] -= mean
	}
	win.slide(dst, long, win.half, win.half+n, 0)
	for i := range dst {
		dst[i] += mean
	}
	return nil
}

// fitted is how many points at each end Linear fits its line to.
func (f Gaussian) fitted(dx float64) int {
	fit := f.Fit
	if fit == 0 {
		fit = f.Cutoff / 2
	}
	return max(2, samples(fit, dx))
}

// level takes from z what the filter of the given order keeps in any case, its mean or its line, calls work with the rest and adds
// it to the result again. Long traces on a slope so lose no digits, and a straight line comes out exactly.
func level(dst, z, weight []float64, order int, work func(y []float64)) {
	mid, slope := lineOf(z, weight)
	if order == 0 {
		slope = 0
	}
	centre := middle(len(z))
	room := lend(len(z))
	defer giveBack(room)
	y := *room
	for i, v := range z {
		y[i] = 0
		if weight == nil || weight[i] > 0 {
			y[i] = v - (mid + float64(slope*(float64(i)-centre)))
		}
	}
	work(y)
	for i := range dst {
		dst[i] += mid + float64(slope*(float64(i)-centre))
	}
}

// Transmission returns the share of a sine that stays in the mean line, away from the ends.
//
// It is that of the unlimited bell; the default support departs from it by 1.8e-7 at most.
func (f Gaussian) Transmission(wavelength float64) float64 {
	if !f.Closed && f.Ends == Retain2 {
		return GaussianRegression{Cutoff: f.Cutoff, Order: 2}.Transmission(wavelength)
	}
	return gauss(f.Cutoff, wavelength)
}

// Trim says what Discard cuts away at each end; nothing for the other treatments.
func (f Gaussian) Trim(n int, dx float64) (head, tail int) {
	if f.Closed || f.Ends != Discard {
		return 0, 0
	}
	head = min(discarded(f.DiscardLength, f.Cutoff, dx), n)
	return head, min(head, n-head)
}
