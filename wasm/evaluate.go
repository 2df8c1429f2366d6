package main

import (
	"context"
	"encoding/json"
	"errors"
	"math"
	"runtime"
	"slices"

	"example.com/furrow/params"
	"example.com/furrow/roughness"
	"example.com/furrow/roughness/inspect"
	"example.com/furrow/roughness/judge"
	"example.com/furrow/roughness/record"
	"example.com/furrow/roughness/tracefile"
)

func (m *module) version(*none, []byte) (any, error) {
	return struct {
		Furrow   string `json:"furrow"`
		Go       string `json:"go"`
		MaxBytes int64  `json:"maxBytes"`
	}{record.Version, runtime.Version(), tracefile.MaxSize()}, nil
}

type evaluateRequest struct {
	Spacing  float64         `json:"spacing"`
	Name     string          `json:"name"`
	Settings json.RawMessage `json:"settings"`

	Requirement requirementRequest `json:"requirement"` // that the settings follow from, for the origins of the result
}

type evaluateAnswer struct {
	Result        json.RawMessage `json:"result"`
	First         int             `json:"first"` // point of the trace that the profiles start with
	Start         int             `json:"start"` // point of the profiles that the first section starts with
	SectionPoints int             `json:"sectionPoints"`
	Sections      int             `json:"sections"`
	Summary       summary         `json:"summary"`
	Findings      []finding       `json:"findings"`          // what to look at before the values are believed
	Problem       string          `json:"problem,omitempty"` // why nothing could be evaluated
}

// A finding is an observation about the trace, in the words of the library.
type finding struct {
	Code   string `json:"code"`
	Text   string `json:"text"`
	Advice string `json:"advice"`
}

// inspected looks at the trace under the settings it was evaluated with; what the settings do not change it looks at once. How many sections
// fit the evaluation itself says.
func (m *module) inspected(trace roughness.Profile, e *roughness.Evaluation) []finding {
	same := func(a, b float64) bool { return math.Float64bits(a) == math.Float64bits(b) }
	shared := m.shared()
	if shared.looker == nil || trace.Spacing != shared.looked.Spacing || !slices.EqualFunc(trace.Z, shared.looked.Z, same) {
		shared.looked, shared.looker = trace, inspect.Begin(trace)
	}
	seen := shared.looker.Look(inspect.Under(e))
	list := make([]finding, len(seen))
	for i, f := range seen {
		list[i] = finding{f.Code, f.Text, f.Advice}
	}
	return list
}

// evaluate answers with the result as record writes it.
func (m *module) evaluate(req *evaluateRequest, data []byte) (any, error) {
	z, err := heights(data)
	if err != nil {
		return nil, err
	}
	set := &roughness.Settings{}
	if len(req.Settings) > 0 {
		if set, err = record.ParseSettings(req.Settings); err != nil {
			return nil, err
		}
	}
	if req.Requirement.Text != "" {
		if r, err := judge.ReadRequirement(req.Requirement.Text, req.Requirement.Edition); err == nil {
			r.Credit(set)
		}
	}
	trace := roughness.Profile{Z: z, Spacing: req.Spacing, Name: req.Name}
	shared := m.shared()
	with, err := shared.evaluator.With(set)
	if err != nil {
		return nil, err
	}
	shared.evaluator = with
	e, err := with.Evaluate(context.Background(), trace)
	var problem *roughness.ProfileError
	if err != nil && !(errors.As(err, &problem) && e != nil) {
		return nil, err
	}
	out := evaluateAnswer{
		Result: record.AppendResult(nil, e, nil), First: e.First, Start: e.Start, SectionPoints: e.SectionPoints, Sections: e.Sections,
		Findings: m.inspected(trace, e),
	}
	m.judgedOn, m.judged = trace, e
	if problem != nil {
		out.Problem, m.problem = problem.Text, problem.Text
	} else {
		m.trace, m.latest = trace, e
		out.Summary = summarize(e)
	}
	return out, nil
}

// steps are the profiles of an evaluation in the order in which they are made.
var steps = []struct {
	name string
	of   func(*roughness.Evaluation) []float64
}{
	{"read", func(e *roughness.Evaluation) []float64 { return e.Read }},
	{"smoothed", func(e *roughness.Evaluation) []float64 { return e.Smoothed }},
	{"form", func(e *roughness.Evaluation) []float64 { return e.Form }},
	{"P", func(e *roughness.Evaluation) []float64 { return e.Primary }},
	{"W", func(e *roughness.Evaluation) []float64 { return e.Waviness }},
	{"R", func(e *roughness.Evaluation) []float64 { return e.Roughness }},
	{"stratified", func(e *roughness.Evaluation) []float64 { return e.Stratified }},
}

type profilesRequest struct {
	Names []string `json:"names"` // empty: all
}

// profiles answers with the profiles of the latest evaluation that are asked for, and nothing for those that its settings do not produce.
func (m *module) profiles(req *profilesRequest, _ []byte) (any, error) {
	if m.judged == nil {
		return nil, errNothing
	}
	var out answer
	for _, s := range steps {
		if len(req.Names) == 0 || slices.Contains(req.Names, s.name) {
			out.arrays = append(out.arrays, array{s.name, s.of(m.judged)})
		}
	}
	if n := len(req.Names); n > 0 && len(out.arrays) < n {
		for _, name := range req.Names {
			if !slices.ContainsFunc(out.arrays, func(a array) bool { return a.name == name }) {
				return nil, requestf("no profile is called %q", name)
			}
		}
	}
	return out, nil
}

type constructRequest struct {
	Symbol string `json:"symbol"`
}

type constructAnswer struct {
	Symbol string     `json:"symbol"`
	Unit   string     `json:"unit"`
	Plane  string     `json:"plane"`
	Result number     `json:"result"`
	Steps  []step     `json:"steps"`
	Worked []workLine `json:"worked"`
}

type step struct {
	Plane   string `json:"plane"` // where its marks lie
	Text    string `json:"text"`
	Section int    `json:"section"`
	Value   number `json:"value"`
	Marks   []mark `json:"marks"`
}

type mark struct {
	Kind   string      `json:"kind"`
	Label  string      `json:"label"`
	Points [][2]number `json:"points"`
}

type workLine struct {
	Symbol  string        `json:"symbol"`
	Form    string        `json:"form"`
	Terms   []number      `json:"terms"`
	Result  number        `json:"result"`
	Unit    string        `json:"unit"`
	Printed []printedLine `json:"printed"` // with one to four significant digits
}

// A printedLine is a worked line as people read it.
type printedLine struct {
	Parts  []string `json:"parts"`
	Sign   string   `json:"sign"`
	Result string   `json:"result"`
}

// construct answers with the construction of one value of the latest evaluation.
func (m *module) construct(req *constructRequest, _ []byte) (any, error) {
	e, err := m.evaluation()
	if err != nil {
		return nil, err
	}
	c, _, err := constructionFor(e, req.Symbol)
	if err != nil {
		return nil, err
	}
	return constructionOf(c), nil
}

func constructionFor(e *roughness.Evaluation, symbol string) (params.Construction, params.Call, error) {
	call, err := params.Lookup(e.Settings.Edition, byte(e.Settings.Profile), symbol)
	if err != nil {
		return params.Construction{}, call, &fault{Kind: kindSettings, Message: err.Error(), Key: "parameters"}
	}
	c, err := params.Construct(e.Input(call.Parameter.On), call)
	if err != nil {
		return c, call, requestf("%v", err)
	}
	return c, call, nil
}

var errNothing = requestf("nothing has been evaluated yet")

func (m *module) evaluation() (*roughness.Evaluation, error) {
	if m.latest == nil {
		if m.problem != "" {
			return nil, requestf("nothing could be evaluated: %s", m.problem)
		}
		return nil, errNothing
	}
	return m.latest, nil
}

func constructionOf(c params.Construction) constructAnswer {
	a := constructAnswer{Symbol: c.Symbol, Unit: string(c.Unit), Plane: string(c.Plane), Result: number(c.Result),
		Steps: make([]step, len(c.Steps)), Worked: make([]workLine, len(c.Worked))}
	for i, s := range c.Steps {
		plane := c.Plane
		if s.Plane != "" {
			plane = s.Plane
		}
		a.Steps[i] = step{string(plane), s.Text, s.Section, number(s.Value), make([]mark, len(s.Marks))}
		for k, m := range s.Marks {
			points := make([][2]number, len(m.Points))
			for j, p := range m.Points {
				points[j] = [2]number{number(p.X), number(p.Y)}
			}
			a.Steps[i].Marks[k] = mark{string(m.Kind), m.Label, points}
		}
	}
	for i, w := range c.Worked {
		terms := make([]number, len(w.Terms))
		for k, t := range w.Terms {
			terms[k] = number(t)
		}
		a.Worked[i] = workLine{w.Symbol, w.Form, terms, number(w.Result), string(w.Unit), nil}
		for digits := 1; digits <= 4; digits++ {
			l := w.Work(digits)
			a.Worked[i].Printed = append(a.Worked[i].Printed, printedLine{l.Parts, l.Sign, l.Result})
		}
	}
	return a
}

// A summary is what the sheet says about the profiles besides the values, all in micrometres.
type summary struct {
	Read      span   `json:"read"`
	Form      span   `json:"form"`
	Rise      number `json:"rise"` // of the fitted form, from its first to its last point
	Bow       number `json:"bow"`  // form left in P: height of its least-squares parabola from middle to end
	Primary   span   `json:"primary"`
	Waviness  span   `json:"waviness"`
	Roughness span   `json:"roughness"`
	Evaluated span   `json:"evaluated"` // of the profile evaluated, inside the sections
}

// A span is the lowest and the highest point of a profile and their places from the start of the trace.
type span struct {
	Low   number `json:"low"`
	LowX  number `json:"lowX"`
	High  number `json:"high"`
	HighX number `json:"highX"`
}

func summarize(e *roughness.Evaluation) summary {
	whole := func(z []float64) span { return spanOf(z, e.First, e.Spacing) }
	s := summary{
		Read: whole(e.Read), Form: whole(e.Form), Rise: number(math.NaN()), Bow: number(bow(e.Primary)),
		Primary: whole(e.Primary), Waviness: whole(e.Waviness), Roughness: whole(e.Roughness),
		Evaluated: spanOf(e.Evaluated(), e.First+e.Start, e.Spacing),
	}
	if n := len(e.Form); n > 0 {
		s.Rise = number(e.Form[n-1] - e.Form[0])
	}
	return s
}

func spanOf(z []float64, first int, dx float64) span {
	if len(z) == 0 {
		nan := number(math.NaN())
		return span{nan, nan, nan, nan}
	}
	low, high := 0, 0
	for i, v := range z {
		if v < z[low] {
			low = i
		}
		if v > z[high] {
			high = i
		}
	}
	at := func(i int) number { return number(float64(first+i) * dx) }
	return span{number(z[low]), at(low), number(z[high]), at(high)}
}

// bow is the height between middle and ends of the least-squares parabola through z: on an even grid the square less
// its mean is orthogonal to line and mean, so its coefficient is one quotient.
func bow(z []float64) float64 {
	n := len(z)
	if n < 3 {
		return math.NaN()
	}
	h := float64(n-1) / 2
	mean := 0.0
	for i := range z {
		t := (float64(i) - h) / h
		mean += float64(t * t)
	}
	mean /= float64(n)
	top, bottom := 0.0, 0.0
	for i, v := range z {
		t := (float64(i) - h) / h
		q := float64(t*t) - mean
		top += float64(q * v)
		bottom += float64(q * q)
	}
	return math.Abs(top / bottom)
}
