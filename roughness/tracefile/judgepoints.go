package tracefile

import (
	"fmt"
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
func (j *judge) clipped() {
	low, high := slices.Min(j.z), slices.Max(j.z)
	a, b := longestRun(j.z, func(v float64) bool { return v != low && v != high })
	for _, c := range []struct {
		limit float64
		where string
	}{{high, "top"}, {low, "bottom"}} {
		from, to := longestRun(j.z, func(v float64) bool { return v == c.limit })
		if to-from < max(4, 3*(b-a)) || to == len(j.z) || from == 0 {
			continue // a run at an end is repeatedEnd's
		}
		count := 0
		for _, v := range j.z {
			if v == c.limit {
				count++
			}
		}
		j.find(Finding{Code: "clipped", Number: float64(count), Unit: "points", From: from, To: to,
			Text: fmt.Sprintf("%s are at the %s value %s µm, %d of them in a row at %s: the range of the instrument seems to end there.",
				plural(count, "point"), map[string]string{"top": "highest", "bottom": "lowest"}[c.where], number(c.limit), to-from, j.at(from)),
			Advice: "Measure again with a larger range; peak values from here are too small."})
	}
}

// repeatedEnd looks for one value that goes on to an end of the trace: eight points at least, and three times the longest run
// elsewhere.
func (j *judge) repeatedEnd() {
	n := len(j.z)
	tail := 1
	for tail < n && j.z[n-1-tail] == j.z[n-1] {
		tail++
	}
	head := 1
	for head < n && j.z[head] == j.z[0] {
		head++
	}
	if head+tail >= n {
		return
	}
	a, b := longestRun(j.z[head:n-tail], func(float64) bool { return true })
	least := max(8, 3*(b-a))
	for _, c := range []struct {
		count, from, to int
		word            string
	}{{head, 0, head, "first"}, {tail, n - tail, n, "last"}} {
		if c.count >= least {
			j.find(Finding{Code: "repeated-end", Number: float64(c.count), Unit: "points", From: c.from, To: c.to,
				Text:   fmt.Sprintf("The %s %d points all have the same height, %s µm.", c.word, c.count, number(j.z[c.from])),
				Advice: "The trace probably ended there and was filled up: crop it."})
		}
	}
}

// quantised looks whether all heights are multiples of one step, and how coarse it is: a finding from a twentieth of the
// standard deviation on.
func (j *judge) quantised() {
	values := slices.Clone(j.p.Z)
	values = slices.DeleteFunc(values, func(v float64) bool { return v != v })
	slices.Sort(values)
	values = slices.Compact(values)
	if len(values) < 3 || len(j.z) < 100 { // a few numbers written by hand are no measure of an instrument
		return
	}
	span := values[len(values)-1] - values[0]
	step := math.Inf(1)
	for i := 1; i < len(values); i++ {
		if d := values[i] - values[i-1]; d > 1e-9*span {
			step = min(step, d)
		}
	}
	if step < j.sigma/20 || math.IsInf(step, 1) {
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
	j.find(Finding{Code: "quantised", Number: step, Unit: "µm",
		Text: fmt.Sprintf("The heights come in steps of %s µm, %s %% of their standard deviation: %d different values in %d points.", number(round3(step)),
			number(round3(100*step/j.sigma)), len(values), len(j.z)),
		Advice: "Export more digits or measure with a smaller range; slopes and small roughness from this are coarse."})
}

// median of values, which are reordered.
func median(v []float64) float64 {
	slices.Sort(v)
	return v[len(v)/2]
}

// spikes looks for single or double points that leave their neighbours on both sides the same way by more than twelve times
// the usual bend of the trace, while the neighbours agree.
func (j *judge) spikes() {
	z, n := j.z, len(j.z)
	if n < 20 {
		return
	}
	bends := make([]float64, 0, n-2)
	for i := 1; i+1 < n; i++ {
		bends = append(bends, math.Abs(z[i]-(z[i-1]+z[i+1])/2))
	}
	usual := 1.4826 * median(bends)
	limit := max(12*usual, 0.5*j.sigma)
	count, best, where := 0, 0.0, 0
	for i := 1; i+1 < n; i++ {
		for _, width := range []int{1, 2} {
			if i+width >= n {
				continue
			}
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
	j.find(Finding{Code: "spikes", Number: float64(count), Unit: "points", From: where, To: where + 1,
		Text: fmt.Sprintf("%s of one or two points; the largest differs from its neighbours by %s µm, at %s, where %s µm is usual.", plural(count, "spike"),
			number(round3(best)), j.at(where), number(round3(usual))),
		Advice: "Dust or a lost signal: leave it out with a reason, and compare the values before and after."})
}

// step looks for a jump between two neighbours that stays: more than twenty times the usual difference, with the medians of fifty
// points on both sides as far apart as the jump.
func (j *judge) step() {
	z, n := j.z, len(j.z)
	const window = 50
	if n < 4*window {
		return
	}
	steps := make([]float64, n-1)
	for i := range steps {
		steps[i] = math.Abs(z[i+1] - z[i])
	}
	usual := 1.4826 * median(slices.Clone(steps))
	best, where := 0.0, 0
	for i := window; i+window < n; i++ {
		jump := steps[i-1]
		if jump <= 20*usual || jump <= math.Abs(best) {
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
		j.find(Finding{Code: "step", Number: best, Unit: "µm", From: where - 1, To: where + 1,
			Text:   fmt.Sprintf("The trace jumps by %s µm at %s and stays there.", number(round3(best)), j.at(where)),
			Advice: "A slip of the instrument or an edge of the part: evaluate one side of it only."})
	}
}
