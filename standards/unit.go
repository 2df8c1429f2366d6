package standards

import (
	"iter"
	"math"
	"slices"
	"strconv"
	"strings"
)

// A WrittenUnit is a unit that a limit may be written in, with the spellings that are read as it and the kinds of number that have it. The
// factors lead to the unit of the catalogue: µm for lengths, per cent, a number on 10 mm for counts, 1/mm for densities.
type WrittenUnit struct {
	Name      string   // the usual spelling
	spellings []string // longest first where one begins another
	factor    float64
	tenth     int // power of ten of a factor that is one; then factor is 1, and the number stays exact
	count     float64
	kinds     []Quantity
}

var lengths = []Quantity{Height, Spacing}

var unitTable = []WrittenUnit{
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

// Units returns all units, one whose spelling begins with that of another before it.
func Units() iter.Seq[WrittenUnit] { return slices.Values(unitTable) }

// Spellings returns the spellings of the unit, the longest first where one begins another.
func (u WrittenUnit) Spellings() iter.Seq[string] { return slices.Values(u.spellings) }

// UnitOf finds a unit by any of its spellings, whatever the case.
func UnitOf(text string) (WrittenUnit, bool) {
	text = strings.ReplaceAll(text, "μ", "µ")
	for _, u := range unitTable {
		for _, w := range u.spellings {
			if strings.EqualFold(w, text) {
				return u, true
			}
		}
	}
	return WrittenUnit{}, false
}

// Has tells whether a kind of number can stand in the unit.
func (u WrittenUnit) Has(q Quantity) bool { return slices.Contains(u.kinds, q) }

// Own takes a number as written, with a point, to the unit in which the catalogue has its kind. The zero WrittenUnit leaves it as it is.
func (u WrittenUnit) Own(number string, q Quantity) float64 {
	times := func(exponent int) float64 {
		v, _ := strconv.ParseFloat(number+"e"+strconv.Itoa(exponent), 64)
		return v
	}
	switch {
	case q == PeakCount && u.count > 0:
		if u.Name == "1/mm" {
			return times(1)
		}
		return times(0) * u.count
	case u.Name == "1/cm":
		return times(-1)
	case u.Name == "µin":
		return times(0) * 254 / 10000
	case u.Name == "":
		return times(0)
	}
	return times(u.tenth) * u.factor
}

// Unit is the unit that values of the kind are counted in: micrometres for a height or a length; empty for a plain number.
func (q Quantity) Unit() string {
	switch q {
	case Number:
		return ""
	case Ratio:
		return "%"
	case PeakCount:
		return "1/cm"
	case PerLength:
		return "1/mm"
	}
	return "µm"
}

// In is how many of a unit make one of the kind's own unit; 0 for a unit that it cannot have.
func (q Quantity) In(unit string) float64 {
	u, ok := UnitOf(unit)
	switch {
	case unit == "" || unit == q.Unit():
		return 1
	case !ok || !u.Has(q):
		return 0
	case q == PeakCount:
		return 1 / u.count
	}
	return math.Pow10(-u.tenth) / u.factor
}

// ReadNumber takes a number that a person typed, with a point or a comma, to the unit in which values of a symbol of an edition are
// counted, and returns the unit as it is usually spelled. ok is false for a unit that the symbol cannot have, and for what is no number.
func ReadNumber(edition EditionID, symbol, number, unit string) (v float64, spelled string, ok bool) {
	q := Bound{Edition: edition, Symbol: symbol}.Kind()
	number = strings.ReplaceAll(number, ",", ".")
	if _, err := strconv.ParseFloat(number, 64); err != nil {
		return 0, unit, false
	}
	u, known := UnitOf(unit)
	if unit != "" && (!known || !u.Has(q)) {
		return 0, unit, false
	}
	return u.Own(number, q), u.Name, true
}
