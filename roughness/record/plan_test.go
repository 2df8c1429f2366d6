package record_test

import (
	"encoding/json"
	"os"
	"strings"
	"testing"

	"example.com/furrow/roughness/record"
	"example.com/furrow/standards"
)

// Every text of the vectors gives a document that its schema allows, in the state that the vector says, and with settings that are a settings
// file once evaluation, a and b are left out.
func TestPlan(t *testing.T) {
	data, err := os.ReadFile("../../testdata/callouts/callouts.json")
	if err != nil {
		t.Fatal(err)
	}
	var vectors []struct {
		ID, Text string
		Edition  standards.EditionID
		Expect   string
	}
	if err := json.Unmarshal(data, &vectors); err != nil {
		t.Fatal(err)
	}
	for _, v := range vectors {
		doc := record.AppendPlan(nil, v.Text, v.Edition)
		if err := validate(record.PlanSchema, doc); err != nil {
			t.Errorf("%s %q: %v", v.ID, v.Text, err)
			continue
		}
		var plan struct {
			State     string
			Limits    []struct{ Settings map[string]json.RawMessage }
			Questions []any
			Refusal   *struct{ Reason string }
		}
		if err := json.Unmarshal(doc, &plan); err != nil {
			t.Fatal(err)
		}
		if plan.State != v.Expect || (plan.State == "refuse") != (plan.Refusal != nil) || (plan.State == "ask") != (len(plan.Questions) > 0) || plan.State == "refuse" && len(plan.Limits) > 0 {
			t.Errorf("%s %q: state %s, want %s", v.ID, v.Text, plan.State, v.Expect)
		}
		for _, l := range plan.Limits {
			if (l.Settings == nil) && plan.State == "read" {
				t.Errorf("%s %q: read and no settings", v.ID, v.Text)
			}
			if l.Settings == nil {
				continue
			}
			if !strings.Contains(string(l.Settings["choices"]), `"stratified_filter"`) {
				t.Errorf("%s %q: the filter for stratified surfaces is not stated", v.ID, v.Text)
			}
			for _, key := range []string{"evaluation", "a", "b"} {
				delete(l.Settings, key)
			}
			file, err := json.Marshal(l.Settings)
			if err != nil {
				t.Fatal(err)
			}
			if _, err := record.ParseSettings(file); err != nil {
				t.Errorf("%s %q: %v", v.ID, v.Text, err)
			}
			if err := validate(record.SettingsSchema, file); err != nil {
				t.Errorf("%s %q: %v", v.ID, v.Text, err)
			}
		}
	}
}

// The trace that a plan asks for: evaluation length, half a cut-off on each side, spacing and tip of the class.
func TestPlanTrace(t *testing.T) {
	doc := string(record.AppendPlan(nil, "Rz 3,2", ""))
	if want := `"trace": {"evaluation": 4000, "run_up": 400, "run_out": 400, "length": 4800, "max_spacing": 0.5, "max_tip_radius": 2}`; !strings.Contains(doc, want) {
		t.Errorf("no %s in\n%s", want, doc)
	}
	if doc := string(record.AppendPlan(nil, "Ra 1,6", "iso-4287")); !strings.Contains(doc, `"trace": null`) {
		t.Errorf("the cut-off is found by measuring, and a trace is asked for:\n%s", doc)
	}
	if doc := string(record.AppendPlan(nil, "Ra 63 µin", "")); !strings.Contains(doc, `"written": "63 µin"`) {
		t.Errorf("the limit is not as written:\n%s", doc)
	}
}
