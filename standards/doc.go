// Package standards holds the editions of surface-texture standards as data. What is read and decided with them stands
// in two packages beside it.
//
//   - [Edition] and [EditionID]: one set of standards that belong together: rows of settings, the tables that choose a
//     row, filters, acceptance rule, and where each number comes from ([Ref], [Basis]). One file an edition: iso21920.go,
//     iso4287.go, iso12085.go, asmeb46.go, jisb0601.go.
//   - [Class]: the setting class of ISO 21920-3 for a limit, and [ClassChoice.Reason] why it is that one (iso21920.go);
//     [Edition.Steps] for the other editions.
//   - [Symbols] and [FindSymbol]: the one list of symbols, in symboltable.go.
//   - [WrittenUnit], [Quantity], [Bound]: kinds of number, their units, and one limit.
//   - [Grades], [TriangleMarks]: marks of old drawings.
//   - Package callout: the text of a drawing, read into a requirement with its settings and open questions.
//   - Package decide: limits, acceptance rules, guard bands, budgets and series, on plain numbers.
//
// Where does 0.8 mm come from for "Rz 3,2"? [Class] with the rows and steps of iso21920.go, or the rows and steps of
// iso4287.go; callout/derive.go takes the row into settings. Where is the 16 % rule? decide/rules.go.
//
// Lengths and heights are micrometres. What was remembered and never seen again carries a mark ([Steps.Unconfirmed])
// that is meant to reach the reader. The package computes nothing on profiles and imports nothing of furrow.
package standards
