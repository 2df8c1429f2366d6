package main

import (
	"bytes"
	"encoding/json"

	"example.com/furrow/roughness/judge"
	"example.com/furrow/roughness/record"
	"example.com/furrow/standards"
)

type requirementRequest struct {
	Text    string              `json:"text"`
	Edition standards.EditionID `json:"edition"`
}

// requirementExtra is what the page needs besides the plan.
type requirementExtra struct {
	Settings json.RawMessage `json:"settings"` // a settings file for the first limit and those that share it; null while it is open
}

// requirement answers with what the text of a drawing asks: the document furrow_plan and what the page needs besides. A text that cannot be
// read is no fault of the call: the answer says where it stopped being understood.
func (m *module) requirement(req *requirementRequest, _ []byte) (any, error) {
	return readRequirement(*req), nil
}

func readRequirement(req requirementRequest) string {
	plan := record.AppendPlan(nil, req.Text, req.Edition)
	extra := requirementExtra{Settings: json.RawMessage("null")}
	if r, err := judge.ReadRequirement(req.Text, req.Edition); err == nil && r.Settings != nil {
		extra.Settings = record.AppendSettings(nil, r.Settings, "")
	}
	plan = bytes.TrimSuffix(plan, []byte("\n}\n"))
	plan = append(plan, ',')
	return string(append(plan, jsonText(extra)[1:]...))
}
