package main

import (
	"fmt"
	"math"
	"strings"

	"example.com/furrow/examples/internal/cli"
	"example.com/furrow/roughness/compare"
	"example.com/furrow/standards"
)

func (q *question) sharesTable(l *compare.Ledger, err error) []byte {
	var p cli.Page
	if err != nil {
		p.Say("The difference cannot be shared out: %s.", strings.TrimSuffix(standards.Bare(err), "."))
		return p.End(standards.Caution)
	}
	p.Say("%s", l.Sentence())
	p.WriteByte('\n')
	unit := string(l.A.Unit)
	signed := func(v float64) string {
		if v > 0 {
			return "+" + l.Show(v)
		}
		return l.Show(v)
	}
	p.Row("change", "share "+unit, "step "+unit)
	sum := 0.0
	for i := range l.Entries {
		e := &l.Entries[i]
		p.Row(e.Plain, signed(e.Share), signed(e.Step))
		sum += e.Share
	}
	p.Row("together", signed(sum), signed(l.B.Value-l.A.Value))
	p.WriteByte('\n')
	p.Say("share: the effect of a change, averaged over all orders in which the changes can be made. step: its effect when they are made in this order.")
	return p.End(standards.Caution)
}

func (q *question) findingTable(f *compare.Finding) []byte {
	var p cli.Page
	if q.stated {
		var list []string
		for i := range f.Printed {
			list = append(list, f.Printed[i].Typed())
		}
		p.Say("The file states %s.", strings.Join(list, "; "))
	}
	for _, s := range f.Sentences() {
		p.Say("%s", s)
	}
	list, title := f.Fits, "Settings that give the printed values, the simplest first:"
	if len(list) == 0 {
		list, title = f.Nearest, "The nearest:"
	}
	if q.most > 0 {
		list = list[:min(q.most, len(list))]
	}
	if len(list) > 0 {
		fmt.Fprintf(&p, "\n%s\n", title)
	}
	for i := range list {
		cli.Wrap(&p, fmt.Sprintf("%d. %s.", i+1, list[i].Plain), "")
		for _, a := range list[i].Against {
			cli.Wrap(&p, "- "+a, "   ")
		}
	}
	if more := len(f.Fits) - len(list); more > 0 && len(f.Fits) > 0 {
		p.Say("%d more with -most 0.", more)
	}
	return p.End(standards.Caution)
}

func (q *question) editionsTable(e *compare.Editions) []byte {
	var p cli.Page
	for _, side := range []*compare.EditionText{&e.A, &e.B} {
		ed, _ := standards.EditionByID(side.Edition)
		p.Say("%s", ed.Title)
		if side.Refused != nil {
			cli.Wrap(&p, "does not read the text: "+standards.Bare(side.Refused), "  ")
			p.WriteByte('\n')
			continue
		}
		for i := range e.Limits {
			r := &e.Limits[i].A
			if side == &e.B {
				r = &e.Limits[i].B
			}
			if r.Requirement == nil {
				continue
			}
			cli.Wrap(&p, r.Requirement.Reading(), "  ")
			if s := r.SearchSentence(); s != "" {
				cli.Wrap(&p, s, "  ")
			}
			switch {
			case r.Problem != "":
				cli.Wrap(&p, "No value: "+r.Problem, "  ")
			default:
				cli.Wrap(&p, fmt.Sprintf("On this trace: %s %s", r.Value.Symbol, cli.Number(r.Value)), "  ")
			}
		}
		cli.Wrap(&p, fmt.Sprintf("%s. %s", side.Verdict.Word, side.Verdict.Sentence), "  ")
		p.WriteByte('\n')
	}
	p.Say("What differs:")
	for i := range e.Limits {
		for _, d := range e.Limits[i].Differences {
			cli.Wrap(&p, "- "+d, "")
		}
	}
	for _, n := range e.Notes {
		cli.Wrap(&p, "* "+n.Text, "")
	}
	return p.End(standards.Caution)
}

func (q *question) steadyTable(list []compare.Steadiness, err error) []byte {
	var p cli.Page
	if err != nil {
		p.Say("Nothing can be said about steadiness: %s.", strings.TrimSuffix(standards.Bare(err), "."))
		return p.End(standards.Caution)
	}
	p.Row("value", "", "unit", "sure digits", "lowest", "highest")
	for i := range list {
		s := &list[i]
		digits, low, high := "-", "-", "-"
		if s.Stated {
			digits = fmt.Sprint(s.Digits)
		}
		if !math.IsNaN(s.Low) && s.Places > 1 {
			low, high = cli.Short(s.Low), cli.Short(s.High)
		}
		p.Row(s.Symbol, cli.Short(s.Value), string(s.Unit), digits, low, high)
	}
	if q.symbol != "" && len(list) == 1 {
		s := &list[0]
		p.WriteByte('\n')
		p.Say("%s", s)
		p.WriteByte('\n')
		p.Row("condition", "value", "change")
		for _, t := range s.Trials {
			value, change := "-", "-"
			if !math.IsNaN(t.Value) {
				value, change = cli.Short(t.Value), fmt.Sprintf("%+.3g", t.Value-s.Value)
			}
			p.Row(t.Text, value, change)
		}
	} else {
		p.WriteByte('\n')
		p.Say("Digits come from moving the sections along the trace, from every second point and from a blunter tip. lowest and highest are those of the moved sections. -: the sections cannot move, or there is no value. With -symbol all conditions are listed. This says nothing about the instrument.")
	}
	return p.End(standards.Caution)
}
