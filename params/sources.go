package params

import "example.com/furrow/standards"

// Editions that share a meaning.
var (
	// editions4287 evaluate in each sampling length and take the mean; JIS B 0601:2013 is the Japanese text of ISO 4287.
	editions4287 = []string{editionISO4287, editionJIS2013}
	// editionsAll3 are those in which the newer families (core, probability, volume ...) are one text.
	editionsCore = []string{editionISO21920, editionISO4287, editionJIS2013, editionASME}
)

func refs(r ...standards.Ref) []standards.Ref { return r }

// What is known of the clauses: the contents lists are public, the formulas are remembered and checked against the
// closed forms and published examples in the tests.
func iso21920(clause string) standards.Ref {
	return standards.Ref{Doc: "ISO 21920-2:2021", Clause: clause, Basis: standards.Excerpt}
}

func iso4287(clause string) standards.Ref {
	return standards.Ref{Doc: "ISO 4287:1997", Clause: clause, Basis: standards.Excerpt}
}
