package params

import (
	"math"
	"testing"
)

// A plateau that is level within the tolerance: its height is the mean of its points, and its ratios are where they begin and end.
func TestLevelCore(t *testing.T) {
	for _, c := range []struct {
		z              []float64
		at             int
		tolerance      float64
		first, last    int
		ratio1, ratio2 float64
	}{
		{[]float64{10, 2.25, 2.125, 2, 2, 1.75, -5}, 3, 0.25, 1, 5, 1.5 / 7, 5.5 / 7},
		{[]float64{10, 2.26, 2.25, 2, 2, 1.74, -5}, 3, 0.25, 2, 4, 2.5 / 7, 4.5 / 7},
		{[]float64{2.25, 2, 2, 1.75}, 1, 0.25, 0, 3, 0, 1},
		{[]float64{3, 2, 1}, 1, 0, 1, 1, 1.5 / 3, 1.5 / 3},
	} {
		k := core{}
		k.first, k.last = c.at, c.at
		k.level(c.z, c.tolerance)
		mean := 0.0
		for _, v := range c.z[c.first : c.last+1] {
			mean += v / float64(c.last+1-c.first)
		}
		if math.Abs(k.upper-mean) > 1e-15 || k.lower != k.upper || k.slope != 0 || k.ratio1 != c.ratio1 || k.ratio2 != c.ratio2 {
			t.Errorf("%v: %v from %v to %v, want %v from %v to %v", c.z, k.upper, k.ratio1, k.ratio2, mean, c.ratio1, c.ratio2)
		}
	}
}

// An end of the probability curve begins where its second derivative passes the limit, which is a billionth of the range where the middle is
// straight, and six standard deviations where it is not.
func TestCutEnds(t *testing.T) {
	s, z := make([]float64, 101), make([]float64, 101)
	for _, c := range []struct {
		bend, rough float64 // of the range
		from, to    int
	}{{0.995e-9, 0, 0, 101}, {1.005e-9, 0, 10, 91}, {-1.005e-9, 0, 10, 91}, {0.05, 0.009, 0, 101}, {0.05, 0.0083, 10, 91}} {
		for i := range z {
			s[i], z[i] = float64(i-50)/10, 100-float64(i)
			if i < 10 {
				z[i] += float64(10-i) * c.bend * 100
			}
			if i > 90 {
				z[i] -= float64(i-90) * c.bend * 100
			}
			if i > 10 && i < 90 { // a second derivative of + and - 4 times as much, but for the ends
				z[i] += float64(1-i%2*2) * c.rough * 100 / 4
			}
		}
		if c.rough > 0 { // the roughness would be seen outside the middle half itself, at its ends
			for i := range z {
				if i < 24 || i > 76 {
					z[i] = 100 - float64(i)
					if i < 10 {
						z[i] += float64(10-i) * c.bend * 100
					}
					if i > 90 {
						z[i] -= float64(i-90) * c.bend * 100
					}
				}
			}
		}
		from, to := cutEnds(s, z, 0)
		if from != c.from || to != c.to {
			t.Errorf("bend %g, roughness %g: from %d to %d, want %d and %d", c.bend, c.rough, from, to, c.from, c.to)
		}
	}
}

// A wave on the border of the band, half an octave from the given wavelength, belongs to it, up to a billionth.
func TestBordersOfTheBand(t *testing.T) {
	const n, dx = 400, 0.5
	for _, k := range []int{7, 10, 40} {
		z := make([]float64, n)
		for i := range z {
			z[i] = math.Cos(2*math.Pi*float64(k)*float64(i)/n) + math.Cos(2*math.Pi*float64(k)*float64(n-1-i)/n) // even: no regression line
		}
		size := largest(z)
		for _, c := range []struct {
			off  float64
			kept bool
		}{{0, true}, {0.95e-9, true}, {1.05e-9, false}, {-0.1, true}} {
			upper := n * dx * math.Sqrt2 / float64(k) * (1 + c.off) // then the shortest wave of the band is that of k
			lower := n * dx / math.Sqrt2 / float64(k) * (1 - c.off) // and the longest one
			for _, wavelength := range []float64{upper, lower} {
				if got := largest(dominantProfile(z, dx, wavelength)); (got > size/2) != c.kept {
					t.Errorf("%d waves, %.12g: a height of %g of %g is left", k, wavelength, got, size)
				}
			}
		}
	}
}

// Of two amplitudes that differ by less than a billionth the longer wave counts.
func TestEqualPeaksOfASpectrum(t *testing.T) {
	for _, c := range []struct {
		second float64
		want   int
	}{{1, 2}, {1 + 0.95e-9, 2}, {1 + 1.05e-9, 5}, {0.5, 2}} {
		s := Spectrum{Amplitude: []float64{0, 0.1, 1, 0.1, 0.1, c.second, 0.1, 0, 0}, Step: 1}
		if got := s.Peak(); got != c.want {
			t.Errorf("amplitudes 1 and %.12g: peak at %d, want %d", c.second, got, c.want)
		}
		d := dominance{Amplitudes: s.Amplitude, First: 1, Last: 7}
		if got := d.peaks(0.5); len(got) == 0 || got[0] != c.want {
			t.Errorf("amplitudes 1 and %.12g: the peaks are %v, want %d first", c.second, got, c.want)
		}
	}
	last := dominance{Amplitudes: []float64{0, 0.1, 0.1, 0.6, 0.7, 1}, First: 1, Last: 5} // a peak in the last bin has no neighbour behind it
	if got := last.peaks(0.5); len(got) != 1 || got[0] != 5 || last.between(5) > 0 {
		t.Errorf("the peaks are %v, and the last one lies %g beside its bin", got, last.between(5))
	}
	for mean, want := range map[float64]int{0.95e12: 1, 1.05e12: 0} { // 1e-12 of the mean height is rounding
		if got := (&Spectrum{Amplitude: []float64{mean, 2, 0, 0}, Step: 1}).Peak(); got != want {
			t.Errorf("mean %g: peak at %d, want %d", mean, got, want)
		}
	}
}
