package main

import (
	"errors"
	"strings"

	"example.com/furrow/roughness"
	"example.com/furrow/roughness/judge"
	"example.com/furrow/roughness/record"
	"example.com/furrow/standards"
)

type judgeRequest struct {
	Text     string              `json:"text"` // of the requirement
	Edition  standards.EditionID `json:"edition"`
	Rule     string              `json:"rule"`     // in place of the requirement's own, as agreed
	U        string              `json:"u"`        // expanded uncertainty as typed: "0.12", or "Rz 0.12; Ra 0.02"; empty: none
	K        float64             `json:"k"`        // its coverage factor; 0 is 2
	Prove    string              `json:"prove"`    // "maker", "buyer" or "none"; empty: maker with an uncertainty, none without
	Guard    string              `json:"guard"`    // "2017" or "1998"; empty: 2017
	Typed    string              `json:"typed"`    // values without a trace: "Rz 2.9; 3.1"
	Agreed   string              `json:"agreed"`   // who agreed that the settings deviate
	FileOpen []string            `json:"fileOpen"` // what files leave open, in words

	Traceless bool     `json:"traceless"` // without the trace that was evaluated last
	Traces    []string `json:"traces"`    // held traces that count, in place of the latest one; null: that one
}

// judge answers with the verdict as a result document holds it: by the same code as the command's, on the latest evaluation
// and the values typed in. A requirement that is missing, refused or open is no fault of the call: the verdict says why there
// is none.
func (m *module) judge(req *judgeRequest, _ []byte) (any, error) {
	var requirement *judge.Requirement
	var refused error
	if strings.TrimSpace(req.Text) != "" {
		requirement, refused = judge.ReadRequirement(req.Text, req.Edition)
	}
	asked := record.Asked{Rule: req.Rule, U: req.U, K: req.K, Prove: req.Prove, Guard: req.Guard, Agreed: req.Agreed}
	j, err := asked.Judging(requirement, refused, req.Edition)
	if err != nil {
		return nil, sheetFault(err)
	}
	j.FileOpen = req.FileOpen
	if req.Typed != "" {
		var typed *judge.TypedError
		if j.Typed, err = judge.ParseTyped(req.Typed, req.Edition); errors.As(err, &typed) {
			return nil, &fault{Kind: kindSettings, Key: "typed", Message: typed.Reason, Column: typed.Column}
		}
	}
	switch {
	case req.Traces != nil:
		if err := m.counted(j, req.Traces); err != nil {
			return nil, err
		}
	case m.judged != nil && !req.Traceless:
		j.Traces, j.Settings, j.Done = []roughness.Profile{m.judgedOn}, &m.judged.Settings, []*roughness.Evaluation{m.judged}
	}
	m.verdict = nil
	v, err := record.Judge(j)
	if err != nil {
		return nil, sheetFault(err)
	}
	m.verdict = v
	return record.AppendVerdict(nil, v, ""), nil
}
