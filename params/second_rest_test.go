package params_test

import (
	"cmp"
	"math"
	"math/cmplx"
	"slices"

	"example.com/furrow/params"
)

// The second implementation of what rests on spectra, envelopes and the probability curve. The Fourier sums and the normal equations are written
// out; a conic is fitted by elimination and its asymptotes are found by halving.

func init() {
	for key, pick := range map[string]func(upper, lower float64, s plainly, r1, r2 float64) float64{
		"Rke": func(u, l float64, _ plainly, _, _ float64) float64 { return u - l },
		"Rpke": func(u, _ float64, s plainly, r1, _ float64) float64 {
			return 2 * s.above(u, 0, r1, 1) / max(r1, 1e-300)
		},
		"Rvke": func(_, l float64, s plainly, _, r2 float64) float64 { return 2 * s.above(l, r2, 1, -1) / (1 - r2) },
		"Mr1e": func(_, _ float64, _ plainly, r1, _ float64) float64 { return 100 * r1 },
		"Mr2e": func(_, _ float64, _ plainly, _, r2 float64) float64 { return 100 * r2 },
	} {
		secondOf[key] = func(s plainly, _ bool) float64 {
			peaks, _ := s.motifEnvelope(s.args[0])
			var below []float64
			for i, v := range s.z {
				if x := float64(i) * s.dx; len(peaks) > 1 && x >= peaks[0].X-1e-9 && x <= peaks[len(peaks)-1].X+1e-9 {
					k := 0
					for x > peaks[k+1].X+1e-9 {
						k++
					}
					p, q := peaks[k], peaks[k+1]
					below = append(below, v-(p.Y*(q.X-x)+q.Y*(x-p.X))/(q.X-p.X))
				}
			}
			if len(below) == 0 {
				return math.NaN()
			}
			b := plainly{z: below}
			u, l, r1, r2 := b.core()
			return pick(u, l, b, r1, r2)
		}
	}
	for key, pick := range map[string]func(depths, widths []float64) float64{
		"W": func(d, _ []float64) float64 { return average(d) }, "AW": func(_, w []float64) float64 { return average(w) },
		"Wx": func(d, _ []float64) float64 { return largest(d) }, "Nw": func(_, w []float64) float64 { return float64(len(w)) },
		"SW": func(d, _ []float64) float64 { return deviation(d) }, "SAW": func(_, w []float64) float64 { return deviation(w) },
	} {
		secondOf[key] = func(s plainly, _ bool) float64 {
			var d, w []float64
			for _, m := range s.wavinessMotifs(s.args[0], s.args[1]) {
				d, w = append(d, m.z1-m.pit, m.z2-m.pit), append(w, m.x2-m.x1)
			}
			return pick(d, w)
		}
	}
	secondOf["Wte"] = func(s plainly, _ bool) float64 {
		_, e := s.motifEnvelope(s.args[0])
		if len(e) < 2 {
			return math.NaN()
		}
		y := func(a, b params.Point) int { return cmp.Compare(a.Y, b.Y) }
		return slices.MaxFunc(e, y).Y - slices.MinFunc(e, y).Y
	}
	secondOf["WDSm"] = func(s plainly, _ bool) float64 { return s.dominant() }
	secondOf["WDt"] = func(s plainly, _ bool) float64 {
		wave, ok := s.dominantBand()
		if !ok {
			return math.NaN()
		}
		return total(wave)
	}
	secondOf["WDc"] = func(s plainly, _ bool) float64 {
		wave, ok := s.dominantBand()
		if !ok {
			return math.NaN()
		}
		_, h, _ := wave.elements(false)
		return average(h)
	}
	for i, key := range []string{"Rpq", "Rvq", "Rmq"} {
		secondOf[key] = func(s plainly, _ bool) float64 { return s.probability()[i] }
	}
}

func largest(v []float64) float64 {
	if len(v) == 0 {
		return math.NaN()
	}
	return slices.Max(v)
}

// motifEnvelope is the line through the ends of all motifs, as the peaks stand and with the outstanding ones lowered.
func (s plainly) motifEnvelope(a float64) (peaks, lowered []params.Point) {
	chain := s.joined(a)
	var depths []float64
	for _, m := range chain {
		if m.x2-m.x1 <= a*(1+1e-12) {
			depths = append(depths, m.z1-m.pit, m.z2-m.pit)
		}
	}
	limit := average(depths) + 1.65*deviation(depths)
	for i, m := range chain {
		if i == 0 {
			peaks = append(peaks, params.Point{X: m.x1, Y: m.z1})
		}
		peaks = append(peaks, params.Point{X: m.x2, Y: m.z2})
	}
	lowered = slices.Clone(peaks)
	for i := 1; i < len(chain); i++ {
		p, q := chain[i-1], chain[i]
		if max(p.x2-p.x1, q.x2-q.x1) <= a*(1+1e-12) && p.z2-p.pit > limit && q.z1-q.pit > limit {
			lowered[i].Y = max(p.pit, q.pit) + limit
		}
	}
	return peaks, lowered
}

// wavinessMotifs are the motifs of the envelope up to the width b.
func (s plainly) wavinessMotifs(a, b float64) []plainMotif {
	_, line := s.motifEnvelope(a)
	var list []plainMotif
	for i := 1; i+1 < len(line); i++ {
		if line[i].Y < line[i-1].Y && line[i].Y < line[i+1].Y { // a pit of the envelope: up to the peaks on both sides
			l, r := i, i
			for l > 0 && line[l-1].Y > line[l].Y {
				l--
			}
			for r+1 < len(line) && line[r+1].Y > line[r].Y {
				r++
			}
			if l > 0 && r+1 < len(line) {
				list = append(list, plainMotif{line[l].X, line[l].Y, line[i].Y, line[r].X, line[r].Y})
			}
		}
	}
	return narrow(join(list, b), b)
}

// spectrum is the amplitude at k periods of the profile without its line, under a Hann window of mean 1.
func (s plainly) spectrum(flat []float64, k int) float64 {
	n := len(flat)
	windowed := make([]float64, n)
	for i, v := range flat {
		windowed[i] = v * 2 * math.Pow(math.Sin(math.Pi*(float64(i)+0.5)/float64(n)), 2)
	}
	return 2 * cmplx.Abs(transform(windowed, k)) / float64(n)
}

// straightened is the profile without its regression line.
func (s plainly) straightened() []float64 {
	n := float64(len(s.z))
	sz, sxz := 0.0, 0.0
	for i, v := range s.z {
		sz, sxz = sz+v, sxz+(float64(i)-(n-1)/2)*v
	}
	flat := make([]float64, len(s.z))
	for i, v := range s.z {
		flat[i] = v - sz/n - sxz*12/(n*(n*n-1))*(float64(i)-(n-1)/2)
	}
	return flat
}

// dominant is the wavelength of the largest peak of the spectrum, from five periods to 20 µm, that exceeds four times the median of that
// range and of the octaves beside it.
func (s plainly) dominant() float64 {
	flat := s.straightened()
	n := len(flat)
	a := make([]float64, n/2+1)
	for k := range a {
		a[k] = s.spectrum(flat, k)
	}
	last := min(n/2, int(s.length()/20+1e-9))
	if last-5 < 4 {
		return math.NaN()
	}
	middle := func(v []float64) float64 {
		if len(v) == 0 {
			return 0
		}
		v = slices.Sorted(slices.Values(v))
		return (v[(len(v)-1)/2] + v[len(v)/2]) / 2
	}
	best := 0
	for k := 5; k <= last; k++ {
		limit := 4 * max(middle(a[5:last+1]), middle(a[max(1, k/2):k-2]), middle(a[min(k+3, len(a)):min(2*k+1, len(a))]))
		if a[k] >= a[k-1] && (k == n/2 || a[k] >= a[k+1]) && a[k] > limit && (best == 0 || a[k] > a[best]) {
			best = k
		}
	}
	if best == 0 {
		return math.NaN()
	}
	side, sign := 0.0, 1.0
	if best < n/2 {
		side = a[best+1]
	}
	if a[best-1] > side {
		side, sign = a[best-1], -1
	}
	shift := (2*side - a[best]) / (a[best] + side)
	return s.length() / (float64(best) + sign*max(0, min(0.5, shift)))
}

// dominantBand is the sum of the waves within half an octave of the dominant one.
func (s plainly) dominantBand() (plainly, bool) {
	wavelength := s.dominant()
	if math.IsNaN(wavelength) {
		return s, false
	}
	flat, n := s.straightened(), len(s.z)
	out := make([]float64, n)
	for k := 1; k <= n/2; k++ {
		if l := s.length() / float64(k); l < wavelength/math.Sqrt2*(1-1e-9) || l > wavelength*math.Sqrt2*(1+1e-9) {
			continue
		}
		share := 2 / float64(n)
		if 2*k == n {
			share /= 2
		}
		f := transform(flat, k)
		for i := range out {
			out[i] += share * real(f*cmplx.Exp(complex(0, 2*math.Pi*float64(k)*float64(i)/float64(n))))
		}
	}
	return plainly{z: out, dx: s.dx, n: n, over: params.EvaluationLength}, true
}
