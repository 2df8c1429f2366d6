package compare

import (
	"cmp"
	"errors"
	"fmt"
	"math"
	"strings"

	"example.com/furrow/params"
	"example.com/furrow/roughness"
	"example.com/furrow/roughness/inspect"
	"example.com/furrow/roughness/judge"
	"example.com/furrow/standards"
	"example.com/furrow/standards/callout"
	"example.com/furrow/standards/decide"
)

// An EditionReading is one limit as one edition reads it, evaluated on a trace.
type EditionReading struct {
	Edition     standards.EditionID
	Requirement *callout.Item         // nil when the edition does not read the text
	Search      *judge.CutoffSearch   // how the trace itself chose the cut-off, where the edition lets the measured value do so
	Evaluation  *roughness.Evaluation // nil without settings
	Value       roughness.Value       // of the required parameter; NaN where there is none
	Verdict     judge.LimitVerdict    // on this one value; Word is empty where the edition does not read the text
	Problem     string                // why there is no value or no verdict
}

// An EditionComparison holds one limit read under two editions side by side.
type EditionComparison struct {
	A, B        EditionReading
	Changes     []roughness.Change // settings in which the two evaluations differ
	Differences []string           // what differs, in words
}

// Editions holds the text of a requirement read under two editions.
type Editions struct {
	Text   string
	A, B   EditionText
	Limits []EditionComparison
	Notes  []roughness.Note // what makes the values of the trace doubtful under either edition
}

// An EditionText is the whole text as one edition reads it.
type EditionText struct {
	Edition standards.EditionID
	Refused error          // why the edition does not read it
	Verdict *judge.Verdict // on the values of the trace; nil where it is refused

	read *judge.Requirement
}

// EditionOptions say what the text of a requirement does not. A nil pointer is the zero value.
type EditionOptions struct {
	// Periodic tells that the marks of the surface repeat, as those of turning do: an edition that keeps a table of its own for such
	// profiles chooses the cut-off by their mean spacing (ISO 4288:1996, 7.2.2).
	Periodic bool
	// Over are settings that are laid over those of both readings, such as form and parts left out.
	Over *roughness.Settings
}

// ByEdition says what changed: it reads the text of a requirement under the editions a and b, evaluates the trace with what each of them
// makes of it, and sets the two side by side, one comparison for each limit of the text.
//
// Where an edition lets the measured value choose the cut-off (ISO 4288:1996), the search is run on the trace with the limit as
// its first estimate; where the limit or the text chooses, it is not. A text that one edition refuses, a setting that it leaves
// open, and a trace that is too short are reported in Problem; the error is for a text that neither edition reads, or settings in the
// options that cannot be followed.
func ByEdition(p roughness.Profile, text string, a, b standards.EditionID, options *EditionOptions) (*Editions, error) {
	if options == nil {
		options = &EditionOptions{}
	}
	out := &Editions{Text: text}
	for _, side := range []struct {
		edition standards.EditionID
		to      *EditionText
	}{{a, &out.A}, {b, &out.B}} {
		if err := side.to.judge(p, text, side.edition, options); err != nil {
			return nil, err
		}
	}
	if out.A.Refused != nil && out.B.Refused != nil {
		return nil, out.A.Refused
	}
	for i := range max(out.A.limits(), out.B.limits()) {
		var c EditionComparison
		var err error
		if c.A, err = out.A.limit(p, i, options); err == nil {
			c.B, err = out.B.limit(p, i, options)
		}
		if err != nil {
			return nil, err
		}
		c.compare()
		out.Limits = append(out.Limits, c)
		if e := cmp.Or(c.A.Evaluation, c.B.Evaluation); e != nil && out.Notes == nil {
			for _, f := range inspect.Look(p, inspect.Under(e)) {
				if inspect.Grave(f.Code) {
					out.Notes = append(out.Notes, f.Note())
				}
			}
		}
	}
	return out, nil
}

// judge reads the text and makes the verdict on the trace.
func (t *EditionText) judge(p roughness.Profile, text string, edition standards.EditionID, options *EditionOptions) error {
	t.Edition = edition
	if t.read, t.Refused = judge.ReadRequirement(text, edition); t.Refused != nil {
		if errors.Is(t.Refused, callout.ErrEdition) {
			return t.Refused
		}
		return nil
	}
	j := &judge.Judging{Requirement: t.read, Traces: []roughness.Profile{p}, Periodic: options.Periodic}
	if options.Over != nil && t.read.Settings != nil {
		s, found, err := t.read.Search(p, 0, options.Over, options.Periodic)
		if s == nil {
			return err
		}
		if found != nil && found.Evaluation != nil {
			s = &found.Evaluation.Settings
		}
		j.Settings = s
	}
	var err error
	t.Verdict, err = j.Judge()
	return err
}

func (t *EditionText) limits() int {
	if t.read == nil {
		return 0
	}
	return len(t.read.Items)
}

// limit takes limit i through the edition: settings, search for the cut-off, evaluation, verdict.
func (t *EditionText) limit(p roughness.Profile, i int, options *EditionOptions) (r EditionReading, err error) {
	r.Edition, r.Value.Value = t.Edition, math.NaN()
	switch {
	case t.Refused != nil:
		r.Problem = standards.Bare(t.Refused)
		return r, nil
	case i >= len(t.read.Items):
		r.Problem = fmt.Sprintf("the edition reads %d requirements in the text", len(t.read.Items))
		return r, nil
	}
	r.Requirement, r.Verdict = &t.read.Items[i], t.Verdict.Limits[i]
	r.Edition = r.Requirement.Edition
	if err := r.evaluate(p, t.read, i, options); err != nil {
		var setting *roughness.SettingError
		if errors.As(err, &setting) {
			return r, err
		}
		r.Problem = standards.Bare(err)
	}
	if _, bounded := r.Requirement.Bounded(); r.Problem == "" && !bounded && r.Verdict.Why != nil {
		r.Problem = r.Verdict.Why.Text
	}
	return r, nil
}

// evaluate measures with the settings, or with those that the trace leads to where they are no more than a first estimate.
func (r *EditionReading) evaluate(p roughness.Profile, read *judge.Requirement, i int, options *EditionOptions) error {
	set, found, err := read.Search(p, i, options.Over, options.Periodic)
	r.Search = found
	if err != nil {
		return err
	}
	if found != nil {
		r.Evaluation = found.Evaluation
	} else if r.Evaluation, err = roughness.Evaluate(p, set); err != nil {
		r.Evaluation = nil
		return err
	}
	r.Value = r.Evaluation.Values[0]
	if math.IsNaN(r.Value.Value) {
		r.Problem = r.Value.Reason
	}
	return nil
}

// compare fills the settings and the words in which the two readings differ.
func (c *EditionComparison) compare() {
	a, b := &c.A, &c.B
	say := func(format string, args ...any) { c.Differences = append(c.Differences, fmt.Sprintf(format, args...)) }
	for _, r := range []*EditionReading{a, b} {
		if r.Problem != "" {
			say("%s: %s", r.title(), r.Problem)
		}
	}
	if a.Requirement == nil || b.Requirement == nil {
		return
	}
	if x, y := a.Requirement.Symbol, b.Requirement.Symbol; x != y {
		say("%s writes %s, %s writes %s.", a.title(), x, b.title(), y)
	}
	c.meanings(say)
	if x, y := a.Requirement.Rule, b.Requirement.Rule; x != y {
		say("Acceptance: %s under %s, %s under %s.", ruleWords[x], a.title(), ruleWords[y], b.title())
	}
	if a.Evaluation == nil || b.Evaluation == nil {
		return
	}
	c.Changes = relevant(a.Evaluation, b.Evaluation)
	for _, change := range c.Changes {
		switch change.Key {
		case "edition":
		case "long.cutoff":
			say("Cut-off: %s under %s (%s), %s under %s (%s).",
				standards.Length(a.Evaluation.Settings.Long.Spec.Cutoff), a.title(), a.cutoffReason(),
				standards.Length(b.Evaluation.Settings.Long.Spec.Cutoff), b.title(), b.cutoffReason())
		default:
			name := roughness.NameOf(change.Key)
			name = strings.ToUpper(name[:1]) + name[1:]
			if change.Key == "section" {
				change.From, change.To = standards.Length(a.Evaluation.Settings.SectionLength), standards.Length(b.Evaluation.Settings.SectionLength)
			}
			say("%s: %s under %s, %s under %s.", name, change.From, a.title(), change.To, b.title())
		}
	}
	if x, y := a.Evaluation.Sections, b.Evaluation.Sections; x != y {
		say("The trace holds %d sections under %s and %d under %s.", x, a.title(), y, b.title())
	}
	if x, y := a.Verdict.Word, b.Verdict.Word; x != y && x != "" && y != "" {
		say("Verdict on this one value: %s under %s, %s under %s.", x, a.title(), y, b.title())
	}
}

// meanings says where the editions define the parameter differently: another name for it, or another length it is evaluated over.
func (c *EditionComparison) meanings(say func(string, ...any)) {
	a, okA := c.A.call()
	b, okB := c.B.call()
	if !okA || !okB {
		return
	}
	if a.Parameter.Key != b.Parameter.Key {
		say("The symbol means two things: %s under %s, %s under %s.", a.Parameter.Name, c.A.title(), b.Parameter.Name, c.B.title())
	}
	if x, y := a.Meaning().Over, b.Meaning().Over; x != y {
		say("%s is evaluated over %s under %s, over %s under %s.", a.Symbol, x, c.A.title(), y, c.B.title())
	}
}

func (r *EditionReading) call() (params.Call, bool) {
	letter := r.Requirement.Settings["profile"].Word
	if letter == "" {
		return params.Call{}, false
	}
	c, err := params.Lookup(r.Edition, letter[0], r.Requirement.Symbol)
	return c, err == nil
}

func (r *EditionReading) title() string { return title(r.Edition) }

// SearchSentence says how the trace itself chose the cut-off: "With 2.5 mm, Rz is 13.68 µm, which agrees with 2.5 mm."; empty where it did not.
func (r *EditionReading) SearchSentence() string {
	s := r.Search
	if s == nil || s.Evaluation == nil {
		return ""
	}
	agrees := "which agrees with " + standards.Length(s.Cutoff)
	if !s.Stable {
		agrees = "which no cut-off agrees with"
	}
	return fmt.Sprintf("With %s, %s is %s µm, %s.", standards.Length(s.Cutoff), s.By, decide.Show(s.By, s.Value, "µm"), agrees)
}

// cutoffReason is the rule line that gave the cut-off.
func (r *EditionReading) cutoffReason() string {
	if r.Search != nil {
		return fmt.Sprintf("from the measured %s, %s", r.Search.By, decide.Show(r.Search.By, r.Search.Value, "µm")+" µm")
	}
	return r.Requirement.Settings["long.cutoff"].Text
}

var ruleWords = map[standards.Rule]string{
	standards.Maximum:        "no measured value outside the limit",
	standards.SixteenPercent: "at most 16 % of the measured values outside the limit",
	standards.Median:         "the median of the measured values inside the limit",
}
