package compare

import (
	"errors"
	"fmt"
	"math"
	"strconv"
	"strings"
	"unicode/utf8"

	"example.com/furrow/params"
	"example.com/furrow/roughness"
	"example.com/furrow/roughness/judge"
	"example.com/furrow/standards"
)

// Printed is a value as another evaluation printed it: its last digit says how exactly it is known.
type Printed struct {
	Symbol string  // as there: "Ra"
	Text   string  // as there: "0.420", without its unit
	Value  float64 // in the unit of the parameter (µm for heights)
	Half   float64 // half a unit of the last digit
	Unit   string  // of the parameter

	spelled  string  // unit that was printed
	decimals int     // printed
	scale    float64 // of the unit that was printed
	call     params.Call
}

// A PrintedError says where a list of printed values is not understood.
type PrintedError struct {
	Column int // characters from 1
	Reason string
}

func (e *PrintedError) Error() string { return fmt.Sprintf("column %d: %s", e.Column, e.Reason) }

// mostPrinted is the number of values that one search takes (own choice).
const mostPrinted = 12

// ParsePrinted reads values as an instrument printed them: "Rz 3.10; Ra 0,51 µm". The last digit counts: 3.1 and 3.10 are not the
// same. A symbol may be that of any edition; all of them are on one profile. The error is a *PrintedError.
func ParsePrinted(text string) ([]Printed, error) {
	var list []Printed
	column := 1
	for part := range strings.SplitAfterSeq(strings.ReplaceAll(text, "\n", ";"), ";") {
		own := strings.TrimLeft(part, " \t\r")
		at := column + utf8.RuneCountInString(part) - utf8.RuneCountInString(own)
		column += utf8.RuneCountInString(part)
		if own = strings.TrimSpace(strings.TrimSuffix(own, ";")); own == "" {
			continue
		}
		p, reason := parseOne(own)
		switch {
		case reason != "":
		case len(list) == mostPrinted:
			reason = fmt.Sprintf("more than %d values", mostPrinted)
		case len(list) > 0 && p.call.Letter != list[0].call.Letter:
			reason = fmt.Sprintf("%s is on the profile %c and %s on %c: search for each by itself", p.Symbol, p.call.Letter, list[0].Symbol, list[0].call.Letter)
		}
		if reason != "" {
			return nil, &PrintedError{at, reason}
		}
		list = append(list, p)
	}
	if len(list) == 0 {
		return nil, &PrintedError{1, "no printed value; write it as Rz 3.10; Ra 0.51"}
	}
	return list, nil
}

func parseOne(part string) (p Printed, reason string) {
	symbol, rest := part, ""
	if i := strings.IndexAny(part, " \t="); i > 0 {
		symbol, rest = part[:i], strings.TrimLeft(part[i:], " \t=")
	}
	ok := false
	edition := standards.EditionID("")
	for _, e := range standards.Editions() {
		for _, letter := range []byte("RPW") {
			call, err := params.Lookup(e.ID, letter, symbol)
			if err == nil && !ok && e.Long.Name != "" {
				p.call, edition, ok = call, e.ID, true
			}
		}
	}
	if !ok {
		return p, fmt.Sprintf("no edition has a parameter %.40q", symbol)
	}
	number := strings.Replace(rest, "−", "-", 1)
	end := strings.IndexFunc(number, func(r rune) bool { return !strings.ContainsRune("0123456789.,-+", r) })
	unit := ""
	if end >= 0 {
		number, unit = number[:end], strings.TrimSpace(number[end:])
	}
	number = strings.Replace(number, ",", ".", 1)
	v, err := strconv.ParseFloat(number, 64)
	if err != nil || math.IsInf(v, 0) || unit != "" && strings.ContainsAny(unit[:1], "eE") {
		return p, fmt.Sprintf("%.40q is not a printed value of %s; write it as %s 3.10", rest, symbol, symbol)
	}
	one, spelled, ok := standards.ReadNumber(edition, symbol, "1", unit)
	if !ok {
		return p, fmt.Sprintf("%s has no value in %.40s", symbol, unit)
	}
	if _, err := judge.ParseTyped(symbol+" "+number, edition); v < 0 && err != nil {
		if typed, ok := errors.AsType[*judge.TypedError](err); ok {
			return p, typed.Reason
		}
	}
	_, fraction, _ := strings.Cut(number, ".")
	p.Symbol, p.Text, p.Unit, p.decimals, p.scale, p.spelled = symbol, number, string(p.call.Parameter.Unit), len(fraction), one, spelled
	p.Value, p.Half = v*one, 0.5*math.Pow10(-len(fraction))*one
	return p, ""
}

// Letter is the profile of the symbol: 'R', 'P' or 'W'.
func (p *Printed) Letter() byte { return p.call.Letter }

// Typed is the value as [ParsePrinted] reads it again: with its unit where that is not the parameter's own.
func (p *Printed) Typed() string {
	if p.scale == 1 {
		return p.Symbol + " " + p.Text
	}
	return p.Symbol + " " + p.Text + " " + p.spelled
}

// in is the printed symbol under other settings: the edition's own where it has that spelling, otherwise its name for the same parameter.
func (p *Printed) in(s *roughness.Settings) (string, bool) {
	if _, err := params.Lookup(s.Edition, p.call.Letter, p.Symbol); err == nil {
		return p.Symbol, true
	}
	name, err := respell(&roughness.Settings{Edition: p.call.Edition, Profile: roughness.Letter(p.call.Letter)},
		&roughness.Settings{Edition: s.Edition, Profile: roughness.Letter(p.call.Letter)}, p.Symbol)
	return name, err == nil
}

// meaning says where the printed symbol is another parameter under settings s than under the usual ones.
func (p *Printed) meaning(usual, s *roughness.Settings, say func(string, ...any)) {
	a, errA := params.Lookup(usual.Edition, p.call.Letter, p.Symbol)
	b, errB := params.Lookup(s.Edition, p.call.Letter, p.Symbol)
	if errA == nil && errB == nil && a.Parameter.Key != b.Parameter.Key {
		say("%s is another parameter in %s: %s instead of %s.", p.Symbol, title(s.Edition), b.Parameter.Name, a.Parameter.Name)
	}
}

// misfit is how far v lies from p in halves of the last digit: at most 1 when v prints as p does. A part in 1e9 is left for the
// tie at the half.
func (p *Printed) misfit(v float64) float64 {
	d := math.Abs(v-p.Value) / p.Half
	switch {
	case math.IsNaN(d):
		return math.Inf(1)
	case d <= 1+1e-9:
		return min(d, 1)
	}
	return d
}

// off is how far a value is from the printed one, with two digits and the unit of the parameter.
func (p *Printed) off(v float64) string {
	return strings.TrimSpace(standards.Digits(standards.RoundDigits(v-p.Value, 2)) + " " + p.Unit)
}

// show prints a value with the digits that were printed.
func (p *Printed) show(v float64) string {
	return p.Symbol + " " + standards.RoundHalfUp(v/p.scale, p.decimals)
}
