package main

import (
	"bytes"
	"encoding/json"

	"example.com/furrow/roughness"
	"example.com/furrow/roughness/record"
)

type requirementRequest struct {
	Text    string `json:"text"`
	Edition string `json:"edition"`
}

// requirementExtra is what the page needs besides the plan.
type requirementExtra struct {
	Readings []string        `json:"readings"` // each limit in plain words
	Settings json.RawMessage `json:"settings"` // a settings file for the first limit and those that share it; null while it is open
	Origins  json.RawMessage `json:"origins"`  // of the first limit
	Rule     string          `json:"rule"`     // of the first limit
}

// requirement answers with what the text of a drawing asks: the document furrow_plan and what the page needs besides. A text that cannot be
// read is no fault of the call: the answer says where it stopped being understood.
func (m *module) requirement(text string, _ []byte) (answer, error) {
	var req requirementRequest
	if err := decode(text, &req); err != nil {
		return answer{}, err
	}
	return answer{text: readRequirement(req)}, nil
}

func readRequirement(req requirementRequest) string {
	plan := record.AppendPlan(nil, req.Text, req.Edition)
	extra := requirementExtra{Readings: []string{}, Settings: json.RawMessage("null"), Origins: json.RawMessage("{}")}
	if r, err := roughness.ReadRequirement(req.Text, req.Edition); err == nil {
		extra.Readings, extra.Rule = r.Readings, string(r.Rule)
		if r.Settings != nil {
			extra.Settings = record.AppendSettings(nil, r.Settings, "")
		}
		extra.Origins = record.AppendOrigins(nil, r.Items[0].Settings.Origins, "")
	}
	plan = bytes.TrimSuffix(plan, []byte("\n}\n"))
	plan = append(plan, ',')
	return string(append(plan, jsonText(extra)[1:]...))
}
