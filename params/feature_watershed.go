package params

import "math"

// An Extreme is a local peak or a local pit of a profile.
type Extreme struct {
	At   float64 // position in samples from the first height; a plateau's is its middle, so it may lie between two samples
	Z    float64 // height from the reference line, up positive, for a pit too
	Peak bool
}

// Extremes returns the local peaks and pits of z from left to right; they alternate. A plateau counts as one extreme at
// its middle. The two ends of z are no extremes: what lies beyond them is not known.
func Extremes(z []float64) []Extreme {
	return appendExtremes(nil, z)
}

// countExtremes returns how many extremes z has.
func countExtremes(z []float64) int {
	count, last := 0, 0.0
	for i := 1; i < len(z); i++ {
		if d := z[i] - z[i-1]; d != 0 {
			if d > 0 && last < 0 || d < 0 && last > 0 {
				count++
			}
			last = d
		}
	}
	return count
}

func appendExtremes(dst []Extreme, z []float64) []Extreme {
	rising, falling := false, false // the way into the current plateau
	start := 0                      // where it began
	for i := 1; i < len(z); i++ {
		if z[i] == z[i-1] {
			continue
		}
		up := z[i] > z[i-1]
		if up && falling || !up && rising {
			dst = append(dst, Extreme{At: float64(start+i-1) / 2, Z: z[i-1], Peak: rising})
		}
		rising, falling, start = up, !up, i
	}
	return dst
}

// Watershed returns the peaks and pits of z that are left after Wolf pruning: every remaining hill has a local height,
// and every remaining dale a local depth, of at least threshold.
//
//	local height of a hill = peak - higher of the pits beside it
//	local depth of a dale  = lower of the peaks beside it - pit
//
// The neighbouring peak and pit that are nearest in height are deleted together, the leftmost of equals first, until
// all are at least threshold apart. Beyond each end the profile is taken to fall for ever as seen by a hill and to rise
// for ever as seen by a dale, so the first and last are limited by their inner neighbour alone.
func Watershed(z []float64, threshold float64) []Extreme {
	return prune(Extremes(z), threshold, new(scratch))
}

// prune deletes from the alternating list e, in place.
func prune(e []Extreme, threshold float64, s *scratch) []Extreme {
	p := pruning{extremes: e, threshold: threshold, links: s.links.take(len(e)), heap: s.near.take(len(e))[:0]}
	for i := range e {
		p.links[i] = link{prev: int32(i - 1), next: int32(i + 1)}
		if i > 0 {
			p.offer(int32(i-1), int32(i))
		}
	}
	if len(p.heap) == 0 {
		return e
	}
	for len(p.heap) > 0 {
		pair := p.pop()
		left, right := &p.links[pair.left], &p.links[pair.right]
		if left.deleted || right.deleted {
			continue
		}
		left.deleted, right.deleted = true, true
		l, r := left.prev, right.next
		if l >= 0 {
			p.links[l].next = r
		}
		if int(r) < len(e) {
			p.links[r].prev = l
		}
		if l >= 0 && int(r) < len(e) {
			p.offer(l, r)
		}
	}
	kept := e[:0]
	for i, x := range e {
		if !p.links[i].deleted {
			kept = append(kept, x)
		}
	}
	return kept
}

// A pruning is the list of extremes, linked, with the pairs that are too close in height in a heap.
type pruning struct {
	extremes  []Extreme
	threshold float64
	links     []link
	heap      []neighbours // the first is the nearest in height, the leftmost of equals
}

type link struct {
	prev, next int32
	deleted    bool
}

// neighbours are a peak and a pit next to each other.
type neighbours struct {
	apart       float64
	left, right int32
}

func (a neighbours) before(b neighbours) bool {
	if a.apart != b.apart {
		return a.apart < b.apart
	}
	return a.left < b.left
}

// offer puts a pair on the heap when it is closer than the threshold.
func (p *pruning) offer(left, right int32) {
	x := neighbours{math.Abs(p.extremes[left].Z - p.extremes[right].Z), left, right}
	if x.apart >= p.threshold {
		return
	}
	i := len(p.heap)
	p.heap = append(p.heap, x)
	for i > 0 {
		parent := (i - 1) / 2
		if !x.before(p.heap[parent]) {
			break
		}
		p.heap[i] = p.heap[parent]
		i = parent
	}
	p.heap[i] = x
}

// pop takes the first pair off the heap.
func (p *pruning) pop() neighbours {
	first, last := p.heap[0], p.heap[len(p.heap)-1]
	p.heap = p.heap[:len(p.heap)-1]
	i := 0
	for {
		child := 2*i + 1
		if child >= len(p.heap) {
			break
		}
		if child+1 < len(p.heap) && p.heap[child+1].before(p.heap[child]) {
			child++
		}
		if !p.heap[child].before(last) {
			break
		}
		p.heap[i] = p.heap[child]
		i = child
	}
	if len(p.heap) > 0 {
		p.heap[i] = last
	}
	return first
}
