package tracefile

import (
	"math"
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
	negative := false
	if i < len(b) && (b[i] == '-' || b[i] == '+') {
		negative = b[i] == '-'
		i++
	}
	start := i
	var m uint64
	for i < len(b) {
		d := b[i] - '0'
		if d > 9 {
			break
		}
		m = m*10 + uint64(d)
		i++
	}
	digits := i - start
	exp := 0
	if i < len(b) && b[i] == decimal {
		i++
		from := i
		for i < len(b) {
			d := b[i] - '0'
			if d > 9 {
				break
			}
			m = m*10 + uint64(d)
			i++
		}
		exp = from - i
		digits += i - from
	}
	if uint(digits-1) > 18 { // none, or so many that they could overflow the mantissa
		return 0, i, false
	}
	if i < len(b) && b[i]|0x21 == 'e' {
		j := i + 1
		down := false
		if j < len(b) && (b[j] == '-' || b[j] == '+') {
			down = b[j] == '-'
			j++
		}
		e, from := 0, j
		for j < len(b) && b[j]-'0' <= 9 {
			if e < 10000 {
				e = e*10 + int(b[j]-'0')
			}
			j++
		}
		if j == from {
			return 0, i, false
		}
		if down {
			e = -e
		}
		exp += e
		i = j
	}
	switch down, up := uint(-exp), uint(exp); {
	case m < 1<<53 && down < uint(len(powers)):
		v = float64(int64(m)) / powers[down]
	case m < 1<<53 && up < uint(len(powers)):
		v = float64(int64(m)) * powers[up]
	default:
		var buf [32]byte
		s := strconv.AppendUint(buf[:0], m, 10)
		s = append(s, 'e')
		s = strconv.AppendInt(s, int64(exp), 10)
		var err error
		if v, err = strconv.ParseFloat(string(s), 64); err != nil {
			return 0, i, false
		}
	}
	if negative {
		v = -v
	}
	return v, i, true
}

// wholeNumber reads a cell that is one number and nothing else: everything that plainNumber takes, and a Unicode minus,
// grouping, and any number of digits. What is not finite is no number.
func (g grammar) wholeNumber(cell []byte) (float64, bool) {
	if v, end, ok := plainNumber(cell, 0, g.decimal); ok && end == len(cell) {
		return v, true
	}
	buf := make([]byte, 0, min(len(cell), 64))
	i := 0
	switch {
	case strings.HasPrefix(string(cell[:min(3, len(cell))]), "−"):
		buf = append(buf, '-')
		i = len("−")
	case len(cell) > 0 && (cell[0] == '-' || cell[0] == '+'):
		buf = append(buf, cell[0])
		i = 1
	}
	isDigit := func(k int) bool { return k < len(cell) && cell[k]-'0' <= 9 }
	first, groups, mark := i, 0, ""
	for isDigit(i) {
		buf = append(buf, cell[i])
		i++
	}
	lead := i - first
	for i < len(cell) {
		sep, n := g.groupMark(cell[i:])
		if n == 0 || mark != "" && sep != mark || !isDigit(i+n) || !isDigit(i+n+1) || !isDigit(i+n+2) || isDigit(i+n+3) {
			break
		}
		mark = sep
		buf = append(buf, cell[i+n:i+n+3]...)
		i += n + 3
		groups++
	}
	if groups > 0 && (lead == 0 || lead > 3 || cell[first] == '0') {
		return 0, false
	}
	digits := lead
	if i < len(cell) && cell[i] == g.decimal {
		buf = append(buf, '.')
		for i++; isDigit(i); i++ {
			buf = append(buf, cell[i])
			digits++
		}
	}
	if digits == 0 {
		return 0, false
	}
	if i < len(cell) && (cell[i]|0x20 == 'e' || cell[i]|0x20 == 'd') {
		buf = append(buf, 'e')
		i++
		switch {
		case i < len(cell) && (cell[i] == '-' || cell[i] == '+'):
			buf = append(buf, cell[i])
			i++
		case strings.HasPrefix(string(cell[i:min(i+3, len(cell))]), "−"):
			buf = append(buf, '-')
			i += len("−")
		}
		from := i
		for ; isDigit(i); i++ {
			buf = append(buf, cell[i])
		}
		if i == from {
			return 0, false
		}
	}
	if i != len(cell) {
		return 0, false
	}
	v, err := strconv.ParseFloat(string(buf), 64)
	return v, err == nil && !math.IsInf(v, 0)
}

// groupMark reports the mark at the start of b that may part groups of digits: the one of the grammar, or a blank that
// does not break (U+00A0, U+202F, also the thin U+2009 and the figure space U+2007).
func (g grammar) groupMark(b []byte) (string, int) {
	if g.group != 0 && b[0] == g.group {
		return string(b[:1]), 1
	}
	if b[0] >= utf8.RuneSelf {
		switch r, n := utf8.DecodeRune(b); r {
		case '\u00a0', '\u2007', '\u2009', '\u202f':
			return string(r), n
		}
	}
	return "", 0
}

// absent holds the cells that mean an invalid point.
type absent struct {
	words   map[string]bool
	numbers []float64 // sentinels such as -32768, compared as numbers
}

func newAbsent(more []string, g grammar) *absent {
	a := &absent{words: map[string]bool{}}
	for _, w := range absentWords {
		a.words[w] = true
	}
	for _, w := range more {
		w = strings.TrimSpace(w)
		a.words[strings.ToLower(w)] = true
		if v, ok := g.wholeNumber([]byte(w)); ok {
			a.numbers = append(a.numbers, v)
		} else if v, err := strconv.ParseFloat(w, 64); err == nil {
			a.numbers = append(a.numbers, v)
		}
	}
	return a
}

func (a *absent) cell(cell []byte) bool {
	if len(cell) > 64 {
		return false
	}
	return a.words[strings.ToLower(string(cell))]
}

// value turns a sentinel into NaN.
func (a *absent) value(v float64) float64 {
	for _, s := range a.numbers {
		if v == s {
			return math.NaN()
		}
	}
	return v
}
