package params

import (
	"cmp"
	"math"
	"slices"
	"strings"
)

// heightRows are the averages of the heights.
var heightRows = []row{
	{`Ra: arithmetic mean height
in iso-21920, the evaluation length: ISO 21920-2:2021, 4.2.2 (excerpt)
in iso-4287 jis-b0601-2013, each section, then the mean: ISO 4287:1997, 4.2.1 (excerpt)
in asme-b46.1, the evaluation length: ASME B46.1-2009, 1-4 (memory)
in jis-b0601-1982, the evaluation length: JIS B 0601:1982 (memory)
in jis-b0601-1994, each section, then the mean: JIS B 0601:1994 (excerpt)
formula: Ra = frac{1}{N} * sum{i=1}{N}{abs{z_i}}
defined: Ra = frac{1}{le} * int{0}{le}{abs{z(x)}}{x}
says: The mean distance of the profile from its reference line; hills and dales count alike.
practice: Used to watch whether a process stays the same. It says little about how a surface works.
blind: Shape: peaks or pits, few large or many small, close or far apart.`,
		over(unflat(Ra), "", ""), constructMean},
	{`Rq: root mean square height
in iso-21920, the evaluation length: ISO 21920-2:2021, 4.2.3 (excerpt)
in iso-4287 jis-b0601-2013, each section, then the mean: ISO 4287:1997, 4.2.2 (memory)
in asme-b46.1, the evaluation length: ASME B46.1-2009, 1-4 (memory)
formula: Rq = sqrt{frac{1}{N} * sum{i=1}{N}{z_i^{2}}}
defined: Rq = sqrt{frac{1}{le} * int{0}{le}{z(x)^{2}}{x}}
says: The square root of the mean of the squared heights; large heights count more than in Ra.
practice: Used for optical surfaces: the light that a smooth surface scatters grows with the square of Rq.
blind: Peaks or pits, and how far apart they are.`,
		over(unflat(Rq), "", ""), constructRoot},
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
	{`Rsk: skewness
in iso-21920, the evaluation length: ISO 21920-2:2021, 4.2.4 (excerpt)
in iso-4287 jis-b0601-2013, each section, then the mean: ISO 4287:1997, 4.2.3 (memory)
in asme-b46.1, the evaluation length: ASME B46.1-2009, 1-4 (memory)
formula: Rsk = frac{1}{Rq^{3}} * frac{1}{N} * sum{i=1}{N}{z_i^{3}}
defined: Rsk = frac{1}{Rq^{3}} * frac{1}{le} * int{0}{le}{z(x)^{3}}{x}
says: Compares the cubes of the heights above the line with those below it, so heights far from the line decide.
practice: Negative: the far pits outweigh the far peaks, as on a plateau-honed bore. Positive: the far peaks outweigh the far pits, as on a turned surface with sharp ridges. Zero: the two sums are equal; the profile need not be symmetric.
blind: How large the heights are, and their order along the trace. One scratch can decide its sign.
shape: needed`,
		over(skewness, lacksShape, allFlat), constructSkewness},
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
	{`Rku: kurtosis
in iso-21920, the evaluation length: ISO 21920-2:2021, 4.2.5 (excerpt)
in iso-4287 jis-b0601-2013, each section, then the mean: ISO 4287:1997, 4.2.4 (memory)
in asme-b46.1, the evaluation length: ASME B46.1-2009, 1-4 (memory)
formula: Rku = frac{1}{Rq^{4}} * frac{1}{N} * sum{i=1}{N}{z_i^{4}}
defined: Rku = frac{1}{Rq^{4}} * frac{1}{le} * int{0}{le}{z(x)^{4}}{x}
says: How much of the spread comes from few heights far from the line: 3 for normally distributed heights, 1.5 for a sine.
practice: Well above 3: few heights far from the line, such as the grooves of a plateau-honed bore, scratches or dust. Below 3: heights that stay within a band, as on a turned surface.
blind: Whether the far heights are peaks or pits, and where they are. Some statistics programs subtract 3; here nothing is subtracted.
shape: needed`,
		over(kurtosis, lacksShape, allFlat), constructKurtosis},
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

const (
	lacksShape = "is flat"
	allFlat    = "every section is flat: Rq = 0"
)

// unflat makes f one that does not ask whether the profile is flat.
func unflat(f func(z []float64) float64) func(z []float64, flat float64) float64 {
	return func(z []float64, _ float64) float64 { return f(z) }
}

// A powerSum is how a mean of powers of the heights is worked out: with the frame of the sum, and the pattern of its terms.
type powerSum struct {
	frame, pattern string
	of             func(z float64) float64
}

var (
	absolutes = powerSum{"(Σ) / N", "|#|", math.Abs}
	squares   = powerSum{"√((Σ) / N)", "#²", func(z float64) float64 { return z * z }}
	cubes     = powerSum{"(Σ) / (N · Rq³)", "#³", func(z float64) float64 { return z * z * z }}
	fourths   = powerSum{"(Σ) / (N · Rq⁴)", "#⁴", func(z float64) float64 { return z * z * z * z }}
)

// overPieces shows a mean of powers piece by piece: the sections, or the evaluation length.
func (c *Construction) overPieces(w *work, p powerSum, of func(z []float64, flat float64) float64, show func(p piece, v, rq float64)) {
	var values []float64
	for _, piece := range w.lengths() {
		v, rq := of(piece.z, w.in.Flat), Rq(piece.z)
		if math.IsNaN(v) {
			continue
		}
		show(piece, v, rq)
		values = append(values, v)
		if piece.section > 1 {
			continue
		}
		s, symbol := &sheet{}, c.Symbol
		frame := strings.NewReplacer("N", s.of(float64(len(piece.z))), "Rq", s.of(rq)).Replace(p.frame)
		if piece.section == 1 {
			symbol += " of section 1"
		}
		form := s.sum(frame, p.pattern, piece.z, p.of)
		c.workAs(symbol, v, c.Unit, form, s.terms...)
	}
	if w.as.Over != EvaluationLength {
		c.bySections(w, values)
	}
}

// constructMean shows Ra: the dales turned up, and the rectangle with the same area.
func constructMean(w *work, _ []float64, c *Construction) {
	c.overPieces(w, absolutes, unflat(Ra), func(p piece, v, _ float64) {
		from, to := w.ends(p)
		c.in(p, "the dales turned up, the profile encloses the area of a rectangle "+micrometres(v)+" high", v,
			line("|z|", w.strip(p, func(i int) float64 { return math.Abs(w.z[i]) })...),
			rectangle("same area", from, to, v), level(c.Symbol, from, to, v))
	})
}

// constructRoot shows Rq: the squares with their mean, and its root on both sides of the line.
func constructRoot(w *work, _ []float64, c *Construction) {
	c.overPieces(w, squares, unflat(Rq), func(p piece, v, _ float64) {
		from, to := w.ends(p)
		c.in(p, "the mean of the squared heights is "+digits(v*v, 3)+" µm²", nan,
			line("z²", w.strip(p, func(i int) float64 { return w.z[i] * w.z[i] })...),
			rectangle("same area", from, to, v*v), level(c.named("Rq²"), from, to, v*v)).on(SquarePlane)
		c.in(p, "its root is "+micrometres(v), v, level(c.Symbol, from, to, v), level("", from, to, -v))
	})
}

// constructSkewness shows Rsk: the height distribution, and the cubes above and below the line with what each side sums up to.
func constructSkewness(w *work, _ []float64, c *Construction) {
	c.overPieces(w, cubes, skewness, func(p piece, v, rq float64) {
		from, to := w.ends(p)
		above, below := 0.0, 0.0
		for _, z := range p.z {
			above += max(0, z*z*z)
			below += min(0, z*z*z)
		}
		n := float64(len(p.z))
		shares := distribution(p.z)
		most := slices.MaxFunc(shares, func(a, b Point) int { return cmp.Compare(a.X, b.X) }).X
		c.in(p, "height distribution", nan, line("height distribution", shares...), level("reference line", 0, most, 0)).on(DistributionPlane)
		c.in(p, "the cubes above the line sum up to "+digits(above, 3)+" µm³, those below it to "+digits(below, 3)+" µm³, each line at its sum / N", nan,
			line("z³", w.strip(p, func(i int) float64 { return w.z[i] * w.z[i] * w.z[i] })...),
			level("above: sum", from, to, above/n), level("below: sum", from, to, below/n)).on(CubePlane)
		c.in(p, "their difference divided by N · Rq³ is "+digits(v, 4), v, level(c.named("Rq"), from, to, rq), level("", from, to, -rq))
	})
}

// constructKurtosis shows Rku: the height distribution with the normal curve of the same Rq, the fourth powers, and the points that
// give half of their sum.
func constructKurtosis(w *work, _ []float64, c *Construction) {
	c.overPieces(w, fourths, kurtosis, func(p piece, v, rq float64) {
		from, to := w.ends(p)
		sizes := make([]float64, len(p.z))
		sum := 0.0
		for i, z := range p.z {
			sizes[i] = math.Abs(z)
			sum += fourths.of(z)
		}
		slices.Sort(sizes)
		count, half := 0, 0.0
		for half < sum/2 && count < len(sizes) {
			count++
			half += fourths.of(sizes[len(sizes)-count])
		}
		far := sizes[len(sizes)-count]
		c.in(p, "height distribution, and the normal curve of the same Rq", nan,
			line("height distribution", distribution(p.z)...), line("normal curve", normalCurve(p.z, rq)...)).on(DistributionPlane)
		c.in(p, "their fourth powers", nan, line("z⁴", w.strip(p, func(i int) float64 { return fourths.of(w.z[i]) })...),
			level("mean", from, to, sum/float64(len(p.z)))).on(FourthPlane)
		c.in(p, "half of the sum comes from the "+percent(float64(count)/float64(len(p.z)))+" of the points that are "+micrometres(far)+" or more from the line; the mean divided by Rq⁴ is "+digits(v, 4), v,
			level("half of the sum from here on", from, to, far), level("half of the sum from here on", from, to, -far))
	})
}

// bands is how many bands of height a distribution has.
const bands = 40

// distribution returns the share of the points in each band of height, in %, against the middle of the band.
func distribution(z []float64) []Point {
	low, high := limits(z)
	height := (high - low) / bands
	if !(height > 0) {
		height = 1
	}
	line := make([]Point, bands)
	for i := range line {
		line[i].Y = low + float64((float64(i)+0.5)*height)
	}
	for _, v := range z {
		line[max(0, min(bands-1, int((v-low)/height)))].X += 100 / float64(len(z))
	}
	return line
}

// normalCurve returns the shares that normally distributed heights of the given Rq have in those bands.
func normalCurve(z []float64, rq float64) []Point {
	line := distribution(z)
	height := line[1].Y - line[0].Y
	for i := range line {
		u := line[i].Y / rq
		line[i].X = 100 * height / rq * math.Exp(-u*u/2) / math.Sqrt(2*math.Pi)
	}
	return line
}
