package main

import (
	"encoding/json"
	"testing"

	"example.com/furrow/roughness/synth"
)

// evaluated returns a module that has evaluated the first demonstration with settings.
func evaluated(t *testing.T, settings string) *module {
	t.Helper()
	d := synth.Demos()[0]
	m := &module{}
	if _, err := ask(t, m, "evaluate", jsonText(evaluateRequest{Spacing: d.Spacing, Settings: json.RawMessage(settings)}), floats(d.Heights())); err != nil {
		t.Fatal(err)
	}
	return m
}

type verdictText struct {
	Word, Sentence, Caution string
	Why                     *struct{ Key, Text string }
	Agreed                  []struct{ Key, Asked, Used, With string }
	Limits                  []struct{ Symbol, Word, Rule string }
}

func (m *module) verdictOf(t *testing.T, req judgeRequest) verdictText {
	t.Helper()
	a, err := ask(t, m, "judge", jsonText(req), nil)
	if err != nil {
		t.Fatal(err)
	}
	var v verdictText
	if err := json.Unmarshal([]byte(a.text), &v); err != nil {
		t.Fatal(err)
	}
	if v.Caution == "" || v.Sentence == "" {
		t.Errorf("%+v: %s", req, a.text)
	}
	return v
}

// The page's verdict is the command's and the library's: one code for all. The demonstration has Rz 2.92 and Ra 0.41 µm.
func TestJudge(t *testing.T) {
	m := evaluated(t, "{}")
	for _, c := range []struct {
		req       judgeRequest
		word, why string
	}{
		{judgeRequest{Text: "Rz 3,2"}, "Conforms", ""},
		{judgeRequest{Text: "Rz 2,5"}, "Does not conform", ""},
		{judgeRequest{Text: "Rz 3,2; Ra 0,2"}, "Does not conform", ""},
		{judgeRequest{Text: "Rz 3,2 T16%"}, "No verdict yet", "more"},
		{judgeRequest{Text: "Rz 3,2 Tmed"}, "No verdict yet", "more"},
		{judgeRequest{Text: "Rz 3,2", Rule: "16%"}, "No verdict yet", "deviates"},
		{judgeRequest{Text: "Rz 3,2 T16%", Typed: "Rz 2,9; 3,1"}, "Conforms", ""},
		{judgeRequest{Text: "Rz 3", U: "0.12"}, "Not decided", ""},
		{judgeRequest{Text: "Rz 3", U: "0.12", Prove: "none"}, "Conforms", ""},
		{judgeRequest{Text: "Rz 25"}, "No verdict yet", "deviates"},
		{judgeRequest{Text: ""}, "No verdict yet", "no-requirement"},
		{judgeRequest{Text: "Rz 3,2 Sc9"}, "No verdict yet", "refused"},
		{judgeRequest{Text: "RSm 0,2"}, "No verdict yet", "requirement-open"},
		{judgeRequest{Text: "Rz 3,2", FileOpen: []string{"rod-place-7.txt, unit of the heights"}}, "No verdict yet", "file-open"},
	} {
		v := m.verdictOf(t, c.req)
		why := ""
		if v.Why != nil {
			why = v.Why.Key
		}
		if v.Word != c.word || why != c.why {
			t.Errorf("%+v: %+v (%s), want %s (%s)", c.req, v, why, c.word, c.why)
		}
	}
	none := &module{}
	if v := none.verdictOf(t, judgeRequest{Text: "Rz 3,2"}); v.Word != "No verdict yet" || v.Why.Key != "no-value" {
		t.Errorf("without a trace: %+v", v)
	}
	if v := none.verdictOf(t, judgeRequest{Text: "Rz 3,2", Typed: "Rz 3.0"}); v.Word != "Conforms" {
		t.Errorf("a value typed in: %+v", v)
	}
	for _, bad := range []judgeRequest{{Text: "Rz 3,2", Typed: "Rz three"}, {Text: "Rz 3,2", U: "much"}, {Text: "Rz 3,2", Prove: "maker"}, {Text: "Rz 3,2", U: "0.1", Guard: "1066"}, {Text: "Ra 3,2", Typed: "Ra -1"}} {
		if a, err := ask(t, m, "judge", jsonText(bad), nil); err == nil {
			t.Errorf("%+v: %s", bad, a.text)
		}
	}
}

// Settings of the sheet that differ leave no verdict until somebody has agreed to them.
func TestJudgeDeviates(t *testing.T) {
	m := evaluated(t, `{"long": {"filter": "gaussian", "cutoff": 250}, "section": 250}`)
	v := m.verdictOf(t, judgeRequest{Text: "Rz 3,2"})
	if v.Word != "No verdict yet" || v.Why.Key != "deviates" || v.Why.Text != "One setting differs from the requirement: L-filter 0.25 mm instead of 0.8 mm." {
		t.Errorf("%+v", v)
	}
	v = m.verdictOf(t, judgeRequest{Text: "Rz 3,2", Agreed: "the customer"})
	if v.Word != "Conforms" || len(v.Agreed) != 1 || v.Agreed[0].With != "the customer" || v.Agreed[0].Used != "0.25 mm" {
		t.Errorf("%+v", v)
	}
}

// A trace that cannot be evaluated leaves no verdict of the one before.
func TestJudgeAfterFailure(t *testing.T) {
	m := evaluated(t, "{}")
	if _, err := ask(t, m, "evaluate", jsonText(evaluateRequest{Spacing: 0.5, Settings: json.RawMessage("{}")}), floats(make([]float64, 20))); err != nil {
		t.Fatal(err)
	}
	if v := m.verdictOf(t, judgeRequest{Text: "Rz 3,2"}); v.Word != "No verdict yet" || v.Why.Key != "undefined" {
		t.Errorf("%+v", v)
	}
}

// The origins of a result say what the requirement, the standard and a person chose: exactly one of the three for each setting.
func TestOriginsOfResult(t *testing.T) {
	d := synth.Demos()[0]
	m := &module{}
	settings := `{"edition": "iso-21920", "long": {"filter": "gaussian", "cutoff": 800}, "short": {"filter": "gaussian", "cutoff": 2.5}, "sections": 5, "section": 800, "form": {"kind": "mean"}}`
	origins := func(r requirementRequest) map[string]struct{ Text, Source, From string } {
		a, err := ask(t, m, "evaluate", jsonText(evaluateRequest{Spacing: d.Spacing, Settings: json.RawMessage(settings), Requirement: r}), floats(d.Heights()))
		if err != nil {
			t.Fatal(err)
		}
		var got struct {
			Result struct {
				Origins map[string]struct{ Text, Source, From string }
			}
		}
		if err := json.Unmarshal([]byte(a.text), &got); err != nil {
			t.Fatal(err)
		}
		return got.Result.Origins
	}
	with, without := origins(requirementRequest{"Rz 3,2 Sc3", "iso-21920"}), origins(requirementRequest{})
	for key, want := range map[string][2]string{"long.cutoff": {"standard", "set here"}, "short.cutoff": {"standard", "set here"}, "sections": {"standard", "set here"}, "form.kind": {"set here", "set here"}} {
		if with[key].From != want[0] || without[key].From != want[1] {
			t.Errorf("%s: %+v with the requirement, %+v without; want %v", key, with[key], without[key], want)
		}
	}
	for key, o := range with {
		if o.From != "drawing" && o.From != "standard" && o.From != "set here" {
			t.Errorf("%s: %+v", key, o)
		}
	}
}
