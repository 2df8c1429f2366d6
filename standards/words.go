package standards

import (
	"fmt"
	"math"
	"regexp"
	"strconv"
	"strings"
)

// packages stand before the texts of errors, and inside those that wrap another.
var packages = regexp.MustCompile(`(^|: )(?:(?:bundle|callout|compare|decide|filter|inspect|instrument|judge|params|record|roughness|selfcheck|standards|study|tracefile): )+`)

// Bare is the text of an error for a reader: without the packages that it comes from.
func Bare(err error) string { return packages.ReplaceAllString(err.Error(), "$1") }

// Digits prints a number to six digits at most, without an exponent.
func Digits(v float64) string {
	if math.IsNaN(v) {
		return "?"
	}
	return strconv.FormatFloat(RoundDigits(v, 6), 'f', -1, 64)
}

// RoundDigits is the number that so many digits show; twelve take the last bits of a change of unit away.
func RoundDigits(v float64, digits int) float64 {
	r, _ := strconv.ParseFloat(strconv.FormatFloat(v, 'g', digits, 64), 64)
	return r
}

// Length prints a length for a reader, to six digits: micrometres below 50 µm, millimetres from there.
func Length(um float64) string {
	if um < 50 {
		return Digits(um) + " µm"
	}
	return Digits(um/1000) + " mm"
}

// RoundHalfUp rounds the decimal number that v prints as to a number of decimals, halves away from zero: 2.675 gives
// 2.68, although the binary number beside it is a little less. It returns the text.
func RoundHalfUp(v float64, decimals int) string {
	if math.IsNaN(v) || math.IsInf(v, 0) {
		return strconv.FormatFloat(v, 'g', -1, 64)
	}
	decimals = min(max(decimals, 0), 20)
	text := scaledHalfUp(strconv.FormatFloat(math.Abs(v), 'e', -1, 64), decimals)
	zero := strings.Trim(text, "0") == ""
	if decimals > 0 {
		if len(text) <= decimals {
			text = strings.Repeat("0", decimals-len(text)+1) + text
		}
		text = text[:len(text)-decimals] + "." + text[len(text)-decimals:]
	}
	if v < 0 && !zero {
		text = "-" + text
	}
	return text
}

// scaledHalfUp returns the digits of a number of the form d.ddde±xx times a power of ten, rounded to a whole number.
func scaledHalfUp(number string, power int) string {
	mantissa, exponent, _ := strings.Cut(number, "e")
	digits := []byte(strings.ReplaceAll(mantissa, ".", ""))
	e, _ := strconv.Atoi(exponent)
	keep := e + 1 + power // digits before the point
	switch {
	case keep < 0:
		return "0"
	case keep >= len(digits):
		return string(digits) + strings.Repeat("0", keep-len(digits))
	}
	up := digits[keep] >= '5'
	digits = append([]byte{'0'}, digits[:keep]...)
	for i := len(digits) - 1; up; i-- {
		if digits[i] == '9' {
			digits[i] = '0'
			continue
		}
		digits[i]++
		up = false
	}
	if len(digits) > 1 && digits[0] == '0' {
		digits = digits[1:]
	}
	return string(digits)
}

// counts are small numbers as words.
var counts = []string{"no", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven", "twelve"}

// InWords is a small number as a word, and a larger one in digits.
func InWords(n int) string {
	if n >= 0 && n < len(counts) {
		return counts[n]
	}
	return fmt.Sprint(n)
}
