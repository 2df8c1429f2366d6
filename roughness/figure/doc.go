// Package figure draws a profile, the steps of its evaluation and the constructions of its values as SVG, the same for
// page, record and command.
//
// A drawing is a struct with a method Draw. It is drawn for the width it gets, one unit of the drawing to the CSS pixel,
// in a wide design (500 pixels and more) or a narrow one:
//
//	p := figure.ProfilePlot{Z: z, Spacing: 0.5, Letter: "R", Layout: figure.Layout{Sections: 5, Length: 800, Start: 400}}.Draw(figure.Options{Width: 736})
//	os.WriteFile("profile.svg", []byte(p.SVG), 0o666)
//
// Lengths and heights are micrometres, as everywhere in furrow; the axis along the trace counts in millimetres.
//
// # How a picture is made
//
// An axis says what it counts, its range and its numbers (axis.go). The canvas lays a plot with two axes where it has
// room for their numbers (plot.go). What lies on the plot is drawn layer by layer, from the back to the front: sections,
// axes, profiles, curves, levels, marks and their names; a picture lists its layers and adds its words and its table. The
// elements themselves are written in canvas.go.
//
// # Style
//
// Inside a page the elements carry classes and nothing else, so that its style sheet gives the colours and a strict
// content security policy holds; a file of its own (Options.Standalone) carries presentation attributes in the light
// colours. What each class looks like is written once, in style.go.
//
// # What every picture keeps
//
// The profile is thinned to the first, lowest, highest and last point of each pixel column, so no peak or pit is lost,
// and constructed points are always drawn. Every figure in the description is a cell of the table that comes with the
// picture. The caption states how much larger heights are drawn than lengths.
package figure

// Options are what the surroundings ask of a picture. The zero value is a wide picture for a page.
type Options struct {
	Width        int        // in CSS pixels; 0 is 640, less than 240 is drawn as 240
	ID           string     // start of the ids inside the SVG, unique in the page; "" is "picture"
	Standalone   bool       // a file of its own, with its own colours
	DecimalComma bool       // 3,2 instead of 3.2
	Inch         bool       // µin and in instead of µm and mm; names that the caller gives stay as they are
	Notes        []string   // lines below the picture in a file of its own: name, settings, caution
	Heights      [2]float64 // fixed lower and upper end of the height axis; equal: fitted to the profile
	Height       int        // of a profile or a construction, in CSS pixels; 0: that of the design. A construction then shows one plane at a time
	Column       int        // pixels of the columns to which profiles are thinned; 0: one
	Hidden       string     // said in place of every value, where values are not to be seen yet; "" shows them
}

// A Picture is a drawing with its text twin.
type Picture struct {
	SVG           string
	Title         string
	Desc          string // what is seen, with the figures
	Caption       string // what is seen, and how much larger heights are drawn than lengths
	Table         Table  // the numbers of the picture
	Width, Height int
	Frames        []Frame // the plots in it, so that a pointer or a key can find its place
}

// A Table holds the numbers that a picture shows, as printed.
type Table struct {
	Columns []string
	Rows    [][]string
}

// A Frame says where a plot lies in the picture and what its edges stand for: Low is the left or lower edge.
type Frame struct {
	Left, Right, Top, Bottom float64
	XLow, XHigh, YLow, YHigh float64 // in µm, or what the axis counts
	XLog                     bool
}

// A Drawing is what can be drawn.
type Drawing interface {
	Draw(o Options) Picture
}
