package roughness

import (
	"context"
	"errors"
	"fmt"
	"maps"
	"math"
	"slices"

	"example.com/furrow/filter"
	"example.com/furrow/params"
	"example.com/furrow/standards"
	"example.com/furrow/standards/callout"
)

// Evaluate takes the trace p through the order of operations of the package comment. s may be nil.
//
// Settings that cannot be followed give a *SettingError and no evaluation. A trace that cannot be evaluated with them gives a
// *ProfileError and an evaluation whose values are all undefined for that reason. A single parameter that the profile
// leaves undefined is no error: its Value is NaN and its Reason says why.
func Evaluate(p Profile, s *Settings) (*Evaluation, error) {
	plan, err := resolve(s)
	if err != nil {
		return nil, err
	}
	plan = plan.at(p.Spacing)
	e := plan.evaluation(p, true)
	err = e.run(context.Background(), p, plan, &workplace{})
	e.part() // the work space is not used again
	return e, err
}

// evaluation returns an empty evaluation of a trace. It shares no memory with the plan.
func (p *plan) evaluation(trace Profile, whole bool) *Evaluation {
	e := &Evaluation{Traced: trace.Traced, Spacing: trace.Spacing, Points: len(trace.Z), bare: !whole}
	e.Settings.set(&p.set)
	if whole {
		e.Origins, e.Notes = maps.Clone(p.origins), slices.Clone(p.notes)
	}
	return e
}

// run takes the trace through all steps in the work space. The profiles of e are then parts of it.
func (e *Evaluation) run(ctx context.Context, p Profile, plan *plan, b *workplace) error {
	b.trace = p
	for _, step := range steps {
		if err := ctx.Err(); err != nil {
			return err
		}
		if err := step(e, plan, b); err != nil {
			e.undefined(plan, err)
			return err
		}
	}
	e.measure(ctx, plan, flat*b.mended.peak)
	e.explainValues(plan)
	e.refuseSkid(plan)
	return nil
}

// steps of the evaluation but the last, which cannot fail.
var steps = [...]func(*Evaluation, *plan, *workplace) error{(*Evaluation).enter, (*Evaluation).shape, (*Evaluation).divide, (*Evaluation).lay}

// enter reads the trace as the settings say (step 1).
func (e *Evaluation) enter(plan *plan, b *workplace) error {
	err := b.prepare(b.trace, &plan.set)
	e.Invalid, e.First = b.mended.invalid, b.mended.first
	if !e.bare {
		e.Notes = append(e.Notes, b.mended.notes...)
	}
	return err
}

// shape makes the primary profile: S-filter and form (steps 2 and 3).
func (e *Evaluation) shape(plan *plan, b *workplace) error {
	read := b.read
	e.Read, e.Smoothed = read.z, read.z
	smoothed := read
	if plan.short != nil {
		if err := b.filter(&b.short, read, plan.short, e.Spacing); err != nil {
			return filterError("S-filter", err)
		}
		smoothed = b.short.out
		e.Smoothed = smoothed.z
	}
	b.primary = smoothed
	if plan.shape != nil {
		if err := b.take(&b.form, smoothed, plan.shape, func(dst []float64) ([]float64, error) {
			return plan.shape.Fit(dst, smoothed.z, e.Spacing, b.mended.use)
		}); err != nil {
			return &ProfileError{Index: -1, Err: ErrForm, Text: fmt.Sprintf("the form (%s) cannot be fitted: %s", e.Settings.Form, standards.Bare(err))}
		}
		e.Form, b.primary = b.form.out.z, b.form.off
	}
	e.Primary = b.primary.z
	return nil
}

// divide splits the primary profile into waviness and roughness (step 4).
func (e *Evaluation) divide(plan *plan, b *workplace) error {
	primary, d := b.primary, e.Spacing
	switch {
	case e.Settings.Input == Filtered:
		e.Roughness, e.Waviness = primary.z, primary.z
	case plan.long == nil:
		e.Roughness = primary.z
	default:
		err := b.filter(&b.long, primary, plan.long, d)
		if err != nil && e.Settings.Profile == P { // P needs no L-filter; there is no W and no R to show beside it
			e.note("no-roughness", "The L-filter cannot be applied (%v): there is no waviness and no roughness profile beside the primary one.", err)
			return nil
		}
		if err != nil {
			return filterError("L-filter", err)
		}
		e.Waviness, e.Roughness = b.long.out.z, b.long.off.z
		if plan.limit != nil {
			if err := b.filter(&b.limit, b.long.out, plan.limit, d); err != nil {
				return filterError("filter of the waviness limit", err)
			}
			e.Waviness = b.limit.off.z
		}
	}
	if plan.behind != nil {
		if err := b.filter(&b.stratified, primary, plan.behind, d); err != nil {
			return filterError("L-filter of the stratified parameters", err)
		}
		e.Stratified = b.stratified.off.z
	}
	if plan.twoRC != nil { // the profile of the old centre-line mean, where a parameter asks for it
		if err := b.filter(&b.twoRC, primary, plan.twoRC, d); err != nil {
			return filterError("2RC filter", err)
		}
		e.TwoRC = b.twoRC.off.z
		e.note("two-rc", "Ra75 is measured behind a 2RC filter with 75 %% at %g µm; with less than two cut-offs of run-up its start changes the value.", e.Settings.Long.Spec.Cutoff)
	}
	return nil
}

func filterError(name string, err error) error {
	if errors.Is(err, filter.ErrSampling) { // the points cannot show what the filter is to separate
		return &ProfileError{Index: -1, Err: ErrFilter, Text: fmt.Sprintf("the points lie too far apart for the %s: %s", name, standards.Bare(err))}
	}
	return &ProfileError{Index: -1, Err: ErrFilter, Text: fmt.Sprintf("the %s cannot be applied: %s", name, standards.Bare(err))}
}

// lay cuts the ends and lays the sections (step 5).
func (e *Evaluation) lay(plan *plan, b *workplace) error {
	n := len(e.Read)
	head, tail := b.cut(plan, n, e.Spacing)
	return e.place(plan, n, head, tail)
}

// place lays the sections into n points, of which so many are cut away at the ends.
func (e *Evaluation) place(plan *plan, n, head, tail int) error {
	s, d := &e.Settings, e.Spacing
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

// measure computes the values (step 6). They are incomplete when the context ends.
func (e *Evaluation) measure(ctx context.Context, plan *plan, flat float64) {
	e.Values = make([]Value, len(plan.calls))
	for _, g := range plan.groups {
		if ctx.Err() != nil {
			return
		}
		in := e.Input(g.on)
		in.Flat = flat
		for k, v := range params.Evaluate(in, g.calls...) {
			e.Values[g.at[k]] = v
		}
	}
}

// explainValues makes notes of what the reader must know about values.
func (e *Evaluation) explainValues(plan *plan) {
	if e.Stratified != nil && !e.bare {
		e.note("stratified-filter", "The parameters of stratified surfaces are measured on the profile of the filter %s (%s).",
			Band{Spec: *plan.stratified}.Plain(), originWords(e.Origins["choices.stratified_filter"]))
	}
	for i := range e.Values {
		v := &e.Values[i]
		if plan.calls[i].Parameter.Key == params.RPcBandKey {
			v.Note = e.bandNote()
		}
		if v.Note != "" && !e.bare {
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
	if e.bare {
		return
	}
	e.Notes = append(e.Notes, Note{Code: code, Text: fmt.Sprintf(format, args...)})
}

// originWords is an origin in words.
func originWords(o callout.Origin) string {
	if ref := o.Ref.String(); ref != "" {
		return o.Text + " (" + ref + "; " + string(o.Basis) + ")"
	}
	return o.Text
}
