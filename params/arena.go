package params

// An arena lends slices and takes them all back at once, so that evaluating many profiles in turn allocates little.
type arena[T any] struct {
	block []T
	used  int // of the block
	dirty int // the block is zero from here on
	asked int // items lent since the last reset
	want  int // items lent in the round before, where that was more than the block had
}

// take returns n zero values, with no room to grow.
func (a *arena[T]) take(n int) []T {
	a.asked += n
	if a.used+n > len(a.block) {
		a.block, a.used, a.dirty = make([]T, max(n, 2*len(a.block), a.want, 64)), 0, 0
	}
	s := a.block[a.used : a.used+n : a.used+n]
	a.used += n
	clear(s[:min(n, max(0, a.dirty-(a.used-n)))])
	a.dirty = max(a.dirty, a.used)
	return s
}

// reset takes all slices back. What did not fit into one block gets a new one when the next round asks first: who evaluates
// a single long profile never pays for it.
func (a *arena[T]) reset() {
	if a.asked > len(a.block) {
		a.block, a.dirty, a.want = nil, 0, a.asked
	}
	a.used, a.asked = 0, 0
}
