package standards

import (
	"slices"
	"strings"
)

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
