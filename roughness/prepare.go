package roughness

import (
	"fmt"
	"math"
)

// prepared is a trace ready for the filters: no invalid point is left in z.
type prepared struct {
	z       []float64
	use     []bool // false: bridged, stays out of the form fit; nil when every point is measured
	first   int    // index in the trace of z[0]
	invalid int    // invalid points of the trace as read
	peak    float64
	notes   []Note

	buffer  []float64 // of z
	exclude []Exclusion
}

// prepare turns, crops and mends the trace as the settings say (step 1 of the order of operations).
func (out *prepared) prepare(p Profile, s *Settings) error {
	n := len(p.Z)
	*out = prepared{buffer: out.buffer, exclude: s.Exclude}
	fail := func(err error) error {
		*out = prepared{buffer: out.buffer}
		return err
	}
	if err := checkSpacing(p.Spacing); err != nil {
		return fail(err)
	}
	for i, v := range p.Z {
		switch {
		case math.IsNaN(v) || math.IsInf(v, 0):
			out.invalid++
		case math.Abs(v) > MaxHeight:
			return fail(tooHigh(i, v))
		case math.Abs(v) > out.peak:
			out.peak = math.Abs(v)
		}
	}
	z, lo := out.enter(p, s)
	if len(z) == 0 {
		return fail(nothingLeft(n, s))
	}
	hi := lo + len(z)
	a, b := lo, hi
	for a < b && math.IsNaN(z[a-lo]) {
		a++
	}
	for b > a && math.IsNaN(z[b-1-lo]) {
		b--
	}
	if a == b {
		return fail(nothingValid(n))
	}
	if cut := a - lo + hi - b; cut > 0 {
		out.notes = append(out.notes, endsNote(cut))
	}
	out.first = a
	out.z = z[a-lo : b-lo]
	excluded := max(*s.Bridge, s.Long.Spec.Cutoff/2)
	if s.Long.Spec.Cutoff == 0 {
		excluded = max(*s.Bridge, float64(len(out.z))*p.Spacing/10)
	}
	return out.bridge(p.Spacing, *s.Bridge, excluded, s.Exclude)
}

func checkSpacing(spacing float64) error {
	if !(spacing > 0) || math.IsInf(spacing, 0) {
		return &ProfileError{Index: -1, Err: ErrSpacing, Text: fmt.Sprintf("the spacing %g is not a length above 0", spacing)}
	}
	return nil
}

func tooHigh(i int, v float64) error {
	return &ProfileError{Index: i, Err: ErrHeight, Text: fmt.Sprintf("the height %g µm at point %d is larger than on any surface; check the unit", v, i+1)}
}

func nothingLeft(n int, s *Settings) error {
	return &ProfileError{Index: -1, Err: ErrNoPoints, Text: fmt.Sprintf("no point is left: the trace has %d, and the crop takes %g µm and %g µm", n, s.Crop[0], s.Crop[1])}
}

func nothingValid(n int) error {
	return &ProfileError{Index: -1, Err: ErrNoPoints, Text: fmt.Sprintf("none of the %d points is valid", n)}
}

func endsNote(points int) Note {
	return Note{"ends-invalid", count(points, "point") + " without a height at the ends of the trace left out."}
}

func bridgedNote(points, gaps int) Note {
	return Note{"bridged", fmt.Sprintf("%s in %s bridged by a straight line; bridged points are not used in the form fit.", count(points, "point"), count(gaps, "gap"))}
}

// checkGap refuses points from..to without a height, or left out, that are longer than most.
func checkGap(from, to int, what string, spacing, most float64) error {
	length := float64(to-from) * spacing
	if length <= most*(1+1e-9) {
		return nil
	}
	return &ProfileError{Index: from, Err: ErrGap, Text: fmt.Sprintf(
		"%s %s from %.6g µm on (point %d) make a gap of %.6g µm, longer than the %.6g µm that may be bridged; crop the trace so that the gap is not in it",
		count(to-from, "point"), what, float64(from)*spacing, from+1, length, most)}
}

const noHeight = "without a height"

// straight fills z with the straight line from the height a before it to b behind it.
func straight(z []float64, a, b float64) {
	for k := range z {
		t := float64(k+1) / float64(len(z)+1)
		z[k] = float64(a*(1-t)) + float64(b*t)
	}
}

// MaxHeight bounds a height, in micrometres, so that fourth powers and sums of them stay finite: a kilometre.
const MaxHeight = 1e9

// points is a length in whole points, with the tolerance of the contract.
func points(length, spacing float64) int {
	k := length / spacing
	if k > 1<<30 {
		return 1 << 30
	}
	return int(math.Floor(k + 1e-9))
}

// leaveOut removes the heights that the settings leave out, and says which and why.
func (p *prepared) leaveOut(z []float64, first int, spacing float64, exclude []Exclusion) {
	for _, e := range exclude {
		left := 0
		// the points between, and one more on each side for rounding; the exact test stands in the loop
		lo, hi := min(max(points(max(e.From, 0), spacing)-first-1, 0), len(z)), min(max(points(max(e.To, 0), spacing)-first+3, 0), len(z))
		for i := lo; i < hi; i++ {
			if x := float64(first+i) * spacing; x >= e.From-float64(1e-9*spacing) && x <= e.To+float64(1e-9*spacing) && !math.IsNaN(z[i]) {
				z[i] = math.NaN()
				left++
			}
		}
		p.note("left-out", "%s from %.6g to %.6g µm left out: %s.", count(left, "point"), e.From, e.To, e.Reason)
	}
}

// bridge closes each gap of invalid points by a straight line and marks it. A gap of the trace longer than limit is an
// error, and so is a part left out that is longer than excluded: half the cut-off of the L-filter, or a tenth of the trace without
// one (own choice). Beyond that the values would be those of the straight line.
func (p *prepared) bridge(spacing, limit, excluded float64, exclude []Exclusion) error {
	gaps, bridged := 0, 0
	for i := 0; i < len(p.z); i++ {
		if !math.IsNaN(p.z[i]) {
			continue
		}
		j := i
		for math.IsNaN(p.z[j]) {
			j++
		}
		most, what := limit, noHeight
		if covered(p.first+i, p.first+j, spacing, exclude) {
			most, what = excluded, "left out"
		}
		if err := checkGap(p.first+i, p.first+j, what, spacing, most); err != nil {
			return err
		}
		if p.use == nil {
			p.use = make([]bool, len(p.z))
			for k := range p.use {
				p.use[k] = true
			}
		}
		straight(p.z[i:j], p.z[i-1], p.z[j])
		clear(p.use[i:j])
		gaps++
		bridged += j - i
		i = j
	}
	if gaps > 0 {
		p.notes = append(p.notes, bridgedNote(bridged, gaps))
	}
	return nil
}

// covered reports whether the settings leave out at least one of the points from..to.
func covered(from, to int, spacing float64, exclude []Exclusion) bool {
	for _, e := range exclude {
		if float64(to-1)*spacing >= e.From && float64(from)*spacing <= e.To {
			return true
		}
	}
	return false
}

// Entering returns what enters an evaluation with the settings (nil for none): the trace turned over, cropped and with parts left out
// as NaN, and the point of the trace that it starts with.
func Entering(p Profile, s *Settings) (z []float64, first int) {
	if s == nil {
		s = &Settings{}
	}
	return new(prepared).enter(p, s)
}

func (out *prepared) enter(p Profile, s *Settings) (z []float64, first int) {
	lo, hi := points(s.Crop[0], p.Spacing), len(p.Z)-points(s.Crop[1], p.Spacing)
	if lo >= hi {
		return nil, min(lo, len(p.Z))
	}
	z = append(out.buffer[:0], p.Z[lo:hi]...)
	out.buffer = z
	for i, v := range z {
		switch {
		case math.IsInf(v, 0):
			z[i] = math.NaN()
		case s.Invert:
			z[i] = -v
		}
	}
	out.leaveOut(z, lo, p.Spacing, s.Exclude)
	return z, lo
}

func (p *prepared) note(code, format string, args ...any) {
	p.notes = append(p.notes, Note{Code: code, Text: fmt.Sprintf(format, args...)})
}
