package roughness

import (
	"maps"

	"example.com/furrow/params"
	"example.com/furrow/standards"
	"example.com/furrow/standards/callout"
)

// Settings say how a trace is evaluated. The zero value, and a nil *Settings, stand for the defaults of ISO 21920:
// roughness profile, line removed, setting class Sc3.
//
// Every field left at its zero value is filled by [Evaluate] from the edition; the complete settings come back in
// [Evaluation.Settings] and give the same evaluation again.
type Settings struct {
	Name    string              // free text
	Edition standards.EditionID // "iso-21920" when empty; see standards.Editions
	Profile Letter              // R when zero
	Input   Heights             // what the heights hold

	Invert  bool       // turn the heights over, as for a replica
	Crop    [2]float64 // lengths cut from the start and the end of the trace
	Exclude []Exclusion
	Bridge  *float64 // longest gap bridged; nil: half the L-filter cut-off, or DefaultBridge without one

	Form  FormSpec
	Short Band // S-filter
	Long  Band // L-filter

	WavinessLimit float64 // cut-off λf for W; 0 means none

	Sections      int      // number of sections; 0: by the edition
	SectionLength float64  // 0: the L-filter cut-off, or the whole trace left divided by Sections
	Start         *float64 // where the first section begins, from the start of the trace; nil: sections in the middle

	// Stratified says which filter makes the profile for the Rk family and its kin: StratifiedByLong or
	// StratifiedByEdition. Empty: the L-filter when the settings state its kind, otherwise the edition's own, at the cut-off
	// that they state.
	Stratified string

	// InsistOnSkid gives the values that are refused for a trace taken with a skid, with a note.
	InsistOnSkid bool

	// From says where stated settings come from, by key ("long.cutoff"); a key it lacks was given by hand. It has no part in the
	// evaluation and is not kept in a settings file.
	From map[string]callout.Origin

	Choices    params.Choices
	Parameters []string // names with arguments in brackets; empty: all that the edition has for the profile
}

// clone returns settings that share no memory with s.
func (s *Settings) clone() *Settings {
	c := &Settings{}
	c.set(s)
	return c
}

// set makes c a copy of s that shares no memory with it.
func (c *Settings) set(s *Settings) {
	*c = *s
	c.From = maps.Clone(s.From)
	for _, f := range withMemory {
		f.Copy(c, s)
	}
}

// Merge lays what over states over base. A field of over that is at its zero value states nothing. The origins of base stay with what
// over leaves alone.
func Merge(base, over *Settings) *Settings {
	s := base.clone()
	from := map[string]callout.Origin{}
	maps.Copy(from, s.From)
	for i := range fields {
		f := &fields[i]
		if !f.Stated(over) {
			continue
		}
		f.Copy(s, over)
		maps.DeleteFunc(from, func(key string, _ callout.Origin) bool { return fieldOf(key) == f })
	}
	maps.Copy(from, over.From)
	s.From = nil
	if len(from) > 0 {
		s.From = from
	}
	return s
}

// The two filters for stratified surfaces.
const (
	StratifiedByLong    = "long"    // the L-filter of the settings is used for every parameter
	StratifiedByEdition = "edition" // the edition's own, such as the robust Gaussian regression of ISO 21920-3
)

// DefaultBridge is the longest gap, in micrometres, that is bridged where no L-filter sets the scale (own choice).
const DefaultBridge = 10

// Letter names a profile: roughness R, primary P or waviness W.
type Letter byte

// The three profiles.
const (
	R Letter = 'R'
	P Letter = 'P'
	W Letter = 'W'
)

// String returns the letter, "R" for the zero value.
func (l Letter) String() string {
	if l == 0 {
		return "R"
	}
	return string(rune(l))
}

// Heights says what the heights of a trace hold.
type Heights uint8

const (
	Raw      Heights = iota // heights as traced, nothing removed
	Levelled                // form already removed
	Filtered                // already the profile to evaluate: nothing is removed, heights count from their own zero
)

var inputNames = [...]string{"raw", "levelled", "filtered"}

// String returns the word used in settings files.
func (i Heights) String() string { return inputNames[i] }

// Exclusion leaves a part of the trace out, with a reason that stays in the record; without one the settings are refused.
type Exclusion struct {
	From, To float64 // from the start of the trace, both ends included
	Reason   string
}

// Band is the S-filter or the L-filter of settings: by default the edition's own, or switched off, or stated.
type Band struct {
	Off  bool       // no filter
	Spec FilterSpec // the filter, where not zero; without a kind, Spec.Filter, it is the edition's own
}

// Given reports whether the band states a filter or none.
func (b Band) Given() bool { return b.Off || b.Spec != FilterSpec{} }

// InEdition returns the edition of the settings, nil for none, or the one that holds where they name none.
func (s *Settings) InEdition() standards.EditionID {
	if s == nil || s.Edition == "" {
		return DefaultEdition
	}
	return s.Edition
}

// OnProfile returns the profile of the settings, nil for none, or the one that holds where they name none.
func (s *Settings) OnProfile() Letter {
	if s == nil || s.Profile == 0 {
		return R
	}
	return s.Profile
}
