package standards

import (
	"fmt"
	"strings"
)

// rules are the acceptance rules as ISO 21920-1 writes them.
var rules = []struct {
	text string
	rule Rule
}{{"Tmax", Maximum}, {"T16%", SixteenPercent}, {"T16 %", SixteenPercent}, {"Tmed", Median}}

// filterLetters are those of ISO 1101; that ISO 21920-1 has the same is remembered.
var filterLetters = map[string]string{"G": "gaussian", "S": "spline", "RG": "robust-gaussian", "RS": "robust-spline"}

// tail reads what follows the limit.
func (r *Requirement) tail() error {
	s := r.s
	full := familyOf(r.Edition) == iso2021
	var bare bareElements
	if c := s.peek(0); c != 0 && c != ' ' && s.pos > 0 && s.text[s.pos-1] != ' ' {
		return s.fail(s.pos, ErrSyntax, "a blank is missing before %s", s.rest())
	}
	for !s.done() {
		at := s.pos
		switch c := s.peek(0); {
		case c == '"':
			text, err := s.quoted()
			if err != nil {
				return err
			}
			if err := r.set("process", at, func() { r.Process = text }); err != nil {
				return err
			}
		case strings.ContainsRune("=⟂", c) || (strings.ContainsRune("XMCRP", c) && (s.peek(1) == ' ' || s.peek(1) == 0)):
			s.pos++
			if err := r.set("lay", at, func() { r.Lay = string(c) }); err != nil {
				return err
			}
		case full && s.atNumber():
			d, err := s.decimal()
			if err != nil {
				return err
			}
			if n := len(bare.filters); n < 2 {
				return s.fail(at, ErrSyntax, "a number without a key: write Nis=, Nic=, lsc=, nsc= or le=")
			}
			if s.take("mm") {
				d.at = at
			}
			bare.numbers = append(bare.numbers, d)
		default:
			if done, err := r.tailWord(at, full, &bare); done || err != nil {
				if err != nil {
					return err
				}
				continue
			}
			if err := r.entry(tailKeys); err != nil {
				return err
			}
		}
	}
	return r.useBare(bare)
}

// tailWord reads an element that is a word by itself.
func (r *Requirement) tailWord(at int, full bool, bare *bareElements) (bool, error) {
	s := r.s
	for _, w := range rules {
		if !s.takeWord(w.text) {
			continue
		}
		if !full {
			return true, s.fail(at, ErrSyntax, "%s is ISO 21920-1 text; ISO 1302 writes max in the symbol, and 16 %% without a word", w.text)
		}
		if len(bare.filters) > 0 || r.Form != "" || r.Extraction != "" {
			return true, s.fail(at, ErrSyntax, "%s stands before filters, form and extraction", w.text)
		}
		return true, r.set("rule", at, func() { r.Rule, r.RuleWritten = w.rule, true })
	}
	if !full {
		return false, nil
	}
	for _, w := range []string{"max", "16%", "med"} {
		if s.takeWord(w) {
			return true, s.fail(at, ErrSyntax, "the rule is written T%s", w)
		}
	}
	for i := 1; i <= 5; i++ {
		if name := fmt.Sprintf("Sc%d", i); s.takeWord(name) {
			return true, r.set("class", at, func() { r.Class = name })
		}
	}
	if s.take("OR(") {
		n, err := s.integer()
		if err != nil {
			return true, err
		}
		if !s.take(")") {
			return true, s.fail(s.pos, ErrSyntax, "expected a closing bracket, found %s", s.rest())
		}
		r.Others = append(r.Others, n)
		return true, nil
	}
	for _, w := range []struct{ text, is string }{{"mechanical", "mechanical"}, {"optical", "optical"}, {"electromagnetic", "optical"}} {
		if s.takeWord(w.text) {
			return true, r.set("extraction", at, func() { r.Extraction = w.is })
		}
	}
	for letters, name := range filterLetters {
		from := s.pos
		if s.takeWord(letters) {
			s.blanks()
			if !s.atNumber() {
				return true, s.fail(from, ErrSyntax, "a filter without its nesting index")
			}
			d, err := s.decimal()
			if err != nil {
				return true, err
			}
			bare.filters = append(bare.filters, bareFilter{name, d, s.unit(), from})
			if len(bare.filters) > 2 {
				return true, s.fail(from, ErrSyntax, "a third filter: there is an S-filter and an L-filter")
			}
			return true, nil
		}
	}
	return false, nil
}

// set fills an entry once.
func (r *Requirement) set(key string, at int, fill func()) error {
	if _, twice := r.at[key]; twice {
		return r.s.fail(at, ErrSyntax, "%s is given twice", key)
	}
	r.at[key] = at
	fill()
	return nil
}
