package standards

import (
	"slices"
	"strings"
	"sync"
)

// Quantity is what kind of number a parameter is. It decides which units a limit may have, and whether one is needed.
type Quantity uint8

// The quantities. The catalogue counts lengths and heights in micrometres.
const (
	Height    Quantity = iota // µm; on a drawing the unit may be left out, except under ASME B46.1
	Spacing                   // a length along the surface, in µm: the unit must be written, as mm and µm are both usual
	Ratio                     // per cent
	Number                    // without a unit
	PeakCount                 // on 10 mm
	PerLength                 // densities and curvatures, in 1/mm
	Area                      // areas of the material ratio curve, in µm, which is 1000 µm²/mm
)

// A symbolRow is one parameter: its key in the catalogue of params, and how the editions write it.
type symbolRow struct {
	key      string
	quantity Quantity
	min, max int // number of arguments in brackets
	// spellings, set apart by semicolons: the editions, by the words of [inTable]; the profiles; and the name where it is not the key,
	// with another spelling that these editions know. With more than one profile the first letter of a name stands for that of the profile.
	spellings string
}

// inTable are the words of the table for editions.
var inTable = map[string][]EditionID{
	"2021": {ISO21920}, "4287": {ISO4287}, "1997": {ISO4287, JIS2013}, "12085": {ISO12085}, "asme": {ASMEB46},
	"jis2013": {JIS2013}, "jis1994": {JIS1994}, "jis1982": {JIS1982},
}

// symbols are those of each edition, made when they are first asked for.
var symbols = sync.OnceValue(func() map[EditionID][]Symbol {
	all := map[EditionID][]Symbol{}
	for _, row := range symbolTable {
		for spelling := range strings.SplitSeq(row.spellings, ";") {
			words := strings.Fields(spelling)
			n := slices.IndexFunc(words, func(w string) bool { return inTable[w] == nil })
			profiles, names := words[n], words[n+1:]
			if len(names) == 0 {
				names = []string{row.key}
			}
			for _, letter := range []byte(profiles) {
				s := Symbol{Key: row.key, Letter: letter, Quantity: row.quantity, Min: row.min, Max: row.max}
				for _, name := range names {
					if len(profiles) > 1 {
						name = string(rune(letter)) + name[1:]
					}
					s.Also = append(s.Also, name)
				}
				s.Name, s.Also = s.Also[0], s.Also[1:]
				if ascii := asciiSymbol(s.Name); ascii != s.Name {
					s.Also = append(s.Also, ascii)
				}
				for _, word := range words[:n] {
					for _, id := range inTable[word] {
						all[id] = append(all[id], s)
					}
				}
			}
		}
	}
	return all
})

// symbolTable is the list of symbols: which parameters each edition has, on which profiles, and how it writes them. It
// has the order of the catalogue. Drawings are read by it, and params attaches to it how a parameter is computed.
var symbolTable = []symbolRow{
	// Heights
	{"Ra", Height, 0, 0, "2021 1997 asme PRW; jis1994 jis1982 R"},
	{"Rq", Height, 0, 0, "2021 1997 asme PRW"},
	{"Rsk", Number, 0, 0, "2021 1997 asme PRW"},
	{"Rku", Number, 0, 0, "2021 1997 asme PRW"},
	{"Rp", Height, 0, 0, "2021 1997 PRW"},
	{"Rv", Height, 0, 0, "2021 1997 PRW"},
	{"Rz", Height, 0, 0, "2021 1997 asme PRW"},
	{"Rzx", Height, 0, 1, "2021 PRW"},
	{"Rt", Height, 0, 0, "2021 1997 asme PRW"},
	{"Rpt", Height, 0, 0, "2021 PRW; asme PRW Rp"},
	{"Rvt", Height, 0, 0, "2021 PRW; asme PRW Rv"},
	// Spacing and counts
	{"Rsm", Spacing, 0, 0, "2021 PRW; 1997 asme PRW RSm; jis1994 R Sm"},
	{"Rsmx", Spacing, 0, 0, "2021 PRW"},
	{"Rsmq", Spacing, 0, 0, "2021 PRW"},
	{"Rc", Height, 0, 0, "2021 1997 PRW"},
	{"Rcx", Height, 0, 0, "2021 PRW"},
	{"Rcq", Height, 0, 0, "2021 PRW"},
	{"Rpc", PeakCount, 0, 0, "2021 PRW Rpc RPc; 1997 PRW RPc Rpc"},
	// Slopes and lengths
	{"Rdq", Number, 0, 0, "2021 PRW; 1997 asme PRW RΔq"},
	{"Rda", Number, 0, 0, "2021 PRW; asme PRW RΔa"},
	{"Rdt", Number, 0, 0, "2021 PRW"},
	{"Rdl", Spacing, 0, 0, "2021 PRW"},
	{"Rdr", Ratio, 0, 0, "2021 PRW"},
	// Material ratio
	{"Rmr", Ratio, 1, 1, "2021 1997 PRW"},
	{"RmrFrom", Ratio, 2, 2, "2021 1997 PRW Rmr"},
	{"Rmc", Height, 1, 1, "2021 PRW"},
	{"Rdc", Height, 2, 2, "2021 PRW; 1997 PRW Rδc"},
	// Core, peaks and dales
	{"Rk", Height, 0, 0, "2021 PRW; 1997 asme R"},
	{"Rpk", Height, 0, 0, "2021 PRW; 1997 asme R"},
	{"Rvk", Height, 0, 0, "2021 PRW; 1997 asme R"},
	{"Rpkx", Height, 0, 0, "2021 PRW"},
	{"Rvkx", Height, 0, 0, "2021 PRW"},
	{"Rmrk1", Ratio, 0, 0, "2021 PRW; 1997 asme R Mr1"},
	{"Rmrk2", Ratio, 0, 0, "2021 PRW; 1997 asme R Mr2"},
	{"Rak1", Area, 0, 0, "2021 PRW; 1997 asme R A1"},
	{"Rak2", Area, 0, 0, "2021 PRW; 1997 asme R A2"},
	// Material probability
	{"Rpq", Height, 0, 0, "2021 PRW; 1997 asme PR"},
	{"Rvq", Height, 0, 0, "2021 PRW; 1997 asme PR"},
	{"Rmq", Ratio, 0, 0, "2021 PRW; 1997 asme PR"},
	// Volumes
	{"Rvm", Height, 1, 1, "2021 PRW"},
	{"Rvv", Height, 1, 1, "2021 PRW"},
	{"Rvmp", Height, 0, 1, "2021 PRW"},
	{"Rvmc", Height, 0, 2, "2021 PRW"},
	{"Rvvc", Height, 0, 2, "2021 PRW"},
	{"Rvvv", Height, 0, 1, "2021 PRW"},
	// Waves and correlation
	{"Ral", Spacing, 0, 1, "2021 PRW"},
	{"Rsw", Spacing, 0, 0, "2021 PRW"},
	{"WDSm", Spacing, 0, 0, "2021 4287 W"},
	{"WDc", Height, 0, 0, "2021 4287 W"},
	{"WDt", Height, 0, 0, "2021 4287 W"},
	// Peaks and pits
	{"R5p", Height, 0, 0, "2021 PRW"},
	{"R5v", Height, 0, 0, "2021 PRW"},
	{"R10z", Height, 0, 0, "2021 PRW"},
	{"Rpd", PerLength, 0, 0, "2021 PRW"},
	{"Rvd", PerLength, 0, 0, "2021 PRW"},
	{"Rmpc", PerLength, 0, 0, "2021 PRW"},
	{"Rmvc", PerLength, 0, 0, "2021 PRW"},
	// Motifs
	{"R", Height, 0, 1, "12085 R"},
	{"AR", Spacing, 0, 1, "12085 R"},
	{"Rx", Height, 0, 1, "12085 R"},
	{"Nr", Number, 0, 1, "12085 R"},
	{"SR", Height, 0, 1, "12085 R"},
	{"SAR", Spacing, 0, 1, "12085 R"},
	{"W", Height, 0, 2, "12085 W"},
	{"AW", Spacing, 0, 2, "12085 W"},
	{"Wx", Height, 0, 2, "12085 W"},
	{"Wte", Height, 0, 2, "12085 W"},
	{"Nw", Number, 0, 2, "12085 W"},
	{"SW", Height, 0, 2, "12085 W"},
	{"SAW", Spacing, 0, 2, "12085 W"},
	{"Rke", Height, 0, 1, "12085 R"},
	{"Rpke", Height, 0, 1, "12085 R"},
	{"Rvke", Height, 0, 1, "12085 R"},
	{"Mr1e", Ratio, 0, 1, "12085 R"},
	{"Mr2e", Ratio, 0, 1, "12085 R"},
	// Older and works standards
	{"RzJIS", Height, 0, 0, "jis2013 R; jis1994 R Rz"},
	{"Rz1982", Height, 0, 0, "jis1982 R Rz"},
	{"R3z", Height, 0, 0, "2021 4287 R"},
	{"R3zm", Height, 0, 0, "2021 4287 R"},
	{"Rpm", Height, 0, 0, "asme R"},
	{"Rmax", Height, 0, 0, "asme R"},
	{"Ry", Height, 0, 0, "jis1994 R"},
	{"Rmax1982", Height, 0, 0, "jis1982 R Rmax"},
	{"Ra75", Height, 0, 0, "jis2013 jis1994 R"},
	{"S", Spacing, 0, 0, "4287 jis1994 R"},
	{"D", PerLength, 0, 0, "4287 R"},
	{"LambdaA", Spacing, 0, 0, "4287 asme R λa"},
	{"LambdaQ", Spacing, 0, 0, "4287 asme R λq"},
	{"Lo", Spacing, 0, 0, "4287 R"},
	{"LengthRatio", Number, 0, 0, "4287 R lr"},
	{"Tp", Ratio, 1, 1, "asme jis1994 R tp"},
	{"Htp", Height, 0, 2, "asme R"},
	{"RPcBand", PeakCount, 2, 2, "2021 1997 12085 asme jis1994 jis1982 R RPc"},
	{"Pc", PeakCount, 0, 2, "asme R"},
	{"HSC", PeakCount, 0, 1, "asme R"},
}
