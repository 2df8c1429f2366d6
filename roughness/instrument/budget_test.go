package instrument_test

import (
	"context"
	"errors"
	"fmt"
	"math"
	"strings"
	"testing"

	"example.com/furrow/roughness"
	"example.com/furrow/roughness/instrument"
	"example.com/furrow/roughness/synth"
	"example.com/furrow/standards/decide"
)

func budget(t *testing.T, p roughness.Profile, set *roughness.Settings, symbol string, in instrument.BudgetInput) *instrument.TraceBudget {
	t.Helper()
	b, err := instrument.BudgetOn(context.Background(), p, set, symbol, in)
	if err != nil {
		t.Fatal(err)
	}
	return b
}

func effect(t *testing.T, b *instrument.TraceBudget, name string) float64 {
	t.Helper()
	for _, l := range b.Lines {
		if strings.Contains(l.Name, name) {
			return l.Effect
		}
	}
	t.Fatalf("no line %q in %v; left out: %q", name, b.Lines, b.Left)
	return 0
}

var certified = decide.TextureInput{CertificateValue: 2, CertificateU: 0.04, SpecimenS: 0.02, SpecimenN: 4, DriftShare: 0.01}

// Heights grow with the gain in proportion, so the certificate brings R·U/(k·Rc) (DKD-R 4-2; ISO 12179, Annex C, from memory), the
// repeats R·s/(Rc·√n), the drift R·share/√3; a skewness does not see the gain at all.
func TestBudgetGain(t *testing.T) {
	p := trace(3)
	for _, symbol := range []string{"Ra", "Rq", "Rz", "Rk"} {
		b := budget(t, p, nil, symbol, instrument.BudgetInput{TextureInput: certified})
		v := b.Value
		near(t, symbol+" certificate", effect(t, b, "certificate"), v*0.02/2, 1e-9*v)
		near(t, symbol+" repeats", effect(t, b, "repeatability"), v*0.01/2, 1e-9*v)
		near(t, symbol+" drift", effect(t, b, "drift"), v*0.01/math.Sqrt(3), 1e-9*v)
		u := v * math.Sqrt(0.01*0.01+0.005*0.005+0.01*0.01/3)
		near(t, symbol+" combined", b.Result.Standard, u, 1e-9*v)
		sum := 0.0
		for _, l := range b.Lines {
			sum += l.Share
		}
		near(t, symbol+" shares", sum, 1, 1e-12)
		if b.Result.K < 2 || !strings.Contains(b.Sentence, "estimate") {
			t.Errorf("%s: k %g, %q", symbol, b.Result.K, b.Sentence)
		}
	}
	b := budget(t, p, nil, "Rsk", instrument.BudgetInput{TextureInput: certified})
	near(t, "Rsk", b.Result.Standard, 0, 1e-9)
	// Rmr(c) at a fixed height does: the material ratio curve is steeper or flatter.
	if b := budget(t, p, nil, "Rmr(0.3)", instrument.BudgetInput{TextureInput: certified}); !(b.Result.Standard > 0.01) {
		t.Errorf("Rmr(0.3) %g %% ± %g", b.Value, b.Result.Expanded)
	}
}

// A ball of radius r in a groove whose flanks have the slope m rests r(√(1+m²) - 1) above its bottom and touches the ridges as they
// are: elementary geometry. A triangle wave with m = 4A/λ = 0.4, read at its vertices.
func TestBudgetTip(t *testing.T) {
	z := synth.Triangle{Amplitude: 2, Wavelength: 20}.Heights(4000, 0.01)
	set := &roughness.Settings{Profile: roughness.P, Short: off(), Form: roughness.FormSpec{Kind: "none"}}
	b := budget(t, roughness.Profile{Z: z, Spacing: 0.01}, set, "Pt", instrument.BudgetInput{TipTolerance: 0.5})
	near(t, "Pt", b.Value, 4, 1e-9)
	want := 0.5 * (math.Sqrt(1+0.4*0.4) - 1) / math.Sqrt(3)
	near(t, "tip", effect(t, b, "tip"), want, 0.01*want)
}

// The transmission of a sine, 1 - exp(-π(αλc/λ)²) (ISO 16610-21), changes by 2π(αλc/λ)²exp(-π(αλc/λ)²) with a relative change of
// the cut-off: at λ = λc by ln 2.
func TestBudgetCutoffs(t *testing.T) {
	p := sine(2, 800, 12000, 2)
	set := &roughness.Settings{Form: roughness.FormSpec{Kind: "none"}, Short: off()}
	b := budget(t, p, set, "Rq", instrument.BudgetInput{CutoffShare: 0.03})
	rq := 1 / math.Sqrt2
	near(t, "Rq", b.Value, rq/2, 1e-3)
	want := rq * math.Ln2 * 0.03 / math.Sqrt(3)
	near(t, "cut-offs", effect(t, b, "cut-offs"), want, 0.01*want)
}

// The spacing of a sine grows with the travel in proportion; its height, far from the cut-off, does not.
func TestBudgetTravel(t *testing.T) {
	p := sine(2, 50, 4800, 0.5)
	b := budget(t, p, nil, "Rsm", instrument.BudgetInput{TravelShare: 0.01})
	near(t, "Rsm", effect(t, b, "scale"), 50*0.01/math.Sqrt(3), 0.02)
	b = budget(t, p, nil, "Rz", instrument.BudgetInput{TravelShare: 0.01})
	near(t, "Rz", effect(t, b, "scale"), 0, 0.001)
	b = budget(t, sine(2, 50, 4800, 0.5), &roughness.Settings{Profile: roughness.P}, "Psm", instrument.BudgetInput{TravelShare: 0.01})
	near(t, "Psm", effect(t, b, "scale"), 50*0.01/math.Sqrt(3), 0.02)
}

// Every second point left out: a triangle wave of 4n+2 points misses both of its vertices then, or keeps both.
func TestBudgetSpacing(t *testing.T) {
	set := &roughness.Settings{Profile: roughness.P, Short: off(), Form: roughness.FormSpec{Kind: "none"}}
	// 8 points to a wave, vertices at the odd ones after a phase of an eighth: left out, the height is half of 4.
	z := synth.Triangle{Amplitude: 2, Wavelength: 8, Phase: 1.0 / 8}.Heights(800, 1)
	b := budget(t, roughness.Profile{Z: z, Spacing: 1}, set, "Pt", instrument.BudgetInput{Spacing: true})
	near(t, "Pt", b.Value, 4, 1e-9)
	near(t, "spacing", effect(t, b, "spacing"), 2/math.Sqrt(3), 1e-9)
	z = synth.Triangle{Amplitude: 2, Wavelength: 8}.Heights(800, 1)
	b = budget(t, roughness.Profile{Z: z, Spacing: 1}, set, "Pt", instrument.BudgetInput{Spacing: true})
	near(t, "spacing", effect(t, b, "spacing"), 0, 1e-9)
}

// Noise adds in squares to Rq: another dose of s adds s²/(2 Rq) on average, and scatters by s/√N for N independent heights.
func TestBudgetNoise(t *testing.T) {
	p := sine(2, 100, 4800, 0.5)
	const s = 0.1
	b := budget(t, p, nil, "Rq", instrument.BudgetInput{NoiseRq: s})
	bias := s * s / 2 / b.Value
	got := effect(t, b, "noise")
	if got < 0.8*bias || got > math.Hypot(bias, 4*s/math.Sqrt(1600)) {
		t.Errorf("noise brings %g, the bias alone is %g", got, bias)
	}
	var real []roughness.Profile
	for i := range 8 {
		z := synth.Noise{Sigma: 1, Seed: uint64(i)}.Heights(9600, 0.5)
		q := value(t, evaluate(t, z, 0.5, nil), "Rq")
		for k := range z {
			z[k] *= s / q
			z[k] += 3 + 0.001*float64(k) // a flat is never level, and the tilt is no noise
		}
		real = append(real, roughness.Profile{Z: z, Spacing: 0.5})
	}
	near(t, "by flats", effect(t, budget(t, p, nil, "Rq", instrument.BudgetInput{Flats: real}), "noise"), got, 0.4*got)
	still := roughness.Profile{Z: make([]float64, 100), Spacing: 0.5}
	near(t, "by a still flat", effect(t, budget(t, p, nil, "Rz", instrument.BudgetInput{Flats: []roughness.Profile{still}}), "noise"), 0, 1e-12)
	// The same every time.
	if again := effect(t, budget(t, p, nil, "Rq", instrument.BudgetInput{NoiseRq: s}), "noise"); again != got {
		t.Errorf("%g, then %g", got, again)
	}
}

// All influences together: u² is the sum of squares (JCGM 100:2008, 5.1.2), and what cannot be worked out is named.
func TestBudgetTogether(t *testing.T) {
	p := trace(5)
	in := instrument.BudgetInput{TextureInput: certified, NoiseRq: 0.01, TipTolerance: 0.5, Spacing: true, CutoffShare: 0.01, TravelShare: 0.002}
	in.WorkpieceS, in.WorkpieceN = 0.05, 6
	in.More = []decide.Contribution{decide.Rectangular("operator", 0.01)}
	b := budget(t, p, nil, "Rz", in)
	if len(b.Lines) != 10 || len(b.Left) != 0 {
		t.Fatalf("%d lines %v, left %q", len(b.Lines), b.Lines, b.Left)
	}
	sum := 0.0
	for _, l := range b.Lines {
		sum += l.Effect * l.Effect
		if l.Name == "" || l.Source.Doc == "" && l.Name != "operator" {
			t.Errorf("%+v", l)
		}
	}
	near(t, "combined", b.Result.Standard, math.Sqrt(sum), 1e-12)
	p.Z[2000] = math.NaN()
	b = budget(t, p, nil, "Rz", in)
	if len(b.Lines) != 9 || len(b.Left) != 1 || !strings.Contains(b.Left[0], "tip") || !strings.Contains(b.Sentence, "1 more") {
		t.Errorf("%d lines, left %q, %q", len(b.Lines), b.Left, b.Sentence)
	}
}

// A copy of a trace is no repeat: it changes neither the mean nor the spread, and alone it leaves the spread unknown.
func TestBudgetCopies(t *testing.T) {
	p, q := trace(5), trace(6)
	p.Name, q.Name = "a.txt", "b.txt"
	copied := p
	copied.Name = "copy.txt"
	plain := budget(t, p, nil, "Ra", instrument.BudgetInput{Others: []roughness.Profile{q}})
	b := budget(t, p, nil, "Ra", instrument.BudgetInput{Others: []roughness.Profile{p, q, copied}})
	if b.Value != plain.Value || b.Result.Expanded != plain.Result.Expanded || len(b.Copies) != 2 || len(b.Left) != 0 {
		t.Errorf("%+v, without copies %+v", b, plain)
	}
	if notes := strings.Join(b.Check(instrument.Session{}).Notes, " "); !strings.Contains(notes, "copy.txt has the same heights as a.txt, and counts once.") {
		t.Error(notes)
	}
	in := instrument.BudgetInput{Others: []roughness.Profile{p, copied}, NoiseRq: 0.01}
	alone := budget(t, p, nil, "Ra", instrument.BudgetInput{NoiseRq: 0.01})
	b = budget(t, p, nil, "Ra", in)
	if b.Value != alone.Value || b.Result.Expanded != alone.Result.Expanded || len(b.Lines) != len(alone.Lines) || len(b.Left) != 1 || !strings.Contains(b.Sentence, "1 more") {
		t.Errorf("%+v, alone %+v", b, alone)
	}
}

func TestBudgetRefusals(t *testing.T) {
	p := sine(2, 100, 4800, 0.5)
	coarse := []roughness.Profile{sine(1, 100, 4800, 1)}
	twice := instrument.BudgetInput{NoiseRq: 0.1}
	twice.Noise = 0.1
	noSpecimen := instrument.BudgetInput{}
	noSpecimen.CertificateU = 0.1
	for name, in := range map[string]instrument.BudgetInput{
		"noise twice": twice, "below 0": {TipTolerance: -1}, "not a number": {NoiseRq: math.NaN()}, "share": {CutoffShare: 0.6}, "other spacing": {Flats: coarse},
	} {
		if _, err := instrument.BudgetOn(context.Background(), p, nil, "Ra", in); !errors.Is(err, decide.ErrBudget) {
			t.Errorf("%s: %v", name, err)
		}
	}
	if _, err := instrument.BudgetOn(context.Background(), p, nil, "Ra", noSpecimen); err == nil {
		t.Error("an uncertainty without a certified value")
	}
	flat := roughness.Profile{Z: make([]float64, 9600), Spacing: 0.5}
	if _, err := instrument.BudgetOn(context.Background(), flat, nil, "Rsk", instrument.BudgetInput{}); err == nil {
		t.Error("a budget for no value")
	}
	stopped, stop := context.WithCancel(context.Background())
	stop()
	if _, err := instrument.BudgetOn(stopped, p, nil, "Ra", instrument.BudgetInput{Spacing: true}); !errors.Is(err, context.Canceled) {
		t.Errorf("stopped: %v", err)
	}
}

// What the value of the demonstration rod is worth, with a certificate, noise, and cut-offs that are realised to 2 %.
func ExampleBudgetOn() {
	d, _ := synth.FindDemo("ground-rod")
	in := instrument.BudgetInput{NoiseRq: 0.01, CutoffShare: 0.02}
	in.CertificateValue, in.CertificateU = 0.5, 0.015
	b, err := instrument.BudgetOn(context.Background(), roughness.Profile{Z: d.Heights(), Spacing: d.Spacing}, nil, "Rz", in)
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, l := range b.Lines {
		fmt.Printf("%-28s %.4f µm  %3.0f %%\n", l.Name, l.Effect, 100*l.Share)
	}
	fmt.Println(b.Sentence)
	// Output:
	// certificate of the specimen  0.0438 µm   95 %
	// noise                        0.0098 µm    5 %
	// cut-offs of the filters      0.0006 µm    0 %
	// Rz 2.920 µm ± 0.090 µm (k = 2.00): an estimate from 3 influences, no substitute for a calibration.
}
