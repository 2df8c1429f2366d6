package figure

import (
	"math"
	"strconv"
	"strings"
)

// printer prints numbers for people: true minus sign, decimal mark of the reader.
type printer struct {
	comma bool
}

// fixed prints v with a number of decimals; -0 is 0, what is not defined a dash.
func (p printer) fixed(v float64, decimals int) string {
	if math.IsNaN(v) || math.IsInf(v, 0) {
		return "–"
	}
	s := strconv.FormatFloat(v, 'f', decimals, 64)
	if strings.Trim(s, "-0.") == "" {
		s = strings.TrimPrefix(s, "-")
	}
	s = strings.Replace(s, "-", "−", 1)
	if p.comma {
		s = strings.Replace(s, ".", ",", 1)
	}
	return s
}

// short prints v with at most a number of decimals, without zeros at the end.
func (p printer) short(v float64, decimals int) string {
	s := p.fixed(v, decimals)
	if strings.ContainsAny(s, ".,") {
		s = strings.TrimRight(strings.TrimRight(s, "0"), ".,")
	}
	return s
}

// digits prints v with a number of significant digits, without an exponent.
func (p printer) digits(v float64, n int) string {
	return p.fixed(v, max(0, decimalsFor(math.Abs(v), n)))
}

// mm prints a length in millimetres to the micrometre, or finer where needed.
func (p printer) mm(um float64) string { return p.short(um/1000, 4) }

// prose puts true minus signs and the decimal mark into a text with numbers.
func (p printer) prose(s string) string {
	digit := func(i int) bool { return i >= 0 && i < len(s) && s[i] >= '0' && s[i] <= '9' }
	var b strings.Builder
	for i := 0; i < len(s); i++ {
		switch {
		case s[i] == '-' && digit(i+1) && (i == 0 || strings.IndexByte(" (±", s[i-1]) >= 0):
			b.WriteString("−")
		case s[i] == '.' && p.comma && digit(i-1) && digit(i+1):
			b.WriteByte(',')
		default:
			b.WriteByte(s[i])
		}
	}
	return b.String()
}

// decimalsFor is the number of decimals that show v with n significant digits; it may be negative.
func decimalsFor(v float64, n int) int {
	if !(v > 0) || math.IsInf(v, 0) {
		return 0
	}
	// Printing rounds 9.996 to 10.0, so the exponent is taken after rounding to n digits.
	s := strconv.FormatFloat(v, 'e', n-1, 64)
	exponent, _ := strconv.Atoi(s[strings.IndexByte(s, 'e')+1:])
	return min(n-1-exponent, 12)
}

// heightDecimals is the number of decimals for heights that spread over a range.
func heightDecimals(low, high float64) int {
	return max(0, min(decimalsFor(high-low, 3), 9))
}

var counts = [...]string{"no", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten"}

// count spells small numbers out.
func count(n int) string {
	if n >= 0 && n < len(counts) {
		return counts[n]
	}
	return strconv.Itoa(n)
}

// upper makes the first letter of a sentence a capital.
func upper(s string) string {
	n := min(1, len(s))
	return strings.ToUpper(s[:n]) + s[n:]
}
