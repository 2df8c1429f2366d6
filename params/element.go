package params

import (
	"math"
	"slices"
)

// A part is a piece of the profile on one side of the reference line, between two crossings: a hill above it or a dale
// below it. Positions are in points from the start of the evaluation length, crossings between the points.
type part struct {
	hill     bool
	from, to float64 // the crossings
	top      int     // index of the highest or lowest point, the first of equals
	height   float64 // of that point above the line, or below it; positive
	// open says that the part begins or ends with the profile, not with a crossing.
	open bool
}

// appendParts appends the parts of z, whose first point has the index offset. Beyond the first and the last crossing
// they are open.
//
// The crossing between two points of opposite sign is where the straight line between them is zero. Points that lie
// on the line, up to the height flat, are no part of their own: between opposite signs the crossing is in the middle of their run,
// between equal signs there is none, and at the ends they are left out.
func appendParts(parts []part, z []float64, offset int, flat float64) []part {
	last := -1 // index of the last point off the line
	var p part
	for i, v := range z {
		if v <= flat && v >= -flat {
			continue
		}
		hill := v > 0
		switch {
		case last < 0:
			p = part{hill: hill, from: float64(offset + i), top: offset + i, height: math.Abs(v), open: true}
		case hill != p.hill:
			at := float64(last) + z[last]/(z[last]-v)
			if i-last > 1 {
				at = float64(last+i) / 2
			}
			p.to = float64(offset) + at
			parts = append(parts, p)
			p = part{hill: hill, from: p.to, top: offset + i, height: math.Abs(v)}
		case math.Abs(v) > p.height:
			p.top, p.height = offset+i, math.Abs(v)
		}
		last = i
	}
	if last >= 0 {
		p.to, p.open = float64(offset+last), true
		parts = append(parts, p)
	}
	return parts
}

// allParts returns the parts of the whole evaluation length, none of them removed.
func (w *work) allParts() []part {
	if !w.have.parts {
		w.have.parts = true
		w.parts = w.partsOf(w.z, 0)
	}
	return w.parts
}

// sectionParts returns the parts of section k, none of them removed; at the borders they are open.
func (w *work) sectionParts(k int) []part {
	if w.bySection == nil {
		w.bySection = make([][]part, w.count)
		for i := range w.bySection {
			w.bySection[i] = w.partsOf(w.sectionAt(i), i*w.section)
		}
	}
	return w.bySection[k]
}

// partsOf returns the parts of a piece of the profile whose first point has the index offset.
func (w *work) partsOf(z []float64, offset int) []part {
	most := 1
	for i := 1; i < len(z); i++ {
		if (z[i] > 0) != (z[i-1] > 0) {
			most++
		}
	}
	return appendParts(w.partArena.take(most + 1)[:0], z, offset, w.in.Flat)
}

// A discrimination says which parts count.
type discrimination struct {
	hill, dale float64 // least height of a hill, least depth of a dale
	width      float64 // least width in points
	of         ElementWidth
}

// counts tells whether a part is significant. What reaches a threshold counts; the rounding of the threshold, a share of
// a mean, must not decide.
func (d discrimination) counts(p *part) bool {
	least := d.dale
	if p.hill {
		least = d.hill
	}
	return p.height >= least*(1-1e-12) && (d.of != WidthOfPart || d.wide(p, p))
}

// wide tells whether the stretch from the start of one part to the end of another is as wide as asked.
func (d discrimination) wide(first, last *part) bool { return last.to-first.from >= d.width*(1-1e-12) }

// countsBeside tells whether the part i counts, with the neighbours it has: where the width is asked of an element, a part
// that makes too narrow a one with a neighbour does not.
func (d discrimination) countsBeside(parts []part, left, i, right int) bool {
	p := &parts[i]
	return d.counts(p) && (d.of != WidthOfElement ||
		(left < 0 || d.wide(&parts[left], p)) && (right >= len(parts) || d.wide(p, &parts[right])))
}

// discriminate removes, in place, the parts that do not count, and returns the others, which alternate.
//
// The lowest part that does not count goes first, the leftmost of equals; the two parts beside it lie on one side of
// the line and become one. A part at the end of the list has only one neighbour and is dropped. The order depends
// neither on the direction of travel nor on which side is up. A joined part is as high as the higher of the two and
// at least as wide, and so are the elements it belongs to: what counts once counts to the end, and one pass in the order
// of height is enough.
func (w *work) discriminate(parts []part, d discrimination) []part {
	n := len(parts)
	order := w.ints(n)[:0]
	for i := range parts {
		if !d.countsBeside(parts, i-1, i, i+1) {
			order = append(order, i)
		}
	}
	if len(order) == 0 {
		return parts
	}
	sortByHeight(order, parts)
	links := w.ints(2 * n)
	next, prev := links[:n], links[n:]
	for i := range n {
		next[i], prev[i] = i+1, i-1
	}
	const gone = -2
	remove := func(i int) {
		if p := prev[i]; p >= 0 {
			next[p] = next[i]
		}
		if x := next[i]; x < n {
			prev[x] = prev[i]
		}
		prev[i] = gone
	}
	for _, i := range order {
		if prev[i] == gone || d.countsBeside(parts, prev[i], i, next[i]) {
			continue
		}
		left, right := prev[i], next[i]
		remove(i)
		if left < 0 || right >= n {
			continue
		}
		// The higher of the two neighbours takes over the other.
		keep, drop := left, right
		if parts[right].height > parts[left].height {
			keep, drop = right, left
		}
		parts[keep].from, parts[keep].to = parts[left].from, parts[right].to
		remove(drop)
	}
	kept := parts[:0]
	for i := range n {
		if prev[i] != gone {
			kept = append(kept, parts[i])
		}
	}
	return kept
}

// An element is a hill with the dale beside it.
type element struct {
	first, second part
}

func (e *element) spacing() float64 { return e.second.to - e.first.from } // in points
func (e *element) height() float64  { return e.first.height + e.second.height }

// elements are the profile elements of an evaluation, in one of two ways.
type elements struct {
	parts    []part // what counts, alternating
	sections []int  // ISO 4287: the section each element belongs to; nil otherwise
	list     []element
	limits   discrimination
	reason   string // why there are none
}

const (
	reasonNoCrossing = "the profile does not cross the reference line often enough for one hill beside one dale"
	reasonNoElement  = "no hill beside a dale is high enough to count"
)

// profileElements segments the profile by crossing the line, as ISO 21920 has it: over the evaluation length, complete
// parts only, thresholds of height only, and an element from every pair of neighbours, hill with dale and dale with
// hill, so that the direction of travel does not matter.
func (w *work) profileElements() *elements {
	e := &w.elements
	if w.have.elements {
		return e
	}
	w.have.elements = true
	if w.flat() {
		e.reason = reasonFlat
		return e
	}
	x := w.extremes()
	peak, pit := 0.0, 0.0
	for k := range w.count {
		peak += w.z[x.sectionHigh[k]]
		pit -= w.z[x.sectionLow[k]]
	}
	n := float64(w.count)
	e.limits = discrimination{hill: 0.1 * max(0, peak/n), dale: 0.1 * max(0, pit/n)}
	if w.in.Choices.ElementThreshold == CommonHeight {
		e.limits.hill = 0.1 * (peak + pit) / n
		e.limits.dale = e.limits.hill
	}
	if w.discriminateAll(e); len(e.parts) < 2 {
		return e
	}
	e.list = w.pairs.take(len(e.parts) - 1)
	for i := range e.list {
		e.list[i] = element{e.parts[i], e.parts[i+1]}
	}
	return e
}

// discriminateAll finds the parts of the evaluation length that count, or the reason why there are no two.
func (w *work) discriminateAll(e *elements) {
	complete := closed(w.copyParts(w.allParts()))
	if len(complete) < 2 {
		e.reason = reasonNoCrossing
	} else if e.parts = w.discriminate(complete, e.limits); len(e.parts) < 2 {
		e.reason = reasonNoElement
	}
}

func (w *work) copyParts(parts []part) []part {
	c := w.partArena.take(len(parts))
	copy(c, parts)
	return c
}

// closed drops the open parts at the ends.
func closed(parts []part) []part {
	if len(parts) > 0 && parts[0].open {
		parts = parts[1:]
	}
	if n := len(parts); n > 0 && parts[n-1].open {
		parts = parts[:n-1]
	}
	return parts
}

// sortByHeight sorts indices of parts from the lowest part to the highest, the leftmost of equals first.
func sortByHeight(order []int, parts []part) {
	slices.SortFunc(order, func(a, b int) int {
		switch {
		case parts[a].height < parts[b].height:
			return -1
		case parts[a].height > parts[b].height:
			return 1
		}
		return a - b
	})
}

// samplingElements segments the profile as ISO 4287 has it, in one of the ways its text allows: 10 % of the height
// and 1 % of the sampling length, and elements of two neighbouring parts that share none with the next.
func (w *work) samplingElements() *elements { return w.elementsByWidth(w.in.Choices.ElementWidth) }

// elementsByWidth asks the width of what the reading says.
func (w *work) elementsByWidth(of ElementWidth) *elements {
	e := &w.sampled[of]
	if w.have.sampled[of] {
		return e
	}
	w.have.sampled[of] = true
	e.limits = discrimination{of: of}
	if of != WidthNotAsked {
		e.limits.width = 0.01 * float64(w.section)
	}
	if w.flat() {
		e.reason = reasonFlat
		return e
	}
	if w.in.Choices.SpacingMode == StrictSections {
		w.strictElements(e)
	} else {
		w.completeElements(e)
	}
	if len(e.list) == 0 && e.reason == "" {
		e.reason = reasonNoElement
	}
	return e
}

// completeElements segments the whole length once, with the mean Rz, keeps the complete parts and gives an element to
// the section in which its first crossing lies. What begins in the points left over after the last section is left out.
func (w *work) completeElements(e *elements) {
	x := w.extremes()
	height := 0.0
	for k := range w.count {
		height += w.z[x.sectionHigh[k]] - w.z[x.sectionLow[k]]
	}
	least := 0.1 * height / float64(w.count)
	e.limits.hill, e.limits.dale = least, least
	w.discriminateAll(e)
	e.list, e.sections = w.pairs.take(len(e.parts) / 2)[:0], w.ints(len(e.parts) / 2)[:0]
	for i := 0; i+1 < len(e.parts); i += 2 {
		k := int(math.Floor(e.parts[i].from / float64(w.section)))
		if k < w.count {
			e.list = append(e.list, element{e.parts[i], e.parts[i+1]})
			e.sections = append(e.sections, k)
		}
	}
}

// strictElements takes every sampling length on its own. The part at its start counts as a peak or valley, the one at
// its end is left to the next.
func (w *work) strictElements(e *elements) {
	x := w.extremes()
	for k := range w.count {
		least := 0.1 * (w.z[x.sectionHigh[k]] - w.z[x.sectionLow[k]])
		limits := e.limits
		limits.hill, limits.dale = least, least
		parts := w.copyParts(w.sectionParts(k))
		if len(parts) < 2 {
			continue
		}
		parts[0].from = float64(k * w.section)
		parts = w.discriminate(parts[:len(parts)-1], limits)
		e.parts = append(e.parts, parts...)
		for i := 0; i+1 < len(parts); i += 2 {
			e.list = append(e.list, element{parts[i], parts[i+1]})
			e.sections = append(e.sections, k)
		}
	}
}
