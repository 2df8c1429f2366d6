package params

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
