package record

import (
	"maps"
	"slices"
	"strings"

	"example.com/furrow/roughness"
	"example.com/furrow/roughness/judge"
	"example.com/furrow/standards/callout"
)

// AppendResult appends the result of an evaluation as a JSON document to b, with how the trace came about, as far as that is known,
// and a verdict, when there is one.
func AppendResult(b []byte, e *roughness.Evaluation, verdict *judge.Verdict) []byte {
	w := writer{b: b}
	w.open()
	w.number("furrow_result", ResultVersion)
	w.name("settings")
	w.b = AppendSettings(w.b, &e.Settings, " ")
	w.name("origins")
	w.b = AppendOrigins(w.b, e.Origins, " ")
	w.name("profile")
	w.b = appendProfile(w.b, e)
	w.name("values")
	w.b = appendList(w.b, len(e.Values), func(i int) string { return value(e.Values[i]) })
	w.name("notes")
	w.b = appendList(w.b, len(e.Notes), func(i int) string {
		return `{"code": ` + quote(e.Notes[i].Code) + `, "text": ` + quote(e.Notes[i].Text) + "}"
	})
	if e.Traced != (roughness.Traced{}) {
		w.name("traced")
		w.b = appendTraced(w.b, &e.Traced)
	}
	if verdict != nil {
		w.name("verdict")
		w.b = AppendVerdict(w.b, verdict, " ")
	}
	return append(w.close(), '\n')
}

// AppendOrigins appends where each setting comes from; indent is put before every line but the first.
func AppendOrigins(b []byte, origins map[string]callout.Origin, indent string) []byte {
	w := writer{b: b, indent: indent}
	w.open()
	for _, k := range slices.Sorted(maps.Keys(origins)) {
		w.raw(k, Origin(origins[k]))
	}
	return w.close()
}

// Origin is where a setting comes from, as a JSON object.
func Origin(o callout.Origin) string {
	mark := ""
	if o.Unconfirmed {
		mark = `, "unconfirmed": true`
	}
	return `{"text": ` + quote(o.Text) + `, "source": ` + quote(o.Ref.String()) + `, "basis": ` + quote(string(o.Basis)) + `, "from": ` + quote(o.From) + mark + "}"
}

func appendProfile(b []byte, e *roughness.Evaluation) []byte {
	w := writer{b: b, indent: " "}
	w.open()
	w.number("points", float64(e.Points))
	w.number("invalid", float64(e.Invalid))
	w.number("spacing", e.Spacing)
	w.number("sections", float64(e.Sections))
	w.number("section", float64(e.SectionPoints)*e.Spacing)
	w.number("evaluation", e.EvaluationLength())
	w.number("start", e.StartLength())
	return w.close()
}

// appendTraced leaves out what is not known.
func appendTraced(b []byte, t *roughness.Traced) []byte {
	w := writer{b: b, indent: " "}
	w.open()
	text := func(key, s string) {
		if s != "" {
			w.text(key, s)
		}
	}
	number := func(key string, v float64) {
		if v != 0 {
			w.number(key, v)
		}
	}
	text("instrument", t.Instrument)
	text("skid", map[roughness.SkidUse]string{roughness.WithSkid: "with", roughness.WithoutSkid: "without"}[t.Skid])
	number("tip_radius", t.TipRadius)
	number("cone_angle", t.ConeAngle)
	number("force", t.Force)
	number("speed", t.Speed)
	text("direction", t.Direction)
	text("place", t.Place)
	text("date", t.Date)
	return w.close()
}

func value(v roughness.Value) string {
	sections := make([]string, len(v.Sections))
	for i, s := range v.Sections {
		sections[i] = number(s)
	}
	return `{"symbol": ` + quote(v.Symbol) +
		`, "value": ` + number(v.Value) +
		`, "unit": ` + quote(string(v.Unit)) +
		`, "sections": [` + strings.Join(sections, ", ") + `]` +
		`, "source": ` + quote(v.Source.String()) +
		`, "basis": ` + quote(string(v.Source.Basis)) +
		`, "reason": ` + quote(v.Reason) +
		`, "note": ` + quote(v.Note) + `}`
}

func appendList(b []byte, n int, item func(int) string) []byte {
	b = append(b, '[')
	for i := range n {
		if i > 0 {
			b = append(b, ',')
		}
		b = append(b, "\n  "...)
		b = append(b, item(i)...)
	}
	if n > 0 {
		b = append(b, "\n "...)
	}
	return append(b, ']')
}
