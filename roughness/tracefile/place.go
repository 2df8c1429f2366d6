package tracefile

import (
	"errors"
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"

	"example.com/furrow/roughness"
)

// maxPoints bounds what a header may announce.
const maxPoints = 1 << 27

// scaled is a unit with the factor that a file puts before it.
type scaled struct {
	unit
	scale float64
	mul   float64 // value is v*mul, or v/div where div is not 0: one rounding
	div   float64
}

func newScaled(u unit, scale float64) scaled {
	s := scaled{unit: u, scale: scale, mul: u.factor * scale}
	if k := math.Round(math.Log10(u.factor)); math.Pow10(int(k)) == u.factor {
		s.mul = shift10(scale, int(k))
	}
	if k := math.Round(math.Log10(s.mul)); k < 0 && k > -22 && math.Pow10(int(k)) == s.mul {
		s.div = math.Pow10(-int(k))
	}
	return s
}

// value converts a stored number to µm.
func (s scaled) value(v float64) float64 {
	if s.div != 0 {
		return v / s.div
	}
	return v * s.mul
}

// shift10 is v times a power of ten as one would do it on paper: 5e-07 becomes 0.5 and nothing beside it.
func shift10(v float64, k int) float64 {
	digits, exponent, _ := strings.Cut(strconv.FormatFloat(v, 'e', -1, 64), "e")
	e, err := strconv.Atoi(exponent)
	if err != nil {
		return v * math.Pow10(k)
	}
	out, _ := strconv.ParseFloat(digits+"e"+strconv.Itoa(e+k), 64)
	return out
}

// metres is the unit of SDF and X3P.
var metres = unit{text: "m", factor: 1e6}

// maxFields bounds the lines of a file that are kept.
const maxFields = 10_000

// keep stores a line that furrow has no use for, so that writing the trace again loses nothing.
func (t *Trace) keep(key, value string) {
	switch {
	case len(t.Fields) < maxFields:
		t.Fields = append(t.Fields, Field{key, value})
	case !slices.ContainsFunc(t.Notes, func(n roughness.Note) bool { return n.Code == "fields" }):
		t.note("fields", fmt.Sprintf("The file has more than %d lines of information beside the heights; the rest was left out.", maxFields))
	}
}

// place gives a trace of a file with absolute x its spacing. The error's Column is the number of the point from 1.
func place(t *Trace, x []float64, u scaled, hints *Hints) *Error {
	n := len(x)
	t.Report.SpacingBy = "x"
	if n < 2 {
		if hints.Spacing > 0 {
			t.Profile.Spacing, t.Report.SpacingBy = hints.Spacing, "hint spacing"
			return nil
		}
		return &Error{Column: 1, Err: Questions{ask("spacing", "one point has no spacing")}}
	}
	for i, v := range x {
		if math.IsNaN(v) || math.IsInf(v, 0) {
			return &Error{Column: i + 1, Err: because(ErrMissingX, "point %d has no x", i+1)}
		}
	}
	step, bad, err := axis(x)
	if err != nil && hints.Resample && errors.Is(err, ErrUneven) {
		bad, err = strict(x)
	}
	if err != nil {
		return &Error{Column: bad + 1, Err: because(err, "point %d: %v", bad+1, err)}
	}
	if step < 0 {
		slices.Reverse(x)
		reverse(t)
	}
	s := math.Abs(u.value(x[n-1])-u.value(x[0])) / float64(n-1)
	s = tidy(s, 4*(math.Nextafter(math.Abs(u.value(x[n-1])), math.Inf(1))-math.Abs(u.value(x[n-1]))))
	t.Origin = u.value(x[0])
	t.Profile.Spacing = s
	if hints.Resample {
		to := s
		if hints.Spacing > 0 {
			to = hints.Spacing
		}
		xs := make([]float64, n)
		for i, v := range x {
			xs[i] = u.value(v) - u.value(x[0])
		}
		return resample(t, xs, to)
	}
	return nil
}

// reverse turns the heights round.
func reverse(t *Trace) {
	slices.Reverse(t.Profile.Z)
	t.Report.Turned = true
	t.note("turned", "x falls in the file; the trace was turned round.")
}

// finish converts the heights, counts, and holds the outcome against what a float64 can say.
func (t *Trace) finish(u scaled) error {
	if s := t.Profile.Spacing; !(s > 0) || math.IsInf(s, 0) {
		return because(ErrFormat, "the points lie %g µm apart, which is not a distance", s)
	}
	invalid, infinite := 0, 0
	for i, v := range t.Profile.Z {
		stored := v
		v = u.value(v)
		switch {
		case v != v:
			invalid++
		case math.IsInf(v, 0) && math.IsInf(stored, 0): // what some writers put for no height
			v = math.NaN()
			invalid++
			infinite++
		case math.IsInf(v, 0):
			return because(ErrNumber, "the height of point %d is too large to be counted in µm", i+1)
		}
		t.Profile.Z[i] = v
	}
	if infinite > 0 {
		t.note("infinite", fmt.Sprintf("%s stored as infinite were read as missing.", plural(infinite, "height")))
	}
	r := &t.Report
	r.Points, r.Invalid, r.Spacing = len(t.Profile.Z), invalid, t.Profile.Spacing
	r.ZUnit, r.ZUnitBy = u.text, "file"
	if u.scale != 1 {
		r.ZUnit = fmt.Sprintf("%s times %s", u.text, number(u.scale))
	}
	return nil
}
