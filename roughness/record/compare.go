package record

import (
	"bytes"
	"encoding/json"

	"example.com/furrow/roughness"
	"example.com/furrow/roughness/compare"
	"example.com/furrow/standards"
)

// shape starts a JSON document of a shape and its version.
func shape(b []byte, name string) writer {
	w := opened(b, "")
	w.put(name, 1)
	return w
}

// end closes a document with the caution.
func (w *writer) end() []byte {
	w.put("caution", standards.Caution)
	return append(w.close(), '\n')
}

// AppendShares appends what each change makes of a difference as a JSON document, or with an error why that cannot be said: then there
// are no values. See shares.schema.json.
func AppendShares(b []byte, symbol string, l *compare.Ledger, err error) []byte {
	w := shape(b, "furrow_shares")
	w.put("symbol", symbol)
	if err != nil {
		w.put("a", nil, "b", nil, "changes", raw("[]"), "reason", standards.Bare(err))
		return w.end()
	}
	w.put("unit", l.A.Unit, "a", l.A.Value, "b", l.B.Value, "sentence", l.Sentence(), "changes", list(l.Entries, "", func(e compare.Entry) any {
		return line("key", e.Key, "from", e.From, "to", e.To, "plain", e.Plain, "share", e.Share, "step", e.Step)
	}))
	return w.end()
}

// AppendFinding appends which settings give printed values as a JSON document, at most most fits of them (0: all). See finding.schema.json.
func AppendFinding(b []byte, f *compare.Finding, most int) []byte {
	fits := f.Fits
	if most > 0 {
		fits = fits[:min(most, len(fits))]
	}
	one := func(x compare.Fit) any { return fit(f, &x) }
	w := shape(b, "furrow_finding")
	w.put("outcome", f.Outcome(), "sentences", f.Sentences(), "printed", list(f.Printed, "", func(p compare.Printed) any {
		return line("symbol", p.Symbol, "text", p.Text, "value", p.Value, "half", p.Half, "unit", p.Unit)
	}), "usual", settingsAt(&f.Usual, " "), "values", f.Values, "tried", f.Tried, "skipped", f.Skipped, "fitting", f.Fitting, "found", len(f.Fits),
		"fits", list(fits, "", one), "nearest", list(f.Nearest, "", one))
	return w.end()
}

func fit(f *compare.Finding, x *compare.Fit) []byte {
	values := make([]raw, len(x.Values))
	for i, v := range x.Values {
		values[i] = line("symbol", f.Printed[i].Symbol, "value", v)
	}
	w := opened(nil, "  ")
	w.put("plain", x.Plain, "against", x.Against, "changes", x.Changes, "alike", len(x.Alike), "values", inline(values, same), "settings", settingsAt(&x.Settings, "   "))
	return w.close()
}

// AppendEditions appends what a requirement asks in two editions, with the values of a trace, as a JSON document. See editions.schema.json.
func AppendEditions(b []byte, e *compare.Editions) []byte {
	reading := func(side int) any {
		t := []*compare.EditionText{&e.A, &e.B}[side]
		var problems, searches []string
		var values []roughness.Value
		for i := range e.Limits {
			x := []*compare.EditionReading{&e.Limits[i].A, &e.Limits[i].B}[side]
			values = append(values, x.Value)
			if x.Problem != "" {
				problems = append(problems, x.Problem)
			}
			if s := x.SearchSentence(); s != "" {
				searches = append(searches, s)
			}
		}
		r := opened(nil, "  ")
		r.put("edition", t.Edition, "plan", oneLine(AppendPlan(nil, e.Text, t.Edition)), "values", inline(values, value), "verdict", verdictAt(t.Verdict, "   "),
			"problems", problems, "searches", searches)
		return r.close()
	}
	var changes []raw
	var differences []string
	for i := range e.Limits {
		l := &e.Limits[i]
		for _, c := range l.Changes {
			changes = append(changes, line("limit", i, "key", c.Key, "from", c.From, "to", c.To,
				"plain", compare.Plain(c, &l.A.Evaluation.Settings, &l.B.Evaluation.Settings)))
		}
		differences = append(differences, l.Differences...)
	}
	w := shape(b, "furrow_editions")
	w.put("text", e.Text, "readings", list([]int{0, 1}, "", reading), "changes", list(changes, "", same), "differences", list(differences, "", same), "notes", list(e.Notes, "", note))
	return w.end()
}

// oneLine takes the line breaks and blanks between the members out of a document.
func oneLine(document []byte) []byte {
	var b bytes.Buffer
	if err := json.Compact(&b, document); err != nil {
		panic("record: a document of this package is no JSON: " + err.Error())
	}
	return b.Bytes()
}

// AppendSteadiness appends how many digits of each value mean something as a JSON document, or with an error why there are no values. See
// steadiness.schema.json.
func AppendSteadiness(b []byte, values []compare.Steadiness, err error) []byte {
	w := shape(b, "furrow_steadiness")
	if err != nil {
		w.put("reason", standards.Bare(err))
	}
	w.put("values", list(values, "", func(s compare.Steadiness) any {
		most, digits := "", any(nil)
		if t := s.Most(); t != nil {
			most = t.Text
		}
		if s.Stated {
			digits = s.Digits
		}
		return line("symbol", s.Symbol, "value", s.Value, "unit", s.Unit, "low", s.Low, "high", s.High, "places", s.Places, "digits", digits, "sentence", s.String(),
			"most", orNull(most), "conditions", inline(s.Trials, func(t compare.Trial) any { return line("what", t.Text, "value", t.Value, "counts", t.Counts) }))
	}))
	return w.end()
}
