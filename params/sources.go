package params

import "example.com/furrow/standards"

// Editions that share a meaning.
var (
	editions21920 = []standards.EditionID{editionISO21920}
	// editions4287 evaluate in each sampling length and take the mean; JIS B 0601:2013 is the Japanese text of ISO 4287.
	editions4287    = []standards.EditionID{editionISO4287, editionJIS2013}
	editionsASME    = []standards.EditionID{editionASME}
	editionsJIS1994 = []standards.EditionID{editionJIS1994}
	editionsJIS1982 = []standards.EditionID{editionJIS1982}
	// editions13565 share the older text of the families of stratified surfaces; ASME B46.1 refers to it.
	editions13565 = []standards.EditionID{editionISO4287, editionJIS2013, editionASME}
)

// meaning is that of editions that leave evaluator and construction to the row.
func meaning(editions []standards.EditionID, over Over, refs ...standards.Ref) Meaning {
	return Meaning{Editions: editions, Over: over, Refs: refs}
}

func refs(r ...standards.Ref) []standards.Ref { return r }

// Of the clauses of ISO 21920-2 up to 5.1 the numbers and titles are public (contents list of a national edition), the
// formulas are remembered; both are held against closed forms and published examples in the tests.
func iso21920(clause string) standards.Ref {
	return standards.Ref{Doc: "ISO 21920-2:2021", Clause: clause, Basis: standards.Excerpt}
}

// memory21920 is for what is not in the public part of the contents list: the profile elements and features.
func memory21920(clause string) standards.Ref {
	return standards.Ref{Doc: "ISO 21920-2:2021", Clause: clause, Basis: standards.Memory}
}

// iso4287 clauses are grouped in a public contents list; the number of the single parameter is remembered.
func iso4287(clause string) standards.Ref {
	return standards.Ref{Doc: "ISO 4287:1997", Clause: clause, Basis: standards.Memory}
}

// excerpt4287 is for clauses quoted in a public terminology database or by a national laboratory.
func excerpt4287(clause string) standards.Ref {
	return standards.Ref{Doc: "ISO 4287:1997", Clause: clause, Basis: standards.Excerpt}
}

func iso13565(part, clause string) standards.Ref {
	year := map[string]string{"2": "1996", "3": "1998"}[part]
	return standards.Ref{Doc: "ISO 13565-" + part + ":" + year, Clause: clause, Basis: standards.Memory}
}

// asme is the section on surface parameters for profiling methods; its contents list is public, the wording is not.
func asme() standards.Ref {
	return standards.Ref{Doc: "ASME B46.1-2009", Clause: "1-4", Basis: standards.Memory}
}

func jis1994() standards.Ref {
	return standards.Ref{Doc: "JIS B 0601:1994", Basis: standards.Excerpt}
}

func jis1982() standards.Ref {
	return standards.Ref{Doc: "JIS B 0601:1982", Basis: standards.Memory}
}

// ownChoice says that a rule is our own decision, because no text that we know gives it.
func ownChoice(rule string) standards.Ref {
	return standards.Ref{Doc: "furrow", Clause: rule, Basis: standards.OwnChoice}
}

func jis2013(clause string) standards.Ref {
	return standards.Ref{Doc: "JIS B 0601:2013", Clause: clause, Basis: standards.Excerpt}
}

// trade is for what is in use without a public clause.
func trade(doc, clause string) standards.Ref {
	return standards.Ref{Doc: doc, Clause: clause, Basis: standards.Trade}
}

// iso4287Older is the vocabulary of 1984 that ISO 4287:1997 replaced; some of its parameters are still asked for.
func iso4287Older() standards.Ref {
	return standards.Ref{Doc: "ISO 4287-1:1984", Basis: standards.Memory}
}

func en10049() standards.Ref {
	return standards.Ref{Doc: "EN 10049:2013", Basis: standards.Memory}
}
