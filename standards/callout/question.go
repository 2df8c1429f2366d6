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

// pick is an answer that changes the text.
func pick(key, text string, edits ...edit) choice { return choice{key: key, text: text, edits: edits} }

// by lets another edition read the text with the answer.
func (c choice) by(edition standards.EditionID) choice {
	c.edition = edition
	return c
}

// byEdition is an answer that reads the text by another edition.
func byEdition(id standards.EditionID) choice {
	return pick(string(id), "by "+editionOf(id).Title).by(id)
}

// other is an edition in an answer: empty where it is the one the text is read by.
func (p *parser) other(id standards.EditionID) standards.EditionID {
	if id == p.edition {
		return ""
	}
	return id
}

// reader is the edition that an answer with a symbol of this name is read by: ISO 4287 where the own one does not have it.
func (p *parser) reader(name string) standards.EditionID {
	if hasName(p.edition, name) {
		return ""
	}
	return standards.ISO4287
}

func editionOf(id standards.EditionID) standards.Edition {
	e, _ := standards.EditionByID(id)
	return e
}

// edit puts other text in place of a part of it.
type edit struct {
	span
	text string
}

// insert is an edit that takes nothing away.
func insert(at int, text string) edit { return edit{span{at, at}, text} }

// edited returns the whole text with the edits.
func (s *scanner) edited(edits ...edit) string {
	edits = slices.Clone(edits)
	slices.SortStableFunc(edits, func(a, b edit) int { return cmp.Compare(a.from, b.from) })
	var b strings.Builder
	at := 0
	for _, e := range edits {
		if e.from >= at {
			b.WriteString(s.source(span{at, e.from}) + e.text)
			at = e.to
		}
	}
	return b.String() + s.source(span{at, len(s.raw)})
}

// source returns a part of the text as written.
func (s *scanner) source(at span) string { return string(s.raw[at.from:at.to]) }

// without is the edit that takes a part away, with the blanks before it.
func (s *scanner) without(at span) edit {
	for at.from > 0 && s.text[at.from-1] == ' ' {
		at.from--
	}
	return edit{at, ""}
}

// withBlanks is a part with the blanks behind it.
func (p *parser) withBlanks(at span, end int) span {
	for at.to < end && p.text[at.to] == ' ' {
		at.to++
	}
	return at
}

// shortest prints a number with the digits it needs and no more.
func shortest(v float64) string { return strconv.FormatFloat(v, 'f', -1, 64) }

// number writes a number with the decimal mark of the text.
func (s *scanner) number(v float64) string {
	text := shortest(v)
	for i := 1; i+1 < len(s.text); i++ {
		if s.text[i] == ',' && isDigit(s.text[i-1]) && isDigit(s.text[i+1]) {
			return strings.ReplaceAll(text, ".", ",")
		}
	}
	return text
}

// mm writes a length in millimetres.
func (s *scanner) mm(um float64) string { return s.number(um / 1000) }

// order is that of the questions: one that is answered first decides whether a later one is open at all.
var order = strings.Fields("pair list mark grade rz1max number symbol edition unit rms class cutoff band short lengths reference side rule")

func byOrder(a, b Question) int {
	return cmp.Compare(slices.Index(order, a.Key), slices.Index(order, b.Key))
}

// blocks tells what a question blocks where it is not the settings.
var blocks = map[string]string{"pair": "limit", "list": "verdict", "reference": "verdict", "side": "verdict", "rule": "verdict"}

// ask adds a question at a place.
func (r *Item) ask(key, text string, at span, choices ...choice) {
	q := Question{Key: key, Text: text, Blocks: cmp.Or(blocks[key], "settings")}
	r.put(q, at, choices)
}

func (r *Item) put(q Question, at span, choices []choice) {
	q.Line, q.Column = r.s.place(at.from)
	for _, c := range choices {
		a := Answer{Key: c.key, Text: c.text, Edition: c.edition}
		if len(c.edits) > 0 {
			a.Then = r.s.edited(c.edits...)
		}
		q.Answers = append(q.Answers, a)
	}
	r.Questions = append(r.Questions, q)
	slices.SortStableFunc(r.Questions, byOrder)
}

// askLimit adds a question about the number or the unit of the limit, which blocks the settings too, where they follow from it.
func (p *parser) askLimit(r *Item, key, text string, at span, choices ...choice) {
	q := Question{Key: key, Text: text, Blocks: "limit"}
	if p.edition == standards.ISO21920 && r.Class == "" && r.Long == 0 && (r.open || hasClass(r.Symbol)) {
		q.Blocks = "settings"
	}
	r.put(q, at, choices)
	r.limitOpen = true
}

// hasClass tells whether the limit of a parameter chooses its setting class.
func hasClass(symbol string) bool {
	return slices.ContainsFunc(editionOf(standards.ISO21920).Steps, func(s standards.Steps) bool { return s.Serves(symbol) })
}

// note adds what a reader should know and need not answer.
func (r *Item) note(format string, args ...any) {
	r.Notes = append(r.Notes, fmt.Sprintf(format, args...))
}

// askUnit asks for the unit of a limit.
func (p *parser) askUnit(r *Item, a *amount, units []string) {
	q := r.sym.Quantity
	length := q == standards.Height || q == standards.Spacing || q == standards.Area
	text := fmt.Sprintf("The unit of %s is not always the same, and the text does not say it.", r.symbolWords())
	switch {
	case p.edition == standards.ASMEB46:
		text = "The unit is that of the drawing, and the text does not say it."
	case q == standards.Height:
		text = fmt.Sprintf("%s in µm would be very coarse, and the number is usual in µin: which unit is meant?", r.symbolWords())
	case q == standards.Spacing:
		text = fmt.Sprintf("%s is a length along the surface: millimetre, as on older drawings, or micrometre?", r.symbolWords())
	}
	var choices []choice
	for _, u := range units {
		says := a.written() + " " + u
		if u != "µm" && length {
			says += ", which is " + shortest(a.in(u, q)) + " µm"
		}
		put := " " + u
		if per, ok := strings.CutPrefix(u, "1"); ok {
			put = per
		}
		choices = append(choices, pick(unitKeys[u], says, insert(r.at["amounts"].to, put)))
	}
	p.askLimit(r, "unit", text, r.at["amounts"], choices...)
}

// askSlip asks whether a roughness in millimetres is meant so.
func (p *parser) askSlip(r *Item, a *amount) {
	um := a.in(a.unit, standards.Height)
	number := a.written() + " " + a.unit
	other := map[string]string{"mm": "µm", "in": "µin"}[a.unit]
	p.askLimit(r, "unit", fmt.Sprintf("A roughness of %s would be %s µm: is the unit a slip?", number, shortest(um)), a.span,
		pick(unitKeys[other], a.written()+" "+other, edit{a.unitAt, other}),
		pick(unitKeys[a.unit], number+", which is "+shortest(um)+" µm", edit{span{a.from, a.unitAt.to}, p.number(um) + " µm"}))
}

// askThousands asks whether a comma sets thousands apart.
func (p *parser) askThousands(r *Item, a *amount) {
	all := strings.ReplaceAll(a.text, ".", "")
	one := trimNumber(a.text)
	p.askLimit(r, "number", "The comma sets groups of thousands apart, or it is a decimal mark.", a.span,
		pick("thousand", all, edit{a.span, all}), pick("decimal", one, edit{a.span, one}))
}

// askPair asks whether two numbers are two limits or one in two units.
func (p *parser) askPair(r *Item) {
	a, b := r.first, r.second
	units := []string{"µm", "µin"}
	if a.value() > b.value() {
		units = []string{"µin", "µm"}
	}
	if a.unit != "" && b.unit != "" {
		units = []string{a.unit, b.unit}
	}
	x, y := p.source(a.span), p.source(b.span)
	two := "two limits, " + x + " and " + y
	x, y = x+" "+units[0], y+" "+units[1]
	r.ask("pair", "Two limits, or one limit in two units.", span{a.from, b.to},
		pick("two", two, edit{span{a.at.to, b.from}, "-"}),
		pick("one", "one limit, "+x+", which is about "+y, edit{span{a.from, b.at.to}, x + " [" + y + "]"}))
	r.hidden, r.open, r.limitOpen = true, true, true
}

// dropped is the edit that takes a part away with the blanks before it, or with those behind it where it begins the requirement.
func (p *parser) dropped(r *Item, at span) edit {
	if at.from > r.at["symbol"].from {
		return p.without(at)
	}
	return edit{p.withBlanks(at, p.end), ""}
}

// upper makes it plain that a limit is an upper one, unless its side is written with a letter.
func (r *Item) upper(edits ...edit) []edit {
	if _, ok := r.at["side"]; !ok {
		edits = append(edits, insert(r.at["head"].from, "U "))
	}
	return edits
}

// behindSymbol is the place behind the symbol and the number of sampling lengths at it.
func (r *Item) behindSymbol() int { return max(r.at["symbol"].to, r.at["count"].to) }

// askRule asks what max behind a limit means beside another rule, and in ISO 1302 text, which writes the rule at the symbol.
func (p *parser) askRule(r *Item) {
	at, ok := r.at["max"]
	if !ok {
		return
	}
	drop := p.dropped(r, at)
	_, both := r.at["extremes"]
	const says = "The word max says that no measured value may exceed the limit (the maximum rule), or only that it is an upper limit"
	switch {
	case r.RuleWritten && r.Rule != standards.Maximum && r.second == nil:
		rule := r.at["rule"]
		other := p.dropped(r, rule)
		maximum := []edit{other}
		if p.own(form1302) && r.at["symbol"].to > 0 {
			maximum = []edit{drop, other, insert(r.at["symbol"].to, "max")}
		}
		r.ask("rule", says+"; the text has another rule beside it.", at,
			pick("upper", "an upper limit, with "+p.source(rule), r.upper(drop)...), pick("max", "the maximum rule", maximum...))
	case both && r.at["rule"] == at:
		r.RuleWritten = false
		r.ask("rule", "The word max says that the limit is the upper one, or that no value may exceed it (the maximum rule).", at,
			pick("upper", "the upper limit only", edit{span{r.first.from, r.second.at.to}, p.source(r.second.span) + "-" + p.source(r.first.at)}, drop))
	case p.own(form1302) && !r.RuleWritten && !both:
		r.ask("rule", says+".", at, pick("max", "the maximum rule", drop, insert(r.behindSymbol(), "max")),
			pick("upper", "an upper limit, with the rule of the standard", r.upper(drop)...))
	}
}

// ref names a place in a document.
func ref(doc, clause string, basis standards.Basis) standards.Ref {
	return standards.Ref{Doc: doc, Clause: clause, Basis: basis}
}
