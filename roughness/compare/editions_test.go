package compare_test

import (
	"errors"
	"fmt"
	"math"
	"strings"
	"testing"

	"example.com/furrow/roughness"
	"example.com/furrow/roughness/compare"
	"example.com/furrow/roughness/judge"
	"example.com/furrow/roughness/synth"
	"example.com/furrow/standards"
	"example.com/furrow/standards/callout"
	"example.com/furrow/standards/decide"
)

// What the new edition does to a limit, computed from the tables of ISO 4288:1996 (Table 1 and 2) and ISO 21920-3:2021 (4.4.3): the
// cut-off that belongs to the limit under the old and the new one, in µm. Ra never changes.
func TestConsequencesOfTheNewEdition(t *testing.T) {
	for _, c := range []struct {
		text     string
		old, new float64
	}{
		{"Rz 0,12", 250, 80}, {"Rz 0,5", 250, 250}, {"Rz 0,6", 800, 250}, {"Rz 6,3", 800, 800}, {"Rz 12", 2500, 800}, {"Rz 12,5", 2500, 800}, {"Rz 16", 2500, 800},
		{"Rz 60", 8000, 2500}, {"Ra 0,02", 80, 80}, {"Ra 0,1", 250, 250}, {"Ra 0,8", 800, 800}, {"Ra 3,2", 2500, 2500}, {"Ra 12,5", 8000, 8000},
	} {
		for edition, want := range map[standards.EditionID]float64{"iso-4287": c.old, "iso-21920": c.new} {
			rs, err := callout.ParseRequirement(c.text, edition)
			if err != nil {
				t.Fatal(err)
			}
			set, err := judge.SettingsFor(&rs.Items[0])
			if err != nil {
				t.Fatal(err)
			}
			if set.Long.Spec.Cutoff != want || set.SectionLength != want || set.Sections != 5 {
				t.Errorf("%s under %s: cut-off %g, %d sections of %g, want %g", c.text, edition, set.Long.Spec.Cutoff, set.Sections, set.SectionLength, want)
			}
		}
	}
}

func compareOne(t *testing.T, p roughness.Profile, text string) compare.EditionComparison {
	t.Helper()
	all, err := compare.ByEdition(p, text, "iso-4287", "iso-21920", nil)
	if err != nil {
		t.Fatal(err)
	}
	list := all.Limits
	if len(list) != 1 {
		t.Fatalf("%s: %d comparisons", text, len(list))
	}
	return list[0]
}

func says(c compare.EditionComparison, words ...string) bool {
	for _, d := range c.Differences {
		all := true
		for _, w := range words {
			all = all && strings.Contains(d, w)
		}
		if all {
			return true
		}
	}
	return false
}

// Rz 12 on a surface of that height: 2.5 mm under ISO 4288:1996, found by measuring, and 0.8 mm under ISO 21920-3:2021, from the limit.
// Waves between the two cut-offs count under the old edition only, so that the verdict turns.
func TestByEditionCutoff(t *testing.T) {
	p := sine(10, 60, 15000, 0.5)
	for i, z := range sine(2.8, 1500, 15000, 0.5).Z {
		p.Z[i] += z
	}
	c := compareOne(t, p, "Rz 12")
	a, b := c.A, c.B
	if a.Problem+b.Problem != "" || a.Search == nil || b.Search != nil {
		t.Fatalf("%q %q", a.Problem, b.Problem)
	}
	if x, y := a.Evaluation.Settings.Long.Spec.Cutoff, b.Evaluation.Settings.Long.Spec.Cutoff; x != 2500 || y != 800 {
		t.Errorf("cut-offs %g and %g", x, y)
	}
	// The parts of the sum that each cut-off leaves: transmission 1 - exp(-π(α λc/λ)²), ISO 16610-21.
	left := func(cutoff float64) float64 {
		alpha := math.Sqrt(math.Ln2 / math.Pi)
		r := func(wavelength float64) float64 { return 1 - math.Exp(-math.Pi*math.Pow(alpha*cutoff/wavelength, 2)) }
		return 10*r(60) + 2.8*r(1500)
	}
	near(t, "Rz old", a.Value.Value, left(2500), 0.06*left(2500))
	near(t, "Rz new", b.Value.Value, left(800), 0.06*left(800))
	if a.Verdict.Word == decide.Conforms || b.Verdict.Word != decide.Conforms {
		t.Errorf("verdicts %q (Rz %g) and %q (Rz %g)", a.Verdict.Word, a.Value.Value, b.Verdict.Word, b.Value.Value)
	}
	for _, words := range [][]string{{"Cut-off: 2.5 mm under ISO 4287:1997", "measured Rz", "0.8 mm under ISO 21920-1:2021", "Sc3"},
		{"16 %", "no measured value"}, {"Verdict", "Conforms under ISO 21920-1:2021"}, {"S-filter", "8 µm", "2.5 µm"}} {
		if !says(c, words...) {
			t.Errorf("nothing says %v: %q", words, c.Differences)
		}
	}
	l, err := compare.Explain(t.Context(), p, &a.Evaluation.Settings, &b.Evaluation.Settings, a.Value.Symbol)
	if err != nil {
		t.Fatal(err)
	}
	sum := 0.0
	for _, e := range l.Entries {
		sum += e.Share
	}
	near(t, "shares", sum, b.Value.Value-a.Value.Value, 1e-12)
}

// The limit is the first estimate and no more (ISO 4288:1996, 7.2, from memory): Rz 12 begins with 2.5 mm, Rz 8 with 0.8 mm; on a
// surface of 12 µm both end with 2.5 mm and the S-filter of 8 µm that goes with it (ISO 3274:1996, Table 1).
func TestByEditionEstimate(t *testing.T) {
	p := sine(12, 100, 13000, 0.5)
	for text, first := range map[string]float64{"Rz 12": 2500, "Rz 8": 800} {
		r := compareOne(t, p, text).A
		if r.Problem != "" || r.Search.Turns[0].Cutoff != first || r.Search.Cutoff != 2500 || r.Evaluation.Settings.Short.Spec.Cutoff != 8 {
			t.Errorf("%s: %q %v", text, r.Problem, r.Search.Turns)
		}
	}
}

// Ra 0,8 keeps its cut-off (the Ra steps of both tables are the same). The definition differs: the mean over five sections under
// ISO 4287:1997, the whole evaluation length under ISO 21920-2:2021, which is the same number for Ra.
func TestByEditionSameCutoff(t *testing.T) {
	d, _ := synth.FindDemo("ground-rod")
	c := compareOne(t, roughness.Profile{Z: d.Heights(), Spacing: d.Spacing}, "Ra 0,8")
	if len(c.Changes) != 1 || c.Changes[0].Key != "edition" {
		t.Errorf("changes %v", c.Changes)
	}
	near(t, "Ra", c.A.Value.Value, c.B.Value.Value, 1e-12)
	if says(c, "Cut-off") || !says(c, "Ra is evaluated over", "each section, then the mean", "the evaluation length") {
		t.Errorf("%q", c.Differences)
	}
}

// Periodic profiles had a table of their own, by RSm (ISO 4288:1996, Table 3); ISO 21920-3:2021 tells no kinds apart. Waves 0.5 mm long
// take 2.5 mm under the old edition although Ra asks for 0.8 mm.
func TestByEditionPeriodic(t *testing.T) {
	p := sine(4, 500, 13000, 1)
	for _, c := range []struct {
		periodic bool
		by       string
		cutoff   float64
	}{{true, "RSm", 2500}, {false, "Ra", 800}} {
		list, err := compare.ByEdition(p, "Ra 1,6", "iso-4287", "iso-21920", &compare.EditionOptions{Periodic: c.periodic})
		if err != nil {
			t.Fatal(err)
		}
		a, b := list.Limits[0].A, list.Limits[0].B
		if a.Search.By != c.by || a.Evaluation.Settings.Long.Spec.Cutoff != c.cutoff || b.Evaluation.Settings.Long.Spec.Cutoff != 800 {
			t.Errorf("periodic %t: by %s, %g and %g", c.periodic, a.Search.By, a.Evaluation.Settings.Long.Spec.Cutoff, b.Evaluation.Settings.Long.Spec.Cutoff)
		}
	}
}

// Motif parameters lead to ISO 12085 from ISO 1302 text (6.3.3, excerpt), form and parts left out are laid over both readings.
func TestByEditionOver(t *testing.T) {
	d, _ := synth.FindDemo("ground-rod")
	p := roughness.Profile{Z: d.Heights(), Spacing: d.Spacing}
	over := &roughness.Settings{Form: roughness.FormSpec{Kind: "mean"}, Exclude: []roughness.Exclusion{{From: 900, To: 910, Reason: "pore"}}, Parameters: []string{"Rt"}}
	list, err := compare.ByEdition(p, "Rz 3,2", "iso-4287", "iso-21920", &compare.EditionOptions{Over: over})
	if err != nil {
		t.Fatal(err)
	}
	for _, r := range []compare.EditionReading{list.Limits[0].A, list.Limits[0].B} {
		if s := r.Evaluation.Settings; s.Form.Kind != "mean" || len(s.Exclude) != 1 || r.Value.Symbol != "Rz" {
			t.Errorf("%s: %+v", r.Edition, s)
		}
	}
	list, err = compare.ByEdition(p, "0,008-0,5/4/R 10", "iso-4287", "iso-12085", nil)
	if err != nil {
		t.Fatal(err)
	}
	if r := list.Limits[0].A; r.Edition != "iso-12085" || r.Problem != "" || !strings.HasPrefix(r.Value.Symbol, "R") {
		t.Errorf("%s: %q %v", r.Edition, r.Problem, r.Value)
	}
}

// The letter trap of the Japanese standards (JIS B 0601:1994 against :2013): Rz was the ten-point height.
func TestByEditionLetterTrap(t *testing.T) {
	d, _ := synth.FindDemo("ground-rod")
	p := roughness.Profile{Z: d.Heights(), Spacing: d.Spacing}
	list, err := compare.ByEdition(p, "Rz 3,2", "jis-b0601-1994", "jis-b0601-2013", nil)
	if err != nil {
		t.Fatal(err)
	}
	c := list.Limits[0]
	if !says(c, "symbol means two things", "ten") {
		t.Errorf("%q", c.Differences)
	}
	if !(c.A.Value.Value < c.B.Value.Value) {
		t.Errorf("the ten-point height %g is not below the greatest height %g", c.A.Value.Value, c.B.Value.Value)
	}
}

// What one edition does not read, or leaves open, is told beside what the other makes of it.
func TestByEditionProblems(t *testing.T) {
	p := sine(3, 60, 5000, 0.5)
	c := compareOne(t, p, "-0,8/Ra3 1,6") // ISO 1302:2002, Annex B style
	if c.B.Evaluation != nil || !strings.Contains(c.B.Problem, "edition") || !math.IsNaN(c.B.Value.Value) || c.A.Verdict.Word != decide.NoVerdict && c.A.Verdict.Word != decide.Conforms {
		t.Errorf("%+v", c)
	}
	if c.A.Search != nil || c.A.Evaluation.Sections != 3 {
		t.Error("the text states cut-off and sections: nothing is to be looked for")
	}
	c = compareOne(t, p, "Rk 1,5") // needs a class under ISO 21920-3, 4.4
	if c.B.Evaluation != nil || !strings.Contains(c.B.Problem, "class") || c.A.Problem != "" {
		t.Errorf("A %q, B %q", c.A.Problem, c.B.Problem)
	}
	c = compareOne(t, sine(12, 60, 2000, 0.5), "Rz 12") // no section of 2.5 mm
	if c.A.Search == nil || !strings.Contains(c.A.Problem, "too short") || c.B.Problem != "" || !says(c, "too short") {
		t.Errorf("A %q, B %q", c.A.Problem, c.B.Problem)
	}
	c = compareOne(t, p, "RSm 0,2") // mm or µm? the unit of a spacing is open, and nothing is judged
	if math.IsNaN(c.A.Value.Value) || c.A.Verdict.Word != decide.NoVerdict || !strings.Contains(c.A.Problem, "millimetre") || !strings.Contains(c.B.Problem, "class") {
		t.Errorf("A %q %q, B %q", c.A.Verdict.Word, c.A.Problem, c.B.Problem)
	}
	if !says(c, "writes RSm", "writes Rsm") {
		t.Errorf("%q", c.Differences)
	}
	flat := roughness.Profile{Z: make([]float64, 9600), Spacing: 0.5}
	c = compareOne(t, flat, "-0,8/Rsk 1") // undefined on a flat, with the reason
	if !math.IsNaN(c.A.Value.Value) || c.A.Problem == "" || c.A.Verdict.Word != decide.NoVerdict {
		t.Errorf("A %v %q", c.A.Value, c.A.Problem)
	}
	if _, err := compare.ByEdition(p, "roughly fine", "iso-4287", "iso-21920", nil); err == nil {
		t.Error("a text that nobody reads was read")
	}
	if _, err := compare.ByEdition(p, "Rz 3", "iso-4287", "iso-1", nil); !errors.Is(err, callout.ErrEdition) {
		t.Errorf("no such edition: %v", err)
	}
	var setting *roughness.SettingError
	bad := &roughness.Settings{Form: roughness.FormSpec{Kind: "cube"}}
	if _, err := compare.ByEdition(p, "Rz 3", "iso-4287", "iso-21920", &compare.EditionOptions{Over: bad}); !errors.As(err, &setting) {
		t.Errorf("settings that cannot be followed: %v", err)
	}
}

// Two limits on one parameter (ISO 21920-1:2021, a textbook's reading of U Rz 5, L Rz 1) are two comparisons, each with its own verdict.
func TestByEditionTwoLimits(t *testing.T) {
	list, err := compare.ByEdition(sine(0.9, 60, 5000, 0.5), "U Rz 5\nL Rz 1", "iso-4287", "iso-21920", nil)
	if err != nil {
		t.Fatal(err)
	}
	if len(list.Limits) != 2 || list.Limits[0].B.Verdict.Word != decide.Conforms || list.Limits[1].B.Verdict.Word != decide.DoesNotConform {
		t.Errorf("%d comparisons: %v", len(list.Limits), list.Limits)
	}
}

// One drawing, one trace, two editions: Rz 12 takes another cut-off.
func ExampleByEdition() {
	z := synth.Sines{{Amplitude: 5, Wavelength: 60}, {Amplitude: 1.4, Wavelength: 1500}}.Heights(30000, 0.5)
	list, err := compare.ByEdition(roughness.Profile{Z: z, Spacing: 0.5}, "Rz 12", "iso-4287", "iso-21920", nil)
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, d := range list.Limits[0].Differences {
		fmt.Println(d)
	}
	// Output:
	// Acceptance: at most 16 % of the measured values outside the limit under ISO 4287:1997, no measured value outside the limit under ISO 21920-1:2021.
	// S-filter: gaussian 8 µm under ISO 4287:1997, gaussian 2.5 µm under ISO 21920-1:2021.
	// Cut-off: 2.5 mm under ISO 4287:1997 (from the measured Rz, 12.3 µm), 0.8 mm under ISO 21920-1:2021 (class Sc3, from the limit of Rz (above 0.8 µm, up to 16 µm)).
	// Section length: 2.5 mm under ISO 4287:1997, 0.8 mm under ISO 21920-1:2021.
	// Verdict on this one value: No verdict yet under ISO 4287:1997, Conforms under ISO 21920-1:2021.
}

// What stands in the way is said without the name of a package.
func TestProblemInWords(t *testing.T) {
	p := roughness.Profile{Z: make([]float64, 400), Spacing: 0.5}
	e, err := compare.ByEdition(p, "Rz 3,2", "iso-4287", "iso-21920", nil)
	if err != nil {
		t.Fatal(err)
	}
	for _, r := range []compare.EditionReading{e.Limits[0].A, e.Limits[0].B} {
		if !strings.Contains(r.Problem, "the trace is too short") || strings.Contains(r.Problem, "roughness:") {
			t.Errorf("%s: %q", r.Edition, r.Problem)
		}
	}
}
