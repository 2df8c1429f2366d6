package params

import (
	"fmt"
	"strings"
	"unicode"
	"unicode/utf8"
)

// A formula is one line in the notation of the rows: a letter or a symbol is a name, z_i has a subscript, x^{2} a power,
// f(x) is a function; a * b is a product without a sign, a × b one with a sign; frac{a}{b}, sqrt{a}, abs{a},
// sum{i=1}{N}{a}, int{from}{to}{f}{x}, max{over}{a} and min{over}{a} take groups; text{...} is words.
//
//	formula = sum { ( "=" | "<" | ">" | "<=" | ">=" | "," | ";" | text ) [ sum ] }
//	sum     = [ "+" | "-" ] product { ( "+" | "-" ) product }
//	product = power { ( "*" | "×" ) power }
//	power   = primary [ "^" group ]
//	primary = number [ "%" ] | "(" formula ")" | "[" formula "]" | command group …
//	        | name [ "_" ( name | number | group ) ] [ "(" formula ")" ]
//	group   = "{" [ formula ] "}"
//
// A formulaNode is a piece of one. Its kind is the command, or one of those below.
type formulaNode struct {
	kind string
	text string // of a name, number, sign or words
	of   []formulaNode
}

const (
	formulaRow    = "row"    // pieces side by side, signs among them
	formulaName   = "name"   // text; of: the subscript and the argument, each a row that may be empty
	formulaNumber = "number" // text
	formulaSign   = "sign"   // text
	formulaWords  = "text"   // text
	formulaPower  = "power"  // of: base, exponent
	formulaRound  = "("      // of: what is inside
	formulaSquare = "["
)

// groupsOf is how many groups a command takes.
var groupsOf = map[string]int{"frac": 2, "sqrt": 1, "abs": 1, "sum": 3, "int": 4, "max": 2, "min": 2}

// parseFormula reads a formula.
func parseFormula(s string) (formulaNode, error) {
	p := &formulaParser{s: s}
	n := p.formula()
	if p.skip(); p.err == nil && p.at < len(s) {
		p.fail("%q is left over", s[p.at:])
	}
	return n, p.err
}

type formulaParser struct {
	s   string
	at  int
	err error
}

func (p *formulaParser) fail(format string, args ...any) {
	if p.err == nil {
		p.err = fmt.Errorf("params: formula %q, column %d: %s", p.s, utf8.RuneCountInString(p.s[:p.at])+1, fmt.Sprintf(format, args...))
	}
	p.at = len(p.s)
}

func (p *formulaParser) skip() {
	for p.at < len(p.s) && p.s[p.at] == ' ' {
		p.at++
	}
}

// take passes the first of the signs that stands here, "" when none does.
func (p *formulaParser) take(signs ...string) string {
	p.skip()
	for _, s := range signs {
		if strings.HasPrefix(p.s[p.at:], s) {
			p.at += len(s)
			return s
		}
	}
	return ""
}

func (p *formulaParser) formula() formulaNode {
	row := formulaNode{kind: formulaRow, of: p.sum()}
	for {
		if p.take("text{") != "" {
			end := strings.IndexByte(p.s[p.at:], '}')
			if end < 0 {
				p.fail("words do not end")
				return row
			}
			row.of = append(row.of, formulaNode{kind: formulaWords, text: p.s[p.at : p.at+end]})
			p.at += end + 1
		} else if sign := p.take("<=", ">=", "=", "<", ">", ",", ";"); sign != "" {
			row.of = append(row.of, formulaNode{kind: formulaSign, text: sign})
		} else {
			return row
		}
		if p.skip(); p.at < len(p.s) && !strings.ContainsRune(")]}=<>,;", rune(p.s[p.at])) && !strings.HasPrefix(p.s[p.at:], "text{") {
			row.of = append(row.of, p.sum()...)
		}
	}
}

func (p *formulaParser) sum() []formulaNode {
	var row []formulaNode
	sign := p.take("+", "-")
	for {
		if sign != "" {
			row = append(row, formulaNode{kind: formulaSign, text: sign})
		}
		row = append(row, p.product()...)
		if sign = p.take("+", "-"); sign == "" {
			return row
		}
	}
}

func (p *formulaParser) product() []formulaNode {
	row := []formulaNode{p.power()}
	for {
		sign := p.take("*", "×")
		if sign == "" {
			return row
		}
		row = append(row, formulaNode{kind: formulaSign, text: sign}, p.power())
	}
}

func (p *formulaParser) power() formulaNode {
	base := p.primary()
	if p.take("^") != "" {
		return formulaNode{kind: formulaPower, of: []formulaNode{base, p.group()}}
	}
	return base
}

func (p *formulaParser) primary() formulaNode {
	for open, end := range map[string]string{formulaRound: ")", formulaSquare: "]"} {
		if p.take(open) != "" {
			return formulaNode{kind: open, of: []formulaNode{p.inside(end)}}
		}
	}
	word := p.word()
	switch {
	case word == "":
		p.fail("a name, a number or a bracket is missing")
		return formulaNode{kind: formulaRow}
	case unicode.IsDigit(rune(word[0])):
		if p.at < len(p.s) && p.s[p.at] == '%' {
			p.at++
			word += " %"
		}
		return formulaNode{kind: formulaNumber, text: word}
	}
	if n, ok := groupsOf[word]; ok && strings.HasPrefix(p.s[p.at:], "{") {
		c := formulaNode{kind: word}
		for range n {
			c.of = append(c.of, p.group())
		}
		return c
	}
	name := formulaNode{kind: formulaName, text: word, of: make([]formulaNode, 2)}
	if p.at < len(p.s) && p.s[p.at] == '_' {
		p.at++
		if p.at < len(p.s) && p.s[p.at] == '{' {
			name.of[0] = p.group()
		} else if sub := p.word(); sub != "" {
			name.of[0] = formulaNode{kind: formulaRow, of: []formulaNode{{kind: formulaName, text: sub, of: make([]formulaNode, 2)}}}
		} else {
			p.fail("a subscript is missing")
		}
	}
	if p.at < len(p.s) && p.s[p.at] == '(' {
		p.at++
		name.of[1] = p.inside(")")
	}
	return name
}

// word reads letters and digits, or digits alone.
func (p *formulaParser) word() string {
	p.skip()
	start := p.at
	for p.at < len(p.s) {
		r, n := utf8.DecodeRuneInString(p.s[p.at:])
		if !unicode.IsLetter(r) && !unicode.IsDigit(r) || !unicode.IsDigit(r) && p.at > start && unicode.IsDigit(rune(p.s[start])) {
			break
		}
		p.at += n
	}
	return p.s[start:p.at]
}

func (p *formulaParser) group() formulaNode {
	if p.take("{") == "" {
		p.fail("a group in braces is missing")
		return formulaNode{kind: formulaRow}
	}
	if p.take("}") != "" {
		return formulaNode{kind: formulaRow}
	}
	return p.inside("}")
}

func (p *formulaParser) inside(end string) formulaNode {
	n := p.formula()
	if p.take(end) == "" {
		p.fail("%s is missing", end)
	}
	return n
}
