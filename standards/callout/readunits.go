package callout

import (
	"unicode"

	"example.com/furrow/standards"
)

// unit reads a unit, with or without a blank before it, and returns "" when none stands there.
func (s *scanner) unit() (string, span) {
	from := s.pos
	s.blanks()
	for u := range standards.Units() {
		for w := range u.Spellings() {
			n := s.at(s.pos, w)
			if r := s.peek(n); n > 0 && !isDigit(r) && (u.Name == "%" || !unicode.IsLetter(r)) {
				at := span{s.pos, s.pos + n}
				s.pos += n
				return u.Name, at
			}
		}
	}
	s.pos = from
	return "", span{from, from}
}

// micrometres converts a length; ok is false for a unit that is none.
func micrometres(d decimal, unit string) (v float64, ok bool) {
	if u, known := standards.UnitOf(unit); known && u.Has(standards.Spacing) {
		return u.Own(d.text, standards.Spacing), true
	}
	return 0, false
}

// inUnit converts a number to the unit in which the catalogue has its kind; one without a unit stays as it is.
func inUnit(d decimal, unit string, q standards.Quantity) float64 {
	u, _ := standards.UnitOf(unit)
	return u.Own(d.text, q)
}

// has tells whether a kind of number can stand in a unit.
func has(unit string, q standards.Quantity) bool {
	u, _ := standards.UnitOf(unit)
	return u.Has(q)
}

// unitKeys name units in the answers to a question.
var unitKeys = map[string]string{"µm": "micrometre", "mm": "millimetre", "µin": "microinch", "nm": "nanometre", "in": "inch",
	"1/mm": "per-millimetre", "1/cm": "per-centimetre", "1/in": "per-inch", "µm²/mm": "square-micrometre-per-millimetre"}

// usualUnits returns the units between which a text without one leaves the choice under an edition, and the one that is meant when there is
// no choice.
func usualUnits(q standards.Quantity, edition standards.EditionID) (choice []string, certain string) {
	asme := edition == standards.ASMEB46
	switch {
	case q == standards.Ratio:
		return nil, "%"
	case q == standards.Spacing && asme:
		return []string{"µm", "mm", "µin", "in"}, ""
	case q == standards.Spacing:
		return []string{"mm", "µm"}, ""
	case q == standards.Height && asme:
		return []string{"µm", "µin"}, ""
	case q == standards.Height:
		return nil, "µm"
	case q == standards.Area:
		return []string{"µm", "µm²/mm"}, ""
	case q == standards.PeakCount && asme:
		return []string{"1/cm", "1/in", "1/mm"}, ""
	case q == standards.PeakCount:
		return nil, "1/cm"
	case q == standards.PerLength:
		return []string{"1/mm", "1/cm"}, ""
	}
	return nil, ""
}
