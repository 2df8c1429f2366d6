package main

import (
	"errors"
	"fmt"

	"example.com/furrow/roughness"
	"example.com/furrow/roughness/record"
	"example.com/furrow/standards"
)

// requirement is what the drawing asks: settings, limits and rule, from -callout, -limit and -rule.
type requirement struct {
	settings *roughness.Settings
	readings []string
	bounds   []standards.Bound
	rule     standards.Rule
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
		r.settings, r.readings, r.bounds, r.rule = req.Settings, req.Readings, req.Bounds, req.Rule
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
		r.bounds = bounds
		if r.settings != nil && len(r.settings.Parameters) > 0 {
			r.settings = roughness.WithParameters(r.settings, bounds[0].Symbol)
		}
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

// judge holds the value of the trace against the limits, nil without any.
func (r *requirement) judge(e *roughness.Evaluation) (*record.Judged, error) {
	verdict, ok, err := roughness.JudgeEvaluation(e, r.bounds, r.rule)
	if err != nil {
		return nil, fmt.Errorf("-limit: %s", bare(err))
	}
	if !ok {
		return nil, nil // no limit, or the values say why
	}
	return &record.Judged{Rule: r.rule, Verdict: verdict}, nil
}

// textError gives a refused requirement its place in the text.
func textError(err error) error {
	var t *standards.TextError
	if errors.As(err, &t) {
		return fmt.Errorf("-callout:%d:%d: %s", t.Line, t.Column, t.Reason)
	}
	return fmt.Errorf("-callout: %s", bare(err))
}
