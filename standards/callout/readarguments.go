package callout

import (
	"slices"
	"strings"

	"example.com/furrow/standards"
)

// argumentKinds tells what stands in brackets, by the key of the parameter: l a level, r a ratio, x a length along the surface, n a number.
var argumentKinds = map[string]string{"Rmr": "l", "RmrFrom": "rl", "Rmc": "r", "Rdc": "rr", "Htp": "rr", "Rvm": "r", "Rvv": "r", "Rvmp": "r", "Rvmc": "rr",
	"Rvvc": "rr", "Rvvv": "r", "Tp": "l", "RPcBand": "ll", "Pc": "ll", "HSC": "l", "Ral": "n", "Rzx": "x"}

// arguments reads what stands in brackets behind a symbol, and keeps of the symbols those that take so many.
func (p *parser) arguments(r *Requirement, m *match) (args []string, err error) {
	at := p.pos
	open := p.pos
	for open < p.end && p.text[open] == ' ' {
		open++
	}
	most, least := 0, 9
	for _, y := range m.symbols {
		most, least = max(most, y.Max), min(least, y.Min)
	}
	name := m.symbols[0].Name
	if most == 0 || open >= p.end || p.text[open] != '(' || open > at && !isDigit(runeAt(p.text, open+1)) {
		if m.symbols = having(m.symbols, 0); len(m.symbols) == 0 {
			return nil, p.fail(at, ErrSyntax, "%s needs a number in brackets, as in %s(%s)", name, name, []string{"0,5", "0,5", "10;90"}[min(least, 2)])
		}
		return nil, nil
	}
	end := p.closing(open)
	if end < 0 {
		return nil, p.fail(p.last(), ErrSyntax, "the bracket of %s is not closed", name)
	}
	sub := &scanner{raw: p.raw, text: p.text, pos: open + 1, end: end}
	inside := string(p.text[open+1 : end])
	semicolon, point := strings.Contains(inside, ";"), strings.Contains(inside, ".")
	comma := 0
	for i := open + 1; i+1 < end; i++ {
		if p.text[i] == ',' && isDigit(p.text[i-1]) && isDigit(p.text[i+1]) {
			comma++
		}
	}
	one, two := len(having(m.symbols, 1)) > 0, len(having(m.symbols, 2)) > 0
	pairs := two && slices.ContainsFunc(m.symbols, func(y standards.Symbol) bool { return argumentKinds[y.Key] == "rr" })
	separate := !semicolon && (point || comma == 1 && (pairs || !one))
	if comma == 1 && !semicolon && !point && one && two && !pairs && !strings.HasPrefix(strings.TrimLeft(inside, "- "), "0,") {
		// A comma between two numbers, or within one.
		i := open + 1 + slices.Index(p.text[open+1:end], ',')
		r.ask("number", "settings", "The comma in the brackets is a decimal mark, or it sets two numbers apart.", span{open, end + 1},
			choice{"two", "two numbers", []edit{{i, i + 1, "; "}}, ""}, choice{"one", "one number", []edit{{i, i + 1, "."}}, ""})
		r.open = true
	}
	type argument struct {
		text, unit string
		at         int
	}
	var list []argument
	for {
		sub.blanks()
		a := argument{at: sub.pos}
		if sub.peek(0) == '-' {
			sub.pos++
			a.text = "-"
			sub.blanks()
		}
		part := *sub
		if separate {
			for i := sub.pos; i < end; i++ {
				if p.text[i] == ',' {
					part.end = i
					break
				}
			}
		}
		d, err := part.decimal()
		if err != nil {
			return nil, err
		}
		sub.pos = part.pos
		var where span
		if a.unit, where = sub.unit(); a.unit != "" && a.unit != "%" {
			v, ok := micrometres(d, a.unit)
			if !ok {
				return nil, p.fail(where.from, ErrNumber, "%s takes no number in %s", name, a.unit)
			}
			d.text = shortest(v)
		}
		a.text += trimNumber(d.text)
		list = append(list, a)
		if sub.done() {
			break
		}
		if c := sub.peek(0); c != ';' && c != ',' {
			return nil, p.fail(sub.pos, ErrSyntax, "a closing bracket is expected here, not %s", sub.rest())
		}
		sub.pos++
	}
	if m.symbols = having(m.symbols, len(list)); len(m.symbols) == 0 {
		return nil, p.fail(open, ErrSyntax, "%s takes another number of values in brackets than %d; set two values apart by a semicolon", name, len(list))
	}
	kinds := argumentKinds[m.symbols[0].Key]
	for i, a := range list {
		kind := "x"
		if kinds != "" {
			kind = kinds[i : i+1]
		}
		if a.unit == "%" && kind != "r" || a.unit != "" && a.unit != "%" && (kind == "r" || kind == "n") {
			return nil, p.fail(a.at, ErrNumber, "%s takes no value in %s at this place of its brackets", name, a.unit)
		}
		if v := (decimal{text: strings.TrimPrefix(a.text, "-")}).times(0); kind == "x" && a.unit == "" && v < 50 {
			to := sub.end
			r.ask("unit", "settings", "A length in brackets: millimetre or micrometre?", span{open, end + 1},
				choice{"millimetre", a.text + " mm", []edit{{to, to, " mm"}}, ""}, choice{"micrometre", a.text + " µm", []edit{{to, to, " µm"}}, ""})
			r.open = true
		}
		if v := (decimal{text: strings.TrimPrefix(a.text, "-")}).times(0); kind == "r" && (v > 100 || a.text[0] == '-') {
			return nil, p.fail(a.at, ErrNumber, "a material ratio lies between 0 and 100 %%")
		}
		args = append(args, a.text)
	}
	if kinds == "rr" && len(list) == 2 && !((decimal{text: args[0]}).times(0) < (decimal{text: args[1]}).times(0)) {
		return nil, p.fail(list[1].at, ErrNumber, "the first material ratio is below the second")
	}
	p.pos = end + 1
	return args, nil
}

func runeAt(text []rune, i int) rune {
	if i < len(text) {
		return text[i]
	}
	return 0
}

// having returns the symbols that take n arguments.
func having(list []standards.Symbol, n int) (fit []standards.Symbol) {
	for _, y := range list {
		if y.Min <= n && n <= y.Max {
			fit = append(fit, y)
		}
	}
	return fit
}

// oneKey leaves out symbols of a parameter that stands before.
func oneKey(list []standards.Symbol) (kept []standards.Symbol) {
	for _, y := range list {
		if !slices.ContainsFunc(kept, func(k standards.Symbol) bool { return k.Key == y.Key && k.Letter == y.Letter }) {
			kept = append(kept, y)
		}
	}
	return kept
}
