package roughness_test

import (
	"context"
	"errors"
	"fmt"
	"math"
	"testing"

	"example.com/furrow/roughness"
	"example.com/furrow/roughness/synth"
)

func steady(t *testing.T, p roughness.Profile, set *roughness.Settings) []roughness.Steadiness {
	t.Helper()
	list, err := roughness.Steady(context.Background(), p, set)
	if err != nil {
		t.Fatal(err)
	}
	return list
}

func trial(t *testing.T, s roughness.Steadiness, text string) float64 {
	t.Helper()
	for _, r := range s.Trials {
		if r.Text == text {
			return r.Value
		}
	}
	t.Fatalf("%s: no trial %q in %v", s.Symbol, text, s.Trials)
	return 0
}

// A sine is the same everywhere: whole periods in every section, so that the place matters
// no more than the ends of the trace do, and Ra = A·2/π (closed form).
func TestSteadySine(t *testing.T) {
	set := &roughness.Settings{Parameters: []string{"Ra", "Rz"}}
	for _, s := range steady(t, sine(2, 50, 6400, 0.5), set) {
		if s.Low > s.Value || s.High < s.Value || s.High-s.Low > 0.01*s.Value || s.Digits < 3 {
			t.Errorf("%+v", s)
		}
		if s.Symbol == "Ra" {
			near(t, "Ra", s.Value, 2/math.Pi, 0.01)
		}
	}
	ground, _ := synth.FindDemo("ground-rod")
	for _, s := range steady(t, roughness.Profile{Z: ground.Heights(), Spacing: ground.Spacing}, set) {
		if s.Digits > 2 {
			t.Errorf("a ground surface that repeats to %d digits: %+v", s.Digits, s)
		}
	}
}

// How many digits mean something (own rule, as documented): of 2.91 between 2.78 and 2.94 there are 2. The trace swings between ±a, and
// a window of a third of it, which meets one, two, then three values of a, reads twice the largest.
func TestSteadyDigits(t *testing.T) {
	for _, c := range []struct {
		first, middle, last float64
		digits              int
	}{
		{1.39, 1.455, 1.47, 2}, {10, 10.4, 10.5, 2}, {1, 1, 1.0007, 4}, {0.1, 1, 5, 1}, {1, 1, 1, 6}, {0.0139, 0.01455, 0.0147, 2}, {100, 100, 100.0007, 6},
	} {
		z := make([]float64, 300)
		for i := range z {
			z[i] = []float64{c.first, c.middle, c.last}[i/100]
			if i%2 == 1 {
				z[i] = -z[i]
			}
		}
		set := &roughness.Settings{Profile: roughness.P, Form: roughness.FormSpec{Kind: "none"}, Short: off(), Sections: 1, SectionLength: 100, Parameters: []string{"Pt"}}
		s := steady(t, roughness.Profile{Z: z, Spacing: 1}, set)[0]
		if s.Digits != c.digits {
			t.Errorf("%g, %g, %g: %d digits, want %d", c.first, c.middle, c.last, s.Digits, c.digits)
		}
		near(t, "value", s.Value, 2*c.middle, 1e-12)
		near(t, "low", s.Low, 2*min(c.first, c.middle), 1e-12)
		near(t, "high", s.High, 2*c.last, 1e-12)
	}
}

// Each trial is the evaluation under its changed condition, made here the long way round.
func TestSteadyTrials(t *testing.T) {
	p := trace(4)
	for i := len(p.Z); i < 5000; i++ {
		p.Z = append(p.Z, p.Z[i-3000])
	}
	p.Spacing = 0.5
	set := &roughness.Settings{Parameters: []string{"Rz"}, Long: gaussian(250)}
	s := steady(t, p, set)[0]
	direct := func(p roughness.Profile, change func(*roughness.Settings)) float64 {
		own := roughness.Settings{Parameters: []string{"Rz"}, Long: gaussian(250), SectionLength: 250}
		if change != nil {
			change(&own)
		}
		e, err := roughness.Evaluate(p, &own)
		if err != nil {
			t.Fatal(err)
		}
		return value(t, e, "Rz")
	}
	half := roughness.Profile{Spacing: 1}
	for i := 0; i < len(p.Z); i += 2 {
		half.Z = append(half.Z, p.Z[i])
	}
	cutoff := func(c float64) func(*roughness.Settings) {
		return func(s *roughness.Settings) { s.Long.Spec.Cutoff = c }
	}
	for text, want := range map[string]float64{
		"every second point":             direct(half, nil),
		"without the S-filter":           direct(p, func(s *roughness.Settings) { s.Short = off() }),
		"L-filter one step shorter":      direct(p, cutoff(80)),
		"L-filter one step longer":       direct(p, cutoff(800)),
		"a tip of 5 µm in place of 2 µm": direct(tipOver(t, p, 5), nil),
	} {
		near(t, text, trial(t, s, text), want, 1e-12)
	}
	if len(s.Trials) != 5 {
		t.Errorf("trials %v", s.Trials)
	}
	noShort := *set
	noShort.Short = off()
	near(t, "with an S-filter", trial(t, steady(t, p, &noShort)[0], "with an S-filter of 2.5 µm"), direct(p, nil), 1e-12)
}

// What a trial cannot say is left undefined: a longer 2RC filter swallows the run-up (two cut-offs), so that fewer sections are left; a
// trace with a gap cannot be followed by a tip; the skewness of a flat is undefined, and so are its digits.
func TestSteadyImpossible(t *testing.T) {
	rc := roughness.Band{Spec: roughness.FilterSpec{Filter: "two-rc", Cutoff: 800}}
	p := sine(2, 50, 6000, 0.5)
	s := steady(t, p, &roughness.Settings{Long: rc, Parameters: []string{"Ra"}})[0]
	if v := trial(t, s, "L-filter one step longer"); !math.IsNaN(v) {
		t.Errorf("a filter longer than the trace gives %g", v)
	}
	if v := trial(t, s, "L-filter one step shorter"); math.IsNaN(v) {
		t.Error("a shorter filter gives nothing")
	}
	p.Z[1000] = math.NaN()
	for _, r := range steady(t, p, &roughness.Settings{Parameters: []string{"Ra"}})[0].Trials {
		if r.Text == "a tip of 5 µm in place of 2 µm" && !math.IsNaN(r.Value) {
			t.Errorf("a tip over a gap: %v", r)
		}
	}
	flat := roughness.Profile{Z: make([]float64, 5000), Spacing: 1}
	if s := steady(t, flat, &roughness.Settings{Parameters: []string{"Rsk"}})[0]; !math.IsNaN(s.Value) || s.Digits != 1 {
		t.Errorf("%+v", s)
	}
	if _, err := roughness.Steady(context.Background(), sine(1, 50, 100, 1), nil); !errors.Is(err, roughness.ErrTooShort) {
		t.Errorf("too short: %v", err)
	}
	stopped, stop := context.WithCancel(context.Background())
	stop()
	if _, err := roughness.Steady(stopped, sine(1, 50, 5000, 1), nil); !errors.Is(err, context.Canceled) {
		t.Errorf("stopped: %v", err)
	}
}

// How far the Rz of the demonstration rod moves with the place alone.
func ExampleSteady() {
	d, _ := synth.FindDemo("ground-rod")
	list, err := roughness.Steady(context.Background(), roughness.Profile{Z: d.Heights(), Spacing: d.Spacing}, &roughness.Settings{Parameters: []string{"Rz"}})
	if err != nil {
		fmt.Println(err)
		return
	}
	s := list[0]
	fmt.Printf("%s %.3f µm, from %.3f to %.3f µm: %d digits mean something\n", s.Symbol, s.Value, s.Low, s.High, s.Digits)
	// Output:
	// Rz 2.920 µm, from 2.887 to 3.144 µm: 2 digits mean something
}
