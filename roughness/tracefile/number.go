package tracefile

import (
	"bytes"
	"math"
	"slices"
	"strconv"
	"strings"
	"unicode/utf8"
)

// grammar is how the numbers of a file are written.
type grammar struct {
	decimal byte // '.' or ','
	group   byte // mark that may stand between groups of three digits, or 0
}

// powers that a float64 holds exactly.
var powers = [...]float64{1e0, 1e1, 1e2, 1e3, 1e4, 1e5, 1e6, 1e7, 1e8, 1e9, 1e10, 1e11, 1e12, 1e13, 1e14, 1e15, 1e16,
	1e17, 1e18, 1e19, 1e20, 1e21, 1e22}

// plainNumber reads a number without grouping at b[i:] and returns where it ends. It gives up (ok false) on everything
// unusual, which wholeNumber then looks at. A result is rounded correctly: either mantissa and power of ten are exact in a
// float64 and one operation rounds, or strconv does it.
func plainNumber(b []byte, i int, decimal byte) (v float64, end int, ok bool) {
	sign := uint64(0) // without a jump, for signs come in no order
	if i < len(b) {
		c, step := b[i], 0
		if c == '-' {
			sign = 1 << 63
		}
		if (c-'+')&^('-'-'+') == 0 { // one of both
			step = 1
		}
		i += step
	}
	from, m, exp := i, uint64(0), 0
	for uint(i) < uint(len(b)) { // unsigned, so that one comparison is enough
		d := uint64(b[i]) - '0'
		if d > 9 {
			break
		}
		m = m*10 + d
		i++
	}
	count := i - from
	if uint(i) < uint(len(b)) && b[i] == decimal {
		i++
		from = i
		for uint(i) < uint(len(b)) {
			d := uint64(b[i]) - '0'
			if d > 9 {
				break
			}
			m = m*10 + d
			i++
		}
		exp = from - i
		count -= exp
	}
	if uint(count-1) > 18 { // none, or so many that they could overflow the mantissa
		return 0, i, false
	}
	if uint(i) < uint(len(b)) && b[i]|0x21 == 'e' {
		e, end, ok := exponent(b, i+1)
		if !ok {
			return 0, i, false
		}
		exp += e
		i = end
	}
	switch down, up := uint(-exp), uint(exp); {
	case m < 1<<53 && down < uint(len(powers)):
		v = float64(int64(m)) / powers[down]
	case m < 1<<53 && up < uint(len(powers)):
		v = float64(int64(m)) * powers[up]
	default:
		var err error
		if v, err = rounded(m, exp); err != nil {
			return 0, i, false
		}
	}
	return math.Float64frombits(math.Float64bits(v) | sign), i, true
}

// rounded is m times a power of ten.
func rounded(m uint64, exp int) (float64, error) {
	var buf [32]byte
	s := append(strconv.AppendUint(buf[:0], m, 10), 'e')
	return strconv.ParseFloat(string(strconv.AppendInt(s, int64(exp), 10)), 64)
}

// exponent reads a power of ten at b[i:]; ok is false where there is none.
func exponent(b []byte, i int) (e, end int, ok bool) {
	down := false
	if i < len(b) && (b[i] == '-' || b[i] == '+') {
		down = b[i] == '-'
		i++
	}
	from := i
	for ; i < len(b) && b[i]-'0' <= 9; i++ {
		if e < 10000 {
			e = e*10 + int(b[i]-'0')
		}
	}
	if down {
		e = -e
	}
	return e, i, i > from
}

// wholeNumber reads a cell that is one number and nothing else: everything that plainNumber takes, and a Unicode minus,
// grouping, and any number of digits. What is not finite is no number.
func (g grammar) wholeNumber(cell []byte) (float64, bool) {
	if v, end, ok := plainNumber(cell, 0, g.decimal); ok && end == len(cell) {
		return v, true
	}
	buf := make([]byte, 0, min(len(cell), 64)) // as strconv wants it
	i := 0
	is := func(list string) bool { return i < len(cell) && strings.IndexByte(list, cell[i]) >= 0 }
	sign := func() {
		if minus := "−"; bytes.HasPrefix(cell[i:], []byte(minus)) {
			buf = append(buf, '-')
			i += len(minus)
		} else if is("+-") {
			buf = append(buf, cell[i])
			i++
		}
	}
	digits := func() int {
		from := i
		for ; i < len(cell) && cell[i]-'0' <= 9; i++ {
			buf = append(buf, cell[i])
		}
		return i - from
	}
	sign()
	first := i
	n := digits()
	for mark := ""; i < len(cell); {
		next, before := g.groupMark(cell[i:]), i
		if next == "" || mark != "" && next != mark {
			break
		}
		i += len(next)
		if digits() != 3 {
			buf, i = buf[:len(buf)-(i-before-len(next))], before
			break
		}
		if mark = next; n == 0 || n > 3 || cell[first] == '0' {
			return 0, false
		}
	}
	if is(string(g.decimal)) {
		buf = append(buf, '.')
		i++
		n += digits()
	}
	if n == 0 {
		return 0, false
	}
	if is("eEdD") {
		buf = append(buf, 'e')
		i++
		if sign(); digits() == 0 {
			return 0, false
		}
	}
	if i != len(cell) {
		return 0, false
	}
	v, err := strconv.ParseFloat(string(buf), 64)
	return v, err == nil && !math.IsInf(v, 0)
}

// groupMark is the mark at the start of b that may part groups of digits: the one of the grammar, or a blank that
// does not break (U+00A0, U+202F, also the thin U+2009 and the figure space U+2007).
func (g grammar) groupMark(b []byte) string {
	r, n := utf8.DecodeRune(b)
	if r == rune(g.group) && r != 0 || strings.ContainsRune("\u00a0\u2007\u2009\u202f", r) && n > 1 {
		return string(b[:n])
	}
	return ""
}

// absent holds the cells that mean an invalid point.
type absent struct {
	words   map[string]bool
	numbers []float64 // sentinels such as -32768, compared as numbers
}

func newAbsent(more []string, g grammar) *absent {
	a := &absent{words: map[string]bool{}}
	for _, w := range slices.Concat(more, absentWords) {
		w = strings.TrimSpace(w)
		a.words[strings.ToLower(w)] = true
		v, ok := g.wholeNumber([]byte(w))
		if !ok {
			var err error
			v, err = strconv.ParseFloat(w, 64)
			ok = err == nil
		}
		if ok && v == v {
			a.numbers = append(a.numbers, v)
		}
	}
	return a
}

func (a *absent) cell(cell []byte) bool {
	return len(cell) <= 64 && a.words[strings.ToLower(string(cell))]
}

// value turns a sentinel into NaN.
func (a *absent) value(v float64) float64 {
	if slices.Contains(a.numbers, v) {
		return math.NaN()
	}
	return v
}
