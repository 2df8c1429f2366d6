package callout

import (
	"slices"

	"example.com/furrow/standards"
)

// say notes that max, min or a sign says which side the limit is on, and refuses what contradicts.
func (p *parser) say(r *Requirement, side standards.Side, at span, atSymbol bool) error {
	key := []string{"max", "min"}[side]
	if err := p.once(r, key, at.from); err != nil {
		return err
	}
	if r.SideWritten && r.Side != side && !(atSymbol && side == standards.Upper && r.at["side"].to > 0) {
		return p.fail(at.from, ErrSyntax, "this says %s limit, and what stands before it says %s limit", side, r.Side)
	}
	if !r.SideWritten {
		r.Side, r.SideWritten = side, true
	}
	r.at[key], r.lastPart = at, key
	if atSymbol && side == standards.Upper && p.own(form1302) {
		if err := p.once(r, "rule", at.from); err != nil {
			return err
		}
		r.Rule, r.RuleWritten, r.at["rule"] = standards.Maximum, true, at
	}
	return nil
}

// tail reads what follows the limit.
func (p *parser) tail(r *Requirement) error {
	r.at["tail"] = span{p.pos, p.pos}
	for {
		at := p.pos
		if p.done() {
			p.pos = at
			return nil
		}
		found, err := p.tailPart(r)
		if err != nil {
			return err
		}
		if !found {
			if p.begins() || p.separates() {
				p.pos = at
				return nil
			}
			return p.fail(p.pos, ErrSyntax, "%s has no meaning that is known here", p.rest())
		}
	}
}

// separates tells whether a sign comes next that can stand between two requirements.
func (p *parser) separates() bool {
	at := *p.scanner
	return at.take("or", "and", "&", "/", ",")
}

// tailPart reads one part behind the limit.
func (p *parser) tailPart(r *Requirement) (bool, error) {
	at := p.pos
	if c := p.peek(0); c == '(' || c == '[' {
		return true, p.bracket(r)
	}
	if c := p.peek(0); c == '"' {
		if err := p.once(r, "process", at); err != nil {
			return true, err
		}
		text, err := p.quoted()
		if err != nil {
			return true, err
		}
		if p.asks(text) {
			return true, p.fail(at, ErrSyntax, "a part of a requirement in quotation marks: they are for the name of a process")
		}
		r.Process, r.at["process"] = text, span{at, p.pos}
		return true, nil
	}
	if side, ok := p.extreme(); ok {
		return true, p.sideBehind(r, side, at)
	}
	for _, read := range []func(*Requirement) (bool, error){func(r *Requirement) (bool, error) { return p.part(r, false) }, p.lay, p.filters} {
		if found, err := read(r); found || err != nil {
			return true, err
		}
	}
	return false, nil
}

// asks tells whether a text in quotation marks would ask for something if it stood without them: another limit, a rule, a class.
func (p *parser) asks(text string) bool {
	for _, before := range []string{"Ra 1 ", "R 1 "} {
		if rs, err := readText(before+text, p.edition, false); err == nil {
			return rs.Items[0].Process == ""
		}
	}
	return false
}

// bracket reads a bracket behind the limit: parts, the limit in another unit, or another requirement.
func (p *parser) bracket(r *Requirement) error {
	open := p.pos
	end := p.closing(open)
	if end < 0 {
		return p.fail(open, ErrSyntax, "the bracket is not closed")
	}
	whole := p.end
	defer func() { p.end = whole }()
	p.end = end
	p.pos++
	p.blanks()
	if p.pos >= end {
		return p.fail(open, ErrSyntax, "nothing stands in the bracket")
	}
	if p.atNumber() {
		if done, err := p.repeated(r, open, end); done || err != nil {
			return err
		}
	}
	if n := p.at(p.pos, "16 %"); n == 0 && p.begins() && !p.partAhead(r) {
		if r.Mark != "" && standards.GradeLimit(r.Mark) > 0 {
			return p.gradeMeaning(r, open, end)
		}
		begin := r.at["begin"].from
		if len(p.options) > 0 {
			return p.fail(open, ErrSyntax, "the text leaves more than one choice: write the requirement that is meant")
		}
		if err := p.line(); err != nil {
			return err
		}
		if len(p.options) > 0 {
			return p.fail(open, ErrSyntax, "the text leaves more than one choice: write the requirement that is meant")
		}
		p.options = []span{{begin, open}, {open + 1, end}}
		p.signs = []span{{open, end + 1}}
		p.pos = end + 1
		return nil
	}
	for !p.done() {
		found, err := p.tailPart(r)
		if err != nil {
			return err
		}
		if !found {
			return p.fail(p.pos, ErrSyntax, "%s has no meaning that is known here", p.rest())
		}
	}
	if r.lastPart != "" && r.at[r.lastPart].from > open && onlyBlanks(p.text[open+1:r.at[r.lastPart].from]) {
		r.at[r.lastPart] = span{open, end + 1}
	}
	p.pos = end + 1
	return nil
}

func onlyBlanks(text []rune) bool {
	return !slices.ContainsFunc(text, func(r rune) bool { return !isBlank(r) })
}

// partAhead tells whether a part comes next that r does not have yet.
func (p *parser) partAhead(r *Requirement) bool {
	saved, forms := *p.scanner, len(p.foreign)
	defer func() { *p.scanner, p.foreign = saved, p.foreign[:forms] }()
	scratch := p.fresh()
	scratch.sym, scratch.args = r.sym, append([]string{"0"}, r.args...)
	found, err := p.part(scratch, false)
	if !found {
		_, found = p.extreme()
	}
	return found && err == nil && p.done()
}
