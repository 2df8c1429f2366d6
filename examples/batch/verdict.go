package main

import (
	"encoding/json"
	"fmt"
	"slices"

	"example.com/furrow/roughness/judge"
	"example.com/furrow/roughness/record"
)

// judged keeps what the verdict for all traces needs: the values with a limit, and the files that gave none.
type judged struct {
	limits  *judge.Requirement
	values  []judge.Typed
	without []string
	agreed  []judge.Deviation // of any trace, each once
	left    int               // files that an interrupt left out
}

// add takes the values of one trace. One that is missing, or that does not count by itself, leaves no verdict for all.
func (j *judged) add(r row) {
	open := r.verdict == nil
	if r.verdict != nil {
		for _, reason := range r.verdict.Open {
			open = open || reason.Key != judge.WhyMore
		}
	}
	if open {
		j.without = append(j.without, r.file)
		return
	}
	for _, d := range r.verdict.Agreed {
		if !slices.Contains(j.agreed, d) {
			j.agreed = append(j.agreed, d)
		}
	}
	seen := map[string]bool{} // two limits on one parameter have the same value
	for i, l := range r.verdict.Limits {
		name := j.limits.ItemSettings[i].Parameters[0]
		for _, c := range l.Counted {
			if !seen[name] {
				j.values = append(j.values, judge.Typed{Symbol: name, Value: c.Value, From: r.file})
			}
		}
		seen[name] = true
	}
}

// verdict is the one for all traces.
func (j *judged) verdict() (*judge.Verdict, error) {
	all := judge.Judging{Requirement: j.limits, Typed: j.values}
	switch n := len(j.without); {
	case n == 1:
		all.FileOpen = []string{j.without[0] + " has no value that can be judged"}
	case n > 1:
		all.FileOpen = []string{fmt.Sprintf("%d files have no value that can be judged, the first is %s", n, j.without[0])}
	}
	if j.left > 0 {
		all.FileOpen = append(all.FileOpen, fmt.Sprintf("%d files were not evaluated, because of an interrupt", j.left))
	}
	v, err := all.Judge()
	if err == nil {
		v.Agreed = append(v.Agreed, j.agreed...)
	}
	return v, err
}

// verdictJSON is a verdict as in a result; null without one.
func verdictJSON(v *judge.Verdict) json.RawMessage {
	if v == nil {
		return json.RawMessage("null")
	}
	return record.AppendVerdict(nil, v, "")
}
