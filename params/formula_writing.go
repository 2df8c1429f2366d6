package params

import (
	"html"
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"
)

// A writing is how the pieces of a formula are written: a template for each kind, with $1 to $4 for its pieces and $t for its text, and
// one for each sign; what depends on more is a function, tried first.
type writing struct {
	kinds, signs map[string]string
	special      func(w *writing, n formulaNode) (string, bool)
}

func (n formulaNode) write(w *writing) string {
	if s, ok := w.special(w, n); ok {
		return s
	}
	template := w.kinds[n.kind]
	if n.kind == formulaSign {
		template = w.signs[n.text]
	}
	if n.kind == formulaRow {
		template = strings.Replace(template, "$*", w.row(n), 1)
	}
	var b strings.Builder
	for {
		before, after, found := strings.Cut(template, "$")
		b.WriteString(before)
		if !found {
			return b.String()
		}
		name, size := utf8.DecodeRuneInString(after)
		switch i := int(name - '1'); {
		case name == 't':
			b.WriteString(n.text)
		case 0 <= i && i < len(n.of):
			b.WriteString(n.of[i].write(w))
		default:
			b.WriteString("$" + after[:size])
		}
		template = after[size:]
	}
}

// row writes the pieces of a row side by side.
func (w *writing) row(n formulaNode) string {
	var b strings.Builder
	for i, of := range n.of {
		if unary := i == 0 || n.of[i-1].kind == formulaSign && n.of[i-1].text != "*"; unary && of.kind == formulaSign && of.text == "-" {
			of.text = "unary"
		}
		b.WriteString(of.write(w))
	}
	return b.String()
}

var (
	subscripts   = strings.NewReplacer("0", "₀", "1", "₁", "2", "₂", "3", "₃", "4", "₄", "5", "₅", "i", "ᵢ")
	superscripts = strings.NewReplacer("2", "²", "3", "³", "4", "⁴")
	spelled      = strings.NewReplacer("Δ", "delta ", "λ", "lambda ", "κ", "kappa ", "Φ", "Phi ", "π", "pi ", "_", "")
)

// plain is one line of text. Signs have a blank on both sides, so that pieces can be joined.
var plain = &writing{
	kinds: map[string]string{formulaRow: "$*", formulaNumber: "$t", formulaWords: "$t", formulaRound: "($1)", formulaSquare: "[$1]", "sqrt": "√($1)", "abs": "|$1|",
		"int": "∫($1…$2) $3 d$4", "max": "max $2", "min": "min $2"},
	signs: map[string]string{"+": " + ", "-": " - ", "unary": "-", "*": " · ", "×": " · ", "=": " = ", "<": " < ", ">": " > ", "<=": " ≤ ", ">=": " ≥ ", ",": ", ", ";": "; "},
	special: func(w *writing, n formulaNode) (string, bool) {
		switch n.kind {
		case formulaName:
			text := n.text
			if l, ok := letterOf(text); ok {
				text = l.Shown
			}
			if sub := n.of[0].write(w); sub != "" {
				if small := subscripts.Replace(sub); strings.Trim(small, "₀₁₂₃₄₅ᵢ") == "" {
					text += small
				} else {
					text += "_(" + strings.ReplaceAll(sub, " ", "") + ")"
				}
			}
			if argument := n.of[1].write(w); argument != "" {
				text += "(" + argument + ")"
			}
			return text, true
		case formulaPower:
			return n.of[0].write(w) + superscripts.Replace(n.of[1].write(w)), true
		case "sum":
			return "Σ(" + strings.ReplaceAll(n.of[0].write(w), " ", "") + "…" + n.of[1].write(w) + ") " + n.of[2].write(w), true
		case "frac":
			side := func(n formulaNode) string {
				if len(n.of) == 1 && (n.of[0].kind == formulaName || n.of[0].kind == formulaNumber || n.of[0].kind == formulaPower) {
					return n.write(w)
				}
				return "(" + n.write(w) + ")"
			}
			return side(n.of[0]) + "/" + side(n.of[1]), true
		}
		return "", false
	},
}

// mathML is the content of a math element.
var mathML = &writing{
	kinds: map[string]string{formulaRow: "<mrow>$*</mrow>", formulaRound: "<mrow><mo>(</mo>$1<mo>)</mo></mrow>", formulaSquare: "<mrow><mo>[</mo>$1<mo>]</mo></mrow>",
		formulaPower: "<msup>$1$2</msup>", "frac": "<mfrac>$1$2</mfrac>", "sqrt": "<msqrt>$1</msqrt>", "abs": "<mrow><mo>|</mo>$1<mo>|</mo></mrow>",
		"sum": "<munderover><mo>∑</mo>$1$2</munderover>$3", "int": "<msubsup><mo>∫</mo>$1$2</msubsup>$3<mo>\u2062</mo><mi mathvariant=\"normal\">d</mi>$4"},
	signs: map[string]string{"+": "<mo>+</mo>", "-": "<mo>−</mo>", "unary": "<mo>−</mo>", "*": "<mo>\u2062</mo>", "×": "<mo>×</mo>", "=": "<mo>=</mo>", "<": "<mo>&lt;</mo>",
		">": "<mo>&gt;</mo>", "<=": "<mo>≤</mo>", ">=": "<mo>≥</mo>", ",": "<mo>,</mo>", ";": "<mo>;</mo>"},
	special: func(w *writing, n formulaNode) (string, bool) {
		switch n.kind {
		case formulaName:
			text := `<mi mathvariant="normal" data-symbol="` + n.text + `">` + n.text + "</mi>"
			if l, ok := letterOf(n.text); ok {
				base, foot, sub := strings.Cut(l.Shown, "_")
				if text = `<mi data-letter="` + l.Key + `">` + base + "</mi>"; sub {
					text = `<msub data-letter="` + l.Key + `"><mi>` + base + `</mi><mi mathvariant="normal">` + foot + "</mi></msub>"
				}
			} else if n.text[0] <= '9' {
				text = "<mn>" + n.text + "</mn>"
			}
			if len(n.of[0].of) > 0 {
				text = "<msub>" + text + n.of[0].write(w) + "</msub>"
			}
			if len(n.of[1].of) > 0 {
				text += "<mo>\u2061</mo><mrow><mo>(</mo>" + n.of[1].write(w) + "<mo>)</mo></mrow>"
			}
			return text, true
		case formulaNumber:
			number, percent := strings.CutSuffix(n.text, " %")
			if number = "<mn>" + number + "</mn>"; percent {
				number += "<mtext>\u202f%</mtext>"
			}
			return number, true
		case formulaWords:
			text := strings.ReplaceAll(html.EscapeString(n.text), " ", "\u00a0") // a blank at an end would be lost
			return "<mtext>" + text + "</mtext>", true
		case "max", "min":
			if len(n.of[0].of) > 0 {
				return "<munder><mo>" + n.kind + "</mo>" + n.of[0].write(w) + "</munder>" + n.of[1].write(w), true
			}
			return "<mo>" + n.kind + "</mo>" + n.of[1].write(w), true
		}
		return "", false
	},
}

// spoken is a sentence.
var spoken = &writing{
	kinds: map[string]string{formulaRow: "$*", formulaWords: "$t", formulaRound: " open bracket $1 close bracket ", formulaSquare: " open bracket $1 close bracket ",
		"sqrt": " the square root of $1, end root ", "abs": " the absolute value of $1 ", "sum": " the sum over $1 to $2 of $3 ",
		"int": " the integral from $1 to $2 of $3 with respect to $4 "},
	signs: map[string]string{"+": " plus ", "-": " minus ", "unary": " minus ", "*": " times ", "×": " times ", "=": " equals ", "<": " is less than ", ">": " is more than ",
		"<=": " is at most ", ">=": " is at least ", ",": ", ", ";": ", "},
	special: func(w *writing, n formulaNode) (string, bool) {
		switch n.kind {
		case formulaName:
			text := spell(n.text)
			if l, ok := letterOf(n.text); ok {
				text = l.Spoken()
			}
			if len(n.of[0].of) > 0 {
				text += " " + n.of[0].write(w)
			}
			if len(n.of[1].of) > 0 {
				argument := n.of[1]
				if slices.ContainsFunc(argument.of, func(n formulaNode) bool { return n.kind == formulaSign && strings.Contains("+-", n.text) }) {
					argument = formulaNode{kind: formulaRound, of: []formulaNode{argument}}
				}
				text += " of " + argument.write(w)
			}
			return " " + text + " ", true
		case formulaNumber:
			return strings.Replace(n.text, " %", " percent", 1), true
		case formulaPower:
			exponent := strings.TrimSpace(n.of[1].write(w))
			said, ok := map[string]string{"2": " squared ", "3": " cubed "}[exponent]
			if !ok {
				said = " to the power " + exponent + " "
			}
			return n.of[0].write(w) + said, true
		case "frac":
			top, bottom := n.of[0].write(w), n.of[1].write(w)
			for _, side := range n.of {
				if len(side.of) != 1 || side.of[0].kind != formulaName && side.of[0].kind != formulaNumber {
					return " the fraction " + top + ", over " + bottom + ", end fraction ", true
				}
			}
			return top + " over " + bottom, true
		case "max", "min":
			text := map[string]string{"max": " the largest ", "min": " the smallest "}[n.kind] + n.of[1].write(w)
			if len(n.of[0].of) > 0 {
				text += " over all " + n.of[0].write(w)
			}
			return text, true
		}
		return "", false
	},
}

// spell says a name sign by sign, numbers whole: "R m r k 1", "R 10 z".
func spell(name string) string {
	var b strings.Builder
	last := 'a'
	for _, r := range name {
		if !unicode.IsDigit(r) || !unicode.IsDigit(last) {
			b.WriteByte(' ')
		}
		b.WriteString(spelled.Replace(string(r)))
		last = r
	}
	return tidy(b.String())
}
