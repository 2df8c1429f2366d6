package study

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strconv"

	"example.com/furrow/roughness"
	"example.com/furrow/roughness/synth"
	"example.com/furrow/standards"
)

// A State is an exercise. A field at its zero value has its first value.
type State struct {
	Symbol  string              `json:"symbol,omitempty"` // as the edition writes it, with arguments
	Edition standards.EditionID `json:"edition,omitempty"`
	Letter  string              `json:"letter,omitempty"` // R, P or W

	Surface string    `json:"surface,omitempty"` // one of the constants
	Demo    string    `json:"demo,omitempty"`
	Length  float64   `json:"length,omitempty"`  // mm, of a made surface
	Spacing float64   `json:"spacing,omitempty"` // µm, of a made surface and of typed heights
	Parts   []Part    `json:"parts,omitempty"`
	Heights []float64 `json:"heights,omitempty"` // typed, µm
	Line    string    `json:"line,omitempty"`    // what typed heights count from: zero, mean or line

	Moved  []MovedPoint `json:"moved,omitempty"`
	Every  int          `json:"every,omitempty"` // point kept: every second or fourth
	Turned bool         `json:"turned,omitempty"`

	Filter   Removal  `json:"filter,omitzero"`
	Sections Sections `json:"sections,omitzero"`

	Point int `json:"point,omitempty"` // ordinate that moves, from 1
	Width int `json:"width,omitempty"` // points moved together

	Window *float64 `json:"window,omitempty"` // mm, where a window of Rzx is looked at; nil: where it is worst
	Shift  *float64 `json:"shift,omitempty"`  // µm, of the copy of the profile that is looked at; nil: that of Ral

	Move      string     `json:"move,omitempty"`
	Way       string     `json:"way,omitempty"`
	Questions string     `json:"questions,omitempty"`
	Fade      int        `json:"fade,omitempty"`
	Hide      int        `json:"hide,omitempty"`
	File      *SheetFile `json:"file,omitempty"`
}

// The surfaces.
const (
	Demo  = "demo"
	Made  = "made"
	Typed = "typed"
	Sheet = "sheet"
)

// A MovedPoint is a point, from 1, raised by µm; with a width of more than one point a bell of that width.
type MovedPoint struct {
	Point int     `json:"point"`
	By    float64 `json:"by"`
	Width int     `json:"width"`
}

// mostMoved is how many ordinates can be moved.
const mostMoved = 8

// A Removal says what is removed: nothing, what a class of the edition says, or cut-offs of its own.
type Removal struct {
	Kind  string  `json:"kind,omitempty"` // none, class or own
	Class string  `json:"class,omitempty"`
	Long  float64 `json:"long,omitempty"`  // mm; 0: none
	Short float64 `json:"short,omitempty"` // µm; 0: none
}

// Sections of the evaluation length; zero is what filter and class say.
type Sections struct {
	Number int      `json:"number,omitempty"`
	Length float64  `json:"length,omitempty"` // mm
	Start  *float64 `json:"start,omitempty"`  // mm
}

// A SheetFile is the trace of the worksheet that an exercise is about.
type SheetFile struct {
	Points int    `json:"points"`
	CRC    string `json:"crc"`
}

// The first values of a state.
const (
	firstSymbol       = "Rz"
	firstLength       = 4.0
	firstSpacing      = 0.5
	firstTypedSpacing = 100.0
	mostPoints        = 40000
	mostTyped         = 64
	leastTyped        = 4
)

// Complete returns the state with every first value filled in that does not follow from the surface.
func (s State) Complete() State {
	s.Symbol = cmp.Or(s.Symbol, firstSymbol)
	s.Edition = cmp.Or(s.Edition, roughness.DefaultEdition)
	s.Letter = cmp.Or(s.Letter, "R")
	s.Surface = cmp.Or(s.Surface, Demo)
	if s.Surface == Demo {
		s.Demo = cmp.Or(s.Demo, synth.Demos()[0].Key)
	}
	if s.Surface == Made {
		s.Length = cmp.Or(s.Length, firstLength)
	}
	s.Spacing = cmp.Or(s.Spacing, map[bool]float64{true: firstTypedSpacing, false: firstSpacing}[s.Surface == Typed])
	s.Line = cmp.Or(s.Line, "zero")
	s.Every = cmp.Or(s.Every, 1)
	s.Width = cmp.Or(s.Width, 1)
	if s.Filter.Kind == "" {
		s.Filter.Kind = map[bool]string{true: "none", false: "class"}[s.Surface == Made || s.Surface == Typed]
	}
	s.Way = cmp.Or(s.Way, "look")
	s.Parts = slices.Clone(s.Parts)
	slices.SortStableFunc(s.Parts, func(a, b Part) int { return cmp.Compare(place(a.Kind), place(b.Kind)) })
	s.Moved = slices.Clone(s.Moved)
	return s
}

// place is the place of an ingredient in the order of composition.
func place(kind string) int {
	return slices.IndexFunc(ingredients, func(in Ingredient) bool { return in.Kind == kind })
}

// check reports what cannot be in a complete state, with its field.
func (s *State) check() error {
	refuse := func(id, format string, args ...any) error { return &RefusedError{id, fmt.Sprintf(format, args...)} }
	switch s.Surface {
	case Demo, Sheet:
	case Made:
		if !(s.Length > 0) || !(s.Spacing > 0) || s.Length*millimetre/s.Spacing > mostPoints+0.5 {
			return refuse("made-length", "A length and a spacing above 0, with at most %d points.", mostPoints)
		}
		if s.Length*millimetre < 2*s.Spacing {
			return refuse("made-length", "At least two points.")
		}
	case Typed:
		if !(s.Spacing > 0) || math.IsInf(s.Spacing, 0) {
			return refuse("hand-spacing", "A length above 0.")
		}
		if n := len(s.Heights); n < leastTyped || n > mostTyped {
			return refuse("hand-heights", "%d to %d heights; there are %d.", leastTyped, mostTyped, n)
		}
	default:
		return refuse("study-surface", "No surface is called %q.", s.Surface)
	}
	if !slices.Contains([]string{"zero", "mean", "line"}, s.Line) {
		return refuse("hand-line", "No line is called %q.", s.Line)
	}
	if !slices.Contains([]int{1, 2, 4}, s.Every) {
		return refuse("every", "1, 2 or 4.")
	}
	if len(s.Moved) > mostMoved {
		return refuse("ordinate-height", "At most %d ordinates can be moved.", mostMoved)
	}
	if !slices.Contains([]string{"R", "P", "W"}, s.Letter) {
		return refuse("study-letter", "No profile is called %q.", s.Letter)
	}
	if s.Letter != "R" && s.Filter.Kind == "none" {
		return refuse("study-letter", "P and W need filters.")
	}
	return s.checkParts()
}

func (s *State) checkParts() error {
	for i, p := range s.Parts {
		in, k := ingredientOf(p.Kind), s.nth(i)
		if in == nil {
			return &RefusedError{"surface-add", fmt.Sprintf("No ingredient is called %q.", p.Kind)}
		}
		if k >= in.Most {
			return &RefusedError{"surface-add", fmt.Sprintf("%s: at most %d.", in.Words, in.Most)}
		}
		if len(p.Values) != len(in.Fields) {
			return &RefusedError{"surface-add", fmt.Sprintf("%s has %d values, not %d.", in.Words, len(in.Fields), len(p.Values))}
		}
		for j, v := range p.Values {
			if err := in.field(k, j, s.Length).check(v); err != nil {
				return err
			}
		}
		if in.must != nil {
			if j, text := in.must(p.Values, s.Spacing); j >= 0 {
				return &RefusedError{in.field(k, j, s.Length).ID, text}
			}
		}
	}
	return nil
}

// nth is how many parts of the kind of part i stand before it.
func (s *State) nth(i int) int {
	n := 0
	for _, p := range s.Parts[:i] {
		if p.Kind == s.Parts[i].Kind {
			n++
		}
	}
	return n
}

// Settings returns the settings by which the state is evaluated.
func (s *State) Settings() (*roughness.Settings, error) {
	set := &roughness.Settings{Edition: s.Edition, Profile: roughness.Letter(s.Letter[0]), Parameters: []string{s.Symbol}}
	switch s.Filter.Kind {
	case "none":
		set.Input = roughness.Filtered
	case "class":
		row, ok := classOf(s.Edition, s.Filter.Class)
		if !ok {
			return nil, &RefusedError{"study-class", fmt.Sprintf("No class %q in this edition.", s.Filter.Class)}
		}
		if s.Filter.Class != "" {
			set.Long.Spec.Cutoff, set.Short.Spec.Cutoff = row.Long, row.Short
			set.Sections, set.SectionLength = row.Sections, row.Section
		}
	case "own":
		set.Long.Spec.Cutoff, set.Short.Spec.Cutoff = s.Filter.Long*millimetre, s.Filter.Short
		set.Long.Off, set.Short.Off = s.Filter.Long == 0, s.Filter.Short == 0
	default:
		return nil, &RefusedError{"study-filter", fmt.Sprintf("No filter is called %q.", s.Filter.Kind)}
	}
	set.Sections = cmp.Or(s.Sections.Number, set.Sections)
	set.SectionLength = cmp.Or(s.Sections.Length*millimetre, set.SectionLength)
	if s.Sections.Start != nil {
		start := *s.Sections.Start * millimetre
		set.Start = &start
	}
	return set, nil
}

// classOf finds the row of an edition's table by its name, or by its cut-off in mm where the edition has no names; "" is the default.
func classOf(id standards.EditionID, name string) (standards.TableRow, bool) {
	ed, ok := standards.EditionByID(id)
	if !ok || name == "" {
		return ed.Default, ok
	}
	i := slices.IndexFunc(ed.Rows, func(r standards.TableRow) bool { return className(r) == name })
	if i < 0 {
		return standards.TableRow{}, false
	}
	return ed.Rows[i], true
}

func className(r standards.TableRow) string {
	return cmp.Or(r.Name, strconv.FormatFloat(r.Long/millimetre, 'g', -1, 64))
}

// Classes returns the names of an edition's classes.
func Classes(ed standards.Edition) []string {
	names := []string{}
	for _, r := range ed.Rows {
		if r.Long > 0 {
			names = append(names, className(r))
		}
	}
	return names
}
