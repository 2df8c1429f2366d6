package tracefile

import (
	"errors"
	"math"
	"slices"
	"strconv"
)

// even is how far an x may lie from its place, and a step from the median step, as a part of the step.
const even = 0.02

// axis holds x against the grid from its first to its last value. It returns the step of the grid (below 0 where x falls),
// or the index of the point at which x leaves it and the reason.
func axis(x []float64) (step float64, bad int, err error) {
	n := len(x)
	step = (x[n-1] - x[0]) / float64(n-1)
	off := -1
	if step == 0 {
		off = 1
	}
	slack := float64(4 * ulp(max(math.Abs(x[0]), math.Abs(x[n-1])))) // what the sums round away
	for i, v := range x {
		if math.Abs(v-(x[0]+float64(step*float64(i)))) > float64(even*math.Abs(step))+slack {
			off = i
			break
		}
	}
	if off < 0 {
		return step, 0, nil
	}
	m := (n - 1) / 2
	median := kthStep(x, m)
	if (n-1)%2 == 0 {
		median = (kthStep(x, m-1) + median) / 2
	}
	rising := median > 0 || median == 0 && step > 0
	for i := 1; i < n; i++ {
		d := x[i] - x[i-1]
		if d != 0 && math.Abs(d-median) <= float64(even*math.Abs(median))+slack {
			continue
		}
		if err := onward(x, i, rising); err != nil {
			return step, i, err
		}
		return step, i, because(ErrUneven, "x is not evenly spaced: the step here is %s, the median step %s", number(d), number(median))
	}
	return step, off, because(ErrUneven, "x is not evenly spaced: %s is more than 2 %% of a step off the grid from first to last, at %s",
		number(x[off]), number(x[0]+float64(step*float64(off))))
}

// kthStep is the step of x that has k others before it in order of size. It halves what the value can be until one is left, which
// takes 64 walks over x and no memory.
func kthStep(x []float64, k int) float64 {
	low, high := uint64(0), uint64(math.MaxUint64)
	for low < high {
		mid := low + (high-low)/2
		upTo := 0
		for i := 1; i < len(x); i++ {
			if ordered(x[i]-x[i-1]) <= mid {
				upTo++
			}
		}
		if upTo > k {
			high = mid
		} else {
			low = mid + 1
		}
	}
	if low>>63 == 0 {
		return math.Float64frombits(^low)
	}
	return math.Float64frombits(low &^ (1 << 63))
}

// ordered are the bits of a number as a whole number that grows with it.
func ordered(v float64) uint64 {
	if b := math.Float64bits(v + 0); b>>63 == 0 { // no negative zero
		return b | 1<<63
	} else {
		return ^b
	}
}

// strict returns the first point at which x does not go on in the direction of the whole.
func strict(x []float64) (int, error) {
	rising := x[len(x)-1] > x[0]
	for i := 1; i < len(x); i++ {
		if err := onward(x, i, rising); err != nil {
			return i, err
		}
	}
	return 0, nil
}

// onward is the error of an x that does not go on from the one before.
func onward(x []float64, i int, rising bool) error {
	switch {
	case x[i] == x[i-1]:
		return because(ErrRepeated, "x is %s as in the row before", number(x[i]))
	case x[i] > x[i-1] != rising:
		return because(ErrTurns, "x turns back: %s follows %s", number(x[i]), number(x[i-1]))
	}
	return nil
}

func number(v float64) string { return strconv.FormatFloat(v, 'g', 10, 64) }

// spacing turns the step of a grid into µm.
func spacing(first, last float64, n int, u unit) float64 {
	return tidy(u.value(math.Abs(last-first)/float64(n-1)), 2*ulp(max(math.Abs(first), math.Abs(last)))/float64(n-1)*u.factor)
}

// ulp is the distance from v, which is not below 0, to the next number.
func ulp(v float64) float64 { return math.Nextafter(v, math.Inf(1)) - v }

// place gives a trace of a file with absolute x in u its spacing. bad is the number of the point that is wrong, from 1, or 0.
func place(t *Trace, x []float64, u unit, hints *Hints) (bad int, err error) {
	n := len(x)
	t.Report.SpacingBy = "x"
	switch {
	case n < 2 && hints.Spacing > 0:
		t.Profile.Spacing, t.Report.SpacingBy = hints.Spacing, "hint spacing"
		return 0, nil
	case n < 2:
		return 1, Questions{ask("spacing", "one point has no spacing")}
	}
	for i, v := range x {
		if math.IsNaN(v) || math.IsInf(v, 0) {
			return i + 1, because(ErrMissingX, "point %d has no x", i+1)
		}
	}
	step, bad, err := axis(x)
	if hints.Resample && errors.Is(err, ErrUneven) {
		bad, err = strict(x)
	}
	if err != nil {
		return bad + 1, because(err, "point %d: %v", bad+1, err)
	}
	if step < 0 {
		slices.Reverse(x)
		reverse(t)
	}
	first, last := u.value(x[0]), u.value(x[n-1])
	s := tidy(math.Abs(last-first)/float64(n-1), 4*ulp(math.Abs(last)))
	t.Origin, t.Profile.Spacing = first, s
	if !hints.Resample {
		return 0, nil
	}
	if hints.Spacing > 0 {
		s = hints.Spacing
	}
	return 0, resample(t, x, u, s)
}

// stepped gives a trace the spacing that its file states, below 0 where x falls.
func stepped(t *Trace, step float64, by string) {
	t.Profile.Spacing, t.Report.SpacingBy = math.Abs(step), by
	if step < 0 {
		reverse(t)
	}
}

// reverse turns the heights round.
func reverse(t *Trace) {
	slices.Reverse(t.Profile.Z)
	t.Report.Turned = true
	t.note("turned", "x falls in the file; the trace was turned round.")
}

// tidy drops last digits that only come from the arithmetic: where the value with 12 digits lies within the rounding error
// of it, that is it.
func tidy(v, within float64) float64 {
	short, _ := strconv.ParseFloat(strconv.FormatFloat(v, 'g', 12, 64), 64)
	if math.Abs(short-v) <= within+float64(4*ulp(v)) {
		return short
	}
	return v
}

// maxFiner bounds the points that resampling makes where they are more than four times those there are.
const maxFiner = 1 << 22

// resample lays the points at x (in u, rising strictly from the origin of the trace) on an even grid by a natural cubic spline through the
// valid ones. A new point between two valid ones that have an invalid one between them is invalid. x and the heights of t are used up.
func resample(t *Trace, x []float64, u unit, spacing float64) error {
	for i, v := range x {
		x[i] = u.value(v) - t.Origin
	}
	length, points := x[len(x)-1], len(x)
	xs, z, gaps := valid(x, t.Profile.Z)
	count := math.Floor(length/spacing+1e-9) + 1
	switch {
	case !(count <= max(maxFiner, 4*float64(points))):
		return because(ErrLimit, "resampling at %s µm would make %s points", number(spacing), number(count))
	case len(xs) < 2:
		return because(ErrNoData, "resampling needs two valid points")
	}
	s := newSpline(xs, z)
	out := make([]float64, int(count))
	tolerance := float64(1e-9 * spacing)
	k := 0
	for i := range out {
		at := float64(i) * spacing
		for k+2 < len(xs) && xs[k+1] <= at {
			k++
		}
		out[i] = s.at(at, k)
		if at < xs[0]-tolerance || at > xs[len(xs)-1]+tolerance ||
			gaps != nil && gaps[k+1] && at > xs[k]+tolerance && at < xs[k+1]-tolerance {
			out[i] = math.NaN()
		}
	}
	t.note("resampled", "%s were resampled to an even grid of %s µm (%s) by a natural cubic spline, as asked.",
		plural(points, "point"), number(spacing), plural(len(out), "point"))
	t.Profile.Z, t.Profile.Spacing = out, spacing
	t.Report.SpacingBy = "resampled"
	return nil
}

// valid moves the valid points to the front of both slices. gaps, nil where all are valid, says of each point whether an invalid one
// stands before it.
func valid(x, z []float64) (_, _ []float64, gaps []bool) {
	k, gap := 0, false
	for i, v := range z {
		if v != v {
			if gaps == nil {
				gaps = make([]bool, len(z))
			}
			gap = true
			continue
		}
		if gaps != nil {
			gaps[k] = gap
		}
		x[k], z[k], gap = x[i], v, false
		k++
	}
	return x[:k], z[:k], gaps
}

// spline is a natural cubic spline: second derivatives at the knots, 0 at both ends.
type spline struct{ x, z, m []float64 }

// newSpline solves the tridiagonal system for the second derivatives; x rises strictly.
func newSpline(x, z []float64) *spline {
	n := len(x)
	m, c := make([]float64, n), make([]float64, n)
	for i := 1; i+1 < n; i++ {
		h0, h1 := x[i]-x[i-1], x[i+1]-x[i]
		d := float64(6 * ((z[i+1]-z[i])/h1 - (z[i]-z[i-1])/h0))
		b := 2*(h0+h1) - float64(h0*c[i-1])
		c[i] = h1 / b
		m[i] = (d - float64(h0*m[i-1])) / b
	}
	for i := n - 2; i > 0; i-- {
		m[i] -= float64(c[i] * m[i+1])
	}
	return &spline{x, z, m}
}

// at evaluates in the interval from knot k.
func (s *spline) at(x float64, k int) float64 {
	switch x {
	case s.x[k]:
		return s.z[k]
	case s.x[k+1]:
		return s.z[k+1]
	}
	h := s.x[k+1] - s.x[k]
	a, b := (s.x[k+1]-x)/h, (x-s.x[k])/h
	return float64(a*s.z[k]) + float64(b*s.z[k+1]) + (float64((float64(a*a*a)-a)*s.m[k])+float64((float64(b*b*b)-b)*s.m[k+1]))*h*h/6
}
