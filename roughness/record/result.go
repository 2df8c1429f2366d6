package record

import (
	"maps"
	"slices"

	"example.com/furrow/roughness"
	"example.com/furrow/roughness/judge"
	"example.com/furrow/standards/callout"
)

// AppendResult appends the result of an evaluation as a JSON document to b, with how the trace came about, as far as that is known,
// and a verdict, when there is one.
func AppendResult(b []byte, e *roughness.Evaluation, verdict *judge.Verdict) []byte {
	w := opened(b, "")
	w.put("furrow_result", ResultVersion, "settings", settingsAt(&e.Settings, " "), "origins", AppendOrigins(nil, e.Origins, " "), "profile", profile(e),
		"values", list(e.Values, "", value), "notes", list(e.Notes, "", note))
	if e.Traced != (roughness.Traced{}) {
		w.put("traced", traced(&e.Traced))
	}
	if verdict != nil {
		w.put("verdict", verdictAt(verdict, " "))
	}
	return append(w.close(), '\n')
}

func note(n roughness.Note) any { return line("code", n.Code, "text", n.Text) }

// AppendOrigins appends where each setting comes from; indent is put before every line but the first.
func AppendOrigins(b []byte, origins map[string]callout.Origin, indent string) []byte {
	w := opened(b, indent)
	for _, k := range slices.Sorted(maps.Keys(origins)) {
		w.put(k, raw(Origin(origins[k])))
	}
	return w.close()
}

// Origin is where a setting comes from, as a JSON object.
func Origin(o callout.Origin) string {
	all := []any{"text", o.Text, "source", o.Ref.String(), "basis", o.Basis, "from", o.From}
	if o.Unconfirmed {
		all = append(all, "unconfirmed", true)
	}
	return string(line(all...))
}

func profile(e *roughness.Evaluation) []byte {
	w := opened(nil, " ")
	w.put("points", e.Points, "invalid", e.Invalid, "spacing", e.Spacing, "sections", e.Sections, "section", float64(e.SectionPoints)*e.Spacing,
		"evaluation", e.EvaluationLength(), "start", e.StartLength())
	return w.close()
}

// skids are the words for the use of a skid.
var skids = map[roughness.SkidUse]string{roughness.WithSkid: "with", roughness.WithoutSkid: "without"}

// tracedMembers are how a trace came about; skid is its word.
func tracedMembers(t *roughness.Traced, skid *string) []member {
	return []member{{"instrument", &t.Instrument}, {"skid", skid}, {"tip_radius", &t.TipRadius}, {"cone_angle", &t.ConeAngle}, {"force", &t.Force},
		{"speed", &t.Speed}, {"direction", &t.Direction}, {"place", &t.Place}, {"date", &t.Date}}
}

// traced leaves out what is not known.
func traced(t *roughness.Traced) []byte {
	skid := skids[t.Skid]
	w := opened(nil, " ")
	for _, m := range tracedMembers(t, &skid) {
		if v := text(m.at); v != `""` && v != "0" {
			w.put(m.key, raw(v))
		}
	}
	return w.close()
}

func value(v roughness.Value) any {
	return line("symbol", v.Symbol, "value", v.Value, "unit", v.Unit, "sections", v.Sections, "source", v.Source.String(), "basis", v.Source.Basis,
		"reason", v.Reason, "note", v.Note)
}
