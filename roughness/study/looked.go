package study

import (
	"math"
	"slices"
	"strings"

	"example.com/furrow/params"
)

// A looked is a length along the profile that can be dragged: the place of a window, the shift of a copy, a limit of the motifs. Lengths in
// µm; those of the evaluation length count from its start.
type looked struct {
	id, words   string
	from, value float64 // it ends at from + value
	low, high   float64
	first       float64
	unit        float64 // of its field, in µm
	marks       []params.Mark
}

// looked is what can be dragged along the profile for the symbol; nil where nothing can.
func (r *Result) looked() *looked {
	if r.Input == nil || len(r.Input.Z) < 2 {
		return nil
	}
	p, z, dx := r.Call.Parameter, r.Input.Z, r.Input.Dx
	length := float64(len(z)) * dx
	_, high := r.Extent()
	switch {
	case p.Key == "Rzx":
		l := r.Call.Args[0]
		if math.IsNaN(l) {
			l = float64(r.Evaluation.SectionPoints) * r.Evaluation.Spacing
		}
		n := int(math.Round(l / dx))
		if n < 2 || n > len(z) {
			return nil
		}
		worst := worstWindow(z, n)
		k := worst
		if r.State.Window != nil {
			k = max(0, min(len(z)-n, int(math.Round(*r.State.Window*millimetre/dx))))
		}
		out := &looked{id: "window-from", words: "start of the window", value: float64(k) * dx, high: float64(len(z)-n) * dx, first: float64(worst) * dx, unit: millimetre}
		if r.State.Window != nil {
			w := z[k : k+n]
			top, bottom := slices.Index(w, slices.Max(w)), slices.Index(w, slices.Min(w))
			at := func(i int) params.Point { return params.Point{X: float64(k+i) * dx, Y: w[i]} }
			out.marks = []params.Mark{
				{Kind: params.SpanMark, Label: "height here " + withUnit(w[top]-w[bottom], params.Micrometre), Points: []params.Point{{X: float64(k) * dx, Y: high}, {X: float64(k+n-1) * dx, Y: high}}},
				{Kind: params.PeakMark, Points: []params.Point{at(top)}}, {Kind: params.PitMark, Points: []params.Point{at(bottom)}},
			}
		}
		return out
	case p.Key == "Ral":
		first := r.Value.Value
		if math.IsNaN(first) {
			first = 0
		}
		out := &looked{id: "shift", words: "shift of the copy", value: first, high: length / 2, first: first, unit: 1}
		if r.State.Shift != nil {
			k := max(0, min(len(z)/2, int(math.Round(*r.State.Shift/dx))))
			out.value = float64(k) * dx
			copied := make([]params.Point, 0, len(z)-k)
			for i := k; i < len(z); i++ {
				copied = append(copied, params.Point{X: float64(i) * dx, Y: z[i-k]})
			}
			out.marks = []params.Mark{{Kind: params.LineMark, Label: "copy, f = " + plainly(alike(z, k), 3), Points: copied}}
		}
		return out
	case p.Group == params.GroupMotif:
		for i, a := range p.Args {
			id := argumentID(p, i)
			if !strings.HasPrefix(id, "limit-") || proposed(p.Key, r.State.Surface) != id {
				continue
			}
			v := math.Min(r.Call.Args[i], length)
			return &looked{id: id, words: "limit " + a.Name, value: v, low: 20, high: math.Min(10000, length), first: a.Default, unit: 1,
				marks: []params.Mark{{Kind: params.SpanMark, Label: a.Name, Points: []params.Point{{X: 0, Y: high}, {X: v, Y: high}}}}}
		}
	}
	return nil
}

// Looked are the marks of what is dragged along the profile.
func (r *Result) Looked() []params.Mark {
	if l := r.looked(); l != nil {
		return l.marks
	}
	return nil
}

// worstWindow is where the window of n points with the largest height begins, the first of several.
func worstWindow(z []float64, n int) int {
	var tops, bottoms []int // indices of falling and of rising heights in the window
	at, largest := 0, math.Inf(-1)
	for i, v := range z {
		for len(tops) > 0 && z[tops[len(tops)-1]] <= v {
			tops = tops[:len(tops)-1]
		}
		for len(bottoms) > 0 && z[bottoms[len(bottoms)-1]] >= v {
			bottoms = bottoms[:len(bottoms)-1]
		}
		tops, bottoms = append(tops, i), append(bottoms, i)
		if tops[0] <= i-n {
			tops = tops[1:]
		}
		if bottoms[0] <= i-n {
			bottoms = bottoms[1:]
		}
		if h := z[tops[0]] - z[bottoms[0]]; i >= n-1 && h > largest {
			at, largest = i-n+1, h
		}
	}
	return at
}

// alike is how much a profile resembles itself after a shift of k points: the mean product of the heights that overlap, over the mean square of
// all.
func alike(z []float64, k int) float64 {
	sum, all := 0.0, 0.0
	for i, v := range z {
		all += v * v
		if i >= k {
			sum += z[i-k] * v
		}
	}
	return sum / float64(len(z)-k) / (all / float64(len(z)))
}
