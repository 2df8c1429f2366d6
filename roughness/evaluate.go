package roughness

import (
	"errors"
	"fmt"
	"math"
	"strings"

	"example.com/furrow/filter"
	"example.com/furrow/params"
	"example.com/furrow/standards"
)

// Evaluate takes the trace p through the order of operations of the package comment. s may be nil.
//
// Settings that cannot be followed give a *SettingError and no evaluation. A trace that cannot be evaluated with them gives a
// *ProfileError and an evaluation whose values are all undefined for that reason. A single parameter that the profile
// leaves undefined is no error: its Value is NaN and its Reason says why.
func Evaluate(p Profile, s *Settings) (*Evaluation, error) {
	plan, err := resolve(s, p.Spacing)
	if err != nil {
		return nil, err
	}
	e := &Evaluation{Settings: plan.set, Origins: plan.origins, Traced: p.Traced, Spacing: p.Spacing, Points: len(p.Z), Notes: plan.notes}
	if err := e.run(p, plan); err != nil {
		e.undefined(plan, err)
		return e, err
	}
	return e, nil
}

func (e *Evaluation) run(p Profile, plan *plan) error {
	prep, err := prepare(p, &e.Settings)
	if prep != nil {
		e.Invalid = prep.invalid
		e.First = prep.first
		e.Notes = append(e.Notes, prep.notes...)
	}
	if err != nil {
		return err
	}
	if err := e.split(prep, plan); err != nil {
		return err
	}
	if err := e.lay(plan); err != nil {
		return err
	}
	e.Values = e.measure(plan, prep.peak)
	e.explainValues(plan)
	e.refuseSkid(plan)
	return nil
}

// split makes the profiles: S-filter, form, L-filter (steps 2 to 4).
func (e *Evaluation) split(prep *prepared, plan *plan) error {
	if err := e.shape(prep); err != nil {
		return err
	}
	return e.divide(plan)
}

// shape makes the primary profile: S-filter and form.
func (e *Evaluation) shape(prep *prepared) error {
	s, d := &e.Settings, e.Spacing
	e.Read = prep.z
	e.Smoothed = e.Read
	var err error
	if !s.Short.Off {
		if e.Smoothed, err = s.Short.Spec.New().Apply(nil, e.Read, d); err != nil {
			return filterError("S-filter", err)
		}
	}
	e.Primary = e.Smoothed
	if form := s.Form.build(); form != nil {
		if e.Form, err = form.Fit(nil, e.Smoothed, d, prep.use); err != nil {
			return &ProfileError{Index: -1, Err: ErrForm, Text: fmt.Sprintf("the form (%s) cannot be fitted: %s", s.Form, bare(err))}
		}
		e.Primary = subtract(e.Smoothed, e.Form)
	}
	return nil
}

// divide splits the primary profile into waviness and roughness.
func (e *Evaluation) divide(plan *plan) error {
	s, d := &e.Settings, e.Spacing
	var err error
	switch {
	case s.Input == Filtered:
		e.Roughness, e.Waviness = e.Primary, e.Primary
	case s.Long.Off:
		e.Roughness = e.Primary
	default:
		e.Waviness, err = s.Long.Spec.New().Apply(nil, e.Primary, d)
		if err != nil && s.Profile == P { // P needs no L-filter; there is no W and no R to show beside it
			e.note("no-roughness", "The L-filter cannot be applied (%v): there is no waviness and no roughness profile beside the primary one.", err)
			e.Waviness = nil
			return nil
		}
		if err != nil {
			return filterError("L-filter", err)
		}
		e.Roughness = subtract(e.Primary, e.Waviness)
		if s.WavinessLimit > 0 {
			longer, err := filter.Gaussian{Cutoff: s.WavinessLimit}.Apply(nil, e.Waviness, d)
			if err != nil {
				return filterError("filter of the waviness limit", err)
			}
			e.Waviness = subtract(e.Waviness, longer)
		}
	}
	if plan.stratified != nil && needs(plan.calls, params.Stratified) {
		line, err := plan.stratified.New().Apply(nil, e.Primary, d)
		if err != nil {
			return filterError("L-filter of the stratified parameters", err)
		}
		e.Stratified = subtract(e.Primary, line)
	}
	return e.splitTwoRC(plan)
}

// splitTwoRC makes the profile of the old centre-line mean, where a parameter asks for it.
func (e *Evaluation) splitTwoRC(plan *plan) error {
	cutoff := e.Settings.Long.Spec.Cutoff
	if cutoff == 0 || e.Settings.Long.Spec.Filter == "two-rc" || !needs(plan.calls, params.TwoRC) {
		return nil
	}
	line, err := filter.TwoRC{Cutoff: cutoff}.Apply(nil, e.Primary, e.Spacing)
	if err != nil {
		return filterError("2RC filter", err)
	}
	e.TwoRC = subtract(e.Primary, line)
	e.note("two-rc", "Ra75 is measured behind a 2RC filter with 75 %% at %g µm; with less than two cut-offs of run-up its start changes the value.", cutoff)
	return nil
}

func filterError(name string, err error) error {
	if errors.Is(err, filter.ErrSampling) { // the points cannot show what the filter is to separate
		return &ProfileError{Index: -1, Err: ErrFilter, Text: fmt.Sprintf("the points lie too far apart for the %s: %s", name, bare(err))}
	}
	return &ProfileError{Index: -1, Err: ErrFilter, Text: fmt.Sprintf("the %s cannot be applied: %s", name, bare(err))}
}

// bare is the text of an error of the filters without the name of their package.
func bare(err error) string { return strings.TrimPrefix(err.Error(), "filter: ") }

func subtract(a, b []float64) []float64 {
	r := make([]float64, len(a))
	for i := range a {
		r[i] = a[i] - b[i]
	}
	return r
}

func needs(calls []params.Call, on params.On) bool {
	for _, c := range calls {
		if c.Parameter.On == on {
			return true
		}
	}
	return false
}

// lay cuts the ends and lays the sections (step 5).
func (e *Evaluation) lay(plan *plan) error {
	s, d, n := &e.Settings, e.Spacing, len(e.Read)
	head, tail := 0, 0
	trim := func(b Band) {
		if !b.Off {
			h, t := b.Spec.Trim(n, d)
			head, tail = max(head, h), max(tail, t)
		}
	}
	trim(s.Short)
	if s.Profile != P {
		trim(s.Long)
	}
	left := n - head - tail
	if left < 1 {
		return &ProfileError{Index: -1, Err: ErrTooShort, Text: fmt.Sprintf(
			"nothing remains of the trace of %.6g µm after the ends of the filters are cut off", float64(n)*d)}
	}
	if plan.whole {
		e.SectionPoints = left / s.Sections
		s.SectionLength = float64(e.SectionPoints) * d
	} else {
		e.SectionPoints = int(math.Round(min(s.SectionLength/d, 1<<30)))
	}
	if e.SectionPoints < 2 {
		return &ProfileError{Index: -1, Err: ErrTooShort, Text: fmt.Sprintf(
			"a section of %.6g µm holds fewer than two points at a spacing of %.6g µm", s.SectionLength, d)}
	}
	e.room = [2]int{head, n - tail}
	first, room := head, left
	if s.Start != nil {
		first = int(math.Round(min(*s.Start/d, 1<<30))) - e.First
		if first < head || first >= n-tail {
			return &ProfileError{Index: -1, Err: ErrStart, Text: fmt.Sprintf(
				"the sections cannot start at %.6g µm: the remaining trace reaches from %.6g to %.6g µm",
				*s.Start, float64(e.First+head)*d, float64(e.First+n-tail)*d)}
		}
		room = n - tail - first
	}
	fit := min(room/e.SectionPoints, s.Sections)
	if fit < 1 {
		return &ProfileError{Index: -1, Err: ErrTooShort, Text: fmt.Sprintf(
			"the trace is too short: %.6g µm remain, and one section needs %.6g µm", float64(room)*d, s.SectionLength)}
	}
	if fit < s.Sections {
		e.note("too-short", "The trace holds %s of %.6g µm, not %d; the values are those of %d.", count(fit, "whole section"), s.SectionLength, s.Sections, fit)
	}
	e.Sections = fit
	e.Start = first
	if s.Start == nil {
		e.Start += (room - fit*e.SectionPoints) / 2
	}
	return nil
}

// flat is the share of the largest height read below which a profile counts as flat: rounding, not a surface.
const flat = 1e-12

// measure computes the values (step 6).
func (e *Evaluation) measure(plan *plan, peak float64) []Value {
	values := make([]Value, len(plan.calls))
	groups := map[params.On][]int{}
	var order []params.On
	for i, c := range plan.calls {
		if groups[c.Parameter.On] == nil {
			order = append(order, c.Parameter.On)
		}
		groups[c.Parameter.On] = append(groups[c.Parameter.On], i)
	}
	for _, on := range order {
		in := e.Input(on)
		in.Flat = flat * peak
		calls := make([]params.Call, len(groups[on]))
		for k, i := range groups[on] {
			calls[k] = plan.calls[i]
		}
		for k, v := range params.Evaluate(in, calls...) {
			values[groups[on][k]] = v
		}
	}
	return values
}

// explainValues makes notes of what the reader must know about values.
func (e *Evaluation) explainValues(plan *plan) {
	if e.Stratified != nil {
		e.note("stratified-filter", "The parameters of stratified surfaces are measured on the profile of the filter %s, cut-off %g µm (%s).",
			plan.stratified.Filter, plan.stratified.Cutoff, originWords(e.Origins["choices.stratified_filter"]))
	}
	for i := range e.Values {
		v := &e.Values[i]
		if plan.calls[i].Parameter.Key == params.RPcBandKey {
			v.Note = e.bandNote()
		}
		if v.Note != "" {
			e.note("value", "%s: %s.", v.Symbol, v.Note)
		}
	}
}

// bandNote says at which cut-off a count in a band was taken, beside the one that its source asks for.
func (e *Evaluation) bandNote() string {
	asked := "EN 10049 asks for a cut-off of " + standards.Length(params.BandCutoff) + " (from memory)"
	switch c := e.Settings.Long.Spec.Cutoff; {
	case e.Settings.Input == Filtered:
		return "the heights came filtered, with a cut-off that is not known here; " + asked
	case c == 0:
		return "counted without a cut-off; " + asked
	default:
		return "counted behind a cut-off of " + standards.Length(c) + "; " + asked
	}
}

// Input returns what the parameters measured on the given profile see of the evaluation.
func (e *Evaluation) Input(on params.On) *params.Input {
	z := e.Profile()
	switch {
	case on == params.Stratified && e.Stratified != nil && e.Settings.Profile == R:
		z = e.Stratified
	case on == params.Primary:
		z = e.Primary
	case on == params.TwoRC && e.TwoRC != nil:
		z = e.TwoRC
	}
	if z == nil { // no filter makes this profile; what is asked for is measured on the primary profile
		z = e.Primary
	}
	lo, hi := e.Start, e.End()
	return &params.Input{
		Z: z[lo:hi:hi], Dx: e.Spacing, Section: e.SectionPoints,
		Lead: z[max(0, lo-3):lo:lo], Tail: z[hi:min(len(z), hi+3)],
		Choices: e.Settings.Choices,
	}
}

// undefined gives every value asked for the reason why nothing could be evaluated.
func (e *Evaluation) undefined(plan *plan, err error) {
	reason := err.Error()
	if p, ok := err.(*ProfileError); ok {
		reason = p.Text
	}
	e.Values = make([]Value, len(plan.calls))
	for i, c := range plan.calls {
		e.Values[i] = Value{Symbol: c.Symbol, Value: math.NaN(), Unit: c.Parameter.Unit, Reason: reason}
		if refs := c.Meaning().Refs; len(refs) > 0 {
			e.Values[i].Source = refs[0]
		}
	}
	e.note("not-evaluated", "Nothing could be evaluated: %s.", reason)
}

func (e *Evaluation) note(code, format string, args ...any) {
	e.Notes = append(e.Notes, Note{Code: code, Text: fmt.Sprintf(format, args...)})
}

// evaluateOne evaluates a single parameter.
func evaluateOne(p Profile, s *Settings, symbol string) (*Evaluation, error) {
	one := Settings{}
	if s != nil {
		one = *s
	}
	one.Parameters = []string{symbol}
	return Evaluate(p, &one)
}
