package params

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"example.com/furrow/standards"
)

// Choices are the switches where the text of a standard leaves room. The zero value is the default of each; what the
// switches are called in a settings file, what they do and why is listed by [Switches].
type Choices struct {
	ElementThreshold ElementThreshold // "rsm_threshold"
	SpacingMode      SpacingMode      // "rsm_mode"
	ElementWidth     ElementWidth     // "rsm_width"
	HeightWindow     HeightWindow     // "rzx_window"
	Deviation        Divisor          // "sd_divisor"
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

// Divisor is the divisor of the standard deviations of spacings and heights.
type Divisor uint8

const (
	DivideByCount        Divisor = iota // the number of items n
	DivideByCountLessOne                // n - 1
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

// BandCutoff is the cut-off behind which EN 10049 has peaks counted in a band, in µm (memory; the clause was not seen).
const BandCutoff = 2500.0

// A Switch describes one of the [Choices]: its name and words in a settings file, what each does, and what the default
// rests on.
type Switch struct {
	Key     string
	Text    string         // the question, in words
	Options []SwitchOption // the first is the default
	Symbols string         // the parameters it touches, in the spelling of ISO 21920 where that has them
	Basis   standards.Basis
	Why     string // why the default is what it is

	get func(c *Choices) string
	set func(c *Choices, value string) bool
}

// An SwitchOption is one setting of a switch.
type SwitchOption struct{ Word, Effect string }

// Switches returns the switches, in a fixed order.
func Switches() []Switch { return append([]Switch(nil), switches...) }

// Get returns the setting of the switch with the given key, "" when there is none.
func (c Choices) Get(key string) string {
	for _, s := range switches {
		if s.Key == key {
			return s.get(&c)
		}
	}
	return ""
}

// Set sets the switch with the given key. The error names the switches, or the words the switch knows.
func (c *Choices) Set(key, value string) error {
	var keys []string
	for _, s := range switches {
		if s.Key != key {
			keys = append(keys, s.Key)
			continue
		}
		if s.set(c, value) {
			return nil
		}
		var words []string
		for _, o := range s.Options {
			words = append(words, strconv.Quote(o.Word))
		}
		return fmt.Errorf("params: %s must be %s, not %q", key, strings.Join(words, " or "), value)
	}
	return fmt.Errorf("params: there is no switch %q; there are %s", key, strings.Join(keys, ", "))
}

// words makes a switch between the options of a field. The card has a line for the key with the question, one for each option with its
// effect, the default first, the symbols, and behind the basis why the default is what it is.
func words[T ~uint8](card string, field func(c *Choices) *T) Switch {
	lines := strings.Split(card, "\n")
	s := Switch{}
	s.Key, s.Text, _ = strings.Cut(lines[0], ": ")
	last := len(lines) - 2
	for _, line := range lines[1:last] {
		word, effect, _ := strings.Cut(line, ": ")
		s.Options = append(s.Options, SwitchOption{word, effect})
	}
	s.Symbols = strings.TrimPrefix(lines[last], "symbols: ")
	basis, why, _ := strings.Cut(lines[last+1], ": ")
	s.Basis, s.Why = standards.Basis(basis), why
	s.get = func(c *Choices) string { return s.Options[*field(c)].Word }
	s.set = func(c *Choices, value string) bool {
		i := slices.IndexFunc(s.Options, func(o SwitchOption) bool { return o.Word == value })
		if i >= 0 {
			*field(c) = T(i)
		}
		return i >= 0
	}
	return s
}

var switches = []Switch{
	words(`rsm_threshold: the height of which a hill and a dale must reach 10 % to count as a profile element (ISO 21920)
rp-rv: a hill counts from 10 % of Rp, a dale from 10 % of Rv
rz: both count from 10 % of Rz: on a plateau, where Rp is small, all hills may be rejected
symbols: Rsm Rsmx Rsmq Rc Rcx Rcq Rpc
own choice: we have not seen the standard; separate heights give the same result when the profile is turned over`, func(c *Choices) *ElementThreshold { return &c.ElementThreshold }),
	words(`rsm_mode: how profile elements are counted in sampling lengths (ISO 4287)
complete: segmented once over the evaluation length; complete elements only, each in the section in which it begins
strict: every sampling length on its own, with the part at its start: RSm comes out lower where elements are long
symbols: RSm Rc RPc
own choice: the text allows both; complete elements do not depend on where the sections begin`, func(c *Choices) *SpacingMode { return &c.SpacingMode }),
	words(`rsm_width: what must be as wide as 1 % of the section to count (ISO 4287, ASME B46.1, JIS B 0601)
part: each hill and each dale
element: the profile element, a hill with the dale beside it: RSm of a ground surface comes out lower
none: nothing: a hill and a dale count by their height alone, as in ISO 21920
symbols: RSm Rc RPc Sm
trade practice: trade texts after the note of JIS B 0601 ask it of each hill and dale; a national laboratory calls the definition ambiguous`, func(c *Choices) *ElementWidth { return &c.ElementWidth }),
	words(`rzx_window: where the window of Rzx(l) is placed
sliding: at every position: no higher value can be found by moving the sections
sections: side by side from the start: the largest of the fixed sections, as the older Rmax; never above sliding
symbols: Rzx
own choice: the title, maximum height per section, fits both; sliding does not depend on the start`, func(c *Choices) *HeightWindow { return &c.HeightWindow }),
	words(`sd_divisor: the divisor of standard deviations of elements and motifs
n: the number of items: defined for a single one, as Rq divides by the number of points
n-1: one less: larger by √(n/(n-1)), undefined for a single item
symbols: Rsmq Rcq SR SAR SW SAW
own choice: we have not seen the standard; the number of items agrees with Rq`, func(c *Choices) *Divisor { return &c.Deviation }),
	words(`motif_base: the height of which a peak must reach 5 % to count in ISO 12085
windows: the mean height of windows of half the limit A
peaks: the mean height of all peaks: lower where there are many small ones, so that more of them count
symbols: R AR Rx
own choice: the 5 % are published; their base is windows from memory, and peaks in another source`, func(c *Choices) *MotifBase { return &c.MotifBase }),
	words(`prune_reference: the height of which hills and dales must reach 5 % to stay in the pruned watershed (ISO 21920)
rt: Rt of the evaluation length
rz: Rz, the mean of the sections: lower, so that more peaks and pits stay
symbols: R5p R5v R10z Rpd Rvd Rmpc Rmvc
own choice: we have not seen the standard; areal texture uses the whole height`, func(c *Choices) *PruneReference { return &c.PruneReference }),
	words(`too_few: what to do where there are fewer than five peaks, or fewer than three for R3z
undefined: the value is undefined, with the count as the reason
use-all: the mean of what there is
symbols: R5p R5v R10z RzJIS R3z
own choice: a mean of five is not a mean of three`, func(c *Choices) *TooFew { return &c.TooFew }),
}
