package main

import (
	"fmt"
	"math"
	"strconv"
	"strings"
	"unicode/utf8"

	"example.com/furrow/examples/internal/cli"
	"example.com/furrow/roughness"
)

// points prints what enters an evaluation: x from the trace's own origin and z, in µm, shortest round-trip decimals.
func points(z []float64, first int, spacing float64) []byte {
	b := make([]byte, 0, 24*len(z))
	for i, v := range z {
		b = strconv.AppendFloat(b, float64(first+i)*spacing, 'f', -1, 64)
		b = append(b, '\t')
		if math.IsNaN(v) {
			b = append(b, '-')
		} else {
			b = strconv.AppendFloat(b, v, 'f', -1, 64)
		}
		b = append(b, '\n')
	}
	return b
}

// table prints an evaluation for a person.
func (w *work) table() []byte {
	var b strings.Builder
	t, e := w.traces[0], w.evaluations[0]
	p := func(format string, args ...any) { fmt.Fprintf(&b, format+"\n", args...) }
	s := &e.Settings
	for _, line := range w.readings {
		cli.Para(&b, "", line)
	}
	p("%s", t.Profile.Name)
	if t.Report.Format != "" {
		for _, line := range strings.Split(strings.TrimSpace(t.Report.String()), "\n") {
			cli.Para(&b, "  ", line)
		}
	}
	p("%s at %s, %d without a height; %s, profile %s", count(e.Points, "point"), w.length(e.Spacing), e.Invalid, s.Edition, s.Profile)
	w.filters(&b, s)
	if e.Sections > 0 {
		p("%s of %s, the first from %s: %s evaluated",
			count(e.Sections, "section"), w.length(float64(e.SectionPoints)*e.Spacing), w.length(e.StartLength()), w.length(e.EvaluationLength()))
	}
	if e.Sections > 0 { // otherwise a note says once why nothing has a value
		w.values(&b, e)
	}
	if len(e.Notes) > 0 {
		p("")
	}
	for _, n := range e.Notes {
		cli.Para(&b, "* ", n.Text)
	}
	w.verdictLines(&b)
	return []byte(b.String())
}

// filters prints what the profile is made with, and why.
func (w *work) filters(b *strings.Builder, s *roughness.Settings) {
	fmt.Fprintf(b, "form: %s   S-filter: %s   L-filter: %s\n", s.Form, w.band(s.Short), w.band(s.Long))
	if o, ok := w.evaluations[0].Origins["long.cutoff"]; ok {
		cli.Para(b, "", cli.Cutoff(w.display.Length(s.Long.Spec.Cutoff), o))
	}
}

// values prints a row a value.
func (w *work) values(b *strings.Builder, e *roughness.Evaluation) {
	p := func(format string, args ...any) { fmt.Fprintf(b, format+"\n", args...) }
	p("")
	p("%s", row("symbol", "value", "unit", "source"))
	p("%s", strings.Repeat("-", cli.Width))
	for _, v := range e.Values {
		x, unit := w.display.Value(v.Value, string(v.Unit))
		value, source := show(x), v.Source.String()
		if v.Source.Basis != "" {
			source += " [" + string(v.Source.Basis) + "]"
		}
		if math.IsNaN(v.Value) {
			value, source = "-", v.Reason
		}
		for i, line := range cli.Lines(source, cli.Width-32, cli.Width-32) {
			if i == 0 {
				p("%s", row(v.Symbol, value, unit, line))
			} else {
				p("%s", row("", "", "", line))
			}
		}
	}
}

// row is one line of the table; columns count characters, since µ is two bytes.
func row(symbol, value, unit, source string) string {
	pad := func(s string, n int) string { return s + strings.Repeat(" ", max(0, n-utf8.RuneCountInString(s))) }
	lead := func(s string, n int) string { return strings.Repeat(" ", max(0, n-utf8.RuneCountInString(s))) + s }
	return strings.TrimRight(pad(symbol, 13)+" "+lead(value, 9)+" "+pad(unit, 7)+" "+source, " ")
}

// show prints a value with at most five significant digits; the JSON has them all.
func show(v float64) string {
	return strconv.FormatFloat(v, 'g', 5, 64)
}

// length prints a length in the units of the table.
func (w *work) length(um float64) string {
	if w.display.Inch {
		return w.display.Length(um)
	}
	return fmt.Sprintf("%.6g µm", um)
}

func (w *work) band(b roughness.Band) string {
	if b.Off {
		return "none"
	}
	s := b.Spec
	length := s.Cutoff
	if length == 0 {
		length = max(s.Radius, s.Length)
	}
	return s.Filter + " " + w.length(length)
}

// count is a number with its noun: "1 section", "5 sections".
func count(n int, noun string) string {
	if n != 1 {
		noun += "s"
	}
	return strconv.Itoa(n) + " " + noun
}
