package params

import (
	"math"
	"strconv"
	"strings"
)

// micrometres writes a height or length with three significant digits: "1.92 µm".
func micrometres(v float64) string { return digits(v, 3) + " µm" }

// millimetres writes a length in µm as millimetres to the micrometre: "2.104 mm".
func millimetres(v float64) string { return strconv.FormatFloat(v/1000, 'f', 3, 64) + " mm" }

// percent writes a fraction: "38.9 %".
func percent(fraction float64) string { return digits(100*fraction, 3) + " %" }

// digits writes v with n significant digits, without an exponent.
func digits(v float64, n int) string {
	if v == 0 {
		return "0"
	}
	decimals := n - 1 - int(math.Floor(math.Log10(math.Abs(v))))
	// Rounding may carry into one digit more: 9.996 with three digits is 10.0.
	if s := strconv.FormatFloat(v, 'e', n-1, 64); strings.HasPrefix(strings.TrimPrefix(s, "-"), "1.") {
		exponent, _ := strconv.Atoi(s[strings.IndexByte(s, 'e')+1:])
		decimals = n - 1 - exponent
	}
	if decimals < 0 {
		decimals = 0
	}
	return strconv.FormatFloat(v, 'f', decimals, 64)
}

// meanForm returns the form of the mean of n terms: "({1} + {2}) / 2". With many, those in the middle are left out.
func meanForm(n int) string {
	if n == 1 {
		return "{1}"
	}
	return "(" + termSum(n) + ") / " + strconv.Itoa(n)
}

func termSum(n int) string {
	var terms []string
	for i := 1; i <= n; i++ {
		if n > 8 && i == 4 {
			terms = append(terms, "…")
			i = n
		}
		terms = append(terms, "{"+strconv.Itoa(i)+"}")
	}
	return strings.Join(terms, " + ")
}

// Print returns the worked line without its symbol, each term written by format.
func (a Arithmetic) Print(format func(v float64) string) string {
	var b strings.Builder
	for s := a.Form; s != ""; {
		before, after, found := strings.Cut(s, "{")
		b.WriteString(before)
		if !found {
			break
		}
		number, rest, _ := strings.Cut(after, "}")
		if i, err := strconv.Atoi(number); err == nil && i >= 1 && i <= len(a.Terms) {
			b.WriteString(format(a.Terms[i-1]))
		} else {
			b.WriteString(number)
		}
		s = rest
	}
	return b.String()
}
