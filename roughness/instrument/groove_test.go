package instrument_test

import (
	"errors"
	"fmt"
	"math"
	"math/rand/v2"
	"testing"

	"example.com/furrow/roughness"
	"example.com/furrow/roughness/instrument"
)

// grooveTrace is a rectangular groove 100 µm wide in the middle of 500 µm, with a tilt and noise.
func grooveTrace(depth, tilt, noise float64) roughness.Profile {
	r := rand.New(rand.NewPCG(1, 2))
	p := roughness.Profile{Z: make([]float64, 1001), Spacing: 0.5}
	for i := range p.Z {
		x := float64(i) * 0.5
		p.Z[i] = tilt*x + noise*r.NormFloat64()
		if math.Abs(x-250) < 50 {
			p.Z[i] -= depth
		}
	}
	return p
}

// Self-test of the assessment of type A1, ISO 5436-1 (basis: memory): groove 100 µm wide and 1.5 µm deep, any tilt.
func TestGrooveDepth(t *testing.T) {
	for _, tilt := range []float64{0, 0.01, -0.01, 0.1, 1e-4} {
		for _, noise := range []float64{0, 0.01, 0.1} {
			p := grooveTrace(1.5, tilt, noise)
			g, err := instrument.MeasureGroove(p, 250, 100)
			if err != nil {
				t.Fatal(err)
			}
			want := 1.5 * math.Cos(math.Atan(tilt))
			// The bottom has 67 points, the land 267: the standard deviation of d is about noise·sqrt(1/67 + 1/267).
			if tol := 1e-12 + 4*noise*math.Sqrt(1.0/67+1.0/267); math.Abs(g.Depth-want) > tol {
				t.Errorf("tilt %g, noise %g: depth %.9f, want %.9f within %.2g", tilt, noise, g.Depth, want, tol)
			}
			if math.Abs(g.Rest-noise) > 0.2*noise+1e-12 {
				t.Errorf("tilt %g: the fit leaves %g, noise is %g", tilt, g.Rest, noise)
			}
		}
	}
}

func TestFindGroove(t *testing.T) {
	g, err := instrument.FindGroove(grooveTrace(1.5, 0.001, 0.005))
	if err != nil {
		t.Fatal(err)
	}
	if math.Abs(g.Centre-250) > 0.6 || math.Abs(g.Width-100) > 1.1 || math.Abs(g.Depth-1.5) > 0.004 {
		t.Errorf("found %+v", g)
	}
	for name, p := range map[string]roughness.Profile{
		"flat":   {Z: make([]float64, 1001), Spacing: 0.5},
		"few":    {Z: make([]float64, 5), Spacing: 0.5},
		"no end": {Z: append(make([]float64, 700), grooveTrace(1.5, 0, 0).Z[400:500]...), Spacing: 0.5},
	} {
		if _, err := instrument.FindGroove(p); !errors.Is(err, instrument.ErrGroove) {
			t.Errorf("%s: error %v", name, err)
		}
	}
	if _, err := instrument.MeasureGroove(grooveTrace(1, 0, 0), 100, 100); !errors.Is(err, instrument.ErrGroove) {
		t.Errorf("a groove too near the end: %v", err)
	}
}

// A tilted, noisy groove lies within its stated uncertainty in 95 of 100 simulations: with white noise, as electronics make it, and with
// noise whose neighbouring points are alike, as vibration makes it. Self-test of type A1 (ISO 5436-1:2000, basis: memory); the share is that of
// k = 2 for a normal distribution (JCGM 100:2008, Table G.1).
func TestGrooveWithinItsUncertainty(t *testing.T) {
	trials := 1000
	if testing.Short() {
		trials = 200
	}
	for _, length := range []float64{0, 1.5} {
		inside := 0
		r := rand.New(rand.NewPCG(5, uint64(length*10)))
		for range trials {
			tilt, depth := 0.02*(r.Float64()-0.5), 0.5+4*r.Float64()
			p := grooveTrace(depth, tilt, 0)
			noise := make([]float64, len(p.Z)+20)
			for i := range noise {
				noise[i] = 0.02 * r.NormFloat64()
			}
			for i := range p.Z {
				if length == 0 {
					p.Z[i] += noise[i]
					continue
				}
				for k := range 20 {
					p.Z[i] += noise[i+k] * math.Exp(-0.5*float64(k)/length)
				}
			}
			g, err := instrument.FindGroove(p)
			if err != nil {
				t.Fatal(err)
			}
			if math.Abs(g.Depth-depth*math.Cos(math.Atan(tilt))) <= g.U {
				inside++
			}
		}
		share := 100 * float64(inside) / float64(trials)
		t.Logf("noise alike over %g µm: %.1f %% of %d within the stated uncertainty", length, share, trials)
		if share < 93 || share > 98 { // three standard deviations of the share at 95.4 % are 2 %
			t.Errorf("noise alike over %g µm: %.1f %% within", length, share)
		}
	}
}

// The depth of a groove on a tilted trace, with what its fit leaves uncertain.
func ExampleFindGroove() {
	g, err := instrument.FindGroove(grooveTrace(1.5, 0.001, 0.01))
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%.3f µm ± %.3f µm, %.0f µm wide\n", g.Depth, g.U, g.Width)
	// Output: 1.501 µm ± 0.003 µm, 100 µm wide
}
