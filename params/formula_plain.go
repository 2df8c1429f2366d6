package params

import "strings"

// PlainFormula returns the right-hand side of the formula as a line of plain text: "1/N · Σ(i=1…N) |zᵢ|".
func (p *Parameter) PlainFormula() string {
	return strings.Join(strings.Fields(p.right().plain()), " ")
}

// right returns what follows the first equals sign of the formula. A test holds all rows to the notation.
func (p *Parameter) right() formulaNode {
	n, err := parseFormula(p.Formula)
	if err != nil {
		return formulaNode{kind: formulaWords, text: p.Formula}
	}
	for i, of := range n.of {
		if of.kind == formulaSign && of.text == "=" {
			n.of = n.of[i+1:]
			break
		}
	}
	return n
}

// shownAs returns a name of a formula in plain text: a letter as the table of letters has it, a symbol as it stands.
func shownAs(name string) string {
	for i := range letters {
		if letters[i].Key == name {
			return letters[i].Shown
		}
	}
	return name
}

var (
	subscripts   = strings.NewReplacer("0", "₀", "1", "₁", "2", "₂", "3", "₃", "4", "₄", "5", "₅", "i", "ᵢ")
	superscripts = strings.NewReplacer("2", "²", "3", "³", "4", "⁴")
)

// plain writes a piece. Signs have a blank on both sides, so that pieces can be joined.
func (n formulaNode) plain() string {
	switch n.kind {
	case formulaRow:
		var b strings.Builder
		for i, of := range n.of {
			if unary := i == 0 || n.of[i-1].kind == formulaSign && n.of[i-1].text != "*"; unary && of.kind == formulaSign && of.text == "-" {
				b.WriteString("-")
				continue
			}
			b.WriteString(of.plain())
		}
		return b.String()
	case formulaSign:
		switch n.text {
		case "*", "×":
			return " · "
		case "<=":
			return " ≤ "
		case ">=":
			return " ≥ "
		case ",", ";":
			return n.text + " "
		}
		return " " + n.text + " "
	case formulaName:
		text := shownAs(n.text)
		if sub := n.of[0].plain(); sub != "" {
			if small := subscripts.Replace(sub); strings.Trim(small, "₀₁₂₃₄₅ᵢ") == "" {
				text += small
			} else {
				text += "_(" + strings.ReplaceAll(sub, " ", "") + ")"
			}
		}
		if argument := n.of[1].plain(); argument != "" {
			text += "(" + argument + ")"
		}
		return text
	case formulaNumber, formulaWords:
		return n.text
	case formulaPower:
		return n.of[0].plain() + superscripts.Replace(n.of[1].plain())
	case formulaRound:
		return "(" + n.of[0].plain() + ")"
	case formulaSquare:
		return "[" + n.of[0].plain() + "]"
	case "frac":
		return n.of[0].part() + "/" + n.of[1].part()
	case "sqrt":
		return "√(" + n.of[0].plain() + ")"
	case "abs":
		return "|" + n.of[0].plain() + "|"
	case "sum":
		return "Σ(" + strings.ReplaceAll(n.of[0].plain(), " ", "") + "…" + n.of[1].plain() + ") " + n.of[2].plain()
	case "int":
		return "∫(" + n.of[0].plain() + "…" + n.of[1].plain() + ") " + n.of[2].plain() + " d" + n.of[3].plain()
	case "max", "min":
		return n.kind + " " + n.of[1].plain()
	}
	return ""
}

// part writes a piece so that it stays whole beside the stroke of a fraction.
func (n formulaNode) part() string {
	if len(n.of) == 1 {
		switch n.of[0].kind {
		case formulaName, formulaNumber, formulaPower:
			return n.plain()
		}
	}
	return "(" + n.plain() + ")"
}
