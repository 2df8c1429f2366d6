package params

import (
	"math"
)

// olderSpacingRows are spacings, wavelengths and lengths of the vocabulary of 1984 and of ASME B46.1.
var olderSpacingRows = []row{
	// func S(z []float64, dx float64, section int) float64
	//
	// S returns the mean spacing of the local peaks of z at the spacing dx, cut into sections of the given number of points.
	//
	//	S = 1/n Σ S_i, S_i between neighbouring local maxima in section k, then the mean
	//
	// where a plateau is one local maximum, at its middle.
	//
	//   - Symbol: S.
	//   - Input: heights, the spacing, and the number of points in a section, 0 for all.
	//   - Unit: that of dx.
	//   - Evaluated over: each section, then the mean.
	//   - Source: JIS B 0601:1994; ISO 4287-1:1984.
	//
	// Special cases are:
	//
	//	S(z, …) = NaN where no section has two local peaks
	{`S: mean spacing of local peaks
in jis-b0601-1994, each section, then the mean: JIS B 0601:1994 (excerpt)
in iso-4287, each section, then the mean: ISO 4287-1:1984 (memory)
formula: S = frac{1}{nt} * sum{i=1}{nt}{St_i} text{, in each section, then the mean}
says: The mean distance between neighbouring tips of the profile, however small.
blind: Heights. Every ripple counts, so it depends on noise, point spacing and S-filter.
shape: needed`,
		evalPeakSpacing, showPeakSpacing},
	// func D(z []float64, dx float64, section int) float64
	//
	// D returns the density of the local peaks of z at the spacing dx, cut into sections of the given number of points.
	//
	//	D = 1/S
	//
	// with S as [S] returns it.
	//
	//   - Symbol: D.
	//   - Input: heights, the spacing in µm, and the number of points in a section, 0 for all.
	//   - Unit: 1/mm.
	//   - Evaluated over: each section, then the mean, of S.
	//   - Source: ISO 4287-1:1984.
	//
	// Special cases are:
	//
	//	D(z, …) = NaN where no section has two local peaks
	{`D: density of local peaks
in iso-4287, each section, then the mean: ISO 4287-1:1984 (memory)
formula: D = frac{1}{S}
says: How many tips, however small, there are on 1 mm.
blind: Heights. Every ripple counts, so it depends on noise, point spacing and S-filter.
shape: needed`,
		evalPeakDensity, showPeakSpacing},
	// func LambdaA(z []float64, dx float64) float64
	//
	// LambdaA returns the average wavelength of z at the spacing dx.
	//
	//	λa = 2π Ra/Δa
	//
	// where Δa is the mean absolute slope, see [Rda].
	//
	//   - Symbol: λa.
	//   - Input: heights from the mean line, and the spacing.
	//   - Unit: that of dx.
	//   - Evaluated over: the evaluation length.
	//   - Source: ASME B46.1-2009, 1-4; ISO 4287-1:1984.
	//
	// Special cases are:
	//
	//	LambdaA(z, dx) = NaN for a flat profile
	{`LambdaA: average wavelength
in asme-b46.1, the evaluation length: ASME B46.1-2009, 1-4 (memory)
in iso-4287, the evaluation length: ISO 4287-1:1984 (memory)
formula: λa = frac{2 × pi × Ra}{Rda}
says: The wavelength of a sine that has the same Ra and the same mean slope, both over the whole evaluation length.
blind: Whether there is a wave at all; it comes from two means.
shape: needed`,
		averageWavelength(Ra), showAverageWavelength(Ra, "Ra", "Rda", "mean slope")},
	// func LambdaQ(z []float64, dx float64) float64
	//
	// LambdaQ returns the root mean square average wavelength of z at the spacing dx.
	//
	//	λq = 2π Rq/Δq
	//
	// where Δq is the root mean square slope, see [Rdq].
	//
	//   - Symbol: λq.
	//   - Input: heights from the mean line, and the spacing.
	//   - Unit: that of dx.
	//   - Evaluated over: the evaluation length.
	//   - Source: ASME B46.1-2009, 1-4; ISO 4287-1:1984.
	//
	// Special cases are:
	//
	//	LambdaQ(z, dx) = NaN for a flat profile
	{`LambdaQ: root mean square average wavelength
in asme-b46.1, the evaluation length: ASME B46.1-2009, 1-4 (memory)
in iso-4287, the evaluation length: ISO 4287-1:1984 (memory)
formula: λq = frac{2 × pi × Rq}{Rdq}
says: The wavelength of a sine that has the same Rq and the same root mean square slope, both over the whole evaluation length.
blind: Whether there is a wave at all; it comes from two means.
shape: needed`,
		averageWavelength(Rq), showAverageWavelength(Rq, "Rq", "Rdq", "Rdq")},
	// func LengthRatio(z []float64, dx float64) float64
	//
	// LengthRatio returns the profile length ratio of z at the spacing dx.
	//
	//	lr = Rdl/l
	//
	// where l is the evaluation length.
	//
	//   - Symbol: lr.
	//   - Input: heights, and the spacing.
	//   - Unit: none.
	//   - Evaluated over: the evaluation length.
	//   - Source: ISO 4287-1:1984.
	//
	// Special cases are:
	//
	//	LengthRatio(z, dx) = NaN for fewer than three heights
	{`LengthRatio: profile length ratio
in iso-4287, the evaluation length: ISO 4287-1:1984 (memory)
formula: lr = frac{Rdl}{le}
says: How many times the evaluation length the pulled profile line is.
blind: Where the extra length is. It depends on the point spacing and on the S-filter.`,
		evalLengthRatio, constructDeveloped},
}

// localPeaks returns the places of the local maxima of section k, in points from its start. A plateau counts once, at its
// middle.
func (w *work) localPeaks(k int) []float64 {
	z := w.sectionAt(k)
	places := w.floats(countExtremes(z))[:0]
	for _, x := range appendExtremes(w.lazy.extremes.take(countExtremes(z))[:0], z) {
		if x.Peak {
			places = append(places, x.At)
		}
	}
	return places
}

func evalPeakSpacing(w *work, _ []float64) result {
	s := w.each(func(k int) float64 {
		if peaks := w.localPeaks(k); len(peaks) > 1 {
			return (peaks[len(peaks)-1] - peaks[0]) / float64(len(peaks)-1) * w.dx
		}
		return nan
	})
	return meanOfDefined(s, "has fewer than two local peaks", "no section has two local peaks")
}

func evalPeakDensity(w *work, args []float64) result {
	r := evalPeakSpacing(w, args)
	r.value = 1000 / r.value
	r.sections = nil
	return r
}

func evalLengthRatio(w *work, args []float64) result {
	r := evalDevelopedLength(w, args)
	r.value /= w.length()
	return r
}

// averageWavelength makes the evaluator of 2π times a mean of the heights over the same mean of the slopes.
func averageWavelength(f func([]float64) float64) evaluator {
	return func(w *work, _ []float64) result {
		g := w.gradient()
		if g.slope == nil {
			return undefined(reasonSlope)
		}
		return value(2 * math.Pi * f(w.z) / f(g.slope))
	}
}

// showPeakSpacing marks the local peaks of every section, and the first of their distances; for a density 1 mm.
func showPeakSpacing(w *work, _ []float64, c *Construction) {
	var spacings []float64
	for _, p := range w.lengths() {
		var places []Point
		var marks []Mark
		for _, x := range Extremes(p.z) {
			if x.Peak {
				at := Point{float64(float64(p.start)*w.dx) + float64(x.At*w.dx), x.Z}
				places, marks = append(places, at), append(marks, point(PeakMark, "", at))
			}
		}
		text, spacing := plural(len(places), "local peak"), nan
		if n := len(places); n > 1 {
			spacing = (places[n-1].X - places[0].X) / float64(n-1)
			text += ", the first " + place(places[0]) + ", the last " + place(places[n-1]) + ", mean spacing " + lengthOf(spacing)
			spacings = append(spacings, spacing)
			if c.Unit == Micrometre {
				top := max(places[0].Y, places[1].Y)
				marks = append(marks, dimension(lengthOf(places[1].X-places[0].X), Point{places[0].X, top}, Point{places[1].X, top}))
			}
		}
		c.in(p, text, spacing, marks...)
	}
	if c.Unit == Micrometre {
		c.mean(spacings)
		return
	}
	c.millimetre(w, digits(c.Result, 4)+" times the mean spacing")
	c.meanAs("S", mean(spacings), Micrometre, spacings)
	c.work("1000 / {1}", mean(spacings))
}

// showAverageWavelength draws one wavelength of a sine that has the same mean of the heights and of the slopes.
func showAverageWavelength(f func([]float64) float64, height, slope, same string) constructor {
	return func(w *work, _ []float64, c *Construction) {
		h, s := f(w.z), f(w.gradient().slope)
		amplitude := h * math.Sqrt2
		if height == "Ra" {
			amplitude = h * math.Pi / 2
		}
		end := min(w.length(), 3*c.Result)
		var sine []Point
		for i := range stripPoints {
			x := end * float64(i) / (stripPoints - 1)
			sine = append(sine, Point{x, amplitude * math.Sin(2*math.Pi*x/c.Result)})
		}
		c.step(height+" "+micrometres(h)+" and "+slope+" "+inWords(s)+" are those of a sine of wavelength "+lengthOf(c.Result), c.Result,
			line("same "+height+", same "+same, sine...), level(height, 0, w.length(), h), dimension(c.Symbol, Point{0, 0}, Point{min(c.Result, w.length()), 0}))
		c.work("2π · {1} / {2}", h, s)
	}
}
