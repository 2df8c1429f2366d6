package standards

import "fmt"

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
