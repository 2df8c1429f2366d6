package instrument_test

import (
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"math"
	"reflect"
	"slices"
	"strings"
	"testing"

	"example.com/furrow/roughness"
	"example.com/furrow/roughness/instrument"
	"example.com/furrow/roughness/synth"
)

// depthSpecimen is certified at 1.5 µm with U = 0.012 µm.
var depthSpecimen = instrument.Specimen{Number: "A 17", Type: "A1", Symbol: "d", Value: 1.5, Expanded: 0.012}

func check(t *testing.T, traces []roughness.Profile, sp instrument.Specimen, a instrument.Allowance) *instrument.SpecimenCheck {
	t.Helper()
	c, err := instrument.CheckSpecimen(context.Background(), traces, nil, sp, a, instrument.Session{Date: "2026-03-02", Gain: 1.02})
	if err != nil {
		t.Fatal(err)
	}
	return c
}

// grooves are ten traces of a groove of a depth, tilted and noisy.
func grooves(depth float64) []roughness.Profile {
	var list []roughness.Profile
	for i := range 10 {
		p := grooveTrace(depth, 0.001*float64(i), 0)
		n := synth.Noise{Sigma: 0.004, Seed: uint64(i)}.Heights(len(p.Z), p.Spacing)
		for k := range n {
			p.Z[k] += n[k]
		}
		list = append(list, p)
	}
	return list
}

// Calibratability of DKD-R 4-2, sheet 2 (excerpt): on a depth standard the deviation must not exceed the expanded uncertainty
// and 0.01 µm. Depth 1.5 µm, U 0.012 µm: 0.022 µm are allowed.
func TestCheckDepth(t *testing.T) {
	allowed := instrument.CalibrationAllowance(depthSpecimen)
	for _, c := range []struct {
		depth float64
		word  instrument.CheckWord
		gain  bool
	}{
		{1.5, instrument.Within, false}, {1.518, instrument.Within, true}, {1.482, instrument.Within, true},
		{1.526, instrument.Outside, true}, {1.45, instrument.Outside, true},
	} {
		k := check(t, grooves(c.depth), depthSpecimen, allowed)
		near(t, "allowed", k.Allowed, 0.022, 1e-12)
		near(t, "mean", k.Mean, c.depth, 0.002)
		near(t, "deviation", k.Deviation, k.Mean-1.5, 1e-15)
		if k.Word != c.word || (k.Gain != nil) != c.gain || len(k.Values) != 10 {
			t.Errorf("depth %g: %q, gain %v, %d values", c.depth, k.Word, k.Gain, len(k.Values))
		}
		if g := k.Gain; g != nil {
			near(t, "factor", g.Factor, 1.02*1.5/k.Mean, 1e-12)
			if !(g.Low < g.Factor && g.Factor < g.High) || !strings.Contains(g.Text, "not been applied") {
				t.Errorf("%+v", g)
			}
			// The certificate alone leaves the factor open by its relative expanded uncertainty.
			if half := (g.High - g.Low) / 2; half < g.Factor*0.012/1.5 || half > g.Factor*0.0095 {
				t.Errorf("the factor is open by %g", half)
			}
		}
	}
	// 3.3 % too shallow: more than drift (trade practice: 2 % to 3 %).
	if k := check(t, grooves(1.45), depthSpecimen, allowed); !strings.Contains(strings.Join(k.Hints, " "), "more than drift") {
		t.Errorf("hints %q", k.Hints)
	}
}

// A factor is proposed and never applied: the traces stay as they are, and evaluating them gives what it gave before.
func TestCheckLeavesTraces(t *testing.T) {
	traces, same := grooves(1.4), grooves(1.4)
	check(t, traces, depthSpecimen, instrument.AgreedAllowance(0.03))
	if !reflect.DeepEqual(traces, same) {
		t.Error("the check changed a trace")
	}
}

// On a roughness standard the deviation must not exceed the expanded uncertainty and 1 % of the value (DKD-R 4-2, sheet 2,
// excerpt). Type C1, a sine 3 µm high: Ra = A·2/π (closed form) and RSm.
func TestCheckPeriodic(t *testing.T) {
	ra := 1.5 * 2 / math.Pi
	traces := raised(sine(3, 100, 4800, 0.5))
	sp := instrument.Specimen{Type: "C1", Symbol: "Ra", Value: ra, Expanded: 0.02 * ra}
	k := check(t, traces, sp, instrument.CalibrationAllowance(sp))
	near(t, "allowed", k.Allowed, 0.03*ra, 1e-12)
	if k.Word != instrument.Within || k.Gain != nil || len(k.Conditions) == 0 {
		t.Errorf("%+v", k)
	}
	sp.Value, sp.Expanded = ra*1.05, 0.01*ra
	if k := check(t, traces, sp, instrument.CalibrationAllowance(sp)); k.Word != instrument.Outside || k.Gain == nil {
		t.Errorf("%+v", k)
	}
	// A wrong spacing is not mended by a factor for the heights.
	sp = instrument.Specimen{Type: "C1", Symbol: "Rsm", Value: 103, Expanded: 0.1}
	if k := check(t, traces, sp, instrument.CalibrationAllowance(sp)); k.Word != instrument.Outside || k.Gain != nil || !strings.Contains(strings.Join(k.Hints, " "), "traverse") {
		t.Errorf("%+v", k)
	}
}

// A clipped trace has no value: its peaks are lost, which a gain would hide.
func TestCheckClipped(t *testing.T) {
	sp := instrument.Specimen{Type: "C1", Symbol: "Ra", Value: 1.5 * 2 / math.Pi, Expanded: 0.02}
	traces := raised(sine(3, 100, 4800, 0.5))
	n := len(check(t, traces, sp, instrument.CalibrationAllowance(sp)).Values)
	z := slices.Clone(traces[0].Z)
	top := slices.Max(z) - 0.6
	for i := range z {
		z[i] = min(z[i], top)
	}
	traces[0].Z = z
	k := check(t, traces, sp, instrument.CalibrationAllowance(sp))
	if len(k.Values) != n-1 || len(k.Refused) != 1 || !strings.Contains(k.Refused[0], "clipped") {
		t.Errorf("%d values of %d, refused: %q", len(k.Values), n, k.Refused)
	}
}

// Type D checks the whole chain: a deviation proposes a factor, and says that a depth standard sets it (ISO 12179:2000, order of the steps
// from memory). A groove whose place is stated is measured there.
func TestCheckIrregularAndPlace(t *testing.T) {
	traces := raised(trace(1))
	set := &roughness.Settings{Long: gaussian(250), Parameters: []string{"Rz"}}
	rz := value(t, evaluate(t, traces[0].Z, 1, set), "Rz")
	sp := instrument.Specimen{Type: "D1", Symbol: "Rz", Value: 1.05 * rz, Expanded: 0.01}
	k, err := instrument.CheckSpecimen(context.Background(), traces, set, sp, instrument.CalibrationAllowance(sp), instrument.Session{})
	if err != nil {
		t.Fatal(err)
	}
	if k.Word != instrument.Outside || k.Gain == nil || math.Abs(k.Gain.Factor-1.05) > 1e-9 || !strings.Contains(strings.Join(k.Hints, " "), "depth standard") {
		t.Errorf("%+v", k)
	}
	sp.Value = 1.2 * rz // beyond the limits of a gain: something else is wrong
	far, err := instrument.CheckSpecimen(context.Background(), traces, set, sp, instrument.CalibrationAllowance(sp), instrument.Session{})
	if err != nil || far.Word != instrument.Outside || far.Gain != nil || !strings.Contains(strings.Join(far.Hints, " "), "by 20 % is refused") {
		t.Errorf("%+v, %v", far, err)
	}
	near(t, "spread of a trace with itself", *k.S, 0, 1e-12)
	at := depthSpecimen
	at.Groove, at.Centre = 100, 250
	if k := check(t, grooves(1.5)[:3], at, instrument.AgreedAllowance(0.03)); k.Word != instrument.Within {
		t.Errorf("%+v", k)
	}
	at.Centre = 30
	if k := check(t, grooves(1.5)[:3], at, instrument.AgreedAllowance(0.03)); k.Word != instrument.Open || len(k.Refused) != 3 {
		t.Errorf("%+v", k)
	}
}

// Too few values settle nothing (trade practice: three to five traces), and a trace without a value is named, not dropped.
func TestCheckWithFewTraces(t *testing.T) {
	a := instrument.AgreedAllowance(0.05)
	if k := check(t, grooves(1.5)[:2], depthSpecimen, a); k.Word != instrument.Open || k.Gain != nil || len(k.Hints) != 1 {
		t.Errorf("%+v", k)
	}
	flat := roughness.Profile{Z: make([]float64, 1001), Spacing: 0.5, Name: "flat.txt"}
	k := check(t, append(grooves(1.5)[:3], flat), depthSpecimen, a)
	if k.Word != instrument.Within || len(k.Values) != 3 || len(k.Refused) != 1 || !strings.HasPrefix(k.Refused[0], "flat.txt: ") {
		t.Errorf("%+v", k)
	}
	if k := check(t, nil, depthSpecimen, a); k.Word != instrument.Open || k.S != nil {
		t.Errorf("%+v", k)
	}
}

// An allowance as large as the certified value shows nothing: an instrument that stands still would keep it.
func TestCheckVague(t *testing.T) {
	for _, c := range []struct {
		u    float64
		word instrument.CheckWord
	}{{0.02, instrument.Within}, {1.3, instrument.Within}, {1.6, instrument.Open}, {30, instrument.Open}} {
		sp := depthSpecimen
		sp.Expanded = c.u
		k := check(t, grooves(1.5)[:3], sp, instrument.AgreedAllowance(0.05))
		if k.Word != c.word || strings.Contains(k.Check().Sentence, "can show nothing") != (c.word == instrument.Open) {
			t.Errorf("U %g: %s, %q", c.u, k.Word, k.Check().Sentence)
		}
	}
	sp := depthSpecimen
	sp.Expanded = 1.6
	if k := check(t, grooves(9)[:3], sp, instrument.AgreedAllowance(0.05)); k.Word != instrument.Outside {
		t.Errorf("far away: %s", k.Word)
	}
}

func TestCheckRefusals(t *testing.T) {
	for _, sp := range []instrument.Specimen{
		{Type: "B2", Symbol: "Ra", Value: 1}, {Type: "A1", Symbol: "Ra", Value: 1}, {Type: "D1", Symbol: "d", Value: 1},
		{Type: "A1", Symbol: "d"}, {Type: "A1", Symbol: "d", Value: 1, Expanded: math.NaN()}, {Type: "A1", Symbol: "d", Value: 1, K: -2},
		{Type: "A1", Symbol: "d", Value: math.Inf(1)}, {Type: "A1", Symbol: "d", Value: 1, Expanded: -1}, {Type: "A1", Symbol: "d", Value: 1, Expanded: math.Inf(1)},
		{Type: "A1", Symbol: "d", Value: 1, K: math.Inf(1)}, {Type: "A1", Symbol: "d", Value: 1, K: 0.01}, {Type: "A1", Symbol: "d", Value: 1, K: 95},
	} {
		if _, err := instrument.CheckSpecimen(context.Background(), nil, nil, sp, instrument.Allowance{}, instrument.Session{}); !errors.Is(err, instrument.ErrSpecimen) {
			t.Errorf("%+v: %v", sp, err)
		}
	}
	bad := instrument.AgreedAllowance(math.Inf(1))
	if _, err := instrument.CheckSpecimen(context.Background(), nil, nil, depthSpecimen, bad, instrument.Session{}); !errors.Is(err, instrument.ErrSpecimen) {
		t.Errorf("an endless allowance: %v", err)
	}
	var setting *roughness.SettingError
	sp := instrument.Specimen{Type: "C1", Symbol: "Rfoo", Value: 1}
	if _, err := instrument.CheckSpecimen(context.Background(), []roughness.Profile{sine(1, 100, 4800, 1)}, nil, sp, instrument.Allowance{}, instrument.Session{}); !errors.As(err, &setting) {
		t.Errorf("a symbol that the edition lacks: %v", err)
	}
}

// A check is kept with the record of the day: it survives JSON whole.
func TestCheckKeeps(t *testing.T) {
	for _, traces := range [][]roughness.Profile{grooves(1.4), grooves(1.5)[:1], nil} {
		k := check(t, traces, depthSpecimen, instrument.CalibrationAllowance(depthSpecimen))
		data, err := json.Marshal(k)
		if err != nil {
			t.Fatal(err)
		}
		var back instrument.SpecimenCheck
		if err := json.Unmarshal(data, &back); err != nil {
			t.Fatal(err)
		}
		if !reflect.DeepEqual(*k, back) {
			t.Errorf("%+v came back as %+v", *k, back)
		}
	}
}

// A wide groove does not see the tip, a fine profile does (trade practice).
func TestTipHints(t *testing.T) {
	made := func(word instrument.CheckWord, certified, deviation float64) *instrument.Check {
		return &instrument.Check{Word: word, Held: &instrument.Held{Certificate: certified, Deviation: deviation, Allowed: 0.02 * certified}}
	}
	in, out, open := instrument.Within, instrument.Outside, instrument.Open
	for _, c := range []struct {
		depth, fine *instrument.Check
		want        string
	}{
		{made(in, 1.5, 0), made(out, 0.5, -0.06), "blunt"},
		{made(in, 1.5, 0), made(out, 0.5, 0.06), "chipped"},
		{made(out, 1.5, -0.15), made(out, 0.5, -0.05), "gain, not the tip"},
		{made(out, 1.5, -0.15), made(in, 0.5, 0), "correct the gain"},
		{made(in, 1.5, 0), made(open, 0.5, -0.06), "not decided"},
		{made(in, 1.5, 0), made(in, 0.5, 0), ""},
	} {
		if got := strings.Join(instrument.TipHints(c.depth, c.fine), " "); !strings.Contains(got, c.want) || c.want == "" && got != "" {
			t.Errorf("%v %v: %q, want %q", c.depth.Word, c.fine.Held.Deviation, got, c.want)
		}
	}
}

// A blunt tip shows: the same surface traced with a tip of 10 µm leaves the depth of a wide groove as it is and lowers
// the fine profile. The surfaces are made, and the tip is rolled over them.
func TestTipHintsOnTraces(t *testing.T) {
	blunt := func(list []roughness.Profile) []roughness.Profile {
		var out []roughness.Profile
		for _, p := range list {
			out = append(out, tipOver(t, p, 10))
		}
		return out
	}
	p := sine(0, 8, 4800, 0.5)
	p.Z = synth.Rectified{Height: 0.8, Wavelength: 8}.Heights(len(p.Z), p.Spacing)
	fine := raised(p)
	// Certified with a tip so fine that it follows everything.
	e := evaluate(t, fine[0].Z, 0.5, &roughness.Settings{Parameters: []string{"Rz"}})
	sp := instrument.Specimen{Type: "C4", Symbol: "Rz", Value: value(t, e, "Rz"), Expanded: 0.01}
	depth := check(t, blunt(grooves(1.5)), depthSpecimen, instrument.AgreedAllowance(0.02))
	rough := check(t, blunt(fine), sp, instrument.CalibrationAllowance(sp))
	if hints := instrument.TipHints(depth.Check(), rough.Check()); len(hints) != 1 || !strings.Contains(hints[0], "blunt") {
		t.Errorf("depth %+.3f, Rz %+.3f: %q", depth.Deviation, rough.Deviation, hints)
	}
}

// The morning check with a groove: three traces, a certificate, and a factor that is proposed and left to the person.
func ExampleCheckSpecimen() {
	traces := []roughness.Profile{grooveTrace(1.44, 0.01, 0), grooveTrace(1.45, 0, 0), grooveTrace(1.46, -0.01, 0)}
	sp := instrument.Specimen{Type: "A1", Symbol: "d", Value: 1.5, Expanded: 0.01}
	c, err := instrument.CheckSpecimen(context.Background(), traces, nil, sp, instrument.CalibrationAllowance(sp), instrument.Session{Date: "2026-03-02"})
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%.3f µm, %+.3f µm from the certificate, %.3f µm allowed: %s\n", c.Mean, c.Deviation, c.Allowed, c.Word)
	fmt.Println(c.Gain.Text)
	fmt.Println(c.Hints[0])
	// Output:
	// 1.450 µm, -0.050 µm from the certificate, 0.020 µm allowed: outside
	// Proposed gain factor: 1.035 (1.024 to 1.045) instead of 1. It has not been applied and is never applied here. First clean tip and specimen and repeat the check.
	// The factor would change by 3.5 %, which is more than drift: look at the seat of the tip, at the range that is switched on, and for dirt in the groove.
}

// A step is more than twice the spread before it; a drift is a slope that stands out from the scatter.
func TestCourse(t *testing.T) {
	for _, c := range []struct {
		values []float64
		want   string
	}{
		{[]float64{1, 1.001, 0.999}, ""}, {[]float64{1, 1.001, 0.999, 1.0005, 0.9995}, ""},
		{[]float64{1, 1.001, 0.999, 1.0005, 0.97}, "A step, not a drift: something changed after 2026-04."},
		{[]float64{1, 0.999, 0.998, 0.997, 0.996}, "It drifts: -0.4 % since 2026-01."}, {[]float64{1, 1, 1, 1}, ""},
	} {
		var checks []instrument.Earlier
		for i, v := range c.values {
			checks = append(checks, instrument.Earlier{Date: fmt.Sprintf("2026-%02d", i+1), Value: v})
		}
		if got := instrument.Course(checks); got != c.want {
			t.Errorf("%v: %q, want %q", c.values, got, c.want)
		}
	}
}

// A trace that is too short for its sections still counts, and every check says so.
func TestShortTrace(t *testing.T) {
	p := sine(3, 100, 2600, 0.5)
	p.Name = "short.txt"
	sp := instrument.Specimen{Type: "C1", Symbol: "Ra", Value: 3 / math.Pi, Expanded: 0.02}
	k := check(t, append(raised(p)[:2], sine(3, 100, 4800, 0.5)), sp, instrument.CalibrationAllowance(sp))
	if got := strings.Join(k.Hints, " "); strings.Count(got, "short.txt holds 3 of 5 sections.") != 2 || strings.Contains(got, "5 of 5") {
		t.Errorf("%q", got)
	}
	n, err := instrument.CheckNoise(t.Context(), []roughness.Profile{p}, nil, nil, instrument.Session{})
	if err != nil || !strings.Contains(strings.Join(n.Warnings, " "), "holds 3 of 5 sections") {
		t.Errorf("%+v, %v", n, err)
	}
}

// The same trace given several times is one measurement, and every check says so.
func TestSameTrace(t *testing.T) {
	p := sine(3, 100, 4800, 0.5)
	p.Name = "step.txt"
	other := p
	other.Name = "copy.txt"
	sp := instrument.Specimen{Type: "C1", Symbol: "Ra", Value: 3 / math.Pi, Expanded: 0.02}
	k := check(t, []roughness.Profile{p, p, other}, sp, instrument.CalibrationAllowance(sp))
	if got := strings.Join(k.Hints, " "); !strings.Contains(got, "step.txt is given twice") || !strings.Contains(got, "copy.txt has the same heights as step.txt") {
		t.Errorf("%q", got)
	}
	if k.Word != instrument.Open || k.Gain != nil || !strings.Contains(k.Check().Sentence, "without copies 1 gave") {
		t.Errorf("three times the same trace: %s, %s", k.Word, k.Check().Sentence)
	}
	if k := check(t, append(raised(p), other), sp, instrument.CalibrationAllowance(sp)); k.Word == instrument.Open {
		t.Errorf("three traces and a copy: %s", k.Check().Sentence)
	}
	n, err := instrument.CheckNoise(t.Context(), []roughness.Profile{p, other}, nil, nil, instrument.Session{})
	if err != nil || !strings.Contains(strings.Join(n.Warnings, " "), "copy.txt has the same heights") {
		t.Errorf("%+v, %v", n, err)
	}
	g := grooves(1.5)[0]
	if k := check(t, []roughness.Profile{g, g, g}, depthSpecimen, instrument.AgreedAllowance(0.05)); k.Word != instrument.Open {
		t.Errorf("three times the same groove: %s", k.Word)
	}
	for _, sp := range []instrument.Specimen{depthSpecimen, {}} {
		c, err := instrument.CheckGroove(t.Context(), []roughness.Profile{g, g}, sp, instrument.AgreedAllowance(0.03), instrument.Session{})
		if err != nil || !strings.Contains(strings.Join(c.Notes, " "), "counts twice") {
			t.Errorf("%+v, %v", c, err)
		}
	}
	if k := check(t, raised(p), sp, instrument.CalibrationAllowance(sp)); strings.Contains(strings.Join(k.Hints, " "), "twice") {
		t.Errorf("%q", k.Hints)
	}
}
