package params

import (
	"math"
	"slices"
)

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
	complete := closed(w.copyParts(w.allParts()))
	if len(complete) < 2 {
		e.reason = reasonNoCrossing
		return e
	}
	e.parts = w.discriminate(complete, e.limits)
	if len(e.parts) < 2 {
		e.reason = reasonNoElement
		return e
	}
	e.list = w.pairs.take(len(e.parts) - 1)
	for i := range e.list {
		e.list[i] = element{e.parts[i], e.parts[i+1]}
	}
	return e
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
	complete := closed(w.copyParts(w.allParts()))
	if len(complete) < 2 {
		e.reason = reasonNoCrossing
		return
	}
	e.parts = w.discriminate(complete, e.limits)
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
