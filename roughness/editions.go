package roughness

import (
	"context"
	"errors"
	"fmt"
	"math"

	"example.com/furrow/params"
	"example.com/furrow/standards"
)

// An EditionReading is one requirement as one edition reads it, evaluated on a trace.
type EditionReading struct {
	Edition     string
	Requirement *standards.Requirement // nil when the edition does not read the text
	Search      *CutoffSearch          // how the trace itself chose the cut-off, where the edition lets the measured value do so
	Evaluation  *Evaluation            // nil without settings
	Value       Value                  // of the required parameter; NaN where there is none
	Verdict     Verdict                // on this one value; Word is empty where nothing could be judged
	Problem     string                 // why there is no value or no verdict
}

// An EditionComparison holds one requirement read under two editions side by side.
type EditionComparison struct {
	A, B        EditionReading
	Changes     []Change // settings in which the two evaluations differ
	Differences []string // what differs, in words
}

// CompareOptions say what the text of a requirement does not. A nil pointer is the zero value.
type CompareOptions struct {
	// Periodic tells that the marks of the surface repeat, as those of turning do: an edition that keeps a table of its own for such
	// profiles chooses the cut-off by their mean spacing (ISO 4288:1996, 7.2.2).
	Periodic bool
	// Over are settings that are laid over those of both readings, such as form and parts left out.
	Over *Settings
}

// CompareEditions says what changed: it reads the text of a requirement under the editions a and b, evaluates the trace with what
// each of them makes of it, and sets the two side by side, one comparison for each requirement of the text.
//
// Where an edition lets the measured value choose the cut-off (ISO 4288:1996), the search is run on the trace with the limit as
// its first estimate; where the limit or the text chooses, it is not. A text that one edition refuses, a setting that it leaves
// open, and a trace that is too short are reported in Problem; the error is for a text that neither edition reads, or settings in the
// options that cannot be followed.
func CompareEditions(p Profile, text, a, b string, options *CompareOptions) ([]EditionComparison, error) {
	if options == nil {
		options = &CompareOptions{}
	}
	ra, errA := standards.ParseRequirement(text, a)
	rb, errB := standards.ParseRequirement(text, b)
	for _, err := range []error{errA, errB} {
		if errors.Is(err, standards.ErrEdition) {
			return nil, err
		}
	}
	if errA != nil && errB != nil {
		return nil, errA
	}
	var list []EditionComparison
	for i := range max(items(ra), items(rb)) {
		c := EditionComparison{A: EditionReading{Edition: a}, B: EditionReading{Edition: b}}
		if err := c.A.read(p, ra, i, errA, options); err != nil {
			return nil, err
		}
		if err := c.B.read(p, rb, i, errB, options); err != nil {
			return nil, err
		}
		c.compare()
		list = append(list, c)
	}
	return list, nil
}

func items(r *standards.Requirements) int {
	if r == nil {
		return 0
	}
	return len(r.Items)
}

// read takes requirement i through the edition: settings, search for the cut-off, evaluation, verdict.
func (r *EditionReading) read(p Profile, all *standards.Requirements, i int, refused error, options *CompareOptions) error {
	r.Value.Value = math.NaN()
	if refused != nil {
		r.Problem = refused.Error()
		return nil
	}
	if i >= len(all.Items) {
		r.Problem = fmt.Sprintf("the edition reads %d requirements in the text", len(all.Items))
		return nil
	}
	r.Requirement = &all.Items[i]
	r.Edition = r.Requirement.Edition
	set, err := SettingsFor(r.Requirement)
	if err != nil {
		r.Problem = err.Error()
		return nil
	}
	if options.Over != nil {
		own := set
		set = Merge(set, options.Over)
		set.Edition, set.Parameters = own.Edition, own.Parameters
	}
	if err := r.evaluate(p, set, options.Periodic); err != nil {
		var setting *SettingError
		if errors.As(err, &setting) {
			return err
		}
		r.Problem = err.Error()
		return nil
	}
	r.judge(p)
	return nil
}

// evaluate measures with the settings, or with those that the trace leads to where they are no more than a first estimate.
func (r *EditionReading) evaluate(p Profile, set *Settings, periodic bool) error {
	if by, ok := r.measuredBy(periodic); ok {
		estimate := 0.0
		if b, bounded := r.Requirement.Bounded(); bounded && by == r.Requirement.Symbol && b.Value > 0 {
			estimate = b.Value
		}
		open := *set
		open.Long, open.Short, open.SectionLength = Band{}, Band{}, 0
		s, err := FindCutoff(p, &open, by, estimate)
		r.Search = s
		if err != nil {
			return err
		}
		r.Evaluation = s.Evaluation
	} else {
		e, err := Evaluate(p, set)
		if err != nil {
			return err
		}
		r.Evaluation = e
	}
	r.Value = r.Evaluation.Values[0]
	if math.IsNaN(r.Value.Value) {
		r.Problem = r.Value.Reason
	}
	return nil
}

// measuredBy returns the parameter whose measured value chooses the cut-off, if the text leaves the cut-off to it.
func (r *EditionReading) measuredBy(periodic bool) (string, bool) {
	if o := r.Requirement.Settings.Origins["long.cutoff"]; !o.Provisional {
		return "", false
	}
	return CutoffBy(r.Edition, r.Requirement.Symbol, periodic)
}

func (r *EditionReading) judge(p Profile) {
	if r.Problem != "" {
		return
	}
	if _, ok := r.Requirement.Bounded(); !ok {
		r.Problem = "the limit is open: " + questionOn("limit", r.Requirement)
		return
	}
	own := r.Evaluation.Settings
	own.Parameters = []string{r.Value.Symbol}
	one := &Requirement{Items: []standards.Requirement{*r.Requirement}, ItemSettings: []*Settings{&own}, settingsFree: true}
	v, err := (&Judging{Requirement: one, Traces: []Profile{p}, Settings: &own, Done: []*Evaluation{r.Evaluation}}).Judge()
	if err != nil {
		r.Problem = err.Error()
		return
	}
	r.Verdict = *v
}

// questionOn is the open question that blocks the limit or the settings.
func questionOn(blocks string, r *standards.Requirement) string {
	for _, q := range r.Questions {
		if q.Blocks == blocks {
			return q.Text
		}
	}
	return "the text gives no number to judge by"
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
	for _, x := range relevant(changes(&a.Evaluation.Settings, &b.Evaluation.Settings), a.Evaluation, b.Evaluation) {
		change := x.change(&a.Evaluation.Settings, &b.Evaluation.Settings)
		c.Changes = append(c.Changes, change)
		switch x.key {
		case "edition":
		case "long.cutoff":
			say("Cut-off: %s under %s (%s), %s under %s (%s).",
				standards.Length(a.Evaluation.Settings.Long.Spec.Cutoff), a.title(), a.cutoffReason(),
				standards.Length(b.Evaluation.Settings.Long.Spec.Cutoff), b.title(), b.cutoffReason())
		default:
			name := aspectWords[x.key]
			if name == "" {
				name = x.key
			}
			if x.key == "section" {
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
	letter := r.Requirement.Settings.Profile
	if letter == "" {
		return params.Call{}, false
	}
	c, err := params.Lookup(r.Edition, letter[0], r.Requirement.Symbol)
	return c, err == nil
}

// title is the first document of the edition, which is short enough for a sentence.
func (r *EditionReading) title() string {
	ed, ok := standards.EditionByID(r.Edition)
	if !ok || len(ed.Documents) == 0 {
		return r.Edition
	}
	return ed.Documents[0]
}

// cutoffReason is the rule line that gave the cut-off.
func (r *EditionReading) cutoffReason() string {
	if r.Search != nil {
		return fmt.Sprintf("from the measured %s, %s", r.Search.By, standards.Show(r.Search.By, r.Search.Value, "µm")+" µm")
	}
	return r.Requirement.Settings.Origins["long.cutoff"].Text
}

// Explain shares the difference of the two values out among the settings in which the evaluations differ; see [Explain].
func (c *EditionComparison) Explain(ctx context.Context, p Profile) (*Ledger, error) {
	if c.A.Evaluation == nil || c.B.Evaluation == nil {
		return nil, errors.New("roughness: no difference to split: one of the editions gives no value")
	}
	return Explain(ctx, p, &c.A.Evaluation.Settings, &c.B.Evaluation.Settings, c.A.Value.Symbol)
}

var ruleWords = map[standards.Rule]string{
	standards.Maximum:        "no measured value outside the limit",
	standards.SixteenPercent: "at most 16 % of the measured values outside the limit",
	standards.Median:         "the median of the measured values inside the limit",
}

// aspectWords names the aspects of the settings for a sentence.
var aspectWords = map[string]string{
	"short": "S-filter", "long": "L-filter", "long.ends": "Ends of the L-filter", "form": "Form", "profile": "Profile",
	"section": "Section length", "sections": "Number of sections", "waviness_limit": "Long limit of the waviness",
	"choices.stratified_filter": "Filter for stratified surfaces",
}
