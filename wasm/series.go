package main

import (
	"encoding/json"
	"errors"
	"math"
	"slices"

	"example.com/furrow/roughness"
	"example.com/furrow/roughness/figure"
	"example.com/furrow/roughness/judge"
	"example.com/furrow/roughness/record"
	"example.com/furrow/standards/decide"
)

// A held trace is one of a series: other places of the same surface. Its evaluation is kept with the request that it answers.
type held struct {
	trace      roughness.Profile
	asked      string // settings
	answer     measureAnswer
	evaluation *roughness.Evaluation
}

type holdRequest struct {
	ID      string   `json:"id"`
	Name    string   `json:"name"`
	Spacing float64  `json:"spacing"`
	Only    []string `json:"only"` // of the traces held before, those that stay; null: all
}

// hold keeps a trace for measure and judge.
func (m *module) hold(req *holdRequest, data []byte) (any, error) {
	if m.series == nil {
		m.series = map[string]*held{}
	}
	for id := range m.series {
		if req.Only != nil && !slices.Contains(req.Only, id) {
			delete(m.series, id)
		}
	}
	if req.ID != "" {
		z, err := heights(data)
		if err != nil {
			return nil, err
		}
		m.series[req.ID] = &held{trace: roughness.Profile{Z: z, Spacing: req.Spacing, Name: req.Name}}
	}
	return "null", nil
}

type measureRequest struct {
	ID       string          `json:"id"`
	Settings json.RawMessage `json:"settings"` // with what is left out of this trace
}

type measureAnswer struct {
	Values   []measured `json:"values"`
	Sections int        `json:"sections"` // that the trace holds
	Asked    int        `json:"asked"`
	Missing  number     `json:"missing"` // length that the trace lacks for the sections asked for
	Low      number     `json:"low"`     // of the profile evaluated
	High     number     `json:"high"`
	Problem  string     `json:"problem,omitempty"`
}

type measured struct {
	Symbol string `json:"symbol"`
	Value  number `json:"value"`
	Unit   string `json:"unit"`
	Reason string `json:"reason"`
}

// measure evaluates one held trace and answers with its values. The same request is answered from what is there.
func (m *module) measure(req *measureRequest, _ []byte) (any, error) {
	h, ok := m.series[req.ID]
	if !ok {
		return nil, requestf("no trace %q is held", req.ID)
	}
	if asked := string(req.Settings); h.asked != asked || h.evaluation == nil {
		if err := h.measure(asked); err != nil {
			return nil, err
		}
	}
	return h.answer, nil
}

// measure evaluates the trace with a settings file.
func (h *held) measure(asked string) error {
	set, err := record.ParseSettings([]byte(asked))
	if err != nil {
		return err
	}
	e, err := roughness.Evaluate(h.trace, set)
	var problem *roughness.ProfileError
	if err != nil && !(errors.As(err, &problem) && e != nil) {
		return err
	}
	out := measureAnswer{Values: []measured{}, Sections: e.Sections, Asked: e.Settings.Sections, Missing: number(math.NaN()), Low: number(math.NaN()), High: number(math.NaN())}
	for _, v := range e.Values {
		out.Values = append(out.Values, measured{v.Symbol, number(v.Value), string(v.Unit), v.Reason})
	}
	if problem != nil {
		out.Problem = problem.Text
	} else {
		z := spanOf(e.Evaluated(), 0, e.Spacing)
		out.Low, out.High = z.Low, z.High
	}
	if room, err := roughness.RoomFor(h.trace, &e.Settings); err == nil && room.Missing > 0 {
		out.Missing = number(room.Missing)
	}
	h.asked, h.answer, h.evaluation = asked, out, e
	return nil
}

type summaryRequest struct {
	Values []float64 `json:"values"`
}

type summaryAnswer struct {
	N        int       `json:"n"`
	Mean     number    `json:"mean"`
	S        number    `json:"s"`
	Min      number    `json:"min"`
	Max      number    `json:"max"`
	Median   number    `json:"median"`
	Outliers []outlier `json:"outliers"` // proposed, never left out
}

type outlier struct {
	Index    int    `json:"index"`
	G        number `json:"g"`
	Critical number `json:"critical"`
}

// summary describes the values of a series.
func (m *module) summary(req *summaryRequest, _ []byte) (any, error) {
	s := decide.Summarise(req.Values)
	out := summaryAnswer{s.N, number(s.Mean), number(s.S), number(s.Min), number(s.Max), number(s.Median), []outlier{}}
	for _, o := range s.Outliers {
		out.Outliers = append(out.Outliers, outlier{o.Index, number(o.G), number(o.Critical)})
	}
	return out, nil
}

// counted puts the held traces of a series into a judgement, evaluated as the latest trace was, where there is one, each with what is left out
// of it.
func (m *module) counted(j *judge.Judging, ids []string) error {
	if len(ids) == 0 {
		return nil
	}
	var common roughness.Settings
	if h := m.series[ids[0]]; h != nil && h.evaluation != nil {
		common = h.evaluation.Settings // the trace that was evaluated last may be none of those that count
	}
	if m.judged != nil {
		common.Parameters = m.judged.Settings.Parameters
	}
	common.Exclude = nil
	j.Settings = &common
	for _, id := range ids {
		h, ok := m.series[id]
		if !ok || h.evaluation == nil {
			return requestf("trace %q has not been measured", id)
		}
		j.Traces = append(j.Traces, h.trace)
		j.Done = append(j.Done, h.evaluation)
	}
	return nil
}

func drawSpark(e *roughness.Evaluation, _ figureOptions) (figure.Drawing, error) {
	return figure.Spark{Z: fromStart(e, e.Profile()), Spacing: e.Spacing}, nil
}

func drawStrip(e *roughness.Evaluation, o figureOptions) (figure.Drawing, error) {
	return record.Strip(e, o.Symbol), nil
}
