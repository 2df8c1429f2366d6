package main

import (
	"encoding/json"
	"errors"

	"example.com/furrow/roughness"
	"example.com/furrow/roughness/record"
	"example.com/furrow/standards"
)

type requirementRequest struct {
	Text    string `json:"text"`
	Edition string `json:"edition"`
}

type requirementAnswer struct {
	Readings  []string          `json:"readings"`
	Questions []openQuestion    `json:"questions"`
	Settings  json.RawMessage   `json:"settings"` // a settings file; null while a question holds it up
	Origins   map[string]origin `json:"origins"`
	Rule      string            `json:"rule"`
	Limits    []limit           `json:"limits"`
	Refusal   *refusal          `json:"refusal,omitempty"` // why the text, or its settings, cannot be used yet
}

type openQuestion struct {
	Key     string    `json:"key"`
	Text    string    `json:"text"`
	Answers []reading `json:"answers"` // Value is the requirement with this answer
}

type origin struct {
	Text        string `json:"text"`
	Source      string `json:"source"`
	Basis       string `json:"basis"`
	Unconfirmed bool   `json:"unconfirmed,omitempty"`
}

type limit struct {
	Symbol string `json:"symbol"`
	Side   string `json:"side"`
	Value  number `json:"value"`
}

type refusal struct {
	Line   int    `json:"line"`
	Column int    `json:"column"`
	Reason string `json:"reason"`
}

// requirement answers with what the text of a drawing asks: readings, settings with their origins, limits, open questions. A text
// that cannot be read is no fault of the call: the answer says where it stopped being understood.
func (m *module) requirement(text string, _ []byte) (answer, error) {
	var req requirementRequest
	if err := decode(text, &req); err != nil {
		return answer{}, err
	}
	return answer{text: jsonText(readRequirement(req))}, nil
}

func readRequirement(req requirementRequest) requirementAnswer {
	if req.Edition == "" {
		req.Edition = standards.Editions()[0].ID
	}
	out := requirementAnswer{Readings: []string{}, Questions: []openQuestion{}, Settings: json.RawMessage("null"), Origins: map[string]origin{}, Limits: []limit{}}
	read, err := standards.ParseRequirement(req.Text, req.Edition)
	if err != nil {
		out.Refusal = refusalOf(err)
		return out
	}
	for i := range read.Items {
		item := &read.Items[i]
		out.Readings = append(out.Readings, item.Reading())
		for _, q := range item.Questions {
			open := openQuestion{Key: q.Key, Text: q.Text}
			for _, a := range q.Answers {
				open.Answers = append(open.Answers, reading{Value: a.Then, Text: a.Text})
			}
			out.Questions = append(out.Questions, open)
		}
	}
	r, err := roughness.ReadRequirement(req.Text, req.Edition)
	if err != nil {
		out.Refusal = refusalOf(err)
		return out
	}
	if r.Settings == nil {
		out.Refusal = refusalOf(r.Items[0].Err())
		return out
	}
	if i := r.Apart(); i > 0 {
		out.Refusal = &refusal{r.Items[i].Line, r.Items[i].Column, "this requirement is measured with other settings than the one before it; evaluate them one by one"}
		return out
	}
	out.Settings = record.AppendSettings(nil, r.Settings, "")
	out.Rule = string(r.Rule)
	for _, b := range r.Bounds {
		out.Limits = append(out.Limits, limit{b.Symbol, b.Side.String(), number(b.Value)})
	}
	for key, o := range r.Items[0].Settings.Origins {
		out.Origins[key] = origin{Text: o.Text, Source: o.Ref.String(), Basis: string(o.Basis), Unconfirmed: o.Unconfirmed}
	}
	return out
}

func refusalOf(err error) *refusal {
	var t *standards.TextError
	if errors.As(err, &t) {
		return &refusal{t.Line, t.Column, t.Reason}
	}
	return &refusal{1, 1, err.Error()}
}
