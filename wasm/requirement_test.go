package main

import (
	"bytes"
	"encoding/json"
	"testing"

	"example.com/furrow/roughness/judge"
	"example.com/furrow/roughness/record"
	"example.com/furrow/standards"
)

type requirementDocument struct {
	State     string
	Limits    []json.RawMessage
	Questions []json.RawMessage
	Refusal   *struct{ Column int }
	requirementExtra
}

func readDocument(t *testing.T, text string, edition standards.EditionID) (d requirementDocument) {
	t.Helper()
	if err := json.Unmarshal([]byte(readRequirement(requirementRequest{text, edition})), &d); err != nil {
		t.Fatalf("%s: %v", text, err)
	}
	return d
}

func TestRequirement(t *testing.T) {
	for _, c := range []struct {
		text             string
		edition          standards.EditionID
		state            string
		limits, question int
		settings         bool
		column           int // of a refusal; 0 for none
	}{
		{"Rz 3,2", "", "read", 1, 0, true, 0},
		{"U Rz 5 / L Rz 1", "iso-21920", "read", 2, 0, true, 0},
		{"RSm 0,2", "iso-21920", "ask", 1, 2, false, 0}, // its unit and its class are open
		{"Rz 3,2 Sc9", "iso-21920", "refuse", 0, 0, false, 8},
		{"▽▽", "iso-21920", "ask", 0, 1, false, 0},
		{"0,008-0,8/Ra 3,1", "iso-4287", "read", 1, 0, true, 0},
	} {
		got := readDocument(t, c.text, c.edition)
		column := 0
		if got.Refusal != nil {
			column = got.Refusal.Column
		}
		if got.State != c.state || len(got.Limits) != c.limits || (string(got.Settings) != "null") != c.settings || len(got.Questions) != c.question || column != c.column {
			t.Errorf("%s: %+v", c.text, got)
		}
	}
}

// The settings that the page gets are those of the library; without its extra keys the answer is the plan.
func TestRequirementIsTheLibrarys(t *testing.T) {
	for _, text := range []string{"Rz 3,2", "U Rz 5 / L Rz 1", "Ra 1.6 Sc2", "Wa 3 Sc3", "Rz 3,2 Tmed"} {
		got := readDocument(t, text, "iso-21920")
		want, err := judge.ReadRequirement(text, "iso-21920")
		if err != nil {
			t.Fatal(err)
		}
		set, err := record.ParseSettings(got.Settings)
		if err != nil {
			t.Fatalf("%s: %v", text, err)
		}
		if again := record.AppendSettings(nil, set, ""); !bytes.Equal(again, record.AppendSettings(nil, want.Settings, "")) {
			t.Errorf("%s: settings %s", text, again)
		}
		if len(got.Limits) != len(want.Items) {
			t.Fatalf("%s: %+v", text, got)
		}
		var plan, answer map[string]any
		if err := json.Unmarshal(record.AppendPlan(nil, text, ""), &plan); err != nil {
			t.Fatal(err)
		}
		if err := json.Unmarshal([]byte(readRequirement(requirementRequest{text, ""})), &answer); err != nil {
			t.Fatal(err)
		}
		for key := range plan {
			if a, b := jsonText(plan[key]), jsonText(answer[key]); a != b {
				t.Errorf("%s: %s is %s, and %s in the plan", text, key, b, a)
			}
		}
	}
}
