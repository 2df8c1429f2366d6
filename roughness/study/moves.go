package study

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"

	"example.com/furrow/params"
)

// A Move is one thing that can move for a symbol and a surface, with its value now.
type Move struct {
	Movable
	Value float64
	Why   string // why it cannot move here; empty where it can
}

// proposals name what is proposed to move, by the key of the symbol: on a made surface, and on others where that is another thing.
var proposals = []struct {
	keys        string
	made, other string
}{
	{"Ra Ra75 Rq", "scratch-1-depth", ""},
	{"Rsk", "worn-share", ""},
	{"Rku", "dust-1-height", ""},
	{"Rp Rv Rz Rzx Rt Rpt Rvt R5p R5v R10z RzJIS R3z R3zm Rmax", "ordinate-height", ""},
	{"Rsm Rsmx Rsmq Rc Rcx Rcq Rpc", "noise-rq", "filter-long"},
	{"Rdq Rda Rdt Rdl Rdr LengthRatio LambdaA LambdaQ Rmpc Rmvc Rpd Rvd S D", "noise-length", "filter-short"},
	{"Rmr Rmc RmrFrom Rdc Tp HSC RPcBand Pc Rvm Rvv Rvmp Rvmc Rvvc Rvvv", "cut", ""},
	{"Rk Rpk Rvk Rpkx Rvkx Rmrk1 Rmrk2 Rak1 Rak2", "worn-share", ""},
	{"Rpq Rvq Rmq", "hone-offset", ""},
	{"Ral Rsw WDSm WDc WDt", "sine2-height", ""},
	{"R AR Rx Nr SR SAR Rke Rpke Rvke Mr1e Mr2e", "limit-a", ""},
	{"W AW Wx Wte Nw SW SAW", "limit-b", ""},
}

// proposed returns what is proposed to move. On a surface that is not made an ingredient cannot be added: there it is an ordinate.
func proposed(key string, surface string) string {
	for _, p := range proposals {
		if !slices.Contains(strings.Fields(p.keys), key) {
			continue
		}
		if surface == Made || ingredientField(p.made) < 0 {
			return p.made
		}
		return cmp.Or(p.other, "ordinate-height")
	}
	return "ordinate-height"
}

// ingredientField returns the ingredient that a field belongs to, -1 for none.
func ingredientField(id string) int {
	kind, _, _ := strings.Cut(id, "-")
	return place(kind)
}

// argumentID is the field that argument i of a parameter is moved by.
func argumentID(p *params.Parameter, i int) string {
	a := p.Args[i]
	switch {
	case p.Key == "Rzx":
		return "window-length"
	case p.Key == "Ral":
		return "threshold"
	case p.Group == params.GroupMotif:
		return "limit-" + strings.ToLower(a.Name)
	case a.Unit == params.Percent && i > 0:
		return "cut-ratio-2"
	case a.Unit == params.Percent:
		return "cut-ratio"
	case i > 0:
		return "cut-level-2"
	}
	return "cut-level"
}

// cuts are the levels at which a result is cut, by number, from the reference line.
func (r *Result) cuts() []float64 {
	p := r.Call.Parameter
	if r.Input == nil || len(r.Input.Z) == 0 {
		return nil
	}
	var levels []float64
	for i := range p.Args {
		v := r.Call.Args[i]
		switch id := argumentID(p, i); {
		case strings.HasPrefix(id, "cut-ratio"):
			v = params.Rmc(r.Input.Z, v)
		case !strings.HasPrefix(id, "cut-level"):
			return nil
		case p.Key == "Tp":
			_, high := r.Extent()
			v = high - v
		case p.Key == "RmrFrom":
			v = levels[0] - v
		}
		levels = append(levels, v)
	}
	return levels
}

// Tells reports whether the number of a move tells the value: the other side of a cut, or the highest point of a profile.
func (r *Result) Tells(id string) bool {
	args, i := r.Call.Parameter.Args, 0
	if strings.HasSuffix(id, "-2") {
		i = 1
	}
	switch ratio := i < len(args) && args[i].Unit == params.Percent; {
	case strings.HasPrefix(id, "cut-level"):
		return ratio
	case strings.HasPrefix(id, "cut-ratio"):
		return !ratio
	}
	return id == "ordinate-height" && r.State.Surface != Typed
}

// argument is what the argument i has to be for a cut at a level.
func (r *Result) argument(i int, level float64) float64 {
	p := r.Call.Parameter
	switch {
	case p.Args[i].Unit == params.Percent:
		return params.Rmr(r.Input.Z, level)
	case p.Key == "Tp":
		_, high := r.Extent()
		return high - level
	case p.Key == "RmrFrom":
		return r.cuts()[0] - level
	}
	return level
}

// Moves lists what can move, the proposed thing first.
func (r *Result) Moves() []Move {
	var list []Move
	add := func(f Movable, v float64) { list = append(list, Move{Movable: f, Value: v}) }
	r.addArguments(add)
	r.addOrdinate(add)
	s := &r.State
	if s.Surface == Made {
		add(length("made-length", "length", "mm", 0.1, 20, firstLength).log(), s.Length)
		add(length("made-spacing", "point spacing", "µm", 0.1, 10, firstSpacing).log(), s.Spacing)
		for i := range s.Parts {
			in, k := ingredientOf(s.Parts[i].Kind), s.nth(i)
			for j, v := range s.Parts[i].Values {
				add(in.field(k, j, s.Length), v)
			}
		}
	}
	if s.Filter.Kind != "none" {
		add(length("filter-long", "cut-off of the L-filter", "mm", 0.08, 8, 0.8).log(), r.Evaluation.Settings.Long.Spec.Cutoff/millimetre)
		add(length("filter-short", "cut-off of the S-filter", "µm", 2.5, 25, 2.5).log(), r.Evaluation.Settings.Short.Spec.Cutoff)
	}
	if !(s.Surface == Typed && s.Filter.Kind == "none") {
		l := float64(len(r.Surface.Z)) * r.Surface.Spacing / millimetre
		add(bound("section-number", "number of sections", "", 1, max(1, math.Min(20, float64(len(r.Surface.Z)))), 5).whole(), float64(max(1, r.Evaluation.Sections)))
		add(bound("section-start", "start of the sections", "mm", 0, l, 0), r.Evaluation.StartLength()/millimetre)
		add(bound("every", "one point kept of", "", 1, 4, 1).whole(), float64(s.Every))
	}
	turned := 0.0
	if s.Turned {
		turned = 1
	}
	add(bound("turned", "upside down", "", 0, 1, 0).whole(), turned)
	return r.propose(list)
}

// propose puts the proposed move first; an ingredient that is not there yet is added with the move.
func (r *Result) propose(list []Move) []Move {
	id := proposed(r.Call.Parameter.Key, r.State.Surface)
	if id == "cut" {
		id = "ordinate-height"
		if len(r.Call.Args) > 0 {
			id = argumentID(r.Call.Parameter, 0)
		}
	}
	i := slices.IndexFunc(list, func(m Move) bool { return m.ID == id })
	if i < 0 && r.State.Surface == Made {
		if at := ingredientField(id); at >= 0 {
			in := &ingredients[at]
			for j := range in.Fields {
				if f := in.field(0, j, r.State.Length); f.ID == id {
					v := f.First
					if strings.HasSuffix(id, "-depth") || strings.HasSuffix(id, "-height") || strings.HasSuffix(id, "-share") || strings.HasSuffix(id, "-rq") {
						v = 0
					}
					list, i = append(list, Move{Movable: f, Value: v}), len(list)
				}
			}
		}
	}
	if i > 0 {
		m := list[i]
		list = slices.Insert(slices.Delete(list, i, i+1), 0, m)
	}
	return list
}

func (r *Result) addArguments(add func(Movable, float64)) {
	p := r.Call.Parameter
	if r.Input == nil || len(r.Input.Z) == 0 {
		return
	}
	low, high := r.Extent()
	levels := r.cuts()
	for i := range levels {
		suffix, words := "", ""
		if i > 0 {
			suffix, words = "-2", " 2"
		}
		add(Movable{ID: "cut-level" + suffix, Words: "cut level" + words, Unit: "µm", Low: low, High: high, Least: math.Min(low, -1000), Most: math.Max(high, 1000), First: levels[i]}, levels[i])
		ratio := params.Rmr(r.Input.Z, levels[i])
		if p.Args[i].Unit == params.Percent {
			ratio = r.Call.Args[i]
		}
		add(bound("cut-ratio"+suffix, "material ratio"+words, "%", 0, 100, ratio), ratio)
	}
	if levels != nil {
		return
	}
	for i, a := range p.Args {
		v := r.Call.Args[i]
		switch id := argumentID(p, i); id {
		case "window-length":
			if math.IsNaN(v) {
				v = float64(r.Evaluation.SectionPoints) * r.Evaluation.Spacing
			}
			add(bound(id, "length of the window", "mm", 2*r.Input.Dx/millimetre, float64(len(r.Input.Z))*r.Input.Dx/millimetre, v/millimetre), v/millimetre)
			r.addLooked(add, "window-from", "start of the window")
		case "threshold":
			add(bound(id, "threshold", "", 0, 0.99, a.Default), v)
			r.addLooked(add, "shift", "shift of the copy")
		default:
			add(length(id, "limit "+a.Name, "µm", 20, 10000, a.Default).log(), v)
		}
	}
}

func (r *Result) addLooked(add func(Movable, float64), id, words string) {
	if l := r.looked(); l != nil && l.id == id {
		unit := map[bool]string{true: "mm", false: "µm"}[l.unit == millimetre]
		add(bound(id, words, unit, 0, l.high/l.unit, l.first/l.unit), l.value/l.unit)
	}
}

func (r *Result) addOrdinate(add func(Movable, float64)) {
	n := len(r.Surface.Z)
	if n == 0 {
		return
	}
	i, dx := r.Ordinate(), r.State.spacing(r)
	span := 0.0
	if r.Input != nil && len(r.Input.Z) > 0 {
		low, high := r.Extent()
		span = high - low
	}
	span = cmp.Or(span, 1)
	z := r.Surface.Z[min(n-1, (i-1)/r.State.Every)]
	add(Movable{ID: "ordinate-height", Words: "height of one ordinate", Unit: "µm", Low: z - 2*span, High: z + 2*span, Least: -1e6, Most: 1e6, First: z - r.State.moved(i).By}, z)
	add(bound("ordinate-number", "ordinate", "", 1, float64(n*r.State.Every), float64(i)).whole(), float64(i))
	add(bound("ordinate-place", "place of the ordinate", "mm", 0, float64(n*r.State.Every-1)*dx/millimetre, 0), float64(i-1)*dx/millimetre)
	add(bound("ordinate-width", "points moved together", "", 1, float64(max(1, n/2)), 1).whole(), float64(r.State.Width))
}

// spacing of the surface before points were left out.
func (s *State) spacing(r *Result) float64 { return r.Surface.Spacing / float64(s.Every) }

// moved is what was done to a point.
func (s *State) moved(i int) MovedPoint {
	for _, m := range s.Moved {
		if m.Point == i {
			return m
		}
	}
	return MovedPoint{Point: i, Width: s.Width}
}

// Ordinate is the number of the ordinate that moves: the one chosen, or the highest peak of the profile evaluated.
func (r *Result) Ordinate() int {
	if r.State.Point > 0 {
		return min(r.State.Point, len(r.Surface.Z)*r.State.Every)
	}
	if n := len(r.State.Moved); n > 0 {
		return r.State.Moved[n-1].Point
	}
	if r.Input == nil || len(r.Input.Z) == 0 {
		return 1
	}
	high := 0
	for i, v := range r.Input.Z {
		if v > r.Input.Z[high] {
			high = i
		}
	}
	return (r.Evaluation.First+r.Evaluation.Start+high)*r.State.Every + 1
}

// Set returns the state of the result with one field at another value. An ingredient that is missing is added.
func (r *Result) Set(id string, v float64) (State, error) {
	s := r.State.Complete()
	if math.IsNaN(v) || math.IsInf(v, 0) {
		return s, &RefusedError{id, "A number."}
	}
	moves := r.Moves()
	if i := slices.IndexFunc(moves, func(m Move) bool { return m.ID == id }); i >= 0 {
		if err := moves[i].check(v); err != nil {
			return s, err
		}
	}
	switch id {
	case "made-length":
		s.Length = v
	case "made-spacing":
		s.Spacing = v
	case "every":
		s.Every = int(v)
	case "turned":
		s.Turned = v == 1
	case "section-number":
		s.Sections.Number = int(v)
	case "section-start":
		s.Sections.Start = &v
	case "filter-long", "filter-short":
		e := r.Evaluation.Settings
		s.Filter = Removal{Kind: "own", Long: e.Long.Spec.Cutoff / millimetre, Short: e.Short.Spec.Cutoff}
		if id == "filter-long" {
			s.Filter.Long = v
		} else {
			s.Filter.Short = v
		}
	case "window-from":
		s.Window = &v
	case "shift":
		s.Shift = &v
	case "ordinate-number":
		s.Point = int(v)
	case "ordinate-place":
		s.Point = int(math.Round(v*millimetre/s.spacing(r))) + 1
	case "ordinate-width":
		s.Width = int(v)
	case "ordinate-height":
		return r.raise(s, v)
	default:
		if strings.HasPrefix(id, "cut-") || slices.Contains([]string{"window-length", "threshold", "limit-a", "limit-b"}, id) {
			return r.setArgument(s, id, v)
		}
		return setField(s, id, v)
	}
	return s, s.check()
}

// raise moves the ordinate to a height of the surface.
func (r *Result) raise(s State, v float64) (State, error) {
	n := r.Ordinate()
	at := (n - 1) / s.Every
	if at >= len(r.Surface.Z) || (n-1)%s.Every != 0 {
		return s, &RefusedError{"ordinate-height", "This point is left out."}
	}
	by := v - r.Surface.Z[at]
	if s.Turned {
		by = -by
	}
	m := s.moved(n)
	s.Point = n
	i := slices.IndexFunc(s.Moved, func(m MovedPoint) bool { return m.Point == n })
	if m.By = math.Round((m.By+by)*1e6) / 1e6; m.By == 0 {
		if i >= 0 {
			s.Moved = slices.Delete(s.Moved, i, i+1)
		}
		return s, s.check()
	}
	m.Width = s.Width
	if i < 0 {
		s.Moved = append(s.Moved, m)
	} else {
		s.Moved[i] = m
	}
	return s, s.check()
}

func (r *Result) setArgument(s State, id string, v float64) (State, error) {
	p := r.Call.Parameter
	number := 0
	if strings.HasSuffix(id, "-2") || id == "limit-b" {
		number = 1
	}
	if number >= len(p.Args) || r.Input == nil || len(r.Input.Z) == 0 {
		return s, &RefusedError{id, fmt.Sprintf("%s has no such argument here.", s.Symbol)}
	}
	switch ratio := p.Args[number].Unit == params.Percent; {
	case id == "window-length":
		v *= millimetre
	case strings.HasPrefix(id, "cut-level"):
		v = r.argument(number, v)
	case strings.HasPrefix(id, "cut-ratio") && !ratio:
		v = r.argument(number, params.Rmc(r.Input.Z, v))
	}
	call := r.Call
	call.Args = slices.Clone(call.Args)
	call.Args[number] = math.Round(v*1e4) / 1e4
	s.Symbol = call.String()
	if _, err := params.Lookup(s.Edition, s.Letter[0], s.Symbol); err != nil {
		return s, &RefusedError{id, err.Error()}
	}
	return s, s.check()
}

// setField sets a field of an ingredient and adds the ingredient where it is missing.
func setField(s State, id string, v float64) (State, error) {
	in := ingredientOf(strings.SplitN(id, "-", 2)[0])
	if in == nil || s.Surface != Made {
		return s, &RefusedError{id, "Nothing here is moved by this name."}
	}
	for k := range in.Most {
		for j := range in.Fields {
			f := in.field(k, j, s.Length)
			if f.ID != id {
				continue
			}
			if err := f.check(v); err != nil {
				return s, err
			}
			at := -1
			for i := range s.Parts {
				if s.Parts[i].Kind == in.Kind && s.nth(i) == k {
					at = i
				}
			}
			if at < 0 {
				s.Parts = append(s.Parts, in.part(k, s.Length))
				at = len(s.Parts) - 1
			}
			s.Parts[at].Values = slices.Clone(s.Parts[at].Values)
			s.Parts[at].Values[j] = v
			s = s.Complete()
			return s, s.check()
		}
	}
	return s, &RefusedError{id, "Nothing here is moved by this name."}
}
