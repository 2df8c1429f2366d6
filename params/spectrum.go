package params

import (
	"math"
	"slices"

	"gonum.org/v1/gonum/dsp/fourier"
)

var spatialRows = []row{
	// func Ral(z []float64, dx, s float64) float64
	//
	// Ral returns the autocorrelation length of z at the spacing dx: the smallest shift at which the autocorrelation
	// function has fallen to s, which is usually 0.2.
	//
	//	Ral = smallest t with fACF(t) ≤ s, fACF(t) = [1/(l-t) ∫ z(x) z(x+t) dx] / [1/l ∫ z(x)² dx]      as defined
	//	fACF(k·dx) = [Σ zᵢ zᵢ₊ₖ/(N-k)] / [Σ zᵢ²/N], straight between                                    as computed
	//
	// where every shift is normalised by its own overlap, and shifts up to half the length are looked at.
	//
	//   - Symbol: Ral; Pal and Wal are the same on the other profiles.
	//   - Input: heights from the reference line, the spacing, and the threshold 0 ≤ s < 1.
	//   - Unit: that of dx.
	//   - Evaluated over: the evaluation length.
	//   - Source: ISO 21920-2:2021, 4.3.2; furrow, default threshold s = 0.2 from memory.
	//
	// Special cases are:
	//
	//	Ral(z, …) = NaN where the function does not fall to s, and for a flat profile
	{`Ral: autocorrelation length
in iso-21920, the evaluation length: ISO 21920-2:2021, 4.3.2 (excerpt); furrow, default threshold s = 0.2 from memory (own choice)
argument: s 1 0.2 the height of the autocorrelation function at which likeness ends
must: s >= 0 the threshold s is from 0 up to, not including, 1
must: s < 1 the threshold s is from 0 up to, not including, 1
formula: Ral = min{}{t} text{ with } f(t) <= s
defined: f(t) = frac{frac{1}{le - t} * int{0}{le - t}{z(x) * z(x + t)}{x}}{frac{1}{le} * int{0}{le}{z(x)^{2}}{x}}
says: The smallest shift at which the autocorrelation function has fallen to s, 0.2 unless stated.
practice: Small: short waves decide. Large: long waves decide. On an irregular surface, places several Ral apart are nearly independent.
blind: Heights: a profile of half the height has the same length. A regular profile resembles itself again after one wave.
shape: needed`,
		evalAutocorrelationLength, showAutocorrelation},
	// func Rsw(z []float64, dx float64) float64
	//
	// Rsw returns the dominant spatial wavelength of z at the spacing dx: that of the largest |F_k| in its spectrum.
	//
	//	Rsw = wavelength of the largest |∫ z(x) exp(-2πi·px) dx|, p > 0                          as defined
	//	Rsw = N·dx/k, k the place of the largest |Σ zᵢ exp(-2πi·ik/N)| for 1 ≤ k ≤ N/2           as computed
	//
	// where no window is applied. The wavelengths next to it differ by about Rsw²/(N·dx); of equal amplitudes the longer
	// wave counts.
	//
	//   - Symbol: Rsw; Psw and Wsw are the same on the other profiles.
	//   - Input: heights from the reference line, and the spacing.
	//   - Unit: that of dx.
	//   - Evaluated over: the evaluation length.
	//   - Source: ISO 21920-2:2021, 4.3.3.
	//
	// Special cases are:
	//
	//	Rsw(z, dx) = NaN for a flat profile
	{`Rsw: dominant spatial wavelength
in iso-21920, the evaluation length: ISO 21920-2:2021, 4.3.3 (excerpt)
formula: Rsw = frac{N * dx}{jd}
says: The wavelength of the sine that is strongest in the profile.
practice: On a turned surface the feed. Chatter shows here only if its wave is the strongest in the profile.
blind: Whether that sine is much stronger than the others. Long wavelengths come in coarse steps.
shape: needed`,
		func(w *work, _ []float64) result {
			k := w.spectrum().Peak()
			if k == 0 {
				return undefined("the spectrum has no wave: fewer than 2 points, or all of equal height")
			}
			return value(w.spectrum().Wavelength(k))
		}, showDominantWave},
}

func evalAutocorrelationLength(w *work, args []float64) result {
	k, part := fallsTo(w.nearCorrelation(args[0]), args[0])
	if k < 0 {
		k, part = fallsTo(w.correlation(), args[0])
	}
	if k < 0 {
		return undefined("the autocorrelation function does not fall to " + inWords(args[0]) + " within half the evaluation length")
	}
	return value((float64(k) + part) * w.dx)
}

// fallsTo returns where r, straight between its values, first falls to s, as the index before and the part of the step;
// -1 where it never does.
func fallsTo(r []float64, s float64) (k int, part float64) {
	for i := 1; i < len(r); i++ {
		if r[i] <= s {
			return i - 1, (r[i-1] - s) / (r[i-1] - r[i])
		}
	}
	return -1, 0
}

// showAutocorrelation draws the autocorrelation function, the threshold and where it is crossed, and the profile with its copy there.
func showAutocorrelation(w *work, args []float64, c *Construction) {
	c.Plane = LagPlane
	r := w.correlation()
	k, part := fallsTo(r, args[0])
	curve := make([]Point, len(r))
	for i, v := range r {
		curve[i] = Point{float64(i) * w.dx, v}
	}
	at := (float64(k) + part) * w.dx
	c.step("autocorrelation function, 1 at no shift, up to a shift of "+millimetres(curve[len(curve)-1].X), nan,
		line("f(t)", curve...))
	c.step("it falls to "+inWords(args[0])+" at a shift of "+lengthOf(at), at,
		level("s = "+inWords(args[0]), 0, curve[len(curve)-1].X, args[0]),
		point(PointMark, "", Point{at, args[0]}),
		dimension(c.Symbol, Point{0, args[0]}, Point{at, args[0]}))
	shift := min(w.n-1, int(math.Round(float64(k)+part)))
	c.step("the profile and its copy, shifted so far", nan,
		line("shifted copy", w.strip(piece{0, shift, w.n, nil}, func(i int) float64 { return w.z[i-shift] })...)).on(ProfilePlane)
	c.work("({1} + ({2} - {3}) / ({2} - {4})) · {5}", float64(k), r[k], args[0], r[k+1], w.dx)
}

// showDominantWave draws the amplitudes over wavelength, and the largest of them, whose sine lies over the profile. The bin without a
// wavelength is left out.
func showDominantWave(w *work, _ []float64, c *Construction) {
	c.Plane = SpectrumPlane
	s := w.spectrum()
	k := s.Peak()
	curve := make([]Point, 0, len(s.Amplitude))
	for i := len(s.Amplitude) - 1; i > 0; i-- {
		curve = append(curve, Point{s.Wavelength(i), s.Amplitude[i]})
	}
	top := Point{s.Wavelength(k), s.Amplitude[k]}
	text := "strongest wave, of the amplitude " + micrometres(top.Y) + " at a wavelength of " + lengthOf(top.X)
	if k+1 < len(s.Amplitude) {
		text += "; the next shorter wave of the spectrum has " + lengthOf(s.Wavelength(k+1))
	}
	if k > 1 {
		text += "; the next longer wave has " + lengthOf(s.Wavelength(k-1))
	}
	c.step("amplitude spectrum of the evaluation length", nan, line("", curve...))
	c.step(text, top.X, point(PeakMark, c.Symbol, top))
	angle := func(i int) float64 { return 2 * math.Pi * float64(k) / float64(w.n) * float64(i) }
	cosine, sine := 0.0, 0.0
	for i, v := range w.z {
		cosine += float64(v * math.Cos(angle(i)))
		sine += float64(v * math.Sin(angle(i)))
	}
	phase := math.Atan2(sine, cosine)
	from, to := Point{0, 0}, Point{min(top.X, w.length()), 0}
	c.step("its sine over the profile", nan,
		line("strongest sine", w.strip(w.whole(), func(i int) float64 { return top.Y * math.Cos(angle(i)-phase) })...), dimension(c.Symbol, from, to)).on(ProfilePlane)
	c.work("{1} · {2} / {3}", float64(s.N), w.dx, float64(k))
}

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

// correlation returns the autocorrelation function at the lags 0, 1, 2 … N/2 samples, 1 at lag 0; nil when all heights are 0.
//
//	r_k = [Σ zᵢ zᵢ₊ₖ/(N-k)] / [Σ zᵢ²/N]
//
// Each lag is normalised by its own overlap, and nothing is subtracted. The lags that nearCorrelation has summed stay as they are.
func (w *work) correlation() []float64 {
	near, lags := w.lazy.correlation, w.n/2
	if len(near) > lags {
		return near
	}
	n, z := w.n, w.scaled()
	if z == nil {
		return nil
	}
	m := smooth(n + lags) // so long that no lag up to N/2 wraps round
	padded := w.floats(m)
	copy(padded, z)
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
	copy(r, near)
	w.lazy.correlation = r
	return r
}

// scaled returns the heights as shares of the largest, so that neither the squares of tiny ones vanish nor those of huge ones overflow; nil
// when all are 0.
func (w *work) scaled() []float64 {
	if w.lazy.scaled != nil {
		return w.lazy.scaled
	}
	scale := largest(w.z)
	if scale == 0 {
		return nil
	}
	z := w.floats(w.n)
	for i, v := range w.z {
		z[i] = v / scale
	}
	w.lazy.scaled = z
	return z
}

// A few lags are summed sooner than a transform gives them all, and most profiles need no more.
const (
	plainStep = 8
	plainLags = 8 * plainStep
)

// nearCorrelation returns the first lags of the autocorrelation function, by plain sums: until it falls to s, or until it is clear, from how it falls
// like a parabola, that it needs more than plainLags.
func (w *work) nearCorrelation(s float64) []float64 {
	if w.lazy.correlation != nil || w.n < 4*plainLags {
		return w.lazy.correlation
	}
	z := w.scaled()
	if z == nil {
		return nil
	}
	n := len(z)
	r := w.floats(plainLags)
	zero, last := 0.0, 1.0
	for k := 0; k < plainLags && last > s; k += plainStep {
		if k > 0 && float64((1-last)*plainLags*plainLags) < float64((1-s)*float64((k-1)*(k-1))) {
			break
		}
		lagged := (*[plainStep]float64)(r[k:])
		*lagged = sumLagged(z[:n-k-plainStep+1], z[k:])
		for j := range lagged {
			for i := n - k - plainStep + 1; i < n-k-j; i++ {
				lagged[j] += float64(z[i] * z[i+k+j])
			}
			if k+j == 0 {
				zero = lagged[0] / float64(n)
			}
			lagged[j] = lagged[j] / float64(n-k-j) / zero
			last = min(last, lagged[j])
		}
		w.lazy.correlation = r[:k+plainStep]
	}
	return w.lazy.correlation
}

// sumLagged returns Σ aᵢ·bᵢ₊ⱼ for j = 0, 1, ... 7.
func sumLagged(a, b []float64) (s [plainStep]float64) {
	var s0, s1, s2, s3, s4, s5, s6, s7 float64
	for i, v := range a {
		c := (*[plainStep]float64)(b[i:])
		s0 += float64(v * c[0])
		s1 += float64(v * c[1])
		s2 += float64(v * c[2])
		s3 += float64(v * c[3])
		s4 += float64(v * c[4])
		s5 += float64(v * c[5])
		s6 += float64(v * c[6])
		s7 += float64(v * c[7])
	}
	return [plainStep]float64{s0, s1, s2, s3, s4, s5, s6, s7}
}

// largest returns the largest absolute value of z.
func largest(z []float64) float64 {
	m := 0.0
	for _, v := range z {
		m = max(m, math.Abs(v))
	}
	return m
}

// times returns a b. Each product is rounded by itself, so that every platform gives the same bits.
func times(a, b complex128) complex128 {
	return complex(float64(real(a)*real(b))-float64(imag(a)*imag(b)), float64(real(a)*imag(b))+float64(imag(a)*real(b)))
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
		a[k] = times(complex(z[k], 0), chirp[k])
		b[k] = complex(cos, sin)
		if k > 0 {
			b[m-k] = b[k]
		}
	}
	fft := fourier.NewCmplxFFT(m)
	fa, fb := fft.Coefficients(nil, a), fft.Coefficients(nil, b)
	for k := range fa {
		fa[k] = times(fa[k], fb[k])
	}
	c := fft.Sequence(a, fa)
	f := make([]complex128, n/2+1)
	for k := range f {
		f[k] = times(c[k], chirp[k]) / complex(float64(m), 0)
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
