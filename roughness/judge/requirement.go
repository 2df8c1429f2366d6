package judge

import (
	"example.com/furrow/roughness"
	"fmt"
	"reflect"
	"slices"

	"example.com/furrow/standards"
	"example.com/furrow/standards/callout"
)

// A Requirement is what a drawing asks of one surface, ready to evaluate and judge by. Each limit has its own settings, rule and questions.
type Requirement struct {
	Items        []callout.Item        // each limit as read, with the origin of every setting
	ItemSettings []*roughness.Settings // what each is measured with; nil while a question about its settings is open
	Settings     *roughness.Settings   // those of the first limit, with the parameters of all that share them
	Readings     []string              // each limit in plain words
	Bounds       []standards.Bound     // the limits on the parameter of the first
	Rule         standards.Rule        // of the first
	Notes        []roughness.Note      // the readings, what the text leaves open, and what else the reader should know

	settingsFree bool         // it states limits and no settings, so nothing can deviate
	drawing      *Requirement // that the settings come from, where it is another one
}

// ReadRequirement reads the text of a requirement ("Rz 3,2") under an edition ("" is ISO 21920) and derives what each of its limits is
// measured with. The error is a *standards.TextError with its place: a text that cannot be read. What is open is no error: see Open.
func ReadRequirement(text string, edition standards.EditionID) (*Requirement, error) {
	if edition == "" {
		edition = roughness.DefaultEdition
	}
	read, err := callout.ParseRequirement(text, edition)
	if err != nil {
		return nil, err
	}
	r := &Requirement{Items: read.Items}
	for i := range read.Items {
		item := &read.Items[i]
		s, err := SettingsFor(item)
		if err != nil {
			s = nil
		}
		r.ItemSettings = append(r.ItemSettings, s)
		if i == 0 {
			r.Settings, r.Rule = s, item.Rule
		} else if s != nil && r.Settings != nil && alike(r.Settings, s) {
			r.Settings = roughness.WithParameters(r.Settings, s.Parameters...)
		}
		r.Readings = append(r.Readings, item.Reading())
		r.note("requirement", item.Reading())
		for _, n := range item.Notes {
			r.note("requirement", n)
		}
		for _, q := range item.Questions {
			r.note("question", q.Text)
		}
		for _, n := range item.Others {
			r.note("requirement", fmt.Sprintf("OR(%d), written elsewhere on the drawing, holds as well and is not evaluated here.", n))
		}
		if b, ok := item.Bounded(); ok && (len(r.Bounds) == 0 || r.Bounds[0].Symbol == b.Symbol && r.Bounds[0].Side != b.Side) {
			r.Bounds = append(r.Bounds, b)
		}
	}
	return r, nil
}

// Open returns the questions of all limits that block the settings, a limit or a verdict, each once.
func (r *Requirement) Open() []callout.Question {
	var open []callout.Question
	if r.drawing != nil {
		open = r.drawing.Open()
	}
	for i := range r.Items {
		for _, q := range r.Items[i].Questions {
			if q.Blocks != "" && !slices.ContainsFunc(open, func(o callout.Question) bool {
				return o.Key == q.Key && o.Line == q.Line && o.Column == q.Column
			}) {
				open = append(open, q)
			}
		}
	}
	return open
}

func (r *Requirement) note(code, text string) {
	r.Notes = append(r.Notes, roughness.Note{Code: code, Text: text})
}

// Credit gives settings that are what the first limit asks for the origins that they have there, and leaves those that differ to
// whoever set them.
func (r *Requirement) Credit(s *roughness.Settings) {
	if r.Settings != nil {
		s.Credit(r.Settings)
	}
}

// Overriding says in which settings over departs from what the requirement asks; nil when in none, and while a question about its
// settings is open.
func (r *Requirement) Overriding(over *roughness.Settings) []roughness.Note {
	if over == nil || r.Settings == nil {
		return nil
	}
	return over.Against(r.Settings)
}

// alike reports whether two requirements on one surface can share an evaluation.
func alike(a, b *roughness.Settings) bool {
	x, y := *a, *b
	x.Parameters, y.Parameters = nil, nil
	x.From, y.From = nil, nil
	return reflect.DeepEqual(x, y)
}
