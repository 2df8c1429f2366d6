package tracefile

import (
	"bytes"
	"runtime/debug"
	"strconv"
)

// Reading text takes at most factor times the file in memory, the file included, and slack besides. What would take more is refused
// before its numbers are read.
const (
	factor = 6
	slack  = 4 << 20
)

// MaxSize is how many bytes a file may have to be read here: 4 GB, or 512 MB where an address has 32 bits or the program runs in a
// browser, and never more than a sixth of the memory limit that the program was given (GOMEMLIMIT). A file that is larger is refused
// before it is read.
func MaxSize() int64 {
	most := int64(4) << 30
	if strconv.IntSize == 32 || inBrowser {
		most = 512 << 20
	}
	return min(most, debug.SetMemoryLimit(-1)/factor)
}

// CheckSize returns an error that wraps [ErrSize] for a file that is too large to be read here.
func CheckSize(bytes int64) error {
	if most := MaxSize(); bytes > most {
		return &Error{Err: because(ErrSize, "a file of %d MB is larger than the %d MB that can be read here; reading needs up to %d times its size in memory",
			(bytes+999_999)/1_000_000, most/1_000_000, factor)}
	}
	return nil
}

// room is memory for the numbers of one reading, which the next reading of the same file takes over: a file with many traces, or one
// that could be read in several ways, takes no more than one that is read once.
type room struct{ x, y, z []float64 }

// take returns an empty slice for n numbers.
func take(from *[]float64, n int) []float64 {
	if cap(*from) < n {
		*from = nil // before the larger one is there
		*from = make([]float64, 0, n)
	}
	return (*from)[:0]
}

// fits returns how many rows there can be from start on, or the error of a file whose rows are too short for what they would take:
// nearly all of them blank lines, each of which stands for a missing point.
func (r *reader) fits(want columns, start int) (int, error) {
	columns := 1
	for _, c := range []int{want.x, want.y} {
		if c >= 0 {
			columns++
		}
	}
	if r.hints.Resample && want.x >= 0 {
		columns += 4 // the spline, and what it makes
	}
	room := int64(factor-1)*int64(r.size) + slack
	if r.own {
		room -= int64(len(r.data))
	}
	most := int(room / int64(8*columns))
	n := bytes.Count(r.data[start:], []byte("\n")) + 1
	if n <= most {
		return n, nil
	}
	points := want.x < 0 && r.hints.BlankLines != "skip" // blank lines are
	if !points {
		if n = r.filledLines(start); n <= most {
			return n, nil
		}
	}
	err := because(ErrLimit, "%s this short would need more than %d times the size of the file in memory", plural(n, "row"), factor)
	if points {
		err = because(ErrLimit, "%s, of which the blank ones are missing points, would need more than %d times the size of the file in memory; to leave blank lines out, give the hint \"blank_lines\" as \"skip\"",
			plural(n, "line"), factor)
	}
	return 0, r.errorAt(start, err)
}

// filledLines counts the lines from start on that are not blank.
func (r *reader) filledLines(start int) int {
	n, filled := 0, false
	for _, c := range r.data[start:] {
		switch {
		case c == '\n':
			filled = false
		case c > ' ' && !filled:
			n++
			filled = true
		}
	}
	return n
}
