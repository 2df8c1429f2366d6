package params

import (
	"math"
	"slices"
	"strconv"
	"strings"
)

// A Construction is how a value came about, as geometry in one plane: what to draw, what to say, what to add up.
//
// A step lies in the plane of the construction or names its own: what is counted on one is shown on the profile too. What the
// coordinates are stands beside each [Plane].
type Construction struct {
	Symbol string // as asked
	Unit   Unit
	Plane  Plane
	Result float64
	Steps  []Step       // in the order a person goes through them: a section, an element, a line
	Worked []Arithmetic // the calculation with the numbers of this profile
}

// Plane is the plane a construction or a step lies in. Places along the trace count from the start of the evaluation length.
type Plane string

const (
	ProfilePlane      Plane = "profile"        // place along the trace, height
	RatioPlane        Plane = "material-ratio" // material ratio in %, height
	LagPlane          Plane = "lag"            // shift along the trace, autocorrelation
	SpectrumPlane     Plane = "spectrum"       // wavelength, amplitude
	ProbabilityPlane  Plane = "probability"    // standard normal quantile of the ratio, height
	DistributionPlane Plane = "distribution"   // share of the points in % of a band of heights, height
	SquarePlane       Plane = "squares"        // place, height squared
	CubePlane         Plane = "cubes"          // place, height cubed
	FourthPlane       Plane = "fourth-powers"  // place, fourth power of the height
	SlopePlane        Plane = "slope"          // place, local slope
	StretchPlane      Plane = "stretch"        // place, by how many percent the profile line is longer than its run
	LengthPlane       Plane = "length"         // place, extra length gathered up to there
	ItemPlane         Plane = "items"          // number of the item, its measure in the unit of the result
)

// A Step is one item of a construction: its marks, and the same in words.
type Step struct {
	Plane   Plane   // where its marks lie; "" is the plane of the construction
	Text    string  // for those who listen: "section 3: peak 1.92 µm at 2.104 mm, pit -2.31 µm at 2.377 mm"
	Section int     // from 1; 0 when it is not one section's
	Value   float64 // what the step adds to the result; NaN when it is a drawing aid
	Marks   []Mark
}

// A Mark is one piece of geometry.
type Mark struct {
	Kind   Kind
	Label  string // short, may be empty
	Points []Point
}

// A Point is a place in the plane of the construction.
type Point struct{ X, Y float64 }

// Kind is the kind of a mark.
type Kind string

const (
	PeakMark  Kind = "peak"  // one point, marked from above
	PitMark   Kind = "pit"   // one point, marked from below
	PointMark Kind = "point" // one point
	LineMark  Kind = "line"  // through all points in turn
	SpanMark  Kind = "span"  // a dimension line between two points
	LevelMark Kind = "level" // a horizontal line between two points of equal height
	AreaMark  Kind = "area"  // the inside of the closed polygon of the points
)

// Arithmetic is one worked line, such as Rz = (2.851 + 3.020) / 2.
type Arithmetic struct {
	Symbol string
	// Form is the right-hand side with {1}, {2} ... in place of the terms. Where terms are left out, "…" stands for them, and
	// behind " = " the same with their sum.
	Form   string
	Terms  []float64
	Result float64
	Unit   Unit
}

// The builder: marks, steps and worked lines.

func level(label string, from, to, y float64) Mark {
	return Mark{LevelMark, label, []Point{{from, y}, {to, y}}}
}

func dimension(label string, a, b Point) Mark { return Mark{SpanMark, label, []Point{a, b}} }

func point(kind Kind, label string, at Point) Mark { return Mark{kind, label, []Point{at}} }

func line(label string, through ...Point) Mark { return Mark{LineMark, label, through} }

func area(label string, outline ...Point) Mark { return Mark{AreaMark, label, outline} }

// rectangle is the area between the line at 0 and a level.
func rectangle(label string, from, to, y float64) Mark {
	return area(label, Point{from, 0}, Point{from, y}, Point{to, y}, Point{to, 0})
}

// step adds a step that is not one section's; one without a value is a drawing aid. What is too large to draw stays out.
func (c *Construction) step(text string, value float64, marks ...Mark) *Step {
	marks = slices.DeleteFunc(marks, func(m Mark) bool {
		return slices.ContainsFunc(m.Points, func(p Point) bool { return math.IsNaN(p.X-p.X) || math.IsNaN(p.Y-p.Y) })
	})
	c.Steps = append(c.Steps, Step{Text: text, Value: value, Marks: marks})
	return &c.Steps[len(c.Steps)-1]
}

// on puts a step into a plane.
func (s *Step) on(p Plane) *Step {
	s.Plane = p
	return s
}

// A piece is what is looked at by itself: a section, or the evaluation length, whose number is 0.
type piece struct {
	section    int // from 1
	start, end int // points; end is not part of it
	z          []float64
}

// whole returns the evaluation length.
func (w *work) whole() piece { return piece{0, 0, w.n, w.z} }

// lengths returns those that the meaning evaluates over.
func (w *work) lengths() []piece {
	if w.as.Over == EvaluationLength {
		return []piece{w.whole()}
	}
	list := make([]piece, w.count)
	for k := range list {
		list[k] = piece{k + 1, k * w.section, (k + 1) * w.section, w.sectionAt(k)}
	}
	return list
}

// ends returns where the piece begins and ends along the trace.
func (w *work) ends(p piece) (from, to float64) {
	return float64(p.start) * w.dx, float64(p.end) * w.dx
}

// in adds a step about a piece; its text begins with which.
func (c *Construction) in(p piece, text string, value float64, marks ...Mark) *Step {
	where := "over the evaluation length"
	if p.section > 0 {
		where = "section " + strconv.Itoa(p.section)
	}
	s := c.step(where+": "+text, value, marks...)
	s.Section = p.section
	return s
}

// pointAt returns the place of point i of the profile.
func (w *work) pointAt(i int) Point { return Point{float64(float64(i) * w.dx), w.z[i]} }

// length returns the evaluation length.
func (w *work) length() float64 { return float64(w.n) * w.dx }

// stripPoints is how many bins a line along the trace is drawn with at most, the lowest and the highest point of each.
const stripPoints = 400

// strip returns the line of a function of the points of a piece, such as the squares of its heights.
func (w *work) strip(p piece, f func(i int) float64) []Point {
	bin := max(1, (p.end-p.start)/stripPoints)
	var line []Point
	for from := p.start; from < p.end; from += bin {
		low, high := from, from
		for i := from; i < min(from+bin, p.end); i++ {
			if f(i) < f(low) {
				low = i
			}
			if f(i) > f(high) {
				high = i
			}
		}
		line = append(line, Point{float64(min(low, high)) * w.dx, f(min(low, high))})
		if low != high {
			line = append(line, Point{float64(max(low, high)) * w.dx, f(max(low, high))})
		}
	}
	return line
}

// heightOf returns the height of point i.
func (w *work) heightOf(i int) float64 { return w.z[i] }

// A sheet is a worked line in the making.
type sheet struct{ terms []float64 }

// of returns the place of one term in the form.
func (s *sheet) of(v float64) string {
	s.terms = append(s.terms, v)
	return "{" + strconv.Itoa(len(s.terms)) + "}"
}

// list returns the terms, each in place of # in the pattern, with the joint between them: all of up to eight; of more the first
// three and the last.
func (s *sheet) list(pattern, joint string, terms []float64) string {
	var parts []string
	for i, v := range terms {
		switch {
		case len(terms) <= 8 || i < 3 || i == len(terms)-1:
			parts = append(parts, strings.ReplaceAll(pattern, "#", s.of(v)))
		case i == 3:
			parts = append(parts, "…")
		}
	}
	return strings.Join(parts, joint)
}

// sum returns a form with the sum of the terms: "(# + #) / {3}" of frame "(Σ) / {3}". Where the list leaves terms out, it is said
// again with their sum.
func (s *sheet) sum(frame, pattern string, terms []float64, term func(v float64) float64) string {
	form := strings.ReplaceAll(frame, "Σ", s.list(pattern, " + ", terms))
	if len(terms) > 8 {
		total := 0.0
		for _, v := range terms {
			total += term(v)
		}
		form += " = " + strings.ReplaceAll(strings.ReplaceAll(frame, "(Σ)", "Σ"), "Σ", s.of(total))
	}
	return form
}

// asIs is the term that is its number.
func asIs(v float64) float64 { return v }

// work adds the worked line of the result.
func (c *Construction) work(form string, terms ...float64) {
	c.workAs(c.Symbol, c.Result, c.Unit, form, terms...)
}

// workAs adds a worked line of something else.
func (c *Construction) workAs(symbol string, result float64, unit Unit, form string, terms ...float64) {
	c.Worked = append(c.Worked, Arithmetic{symbol, form, terms, result, unit})
}

// mean adds the worked mean of terms.
func (c *Construction) mean(terms []float64) { c.meanAs(c.Symbol, c.Result, c.Unit, terms) }

func (c *Construction) meanAs(symbol string, result float64, unit Unit, terms []float64) {
	if len(terms) == 1 {
		c.workAs(symbol, result, unit, "{1}", terms...)
		return
	}
	s := &sheet{}
	form := s.sum("(Σ) / "+strconv.Itoa(len(terms)), "#", terms, asIs)
	c.workAs(symbol, result, unit, form, s.terms...)
}

// largestOf adds the largest of terms, worked; of many it shows the first three and the largest.
func (c *Construction) largestOf(terms []float64) {
	s := &sheet{}
	form := s.list("#", ", ", terms)
	if len(terms) > 8 {
		s.terms[3] = greatest(terms)
	}
	c.work("max("+form+")", s.terms...)
}

// named writes the symbol of another parameter with the letter of the profile at hand.
func (c *Construction) named(symbol string) string {
	if strings.HasPrefix(c.Symbol, "P") || strings.HasPrefix(c.Symbol, "W") {
		return c.Symbol[:1] + symbol[1:]
	}
	return symbol
}

// bySections adds the worked mean of what the sections have, or the largest of it, as the meaning has it.
func (c *Construction) bySections(w *work, terms []float64) {
	if w.as.Over == LargestSection {
		c.largestOf(terms)
	} else {
		c.mean(terms)
	}
}

// deviation adds the worked standard deviation of terms about their mean.
func (c *Construction) deviation(name string, terms []float64, divisor Divisor) {
	m := mean(terms)
	c.meanAs(name, m, c.Unit, terms)
	n := len(terms)
	if divisor == DivideByCountLessOne {
		n--
	}
	s := &sheet{}
	pattern := "(# - " + s.of(m) + ")²"
	form := s.sum("√((Σ) / "+strconv.Itoa(n)+")", pattern, terms, func(v float64) float64 { return (v - m) * (v - m) })
	c.work(form, s.terms...)
}

// scatter draws measures as dots by their number, their mean, and the band of their standard deviation.
func (c *Construction) scatter(name string, terms []float64, measure func(float64) string) {
	m, end := mean(terms), float64(len(terms)+1)
	c.step("mean "+measure(m)+", standard deviation "+measure(c.Result), c.Result,
		level(name, 0, end, m), level("", 0, end, m+c.Result), level("", 0, end, m-c.Result),
		dimension(c.Symbol, Point{end, m}, Point{end, m + c.Result})).on(ItemPlane)
	for i, v := range terms {
		at := Point{float64(i + 1), v}
		c.step("item "+strconv.Itoa(i+1)+": "+measure(v)+", "+measure(v-m)+" from the mean", nan,
			point(PointMark, "", at), dimension(measure(v-m), Point{at.X, m}, at)).on(ItemPlane)
	}
}

// micrometres writes a height or length with three significant digits: "1.92 µm".
func micrometres(v float64) string { return digits(v, 3) + " µm" }

// millimetres writes a length in µm as millimetres to the micrometre: "2.104 mm".
func millimetres(v float64) string { return strconv.FormatFloat(v/1000, 'f', 3, 64) + " mm" }

// percent writes a fraction: "38.9 %".
func percent(fraction float64) string { return digits(100*fraction, 3) + " %" }

// digits writes v with n significant digits, without an exponent.
func digits(v float64, n int) string {
	if v == 0 {
		return "0"
	}
	return strconv.FormatFloat(v, 'f', decimalsFor(v, n), 64)
}

// inWords says a number without unit, with four digits.
func inWords(v float64) string { return strconv.FormatFloat(v, 'g', 4, 64) }

// place says where and how high a point of the profile lies: "1.92 µm at 2.104 mm".
func place(p Point) string { return micrometres(p.Y) + " at " + millimetres(p.X) }

// lengthOf says a length along the trace: short ones in µm, others in mm.
func lengthOf(v float64) string {
	if v < 100 {
		return micrometres(v)
	}
	return millimetres(v)
}
