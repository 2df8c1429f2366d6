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
func (m *module) judge(text string, _ []byte) (answer, error) {
	var req judgeRequest
	if err := decode(text, &req); err != nil {
		return answer{}, err
	}
	j := &judge.Judging{Rule: standards.Rule(req.Rule), Agreed: req.Agreed, FileOpen: req.FileOpen}
	if strings.TrimSpace(req.Text) != "" {
		j.Requirement, j.Refused = judge.ReadRequirement(req.Text, req.Edition)
	}
	refuse := func(key string, err error) (answer, error) {
		var t *judge.TypedError
		if errors.As(err, &t) {
			return answer{}, &fault{Kind: kindSettings, Key: key, Message: t.Reason, Column: t.Column}
		}
		return answer{}, &fault{Kind: kindSettings, Key: key, Message: strings.TrimPrefix(err.Error(), "roughness: ")}
	}
	var err error
	if req.Typed != "" {
		if j.Typed, err = judge.ParseTyped(req.Typed, req.Edition); err != nil {
			return refuse("typed", err)
		}
	}
	if req.U != "" {
		if j.U, err = judge.ParseUncertainty(req.U, req.Edition); err != nil {
			return refuse("u", err)
		}
	}
	if j.Guard, err = judge.GuardFor(req.Guard, req.Prove, req.K, len(j.U) > 0); err != nil {
		return refuse("prove", err)
	}
	switch {
	case req.Traces != nil:
		if err := m.counted(j, req.Traces); err != nil {
			return answer{}, err
		}
	case m.judged != nil && !req.Traceless:
		j.Traces, j.Settings, j.Done = []roughness.Profile{m.judgedOn}, &m.judged.Settings, []*roughness.Evaluation{m.judged}
	}
	m.verdict = nil
	v, err := j.Judge()
	var typed *judge.TypedError
	switch {
	case errors.As(err, &typed):
		return refuse("typed", err)
	case err != nil:
		return answer{}, err
	}
	m.verdict = v
	return answer{text: string(record.AppendVerdict(nil, v, ""))}, nil
}
