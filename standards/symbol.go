package standards

import (
	"slices"
	"strings"
)

// quantity is what kind of number a parameter is: it decides the unit of its limit.
type quantity uint8

const (
	height  quantity = iota // micrometres
	spacing                 // a length along the surface: written in mm or in µm
	ratio                   // per cent
	number                  // without unit
	count                   // per length
)

// family groups the editions that share a set of symbols.
type family uint8

const (
	iso2021 family = 1 << iota
	iso1997
	jis2013
	motif
	asme
	jis1994
	jis1982

	like1997  = iso1997 | jis2013
	since1997 = iso2021 | like1997 | asme
	everyone  = since1997 | jis1994 | jis1982
)

func familyOf(edition string) family {
	switch edition {
	case "iso-21920":
		return iso2021
	case "iso-12085":
		return motif
	case "asme-b46.1":
		return asme
	case "jis-b0601-2013":
		return jis2013
	case "jis-b0601-1994":
		return jis1994
	case "jis-b0601-1982":
		return jis1982
	}
	return iso1997
}

// symbolRow is one parameter as a drawing names it: enough to read a limit, nothing about computing it.
type symbolRow struct {
	letters  string // the profiles: "RPW"; empty when the name stands alone
	name     string // what follows the letter, or the whole name
	spelling string // another way to write it that is read the same
	quantity quantity
	min, max int // number of arguments in brackets
	in       family
}

// symbols is what the callout parser knows. A spelling differs from the name by edition: RSm in 1997, Rsm in 2021.
var symbols = []symbolRow{
	{"RPW", "a", "", height, 0, 0, since1997},
	{"R", "a", "", height, 0, 0, jis1994 | jis1982},
	{"RPW", "q", "", height, 0, 0, since1997},
	{"RPW", "z", "", height, 0, 0, since1997},
	{"R", "z", "", height, 0, 0, jis1994 | jis1982},
	{"RPW", "p", "", height, 0, 0, since1997},
	{"RPW", "v", "", height, 0, 0, since1997},
	{"RPW", "t", "", height, 0, 0, since1997},
	{"RPW", "c", "", height, 0, 0, iso2021 | like1997},
	{"RPW", "zx", "", height, 0, 1, iso2021},
	{"RPW", "pt", "", height, 0, 0, iso2021},
	{"RPW", "vt", "", height, 0, 0, iso2021},
	{"RPW", "cx", "", height, 0, 0, iso2021},
	{"RPW", "cq", "", height, 0, 0, iso2021},
	{"RPW", "5p", "", height, 0, 0, iso2021},
	{"RPW", "5v", "", height, 0, 0, iso2021},
	{"RPW", "10z", "", height, 0, 0, iso2021},
	{"RPW", "sk", "", number, 0, 0, since1997},
	{"RPW", "ku", "", number, 0, 0, since1997},
	{"RPW", "dq", "Δq", number, 0, 0, iso2021},
	{"RPW", "Δq", "dq", number, 0, 0, like1997 | asme},
	{"RPW", "da", "Δa", number, 0, 0, iso2021},
	{"RPW", "Δa", "da", number, 0, 0, asme},
	{"RPW", "dt", "", number, 0, 0, iso2021},
	{"RPW", "dl", "", spacing, 0, 0, iso2021},
	{"RPW", "dr", "", ratio, 0, 0, iso2021},
	{"RPW", "al", "", spacing, 0, 1, iso2021},
	{"RPW", "sw", "", spacing, 0, 0, iso2021},
	{"RPW", "sm", "Sm", spacing, 0, 0, iso2021},
	{"RPW", "Sm", "sm", spacing, 0, 0, like1997 | asme},
	{"RPW", "smx", "Smx", spacing, 0, 0, iso2021},
	{"RPW", "smq", "Smq", spacing, 0, 0, iso2021},
	{"RPW", "pc", "Pc", count, 0, 2, iso2021},
	{"RPW", "Pc", "pc", count, 0, 2, like1997},
	{"R", "Pc", "pc", count, 2, 2, asme},
	{"RPW", "mr", "", ratio, 1, 2, iso2021 | like1997},
	{"RPW", "mc", "", height, 1, 1, iso2021},
	{"RPW", "dc", "δc", height, 2, 2, iso2021},
	{"RPW", "δc", "dc", height, 2, 2, like1997},
	{"RPW", "k", "", height, 0, 0, iso2021},
	{"RPW", "pk", "", height, 0, 0, iso2021},
	{"RPW", "vk", "", height, 0, 0, iso2021},
	{"R", "k", "", height, 0, 0, like1997 | asme},
	{"R", "pk", "", height, 0, 0, like1997 | asme},
	{"R", "vk", "", height, 0, 0, like1997 | asme},
	{"RPW", "pkx", "", height, 0, 0, iso2021},
	{"RPW", "vkx", "", height, 0, 0, iso2021},
	{"RPW", "mrk1", "", ratio, 0, 0, iso2021},
	{"RPW", "mrk2", "", ratio, 0, 0, iso2021},
	{"", "Mr1", "", ratio, 0, 0, like1997 | asme},
	{"", "Mr2", "", ratio, 0, 0, like1997 | asme},
	{"RPW", "pq", "", height, 0, 0, iso2021},
	{"RPW", "vq", "", height, 0, 0, iso2021},
	{"RPW", "mq", "", ratio, 0, 0, iso2021},
	{"RP", "pq", "", height, 0, 0, like1997 | asme},
	{"RP", "vq", "", height, 0, 0, like1997 | asme},
	{"RP", "mq", "", ratio, 0, 0, like1997 | asme},
	{"", "Rz1max", "", height, 0, 0, like1997},
	{"", "R3z", "", height, 0, 0, iso2021 | iso1997},
	{"", "RzJIS", "Rzjis", height, 0, 0, jis2013},
	{"", "Ra75", "", height, 0, 0, jis2013 | jis1994},
	{"", "Rmax", "", height, 0, 0, asme | jis1982},
	{"", "Rpm", "", height, 0, 0, asme},
	{"", "Ry", "", height, 0, 0, jis1994},
	{"", "Sm", "", spacing, 0, 0, jis1994},
	{"", "S", "", spacing, 0, 0, jis1994},
	{"", "tp", "", ratio, 1, 1, jis1994 | asme},
	{"", "R", "", height, 0, 0, motif},
	{"", "AR", "", spacing, 0, 0, motif},
	{"", "Rx", "", height, 0, 0, motif},
	{"", "W", "", height, 0, 0, motif},
	{"", "AW", "", spacing, 0, 0, motif},
	{"", "Wx", "", height, 0, 0, motif},
	{"", "Wte", "", height, 0, 0, motif},
	{"", "Rke", "", height, 0, 0, motif},
	{"", "Rpke", "", height, 0, 0, motif},
	{"", "Rvke", "", height, 0, 0, motif},
}

// stratified are the parameters that the edition's filter for stratified surfaces serves.
var stratified = []string{"Rk", "Rpk", "Rvk", "Rpkx", "Rvkx", "Rmrk1", "Rmrk2", "Mr1", "Mr2", "Rpq", "Rvq", "Rmq"}

// lookSymbol finds the word among the symbols of the family and returns it as that family spells it.
func lookSymbol(word string, in family) (string, symbolRow, bool) {
	for _, s := range symbols {
		if s.in&in == 0 {
			continue
		}
		if s.letters == "" {
			if word == s.name || (s.spelling != "" && word == s.spelling) {
				return s.name, s, true
			}
			continue
		}
		if word == "" || !strings.Contains(s.letters, word[:1]) {
			continue
		}
		if rest := word[1:]; rest == s.name || (s.spelling != "" && rest == s.spelling) {
			return word[:1] + s.name, s, true
		}
	}
	return "", symbolRow{}, false
}

// symbolLike returns the symbol that word is in another case, or "".
func symbolLike(word string, in family) string {
	for _, s := range symbols {
		if s.in&in == 0 {
			continue
		}
		if s.letters == "" {
			if strings.EqualFold(word, s.name) {
				return s.name
			}
			continue
		}
		for _, l := range s.letters {
			if strings.EqualFold(word, string(l)+s.name) {
				return string(l) + s.name
			}
		}
	}
	return ""
}

// rowOf returns the table row of a symbol that was read before, with or without arguments.
func rowOf(symbol string) symbolRow {
	name, _, _ := strings.Cut(symbol, "(")
	_, row, _ := lookSymbol(name, everyone|motif)
	return row
}

// isStratified tells whether a symbol is of the Rk family or its probability counterpart.
func isStratified(symbol string) bool { return slices.Contains(stratified, symbol) }

// letterOf returns the profile a symbol is measured on: 'R', 'P' or 'W'.
func letterOf(symbol string) byte {
	switch {
	case symbol == "":
		return 0
	case symbol[0] == 'P' || symbol[0] == 'W' || symbol == "AW":
		if symbol == "AW" {
			return 'W'
		}
		return symbol[0]
	}
	return 'R'
}
