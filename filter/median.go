package filter

// median returns the middle value of v, the mean of the two middle ones for an even number, and reorders v. It is 0 for none.
func median(v []float64) float64 {
	n := len(v)
	if n == 0 {
		return 0
	}
	upper := nth(v, n/2)
	if n%2 == 1 {
		return upper
	}
	lower := v[0] // nth left all that is not greater before n/2
	for _, x := range v[:n/2] {
		if x > lower {
			lower = x
		}
	}
	return lower + float64((upper-lower)/2)
}

// nth reorders v so that v[k] is what it would be in order, with nothing greater before it, and returns it.
func nth(v []float64, k int) float64 {
	lo, hi := 0, len(v)-1
	for lo < hi {
		// Median of three, moved to the middle, keeps ordered and constant input fast.
		mid := lo + (hi-lo)/2
		if v[mid] < v[lo] {
			v[mid], v[lo] = v[lo], v[mid]
		}
		if v[hi] < v[lo] {
			v[hi], v[lo] = v[lo], v[hi]
		}
		if v[hi] < v[mid] {
			v[hi], v[mid] = v[mid], v[hi]
		}
		pivot := v[mid]
		i, j := lo, hi
		for i <= j {
			for v[i] < pivot {
				i++
			}
			for v[j] > pivot {
				j--
			}
			if i <= j {
				v[i], v[j] = v[j], v[i]
				i++
				j--
			}
		}
		switch {
		case k <= j:
			hi = j
		case k >= i:
			lo = i
		default:
			return v[k]
		}
	}
	return v[k]
}
