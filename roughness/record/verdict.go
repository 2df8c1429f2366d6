package record

import (
	"example.com/furrow/roughness/judge"
	"example.com/furrow/standards"
	"example.com/furrow/standards/decide"
)

// AppendVerdict appends a verdict as the JSON object that stands in a result; indent is put before every line but the first.
func AppendVerdict(b []byte, v *judge.Verdict, indent string) []byte {
	rule := standards.Rule("")
	if len(v.Limits) > 0 {
		rule = v.Limits[0].Rule
	}
	w := opened(b, indent)
	w.put("word", v.Word, "why", why(v.Why), "open", reasons(v.Open), "sentence", v.Sentence, "acceptance", v.Acceptance,
		"guard", orNull(map[decide.GuardRule]string{decide.Probability: "2017", decide.ExpandedU: "1998"}[v.Guard.Rule]),
		"prove", map[decide.Proof]string{decide.Maker: "maker", decide.Buyer: "buyer", decide.Nobody: "none"}[v.Guard.Proof],
		"rule", rule, "values", v.Values, "more", v.More, "agreed", list(v.Agreed, "", func(d judge.Deviation) any {
			return line("key", d.Key, "asked", d.Asked, "used", d.Used, "with", d.With, "text", d.String())
		}), "limits", list(v.Limits, indent, func(l judge.LimitVerdict) any { return limitVerdict(&l, indent+"  ") }), "caution", standards.Caution)
	return w.close()
}

// verdictAt is a verdict as a value, null without one.
func verdictAt(v *judge.Verdict, indent string) any {
	if v == nil {
		return nil
	}
	return AppendVerdict(nil, v, indent)
}

func limitVerdict(l *judge.LimitVerdict, indent string) []byte {
	w := opened(nil, indent)
	w.put("symbol", l.Symbol, "side", l.Side.String(), "limit", l.Bound.Value, "text", l.Text, "unit", l.Unit)
	if l.Grade != "" {
		w.put("grade", l.Grade)
	}
	w.put("rule", l.Rule, "word", l.Word, "why", why(l.Why), "open", reasons(l.Open), "sentence", l.Sentence, "values", l.N, "more", l.More, "u", l.U,
		"accept", l.Accept, "reject", l.Reject, "quantity", l.Quantity, "value", l.Value, "counted", inline(l.Counted, func(c judge.CountedValue) any {
			return line("name", c.Name, "value", c.Value, "typed", c.Typed)
		}), "log", l.Log)
	if l.Apart {
		w.put("settings", settingsAt(l.Settings, indent+" "))
	}
	return w.close()
}

func why(r *judge.Reason) any {
	if r == nil {
		return nil
	}
	return line("key", r.Key, "text", r.Text)
}

func reasons(open []judge.Reason) any {
	return inline(open, func(r judge.Reason) any { return why(&r) })
}
