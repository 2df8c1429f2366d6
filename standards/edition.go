package standards

import (
	"slices"
	"strings"
)

// Rule names an acceptance rule: how measured values are held against a limit.
type Rule string

// The acceptance rules.
const (
	Maximum        Rule = "max"    // no measured value may be outside the limit
	SixteenPercent Rule = "16%"    // at most 16 % of the measured values may be outside
	Median         Rule = "median" // the median of at least three measured values must be inside
)

// EditionID names an edition, in settings, records and answers.
type EditionID string

// The editions.
const (
	ISO21920 EditionID = "iso-21920"
	ISO4287  EditionID = "iso-4287"
	ISO12085 EditionID = "iso-12085"
	ASMEB46  EditionID = "asme-b46.1"
	JIS2013  EditionID = "jis-b0601-2013"
	JIS1994  EditionID = "jis-b0601-1994"
	JIS1982  EditionID = "jis-b0601-1982"
)

// An Edition is one set of standards that belong together, as data: what its symbols are measured with when the
// drawing is silent. All lengths are in micrometres.
type Edition struct {
	ID        EditionID // "iso-21920"
	Title     string    // for a reader: "ISO 21920-1, -2, -3:2021"
	Documents []string  // the documents taken together
	Replaced  string    // the document that took its place; empty for an edition in force

	Default TableRow   // the row that is used when nothing chooses another
	Rows    []TableRow // from the finest to the coarsest
	Columns Columns    // where the columns of Rows come from
	Steps   []Steps    // which row a value asks for; empty when no value chooses

	// FromLimit tells that the limit on the drawing chooses the row (ISO 21920-3). Otherwise the measured value does,
	// and the limit is no more than a first estimate (ISO 4288:1996).
	FromLimit bool

	Short      FilterKey // removes the short waves; Name "" when the edition has no such filter
	Long       FilterKey // splits roughness from waviness; Name "" when the edition has none
	Stratified FilterKey // used for the Rk family instead of Long; Name "" when the edition does not have the family

	Rule       Rule // the acceptance rule when the drawing names none
	RuleSource Ref

	Notes []string // what a reader should know before trusting a number
}

// A TableRow is one column of a table of settings: all that goes with one cut-off. A length of 0 means that the edition
// has no such thing, such as a cut-off in ISO 12085.
type TableRow struct {
	Name       string  // "Sc3"; empty where the standard gives no name
	Long       float64 // cut-off (nesting index) of the L-filter
	Short      float64 // cut-off (nesting index) of the S-filter
	Section    float64 // length of a section (sampling length)
	Sections   int     // number of sections
	Evaluation float64 // evaluation length
	MaxSpacing float64 // largest distance between points
	TipRadius  float64 // largest radius of the stylus tip
	A, B       float64 // operator lengths of the motif method
}

// Columns says where each column of an edition's rows comes from.
type Columns struct {
	Long, Short, Section, Sections, Evaluation, MaxSpacing, TipRadius Ref
}

// columns are those of a table whose lengths come from one place, and what goes with them from another.
func columns(lengths, others Ref) Columns {
	return Columns{lengths, others, lengths, lengths, lengths, others, others}
}

// A FilterKey names a filter as the settings do, with what must be said besides the cut-off.
type FilterKey struct {
	Name   string // "gaussian", "robust-gaussian", "two-rc", "valley-suppression"; empty for none
	Order  int    // of a regression filter
	Source Ref
}

// Steps is a table that chooses a row by the size of one quantity. Steps are closed at the top: a value equal to
// UpTo[i] belongs to row i.
type Steps struct {
	By     string    // the symbol whose value chooses: "Ra", "Rz", "RSm"
	For    []string  // the symbols whose settings it gives
	Title  string    // "Table 1, non-periodic profiles"
	Above  float64   // values up to this are outside the table
	UpTo   []float64 // upper bound of each row, in micrometres; +Inf when the last row is open
	Source Ref
	// Unconfirmed marks a table that was remembered but never seen: what it chooses must carry the mark to the reader.
	Unconfirmed bool
}

// Row returns the index of the row that value belongs to, and false when the table has none for it.
func (s Steps) Row(value float64) (int, bool) {
	if !(value > s.Above) {
		return 0, false
	}
	for i, up := range s.UpTo {
		if value <= up {
			return i, true
		}
	}
	return 0, false
}

// Serves reports whether the table is for symbol.
func (s Steps) Serves(symbol string) bool { return slices.Contains(s.For, symbol) }

// RowOfLong returns the row whose long cut-off is given, in micrometres.
func (e Edition) RowOfLong(long float64) (TableRow, bool) {
	for _, r := range e.Rows {
		if r.Long > 0 && Near(r.Long, long) {
			return r, true
		}
	}
	return TableRow{}, false
}

// Near tells whether two lengths are the same but for the last bits of a decimal fraction.
func Near(a, b float64) bool {
	d := a - b
	return d <= 1e-9*b && -d <= 1e-9*b
}

// editions are made afresh for each caller, so that no caller can change the tables of another.
var editions = []func() Edition{iso21920, iso4287, iso12085, asmeB46, jisB0601y2013, jisB0601y1994, jisB0601y1982}

// editionIDs are theirs, in the same order.
var editionIDs = [...]EditionID{ISO21920, ISO4287, ISO12085, ASMEB46, JIS2013, JIS1994, JIS1982}

// Editions returns all editions, the current one first.
func Editions() []Edition {
	all := make([]Edition, len(editions))
	for i, f := range editions {
		all[i] = f()
	}
	return all
}

// EditionIDs returns the names of all editions, in the order of [Editions].
func EditionIDs() []EditionID { return slices.Clone(editionIDs[:]) }

// EditionNames lists editions for a sentence: "iso-21920, iso-4287".
func EditionNames(ids []EditionID) string {
	names := make([]string, len(ids))
	for i, id := range ids {
		names[i] = string(id)
	}
	return strings.Join(names, ", ")
}

// EditionByID returns the edition of the given id, and false when there is none.
func EditionByID(id EditionID) (Edition, bool) {
	if i := slices.Index(editionIDs[:], id); i >= 0 {
		return editions[i](), true
	}
	return Edition{}, false
}
