// Package callout reads the text of a drawing requirement and derives the settings to measure it with.
//
//   - [ParseRequirement]: text to [Requirements], with the questions that the text leaves open, each with the answers that
//     settle it ([Question]), and a reading in plain words ([Item.Reading]). The grammar stands in read.go, the words
//     in readparts.go and readunits.go, the questions in question.go.
//   - [Derived]: the settings, each with its [Origin]: derive.go chooses the row of an edition by a cut-off, a class, or the
//     limit; deriveother.go has the P- and W-parameters, the motifs, and what the text states over the row.
//   - [Advise]: how to trace a surface under these settings.
//
// A refusal is a [TextError] with its line and column. What was remembered and never seen carries a mark
// ([Origin.Unconfirmed]) that is meant to reach the reader.
package callout
