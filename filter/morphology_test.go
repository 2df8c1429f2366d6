package filter_test

import (
	"math"
	"slices"
	"testing"

	"example.com/furrow/filter"
)

// plainDilation looks at every pair of points.
func plainDilation(z []float64, shape func(u float64) float64, dx, reach float64) []float64 {
	out := make([]float64, len(z))
	for i := range z {
		out[i] = math.Inf(-1)
		for j, v := range z {
			if u := math.Abs(float64(j-i)) * dx; u <= reach*(1+1e-12) {
				out[i] = max(out[i], v+shape(u))
			}
		}
	}
	return out
}

func negative(z []float64) []float64 {
	out := make([]float64, len(z))
	for i, v := range z {
		out[i] = -v
	}
	return out
}

// The stack of stretches against the plain search, on rough, stepped and constant profiles, for elements from below a sample to
// beyond the profile.
func TestMorphologyPlain(t *testing.T) {
	for seed := range 60 {
		n := 1 + seed*7%120
		dx := []float64{1, 0.25, 0.1}[seed%3]
		z := rough(n, uint64(seed))
		for i := range z {
			switch seed % 4 {
			case 1:
				z[i] = math.Round(2 * z[i]) // many ties
			case 2:
				z[i] *= 100
			case 3:
				z[i] = 7
			}
		}
		for _, r := range []float64{0.05, 0.3, 1, 2.5, 20, 1000} {
			ball := func(u float64) float64 { return math.Sqrt(max(0, r*r-u*u)) }
			check := func(what string, got []float64, err error, want []float64) {
				t.Helper()
				if d := greatest(got, want); err != nil || d > 1e-10*max(1, r) {
					t.Errorf("seed %d, size %v, %s: off by %g, %v", seed, r, what, d, err)
				}
			}
			up := plainDilation(z, ball, dx, r)
			down := negative(plainDilation(negative(z), ball, dx, r))
			closed := negative(plainDilation(negative(up), ball, dx, r))
			opened := plainDilation(down, ball, dx, r)
			w, err := filter.DiskClosing{Radius: r}.Apply(nil, z, dx)
			check("closing", w, err, closed)
			w, err = filter.DiskOpening{Radius: r}.Apply(nil, z, dx)
			check("opening", w, err, opened)
			flat := func(float64) float64 { return 0 }
			up = plainDilation(z, flat, dx, r/2)
			w, err = filter.SegmentClosing{Length: r}.Apply(nil, z, dx)
			check("segment closing", w, err, negative(plainDilation(negative(up), flat, dx, r/2)))
		}
	}
}

// Extensive, idempotent, growing, dual; and shifts pass through.
func TestMorphologyProperties(t *testing.T) {
	z := rough(3000, 31)
	for _, c := range []struct{ closing, opening filter.Filter }{
		{filter.DiskClosing{Radius: 5000}, filter.DiskOpening{Radius: 5000}},
		{filter.DiskClosing{Radius: 2}, filter.DiskOpening{Radius: 2}},
		{filter.SegmentClosing{Length: 40}, filter.SegmentOpening{Length: 40}},
	} {
		up, down := apply(t, c.closing, z, 0.5), apply(t, c.opening, z, 0.5)
		for i, v := range z {
			if up[i] < v || down[i] > v {
				t.Fatalf("%#v: %v, %v, %v at %d", c.closing, down[i], v, up[i], i)
			}
		}
		if d := greatest(apply(t, c.closing, up, 0.5), up); d > 1e-12 {
			t.Errorf("%#v is not idempotent: %g", c.closing, d)
		}
		if d := greatest(apply(t, c.opening, down, 0.5), down); d > 1e-12 {
			t.Errorf("%#v is not idempotent: %g", c.opening, d)
		}
		if d := greatest(negative(apply(t, c.closing, negative(z), 0.5)), down); d > 0 {
			t.Errorf("%#v is not the dual of the opening: %g", c.closing, d)
		}
		higher := slices.Clone(z)
		for i := range higher {
			higher[i] += math.Abs(math.Sin(float64(i)))
		}
		for i, v := range apply(t, c.closing, higher, 0.5) {
			if v < up[i]-1e-12 {
				t.Fatalf("%#v does not grow with the profile", c.closing)
			}
		}
	}
	a := apply(t, filter.DiskAlternating{Radius: 50}, z, 0.5)
	b := apply(t, filter.DiskAlternating{Radius: 50, OpenFirst: true}, z, 0.5)
	if d := greatest(apply(t, filter.DiskOpening{Radius: 50}, apply(t, filter.DiskClosing{Radius: 50}, z, 0.5), 0.5), a); d != 0 {
		t.Errorf("alternating is not opening of closing: %g", d)
	}
	if greatest(a, b) == 0 {
		t.Error("the order of closing and opening makes no difference")
	}
}

// A tip over a groove narrower than itself sinks by r - √(r²-W²/4), over a spike it draws a base of 2·√(2·r·h-h²).
func TestTipGrooveAndSpike(t *testing.T) {
	const dx, n = 0.001, 10001
	for _, c := range []struct{ r, width, sink float64 }{{2, 2, 0.267949}, {5, 2, 0.101021}} {
		z := make([]float64, n)
		for i := range z {
			if x := float64(i-n/2) * dx; math.Abs(x) < c.width/2-dx/2 {
				z[i] = -10
			}
		}
		trace, err := filter.Tip{Radius: c.r}.Trace(nil, z, dx)
		if err != nil {
			t.Fatal(err)
		}
		near(t, "deepest point traced", slices.Min(trace), -c.sink, 1e-6, "circle geometry")
	}
	z := make([]float64, n)
	z[n/2] = 0.1
	trace, err := filter.Tip{Radius: 2}.Trace(nil, z, dx)
	if err != nil {
		t.Fatal(err)
	}
	base := 0
	for _, v := range trace {
		if v > 0 {
			base++
		}
	}
	near(t, "base of the spike", float64(base)*dx, 1.249, 2*dx, "circle geometry")
}

// Ball and cone meet at u = r·cos(θ/2) without a kink.
func TestTipShape(t *testing.T) {
	const dx, n = 0.001, 12001
	z := make([]float64, n)
	for i := range z {
		z[i] = -9
	}
	z[n/2] = 0
	for _, c := range []struct{ cone, tangent, height, slope, offset float64 }{
		{60, 1.732051, 1, 1.732051, 2}, {90, 1.414214, 0.585786, 1, 0.828427},
	} {
		trace, err := filter.Tip{Radius: 2, Cone: c.cone}.Trace(nil, z, dx)
		if err != nil {
			t.Fatal(err)
		}
		at := func(u float64) float64 { return -trace[n/2+int(math.Round(u/dx))] }
		near(t, "height at the tangent point", at(c.tangent), c.height, 1e-3, "cone geometry")
		near(t, "height at 3", at(3), c.slope*3-c.offset, 1e-5, "cone geometry")
		near(t, "height at 1", at(1), 2-math.Sqrt(3), 1e-9, "ball")
	}
}

// A sine of length 10: with amplitude 1 its valleys (radius 2.533) take a tip of radius 2, with amplitude 2 they do not.
func TestTipSine(t *testing.T) {
	const dx = 0.002
	n := 25001
	surface := func(a float64) []float64 {
		z := make([]float64, n)
		for i := range z {
			z[i] = a * math.Cos(2*math.Pi*float64(i)*dx/10)
		}
		return z
	}
	z := surface(1)
	trace, err := filter.Tip{Radius: 2}.Trace(nil, z, dx)
	if err != nil {
		t.Fatal(err)
	}
	mid := trace[5000:20000] // three waves
	near(t, "Rt", slices.Max(mid)-slices.Min(mid), 2, 1e-9, "the tip reaches crest and bottom")
	// Ra about the level that halves the areas, here the mean of the trace.
	mean, ra := 0.0, 0.0
	for _, v := range mid {
		mean += v / float64(len(mid))
	}
	for _, v := range mid {
		ra += math.Abs(v-mean) / float64(len(mid))
	}
	near(t, "Ra", ra, 0.594201, 2e-6, "numpy; the surface has 2/π = 0.636620")
	trace, _ = filter.Tip{Radius: 2}.Trace(nil, surface(2), dx)
	mid = trace[5000:20000]
	near(t, "Rt", slices.Max(mid)-slices.Min(mid), 3.846479, 2e-5, "numpy; the surface has 4")
}

// Of a sine that the skid follows, 2·A·|sin(π·d/λ)| is shown.
func TestSkidSine(t *testing.T) {
	const amplitude, wavelength, dx = 0.5, 100.0, 0.5
	z := make([]float64, 4000)
	for i := range z {
		z[i] = amplitude * math.Sin(2*math.Pi*float64(i)*dx/wavelength)
	}
	for _, lead := range []float64{10, 25.2, -25.2, 50, 75, 100, 333.3} {
		shown, from, err := filter.Skid{Radius: 1, Lead: lead}.Shown(z, dx) // small enough to follow
		if err != nil {
			t.Fatal(err)
		}
		if lead > 0 && from != 0 || lead < 0 && from != 51 {
			t.Errorf("lead %v begins at %d", lead, from)
		}
		inner := shown[40 : len(shown)-40]
		half := (slices.Max(inner) - slices.Min(inner)) / 2
		near(t, "amplitude shown", half, 2*amplitude*math.Abs(math.Sin(math.Pi*lead/wavelength)), 4e-3, "derived")
	}
	if _, _, err := (filter.Skid{Radius: 1, Lead: 5000}).Shown(z, dx); err == nil {
		t.Error("a lead beyond the profile is not refused")
	}
}
