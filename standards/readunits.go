package standards

import (
	"strconv"
	"strings"
	"unicode"
)

// A unitRow is a unit with the spellings that are read as it and the kinds of number that have it. The factors lead to the unit of the
// catalogue: µm for lengths, per cent, a number on 10 mm for counts, 1/mm for densities.
type unitRow struct {
	unit      string
	spellings []string // longest first where one begins another
	factor    float64
	tenth     int // power of ten of a factor that is one; then factor is 1, and the number stays exact
	count     float64
	kinds     []Quantity
}

var lengths = []Quantity{Height, Spacing}

var unitTable = []unitRow{
	{"µm²/mm", []string{"µm²/mm", "um²/mm", "µm^2/mm", "um^2/mm", "µm2/mm", "um2/mm"}, 1, -3, 0, []Quantity{Area}},
	{"µin", []string{"microinches", "microinch", "µinch", "uinch", "µin", "uin"}, 0.0254, 0, 0, lengths},
	{"µm", []string{"micrometres", "micrometers", "micrometre", "micrometer", "microns", "micron", "µm", "um", "mu", "µ"}, 1, 0, 0, []Quantity{Height, Spacing, Area}},
	{"mm", []string{"mm"}, 1, 3, 0, lengths},
	{"nm", []string{"nm"}, 1, -3, 0, lengths},
	{"in", []string{"inch", "in"}, 25400, 0, 0, lengths},
	{"%", []string{"%"}, 1, 0, 0, []Quantity{Ratio}},
	{"1/cm", []string{"1/cm", "/cm", "per cm"}, 0.1, 0, 1, []Quantity{PeakCount, PerLength}},
	{"1/mm", []string{"1/mm", "/mm", "per mm"}, 1, 0, 10, []Quantity{PeakCount, PerLength}},
	{"1/in", []string{"1/in", "/in", "per inch"}, 1 / 25.4, 0, 10 / 25.4, []Quantity{PeakCount, PerLength}},
}

// unit reads a unit, with or without a blank before it, and returns "" when none stands there.
func (s *scanner) unit() (string, span) {
	from := s.pos
	s.blanks()
	for _, u := range unitTable {
		for _, w := range u.spellings {
			n := s.at(s.pos, w)
			if r := s.peek(n); n > 0 && !isDigit(r) && (u.unit == "%" || !unicode.IsLetter(r)) {
				at := span{s.pos, s.pos + n}
				s.pos += n
				return u.unit, at
			}
		}
	}
	s.pos = from
	return "", span{from, from}
}

func unitOf(name string) unitRow {
	for _, u := range unitTable {
		if u.unit == name {
			return u
		}
	}
	return unitRow{factor: 1}
}

// spelledUnit finds a unit by any of its spellings, whatever the case.
func spelledUnit(text string) (unitRow, bool) {
	text = strings.Replace(text, "μ", "µ", 1)
	for _, u := range unitTable {
		for _, w := range u.spellings {
			if strings.EqualFold(w, text) {
				return u, true
			}
		}
	}
	return unitRow{}, false
}

// ReadNumber takes a number that a person typed, with a point or a comma, to the unit in which values of a symbol of an edition are
// counted, and returns the unit as it is usually spelled. ok is false for a unit that the symbol cannot have, and for what is no number.
func ReadNumber(edition, symbol, number, unit string) (v float64, spelled string, ok bool) {
	q := quantityIn(edition, symbol)
	d := decimal{text: strings.Replace(number, ",", ".", 1)}
	if _, err := strconv.ParseFloat(d.text, 64); err != nil {
		return 0, unit, false
	}
	u, known := spelledUnit(unit)
	switch {
	case unit == "":
		return d.times(0), "", true
	case !known || !u.has(q):
		return 0, unit, false
	}
	return inUnit(d, u.unit, q), u.unit, true
}

// has tells whether a kind of number can stand in the unit.
func (u unitRow) has(q Quantity) bool {
	for _, k := range u.kinds {
		if k == q {
			return true
		}
	}
	return false
}

// inUnit converts a number to the unit in which the catalogue has its kind.
func inUnit(d decimal, unit string, q Quantity) float64 {
	u := unitOf(unit)
	switch {
	case q == PeakCount && u.count > 0:
		if u.unit == "1/mm" {
			return d.times(1)
		}
		return d.times(0) * u.count
	case u.unit == "1/cm":
		return d.times(-1)
	case u.unit == "µin":
		return d.times(0) * 254 / 10000
	}
	return d.times(u.tenth) * u.factor
}

// micrometres converts a length; ok is false for a unit that is none.
func micrometres(d decimal, unit string) (v float64, ok bool) {
	if u := unitOf(unit); u.has(Spacing) {
		return inUnit(d, unit, Spacing), true
	}
	return 0, false
}

// unitKeys name units in the answers to a question.
var unitKeys = map[string]string{"µm": "micrometre", "mm": "millimetre", "µin": "microinch", "nm": "nanometre", "in": "inch",
	"1/mm": "per-millimetre", "1/cm": "per-centimetre", "1/in": "per-inch", "µm²/mm": "square-micrometre-per-millimetre"}

// usual returns the units between which a text without one leaves the choice under an edition, and the one that is meant when there is
// no choice.
func (q Quantity) usual(edition string) (choice []string, certain string) {
	asme := edition == "asme-b46.1"
	switch {
	case q == Ratio:
		return nil, "%"
	case q == Spacing && asme:
		return []string{"µm", "mm", "µin", "in"}, ""
	case q == Spacing:
		return []string{"mm", "µm"}, ""
	case q == Height && asme:
		return []string{"µm", "µin"}, ""
	case q == Height:
		return nil, "µm"
	case q == Area:
		return []string{"µm", "µm²/mm"}, ""
	case q == PeakCount && asme:
		return []string{"1/cm", "1/in", "1/mm"}, ""
	case q == PeakCount:
		return nil, "1/cm"
	case q == PerLength:
		return []string{"1/mm", "1/cm"}, ""
	}
	return nil, ""
}
