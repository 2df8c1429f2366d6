package study

import (
	"math"
	"slices"

	"example.com/furrow/params"
)

// A scaled ingredient has a height that goes with one of its fields, or with its inverse.
type scaled struct {
	kind    string
	field   int
	inverse bool
}

var scalable = []scaled{{"sine1", 0, false}, {"triangle", 0, false}, {"feed", 1, true}, {"noise", 0, false}}

// SameRa returns a made surface of another shape with the Ra of the profile that a state evaluates: the same points and length, no filter.
// A *RefusedError says why there is none.
func (d *Desk) SameRa(s State) (State, error) {
	r, err := d.Evaluate(s)
	if err != nil {
		return State{}, err
	}
	s = r.State
	refuse := func(text string) (State, error) { return State{}, &RefusedError{"same-ra", text} }
	if s.Letter != "R" || r.Input == nil {
		return refuse("Only a roughness profile that can be evaluated has a surface to compare with.")
	}
	ra := params.Ra(r.Evaluation.Evaluated())
	if !(ra > 0) {
		return refuse("The profile is flat.")
	}
	first := 0
	if s.Surface == Made && len(s.Parts) == 1 {
		kind := s.Parts[0].Kind
		first = 1 + slices.IndexFunc(scalable, func(a scaled) bool { return a.kind == kind })
	}
	for i := range scalable {
		a := scalable[(first+i)%len(scalable)]
		next := State{Symbol: s.Symbol, Edition: s.Edition, Surface: Made, Way: s.Way, Spacing: r.Evaluation.Spacing,
			Length: math.Min(r.Evaluation.EvaluationLength(), mostPoints*r.Evaluation.Spacing) / millimetre}.Complete()
		part := ingredientOf(a.kind).part(0, next.Length)
		next.Parts = []Part{part}
		surface, err := d.Surface(next)
		if err != nil {
			continue
		}
		scale := ra / params.Ra(surface.Z)
		if a.inverse {
			scale = 1 / scale
		}
		part.Values[a.field] = math.Round(1e6*part.Values[a.field]*scale) / 1e6 // as a link holds it
		if next.check() == nil {
			return next, nil
		}
	}
	return refuse("No simple shape can have this Ra on so few points.")
}
