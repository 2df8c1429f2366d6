package judge

import (
	"example.com/furrow/roughness"
	"fmt"
	"math"
	"slices"
	"strings"

	"example.com/furrow/standards"
	"example.com/furrow/standards/callout"
	"example.com/furrow/standards/decide"
)

// A Deviation is one setting that differs from what a requirement asks for.
type Deviation struct {
	Key         string // of the setting: "long.cutoff", "sections", "rule" ...
	Asked, Used string // in words
	With        string // who agreed; empty while nobody has
}

// String says what is used instead of what: "L-filter 2.5 mm instead of 0.8 mm".
func (d Deviation) String() string {
	if d.Key == "sections" {
		if d.Used == "1" {
			return "1 section instead of " + d.Asked
		}
		return d.Used + " sections instead of " + d.Asked
	}
	name := roughness.NameOf(d.Key)
	switch d.Key {
	case clipped.Key:
		name = ""
	case "rule":
		name = "acceptance rule"
	case "limit":
		name = "limit"
	case "evaluation":
		name = "evaluation length"
	}
	return strings.TrimSpace(name + " " + d.Used + " instead of " + d.Asked)
}

// freely are the settings that say how the trace lies or where it was looked at: a requirement does not ask for them.
var freely = []string{"invert", "crop", "exclude", "start", "gaps.bridge", "choices.skid"}

// deviations returns the settings in which used differs from asked, for the parameter called name. Both are complete.
func deviations(asked, used *roughness.Settings, name string) []Deviation {
	var list []Deviation
	for _, x := range roughness.Changes(asked, used) {
		switch {
		case slices.Contains(freely, x.Key),
			x.Key == "waviness_limit" && used.Profile != roughness.W,
			x.Key == "choices.stratified_filter" && !isStratified(asked, name),
			x.Key == "section" && asked.SectionLength == 0, // the whole trace, see shortened
			x.Key == "section" && asked.SectionLength == asked.Long.Spec.Cutoff && used.SectionLength == used.Long.Spec.Cutoff:
			continue
		}
		d := Deviation{Key: x.Key}
		d.Asked, d.Used = x.Plain()
		list = append(list, d)
	}
	return list
}

// otherLimit tells where the drawing states another limit, or another rule, for what limit i of these bounds. A second limit of the drawing
// for the same parameter and side is another one, even if the first is the same.
func (r *Requirement) otherLimit(i int) []Deviation {
	own, bounded := r.Items[i].Bounded()
	if r.drawing == nil || !bounded {
		return nil
	}
	var list []Deviation
	for k := range r.drawing.Items {
		item := &r.drawing.Items[k]
		drawn, ok := item.Bounded()
		switch {
		case !ok || !sameLimit(drawn, own):
		case math.Abs(drawn.Value-own.Value) > 1e-9*math.Abs(own.Value):
			list = append(list, Deviation{Key: "limit", Asked: itemWords(drawn, item), Used: itemWords(own, &r.Items[i])})
		case item.Rule != r.Items[i].Rule:
			list = append(list, Deviation{Key: "rule", Asked: string(item.Rule), Used: string(r.Items[i].Rule)})
		}
	}
	return list
}

// sameLimit reports whether two limits are for one parameter and side.
func sameLimit(a, b standards.Bound) bool {
	return a.Side == b.Side && sameSymbol(a.Edition, a.Symbol, b.Symbol)
}

func itemWords(b standards.Bound, item *callout.Item) string {
	return b.Symbol + " " + decide.LimitWords(b, item.LimitText, item.Unit)
}

// unjudged are the limits of the drawing that these bounds leave out.
func (r *Requirement) unjudged() (left []string) {
	if r == nil || r.drawing == nil {
		return nil
	}
	for k := range r.drawing.Items {
		item := &r.drawing.Items[k]
		drawn, ok := item.Bounded()
		if ok && !slices.ContainsFunc(r.Bounds, func(b standards.Bound) bool { return sameLimit(drawn, b) }) {
			left = append(left, drawn.Side.String()+" limit "+itemWords(drawn, item))
		}
	}
	return left
}

// shortened tells where the whole trace is asked for and a section of stated length is another part of it.
func shortened(p roughness.Profile, asked, used *roughness.Settings) []Deviation {
	if asked.SectionLength != 0 || used.SectionLength == 0 {
		return nil
	}
	room, err := roughness.RoomFor(p, asked)
	if err != nil || math.Abs(room.Section-used.SectionLength) <= 2*p.Spacing {
		return nil
	}
	return []Deviation{{Key: "section", Asked: standards.Length(room.Section), Used: standards.Length(used.SectionLength)}}
}

// deviatesWords is the sentence about deviations that nobody has agreed to.
func deviatesWords(list []Deviation) string {
	var parts []string
	for _, d := range list {
		parts = append(parts, d.String())
	}
	if len(parts) == 1 {
		return "One setting differs from the requirement: " + parts[0] + "."
	}
	return fmt.Sprintf("%d settings differ from the requirement: %s.", len(parts), strings.Join(parts, "; "))
}

// laid returns asked with the changes that lead from base to used: what was changed for the first limit holds for every other.
func laid(asked, base, used *roughness.Settings) *roughness.Settings {
	s := *asked
	for _, x := range roughness.Changes(base, used) {
		if x.Key == "gaps.bridge" && *used.Bridge == used.Long.Spec.Cutoff/2 || // it only follows the cut-off
			x.Key == "section" && base.SectionLength == 0 { // it only follows the trace
			continue
		}
		x.Make(&s, used)
	}
	return &s
}

// On returns the settings of limit i on the traces of one surface: what the requirement asks for, with over (nil for none) laid over it.
// Where an edition lets the measured value find the cut-off and neither text nor over states one, it is looked for on each trace, and
// the longest one holds for all.
func (r *Requirement) On(traces []roughness.Profile, i int, over *roughness.Settings) (*roughness.Settings, error) {
	return r.onAll(traces, i, over, false)
}

func (r *Requirement) onAll(traces []roughness.Profile, i int, over *roughness.Settings, periodic bool) (*roughness.Settings, error) {
	if len(traces) == 0 {
		traces = []roughness.Profile{{}}
	}
	var longest *roughness.Settings
	for _, p := range traces {
		s, err := r.on(p, i, over, periodic)
		if err != nil {
			return nil, err
		}
		if longest == nil || s.Long.Spec.Cutoff > longest.Long.Spec.Cutoff {
			longest = s
		}
		if !r.searched(i, over) {
			break
		}
	}
	return longest, nil
}

// searched tells whether the cut-off of limit i is found by measuring.
func (r *Requirement) searched(i int, over *roughness.Settings) bool {
	item := &r.Items[i]
	_, ok := CutoffBy(item.Edition, item.Symbol, false)
	return ok && item.Settings["long.cutoff"].Provisional && !(over != nil && (over.Long.Given() || over.SectionLength != 0))
}

// on is On for one trace.
func (r *Requirement) on(p roughness.Profile, i int, over *roughness.Settings, periodic bool) (*roughness.Settings, error) {
	s, found, err := r.Search(p, i, over, periodic)
	if s == nil || err != nil || found == nil || found.Evaluation == nil {
		if s != nil {
			err = nil // the first estimate stays; the evaluation says what the trace lacks
		}
		return s, err
	}
	f := found.Evaluation.Settings
	f.Bridge, f.From = s.Bridge, s.From
	if f.Short.Off {
		f.Short = found.short
	}
	return &f, nil
}

// Search returns the settings of limit i with over (nil for none) laid over them and, where they leave the cut-off to the measured value, how it
// was looked for on a trace; found is nil where it is not. periodic asks for the rule for marks that repeat. With an error, settings that are
// not nil are the first estimate, and found holds the turns so far.
func (r *Requirement) Search(p roughness.Profile, i int, over *roughness.Settings, periodic bool) (s *roughness.Settings, found *CutoffSearch, err error) {
	if s = r.ItemSettings[i]; s == nil {
		return nil, nil, r.Items[i].Err()
	}
	if over != nil {
		own := s
		s = roughness.Merge(s, over)
		if !r.settingsFree {
			s.Edition = own.Edition // the edition of over told how to read the text; a motif parameter leads to one of its own
		}
		s.Parameters = own.Parameters
	}
	item := &r.Items[i]
	if !r.searched(i, over) {
		return s, nil, nil
	}
	by, _ := CutoffBy(item.Edition, item.Symbol, periodic)
	estimate := 0.0
	if b, bounded := item.Bounded(); bounded && by == item.Symbol && b.Value > 0 {
		estimate = b.Value
	}
	open := *s
	open.Long, open.SectionLength = roughness.Band{}, 0
	if over == nil || !over.Short.Given() {
		open.Short = roughness.Band{}
	}
	found, err = FindCutoff(p, &open, by, estimate)
	return s, found, err
}

// leftOut returns the section, from 1, of which the largest share is missing, and that share: points without a height and parts that
// are left out. z enters the evaluation, from point first of the trace on.
func leftOut(e *roughness.Evaluation, z []float64, first int) (section int, share float64) {
	for k := range e.Sections {
		missing := 0
		from := e.First + e.Start + k*e.SectionPoints - first
		for _, v := range z[max(0, from):min(len(z), from+e.SectionPoints)] {
			if math.IsNaN(v) {
				missing++
			}
		}
		if s := float64(missing) / float64(e.SectionPoints); s > share {
			section, share = k+1, s
		}
	}
	return section, share
}

// clipped is the deviation of a trace that does not hold the heights of the surface, but where the range of the instrument ends.
var clipped = Deviation{Key: "clipped", Asked: "a trace within the range of the probe", Used: "clipped heights"}
