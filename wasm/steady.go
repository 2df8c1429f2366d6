package main

import (
	"context"

	"example.com/furrow/roughness"
)

type steadyRequest struct {
	Symbol string `json:"symbol"`
}

type steadyAnswer struct {
	Low    number       `json:"low"`
	High   number       `json:"high"`
	Digits int          `json:"digits"` // significant digits that stay as the sections slide along the trace
	Trials []steadyTest `json:"trials"`
}

type steadyTest struct {
	Text  string `json:"text"`
	Value number `json:"value"`
}

// steady answers how far one value of the latest evaluation moves when conditions move that the requirement does not
// fix. It evaluates the trace some thirty times.
func (m *module) steady(text string, _ []byte) (answer, error) {
	var req steadyRequest
	if err := decode(text, &req); err != nil {
		return answer{}, err
	}
	e, err := m.evaluation()
	if err != nil {
		return answer{}, err
	}
	set := e.Settings
	set.Parameters = []string{req.Symbol}
	all, err := roughness.Steady(context.Background(), m.trace, &set)
	if err != nil {
		return answer{}, err
	}
	s := all[0]
	out := steadyAnswer{Low: number(s.Low), High: number(s.High), Digits: s.Digits, Trials: make([]steadyTest, len(s.Trials))}
	for i, t := range s.Trials {
		out.Trials[i] = steadyTest{t.Text, number(t.Value)}
	}
	return answer{text: jsonText(out)}, nil
}
