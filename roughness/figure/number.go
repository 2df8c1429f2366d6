package figure

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"example.com/furrow/standards"
)

// printer prints numbers for people: true minus sign, decimal mark of the reader.
type printer struct {
	comma, inch bool
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

// mm prints a length in millimetres to the micrometre, or finer where needed; in inches to the hundred-thousandth.
func (p printer) mm(um float64) string {
	return p.short(p.in(um/1000, "mm"), map[bool]int{false: 4, true: 5}[p.inch])
}

// inches are the numbers in inches for one of each unit of the package.
var inches = map[string]float64{"mm": 1 / 25.4, "1/mm": 25.4, "1/10 mm": 2.54, "µm": 1 / 0.0254, "1/µm": 0.0254,
	"µm²": 1 / (0.0254 * 0.0254), "µm³": 1 / (0.0254 * 0.0254 * 0.0254), "µm⁴": 1 / (0.0254 * 0.0254 * 0.0254 * 0.0254)}

// in is a number of a unit in what the reader counts in.
func (p printer) in(v float64, unit string) float64 {
	if f, ok := inches[unit]; ok && p.inch {
		return v * f
	}
	return v
}

// scale turns numbers of a unit, and its name, into what the reader counts in.
func (p printer) scale(unit *string, values ...*float64) {
	for _, v := range values {
		if p.inch {
			*v = standards.RoundDigits(p.in(*v, *unit), 6)
		}
	}
	*unit = p.unit(*unit)
}

// unit has the units of a text of this package in what the reader counts in. Names that come from outside stay as they are.
func (p printer) unit(s string) string {
	if !p.inch {
		return s
	}
	return inchWords.Replace(s)
}

var inchWords = strings.NewReplacer("1/10 mm", "1/in", "µm", "µin", "mm", "in")

// height prints a height with a number of decimals, which heightDecimals gives.
func (p printer) height(um float64, decimals int) string { return p.fixed(p.in(um, "µm"), decimals) }

// sprintf fills numbers of the reader's units into a text of this package.
func (p printer) sprintf(format string, args ...any) string {
	return fmt.Sprintf(p.unit(format), args...)
}

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
func (p printer) heightDecimals(low, high float64) int {
	return spreadDecimals(p.in(low, "µm"), p.in(high, "µm"))
}

// spreadDecimals are those for numbers that spread over a range.
func spreadDecimals(low, high float64) int {
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
