package params

import (
	"fmt"
	"html"
	"slices"
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

// A FormulaLetter is a letter of the formulas. It has one meaning in all of them.
type FormulaLetter struct {
	Key     string // in the notation: "nsc"
	Shown   string // in plain text: "n_sc"
	Meaning string
}

// Spoken returns how the letter is read: "n s c".
func (l FormulaLetter) Spoken() string { return spell(l.Shown) }

// An Equation is a formula in the three ways it is given to people.
type Equation struct {
	Plain   string          // the right-hand side as a line of text: "1/N · Σ(i=1…N) |zᵢ|"
	MathML  string          // all of it, each letter with data-letter, each symbol of a parameter with data-symbol
	Spoken  string          // all of it as a sentence
	Letters []FormulaLetter // of the right-hand side, in their order there; symbols of parameters are not among them
}

// Equation returns the formula as computed. It reads nothing but the row, so that it may be called from several goroutines.
func (p *Parameter) Equation() Equation { return equation(p.Formula) }

// DefinedEquation returns the formula as defined, empty where that is the one as computed.
func (p *Parameter) DefinedEquation() Equation {
	if p.Defined == "" {
		return Equation{}
	}
	return equation(p.Defined)
}

// equation writes a formula. A test holds all rows to the notation.
func equation(formula string) Equation {
	n, err := parseFormula(formula)
	if err != nil {
		return Equation{Plain: formula, MathML: "<math><mtext>" + html.EscapeString(formula) + "</mtext></math>", Spoken: formula}
	}
	e := Equation{MathML: `<math display="block">` + n.write(mathML) + "</math>", Spoken: tidy(n.write(spoken))}
	for i, of := range n.of {
		if of.kind == formulaSign && of.text == "=" {
			n.of = n.of[i+1:]
			break
		}
	}
	e.Plain = tidy(n.write(plain))
	n.walk(func(n formulaNode) {
		if l, ok := letterOf(n.text); n.kind == formulaName && ok && !slices.Contains(e.Letters, l) {
			e.Letters = append(e.Letters, l)
		}
	})
	return e
}

// tidy leaves one blank between words, none before a comma, and one article.
func tidy(s string) string {
	return tidied.Replace(strings.Join(strings.Fields(s), " "))
}

var tidied = strings.NewReplacer(" ,", ",", "largest the", "largest")

// walk calls f for the piece and all in it.
func (n formulaNode) walk(f func(formulaNode)) {
	f(n)
	for _, of := range n.of {
		of.walk(f)
	}
}

// letterOf returns the letter with a key.
func letterOf(key string) (FormulaLetter, bool) {
	i := slices.IndexFunc(letters, func(l FormulaLetter) bool { return l.Key == key })
	if i < 0 {
		return FormulaLetter{}, false
	}
	return letters[i], true
}

func readLetters(table string) (list []FormulaLetter) {
	for line := range strings.Lines(strings.TrimSpace(table)) {
		f := strings.SplitN(strings.TrimSpace(line), " ", 3)
		list = append(list, FormulaLetter{f[0], f[1], f[2]})
	}
	return list
}

// letters are the letters: the key in the notation, how it is shown, and what it means. Each has one meaning in all formulas.
var letters = readLetters(`
i i The running number under a sum: it counts points, sections, elements or motifs, as the sum says.
N N The number of points in the evaluation length.
z z A height above the reference line; below the line it is negative. With a number or with i it is the height of that point, z(x) is the height at the place x.
x x The place along the trace, from the start of the evaluation length.
dx Δx The point spacing: the distance from one point of the trace to the next.
le l_e The evaluation length: the part of the trace from which the values are computed.
lm l_m The length from the first point of the evaluation length to its last: (N − 1) Δx, one point spacing less than l_e. Material ratios divide by it.
l l The length of the piece that Rzx looks at; the section length unless stated.
nsc n_sc The number of sections in the evaluation length.
Zp Zp The height of the highest point of a section above the reference line; negative if the whole section is below it.
Zv Zv The depth of the lowest point of a section below the reference line, counted positive downwards; negative if the whole section is above the line.
m m The number of profile elements; in ISO 21920 the number of hills and dales that are left after joining, minus 1.
Xs Xs The spacing of a profile element: its width on the reference line, from its first crossing to its last.
Zt Zt The height of a profile element: the height of its hill plus the depth of its dale.
L L The length that a count refers to: 10 mm.
g g The local slope of the profile at a point, computed from three neighbours on each side.
Ng N_g The number of points that have a slope: N where the profile goes on beyond the evaluation length, fewer where it ends there, because a slope needs neighbours on both sides.
c c A height at which the profile is cut, measured from the reference line; c(p) is the height of the material ratio curve at the ratio p. In tp(c) it is a depth below the highest peak.
Ml Ml The material length: the total length on which the profile is at or above the cut.
p p A material ratio: the share of the length that is at or above a height. With a second ratio q, p is the smaller.
q q The larger of two material ratios.
r r The material ratio that runs from the lower to the upper bound of an integral.
d d A depth below a reference height, counted downwards.
cu c_u The upper limit of the core: the height of the equivalent straight line at 0 %.
cl c_l The lower limit of the core: the height of the equivalent straight line at 100 %.
Ar A An area between the material ratio curve and a limit of the core: 1 above the core (Rak1), 2 below it (Rak2).
a a The height of a regression line on the probability graph at the ratio 50 %; 1 is the plateau line, 2 the dale line.
b b The slope of a regression line on the probability graph; 1 is the plateau line, 2 the dale line. Both are negative.
Phi Φ The normal distribution function: it turns a number of standard deviations into a ratio between 0 and 1.
t t A shift of the profile along itself.
f f The autocorrelation function: how much the profile resembles itself after the shift t. It is 1 at t = 0.
s s The threshold to which the autocorrelation function has to fall; 0.2 unless stated.
jd j_d The number of whole waves of the sine that is strongest in the profile.
lam λ A wavelength: the length of one wave.
w w The height at a point of the profile that holds only the dominant wave.
P P A peak height in order of size: 1 is the highest. Which peaks take part depends on the parameter.
V V A pit depth in order of size: 1 is the deepest. Which pits take part depends on the parameter.
np n_p The number of peaks that are left after pruning; for Rmpc only those with three points on both sides.
nv n_v The number of pits that are left after pruning; for Rmvc only those with three points on both sides.
k2 κ The curvature at a peak or pit: one divided by the radius of the circle that fits there.
n n The number of motifs: of roughness motifs, or of waviness motifs, as the parameter says.
H H A depth of a roughness motif: one of its two end peaks minus its lowest point. Each motif has two.
Wr A_R The width of a roughness motif, from peak to peak; the symbol ARᵢ in the standard.
Hw H_W A depth of a waviness motif, on the envelope.
Ww A_W The width of a waviness motif, on the envelope; the symbol AWᵢ in the standard.
E E The envelope: straight lines through the peaks that end the roughness motifs. For waviness, outstanding peaks are lowered first; for Rke, Rpke, Rvke, Mr1e and Mr2e they keep their height.
St S The distance from one local peak of the profile to the next.
nt n_t The number of distances between neighbouring local peaks in a section.
nc n_c The number of times the profile rises above the upper level and then falls below the lower one.
nh n_h The number of separate regions of the profile above a level.
pi π The circle number, 3.1416.
`)
