package judge_test

import (
	"math"
	"slices"
	"strings"
	"testing"

	"example.com/furrow/roughness"
	"example.com/furrow/roughness/judge"
	"example.com/furrow/roughness/synth"
	"example.com/furrow/standards/decide"
)

// A probe that does not move shows Rz 0, which keeps every upper limit: no verdict rests on it, alone or beside another trace.
func TestStillProbe(t *testing.T) {
	flat := rod()
	flat.Name, flat.Z = "flat", make([]float64, len(flat.Z))
	for i := range flat.Z {
		flat.Z[i] = 14.3
	}
	flat.Z[7] = math.NaN()
	drawn := requirement(t, "Rz 3,2", "iso-21920")
	limits, err := judge.Limits("Rz <= 3.2", "", "")
	if err != nil {
		t.Fatal(err)
	}
	for _, r := range []*judge.Requirement{drawn, limits} {
		for _, traces := range [][]roughness.Profile{{flat}, {rod(), flat}} {
			v := judged(t, judge.Judging{Requirement: r, Traces: traces})
			if why(v) != judge.WhyUndefined || !strings.Contains(v.Sentence, "the probe may not have moved") {
				t.Errorf("%d traces: %s (%s) %q", len(traces), v.Word, why(v), v.Sentence)
			}
		}
	}
	moved := flat
	moved.Z = append([]float64{14.2}, flat.Z[1:]...)
	if v := judged(t, judge.Judging{Requirement: drawn, Traces: []roughness.Profile{moved}}); v.Word != decide.Conforms {
		t.Errorf("one other height: %s %q", v.Word, v.Sentence)
	}
}

// Clipped heights leave no verdict, whatever the limit, unless somebody has agreed: that they keep an upper limit says nothing, and that
// they exceed one says nothing either, for a slope gets a kink where the range ends.
func TestClipped(t *testing.T) {
	cut := func(z []float64, level float64) roughness.Profile {
		out := slices.Clone(z)
		for i := range out {
			out[i] = min(out[i], level)
		}
		return roughness.Profile{Name: "cut", Z: out, Spacing: 0.5}
	}
	whole := rod()
	level := slices.Sorted(slices.Values(whole.Z))[len(whole.Z)*9/10]
	clip := cut(whole.Z, level)
	free, err := judge.Limits("Rz <= 3.2", "", "")
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct {
		r    *judge.Requirement
		word decide.Word // with somebody who agreed
	}{{requirement(t, "Rz 3,2", "iso-21920"), decide.Conforms}, {requirement(t, "L Rz 3,2", "iso-21920"), decide.DoesNotConform}, {requirement(t, "Rz 0,4", "iso-21920"), decide.DoesNotConform}, {free, decide.Conforms}} {
		for _, traces := range [][]roughness.Profile{{clip}, {rod(), clip}} {
			v := judged(t, judge.Judging{Requirement: c.r, Traces: traces})
			if v.Word != decide.NoVerdict || why(v) != judge.WhyDeviates || !strings.Contains(v.Sentence, "The trace is clipped: ") || strings.HasPrefix(v.Sentence, "cut: ") != (len(traces) > 1) {
				t.Errorf("%d traces: %s (%s) %q", len(traces), v.Word, why(v), v.Sentence)
			}
			v = judged(t, judge.Judging{Requirement: c.r, Traces: traces, Agreed: "the buyer"})
			if want := (judge.Deviation{Key: "clipped", Asked: "a trace within the range of the probe", Used: "clipped heights", With: "the buyer"}); v.Word != c.word || len(v.Agreed) != 1 || v.Agreed[0] != want ||
				want.String() != "clipped heights instead of a trace within the range of the probe" {
				t.Errorf("%d traces, agreed: %s %q %+v", len(traces), v.Word, v.Sentence, v.Agreed)
			}
		}
	}
	// What does not enter the evaluation does not count.
	part := roughness.Profile{Z: append(slices.Repeat(append([]float64{9, 8, 8.5}, slices.Repeat([]float64{9}, 40)...), 10), whole.Z...), Spacing: 0.5}
	for _, crop := range []float64{0, 220} {
		v := judged(t, judge.Judging{Requirement: free, Traces: []roughness.Profile{part}, Settings: &roughness.Settings{Crop: [2]float64{crop, 0}}})
		if (v.Word == decide.NoVerdict) != (crop == 0) {
			t.Errorf("%g µm cropped: %s %q", crop, v.Word, v.Sentence)
		}
	}
	// A smooth surface at a slope, cut off half-way: Rz of the cut trace is larger than that of the surface.
	slope := make([]float64, len(whole.Z))
	for i, z := range whole.Z {
		slope[i] = 0.1*z + 0.01*float64(i)
	}
	rz := func(p roughness.Profile) float64 { return value(t, evaluate(t, p.Z, p.Spacing, nil), "Rz") }
	if before, after := rz(roughness.Profile{Z: slope, Spacing: 0.5}), rz(cut(slope, 0.005*float64(len(slope)))); after < 1.1*before {
		t.Errorf("Rz %g of the surface, %g of what is left", before, after)
	}
}

// Values typed in stand under the settings that are stated, without a trace too.
func TestTypedUnderOtherSettings(t *testing.T) {
	r := requirement(t, "Rz 3,2", "iso-21920")
	typed, err := judge.ParseTyped("Rz 3", "iso-21920")
	if err != nil {
		t.Fatal(err)
	}
	short := &roughness.Settings{Long: gaussian(250)}
	for _, c := range []struct {
		set    *roughness.Settings
		agreed string
		word   decide.Word
	}{{nil, "", decide.Conforms}, {r.Settings, "", decide.Conforms}, {short, "", decide.NoVerdict}, {short, "the customer", decide.Conforms}} {
		v := judged(t, judge.Judging{Requirement: r, Typed: typed, Settings: c.set, Agreed: c.agreed})
		if v.Word != c.word || (why(v) == judge.WhyDeviates) != (c.word == decide.NoVerdict) || (len(v.Agreed) > 0) != (c.agreed != "") {
			t.Errorf("%+v: %s (%s) %q", c, v.Word, why(v), v.Sentence)
		}
	}
}

// A series keeps what was said of each trace.
func TestSeriesKeepsNotes(t *testing.T) {
	d := synth.Demos()[0]
	e := evaluate(t, d.Heights()[:4000], d.Spacing, nil)
	s, err := judge.Collect([]string{"rod"}, e)
	if err != nil || len(e.Notes) == 0 || len(s.Traces[0].Notes) != len(e.Notes) || s.Traces[0].Notes[0] != e.Notes[0] {
		t.Errorf("%v: %+v, not %+v", err, s.Traces[0].Notes, e.Notes)
	}
}
