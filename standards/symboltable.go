package standards

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

// A family is an edition as one bit, so that a row of the table can name several.
type family uint8

const (
	iso2021 family = 1 << iota
	iso1997
	motif
	asme
	jis2013
	jis1994
	jis1982

	like1997  = iso1997 | jis2013
	since1997 = iso2021 | like1997 | asme
	every     = since1997 | motif | jis1994 | jis1982
)

// editionIDs are the editions in the order of their bits, which is that of [Editions].
var editionIDs = [...]EditionID{ISO21920, ISO4287, ISO12085, ASMEB46, JIS2013, JIS1994, JIS1982}

// A symbolRow is one parameter: its key in the catalogue of params, and how the editions write it.
type symbolRow struct {
	key       string
	quantity  Quantity
	min, max  int // number of arguments in brackets
	spellings []spelling
}

// A spelling is how some editions write a parameter. With more than one profile the first letter of the name stands for
// that of the profile; with one the name stands as it is.
type spelling struct {
	in       family
	profiles string
	name     string
	also     string // another spelling that these editions know
}

// symbolTable is the list of symbols: which parameters each edition has, on which profiles, and how it writes them. It
// has the order of the catalogue. Drawings are read by it, and params attaches to it how a parameter is computed.
var symbolTable = []symbolRow{
	// Heights
	{"Ra", Height, 0, 0, []spelling{{since1997, "PRW", "Ra", ""}, {jis1994 | jis1982, "R", "Ra", ""}}},
	{"Rq", Height, 0, 0, []spelling{{since1997, "PRW", "Rq", ""}}},
	{"Rsk", Number, 0, 0, []spelling{{since1997, "PRW", "Rsk", ""}}},
	{"Rku", Number, 0, 0, []spelling{{since1997, "PRW", "Rku", ""}}},
	{"Rp", Height, 0, 0, []spelling{{iso2021 | like1997, "PRW", "Rp", ""}}},
	{"Rv", Height, 0, 0, []spelling{{iso2021 | like1997, "PRW", "Rv", ""}}},
	{"Rz", Height, 0, 0, []spelling{{since1997, "PRW", "Rz", ""}}},
	{"Rzx", Height, 0, 1, []spelling{{iso2021, "PRW", "Rzx", ""}}},
	{"Rt", Height, 0, 0, []spelling{{since1997, "PRW", "Rt", ""}}},
	{"Rpt", Height, 0, 0, []spelling{{iso2021, "PRW", "Rpt", ""}, {asme, "PRW", "Rp", ""}}},
	{"Rvt", Height, 0, 0, []spelling{{iso2021, "PRW", "Rvt", ""}, {asme, "PRW", "Rv", ""}}},

	// Spacing and counts
	{"Rsm", Spacing, 0, 0, []spelling{{iso2021, "PRW", "Rsm", ""}, {like1997 | asme, "PRW", "RSm", ""}, {jis1994, "R", "Sm", ""}}},
	{"Rsmx", Spacing, 0, 0, []spelling{{iso2021, "PRW", "Rsmx", ""}}},
	{"Rsmq", Spacing, 0, 0, []spelling{{iso2021, "PRW", "Rsmq", ""}}},
	{"Rc", Height, 0, 0, []spelling{{iso2021 | like1997, "PRW", "Rc", ""}}},
	{"Rcx", Height, 0, 0, []spelling{{iso2021, "PRW", "Rcx", ""}}},
	{"Rcq", Height, 0, 0, []spelling{{iso2021, "PRW", "Rcq", ""}}},
	{"Rpc", PeakCount, 0, 0, []spelling{{iso2021, "PRW", "Rpc", "RPc"}, {like1997, "PRW", "RPc", "Rpc"}}},

	// Slopes and lengths
	{"Rdq", Number, 0, 0, []spelling{{iso2021, "PRW", "Rdq", ""}, {like1997 | asme, "PRW", "RΔq", ""}}},
	{"Rda", Number, 0, 0, []spelling{{iso2021, "PRW", "Rda", ""}, {asme, "PRW", "RΔa", ""}}},
	{"Rdt", Number, 0, 0, []spelling{{iso2021, "PRW", "Rdt", ""}}},
	{"Rdl", Spacing, 0, 0, []spelling{{iso2021, "PRW", "Rdl", ""}}},
	{"Rdr", Ratio, 0, 0, []spelling{{iso2021, "PRW", "Rdr", ""}}},

	// Material ratio
	{"Rmr", Ratio, 1, 1, []spelling{{iso2021 | like1997, "PRW", "Rmr", ""}}},
	{"RmrFrom", Ratio, 2, 2, []spelling{{iso2021 | like1997, "PRW", "Rmr", ""}}},
	{"Rmc", Height, 1, 1, []spelling{{iso2021, "PRW", "Rmc", ""}}},
	{"Rdc", Height, 2, 2, []spelling{{iso2021, "PRW", "Rdc", ""}, {like1997, "PRW", "Rδc", ""}}},

	// Core, peaks and dales
	{"Rk", Height, 0, 0, []spelling{{iso2021, "PRW", "Rk", ""}, {like1997 | asme, "R", "Rk", ""}}},
	{"Rpk", Height, 0, 0, []spelling{{iso2021, "PRW", "Rpk", ""}, {like1997 | asme, "R", "Rpk", ""}}},
	{"Rvk", Height, 0, 0, []spelling{{iso2021, "PRW", "Rvk", ""}, {like1997 | asme, "R", "Rvk", ""}}},
	{"Rpkx", Height, 0, 0, []spelling{{iso2021, "PRW", "Rpkx", ""}}},
	{"Rvkx", Height, 0, 0, []spelling{{iso2021, "PRW", "Rvkx", ""}}},
	{"Rmrk1", Ratio, 0, 0, []spelling{{iso2021, "PRW", "Rmrk1", ""}, {like1997 | asme, "R", "Mr1", ""}}},
	{"Rmrk2", Ratio, 0, 0, []spelling{{iso2021, "PRW", "Rmrk2", ""}, {like1997 | asme, "R", "Mr2", ""}}},
	{"Rak1", Area, 0, 0, []spelling{{iso2021, "PRW", "Rak1", ""}, {like1997 | asme, "R", "A1", ""}}},
	{"Rak2", Area, 0, 0, []spelling{{iso2021, "PRW", "Rak2", ""}, {like1997 | asme, "R", "A2", ""}}},

	// Material probability
	{"Rpq", Height, 0, 0, []spelling{{iso2021, "PRW", "Rpq", ""}, {like1997 | asme, "PR", "Rpq", ""}}},
	{"Rvq", Height, 0, 0, []spelling{{iso2021, "PRW", "Rvq", ""}, {like1997 | asme, "PR", "Rvq", ""}}},
	{"Rmq", Ratio, 0, 0, []spelling{{iso2021, "PRW", "Rmq", ""}, {like1997 | asme, "PR", "Rmq", ""}}},

	// Volumes
	{"Rvm", Height, 1, 1, []spelling{{iso2021, "PRW", "Rvm", ""}}},
	{"Rvv", Height, 1, 1, []spelling{{iso2021, "PRW", "Rvv", ""}}},
	{"Rvmp", Height, 0, 1, []spelling{{iso2021, "PRW", "Rvmp", ""}}},
	{"Rvmc", Height, 0, 2, []spelling{{iso2021, "PRW", "Rvmc", ""}}},
	{"Rvvc", Height, 0, 2, []spelling{{iso2021, "PRW", "Rvvc", ""}}},
	{"Rvvv", Height, 0, 1, []spelling{{iso2021, "PRW", "Rvvv", ""}}},

	// Waves and correlation
	{"Ral", Spacing, 0, 1, []spelling{{iso2021, "PRW", "Ral", ""}}},
	{"Rsw", Spacing, 0, 0, []spelling{{iso2021, "PRW", "Rsw", ""}}},
	{"WDSm", Spacing, 0, 0, []spelling{{iso2021 | iso1997, "W", "WDSm", ""}}},
	{"WDc", Height, 0, 0, []spelling{{iso2021 | iso1997, "W", "WDc", ""}}},
	{"WDt", Height, 0, 0, []spelling{{iso2021 | iso1997, "W", "WDt", ""}}},

	// Peaks and pits
	{"R5p", Height, 0, 0, []spelling{{iso2021, "PRW", "R5p", ""}}},
	{"R5v", Height, 0, 0, []spelling{{iso2021, "PRW", "R5v", ""}}},
	{"R10z", Height, 0, 0, []spelling{{iso2021, "PRW", "R10z", ""}}},
	{"Rpd", PerLength, 0, 0, []spelling{{iso2021, "PRW", "Rpd", ""}}},
	{"Rvd", PerLength, 0, 0, []spelling{{iso2021, "PRW", "Rvd", ""}}},
	{"Rmpc", PerLength, 0, 0, []spelling{{iso2021, "PRW", "Rmpc", ""}}},
	{"Rmvc", PerLength, 0, 0, []spelling{{iso2021, "PRW", "Rmvc", ""}}},

	// Motifs
	{"R", Height, 0, 1, []spelling{{motif, "R", "R", ""}}},
	{"AR", Spacing, 0, 1, []spelling{{motif, "R", "AR", ""}}},
	{"Rx", Height, 0, 1, []spelling{{motif, "R", "Rx", ""}}},
	{"Nr", Number, 0, 1, []spelling{{motif, "R", "Nr", ""}}},
	{"SR", Height, 0, 1, []spelling{{motif, "R", "SR", ""}}},
	{"SAR", Spacing, 0, 1, []spelling{{motif, "R", "SAR", ""}}},
	{"W", Height, 0, 2, []spelling{{motif, "W", "W", ""}}},
	{"AW", Spacing, 0, 2, []spelling{{motif, "W", "AW", ""}}},
	{"Wx", Height, 0, 2, []spelling{{motif, "W", "Wx", ""}}},
	{"Wte", Height, 0, 2, []spelling{{motif, "W", "Wte", ""}}},
	{"Nw", Number, 0, 2, []spelling{{motif, "W", "Nw", ""}}},
	{"SW", Height, 0, 2, []spelling{{motif, "W", "SW", ""}}},
	{"SAW", Spacing, 0, 2, []spelling{{motif, "W", "SAW", ""}}},
	{"Rke", Height, 0, 1, []spelling{{motif, "R", "Rke", ""}}},
	{"Rpke", Height, 0, 1, []spelling{{motif, "R", "Rpke", ""}}},
	{"Rvke", Height, 0, 1, []spelling{{motif, "R", "Rvke", ""}}},
	{"Mr1e", Ratio, 0, 1, []spelling{{motif, "R", "Mr1e", ""}}},
	{"Mr2e", Ratio, 0, 1, []spelling{{motif, "R", "Mr2e", ""}}},

	// Older and works standards
	{"RzJIS", Height, 0, 0, []spelling{{jis2013, "R", "RzJIS", ""}, {jis1994, "R", "Rz", ""}}},
	{"Rz1982", Height, 0, 0, []spelling{{jis1982, "R", "Rz", ""}}},
	{"R3z", Height, 0, 0, []spelling{{iso2021 | iso1997, "R", "R3z", ""}}},
	{"R3zm", Height, 0, 0, []spelling{{iso2021 | iso1997, "R", "R3zm", ""}}},
	{"Rpm", Height, 0, 0, []spelling{{asme, "R", "Rpm", ""}}},
	{"Rmax", Height, 0, 0, []spelling{{asme, "R", "Rmax", ""}}},
	{"Ry", Height, 0, 0, []spelling{{jis1994, "R", "Ry", ""}}},
	{"Rmax1982", Height, 0, 0, []spelling{{jis1982, "R", "Rmax", ""}}},
	{"Ra75", Height, 0, 0, []spelling{{jis2013 | jis1994, "R", "Ra75", ""}}},
	{"S", Spacing, 0, 0, []spelling{{iso1997 | jis1994, "R", "S", ""}}},
	{"D", PerLength, 0, 0, []spelling{{iso1997, "R", "D", ""}}},
	{"LambdaA", Spacing, 0, 0, []spelling{{iso1997 | asme, "R", "λa", ""}}},
	{"LambdaQ", Spacing, 0, 0, []spelling{{iso1997 | asme, "R", "λq", ""}}},
	{"Lo", Spacing, 0, 0, []spelling{{iso1997, "R", "Lo", ""}}},
	{"LengthRatio", Number, 0, 0, []spelling{{iso1997, "R", "lr", ""}}},
	{"Tp", Ratio, 1, 1, []spelling{{asme | jis1994, "R", "tp", ""}}},
	{"Htp", Height, 0, 2, []spelling{{asme, "R", "Htp", ""}}},
	{"RPcBand", PeakCount, 2, 2, []spelling{{every, "R", "RPc", ""}}},
	{"Pc", PeakCount, 0, 2, []spelling{{asme, "R", "Pc", ""}}},
	{"HSC", PeakCount, 0, 1, []spelling{{asme, "R", "HSC", ""}}},
}
