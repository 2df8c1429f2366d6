package compare_test

import (
	"context"
	"errors"
	"fmt"
	"math"
	"strings"
	"testing"

	"example.com/furrow/roughness"
	"example.com/furrow/roughness/compare"
	"example.com/furrow/roughness/synth"
)

func steady(t *testing.T, p roughness.Profile, set *roughness.Settings) []compare.Steadiness {
	t.Helper()
	list, err := compare.Steady(context.Background(), p, set)
	if err != nil {
		t.Fatal(err)
	}
	return list
}

func turned(t *testing.T, s compare.Steadiness, text string) float64 {
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
		if s.Low > s.Value || s.High < s.Value || s.High-s.Low > 0.01*s.Value || s.Places != 21 || !s.Stated || s.Digits < 2 {
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

// swinging is a trace whose points are a, a, -a, -a and so on, with the three values of a in three equal stretches. The points stand so far
// apart that no tip and no S-filter matters, and every second point has the same heights.
func swinging(a [3]float64, n int) roughness.Profile {
	z := make([]float64, 3*n)
	for i := range z {
		z[i] = a[i/n]
		if i%4 > 1 {
			z[i] = -z[i]
		}
	}
	return roughness.Profile{Z: z, Spacing: 1e5}
}

func total(sections int, length float64) *roughness.Settings {
	return &roughness.Settings{Profile: roughness.P, Form: roughness.FormSpec{Kind: "none"}, Short: off(), Sections: sections, SectionLength: length, Parameters: []string{"Pt"}}
}

// The unit of the last sure digit is at least a third of the range (own rule): of 2.91 between 2.78 and 2.94 there are 2, of 2.4 between 2.1
// and 2.87 there is 1. A window of a third of the trace meets one, two, then three values of a, and reads twice the largest.
func TestSteadyDigits(t *testing.T) {
	for _, c := range []struct {
		first, middle, last float64
		digits              int
	}{
		{1.39, 1.455, 1.47, 2}, {10, 10.4, 10.5, 2}, {1, 1, 1.0007, 4}, {0.1, 1, 5, 0}, {1, 1, 1, 4}, {0.0139, 0.01455, 0.0147, 2}, {100, 100, 100.0007, 4},
		{1.05, 1.2, 1.435, 1}, {1.5, 1.5, 1.65, 2}, {1.5, 1.5, 1.651, 1}, {500, 500, 515, 3}, {500, 500, 515.1, 2}, {499, 499, 500, 3},
	} {
		s := steady(t, swinging([3]float64{c.first, c.middle, c.last}, 100), total(1, 10000e3))[0]
		if !s.Stated || s.Digits != c.digits {
			t.Errorf("%g, %g, %g: %d digits, stated %v, want %d", c.first, c.middle, c.last, s.Digits, s.Stated, c.digits)
		}
		near(t, "value", s.Value, 2*c.middle, 1e-12)
		near(t, "low", s.Low, 2*min(c.first, c.middle), 1e-12)
		near(t, "high", s.High, 2*c.last, 1e-12)
	}
}

// Nothing is stated where the sections cannot move: not on the whole trace, not with less than a tenth of a section free, not at fewer than five
// places; and not from places alone, where no other condition gives a value.
func TestSteadyWithoutRoom(t *testing.T) {
	a := [3]float64{1, 1.2, 1.1}
	const nothing = "The trace has no room to move the sections, so nothing can be said about steadiness."
	for _, c := range []struct {
		name   string
		p      roughness.Profile
		set    *roughness.Settings
		places int
		stated bool
	}{
		{"whole trace", swinging(a, 100), total(1, 30000e3), 1, false},
		{"a twentieth free", swinging(a, 100), total(1, 28600e3), 15, false},
		{"a tenth free", swinging(a, 100), total(1, 27200e3), 21, true},
		{"three places", swinging(a, 4), total(1, 1000e3), 3, false},
		{"five places", swinging(a, 4), total(1, 800e3), 5, true},
	} {
		s := steady(t, c.p, c.set)[0]
		if s.Places != c.places || s.Stated != c.stated || !s.Stated && (s.Digits != 0 || s.String() != nothing) {
			t.Errorf("%s: %+v: %s", c.name, s, s)
		}
	}
	// The waviness of ISO 21920 takes the whole trace.
	d := synth.Demos()[0]
	w := steady(t, roughness.Profile{Z: d.Heights(), Spacing: d.Spacing}, &roughness.Settings{Profile: roughness.W, Parameters: []string{"Wt"}})[0]
	if w.Stated || w.Places != 1 {
		t.Errorf("Wt: %+v", w)
	}
	// Ends that are discarded leave less room, and the places lie in what is left.
	long := roughness.Band{Spec: roughness.FilterSpec{Filter: "gaussian", Cutoff: 800, Ends: "discard"}}
	if s := steady(t, sine(2, 50, 10400, 0.5), &roughness.Settings{Long: long, Parameters: []string{"Ra"}})[0]; s.Places != 21 || !s.Stated {
		t.Errorf("with ends discarded: %+v", s)
	}
}

// Every second point and the tip count, the filters do not: of a trace that loses its height with every second point only the first digit is
// sure (a third of 2 µm is below 1 µm), and one that another filter changes keeps its own.
func TestSteadyWhatCounts(t *testing.T) {
	p := swinging([3]float64{1, 1, 1}, 100)
	for i := range p.Z { // the height stands at odd points only
		if i%2 == 0 {
			p.Z[i] = 0
		}
	}
	s := steady(t, p, total(1, 10000e3))[0]
	if s.Low != s.High || s.Digits != 1 || !s.Stated {
		t.Errorf("%+v", s)
	}
	for _, r := range s.Trials {
		if want := r.Text == "every second point" || r.Text == "a tip of 5 µm in place of 2 µm"; r.Counts != want {
			t.Errorf("%s counts: %v", r.Text, r.Counts)
		}
	}
	d := synth.Demos()[0]
	r := steady(t, roughness.Profile{Z: d.Heights(), Spacing: d.Spacing}, &roughness.Settings{Parameters: []string{"Ra"}})[0]
	short := turned(t, r, "L-filter one step shorter")
	if !(math.Abs(short-r.Value)/3 > 0.01) || r.Digits != 2 { // with it the unit of the second digit would be below a third of the range
		t.Errorf("Ra %v, with a shorter filter %v, %d digits: the filter counts, or nothing is tested", r.Value, short, r.Digits)
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
		near(t, text, turned(t, s, text), want, 1e-12)
	}
	if len(s.Trials) != 5 {
		t.Errorf("trials %v", s.Trials)
	}
	noShort := *set
	noShort.Short = off()
	near(t, "with an S-filter", turned(t, steady(t, p, &noShort)[0], "with an S-filter of 2.5 µm"), direct(p, nil), 1e-12)
}

// What a trial cannot say is left undefined: a longer 2RC filter swallows the run-up (two cut-offs), so that fewer sections are left; a
// trace with a gap cannot be followed by a tip; the skewness of a flat is undefined, and so are its digits.
func TestSteadyImpossible(t *testing.T) {
	rc := roughness.Band{Spec: roughness.FilterSpec{Filter: "two-rc", Cutoff: 800}}
	p := sine(2, 50, 6000, 0.5)
	s := steady(t, p, &roughness.Settings{Long: rc, Parameters: []string{"Ra"}})[0]
	if v := turned(t, s, "L-filter one step longer"); !math.IsNaN(v) {
		t.Errorf("a filter longer than the trace gives %g", v)
	}
	if v := turned(t, s, "L-filter one step shorter"); math.IsNaN(v) {
		t.Error("a shorter filter gives nothing")
	}
	p.Z[1000] = math.NaN()
	for _, r := range steady(t, p, &roughness.Settings{Parameters: []string{"Ra"}})[0].Trials {
		if r.Text == "a tip of 5 µm in place of 2 µm" && !math.IsNaN(r.Value) {
			t.Errorf("a tip over a gap: %v", r)
		}
	}
	flat := roughness.Profile{Z: make([]float64, 5000), Spacing: 1}
	if s := steady(t, flat, &roughness.Settings{Parameters: []string{"Rsk"}})[0]; !math.IsNaN(s.Value) || s.Stated || s.Digits != 0 {
		t.Errorf("%+v", s)
	}
	if _, err := compare.Steady(context.Background(), sine(1, 50, 100, 1), nil); !errors.Is(err, roughness.ErrTooShort) {
		t.Errorf("too short: %v", err)
	}
	stopped, stop := context.WithCancel(context.Background())
	stop()
	if _, err := compare.Steady(stopped, sine(1, 50, 5000, 1), nil); !errors.Is(err, context.Canceled) {
		t.Errorf("stopped: %v", err)
	}
}

// How far the Rz of the demonstration rod moves with the place alone.
func ExampleSteady() {
	d, _ := synth.FindDemo("ground-rod")
	list, err := compare.Steady(context.Background(), roughness.Profile{Z: d.Heights(), Spacing: d.Spacing}, &roughness.Settings{Parameters: []string{"Rz"}})
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("Rz %.3g µm. %s\n", list[0].Value, list[0])
	// Output:
	// Rz 2.92 µm. Moved along the trace, the sections give 2.89 to 3.14 µm (21 places). With every second point and a tip of 5 µm in place of 2 µm as well, 2 digits are sure, the last one to within 3 units. This says nothing about the instrument.
}

// A trace without heights has no steady digits.
func TestSteadyFlat(t *testing.T) {
	list, err := compare.Steady(t.Context(), roughness.Profile{Z: make([]float64, 11200), Spacing: 0.5}, &roughness.Settings{Parameters: []string{"Rz"}})
	if err != nil || len(list) != 1 {
		t.Fatal(list, err)
	}
	if s := list[0]; s.Stated || s.Digits != 0 || !strings.HasPrefix(s.String(), "The value is 0 under every condition") {
		t.Errorf("%+v: %s", s, s)
	}
}
