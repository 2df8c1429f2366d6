package inspect

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"example.com/furrow/filter"
)

// longestRun finds the longest run of one value for which keep is true.
func longestRun(z []float64, keep func(from, to int) bool) (from, to int) {
	for i := 0; i < len(z); {
		k := i + 1
		for k < len(z) && z[k] == z[i] {
			k++
		}
		if k-i > to-from && keep(i, k) {
			from, to = i, k
		}
		i = k
	}
	return from, to
}

// A Clip is a limit that cuts heights off: many of them are equal to it, and none lies beyond.
type Clip struct {
	High     bool    // the highest height of the trace; else the lowest
	Limit    float64 // µm
	Points   int     // at the limit
	From, To int     // the longest run of them, To behind the last
	Sure     bool    // no digits of the file and no smooth top explain the run, see Clips
}

// Side is "highest" or "lowest".
func (c Clip) Side() string {
	if c.High {
		return "highest"
	}
	return "lowest"
}

// Clips looks for runs of equal heights (µm, NaN where there is none) at the highest or the lowest height, away from the ends, that are
// longer than any run between: four points at least, and three times as long. A clip is sure where neither digits nor a smooth top explain the
// run: the heights do not come in coarse steps, which make such runs of every flat top, and the run is too long for the top of a parabola
// or falls off at both ends by more than three steps. Rounded to steps, such a top falls off by two at most, and stays at its highest
// step for at most 4.83 = 2/(√2 - 1) times as long as at the next one. The limits are the project's own choice.
func Clips(z []float64) []Clip {
	low, high := math.Inf(1), math.Inf(-1)
	for _, v := range z {
		if v < low {
			low = v
		}
		if v > high {
			high = v
		}
	}
	var found []Clip
	between := 0
	for _, limit := range []float64{high, low} {
		c := Clip{High: limit == high, Limit: limit}
		c.From, c.To = longestRun(z, func(from, to int) bool { return z[from] == limit && from > 0 && to < len(z) })
		if c.To-c.From < 4 {
			continue
		}
		if between == 0 {
			a, b := longestRun(z, func(from, _ int) bool { return z[from] != low && z[from] != high })
			between = b - a
		}
		if c.To-c.From < 3*between {
			continue
		}
		for _, v := range z {
			if v == limit {
				c.Points++
			}
		}
		step, different, coarse := coarseStep(z, deviation(detrend(bridged(z), 2)))
		falls := min(math.Abs(limit-z[c.From-1]), math.Abs(limit-z[c.To])) // NaN beside a gap
		c.Sure = !coarse && different > 2 && (falls > 3*step || c.To-c.From > 5*(between+1))
		found = append(found, c)
	}
	return found
}

// Clipped says in words that heights (µm) are surely cut off, see Clips; empty where they are not. No value may be judged then: peaks and pits
// are lost, and a sloping trace gets a kink at the end of the range, which the L-filter shows as roughness.
func Clipped(z []float64) string {
	var ends []string
	for _, c := range Clips(z) {
		if c.Sure {
			ends = append(ends, fmt.Sprintf("%d points are at its %s height", c.Points, c.Side()))
		}
	}
	if ends == nil {
		return ""
	}
	return "The trace is clipped: " + strings.Join(ends, ", ") + ". Values from it can be too small."
}

// clipped tells of the clips.
func (t *trace) clipped() {
	for _, c := range Clips(t.z) {
		end := "the range of the instrument seems to end there"
		if !c.Sure {
			end = "the range of the instrument may end there, or the heights come in steps that are too coarse for a flat top"
		}
		t.find(Observation{Code: "clipped", Number: float64(c.Points), Unit: "points", From: c.From, To: c.To,
			Advice: "Measure again with a larger range; peak values from here are too small."},
			"%s are at the %s value %v µm, %d of them in a row at %s: %s.", plural(c.Points, "point"), c.Side(), c.Limit, c.To-c.From, t.at(c.From), end)
	}
}

// repeatedEnd looks for one value that goes on to an end of the trace: eight points at least, and three times the longest run
// elsewhere.
func (t *trace) repeatedEnd() {
	n := len(t.z)
	tail := 1
	for tail < n && t.z[n-1-tail] == t.z[n-1] {
		tail++
	}
	head := 1
	for head < n && t.z[head] == t.z[0] {
		head++
	}
	if head+tail >= n {
		return
	}
	a, b := longestRun(t.z[head:n-tail], func(int, int) bool { return true })
	for i, end := range []filter.Gap{{From: 0, To: head}, {From: n - tail, To: n}} {
		if count := end.To - end.From; count >= max(8, 3*(b-a)) {
			t.find(Observation{Code: "repeated-end", Number: float64(count), Unit: "points", From: end.From, To: end.To,
				Advice: "The trace probably ended there and was filled up: crop it."},
				"The %s %d points all have the same height, %v µm.", [...]string{"first", "last"}[i], count, t.z[end.From])
		}
	}
}

// coarseStep returns the step that all heights are multiples of, and how many different ones there are. A step is coarse from a twentieth of
// their standard deviation sigma on; a few numbers written by hand are no measure of an instrument.
func coarseStep(z []float64, sigma float64) (step float64, different int, coarse bool) {
	values := slices.DeleteFunc(slices.Clone(z), math.IsNaN)
	slices.Sort(values)
	values = slices.Compact(values)
	step = math.Inf(1)
	if len(values) < 3 || len(z) < 100 {
		return step, len(values), false
	}
	span := values[len(values)-1] - values[0]
	for i := 1; i < len(values); i++ {
		if d := values[i] - values[i-1]; d > 1e-9*span {
			step = min(step, d)
		}
	}
	if step < sigma/20 || math.IsInf(step, 1) {
		return step, len(values), false
	}
	odd := 0
	for i := 1; i < len(values); i++ {
		k := (values[i] - values[i-1]) / step
		if math.Abs(k-math.Round(k)) > 0.02 {
			odd++
		}
	}
	return step, len(values), 50*odd <= len(values)
}

// quantised looks whether all heights are multiples of one coarse step.
func (t *trace) quantised() {
	step, different, coarse := coarseStep(t.p.Z, t.sigma)
	if !coarse {
		return
	}
	t.find(Observation{Code: "quantised", Number: step, Unit: "µm",
		Advice: "Export more digits or measure with a smaller range; slopes and small roughness from this are coarse."},
		"The heights come in steps of %v µm, %v %% of their standard deviation: %d different values in %d points.", round3(step),
		round3(100*step/t.sigma), different, len(t.z))
}

// median of values, which are reordered.
func median(v []float64) float64 {
	slices.Sort(v)
	return v[len(v)/2]
}

// usual is what values around zero usually are: the deviation of a normal distribution with the same median of |v|.
func usual(v []float64) float64 { return 1.4826 * median(v) }

// spikes looks for single or double points that leave their neighbours on both sides the same way by more than twelve times
// the usual bend of the trace, while the neighbours agree.
func (t *trace) spikes() {
	z, n := t.z, len(t.z)
	if n < 20 {
		return
	}
	bends := make([]float64, 0, n-2)
	for i := 1; i+1 < n; i++ {
		bends = append(bends, math.Abs(z[i]-float64((z[i-1]+z[i+1])/2)))
	}
	common := usual(bends)
	limit := max(12*common, 0.5*t.sigma)
	count, best, where := 0, 0.0, 0
	for i := 1; i+1 < n; i++ {
		for width := 1; width <= 2 && i+width < n; width++ {
			a, b := z[i-1], z[i+width]
			mid := float64((a + b) / 2)
			out, other := z[i]-mid, z[i+width-1]-mid
			if math.Abs(out) > limit && math.Abs(other) > limit && out > 0 == (other > 0) && math.Abs(a-b) < 0.3*math.Abs(out) {
				count++
				if math.Abs(out) > math.Abs(best) {
					best, where = out, i
				}
				i += width
				break
			}
		}
	}
	if count == 0 || count > n/50 { // many of them are the surface
		return
	}
	t.find(Observation{Code: "spikes", Number: float64(count), Unit: "points", From: where, To: where + 1,
		Advice: "Dust or a lost signal: leave it out with a reason, and compare the values before and after."},
		"%s of one or two points; the largest differs from its neighbours by %v µm, at %s, where %v µm is usual.", plural(count, "spike"),
		round3(best), t.at(where), round3(common))
}

// step looks for a jump between two neighbours that stays: more than twenty times the usual difference, with the medians of fifty
// points on both sides as far apart as the jump.
func (t *trace) step() {
	z, n := t.z, len(t.z)
	const window = 50
	if n < 4*window {
		return
	}
	steps := make([]float64, n-1)
	for i := range steps {
		steps[i] = math.Abs(z[i+1] - z[i])
	}
	common := usual(slices.Clone(steps))
	best, where := 0.0, 0
	for i := window; i+window < n; i++ {
		jump := steps[i-1]
		if jump <= 20*common || jump <= math.Abs(best) {
			continue
		}
		before, after := slices.Clone(z[i-window:i]), slices.Clone(z[i:i+window])
		rise := median(after) - median(before)
		scatter := max(after[3*window/4]-after[window/4], before[3*window/4]-before[window/4])
		if math.Abs(rise) > 0.7*jump && math.Abs(rise) < 1.5*jump && jump > 3*scatter {
			best, where = rise, i
		}
	}
	if where > 0 {
		t.find(Observation{Code: "step", Number: best, Unit: "µm", From: where - 1, To: where + 1,
			Advice: "A slip of the instrument or an edge of the part: evaluate one side of it only."},
			"The trace jumps by %v µm at %s and stays there.", round3(best), t.at(where))
	}
}
