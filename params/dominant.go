package params

import (
	"math"
	"slices"
)

// dominantRows are those of dominant waviness, on the primary profile, from which the wave is taken out.
var dominantRows = []row{
	// func WDSm(z []float64, dx float64) float64
	//
	// WDSm returns the mean period length of the dominant waviness of z at the spacing dx.
	//
	//	WDSm = wavelength of the peak of the amplitude spectrum that stands out 4 times over the median
	//
	// under a Hann window, between 20 µm and a fifth of the evaluation length; the peak exceeds 4 times the median of each octave
	// beside it, too. The wavelength is read between the bins.
	//
	//   - Symbol: WDSm.
	//   - Input: heights of the primary profile, and the spacing in µm.
	//   - Unit: that of dx.
	//   - Evaluated over: the evaluation length.
	//   - Source: works standard on dominant waviness; furrow, band limits and threshold of the dominating wave.
	//
	// Special cases are:
	//
	//	WDSm(z, dx) = NaN where no wave dominates
	{`WDSm: mean period length of dominant waviness
in iso-21920 iso-4287, the evaluation length: works standard on dominant waviness (trade practice); furrow, band limits and threshold of the dominating wave (own choice)
on: primary
formula: WDSm = lam text{ of the largest line above the limit}
says: The wavelength of the largest line in the spectrum of the primary profile that stands out: above 4 times the median of all lines and of the lines around it.
practice: Stated for sealing surfaces, where feed marks and chatter matter.
blind: Every other wave. The limits are our own choice, because the text of the standard was not seen.`,
		func(w *work, _ []float64) result {
			d, reason := w.dominance()
			if reason != "" {
				return undefined(reason)
			}
			return value(d.Wavelength)
		}, showDominance},
	// func WDc(z []float64, dx float64) float64
	//
	// WDc returns the mean height of the dominant waviness of z at the spacing dx.
	//
	//	WDc = mean height of the elements of the profile between wavelengths WDSm/√2 and √2·WDSm
	//
	// from the profile without its regression line; each wave in the band passes unchanged and unshifted, and the elements are
	// those of [Rc].
	//
	//   - Symbol: WDc.
	//   - Input: heights of the primary profile, and the spacing in µm.
	//   - Unit: that of z.
	//   - Evaluated over: the evaluation length.
	//   - Source: works standard on dominant waviness; furrow, band limits and threshold of the dominating wave.
	//
	// Special cases are:
	//
	//	WDc(z, dx) = NaN where no wave dominates
	{`WDc: mean height of dominant waviness
in iso-21920 iso-4287, the evaluation length: works standard on dominant waviness (trade practice); furrow, band limits and threshold of the dominating wave (own choice)
on: primary
formula: WDc = frac{1}{m} * sum{i=1}{m}{Zt_i} text{ on the profile } w
says: The mean height of the dominant wave, from crest to trough.
blind: Every other wave. Band limits are our own choice.`,
		onDominantWave(ofElements(theHeight, theMean)), showDominantElements},
	// func WDt(z []float64, dx float64) float64
	//
	// WDt returns the total height of the dominant waviness of z at the spacing dx.
	//
	//	WDt = max - min of the profile between wavelengths WDSm/√2 and √2·WDSm
	//
	// from the profile without its regression line; each wave in the band passes unchanged and unshifted.
	//
	//   - Symbol: WDt.
	//   - Input: heights of the primary profile, and the spacing in µm.
	//   - Unit: that of z.
	//   - Evaluated over: the evaluation length.
	//   - Source: works standard on dominant waviness; furrow, band limits and threshold of the dominating wave.
	//
	// Special cases are:
	//
	//	WDt(z, dx) = NaN where no wave dominates
	{`WDt: total height of dominant waviness
in iso-21920 iso-4287, the evaluation length: works standard on dominant waviness (trade practice); furrow, band limits and threshold of the dominating wave (own choice)
on: primary
formula: WDt = max{}{w_i} - min{}{w_i}
says: The height from the lowest trough to the highest crest of the dominant wave.
blind: Every other wave. Band limits are our own choice.`,
		onDominantWave(evalTotalHeight), showDominantProfile},
}

// dominance returns the dominating wave, or the reason why there is none.
func (w *work) dominance() (*dominance, string) {
	if w.flat() {
		return nil, reasonFlat
	}
	if w.lazy.dominance == nil {
		w.lazy.dominance = findDominance(w.z, w.dx)
	}
	if math.IsNaN(w.lazy.dominance.Wavelength) {
		return nil, "no wave dominates: no peak of the spectrum exceeds four times the median amplitude, of all and of each octave beside it"
	}
	return w.lazy.dominance, ""
}

// dominantWave returns the work on the profile of the dominating wave, or the reason why there is none.
func (w *work) dominantWave() (*work, string) {
	d, reason := w.dominance()
	if reason != "" {
		return nil, reason
	}
	if w.lazy.wave == nil {
		w.lazy.wave = newWork(&Input{Z: dominantProfile(w.z, w.dx, d.Wavelength), Dx: w.dx, Choices: w.in.Choices, Flat: w.in.Flat})
	}
	return w.lazy.wave, ""
}

// onDominantWave makes an evaluator one on the profile of the dominating wave.
func onDominantWave(eval evaluator) evaluator {
	return func(w *work, _ []float64) result {
		wave, reason := w.dominantWave()
		if reason != "" {
			return undefined(reason)
		}
		return eval(wave, nil)
	}
}

// showDominance draws the amplitude spectrum over the wavelengths looked at, the limit, and the peak.
func showDominance(w *work, _ []float64, c *Construction) {
	c.Plane = SpectrumPlane
	d, _ := w.dominance()
	wavelength := func(k int) float64 { return 1 / (float64(k) * d.Step) }
	var curve []Point
	for k := d.Last; k >= d.First; k-- {
		curve = append(curve, Point{wavelength(k), d.Amplitudes[k]})
	}
	shortest, longest := wavelength(d.Last), wavelength(d.First)
	c.step("amplitude spectrum from "+lengthOf(shortest)+" to "+millimetres(longest)+", own band limits", nan, line("", curve...))
	c.step("four times the median amplitude, of all or of an octave beside the peak, is "+micrometres(d.Limit), nan,
		level("limit", shortest, longest, d.Limit))
	c.step("the largest peak is "+micrometres(d.Amplitudes[d.Bin])+"; the wavelength is "+lengthOf(d.Wavelength), d.Wavelength,
		point(PeakMark, c.Symbol, Point{d.Wavelength, d.Amplitudes[d.Bin]}))
	c.work("{1} · {2} / ({3} + {4})", float64(w.n), w.dx, float64(d.Bin), d.between(d.Bin))
}

// dominantLine draws the profile of the dominating wave, and returns the work on it.
func (c *Construction) dominantLine(w *work) *work {
	wave, _ := w.dominantWave()
	d, _ := w.dominance()
	c.step("the profile between the wavelengths "+lengthOf(d.Wavelength/math.Sqrt2)+" and "+lengthOf(d.Wavelength*math.Sqrt2), nan,
		line("w", wave.strip(wave.whole(), wave.heightOf)...))
	return wave
}

// showDominantElements draws the profile of the dominating wave and the heights of its elements.
func showDominantElements(w *work, _ []float64, c *Construction) {
	wave := c.dominantLine(w)
	wave.constructList(c, wave.profileElements(), theHeight, theMean)
}

// showDominantProfile draws that profile with its highest crest and lowest trough.
func showDominantProfile(w *work, _ []float64, c *Construction) {
	wave := c.dominantLine(w)
	e := wave.extremes()
	text, height, marks := wave.between(0, w.length(), e.highAt, e.lowAt, true, true)
	c.step("highest crest and lowest trough: "+text, height, marks...)
	c.workBetween(e.high, e.low, true, true)
}

// A dominance is the wave that dominates a primary profile, if one does.
//
// The band limits and the threshold are an own choice, because we have not seen the numbers of the works standard: of the
// amplitude spectrum under a Hann window, the largest local peak counts, between 20 µm and a fifth of the evaluation
// length, that exceeds four times the median amplitude, both of all that range and of each octave beside the peak. The
// second keeps a rough surface without a wave, whose spectrum falls steeply, from having one.
type dominance struct {
	Amplitudes  []float64 // under the window, corrected so that a sine in the middle of a bin shows its amplitude
	Step        float64   // of frequency from one to the next
	First, Last int       // bins of the range looked at
	Limit       float64   // four times the median amplitude, in the range or beside the peak, whichever is more
	Bin         int       // of the peak; 0 when there is none
	Wavelength  float64   // of that peak, between the bins; NaN when none
}

const (
	dominantShortest = 20.0 // µm
	dominantPeriods  = 5    // in the evaluation length, at least
	dominantRatio    = 4.0  // to the median amplitude
)

// findDominance looks for the dominating wave of the heights z of a primary profile, at the spacing dx in µm. The
// wavelength is read between the bins, from the amplitude of the peak and the larger of its neighbours.
func findDominance(z []float64, dx float64) *dominance {
	n := len(z)
	d := &dominance{Wavelength: math.NaN()}
	if n < 2*dominantPeriods {
		return d
	}
	windowed := detrended(z)
	for i := range windowed {
		windowed[i] *= 1 - math.Cos(2*math.Pi*(float64(i)+0.5)/float64(n)) // Hann, of mean 1
	}
	s := NewSpectrum(windowed, dx)
	d.Amplitudes, d.Step = s.Amplitude, s.Step
	d.First = dominantPeriods
	d.Last = int(min(float64(len(s.Amplitude)-1), math.Floor(1/(dominantShortest*s.Step)+1e-9)))
	if d.Last-d.First < 4 {
		return d
	}
	low, high := limits(z)
	everywhere := max(dominantRatio*median(slices.Clone(s.Amplitude[d.First:d.Last+1])), (high-low)*1e-9)
	d.Limit = everywhere
	for _, k := range d.peaks(everywhere) {
		if limit := max(everywhere, dominantRatio*d.beside(k)); s.Amplitude[k] > limit {
			d.Bin, d.Limit = k, limit
			d.Wavelength = 1 / ((float64(k) + d.between(k)) * d.Step)
			break
		}
	}
	return d
}

// peaks returns the bins of the local peaks of the range that exceed the limit, the largest first, and of two that
// differ by less than a billionth the one of the longer wave.
func (d *dominance) peaks(limit float64) []int {
	var bins []int
	for k := d.First; k <= d.Last; k++ {
		a := d.Amplitudes[k]
		if a > limit && a >= d.Amplitudes[k-1] && (k+1 == len(d.Amplitudes) || a >= d.Amplitudes[k+1]) {
			at := len(bins)
			for at > 0 && a > d.Amplitudes[bins[at-1]]*(1+1e-9) {
				at--
			}
			bins = slices.Insert(bins, at, k)
		}
	}
	return bins
}

// beside returns the larger of the median amplitudes of the octave below bin k and of that above, without the bins that
// a sine in k reaches under the window.
func (d *dominance) beside(k int) float64 {
	below := slices.Clone(d.Amplitudes[max(1, k/2) : k-2])
	above := slices.Clone(d.Amplitudes[min(k+3, len(d.Amplitudes)):min(2*k+1, len(d.Amplitudes))])
	return max(median(below), median(above))
}

// median returns the median of v, which it sorts; 0 of nothing.
func median(v []float64) float64 {
	if len(v) == 0 {
		return 0
	}
	slices.Sort(v)
	return (v[(len(v)-1)/2] + v[len(v)/2]) / 2
}

// between returns how far from bin k, between -½ and ½, a sine must lie whose amplitudes under a Hann window are those of
// bin k and the larger of its neighbours: their ratio is (2 - δ)/(1 + δ), towards that neighbour.
func (d *dominance) between(k int) float64 {
	before, at, after := d.Amplitudes[k-1], d.Amplitudes[k], 0.0
	if k+1 < len(d.Amplitudes) {
		after = d.Amplitudes[k+1]
	}
	side, sign := after, 1.0
	if before > after {
		side, sign = before, -1
	}
	r := side / at // (1 + δ)/(2 - δ)
	return float64(sign * max(0, min(0.5, (2*r-1)/(1+r))))
}

// dominantProfile returns the part of z, at the spacing dx, whose wavelengths lie within half an octave of the given one
// on both sides. The profile is taken without its regression line; each wave in the band passes unchanged and unshifted.
func dominantProfile(z []float64, dx, wavelength float64) []float64 {
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
	level, slope := meanLine(z)
	half := float64(float64(len(z)-1) / 2)
	out := make([]float64, len(z))
	for i, v := range z {
		out[i] = v - level - float64(slope*(float64(i)-half))
	}
	return out
}
