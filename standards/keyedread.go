package standards

import (
	"slices"
	"strings"
)

// readLength reads a length above 0 into an entry.
func readLength(name, unit string, to func(*Requirement) *float64) func(*Requirement, int) error {
	return func(r *Requirement, at int) error {
		from := r.s.pos
		d, err := r.s.decimal()
		if err != nil {
			return err
		}
		u := unit
		if given := r.s.unit(); given != "" {
			u = given
		}
		v, ok := micrometres(d, u)
		if pair := inchPairs[trimNumber(d.text)]; name == "long" && u == "in" && pair > 0 && familyOf(r.Edition) == asme {
			v = pair
			r.Notes = append(r.Notes, trimNumber(d.text)+" in is the customary pair of "+Length(pair)+" in the tables of ASME B46.1.")
		}
		if !ok {
			return r.s.fail(from, ErrNumber, "%s is a length, not a number in %s", name, u)
		}
		if !(v > 1e-6) || v > 1e9 {
			return r.s.fail(from, ErrNumber, "%s is not between a picometre and a kilometre", name)
		}
		return r.set(name, at, func() { *to(r) = v })
	}
}

// inchPairs are the cut-offs of ASME B46.1 in inches and the metric ones beside them (seen in neutral copies of the
// tables). They are pairs of preferred numbers, not conversions.
var inchPairs = map[string]float64{"0.003": 80, "0.01": 250, "0.03": 800, "0.1": 2500, "0.3": 8000}

func readSections(r *Requirement, at int) error {
	n, err := r.s.integer()
	if err != nil {
		return err
	}
	return r.set("sections", at, func() { r.Sections = n })
}

// readText reads a word or a quoted text, one of allowed when any are.
func readText(name string, to func(*Requirement) *string, allowed []string) func(*Requirement, int) error {
	return func(r *Requirement, at int) error {
		text, err := r.s.value()
		if err != nil {
			return err
		}
		if len(allowed) > 0 && !slices.Contains(allowed, text) {
			return r.s.fail(at, ErrSyntax, "%s is one of %s, not %q", name, strings.Join(allowed, ", "), text)
		}
		return r.set(name, at, func() { *to(r) = text })
	}
}

// value reads the text after the equals sign.
func (s *scanner) value() (string, error) {
	if s.peek(0) == '"' {
		return s.quoted()
	}
	from := s.pos
	for s.pos < s.end && s.text[s.pos] != ' ' && s.text[s.pos] != '\n' && s.text[s.pos] != '"' {
		s.pos++
	}
	return string(s.text[from:s.pos]), nil
}

func readSide(r *Requirement, at int) error {
	text, err := r.s.value()
	if err != nil {
		return err
	}
	side := Upper
	switch text {
	case "upper":
	case "lower":
		side = Lower
	default:
		return r.s.fail(at, ErrSyntax, "side is upper or lower, not %q", text)
	}
	return r.set("side", at, func() { r.Side, r.SideWritten = side, true })
}

func readRule(r *Requirement, at int) error {
	text, err := r.s.value()
	if err != nil {
		return err
	}
	if rule := Rule(text); rule == Maximum || rule == SixteenPercent || rule == Median {
		return r.set("rule", at, func() { r.Rule, r.RuleWritten = rule, true })
	}
	return r.s.fail(at, ErrSyntax, "rule is max, 16%% or median, not %q", text)
}

// readSymbol reads the symbol, which stands after the edition so that it can be looked up.
func readSymbol(r *Requirement, at int) error {
	s := r.s
	quoted := s.take(`"`)
	_, seen := r.at["symbol"]
	if seen {
		return s.fail(at, ErrSyntax, "symbol is given twice")
	}
	s.separate = true
	w, err := r.symbol(familyOf(r.Edition))
	s.separate = false
	if err != nil {
		return err
	}
	if w.max || w.sections > 0 {
		return s.fail(at, ErrSymbol, "the symbol alone: sections= and rule= stand by themselves")
	}
	if quoted && !s.take(`"`) {
		return s.fail(s.pos, ErrSyntax, "a quotation mark that is not closed")
	}
	r.Symbol = w.symbol
	return nil
}

// readLimit reads the number and the unit of the limit.
func readLimit(r *Requirement, at int) error {
	s := r.s
	sign := ""
	if s.take("-") {
		sign = "-"
	}
	from := s.pos
	d, err := s.decimal()
	if err != nil {
		return err
	}
	unit := s.unit()
	if r.Symbol != "" {
		q := rowOf(r.Symbol).quantity
		if (sign != "" && q != number) || (d.times(0) == 0 && q != number && q != ratio) {
			return s.fail(from, ErrNumber, "not a limit of %s", r.Symbol)
		}
		if q == ratio && d.times(0) > 100 && r.Symbol[1:] != "dr" {
			return s.fail(from, ErrNumber, "a material ratio above 100 %%")
		}
	} else if sign != "" || d.times(0) == 0 {
		return s.fail(from, ErrNumber, "not a limit")
	}
	return r.set("limit", at, func() { r.LimitText, r.Unit = sign+trimNumber(d.text), unit })
}
