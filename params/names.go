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
	// Question and Readings are set when the name is in the table of synonyms: the caller asks which is meant.
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
		readings := make([]string, len(e.Readings))
		for i, r := range e.Readings {
			readings[i] = r.String()
		}
		s += ": " + e.Question + ": " + strings.Join(readings, ", or ")
	}
	return s
}

// unknown says what an edition calls the thing asked for, as far as the name is known at all.
func unknown(edition string, letter byte, symbol string) *NameError {
	here := "for profile " + string(rune(letter))
	for _, l := range catalogue().by[editionLetter{edition, letter}] {
		if spelledAnywhere(l.parameter, letter, symbol) {
			return &NameError{Reason: edition + " spells it " + l.symbol.Name}
		}
	}
	for _, other := range []byte("PRW") {
		for _, l := range catalogue().by[editionLetter{edition, other}] {
			if l.symbol.Is(symbol) {
				return &NameError{Reason: "it is measured on profile " + string(rune(other)) + ", and asked " + here}
			}
		}
	}
	if s, ok := synonym(symbol); ok {
		return s.ask(edition)
	}
	var editions []string
	for _, e := range Editions() {
		for _, l := range catalogue().by[editionLetter{e, letter}] {
			if l.symbol.Is(symbol) {
				editions = append(editions, e)
				break
			}
		}
	}
	if len(editions) > 0 {
		return &NameError{Reason: edition + " does not have it, " + strings.Join(editions, ", ") + " does; " + has(edition, letter)}
	}
	return &NameError{Reason: "unknown; " + has(edition, letter)}
}

// has lists what an edition has for a profile.
func has(edition string, letter byte) string {
	var own []string
	for _, c := range Defaults(edition, letter) {
		own = append(own, c.String())
	}
	if len(own) == 0 {
		return edition + " has nothing for profile " + string(rune(letter))
	}
	return edition + " has for profile " + string(rune(letter)) + ": " + strings.Join(own, " ")
}

// spelledAnywhere tells whether any edition spells the row so on the profile of the letter.
func spelledAnywhere(p *Parameter, letter byte, symbol string) bool {
	for _, e := range Editions() {
		for _, l := range catalogue().by[editionLetter{e, letter}] {
			if l.parameter == p && l.symbol.Is(symbol) {
				return true
			}
		}
	}
	return false
}
