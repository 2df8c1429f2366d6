package params

import (
	"strconv"
	"strings"
)

// A NameError says why a name is not a parameter of an edition, and what the edition has instead.
type NameError struct {
	Name    string
	Edition string
	Letter  byte
	Column  int // in characters from 1, where the name cannot be read; else 0
	Reason  string
	// Question and Readings are set when the name means different things: the caller asks which.
	Question string
	Readings []Reading
}

// Error returns the name, the place, the reason and what to ask for instead.
func (e *NameError) Error() string {
	s := "params: " + strconv.Quote(e.Name)
	if e.Column > 0 {
		s += ", column " + strconv.Itoa(e.Column)
	}
	s += ": " + e.Reason
	if e.Question != "" {
		s += ": " + e.Question
		for i, r := range e.Readings {
			s += [2]string{"; ", " "}[min(1, 1-min(i, 1))] + r.String()
		}
	}
	return s
}

// unknown says what an edition calls the thing asked for, as far as a name is known at all.
func unknown(edition string, letter byte, symbol string) *NameError {
	if s, ok := Synonyms()[fold(symbol)]; ok {
		return s.ask(edition, letter, symbol)
	}
	var own []string
	for i := range rows {
		p := &rows[i]
		m := p.in(edition, letter)
		elsewhere := p.spelledAnywhere(symbol)
		switch {
		case m != nil && elsewhere:
			return &NameError{Reason: edition + " spells it " + spell(p.spelling(m), p.letters(m), letter)}
		case elsewhere:
			own = append(own, p.where())
		}
	}
	if len(own) > 0 {
		return &NameError{Reason: edition + " does not have it for profile " + string(rune(letter)) + "; it is in " + strings.Join(own, " and in ") +
			"; " + has(edition, letter)}
	}
	return &NameError{Reason: "unknown; " + has(edition, letter)}
}

// has lists what an edition has for a profile.
func has(edition string, letter byte) string {
	var own []string
	for _, c := range Defaults(edition, letter) {
		own = append(own, spell(c.Parameter.spelling(c.meaning), c.Parameter.letters(c.meaning), letter))
	}
	if len(own) == 0 {
		return edition + " has nothing for profile " + string(rune(letter))
	}
	return edition + " has for profile " + string(rune(letter)) + ": " + strings.Join(own, " ")
}

// spelledAnywhere tells whether any edition spells the row so, on any profile.
func (p *Parameter) spelledAnywhere(symbol string) bool {
	for i := range p.Meanings {
		m := &p.Meanings[i]
		for _, l := range []byte(p.letters(m)) {
			if p.spelled(m, l, symbol) {
				return true
			}
		}
	}
	return false
}

// where lists the editions and profiles of a row.
func (p *Parameter) where() string {
	var all []string
	for i := range p.Meanings {
		m := &p.Meanings[i]
		all = append(all, strings.Join(m.Editions, ", ")+" for profile "+strings.Join(strings.Split(p.letters(m), ""), ", "))
	}
	return strings.Join(all, "; ")
}
