package params

import (
	"math"
	"slices"
)

// A Dominance is the wave that dominates a primary profile, if one does.
//
// The band limits and the threshold are an own choice, for the numbers of the works standard were not seen: of the
// amplitude spectrum under a Hann window, the largest local peak between 20 µm and a fifth of the evaluation length
// counts when it exceeds four times the median amplitude in that range.
type Dominance struct {
	Amplitudes  []float64 // under the window, corrected so that a sine in the middle of a bin shows its amplitude
	Step        float64   // of frequency from one to the next
	First, Last int       // bins of the range looked at
	Limit       float64   // four times the median amplitude
	Bin         int       // of the largest amplitude in the range; 0 when none exceeds the limit
	Wavelength  float64   // of that peak, between the bins; NaN when none
}

const (
	dominantShortest = 20.0 // µm
	dominantPeriods  = 5.0  // in the evaluation length, at least
	dominantRatio    = 4.0  // to the median amplitude
)

// FindDominance looks for the dominating wave of the heights z of a primary profile, at the spacing dx in µm. The
// wavelength is read between the bins, from the largest amplitude and the larger of its neighbours.
func FindDominance(z []float64, dx float64) *Dominance {
	n := len(z)
	d := &Dominance{Wavelength: math.NaN()}
	if n < 2*dominantPeriods {
		return d
	}
	windowed := detrended(z)
	for i := range windowed {
		windowed[i] *= 1 - math.Cos(2*math.Pi*(float64(i)+0.5)/float64(n)) // Hann, of mean 1
	}
	s := NewSpectrum(windowed, dx)
	d.Amplitudes, d.Step = s.Amplitude, s.Step
	d.First = int(math.Ceil(dominantPeriods - 1e-9))
	d.Last = int(min(float64(len(s.Amplitude)-1), math.Floor(1/(dominantShortest*s.Step)+1e-9)))
	if d.Last-d.First < 4 {
		return d
	}
	in := s.Amplitude[d.First : d.Last+1]
	ranked := append([]float64(nil), in...)
	slices.Sort(ranked)
	d.Limit = dominantRatio * (ranked[(len(ranked)-1)/2] + ranked[len(ranked)/2]) / 2
	k := 0
	for i := d.First; i <= d.Last; i++ {
		a := s.Amplitude[i]
		isPeak := a >= s.Amplitude[i-1] && (i+1 == len(s.Amplitude) || a >= s.Amplitude[i+1])
		if isPeak && (k == 0 || a > s.Amplitude[k]*(1+1e-9)) {
			k = i
		}
	}
	low, high := limits(z)
	if k == 0 || !(s.Amplitude[k] > max(d.Limit, (high-low)*1e-9)) {
		return d
	}
	d.Bin = k
	d.Wavelength = 1 / ((float64(k) + d.between(k)) * d.Step)
	return d
}

// between returns how far from bin k, between -½ and ½, a sine must lie whose amplitudes under a Hann window are those of
// bin k and the larger of its neighbours: their ratio is (2 - δ)/(1 + δ), towards that neighbour.
func (d *Dominance) between(k int) float64 {
	before, at, after := d.Amplitudes[k-1], d.Amplitudes[k], 0.0
	if k+1 < len(d.Amplitudes) {
		after = d.Amplitudes[k+1]
	}
	side, sign := after, 1.0
	if before > after {
		side, sign = before, -1
	}
	r := side / at // (1 + δ)/(2 - δ)
	return sign * max(0, min(0.5, (2*r-1)/(1+r)))
}

// DominantProfile returns the part of z, at the spacing dx, whose wavelengths lie within half an octave of the given one
// on both sides. The profile is taken without its regression line; each wave in the band passes unchanged and unshifted.
func DominantProfile(z []float64, dx, wavelength float64) []float64 {
	n := len(z)
	if n < 2 || !(wavelength > 0) {
		return make([]float64, n)
	}
	w := newWork(&Input{Z: z})
	defer w.release()
	f := w.lazy.transform(detrended(z))
	centre := float64(n) * dx / wavelength
	low, high := centre/math.Sqrt2, centre*math.Sqrt2
	for k := range f {
		if float64(k) < low*(1-1e-9) || float64(k) > high*(1+1e-9) {
			f[k] = 0
		}
	}
	return w.lazy.inverse(f, n)
}

// inverse returns the n heights with the coefficients f, which are 0 except in a band.
func (l *lazyWork) inverse(f []complex128, n int) []float64 {
	if roughest(n) <= 64 {
		z := l.plan(n).Sequence(nil, f)
		for i := range z {
			z[i] /= float64(n)
		}
		return z
	}
	// The transform of the mirrored spectrum is the profile: Σ F_k exp(+…) = conj Σ conj(F_k) exp(-…). Real and
	// imaginary parts each make a real sequence that the transform can take.
	re, im := make([]float64, n), make([]float64, n)
	for k, c := range f {
		re[k], im[k] = real(c), imag(c)
		if k > 0 && 2*k != n {
			re[n-k], im[n-k] = real(c), -imag(c)
		}
	}
	a, b := l.transform(re), l.transform(im)
	z := make([]float64, n)
	for i := range z {
		k := min(i, n-i)
		// The real even part gives the same at i and n-i, the imaginary odd part opposite signs.
		v := real(a[k])
		if i <= n/2 {
			v += imag(b[k])
		} else {
			v -= imag(b[k])
		}
		z[i] = v / float64(n)
	}
	return z
}

// detrended returns a copy of z without its regression line.
func detrended(z []float64) []float64 {
	n := float64(len(z))
	m, half := mean(z), (n-1)/2
	cross := 0.0
	for i, v := range z {
		cross += float64((float64(i) - half) * (v - m))
	}
	slope := 0.0
	if n > 1 {
		slope = cross / (n * (float64(n*n) - 1) / 12)
	}
	out := make([]float64, len(z))
	for i, v := range z {
		out[i] = v - m - float64(slope*(float64(i)-half))
	}
	return out
}
