package study

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"example.com/furrow/params"
)

// Printed writes a number with three significant digits, as worked lines do.
func Printed(v float64) string { return printedTo(v, 3) }

func printedTo(v float64, digits int) string {
	if math.IsNaN(v) || math.IsInf(v, 0) {
		return "not defined"
	}
	return params.Arithmetic{Form: "{1}", Terms: []float64{v}, Result: v, Unit: params.Micrometre}.Work(digits).Result
}

// withUnit writes a number and its unit.
func withUnit(v float64, unit params.Unit) string {
	return strings.TrimSuffix(Printed(v)+" "+string(unit), " ")
}

// Shown is the value as printed, "" where there is none.
func (r *Result) Shown() string {
	v := r.Value.Value
	if math.IsNaN(v) {
		return ""
	}
	if r.Value.Unit == params.None && math.Abs(v) < 1e-12 { // what rounding leaves of a sum that cancels
		v = 0
	}
	if v == math.Trunc(v) && r.Value.Unit == params.None && math.Abs(v) < 1e6 {
		return printedTo(v, len(fmt.Sprintf("%.0f", math.Abs(v))))
	}
	if r.State.Surface == Typed { // exact: by hand it has to come out alike
		return plainly(v, typedDigits)
	}
	return Printed(v)
}

// typedDigits is how many digits values of typed heights have.
const typedDigits = 4

// reading is the height that can be read; typed heights are exact.
const reading = 0.001

// Change says how the value differs from the one before: for the eye, and for those who listen. before may be nil.
func (r *Result) Change(before *Result) (shown, said string) {
	v, unit := r.Value.Value, string(r.Value.Unit)
	now := spoken(r.Call.Symbol) + " " + strings.TrimSpace(r.Shown()+" "+spokenUnit(unit))
	if math.IsNaN(v) {
		now = spoken(r.Call.Symbol) + " not defined"
	}
	if before == nil || math.IsNaN(v) || math.IsNaN(before.Value.Value) {
		return "", now + "."
	}
	was := before.Value.Value
	now += ", before " + before.Shown()
	difference := v - was
	readable := r.Value.Unit != params.Micrometre || r.Call.Parameter.Group == params.GroupSpacing || r.State.Surface == Typed || math.Abs(difference) >= reading
	switch {
	case difference == 0:
		return "no difference", now + ", no difference."
	case !readable:
		return "no difference that can be read", now + ", no difference that can be read."
	}
	sign, way := "+", "up"
	if difference < 0 {
		sign, way = "−", "down"
	}
	shown = sign + " " + strings.TrimSuffix(likeValue(math.Abs(difference), r.Shown())+" "+unit, " ")
	if was > 0 {
		percent := printedTo(100*math.Abs(difference/was), 2)
		shown += " (" + sign + " " + percent + " %)"
		return shown, now + ", " + way + " by " + percent + " percent."
	}
	return shown, now + ", " + way + "."
}

// likeValue writes a difference with the decimals of a value, more where it would be zero.
func likeValue(difference float64, value string) string {
	rounded := math.Round(difference*math.Pow10(decimalsOf(value))) / math.Pow10(decimalsOf(value))
	if rounded == 0 {
		return printedTo(difference, 2)
	}
	return printedTo(rounded, max(1, int(math.Floor(math.Log10(rounded)+1e-9))+1+decimalsOf(value)))
}

// spoken writes a symbol for those who listen: "R z".
func spoken(symbol string) string {
	if len(symbol) > 1 && strings.ContainsAny(symbol[:1], "RPW") {
		return symbol[:1] + " " + symbol[1:]
	}
	return symbol
}

func spokenUnit(unit string) string {
	switch unit {
	case "µm":
		return "micrometres"
	case "%":
		return "percent"
	}
	return unit
}

// Removed says what was taken away before the profile was evaluated.
func (r *Result) Removed() string {
	if r.State.Filter.Kind == "none" {
		for _, p := range r.State.Parts {
			if r.State.Surface == Made && (p.Kind == "tilt" || p.Kind == "bow") && p.Values[0] != 0 {
				return "Removed: nothing. Tilt and bow are in the values."
			}
		}
		return "Removed: nothing."
	}
	set := r.Evaluation.Settings
	var parts []string
	switch set.Form.Kind {
	case "none", "":
	case "line":
		parts = append(parts, "straight line")
	default:
		parts = append(parts, set.Form.String())
	}
	if !set.Short.Off {
		parts = append(parts, "waves under "+printedShort(set.Short.Spec.Cutoff)+" µm")
	}
	if !set.Long.Off && set.Profile.String() == "R" {
		parts = append(parts, "waves over "+printedShort(set.Long.Spec.Cutoff/millimetre)+" mm")
	}
	if len(parts) == 0 {
		return "Removed: nothing."
	}
	return "Removed: " + strings.Join(parts, ", ") + "."
}

func printedShort(v float64) string { return fmt.Sprintf("%.6g", v) }

// Notes are what to say of surface and evaluation.
func (r *Result) Notes() []string {
	notes := r.SurfaceNotes()
	for _, n := range r.Evaluation.Notes {
		notes = append(notes, n.Text)
	}
	return notes
}

// SurfaceNotes are those of the notes that no value stands in.
func (r *Result) SurfaceNotes() []string {
	notes := []string{}
	if r.State.Surface == Made {
		for _, p := range r.State.Parts {
			if in := ingredientOf(p.Kind); in.notes != nil {
				if text := in.notes(p.Values); text != "" {
					notes = append(notes, text)
				}
			}
		}
	}
	if len(r.State.Moved) > 0 && r.State.Filter.Kind != "none" {
		notes = append(notes, "The filters see the change too: other points of the profile move a little.")
	}
	return notes
}

// Extent is the lowest and the highest height of the profile evaluated, or of the surface where nothing could be evaluated.
func (r *Result) Extent() (low, high float64) {
	z := r.Surface.Z
	if r.Input != nil && len(r.Input.Z) > 0 {
		z = r.Input.Z
	}
	if len(z) == 0 {
		return 0, 0
	}
	if r.how.extent == nil {
		r.how.extent = &[2]float64{slices.Min(z), slices.Max(z)}
	}
	return r.how.extent[0], r.how.extent[1]
}

// A Handle is a thing on the profile that can be dragged. X counts from the start of the trace.
type Handle struct {
	ID, Kind, Words string
	X, Y            float64
	Value           float64
	Low, High       float64
	Up, Down        float64 // the next higher and lower peak or pit; NaN: none
	Said            string
	Across          string // what is moved along the trace
	AcrossStep      float64
	AcrossValue     float64
}

// Handles are the things that can be dragged: cut levels, the ordinate, scratches and specks.
func (r *Result) Handles() []Handle {
	if r.Input == nil || len(r.Input.Z) == 0 {
		return nil
	}
	e := r.Evaluation
	var list []Handle
	low, high := r.Extent()
	for i, level := range r.cuts() {
		h := Handle{ID: "cut-level", Kind: "level", Words: "cut level", X: math.NaN(), Y: level, Value: level, Low: low, High: high}
		if i > 0 {
			h.ID, h.Words = "cut-level-2", "cut level 2"
		}
		h.Up, h.Down = r.stops(level)
		h.Said = fmt.Sprintf("%s %s micrometres, %s percent", h.Words, Printed(level), Printed(params.Rmr(r.Input.Z, level)))
		list = append(list, h)
	}
	profile := e.Profile()
	if profile == nil {
		profile = e.Primary
	}
	n := r.Ordinate()
	at := (n-1)/r.State.Every - e.First
	if at >= 0 && at < len(profile) {
		z := r.Surface.Z[at+e.First]
		list = append(list, Handle{ID: "ordinate-height", Kind: "point", Words: "height of one ordinate", X: float64(at+e.First) * e.Spacing, Y: profile[at],
			Value: z, Low: z - 2*(high-low), High: z + 2*(high-low), Up: math.NaN(), Down: math.NaN(),
			Said:   fmt.Sprintf("point %d, height %s micrometres", n, Printed(z)),
			Across: "ordinate-number", AcrossStep: 1, AcrossValue: float64(n)})
	}
	if l := r.looked(); l != nil {
		list = append(list, Handle{ID: l.id, Kind: "along", Words: l.words, X: e.StartLength() + l.from + l.value, Y: high, Value: l.value / l.unit, Low: l.low / l.unit, High: l.high / l.unit,
			Up: l.first / l.unit, Down: math.NaN(), Said: fmt.Sprintf("%s %s %s", l.words, plainly(l.value/l.unit, 4), map[bool]string{true: "millimetres", false: "micrometres"}[l.unit == millimetre]),
			Across: l.id, AcrossStep: (l.high - l.low) / l.unit / 200, AcrossValue: l.value / l.unit})
	}
	if r.State.Surface != Made {
		return list
	}
	for i, p := range r.State.Parts {
		if p.Kind != "scratch" && p.Kind != "dust" {
			continue
		}
		in, k := ingredientOf(p.Kind), r.State.nth(i)
		f, x := in.field(k, 2, r.State.Length), p.Values[0]*millimetre
		at := int(math.Round(x/e.Spacing)) - e.First
		if at < 0 || at >= len(profile) {
			continue
		}
		list = append(list, Handle{ID: f.ID, Kind: "part", Words: strings.ToLower(in.Words) + " " + f.Words, X: x, Y: profile[at], Value: p.Values[2],
			Low: f.Low, High: f.High, Up: math.NaN(), Down: math.NaN(), Said: fmt.Sprintf("%s at %s millimetres, %s %s micrometres", strings.ToLower(in.Words), Printed(p.Values[0]), f.Words, Printed(p.Values[2])),
			Across: in.field(k, 0, r.State.Length).ID, AcrossStep: r.State.Length / 200, AcrossValue: p.Values[0]})
	}
	return list
}

// stops are the nearest heights of a local peak or pit above and below a level.
func (r *Result) stops(level float64) (up, down float64) {
	up, down = math.NaN(), math.NaN()
	z := r.Input.Z
	for i := 1; i < len(z)-1; i++ {
		if (z[i]-z[i-1])*(z[i+1]-z[i]) > 0 {
			continue
		}
		if z[i] > level+1e-4 && !(z[i] >= up) {
			up = z[i]
		}
		if z[i] < level-1e-4 && !(z[i] <= down) {
			down = z[i]
		}
	}
	return up, down
}

// Stretch is the part of the trace that a step of the construction is about: that of its marks on the profile; NaN where it has none.
func (r *Result) Stretch(c *params.Construction, s params.Step) (from, to float64) {
	from, to = math.NaN(), math.NaN()
	if planeOf(c, s) != params.ProfilePlane {
		return from, to
	}
	for _, m := range s.Marks {
		for _, p := range m.Points {
			x := p.X + r.Evaluation.StartLength()
			if !(x >= from) {
				from = x
			}
			if !(x <= to) {
				to = x
			}
		}
	}
	return from, to
}

func planeOf(c *params.Construction, s params.Step) params.Plane {
	if s.Plane == "" {
		return c.Plane
	}
	return s.Plane
}

// OnProfile are the marks of a construction in another plane that lie on the profile, with those of the picked step.
func OnProfile(c *params.Construction, picked int) []params.Mark {
	var marks []params.Mark
	for i, s := range c.Steps {
		if planeOf(c, s) == params.ProfilePlane && (c.Plane != params.ProfilePlane || i+1 == picked) {
			marks = append(marks, s.Marks...)
		}
	}
	return marks
}
