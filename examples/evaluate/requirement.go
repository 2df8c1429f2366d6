package main

import (
	"errors"
	"fmt"
	"math"

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
	edition := ""
	if file != nil {
		edition = file.Edition
	}
	if o.callout != "" {
		if err := r.readCallout(o.callout, edition); err != nil {
			return nil, err
		}
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
			r.settings = withParameter(r.settings, bounds[0].Symbol)
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

func (r *requirement) readCallout(text, edition string) error {
	if edition == "" {
		edition = "iso-21920"
	}
	read, err := standards.ParseRequirement(text, edition)
	if err != nil {
		return textError(err)
	}
	for i := range read.Items {
		item := &read.Items[i]
		s, err := roughness.SettingsFor(item)
		if err != nil {
			return textError(err)
		}
		if r.settings == nil || i == 0 {
			r.settings = s
			r.rule = item.Rule
		} else if !alike(r.settings, s) {
			return fmt.Errorf("-callout:%d:%d: this requirement is measured with other settings than the one before it; evaluate them one by one", item.Line, item.Column)
		} else {
			r.settings = withParameter(r.settings, s.Parameters...)
		}
		r.readings = append(r.readings, item.Reading())
		if b, ok := item.Bounded(); ok && (len(r.bounds) == 0 || r.bounds[0].Symbol == b.Symbol && r.bounds[0].Side != b.Side) {
			r.bounds = append(r.bounds, b)
		}
	}
	return nil
}

// alike reports whether two requirements on one surface can share an evaluation.
func alike(a, b *roughness.Settings) bool {
	x, y := *a, *b
	x.Parameters, y.Parameters = nil, nil
	return fmt.Sprintf("%+v", x) == fmt.Sprintf("%+v", y)
}

func withParameter(s *roughness.Settings, names ...string) *roughness.Settings {
	c := *s
	c.Parameters = append([]string(nil), s.Parameters...)
	for _, n := range names {
		has := false
		for _, p := range c.Parameters {
			has = has || p == n
		}
		if !has {
			c.Parameters = append(c.Parameters, n)
		}
	}
	return &c
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
	if len(r.bounds) == 0 {
		return nil, nil
	}
	v, ok := e.Value(r.bounds[0].Symbol)
	if !ok {
		return nil, fmt.Errorf("-limit: the evaluation has no %s; its edition is %s and its profile %s", r.bounds[0].Symbol, e.Settings.Edition, e.Settings.Profile)
	}
	if math.IsNaN(v.Value) {
		return nil, nil // the values say why
	}
	verdict, err := roughness.Judge([]roughness.Value{v}, r.bounds, r.rule, standards.Guard{})
	if err != nil {
		return nil, fmt.Errorf("-limit: %s", bare(err))
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
