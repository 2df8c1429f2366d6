package callout

import (
	"fmt"
	"strings"
	"unicode"

	"example.com/furrow/standards"
)

// Marks of older drawings: grades N1 to N12, triangles, the wave, 25S, and numbers without a symbol.

// markAhead tells whether a mark comes next that begins a requirement.
func (p *parser) markAhead() bool {
	return p.peek(0) == '▽' || (p.peek(0) == 'N' || p.peek(0) == 'n') && isDigit(p.peek(1))
}

// mark reads a mark, and tells whether one stood there.
func (p *parser) mark(r *Requirement) (bool, error) {
	at := p.pos
	switch {
	case p.peek(0) == '▽':
		for p.peek(0) == '▽' {
			p.pos++
		}
		if p.pos-at > 4 {
			return true, p.fail(at, ErrSyntax, "no mark has more than four triangles")
		}
		r.Mark, r.hidden, r.open = string(p.text[at:p.pos]), true, true
		p.askTriangles(r, span{at, p.pos})
		return true, nil
	case p.peek(0) == '~':
		p.pos++
		r.Mark, r.hidden, r.open = "~", true, true
		r.ask("mark", "settings", "A withdrawn mark for a surface that is left as it is. No number goes with it: write the limit that is meant.", span{at, p.pos})
		return true, nil
	case (p.peek(0) == 'N' || p.peek(0) == 'n') && isDigit(p.peek(1)):
		return true, p.grades(r)
	case p.at(at, "RMS") > 0:
		p.take("RMS")
		p.blanks()
		if !p.atNumber() {
			return true, p.fail(p.pos, ErrNumber, "the limit is expected here, not %s", p.rest())
		}
		return true, p.bare(r, span{at, p.pos})
	case p.atNumber():
		lead, err := p.leading()
		p.pos = at
		if err != nil || lead != nil {
			return false, err
		}
		return true, p.bare(r, span{})
	}
	return false, nil
}

// grades reads N7 or N8/N6.
func (p *parser) grades(r *Requirement) error {
	grade := func() (*amount, error) {
		at := p.pos
		end := at + 1
		for end < p.end && (unicode.IsLetter(p.text[end]) || isDigit(p.text[end])) {
			end++
		}
		name := strings.ToUpper(string(p.text[at:end]))
		ra := standards.GradeLimit(name)
		if ra == 0 {
			return nil, p.fail(at, ErrSyntax, "%s is no roughness grade: N1 to N12", name)
		}
		p.pos = end
		r.Mark = name
		r.note("%s is a label of older drawings (ISO 1302:1992) for an upper limit of Ra %s µm.", name, shortest(ra))
		return &amount{d: decimal{text: shortest(ra), at: at}, unit: "µm", at: span{at, end}, number: span{at, end}, unitAt: span{at, end}}, nil
	}
	begin := p.pos
	first, err := grade()
	if err != nil {
		return err
	}
	r.first = first
	here := p.pos
	p.blanks()
	if p.take("/") {
		p.blanks()
		if p.markAhead() && p.peek(0) != '▽' {
			if r.second, err = grade(); err != nil {
				return err
			}
			here = p.pos
		}
	}
	p.pos = here
	return p.meansRa(r, span{begin, here})
}

// meansRa makes the requirement one on Ra.
func (p *parser) meansRa(r *Requirement, at span) error {
	r.at["symbol"] = span{at.from, at.from}
	r.at["mark"] = at
	if r.sym = symbolBy(p.edition, "Ra", 'R'); r.sym.Key != "" {
		r.name(nil)
		return nil
	}
	r.sym, r.open = symbolBy(standards.ISO21920, "Ra", 'R'), true
	p.foreign = append(p.foreign, foreign{kind: "symbol", at: at, r: r, editions: []standards.EditionID{standards.ISO4287, standards.ISO21920}})
	return nil
}

// gradeMeaning holds the bracket behind a grade against it: N7 (Ra 1,6).
func (p *parser) gradeMeaning(r *Requirement, open, end int) error {
	inner := p.fresh()
	if err := p.symbolAndLimit(inner); err != nil {
		return err
	}
	if !p.done() || inner.second != nil || inner.open || r.second != nil {
		return p.fail(p.pos, ErrSyntax, "in the bracket of a grade stands the limit of Ra that it means")
	}
	if _, err := p.expand(inner); err != nil {
		return err
	}
	r.at["repeated"] = span{open, end + 1}
	r.at["tail"] = span{end + 1, end + 1}
	p.pos = end + 1
	if inner.sym.Key == r.sym.Key && standards.Near(inner.Limit, standards.GradeLimit(r.Mark)) && inner.Side == r.Side {
		return nil
	}
	r.hidden, r.open, r.limitOpen = true, true, true
	text := strings.TrimSpace(string(p.raw[open+1 : end]))
	r.ask("grade", "settings", fmt.Sprintf("%s is Ra %s µm, and the bracket says %s: which one holds?", r.Mark, shortest(standards.GradeLimit(r.Mark)), text), r.at["mark"],
		choice{"grade", r.Mark, []edit{{r.at["mark"].to, end + 1, ""}}, ""}, choice{"bracket", text, []edit{{r.at["mark"].from, end + 1, text}}, ""})
	return nil
}

// bare reads a number without a symbol, or two; rms is where RMS stands before it.
func (p *parser) bare(r *Requirement, rms span) error {
	begin := p.pos
	if rms.to > 0 {
		begin = rms.from
	}
	r.sym = symbolBy(standards.ISO21920, "Ra", 'R') // Ra, for its kind of number
	a, err := p.amount(false)
	if err != nil {
		return err
	}
	r.first = &a
	if a.number.to == p.pos && p.pos < p.end { // 25S, 25Z, 1,6a
		if c := p.text[p.pos]; strings.ContainsRune("SZa", c) && (p.pos+1 >= p.end || !unicode.IsLetter(p.text[p.pos+1]) && !isDigit(p.text[p.pos+1])) {
			p.pos++
			return p.oldJIS(r, c, span{begin, p.pos})
		}
	}
	if err := p.second(r, false); err != nil {
		return err
	}
	number := span{begin, p.pos}
	here := p.pos
	p.blanks()
	name := ""
	for _, w := range []string{"RMS", "AA", "CLA"} {
		if at := p.pos; p.take(w) {
			name, here = w, p.pos
			if w == "RMS" {
				if rms.to > 0 {
					return p.fail(at, ErrSyntax, "RMS stands twice")
				}
				rms = span{at, p.pos}
			}
		}
	}
	p.pos = here
	all := span{begin, p.pos}
	switch {
	case rms.to > 0:
		r.open, r.Mark = true, "RMS"
		r.at["symbol"] = all
		p.askRMS(r, all)
		return nil
	case p.edition == standards.ASMEB46 || name != "":
		if name != "" {
			r.at["name"] = span{here - len(name), here}
		}
		return p.meansRa(r, all)
	}
	r.hidden, r.open = true, true
	r.at["mark"] = all
	p.askBare(r, number)
	return nil
}

// oldJIS reads a number with the letter of JIS B 0601:1982 behind it.
func (p *parser) oldJIS(r *Requirement, letter rune, at span) error {
	r.at["symbol"] = span{at.from, at.from}
	r.at["mark"] = at
	r.Mark = p.source(at)
	key := map[rune]string{'S': "Rmax1982", 'Z': "Rz1982", 'a': "Ra"}[letter]
	if p.edition == standards.JIS1982 {
		r.sym = symbolBy(p.edition, key, 'R')
		r.first.unit = "µm"
		r.name(nil)
		r.note("%s is the notation of JIS B 0601:1982 for %s.", r.Mark, r.sym.Name)
		return nil
	}
	r.hidden, r.open = true, true
	p.askOldJIS(r, letter, at)
	return nil
}
