package params_test

import (
	"encoding/json"
	"math"
	"os"
	"testing"

	"example.com/furrow/params"
)

// second is what general libraries give: testdata/params/second.py makes it, and with --check compares it anew. The
// normal distribution in it is read by an internal test.
type second struct {
	Libraries string
	Cases     []struct {
		Seed, N       int
		Dx, Threshold float64

		Autocorrelation, Amplitude, Density []float64 // every max(1, N/40)-th value

		Wavelength float64
		Peaks      []float64
	}
	Features []struct {
		Seed, N int
		Dx      float64

		R5p, R5v, Rpd, Rvd, Rmpc, Rmvc, S float64
	}
}

func readSecond(t *testing.T) second {
	t.Helper()
	data, err := os.ReadFile("../testdata/params/second.json")
	if err != nil {
		t.Fatal(err)
	}
	var s second
	if err := json.Unmarshal(data, &s); err != nil {
		t.Fatal(err)
	}
	return s
}

// goldenProfile is the profile the script makes.
func goldenProfile(seed, n int) []float64 {
	u := make([]float64, n+4)
	x := int64(seed)
	for i := range u {
		x = (1103515245*x + 12345) % (1 << 31)
		u[i] = float64(x) / (1 << 31)
	}
	z := make([]float64, n)
	for i := range z {
		sum := 0.0
		for _, v := range u[i : i+5] {
			sum += v
		}
		z[i] = sum/5 - 0.5 + 0.1*math.Sin(2*math.Pi*float64(i)/37)
	}
	return z
}

func TestSpectrumAgainstLibraries(t *testing.T) {
	s := readSecond(t)
	for _, c := range s.Cases {
		z := goldenProfile(c.Seed, c.N)
		step := max(1, c.N/40)
		r := params.Autocorrelation(z)
		spectrum := params.NewSpectrum(z, c.Dx)
		density := spectrum.Density()
		for i, want := range c.Autocorrelation {
			holds(t, "autocorrelation", r[i*step], want, 1e-11, s.Libraries+", direct sum")
		}
		for i, want := range c.Amplitude {
			k := i * step
			got := spectrum.Amplitude[k]
			if k > 0 && 2*k != c.N {
				got /= 2 // the library's is |F|/N
			}
			holds(t, "amplitude", got, want, 1e-12, s.Libraries)
		}
		for i, want := range c.Density {
			holds(t, "density", density[i*step], want, 1e-11*max(1, want), s.Libraries)
		}
		if got := params.Rsw(z, c.Dx); math.Abs(got-c.Wavelength) > 1e-9 {
			t.Errorf("N = %d: Rsw = %v, want %v (%s)", c.N, got, c.Wavelength, s.Libraries)
		}
	}
}

// The height at which a hill is pruned is its prominence as signal processing defines it, when the profile is taken
// to fall for ever beyond both ends.
func TestWatershedAgainstProminence(t *testing.T) {
	s := readSecond(t)
	for _, c := range s.Cases {
		z := goldenProfile(c.Seed, c.N)
		deep := append(append([]float64{-1000}, z...), -1000)
		var peaks []float64
		for _, x := range params.Watershed(deep, c.Threshold) {
			if x.Peak {
				peaks = append(peaks, x.At-1)
			}
		}
		if len(peaks) != len(c.Peaks) {
			t.Fatalf("N = %d: %d peaks, want %d (%s)", c.N, len(peaks), len(c.Peaks), s.Libraries)
		}
		for i, want := range c.Peaks {
			if peaks[i] != want {
				t.Errorf("N = %d: peak %d at %v, want %v (%s)", c.N, i, peaks[i], want, s.Libraries)
			}
		}
	}
}

// The same, with the threshold of the parameters. In these profiles no hill at an end is decided by what the two take to
// lie beyond it.
func TestFeaturesAgainstLibraries(t *testing.T) {
	s := readSecond(t)
	for _, f := range s.Features {
		z := goldenProfile(f.Seed, f.N)
		for _, v := range []struct {
			name      string
			got, want float64
		}{
			{"R5p", params.R5p(z), f.R5p}, {"R5v", params.R5v(z), f.R5v}, {"R10z", params.R10z(z), f.R5p + f.R5v},
			{"Rpd", params.Rpd(z, f.Dx), f.Rpd}, {"Rvd", params.Rvd(z, f.Dx), f.Rvd},
			{"Rmpc", params.Rmpc(z, f.Dx), f.Rmpc}, {"Rmvc", params.Rmvc(z, f.Dx), f.Rmvc},
			{"S", params.S(z, f.Dx, 0), f.S}, {"D", params.D(z, f.Dx, 0), 1000 / f.S},
		} {
			holds(t, v.name, v.got, v.want, 1e-9*math.Abs(v.want), s.Libraries)
		}
	}
}
