package standards

import (
	"slices"
	"strings"
)

// What the reading of drawings asks of the list of symbols.

type quantity = Quantity

const (
	height  = Height
	spacing = Spacing
	ratio   = Ratio
	number  = Number
	count   = PeakCount
)

func familyOf(edition string) family {
	if i := slices.Index(editionIDs[:], edition); i >= 0 {
		return 1 << i
	}
	return iso1997
}

// stratified are the parameters that the edition's filter for stratified surfaces is for.
var stratified = []string{"Rk", "Rpk", "Rvk", "Rpkx", "Rvkx", "Rmrk1", "Rmrk2", "Rak1", "Rak2", "Mr1", "Mr2", "A1", "A2", "Rpq", "Rvq", "Rmq"}

// isStratified tells whether a symbol is of the Rk family or its probability counterpart.
func isStratified(symbol string) bool { return slices.Contains(stratified, symbol) }

// symbolIn finds the first symbol of the families that fits, with the numbers of arguments of all of the same name.
func symbolIn(in family, fits func(s *Symbol) bool) (string, symbolRow, bool) {
	name, row := "", symbolRow{}
	for i := range editionIDs {
		if in&(1<<i) == 0 {
			continue
		}
		for _, s := range symbolLists[i]() {
			switch {
			case name == "" && fits(&s):
				name, row = s.Name, symbolRow{key: s.Key, quantity: s.Quantity, min: s.Min, max: s.Max}
			case name != "" && s.Name == name:
				row.min, row.max = min(row.min, s.Min), max(row.max, s.Max)
			}
		}
		if name != "" {
			return name, row, true
		}
	}
	return "", symbolRow{}, false
}

// lookSymbol finds the word among the symbols of the family and returns it as that family spells it.
func lookSymbol(word string, in family) (string, symbolRow, bool) {
	if word == "Rz1max" && in&like1997 != 0 { // the maximum of Rz by the practice of ISO 4288
		return word, symbolRow{key: "Rz", quantity: Height}, true
	}
	if name, row, ok := symbolIn(in, func(s *Symbol) bool { return s.Is(word) }); ok {
		return name, row, true
	}
	// Spellings of another edition that differ in the case of what follows the letter: RSm and Rsm, RΔq and Rdq.
	for _, end := range [...]string{"Sm", "sm", "Smx", "Smq", "Δq", "dq", "Δa", "da", "δc", "dc", "jis"} {
		if strings.HasSuffix(word, end) {
			plain := strings.NewReplacer("Δ", "d", "δ", "d").Replace(word)
			return symbolIn(in, func(s *Symbol) bool {
				return len(s.Name) > 2 && plain[:1] == s.Name[:1] && strings.EqualFold(plain, asciiSymbol(s.Name)) && !strings.HasPrefix(s.Name, "WD")
			})
		}
	}
	return "", symbolRow{}, false
}

// symbolLike returns the symbol that word is in another case, or "".
func symbolLike(word string, in family) string {
	name, _, _ := symbolIn(in, func(s *Symbol) bool { return strings.EqualFold(word, s.Name) })
	return name
}

// rowOf returns the table row of a symbol that was read before, with or without arguments.
func rowOf(symbol string) symbolRow {
	name, _, _ := strings.Cut(symbol, "(")
	_, row, _ := lookSymbol(name, every)
	return row
}

// letterOf returns the profile a symbol is measured on: 'R', 'P' or 'W'.
func letterOf(symbol string) byte {
	name, _, _ := strings.Cut(symbol, "(")
	for i := range editionIDs {
		for _, s := range symbolLists[i]() {
			if s.Name == name {
				return s.Letter
			}
		}
	}
	if symbol == "" {
		return 0
	}
	return 'R'
}
