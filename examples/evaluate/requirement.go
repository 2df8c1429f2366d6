package main

import (
	"cmp"
	"errors"
	"fmt"

	"example.com/furrow/examples/internal/cli"
	"example.com/furrow/roughness"
	"example.com/furrow/roughness/judge"
	"example.com/furrow/roughness/record"
	"example.com/furrow/standards"
)

// work is one run of the command.
type work struct {
	options *options
	file    *roughness.Settings // of -settings
	source  []byte              // its text, for the place of an error
	traces  []*cli.NamedTrace
	display record.Display
	typed   []judge.Typed

	requirement *judge.Requirement  // of -callout or -limit; nil without
	settings    *roughness.Settings // what the traces are evaluated with
	readings    []string            // of the callout, for the table
	notes       []roughness.Note

	evaluations []*roughness.Evaluation
	verdict     *judge.Verdict
}

// readRequirement takes the settings from the callout, lays those of the settings file over them, and finds the limits.
func (w *work) readRequirement() error {
	o := w.options
	w.settings = w.file
	rule, err := judge.ParseRule(o.rule)
	if err != nil {
		return fmt.Errorf("-rule: %w", err)
	}
	if o.callout != "" {
		req, err := judge.ReadRequirement(o.callout, edition(w.file))
		if err != nil {
			return cli.TextError(err)
		}
		w.requirement, w.readings = req, req.Readings
		w.notes = append(w.notes, req.Notes...)
		if req.Settings == nil {
			w.note("requirement-open", "The requirement leaves the settings open; the command plan lists the answers. The values are calculated with the default settings or those of -settings.")
		} else if err := w.follow(req); err != nil {
			return err
		}
	}
	if o.limit != "" {
		if w.requirement != nil {
			rule = cmp.Or(rule, w.requirement.Rule)
			w.note("limit", "The limit of the requirement is not judged: -limit stands in its place.")
		}
		req, err := judge.Limits(o.limit, edition(w.settings), rule)
		if errors.Is(err, judge.ErrRuleApart) {
			return fmt.Errorf("-limit: %s, with -rule", standards.Bare(err))
		}
		if err != nil {
			return fmt.Errorf("-limit: %s", standards.Bare(err))
		}
		if w.requirement != nil {
			req.Under(w.requirement)
		}
		w.requirement = req
		w.settings = req.Include(w.settings)
	}
	if o.typed != "" {
		if w.typed, err = judge.ParseTyped(o.typed, edition(w.settings)); err != nil {
			return cli.FlagError("-typed", err)
		}
	}
	return nil
}

// follow takes the settings of the requirement and lays those of the settings file over them.
func (w *work) follow(req *judge.Requirement) (err error) {
	w.notes = append(w.notes, req.Overriding(w.file)...)
	if w.settings, err = req.On(w.profiles(), 0, w.file); err != nil {
		return w.settingError(err)
	}
	if w.file != nil && len(w.file.Parameters) > 0 {
		w.settings.Parameters = w.file.Parameters
	}
	w.settings = roughness.WithParameters(w.settings, req.Settings.Parameters...)
	return nil
}

func (w *work) note(code, text string) {
	w.notes = append(w.notes, roughness.Note{Code: code, Text: text})
}

// edition is that of settings, "" for none.
func edition(s *roughness.Settings) standards.EditionID {
	if s == nil {
		return ""
	}
	return s.Edition
}

// judge makes the verdict where there is a requirement.
func (w *work) judge() error {
	if w.requirement == nil {
		return nil
	}
	a := w.asked()
	j, err := a.Judging(w.requirement, nil, edition(w.settings))
	if err != nil {
		return cli.FlagError("", err)
	}
	j.Settings, j.Done, j.Typed, j.Traces = w.settings, w.evaluations, w.typed, w.profiles()
	if w.verdict, err = record.Judge(j); err != nil {
		return cli.FlagError("", err)
	}
	return nil
}

// asked is what the flags ask for.
func (w *work) asked() record.Asked {
	o := w.options
	return record.Asked{Text: o.callout, Edition: edition(w.file), Limit: o.limit, Rule: o.rule, U: o.u, K: o.k, Prove: o.prove, Guard: o.guard, Agreed: o.agreed}
}

// profiles are the heights of the traces.
func (w *work) profiles() []roughness.Profile {
	var all []roughness.Profile
	for _, t := range w.traces {
		all = append(all, t.Profile)
	}
	return all
}
