package figure

import (
	"fmt"
	"iter"
	"math"
	"slices"
	"strconv"
	"strings"

	"example.com/furrow/params"
)

// ConstructionPlot draws how a value came about. In the profile plane the marks stand on the profile over the evaluation
// length, in the others on the curve that the construction brings along. Steps that lie in another plane than the construction have a
// plot of their own under it, the profile beside the material ratio curve.
type ConstructionPlot struct {
	Of       params.Construction
	Z        []float64 // heights over the evaluation length
	Spacing  float64
	Sections int  // how many the evaluation length is divided into; 0 is one
	Picked   int  // step picked out, from 1; 0 is none
	Close    bool // in the profile plane, draw the surroundings of the picked step only; tiny marks always are

	Before *ConstructionPlot // an earlier state, drawn faint: the profile dashed, the marks of its steps open and without labels

	plane params.Plane // of the plot in hand
}

// in is the construction as the plot of one plane sees it.
func (d ConstructionPlot) in(plane params.Plane) ConstructionPlot {
	d.plane = plane
	return d
}

// planeOf is the plane that a step lies in.
func (d ConstructionPlot) planeOf(s params.Step) params.Plane {
	if s.Plane == "" {
		return d.Of.Plane
	}
	return s.Plane
}

// others are the further planes of the construction, in the order of their first steps.
func (d ConstructionPlot) others() []params.Plane {
	var list []params.Plane
	for _, s := range d.Of.Steps {
		if plane := d.planeOf(s); plane != d.Of.Plane && len(s.Marks) > 0 && !slices.Contains(list, plane) {
			list = append(list, plane)
		}
	}
	return list
}

// Draw draws the construction.
func (d ConstructionPlot) Draw(o Options) Picture {
	if d.Picked < 0 || d.Picked > len(d.Of.Steps) {
		d.Picked = 0
	}
	c := newCanvas(o)
	draw := ConstructionPlot.drawProfile
	switch d.Of.Plane {
	case params.RatioPlane:
		draw = ConstructionPlot.drawRatio
	case params.LagPlane, params.SpectrumPlane, params.ProbabilityPlane:
		draw = ConstructionPlot.drawCurve
	}
	others := d.others()
	if o.Height > 0 { // one plane at a time
		others = nil
		if d.Picked > 0 {
			if plane := d.planeOf(d.Of.Steps[d.Picked-1]); plane != d.Of.Plane && !(plane == params.ProfilePlane && d.Of.Plane == params.RatioPlane && !c.narrow) {
				d.in(plane).panel(c, 24)
				return d.close(c, "Construction of "+d.Of.Symbol, "")
			}
		}
	}
	title, caption := draw(d.in(d.Of.Plane), c)
	for _, plane := range others {
		if plane != params.ProfilePlane || d.Of.Plane != params.RatioPlane || c.narrow {
			d.in(plane).panel(c, float64(c.h)+24)
		}
	}
	return d.close(c, title, caption)
}

// close adds words and table; where values are hidden both say so.
func (d ConstructionPlot) close(c *canvas, title, caption string) Picture {
	if hidden := c.o.Hidden; hidden != "" {
		t := columns("step", "value")
		for range d.Of.Steps {
			t.add(hidden, hidden)
		}
		return c.picture(title, upper(hidden)+".", caption, t)
	}
	return c.picture(title, d.words(c), caption, d.table(c))
}

// fixed is an axis of heights with its ends as fixed in the options; what other planes count is not fixed.
func (d ConstructionPlot) fixed(c *canvas, y axis) axis {
	switch d.plane {
	case params.ProfilePlane, params.RatioPlane, params.ProbabilityPlane:
		return c.asFixed(y)
	}
	return y
}

// panel draws the steps of a further plane under what there is.
func (d ConstructionPlot) panel(c *canvas, top float64) {
	x, y := d.panelAxes()
	p := c.plot(x, d.fixed(c, y), 6, top, c.tall(top, 140, 120))
	switch d.plane {
	case params.ProfilePlane:
		ProfilePlot{Z: d.Z, Spacing: d.Spacing}.draw(p, "prof soft")
	case params.RatioPlane:
		p.axes()
		p.through("curve", params.MaterialRatioCurve(d.Z, 4*int(p.right-p.left)))
	default:
		p.axes()
	}
	p.clipped(func() {
		d.ghost(p)
		d.drawSteps(p)
	})
	d.nameSteps(p)
}

// ghost draws the marks of the earlier state in this plane.
func (d ConstructionPlot) ghost(p *plot) {
	if d.Before == nil {
		return
	}
	if d.plane == params.ProfilePlane {
		p.profile("prof faint dash", d.Before.Z, 0, d.Before.Spacing)
	}
	for _, s := range d.Before.Of.Steps {
		if d.Before.planeOf(s) == d.plane && len(d.Before.Of.Steps) <= crowd {
			for _, m := range s.Marks {
				p.openMark(m)
			}
		}
	}
}

// panelAxes are the axes of a further plane.
func (d ConstructionPlot) panelAxes() (x, y axis) {
	r, h := bounds(d.marks())
	names := planeColumns[d.plane]
	_, unit, _ := strings.Cut(names[1], ", ")
	if d.plane == params.ItemPlane {
		unit = string(d.Of.Unit)
	}
	if d.plane == params.ProfilePlane || d.plane == params.RatioPlane {
		low, high := extent(d.Z)
		h = [2]float64{min(h[0], low), max(h[1], high)}
	}
	y = roomy(min(h[0], 0), max(h[1], 0), 0.1, unit)
	switch {
	case strings.HasPrefix(names[0], "at"):
		return along(0, max(float64(len(d.Z)), 1)*d.Spacing, "of the evaluation length"), y
	case d.plane == params.RatioPlane:
		return axis{high: 100, name: names[0], ticks: func(c *canvas, s axis) []tick { return c.decimal(s, 5) }}, y
	}
	return axis{high: r[1] * 1.05, name: names[0], ticks: func(c *canvas, s axis) []tick { return c.decimal(s, 5) }}, y
}

// crowd is the number of steps, or of the marks of one, from which those not picked are drawn lightly.
const crowd = 12

// weight of a step that is not picked.
func (d ConstructionPlot) weight() weight {
	switch {
	case len(d.Of.Steps) > crowd:
		return lightly
	case d.Picked > 0:
		return plainly
	}
	return strongly
}

// pickedSection is the section of the picked step, or 0.
func (d ConstructionPlot) pickedSection() int {
	if d.Picked == 0 {
		return 0
	}
	return d.Of.Steps[d.Picked-1].Section
}

// marks are those of all steps of the plot in hand.
func (d ConstructionPlot) marks() iter.Seq[params.Mark] {
	return func(yield func(params.Mark) bool) {
		for _, s := range d.Of.Steps {
			if d.planeOf(s) != d.plane {
				continue
			}
			for _, m := range s.Marks {
				if !yield(m) {
					return
				}
			}
		}
	}
}

// bounds are the ranges of the points of marks.
func bounds(marks iter.Seq[params.Mark]) (x, y [2]float64) {
	x = [2]float64{math.Inf(1), math.Inf(-1)}
	y = x
	for m := range marks {
		for _, q := range m.Points {
			x = [2]float64{min(x[0], q.X), max(x[1], q.X)}
			y = [2]float64{min(y[0], q.Y), max(y[1], q.Y)}
		}
	}
	return x, y
}

func (d ConstructionPlot) drawProfile(c *canvas) (title, caption string) {
	layout := Layout{}
	if n := max(1, d.Sections); len(d.Z) > 0 {
		layout = Layout{Sections: n, Length: float64(len(d.Z)/n) * d.Spacing}
	}
	profile := ProfilePlot{Z: d.Z, Spacing: d.Spacing}
	view, near := d.view([2]float64{0, max(layout.End(), d.Spacing)})
	if near {
		profile.From, profile.To = view[0], view[1]
	}
	terms, mean := d.terms(layout.Sections)
	top, labels := 24.0, 0.0
	if terms != nil {
		top = 50
	}
	if layout.Sections > 1 {
		labels = 14
	}
	p := c.plot(along(view[0], view[1], "of the evaluation length"), d.heights(c), 6, top, c.tall(top, 232, 186))
	p.sections(layout, 0, layout.End(), d.pickedSection(), labels)
	d.sum(p, layout, terms, mean)
	p.clippedIf(d.Before != nil, func() { d.ghost(p) })
	profile.draw(p, "prof soft")
	if near {
		p.clipped(func() { d.drawSteps(p) })
	} else {
		d.drawSteps(p)
	}
	d.nameSteps(p)
	caption = upper(p.exaggeration())
	if k := d.pickedSection(); k > 0 {
		caption = "Section " + strconv.Itoa(k) + " is picked out. " + caption
	}
	return "Construction of " + d.Of.Symbol, caption
}

// tiny is the share of the width below which two marks look like one.
const tiny = 1.0 / 50

// view is the stretch drawn: all of it, or the marks of the picked step, of all where none is, with twice their length
// to each side, or a tenth where they are long.
func (d ConstructionPlot) view(whole [2]float64) (stretch [2]float64, near bool) {
	only := d
	if d.Picked > 0 {
		only.Of.Steps = d.Of.Steps[d.Picked-1 : d.Picked]
	}
	x, _ := bounds(only.marks())
	low, high := x[0], x[1]
	if !(low <= high) || !d.Close && (len(d.Of.Steps) > 1 || high == low || high-low > tiny*(whole[1]-whole[0])) {
		return whole, false
	}
	room := 2 * max(high-low, 20*d.Spacing)
	if high-low > (whole[1]-whole[0])/10 { // a section
		room = 0.1 * (high - low)
	}
	low, high = max(whole[0], low-room), min(whole[1], high+room)
	if !(low < high) || low == whole[0] && high == whole[1] {
		return whole, false
	}
	return [2]float64{low, high}, true
}

// heights is the height axis: it holds the profile and every mark.
func (d ConstructionPlot) heights(c *canvas) axis {
	low, high := extent(d.Z)
	_, y := bounds(d.marks())
	return c.asFixed(roomy(min(low, y[0]), max(high, y[1]), 0.12, "µm"))
}

// drawSteps draws all steps, the picked one last.
func (d ConstructionPlot) drawSteps(p *plot) {
	for i, s := range d.Of.Steps {
		if i+1 != d.Picked && d.planeOf(s) == d.plane {
			p.marks(s.Marks, d.weight())
		}
	}
	if d.Picked > 0 && d.planeOf(d.Of.Steps[d.Picked-1]) == d.plane {
		p.marks(d.Of.Steps[d.Picked-1].Marks, strongly)
	}
}

// nameSteps writes the labels of the picked step; of all where none is picked and there are few.
func (d ConstructionPlot) nameSteps(p *plot) {
	if p.o.Hidden != "" {
		return
	}
	here := 0
	for _, s := range d.Of.Steps {
		if d.planeOf(s) == d.plane && len(s.Marks) > 0 {
			here++
		}
	}
	for i, s := range d.Of.Steps {
		if d.planeOf(s) != d.plane {
			continue
		}
		if i+1 == d.Picked || d.Picked == 0 && here <= int(p.pick(4, 3)) {
			for _, m := range s.Marks {
				p.name(m, p.within(10, 1))
			}
		}
	}
}

// terms are the values of the sections, one each, and whether the result is their mean; nil where the construction does
// not go by sections.
func (d ConstructionPlot) terms(sections int) (terms []float64, mean bool) {
	if sections < 2 {
		return nil, false
	}
	terms = slices.Repeat([]float64{math.NaN()}, sections)
	sum, n := 0.0, 0
	for _, s := range d.Of.Steps {
		k := s.Section - 1
		if k < 0 || math.IsNaN(s.Value) {
			continue
		}
		if k >= sections || !math.IsNaN(terms[k]) {
			return nil, false
		}
		terms[k] = s.Value
		sum += s.Value
		n++
	}
	if n == 0 {
		return nil, false
	}
	return terms, n > 1 && math.Abs(sum/float64(n)-d.Of.Result) <= 1e-9*math.Abs(d.Of.Result)
}

// sum writes the values of the sections above the plot, joined by plus signs where the result is their mean. The
// section that alone gives the result stands out.
func (d ConstructionPlot) sum(p *plot, l Layout, terms []float64, added bool) {
	if p.o.Hidden != "" || terms == nil || p.x.at(l.Length)-p.x.at(0) < p.pick(40, 34) {
		return
	}
	for k, v := range terms {
		if mid := (l.edge(k) + l.edge(k+1)) / 2; p.x.inside(mid) {
			classes := "tl big"
			switch {
			case math.IsNaN(v): // printed as a dash
				classes = "u"
			case k+1 == d.pickedSection() || !added && v == d.Of.Result:
				classes = "ta big"
			}
			p.text(p.x.at(mid), 36, p.digits(p.in(v, string(d.Of.Unit)), 3), classes, middle)
		}
		if added && k > 0 && p.x.inside(l.edge(k)) {
			p.text(p.x.at(l.edge(k)), 36, "+", "u", middle)
		}
	}
}

// said is the number of steps that a description spells out.
const said = 12

// words is the text form of the construction: its steps one after the other.
func (d ConstructionPlot) words(c *canvas) string {
	var b strings.Builder
	for i, s := range d.Of.Steps {
		if i == said && len(d.Of.Steps) > said+1 {
			fmt.Fprintf(&b, " The table lists %s more.", count(len(d.Of.Steps)-said))
			break
		}
		if i > 0 {
			b.WriteString(" ")
		}
		b.WriteString(c.prose(upper(strings.TrimRight(s.Text, "."))) + ".")
	}
	if b.Len() == 0 {
		return "There is nothing to draw for " + d.Of.Symbol + "."
	}
	return b.String()
}

// planeColumns are the heads of the two coordinates in the table.
var planeColumns = map[params.Plane][2]string{
	params.ProfilePlane:     {"at, mm", "height, µm"},
	params.RatioPlane:       {"material ratio, %", "height, µm"},
	params.LagPlane:         {"shift, mm", "autocorrelation"},
	params.SpectrumPlane:    {"wavelength, mm", "amplitude, µm"},
	params.ProbabilityPlane: {"standard deviations", "height, µm"},

	params.DistributionPlane: {"points in each band of height, %", "height, µm"},
	params.SquarePlane:       {"at, mm", "height squared, µm²"},
	params.CubePlane:         {"at, mm", "height cubed, µm³"},
	params.FourthPlane:       {"at, mm", "fourth power of the height, µm⁴"},
	params.SlopePlane:        {"at, mm", "slope"},
	params.StretchPlane:      {"at, mm", "longer than its run, %"},
	params.LengthPlane:       {"at, mm", "extra length, µm"},
	params.ItemPlane:         {"number", "measure"},
}

// tableMarks is the number of points of a line or an outline that the table lists; of longer ones it has the ends.
const tableMarks = 12

// table lists the steps and, under each, the points that are drawn.
func (d ConstructionPlot) table(c *canvas) Table {
	names := planeColumns[d.Of.Plane]
	value := "value"
	if d.Of.Unit != params.None {
		value += ", " + string(d.Of.Unit)
	}
	t := columns("step", "mark", names[0], names[1], value)
	for _, s := range d.Of.Steps {
		result := ""
		if !math.IsNaN(s.Value) {
			result = c.digits(c.in(s.Value, string(d.Of.Unit)), 4)
		}
		t.add(c.prose(s.Text), "", "", "", result)
		plane, along, where := planeColumns[d.planeOf(s)], 1.0, ""
		if strings.HasSuffix(plane[0], "mm") {
			along = c.in(1e-3, "mm")
		}
		if plane != names {
			where = c.unit(" (" + plane[0] + "; " + plane[1] + ")")
		}
		_, of, _ := strings.Cut(plane[1], ", ")
		for _, m := range s.Marks {
			name := strings.TrimSuffix(string(m.Kind)+" "+c.prose(m.Label), " ") + where
			points := m.Points
			if len(points) > tableMarks {
				name += fmt.Sprintf(", %d points, the ends", len(points))
				points = []params.Point{points[0], points[len(points)-1]}
			}
			for _, q := range points {
				t.add("", name, c.short(q.X*along, 6), c.digits(c.in(q.Y, of), 4), "")
				name = ""
			}
		}
	}
	return t
}
