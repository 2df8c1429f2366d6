package judge_test

import (
	"example.com/furrow/roughness/judge"
	"fmt"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"example.com/furrow/roughness"
	"example.com/furrow/roughness/synth"
	"example.com/furrow/standards"
	"example.com/furrow/standards/decide"
)

// rod is the first demonstration: Rz 2.92 µm, Ra 0.41 µm, 4.8 mm long.
func rod() roughness.Profile {
	d := synth.Demos()[0]
	return roughness.Profile{Z: d.Heights(), Spacing: d.Spacing, Name: "rod"}
}

func requirement(t *testing.T, text string, edition standards.EditionID) *judge.Requirement {
	t.Helper()
	r, err := judge.ReadRequirement(text, edition)
	if err != nil {
		t.Fatalf("%s: %v", text, err)
	}
	return r
}

func judged(t *testing.T, j judge.Judging) *judge.Verdict {
	t.Helper()
	v, err := j.Judge()
	if err != nil {
		t.Fatal(err)
	}
	if (v.Why != nil) != (v.Word == decide.NoVerdict) || v.Sentence == "" || v.Why != nil && *v.Why != v.Open[0] {
		t.Errorf("%s, why %v, open %v, %q", v.Word, v.Why, v.Open, v.Sentence)
	}
	for _, l := range v.Limits {
		if (l.Why != nil) != (l.Word == decide.NoVerdict) {
			t.Errorf("%s: %s, why %v", l.Symbol, l.Word, l.Why)
		}
	}
	return v
}

func why(v *judge.Verdict) string {
	if v.Why == nil {
		return ""
	}
	return v.Why.Key
}

// Every setting that a requirement asks for and that is another one leaves no verdict; where somebody has agreed there is one, and it
// says what is used instead.
func TestDeviationsLeaveNoVerdict(t *testing.T) {
	r := requirement(t, "Rz 3,2", "iso-21920")
	start := 300.0
	for key, over := range map[string]roughness.Settings{
		"long.cutoff": {Long: gaussian(250), SectionLength: 250},
		"long":        {Long: roughness.Band{Spec: roughness.FilterSpec{Filter: "spline", Cutoff: 800}}},
		"short":       {Short: off()},
		"form":        {Form: roughness.FormSpec{Kind: "polynomial", Degree: 2}},
		"input":       {Input: roughness.Levelled},
		"sections":    {Sections: 3},
		"section":     {SectionLength: 400},
		"rule":        {},
		"":            {Name: "another name", Invert: true, Crop: [2]float64{10, 10}, Start: &start, Exclude: []roughness.Exclusion{{From: 900, To: 940, Reason: "pore"}}},
	} {
		j := judge.Judging{Requirement: r, Traces: []roughness.Profile{rod()}}
		var err error
		if j.Settings, err = r.On([]roughness.Profile{rod()}, 0, &over); err != nil {
			t.Fatal(err)
		}
		if key == "rule" {
			j.Rule = standards.Median
			j.Typed, _ = judge.ParseTyped("Rz 2; 2", "")
		}
		v := judged(t, j)
		if key == "" {
			if v.Word != decide.Conforms {
				t.Errorf("settings that say where the trace lies: %s %v", v.Word, v.Open)
			}
			continue
		}
		if why(v) != judge.WhyDeviates || !strings.Contains(v.Sentence, "instead of") {
			t.Errorf("%s: %s %q", key, v.Word, v.Sentence)
		}
		j.Agreed = "the customer"
		v = judged(t, j)
		if v.Why != nil || len(v.Agreed) == 0 || v.Agreed[0].With != "the customer" || !slices.ContainsFunc(v.Agreed, func(d judge.Deviation) bool { return d.Key == key }) {
			t.Errorf("%s, agreed: %s %v %v", key, v.Word, v.Open, v.Agreed)
		}
	}
	// Another profile or edition, which may not have the parameter at all.
	for _, s := range []roughness.Settings{{Profile: roughness.P}, {Edition: "iso-4287"}} {
		if v := judged(t, judge.Judging{Requirement: r, Traces: []roughness.Profile{rod()}, Settings: &s}); why(v) != judge.WhyDeviates {
			t.Errorf("%+v: %s %v", s, v.Word, v.Open)
		}
	}
}

// The S-filter that a requirement asks for is left out where the points are too far apart: that is a deviation too.
func TestShortLeftOutDeviates(t *testing.T) {
	p := sine(1, 50, 9600, 2)
	v := judged(t, judge.Judging{Requirement: requirement(t, "Rz 3,2", ""), Traces: []roughness.Profile{p}})
	if why(v) != judge.WhyDeviates || !strings.Contains(v.Sentence, "S-filter none instead of") {
		t.Errorf("%s %q", v.Word, v.Sentence)
	}
}

// What is missing, in the order in which it is told.
func TestNoVerdict(t *testing.T) {
	short := roughness.Profile{Z: rod().Z[:6400], Spacing: 0.5, Name: "short"}
	hole := rod()
	hole.Z = slices.Clone(hole.Z)
	flat := roughness.Profile{Z: make([]float64, 9600), Spacing: 0.5, Name: "flat"}
	_, refused := judge.ReadRequirement("Rz 3,2 Sc9", "")
	out := &roughness.Settings{Exclude: []roughness.Exclusion{{From: 900, To: 1000, Reason: "scratch"}}}
	for _, c := range []struct {
		name  string
		j     judge.Judging
		key   string
		words string
	}{
		{"none", judge.Judging{}, "no-requirement", "Type the requirement"},
		{"refused", judge.Judging{Refused: refused, Traces: []roughness.Profile{rod()}}, "refused", "not understood"},
		{"open", judge.Judging{Requirement: requirement(t, "RSm 0,2 Sc3", ""), Traces: []roughness.Profile{rod()}}, "requirement-open", "one question open"},
		{"no value", judge.Judging{Requirement: requirement(t, "Rz 3,2", "")}, "no-value", "Choose a trace"},
		{"file", judge.Judging{Requirement: requirement(t, "Rz 3,2", ""), Traces: []roughness.Profile{rod()}, FileOpen: []string{"a.txt, unit of the heights"}}, "file-open", "a.txt"},
		{"undefined", judge.Judging{Requirement: requirement(t, "Rsk 3 Sc3", ""), Traces: []roughness.Profile{flat}}, "undefined", "Rsk is not defined on this trace"},
		{"one of two undefined", judge.Judging{Requirement: requirement(t, "Rsk 3 Sc3", ""), Traces: []roughness.Profile{rod(), flat}}, "undefined", "flat: Rsk"},
		{"sections", judge.Judging{Requirement: requirement(t, "Rz 3,2", ""), Traces: []roughness.Profile{short}}, "sections", "The trace holds 4 of 5 sections. 0.8 mm are missing."},
		{"one of two short", judge.Judging{Requirement: requirement(t, "Rz 3,2", ""), Traces: []roughness.Profile{rod(), short}}, "sections", "short: The trace holds 4 of 5"},
		{"left out", judge.Judging{Requirement: requirement(t, "Rz 3,2", ""), Traces: []roughness.Profile{rod()}, Settings: on(t, "Rz 3,2", out)}, "left-out", "section 1"},
		{"more", judge.Judging{Requirement: requirement(t, "Rz 3,2 T16%", ""), Traces: []roughness.Profile{rod()}}, "more", "needs two more values: 1 of 3"},
	} {
		v := judged(t, c.j)
		if why(v) != c.key || !strings.Contains(v.Sentence, c.words) {
			t.Errorf("%s: %s (%s) %q", c.name, v.Word, why(v), v.Sentence)
		}
		for _, l := range v.Limits {
			if l.Word == decide.Conforms {
				t.Errorf("%s: a limit says %s", c.name, l.Word)
			}
		}
	}
	// Several at once keep their order.
	v := judged(t, judge.Judging{Requirement: requirement(t, "Rz 3,2 T16%", ""), Traces: []roughness.Profile{short}, FileOpen: []string{"a"}, Settings: on(t, "Rz 3,2", &roughness.Settings{Short: off()})})
	var keys []string
	for _, r := range v.Open {
		keys = append(keys, r.Key)
	}
	if !slices.Equal(keys, []string{"file-open", "sections", "deviates", "more"}) {
		t.Errorf("%v", keys)
	}
}

func on(t *testing.T, text string, over *roughness.Settings) *roughness.Settings {
	t.Helper()
	s, err := requirement(t, text, "").On([]roughness.Profile{rod()}, 0, over)
	if err != nil {
		t.Fatal(err)
	}
	return s
}

// Limits that need other settings are evaluated with theirs, and what was changed for the first holds for all.
func TestEachLimitItsSettings(t *testing.T) {
	v := judged(t, judge.Judging{Requirement: requirement(t, "Rz 3,2; Ra 0,05", ""), Traces: []roughness.Profile{rod()}})
	if len(v.Limits) != 2 || v.Word != decide.DoesNotConform || v.Limits[0].Word != decide.Conforms {
		t.Fatalf("%+v", v)
	}
	for _, l := range v.Limits {
		e, err := roughness.Evaluate(rod(), l.Settings)
		if err != nil {
			t.Fatal(err)
		}
		if x, _ := e.Value(l.Symbol); x.Value != l.Counted[0].Value {
			t.Errorf("%s: %g, evaluated alone %g", l.Symbol, l.Counted[0].Value, x.Value)
		}
	}
	if a, b := v.Limits[0].Settings.Long.Spec.Cutoff, v.Limits[1].Settings.Long.Spec.Cutoff; a != 800 || b != 250 || v.Limits[0].Apart || !v.Limits[1].Apart {
		t.Errorf("cut-offs %g and %g", a, b)
	}
	v = judged(t, judge.Judging{Requirement: requirement(t, "Rz 3,2; Ra 0,05", ""), Traces: []roughness.Profile{rod()}, Settings: on(t, "Rz 3,2", &roughness.Settings{Short: off()})})
	for _, l := range v.Limits {
		if !l.Settings.Short.Off || l.Why == nil || l.Why.Key != judge.WhyDeviates {
			t.Errorf("%s: S-filter %+v, why %v", l.Symbol, l.Settings.Short, l.Why)
		}
	}
	// Each its rule: the median of the second asks for three values.
	v = judged(t, judge.Judging{Requirement: requirement(t, "Rz 3,2; Ra 0,8 Tmed", ""), Traces: []roughness.Profile{rod()}})
	if v.Word != decide.NoVerdict || v.More != 2 || v.Limits[0].Word != decide.Conforms || v.Limits[1].Rule != standards.Median {
		t.Errorf("%s, %d more, %+v", v.Word, v.More, v.Limits)
	}
}

// Where ISO 4288 lets the measured value find the cut-off, the limit is judged with the one that is found, and one that was set
// otherwise deviates.
func TestMeasuredCutoff(t *testing.T) {
	z := synth.Sines{{Amplitude: 5, Wavelength: 60}, {Amplitude: 1.4, Wavelength: 1500}}.Heights(30000, 0.5)
	p := roughness.Profile{Z: z, Spacing: 0.5}
	r := requirement(t, "Rz 8", "iso-4287")
	v := judged(t, judge.Judging{Requirement: r, Traces: []roughness.Profile{p}, Rule: standards.Maximum, Agreed: "the customer"})
	if got := v.Limits[0].Settings.Long.Spec.Cutoff; got != 2500 || v.Word != decide.DoesNotConform {
		t.Errorf("%s with %g µm", v.Word, got)
	}
	s := *r.Settings
	v = judged(t, judge.Judging{Requirement: r, Traces: []roughness.Profile{p}, Settings: &s})
	if why(v) != judge.WhyDeviates || !strings.Contains(v.Sentence, "L-filter 0.8 mm instead of 2.5 mm") {
		t.Errorf("%s %q", v.Word, v.Sentence)
	}
}

// Neither the order of the traces nor that of the values typed in changes a word or a sentence, for any rule, guard and number.
func TestVerdictOrder(t *testing.T) {
	r := rand.New(rand.NewPCG(3, 11))
	texts := []string{"Rz 3,2", "Rz 3,2 T16%", "Rz 3,2 Tmed", "U Rz 4 / L Rz 2", "Rz 3,2 T16%; Ra 0,5 Tmed", "L Rz 2 T16% Sc3"}
	words := map[decide.Word]int{}
	for range 500 {
		text := texts[r.IntN(len(texts))]
		j := judge.Judging{Requirement: requirement(t, text, "")}
		var typed []string
		for range 1 + r.IntN(14) {
			typed = append(typed, fmt.Sprintf("Rz %.3g", max(0.1, 2.9+0.4*r.NormFloat64())), fmt.Sprintf("Ra %.3g", max(0.1, 0.45+0.06*r.NormFloat64())))
		}
		if r.IntN(2) == 0 {
			j.Guard, _ = judge.GuardFor([]string{"2017", "1998"}[r.IntN(2)], "", 2, true)
			j.U, _ = judge.ParseUncertainty("Rz 0.12; Ra 0.02", "")
		}
		run := func() *judge.Verdict {
			var err error
			if j.Typed, err = judge.ParseTyped(strings.Join(typed, "; "), ""); err != nil {
				t.Fatal(err)
			}
			return judged(t, j)
		}
		a := run()
		r.Shuffle(len(typed), func(i, k int) { typed[i], typed[k] = typed[k], typed[i] })
		b := run()
		words[a.Word]++
		if a.Word != b.Word || a.Sentence != b.Sentence || a.More != b.More {
			t.Fatalf("%s, %v: %s %q, otherwise %s %q", text, typed, a.Word, a.Sentence, b.Word, b.Sentence)
		}
	}
	for _, w := range []decide.Word{decide.Conforms, decide.DoesNotConform, decide.NotDecided, decide.NoVerdict} {
		if words[w] < 10 {
			t.Errorf("%s came up %d times", w, words[w])
		}
	}
	a, b := rod(), sine(4, 60, 4800, 0.5)
	x := judged(t, judge.Judging{Requirement: requirement(t, "Rz 3,2", ""), Traces: []roughness.Profile{a, b}})
	y := judged(t, judge.Judging{Requirement: requirement(t, "Rz 3,2", ""), Traces: []roughness.Profile{b, a}})
	if x.Word != decide.DoesNotConform || x.Word != y.Word || x.Sentence != y.Sentence {
		t.Errorf("%s %q, turned round %s %q", x.Word, x.Sentence, y.Word, y.Sentence)
	}
}

// A text of which anything is refused has no limits, and no verdict whatever the values: prefixes and edits of texts that are read.
func TestRefusedTextGivesNoVerdict(t *testing.T) {
	r := rand.New(rand.NewPCG(3, 12))
	seen := map[string]int{}
	for _, text := range []string{"Rz 3,2", "U Rz 5 / L Rz 1", "Ra 1.6 Sc2", "Rz 3,2; Ra 0,4 T16%", "Rmr(0.5) 60 Sc3", "RSm 0,2 mm Sc3", "Pt 12"} {
		for range 60 {
			b := []rune(text)
			for range 1 + r.IntN(2) {
				if len(b) == 0 {
					break
				}
				switch i := r.IntN(len(b)); r.IntN(3) {
				case 0:
					b = b[:i]
				case 1:
					b = slices.Delete(b, i, i+1)
				default:
					b[i] = []rune("Rz3,.; UL%(x")[r.IntN(12)]
				}
			}
			req, err := judge.ReadRequirement(string(b), "")
			j := judge.Judging{Requirement: req, Refused: err}
			j.Typed, _ = judge.ParseTyped("Rz 0.1; Ra 0.01; Rsm 1 µm; Pt 0.1", "")
			v := judged(t, j)
			switch {
			case err != nil:
				seen["refused"]++
				if len(v.Limits) > 0 || why(v) != judge.WhyRefused {
					t.Errorf("%q: %s, %d limits, %v", string(b), v.Word, len(v.Limits), v.Why)
				}
			case len(req.Open()) > 0:
				seen["open"]++
				if why(v) != judge.WhyRequirementOpen {
					t.Errorf("%q: %s, %v", string(b), v.Word, v.Why)
				}
			default:
				seen["read"]++
			}
		}
	}
	if seen["refused"] < 20 || seen["read"] < 20 {
		t.Errorf("%v", seen)
	}
}

// The complete settings of an evaluation are those that were asked for: nothing deviates, on P over the whole trace neither.
func TestCompleteSettingsDoNotDeviate(t *testing.T) {
	for _, c := range []struct {
		text    string
		edition standards.EditionID
	}{
		{"Rz 3,2", "iso-21920"}, {"Wa 3 Sc3", "iso-21920"}, {"0,008-/Ptmax 25", "iso-4287"}, {"-0,8/Ra3 1,6", "iso-4287"}, {"Rk 1,5", "iso-4287"},
		{"Rk 1,5 Sc3", "iso-21920"}, {"Ra 1,6", "iso-4287"}, {"0,0025-0,1//Rx 0,2", "iso-4287"}, {"Ra 1.6 µm", "asme-b46.1"}, {"Ra 1,6", "jis-b0601-1994"}, {"Rz 3,2; Ra 0,05", "iso-21920"},
	} {
		r := requirement(t, c.text, c.edition)
		if len(r.Open()) > 0 {
			t.Errorf("%s: open: %v", c.text, r.Open())
			continue
		}
		e, err := roughness.Evaluate(rod(), r.Settings)
		if err != nil {
			t.Errorf("%s: %v", c.text, err)
			continue
		}
		j := judge.Judging{Requirement: r, Traces: []roughness.Profile{rod()}, Settings: &e.Settings, Done: []*roughness.Evaluation{e}}
		a := judged(t, j)
		j.Settings, j.Done = nil, nil
		b := judged(t, j)
		if why(a) == judge.WhyDeviates || a.Word != b.Word || a.Sentence != b.Sentence {
			t.Errorf("%s: %s %q, with nothing stated %s %q", c.text, a.Word, a.Sentence, b.Word, b.Sentence)
		}
	}
	r := requirement(t, "0,008-/Ptmax 25", "iso-4287")
	cut := *r.Settings
	cut.SectionLength = 2000
	if v := judged(t, judge.Judging{Requirement: r, Traces: []roughness.Profile{rod()}, Settings: &cut}); why(v) != judge.WhyDeviates {
		t.Errorf("a part of the whole trace: %s %q", v.Word, v.Sentence)
	}
}

// An uncertainty of 0 moves no limit: the acceptance is simple in the sentence and in the line of the acceptance alike.
func TestNoUncertainty(t *testing.T) {
	req, err := judge.ReadRequirement("Rz 3,2", "")
	if err != nil {
		t.Fatal(err)
	}
	guard, err := judge.GuardFor("", "", 0, true)
	if err != nil {
		t.Fatal(err)
	}
	for u, want := range map[float64]string{0: "simple acceptance", 0.1: "ISO 14253-1:2017, 95 %"} {
		v := judged(t, judge.Judging{Requirement: req, Traces: heights(2.5), Guard: guard, U: []judge.Uncertainty{{Value: u}}})
		if v.Word != decide.Conforms || v.Acceptance != want || strings.Contains(v.Sentence, "simple acceptance") != (u == 0) {
			t.Errorf("U %g: %s, %s, %q", u, v.Word, v.Acceptance, v.Sentence)
		}
	}
}
