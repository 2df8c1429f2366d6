package main

import (
	"context"

	"example.com/furrow/roughness"
	"example.com/furrow/roughness/compare"
	"example.com/furrow/roughness/study"
)

type steadyRequest struct {
	Symbol string `json:"symbol"`
}

type steadyAnswer struct {
	Low    number       `json:"low"`
	High   number       `json:"high"`
	Places int          `json:"places"` // different places of the sections
	Digits *int         `json:"digits"` // significant digits that are sure; null where nothing can be said
	Trials []steadyTest `json:"trials"`
}

type steadyTest struct {
	Text   string `json:"text"`
	Value  number `json:"value"`
	Counts bool   `json:"counts"` // enters the digits
}

// steady answers how far one value of the latest evaluation moves when conditions move that the requirement does not
// fix. It evaluates the trace some thirty times.
func (m *module) steady(req *steadyRequest, _ []byte) (any, error) {
	e, err := m.evaluation()
	if err != nil {
		return nil, err
	}
	out, err := steadiness(m.trace, e.Settings, req.Symbol)
	if err != nil {
		return nil, err
	}
	return out, nil
}

// studySteady answers how steady the value of an exercise is.
var studySteady = studyOf(func(d *study.Desk, req *struct {
	State study.State `json:"state"`
}) (*steadyAnswer, error) {
	r, err := d.Evaluate(req.State)
	if err != nil {
		return nil, err
	}
	if r.Evaluation == nil {
		return nil, requestf("nothing could be evaluated: %s", r.Value.Reason)
	}
	return steadiness(r.Surface, r.Evaluation.Settings, r.Call.Symbol)
})

func steadiness(trace roughness.Profile, set roughness.Settings, symbol string) (*steadyAnswer, error) {
	set.Parameters = []string{symbol}
	all, err := compare.Steady(context.Background(), trace, &set)
	if err != nil {
		return nil, err
	}
	s := all[0]
	out := &steadyAnswer{Low: number(s.Low), High: number(s.High), Places: s.Places, Trials: make([]steadyTest, len(s.Trials))}
	if s.Stated {
		out.Digits = &s.Digits
	}
	for i, t := range s.Trials {
		out.Trials[i] = steadyTest{t.Text, number(t.Value), t.Counts}
	}
	return out, nil
}
