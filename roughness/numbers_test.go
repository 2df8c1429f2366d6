package roughness_test

import (
	"math"
	"strings"
	"testing"

	"example.com/furrow/filter"
	"example.com/furrow/params"
	"example.com/furrow/roughness"
	"example.com/furrow/roughness/judge"
	"example.com/furrow/roughness/synth"
	"example.com/furrow/standards"
	"example.com/furrow/standards/callout"
)

func honed(t *testing.T) roughness.Profile {
	t.Helper()
	d, ok := synth.FindDemo("honed-bore")
	if !ok {
		t.Fatal("no honed bore")
	}
	return roughness.Profile{Z: d.Heights(), Spacing: d.Spacing}
}

func run(t *testing.T, p roughness.Profile, s *roughness.Settings) *roughness.Evaluation {
	t.Helper()
	e, err := roughness.Evaluate(p, s)
	if err != nil {
		t.Fatal(err)
	}
	return e
}

// Stating the default cut-off is the same as leaving it out, for every value; only a stated kind of filter takes the edition's own filter
// for the Rk family away; the choice decides wherever it is stated, and complete settings state it.
func TestCutoffLeavesStratifiedFilter(t *testing.T) {
	p := honed(t)
	for _, edition := range []standards.EditionID{"iso-21920", "iso-4287", "asme-b46.1", "jis-b0601-2013"} {
		plain := run(t, p, &roughness.Settings{Edition: edition})
		cutoff := roughness.Band{Spec: roughness.FilterSpec{Cutoff: plain.Settings.Long.Spec.Cutoff}}
		stated := run(t, p, &roughness.Settings{Edition: edition, Long: cutoff})
		for i, v := range stated.Values {
			near(t, string(edition)+" "+v.Symbol+" with the cut-off stated", v.Value, plain.Values[i].Value, 0)
		}
		kind := run(t, p, &roughness.Settings{Edition: edition, Long: gaussian(800), Parameters: []string{"Rk"}})
		if kind.Stratified != nil || kind.Settings.Stratified != roughness.StratifiedByLong {
			t.Errorf("%s: a stated filter leaves the Rk family behind another", edition)
		}
		if ratio := kind.Values[0].Value / value(t, plain, "Rk"); math.Abs(ratio-1) < 0.005 {
			t.Errorf("%s: Rk is the same behind both filters (%g): nothing is tested", edition, ratio)
		}
		both := run(t, p, &roughness.Settings{Edition: edition, Long: gaussian(800), Stratified: roughness.StratifiedByEdition, Parameters: []string{"Rk"}})
		near(t, string(edition)+" Rk by the stated choice", both.Values[0].Value, value(t, plain, "Rk"), 0)
		if both.Origins["choices.stratified_filter"].From != callout.SetHere {
			t.Errorf("%s: a stated choice has the origin %v", edition, both.Origins["choices.stratified_filter"])
		}
		long := run(t, p, &roughness.Settings{Edition: edition, Long: cutoff, Stratified: roughness.StratifiedByLong, Parameters: []string{"Rk"}})
		near(t, string(edition)+" Rk by the L-filter", long.Values[0].Value, kind.Values[0].Value, 0)
		for _, e := range []*roughness.Evaluation{plain, stated, kind, both, long} {
			if e.Settings.Stratified == "" || e.Settings.Long.Spec.Filter == "" {
				t.Errorf("%s: complete settings leave the filter open: %+v", edition, e.Settings.Long.Spec)
			}
		}
	}
	// The kind that a cut-off alone leaves to the edition is the edition's.
	old := run(t, p, &roughness.Settings{Edition: "jis-b0601-1982", Long: roughness.Band{Spec: roughness.FilterSpec{Cutoff: 250}}, Parameters: []string{"Ra"}})
	if old.Settings.Long.Spec.Filter != "two-rc" {
		t.Errorf("JIS B 0601:1982 with a stated cut-off has the filter %q", old.Settings.Long.Spec.Filter)
	}
}

// A requirement leads to settings that state the choice, whatever parameter it asks for.
func TestRequirementStatesStratifiedFilter(t *testing.T) {
	for text, want := range map[string]string{"Rz 3,2": "edition", "Rk 2": "edition", "-0,8/Rz 3,2": "edition"} {
		q, err := callout.ParseRequirement(text, "iso-4287")
		if err != nil {
			t.Fatal(err)
		}
		s, err := judge.SettingsFor(&q.Items[0])
		if err != nil {
			t.Fatal(err)
		}
		if s.Stratified != want {
			t.Errorf("%s: stratified filter %q, want %q", text, s.Stratified, want)
		}
	}
}

// The ends retain-2 keep parabolas with a window of two cut-offs on each side, in the settings as in the filter.
func TestRetain2Support(t *testing.T) {
	p := honed(t)
	band := roughness.Band{Spec: roughness.FilterSpec{Filter: "gaussian", Cutoff: 800, Ends: "retain-2"}}
	e := run(t, p, &roughness.Settings{Long: band, Parameters: []string{"Ra"}})
	near(t, "support", e.Settings.Long.Spec.Support, 2, 0)
	line, err := filter.Gaussian{Cutoff: 800, Ends: filter.Retain2}.Apply(nil, e.Primary, p.Spacing)
	if err != nil {
		t.Fatal(err)
	}
	for i := range line {
		if math.Abs(line[i]-e.Waviness[i]) > 1e-12 {
			t.Fatalf("point %d: waviness %g, by the filter itself %g", i, e.Waviness[i], line[i])
		}
	}
}

// W of ISO 21920 has one section, as long as what is left, unless sections or their length are stated; in the older editions
// sections are as long as the cut-off.
func TestWavinessSections(t *testing.T) {
	p := honed(t)
	whole := float64(len(p.Z)) * p.Spacing
	for _, c := range []struct {
		set      roughness.Settings
		sections int
		length   float64
	}{
		{roughness.Settings{}, 1, whole},
		{roughness.Settings{Sections: 3}, 3, math.Floor(float64(len(p.Z))/3) * p.Spacing},
		{roughness.Settings{SectionLength: 800, Sections: 5}, 5, 800},
		{roughness.Settings{Edition: "iso-4287"}, 5, 800},
		{roughness.Settings{Edition: "asme-b46.1"}, 5, 800},
	} {
		c.set.Profile = roughness.W
		e := run(t, p, &c.set)
		if e.Sections != c.sections || e.Settings.Sections != c.sections || e.Settings.SectionLength != c.length {
			t.Errorf("%+v: %d sections of %g µm, want %d of %g", c.set, e.Sections, e.Settings.SectionLength, c.sections, c.length)
		}
	}
	e := run(t, p, &roughness.Settings{Profile: roughness.W, Parameters: []string{"Wz", "Wt"}})
	near(t, "Wz of one section", value(t, e, "Wz"), value(t, e, "Wt"), 0)
	again := run(t, p, &e.Settings)
	near(t, "Wz by the complete settings", value(t, again, "Wz"), value(t, e, "Wz"), 0)
	if o := e.Origins["sections"]; !strings.Contains(o.Doc, "ISO 21920-3") || o.From != callout.FromStandard {
		t.Errorf("origin of sections: %v", o)
	}
}

// A count in a band says at which cut-off it was taken beside the one that its source asks for.
func TestBandCountSaysItsCutoff(t *testing.T) {
	p := honed(t)
	for _, c := range []struct {
		set  roughness.Settings
		want string
	}{
		{roughness.Settings{}, "behind a cut-off of 0.8 mm"},
		{roughness.Settings{Long: gaussian(250)}, "behind a cut-off of 0.25 mm"},
		{roughness.Settings{Long: off(), Edition: "iso-4287"}, "without a cut-off"},
		{roughness.Settings{Input: roughness.Filtered}, "came filtered"},
	} {
		c.set.Parameters = []string{"RPc(0.5,-0.5)", "Ra"}
		e := run(t, p, &c.set)
		if v := e.Values[0]; !strings.Contains(v.Note, c.want) || !strings.Contains(v.Note, "EN 10049 asks for a cut-off of 2.5 mm") || v.Reason != "" {
			t.Errorf("note %q, reason %q; want %q", v.Note, v.Reason, c.want)
		}
		if e.Values[1].Note != "" {
			t.Errorf("Ra has the note %q", e.Values[1].Note)
		}
	}
}

// Each switch is laid over by itself.
func TestChoicesLaidOver(t *testing.T) {
	b := &roughness.Settings{Edition: "iso-4287", Choices: params.Choices{ElementWidth: params.WidthNotAsked, SpacingMode: params.StrictSections}}
	merged := roughness.Merge(b, &roughness.Settings{Choices: params.Choices{ElementWidth: params.WidthOfElement}})
	if want := (params.Choices{ElementWidth: params.WidthOfElement, SpacingMode: params.StrictSections}); merged.Choices != want {
		t.Errorf("merged: %+v, want %+v", merged.Choices, want)
	}
}

// What the Gaussian leaves of heights that are exactly zero decides nothing: far from the one wave of this trace the roughness profile is zero
// but for the rounding of the transform, and that part is at the level 0 (closed form: nothing reaches further than the kernel, one cut-off).
// Before, about half of it counted as above.
func TestResidueAtLevelZero(t *testing.T) {
	const n, from, to, cutoff = 16000, 7600, 8400, 400 // points and µm
	z := make([]float64, n)
	for i := from; i < to; i++ {
		z[i] = math.Sin(2 * math.Pi * float64(i-from) / 100)
	}
	p := roughness.Profile{Z: z, Spacing: 1}
	set := &roughness.Settings{Input: roughness.Levelled, Short: off(), Long: gaussian(cutoff), Edition: "asme-b46.1", Sections: 1, SectionLength: n,
		Parameters: []string{"HSC(0)", "Pc(0,0)"}}
	e := run(t, p, set)
	residue := 0
	for i, v := range e.Roughness {
		if v != 0 && (i < from-cutoff || i >= to+cutoff) {
			residue++
		}
		if math.Abs(v) > 1e-14 && (i < from-cutoff || i >= to+cutoff) {
			t.Fatalf("point %d: %g", i, v)
		}
	}
	if residue < n/4 {
		t.Fatalf("only %d points with a residue: nothing is tested", residue)
	}
	// 8 waves and what the mean line leaves beside them: not more spots than half the points of the wave and its run-out could make.
	if v := value(t, e, "HSC(0)"); v > 20*1e4/n {
		t.Errorf("HSC(0) = %g on 10 mm", v)
	}
	if v := value(t, e, "Pc(0,0)"); v > 20*1e4/n {
		t.Errorf("Pc(0,0) = %g on 10 mm", v)
	}
	set.Edition, set.Parameters = "iso-21920", []string{"Rmr(0)"}
	got := value(t, run(t, p, set), "Rmr(0)")
	zero := 100 * float64(n-(to-from)-2*cutoff) / n
	if got < zero || got > zero+100*float64(to-from+2*cutoff)/n {
		t.Errorf("Rmr(0) = %g %%, and %g %% of the length lies at 0", got, zero)
	}
}
