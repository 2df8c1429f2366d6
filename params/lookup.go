package params

import (
	"slices"
	"strconv"
	"strings"

	"example.com/furrow/standards"
)

// Lookup finds the parameter that an edition calls by name, on the profile of the letter ('P', 'R' or 'W'). The name
// may have arguments in brackets: "Rmr(0.5)", "Rdc(10,80)". Spellings are those of the edition: RSm in ISO 4287, Rsm in
// ISO 21920; Greek letters may be written as RDq for RΔq.
//
// The error is a [*NameError].
func Lookup(edition standards.EditionID, letter byte, name string) (Call, error) {
	fail := func(err *NameError) (Call, error) {
		err.Name, err.Edition, err.Letter = name, edition, letter
		return Call{}, err
	}
	if !slices.Contains(standards.EditionIDs(), edition) {
		return fail(&NameError{Reason: "there is no edition " + strconv.Quote(string(edition)) + "; there are " + standards.EditionNames(standards.EditionIDs())})
	}
	symbol, args, err := parseName(name)
	if err == nil {
		err = ambiguousRatio(name, symbol)
	}
	if err != nil {
		return fail(err)
	}
	var wrong *NameError
	for _, l := range catalogue().by[editionLetter{edition, letter}] {
		if !l.symbol.Is(symbol) {
			continue
		}
		full, err := l.parameter.complete(args, l.symbol.Min)
		if err == nil {
			return Call{Parameter: l.parameter, Symbol: name, Args: full, Edition: edition, Letter: letter, symbol: l.symbol, meaning: l.meaning}, nil
		}
		if wrong == nil || len(args) > 0 {
			wrong = err
		}
	}
	if wrong != nil {
		return fail(wrong)
	}
	return fail(unknown(edition, letter, symbol))
}

// Defaults returns calls of all that the edition has for the profile, with default arguments.
func Defaults(edition standards.EditionID, letter byte) []Call {
	var calls []Call
	for _, l := range catalogue().by[editionLetter{edition, letter}] {
		p := l.parameter
		c := Call{Parameter: p, Edition: edition, Letter: letter, symbol: l.symbol, meaning: l.meaning, Args: make([]float64, len(p.Args))}
		for j, a := range p.Args {
			c.Args[j] = a.Default
		}
		c.Symbol = c.String()
		calls = append(calls, c)
	}
	return calls
}

// String returns the edition's spelling with the arguments, without those at the end that are the defaults.
func (c Call) String() string {
	if c.Parameter == nil || c.meaning == nil {
		return c.Symbol
	}
	n := len(c.Args)
	for n > c.symbol.Min && same(c.Args[n-1], c.Parameter.Args[n-1].Default) {
		n--
	}
	if n == 0 {
		return c.symbol.Name
	}
	var b strings.Builder
	b.WriteString(c.symbol.Name)
	before := "("
	for _, a := range c.Args[:n] {
		b.WriteString(before)
		before = c.Parameter.separator()
		b.WriteString(strconv.FormatFloat(a, 'g', -1, 64))
	}
	b.WriteByte(')')
	return b.String()
}

func same(a, b float64) bool { return a == b || a != a && b != b }

// complete checks the arguments given and fills in the defaults.
func (p *Parameter) complete(given []float64, least int) ([]float64, *NameError) {
	if len(given) > len(p.Args) {
		reason := "takes no arguments"
		if n := len(p.Args); n > 0 {
			reason = "takes " + plural(n, "argument") + ", not " + strconv.Itoa(len(given)) +
				" (arguments are separated by commas, decimals by a point)"
		}
		return nil, &NameError{Reason: reason}
	}
	if len(given) < least {
		return nil, &NameError{Reason: "needs its arguments: " + p.usage()}
	}
	full := slices.Clone(given)
	for _, a := range p.Args[len(given):] {
		full = append(full, a.Default)
	}
	for i, a := range p.Args[:len(given)] {
		if a.Unit == Percent && !(full[i] >= 0 && full[i] <= 100) {
			return nil, &NameError{Reason: a.Name + " is a ratio from 0 to 100 %, not " + strconv.FormatFloat(full[i], 'g', -1, 64)}
		}
	}
	for _, m := range p.must {
		if m.broken(full) {
			return nil, &NameError{Reason: m.reason}
		}
	}
	return full, nil
}

// usage returns the notation, and what the arguments are.
func (p *Parameter) usage() string {
	var what []string
	for _, a := range p.Args {
		text := a.Name + " " + a.Text
		if a.Unit != None {
			text += " in " + string(a.Unit)
		}
		what = append(what, text)
	}
	return p.Notation() + ", with " + strings.Join(what, ", ")
}

// Notation returns the symbol with the names of its arguments: "Rdc(p,q)", "Rmr(p;d)", "Ra".
func (p *Parameter) Notation() string {
	if len(p.Args) == 0 {
		return p.Symbol
	}
	names := make([]string, len(p.Args))
	for i, a := range p.Args {
		names[i] = a.Name
	}
	return p.Symbol + "(" + strings.Join(names, p.separator()) + ")"
}

// separator is what stands between arguments: a comma in Rmr could be a decimal mark, see ambiguousRatio.
func (p *Parameter) separator() string {
	if p.Symbol == "Rmr" {
		return ";"
	}
	return ","
}

func plural(n int, noun string) string {
	if n == 1 {
		return "1 " + noun
	}
	return strconv.Itoa(n) + " " + noun + "s"
}

// parseName splits "Rmr(0.5)" into the symbol and the arguments.
func parseName(name string) (symbol string, args []float64, err *NameError) {
	symbol, rest, bracket := strings.Cut(name, "(")
	symbol = strings.TrimSpace(symbol)
	if symbol == "" {
		return "", nil, &NameError{Column: 1, Reason: "there is no symbol"}
	}
	if !bracket {
		return symbol, nil, nil
	}
	list, after, closed := strings.Cut(rest, ")")
	if !closed || strings.TrimSpace(after) != "" {
		return "", nil, &NameError{Column: column(name, len(name)), Reason: "the name must end with the closing bracket"}
	}
	at := len(name) - len(rest)
	separator := ","
	if strings.Contains(list, ";") {
		separator = ";" // then a comma is a decimal mark
	}
	for _, word := range strings.Split(list, separator) {
		number := strings.TrimSpace(strings.Replace(word, "−", "-", 1))
		if separator == ";" {
			number = strings.ReplaceAll(number, ",", ".")
		}
		v, e := strconv.ParseFloat(number, 64)
		if e != nil || v-v != 0 {
			return "", nil, &NameError{Column: column(name, at), Reason: strconv.Quote(word) + " is not a number"}
		}
		args = append(args, v)
		at += len(word) + 1
	}
	return symbol, args, nil
}

// ambiguousRatio refuses Rmr(0,5): half a micrometre with a decimal comma, or 5 µm below the height of a ratio of 0 %? The other
// parameters take a fixed number of arguments, so that a comma has one meaning.
func ambiguousRatio(name, symbol string) *NameError {
	if len(symbol) != 3 || symbol[1:] != "mr" {
		return nil
	}
	_, list, _ := strings.Cut(name, "(")
	whole, part, comma := strings.Cut(strings.TrimSuffix(list, ")"), ",")
	if digits := func(s string) bool { return s != "" && strings.Trim(s, "0123456789") == "" }; !comma || !digits(strings.TrimPrefix(whole, "-")) || !digits(part) {
		return nil
	}
	return &NameError{Reason: "can be read in two ways: write " + symbol + "(" + whole + "." + part + ") for that height, or " +
		symbol + "(" + whole + ";" + part + ") for a depth of " + part + " µm below the height with a ratio of " + whole + " %"}
}

// column returns the column, in characters from 1, of a place given in bytes.
func column(s string, at int) int { return len([]rune(s[:at])) + 1 }

// A NameError says why a name is not a parameter of an edition, and what the edition has instead.
type NameError struct {
	Name    string
	Edition standards.EditionID
	Letter  byte
	Column  int // in characters from 1, where the name cannot be read; else 0
	Reason  string
	// Question and Readings are set when the name is in the table of synonyms: the caller asks which is meant.
	Question string
	Readings []Reading
}

// Error returns the name, the place, the reason and what to ask for instead.
func (e *NameError) Error() string {
	s := "params: " + strconv.Quote(e.Name)
	if e.Column > 0 {
		s += ", column " + strconv.Itoa(e.Column)
	}
	s += ": " + e.Reason
	if e.Question != "" {
		readings := make([]string, len(e.Readings))
		for i, r := range e.Readings {
			readings[i] = r.String()
		}
		s += ": " + e.Question + ": " + strings.Join(readings, ", or ")
	}
	return s
}

// unknown says what an edition calls the thing asked for, as far as the name is known at all.
func unknown(edition standards.EditionID, letter byte, symbol string) *NameError {
	here := "for profile " + string(rune(letter))
	for _, l := range catalogue().by[editionLetter{edition, letter}] {
		if spelledAnywhere(l.symbol.Key, letter, symbol) {
			return &NameError{Reason: string(edition) + " spells it " + l.symbol.Name}
		}
	}
	for _, other := range []byte("PRW") {
		for _, l := range catalogue().by[editionLetter{edition, other}] {
			if l.symbol.Is(symbol) {
				return &NameError{Reason: "it is measured on profile " + string(rune(other)) + ", and asked " + here}
			}
		}
	}
	if s, ok := synonym(symbol); ok {
		return s.ask(edition)
	}
	var editions []standards.EditionID
	for _, e := range standards.EditionIDs() {
		for _, l := range catalogue().by[editionLetter{e, letter}] {
			if l.symbol.Is(symbol) {
				editions = append(editions, e)
				break
			}
		}
	}
	if len(editions) > 0 {
		return &NameError{Reason: string(edition) + " does not have it, " + standards.EditionNames(editions) + " does; " + has(edition, letter)}
	}
	return &NameError{Reason: "unknown; " + has(edition, letter)}
}

// has lists what an edition has for a profile.
func has(edition standards.EditionID, letter byte) string {
	var own []string
	for _, c := range Defaults(edition, letter) {
		own = append(own, c.String())
	}
	if len(own) == 0 {
		return string(edition) + " has nothing for profile " + string(rune(letter))
	}
	return string(edition) + " has for profile " + string(rune(letter)) + ": " + strings.Join(own, " ")
}

// spelledAnywhere tells whether any edition spells the symbol with the key so on the profile of the letter.
func spelledAnywhere(key string, letter byte, symbol string) bool {
	for _, e := range standards.EditionIDs() {
		for _, l := range catalogue().by[editionLetter{e, letter}] {
			if l.symbol.Key == key && l.symbol.Is(symbol) {
				return true
			}
		}
	}
	return false
}
