package params

// The meanings of the Rk family: the largest height and depth came with ISO 21920-2.
var (
	core21920 = []Meaning{{Editions: editions21920, Over: EvaluationLength, Refs: refs(iso21920("4.5.3"))}}
	coreSince = append(core21920[:1:1], Meaning{Editions: editions13565, Over: EvaluationLength, Refs: refs(iso13565("2", "4"))})
)

// coreRows are the parameters of stratified surfaces from the material ratio curve.
var coreRows = []Parameter{
	{
		Key: "Rk", Name: "core height", Group: GroupCore, On: Stratified,
		Meanings:  coreSince,
		Formula:   "height of the equivalent straight line at 0 % less that at 100 %",
		Sentence:  "The height of the core that carries the load for most of the life of the surface.",
		Blind:     "Peaks and dales outside the core; it is meant for an S-shaped curve.",
		eval:      evalCore,
		construct: constructCore(coreHeight),
	},
	{
		Key: "Rpk", Name: "reduced peak height", Group: GroupCore, On: Stratified,
		Meanings:  coreSince,
		Formula:   "2 Rak1 / Rmrk1",
		Sentence:  "The height of the peaks above the core, which running-in wears away.",
		Blind:     "How many peaks share the area, and the one highest of them.",
		eval:      evalReducedPeak,
		construct: constructCore(corePeak),
	},
	{
		Key: "Rvk", Name: "reduced pit depth", Group: GroupCore, On: Stratified,
		Meanings:  coreSince,
		Formula:   "2 Rak2 / (100 % - Rmrk2)",
		Sentence:  "The depth of the dales below the core, which keep oil.",
		Blind:     "How many dales share the area, and the one deepest of them.",
		eval:      evalReducedDale,
		construct: constructCore(coreDale),
	},
	{
		Key: "Rpkx", Name: "maximum peak height above the core", Group: GroupCore, On: Stratified,
		Meanings:  core21920,
		Formula:   "max z - height of the line at 0 %",
		Sentence:  "How far the highest point stands above the core.",
		Blind:     "All other peaks.",
		eval:      evalHighestPeak,
		construct: constructCore(coreHighest),
	},
	{
		Key: "Rvkx", Name: "maximum pit depth below the core", Group: GroupCore, On: Stratified,
		Meanings:  core21920,
		Formula:   "height of the line at 100 % - min z",
		Sentence:  "How far the lowest point lies below the core.",
		Blind:     "All other dales.",
		eval:      evalDeepestDale,
		construct: constructCore(coreLowest),
	},
	{
		Key: "Rmrk1", Name: "material ratio at the upper core limit", Group: GroupCore, On: Stratified,
		Meanings:  coreSince,
		Formula:   "ratio at which the curve meets the height of the line at 0 %",
		Sentence:  "The share of the length that the peaks take.",
		Blind:     "How high the peaks are.",
		eval:      evalUpperRatio,
		construct: constructCore(coreRatio1),
	},
	{
		Key: "Rmrk2", Name: "material ratio at the lower core limit", Group: GroupCore, On: Stratified,
		Meanings:  coreSince,
		Formula:   "ratio at which the curve meets the height of the line at 100 %",
		Sentence:  "The share of the length that carries when the core is worn down; the rest are dales.",
		Blind:     "How deep the dales are.",
		eval:      evalLowerRatio,
		construct: constructCore(coreRatio2),
	},
	{
		Key: "Rak1", Name: "area of the hills", Group: GroupCore, On: Stratified,
		Meanings:  coreSince,
		Formula:   "Rpk Rmrk1 / (2 · 100 %), 1 µm being 1000 µm²/mm",
		Sentence:  "The material of the peaks above the core, spread over the whole length.",
		Blind:     "Whether it is one peak or many.",
		eval:      evalPeakArea,
		construct: constructCore(coreArea1),
	},
	{
		Key: "Rak2", Name: "area of the dales", Group: GroupCore, On: Stratified,
		Meanings:  coreSince,
		Formula:   "Rvk (100 % - Rmrk2) / (2 · 100 %), 1 µm being 1000 µm²/mm",
		Sentence:  "The void of the dales below the core, spread over the whole length: what oil they can keep.",
		Blind:     "Whether it is one dale or many.",
		eval:      evalDaleArea,
		construct: constructCore(coreArea2),
	},
}
