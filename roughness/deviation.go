package roughness

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"example.com/furrow/standards"
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
	name := NameOf(d.Key)
	if d.Key == "rule" {
		name = "acceptance rule"
	}
	return strings.TrimSpace(name + " " + d.Used + " instead of " + d.Asked)
}

// freely are the settings that say how the trace lies or where it was looked at: a requirement does not ask for them.
var freely = []string{"invert", "crop", "exclude", "start", "gaps.bridge", "choices.skid"}

// deviations returns the settings in which used differs from asked, for the parameter called name. Both are complete.
func deviations(asked, used *Settings, name string) []Deviation {
	var list []Deviation
	for _, x := range changes(asked, used) {
		switch {
		case slices.Contains(freely, x.key),
			x.key == "waviness_limit" && used.Profile != W,
			x.key == "choices.stratified_filter" && !isStratified(asked, name),
			x.key == "section" && asked.SectionLength == 0, // the whole trace, see shortened
			x.key == "section" && asked.SectionLength == asked.Long.Spec.Cutoff && used.SectionLength == used.Long.Spec.Cutoff:
			continue
		}
		d := Deviation{Key: x.key, Asked: plainWords(x.get(asked)), Used: plainWords(x.get(used))}
		if d.Asked == d.Used { // the difference is in the digits, or in what else a filter has
			d.Asked, d.Used = allWords(x.get(asked)), allWords(x.get(used))
		}
		list = append(list, d)
	}
	return list
}

// plainWords prints one side of a deviation with lengths as a reader expects them.
func plainWords(v any) string {
	switch v := v.(type) {
	case float64:
		if v == 0 {
			return "none"
		}
		return standards.Length(v)
	case Band:
		if v.Off {
			return "none"
		}
		if l := v.Spec.Size(); l > 0 {
			return v.Spec.Filter + " " + standards.Length(l)
		}
	}
	return words(v)
}

// allWords prints one side of a deviation with every digit and all that a filter has.
func allWords(v any) string {
	b, ok := v.(Band)
	if !ok || b.Off {
		return words(v)
	}
	return b.Spec.Whole()
}

// shortened tells where the whole trace is asked for and a section of stated length is another part of it.
func shortened(p Profile, asked, used *Settings) []Deviation {
	if asked.SectionLength != 0 || used.SectionLength == 0 {
		return nil
	}
	room, err := RoomFor(p, asked)
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
func laid(asked, base, used *Settings) *Settings {
	s := *asked
	for _, x := range changes(base, used) {
		if x.key == "gaps.bridge" && *used.Bridge == used.Long.Spec.Cutoff/2 || // it only follows the cut-off
			x.key == "section" && base.SectionLength == 0 { // it only follows the trace
			continue
		}
		x.copy(&s, used)
	}
	return &s
}

// On returns the settings of limit i on the traces of one surface: what the requirement asks for, with over (nil for none) laid over it.
// Where an edition lets the measured value find the cut-off and neither text nor over states one, it is looked for on each trace, and
// the longest one holds for all.
func (r *Requirement) On(traces []Profile, i int, over *Settings) (*Settings, error) {
	return r.onAll(traces, i, over, false)
}

func (r *Requirement) onAll(traces []Profile, i int, over *Settings, periodic bool) (*Settings, error) {
	if len(traces) == 0 {
		traces = []Profile{{}}
	}
	var longest *Settings
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
func (r *Requirement) searched(i int, over *Settings) bool {
	item := &r.Items[i]
	_, ok := CutoffBy(item.Edition, item.Symbol, false)
	return ok && item.Settings.Origins["long.cutoff"].Provisional && !(over != nil && (over.Long.given() || over.SectionLength != 0))
}

// on is On for one trace.
func (r *Requirement) on(p Profile, i int, over *Settings, periodic bool) (*Settings, error) {
	s, found, err := r.Search(p, i, over, periodic)
	if s == nil || err != nil || found == nil || found.Evaluation == nil {
		if s != nil {
			err = nil // the first estimate stays; the evaluation says what the trace lacks
		}
		return s, err
	}
	f := found.Evaluation.Settings
	f.Bridge, f.From = s.Bridge, s.From
	return &f, nil
}

// Search returns the settings of limit i with over (nil for none) laid over them and, where they leave the cut-off to the measured value, how it
// was looked for on a trace; found is nil where it is not. periodic asks for the rule for marks that repeat. With an error, settings that are
// not nil are the first estimate, and found holds the turns so far.
func (r *Requirement) Search(p Profile, i int, over *Settings, periodic bool) (s *Settings, found *CutoffSearch, err error) {
	if s = r.ItemSettings[i]; s == nil {
		return nil, nil, r.Items[i].Err()
	}
	if over != nil {
		own := s
		s = Merge(s, over)
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
	open.Long, open.SectionLength = Band{}, 0
	if over == nil || !over.Short.given() {
		open.Short = Band{}
	}
	found, err = FindCutoff(p, &open, by, estimate)
	return s, found, err
}

// leftOut returns the section, from 1, of which the largest share is missing, and that share: points without a height and parts that
// are left out.
func (e *Evaluation) leftOut(p Profile) (section int, share float64) {
	z, first := Entering(p, &e.Settings)
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
