package record_test

import (
	"encoding/json"
	"testing"

	"example.com/furrow/roughness"
	"example.com/furrow/roughness/judge"
	"example.com/furrow/roughness/record"
	"example.com/furrow/roughness/synth"
	"example.com/furrow/standards"
	"example.com/furrow/standards/decide"
)

// valid holds a JSON document against a schema of this package.
func valid(t *testing.T, schema string, document []byte) map[string]any {
	t.Helper()
	if err := validate(schema, document); err != nil {
		t.Errorf("%v\n%s", err, document)
	}
	var v map[string]any
	if err := json.Unmarshal(document, &v); err != nil {
		t.Fatal(err)
	}
	return v
}

// Every kind of verdict, alone, in a result and in a series, keeps to its schema and carries the caution.
func TestVerdictSchema(t *testing.T) {
	d := synth.Demos()[0]
	trace := roughness.Profile{Z: d.Heights(), Spacing: d.Spacing, Name: "trace 1"}
	read := func(text string) *judge.Requirement {
		r, err := judge.ReadRequirement(text, "iso-21920")
		if err != nil {
			t.Fatal(err)
		}
		return r
	}
	_, refused := judge.ReadRequirement("Rz 3,2 Sc9", "iso-21920")
	typed, err := judge.ParseTyped("Rz 2.9; 3.1", "")
	if err != nil {
		t.Fatal(err)
	}
	guard, err := judge.GuardFor("", "", 0, true)
	if err != nil {
		t.Fatal(err)
	}
	seen := map[string]bool{}
	for _, j := range []judge.Judging{
		{},
		{Refused: refused},
		{Requirement: read("RSm 0,2")},
		{Requirement: read("Rz 3,2")},
		{Requirement: read("Rz 3,2"), Traces: []roughness.Profile{trace}},
		{Requirement: read("Rz 3,2; Ra 0,05"), Traces: []roughness.Profile{trace}},
		{Requirement: read("U Rz 5 / L Rz 1"), Traces: []roughness.Profile{trace, trace}, Typed: typed},
		{Requirement: read("Rz 3,2 T16%"), Traces: []roughness.Profile{trace}},
		{Requirement: read("Rz 25"), Traces: []roughness.Profile{trace}, Agreed: "the customer"},
		{Requirement: read("Rz 3"), Traces: []roughness.Profile{trace}, Guard: guard, U: []judge.Uncertainty{{Value: 0.12}}},
		{Requirement: read("U Rz 3,1 / L Rz 3"), Traces: []roughness.Profile{trace}, Guard: guard, U: []judge.Uncertainty{{Value: 0.12}}},
		{Requirement: read("Ra 1,6"), Traces: []roughness.Profile{trace}, Rule: standards.Median, FileOpen: []string{"a.txt, unit of the heights"}},
	} {
		v, err := j.Judge()
		if err != nil {
			t.Fatal(err)
		}
		seen[string(v.Word)] = true
		got := valid(t, record.VerdictSchema, record.AppendVerdict(nil, v, ""))
		if got["caution"] != standards.Caution || (got["why"] == nil) != (v.Word != decide.NoVerdict) {
			t.Errorf("%s: caution %v, why %v", v.Word, got["caution"], got["why"])
		}
		s, err := judge.EvaluateSeries(t.Context(), j.Traces, nil)
		if err != nil {
			t.Fatal(err)
		}
		s.Type(j.Typed...)
		series := valid(t, record.SeriesSchema, record.AppendSeries(nil, s, v))
		if series["caution"] != standards.Caution || series["verdict"].(map[string]any)["word"] != string(v.Word) {
			t.Errorf("series: %v", series)
		}
	}
	for _, w := range []decide.Word{decide.Conforms, decide.DoesNotConform, decide.NotDecided, decide.NoVerdict} {
		if !seen[string(w)] {
			t.Errorf("%s never came up", w)
		}
	}
}
