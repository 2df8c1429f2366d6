package standards

// Basis says what the knowledge of a clause rests on. The text of most standards is not public, so a
// value says how its formula became known.
type Basis string

// The five bases, from the firmest to the weakest.
const (
	TextRead  Basis = "published text read" // the clause itself was read
	Excerpt   Basis = "excerpt"             // a public excerpt, contents list or table of it was read
	Trade     Basis = "trade practice"      // handbooks and usage, without a clause
	Memory    Basis = "memory"              // remembered, not seen again; never shipped as normative
	OwnChoice Basis = "own choice"          // the text leaves room or is not known; decided here
)

// Ref names the place in a document that a number, table or formula comes from.
type Ref struct {
	Doc    string // "ISO 21920-2:2021"
	Clause string // "4.2.2"; empty when none is known
	Basis  Basis
}

// String returns the document and the clause, without the basis: "ISO 21920-2:2021, 4.2.2".
func (r Ref) String() string {
	if r.Clause == "" {
		return r.Doc
	}
	return r.Doc + ", " + r.Clause
}
