package filter

import "fmt"

// A Band is what lies between two cut-offs of a profile: Short removes the shortest waves, Long the longest.
//
//	band = s - l,  s = Short's long-wave part of z,  l = Long's long-wave part of s
//	T(λ) = T_short(λ)·(1 - T_long(λ))
//
// With λs and λc it is the roughness profile R, with λc and λf the waviness profile W, with λs alone the primary profile P. nil
// leaves a side open: without λf, P = W + R exactly.
//
//   - Source: ISO 4287:1997, 3.1.1 and 3.1.5 to 3.1.7 (excerpt through JIS B 0601): the three filters are alike but for the
//     cut-off.
type Band struct {
	Short, Long Filter
}

// Apply returns the heights within the band.
func (b Band) Apply(dst, z []float64, dx float64) ([]float64, error) {
	if err := checkHeights(z, nil); err != nil {
		return nil, err
	}
	dst = target(dst, z)
	copy(dst, z)
	if b.Short != nil {
		if _, err := b.Short.Apply(dst, dst, dx); err != nil {
			return nil, fmt.Errorf("short-wave limit: %w", err)
		}
	}
	if b.Long != nil {
		w, err := b.Long.Apply(nil, dst, dx)
		if err != nil {
			return nil, fmt.Errorf("long-wave limit: %w", err)
		}
		for i, v := range w {
			dst[i] -= v
		}
	}
	return dst, nil
}

// Transmission returns the share of a sine that stays within the band; NaN if one of the filters has none. Where a filter
// shifts waves, such as [TwoRC], the share is not what this product says.
func (b Band) Transmission(wavelength float64) float64 {
	t := 1.0
	if b.Short != nil {
		t = b.Short.Transmission(wavelength)
	}
	if b.Long != nil {
		t *= 1 - b.Long.Transmission(wavelength)
	}
	return t
}

// An Operation is one step of making a profile.
type Operation string

// The steps.
const (
	ShortWaves Operation = "remove the short waves (S-filter, λs)"
	TakeForm   Operation = "remove the form (F-operation)"
	LongWaves  Operation = "remove the long waves (L-filter, λc)"
	WaveBand   Operation = "remove the form or the waves above the band (λf), keep what λc passes"
)

// A Sequence says in which order an edition makes its profiles, and how that is known.
type Sequence struct {
	Edition string
	P, R, W []Operation
	Basis   string
	Source  string
}

// Sequences returns the order of the steps in each edition. Swapping S-filter and form makes no difference that can be seen, but a
// long-wave filter must not see the form: at a cut-off of 0.8 mm, a radius of 10 mm leaves 1.12 µm of offset.
func Sequences() []Sequence {
	s, f, l, w := ShortWaves, TakeForm, LongWaves, WaveBand
	return []Sequence{
		{"iso-21920", []Operation{s, f}, []Operation{s, f, l}, []Operation{s, f, w}, "excerpt", "ISO 21920-2:2021 (order S, F, L from the vocabulary; exact clause not seen)"},
		{"iso-4287", []Operation{s, f}, []Operation{s, f, l}, []Operation{s, f, w}, "memory", "ISO 4287:1997, 3.1: total profile, λs, primary profile, λc and λf; form by least squares"},
		{"iso-12085", []Operation{s, f}, []Operation{s, f}, []Operation{s, f}, "memory", "ISO 12085:1996: no λc, motifs are found on the primary profile"},
		{"asme-b46.1", []Operation{s, f}, []Operation{s, f, l}, []Operation{s, f, w}, "memory", "ASME B46.1"},
		{"jis-b0601-2013", []Operation{s, f}, []Operation{s, f, l}, []Operation{s, f, w}, "excerpt", "JIS B 0601:2013, as ISO 4287"},
		{"jis-b0601-1994", []Operation{f}, []Operation{f, l}, []Operation{f, w}, "excerpt", "JIS B 0601:1994: no short-wave filter in the definition"},
		{"jis-b0601-1982", []Operation{f}, []Operation{f, l}, []Operation{f}, "memory", "JIS B 0601:1982: only the centre-line mean is filtered"},
	}
}
