package standards

// The text of ISO 1302:2002, of which the motif evaluation length (6.3.3), the numbers of sampling lengths of the Rk
// family (6.3.4) and the two acceptance rules (6.4) were seen and the rest is remembered:
//
//	[U|L] ["filter"] [band/] symbol [number of sampling lengths] [max]  limit
//	[U|L] [band/] [evaluation length] / motif symbol  limit
//
// A band is two lengths in millimetres with a hyphen between; the hyphen stays when one is left out.

// parse1302 reads one requirement.
func (r *Requirement) parse1302() error {
	s := r.s
	s.blanks()
	start := s.pos
	r.side()
	if err := r.filterName(); err != nil {
		return err
	}
	if s.atNumber() && !s.bandAhead() {
		return r.bareNumber(start)
	}
	band, err := r.band()
	if err != nil {
		return err
	}
	families := []family{familyOf(r.Edition)}
	switch r.Edition {
	case "iso-4287", "jis-b0601-2013":
		families = append(families, motif)
	case "iso-12085":
	default:
		if band.motif {
			return s.fail(band.at, ErrSyntax, "motifs are read under iso-4287 and iso-12085")
		}
	}
	at := s.pos
	w, err := r.symbol(families...)
	if err != nil {
		return err
	}
	if w.family == motif {
		r.Edition = "iso-12085"
		if w.sections > 0 {
			return s.fail(at, ErrSymbol, "a motif parameter has no number of sampling lengths")
		}
	} else if band.motif {
		return s.fail(band.at, ErrSyntax, "two strokes belong to a motif parameter, and %s is none", w.symbol)
	}
	if err := r.useBand(band, w); err != nil {
		return err
	}
	asked := familyOf(r.Edition)&like1997 != 0 && (w.symbol == "Rz1max" || (w.symbol == "Rz" && w.sections == 1 && w.max))
	s.blanks()
	if s.takeWord("max") {
		w.max = true
	}
	if asked { // the two readings are settled by a question
		r.Mark = "Rz1max"
		r.at["mark"] = at
		delete(r.at, "symbol")
		r.Symbol = "Rz"
	} else {
		r.Symbol = w.symbol
		if w.sections > 0 {
			if letterOf(w.symbol) == 'P' {
				return s.fail(at, ErrSymbol, "a P-parameter is measured over the whole feature and has no number of sampling lengths")
			}
			r.Sections = w.sections
			r.at["sections"] = at
		}
		if w.max {
			r.Rule, r.RuleWritten = Maximum, true
			r.at["rule"] = at
		}
	}
	if err := r.limit(w.row); err != nil {
		return err
	}
	if asked {
		r.Symbol = ""
	}
	return r.tail()
}

// filterName reads "Gauss" or "2RC" between quotation marks.
func (r *Requirement) filterName() error {
	s := r.s
	if s.peek(0) != '"' {
		return nil
	}
	at := s.pos
	name, err := s.quoted()
	if err != nil {
		return err
	}
	switch name {
	case "Gauss":
		r.LongFilter = "gaussian"
	case "2RC":
		r.LongFilter = "two-rc"
	default:
		return s.fail(at, ErrSyntax, "no filter %q: ISO 1302 text knows \"Gauss\" and \"2RC\"", name)
	}
	r.at["long-filter"] = at
	s.blanks()
	return nil
}

// transmissionBand is the part before the symbol, as written.
type transmissionBand struct {
	at                  int
	short, long, length decimal
	hasShort, hasLong   bool
	hasLength, motif    bool
	written             bool
}

// band reads "0,008-0,8/", "-0,8/", "0,008-/", "//", "/10/" or nothing.
func (r *Requirement) band() (b transmissionBand, err error) {
	s := r.s
	b.at = s.pos
	if !s.atNumber() && s.peek(0) != '-' && s.peek(0) != '/' {
		return b, nil
	}
	b.written = true
	if s.atNumber() {
		if b.short, err = s.decimal(); err != nil {
			return b, err
		}
		b.hasShort = true
	}
	s.blanks()
	if s.take("-") {
		s.blanks()
		if s.atNumber() {
			if b.long, err = s.decimal(); err != nil {
				return b, err
			}
			b.hasLong = true
		}
		if !b.hasShort && !b.hasLong {
			return b, s.fail(b.at, ErrSyntax, "a hyphen without a length")
		}
	} else if b.hasShort {
		return b, s.fail(s.pos, ErrSyntax, "a band keeps its hyphen: %s- or -%s", b.short.text, b.short.text)
	}
	s.blanks()
	if !s.take("/") {
		return b, s.fail(s.pos, ErrSyntax, "expected the stroke after the band, found %s", s.rest())
	}
	s.blanks()
	if s.atNumber() {
		if b.length, err = s.decimal(); err != nil {
			return b, err
		}
		b.hasLength = true
		s.blanks()
	}
	b.motif = s.take("/")
	if b.hasLength && !b.motif {
		return b, s.fail(s.pos, ErrSyntax, "expected the stroke after the evaluation length, found %s", s.rest())
	}
	if !b.hasShort && !b.hasLong && !b.motif {
		return b, s.fail(b.at, ErrSyntax, "a stroke without a band")
	}
	s.blanks()
	return b, nil
}

// useBand gives the lengths of the band their meaning, which depends on the parameter.
func (r *Requirement) useBand(b transmissionBand, w symbolWord) error {
	if !b.written {
		return nil
	}
	fill := func(has bool, d decimal, key string, to *float64) error {
		if !has {
			return nil
		}
		v := d.times(3)
		if !(v > 1e-6) || v > 1e9 {
			return r.s.fail(d.at, ErrNumber, "not a length in millimetres")
		}
		return r.set(key, d.at, func() { *to = v })
	}
	steps := []struct {
		has bool
		d   decimal
		key string
		to  *float64
	}{{b.hasShort, b.short, "short", &r.Short}, {b.hasLong, b.long, "long", &r.Long}, {b.hasLength, b.length, "evaluation", &r.Evaluation}}
	switch {
	case w.family == motif && letterOf(w.symbol) == 'W': // operators A and B
		steps[0].key, steps[0].to = "a", &r.A
		steps[1].key, steps[1].to = "b", &r.B
	case w.family == motif:
		steps[1].key, steps[1].to = "a", &r.A
	case letterOf(w.symbol) == 'W':
		steps[0].key, steps[0].to = "long", &r.Long
		steps[1].key, steps[1].to = "waviness-limit", &r.WavinessLimit
	case letterOf(w.symbol) == 'P' && b.hasLong:
		return r.s.fail(b.long.at, ErrSyntax, "the primary profile has no long-wave limit")
	}
	for _, t := range steps {
		if err := fill(t.has, t.d, t.key, t.to); err != nil {
			return err
		}
	}
	if b.hasShort && b.hasLong && b.short.times(0) >= b.long.times(0) {
		return r.s.fail(b.short.at, ErrNumber, "the band has its shorter length first")
	}
	return nil
}

// bareNumber reads a number without a symbol, as on old drawings: a question under ISO and JIS.
func (r *Requirement) bareNumber(start int) error {
	s := r.s
	at := s.pos
	if err := r.limitAlone(); err != nil {
		return err
	}
	s.blanks()
	if s.takeWord("RMS") {
		r.Mark = "RMS"
		r.at["mark"] = at
	}
	if c := s.peek(0); c != 0 {
		return s.fail(s.pos, ErrSyntax, "expected the end after a number without a symbol, found %s", s.rest())
	}
	r.at["begin"] = start
	return nil
}

// limitAlone reads a number with its unit where no symbol stands before it.
func (r *Requirement) limitAlone() error {
	s := r.s
	at := s.pos
	d, err := s.decimal()
	if err != nil {
		return err
	}
	if d.times(0) == 0 {
		return s.fail(at, ErrNumber, "a limit of 0 cannot be kept")
	}
	unitAt := s.pos
	r.Unit = s.unit()
	if _, ok := micrometres(d, r.Unit); !ok && r.Unit != "" {
		return s.fail(unitAt, ErrNumber, "a roughness is not given in %s", r.Unit)
	}
	r.at["limit"] = at
	r.LimitText = trimNumber(d.text)
	r.setLimit()
	return nil
}
