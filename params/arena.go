package params

// An arena lends slices and takes them all back at once, so that evaluating many profiles in turn allocates little.
type arena[T any] struct {
	block []T
	used  int
	asked int // items lent since the last reset
}

// take returns n zero values, with no room to grow.
func (a *arena[T]) take(n int) []T {
	a.asked += n
	if a.used+n > len(a.block) {
		a.block, a.used = make([]T, max(n, 2*len(a.block), 64)), 0
	}
	s := a.block[a.used : a.used+n : a.used+n]
	a.used += n
	clear(s)
	return s
}

// reset takes all slices back. The block is then as large as the last round needed in all.
func (a *arena[T]) reset() {
	if a.asked > len(a.block) {
		a.block = make([]T, a.asked)
	}
	a.used, a.asked = 0, 0
}
