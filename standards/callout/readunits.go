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
				s.pos += n
				return u.Name, span{s.pos - n, s.pos}
			}
		}
	}
	s.pos = from
	return "", span{from, from}
}

// has tells whether a kind of number can stand in a unit.
func has(unit string, q standards.Quantity) bool {
	u, _ := standards.UnitOf(unit)
	return u.Has(q)
}

// in converts a number to the unit in which the catalogue has its kind; one without a unit stays as it is.
func (d decimal) in(unit string, q standards.Quantity) float64 {
	u, _ := standards.UnitOf(unit)
	return u.Own(d.text, q)
}

// unitKeys name units in the answers to a question.
var unitKeys = map[string]string{"µm": "micrometre", "mm": "millimetre", "µin": "microinch", "nm": "nanometre", "in": "inch",
	"1/mm": "per-millimetre", "1/cm": "per-centimetre", "1/in": "per-inch", "µm²/mm": "square-micrometre-per-millimetre"}

// usualUnits are the units between which a text without one leaves the choice, by the kind of number; one alone is meant when there is no
// choice. Under ASME B46.1 the drawing says whether inches are meant.
var usualUnits = map[standards.Quantity][]string{
	standards.Ratio: {"%"}, standards.Height: {"µm"}, standards.Spacing: {"mm", "µm"}, standards.Area: {"µm", "µm²/mm"},
	standards.PeakCount: {"1/cm"}, standards.PerLength: {"1/mm", "1/cm"},
}

var usualUnitsASME = map[standards.Quantity][]string{
	standards.Height: {"µm", "µin"}, standards.Spacing: {"µm", "mm", "µin", "in"}, standards.PeakCount: {"1/cm", "1/in", "1/mm"},
}

// usual returns the usual units of a kind of number in the texts of the edition.
func (p *parser) usual(q standards.Quantity) []string {
	if list := usualUnitsASME[q]; list != nil && p.edition == standards.ASMEB46 {
		return list
	}
	return usualUnits[q]
}
