package standards

import (
	"slices"
	"strings"
)

// A Symbol is one parameter as an edition writes it for one profile.
type Symbol struct {
	Key      string   // the key of the parameter in the catalogue of params; it is the same in all editions
	Name     string   // as the edition writes it for the profile, without arguments: "RSm", "Pmr", "tp"
	Also     []string // other spellings that mean the same; a Greek letter may be written in ASCII, as in "RDq"
	Letter   byte     // the profile: 'P', 'R' or 'W'
	Quantity Quantity
	// Arguments says what stands in brackets, a letter for each: l a level, r a material ratio, x a length along the surface, n a number.
	Arguments string
	Min, Max  int // how many of them the symbol takes
}

// Symbols returns the symbols of an edition, on all profiles, in the order of the catalogue; none when there is no such
// edition. A name may stand twice, once for each number of arguments: Rmr(c) and Rmr(p;d). The caller may change what it
// gets.
func Symbols(edition EditionID) []Symbol {
	list := slices.Clone(symbols()[edition])
	for i := range list {
		list[i].Also = slices.Clone(list[i].Also)
	}
	return list
}

// Is tells whether word is the symbol, without arguments, in one of its spellings.
func (s *Symbol) Is(word string) bool {
	word = asciiSymbol(word)
	return word == s.Name || slices.Contains(s.Also, word)
}

// FindSymbol returns a symbol, written with or without arguments, of an edition in any of its spellings; where the edition is empty or
// does not have it, that of the first edition that has it, by its name before any other spelling.
func FindSymbol(edition EditionID, symbol string) (Symbol, bool) {
	name, _, _ := strings.Cut(symbol, "(")
	for _, y := range symbols()[edition] {
		if y.Is(name) {
			return y, true
		}
	}
	for _, is := range []func(y *Symbol) bool{func(y *Symbol) bool { return y.Name == name }, func(y *Symbol) bool { return y.Is(name) }} {
		for _, id := range editionIDs {
			list := symbols()[id]
			for k := range list {
				if is(&list[k]) {
					return list[k], true
				}
			}
		}
	}
	return Symbol{}, false
}

var greekSymbols = strings.NewReplacer("Δ", "D", "∆", "D", "δ", "d", "λ", "lambda")

// asciiSymbol writes the Greek letters of a symbol in ASCII: "RDq" for RΔq.
func asciiSymbol(symbol string) string {
	for i := range len(symbol) {
		if symbol[i] >= 0x80 {
			return greekSymbols.Replace(symbol)
		}
	}
	return symbol
}
