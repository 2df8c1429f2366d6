package filter

// A Filter splits a profile into a long-wave and a short-wave part.
//
// Apply computes the long-wave part (the mean line) of the heights z, which stand at equal spacing dx, into dst and
// returns it. dst may be nil or z itself; otherwise it must be as long as z, or Apply panics. The short-wave part is
// always formed as z - w by the caller, never filtered separately. z must hold finite numbers only.
//
// Transmission returns the share of the amplitude of an endless sine of the given wavelength that stays in the
// long-wave part. It is NaN for a filter that has none, because it does not act on sines one by one.
//
// The one rule on units: cut-off, spacing and wavelength share one length unit.
type Filter interface {
	Apply(dst, z []float64, dx float64) ([]float64, error)
	Transmission(wavelength float64) float64
}

// A Weighted filter can give every point its own weight. A point of weight zero takes no part, and its height may be
// anything, NaN too; the long-wave part is computed there as well, from its neighbours.
type Weighted interface {
	Filter
	ApplyWeighted(dst, z, weight []float64, dx float64) ([]float64, error)
}

// A Shifting filter moves waves along the profile, so that the sizes of the long and the short part do not sum to that of a wave.
// Response returns what stays of a sine in the short waves: the share of its size, and the lead of its phase in radians.
type Shifting interface {
	Filter
	Response(wavelength float64) (size, lead float64)
}

// A Trimmer is a Filter that cannot vouch for all of its output: Trim says how many samples at each end of n to cut
// away. Apply still returns all n.
type Trimmer interface {
	Filter
	Trim(n int, dx float64) (head, tail int)
}
