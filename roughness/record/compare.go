package record

import (
	"bytes"
	"encoding/json"

	"example.com/furrow/roughness/compare"
	"example.com/furrow/standards"
)

// shape starts a JSON document of a shape and its version.
func shape(b []byte, name string) writer {
	w := writer{b: b}
	w.open()
	w.number(name, 1)
	return w
}

// end closes a document with the caution.
func (w *writer) end() []byte {
	w.text("caution", standards.Caution)
	return append(w.close(), '\n')
}

func quoted(list []string) string {
	return inline(len(list), func(i int) string { return quote(list[i]) })
}

func numbers(list []float64) string {
	return inline(len(list), func(i int) string { return number(list[i]) })
}

// AppendShares appends what each change makes of a difference as a JSON document, or with an error why that cannot be said: then there
// are no values. See shares.schema.json.
func AppendShares(b []byte, symbol string, l *compare.Ledger, err error) []byte {
	w := shape(b, "furrow_shares")
	w.text("symbol", symbol)
	if err != nil {
		for _, key := range []string{"a", "b"} {
			w.raw(key, "null")
		}
		w.raw("changes", "[]")
		w.text("reason", bareError(err))
		return w.end()
	}
	w.text("unit", string(l.A.Unit))
	w.number("a", l.A.Value)
	w.number("b", l.B.Value)
	w.text("sentence", l.Sentence())
	w.name("changes")
	w.b = appendList(w.b, len(l.Entries), func(i int) string {
		e := &l.Entries[i]
		return `{"key": ` + quote(e.Key) + `, "from": ` + quote(e.From) + `, "to": ` + quote(e.To) + `, "plain": ` + quote(e.Plain) +
			`, "share": ` + number(e.Share) + `, "step": ` + number(e.Step) + "}"
	})
	return w.end()
}

// AppendFinding appends which settings give printed values as a JSON document, at most most fits of them (0: all). See finding.schema.json.
func AppendFinding(b []byte, f *compare.Finding, most int) []byte {
	w := shape(b, "furrow_finding")
	w.text("outcome", string(f.Outcome()))
	w.raw("sentences", quoted(f.Sentences()))
	w.name("printed")
	w.b = appendList(w.b, len(f.Printed), func(i int) string {
		p := &f.Printed[i]
		return `{"symbol": ` + quote(p.Symbol) + `, "text": ` + quote(p.Text) + `, "value": ` + number(p.Value) + `, "half": ` + number(p.Half) + `, "unit": ` + quote(p.Unit) + "}"
	})
	w.name("usual")
	w.b = AppendSettings(w.b, &f.Usual, " ")
	w.raw("values", numbers(f.Values))
	w.number("tried", float64(f.Tried))
	w.number("skipped", float64(f.Skipped))
	w.number("fitting", float64(f.Fitting))
	w.number("found", float64(len(f.Fits)))
	fits := f.Fits
	if most > 0 {
		fits = fits[:min(most, len(fits))]
	}
	for _, list := range []struct {
		key  string
		fits []compare.Fit
	}{{"fits", fits}, {"nearest", f.Nearest}} {
		w.name(list.key)
		w.b = appendList(w.b, len(list.fits), func(i int) string { return fit(f, &list.fits[i]) })
	}
	return w.end()
}

func fit(f *compare.Finding, x *compare.Fit) string {
	w := writer{indent: "  "}
	w.open()
	w.text("plain", x.Plain)
	w.raw("against", quoted(x.Against))
	w.number("changes", float64(x.Changes))
	w.number("alike", float64(len(x.Alike)))
	w.raw("values", inline(len(x.Values), func(i int) string {
		return `{"symbol": ` + quote(f.Printed[i].Symbol) + `, "value": ` + number(x.Values[i]) + "}"
	}))
	w.name("settings")
	w.b = AppendSettings(w.b, &x.Settings, "   ")
	return string(w.close())
}

// AppendEditions appends what a requirement asks in two editions, with the values of a trace, as a JSON document. See editions.schema.json.
func AppendEditions(b []byte, e *compare.Editions) []byte {
	w := shape(b, "furrow_editions")
	w.text("text", e.Text)
	sides := []*compare.EditionText{&e.A, &e.B}
	reading := func(c *compare.EditionComparison, side int) *compare.EditionReading {
		return []*compare.EditionReading{&c.A, &c.B}[side]
	}
	w.name("readings")
	w.b = appendList(w.b, 2, func(side int) string {
		t := sides[side]
		r := writer{indent: "  "}
		r.open()
		r.text("edition", string(t.Edition))
		r.raw("plan", oneLine(AppendPlan(nil, e.Text, t.Edition)))
		r.raw("values", inline(len(e.Limits), func(i int) string {
			return value(reading(&e.Limits[i], side).Value)
		}))
		if t.Verdict == nil {
			r.raw("verdict", "null")
		} else {
			r.name("verdict")
			r.b = AppendVerdict(r.b, t.Verdict, "   ")
		}
		var problems, searches []string
		for i := range e.Limits {
			x := reading(&e.Limits[i], side)
			if x.Problem != "" {
				problems = append(problems, x.Problem)
			}
			if s := x.SearchSentence(); s != "" {
				searches = append(searches, s)
			}
		}
		r.raw("problems", quoted(problems))
		r.raw("searches", quoted(searches))
		return string(r.close())
	})
	var changes, differences []string
	for i := range e.Limits {
		l := &e.Limits[i]
		for _, c := range l.Changes {
			changes = append(changes, `{"limit": `+number(float64(i))+`, "key": `+quote(c.Key)+`, "from": `+quote(c.From)+`, "to": `+quote(c.To)+
				`, "plain": `+quote(compare.Plain(c, &l.A.Evaluation.Settings, &l.B.Evaluation.Settings))+"}")
		}
		differences = append(differences, l.Differences...)
	}
	w.name("changes")
	w.b = appendList(w.b, len(changes), func(i int) string { return changes[i] })
	w.name("differences")
	w.b = appendList(w.b, len(differences), func(i int) string { return quote(differences[i]) })
	return w.end()
}

// oneLine takes the line breaks and blanks between the members out of a document.
func oneLine(document []byte) string {
	var b bytes.Buffer
	if err := json.Compact(&b, document); err != nil {
		panic("record: a document of this package is no JSON: " + err.Error())
	}
	return b.String()
}

// AppendSteadiness appends how many digits of each value mean something as a JSON document, or with an error why there are no values. See
// steadiness.schema.json.
func AppendSteadiness(b []byte, list []compare.Steadiness, err error) []byte {
	w := shape(b, "furrow_steadiness")
	if err != nil {
		w.text("reason", bareError(err))
	}
	w.name("values")
	w.b = appendList(w.b, len(list), func(i int) string {
		s := &list[i]
		most := ""
		if t := s.Most(); t != nil {
			most = t.Text
		}
		digits := "null"
		if s.Stated {
			digits = number(float64(s.Digits))
		}
		return `{"symbol": ` + quote(s.Symbol) + `, "value": ` + number(s.Value) + `, "unit": ` + quote(string(s.Unit)) + `, "low": ` + number(s.Low) +
			`, "high": ` + number(s.High) + `, "places": ` + number(float64(s.Places)) + `, "digits": ` + digits + `, "sentence": ` + quote(s.String()) +
			`, "most": ` + textOrNull(most) + `, "conditions": ` + inline(len(s.Trials), func(k int) string {
			t := s.Trials[k]
			return `{"what": ` + quote(t.Text) + `, "value": ` + number(t.Value) + `, "counts": ` + map[bool]string{true: "true", false: "false"}[t.Counts] + "}"
		}) + "}"
	})
	return w.end()
}
