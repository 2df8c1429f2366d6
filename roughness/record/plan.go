package record

import (
	"errors"
	"slices"
	"strings"

	"example.com/furrow/roughness"
	"example.com/furrow/roughness/judge"
	"example.com/furrow/standards"
	"example.com/furrow/standards/callout"
)

// AppendPlan reads the text of a requirement under an edition ("" is ISO 21920) and appends what it means as a JSON document: limits with their
// settings, open questions with their answers, or the refusal.
func AppendPlan(b []byte, text string, edition standards.EditionID) []byte {
	if edition == "" {
		edition = standards.Editions()[0].ID
	}
	r, err := judge.ReadRequirement(text, edition)
	w := writer{b: b}
	w.open()
	w.number("furrow_plan", 1)
	w.text("text", text)
	w.text("edition", string(edition))
	if err != nil {
		w.text("state", "refuse")
		w.raw("limits", "[]")
		w.raw("questions", "[]")
		w.raw("notes", "[]")
		w.raw("refusal", refusal(err))
		return append(w.close(), '\n')
	}
	open := r.Open()
	w.text("state", map[bool]string{true: "ask", false: "read"}[len(open) > 0])
	var limits, notes []string
	for i := range r.Items {
		item := &r.Items[i]
		if item.Certain() {
			limits = append(limits, limit(item, r.ItemSettings[i]))
		}
		for _, n := range item.Notes {
			if n = quote(n); !slices.Contains(notes, n) {
				notes = append(notes, n)
			}
		}
	}
	w.name("limits")
	w.b = appendList(w.b, len(limits), func(i int) string { return limits[i] })
	w.name("questions")
	w.b = appendList(w.b, len(open), func(i int) string { return question(&open[i]) })
	w.name("notes")
	w.b = appendList(w.b, len(notes), func(i int) string { return notes[i] })
	w.raw("refusal", "null")
	return append(w.close(), '\n')
}

func refusal(err error) string {
	e := &callout.TextError{Line: 1, Column: 1, Reason: err.Error()}
	errors.As(err, &e)
	return `{"line": ` + number(float64(e.Line)) + `, "column": ` + number(float64(e.Column)) + `, "reason": ` + quote(e.Reason) + `, "try": ` + textOrNull(e.Try) + "}"
}

func textOrNull(s string) string {
	if s == "" {
		return "null"
	}
	return quote(s)
}

func question(q *callout.Question) string {
	answers := make([]string, len(q.Answers))
	for i, a := range q.Answers {
		answers[i] = `{"key": ` + quote(a.Key) + `, "text": ` + quote(a.Text)
		if a.Then != "" {
			answers[i] += `, "then": ` + quote(a.Then)
		}
		if a.Edition != "" {
			answers[i] += `, "edition": ` + quote(string(a.Edition))
		}
		answers[i] += "}"
	}
	return `{"key": ` + quote(q.Key) + `, "blocks": ` + quote(q.Blocks) + `, "text": ` + quote(q.Text) + `, "line": ` + number(float64(q.Line)) +
		`, "column": ` + number(float64(q.Column)) + `, "answers": [` + strings.Join(answers, ", ") + "]}"
}

// limit writes one limit; what is open is null.
func limit(r *callout.Item, s *roughness.Settings) string {
	w := writer{indent: "  "}
	w.open()
	known := func(key, value string, sure bool) {
		if !sure {
			value = ""
		}
		w.raw(key, textOrNull(value))
	}
	known("symbol", r.Symbol, true)
	known("side", r.Side.String(), !r.Open("side") && !(r.Symbol == "" && r.Open("number")))
	w.number("limit", r.Limit)
	w.text("written", strings.TrimSpace(r.LimitText+" "+r.Unit))
	known("unit", r.Unit, true)
	known("rule", string(r.Rule), !r.Open("rule", "edition"))
	known("profile", r.Settings["profile"].Word, true)
	class := r.Class
	if o := r.Settings["section"].Text; class == "" && strings.HasPrefix(o, "class ") {
		class, _, _ = strings.Cut(strings.TrimPrefix(o, "class "), ",")
	}
	known("class", class, true)
	w.text("reading", r.Reading())
	for _, p := range [][2]string{{"reference", r.Reference}, {"removal", r.Removal}, {"process", r.Process}, {"lay", r.Lay}} {
		if p[1] != "" {
			w.text(p[0], p[1])
		}
	}
	for _, n := range r.Others[:min(1, len(r.Others))] {
		w.number("other", float64(n))
	}
	w.raw("settings", "null")
	if s != nil {
		w.b = append(w.b[:len(w.b)-len("null")], planSettings(s, r.Settings)...)
	}
	w.name("origins")
	w.b = AppendOrigins(w.b, origins(r.Settings), "   ")
	w.raw("trace", trace(r))
	return string(w.close())
}

// planSettings is a complete settings file with the lengths that it does not state: evaluation length and the operators of motifs.
func planSettings(s *roughness.Settings, from callout.Derived) string {
	text := string(AppendSettings(nil, s, "   "))
	text = strings.TrimRight(strings.TrimSuffix(text, "}"), " \n")
	for _, key := range []string{"evaluation", "a", "b"} {
		if v := from[key].Number; v > 0 {
			text += ",\n    " + quote(key) + ": " + number(v)
		}
	}
	return text + "\n   }"
}

// origins are those of what a rule or the text has given.
func origins(t callout.Derived) map[string]callout.Origin {
	list := map[string]callout.Origin{}
	for key, e := range t {
		if e.From != "" {
			list[key] = e.Origin
		}
	}
	return list
}

// trace says which trace the settings need; null while they are open, where the cut-off is found by measuring, and where the length is that of the
// feature.
func trace(r *callout.Item) string {
	if t := r.Settings; !r.Complete || t["long.cutoff"].Provisional || t["evaluation"].Number == 0 {
		return "null"
	}
	p, err := callout.Advise(r, callout.Surface{})
	if err != nil {
		return "null"
	}
	return `{"evaluation": ` + number(p.Evaluation) + `, "run_up": ` + number(p.Lead) + `, "run_out": ` + number(p.Tail) + `, "length": ` + number(p.Traverse) +
		`, "max_spacing": ` + number(p.MaxSpacing) + `, "max_tip_radius": ` + number(p.TipRadius) + "}"
}
