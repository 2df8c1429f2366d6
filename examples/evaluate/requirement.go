package main

import (
	"errors"
	"fmt"
	"strings"

	"example.com/furrow/roughness"
	"example.com/furrow/roughness/record"
	"example.com/furrow/standards"
)

// requirement is what the drawing asks: settings, limits and rule, from -callout, -limit and -rule.
type requirement struct {
	settings *roughness.Settings
	readings []string // of the callout, for the table
	notes    []roughness.Note
	bounds   []standards.Bound
	rule     standards.Rule
	unit     string // that the drawing writes the limit in
}

// readRequirement takes the settings from the callout, lays those of the settings file over them, and finds the limits.
func readRequirement(o *options, file *roughness.Settings) (*requirement, error) {
	r := &requirement{settings: file}
	if o.callout != "" {
		edition := ""
		if file != nil {
			edition = file.Edition
		}
		req, err := roughness.ReadRequirement(o.callout, edition)
		if err != nil {
			return nil, textError(err)
		}
		if req.Settings == nil {
			return nil, textError(req.Items[0].Err())
		}
		if i := req.Apart(); i > 0 {
			item := &req.Items[i]
			return nil, textError(&standards.TextError{Line: item.Line, Column: item.Column, Err: roughness.ErrMixed,
				Reason: "this requirement is measured with other settings than the one before it; evaluate them one by one"})
		}
		r.settings, r.readings, r.bounds, r.rule = req.Settings, req.Readings, req.Bounds, req.Rule
		r.notes = append(req.Notes, req.Overriding(file)...)
		r.unit = req.Items[0].Unit
		if file != nil {
			over := *file
			over.Edition = "" // it told how to read the callout; a motif parameter leads to an edition of its own
			r.settings = roughness.Merge(r.settings, &over)
		}
	}
	if o.limit != "" {
		bounds, err := roughness.ParseLimits(o.limit)
		if err != nil {
			return nil, fmt.Errorf("-limit: %s", bare(err))
		}
		if len(r.bounds) > 0 {
			r.unit = ""
			r.note("limit", "The limit of the requirement is not judged: -limit stands in its place.")
		}
		r.bounds = bounds
	}
	if len(r.bounds) > 0 && !motif(r.settings) {
		r.settings = roughness.WithParameters(r.settings, r.bounds[0].Symbol)
	}
	switch rule := standards.Rule(o.rule); rule {
	case "":
		if r.rule == "" {
			r.rule = defaultRule(r.settings)
		}
	case standards.Maximum, standards.SixteenPercent, standards.Median:
		if r.bounds == nil {
			return nil, fmt.Errorf("-rule %s: there is no limit to judge by; give -limit or -callout", rule)
		}
		r.rule = rule
	default:
		return nil, fmt.Errorf("-rule: %q is none of %s, %s, %s", rule, standards.Maximum, standards.SixteenPercent, standards.Median)
	}
	return r, nil
}

func (r *requirement) note(code, text string) {
	r.notes = append(r.notes, roughness.Note{Code: code, Text: text})
}

// motif reports whether the settings are those of the motif method, whose parameters carry their operator lengths in the name.
func motif(s *roughness.Settings) bool { return s != nil && s.Edition == "iso-12085" }

func defaultRule(s *roughness.Settings) standards.Rule {
	id := "iso-21920"
	if s != nil && s.Edition != "" {
		id = s.Edition
	}
	if e, ok := standards.EditionByID(id); ok {
		return e.Rule
	}
	return standards.Maximum
}

// judge holds the value of the trace against the limits, nil without any; a note says where there is a requirement and no verdict.
func (r *requirement) judge(e *roughness.Evaluation) (*record.Judged, error) {
	verdict, ok, err := roughness.JudgeEvaluation(e, r.bounds, r.rule)
	if err != nil {
		return nil, fmt.Errorf("-limit: %s", bare(err))
	}
	if !ok {
		switch {
		case len(r.bounds) > 0:
			r.note("not-judged", "Not decided: "+r.bounds[0].Symbol+" has no value to judge.")
		case len(r.readings) > 0:
			r.note("not-judged", "Not decided: the requirement names no limit that can be judged yet.")
		}
		return nil, nil
	}
	return &record.Judged{Rule: r.rule, Verdict: verdict}, nil
}

// shown is the judged value beside its limits, in the unit of the drawing and with enough decimals never to contradict the verdict.
func (r *requirement) shown(e *roughness.Evaluation) string {
	v, ok := e.Value(r.bounds[0].Symbol)
	if !ok {
		v = e.Values[0]
	}
	unit := r.unit
	if unit == "" || string(v.Unit) != "µm" {
		unit = string(v.Unit)
	}
	text := v.Symbol + " " + standards.Show(v.Symbol, v.Value, unit, r.bounds...)
	for _, b := range r.bounds {
		text += map[standards.Side]string{standards.Upper: ", at most ", standards.Lower: ", at least "}[b.Side] + standards.Show(v.Symbol, b.Value, unit)
	}
	return strings.TrimSpace(text + " " + unit)
}

// textError gives a refused requirement its place in the text.
func textError(err error) error {
	var t *standards.TextError
	if errors.As(err, &t) {
		return fmt.Errorf("-callout:%d:%d: %s", t.Line, t.Column, t.Reason)
	}
	return fmt.Errorf("-callout: %s", bare(err))
}
