package main

import (
	"context"
	"encoding/json"
	"errors"
	"time"

	"example.com/furrow/roughness"
	"example.com/furrow/roughness/compare"
	"example.com/furrow/roughness/record"
	"example.com/furrow/standards"
	"example.com/furrow/standards/callout"
)

type compareRequest struct {
	Question string          `json:"question"` // one of those of comparisons
	Settings json.RawMessage `json:"settings"` // or a result or a record that holds them; absent: those of the latest evaluation
	Against  json.RawMessage `json:"against"`
	Symbol   string          `json:"symbol"`
	Names    *[2]string      `json:"names"` // of the two sides, for the picture

	Printed string  `json:"printed"` // "Rz 3.10; Ra 0.51"
	Most    int     `json:"most"`    // fits to answer with; 0: all
	Millis  float64 `json:"millis"`  // how long a step may take

	Text     string              `json:"text"` // of a requirement
	A        standards.EditionID `json:"a"`
	B        standards.EditionID `json:"b"`
	Periodic bool                `json:"periodic"` // the marks of the surface repeat
}

// comparisons answer the questions about the trace of the latest evaluation.
var comparisons = map[string]func(m *module, req *compareRequest) (any, error){
	"shares":     (*module).shares,
	"find":       (*module).find,
	"step":       (*module).step,
	"stop":       (*module).stop,
	"editions":   (*module).editions,
	"steadiness": (*module).steadiness,
}

// compare answers why two values of the latest trace differ, with the documents of the command. A search is a call of find, which starts it
// and answers with its progress, and calls of step, each of which goes on for a while and answers with the progress, the last one with the
// document; stop drops it.
func (m *module) compare(req *compareRequest, _ []byte) (any, error) {
	ask, ok := comparisons[req.Question]
	if !ok {
		return nil, requestf("no question is called %q", req.Question)
	}
	if _, err := m.evaluation(); err != nil {
		return nil, err
	}
	return ask(m, req)
}

// settingsOr reads settings, for a symbol those of its limit, or takes those of the latest evaluation.
func (m *module) settingsOr(text json.RawMessage, symbol string) (*roughness.Settings, error) {
	if len(text) == 0 || string(text) == "null" {
		s := m.latest.Settings
		return &s, nil
	}
	return record.SettingsFor(text, symbol)
}

// wrongSetting tells a setting that cannot be followed from a question that the trace does not answer.
func wrongSetting(err error) bool {
	_, ok := errors.AsType[*roughness.SettingError](err)
	return ok
}

func (m *module) shares(req *compareRequest) (any, error) {
	a, err := m.settingsOr(req.Settings, req.Symbol)
	if err != nil {
		return nil, err
	}
	b, err := m.settingsOr(req.Against, req.Symbol)
	if err != nil {
		return nil, err
	}
	l, err := compare.Explain(context.Background(), m.trace, a, b, req.Symbol)
	if wrongSetting(err) {
		return nil, err
	}
	m.ledger, m.sides = l, [2]string{"left", "right"}
	if req.Names != nil {
		m.sides = *req.Names
	}
	return record.AppendShares(nil, req.Symbol, l, err), nil
}

// progress is what a search answers until it is finished.
type progress struct {
	Done int `json:"done"` // combinations
	All  int `json:"all"`
}

// searching is a search that goes on from call to call.
type searching struct {
	*compare.Search
	at   int // task
	most int
}

func (s *searching) progress() map[string]progress {
	return map[string]progress{"progress": {s.at * s.Size() / max(1, s.Tasks()), s.Size()}}
}

func (m *module) find(req *compareRequest) (any, error) {
	printed, err := compare.ParsePrinted(req.Printed)
	if wrong, ok := errors.AsType[*compare.PrintedError](err); ok {
		return nil, &fault{Kind: kindSettings, Key: "printed", Message: wrong.Reason, Line: 1, Column: wrong.Column}
	}
	usual, err := m.settingsOr(req.Settings, req.Symbol)
	if err != nil {
		return nil, err
	}
	s, err := compare.NewSearch(m.trace, printed, usual)
	if err != nil {
		return nil, err
	}
	m.search = &searching{Search: s, most: req.Most}
	return m.search.progress(), nil
}

func (m *module) step(req *compareRequest) (any, error) {
	s := m.search
	if s == nil {
		return nil, requestf("no search is going on")
	}
	for start := time.Now(); s.at < s.Tasks(); s.at++ {
		if float64(time.Since(start).Microseconds()) > 1000*req.Millis {
			return s.progress(), nil
		}
		if err := s.Do(context.Background(), s.at); err != nil {
			return nil, err
		}
	}
	m.search = nil
	return record.AppendFinding(nil, s.Finding(), s.most), nil
}

func (m *module) stop(*compareRequest) (any, error) {
	m.search = nil
	return "{}", nil
}

func (m *module) editions(req *compareRequest) (any, error) {
	options := &compare.EditionOptions{Periodic: req.Periodic}
	if len(req.Settings) > 0 && string(req.Settings) != "null" {
		over, err := record.ParseSettings(req.Settings)
		if err != nil {
			return nil, err
		}
		options.Over = over
	}
	e, err := compare.ByEdition(m.trace, req.Text, req.A, req.B, options)
	if wrong, ok := errors.AsType[*callout.TextError](err); ok {
		return nil, &fault{Kind: kindSettings, Key: "text", Message: wrong.Reason, Line: wrong.Line, Column: wrong.Column}
	}
	if err != nil {
		return nil, err
	}
	m.ledger = nil
	if len(e.Limits) > 0 {
		// Without values on both sides, or with too many changes, there is no picture.
		if a, b := e.Limits[0].A.Evaluation, e.Limits[0].B.Evaluation; a != nil && b != nil {
			if l, err := compare.Explain(context.Background(), m.trace, &a.Settings, &b.Settings, e.Limits[0].A.Value.Symbol); err == nil {
				m.ledger, m.sides = l, [2]string{string(req.A), string(req.B)}
				if req.Names != nil {
					m.sides = *req.Names
				}
			}
		}
	}
	return record.AppendEditions(nil, e), nil
}

func (m *module) steadiness(req *compareRequest) (any, error) {
	s, err := m.settingsOr(req.Settings, req.Symbol)
	if err != nil {
		return nil, err
	}
	if req.Symbol != "" {
		s.Parameters = []string{req.Symbol}
	}
	list, err := compare.Steady(context.Background(), m.trace, s)
	if wrongSetting(err) {
		return nil, err
	}
	m.steadyValues = list
	return record.AppendSteadiness(nil, list, err), nil
}
