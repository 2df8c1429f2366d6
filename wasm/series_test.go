package main

import (
	"encoding/json"
	"fmt"
	"math"
	"testing"

	"example.com/furrow/roughness"
	"example.com/furrow/roughness/synth"
)

// seriesOf returns a module that has evaluated the first of so many traces with settings and measured all of them.
func seriesOf(t *testing.T, settings string, n int) (*module, []string) {
	t.Helper()
	m := &module{}
	var ids []string
	for i := range n {
		z := synth.Demos()[0].Heights()
		for k := range z {
			z[k] *= 1 + 0.02*float64(i)
		}
		if i == 0 {
			mustAsk[evaluateAnswer](t, m, "evaluate", jsonText(evaluateRequest{Spacing: 0.5, Settings: json.RawMessage(settings)}), floats(z))
		}
		id := fmt.Sprintf("place-%d", i+1)
		ids = append(ids, id)
		mustAsk[any](t, m, "hold", jsonText(holdRequest{ID: id, Name: id, Spacing: 0.5}), floats(z))
		mustAsk[measureAnswer](t, m, "measure", jsonText(measureRequest{ID: id, Settings: json.RawMessage(settings)}), nil)
	}
	return m, ids
}

// All held traces count for the verdict, in whichever order, and typed values with them.
func TestJudgeSeries(t *testing.T) {
	m, ids := seriesOf(t, `{"parameters": ["Rz"]}`, 5) // Rz 2.92, 2.98, 3.04, 3.10, 3.15
	for _, c := range []struct {
		req  judgeRequest
		word string
	}{
		{judgeRequest{Text: "Rz 3,2", Traces: ids}, "Conforms"},
		{judgeRequest{Text: "Rz 3,1", Traces: ids}, "Does not conform"},
		{judgeRequest{Text: "Rz 3,15 T16%", Traces: ids}, "No verdict yet"},
		{judgeRequest{Text: "Rz 3,15 T16%", Traces: ids, Typed: "Rz 2.95"}, "Conforms"},
		{judgeRequest{Text: "Rz 3,15 T16%", Traces: []string{ids[4], ids[2], ids[0], ids[3], ids[1]}, Typed: "Rz 2.95"}, "Conforms"},
		{judgeRequest{Text: "Rz 3,05 Tmed", Traces: ids[:3]}, "Conforms"},
		{judgeRequest{Text: "Rz 3,05 Tmed", Traces: ids[:2]}, "No verdict yet"},
		{judgeRequest{Text: "Rz 3,05 Tmed", Traces: []string{}, Typed: "Rz 2.9; 3.0; 3.1"}, "Conforms"},
	} {
		if v := m.verdictOf(t, c.req); v.Word != c.word {
			t.Errorf("%+v: %+v", c.req, v)
		}
	}
	if _, err := ask(t, m, "judge", jsonText(judgeRequest{Text: "Rz 3,2", Traces: []string{"elsewhere"}}), nil); err == nil {
		t.Error("a trace that nobody holds counts")
	}
	// Without an evaluation beside them, or with one of its own, they count as well.
	alone := &module{series: m.series}
	if v := alone.verdictOf(t, judgeRequest{Text: "Rz 3,15 T16%", Traces: ids, Typed: "Rz 2.95"}); v.Word != "Conforms" {
		t.Errorf("without an evaluation: %+v", v)
	}
	if _, err := ask(t, alone, "judge", jsonText(judgeRequest{Text: "Rz 3,2", Traces: []string{"elsewhere"}}), nil); err == nil {
		t.Error("a trace that nobody holds counts without an evaluation")
	}
	result(t, m, 1, `{"parameters": ["Rz"]}`, floats(synth.Demos()[1].Heights()))
	a, err := through(m, 1, "judge", jsonText(judgeRequest{Text: "Rz 3,1", Traces: ids}), nil)
	if err != nil {
		t.Fatal(err)
	}
	var v verdictText
	if err := json.Unmarshal([]byte(a.text), &v); err != nil || v.Word != "Does not conform" {
		t.Errorf("beside another evaluation: %s, %v", a.text, err)
	}
	mustAsk[any](t, m, "hold", jsonText(holdRequest{Only: ids[:1]}), nil)
	if len(m.series) != 1 {
		t.Errorf("%d traces stay", len(m.series))
	}
}

// A part left out of one trace is left out of that trace alone.
func TestJudgeLeftOut(t *testing.T) {
	m, ids := seriesOf(t, `{"parameters": ["Rz"]}`, 2)
	before := m.verdictOf(t, judgeRequest{Text: "Rz 3,2", Traces: ids})
	left := `{"parameters": ["Rz"], "exclude": [{"from": 3960, "to": 3990, "reason": "scratch"}]}`
	a, _ := mustAsk[measureAnswer](t, m, "measure", jsonText(measureRequest{ID: ids[1], Settings: json.RawMessage(left)}), nil)
	set := roughness.Settings{Parameters: []string{"Rz"}, Exclude: []roughness.Exclusion{{From: 3960, To: 3990, Reason: "scratch"}}}
	want, err := roughness.Evaluate(m.series[ids[1]].trace, &set)
	if err != nil {
		t.Fatal(err)
	}
	if v, _ := want.Value("Rz"); float64(a.Values[0].Value) != v.Value {
		t.Errorf("Rz %v, by the library %v", a.Values[0].Value, v.Value)
	}
	after := m.verdictOf(t, judgeRequest{Text: "Rz 3,2", Traces: ids})
	if before.Word != "Conforms" || after.Word != "Conforms" {
		t.Errorf("%+v, then %+v", before, after)
	}
	for k, id := range ids {
		if n := len(m.series[id].evaluation.Settings.Exclude); n != k {
			t.Errorf("%s has %d parts left out", id, n)
		}
	}
}

// The values of the example in the design: one of six lies apart, and nothing is left out by itself.
func TestSummary(t *testing.T) {
	s, _ := mustAsk[summaryAnswer](t, &module{}, "summary", `{"values": [2.92, 4.22, 2.96, 2.84, 2.76, 2.95]}`, nil)
	near := func(got number, want, by float64) bool { return math.Abs(float64(got)-want) <= by }
	if s.N != 6 || !near(s.Mean, 3.11, 0.005) || !near(s.S, 0.55, 0.005) || !near(s.Median, 2.935, 1e-9) || !near(s.Min, 2.76, 0) || !near(s.Max, 4.22, 0) {
		t.Errorf("%+v", s)
	}
	if len(s.Outliers) != 1 || s.Outliers[0].Index != 1 || !near(s.Outliers[0].G, 2.02, 0.005) || !near(s.Outliers[0].Critical, 1.89, 0.005) {
		t.Errorf("%+v", s.Outliers)
	}
	if one, _ := mustAsk[summaryAnswer](t, &module{}, "summary", `{"values": [2.92]}`, nil); !math.IsNaN(float64(one.S)) && one.S != 0 || len(one.Outliers) > 0 {
		t.Errorf("%+v", one)
	}
}
