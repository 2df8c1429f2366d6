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
	// symbol is the key of the parameter, with a letter for each of its arguments, as in [Symbol]: in round brackets those that it needs, in
	// square ones those that it may have.
	symbol   string
	quantity Quantity
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
		key, least := row.symbol, 0
		var arguments string
		if i := strings.IndexAny(key, "(["); i > 0 {
			if arguments = key[i+1 : len(key)-1]; key[i] == '(' {
				least = len(arguments)
			}
			key = key[:i]
		}
		for spelling := range strings.SplitSeq(row.spellings, ";") {
			words := strings.Fields(spelling)
			n := slices.IndexFunc(words, func(w string) bool { return inTable[w] == nil })
			profiles, names := words[n], words[n+1:]
			if len(names) == 0 {
				names = []string{key}
			}
			for _, letter := range []byte(profiles) {
				s := Symbol{Key: key, Letter: letter, Quantity: row.quantity, Arguments: arguments, Min: least, Max: len(arguments)}
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
	{"Ra", Height, "2021 1997 asme PRW; jis1994 jis1982 R"},
	{"Rq", Height, "2021 1997 asme PRW"},
	{"Rsk", Number, "2021 1997 asme PRW"},
	{"Rku", Number, "2021 1997 asme PRW"},
	{"Rp", Height, "2021 1997 PRW"},
	{"Rv", Height, "2021 1997 PRW"},
	{"Rz", Height, "2021 1997 asme PRW"},
	{"Rzx[x]", Height, "2021 PRW"},
	{"Rt", Height, "2021 1997 asme PRW"},
	{"Rpt", Height, "2021 PRW; asme PRW Rp"},
	{"Rvt", Height, "2021 PRW; asme PRW Rv"},
	// Spacing and counts
	{"Rsm", Spacing, "2021 PRW; 1997 asme PRW RSm; jis1994 R Sm"},
	{"Rsmx", Spacing, "2021 PRW"},
	{"Rsmq", Spacing, "2021 PRW"},
	{"Rc", Height, "2021 1997 PRW"},
	{"Rcx", Height, "2021 PRW"},
	{"Rcq", Height, "2021 PRW"},
	{"Rpc", PeakCount, "2021 PRW Rpc RPc; 1997 PRW RPc Rpc"},
	// Slopes and lengths
	{"Rdq", Number, "2021 PRW; 1997 asme PRW RΔq"},
	{"Rda", Number, "2021 PRW; asme PRW RΔa"},
	{"Rdt", Number, "2021 PRW"},
	{"Rdl", Spacing, "2021 PRW"},
	{"Rdr", Ratio, "2021 PRW"},
	// Material ratio
	{"Rmr(l)", Ratio, "2021 1997 PRW"},
	{"RmrFrom(rl)", Ratio, "2021 1997 PRW Rmr"},
	{"Rmc(r)", Height, "2021 PRW"},
	{"Rdc(rr)", Height, "2021 PRW; 1997 PRW Rδc"},
	// Core, peaks and dales
	{"Rk", Height, "2021 PRW; 1997 asme R"},
	{"Rpk", Height, "2021 PRW; 1997 asme R"},
	{"Rvk", Height, "2021 PRW; 1997 asme R"},
	{"Rpkx", Height, "2021 PRW"},
	{"Rvkx", Height, "2021 PRW"},
	{"Rmrk1", Ratio, "2021 PRW; 1997 asme R Mr1"},
	{"Rmrk2", Ratio, "2021 PRW; 1997 asme R Mr2"},
	{"Rak1", Area, "2021 PRW; 1997 asme R A1"},
	{"Rak2", Area, "2021 PRW; 1997 asme R A2"},
	// Material probability
	{"Rpq", Height, "2021 PRW; 1997 asme PR"},
	{"Rvq", Height, "2021 PRW; 1997 asme PR"},
	{"Rmq", Ratio, "2021 PRW; 1997 asme PR"},
	// Volumes
	{"Rvm(r)", Height, "2021 PRW"},
	{"Rvv(r)", Height, "2021 PRW"},
	{"Rvmp[r]", Height, "2021 PRW"},
	{"Rvmc[rr]", Height, "2021 PRW"},
	{"Rvvc[rr]", Height, "2021 PRW"},
	{"Rvvv[r]", Height, "2021 PRW"},
	// Waves and correlation
	{"Ral[n]", Spacing, "2021 PRW"},
	{"Rsw", Spacing, "2021 PRW"},
	{"WDSm", Spacing, "2021 4287 W"},
	{"WDc", Height, "2021 4287 W"},
	{"WDt", Height, "2021 4287 W"},
	// Peaks and pits
	{"R5p", Height, "2021 PRW"},
	{"R5v", Height, "2021 PRW"},
	{"R10z", Height, "2021 PRW"},
	{"Rpd", PerLength, "2021 PRW"},
	{"Rvd", PerLength, "2021 PRW"},
	{"Rmpc", PerLength, "2021 PRW"},
	{"Rmvc", PerLength, "2021 PRW"},
	// Motifs
	{"R[x]", Height, "12085 R"},
	{"AR[x]", Spacing, "12085 R"},
	{"Rx[x]", Height, "12085 R"},
	{"Nr[x]", Number, "12085 R"},
	{"SR[x]", Height, "12085 R"},
	{"SAR[x]", Spacing, "12085 R"},
	{"W[xx]", Height, "12085 W"},
	{"AW[xx]", Spacing, "12085 W"},
	{"Wx[xx]", Height, "12085 W"},
	{"Wte[xx]", Height, "12085 W"},
	{"Nw[xx]", Number, "12085 W"},
	{"SW[xx]", Height, "12085 W"},
	{"SAW[xx]", Spacing, "12085 W"},
	{"Rke[x]", Height, "12085 R"},
	{"Rpke[x]", Height, "12085 R"},
	{"Rvke[x]", Height, "12085 R"},
	{"Mr1e[x]", Ratio, "12085 R"},
	{"Mr2e[x]", Ratio, "12085 R"},
	// Older and works standards
	{"RzJIS", Height, "jis2013 R; jis1994 R Rz"},
	{"Rz1982", Height, "jis1982 R Rz"},
	{"R3z", Height, "2021 4287 R"},
	{"R3zm", Height, "2021 4287 R"},
	{"Rpm", Height, "asme R"},
	{"Rmax", Height, "asme R"},
	{"Ry", Height, "jis1994 R"},
	{"Rmax1982", Height, "jis1982 R Rmax"},
	{"Ra75", Height, "jis2013 jis1994 R"},
	{"S", Spacing, "4287 jis1994 R"},
	{"D", PerLength, "4287 R"},
	{"LambdaA", Spacing, "4287 asme R λa"},
	{"LambdaQ", Spacing, "4287 asme R λq"},
	{"Lo", Spacing, "4287 R"},
	{"LengthRatio", Number, "4287 R lr"},
	{"Tp(l)", Ratio, "asme jis1994 R tp"},
	{"Htp[rr]", Height, "asme R"},
	{"RPcBand(ll)", PeakCount, "2021 1997 12085 asme jis1994 jis1982 R RPc"},
	{"Pc[ll]", PeakCount, "asme R"},
	{"HSC[l]", PeakCount, "asme R"},
}
