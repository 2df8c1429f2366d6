package roughness

import (
	"slices"
	"strconv"

	"example.com/furrow/params"
	"example.com/furrow/standards/callout"
)

// Value is one parameter as evaluated; Value.Value is NaN where it is undefined, and Value.Reason says why.
type Value = params.Value

// Note tells what was done to the trace or the settings beyond what was asked, or what the reader should know.
type Note struct {
	Code string // short and stable: "too-short"
	Text string // a sentence
}

// Evaluation is a trace with all that was made of it. The profiles have the same length and start at point First of the
// trace; a profile that the settings do not produce is nil. No two of them share memory, and nothing of an evaluation shares memory
// with the settings or the trace that it was made from, or with another evaluation. It may be read by several goroutines at once.
type Evaluation struct {
	Settings Settings                  // complete: evaluating the same trace with them gives the same values
	Origins  map[string]callout.Origin // key of a setting ("long.cutoff") -> where its value comes from

	Traced Traced // how the trace came about, as far as that is known

	Spacing float64
	Points  int // points of the trace as read
	Invalid int // of these, without a height
	First   int // point of the trace that the profiles start with

	Read       []float64 // the trace as it enters: turned, cropped, bridged
	Smoothed   []float64 // after the S-filter
	Form       []float64 // the fitted form
	Primary    []float64 // P: form removed
	Waviness   []float64 // W: the long waves of P
	Roughness  []float64 // R: P - W
	Stratified []float64 // R by the filter for stratified surfaces, where that is another one

	TwoRC []float64 // R by the 2RC filter, where a parameter is defined behind it

	Sections      int // whole sections found
	SectionPoints int
	Start         int // point of the profiles that the first section starts with

	Values []Value
	Notes  []Note

	room [2]int // the points between which the sections may stand
	bare bool   // without profiles, origins and notes
}

// profiles are those that the evaluation has, in the order of their making.
func (e *Evaluation) profiles() []*[]float64 {
	all := []*[]float64{&e.Read, &e.Smoothed, &e.Form, &e.Primary, &e.Waviness, &e.Roughness, &e.Stratified, &e.TwoRC}
	return slices.DeleteFunc(all, func(z *[]float64) bool { return *z == nil })
}

// own gives the evaluation profiles of its own.
func (e *Evaluation) own() {
	for _, z := range e.profiles() {
		*z = slices.Clone(*z)
	}
}

// strip leaves out the profiles.
func (e *Evaluation) strip() {
	e.Read, e.Smoothed, e.Form, e.Primary, e.Waviness, e.Roughness, e.Stratified, e.TwoRC = nil, nil, nil, nil, nil, nil, nil, nil
}

// part makes a copy of each profile that another one has the memory of.
func (e *Evaluation) part() {
	seen := map[*float64]bool{}
	for _, z := range e.profiles() {
		if len(*z) == 0 {
			continue
		}
		if seen[&(*z)[0]] {
			*z = slices.Clone(*z)
		}
		seen[&(*z)[0]] = true
	}
}

// Profile returns the profile that the settings name (P, W or R), whole.
func (e *Evaluation) Profile() []float64 {
	switch e.Settings.Profile {
	case P:
		return e.Primary
	case W:
		return e.Waviness
	}
	return e.Roughness
}

// Room returns the points of the profiles between which the sections may stand: what the filters leave of the trace.
func (e *Evaluation) Room() (from, to int) { return e.room[0], e.room[1] }

// End is the point of the profiles behind the last section.
func (e *Evaluation) End() int { return e.Start + e.Sections*e.SectionPoints }

// Evaluated returns the part of the named profile that lies in the sections.
func (e *Evaluation) Evaluated() []float64 { return e.inSections(e.Profile()) }

func (e *Evaluation) inSections(z []float64) []float64 {
	if z == nil {
		return nil
	}
	return z[e.Start:e.End()]
}

// EvaluationLength is the length of all sections together.
func (e *Evaluation) EvaluationLength() float64 {
	return float64(e.Sections*e.SectionPoints) * e.Spacing
}

// StartLength is where the first section begins, from the start of the trace as read.
func (e *Evaluation) StartLength() float64 { return float64(e.First+e.Start) * e.Spacing }

// Value returns the value with the symbol as it stands in Values, with its arguments: "Rmr(0)". It is false where that was not evaluated.
func (e *Evaluation) Value(symbol string) (Value, bool) {
	for _, v := range e.Values {
		if v.Symbol == symbol {
			return v, true
		}
	}
	return Value{}, false
}

// count is a number with its noun: "1 section", "5 sections".
func count(n int, noun string) string {
	if n == 1 {
		return "1 " + noun
	}
	return strconv.Itoa(n) + " " + noun + "s"
}
