// Package standards holds editions of surface-texture standards as data, and what is decided with them on plain numbers.
//
//   - [Edition]: one set of standards that belong together: rows of settings, the tables that choose a row, filters,
//     acceptance rule, and where each number comes from ([Ref], [Basis]). One file per edition: iso21920.go, iso4287.go,
//     iso12085.go, asmeb46.go, jisb0601.go.
//   - [ParseRequirement]: the text of a drawing requirement, read into a [Requirement] with its [Settings], the
//     questions it leaves open with the text that answers each, and a reading in plain words.
//   - [Advise] and [FindCutoff]: how to trace a surface, and the cut-off when the drawing does not state it.
//   - [Judgement]: values held against a limit by an acceptance rule and a guard band, in four words with a log.
//   - [Budget]: uncertainty by the GUM; [Summarise], [SplitNested], [CapabilityOf], [StudyGage]: series of values.
//   - [ProcessRanges], [Guides], [Grades], [Cautions]: reference cards.
//
// Lengths and heights are micrometres. What was remembered and never seen again carries a mark ([Steps.Unconfirmed],
// [Origin.Unconfirmed]) that is meant to reach the reader. The package computes nothing on profiles and imports nothing
// of furrow.
package standards
