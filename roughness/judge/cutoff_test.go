package judge_test

import (
	"errors"
	"example.com/furrow/roughness/judge"
	"fmt"
	"strings"
	"testing"

	"example.com/furrow/roughness"
	"example.com/furrow/roughness/synth"
	"example.com/furrow/standards"
)

func sine(height, wavelength, length, spacing float64) roughness.Profile {
	z := synth.Sine{Amplitude: height / 2, Wavelength: wavelength}.Heights(int(length/spacing), spacing)
	return roughness.Profile{Z: z, Spacing: spacing}
}

var old = &roughness.Settings{Edition: "iso-4287"}

// Cut-off by the measured Rz, ISO 4288:1996, Table 2 (steps confirmed by neutral copies): a value on either side of each step. The
// waves are long against the S-filter and short against the L-filter of both cut-offs beside the step, so that Rz is their height.
func TestFindCutoffByRz(t *testing.T) {
	for _, c := range []struct{ rz, wavelength, length, spacing, want float64 }{
		{0.09, 20, 600, 0.25, 80}, {0.115, 20, 2000, 0.25, 250},
		{9.8, 100, 6000, 0.5, 800}, {10.4, 150, 16000, 1, 2500},
		{48.5, 400, 16000, 1, 2500}, {52, 500, 48000, 2, 8000},
	} {
		s, err := judge.FindCutoff(sine(c.rz, c.wavelength, c.length, c.spacing), old, "Rz", c.rz)
		if err != nil {
			t.Errorf("Rz %g: %v", c.rz, err)
			continue
		}
		if s.Cutoff != c.want || !s.Stable {
			t.Errorf("Rz %g: cut-off %g, want %g: %s %v", c.rz, s.Cutoff, c.want, turns(s), s.Notes)
		}
		near(t, "measured Rz", s.Value, c.rz, 0.05*c.rz)
	}
}

// Cut-off by the measured spacing, ISO 4288:1996, 7.2.2 and Table 3 (steps confirmed by neutral copies), for waves on either side
// of each step; the spacing of a sine is its wavelength whatever the filter leaves of its height.
func TestFindCutoffBySpacing(t *testing.T) {
	for _, c := range []struct{ wavelength, estimate, want float64 }{
		{39, 0, 80}, {42, 0, 250}, {128, 60, 250}, {132, 0, 800}, {390, 0, 800}, {410, 500, 2500}, {1290, 1000, 2500}, {1310, 1310, 8000},
	} {
		s, err := judge.FindCutoff(sine(3, c.wavelength, max(4200, 5*c.want+200), 1), old, "RSm", c.estimate)
		if err != nil {
			t.Errorf("RSm %g: %v", c.wavelength, err)
			continue
		}
		if s.Cutoff != c.want || !s.Stable {
			t.Errorf("RSm %g: cut-off %g, want %g: %s", c.wavelength, s.Cutoff, c.want, turns(s))
		}
		near(t, "measured RSm", s.Value, c.wavelength, 0.02*c.wavelength)
	}
}

// Each turn of ISO 4288:1996, 7.2.1 (outline confirmed by an excerpt, steps from memory) is kept with its evaluation: an estimate
// of 8 µm leads to 0.8 mm, the measured 12 µm to 2.5 mm, which agrees; 0.8 mm, the next shorter, was tried and did not agree.
func TestFindCutoffTurns(t *testing.T) {
	p := sine(12, 100, 16000, 1)
	set := &roughness.Settings{Edition: "iso-4287", SectionLength: 123, Parameters: []string{"Ra", "Rz"}} // a length that the search replaces
	s, err := judge.FindCutoff(p, set, "Rz", 8)
	if err != nil {
		t.Fatal(err)
	}
	if len(s.Turns) != 2 || s.Turns[0].Cutoff != 800 || s.Turns[0].Asks != 2500 || s.Turns[1].Cutoff != 2500 || s.Turns[1].Asks != 2500 {
		t.Errorf("turns %s", turns(s))
	}
	for _, turn := range s.Turns {
		e := turn.Evaluation
		if e.Settings.Long.Spec.Cutoff != turn.Cutoff || e.Settings.SectionLength != turn.Cutoff || value(t, e, "Rz") != turn.Value {
			t.Errorf("the turn of %g µm was evaluated with %+v", turn.Cutoff, e.Settings)
		}
	}
	if e := s.Evaluation; e.Sections != 5 || e.Settings.Short.Spec.Cutoff != 8 || len(e.Values) != 2 {
		t.Errorf("in the end: %d sections, S-filter %v, values %v", e.Sections, e.Settings.Short, e.Values)
	}
	near(t, "Rz in the end", value(t, s.Evaluation, "Rz"), s.Value, 0)
}

// The shorter cut-off wins when its value agrees too (ISO 4288:1996, 7.2.1; from memory): fine marks of 0.35 µm on waves that the
// shorter cut-off takes away are Rz 0.7 behind 0.8 mm and below 0.5 behind 0.25 mm.
func TestFindCutoffShorterWins(t *testing.T) {
	fine, coarse := sine(0.35, 20, 6000, 0.5), sine(0.45, 500, 6000, 0.5)
	for i, z := range coarse.Z {
		fine.Z[i] += z
	}
	s, err := judge.FindCutoff(fine, old, "Rz", 3)
	if err != nil {
		t.Fatal(err)
	}
	if s.Cutoff != 250 || len(s.Turns) != 2 || len(s.Notes) != 1 {
		t.Errorf("cut-off %g: %s %v", s.Cutoff, turns(s), s.Notes)
	}
}

// A trace too short for five sections is measured on fewer and says so; one too short for a single section ends the search with
// the turns that were made (ISO 4288 gives no leave to shorten the cut-off).
func TestFindCutoffOnShortTrace(t *testing.T) {
	s, err := judge.FindCutoff(sine(12, 100, 6000, 1), old, "Rz", 8)
	if err != nil {
		t.Fatal(err)
	}
	if s.Cutoff != 2500 || s.Evaluation.Sections != 2 || !strings.Contains(s.Turns[1].Text, "2 of 5 sections") {
		t.Errorf("cut-off %g, %d sections, %s", s.Cutoff, s.Evaluation.Sections, turns(s))
	}
	s, err = judge.FindCutoff(sine(12, 100, 2000, 1), old, "Rz", 8)
	if !errors.Is(err, roughness.ErrTooShort) || len(s.Turns) != 1 || s.Evaluation != nil {
		t.Errorf("error %v, turns %v", err, s.Turns)
	}
}

// Nothing specified, ISO 21920-3:2021, Annex D (from memory): the class of the measured value, from the table of the limits; Rz 12
// stays in Sc3, where ISO 4288 went to 2.5 mm. Marks that stand wide apart for the cut-off are pointed out.
func TestFindCutoffUnspecified(t *testing.T) {
	s, err := judge.FindCutoff(sine(12, 100, 6000, 0.5), nil, "Rz", 0)
	if err != nil {
		t.Fatal(err)
	}
	if s.Cutoff != 800 || len(s.Turns) != 1 || len(s.Notes) != 1 {
		t.Errorf("cut-off %g: %s %v", s.Cutoff, turns(s), s.Notes)
	}
	s, err = judge.FindCutoff(sine(3, 400, 6000, 0.5), nil, "Rz", 0)
	if err != nil {
		t.Fatal(err)
	}
	if len(s.Notes) != 2 || !strings.Contains(s.Notes[1], "400") && !strings.Contains(s.Notes[1], "0.4 mm") {
		t.Errorf("notes %v", s.Notes)
	}
}

// The Rk family keeps the filter of its edition where the settings leave the filter open, and takes the stated one otherwise.
func TestFindCutoffStratified(t *testing.T) {
	d, _ := synth.FindDemo("honed-bore")
	p := roughness.Profile{Z: d.Heights(), Spacing: d.Spacing}
	for _, long := range []roughness.Band{{}, gaussian(250)} {
		s, err := judge.FindCutoff(p, &roughness.Settings{Long: long, Parameters: []string{"Rk"}}, "Ra", 0)
		if err != nil {
			t.Fatal(err)
		}
		want := &roughness.Settings{Parameters: []string{"Rk"}}
		if long.Spec.Cutoff > 0 {
			want.Long = gaussian(800)
		}
		near(t, "Rk", value(t, s.Evaluation, "Rk"), value(t, evaluate(t, p.Z, p.Spacing, want), "Rk"), 0)
		if s.Cutoff != 800 {
			t.Errorf("cut-off %g", s.Cutoff)
		}
	}
}

func TestFindCutoffRefusals(t *testing.T) {
	p := sine(3, 100, 5000, 1)
	for name, c := range map[string]struct {
		set *roughness.Settings
		by  string
	}{
		"no such table":       {nil, "RSm"},
		"no such edition":     {&roughness.Settings{Edition: "iso-1"}, "Rz"},
		"no table at all":     {&roughness.Settings{Edition: "iso-12085"}, "Rz"},
		"primary profile":     {&roughness.Settings{Profile: roughness.P}, "Rz"},
		"no L-filter":         {&roughness.Settings{Long: off()}, "Rz"},
		"filtered already":    {&roughness.Settings{Input: roughness.Filtered}, "Rz"},
		"parts without cause": {&roughness.Settings{Exclude: []roughness.Exclusion{{From: 1, To: 2}}}, "Rz"},
	} {
		var setting *roughness.SettingError
		if _, err := judge.FindCutoff(p, c.set, c.by, 0); !errors.As(err, &setting) {
			t.Errorf("%s: %v", name, err)
		}
	}
	flat := roughness.Profile{Z: make([]float64, 6000), Spacing: 1}
	if _, err := judge.FindCutoff(flat, old, "RSm", 0); err == nil {
		t.Error("a flat has no spacing to choose by")
	}
}

// Which value chooses: Tables 1 to 3 of ISO 4288:1996; ISO 21920-3:2021 has limits of its own for seven parameters.
func TestCutoffBy(t *testing.T) {
	for _, c := range []struct {
		edition  standards.EditionID
		symbol   string
		periodic bool
		by       string
	}{
		{"iso-4287", "Rq", false, "Ra"}, {"iso-4287", "Rt", false, "Rz"}, {"iso-4287", "RSm", false, "RSm"}, {"iso-4287", "Rt", true, "RSm"},
		{"iso-21920", "Rt", false, "Rt"}, {"iso-21920", "Rz", true, "Rz"}, {"iso-21920", "Rsm", false, ""}, {"iso-4287", "Rk", false, ""},
	} {
		if by, ok := judge.CutoffBy(c.edition, c.symbol, c.periodic); by != c.by || ok != (c.by != "") {
			t.Errorf("%s %s, periodic %t: %q, want %q", c.edition, c.symbol, c.periodic, by, c.by)
		}
	}
}

// Does it fit? Five sections of 0.8 mm take 4 mm and 4.8 mm with run-up (ISO 3274 and common practice); a short trace states
func turns(s *judge.CutoffSearch) string {
	var all []string
	for _, turn := range s.Turns {
		all = append(all, turn.Text)
	}
	return strings.Join(all, " ")
}

// A turned surface whose drawing, made under ISO 4288, states no cut-off: the spacing of its marks chooses.
func ExampleFindCutoff() {
	z := synth.Sine{Amplitude: 2, Wavelength: 125}.Heights(6000, 1)
	s, err := judge.FindCutoff(roughness.Profile{Z: z, Spacing: 1}, &roughness.Settings{Edition: "iso-4287", Parameters: []string{"Ra"}}, "RSm", 0)
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, turn := range s.Turns {
		fmt.Println(turn.Text)
	}
	ra, _ := s.Evaluation.Value("Ra")
	fmt.Printf("Ra %.2f µm over %g mm\n", ra.Value, s.Evaluation.EvaluationLength()/1000)
	// Output:
	// With 0.8 mm, RSm is 0.125 mm, which asks for 0.25 mm.
	// With 0.25 mm, RSm is 0.125 mm, which agrees.
	// Ra 1.19 µm over 1.25 mm
}
