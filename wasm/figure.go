package main

import (
	"math"

	"example.com/furrow/roughness"
	"example.com/furrow/roughness/figure"
)

type figureRequest struct {
	Name    string        `json:"name"`
	Options figureOptions `json:"options"`
}

// figureOptions are those of every picture and those of single ones; a field that a picture has no use for is ignored.
type figureOptions struct {
	Width  int     `json:"width"` // in CSS pixels
	ID     string  `json:"id"`    // start of the ids in the drawing, unique in the page
	Comma  bool    `json:"comma"` // decimal comma
	Inch   bool    `json:"inch"`  // µin and in
	From   float64 `json:"from"`  // part drawn, from the start of the trace
	To     float64 `json:"to"`
	Picked int     `json:"picked"` // section or step picked out, from 1
	Symbol string  `json:"symbol"` // of a construction
	Wave   float64 `json:"wave"`   // wavelength asked for in the transmission

	Trace   string     `json:"trace"`   // a held trace in place of the latest one
	Heights [2]float64 `json:"heights"` // ends of the scale of heights
	Limit   int        `json:"limit"`   // of the verdict, from 0
	Unit    string     `json:"unit"`    // of its values
	Names   []string   `json:"names"`   // of its values, in their order

	Standalone bool     `json:"standalone"` // a file of its own
	Notes      []string `json:"notes"`      // below it
}

type figureAnswer struct {
	SVG     string       `json:"svg"`
	Title   string       `json:"title"`
	Desc    string       `json:"desc"`
	Caption string       `json:"caption"`
	Width   int          `json:"width"`
	Height  int          `json:"height"`
	Numbers numbersTable `json:"numbers"`
	Frames  []frame      `json:"frames"`
}

type numbersTable struct {
	Columns []string   `json:"columns"`
	Rows    [][]string `json:"rows"`
}

type frame struct {
	Left   number `json:"left"`
	Right  number `json:"right"`
	Top    number `json:"top"`
	Bottom number `json:"bottom"`
	XLow   number `json:"xLow"`
	XHigh  number `json:"xHigh"`
	YLow   number `json:"yLow"`
	YHigh  number `json:"yHigh"`
	XLog   bool   `json:"xLog"`
}

// drawings make the pictures of an evaluation, by name.
var drawings = map[string]func(e *roughness.Evaluation, o figureOptions) (figure.Drawing, error){
	"trace":        drawTrace,
	"form":         drawForm,
	"transmission": drawTransmission,
	"waviness":     drawWaviness,
	"profile":      drawProfile,
	"construction": drawConstruction,
	"material":     drawConstruction,
	"strip":        drawStrip,
	"spark":        drawSpark,
}

// figure answers with a picture of the latest evaluation.
func (m *module) figure(req *figureRequest, _ []byte) (any, error) {
	d, e, err := m.drawing(req)
	if err != nil {
		return nil, err
	}
	id := req.Options.ID
	if id == "" {
		id = req.Name
	}
	p := d.Draw(figure.Options{Width: req.Options.Width, ID: id, DecimalComma: req.Options.Comma, Inch: req.Options.Inch, Heights: req.Options.Heights, Standalone: req.Options.Standalone, Notes: req.Options.Notes})
	if req.Name == "transmission" {
		p.Caption += borrowed(e)
	}
	return figureOf(p), nil
}

func figureOf(p figure.Picture) figureAnswer {
	out := figureAnswer{SVG: p.SVG, Title: p.Title, Desc: p.Desc, Caption: p.Caption, Width: p.Width, Height: p.Height,
		Numbers: numbersTable{p.Table.Columns, p.Table.Rows}, Frames: make([]frame, len(p.Frames))}
	for i, f := range p.Frames {
		out.Frames[i] = frame{number(f.Left), number(f.Right), number(f.Top), number(f.Bottom),
			number(f.XLow), number(f.XHigh), number(f.YLow), number(f.YHigh), f.XLog}
	}
	return out
}

// drawing describes the picture: of the latest comparison, check or verdict, of a held trace, or of the latest evaluation, which come with it.
func (m *module) drawing(req *figureRequest) (figure.Drawing, *roughness.Evaluation, error) {
	if draw, ok := checkDrawings[req.Name]; ok {
		d := draw(m, req.Options)
		if d == nil {
			return nil, nil, requestf("there is nothing yet that %q is a picture of", req.Name)
		}
		return d, nil, nil
	}
	if req.Name == "decision" {
		d, err := m.decision(req.Options)
		return d, nil, err
	}
	draw, ok := drawings[req.Name]
	if !ok {
		return nil, nil, requestf("no picture is called %q", req.Name)
	}
	if h := m.series[req.Options.Trace]; h != nil && h.evaluation != nil {
		d, err := draw(h.evaluation, req.Options)
		return d, h.evaluation, err
	}
	e, err := m.evaluation()
	if err != nil {
		return nil, nil, err
	}
	d, err := draw(e, req.Options)
	return d, e, err
}

// fromStart puts a profile where it lies on the trace: what was cut or invalid before it is a gap.
func fromStart(e *roughness.Evaluation, z []float64) []float64 {
	if e.First == 0 || z == nil {
		return z
	}
	padded := make([]float64, e.First+len(z))
	for i := range e.First {
		padded[i] = math.NaN()
	}
	copy(padded[e.First:], z)
	return padded
}

func layoutOf(e *roughness.Evaluation) figure.Layout {
	return figure.Layout{Sections: e.Sections, Length: float64(e.SectionPoints) * e.Spacing, Start: e.StartLength()}
}

func drawTrace(e *roughness.Evaluation, _ figureOptions) (figure.Drawing, error) {
	l := layoutOf(e)
	l.Sections = e.Settings.Sections // what is asked for: a trace too short shows what is missing
	return figure.TracePlot{Z: fromStart(e, e.Read), Spacing: e.Spacing, Layout: l}, nil
}

func drawForm(e *roughness.Evaluation, _ figureOptions) (figure.Drawing, error) {
	fitted := e.Form
	if fitted == nil {
		fitted = make([]float64, len(e.Read))
	}
	name := e.Settings.Form.String()
	switch e.Settings.Form.Kind {
	case "line":
		name = "straight line"
	case "mean":
		name = "mean height"
	case "none":
		name = "line at 0"
	}
	return figure.FormPlot{Read: fromStart(e, e.Read), Fitted: fromStart(e, fitted), Primary: fromStart(e, e.Primary), Spacing: e.Spacing, Name: name}, nil
}

func drawWaviness(e *roughness.Evaluation, _ figureOptions) (figure.Drawing, error) {
	return figure.Waves{Primary: fromStart(e, e.Primary), Waviness: fromStart(e, e.Waviness), Spacing: e.Spacing}, nil
}

func profileOf(e *roughness.Evaluation, o figureOptions) figure.ProfilePlot {
	return figure.ProfilePlot{Letter: e.Settings.Profile.String(), Z: fromStart(e, e.Profile()), Spacing: e.Spacing,
		Layout: layoutOf(e), From: o.From, To: o.To, Picked: o.Picked}
}

func drawProfile(e *roughness.Evaluation, o figureOptions) (figure.Drawing, error) {
	return profileOf(e, o), nil
}

func drawConstruction(e *roughness.Evaluation, o figureOptions) (figure.Drawing, error) {
	c, call, err := constructionFor(e, o.Symbol)
	if err != nil {
		return nil, err
	}
	z := e.Input(call.Parameter.On).Z
	return figure.ConstructionPlot{Of: c, Z: z, Spacing: e.Spacing, Sections: e.Sections, Picked: o.Picked}, nil
}
