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
	"example.com/furrow/roughness/judge"
	"example.com/furrow/roughness/synth"
	"example.com/furrow/standards"
	"example.com/furrow/standards/decide"
)

// flats are traces of an optical flat: noise on a tilted guide that bends by bow.
func flats(n int, sigma, bow float64) []roughness.Profile {
	var list []roughness.Profile
	for i := range n {
		p := roughness.Profile{Z: synth.Noise{Sigma: sigma, Seed: uint64(100 + i)}.Heights(9600, 0.5), Spacing: 0.5}
		for k := range p.Z {
			u := 2*float64(k)/9599 - 1
			p.Z[k] += 0.3*u + bow*(1-u*u)
		}
		list = append(list, p)
	}
	return list
}

// A probe that does not move draws traces without any height: they are no proof of small noise, alone or among others.
func TestDeadProbe(t *testing.T) {
	limits := []standards.Bound{{Symbol: "Rz", Value: 3.2}}
	dead := roughness.Profile{Z: make([]float64, 9600), Spacing: 0.5, Name: "dead.csv"}
	all := []roughness.Profile{dead, dead, dead, dead, dead}
	for _, list := range [][]roughness.Profile{all, append(flats(4, 0.02, 0), dead)} {
		n, err := instrument.CheckNoise(context.Background(), list, nil, limits, instrument.Session{})
		if err != nil {
			t.Fatal(err)
		}
		if n.Word != instrument.Open || len(n.Refused) == 0 || !strings.Contains(n.Refused[0], "the probe may not have moved") {
			t.Errorf("%d traces: %s, %q", len(list), n.Word, n.Refused)
		}
	}
	with, err := instrument.CheckNoise(context.Background(), append(flats(5, 0.02, 0), dead), nil, limits, instrument.Session{})
	if err != nil {
		t.Fatal(err)
	}
	without, err := instrument.CheckNoise(context.Background(), flats(5, 0.02, 0), nil, limits, instrument.Session{})
	if err != nil {
		t.Fatal(err)
	}
	if with.Word != instrument.Small || with.Mean["Rz"] != without.Mean["Rz"] {
		t.Errorf("%s with a mean of %g µm, and %g µm without the dead trace", with.Word, with.Mean["Rz"], without.Mean["Rz"])
	}
}

// The noise on a flat is the mean of five traces (DKD-R 4-2, excerpt); a tenth of the limit is the rule of thumb.
func TestCheckNoise(t *testing.T) {
	limits := []standards.Bound{{Symbol: "Rz", Value: 0.5}, {Symbol: "Ra", Value: 0.4}, {Symbol: "Rk", Value: 1}, {Symbol: "Pt", Value: 5}}
	n, err := instrument.CheckNoise(context.Background(), flats(5, 0.02, 0.1), nil, limits, instrument.Session{Date: "2026-03-02"})
	if err != nil {
		t.Fatal(err)
	}
	sums := map[string]float64{}
	for _, p := range flats(5, 0.02, 0.1) {
		e := evaluate(t, p.Z, p.Spacing, &roughness.Settings{Parameters: []string{"Ra", "Rq", "Rz"}})
		for _, v := range e.Values {
			sums[v.Symbol] += v.Value / 5
		}
	}
	for symbol, want := range sums {
		near(t, symbol+"0", n.Mean[symbol], want, 1e-12)
	}
	// A parabola of height h less its least-squares line, which is level, spans h over the whole travel; noise adds to it.
	if n.Straightness < 0.1 || n.Straightness > 0.1+8*0.02 || n.Waviness < 0.08 || n.Waviness > 0.12 {
		t.Errorf("Pt0 %g, Wt0 %g", n.Straightness, n.Waviness)
	}
	if len(n.Warnings) != 2 || !strings.Contains(n.Warnings[0], "Rz0") || !strings.Contains(n.Warnings[1], "Pt") {
		t.Errorf("warnings %q", n.Warnings)
	}
	data, err := json.Marshal(n)
	var back instrument.NoiseCheck
	if err != nil || json.Unmarshal(data, &back) != nil || !reflect.DeepEqual(*n, back) {
		t.Errorf("the check does not survive JSON: %v", err)
	}
	n, err = instrument.CheckNoise(context.Background(), append(flats(2, 0.02, 0), sine(0, 10, 300, 0.5)), nil, nil, instrument.Session{})
	if err != nil || n.Traces != 2 || len(n.Refused) != 1 || len(n.Warnings) != 1 {
		t.Errorf("%+v %v", n, err)
	}
	skid := flats(1, 0.02, 0.1)
	skid[0].Traced.Skid = roughness.WithSkid
	n, err = instrument.CheckNoise(context.Background(), skid, nil, nil, instrument.Session{})
	if err != nil || n.Straightness != 0 || !strings.Contains(n.Warnings[0], "skid") {
		t.Errorf("%+v %v", n, err)
	}
	if _, err := instrument.CheckNoise(context.Background(), nil, &roughness.Settings{Edition: "iso-12085"}, nil, instrument.Session{}); err == nil {
		t.Error("motifs have no Rq")
	}
}

// A copy of a trace is no further trace of a flat: it changes no mean, and five with a copy among them are four. Nor is it one of the doses of a
// budget, five of which tell bias from scatter.
func TestCopiesOfFlat(t *testing.T) {
	all := flats(5, 0.02, 0.1)
	four, err := instrument.CheckNoise(t.Context(), all[:4], nil, nil, instrument.Session{})
	if err != nil {
		t.Fatal(err)
	}
	again, err := instrument.CheckNoise(t.Context(), append(all[:4:4], all[1]), nil, nil, instrument.Session{})
	if err != nil {
		t.Fatal(err)
	}
	if again.Traces != 4 || !reflect.DeepEqual(again.Mean, four.Mean) || again.Word != four.Word || !slices.Contains(again.Warnings, "trace 5 has the same heights as trace 2, and counts once.") {
		t.Errorf("%+v", again)
	}
	p := sine(1, 100, 4800, 0.5)
	effect := func(flats []roughness.Profile) *instrument.TraceBudget {
		b, err := instrument.BudgetOn(t.Context(), p, nil, "Rz", instrument.BudgetInput{Flats: flats})
		if err != nil {
			t.Fatal(err)
		}
		return b
	}
	if a, b := effect(all[:4]), effect(append(all[:4:4], all[0])); a.Result.Expanded != b.Result.Expanded || len(b.Copies) != 1 {
		t.Errorf("U %v, with a copy %v, %v", a.Result.Expanded, b.Result.Expanded, b.Copies)
	}
}

// Noise adds in squares in Rq and in nothing else (textbook knowledge): a sine whose Rq is A/√2 under noise as large as a third of
// it comes back; Ra and Rz are refused, and so is a flat under another cut-off.
func TestCorrectNoise(t *testing.T) {
	set := &roughness.Settings{Parameters: []string{"Ra", "Rq", "Rz"}}
	n, err := instrument.CheckNoise(context.Background(), flats(5, 0.05, 0), set, nil, instrument.Session{})
	if err != nil {
		t.Fatal(err)
	}
	p := sine(0.2, 100, 4800, 0.5)
	clean := evaluate(t, p.Z, p.Spacing, set)
	for i, z := range (synth.Noise{Sigma: 0.05, Seed: 7}).Heights(len(p.Z), 0.5) {
		p.Z[i] += z
	}
	e := evaluate(t, p.Z, p.Spacing, set)
	c, err := n.Correct(e, "Rq")
	if err != nil {
		t.Fatal(err)
	}
	want := value(t, clean, "Rq")
	// Two independent sums of about 8000/5 independent heights: the noise power is known to 4 %, of which a twelfth is left in Rq.
	near(t, "Rq without noise", c.Corrected, want, 0.01*want)
	if math.Abs(c.Shown-want) < 3*math.Abs(c.Corrected-want) {
		t.Errorf("the correction gains nothing: %g shown, %g corrected, %g clean", c.Shown, c.Corrected, want)
	}
	if value(t, e, "Rq") != c.Shown {
		t.Error("the evaluation was changed")
	}
	for _, symbol := range []string{"Ra", "Rz"} {
		if _, err := n.Correct(e, symbol); !errors.Is(err, decide.ErrNoise) {
			t.Errorf("%s: %v", symbol, err)
		}
	}
	if _, err := n.Correct(e, "Rk"); err == nil {
		t.Error("a value that is not there was corrected")
	}
	other := evaluate(t, p.Z, p.Spacing, &roughness.Settings{Long: gaussian(250), Parameters: []string{"Rq"}})
	if _, err := n.Correct(other, "Rq"); !errors.Is(err, judge.ErrMixed) {
		t.Errorf("a flat under another cut-off: %v", err)
	}
	form := evaluate(t, p.Z, p.Spacing, &roughness.Settings{Form: roughness.FormSpec{Kind: "mean"}, Parameters: []string{"Rq"}})
	if _, err := n.Correct(form, "Rq"); err != nil {
		t.Errorf("another form: %v", err)
	}
}

// Five traces of a flat, and the limit that is to be judged with the instrument.
func ExampleCheckNoise() {
	n, err := instrument.CheckNoise(context.Background(), flats(5, 0.02, 0), nil, []standards.Bound{{Symbol: "Rz", Value: 0.5}}, instrument.Session{Date: "2026-03-02"})
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("Rz0 %.3f µm, Rq0 %.3f µm over %d traces\n", n.Mean["Rz"], n.Mean["Rq"], n.Traces)
	fmt.Println(n.Warnings[0])
	// Output:
	// Rz0 0.074 µm, Rq0 0.011 µm over 5 traces
	// The noise, Rz0 0.074 µm on a flat, is more than a tenth of the limit 0.5 µm: the value says little about the surface.
}

// A groove and a fine specimen on the same day: the depth is right, the fine profile reads low.
func ExampleTipHints() {
	depth := &instrument.Check{Word: instrument.Within, Held: &instrument.Held{Certificate: 1.5, Deviation: 0.003, Allowed: 0.02}}
	fine := &instrument.Check{Word: instrument.Outside, Held: &instrument.Held{Certificate: 0.4, Deviation: -0.03, Allowed: 0.01}}
	fmt.Println(instrument.TipHints(depth, fine)[0])
	// Output: Look at the tip. The depth is right and the fine profile reads low: the tip is blunt, or too large for this specimen. Check it with a type B specimen or under a microscope.
}

// The share of a limit is a plain number that says the same as the word, and a trace too coarse for the S-filter is told.
func TestNoiseShare(t *testing.T) {
	p := flats(5, 0.02, 0)
	mean := func(limit float64) *instrument.NoiseCheck {
		n, err := instrument.CheckNoise(t.Context(), p, nil, []standards.Bound{{Symbol: "Rz", Value: limit}}, instrument.Session{})
		if err != nil {
			t.Fatal(err)
		}
		return n
	}
	rz := mean(1).Mean["Rz"]
	for _, c := range []struct {
		share      float64
		word, says string
	}{{1.04, "large", "Rz0 is 100 % of"}, {0.1003, "large", "Rz0 is 10.03 % of"}, {0.0997, "small", "Rz0 is 10 % of"}} {
		if n := mean(rz / c.share); string(n.Word) != c.word || !strings.Contains(n.Sentence, c.says) {
			t.Errorf("%g: %s: %s", c.share, n.Word, n.Sentence)
		}
	}
	for i := range p {
		p[i].Spacing = 4
	}
	if n := mean(1); !strings.Contains(strings.Join(n.Warnings, " "), "too far apart for the S-filter") {
		t.Errorf("%q", n.Warnings)
	}
}
