package standards

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
