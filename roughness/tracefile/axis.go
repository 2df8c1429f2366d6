package tracefile

import (
	"math"
	"strconv"
)

// even is how far an x may lie from its place, and a step from the median step, as a part of the step.
const even = 0.02

// axis holds x against the grid from its first to its last value. It returns the step of the grid (below 0 where x falls),
// or the index of the point at which x leaves it and the reason.
func axis(x []float64) (step float64, bad int, err error) {
	n := len(x)
	step = (x[n-1] - x[0]) / float64(n-1)
	off := -1
	if step == 0 {
		off = 1
	}
	slack := 4 * ulp(max(math.Abs(x[0]), math.Abs(x[n-1]))) // what the sums round away
	for i, v := range x {
		if math.Abs(v-(x[0]+float64(step*float64(i)))) > even*math.Abs(step)+slack {
			off = i
			break
		}
	}
	if off < 0 {
		return step, 0, nil
	}
	m := (n - 1) / 2
	median := kthStep(x, m)
	if (n-1)%2 == 0 {
		median = (kthStep(x, m-1) + median) / 2
	}
	rising := median > 0 || median == 0 && step > 0
	for i := 1; i < n; i++ {
		switch d := x[i] - x[i-1]; {
		case d == 0:
			return step, i, because(ErrRepeated, "x is %s as in the row before", number(x[i]))
		case math.Abs(d-median) <= even*math.Abs(median)+slack:
		case d > 0 != rising:
			return step, i, because(ErrTurns, "x turns back: %s follows %s", number(x[i]), number(x[i-1]))
		default:
			return step, i, because(ErrUneven, "x is not evenly spaced: the step here is %s, the median step %s", number(d), number(median))
		}
	}
	return step, off, because(ErrUneven, "x is not evenly spaced: %s is more than 2 %% of a step off the grid from first to last, at %s",
		number(x[off]), number(x[0]+step*float64(off)))
}

// kthStep is the step of x that has k others before it in order of size. It halves what the value can be until one is left, which
// takes 64 walks over x and no memory.
func kthStep(x []float64, k int) float64 {
	low, high := uint64(0), uint64(math.MaxUint64)
	for low < high {
		mid := low + (high-low)/2
		upTo := 0
		for i := 1; i < len(x); i++ {
			if ordered(x[i]-x[i-1]) <= mid {
				upTo++
			}
		}
		if upTo > k {
			high = mid
		} else {
			low = mid + 1
		}
	}
	if low>>63 == 0 {
		return math.Float64frombits(^low)
	}
	return math.Float64frombits(low &^ (1 << 63))
}

// ordered are the bits of a number as a whole number that grows with it.
func ordered(v float64) uint64 {
	if b := math.Float64bits(v + 0); b>>63 == 0 { // no negative zero
		return b | 1<<63
	} else {
		return ^b
	}
}

// strict returns the first point at which x does not go on in the direction of the whole.
func strict(x []float64) (int, error) {
	rising := x[len(x)-1] > x[0]
	for i := 1; i < len(x); i++ {
		switch {
		case x[i] == x[i-1]:
			return i, because(ErrRepeated, "x is %s as in the row before", number(x[i]))
		case x[i] > x[i-1] != rising:
			return i, because(ErrTurns, "x turns back: %s follows %s", number(x[i]), number(x[i-1]))
		}
	}
	return 0, nil
}

func number(v float64) string { return strconv.FormatFloat(v, 'g', 10, 64) }

// spacing turns the step of a grid into µm.
func spacing(first, last float64, n int, u unit) float64 {
	return tidy(u.value(math.Abs(last-first)/float64(n-1)), 2*ulp(max(math.Abs(first), math.Abs(last)))/float64(n-1)*u.factor)
}

// ulp is the distance from v, which is not below 0, to the next number.
func ulp(v float64) float64 { return math.Nextafter(v, math.Inf(1)) - v }

// tidy drops last digits that only come from the arithmetic: where the value with 12 digits lies within the rounding error
// of it, that is it.
func tidy(v, within float64) float64 {
	short, _ := strconv.ParseFloat(strconv.FormatFloat(v, 'g', 12, 64), 64)
	if math.Abs(short-v) <= within+4*ulp(v) {
		return short
	}
	return v
}
