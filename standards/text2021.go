package standards

import (
	"fmt"
	"strings"
)

// The text of ISO 21920-1:2021. The order of the elements a to u was seen in a schoolbook, with blanks between them;
// how filters, indices and lengths are spelled was not. They are read as bare elements in their order when nothing is
// ambiguous, and always as keys: Nis=2,5 Nic=0,8 lsc=0,8 nsc=5 le=4.

// parse2021 reads one requirement: tolerance type, symbol, limit, then the other elements.
func (r *Requirement) parse2021() error {
	s := r.s
	s.blanks()
	start := s.pos
	r.side()
	switch c := s.peek(0); {
	case c == '"' || c == '-' || c == '/' || s.bandAhead():
		return s.fail(s.pos, ErrSyntax, "a filter or a band before the symbol is ISO 1302 text: choose the edition iso-4287")
	case s.atNumber():
		return r.bareNumber(start)
	}
	w, err := r.symbol(iso2021)
	if err != nil {
		return err
	}
	if w.max || w.sections > 0 {
		return r.unknownSymbol(string(s.text[w.at:s.pos]), w.at, []family{iso2021})
	}
	r.Symbol = w.symbol
	if err := r.limit(w.row); err != nil {
		return err
	}
	return r.tail()
}

// bandAhead tells whether a transmission band as in ISO 1302 comes next: a number, then a hyphen or a stroke.
func (s *scanner) bandAhead() bool {
	if !s.atNumber() {
		return false
	}
	i := 0
	for isDigit(s.peek(i)) || isMark(s.peek(i)) {
		i++
	}
	for s.peek(i) == ' ' {
		i++
	}
	return s.peek(i) == '-' || s.peek(i) == '/'
}

// limit reads the limit with its unit, where one is written.
func (r *Requirement) limit(row symbolRow) error {
	s := r.s
	s.blanks()
	at := s.pos
	r.at["limit"] = at
	if at > 0 && s.text[at-1] != ' ' && s.atNumber() { // Ra3,1
		return s.fail(at, ErrSyntax, "a blank is missing between the symbol and the limit: a digit at the symbol would be a number of sections")
	}
	sign := ""
	if row.quantity == number && s.take("-") {
		sign = "-"
	}
	if sign == "" {
		if err := r.sign(); err != nil {
			return err
		}
	}
	if !s.atNumber() {
		hint := ""
		if n := r.Sections; n > 0 {
			hint = fmt.Sprintf("; %d is read as a number of sections: if it is the limit, put a blank before it", n)
		}
		return s.fail(s.pos, ErrNumber, "expected the limit of %s, found %s%s", r.Symbol, s.rest(), hint)
	}
	d, err := s.decimal()
	if err != nil {
		return err
	}
	unitAt := s.pos
	r.Unit = s.unit()
	if err := r.checkUnit(row.quantity, unitAt); err != nil {
		return err
	}
	if v := d.times(0); row.quantity != number && v == 0 && sign == "" && row.quantity != ratio {
		return s.fail(at, ErrNumber, "a limit of 0 cannot be kept")
	} else if row.quantity == ratio && v > 100 && r.Symbol[1:] != "dr" {
		return s.fail(at, ErrNumber, "a material ratio above 100 %%")
	}
	r.LimitText = sign + trimNumber(d.text)
	if c := s.peek(0); c != 0 && c != ' ' && c != '\n' {
		return s.fail(s.pos, ErrSyntax, "a blank is missing after the limit, before %s", s.rest())
	}
	r.setLimit()
	return nil
}

// sign reads ≤ or ≥ before the limit, which no standard writes and everybody understands.
func (r *Requirement) sign() error {
	s, at := r.s, r.s.pos
	side := Upper
	switch {
	case s.take("≤"), s.take("<="):
	case s.take("≥"), s.take(">="):
		side = Lower
	default:
		return nil
	}
	if r.SideWritten && r.Side != side {
		return s.fail(at, ErrSyntax, "the sign says %s limit, the letter before the symbol %s limit", side, r.Side)
	}
	r.Side, r.SideWritten = side, true
	s.blanks()
	return nil
}

// checkUnit holds the unit against the kind of parameter and fills in the one that is always meant.
func (r *Requirement) checkUnit(q quantity, at int) error {
	_, length := micrometres(decimal{text: "1"}, r.Unit)
	ok := true
	switch q {
	case height:
		if r.Unit == "" && familyOf(r.Edition) != asme {
			r.Unit = "µm"
		}
		ok = length || r.Unit == "" || r.Unit == "µm"
	case spacing:
		ok = length || r.Unit == ""
	case ratio:
		if r.Unit == "" {
			r.Unit = "%"
		}
		ok = r.Unit == "%"
	case number:
		ok = r.Unit == ""
	case count:
		if r.Unit == "" {
			r.Unit = "1/cm"
		}
		ok = r.Unit == "1/cm" || r.Unit == "1/mm"
	}
	if !ok {
		return r.s.fail(at, ErrNumber, "%s has no limit in %s", r.Symbol, r.Unit)
	}
	return nil
}

// rules are the acceptance rules as ISO 21920-1 writes them.
var rules = []struct {
	text string
	rule Rule
}{{"Tmax", Maximum}, {"T16%", SixteenPercent}, {"T16 %", SixteenPercent}, {"Tmed", Median}}

// bareElements gathers filters and lengths that stand without a key.
type bareElements struct {
	filters []bareFilter
	numbers []decimal
}

type bareFilter struct {
	name  string
	index decimal
	unit  string
	at    int
}

// filterLetters are those of ISO 1101; that ISO 21920-1 has the same is remembered.
var filterLetters = map[string]string{"G": "gaussian", "S": "spline", "RG": "robust-gaussian", "RS": "robust-spline"}

// tail reads what follows the limit.
func (r *Requirement) tail() error {
	s := r.s
	full := familyOf(r.Edition) == iso2021
	var bare bareElements
	if c := s.peek(0); c != 0 && c != ' ' && s.pos > 0 && s.text[s.pos-1] != ' ' {
		return s.fail(s.pos, ErrSyntax, "a blank is missing before %s", s.rest())
	}
	for !s.done() {
		at := s.pos
		switch c := s.peek(0); {
		case c == '"':
			text, err := s.quoted()
			if err != nil {
				return err
			}
			if err := r.set("process", at, func() { r.Process = text }); err != nil {
				return err
			}
		case strings.ContainsRune("=⟂", c) || (strings.ContainsRune("XMCRP", c) && (s.peek(1) == ' ' || s.peek(1) == 0)):
			s.pos++
			if err := r.set("lay", at, func() { r.Lay = string(c) }); err != nil {
				return err
			}
		case full && s.atNumber():
			d, err := s.decimal()
			if err != nil {
				return err
			}
			if n := len(bare.filters); n < 2 {
				return s.fail(at, ErrSyntax, "a number without a key: write Nis=, Nic=, lsc=, nsc= or le=")
			}
			if s.take("mm") {
				d.at = at
			}
			bare.numbers = append(bare.numbers, d)
		default:
			if done, err := r.tailWord(at, full, &bare); done || err != nil {
				if err != nil {
					return err
				}
				continue
			}
			if err := r.entry(tailKeys); err != nil {
				return err
			}
		}
	}
	return r.useBare(bare)
}

// tailWord reads an element that is a word by itself.
func (r *Requirement) tailWord(at int, full bool, bare *bareElements) (bool, error) {
	s := r.s
	for _, w := range rules {
		if !s.takeWord(w.text) {
			continue
		}
		if !full {
			return true, s.fail(at, ErrSyntax, "%s is ISO 21920-1 text; ISO 1302 writes max in the symbol, and 16 %% without a word", w.text)
		}
		if len(bare.filters) > 0 || r.Form != "" || r.Extraction != "" {
			return true, s.fail(at, ErrSyntax, "%s stands before filters, form and extraction", w.text)
		}
		return true, r.set("rule", at, func() { r.Rule, r.RuleWritten = w.rule, true })
	}
	if !full {
		return false, nil
	}
	for _, w := range []string{"max", "16%", "med"} {
		if s.takeWord(w) {
			return true, s.fail(at, ErrSyntax, "the rule is written T%s", w)
		}
	}
	for i := 1; i <= 5; i++ {
		if name := fmt.Sprintf("Sc%d", i); s.takeWord(name) {
			return true, r.set("class", at, func() { r.Class = name })
		}
	}
	if s.take("OR(") {
		n, err := s.integer()
		if err != nil {
			return true, err
		}
		if !s.take(")") {
			return true, s.fail(s.pos, ErrSyntax, "expected a closing bracket, found %s", s.rest())
		}
		r.Others = append(r.Others, n)
		return true, nil
	}
	for _, w := range []struct{ text, is string }{{"mechanical", "mechanical"}, {"optical", "optical"}, {"electromagnetic", "optical"}} {
		if s.takeWord(w.text) {
			return true, r.set("extraction", at, func() { r.Extraction = w.is })
		}
	}
	for letters, name := range filterLetters {
		from := s.pos
		if s.takeWord(letters) {
			s.blanks()
			if !s.atNumber() {
				return true, s.fail(from, ErrSyntax, "a filter without its nesting index")
			}
			d, err := s.decimal()
			if err != nil {
				return true, err
			}
			bare.filters = append(bare.filters, bareFilter{name, d, s.unit(), from})
			if len(bare.filters) > 2 {
				return true, s.fail(from, ErrSyntax, "a third filter: there is an S-filter and an L-filter")
			}
			return true, nil
		}
	}
	return false, nil
}

// useBare gives bare filters and lengths their meaning by their order, or refuses what could mean two things.
func (r *Requirement) useBare(bare bareElements) error {
	s := r.s
	switch len(bare.filters) {
	case 0:
		return nil
	case 1:
		return s.fail(bare.filters[0].at, ErrSyntax, "one filter could be the S-filter or the L-filter: write Nis= or Nic= instead")
	}
	r.Notes = append(r.Notes, "Filters and lengths were read by their order: S-filter index in µm, L-filter index and lengths in mm. How ISO 21920-1 spells them was not seen.")
	for i, f := range bare.filters {
		unit := f.unit
		if unit == "" {
			unit = [2]string{"µm", "mm"}[i]
		}
		v, ok := micrometres(f.index, unit)
		if !ok || !(v > 0) {
			return s.fail(f.index.at, ErrNumber, "not a nesting index")
		}
		set := func() { r.ShortFilter, r.Short = f.name, v }
		if i == 1 {
			set = func() { r.LongFilter, r.Long = f.name, v }
		}
		if err := r.set([2]string{"short", "long"}[i], f.at, set); err != nil {
			return err
		}
	}
	if len(bare.numbers) == 0 {
		return nil
	}
	if len(bare.numbers) != 3 {
		return s.fail(bare.numbers[0].at, ErrSyntax, "%d numbers after the filters: section length, number of sections and evaluation length are three; otherwise write lsc=, nsc= or le=", len(bare.numbers))
	}
	n := bare.numbers[1].times(0)
	if n != float64(int(n)) || n < 1 || n > 1000 {
		return s.fail(bare.numbers[1].at, ErrNumber, "%s is not a number of sections", bare.numbers[1].text)
	}
	for i, key := range []string{"section", "sections", "evaluation"} {
		v := bare.numbers[i].times(3)
		if i != 1 && !(v > 0) {
			return s.fail(bare.numbers[i].at, ErrNumber, "a length of 0")
		}
		set := []func(){func() { r.Section = v }, func() { r.Sections = int(n) }, func() { r.Evaluation = v }}[i]
		if err := r.set(key, bare.numbers[i].at, set); err != nil {
			return err
		}
	}
	return nil
}

// set fills an entry once.
func (r *Requirement) set(key string, at int, fill func()) error {
	if _, twice := r.at[key]; twice {
		return r.s.fail(at, ErrSyntax, "%s is given twice", key)
	}
	r.at[key] = at
	fill()
	return nil
}
