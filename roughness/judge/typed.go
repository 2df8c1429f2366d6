package judge

import (
	"example.com/furrow/roughness"
	"fmt"
	"iter"
	"slices"
	"strconv"
	"strings"
	"unicode/utf8"

	"example.com/furrow/params"
	"example.com/furrow/standards"
	"example.com/furrow/standards/decide"
)

// Typed is a value that was read elsewhere and typed in: it counts with those of the traces.
type Typed struct {
	Symbol string // in the spelling of the edition
	Value  float64
	Unit   string // as written; empty: that of the parameter, in which Value stands in any case
	From   string // the trace that it was measured on, where it is one that is not at hand any more; empty: typed in

	call params.Call
}

// A TypedError says where a list of values is not understood.
type TypedError struct {
	Key    string // "u" in a list of uncertainties; empty in one of values
	Column int    // from 1
	Reason string
}

func (e *TypedError) Error() string { return fmt.Sprintf("column %d: %s", e.Column, e.Reason) }

// Between these lies a coverage factor (own choice): a larger number is a percentage, or a slip that makes the guard band too small.
const leastCoverage, mostCoverage = 0.1, 10.0

// Bounds of what a person types: no list and no word of it is longer, and no error quotes more.
const (
	maxTyped = 10_000
	maxWord  = 40
)

// tooLong refuses a list or a word in it that nobody types.
func tooLong(text string) *TypedError {
	if n := utf8.RuneCountInString(text); n > maxTyped {
		return &TypedError{"", maxTyped + 1, fmt.Sprintf("a list of more than %d characters", maxTyped)}
	}
	word := 0
	for i, c := range []rune(text) {
		if word++; c == ' ' || c == ';' || c == '\n' || c == '\t' || c == '\r' {
			word = 0
		}
		if word > maxWord {
			return &TypedError{"", i + 1, fmt.Sprintf("a word of more than %d characters", maxWord)}
		}
	}
	return nil
}

// ParseTyped reads values as a person types them: "Rz 2.9; 3.1; 2.8", each with the unit of its parameter unless one is written. A
// symbol holds for the values behind it. Numbers have one decimal mark, point or comma, as in the text of a requirement. A value that
// the parameter cannot have, such as a negative Ra, is refused. The error is a *TypedError.
func ParseTyped(text string, edition standards.EditionID) ([]Typed, error) {
	if err := tooLong(text); err != nil {
		return nil, err
	}
	edition = orDefault(edition)
	var list []Typed
	var call params.Call
	for part, column := range parts(text) {
		fail := func(format string, args ...any) ([]Typed, error) {
			return nil, &TypedError{Column: column, Reason: fmt.Sprintf(format, args...)}
		}
		symbol, rest := cutSymbol(part)
		if symbol != "" {
			var err error
			if call, err = lookupAny(edition, symbol); err != nil {
				return fail("%s", standards.Bare(err))
			}
		} else if len(list) == 0 {
			return fail("a symbol is missing before the value, as in Rz 2.9")
		}
		number, unit := cutNumber(rest)
		if number == "" {
			return fail("%.40q is not a value of %s; write it as %s 2.9", rest, call.Symbol, call.Symbol)
		}
		t, reason := typedValue(call, number, unit)
		if reason != "" {
			return fail("%s", reason)
		}
		list = append(list, t)
	}
	return list, nil
}

// ParseUncertainty reads an expanded uncertainty, "0.12", in the unit of the limit unless one is written, or one for each parameter,
// "Rz 0.12; Ra 0.02". The error is a *TypedError.
func ParseUncertainty(text string, edition standards.EditionID) ([]Uncertainty, error) {
	if err := tooLong(text); err != nil {
		err.Key = "u"
		return nil, err
	}
	var list []Uncertainty
	for part, column := range parts(text) {
		fail := func(format string, args ...any) ([]Uncertainty, error) {
			return nil, &TypedError{"u", column, fmt.Sprintf(format, args...)}
		}
		symbol, rest := cutSymbol(part)
		number, unit := cutNumber(rest)
		v, err := strconv.ParseFloat(strings.Replace(number, ",", ".", 1), 64)
		if err != nil || !(v >= 0) || !finite(v) || symbol == "" && len(list) > 0 {
			return fail("%.40q is not an uncertainty; write it as 0.12, or as Rz 0.12; Ra 0.02", part)
		}
		if symbol != "" {
			call, err := lookupAny(orDefault(edition), symbol)
			if err != nil {
				return fail("%s", standards.Bare(err))
			}
			symbol = call.String()
		}
		if slices.ContainsFunc(list, func(u Uncertainty) bool { return u.Symbol == "" || u.Symbol == symbol }) {
			return fail("%.40q is a second uncertainty for the same limit", part)
		}
		list = append(list, Uncertainty{symbol, v, unit, column})
	}
	return list, nil
}

// GuardFor makes the guard of the words that commands and page use: guard "2017" (empty too) or "1998"; prove "maker", "buyer" or
// "none", where empty means maker with an uncertainty and none without; k is the coverage factor, 0 for 2.
func GuardFor(guard, prove string, k float64, hasU bool) (decide.Guard, error) {
	g := decide.Guard{K: k}
	if !(k == 0 || k > 0 && finite(k)) {
		return g, fmt.Errorf("judge: the coverage factor %g is not a number above 0", k)
	}
	if k != 0 && (k < leastCoverage || k > mostCoverage) {
		return g, fmt.Errorf("judge: the coverage factor %g is not between %g and %g; it is usually 2, and not a percentage", k, leastCoverage, mostCoverage)
	}
	switch guard {
	case "", "2017":
		g.Rule = decide.Probability
	case "1998":
		g.Rule = decide.ExpandedU
	default:
		return g, fmt.Errorf("judge: %q is no guard band; there are 2017 and 1998", guard)
	}
	if prove == "" && hasU {
		prove = string(decide.Maker)
	}
	switch {
	case prove == "" || prove == "none":
		g.Rule, g.Proof = decide.Simple, decide.Nobody
	case prove != string(decide.Maker) && prove != string(decide.Buyer):
		return g, fmt.Errorf("judge: who must prove: %q is none of maker, buyer, none", prove)
	case !hasU:
		return g, fmt.Errorf("judge: who must prove counts with an uncertainty, and none is given")
	default:
		g.Proof = decide.Proof(prove)
	}
	return g, nil
}

func orDefault(edition standards.EditionID) standards.EditionID {
	if edition == "" {
		return roughness.DefaultEdition
	}
	return edition
}

// parts are the entries of a list, with the column that each begins at.
func parts(text string) iter.Seq2[string, int] {
	return func(yield func(string, int) bool) {
		before := 1 // characters
		for _, part := range splitOutside(text) {
			own := strings.TrimLeft(part, " \t\n\r")
			column := before + utf8.RuneCountInString(part) - utf8.RuneCountInString(own)
			if before += utf8.RuneCountInString(part) + 1; !yield(strings.TrimSpace(own), column) {
				return
			}
		}
	}
}

// splitOutside splits at semicolons that stand outside of brackets.
func splitOutside(text string) []string {
	var parts []string
	depth, from := 0, 0
	for i := 0; i < len(text); i++ {
		switch text[i] {
		case '(':
			depth++
		case ')':
			depth--
		case ';':
			if depth <= 0 {
				parts = append(parts, text[from:i])
				from = i + 1
			}
		}
	}
	return append(parts, text[from:])
}

// cutSymbol takes the symbol from the front: a letter and what follows up to a blank, an equals sign or the end of its brackets.
func cutSymbol(part string) (symbol, rest string) {
	r, _ := utf8.DecodeRuneInString(part)
	if r < 'A' || r > 'Z' && r < 'a' || r > 'z' && r != 'λ' {
		return "", part
	}
	end := strings.IndexAny(part, " \t=(")
	if end >= 0 && part[end] == '(' {
		if end = strings.IndexByte(part, ')'); end >= 0 {
			end++
		}
	}
	if end < 0 {
		end = len(part)
	}
	return part[:end], strings.TrimSpace(strings.TrimPrefix(strings.TrimSpace(part[end:]), "="))
}

// cutNumber takes a decimal number from the front: a sign, digits, and one decimal mark between or before digits. number is empty
// where there is none.
func cutNumber(s string) (number, unit string) {
	s = strings.TrimPrefix(strings.Replace(s, "−", "-", 1), "+")
	i, digits, marks := 0, 0, 0
	if strings.HasPrefix(s, "-") {
		i++
	}
	for ; i < len(s); i++ {
		switch c := s[i]; {
		case c >= '0' && c <= '9':
			digits++
		case c == '.' || c == ',':
			marks++
		default:
			number, unit = s[:i], strings.TrimSpace(s[i:])
		}
		if number != "" {
			break
		}
	}
	if i == len(s) {
		number = s
	}
	if bare := strings.TrimPrefix(number, "-"); len(bare) > 1 && bare[0] == '0' && bare[1] >= '0' && bare[1] <= '9' {
		return "", "" // 08 may be 0.8
	}
	if digits == 0 || marks > 1 || number == "" || strings.HasSuffix(number, ".") || strings.HasSuffix(number, ",") {
		return "", ""
	}
	if unit != "" && (unit[0] == 'e' || unit[0] == 'E' || unit[0] == '-' || unit[0] == '+') {
		return "", ""
	}
	return number, unit
}

// typedValue makes a value of a number and a unit, or says why that cannot be.
func typedValue(call params.Call, number, unit string) (t Typed, reason string) {
	t.Symbol, t.call = call.Symbol, call
	t.Value, t.Unit, reason = readNumber(call, number, unit)
	if reason != "" {
		return t, reason
	}
	if why := cannot(call, t.Value); why != "" {
		return t, fmt.Sprintf("%s cannot be %s: %s", call.Symbol, strings.TrimSpace(number+" "+unit), why)
	}
	return t, ""
}

// readNumber takes a number to the unit that values of the parameter are counted in, or says why that cannot be.
func readNumber(call params.Call, number, unit string) (v float64, spelled, reason string) {
	if i := strings.IndexByte(number, ','); i > 0 && len(number)-i == 4 && strings.Trim(number[:i], "-0") != "" && call.Edition == "asme-b46.1" {
		return 0, "", fmt.Sprintf("%s can be one number or another: write it with a point, or without the comma", number)
	}
	v, spelled, ok := standards.ReadNumber(call.Edition, call.Symbol, number, unit)
	if !ok {
		return 0, "", fmt.Sprintf("%s has no value in %.40s", call.Symbol, unit)
	}
	return v, spelled, ""
}

// anySign are the parameters, by key, that may be below 0; every other is 0 or more.
var anySign = []string{"Rsk", "Rmc", "Rdc", "Htp", "Rmpc", "Rmvc"}

// leastOf are the parameters whose smallest value is not 0: a mean of fourth powers is at least the square of the mean of squares, and
// a profile is no shorter than its length.
var leastOf = map[string]float64{"Rku": 1, "LengthRatio": 1}

// cannot says why a parameter cannot have a value; empty when it can.
func cannot(call params.Call, v float64) string {
	key := call.Parameter.Key
	switch least, ok := leastOf[key]; {
	case !finite(v) || v > roughness.MaxHeight || v < -roughness.MaxHeight:
		return "no surface has such a value"
	case slices.Contains(anySign, key):
	case ok && v < least:
		return fmt.Sprintf("it is never below %g", least)
	case v < 0:
		return "it is never below 0"
	case call.Parameter.Unit == params.Percent && v > 100 && key != "Rdr":
		return "a ratio is at most 100 %"
	}
	return ""
}

// lookupAny finds a symbol of an edition on any profile.
func lookupAny(edition standards.EditionID, symbol string) (params.Call, error) {
	var first error
	for _, letter := range []roughness.Letter{roughness.R, roughness.P, roughness.W} {
		call, err := params.Lookup(edition, byte(letter), symbol)
		if err == nil {
			return call, nil
		}
		if first == nil || strings.HasPrefix(symbol, letter.String()) {
			first = err
		}
	}
	return params.Call{}, first
}
