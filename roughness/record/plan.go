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
	w := opened(b, "")
	w.put("furrow_plan", 1, "text", text, "edition", edition)
	if err != nil {
		w.put("state", "refuse", "limits", raw("[]"), "questions", raw("[]"), "notes", raw("[]"), "refusal", refusal(err))
		return append(w.close(), '\n')
	}
	open := r.Open()
	var limits []any
	var notes []string
	for i := range r.Items {
		item := &r.Items[i]
		if item.Certain() {
			limits = append(limits, limit(item, r.ItemSettings[i]))
		}
		for _, n := range item.Notes {
			if !slices.Contains(notes, n) {
				notes = append(notes, n)
			}
		}
	}
	w.put("state", map[bool]string{true: "ask", false: "read"}[len(open) > 0], "limits", list(limits, "", same), "questions", list(open, "", question),
		"notes", list(notes, "", same), "refusal", nil)
	return append(w.close(), '\n')
}

func refusal(err error) any {
	e := &callout.TextError{Line: 1, Column: 1, Reason: err.Error()}
	errors.As(err, &e)
	return line("line", e.Line, "column", e.Column, "reason", e.Reason, "try", orNull(e.Try))
}

func question(q callout.Question) any {
	return line("key", q.Key, "blocks", q.Blocks, "text", q.Text, "line", q.Line, "column", q.Column, "answers", inline(q.Answers, func(a callout.Answer) any {
		all := []any{"key", a.Key, "text", a.Text}
		if a.Then != "" {
			all = append(all, "then", a.Then)
		}
		if a.Edition != "" {
			all = append(all, "edition", a.Edition)
		}
		return line(all...)
	}))
}

// limit writes one limit; what is open is null.
func limit(r *callout.Item, s *roughness.Settings) []byte {
	known := func(value string, sure bool) any {
		if !sure {
			return nil
		}
		return orNull(value)
	}
	class := r.Class
	if o := r.Settings["section"].Text; class == "" && strings.HasPrefix(o, "class ") {
		class, _, _ = strings.Cut(strings.TrimPrefix(o, "class "), ",")
	}
	w := opened(nil, "  ")
	w.put("symbol", orNull(r.Symbol), "side", known(r.Side.String(), !r.Open("side") && !(r.Symbol == "" && r.Open("number"))), "limit", r.Limit,
		"written", strings.TrimSpace(r.LimitText+" "+r.Unit), "unit", orNull(r.Unit), "rule", known(string(r.Rule), !r.Open("rule", "edition")),
		"profile", orNull(r.Settings["profile"].Word), "class", orNull(class), "reading", r.Reading())
	for _, p := range [][2]string{{"reference", r.Reference}, {"removal", r.Removal}, {"process", r.Process}, {"lay", r.Lay}} {
		if p[1] != "" {
			w.put(p[0], p[1])
		}
	}
	for _, n := range r.Others[:min(1, len(r.Others))] {
		w.put("other", n)
	}
	settings := any(nil)
	if s != nil {
		settings = raw(planSettings(s, r.Settings))
	}
	w.put("settings", settings, "origins", AppendOrigins(nil, origins(r.Settings), "   "), "trace", trace(r))
	return w.close()
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
func trace(r *callout.Item) any {
	if t := r.Settings; !r.Complete || t["long.cutoff"].Provisional || t["evaluation"].Number == 0 {
		return nil
	}
	p, err := callout.Advise(r, callout.Surface{})
	if err != nil {
		return nil
	}
	return line("evaluation", p.Evaluation, "run_up", p.Lead, "run_out", p.Tail, "length", p.Traverse, "max_spacing", p.MaxSpacing, "max_tip_radius", p.TipRadius)
}
