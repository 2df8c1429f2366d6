package study

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"example.com/furrow/roughness/synth"
)

// A Movable is a number that a person can move: one of an ingredient, or another one of an exercise.
type Movable struct {
	ID          string
	Words       string
	Unit        string
	Low, High   float64 // range of the slider
	Least, Most float64 // range of a typed value
	First       float64
	Log         bool // the slider is logarithmic
	Whole       bool // whole numbers only
}

// An Ingredient is one that a made surface can have. The ingredients are put together in the order of [Ingredients].
type Ingredient struct {
	Kind    string
	Words   string
	Most    int // how many of the kind a surface can have
	Formula string
	Fields  []Movable // with several of the kind, the ids are those of the first

	key   string                                      // in a link
	apply func(z []float64, dx float64, v []float64)  // heights and spacing in µm
	shape func(v []float64) synth.Shape               // for those with closed forms
	must  func(v []float64, dx float64) (int, string) // the field that cannot be, and why
	notes func(v []float64) string                    // what to say of it
}

// A Part is an ingredient in use, its values in the order of the fields.
type Part struct {
	Kind   string    `json:"kind"`
	Values []float64 `json:"values"`
}

const millimetre = 1000

// length is a field of a length or a height, which may be typed up to ten times its upper end.
func length(id, words, unit string, low, high, first float64) Movable {
	return Movable{ID: id, Words: words, Unit: unit, Low: low, High: high, Least: min(low, 10*low), Most: 10 * high, First: first}
}

// bound is a field that its range bounds: a share, a phase, a seed.
func bound(id, words, unit string, low, high, first float64) Movable {
	return Movable{ID: id, Words: words, Unit: unit, Low: low, High: high, Least: low, Most: high, First: first}
}

func (f Movable) log() Movable   { f.Log = true; return f }
func (f Movable) whole() Movable { f.Whole = true; return f }

func seed(id string) Movable { return bound(id, "seed", "", 1, 9999, 1).whole() }

// added makes the ingredient one whose shape is added.
func (in Ingredient) added(shape func(v []float64) synth.Shape) Ingredient {
	in.shape = shape
	in.apply = func(z []float64, dx float64, v []float64) {
		for i, h := range shape(v).Heights(len(z), dx) {
			z[i] += h
		}
	}
	return in
}

func sine(kind, key, words string, height, wave float64) Ingredient {
	return Ingredient{Kind: kind, key: key, Words: words, Most: 1, Formula: "(h/2) sin 2π(x/λ + φ)", Fields: []Movable{
		length(kind+"-height", "height from crest to trough", "µm", 0, 10, height),
		length(kind+"-length", "wavelength", "mm", 0.01, 10, wave).log(),
		bound(kind+"-phase", "start, in waves", "", 0, 1, 0),
	}}.added(func(v []float64) synth.Shape {
		return synth.Sine{Amplitude: v[0] / 2, Wavelength: v[1] * millimetre, Phase: v[2]}
	})
}

// narrow refuses a width, the second field, of less than two spacings.
func narrow(v []float64, dx float64) (int, string) {
	if v[1] < 2*dx {
		return 1, fmt.Sprintf("At a spacing of %g µm the smallest width is %g µm.", dx, 2*dx)
	}
	return -1, ""
}

// local is the ingredient at one place, with place, width and height or depth: shape gives its height at u, the distance from
// the place in half widths.
func (in Ingredient) local(shape func(u float64) float64) Ingredient {
	in.must = narrow
	in.apply = func(z []float64, dx float64, v []float64) {
		place, half := v[0]*millimetre, v[1]/2
		for i := max(0, int((place-half)/dx)); i < len(z) && float64(i)*dx <= place+half; i++ {
			if u := math.Abs(float64(i)*dx-place) / half; u < 1 {
				z[i] += float64(v[2] * shape(u))
			}
		}
	}
	return in
}

// along is the ingredient whose height at the place t, from -1 to 1 over the length, is its only value times shape.
func (in Ingredient) along(shape func(t float64) float64) Ingredient {
	in.apply = func(z []float64, dx float64, v []float64) {
		half := float64(len(z)) * dx / 2
		for i := range z {
			z[i] += float64(v[0] * shape((float64(i)*dx-half)/half))
		}
	}
	return in
}

var ingredients = []Ingredient{
	sine("sine1", "sa", "Sine 1", 2, 0.25),
	sine("sine2", "sb", "Sine 2", 0.5, 0.05),
	Ingredient{Kind: "triangle", key: "tr", Words: "Triangle", Most: 1, Formula: "from −h/2 up in the share d, down in the rest", Fields: []Movable{
		length("triangle-height", "height from crest to trough", "µm", 0, 10, 2),
		length("triangle-length", "wavelength", "mm", 0.01, 10, 0.2).log(),
		bound("triangle-rise", "share of the wave that rises", "%", 5, 95, 50),
	}}.added(func(v []float64) synth.Shape {
		if v[2] == 50 {
			return synth.Triangle{Amplitude: v[0] / 2, Wavelength: v[1] * millimetre}
		}
		return synth.Sawtooth{Amplitude: v[0] / 2, Wavelength: v[1] * millimetre, Rise: v[2] / 100}
	}),
	Ingredient{Kind: "feed", key: "fe", Words: "Feed marks", Most: 1, Formula: "y²/(2r) minus its mean, y = distance from the middle of the mark", Fields: []Movable{
		length("feed-feed", "feed", "mm", 0.01, 1, 0.2).log(),
		length("feed-nose", "nose radius", "mm", 0.1, 5, 0.8).log(),
	}, must: func(v []float64, _ float64) (int, string) {
		if v[0] > 2*v[1] {
			return 0, "The nose arc ends there."
		}
		return -1, ""
	}, notes: func(v []float64) string {
		if v[0] > v[1]/2 {
			return "The exact arc is more than 1.6 % higher than this parabola."
		}
		return ""
	}}.added(func(v []float64) synth.Shape { return synth.Turned{Feed: v[0] * millimetre, Nose: v[1] * millimetre} }),
	Ingredient{Kind: "noise", key: "no", Words: "Noise", Most: 1, Formula: "normal heights, autocorrelation exp(−(t/β)²); β = 0: independent points", Fields: []Movable{
		length("noise-rq", "Rq", "µm", 0, 5, 0.3),
		length("noise-length", "correlation length", "µm", 0, 100, 10),
		seed("noise-seed"),
	}}.added(func(v []float64) synth.Shape {
		if v[1] == 0 {
			return synth.Noise{Sigma: v[0], Seed: uint64(v[2])}
		}
		return synth.Correlated{Sigma: v[0], Length: v[1], Seed: uint64(v[2])}
	}),
	Ingredient{Kind: "hone", key: "ho", Words: "Honing in two processes", Most: 1, Formula: "min(fine, coarse + offset), minus its mean", Fields: []Movable{
		length("hone-plateau", "Rq of the fine process", "µm", 0, 5, 0.16),
		length("hone-groove", "Rq of the coarse process", "µm", 0, 5, 1.5),
		length("hone-offset", "how deep the fine process cuts", "µm", -2, 4, 1.2),
		length("hone-plateau-length", "correlation length of the fine process", "µm", 0, 100, 5),
		length("hone-groove-length", "correlation length of the coarse process", "µm", 0, 100, 13),
		seed("hone-seed"),
	}}.added(func(v []float64) synth.Shape {
		return synth.Honed{Plateau: v[0], Groove: v[1], Offset: v[2], PlateauLength: v[3], GrooveLength: v[4], Seed: uint64(v[5])}
	}),
	{Kind: "worn", key: "wo", Words: "Worn level", Most: 1, Formula: "all heights above the height with this ratio are set to it", Fields: []Movable{
		bound("worn-share", "share of the length that is level", "%", 0, 95, 40),
	}, apply: func(z []float64, _ float64, v []float64) { synth.Wear(z, v[0]) }},
	Ingredient{Kind: "scratch", key: "sc", Words: "Scratch", Most: 4, Formula: "−d (1 − |x − x₀|/(w/2)) inside the width", Fields: []Movable{
		length("scratch-1-place", "place", "mm", 0, 4, 2),
		length("scratch-1-width", "width", "µm", 1, 500, 20).log(),
		length("scratch-1-depth", "depth", "µm", 0, 20, 3),
	}}.local(func(u float64) float64 { return u - 1 }),
	Ingredient{Kind: "dust", key: "du", Words: "Speck of dust", Most: 2, Formula: "+h cos²(π(x − x₀)/w) inside the width", Fields: []Movable{
		length("dust-1-place", "place", "mm", 0, 4, 1),
		length("dust-1-width", "width", "µm", 1, 100, 4).log(),
		length("dust-1-height", "height", "µm", 0, 20, 3),
	}}.local(func(u float64) float64 { c := math.Cos(math.Pi / 2 * u); return c * c }),
	Ingredient{Kind: "bow", key: "bo", Words: "Bow", Most: 1, Formula: "h (1 − 4ξ²/l²), minus 2h/3", Fields: []Movable{
		length("bow-height", "height of the middle over the ends", "µm", -50, 50, 0),
	}}.along(func(t float64) float64 { return 1 - t*t - 2.0/3 }),
	Ingredient{Kind: "tilt", key: "ti", Words: "Tilt", Most: 1, Formula: "a ξ / l", Fields: []Movable{
		length("tilt-rise", "rise over the whole length", "µm", -50, 50, 0),
	}}.along(func(t float64) float64 { return t / 2 }),
}

// Ingredients returns the ingredients in the order in which they are put together.
func Ingredients() []Ingredient { return slices.Clone(ingredients) }

// Order says in which order the ingredients are put together.
const Order = "Made in this order: sines, triangle, feed marks, noise and honing are added; then the worn level cuts; then scratches; then dust; then bow and tilt."

func ingredientOf(kind string) *Ingredient {
	for i := range ingredients {
		if ingredients[i].Kind == kind {
			return &ingredients[i]
		}
	}
	return nil
}

// field returns the field i of the k-th ingredient of its kind, from 0, on a surface of the length in mm.
func (in *Ingredient) field(k, i int, l float64) Movable {
	f := in.Fields[i]
	f.ID = strings.Replace(f.ID, "-1-", fmt.Sprintf("-%d-", k+1), 1)
	if strings.HasSuffix(f.ID, "-place") {
		f.High, f.Most = l, l
		f.First = l * [...]float64{0.5, 0.25, 0.75, 0.125}[k]
		if in.Kind == "dust" {
			f.First = l * [...]float64{0.3, 0.7}[k]
		}
	}
	return f
}

// part is the k-th ingredient of its kind with its first values.
func (in *Ingredient) part(k int, l float64) Part {
	p := Part{Kind: in.Kind}
	for i := range in.Fields {
		p.Values = append(p.Values, in.field(k, i, l).First)
	}
	return p
}

// A RefusedError says which field of an exercise cannot be what it is.
type RefusedError struct{ ID, Text string }

// Error returns the field and the reason.
func (e *RefusedError) Error() string { return "study: " + e.ID + ": " + e.Text }

// check reports a value outside what can be typed.
func (f Movable) check(v float64) error {
	switch {
	case !(v >= f.Least && v <= f.Most):
		return &RefusedError{f.ID, fmt.Sprintf("From %g to %g.", f.Least, f.Most)}
	case f.Whole && v != math.Trunc(v):
		return &RefusedError{f.ID, "Whole numbers only."}
	}
	return nil
}
