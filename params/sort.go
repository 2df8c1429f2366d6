package params

import (
	"math"
	"slices"
)

// radixFrom is the number of heights from which counting digits is faster than comparing.
const radixFrom = 512

// sorted returns all heights from the highest to the lowest.
func (w *work) sorted() []float64 {
	if w.descending != nil {
		return w.descending
	}
	s := w.floats(w.n)
	w.descending = s
	if w.n < radixFrom {
		copy(s, w.z)
		slices.Sort(s)
		slices.Reverse(s)
		return s
	}
	keys := w.keys.take(2 * w.n)
	for i, v := range w.z {
		keys[i] = fallingKey(v)
	}
	for i, k := range radixSort(keys[:w.n], keys[w.n:]) {
		s[i] = fallingHeight(k)
	}
	return s
}

// fallingKey maps heights to numbers that rise as the heights fall: the bits of a float already rise with it above
// zero, and fall with it below.
func fallingKey(v float64) uint64 {
	b := math.Float64bits(v)
	if b>>63 == 0 {
		return b ^ (1<<63 - 1)
	}
	return b
}

// fallingHeight is the inverse of fallingKey.
func fallingHeight(k uint64) float64 {
	if k>>63 == 0 {
		return math.Float64frombits(k ^ (1<<63 - 1))
	}
	return math.Float64frombits(k)
}

// radixSort sorts keys, rising, by one byte after the other from the last; other is room for as many. It returns the one
// of the two that holds the result.
func radixSort(keys, other []uint64) []uint64 {
	var counts [8][256]int
	for _, k := range keys {
		for d := range counts {
			counts[d][byte(k>>(8*d))]++
		}
	}
	for d := range counts {
		count := &counts[d]
		if count[byte(keys[0]>>(8*d))] == len(keys) {
			continue // all alike
		}
		at := 0
		for i, c := range count {
			count[i] = at
			at += c
		}
		for _, k := range keys {
			i := byte(k >> (8 * d))
			other[count[i]] = k
			count[i]++
		}
		keys, other = other, keys
	}
	return keys
}
