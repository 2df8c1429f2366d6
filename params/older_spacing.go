package params

import (
	"math"

	"example.com/furrow/standards"
)

// olderSpacingRows are spacings, wavelengths and lengths of the vocabulary of 1984 and of ASME B46.1.
var olderSpacingRows = []Parameter{
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
	{
		Key: "S", Name: "mean spacing of local peaks", shape: true,
		Meanings: []Meaning{
			meaning(editionsJIS1994, SectionMean, jis1994()),
			meaning([]standards.EditionID{editionISO4287}, SectionMean, iso4287Older()),
		},
		Formula:  "S = frac{1}{nt} * sum{i=1}{nt}{St_i} text{, in each section, then the mean}",
		Sentence: "The mean distance between neighbouring tips of the profile, however small.",
		Blind:    "Heights. Every ripple counts, so it depends on noise, point spacing and S-filter.",
		eval:     evalPeakSpacing, construct: showPeakSpacing,
	},
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
	{
		Key: "D", Name: "density of local peaks", shape: true,
		Meanings: []Meaning{meaning([]standards.EditionID{editionISO4287}, SectionMean, iso4287Older())},
		Formula:  "D = frac{1}{S}",
		Sentence: "How many tips, however small, there are on 1 mm.",
		Blind:    "Heights. Every ripple counts, so it depends on noise, point spacing and S-filter.",
		eval: func(w *work, args []float64) result {
			r := evalPeakSpacing(w, args)
			r.value = 1000 / r.value
			r.sections = nil
			return r
		},
		construct: showPeakSpacing,
	},
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
	{
		Key: "LambdaA", Name: "average wavelength", shape: true,
		Meanings: olderWavelength,
		Formula:  "λa = frac{2 × pi × Ra}{Rda}",
		Sentence: "The wavelength of a sine that has the same Ra and the same mean slope, both over the whole evaluation length.",
		Blind:    "Whether there is a wave at all; it comes from two means.",
		eval:     averageWavelength(Ra), construct: showAverageWavelength(Ra, "Ra", "Δa"),
	},
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
	{
		Key: "LambdaQ", Name: "root mean square average wavelength", shape: true,
		Meanings: olderWavelength,
		Formula:  "λq = frac{2 × pi × Rq}{Rdq}",
		Sentence: "The wavelength of a sine that has the same Rq and the same root mean square slope, both over the whole evaluation length.",
		Blind:    "Whether there is a wave at all; it comes from two means.",
		eval:     averageWavelength(Rq), construct: showAverageWavelength(Rq, "Rq", "Δq"),
	},
	// func Lo(z []float64, dx float64) float64
	//
	// Lo returns the developed length of z at the spacing dx.
	//
	//	Lo = l 1/N Σ √(1 + (dz/dx)²ᵢ)
	//
	// with the slopes of [Rdq].
	//
	//   - Symbol: Lo; ISO 21920-2 calls it Rdl.
	//   - Input: heights, and the spacing.
	//   - Unit: that of dx.
	//   - Evaluated over: the evaluation length.
	//   - Source: ISO 4287-1:1984.
	//
	// Special cases are:
	//
	//	Lo(z, dx) = NaN for fewer than three heights
	{
		Key: "Lo", Name: "developed profile length",
		Meanings: []Meaning{meaning([]standards.EditionID{editionISO4287}, EvaluationLength, iso4287Older())},
		Formula:  "Lo = frac{le}{Ng} * sum{i=1}{Ng}{sqrt{1 + g_i^{2}}}",
		Sentence: "The length of the profile line when it is pulled straight. ISO 21920-2 calls it Rdl.",
		Blind:    "Where the extra length is. It depends on the point spacing and on the S-filter.",
		eval:     evalDevelopedLength, construct: showDevelopedLength,
	},
	// func LengthRatio(z []float64, dx float64) float64
	//
	// LengthRatio returns the profile length ratio of z at the spacing dx.
	//
	//	lr = Lo/l
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
	{
		Key: "LengthRatio", Name: "profile length ratio",
		Meanings: []Meaning{meaning([]standards.EditionID{editionISO4287}, EvaluationLength, iso4287Older())},
		Formula:  "lr = frac{Lo}{le}",
		Sentence: "How many times the evaluation length the pulled profile line is.",
		Blind:    "Where the extra length is. It depends on the point spacing and on the S-filter.",
		eval: func(w *work, args []float64) result {
			r := evalDevelopedLength(w, args)
			r.value /= float64(w.n) * w.dx
			return r
		},
		construct: showDevelopedLength,
	},
}

var olderWavelength = []Meaning{
	meaning(editionsASME, EvaluationLength, asme()),
	meaning([]standards.EditionID{editionISO4287}, EvaluationLength, iso4287Older()),
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

// showPeakSpacing marks the local peaks of every section.
func showPeakSpacing(w *work, _ []float64, c *Construction) {
	var spacings []float64
	for k := range w.count {
		start := float64(k*w.section) * w.dx
		s := Step{Value: nan}
		var places []Point
		for _, x := range Extremes(w.sectionAt(k)) {
			if x.Peak {
				p := Point{start + float64(x.At*w.dx), x.Z}
				places = append(places, p)
				s.Marks = append(s.Marks, point(PeakMark, "", p))
			}
		}
		s.Text = ": " + plural(len(places), "local peak")
		if n := len(places); n > 1 {
			s.Value = (places[n-1].X - places[0].X) / float64(n-1)
			s.Text += ", the first " + place(places[0]) + ", the last " + place(places[n-1]) + ", mean spacing " + lengthOf(s.Value)
			spacings = append(spacings, s.Value)
		}
		c.section(k, s)
	}
	spacing := mean(spacings)
	c.Worked = append(c.Worked, Arithmetic{"S", meanForm(len(spacings)), spacings, spacing, Micrometre})
	if c.Unit == PerMillimetre {
		c.work("1000 / {1}", spacing)
	}
}

// showAverageWavelength draws one wavelength as a span in the middle of the profile.
func showAverageWavelength(f func([]float64) float64, height, slope string) constructor {
	return func(w *work, _ []float64, c *Construction) {
		h, s := f(w.z), f(w.gradient().slope)
		middle := float64(w.n) * w.dx / 2
		c.step(height+" "+micrometres(h)+" and "+slope+" "+inWords(s)+" are those of a sine of wavelength "+lengthOf(c.Result), c.Result,
			dimension(c.Symbol, Point{middle - c.Result/2, 0}, Point{middle + c.Result/2, 0}))
		c.work("2π · {1} / {2}", h, s)
	}
}

// showDevelopedLength draws the profile as the line whose length it is.
func showDevelopedLength(w *work, _ []float64, c *Construction) {
	length := w.length()
	stretch := 1 + meanStretch(w.gradient().slope)
	c.step("the profile over "+millimetres(length)+" is "+millimetres(length*stretch)+" long when pulled straight", c.Result,
		line("", w.line()...))
	form, terms := "{1} · {2}", []float64{length, stretch}
	if c.Unit == None {
		form, terms = "{1} / {2}", []float64{length * stretch, length}
	}
	c.work(form, terms...)
}
