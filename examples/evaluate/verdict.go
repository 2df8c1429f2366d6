package main

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"example.com/furrow/examples/internal/cli"
	"example.com/furrow/roughness/inspect"
	"example.com/furrow/roughness/judge"
	"example.com/furrow/standards"
)

// verdictLines prints the verdict, with the caution as the last lines.
func (w *work) verdictLines(b *strings.Builder) {
	v := w.verdict
	if v == nil {
		return
	}
	b.WriteByte('\n')
	if len(v.Limits) < 2 || v.Why != nil {
		cli.Para(b, "", string(v.Word)+". "+v.Sentence)
	} else {
		cli.Para(b, "", string(v.Word)+".")
	}
	for _, d := range v.Agreed {
		cli.Para(b, "", fmt.Sprintf("Judged with %s, as agreed with %s.", d, d.With))
	}
	if len(v.Open) > 1 {
		cli.Para(b, "", "Also open:")
		for _, r := range v.Open[1:] {
			cli.Para(b, "- ", r.Text)
		}
	}
	for i := range v.Limits {
		l := &v.Limits[i]
		text := l.Asks()
		if l.Grade != "" {
			text += ", grade " + l.Grade
		}
		if len(v.Limits) > 1 {
			text += ": " + string(l.Word)
			if v.Why == nil || l.Why == nil || l.Why.Key != v.Why.Key {
				text += ". " + strings.TrimSuffix(l.Sentence, ".")
			}
		}
		cli.Para(b, "", text+".")
		if line := w.otherUnit(l); line != "" {
			cli.Para(b, "- ", line)
		}
		for _, line := range l.Log {
			cli.Para(b, "- ", line)
		}
	}
	cli.Para(b, "", "Acceptance: "+v.Acceptance+".")
	caution(b)
}

// otherUnit says limit and value in inches where the drawing counts in something else.
func (w *work) otherUnit(l *judge.LimitVerdict) string {
	limit, unit := w.display.Value(l.Bound.Value, "µm")
	if !w.display.Inch || !l.OwnUnit("µm") || strings.HasSuffix(l.Unit, "in") {
		return ""
	}
	text := fmt.Sprintf("The limit %s is %s %s", l.Text, show(limit), unit)
	if l.N > 0 && !strings.HasPrefix(l.Quantity, "values") && !math.IsNaN(l.Value) {
		x, _ := w.display.Value(l.Value, "µm")
		text += fmt.Sprintf(", the %s %s %s", l.Quantity, show(x), unit)
	}
	return text + "."
}

func caution(b *strings.Builder) {
	b.WriteByte('\n')
	cli.Para(b, "", standards.Caution)
}

// shownSymbols are the symbols of a series that its table has room for: those with a limit, then those typed in, then the first.
func (w *work) shownSymbols(s *judge.Series) []string {
	var names []string
	take := func(name string) {
		for _, have := range s.Symbols {
			if have == name && len(names) < 4 && !slices.Contains(names, name) {
				names = append(names, name)
			}
		}
	}
	if w.verdict != nil {
		for _, l := range w.verdict.Limits {
			take(l.Symbol)
		}
	}
	for _, t := range s.Typed {
		take(t.Symbol)
	}
	if len(names) == 0 {
		take("Ra")
		take("Rz")
	}
	for _, name := range s.Symbols {
		if len(s.Symbols) <= 4 || len(names) == 0 {
			take(name)
		}
	}
	return names
}

// seriesTable prints a series for a person.
func (w *work) seriesTable(s *judge.Series) []byte {
	var b strings.Builder
	for _, line := range w.readings {
		cli.Para(&b, "", line)
	}
	p := func(format string, args ...any) { fmt.Fprintf(&b, format+"\n", args...) }
	if len(s.Traces) > 0 {
		set := &s.Settings
		p("%s; %s, profile %s", count(len(s.Traces), "trace"), set.Edition, set.Profile)
		w.filters(&b, set)
	}
	names := w.shownSymbols(s)
	p("")
	line := clip("trace", 28)
	for _, n := range names {
		line += fmt.Sprintf(" %12s", strings.TrimSpace(clip(n, 12)))
	}
	p("%s", strings.TrimRight(line, " "))
	p("%s", strings.Repeat("-", cli.Width))
	for _, t := range s.Traces {
		line := clip(t.Name, 28)
		for _, n := range names {
			value := "-"
			for k, have := range s.Symbols {
				if have == n && k < len(t.Values) && !math.IsNaN(t.Values[k]) {
					x, _ := w.display.Value(t.Values[k], s.Units[k])
					value = show(x)
				}
			}
			line += fmt.Sprintf(" %12s", value)
		}
		p("%s", strings.TrimRight(line, " "))
	}
	for _, t := range s.Typed {
		line := clip("typed in", 28)
		for _, n := range names {
			value := ""
			if n == t.Symbol {
				x, _ := w.display.Value(t.Value, s.Unit(n))
				value = show(x)
			}
			line += fmt.Sprintf(" %12s", value)
		}
		p("%s", strings.TrimRight(line, " "))
	}
	p("")
	for _, n := range names {
		cli.Para(&b, "", w.summaryWords(s, n))
	}
	if len(names) < len(s.Symbols) {
		p("%d more parameters: see -json.", len(s.Symbols)-len(names))
	}
	for _, n := range w.notes {
		if n.Code != "requirement" { // the table begins with the readings
			cli.Para(&b, "* ", n.Text)
		}
	}
	for i, e := range w.evaluations {
		for _, n := range e.Notes {
			if n.Code == "too-short" || n.Code == "not-evaluated" || n.Code == "short-left-out" || inspect.Grave(n.Code) {
				cli.Para(&b, "* ", w.traces[i].Profile.Name+": "+n.Text)
			}
		}
	}
	w.verdictLines(&b)
	if w.verdict == nil {
		caution(&b)
	}
	return []byte(b.String())
}

// summaryWords describes the values of a symbol in one or two sentences.
func (w *work) summaryWords(s *judge.Series, symbol string) string {
	u := s.Summary(symbol)
	say := func(v float64) string {
		x, unit := w.display.Value(v, s.Unit(symbol))
		return strings.TrimSpace(show(x) + " " + unit)
	}
	switch u.N {
	case 0:
		return symbol + ": no value."
	case 1:
		return symbol + ": one value, " + say(u.Mean) + "."
	}
	text := fmt.Sprintf("%s of %d values: mean %s, s %s, smallest %s, largest %s, median %s.", symbol, u.N, say(u.Mean), say(u.S), say(u.Min), say(u.Max), say(u.Median))
	for _, o := range u.Outliers {
		text += fmt.Sprintf(" %s (%s) is far from the other values (G = %.2f, more than %.2f is unlikely by chance). Look at the trace. It still counts.",
			say(s.Values(symbol)[o.Index]), s.NameOf(symbol, o.Index), o.G, o.Critical)
	}
	return text
}

// clip fits a text into a column.
func clip(s string, n int) string {
	r := []rune(s)
	if len(r) > n {
		r = append([]rune("…"), r[len(r)-n+1:]...)
	}
	return string(r) + strings.Repeat(" ", max(0, n-len(r)))
}
