package params

import (
	"math"
	"slices"

	"gonum.org/v1/gonum/dsp/fourier"
)

// A Spectrum holds a profile's amplitudes over spatial frequency.
//
//	F_k = Σ zᵢ exp(-2πi·ik/N)            k = 0 … N/2
//	amplitude_k = 2|F_k|/N               |F_k|/N for k = 0 and, N even, for k = N/2
//	PSD_k = amplitude_k²/(2Δf)           amplitude_k²/Δf for k = 0 and, N even, for k = N/2
//	Σ PSD_k·Δf = Rq²                     over all k, the mean of z being in k = 0
//
// The transform is the plain one: the profile's own length, no window, nothing subtracted. A sine of a whole number of
// periods in the length shows its amplitude in one bin; any other is spread over several.
type Spectrum struct {
	N         int       // number of heights transformed
	Step      float64   // Δf = 1/(N·dx), per length unit
	Amplitude []float64 // at the frequencies k·Step, in the unit of z
}

// NewSpectrum returns the spectrum of z at the spacing dx. The amplitudes are nil for no heights.
func NewSpectrum(z []float64, dx float64) *Spectrum {
	if len(z) == 0 {
		return &Spectrum{}
	}
	w := newWork(&Input{Z: z, Dx: dx})
	defer w.release()
	s := *w.spectrum()
	s.Amplitude = slices.Clone(s.Amplitude)
	return &s
}

// spectrum returns the spectrum over the evaluation length, which has heights.
func (w *work) spectrum() *Spectrum {
	s := &w.lazy.spectrum
	if s.Amplitude != nil {
		return s
	}
	n := w.n
	s.N, s.Step = n, 1/(float64(n)*w.dx)
	f := w.lazy.transform(w.z)
	s.Amplitude = w.floats(len(f))
	for k, c := range f {
		re, im := real(c), imag(c)
		a := math.Sqrt(float64(re*re)+float64(im*im)) / float64(n)
		if !s.single(k) {
			a *= 2
		}
		s.Amplitude[k] = a
	}
	return s
}

// single reports whether bin k stands for one term of the transform; all others stand for a pair, +k and -k.
func (s *Spectrum) single(k int) bool { return k == 0 || 2*k == s.N }

// Density returns the power spectral density at the frequencies k·Step, in the unit of z squared times length.
func (s *Spectrum) Density() []float64 {
	d := make([]float64, len(s.Amplitude))
	for k, a := range s.Amplitude {
		d[k] = float64(a*a) / s.Step
		if !s.single(k) {
			d[k] /= 2
		}
	}
	return d
}

// Wavelength returns the wavelength of bin k, in the length unit of dx; it is infinite for k = 0.
func (s *Spectrum) Wavelength(k int) float64 { return 1 / (float64(k) * s.Step) }

// Peak returns the bin of the largest |F_k| among k = 1 … N/2. Those that differ by less than a billionth count as
// equal, and the longest wavelength wins: rounding must not choose between two bins. It returns 0 when there is none, or
// when none is more than rounding, 1e-12 of the mean height.
func (s *Spectrum) Peak() int {
	if len(s.Amplitude) == 0 {
		return 0
	}
	best, at := 1e-12*s.Amplitude[0], 0
	for k := 1; k < len(s.Amplitude); k++ {
		a := s.Amplitude[k] / 2 // |F_k|/N
		if s.single(k) {
			a = s.Amplitude[k]
		}
		if a > best*(1+1e-9) {
			best, at = a, k
		}
	}
	return at
}

// Autocorrelation returns the autocorrelation function of z at the lags 0, 1, 2 … N/2 samples, 1 at lag 0.
//
//	r_k = [Σ zᵢ zᵢ₊ₖ/(N-k)] / [Σ zᵢ²/N]
//
// Each lag is normalised by its own overlap, and nothing is subtracted. It returns nil when all heights are 0.
func Autocorrelation(z []float64) []float64 {
	w := newWork(&Input{Z: z})
	defer w.release()
	return slices.Clone(w.correlation())
}

// correlation returns the autocorrelation function up to half the evaluation length.
func (w *work) correlation() []float64 {
	if w.lazy.correlation != nil {
		return w.lazy.correlation
	}
	scale := largest(w.z)
	if scale == 0 {
		return nil
	}
	n, lags := w.n, w.n/2
	m := smooth(n + lags) // so long that no lag up to N/2 wraps round
	padded := w.floats(m)
	for i, v := range w.z {
		padded[i] = v / scale // neither the squares of tiny heights vanish nor those of huge ones overflow
	}
	fft := w.lazy.plan(m)
	f := fft.Coefficients(w.lazy.coefficients.take(m/2+1), padded)
	for k, c := range f {
		re, im := real(c), imag(c)
		f[k] = complex(float64(re*re)+float64(im*im), 0)
	}
	r := fft.Sequence(padded, f)[:lags+1]
	zero := r[0] / float64(n)
	for k := range r {
		r[k] = r[k] / float64(n-k) / zero
	}
	w.lazy.correlation = r
	return r
}

// largest returns the largest absolute value of z.
func largest(z []float64) float64 {
	m := 0.0
	for _, v := range z {
		m = max(m, math.Abs(v))
	}
	return m
}

// transform returns the coefficients 0 … N/2 of the discrete Fourier transform of z. A length with a large prime factor
// goes through a convolution (Bluestein's chirp transform), because the plain transform needs N² steps for a prime.
func (l *lazyWork) transform(z []float64) []complex128 {
	n := len(z)
	if roughest(n) <= 64 {
		return l.plan(n).Coefficients(l.coefficients.take(n/2+1), z)
	}
	m := smooth(2*n - 1)
	chirp := make([]complex128, n)
	a, b := make([]complex128, m), make([]complex128, m)
	for k := range chirp {
		// k² is taken modulo 2N, the period of the chirp, so that the angle stays small and exact.
		sin, cos := math.Sincos(math.Pi * float64(int64(k)*int64(k)%int64(2*n)) / float64(n))
		chirp[k] = complex(cos, -sin)
		a[k] = complex(z[k], 0) * chirp[k]
		b[k] = complex(cos, sin)
		if k > 0 {
			b[m-k] = b[k]
		}
	}
	fft := fourier.NewCmplxFFT(m)
	fa, fb := fft.Coefficients(nil, a), fft.Coefficients(nil, b)
	for k := range fa {
		fa[k] *= fb[k]
	}
	c := fft.Sequence(a, fa)
	f := make([]complex128, n/2+1)
	for k := range f {
		f[k] = c[k] * chirp[k] / complex(float64(m), 0)
	}
	return f
}

// roughest returns the largest prime factor of n, 1 for n = 1.
func roughest(n int) int {
	last := 1
	for p := 2; p*p <= n; p++ {
		for n%p == 0 {
			n, last = n/p, p
		}
	}
	return max(n, last)
}

// smooth returns the smallest number from n on that has no prime factor above 5: transforms of such a length are fast.
func smooth(n int) int {
	for ; ; n++ {
		m := n
		for _, p := range [...]int{2, 3, 5} {
			for m%p == 0 {
				m /= p
			}
		}
		if m == 1 {
			return n
		}
	}
}
