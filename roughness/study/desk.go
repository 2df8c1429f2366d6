package study

import (
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"math"
	"slices"

	"example.com/furrow/params"
	"example.com/furrow/roughness"
	"example.com/furrow/roughness/synth"
)

// A Desk evaluates states and keeps what the next one can use again: heights of ingredients, surfaces, filtered profiles. It is for
// one goroutine.
type Desk struct {
	Trace    *roughness.Profile  // of the worksheet; nil: none
	Settings *roughness.Settings // of the worksheet: what an exercise on its trace does not state; nil: nothing

	parts     kept[[]float64]
	surfaces  kept[roughness.Profile]
	results   kept[*Result]
	evaluator *roughness.Evaluator
}

// kept are the latest few things made, by what they were made from.
type kept[T any] struct {
	keys  []string
	items []T
}

const keptItems = 8

func (k *kept[T]) get(key string, make func() (T, error)) (T, error) {
	for i := range k.keys {
		if k.keys[i] == key { // what is used again is the latest
			item := k.items[i]
			k.keys, k.items = append(slices.Delete(k.keys, i, i+1), key), append(slices.Delete(k.items, i, i+1), item)
			return item, nil
		}
	}
	item, err := make()
	if err != nil {
		return item, err
	}
	if len(k.keys) == keptItems {
		k.keys, k.items = k.keys[1:], k.items[1:]
	}
	k.keys, k.items = append(k.keys, key), append(k.items, item)
	return item, nil
}

// keyOf is the text that things made from values are kept under.
func keyOf(values ...any) string {
	text, err := json.Marshal(values)
	if err != nil {
		panic("study: " + err.Error()) // no state holds what JSON cannot say: it came as JSON
	}
	return string(text)
}

// A Result is a state evaluated.
type Result struct {
	State      State // complete
	Surface    roughness.Profile
	Evaluation *roughness.Evaluation
	Call       params.Call
	Value      params.Value
	Input      *params.Input // that the value is of; nil where nothing could be evaluated

	how *derived // shared by the results of one evaluation
}

// A derived is what follows from an evaluation, made when it is first asked for.
type derived struct {
	made   bool
	c      params.Construction
	err    error
	extent *[2]float64
}

// Construct shows how the value came about; the error is that of [params.Construct].
func (r *Result) Construct() (*params.Construction, error) {
	if !r.how.made {
		r.how.made = true
		r.how.c, r.how.err = params.Construct(r.Input, r.Call)
	}
	return &r.how.c, r.how.err
}

// Evaluate evaluates a state. What cannot be evaluated has a value with its reason; a field that cannot be is a *RefusedError.
func (d *Desk) Evaluate(s State) (*Result, error) {
	s = s.Complete()
	if err := s.check(); err != nil {
		return nil, err
	}
	key := s
	key.Move, key.Way, key.Questions, key.Fade, key.Hide, key.Point, key.Width, key.Window, key.Shift = "", "", "", 0, 0, 0, 0, nil, nil
	r, err := d.results.get(keyOf(key), func() (*Result, error) { return d.evaluate(s) })
	if err != nil {
		return nil, err
	}
	return &Result{s, r.Surface, r.Evaluation, r.Call, r.Value, r.Input, r.how}, nil
}

func (d *Desk) evaluate(s State) (*Result, error) {
	surface, err := d.Surface(s)
	if err != nil {
		return nil, err
	}
	set, err := s.Settings()
	if err != nil {
		return nil, err
	}
	if s.Surface == Sheet && s.Filter.Kind == "own" && d.Settings != nil && d.Settings.Edition == s.Edition {
		set.Short, set.Long = carried(d.Settings.Short, set.Short), carried(d.Settings.Long, set.Long)
		set = roughness.Merge(d.Settings, set)
	}
	call, err := params.Lookup(s.Edition, s.Letter[0], s.Symbol)
	if err != nil {
		return nil, &RefusedError{"study-symbol", err.Error()}
	}
	with, err := d.evaluator.With(set)
	if err != nil {
		return nil, err
	}
	d.evaluator = with
	e, err := with.Evaluate(context.Background(), surface)
	if problem, ok := errors.AsType[*roughness.ProfileError](err); err != nil && (!ok || e == nil) {
		return nil, err
	} else if ok {
		return &Result{how: &derived{}, State: s, Surface: surface, Evaluation: e, Call: call, Value: params.Value{Symbol: s.Symbol, Value: math.NaN(), Unit: call.Parameter.Unit, Reason: problem.Text}}, nil
	}
	return &Result{how: &derived{}, State: s, Surface: surface, Evaluation: e, Call: call, Value: e.Values[0], Input: e.Input(call.Parameter.On)}, nil
}

// carried is a filter of the worksheet at the cut-off of an exercise; one that has no cut-off stays as it is.
func carried(sheet, own roughness.Band) roughness.Band {
	switch {
	case sheet.Off:
		return own
	case own.Off && sheet.Spec.Cutoff == 0:
		return sheet
	case !own.Off:
		cutoff := own.Spec.Cutoff
		own.Spec = sheet.Spec
		own.Spec.Cutoff = cutoff
	}
	return own
}

// Surface returns the heights of a complete state, as traced.
func (d *Desk) Surface(s State) (roughness.Profile, error) {
	if s.Surface == Sheet && d.Trace == nil {
		return roughness.Profile{}, &RefusedError{"study-surface", "The worksheet has no trace."}
	}
	var trace *roughness.Profile
	if s.Surface == Sheet {
		trace = d.Trace // by its address: another trace is another surface
	}
	key := keyOf(s.Surface, s.Demo, s.Length, s.Spacing, s.Parts, s.Heights, s.Line, s.Moved, s.Every, s.Turned) + fmt.Sprintf("%p", trace)
	return d.surfaces.get(key, func() (roughness.Profile, error) { return d.surface(s) })
}

func (d *Desk) surface(s State) (roughness.Profile, error) {
	p := roughness.Profile{Spacing: s.Spacing}
	switch s.Surface {
	case Demo:
		demo, ok := synth.FindDemo(s.Demo)
		if !ok {
			return p, &RefusedError{"surface-demo", fmt.Sprintf("No demonstration is called %q.", s.Demo)}
		}
		p.Spacing, p.Name = demo.Spacing, demo.Title
		p.Z, _ = d.parts.get(keyOf(s.Demo), func() ([]float64, error) { return demo.Heights(), nil })
	case Sheet:
		p = *d.Trace
	case Made:
		p.Z = d.compose(s)
	case Typed:
		p.Z = s.Heights
		if s.Filter.Kind == "none" {
			p.Z = from(s.Heights, s.Line)
		}
	}
	p.Z = append([]float64(nil), p.Z...)
	for _, m := range s.Moved {
		if m.Point < 1 || m.Point > len(p.Z) || m.Width < 1 {
			return p, &RefusedError{"ordinate-number", fmt.Sprintf("The surface has the points 1 to %d.", len(p.Z))}
		}
		raise(p.Z, m)
	}
	if s.Every > 1 {
		n := 0
		for i := 0; i < len(p.Z); i += s.Every {
			p.Z[n] = p.Z[i]
			n++
		}
		p.Z, p.Spacing = p.Z[:n], p.Spacing*float64(s.Every)
	}
	if s.Turned {
		for i, v := range p.Z {
			p.Z[i] = -v
		}
	}
	return p, nil
}

// compose puts the ingredients together.
func (d *Desk) compose(s State) []float64 {
	n := int(math.Round(s.Length * millimetre / s.Spacing))
	z := make([]float64, n)
	for _, p := range s.Parts {
		in := ingredientOf(p.Kind)
		if in.shape == nil {
			in.apply(z, s.Spacing, p.Values)
			continue
		}
		part, _ := d.parts.get(keyOf(p, n, s.Spacing), func() ([]float64, error) {
			part := make([]float64, n)
			in.apply(part, s.Spacing, p.Values)
			return part, nil
		})
		for i, h := range part {
			z[i] += h
		}
	}
	return z
}

// raise moves a point, and those beside it by a bell.
func raise(z []float64, m MovedPoint) {
	half := (m.Width - 1) / 2
	for i := max(0, m.Point-1-half); i < len(z) && i <= m.Point-1+half; i++ {
		c := math.Cos(math.Pi * float64(i-m.Point+1) / float64(m.Width+1))
		z[i] += float64(m.By * c * c)
	}
}

// from returns heights from their zero, their mean or their least-squares line.
func from(z []float64, line string) []float64 {
	out := append([]float64(nil), z...)
	if line == "zero" {
		return out
	}
	n := float64(len(z))
	mean, up, square := 0.0, 0.0, 0.0
	for _, v := range z {
		mean += v / n
	}
	for i, v := range z {
		t := float64(i) - (n-1)/2
		up += float64(t * v)
		square += float64(t * t)
	}
	for i := range out {
		out[i] -= mean
		if line == "line" {
			out[i] -= float64(up / square * (float64(i) - (n-1)/2))
		}
	}
	return out
}
