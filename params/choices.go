package params

// Choices are the switches where the text of a standard leaves room. The zero value is the default of each; what the
// switches are called in a settings file, what they do and why is listed by [Switches].
type Choices struct {
	ElementThreshold ElementThreshold // "rsm_threshold"
	SpacingMode      SpacingMode      // "rsm_mode"
	ElementWidth     ElementWidth     // "rsm_width"
	HeightWindow     HeightWindow     // "rzx_window"
	Deviation        Deviation        // "sd_divisor"
	MotifBase        MotifBase        // "motif_base"
	PruneReference   PruneReference   // "prune_reference"
	TooFew           TooFew           // "too_few"
}

// ElementThreshold says what 10 % a hill or a dale must reach to count for Rsm and Rc.
type ElementThreshold uint8

const (
	OwnHeights   ElementThreshold = iota // a hill 10 % of Rp, a dale 10 % of Rv
	CommonHeight                         // both 10 % of Rz
)

// SpacingMode says how ISO 4287 counts profile elements in sampling lengths.
type SpacingMode uint8

const (
	CompleteElements SpacingMode = iota // segmented once over the whole length, complete elements only
	StrictSections                      // every sampling length on its own, with the part at its start
)

// ElementWidth says what the least width of 1 % of the sampling length is asked of, in the editions that have one: ISO 4287, ASME B46.1
// and JIS B 0601.
type ElementWidth uint8

const (
	WidthOfPart    ElementWidth = iota // each hill and each dale
	WidthOfElement                     // the profile element, a hill with the dale beside it
	WidthNotAsked                      // nothing: height alone decides
)

// HeightWindow says where the window of Rzx stands.
type HeightWindow uint8

const (
	SlidingWindow HeightWindow = iota // at every position
	FixedSections                     // next to each other, from the start of the evaluation length
)

// Deviation is the divisor of the standard deviations of spacings and heights.
type Deviation uint8

const (
	DivideByCount        Deviation = iota // the number of items n
	DivideByCountLessOne                  // n - 1
)

// MotifBase says of what height a peak must reach 5 % to count as one in ISO 12085.
type MotifBase uint8

const (
	MeanOfWindows MotifBase = iota // the mean height of windows of length A/2
	MeanOfPeaks                    // the mean height of all peaks
)

// PruneReference is the height of which hills and dales must reach 5 % to stay in the pruned watershed.
type PruneReference uint8

const (
	PruneByTotal   PruneReference = iota // Rt
	PruneByMaximum                       // Rz
)

// TooFew says what a mean of five (R5p, RzJIS) or a third-highest (R3z) does where there are fewer.
type TooFew uint8

const (
	TooFewUndefined TooFew = iota // the value is undefined
	TooFewUseAll                  // the mean of what there is
)

// CountBand is the band of a peak count, above and below the reference line: the two arguments of RPc(c1,c2).
type CountBand struct{ Upper, Lower float64 }

// BandCutoff is the cut-off behind which EN 10049 has peaks counted in a band, in µm (memory; the clause was not seen).
const BandCutoff = 2500.0

// DefaultCountBand is the band of EN 10049 (memory; the clause was not seen). It is no switch: the symbol states it.
var DefaultCountBand = CountBand{0.5, -0.5}
