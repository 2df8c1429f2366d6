package record

import (
	"strings"

	"example.com/furrow/roughness/judge"
	"example.com/furrow/standards"
	"example.com/furrow/standards/decide"
)

// AppendVerdict appends a verdict as the JSON object that stands in a result; indent is put before every line but the first.
func AppendVerdict(b []byte, v *judge.Verdict, indent string) []byte {
	w := writer{b: b, indent: indent}
	w.open()
	w.text("word", string(v.Word))
	w.raw("why", why(v.Why))
	w.raw("open", reasons(v.Open))
	w.text("sentence", v.Sentence)
	w.text("acceptance", v.Acceptance)
	w.raw("guard", map[decide.GuardRule]string{decide.Probability: `"2017"`, decide.ExpandedU: `"1998"`, decide.Simple: "null"}[v.Guard.Rule])
	w.text("prove", map[decide.Proof]string{decide.Maker: "maker", decide.Buyer: "buyer", decide.Nobody: "none"}[v.Guard.Proof])
	rule := ""
	if len(v.Limits) > 0 {
		rule = string(v.Limits[0].Rule)
	}
	w.text("rule", rule)
	w.number("values", float64(v.Values))
	w.number("more", float64(v.More))
	w.name("agreed")
	w.b = appendList(w.b, len(v.Agreed), func(i int) string {
		d := v.Agreed[i]
		return `{"key": ` + quote(d.Key) + `, "asked": ` + quote(d.Asked) + `, "used": ` + quote(d.Used) + `, "with": ` + quote(d.With) + "}"
	})
	w.name("limits")
	w.b = append(w.b, '[')
	for i := range v.Limits {
		if i > 0 {
			w.b = append(w.b, ',')
		}
		w.b = append(w.b, "\n  "+indent...)
		w.b = appendLimit(w.b, &v.Limits[i], indent+"  ")
	}
	if len(v.Limits) > 0 {
		w.b = append(w.b, "\n "+indent...)
	}
	w.b = append(w.b, ']')
	w.text("caution", standards.Caution)
	return w.close()
}

func appendLimit(b []byte, l *judge.LimitVerdict, indent string) []byte {
	w := writer{b: b, indent: indent}
	w.open()
	w.text("symbol", l.Symbol)
	w.text("side", l.Side.String())
	w.number("limit", l.Bound.Value)
	w.text("text", l.Text)
	w.text("unit", l.Unit)
	if l.Grade != "" {
		w.text("grade", l.Grade)
	}
	w.text("rule", string(l.Rule))
	w.text("word", string(l.Word))
	w.raw("why", why(l.Why))
	w.raw("open", reasons(l.Open))
	w.text("sentence", l.Sentence)
	w.number("values", float64(l.N))
	w.number("more", float64(l.More))
	w.number("u", l.U)
	w.number("accept", l.Accept)
	w.number("reject", l.Reject)
	w.text("quantity", l.Quantity)
	w.number("value", l.Value)
	w.raw("counted", inline(len(l.Counted), func(i int) string {
		c := l.Counted[i]
		return `{"name": ` + quote(c.Name) + `, "value": ` + number(c.Value) + `, "typed": ` + map[bool]string{true: "true", false: "false"}[c.Typed] + "}"
	}))
	w.raw("log", inline(len(l.Log), func(i int) string { return quote(l.Log[i]) }))
	if l.Apart {
		w.name("settings")
		w.b = AppendSettings(w.b, l.Settings, w.indent+" ")
	}
	return w.close()
}

func why(r *judge.Reason) string {
	if r == nil {
		return "null"
	}
	return `{"key": ` + quote(r.Key) + `, "text": ` + quote(r.Text) + "}"
}

func reasons(list []judge.Reason) string {
	return inline(len(list), func(i int) string { return why(&list[i]) })
}

// inline is a list on one line.
func inline(n int, item func(int) string) string {
	items := make([]string, n)
	for i := range items {
		items[i] = item(i)
	}
	return "[" + strings.Join(items, ", ") + "]"
}
