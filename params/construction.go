package params

import (
	"math"
	"strconv"
	"strings"
)

// A Construction is how a value came about, as geometry in one plane: what to draw, what to say, what to add up.
//
// In the profile plane x counts from the start of the evaluation length, in the length unit, and y is the height. In
// the material ratio plane x is the ratio in %; in the lag and spectrum planes it is a length; in the probability
// plane it is the standard normal quantile of the ratio.
type Construction struct {
	Symbol string // as asked
	Unit   Unit
	Plane  Plane
	Result float64
	Steps  []Step       // in the order a person goes through them: a section, an element, a line
	Worked []Arithmetic // the calculation with the numbers of this profile
}

// Plane is the plane a construction lies in.
type Plane string

const (
	ProfilePlane     Plane = "profile"        // x along the trace, height
	RatioPlane       Plane = "material-ratio" // material ratio in %, height
	LagPlane         Plane = "lag"            // shift along the trace, autocorrelation
	SpectrumPlane    Plane = "spectrum"       // wavelength, amplitude
	ProbabilityPlane Plane = "probability"    // standard normal quantile of the ratio, height
)

// A Step is one item of a construction: its marks, and the same in words.
type Step struct {
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
	// Form is the right-hand side with {1}, {2} ... in place of the terms.
	Form   string
	Terms  []float64
	Result float64
	Unit   Unit
}

// pointAt returns the place of point i of the profile.
func (w *work) pointAt(i int) Point { return Point{float64(i) * w.dx, w.z[i]} }

// line returns the points of the profile.
func (w *work) line() []Point {
	p := make([]Point, w.n)
	for i := range p {
		p[i] = w.pointAt(i)
	}
	return p
}

// bounds returns where section k begins and ends.
func (w *work) bounds(k int) (from, to float64) {
	length := float64(w.section) * w.dx
	return float64(k) * length, float64(k+1) * length
}

// length returns the evaluation length.
func (w *work) length() float64 { return float64(w.n) * w.dx }

// The builder: marks, steps and worked lines.

func level(label string, from, to, y float64) Mark {
	return Mark{LevelMark, label, []Point{{from, y}, {to, y}}}
}

func dimension(label string, a, b Point) Mark { return Mark{SpanMark, label, []Point{a, b}} }

func point(kind Kind, label string, at Point) Mark { return Mark{kind, label, []Point{at}} }

func line(label string, through ...Point) Mark { return Mark{LineMark, label, through} }

func area(label string, outline ...Point) Mark { return Mark{AreaMark, label, outline} }

// step makes a step that is not one section's.
func step(text string, value float64, marks ...Mark) Step {
	return Step{Text: text, Value: value, Marks: marks}
}

// add adds a step.
func (c *Construction) add(s Step) { c.Steps = append(c.Steps, s) }

// step adds a step made of its parts.
func (c *Construction) step(text string, value float64, marks ...Mark) {
	c.add(step(text, value, marks...))
}

// section adds the step of section k, counted from 0; its text begins with which.
func (c *Construction) section(k int, s Step) {
	s.Section = k + 1
	s.Text = "section " + strconv.Itoa(s.Section) + s.Text
	c.add(s)
}

// work adds the worked line of the result.
func (c *Construction) work(form string, terms ...float64) {
	c.workAs(c.Symbol, c.Result, form, terms...)
}

// workAs adds a worked line in the unit of the result.
func (c *Construction) workAs(symbol string, result float64, form string, terms ...float64) {
	c.Worked = append(c.Worked, Arithmetic{symbol, form, terms, result, c.Unit})
}

// mean adds the worked mean of terms.
func (c *Construction) mean(terms []float64) { c.work(meanForm(len(terms)), terms...) }

// deviation adds the worked standard deviation of terms, of the squared differences from their mean.
func (c *Construction) deviation(terms []float64, divisor Deviation) {
	m := mean(terms)
	squares := make([]float64, len(terms))
	for i, v := range terms {
		squares[i] = float64((v - m) * (v - m))
	}
	n := len(terms)
	if divisor == DivideByCountLessOne {
		n--
	}
	c.work("√(("+termSum(len(terms))+") / "+strconv.Itoa(n)+")", squares...)
}

func unitText(u Unit) string {
	if u == None {
		return ""
	}
	return " " + string(u)
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
	decimals := n - 1 - int(math.Floor(math.Log10(math.Abs(v))))
	// Rounding may carry into one digit more: 9.996 with three digits is 10.0.
	if s := strconv.FormatFloat(v, 'e', n-1, 64); strings.HasPrefix(strings.TrimPrefix(s, "-"), "1.") {
		exponent, _ := strconv.Atoi(s[strings.IndexByte(s, 'e')+1:])
		decimals = n - 1 - exponent
	}
	if decimals < 0 {
		decimals = 0
	}
	return strconv.FormatFloat(v, 'f', decimals, 64)
}

// meanForm returns the form of the mean of n terms: "({1} + {2}) / 2". With many, those in the middle are left out.
func meanForm(n int) string {
	if n == 1 {
		return "{1}"
	}
	return "(" + termSum(n) + ") / " + strconv.Itoa(n)
}

func termSum(n int) string {
	var terms []string
	for i := 1; i <= n; i++ {
		if n > 8 && i == 4 {
			terms = append(terms, "…")
			i = n
		}
		terms = append(terms, "{"+strconv.Itoa(i)+"}")
	}
	return strings.Join(terms, " + ")
}

// Print returns the worked line without its symbol, each term written by format.
func (a Arithmetic) Print(format func(v float64) string) string {
	var b strings.Builder
	for s := a.Form; s != ""; {
		before, after, found := strings.Cut(s, "{")
		b.WriteString(before)
		if !found {
			break
		}
		number, rest, _ := strings.Cut(after, "}")
		if i, err := strconv.Atoi(number); err == nil && i >= 1 && i <= len(a.Terms) {
			b.WriteString(format(a.Terms[i-1]))
		} else {
			b.WriteString(number)
		}
		s = rest
	}
	return b.String()
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
