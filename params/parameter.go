package params

import "example.com/furrow/standards"

// A Parameter is one row of the catalogue: what a symbol means, where that is written, and how it is computed.
type Parameter struct {
	// Key is the name of the exported function of this package that computes the parameter; no two rows share one.
	// By the key the list of symbols of package standards says how each edition writes the parameter; one that an edition calls by
	// another name, as Ry for Rz, has a key of its own there and none here.
	Key string
	// Symbol is the R form in the spelling of the first edition that has it: "Rsm", "AR". From the list of symbols.
	Symbol string
	// Name is the name in full, in lower case: "mean profile element spacing".
	Name string
	// Group is the heading the parameter stands under, one of the Group constants.
	Group string
	// Letters are the profiles the first edition that has it defines it for: "PRW". From the list of symbols.
	Letters string
	// Meanings say what each edition makes of it: one for each edition that has a symbol for it.
	Meanings []Meaning
	// Unit is that of the value. From the list of symbols.
	Unit Unit
	// Formula is the equation as computed, in one line of a notation of its own (see formula.go): "Rmr(p; d) = Rmr(Rmc(p) - d)".
	Formula string
	// Defined is the equation as defined, in the same notation, where it is another.
	Defined string
	// Sentence says what is computed, not what it is good for.
	Sentence string
	// Practice says what it is used for: common practice, not the statement of a standard. Empty where nothing general
	// is known.
	Practice string
	// Blind is what it does not see: what can change without changing the value, or changes it from outside.
	Blind string
	// Args are the arguments in brackets.
	Args []Arg
	// On is the profile it is measured on.
	On On

	also  string              // its other key in the list of symbols
	first standards.EditionID // the first edition that has it
	shape bool                // a flat profile has none
	must  []condition         // on the arguments
	row   *row
}

// An evaluator computes a parameter from the shared work, by the meaning that the work has been told; args are complete, NaN where
// the default depends on the input.
type evaluator func(w *work, args []float64) result

// A constructor adds to c, whose Symbol, Unit and Result are set, how the value came about.
type constructor func(w *work, args []float64, c *Construction)

// A Meaning is what one edition, or several alike, make of a parameter.
type Meaning struct {
	Editions []standards.EditionID // edition names, such as "iso-21920"
	Over     Over                  // the length it is evaluated over
	Refs     []standards.Ref       // where it is defined; the first is the source of a value
}

// An Arg is one argument of a parameter, as c in Rmr(c).
type Arg struct {
	Name string
	Unit Unit
	// Default is the value with which [Defaults] lists the parameter. NaN: it follows from the input, as Text says.
	Default float64
	Text    string // what the argument is, in words
}

// Unit is the unit of a value.
type Unit string

// The units of values and arguments. The catalogue counts lengths and heights in micrometres.
const (
	Micrometre    Unit = "µm"
	Percent       Unit = "%"
	None          Unit = ""
	PerMillimetre Unit = "1/mm"
	PerCentimetre Unit = "1/10 mm"
)

// Over is the length a parameter is evaluated over.
type Over uint8

const (
	EvaluationLength Over = iota // once, over the evaluation length
	SectionMean                  // in each section, then the arithmetic mean
	LargestSection               // in each section, then the largest
	SlidingSection               // in a section's length that slides along the evaluation length
)

var overText = [...]string{
	"the evaluation length",
	"each section, then the mean",
	"each section, then the largest",
	"a section that slides along the evaluation length",
}

// String returns the length in words.
func (o Over) String() string { return overText[o] }

// On is the profile a parameter is measured on.
type On uint8

const (
	OwnProfile On = iota // the profile its letter names
	Stratified           // the roughness profile behind the edition's filter for stratified surfaces
	Primary              // the primary profile, whatever the letter
	TwoRC                // the roughness profile behind the 2RC filter with 75 % at the cut-off
)

// The groups, in the order of the catalogue.
const (
	GroupHeight      = "Heights"
	GroupSpacing     = "Spacing and counts"
	GroupGradient    = "Slopes and lengths"
	GroupRatio       = "Material ratio"
	GroupCore        = "Core, peaks and dales"
	GroupProbability = "Material probability"
	GroupVolume      = "Volumes"
	GroupSpatial     = "Waves and correlation"
	GroupFeature     = "Peaks and pits"
	GroupMotif       = "Motifs"
	GroupLegacy      = "Older and works standards"
)
