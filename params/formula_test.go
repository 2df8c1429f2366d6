package params

import (
	"encoding/xml"
	"io"
	"strings"
	"testing"
)

// TestFormulasOfTheRows: every formula is in the notation, begins with the symbol of its row, and has a plain form without a
// trace of the notation.
func TestFormulasOfTheRows(t *testing.T) {
	for _, p := range Catalogue() {
		for _, f := range []string{p.Formula, p.Defined} {
			if f == "" {
				continue
			}
			if _, err := parseFormula(f); err != nil {
				t.Errorf("%s: %v", p.Key, err)
			}
		}
		left, err := parseFormula(strings.SplitN(p.Formula, "=", 2)[0])
		if err != nil || strings.ReplaceAll(strings.SplitN(left.write(plain), "(", 2)[0], " ", "") != p.Symbol {
			t.Errorf("%s: the formula is that of %q, the symbol is %s", p.Key, left.write(plain), p.Symbol)
		}
		if plain := p.Equation().Plain; plain == "" || strings.ContainsAny(plain, "{}*^") {
			t.Errorf("%s: plain formula %q", p.Key, plain)
		}
	}
}

// TestLettersOfTheFormulas: each name in a formula is a letter of the table or a symbol of the catalogue, and each letter of the
// table is in a formula.
func TestLettersOfTheFormulas(t *testing.T) {
	symbols, used := map[string]bool{}, map[string]bool{}
	for _, p := range Catalogue() {
		symbols[p.Symbol] = true
	}
	known := map[string]bool{}
	for _, l := range letters {
		if known[l.Key] || l.Shown == "" || !strings.HasSuffix(l.Meaning, ".") {
			t.Errorf("letter %+v", l)
		}
		known[l.Key] = true
	}
	for _, p := range Catalogue() {
		n, _ := parseFormula(p.Formula)
		n.of = n.of[2:] // without the symbol and the sign
		n.walk(func(n formulaNode) {
			if n.kind == formulaName && n.text[0] > '9' {
				if used[n.text] = true; !known[n.text] && !symbols[n.text] {
					t.Errorf("%s: %s is neither a letter nor a symbol", p.Key, n.text)
				}
			}
		})
	}
	for key := range known {
		if !used[key] {
			t.Errorf("the letter %s is in no formula", key)
		}
	}
	p := Parameter{Formula: "Rpk = frac{2 × Ar_1}{Rmrk1}"}
	if l := p.Equation().Letters; len(l) != 1 || l[0].Shown != "A" {
		t.Errorf("letters %v", l)
	}
}

func TestPlainFormula(t *testing.T) {
	for formula, want := range map[string]string{
		"Ra = frac{1}{N} * sum{i=1}{N}{abs{z_i}}":                   "1/N · Σ(i=1…N) |zᵢ|",
		"Rsk = frac{1}{Rq^{3}} * frac{1}{N} * sum{i=1}{N}{z_i^{3}}": "1/Rq³ · 1/N · Σ(i=1…N) zᵢ³",
		"Rvt = -min{}{z_i}": "-min zᵢ",
		"Rzx(l) = max{x}{[max{}{z} - min{}{z}]} text{, from } x text{ to } x + l":  "max [max z - min z], from x to x + l",
		"Rmr(c) = 100% × frac{Ml(c)}{lm}":                                          "100 % · Ml(c)/l_m",
		"Rmr(p; d) = Rmr(Rmc(p) - d)":                                              "Rmr(Rmc(p) - d)",
		"Rvm(p) = int{0}{p}{[c(r) - c(p)]}{r}":                                     "∫(0…p) [c(r) - c(p)] dr",
		"Rmq = 100% × Phi(frac{a_2 - a_1}{b_1 - b_2})":                             "100 % · Φ((a₂ - a₁)/(b₁ - b₂))",
		"Ral = min{}{t} text{ with } f(t) <= s":                                    "min t with f(t) ≤ s",
		"Rdl = frac{le}{Ng} * sum{i=1}{Ng}{sqrt{1 + g_i^{2}}}":                     "l_e/N_g · Σ(i=1…N_g) √(1 + gᵢ²)",
		"g_i = frac{z_{i+3} - 9 * z_{i+2} + 45 * z_{i+1} - 45 * z_{i-1}}{60 * dx}": "(z_(i+3) - 9 · z_(i+2) + 45 · z_(i+1) - 45 · z_(i-1))/(60 · Δx)",
		"Rmpc = frac{1}{np} * sum{i=1}{np}{k2_i}":                                  "1/n_p · Σ(i=1…n_p) κᵢ",
	} {
		if got := (&Parameter{Formula: formula}).Equation().Plain; got != want {
			t.Errorf("%s:\n got %s\nwant %s", formula, got, want)
		}
	}
}

func TestFormulaRefused(t *testing.T) {
	for formula, want := range map[string]string{
		"":                     "column 1: a name, a number or a bracket is missing",
		"Ra = frac{1}":         "column 13: a group in braces is missing",
		"Ra = (z":              "column 8: ) is missing",
		"Ra = z_":              "column 8: a subscript is missing",
		"Ra = z }":             "column 8: \"}\" is left over",
		"Ra = z text{ words":   "words do not end",
		"Ra = z +":             "column 9: a name",
		"Ra = sqrt{frac{1}{2}": "} is missing",
	} {
		if _, err := parseFormula(formula); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%q: %v, want %s", formula, err, want)
		}
	}
}

// TestEquations: the MathML of every formula is well-formed, names letters that the table has and symbols that the catalogue has, and
// holds the letters of the equation; the sentence says no sign of the notation.
func TestEquations(t *testing.T) {
	symbols := map[string]bool{}
	for _, p := range Catalogue() {
		symbols[p.Symbol] = true
	}
	for _, p := range Catalogue() {
		for what, e := range map[string]Equation{"computed": p.Equation(), "defined": p.DefinedEquation()} {
			if what == "defined" && p.Defined == "" {
				if e.MathML != "" || e.Spoken != "" {
					t.Errorf("%s has a second formula %v", p.Key, e)
				}
				continue
			}
			found := map[string]bool{}
			d := xml.NewDecoder(strings.NewReader(e.MathML))
			for {
				token, err := d.Token()
				if err == io.EOF {
					break
				}
				if err != nil {
					t.Errorf("%s, %s: %v in %s", p.Key, what, err, e.MathML)
					break
				}
				start, ok := token.(xml.StartElement)
				if !ok {
					continue
				}
				if !strings.HasPrefix(start.Name.Local, "m") {
					t.Errorf("%s: an element %s", p.Key, start.Name.Local)
				}
				for _, a := range start.Attr {
					switch a.Name.Local {
					case "data-letter":
						found[a.Value] = true
						if l, ok := letterOf(a.Value); !ok || l.Meaning == "" || l.Spoken() == "" {
							t.Errorf("%s: the letter %q has no entry", p.Key, a.Value)
						}
					case "data-symbol":
						if !symbols[a.Value] {
							t.Errorf("%s: there is no symbol %q", p.Key, a.Value)
						}
					}
				}
			}
			for _, l := range e.Letters {
				if !found[l.Key] {
					t.Errorf("%s, %s: the MathML lacks the letter %s", p.Key, what, l.Key)
				}
			}
			if e.Spoken == "" || strings.ContainsAny(e.Spoken, "{}()[]^_=*×<>·Σ√∫") || strings.Contains(e.Spoken, "  ") {
				t.Errorf("%s, %s: spoken %q", p.Key, what, e.Spoken)
			}
		}
	}
}

func TestSpokenFormula(t *testing.T) {
	for formula, want := range map[string]string{
		"Ra = frac{1}{N} * sum{i=1}{N}{abs{z_i}}":                                 "R a equals 1 over N times the sum over i equals 1 to N of the absolute value of z i",
		"Rsk = frac{1}{Rq^{3}} * frac{1}{N} * sum{i=1}{N}{z_i^{3}}":               "R s k equals the fraction 1, over R q cubed, end fraction times 1 over N times the sum over i equals 1 to N of z i cubed",
		"Rzx(l) = max{x}{[max{}{z} - min{}{z}]} text{, from } x text{ to } x + l": "R z x of l equals the largest open bracket the largest z minus the smallest z close bracket over all x, from x to x plus l",
		"Rvt = -min{}{z_i}":                         "R v t equals minus the smallest z i",
		"Rmr(c) = 100% × frac{Ml(c)}{lm}":           "R m r of c equals 100 percent times M l of c over l m",
		"Rmr(p; d) = Rmr(Rmc(p) - d)":               "R m r of p, d equals R m r of open bracket R m c of p minus d close bracket",
		"Rvm(p) = int{0}{p}{[c(r) - c(p)]}{r}":      "R v m of p equals the integral from 0 to p of open bracket c of r minus c of p close bracket with respect to r",
		"Rsw = frac{N * dx}{jd}":                    "R s w equals the fraction N times delta x, over j d, end fraction",
		"Ral = min{}{t} text{ with } f(t) <= s":     "R a l equals the smallest t with f of t is at most s",
		"Rpkx = max{}{z_i} - cu text{, at least 0}": "R p k x equals the largest z i minus c u, at least 0",
	} {
		if got := (&Parameter{Formula: formula}).Equation().Spoken; got != want {
			t.Errorf("%s:\n got %s\nwant %s", formula, got, want)
		}
	}
}
