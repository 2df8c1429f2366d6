// Package decide holds measured values against limits: plain numbers in, a verdict out.
//
//   - [Judgement]: values against one limit, by an acceptance rule and a guard band, in four words with a log. The rules,
//     16 %, maximum and median, stand in rules.go; guard bands in guard.go; the sentences in judgewords.go.
//   - [SixteenCharacteristic]: how the 16 % rule treats a surface.
//   - [Budget]: uncertainty by the GUM.
//   - [Summarise], [SplitNested], [CapabilityOf], [StudyGage]: series of values.
//   - [FindCutoff]: the cut-off when the drawing does not state it, from the values themselves.
//   - [Show], [LimitWords]: numbers as they are printed beside a verdict.
package decide
