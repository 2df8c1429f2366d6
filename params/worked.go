package params

import (
	"math"
	"strconv"
	"strings"
	"unicode/utf8"
)

// Print returns the form with each term written by format. A negative term behind a sign or before a power stands in brackets.
func (a Arithmetic) Print(format func(v float64) string) string {
	var b strings.Builder
	for rest := a.Form; rest != ""; {
		before, after, found := strings.Cut(rest, "{")
		b.WriteString(before)
		if !found {
			break
		}
		number, next, _ := strings.Cut(after, "}")
		rest = next
		i, err := strconv.Atoi(number)
		if err != nil || i < 1 || i > len(a.Terms) {
			b.WriteString(number)
			continue
		}
		term := format(a.Terms[i-1])
		if behind := strings.HasSuffix(before, "- ") || strings.HasSuffix(before, "+ ") || strings.HasSuffix(before, "· ") || strings.HasSuffix(before, "/ "); strings.HasPrefix(term, "-") && (behind || power(rest) > 1) {
			term = "(" + term + ")"
		}
		b.WriteString(term)
	}
	return b.String()
}

// A WorkedLine is a worked line as it is printed: "(1.999 + 3.998 + 6.030) / 3 = 12.027 / 3 = 4.009". Numbers have a point, thousands a
// narrow blank, and − for less.
type WorkedLine struct {
	Parts  []string // the expression, and the same with its sum
	Sign   string   // before the result: "=", or "≈" where the printed numbers do not come out as printed
	Result string
}

// Work returns the line with its result in the given number of significant digits, from 1 to 12, and no term with more. That number is
// to be one more than is steady. Whole terms stay whole; those of a sum have the decimals of the result.
func (a Arithmetic) Work(digits int) WorkedLine {
	digits = max(1, min(12, digits))
	was := a.Result
	a = a.quiet()
	decimals := decimalsFor(a.Result, digits)
	alike := !strings.ContainsAny(a.Form, "·²³⁴√") && !strings.Contains(a.Form, "/ {") && !strings.Contains(a.Form, "/ (")
	write := func(v float64) string {
		switch {
		case v == math.Trunc(v) && math.Abs(v) < 1e15:
			return strconv.FormatFloat(v, 'f', 0, 64)
		case alike:
			return strconv.FormatFloat(v, 'f', decimals, 64)
		}
		return strconv.FormatFloat(v, 'f', decimalsFor(v, digits), 64)
	}
	parts := strings.Split(a.Print(write), " = ")
	last := parts[len(parts)-1]
	if sum, count, mean := strings.Cut(last, ") / "); mean && len(parts) == 1 && strings.HasPrefix(sum, "(") && strings.Trim(count, "0123456789") == "" {
		if v, ok := workOut(sum[1:]); ok {
			last = strconv.FormatFloat(v, 'f', decimals, 64) + " / " + count
			parts = append(parts, last)
		}
	}
	result := strconv.FormatFloat(a.Result, 'f', decimals, 64)
	if a.Unit == None && a.Form == "{1}" { // a count
		result = write(a.Result)
	}
	if a.Result != was && !math.IsNaN(was) {
		result = "0"
	}
	line := WorkedLine{Sign: "=", Result: dress(result)}
	if v, ok := workOut(strings.ReplaceAll(last, ", …", "")); !ok || strconv.FormatFloat(v, 'f', decimals, 64) != strconv.FormatFloat(a.Result, 'f', decimals, 64) {
		line.Sign = "≈"
	}
	for _, p := range parts {
		line.Parts = append(line.Parts, dress(p))
	}
	return line
}

// residue is what rounding leaves of a sum that cancels, in parts of its terms.
const residue = 1e-12

// quiet is the line with 0 in place of numbers that are nothing but rounding beside its largest term; counts are no measure for that.
func (a Arithmetic) quiet() Arithmetic {
	size := 0.0
	for _, t := range a.Terms {
		if t != math.Trunc(t) && !math.IsInf(t, 0) {
			size = max(size, math.Abs(t))
		}
	}
	terms := make([]float64, len(a.Terms))
	still := func(v float64) float64 {
		if math.Abs(v) < residue*size {
			return 0
		}
		return v
	}
	for i, t := range a.Terms {
		terms[i] = still(t)
	}
	a.Terms, a.Result = terms, still(a.Result)
	return a
}

// Value works out the last part as it is printed; it reports false where that cannot be done, as where terms are left out.
func (l WorkedLine) Value() (float64, bool) {
	if len(l.Parts) == 0 {
		return 0, false
	}
	return workOut(strings.NewReplacer("−", "-", "×", "·", "\u202f", "").Replace(l.Parts[len(l.Parts)-1]))
}

// decimalsFor returns how many decimals show v with n significant digits; never fewer than none. Rounding may carry into one digit more.
func decimalsFor(v float64, n int) int {
	if v == 0 {
		return n - 1
	}
	s := strconv.FormatFloat(v, 'e', n-1, 64)
	exponent, err := strconv.Atoi(s[strings.IndexByte(s, 'e')+1:])
	if err != nil { // no finite number
		return 0
	}
	return max(0, min(20, n-1-exponent))
}

// dress writes an expression for the eye.
func dress(s string) string {
	var b strings.Builder
	for i := 0; i < len(s); {
		end := i
		for end < len(s) && s[end] >= '0' && s[end] <= '9' {
			end++
		}
		if end == i {
			_, n := utf8.DecodeRuneInString(s[i:])
			b.WriteString(s[i : i+n])
			i += n
			continue
		}
		for k := i; k < end; k++ {
			if whole := i == 0 || s[i-1] != '.'; k > i && whole && (end-k)%3 == 0 {
				b.WriteString("\u202f")
			}
			b.WriteByte(s[k])
		}
		i = end
	}
	return strings.NewReplacer("-", "−", "·", "×").Replace(b.String())
}

// powers are the signs of powers.
var powers = []string{"", "", "²", "³", "⁴"}

// power returns the power that s begins with, 1 for none.
func power(s string) int {
	for n := 2; n < len(powers); n++ {
		if strings.HasPrefix(s, powers[n]) {
			return n
		}
	}
	return 1
}

// workOut works out an expression of numbers, + - · /, powers, brackets, √, | |, max, 2π and Φ; it reports false where it cannot.
func workOut(s string) (float64, bool) {
	c := &calculation{s: strings.ReplaceAll(s, " ", "")}
	v := c.sum()
	return v, c.s == "" && !c.failed
}

// A calculation is what is left of an expression.
type calculation struct {
	s      string
	failed bool
}

func (c *calculation) take(sign string) bool {
	rest, ok := strings.CutPrefix(c.s, sign)
	c.s = rest
	return ok
}

func (c *calculation) sum() float64 {
	v := c.product()
	for {
		switch {
		case c.take("+"):
			v += c.product()
		case c.take("-"):
			v -= c.product()
		default:
			return v
		}
	}
}

func (c *calculation) product() float64 {
	v := c.power()
	for {
		switch {
		case c.take("·"):
			v *= c.power()
		case c.take("/"):
			v /= c.power()
		default:
			return v
		}
	}
}

func (c *calculation) power() float64 {
	v, n := c.atom(), power(c.s)
	if n > 1 {
		c.take(powers[n])
	}
	return math.Pow(v, float64(n))
}

func (c *calculation) atom() float64 {
	inside := func(end string) float64 {
		v := c.sum()
		for c.take(",") {
			v = max(v, c.sum())
		}
		c.failed = c.failed || !c.take(end)
		return v
	}
	switch {
	case c.take("-"):
		return -c.power()
	case c.take("√"):
		return math.Sqrt(c.atom())
	case c.take("|"):
		return math.Abs(inside("|"))
	case c.take("Φ("):
		return normalShare(inside(")"))
	case c.take("max("), c.take("("):
		return inside(")")
	}
	n := 0
	for n < len(c.s) && strings.IndexByte("0123456789.", c.s[n]) >= 0 {
		n++
	}
	v, err := strconv.ParseFloat(c.s[:n], 64)
	c.failed = c.failed || err != nil
	if c.s = c.s[n:]; c.take("π") {
		v *= math.Pi
	}
	return v
}
