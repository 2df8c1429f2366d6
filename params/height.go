package params

import (
	"math"
)

// heightRows are the averages of the heights.
var heightRows = []Parameter{
	{
		Key: "Ra", Name: "arithmetic mean height",
		Meanings: []Meaning{
			{editions21920, EvaluationLength, refs(iso21920("4.2.2")), whole(Ra), nil},
			{editions4287, SectionMean, refs(excerpt4287("4.2.1")), sectionMean(Ra), constructHeights(arithmeticMoment, true)},
			{editionsASME, EvaluationLength, refs(asme()), whole(Ra), nil},
			{editionsJIS1982, EvaluationLength, refs(jis1982()), whole(Ra), nil},
			{editionsJIS1994, SectionMean, refs(jis1994()), sectionMean(Ra), constructHeights(arithmeticMoment, true)},
		},
		Formula:   "Ra = frac{1}{N} * sum{i=1}{N}{abs{z_i}}",
		Defined:   "Ra = frac{1}{le} * int{0}{le}{abs{z(x)}}{x}",
		Sentence:  "The mean distance of the profile from its reference line; hills and dales count alike.",
		Practice:  "Used to watch whether a process stays the same. It says little about how a surface works.",
		Blind:     "Shape: peaks or pits, few large or many small, close or far apart.",
		construct: constructHeights(arithmeticMoment, false),
	},
	{
		Key: "Rq", Name: "root mean square height",
		Meanings: []Meaning{
			{editions21920, EvaluationLength, refs(iso21920("4.2.3")), whole(Rq), nil},
			{editions4287, SectionMean, refs(iso4287("4.2.2")), sectionMean(Rq), constructHeights(secondMoment, true)},
			{editionsASME, EvaluationLength, refs(asme()), whole(Rq), nil},
		},
		Formula:   "Rq = sqrt{frac{1}{N} * sum{i=1}{N}{z_i^{2}}}",
		Defined:   "Rq = sqrt{frac{1}{le} * int{0}{le}{z(x)^{2}}{x}}",
		Sentence:  "The square root of the mean of the squared heights; large heights count more than in Ra.",
		Practice:  "Used for optical surfaces: the light that a smooth surface scatters grows with the square of Rq.",
		Blind:     "Peaks or pits, and how far apart they are.",
		construct: constructHeights(secondMoment, false),
	},
	// func Rsk(z []float64) float64
	//
	// Rsk returns the skewness of the heights z.
	//
	//	Rsk = 1/Rq³ 1/l ∫ z(x)³ dx      as defined
	//	Rsk = 1/(N Rq³) Σ zᵢ³           as computed
	//
	// where z is measured from the reference line. The divisor is N: this is the plain moment, with no correction for a sample.
	//
	//   - Symbol: Rsk; Psk and Wsk are the same on the other profiles.
	//   - Input: heights from the reference line, not all zero.
	//   - Unit: none.
	//   - Evaluated over: the evaluation length (ISO 21920-2, ASME); each section, then the mean (ISO 4287).
	//   - Source: ISO 21920-2:2021, 4.2.4; ISO 4287:1997, 4.2.3; ASME B46.1-2009, 1-4.
	//
	// Special cases are:
	//
	//	Rsk(z) = NaN if Rq(z) = 0 or z is empty
	{
		Key: "Rsk", Name: "skewness", shape: true,
		Meanings: []Meaning{
			{editions21920, EvaluationLength, refs(iso21920("4.2.4")), wholeShape(skewness), nil},
			{editions4287, SectionMean, refs(iso4287("4.2.3")), sectionMeanShape(skewness), constructHeights(thirdMoment, true)},
			{editionsASME, EvaluationLength, refs(asme()), wholeShape(skewness), nil},
		},
		Formula:   "Rsk = frac{1}{Rq^{3}} * frac{1}{N} * sum{i=1}{N}{z_i^{3}}",
		Defined:   "Rsk = frac{1}{Rq^{3}} * frac{1}{le} * int{0}{le}{z(x)^{3}}{x}",
		Sentence:  "Compares the cubes of the heights above the line with those below it, so heights far from the line decide.",
		Practice:  "Negative: the far pits outweigh the far peaks, as on a plateau-honed bore. Positive: the far peaks outweigh the far pits, as on a turned surface with sharp ridges. Zero: the two sums are equal; the profile need not be symmetric.",
		Blind:     "How large the heights are, and their order along the trace. One scratch can decide its sign.",
		construct: constructHeights(thirdMoment, false),
	},
	// func Rku(z []float64) float64
	//
	// Rku returns the kurtosis of the heights z.
	//
	//	Rku = 1/Rq⁴ 1/l ∫ z(x)⁴ dx      as defined
	//	Rku = 1/(N Rq⁴) Σ zᵢ⁴           as computed
	//
	// where z is measured from the reference line. Gaussian heights have 3: no 3 is subtracted.
	//
	//   - Symbol: Rku; Pku and Wku are the same on the other profiles.
	//   - Input: heights from the reference line, not all zero.
	//   - Unit: none.
	//   - Evaluated over: the evaluation length (ISO 21920-2, ASME); each section, then the mean (ISO 4287).
	//   - Source: ISO 21920-2:2021, 4.2.5; ISO 4287:1997, 4.2.4; ASME B46.1-2009, 1-4.
	//
	// Special cases are:
	//
	//	Rku(z) = NaN if Rq(z) = 0 or z is empty
	{
		Key: "Rku", Name: "kurtosis", shape: true,
		Meanings: []Meaning{
			{editions21920, EvaluationLength, refs(iso21920("4.2.5")), wholeShape(kurtosis), nil},
			{editions4287, SectionMean, refs(iso4287("4.2.4")), sectionMeanShape(kurtosis), constructHeights(fourthMoment, true)},
			{editionsASME, EvaluationLength, refs(asme()), wholeShape(kurtosis), nil},
		},
		Formula:   "Rku = frac{1}{Rq^{4}} * frac{1}{N} * sum{i=1}{N}{z_i^{4}}",
		Defined:   "Rku = frac{1}{Rq^{4}} * frac{1}{le} * int{0}{le}{z(x)^{4}}{x}",
		Sentence:  "How much of the spread comes from few heights far from the line: 3 for normally distributed heights, 1.5 for a sine.",
		Practice:  "Well above 3: few heights far from the line, such as the grooves of a plateau-honed bore, scratches or dust. Below 3: heights that stay within a band, as on a turned surface.",
		Blind:     "Whether the far heights are peaks or pits, and where they are. Some statistics programs subtract 3; here nothing is subtracted.",
		construct: constructHeights(fourthMoment, false),
	},
}

var nan = math.NaN()

// mean returns the arithmetic mean, NaN of nothing.
func mean(s []float64) float64 {
	if len(s) == 0 {
		return nan
	}
	sum := 0.0
	for _, v := range s {
		sum += v
	}
	return sum / float64(len(s))
}

// Ra returns the arithmetic mean height of z.
//
//	Ra = 1/l ∫ |z(x)| dx      as defined
//	Ra = 1/N Σ |zᵢ|           as computed
//
// where z is measured from the reference line.
//
//   - Symbol: Ra; Pa and Wa are the same on the other profiles.
//   - Input: heights from the reference line, at least one.
//   - Unit: that of z.
//   - Evaluated over: the evaluation length (ISO 21920-2, ASME, JIS 1982); each section, then the mean (ISO 4287, JIS 1994).
//   - Source: ISO 21920-2:2021, 4.2.2; ISO 4287:1997, 4.2.1; ASME B46.1-2009, 1-4; JIS B 0601:1982; JIS B 0601:1994.
//
// Special cases are:
//
//	Ra(nil) = NaN
func Ra(z []float64) float64 {
	if len(z) == 0 {
		return nan
	}
	sum := 0.0
	for _, v := range z {
		sum += math.Abs(v)
	}
	return sum / float64(len(z))
}

// Rq returns the root mean square height of z.
//
//	Rq = √(1/l ∫ z(x)² dx)      as defined
//	Rq = √(1/N Σ zᵢ²)           as computed
//
// where z is measured from the reference line.
//
//   - Symbol: Rq; Pq and Wq are the same on the other profiles.
//   - Input: heights from the reference line, at least one.
//   - Unit: that of z.
//   - Evaluated over: the evaluation length (ISO 21920-2, ASME); each section, then the mean (ISO 4287).
//   - Source: ISO 21920-2:2021, 4.2.3; ISO 4287:1997, 4.2.2; ASME B46.1-2009, 1-4.
//
// Special cases are:
//
//	Rq(nil) = NaN
func Rq(z []float64) float64 {
	if len(z) == 0 {
		return nan
	}
	sum := 0.0
	for _, v := range z {
		sum += float64(v * v)
	}
	return math.Sqrt(sum / float64(len(z)))
}

// skewness returns the third moment over the third power of Rq, NaN when Rq is at most flat. The heights are divided
// by Rq before they are raised, so that no power leaves the range of floating point.
func skewness(z []float64, flat float64) float64 {
	q := Rq(z)
	if !(q > flat) {
		return nan
	}
	sum := 0.0
	for _, v := range z {
		u := v / q
		sum += float64(float64(u*u) * u)
	}
	return sum / float64(len(z))
}

// kurtosis returns the fourth moment over the fourth power of Rq, NaN when Rq is at most flat.
func kurtosis(z []float64, flat float64) float64 {
	q := Rq(z)
	if !(q > flat) {
		return nan
	}
	sum := 0.0
	for _, v := range z {
		u := v / q
		u2 := float64(u * u)
		sum += float64(u2 * u2)
	}
	return sum / float64(len(z))
}

// A moment is one of the averages of the heights, with its calculation.
type moment struct {
	of    func(z []float64, flat float64) float64
	power int
	level string // what the level drawn is: the value itself, or Rq
	form  string // with the sum of the powers, the count and, where it enters, Rq
}

var (
	arithmeticMoment = moment{of: func(z []float64, _ float64) float64 { return Ra(z) }, power: 1, form: "{1} / {2}"}
	secondMoment     = moment{of: func(z []float64, _ float64) float64 { return Rq(z) }, power: 2, form: "√({1} / {2})"}
	thirdMoment      = moment{of: skewness, power: 3, level: "Rq", form: "{1} / ({2} · {3}³)"}
	fourthMoment     = moment{of: kurtosis, power: 4, level: "Rq", form: "{1} / ({2} · {3}⁴)"}
)

// constructHeights shows an average of the heights as a level above and below the reference line: in each section, or
// over the evaluation length.
func constructHeights(m moment, sections bool) constructor {
	return func(w *work, _ []float64, c *Construction) {
		if !sections {
			c.add(m.step(w, c, 0, w.length(), w.z, "over the evaluation length of "+millimetres(w.length())))
			terms := []float64{m.sum(w.z), float64(w.n)}
			if m.level != "" {
				terms = append(terms, w.rq())
			}
			c.work(m.form, terms...)
			return
		}
		var terms []float64
		for k := range w.count {
			from, to := w.bounds(k)
			s := m.step(w, c, from, to, w.sectionAt(k), "")
			if math.IsNaN(s.Value) {
				continue
			}
			terms = append(terms, s.Value)
			c.section(k, s)
		}
		c.mean(terms)
	}
}

func (m *moment) step(w *work, c *Construction, from, to float64, z []float64, where string) Step {
	v := m.of(z, w.in.Flat)
	high, label := v, c.Symbol
	if m.level != "" {
		high, label = Rq(z), m.level
	}
	return step(where+": "+digits(v, 4)+unitText(c.Unit), v,
		level("", from, to, 0), level(label, from, to, high), level("", from, to, -high))
}

// sum returns the sum of the powers of the heights, of their absolute values for the first.
func (m *moment) sum(z []float64) float64 {
	sum := 0.0
	for _, v := range z {
		if m.power == 1 {
			v = math.Abs(v)
		}
		term := v
		for range m.power - 1 {
			term *= v
		}
		sum += term
	}
	return sum
}
