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
		Formula:   "Rk = cu - cl",
		Sentence:  "The height of the core: how far the straight line through the flattest 40 % of the material ratio curve falls from 0 % to 100 %.",
		Practice:  "The core carries the load for most of the life of a running surface; a small Rk is taken as a sign of slow wear.",
		Blind:     "Peaks and dales outside the core. It is meant for an S-shaped curve; other curves give a number without this meaning.",
		eval:      evalCore,
		construct: constructCore(coreHeight),
	},
	{
		Key: "Rpk", Name: "reduced peak height", Group: GroupCore, On: Stratified,
		Meanings:  coreSince,
		Formula:   "Rpk = frac{2 × Ar_1}{Rmrk1}",
		Sentence:  "The height of a right triangle that has the area of the peaks above the core and their width Rmrk1.",
		Practice:  "Small: short running-in. Large: high peaks that wear off first, or that wear a seal.",
		Blind:     "How many peaks share the area, and the height of the highest; that is Rpkx.",
		eval:      evalReducedPeak,
		construct: constructCore(corePeak),
	},
	{
		Key: "Rvk", Name: "reduced pit depth", Group: GroupCore, On: Stratified,
		Meanings:  coreSince,
		Formula:   "Rvk = frac{2 × Ar_2}{100% - Rmrk2}",
		Sentence:  "The depth of a right triangle that has the area of the dales below the core and their width 100 % − Rmrk2.",
		Practice:  "Large: the surface can hold oil; wanted on honed bores within limits, because too much oil is lost if it is too large.",
		Blind:     "How many dales share the area, and the depth of the deepest; that is Rvkx.",
		eval:      evalReducedDale,
		construct: constructCore(coreDale),
	},
	{
		Key: "Rpkx", Name: "maximum peak height above the core", Group: GroupCore, On: Stratified,
		Meanings:  core21920,
		Formula:   "Rpkx = max{}{z_i} - cu text{, at least 0}",
		Sentence:  "How far the highest point is above the upper limit of the core; 0 if the core reaches higher.",
		Blind:     "All other peaks.",
		eval:      evalHighestPeak,
		construct: constructCore(coreHighest),
	},
	{
		Key: "Rvkx", Name: "maximum pit depth below the core", Group: GroupCore, On: Stratified,
		Meanings:  core21920,
		Formula:   "Rvkx = cl - min{}{z_i} text{, at least 0}",
		Sentence:  "How far the lowest point is below the lower limit of the core; 0 if the core reaches lower.",
		Blind:     "All other pits.",
		eval:      evalDeepestDale,
		construct: constructCore(coreLowest),
	},
	{
		Key: "Rmrk1", Name: "material ratio at the upper core limit", Group: GroupCore, On: Stratified,
		Meanings:  coreSince,
		Formula:   "Rmrk1 = Rmr(cu)",
		Sentence:  "The share of the length on which the profile is above the core.",
		Practice:  "Small after running-in.",
		Blind:     "How high the peaks are.",
		eval:      evalUpperRatio,
		construct: constructCore(coreRatio1),
	},
	{
		Key: "Rmrk2", Name: "material ratio at the lower core limit", Group: GroupCore, On: Stratified,
		Meanings:  coreSince,
		Formula:   "Rmrk2 = Rmr(cl)",
		Sentence:  "The share of the length on which the profile is at or above the lower limit of the core; the rest is dales.",
		Practice:  "Large: dales take little of the length. Small: they take much of it.",
		Blind:     "How deep the dales are.",
		eval:      evalLowerRatio,
		construct: constructCore(coreRatio2),
	},
	{
		Key: "Rak1", Name: "area of the hills", Group: GroupCore, On: Stratified,
		Meanings:  coreSince,
		Formula:   "Rak1 = frac{Rpk × Rmrk1}{2 × 100%}",
		Sentence:  "The area of the peaks above the core, spread over the whole length; 1 µm is 1000 µm² on each millimetre.",
		Practice:  "Material that running-in removes.",
		Blind:     "Whether it is one peak or many.",
		eval:      evalPeakArea,
		construct: constructCore(coreArea1),
	},
	{
		Key: "Rak2", Name: "area of the dales", Group: GroupCore, On: Stratified,
		Meanings:  coreSince,
		Formula:   "Rak2 = frac{Rvk × (100% - Rmrk2)}{2 × 100%}",
		Sentence:  "The area of the dales below the core, spread over the whole length; 1 µm is 1000 µm² on each millimetre.",
		Practice:  "Volume that oil can fill when the core is worn.",
		Blind:     "Whether it is one dale or many, and whether they are connected.",
		eval:      evalDaleArea,
		construct: constructCore(coreArea2),
	},
}
