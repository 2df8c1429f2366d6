// Package judge goes from the text of a drawing to a verdict on traces: [ReadRequirement] makes settings, limits and rules of it, [Judging]
// evaluates the traces and says whether they conform, and why there is no verdict yet.
//
// A [Series] holds the values of several traces of one surface; [FindCutoff] looks for the cut-off where an edition lets the measured
// value choose it. All lengths and heights are micrometres.
package judge
