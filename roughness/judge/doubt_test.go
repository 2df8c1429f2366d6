package judge_test

import (
	"math"
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
