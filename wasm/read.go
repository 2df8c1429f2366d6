package main

import (
	"cmp"
	"encoding/json"
	"errors"
	"strings"

	"example.com/furrow/roughness/compare"
	"example.com/furrow/roughness/tracefile"
)

type readRequest struct {
	Hints json.RawMessage `json:"hints"`
}

type readAnswer struct {
	Spacing float64 `json:"spacing"`
	Name    string  `json:"name"`
	Report  report  `json:"report"`
	Notes   []note  `json:"notes"`
	Results []found `json:"results"` // that the file states
}

// found is a result that a file states.
type found struct {
	Symbol  string `json:"symbol"`
	Text    string `json:"text"` // as to be typed: "0.420", or "16.5 µin"
	Profile string `json:"profile"`
	Value   number `json:"value"`
	Unit    string `json:"unit"`
}

// A report is tracefile.Report in the names of a script.
type report struct {
	Format    string  `json:"format"`
	Encoding  string  `json:"encoding"`
	Delimiter string  `json:"delimiter"`
	Decimal   string  `json:"decimal"`
	XColumn   int     `json:"xColumn"`
	ZColumn   int     `json:"zColumn"`
	XUnit     string  `json:"xUnit"`
	ZUnit     string  `json:"zUnit"`
	XUnitBy   string  `json:"xUnitBy"`
	ZUnitBy   string  `json:"zUnitBy"`
	SpacingBy string  `json:"spacingBy"`
	Points    int     `json:"points"`
	Invalid   int     `json:"invalid"`
	FirstLine int     `json:"firstLine"`
	LastLine  int     `json:"lastLine"`
	Turned    bool    `json:"turned"`
	Lines     []taken `json:"lines"`
	Origin    number  `json:"origin"` // x of the first point as the file counts it
}

type taken struct {
	Line  int    `json:"line"`
	Text  string `json:"text"`
	Taken string `json:"taken"`
}

type note struct {
	Code string `json:"code"`
	Text string `json:"text"`
}

// read answers with the heights of a trace file and what it was taken for.
func (m *module) read(req *readRequest, data []byte) (any, error) {
	var hints *tracefile.Hints
	if len(req.Hints) > 0 {
		var err error
		if hints, err = tracefile.ParseHints(req.Hints); err != nil {
			return nil, traceFault(err)
		}
	}
	t, err := tracefile.Read(data, hints)
	if err != nil {
		return nil, traceFault(err)
	}
	out := readAnswer{Spacing: t.Profile.Spacing, Name: t.Profile.Name, Report: reportOf(t), Notes: []note{}, Results: []found{}}
	for _, p := range compare.Stated(t.Said(), t.Report.Mark()) {
		out.Results = append(out.Results, found{p.Symbol, strings.TrimPrefix(p.Typed(), p.Symbol+" "), string(rune(p.Letter())), number(p.Value), p.Unit})
	}
	for _, n := range t.Notes {
		out.Notes = append(out.Notes, note{n.Code, n.Text})
	}
	return answer{of: out, arrays: []array{{"z", t.Profile.Z}}}, nil
}

func reportOf(t *tracefile.Trace) report {
	r := t.Report
	lines := make([]taken, len(r.Lines))
	for i, l := range r.Lines {
		lines[i] = taken{l.Number, l.Text, l.Taken}
	}
	return report{
		Format: r.Format, Encoding: r.Encoding, Delimiter: r.Delimiter, Decimal: r.Decimal,
		XColumn: r.XColumn, ZColumn: r.ZColumn, XUnit: r.XUnit, ZUnit: r.ZUnit, XUnitBy: r.XUnitBy, ZUnitBy: r.ZUnitBy,
		SpacingBy: r.SpacingBy, Points: r.Points, Invalid: r.Invalid, FirstLine: r.FirstLine, LastLine: r.LastRow,
		Turned: r.Turned, Lines: lines, Origin: number(t.Origin),
	}
}

// traceFault gives the place of what cannot be read, or what the file leaves open.
func traceFault(err error) *fault {
	f := &fault{Kind: kindTrace, Message: err.Error()}
	if e, ok := errors.AsType[*tracefile.Error](err); ok {
		f.Message, f.Line, f.Column = e.Err.Error(), e.Line, e.Column
	}
	if errors.Is(err, tracefile.ErrForeign) || errors.Is(err, tracefile.ErrSize) {
		f.Kind = kindFile
	}
	if open := tracefile.IsQuestion(err); open != nil {
		f.Kind = kindQuestion
		for _, q := range open {
			asked := question{Hint: q.Hint, Text: q.Text, Answers: []fileAnswer{}}
			for _, a := range q.Answers {
				asked.Answers = append(asked.Answers, fileAnswer{
					Hint: cmp.Or(a.Hint, q.Hint), Value: json.RawMessage(cmp.Or(a.Value, "null")), Unit: a.Unit, Text: a.Text,
				})
			}
			f.Questions = append(f.Questions, asked)
		}
	}
	return f
}
