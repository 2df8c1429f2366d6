package callout

import (
	"cmp"
	"fmt"
	"slices"
	"strconv"
	"strings"

	"example.com/furrow/standards"
)

// choice is an answer before its text is written: what to change in the text, or the edition to read it by.
type choice struct {
	key, text string
	edits     []edit
	edition   standards.EditionID
}

// edit puts other text in place of a part of it.
type edit struct {
	from, to int
	text     string
}

// insert is an edit that takes nothing away.
func insert(at int, text string) edit { return edit{at, at, text} }

// edited returns the whole text with the edits.
func (s *scanner) edited(edits ...edit) string {
	edits = slices.Clone(edits)
	slices.SortStableFunc(edits, func(a, b edit) int { return cmp.Compare(a.from, b.from) })
	var b strings.Builder
	at := 0
	for _, e := range edits {
		if e.from < at {
			continue
		}
		b.WriteString(string(s.raw[at:e.from]))
		b.WriteString(e.text)
		at = e.to
	}
	b.WriteString(string(s.raw[at:]))
	return b.String()
}

// source returns a part of the text as written.
func (s *scanner) source(at span) string { return string(s.raw[at.from:at.to]) }

// without is the edit that takes a part away, with the blanks before it.
func (s *scanner) without(at span) edit {
	for at.from > 0 && s.text[at.from-1] == ' ' {
		at.from--
	}
	return edit{at.from, at.to, ""}
}

// shortest prints a number with the digits it needs and no more.
func shortest(v float64) string { return strconv.FormatFloat(v, 'f', -1, 64) }

// number writes a number with the decimal mark of the text.
func (s *scanner) number(v float64) string {
	text := shortest(v)
	for i := 1; i+1 < len(s.text); i++ {
		if s.text[i] == ',' && isDigit(s.text[i-1]) && isDigit(s.text[i+1]) {
			return strings.Replace(text, ".", ",", 1)
		}
	}
	return text
}

// mm writes a length in millimetres.
func (s *scanner) mm(um float64) string { return s.number(um / 1000) }

// order is that of the questions: one that is answered first decides whether a later one is open at all.
var order = []string{"pair", "list", "mark", "grade", "rz1max", "number", "symbol", "edition", "unit", "rms", "class", "cutoff", "band", "short", "lengths", "reference", "side", "rule"}

// ask adds a question at a place.
func (r *Requirement) ask(key, blocks, text string, at span, choices ...choice) {
	q := Question{Key: key, Text: text, Blocks: blocks}
	q.Line, q.Column = r.s.place(at.from)
	for _, c := range choices {
		a := Answer{Key: c.key, Text: c.text, Edition: c.edition}
		if len(c.edits) > 0 {
			a.Then = r.s.edited(c.edits...)
		}
		q.Answers = append(q.Answers, a)
	}
	r.Questions = append(r.Questions, q)
	slices.SortStableFunc(r.Questions, func(a, b Question) int {
		return cmp.Compare(slices.Index(order, a.Key), slices.Index(order, b.Key))
	})
}

// note adds what a reader should know and need not answer.
func (r *Requirement) note(format string, args ...any) {
	r.Notes = append(r.Notes, fmt.Sprintf(format, args...))
}

// edition is an answer that reads the text by another edition.
func byEdition(id standards.EditionID) choice {
	e, _ := standards.EditionByID(id)
	return choice{string(id), "by " + e.Title, nil, id}
}

// askUnit asks for the unit of a limit.
func (p *parser) askUnit(r *Requirement, a *amount, units []string) {
	text := "The unit is that of the drawing, and the text does not say it."
	if r.sym.Quantity == standards.Height && p.edition != standards.ASMEB46 {
		text = fmt.Sprintf("%s in µm would be very coarse, and the number is usual in µin: which unit is meant?", r.symbolWords())
	}
	if r.sym.Quantity != standards.Height && p.edition != standards.ASMEB46 {
		text = fmt.Sprintf("The unit of %s is not always the same, and the text does not say it.", r.symbolWords())
	}
	if r.sym.Quantity == standards.Spacing && p.edition != standards.ASMEB46 {
		text = fmt.Sprintf("%s is a length along the surface: millimetre, as on older drawings, or micrometre?", r.symbolWords())
	}
	var choices []choice
	at := r.at["amounts"]
	for _, u := range units {
		says := fmt.Sprintf("%s %s", a.text(), u)
		if v := inUnit(a.d, u, r.sym.Quantity); u != "µm" && (r.sym.Quantity == standards.Height || r.sym.Quantity == standards.Spacing || r.sym.Quantity == standards.Area) {
			says += ", which is " + shortest(v) + " µm"
		}
		written := " " + u
		if strings.HasPrefix(u, "1/") {
			written = u[1:]
		}
		choices = append(choices, choice{unitKeys[u], says, []edit{insert(at.to, written)}, ""})
	}
	r.ask("unit", p.blocksLimit(r), text, at, choices...)
	r.limitOpen = true
}

// blocksLimit tells what a limit that is open blocks: the settings too, where they follow from it.
func (p *parser) blocksLimit(r *Requirement) string {
	fromLimit := slices.ContainsFunc(editionOf(standards.ISO21920).Steps, func(s standards.Steps) bool { return s.Serves(r.Symbol) })
	if p.edition == standards.ISO21920 && r.Class == "" && r.Long == 0 && (fromLimit || r.open) {
		return "settings"
	}
	return "limit"
}

// askSlip asks whether a roughness in millimetres is meant so.
func (p *parser) askSlip(r *Requirement, a *amount) {
	um := inUnit(a.d, a.unit, standards.Height)
	other := map[string]string{"mm": "µm", "in": "µin"}[a.unit]
	r.ask("unit", p.blocksLimit(r), fmt.Sprintf("A roughness of %s %s would be %s µm: is the unit a slip?", a.text(), a.unit, shortest(um)), a.number,
		choice{unitKeys[other], a.text() + " " + other, []edit{{a.unitAt.from, a.unitAt.to, other}}, ""},
		choice{unitKeys[a.unit], a.text() + " " + a.unit + ", which is " + shortest(um) + " µm", []edit{{a.number.from, a.unitAt.to, p.number(um) + " µm"}}, ""})
	r.limitOpen = true
}

// askThousands asks whether a comma sets thousands apart.
func (p *parser) askThousands(r *Requirement, a *amount) {
	whole, behind, _ := strings.Cut(a.d.text, ".")
	one := trimNumber(a.d.text)
	r.ask("number", p.blocksLimit(r), "The comma sets groups of thousands apart, or it is a decimal mark.", a.number,
		choice{"thousand", whole + behind, []edit{{a.number.from, a.number.to, whole + behind}}, ""},
		choice{"decimal", one, []edit{{a.number.from, a.number.to, one}}, ""})
}

// askPair asks whether two numbers are two limits or one in two units.
func (p *parser) askPair(r *Requirement) {
	a, b := r.first, r.second
	units := []string{"µm", "µin"}
	if a.value() > b.value() {
		units = []string{"µin", "µm"}
	}
	if a.unit != "" && b.unit != "" {
		units = []string{a.unit, b.unit}
	}
	x, y := p.source(a.number)+" "+units[0], p.source(b.number)+" "+units[1]
	r.ask("pair", "limit", "Two limits, or one limit in two units.", span{a.number.from, b.number.to},
		choice{"two", "two limits, " + p.source(a.number) + " and " + p.source(b.number), []edit{{a.at.to, b.number.from, "-"}}, ""},
		choice{"one", "one limit, " + x + ", which is about " + y, []edit{{a.number.from, b.at.to, x + " [" + y + "]"}}, ""})
	r.hidden, r.open, r.limitOpen = true, true, true
}

// askMaxBeside asks what max means beside another acceptance rule.
func (p *parser) askMaxBeside(r *Requirement, at span) {
	rule := p.source(r.at["rule"])
	drop, other := p.dropped(r, at), p.dropped(r, r.at["rule"])
	upper, maximum := []edit{drop}, []edit{other}
	if _, ok := r.at["side"]; !ok {
		upper = append(upper, insert(r.at["head"].from, "U "))
	}
	if p.own(form1302) && r.at["symbol"].to > 0 {
		maximum = []edit{drop, other, insert(r.at["symbol"].to, "max")}
	}
	r.ask("rule", "verdict", "The word max says that no measured value may exceed the limit (the maximum rule), or only that it is an upper limit; the text has another rule beside it.", at,
		choice{"upper", "an upper limit, with " + rule, upper, ""},
		choice{"max", "the maximum rule", maximum, ""})
}

// dropped is the edit that takes a part away with the blanks before it, or with those behind it where it begins the requirement.
func (p *parser) dropped(r *Requirement, at span) edit {
	if at.from > r.at["symbol"].from {
		return p.without(at)
	}
	e := edit{at.from, at.to, ""}
	for e.to < p.end && p.text[e.to] == ' ' {
		e.to++
	}
	return e
}

// askRule asks what max behind a limit means in ISO 1302 text, which writes the rule at the symbol.
func (p *parser) askRule(r *Requirement) {
	at, ok := r.at["max"]
	if ok && r.RuleWritten && r.Rule != standards.Maximum && r.second == nil {
		p.askMaxBeside(r, at)
		return
	}
	if _, both := r.at["extremes"]; both && r.at["rule"] == at && ok {
		r.RuleWritten = false
	} else if !ok || !p.own(form1302) || r.RuleWritten || both {
		return
	}
	drop := p.dropped(r, at)
	symbol := r.at["symbol"]
	if c, ok := r.at["count"]; ok {
		symbol = c
	}
	upper := []edit{drop}
	if _, ok := r.at["side"]; !ok {
		upper = append(upper, insert(r.at["head"].from, "U "))
	}
	if _, both := r.at["extremes"]; both {
		r.ask("rule", "verdict", "The word max says that the limit is the upper one, or that no value may exceed it (the maximum rule).", at,
			choice{"upper", "the upper limit only", []edit{{r.first.number.from, r.second.at.to, p.source(r.second.number) + "-" + p.source(r.first.at)}, drop}, ""})
		return
	}
	r.ask("rule", "verdict", "The word max says that no measured value may exceed the limit (the maximum rule), or only that it is an upper limit.", at,
		choice{"max", "the maximum rule", []edit{drop, insert(symbol.to, "max")}, ""},
		choice{"upper", "an upper limit, with the rule of the standard", upper, ""})
}

// ref names a place in a document.
func ref(doc, clause string, basis standards.Basis) standards.Ref {
	return standards.Ref{Doc: doc, Clause: clause, Basis: basis}
}
