package standards

import (
	"slices"
	"strings"
)

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

// symbolWord is a symbol as it stands in the text: "Rz8max" is Rz over eight sections under the maximum rule.
type symbolWord struct {
	symbol   string
	row      symbolRow
	sections int
	max      bool
	family   family
	at       int
}

// splitWord takes a word apart into symbol, number of sections and "max".
func splitWord(word string, in family) (w symbolWord, ok bool) {
	if name, row, ok := lookSymbol(word, in); ok {
		return symbolWord{symbol: name, row: row}, true
	}
	rest, max := strings.CutSuffix(word, "max")
	base := strings.TrimRight(rest, "0123456789")
	digits := rest[len(base):]
	name, row, ok := lookSymbol(base, in)
	if !ok || (digits == "" && !max) || len(digits) > 3 {
		return symbolWord{}, false
	}
	n := 0
	for _, d := range digits {
		n = 10*n + int(d-'0')
	}
	if digits != "" && n == 0 {
		return symbolWord{}, false
	}
	return symbolWord{symbol: name, row: row, sections: n, max: max}, true
}

// symbol reads the symbol with its arguments.
func (r *Requirement) symbol(families ...family) (symbolWord, error) {
	s := r.s
	start := s.pos
	word := s.word()
	r.at["symbol"] = start
	for _, in := range families {
		w, ok := splitWord(word, in)
		if !ok {
			continue
		}
		w.family, w.at = in, start
		args, err := r.arguments(w.symbol, w.row)
		w.symbol += args
		if err == nil && s.takeWord("max") {
			w.max = true
		}
		return w, err
	}
	return symbolWord{}, r.unknownSymbol(word, start, families)
}

// otherNames says what to write for a name that belongs to another time or place.
var otherNames = map[string]string{
	"Rmax":   "the largest height of a section is Rzx in ISO 21920, Rz1max in ISO 4288 practice; older texts also called the whole height Rmax",
	"Rz1max": "the largest height of a section is Rzx in ISO 21920",
	"Ry":     "the maximum height is Rz since 1997; Ry is read under jis-b0601-1994",
	"Rtm":    "the mean height of the sections is Rz since 1997",
	"AA":     "AA is Ra", "CLA": "CLA is Ra", "RMS": "RMS can mean Rq or Ra: write which",
}

func (r *Requirement) unknownSymbol(word string, at int, families []family) error {
	if word == "" {
		return r.s.fail(at, ErrSyntax, "expected the symbol of a parameter, found %s", r.s.rest())
	}
	if hint := otherNames[word]; hint != "" {
		return r.s.fail(at, ErrSymbol, "%s is not a symbol of this edition: %s", word, hint)
	}
	if base := strings.TrimRight(word, "0123456789"); base != word && (isMark(r.s.peek(0)) || word[len(base)] == '0') {
		for _, in := range families {
			if _, _, ok := lookSymbol(base, in); ok {
				return r.s.fail(at+len([]rune(base)), ErrSyntax, "a blank is missing between %s and its limit", base)
			}
		}
	}
	for _, in := range families {
		if like := symbolLike(word, in); like != "" {
			return r.s.fail(at, ErrSymbol, "%q is not a symbol; upper and lower case count: %s", word, like)
		}
	}
	for _, e := range Editions() {
		f := familyOf(e.ID)
		if w, ok := splitWord(word, f); ok && !slices.Contains(families, f) {
			switch {
			case families[0] == iso2021 && w.max:
				return r.s.fail(at, ErrSymbol, "%s: the maximum rule is written Tmax after the limit here; max in the symbol is ISO 1302 text (edition %s)", word, e.ID)
			case families[0] == iso2021 && w.sections > 0:
				return r.s.fail(at, ErrSymbol, "%s: a number of sections in the symbol is ISO 1302 text (edition %s); write nsc=%d after the limit, or a blank before %d if that is the limit", word, e.ID, w.sections, w.sections)
			}
			return r.s.fail(at, ErrSymbol, "%s is not a symbol of this edition; edition %s reads it", word, e.ID)
		}
	}
	return r.s.fail(at, ErrSymbol, "%q is not a symbol of this edition", word)
}

// arguments reads "(0,5)" or "(10,90)" and returns it with points and commas: "(0.5)", "(10,90)".
func (r *Requirement) arguments(symbol string, row symbolRow) (string, error) {
	s := r.s
	at := s.pos
	if s.peek(0) != '(' {
		if row.min > 0 {
			return "", s.fail(at, ErrSyntax, "%s needs its level in brackets, as in %s(0,5)", symbol, symbol)
		}
		return "", nil
	}
	if row.max == 0 {
		return "", s.fail(at, ErrSyntax, "%s takes nothing in brackets", symbol)
	}
	s.pos++
	var args []string
	for {
		s.blanks()
		sign := ""
		if s.take("-") {
			sign = "-"
		}
		d, err := s.argument(row)
		if err != nil {
			return "", err
		}
		args = append(args, sign+trimNumber(d.text))
		s.blanks()
		if s.take(")") {
			break
		}
		if !s.take(";") && !s.take(",") {
			return "", s.fail(s.pos, ErrSyntax, "expected a closing bracket, found %s", s.rest())
		}
	}
	if len(args) < row.min || len(args) > row.max {
		return "", s.fail(at, ErrSyntax, "%s takes %d to %d numbers in brackets, not %d; set two apart by a semicolon", symbol, row.min, row.max, len(args))
	}
	return "(" + strings.Join(args, ",") + ")", nil
}

// argument reads a number in brackets. Where two numbers are possible, a semicolon sets them apart, or a comma when it
// cannot be a decimal mark: in Rdc(10,90), which needs two, and in Rmr(5,0.5), which has a point as well. Rmr(0,5) is a
// half.
func (s *scanner) argument(row symbolRow) (decimal, error) {
	if row.max > 1 {
		end, semicolon, point := s.pos, false, false
		for ; end < s.end && s.text[end] != ')'; end++ {
			semicolon = semicolon || s.text[end] == ';'
			point = point || s.text[end] == '.'
		}
		for i := s.pos; !semicolon && (s.separate || row.min > 1 || row.min == 0 || point) && i < end; i++ {
			if s.text[i] == ',' {
				sub := scanner{text: s.text, pos: s.pos, end: i}
				d, err := sub.decimal()
				s.pos = sub.pos
				return d, err
			}
		}
	}
	return s.decimal()
}

// trimNumber takes away zeros that say nothing.
func trimNumber(text string) string {
	if strings.Contains(text, ".") {
		text = strings.TrimRight(strings.TrimRight(text, "0"), ".")
	}
	if text = strings.TrimLeft(text, "0"); text == "" || text[0] == '.' {
		text = "0" + text
	}
	return text
}
