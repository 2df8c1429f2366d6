package standards

// Reader reads the text of a requirement. The zero value reads the current edition.
type Reader struct {
	Edition string // empty: "iso-21920"
	// ClassFromLower lets the lower of two limits choose the setting class for both. ISO 21920-3 has a clause of its own
	// for two limits that was not seen; by default the upper limit chooses.
	ClassFromLower bool
}

// ParseRequirement reads the text of a drawing requirement under an edition: ISO 21920-1 elements in their order, ISO
// 1302 text, the habits of ASME Y14.36, old grades and marks, or the keyed notation that Keyed prints. Several
// requirements stand on lines of their own, or between semicolons. A refusal is a *TextError.
func ParseRequirement(text, edition string) (*Requirements, error) {
	return Reader{Edition: edition}.Read(text)
}

// Read reads text; see ParseRequirement.
func (rd Reader) Read(text string) (*Requirements, error) {
	if rd.Edition == "" {
		rd.Edition = "iso-21920"
	}
	s := newScanner(text)
	if _, ok := EditionByID(rd.Edition); !ok {
		return nil, s.fail(0, ErrEdition, "no edition %q", rd.Edition)
	}
	if len(s.text) > maxText {
		return nil, s.fail(maxText, ErrSyntax, "a requirement of more than %d characters", maxText)
	}
	all := &Requirements{Text: text, Edition: rd.Edition, reader: rd}
	removal := ""
	for _, part := range s.parts() {
		p := &scanner{text: s.text, pos: part[0], end: part[1]}
		if p.done() {
			continue
		}
		items, err := rd.parseItem(p, &removal)
		if err != nil {
			return nil, err
		}
		all.Items = append(all.Items, items...)
	}
	if len(all.Items) == 0 {
		return nil, s.fail(0, ErrSyntax, "no requirement in the text")
	}
	if err := rd.derive(all.Items); err != nil {
		return nil, err
	}
	return all, nil
}

// parts splits at line ends and semicolons outside quotation marks and brackets, and at a stroke that U or L follows.
func (s *scanner) parts() [][2]int {
	var parts [][2]int
	from, quote, depth := 0, false, 0
	for i := 0; i < s.end; i++ {
		switch r := s.text[i]; {
		case r == '\n':
			parts = append(parts, [2]int{from, i})
			from, quote, depth = i+1, false, 0
		case r == '"':
			quote = !quote
		case quote:
		case r == '(':
			depth++
		case r == ')':
			depth--
		case r == ';' && depth <= 0:
			parts = append(parts, [2]int{from, i})
			from = i + 1
		case r == '/' && i > from && s.text[i-1] == ' ':
			next := scanner{text: s.text, pos: i + 1, end: s.end}
			next.blanks()
			if next.pos > i+1 && (next.takeWord("U") || next.takeWord("L")) {
				parts = append(parts, [2]int{from, i})
				from = i + 1
			}
		}
	}
	return append(parts, [2]int{from, s.end})
}

// parseItem reads one requirement; stacked numbers are two.
func (rd Reader) parseItem(s *scanner, removal *string) ([]Requirement, error) {
	r := Requirement{Edition: rd.Edition, at: map[string]int{}, s: s}
	s.blanks()
	start := s.pos
	place := s.fail(start, nil, "")
	r.Line, r.Column = place.Line, place.Column
	if s.takeWord("furrow") {
		err := r.parseKeyed()
		return []Requirement{r}, err
	}
	for _, w := range []string{"APA", "MRR", "NMR"} {
		if s.takeWord(w) {
			*removal = w
			s.blanks()
			if s.pos >= s.end {
				return nil, s.fail(start, ErrSyntax, "%s without a requirement", w)
			}
		}
	}
	r.Removal = *removal
	r.at["begin"] = s.pos
	if found, err := r.parseMark(); found || err != nil {
		return []Requirement{r}, err
	}
	switch familyOf(r.Edition) {
	case iso2021:
		err := r.parse2021()
		return []Requirement{r}, err
	case asme:
		return r.parseASME()
	}
	err := r.parse1302()
	return []Requirement{r}, err
}

// parseMark reads a grade or a mark of older drawings, which is a question and not a requirement.
func (r *Requirement) parseMark() (found bool, err error) {
	s, start := r.s, r.s.pos
	switch {
	case s.peek(0) == '▽':
		for s.peek(0) == '▽' {
			s.pos++
		}
		r.Mark = string(s.text[start:s.pos])
		if s.pos-start > 4 {
			return true, s.fail(start, ErrSyntax, "no mark has more than four triangles")
		}
	case s.peek(0) == '~':
		s.pos++
		r.Mark = "~"
	case s.peek(0) == 'N' && isDigit(s.peek(1)):
		w := s.word()
		if GradeLimit(w) == 0 {
			return true, s.fail(start, ErrSyntax, "%s is no roughness grade: N1 to N12", w)
		}
		r.Mark = w
	default:
		return false, nil
	}
	r.at["mark"] = start
	r.setLimit()
	return true, r.tail()
}

// side reads U or L.
func (r *Requirement) side() {
	r.s.blanks()
	switch {
	case r.s.takeWord("U"):
		r.SideWritten = true
	case r.s.takeWord("L"):
		r.Side, r.SideWritten = Lower, true
	}
	r.s.blanks()
}
