package inspect_test

import (
	"math"
	"slices"
	"strings"
	"testing"

	"example.com/furrow/filter"
	"example.com/furrow/roughness"
	"example.com/furrow/roughness/inspect"
	"example.com/furrow/roughness/synth"
)

var usual = inspect.Conditions{Short: 2.5, Long: 800, Section: 800, Sections: 5}

func codes(f []inspect.Observation) []string {
	var out []string
	for _, one := range f {
		out = append(out, one.Code)
	}
	return out
}

func rod(t testing.TB) roughness.Profile {
	t.Helper()
	d, ok := synth.FindDemo("ground-rod")
	if !ok {
		t.Fatal("no ground rod")
	}
	return roughness.Profile{Z: d.Heights(), Spacing: d.Spacing}
}

// Sound traces of the demonstration give no alarm; the turned one is periodic with its feed of 0.2 mm.
func TestLookSound(t *testing.T) {
	for key, want := range map[string][]string{"ground-rod": nil, "turned-pin": {"periodic"}, "honed-bore": nil} {
		d, _ := synth.FindDemo(key)
		got := inspect.Look(roughness.Profile{Z: d.Heights(), Spacing: d.Spacing}, usual)
		if !slices.Equal(codes(got), want) {
			t.Errorf("%s: %+v, want %q", key, got, want)
		}
		for _, f := range got {
			if f.Code == "periodic" && math.Abs(f.Number-200) > 2 {
				t.Errorf("%s: period %v, want 200", key, f.Number)
			}
		}
	}
}

// One defect at a time is put into a sound trace, and found with its number at its place.
func TestLookDefects(t *testing.T) {
	base := rod(t)
	n := len(base.Z)
	clip := func(z []float64, limit float64) {
		for i := range z {
			z[i] = min(z[i], limit)
		}
	}
	filtered := func(f filter.Filter) func(p *roughness.Profile) {
		return func(p *roughness.Profile) {
			out, err := f.Apply(nil, p.Z, p.Spacing)
			if err != nil {
				t.Fatal(err)
			}
			p.Z = out
		}
	}
	rough := func(p *roughness.Profile) {
		mean, err := filter.Gaussian{Cutoff: 800}.Apply(nil, p.Z, p.Spacing)
		if err != nil {
			t.Fatal(err)
		}
		for i := range p.Z {
			p.Z[i] -= mean[i]
		}
	}
	for _, c := range []struct {
		code   string
		damage func(p *roughness.Profile)
		number float64 // 0: not looked at
		within float64
		point  int // that has to lie in the finding; 0: not looked at
	}{
		{"gaps", func(p *roughness.Profile) {
			for i := 2000; i < 2012; i++ {
				p.Z[i] = math.NaN()
			}
			p.Z[50] = math.NaN()
		}, 13, 0, 2005},
		{"too-coarse", func(p *roughness.Profile) { p.Spacing = 1 }, 1, 0, 0},
		{"too-short", func(p *roughness.Profile) { p.Z = p.Z[:7000] }, 3500, 0, 0},
		{"clipped", func(p *roughness.Profile) { clip(p.Z, slices.Max(p.Z)-1.0) }, 0, 0, 0},
		{"repeated-end", func(p *roughness.Profile) {
			for i := n - 300; i < n; i++ {
				p.Z[i] = p.Z[n-301]
			}
		}, 301, 0, n - 1},
		{"repeated-end", func(p *roughness.Profile) {
			for i := range 200 {
				p.Z[i] = p.Z[200]
			}
		}, 201, 0, 0},
		{"quantised", func(p *roughness.Profile) {
			for i := range p.Z {
				p.Z[i] = math.Round(p.Z[i]/0.1) * 0.1
			}
		}, 0.1, 1e-9, 0},
		{"spikes", func(p *roughness.Profile) { p.Z[4000] += 8 }, 1, 0, 4000},
		{"spikes", func(p *roughness.Profile) { p.Z[4000] -= 8; p.Z[4001] -= 7.5 }, 1, 0, 4000},
		{"step", func(p *roughness.Profile) {
			for i := 3000; i < n; i++ {
				p.Z[i] += 6
			}
		}, 6, 1, 3000},
		{"drift", func(p *roughness.Profile) {
			for i := range p.Z {
				p.Z[i] += float64(i) * 0.01
			}
		}, 96 + 2.4, 1, 0},
		{"form", func(p *roughness.Profile) {
			for i := range p.Z {
				x := (float64(i) - float64(n)/2) * 0.5
				p.Z[i] -= x * x / 2 / 40000 // a rod of 80 mm diameter: 72 µm over 4.8 mm
			}
		}, 72, 1, 0},
		{"upside-down", func(p *roughness.Profile) {
			d, _ := synth.FindDemo("honed-bore")
			for i, v := range d.Heights() {
				p.Z[i] = -v
			}
		}, 0, 0, 0},
		{"long-waves-missing", rough, 0, 0, 0},
		{"short-waves-missing", filtered(filter.Gaussian{Cutoff: 2.5}), 0, 0, 0},
		{"periodic", func(p *roughness.Profile) {
			for i := range p.Z {
				p.Z[i] = 0.2*p.Z[i] + 2*math.Sin(2*math.Pi*float64(i)*0.5/150)
			}
		}, 150, 1.5, 0},
	} {
		p := base
		p.Z = slices.Clone(base.Z)
		c.damage(&p)
		conditions := usual
		if c.code == "too-coarse" {
			conditions.Sections = 1
		}
		found := inspect.Look(p, conditions)
		i := slices.Index(codes(found), c.code)
		if i < 0 {
			t.Errorf("%s: not found in %+v", c.code, found)
			continue
		}
		f := found[i]
		if c.number != 0 && math.Abs(f.Number-c.number) > c.within {
			t.Errorf("%s: %v, want %v", c.code, f.Number, c.number)
		}
		if c.point > 0 && (c.point < f.From || c.point >= f.To) {
			t.Errorf("%s: points %d to %d, want %d among them", c.code, f.From, f.To, c.point)
		}
		for _, other := range found {
			if other.Code != c.code {
				t.Logf("%s: also %s: %s", c.code, other.Code, other.Text)
			}
		}
		if f.Text == "" || f.Advice == "" || strings.Contains(f.Note().Text, "NaN") {
			t.Errorf("%s: %+v", c.code, f)
		}
		t.Logf("%s: %s", c.code, f.Note().Text)
	}
}

// A clip is surely found where heights are cut off, and on no surface with flat tops, plateaus or coarse digits. Every surface is tried
// level and at a slope, with digits from a thousandth of its height to twice it.
func TestClipsSpecific(t *testing.T) {
	const n = 4800
	fine := synth.Correlated{Sigma: 1, Length: 5, Seed: 31}.Heights(n, 0.5)
	ground := synth.Correlated{Sigma: 1, Length: 20, Seed: 32}.Heights(n, 0.5)
	wave := synth.Sine{Amplitude: math.Sqrt2, Wavelength: 100}.Heights(n, 0.5)
	cusp := func(i int) float64 { x := math.Mod(float64(i)*0.5, 100)/50 - 1; return 3 * x * x }
	sure := func(z []float64) bool {
		return slices.ContainsFunc(inspect.Clips(z), func(c inspect.Clip) bool { return c.Sure })
	}
	for name, height := range map[string]func(i int) float64{
		"ground":           func(i int) float64 { return ground[i] },
		"plateau":          func(i int) float64 { return min(ground[i]+1, 0) + 0.03*fine[i] },
		"honed":            func(i int) float64 { return min(ground[i]+1.6, 0) + 0.05*fine[i] },
		"sine":             func(i int) float64 { return 1.07 * wave[i] },
		"sine with noise":  func(i int) float64 { return wave[i] + 0.02*fine[i] },
		"flat tops":        func(i int) float64 { return max(-1, min(1, 5*wave[i])) + 0.01*fine[i] },
		"turned":           func(i int) float64 { return cusp(i) + 0.05*fine[i] },
		"turned, then cut": func(i int) float64 { return min(cusp(i), 1.5) + 0.03*fine[i] },
	} {
		for _, slope := range []float64{0, 3} {
			z := make([]float64, n)
			for i := range z {
				z[i] = height(i) + slope*float64(i)/n
			}
			sorted := slices.Sorted(slices.Values(z))
			for _, step := range []float64{0, 0.001, 0.003, 0.01, 0.03, 0.06, 0.1, 0.2, 0.5, 1, 2} {
				whole, cut := slices.Clone(z), slices.Clone(z)
				for i := range z {
					cut[i] = min(z[i], sorted[n*7/10])
					if step > 0 {
						whole[i], cut[i] = math.Round(whole[i]/step)*step, math.Round(cut[i]/step)*step
					}
				}
				if sure(whole) {
					t.Errorf("%s, slope %g, steps of %g: clipped", name, slope, step)
				}
				if step <= 0.001 && !sure(cut) && (name != "honed" || step == 0) { // its plateau is as fine as the digits
					t.Errorf("%s, slope %g, steps of %g: three tenths are cut off, and it is not found", name, slope, step)
				}
			}
		}
	}
	for _, d := range synth.Demos() {
		if c := inspect.Clips(d.Heights()); len(c) > 0 {
			t.Errorf("%s: %+v", d.Key, c)
		}
	}
}

// A textbook's unsigned ordinates (P. C. Sharma, Production Engineering, example 11.2) count from the mean line and have no sign.
func TestLookOneSign(t *testing.T) {
	p := roughness.Profile{Z: []float64{.15, .25, .35, .25, .30, .15, .10, .30, .35, .10}, Spacing: 1}
	if got := codes(inspect.Look(p, inspect.Conditions{Filtered: true})); !slices.Equal(got, []string{"one-sign"}) {
		t.Errorf("got %q", got)
	}
	if got := codes(inspect.Look(p, inspect.Conditions{})); len(got) > 0 {
		t.Errorf("raw heights: got %q", got)
	}
}

// Looking never fails, whatever the trace.
func TestLookAnything(t *testing.T) {
	nan, inf := math.NaN(), math.Inf(1)
	for _, p := range []roughness.Profile{{}, {Z: []float64{1}}, {Z: []float64{1}, Spacing: 1}, {Z: []float64{nan, nan}, Spacing: 1}, {Z: []float64{1, 2}, Spacing: 1},
		{Z: []float64{1, nan, 3}, Spacing: 1}, {Z: []float64{inf, 1, 2, 3}, Spacing: 1}, {Z: make([]float64, 1000), Spacing: 1}, {Z: []float64{1, 1, 1, 2}, Spacing: nan},
		{Z: []float64{1e300, -1e300, 1e300, 5, 6, 7}, Spacing: 1e-300}} {
		inspect.Look(p, usual)
	}
	flat := roughness.Profile{Z: []float64{14.3, 14.3, 14.3, 14.3}, Spacing: 1}
	if got := codes(inspect.Look(flat, inspect.Conditions{})); !slices.Equal(got, []string{"flat"}) {
		t.Errorf("flat: %q", got)
	}
}

func BenchmarkLook(b *testing.B) {
	p := rod(b)
	for b.Loop() {
		inspect.Look(p, usual)
	}
}

// A Looker that has looked under other conditions finds what a new look finds, and leaves alone what it found before.
func TestLookAgain(t *testing.T) {
	trace := rod(t)
	for i := range trace.Z {
		trace.Z[i] = math.Min(trace.Z[i], 0.4) + 20
	}
	trace.Z[100] = math.NaN()
	l := inspect.Begin(trace)
	first := l.Look(usual)
	kept := slices.Clone(first)
	if !slices.Contains(codes(first), "gaps") || !slices.Contains(codes(first), "clipped") {
		t.Fatalf("found %q", codes(first))
	}
	all := map[string]bool{}
	for _, c := range []inspect.Conditions{{}, {Short: 0.8, Long: 250}, {Short: 1, Section: 2500, Sections: 5}, {Long: 80, Filtered: true}, usual} {
		got, want := l.Look(c), inspect.Look(trace, c)
		if !slices.Equal(got, want) {
			t.Errorf("%+v: %+v, want %+v", c, got, want)
		}
		for _, code := range codes(got) {
			all[code] = true
		}
	}
	if !slices.Equal(first, kept) {
		t.Error("what was found first has changed")
	}
	for _, code := range []string{"too-coarse", "too-short", "one-sign"} {
		if !all[code] {
			t.Errorf("no condition led to %s", code)
		}
	}
}
