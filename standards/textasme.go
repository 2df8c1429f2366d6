package standards

// The habits of ASME Y14.36 and B46.1, remembered: a bare number is Ra as a maximum, two numbers with a stroke between
// are maximum over minimum, AA and CLA are Ra. The unit is that of the drawing, microinch or micrometre, and a text
// that does not say which leaves a question.

// parseASME reads one requirement, or two from stacked numbers.
func (r *Requirement) parseASME() ([]Requirement, error) {
	s := r.s
	s.blanks()
	start := s.pos
	r.side()
	for _, w := range []string{"AA", "CLA"} {
		if s.takeWord(w) {
			s.blanks()
			if !s.atNumber() {
				return nil, s.fail(s.pos, ErrNumber, "expected the limit, found %s", s.rest())
			}
		}
	}
	if s.takeWord("RMS") {
		s.blanks()
		if !s.atNumber() {
			return nil, s.fail(s.pos, ErrNumber, "expected the limit, found %s", s.rest())
		}
		r.Mark = "RMS"
		r.at["mark"] = start
		err := r.limitAlone()
		if err == nil {
			err = r.tail()
		}
		return []Requirement{*r}, err
	}
	if s.peek(0) == '"' || s.peek(0) == '-' || (s.bandAhead() && !s.stacked()) {
		err := r.parse1302()
		return []Requirement{*r}, err
	}
	if !s.atNumber() {
		w, err := r.symbol(asme)
		if err != nil {
			return nil, err
		}
		if w.max || w.sections > 0 {
			return nil, s.fail(w.at, ErrSymbol, "a number of sections or max in the symbol is ISO 1302 text: a limit is a maximum here anyway")
		}
		r.Symbol = w.symbol
		if err := r.limit(w.row); err != nil {
			return nil, err
		}
		err = r.tail()
		return []Requirement{*r}, err
	}
	return r.stackedNumbers(start)
}

// stacked tells whether two numbers with a stroke between come next.
func (s *scanner) stacked() bool {
	c := *s
	if _, err := c.decimal(); err != nil {
		return false
	}
	c.blanks()
	if !c.take("/") {
		return false
	}
	c.blanks()
	return c.atNumber()
}

// stackedNumbers reads "63" or "125/63", with the unit and the name after it.
func (r *Requirement) stackedNumbers(start int) ([]Requirement, error) {
	s := r.s
	two := s.stacked()
	if two && r.SideWritten {
		return nil, s.fail(start, ErrSyntax, "two limits in one, with a side written: write two requirements")
	}
	if err := r.limitAlone(); err != nil {
		return nil, err
	}
	second := *r
	if two {
		s.blanks()
		s.take("/")
		s.blanks()
		second.at = map[string]int{"begin": s.pos}
		place := s.fail(s.pos, nil, "")
		second.Line, second.Column = place.Line, place.Column
		second.Side = Lower
		if err := second.limitAlone(); err != nil {
			return nil, err
		}
		r.SideWritten, second.SideWritten = true, true
		if r.Unit == "" {
			r.Unit = second.Unit
		} else if second.Unit == "" {
			second.Unit = r.Unit
		}
	}
	s.blanks()
	at := s.pos
	symbol := "Ra"
	switch {
	case s.takeWord("AA"), s.takeWord("CLA"):
	case s.takeWord("RMS"):
		symbol, r.Mark, second.Mark = "", "RMS", "RMS"
		r.at["mark"], second.at["mark"] = at, at
	}
	r.Symbol, second.Symbol = symbol, symbol
	r.setLimit()
	second.setLimit()
	if two && r.Unit == second.Unit && !(decimal{text: r.LimitText}.times(0) > decimal{text: second.LimitText}.times(0)) {
		return nil, s.fail(second.at["limit"], ErrNumber, "the larger number stands first: maximum over minimum")
	}
	if err := r.tail(); err != nil {
		return nil, err
	}
	if !two {
		return []Requirement{*r}, nil
	}
	copied := *r
	copied.Line, copied.Column, copied.Side, copied.at = second.Line, second.Column, Lower, second.at
	copied.LimitText, copied.Unit, copied.Limit = second.LimitText, second.Unit, second.Limit
	return []Requirement{*r, copied}, nil
}
