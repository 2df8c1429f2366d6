package record

import (
	"strings"

	"example.com/furrow/roughness/instrument"
)

// AppendCheck appends the check of an instrument as a JSON document. See check.schema.json.
func AppendCheck(b []byte, c *instrument.Check) []byte {
	w := shape(b, "furrow_check")
	w.text("kind", c.Kind)
	w.raw("date", textOrNull(c.Session.Date))
	w.raw("word", textOrNull(string(c.Word)))
	w.text("sentence", c.Sentence)
	w.text("symbol", c.Symbol)
	w.text("unit", c.Unit)
	w.raw("values", numbers(c.Values))
	if g := c.Gain; g == nil {
		w.raw("gain", "null")
		w.raw("proposal", "null")
	} else {
		w.number("gain", g.Factor)
		w.raw("proposal", `{"before": `+number(g.Before)+`, "factor": `+number(g.Factor)+`, "low": `+number(g.Low)+`, "high": `+number(g.High)+
			`, "change": `+number(g.Change)+`, "text": `+quote(g.Text)+"}")
	}
	w.name("lines")
	w.b = appendList(w.b, len(c.Lines), func(i int) string {
		l := &c.Lines[i]
		return `{"name": ` + quote(l.Name) + `, "value": ` + number(l.Value) + `, "unit": ` + quote(l.Unit) + `, "share": ` + number(l.Share) +
			`, "source": ` + quote(l.Source.String()) + `, "basis": ` + quote(string(l.Source.Basis)) + "}"
	})
	w.raw("settings", quoted(c.Settings))
	w.raw("notes", quoted(c.Notes))
	w.raw("instrument", textOrNull(c.Session.Instrument))
	w.raw("operator", textOrNull(c.Session.Operator))
	return w.end()
}

// bareError is the text of an error without the package that it comes from.
func bareError(err error) string {
	text := err.Error()
	for _, p := range []string{"compare: ", "instrument: ", "roughness: ", "params: ", "standards: ", "filter: "} {
		text = strings.TrimPrefix(text, p)
	}
	return text
}
