package judge

import (
	"cmp"
	"example.com/furrow/roughness"
	"fmt"
	"slices"
	"strings"

	"example.com/furrow/params"
	"example.com/furrow/standards"
	"example.com/furrow/standards/callout"
	"example.com/furrow/standards/decide"
)

// A Reason is why there is no verdict yet.
type Reason struct {
	Key  string // one of the Why constants
	Text string // a sentence
}

// Why there is no verdict, in the order in which they are told: the first that applies, the others as what is open too.
const (
	WhyNoRequirement   = "no-requirement"
	WhyRefused         = "refused"
	WhyRequirementOpen = "requirement-open"
	WhyNoValue         = "no-value"
	WhyFileOpen        = "file-open"
	WhyUndefined       = "undefined"
	WhySections        = "sections"
	WhyDeviates        = "deviates"
	WhyLeftOut         = "left-out"
	WhyUncertainty     = "uncertainty" // one uncertainty for limits on several parameters
	WhyMore            = "more"
)

var whyOrder = []string{WhyNoRequirement, WhyRefused, WhyRequirementOpen, WhyNoValue, WhyFileOpen, WhyUndefined, WhySections,
	WhyDeviates, WhyLeftOut, WhyUncertainty, WhyMore}

// A Judging is all that a verdict is made of.
type Judging struct {
	Requirement *Requirement   // nil without one, and while its text is refused
	Refused     error          // why its text cannot be read
	Rule        standards.Rule // in place of the rule that the limits ask for; empty: theirs

	Traces   []roughness.Profile
	Settings *roughness.Settings     // what the traces are evaluated with; nil: what the first limit asks for
	Done     []*roughness.Evaluation // those that are there already, in the order of the traces, nil for one to be made; where on its trace each was looked at may differ

	Typed    []Typed
	FileOpen []string // what files leave open: "rod-place-7.txt, unit of the heights"

	// Periodic says that the marks of the surface repeat, as those of turning do: an edition that keeps a table of its own for such profiles
	// chooses a cut-off that nobody states by their mean spacing (ISO 4288:1996, 7.2.2).
	Periodic bool

	Guard  decide.Guard // rule and proof; the uncertainty comes from U
	U      []Uncertainty
	Agreed string // who agreed that settings, sections or rule deviate
}

// An Uncertainty is an expanded uncertainty, for the limits on one parameter or, without a symbol, for the only one.
type Uncertainty struct {
	Symbol string
	Value  float64
	Unit   string // empty: that of the limit

	column int // in the list that it was read from
}

// A Verdict is one word for all limits of a requirement, with what it rests on.
type Verdict struct {
	Word       decide.Word
	Why        *Reason  // why there is none; nil for the other words
	Open       []Reason // all that is open, in the order of the Why constants; Why is the first
	Sentence   string
	Acceptance string       // "simple acceptance", or by which standard the uncertainty counts
	Values     int          // that count, for the limit that decides the word
	More       int          // further values that the rules need
	Guard      decide.Guard // rule and proof; Simple where no uncertainty counts
	Agreed     []Deviation
	Limits     []LimitVerdict
}

// A LimitVerdict is the verdict on one limit.
type LimitVerdict struct {
	decide.Ruling        // Word is that of this limit, whatever the values alone would say
	Text          string // the limit with the digits and the unit that were written: "63 µin (1.600 µm)"
	Unit          string // that was written, or that of the parameter; empty while it is open
	Grade         string // the old grade of this limit of Ra, if it is one: "N7"
	Rule          standards.Rule
	Why           *Reason
	Open          []Reason
	Counted       []CountedValue
	Settings      *roughness.Settings // complete; nil where nothing was evaluated
	Apart         bool                // whether they differ from those of the first limit
	U             float64             // expanded uncertainty, in the unit of the values
}

// A CountedValue is one value that counts.
type CountedValue struct {
	Name  string // of the trace; "typed in" for a typed value
	Value float64
	Typed bool
}

// Judge makes the verdict. Every limit is judged with its own settings, rule and values; each trace is evaluated once for each kind of
// settings. Settings that deviate from what is asked for leave no verdict unless Agreed names who agreed. The error is for what
// cannot be used at all: settings that cannot be followed, an uncertainty that is no number.
func (j *Judging) Judge() (*Verdict, error) {
	v := &Verdict{Acceptance: j.acceptance(), Guard: j.Guard}
	if len(j.U) == 0 {
		v.Guard = decide.Guard{}
	}
	var common []Reason
	switch {
	case j.Refused != nil:
		common = append(common, Reason{WhyRefused, "The requirement is not understood: " + plainError(j.Refused)})
	case j.Requirement == nil || len(j.Requirement.Items) == 0:
		common = append(common, Reason{WhyNoRequirement, "Type the requirement to get a verdict."})
	default:
		if open := j.Requirement.open(); len(open) > 0 {
			common = append(common, Reason{WhyRequirementOpen, openWords(open)})
		}
	}
	if len(j.FileOpen) > 0 {
		text := "One thing is open: " + j.FileOpen[0] + "."
		if n := len(j.FileOpen); n > 1 {
			text = fmt.Sprintf("%d things are open: %s.", n, strings.Join(j.FileOpen, "; "))
		}
		common = append(common, Reason{WhyFileOpen, text})
	}
	v.Open = common
	blocked := j.Requirement == nil || slices.ContainsFunc(common, func(r Reason) bool { return r.Key != WhyFileOpen })
	if j.Requirement != nil {
		m := &measuring{j: j}
		for i := range j.Requirement.Items {
			l, err := m.limit(i, common, blocked)
			if err != nil {
				return nil, err
			}
			v.Limits = append(v.Limits, *l)
			for _, r := range l.Open {
				if !slices.Contains(v.Open, r) {
					v.Open = append(v.Open, r)
				}
			}
		}
		v.Agreed = m.agreed
	}
	v.conclude()
	v.leave(j.Requirement.unjudged(), j.Agreed)
	return v, nil
}

// leave takes note of the limits of the drawing that are not judged: what conforms to the others conforms to the drawing only where
// somebody has agreed.
func (v *Verdict) leave(left []string, agreed string) {
	if left == nil {
		return
	}
	text := "Not judged of the requirement: " + strings.Join(left, ", ") + "."
	switch {
	case agreed != "":
		for _, limit := range left {
			v.Agreed = append(v.Agreed, Deviation{Key: "limit", Asked: limit, Used: "not judged"})
		}
	case v.Word == decide.Conforms:
		v.Open = append(v.Open, Reason{WhyDeviates, text})
		v.Word, v.Why, v.Sentence = decide.NoVerdict, &v.Open[0], text
		return
	}
	v.Sentence += " " + text
}

// conclude makes the one word of the words of the limits.
func (v *Verdict) conclude() {
	var all []decide.Word
	for _, l := range v.Limits {
		all = append(all, l.Word)
		if l.Word == decide.NoVerdict {
			v.More = max(v.More, l.More)
		}
	}
	v.Word = decide.Whole(all...)
	slices.SortStableFunc(v.Open, func(a, b Reason) int { return slices.Index(whyOrder, a.Key) - slices.Index(whyOrder, b.Key) })
	if v.Word == decide.NoVerdict && len(v.Open) > 0 {
		v.Why = &v.Open[0]
		v.Sentence = v.Why.Text
	}
	for _, l := range v.Limits {
		if l.Word != v.Word {
			continue
		}
		v.Values = l.N
		if v.Why == nil {
			v.Sentence = l.Sentence
			if len(v.Limits) > 1 {
				v.Sentence = v.several()
			}
		}
		break
	}
}

// several is the sentence for more than one limit: all of them where all conform, otherwise those that have the word of the whole.
func (v *Verdict) several() string {
	var parts []string
	for _, l := range v.Limits {
		if l.Word == v.Word {
			parts = append(parts, l.Asks()+": "+l.Sentence)
		}
	}
	return strings.Join(parts, " ")
}

// Asks is the limit in a few words: "Rz at most 3.2 µm".
func (l *LimitVerdict) Asks() string {
	if l.Symbol == "" {
		return "Limit " + l.Text + ", its parameter open"
	}
	return l.Symbol + map[standards.Side]string{standards.Upper: " at most ", standards.Lower: " at least "}[l.Side] + l.Text
}

// acceptance says how an uncertainty counts.
func (j *Judging) acceptance() string {
	switch {
	case !slices.ContainsFunc(j.U, func(u Uncertainty) bool { return u.Value > 0 }) || j.Guard.Rule == decide.Simple:
		return "simple acceptance"
	case j.Guard.Rule == decide.ExpandedU:
		return "ISO 14253-1:1998, whole U"
	}
	return "ISO 14253-1:2017, 95 %"
}

// open returns the questions that block a verdict. An item without a limit that can be judged is one of them.
func (r *Requirement) open() []string {
	var texts []string
	for _, q := range r.Open() {
		texts = append(texts, q.Text)
	}
	if len(texts) > 0 {
		return texts
	}
	for i := range r.Items {
		if _, ok := r.Items[i].Bounded(); !ok {
			texts = append(texts, "It names no limit that can be judged.")
		} else if r.ItemSettings[i] == nil {
			texts = append(texts, "Its settings are open.")
		}
	}
	return texts
}

func openWords(open []string) string {
	if len(open) == 1 {
		return "The requirement leaves one question open: " + open[0]
	}
	return fmt.Sprintf("The requirement leaves %d questions open: %s", len(open), strings.Join(open, " "))
}

// plainError is the text of a refusal without the name of a package.
func plainError(err error) string {
	if t, ok := err.(*callout.TextError); ok {
		return sentence(t.Reason)
	}
	return sentence(standards.Bare(err))
}

// sentence ends a text with a full stop.
func sentence(text string) string {
	if strings.HasSuffix(text, ".") || strings.HasSuffix(text, "?") || strings.HasSuffix(text, "!") {
		return text
	}
	return text + "."
}

// Limits makes a requirement of limits alone, as ParseLimits reads them: they are judged by the rule, or that of the edition without one, with the settings that are given
// or default, and so nothing can deviate from them.
func Limits(text string, edition standards.EditionID, rule standards.Rule) (*Requirement, error) {
	if edition == "" {
		edition = roughness.DefaultEdition
	}
	limits, err := parseLimits(text, edition)
	if err != nil {
		return nil, err
	}
	if e, ok := standards.EditionByID(edition); rule == "" && ok {
		rule = e.Rule
	}
	rule = cmp.Or(rule, standards.Maximum)
	r := &Requirement{Rule: rule, settingsFree: true}
	for _, l := range limits {
		r.Items = append(r.Items, callout.Item{Edition: edition, Symbol: l.Symbol, Side: l.Side, SideWritten: true,
			Limit: l.Value, LimitText: l.text, Unit: l.unit, Rule: rule})
		r.Bounds = append(r.Bounds, l.Bound)
		r.ItemSettings = append(r.ItemSettings, &roughness.Settings{Edition: edition, Profile: l.letter, Parameters: []string{l.Symbol}})
	}
	return r, nil
}

// Under says that limits are judged with the settings that the text of a drawing asks for: while that text leaves a question open there
// is no verdict, and settings can deviate from it.
func (r *Requirement) Under(drawing *Requirement) { r.drawing = drawing }

// asked returns what the drawing asks for where a limit has the settings own: what it asks for that parameter, on the same side if both
// are limited, or else for its first one. It is nil for a parameter on a profile that the drawing does not ask for.
func (r *Requirement) asked(traces []roughness.Profile, own *roughness.Settings, limit *callout.Item) (*roughness.Settings, error) {
	of := func(item callout.Item) bool { return sameSymbol(item.Edition, item.Symbol, limit.Symbol) }
	i := slices.IndexFunc(r.Items, func(item callout.Item) bool { return of(item) && item.Side == limit.Side })
	if i < 0 {
		i = max(0, slices.IndexFunc(r.Items, of))
	}
	s, err := r.On(traces, i, nil)
	if err != nil || s.OnProfile() != own.OnProfile() {
		return nil, err
	}
	c := *s
	c.Parameters = own.Parameters
	return roughness.Complete(&c)
}

// Include returns the settings (nil for none) with the parameters of the limits that are on their profile, which is that of the first
// limit where they name none. Limits whose settings are open are left out.
func (r *Requirement) Include(s *roughness.Settings) *roughness.Settings {
	own := roughness.Settings{}
	if s != nil {
		own = *s
	}
	if own.Profile == 0 && r.ItemSettings[0] != nil {
		own.Profile = r.ItemSettings[0].Profile
	}
	s = &own
	for _, item := range r.ItemSettings {
		if item != nil && item.Profile == s.Profile && s.InEdition() != "iso-12085" { // whose parameters carry their operator lengths in the name
			s = roughness.WithParameters(s, item.Parameters...)
		}
	}
	return s
}

// sameParameter reports whether a typed value is one of the parameter of a limit.
func sameParameter(t Typed, edition standards.EditionID, name string) bool {
	if t.Symbol == name {
		return true
	}
	c, err := lookupAny(edition, name)
	return err == nil && t.call.Parameter != nil && sameCall(c, t.call)
}

// sameSymbol reports whether two symbols of an edition are one parameter, however they are spelled.
func sameSymbol(edition standards.EditionID, a, b string) bool {
	if a == b {
		return true
	}
	x, err := lookupAny(edition, a)
	if err != nil {
		return false
	}
	y, err := lookupAny(edition, b)
	return err == nil && sameCall(x, y)
}

func sameCall(a, b params.Call) bool {
	return a.Parameter.Key == b.Parameter.Key && a.Letter == b.Letter && slices.Equal(a.Args, b.Args)
}

// isStratified reports whether an edition measures a parameter behind its filter for stratified surfaces.
func isStratified(s *roughness.Settings, name string) bool {
	c, err := params.Lookup(s.InEdition(), byte(s.OnProfile()), name)
	return err == nil && c.Parameter.On == params.Stratified
}
