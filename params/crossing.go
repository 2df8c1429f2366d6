package params

import "math"

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
