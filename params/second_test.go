package params_test

import (
	"cmp"
	"math"
	"math/cmplx"
	"slices"

	"example.com/furrow/params"
)

// A second implementation of the parameters in plain loops from their definitions, slow and sharing nothing with the first. It takes
// continuous random profiles: no two heights are equal and none is 0.

type plainly struct {
	z    []float64
	dx   float64
	n    int // points in a section
	over params.Over
	args []float64
}

func (s plainly) sections() (list []plainly) {
	for i := 0; i+s.n <= len(s.z); i += s.n {
		list = append(list, plainly{z: s.z[i : i+s.n], dx: s.dx, n: s.n, args: s.args})
	}
	return list
}

// by applies f over the length of the meaning.
func (s plainly) by(f func(plainly) float64) float64 {
	if s.over == params.EvaluationLength {
		return f(s)
	}
	var values []float64
	for _, x := range s.sections() {
		if v := f(x); !math.IsNaN(v) {
			values = append(values, v)
		}
	}
	if s.over == params.LargestSection {
		return slices.Max(values)
	}
	return average(values)
}

func (s plainly) power(p float64, f func(float64) float64) float64 {
	sum := 0.0
	for _, v := range s.z {
		sum += math.Pow(f(v), p)
	}
	return sum / float64(len(s.z))
}

func identity(v float64) float64 { return v }

// slopes are by the seven-point formula written out.
func (s plainly) slopes() (list []float64) {
	for i := 3; i+3 < len(s.z); i++ {
		z := s.z[i-3:]
		list = append(list, (z[6]-9*z[5]+45*z[4]-45*z[2]+9*z[1]-z[0])/(60*s.dx))
	}
	return list
}

// slopesOf are those of the points of section k, with neighbours beyond its borders.
func (s plainly) bySlopes(f func(g []float64) float64) float64 {
	all := s.slopes()
	if s.over == params.EvaluationLength {
		return f(all)
	}
	sum, count := 0.0, 0.0
	for k := 0; (k+1)*s.n <= len(s.z); k++ {
		sum += f(all[max(0, k*s.n-3):min(len(all), (k+1)*s.n-3)])
		count++
	}
	return sum / count
}

func over(g []float64, f func(float64) float64) float64 {
	sum := 0.0
	for _, v := range g {
		sum += f(v)
	}
	return sum / float64(len(g))
}

// ratio is the share of the line through the points at or above a height, in %.
func (s plainly) ratio(height float64) float64 {
	sum := 0.0
	for i := 1; i < len(s.z); i++ {
		a, b := max(s.z[i-1], s.z[i]), min(s.z[i-1], s.z[i])
		sum += max(0, min(1, (a-height)/(a-b)))
	}
	return 100 * sum / float64(len(s.z)-1)
}

// heightOf halves the way to the height with a ratio.
func (s plainly) heightOf(p float64) float64 {
	low, high := slices.Min(s.z), slices.Max(s.z)
	for range 200 {
		if m := (low + high) / 2; s.ratio(m) >= p {
			low = m
		} else {
			high = m
		}
	}
	return low
}

// falling are the heights from the highest down.
func (s plainly) falling() []float64 {
	z := slices.Clone(s.z)
	slices.SortFunc(z, func(a, b float64) int { return cmp.Compare(b, a) })
	return z
}

// curve is the height of the falling points at a ratio from 0 to 1.
func curve(z []float64, p float64) float64 {
	u := p*float64(len(z)) - 0.5
	i := int(math.Floor(u))
	if i < 0 {
		return z[0]
	}
	if i >= len(z)-1 {
		return z[len(z)-1]
	}
	return z[i] + (u-float64(i))*(z[i+1]-z[i])
}

// above is the area between the curve and a level where the curve is above it, from one ratio to another, by its corners.
func (s plainly) above(level, from, to, sign float64) float64 {
	n, z := float64(len(s.z)), s.falling()
	corners := []float64{from, to}
	for i := range s.z {
		if x := (float64(i) + 0.5) / n; x > from && x < to {
			corners = append(corners, x)
		}
	}
	slices.Sort(corners)
	sum := 0.0
	for i := 1; i < len(corners); i++ {
		a, b := sign*(curve(z, corners[i-1])-level), sign*(curve(z, corners[i])-level)
		w := corners[i] - corners[i-1]
		switch {
		case a >= 0 && b >= 0:
			sum += (a + b) / 2 * w
		case a > 0:
			sum += a * a / (a - b) / 2 * w
		case b > 0:
			sum += b * b / (b - a) / 2 * w
		}
	}
	return sum
}

// core fits the line through the flattest 40 % by the normal equations in ratios.
func (s plainly) core() (upper, lower, r1, r2 float64) {
	n, z := len(s.z), s.falling()
	width := int(math.Round(0.4 * float64(n)))
	first, least := 0, math.Inf(1)
	for i := 0; i+width < n; i++ {
		if fall := z[i] - z[i+width]; fall < least-1e-9*(z[0]-z[n-1]) {
			first, least = i, fall
		}
	}
	var sx, sy, sxx, sxy, m float64
	for i := first; i <= first+width; i++ {
		x := (float64(i) + 0.5) / float64(n)
		sx, sy, sxx, sxy, m = sx+x, sy+z[i], sxx+x*x, sxy+x*z[i], m+1
	}
	slope := (m*sxy - sx*sy) / (m*sxx - sx*sx)
	upper = (sy - slope*sx) / m
	lower = upper + slope
	share := func(height float64) float64 { // the curve falls: halve the way
		a, b := 0.0, 1.0
		for range 100 {
			if c := (a + b) / 2; curve(z, c) > height {
				a = c
			} else {
				b = c
			}
		}
		return a
	}
	return upper, lower, share(upper), share(lower)
}

// A piece lies between two crossings.
type secondPart struct{ from, to, height float64 }

// parts are the pieces between crossings, complete ones only, and the heights are signed.
func (s plainly) parts() (list []secondPart) {
	var crossings []float64
	for i := 1; i < len(s.z); i++ {
		if s.z[i]*s.z[i-1] < 0 {
			crossings = append(crossings, float64(i-1)+s.z[i-1]/(s.z[i-1]-s.z[i]))
		}
	}
	for k := 1; k < len(crossings); k++ {
		p := secondPart{from: crossings[k-1], to: crossings[k]}
		for i := int(math.Ceil(p.from)); float64(i) <= p.to; i++ {
			if math.Abs(s.z[i]) > math.Abs(p.height) {
				p.height = s.z[i]
			}
		}
		list = append(list, p)
	}
	return list
}

// significant joins what does not count to its neighbours, the lowest first, until all counts.
func significant(list []secondPart, counts func(secondPart) bool) []secondPart {
	for {
		at := -1
		for i, p := range list {
			if !counts(p) && (at < 0 || math.Abs(p.height) < math.Abs(list[at].height)) {
				at = i
			}
		}
		switch {
		case at < 0:
			return list
		case at == 0:
			list = list[1:]
		case at == len(list)-1:
			list = list[:at]
		default:
			p := secondPart{list[at-1].from, list[at+1].to, list[at-1].height}
			if math.Abs(list[at+1].height) > math.Abs(p.height) {
				p.height = list[at+1].height
			}
			list = slices.Concat(list[:at-1], []secondPart{p}, list[at+2:])
		}
	}
}

// elements are the widths and heights of the profile elements; the older rule gives the section of each.
func (s plainly) elements(older bool) (widths, heights []float64, section []int) {
	rp := plainly{z: s.z, n: s.n, over: params.SectionMean}.by(func(x plainly) float64 { return slices.Max(x.z) })
	rv := plainly{z: s.z, n: s.n, over: params.SectionMean}.by(func(x plainly) float64 { return -slices.Min(x.z) })
	const least = 1 - 1e-12 // the rounding of a threshold decides nothing
	step := 1
	list := significant(s.parts(), func(p secondPart) bool {
		if older {
			return math.Abs(p.height) >= 0.1*(rp+rv)*least && p.to-p.from >= 0.01*float64(s.n)*least
		}
		return p.height >= 0.1*rp*least || p.height <= -0.1*rv*least
	})
	if older {
		step = 2
	}
	for i := 0; i+1 < len(list); i += step {
		if k := int(list[i].from) / s.n; (k+1)*s.n <= len(s.z) || !older {
			widths = append(widths, (list[i+1].to-list[i].from)*s.dx)
			heights = append(heights, math.Abs(list[i].height)+math.Abs(list[i+1].height))
			section = append(section, k)
		}
	}
	return widths, heights, section
}

func meanBySection(values []float64, section []int) float64 {
	sum, count := map[int]float64{}, map[int]float64{}
	for i, v := range values {
		sum[section[i]] += v
		count[section[i]]++
	}
	total := 0.0
	for k := range sum {
		total += sum[k] / count[k]
	}
	return total / float64(len(sum))
}

func deviation(v []float64) float64 {
	m := average(v)
	return math.Sqrt(over(v, func(x float64) float64 { return (x - m) * (x - m) }))
}

// transform is the discrete Fourier transform by its sum.
func transform(z []float64, k int) complex128 {
	sum := complex(0, 0)
	for i, v := range z {
		sum += complex(v, 0) * cmplx.Exp(complex(0, -2*math.Pi*float64(k)*float64(i)/float64(len(z))))
	}
	return sum
}

// ranked are the heights of the parts of one side, those cut off by the ends too, from the largest down.
func (s plainly) ranked(sign float64) (heights []float64) {
	best := 0.0
	for i, v := range s.z {
		if v *= sign; v > best {
			best = v
		}
		if best > 0 && (v < 0 || i == len(s.z)-1) {
			heights = append(heights, best)
			best = 0
		}
	}
	slices.Sort(heights)
	slices.Reverse(heights)
	return heights
}

// extremes are the local peaks, or pits, that naive pruning leaves.
func (s plainly) extremes(peaks bool) (list []params.Extreme) {
	rt := slices.Max(s.z) - slices.Min(s.z)
	var all []params.Extreme
	for i := 1; i+1 < len(s.z); i++ {
		if a, b := s.z[i]-s.z[i-1], s.z[i]-s.z[i+1]; a*b > 0 {
			all = append(all, params.Extreme{At: float64(i), Z: s.z[i], Peak: a > 0})
		}
	}
	for _, x := range pruneNaively(all, 0.05*rt) {
		if x.Peak == peaks {
			list = append(list, x)
		}
	}
	return list
}

func (s plainly) fiveOf(peaks bool) float64 {
	var heights []float64
	for _, x := range s.extremes(peaks) {
		heights = append(heights, math.Abs(x.Z))
		if (x.Z > 0) != peaks {
			heights[len(heights)-1] = -math.Abs(x.Z)
		}
	}
	slices.Sort(heights)
	if len(heights) < 5 {
		return math.NaN()
	}
	return average(heights[len(heights)-5:])
}

func (s plainly) curvature(peaks bool) float64 {
	var list []float64
	for _, x := range s.extremes(peaks) {
		if i := int(x.At); i >= 3 && i+3 < len(s.z) {
			z := s.z[i-3:]
			c := (2*z[0] - 27*z[1] + 270*z[2] - 490*z[3] + 270*z[4] - 27*z[5] + 2*z[6]) / (180 * s.dx * s.dx) * 1000
			if peaks {
				c = -c
			}
			list = append(list, c)
		}
	}
	return average(list)
}
