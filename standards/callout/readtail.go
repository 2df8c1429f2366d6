package callout

import (
	"slices"

	"example.com/furrow/standards"
)

// say notes that max, min or a sign says which side the limit is on, and refuses what contradicts.
func (p *parser) say(r *Item, side standards.Side, at span, atSymbol bool) {
	key := []string{"max", "min"}[side]
	p.once(r, key, at.from)
	if !(atSymbol && side == standards.Upper && r.at["side"].to > 0) {
		p.agrees(r, side, at.from)
	}
	if !r.SideWritten {
		r.Side, r.SideWritten = side, true
	}
	r.at[key], r.lastPart = at, key
	if atSymbol && side == standards.Upper && p.own(form1302) {
		p.once(r, "rule", at.from)
		r.Rule, r.RuleWritten, r.at["rule"] = standards.Maximum, true, at
	}
}

// tail reads what follows the limit.
func (p *parser) tail(r *Item) {
	at := p.pos
	r.at["tail"] = span{at, at}
	for !p.done() && p.tailPart(r) {
		at = p.pos
	}
	if after := *p.scanner; p.pos < p.end && !p.begins() && !after.take("or", "and", "&", "/", ",") {
		p.unknown()
	}
	p.pos = at
}

// tailPart reads one part behind the limit.
func (p *parser) tailPart(r *Item) bool {
	at := p.pos
	switch p.peek(0) {
	case '(', '[':
		p.bracket(r)
		return true
	case '"':
		p.once(r, "process", at)
		if r.Process = p.quoted(); p.asks(r.Process) {
			p.bad(at, "a part of a requirement in quotation marks: they are for the name of a process")
		}
		r.at["process"] = span{at, p.pos}
		return true
	}
	if side, ok := p.extreme(); ok {
		p.sideBehind(r, side, at)
		return true
	}
	return p.part(r, false) || p.lay(r) || p.filters(r)
}

// asks tells whether a text in quotation marks would ask for something if it stood without them: another limit, a rule, a class.
func (p *parser) asks(text string) bool {
	for _, before := range []string{"Ra 1 ", "R 1 "} {
		if q, refused := readText(before+text, p.edition); refused == nil {
			return q.items[0].Process == ""
		}
	}
	return false
}

// bracket reads a bracket behind the limit: parts, the limit in another unit, or another requirement.
func (p *parser) bracket(r *Item) {
	brackets := span{p.pos, p.closing(p.pos) + 1}
	if brackets.to == 0 {
		p.bad(p.pos, "the bracket is not closed")
	}
	whole := p.end
	p.pos, p.end = p.pos+1, brackets.to-1
	if p.done() {
		p.bad(brackets.from, "nothing stands in the bracket")
	}
	switch {
	case p.atNumber() && p.repeated(r, brackets):
	case p.at(p.pos, "16 %") > 0 || !p.begins() || p.partAhead(r):
		for !p.done() {
			if !p.tailPart(r) {
				p.unknown()
			}
		}
		if last := r.at[r.lastPart]; r.lastPart != "" && last.from > brackets.from && !slices.ContainsFunc(p.text[brackets.from+1:last.from], func(c rune) bool { return !isBlank(c) }) {
			r.at[r.lastPart] = brackets
		}
	case r.Mark != "" && standards.GradeLimit(r.Mark) > 0:
		p.gradeMeaning(r, brackets)
	default:
		if len(p.options) > 0 {
			p.choices(brackets.from)
		}
		p.line()
		if len(p.options) > 0 {
			p.choices(brackets.from)
		}
		p.options = []span{{r.at["begin"].from, brackets.from}, {brackets.from + 1, brackets.to - 1}}
		p.signs = []span{brackets}
	}
	p.pos, p.end = brackets.to, whole
}

// partAhead tells whether a part comes next that r does not have yet.
func (p *parser) partAhead(r *Item) (ok bool) {
	return !p.ahead(func(scratch *Item) {
		scratch.sym, scratch.args = r.sym, append([]string{"0"}, r.args...)
		found := p.part(scratch, false)
		if !found {
			_, found = p.extreme()
		}
		ok = found && p.done()
	}) && ok
}
