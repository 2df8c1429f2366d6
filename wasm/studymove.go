package main

import (
	"errors"
	"math"
	"slices"

	"example.com/furrow/params"
	"example.com/furrow/roughness/figure"
	"example.com/furrow/roughness/study"
)

type studyMoveRequest struct {
	State study.State `json:"state"`
	Set   []struct {
		ID    string  `json:"id"`
		Value float64 `json:"value"`
	} `json:"set"`
	Before *study.State `json:"before"`
	Swap   bool         `json:"swap"` // the pictures are those of before
	View   studyView    `json:"view"`
}

type studyView struct {
	Trace        studySize  `json:"trace"`
	Construction studySize  `json:"construction"`
	Comma        bool       `json:"comma"`
	From         float64    `json:"from"` // mm
	To           float64    `json:"to"`
	Picked       int        `json:"picked"`
	Heights      [2]float64 `json:"heights"`
	Hidden       bool       `json:"hidden"`
	Live         bool       `json:"live"`         // one of many moves: drawn in columns of two pixels
	Letters      bool       `json:"letters"`      // whether the numbers of the letters are wanted while it is live
	Distribution bool       `json:"distribution"` // of the heights, in place of the trace
}

type studySize struct {
	Width  int `json:"width"`
	Height int `json:"height"`
}

type studyMoveAnswer struct {
	State        study.State       `json:"state"`
	Symbol       string            `json:"symbol"`
	Name         string            `json:"name"`
	Key          string            `json:"key"`
	Unit         string            `json:"unit"`
	Value        studyValue        `json:"value"`
	Before       *studyValue       `json:"before"`
	Change       string            `json:"change"`
	Said         string            `json:"said"`
	Removed      string            `json:"removed"`
	Notes        []string          `json:"notes"`
	Points       int               `json:"points"`
	Spacing      float64           `json:"spacing"`
	Length       float64           `json:"length"`
	Sections     int               `json:"sections"`
	Start        float64           `json:"start"`
	Trace        figureAnswer      `json:"trace"`
	Finder       *figureAnswer     `json:"finder"`
	Construction *figureAnswer     `json:"construction"`
	Steps        []studyStep       `json:"steps"`
	Worked       []workLine        `json:"worked"`
	Letters      map[string]string `json:"letters"`
	Handles      []studyHandle     `json:"handles"`
	Heights      [2]float64        `json:"heights"`
	Cut          bool              `json:"cut"`
	Moves        []studyMoveField  `json:"moves"`
}

type studyValue struct {
	Value    number   `json:"value"`
	Shown    string   `json:"shown"`
	Reason   string   `json:"reason"`
	Note     string   `json:"note"`
	Sections []number `json:"sections"`
}

type studyStep struct {
	Text    string `json:"text"`
	Section int    `json:"section"`
	From    number `json:"from"` // mm
	To      number `json:"to"`
}

type studyHandle struct {
	ID          string `json:"id"`
	On          string `json:"on"`
	Kind        string `json:"kind"`
	Words       string `json:"words"`
	X           number `json:"x"`
	Y           number `json:"y"`
	Value       number `json:"value"`
	Low         number `json:"low"`
	High        number `json:"high"`
	Step        number `json:"step"`
	Up          number `json:"up"`
	Down        number `json:"down"`
	Said        string `json:"said"`
	Across      string `json:"across"`
	AcrossStep  number `json:"acrossStep"`
	AcrossValue number `json:"acrossValue"`
}

type studyMoveField struct {
	studyField
	Value number `json:"value"`
	Why   string `json:"why"`
}

// studyHidden stands in place of what is asked for.
const studyHidden = "hidden until you answer"

// studyMove answers a move: it applies what is set, evaluates and draws.
var studyMove = studyOf(func(d *study.Desk, req *studyMoveRequest) (*studyMoveAnswer, error) {
	r, err := d.Evaluate(req.State)
	for _, s := range req.Set {
		if err != nil {
			return nil, err
		}
		var state study.State
		if state, err = r.Set(s.ID, s.Value); err == nil {
			r, err = d.Evaluate(state)
		}
	}
	if err != nil {
		return nil, err
	}
	var before *study.Result
	if req.Before != nil {
		b := *req.Before
		if p, err := params.Lookup(b.Complete().Edition, b.Complete().Letter[0], b.Complete().Symbol); err != nil || p.Parameter.Key != r.Call.Parameter.Key {
			b.Symbol = r.State.Symbol // the value of before of the new symbol
		}
		if before, err = d.Evaluate(b); err != nil {
			return nil, err
		}
	}
	p := r.Call.Parameter
	e := r.Evaluation
	out := &studyMoveAnswer{State: r.State, Symbol: r.Call.Symbol, Name: p.Name, Key: p.Key, Unit: string(p.Unit), Value: studyValueOf(r),
		Removed: r.Removed(), Notes: r.Notes(), Points: len(r.Surface.Z), Spacing: r.Surface.Spacing, Length: e.EvaluationLength() / 1000,
		Sections: e.Sections, Start: e.StartLength() / 1000, Steps: []studyStep{}, Worked: []workLine{}, Letters: map[string]string{},
		Handles: []studyHandle{}, Moves: []studyMoveField{}}
	if before != nil {
		v := studyValueOf(before)
		out.Before = &v
	}
	out.Change, out.Said = r.Change(before)
	for _, m := range r.Moves() {
		out.Moves = append(out.Moves, studyMoveField{studyFieldOf(m.Movable), number(m.Value), m.Why})
	}
	shown, ghost := r, before
	if req.Swap && before != nil {
		shown, ghost = before, r
	}
	if err := out.draw(shown, ghost, &req.View); err != nil {
		return nil, err
	}
	if req.Swap {
		out.Handles = []studyHandle{}
	}
	if req.View.Hidden {
		out.hide(r)
	}
	return out, nil
})

// hide takes away all that tells the value. Pictures are drawn without it.
func (out *studyMoveAnswer) hide(r *study.Result) {
	hidden := studyValue{Value: number(math.NaN()), Shown: studyHidden, Sections: []number{}}
	out.Value = hidden
	if out.Before != nil {
		out.Before = &hidden
	}
	out.Change, out.Said = "", ""
	out.Notes, out.Worked, out.Letters = r.SurfaceNotes(), []workLine{}, map[string]string{}
	for i := range out.Steps {
		out.Steps[i].Text = studyHidden
	}
	for i := range out.Handles {
		out.Handles[i].Said = out.Handles[i].Words
	}
	out.Moves = slices.DeleteFunc(out.Moves, func(m studyMoveField) bool { return r.Tells(m.ID) })
}

func studyValueOf(r *study.Result) studyValue {
	v := studyValue{Value: number(r.Value.Value), Shown: r.Shown(), Reason: r.Value.Reason, Note: r.Value.Note, Sections: []number{}}
	for _, s := range r.Value.Sections {
		v.Sections = append(v.Sections, number(s))
	}
	return v
}

// draw makes trace and construction, and what can be dragged on them.
func (out *studyMoveAnswer) draw(r, before *study.Result, v *studyView) error {
	var shown *params.Construction
	if r.Input != nil {
		c, err := r.Construct()
		var none *params.ConstructError
		if err != nil && !errors.As(err, &none) {
			return err
		}
		if err == nil {
			shown = c
			a := constructionOf(*c)
			out.Worked = a.Worked
			for _, s := range c.Steps {
				from, to := r.Stretch(c, s)
				out.Steps = append(out.Steps, studyStep{s.Text, s.Section, number(from / 1000), number(to / 1000)})
			}
		}
	}
	o := figure.Options{DecimalComma: v.Comma, Heights: v.Heights}
	if v.Hidden {
		o.Hidden = studyHidden
	}
	if v.Live {
		o.Column = 2
	}
	with := func(id string, size studySize) figure.Options {
		o := o
		o.ID, o.Width, o.Height = id, size.Width, size.Height
		return o
	}
	trace := studyProfile(r)
	if before != nil && before.Evaluation.Spacing == r.Evaluation.Spacing && before.Input != nil {
		trace.Before = fromStart(before.Evaluation, before.Evaluation.Profile())
	}
	if shown != nil {
		trace.Marks = study.OnProfile(shown, v.Picked)
	}
	if !v.Hidden {
		trace.Marks = append(trace.Marks, r.Looked()...)
	}
	trace.From, trace.To = v.From*1000, v.To*1000
	out.Trace = figureOf(trace.Draw(with("study-trace", v.Trace)))
	if !v.Live || v.Letters {
		out.Letters = r.Letters(shown, v.Picked)
	}
	if f := out.Trace.Frames; len(f) > 0 {
		out.Heights = [2]float64{float64(f[0].YLow), float64(f[0].YHigh)}
		low, high := r.Extent()
		out.Cut = low < out.Heights[0] || high > out.Heights[1]
	}
	if v.From < v.To {
		whole := figure.Spark{Z: trace.Z, Spacing: trace.Spacing}.Draw(figure.Options{ID: "study-finder", Width: v.Trace.Width})
		finder := figureOf(whole)
		out.Finder = &finder
	}
	if shown != nil {
		c := figure.ConstructionPlot{Of: *shown, Z: r.Input.Z, Spacing: r.Input.Dx, Sections: r.Evaluation.Sections, Picked: v.Picked, Close: v.Picked > 0}
		if before != nil && before.Input != nil {
			if was, err := before.Construct(); err == nil {
				c.Before = &figure.ConstructionPlot{Of: *was, Z: before.Input.Z, Spacing: before.Input.Dx}
			}
		}
		construction := figureOf(c.Draw(with("study-construction", v.Construction)))
		out.Construction = &construction
	}
	out.handle(r)
	if v.Distribution && r.Input != nil {
		out.Trace = figureOf(figure.Distribution{Z: r.Input.Z}.Draw(with("study-trace", v.Trace)))
		out.Finder, out.Construction, out.Handles = nil, nil, []studyHandle{}
	}
	return nil
}

func studyProfile(r *study.Result) figure.ProfilePlot {
	e := r.Evaluation
	z := e.Profile()
	if z == nil {
		z = e.Primary
	}
	if r.Input == nil {
		z = r.Surface.Z
		return figure.ProfilePlot{Letter: r.State.Letter, Z: z, Spacing: r.Surface.Spacing}
	}
	return figure.ProfilePlot{Letter: r.State.Letter, Z: fromStart(e, z), Spacing: e.Spacing, Layout: layoutOf(e)}
}

// handle finds where on the pictures the things are that can be dragged.
func (out *studyMoveAnswer) handle(r *study.Result) {
	if r.Input == nil || len(r.Input.Z) == 0 {
		return
	}
	add := func(on string, f frame, h studyHandle, x, y float64) {
		h.On = on
		h.X = f.Left + (f.Right-f.Left)*(number(x)-f.XLow)/(f.XHigh-f.XLow)
		h.Y = f.Bottom - (f.Bottom-f.Top)*(number(y)-f.YLow)/(f.YHigh-f.YLow)
		h.Step = (f.YHigh - f.YLow) / 200
		if h.X >= f.Left-1 && h.X <= f.Right+1 && h.Y >= f.Top-1 && h.Y <= f.Bottom+1 {
			out.Handles = append(out.Handles, h)
		}
	}
	trace := out.Trace.Frames[0]
	for _, h := range r.Handles() {
		s := studyHandle{ID: h.ID, Kind: h.Kind, Words: h.Words, Value: number(h.Value), Low: number(h.Low), High: number(h.High),
			Up: number(h.Up), Down: number(h.Down), Said: h.Said, Across: h.Across, AcrossStep: number(h.AcrossStep), AcrossValue: number(h.AcrossValue)}
		x := h.X
		if h.Kind == "level" {
			x = float64(trace.XHigh)
		}
		add("trace", trace, s, x, h.Y)
		if h.Kind == "level" && out.Construction != nil && len(out.Construction.Frames) > 0 {
			f := out.Construction.Frames[len(out.Construction.Frames)-1]
			add("construction", f, s, float64(f.XHigh), h.Y)
		}
	}
}

type studyStateAnswer struct {
	State study.State `json:"state"`
}

// studyEqual answers with a surface of another shape that has the same Ra.
var studyEqual = studyOf(func(d *study.Desk, req *studyStateRequest) (studyStateAnswer, error) {
	s, err := d.SameRa(req.State)
	return studyStateAnswer{s}, err
})

type studySurfaceAnswer struct {
	Z       []float64 `json:"z"`
	Spacing float64   `json:"spacing"`
}

// studySurface answers with the heights of the surface, as traced.
var studySurface = studyOf(func(d *study.Desk, req *studyStateRequest) (studySurfaceAnswer, error) {
	r, err := d.Evaluate(req.State)
	if err != nil {
		return studySurfaceAnswer{}, err
	}
	return studySurfaceAnswer{r.Surface.Z, r.Surface.Spacing}, nil
})
