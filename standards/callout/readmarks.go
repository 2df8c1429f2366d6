package callout

import (
	"fmt"
	"strings"
	"unicode"

	"example.com/furrow/standards"
)

// Marks of older drawings: grades N1 to N12, triangles, the wave, 25S, and numbers without a symbol.

// gradeAhead tells whether a roughness grade comes next.
func (p *parser) gradeAhead() bool { return fold(p.peek(0)) == 'n' && isDigit(p.peek(1)) }

// markAhead tells whether a mark comes next that begins a requirement.
func (p *parser) markAhead() bool { return p.peek(0) == '▽' || p.gradeAhead() }

// mark reads a mark, and tells whether one stood there.
func (p *parser) mark(r *Item) bool {
	at := p.pos
	switch {
	case p.peek(0) == '▽':
		for p.peek(0) == '▽' {
			p.pos++
		}
		if p.pos-at > 4 {
			p.bad(at, "no mark has more than four triangles")
		}
		r.Mark, r.hidden, r.open = string(p.text[at:p.pos]), true, true
		p.askTriangles(r, span{at, p.pos})
	case p.peek(0) == '~':
		p.pos++
		r.Mark, r.hidden, r.open = "~", true, true
		r.ask("mark", "A withdrawn mark for a surface that is left as it is. No number goes with it: write the limit that is meant.", span{at, p.pos})
	case p.gradeAhead():
		p.grades(r)
	case p.take("RMS"):
		rms := span{at, p.pos}
		p.blanks()
		if !p.atNumber() {
			p.badNumber(p.pos, "the limit is expected here, not %s", p.rest())
		}
		p.bare(r, rms)
	case p.atNumber():
		lead := p.leading()
		p.pos = at
		if lead != nil {
			return false
		}
		p.bare(r, span{})
	default:
		return false
	}
	return true
}

// grades reads N7 or N8/N6.
func (p *parser) grades(r *Item) {
	grade := func() *amount {
		at := span{p.pos, p.pos + 1}
		for at.to < p.end && (unicode.IsLetter(p.text[at.to]) || isDigit(p.text[at.to])) {
			at.to++
		}
		name := strings.ToUpper(string(p.text[at.from:at.to]))
		ra := standards.GradeLimit(name)
		if ra == 0 {
			p.bad(at.from, "%s is no roughness grade: N1 to N12", name)
		}
		p.pos = at.to
		r.Mark = name
		r.note("%s is a label of older drawings (ISO 1302:1992) for an upper limit of Ra %s µm.", name, shortest(ra))
		return &amount{decimal: decimal{span: at, text: shortest(ra)}, unit: "µm", at: at, unitAt: at}
	}
	begin := p.pos
	r.first = grade()
	here := p.pos
	p.blanks()
	if p.take("/") {
		if p.blanks(); p.gradeAhead() {
			r.second = grade()
			here = p.pos
		}
	}
	p.pos = here
	p.meansRa(r, span{begin, here})
}

// meansRa makes the requirement one on Ra.
func (p *parser) meansRa(r *Item, at span) {
	r.at["symbol"] = span{at.from, at.from}
	r.at["mark"] = at
	if r.sym = symbolBy(p.edition, "Ra", 'R'); r.sym.Key != "" {
		r.name(nil)
		return
	}
	r.sym, r.open = symbolBy(standards.ISO21920, "Ra", 'R'), true
	p.foreign = append(p.foreign, foreign{"symbol", at, r, []standards.EditionID{standards.ISO4287, standards.ISO21920}})
}

// gradeMeaning holds the bracket behind a grade against it: N7 (Ra 1,6).
func (p *parser) gradeMeaning(r *Item, brackets span) {
	inner := p.fresh()
	p.symbolAndLimit(inner)
	if !p.done() || inner.second != nil || inner.open || r.second != nil {
		p.bad(p.pos, "in the bracket of a grade stands the limit of Ra that it means")
	}
	p.expand(inner)
	p.closed(r, brackets)
	ra := standards.GradeLimit(r.Mark)
	if inner.sym.Key == r.sym.Key && standards.Near(inner.Limit, ra) && inner.Side == r.Side {
		return
	}
	r.hidden, r.open, r.limitOpen = true, true, true
	text := strings.TrimSpace(p.source(span{brackets.from + 1, brackets.to - 1}))
	mark := r.at["mark"]
	r.ask("grade", fmt.Sprintf("%s is Ra %s µm, and the bracket says %s: which one holds?", r.Mark, shortest(ra), text), mark,
		pick("grade", r.Mark, edit{span{mark.to, brackets.to}, ""}), pick("bracket", text, edit{span{mark.from, brackets.to}, text}))
}

// bare reads a number without a symbol, or two; rms is where RMS stands before it.
func (p *parser) bare(r *Item, rms span) {
	begin := p.pos
	if rms.to > 0 {
		begin = rms.from
	}
	r.sym = symbolBy(standards.ISO21920, "Ra", 'R') // Ra, for its kind of number
	r.first = p.amount(false)
	if next := p.peek(1); r.first.to == p.pos && !unicode.IsLetter(next) && !isDigit(next) {
		if m, ok := marks1982[p.peek(0)]; ok {
			p.pos++
			p.oldJIS(r, m, span{begin, p.pos})
			return
		}
	}
	p.second(r, false)
	number := span{begin, p.pos}
	here := number.to
	p.blanks()
	named := false
	for _, w := range []string{"RMS", "AA", "CLA"} {
		if at := p.pos; p.take(w) {
			named, here = true, p.pos
			if w == "RMS" {
				if rms.to > 0 {
					p.bad(at, "RMS stands twice")
				}
				rms = span{at, p.pos}
			}
		}
	}
	p.pos = here
	all := span{begin, here}
	switch {
	case rms.to > 0:
		r.open, r.Mark = true, "RMS"
		r.at["symbol"] = all
		p.askRMS(r, all)
	case p.edition == standards.ASMEB46 || named:
		p.meansRa(r, all)
	default:
		r.hidden, r.open = true, true
		r.at["mark"] = all
		p.askBare(r, number)
	}
}

// A mark1982 is a letter behind a number in JIS B 0601:1982: 25S, 25Z, 1,6a.
type mark1982 struct {
	own, today string // keys of the parameter, in that edition and in others
	text       string
}

var marks1982 = map[rune]mark1982{'S': {"Rmax1982", "Rz", "the maximum height"}, 'Z': {"Rz1982", "RzJIS", "the ten-point height"}, 'a': {"Ra", "Ra", "the centre-line average"}}

// oldJIS takes a number with the letter of JIS B 0601:1982 behind it.
func (p *parser) oldJIS(r *Item, m mark1982, at span) {
	r.at["symbol"] = span{at.from, at.from}
	r.at["mark"] = at
	r.Mark = p.source(at)
	if p.edition == standards.JIS1982 {
		r.sym = symbolBy(p.edition, m.own, 'R')
		r.first.unit = "µm"
		r.name(nil)
		r.note("%s is the notation of JIS B 0601:1982 for %s.", r.Mark, r.sym.Name)
		return
	}
	r.hidden, r.open = true, true
	number := p.source(r.first.span) + " µm"
	var choices []choice
	for _, id := range []standards.EditionID{p.edition, standards.ISO4287} {
		if y := symbolBy(id, m.today, 'R'); y.Key != "" {
			choices = append(choices, pick(strings.ToLower(y.Name), y.Name+", "+m.text+", "+number, edit{at, y.Name + " " + number}).by(p.other(id)))
			break
		}
	}
	r.ask("mark", "The notation of JIS B 0601:1982 for "+m.text+".", at, append(choices, byEdition(standards.JIS1982))...)
}
