package callout

import (
	"slices"
	"strings"

	"example.com/furrow/standards"
)

// arguments reads what stands in brackets behind a symbol, and keeps of the symbols those that take so many.
func (p *parser) arguments(r *Item, m *match) (args []string) {
	at := p.pos
	open := *p.scanner
	for open.peek(0) == ' ' {
		open.pos++
	}
	most, least := 0, 9
	for _, y := range m.symbols {
		most, least = max(most, y.Max), min(least, y.Min)
	}
	name := m.symbols[0].Name
	having := func(n int) []standards.Symbol {
		return slices.DeleteFunc(slices.Clone(m.symbols), func(y standards.Symbol) bool { return n < y.Min || n > y.Max })
	}
	if most == 0 || open.peek(0) != '(' || open.pos > at && !isDigit(open.peek(1)) {
		if m.symbols = having(0); len(m.symbols) == 0 {
			p.bad(at, "%s needs a number in brackets, as in %s(%s)", name, name, []string{"0,5", "0,5", "10;90"}[min(least, 2)])
		}
		return nil
	}
	brackets := span{open.pos, p.closing(open.pos) + 1}
	if brackets.to == 0 {
		p.bad(p.last(), "the bracket of %s is not closed", name)
	}
	sub := *p.scanner
	sub.pos, sub.end = brackets.from+1, brackets.to-1
	inside := string(p.text[sub.pos:sub.end])
	semicolon, point := strings.Contains(inside, ";"), strings.Contains(inside, ".")
	comma := 0 // within digits
	for i := sub.pos; i+1 < sub.end; i++ {
		if p.text[i] == ',' && isDigit(p.text[i-1]) && isDigit(p.text[i+1]) {
			comma++
		}
	}
	one, two := len(having(1)) > 0, len(having(2)) > 0
	pairs := two && slices.ContainsFunc(m.symbols, func(y standards.Symbol) bool { return y.Arguments == "rr" })
	separate := !semicolon && (point || comma == 1 && (pairs || !one))
	if comma == 1 && !semicolon && !point && one && two && !pairs && !strings.HasPrefix(strings.TrimLeft(inside, "- "), "0,") {
		// A comma between two numbers, or within one.
		i := sub.pos + slices.Index(p.text[sub.pos:], ',')
		r.ask("number", "The comma in the brackets is a decimal mark, or it sets two numbers apart.", brackets,
			pick("two", "two numbers", edit{span{i, i + 1}, "; "}), pick("one", "one number", edit{span{i, i + 1}, "."}))
		r.open = true
	}
	var list []*amount
	for more := true; more; {
		sub.blanks()
		part := sub
		if i := slices.Index(p.text[part.pos:part.end], ','); separate && i >= 0 {
			part.end = part.pos + i
		}
		a := part.amount(true)
		sub.pos = part.pos
		if a.unit != "" && a.unit != "%" {
			if !has(a.unit, standards.Spacing) {
				p.badNumber(a.unitAt.from, "%s takes no number in %s", name, a.unit)
			}
			a.text = shortest(a.in(a.unit, standards.Spacing))
		}
		a.text = trimNumber(a.text)
		list = append(list, a)
		if more = !sub.done(); more {
			if c := sub.peek(0); c != ';' && c != ',' {
				p.bad(sub.pos, "a closing bracket is expected here, not %s", sub.rest())
			}
			sub.pos++
		}
	}
	if m.symbols = having(len(list)); len(m.symbols) == 0 {
		p.bad(brackets.from, "%s takes another number of values in brackets than %d; set two values apart by a semicolon", name, len(list))
	}
	kinds := m.symbols[0].Arguments
	for i, a := range list {
		kind, text, v := kinds[i], a.written(), a.times(0)
		if a.unit != "" && (a.unit == "%") != (kind == 'r') || kind == 'n' && a.unit != "" {
			p.badNumber(a.at.from, "%s takes no value in %s at this place of its brackets", name, a.unit)
		}
		if kind == 'x' && a.unit == "" && v < 50 {
			r.ask("unit", "A length in brackets: millimetre or micrometre?", brackets,
				pick("millimetre", text+" mm", insert(sub.end, " mm")), pick("micrometre", text+" µm", insert(sub.end, " µm")))
			r.open = true
		}
		if kind == 'r' && (v > 100 || a.negative) {
			p.badNumber(a.at.from, "a material ratio lies between 0 and 100 %%")
		}
		args = append(args, text)
	}
	if kinds == "rr" && len(list) == 2 && list[0].times(0) >= list[1].times(0) {
		p.badNumber(list[1].at.from, "the first material ratio is below the second")
	}
	p.pos = brackets.to
	return args
}
