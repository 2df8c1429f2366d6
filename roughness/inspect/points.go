package inspect

import (
	"example.com/furrow/filter"
	"math"
	"slices"
)

// longestRun finds the longest run of one value for which keep is true.
func longestRun(z []float64, keep func(v float64) bool) (from, to int) {
	for i := 0; i < len(z); {
		k := i + 1
		for k < len(z) && z[k] == z[i] {
			k++
		}
		if k-i > to-from && keep(z[i]) {
			from, to = i, k
		}
		i = k
	}
	return from, to
}

// clipped looks for runs at the highest or the lowest value that are longer than any run between: four points at least, and three
// times as long.
func (t *trace) clipped() {
	low, high := slices.Min(t.z), slices.Max(t.z)
	a, b := longestRun(t.z, func(v float64) bool { return v != low && v != high })
	for i, limit := range []float64{high, low} {
		from, to := longestRun(t.z, func(v float64) bool { return v == limit })
		if to-from < max(4, 3*(b-a)) || to == len(t.z) || from == 0 {
			continue // a run at an end is repeatedEnd's
		}
		count := 0
		for _, v := range t.z {
			if v == limit {
				count++
			}
		}
		t.find(Observation{Code: "clipped", Number: float64(count), Unit: "points", From: from, To: to,
			Advice: "Measure again with a larger range; peak values from here are too small."},
			"%s are at the %s value %v µm, %d of them in a row at %s: the range of the instrument seems to end there.",
			plural(count, "point"), [...]string{"highest", "lowest"}[i], limit, to-from, t.at(from))
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
	a, b := longestRun(t.z[head:n-tail], func(float64) bool { return true })
	for i, end := range []filter.Gap{{From: 0, To: head}, {From: n - tail, To: n}} {
		if count := end.To - end.From; count >= max(8, 3*(b-a)) {
			t.find(Observation{Code: "repeated-end", Number: float64(count), Unit: "points", From: end.From, To: end.To,
				Advice: "The trace probably ended there and was filled up: crop it."},
				"The %s %d points all have the same height, %v µm.", [...]string{"first", "last"}[i], count, t.z[end.From])
		}
	}
}

// quantised looks whether all heights are multiples of one step, and how coarse it is: a finding from a twentieth of the
// standard deviation on.
func (t *trace) quantised() {
	values := slices.DeleteFunc(slices.Clone(t.p.Z), math.IsNaN)
	slices.Sort(values)
	values = slices.Compact(values)
	if len(values) < 3 || len(t.z) < 100 { // a few numbers written by hand are no measure of an instrument
		return
	}
	span := values[len(values)-1] - values[0]
	step := math.Inf(1)
	for i := 1; i < len(values); i++ {
		if d := values[i] - values[i-1]; d > 1e-9*span {
			step = min(step, d)
		}
	}
	if step < t.sigma/20 || math.IsInf(step, 1) {
		return
	}
	odd := 0
	for i := 1; i < len(values); i++ {
		k := (values[i] - values[i-1]) / step
		if math.Abs(k-math.Round(k)) > 0.02 {
			odd++
		}
	}
	if 50*odd > len(values) {
		return
	}
	t.find(Observation{Code: "quantised", Number: step, Unit: "µm",
		Advice: "Export more digits or measure with a smaller range; slopes and small roughness from this are coarse."},
		"The heights come in steps of %v µm, %v %% of their standard deviation: %d different values in %d points.", round3(step),
		round3(100*step/t.sigma), len(values), len(t.z))
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
		bends = append(bends, math.Abs(z[i]-(z[i-1]+z[i+1])/2))
	}
	common := usual(bends)
	limit := max(12*common, 0.5*t.sigma)
	count, best, where := 0, 0.0, 0
	for i := 1; i+1 < n; i++ {
		for width := 1; width <= 2 && i+width < n; width++ {
			a, b := z[i-1], z[i+width]
			out := z[i] - (a+b)/2
			other := z[i+width-1] - (a+b)/2
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
