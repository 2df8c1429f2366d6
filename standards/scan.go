package standards

import (
	"fmt"
	"math"
	"strconv"
	"strings"
	"unicode"
)

// scanner walks over the characters of a requirement. Characters that look alike are made one before, without
// changing how many there are, so that a place in it is a place in the text as written.
type scanner struct {
	text []rune
	pos  int
	end  int
	// separate lets a comma in brackets stand between numbers always, as in the keyed notation.
	separate bool
}

// maxText is more than any drawing says, and little enough to read without delay.
const maxText = 10000

func newScanner(text string) *scanner {
	s := &scanner{text: []rune(text)}
	for i, r := range s.text {
		s.text[i] = alike(r)
	}
	s.end = len(s.text)
	return s
}

func alike(r rune) rune {
	switch r {
	case '\t', '\r', '\u00a0', '\u2009', '\u202f', '\u2007':
		return ' '
	case 'μ':
		return 'µ'
	case '−', '–', '‐', '‑':
		return '-'
	case '∆':
		return 'Δ'
	case '⊥':
		return '⟂'
	case '∇':
		return '▽'
	case '“', '”', '„':
		return '"'
	case '～', '∼':
		return '~'
	}
	return r
}

// fail makes a refusal at a place.
func (s *scanner) fail(at int, err error, format string, args ...any) *TextError {
	e := &TextError{Line: 1, Column: 1, Reason: fmt.Sprintf(format, args...), Err: err}
	for i := 0; i < at && i < len(s.text); i++ {
		if s.text[i] == '\n' {
			e.Line, e.Column = e.Line+1, 1
		} else {
			e.Column++
		}
	}
	return e
}

// peek returns the character k places on, and 0 at the end.
func (s *scanner) peek(k int) rune {
	if s.pos+k >= s.end {
		return 0
	}
	return s.text[s.pos+k]
}

func (s *scanner) blanks() {
	for s.pos < s.end && (s.text[s.pos] == ' ' || s.text[s.pos] == '\n') {
		s.pos++
	}
}

func (s *scanner) done() bool { s.blanks(); return s.pos >= s.end }

// rest returns what is left up to the next blank, for a message.
func (s *scanner) rest() string {
	i := s.pos
	for i < s.end && s.text[i] != ' ' && s.text[i] != '\n' {
		i++
	}
	if i == s.pos {
		return "the end"
	}
	return strconv.Quote(string(s.text[s.pos:i]))
}

// take moves past prefix if it comes next.
func (s *scanner) take(prefix string) bool {
	n := 0
	for _, r := range prefix {
		if s.peek(n) != r {
			return false
		}
		n++
	}
	s.pos += n
	return true
}

// takeWord moves past a whole word that a blank or the end follows.
func (s *scanner) takeWord(word string) bool {
	from := s.pos
	if !s.take(word) {
		return false
	}
	if r := s.peek(0); r != 0 && r != ' ' && r != '\n' {
		s.pos = from
		return false
	}
	return true
}

// word returns the run of letters and digits that comes next.
func (s *scanner) word() string {
	from := s.pos
	for s.pos < s.end && (unicode.IsLetter(s.text[s.pos]) || unicode.IsDigit(s.text[s.pos])) && s.text[s.pos] != 'µ' {
		s.pos++
	}
	return string(s.text[from:s.pos])
}

func isDigit(r rune) bool { return r >= '0' && r <= '9' }

func isMark(r rune) bool { return r == '.' || r == ',' }

// atNumber tells whether an unsigned number comes next.
func (s *scanner) atNumber() bool {
	return isDigit(s.peek(0)) || (isMark(s.peek(0)) && isDigit(s.peek(1)))
}

// decimal is a number as written, kept as text so that a change of unit by a power of ten is exact.
type decimal struct {
	text string // with a point
	at   int
}

// times returns the number times a power of ten.
func (d decimal) times(exponent int) float64 {
	v, _ := strconv.ParseFloat(d.text+"e"+strconv.Itoa(exponent), 64)
	return v
}

// decimal reads a number with at most one decimal mark, point or comma; no grouping, no exponent.
func (s *scanner) decimal() (decimal, error) {
	from := s.pos
	var b strings.Builder
	marks := 0
	for ; s.pos < s.end; s.pos++ {
		r := s.text[s.pos]
		if isDigit(r) {
			b.WriteRune(r)
			continue
		}
		if !isMark(r) {
			break
		}
		if !isDigit(s.peek(1)) {
			return decimal{}, s.fail(s.pos, ErrNumber, "a decimal mark without digits after it")
		}
		if marks++; marks > 1 {
			return decimal{}, s.fail(s.pos, ErrNumber, "a second decimal mark: write the number without grouping")
		}
		if b.Len() == 0 {
			b.WriteByte('0')
		}
		b.WriteByte('.')
	}
	if b.Len() == 0 {
		return decimal{}, s.fail(from, ErrNumber, "expected a number, found %s", s.rest())
	}
	if b.Len() > 30 {
		return decimal{}, s.fail(from, ErrNumber, "a number of more than 30 digits")
	}
	d := decimal{b.String(), from}
	if v := d.times(0); math.IsInf(v, 0) {
		return decimal{}, s.fail(from, ErrNumber, "number too large")
	}
	return d, nil
}

// integer reads a whole number between 1 and 1000.
func (s *scanner) integer() (int, error) {
	from := s.pos
	d, err := s.decimal()
	if err != nil {
		return 0, err
	}
	n, convErr := strconv.Atoi(d.text)
	if convErr != nil || n < 1 || n > 1000 {
		return 0, s.fail(from, ErrNumber, "%s is not a whole number from 1 to 1000", d.text)
	}
	return n, nil
}

// units are the spellings of units, longest first where one begins another.
var units = []struct{ text, unit string }{
	{"µin", "µin"}, {"uin", "µin"}, {"µm", "µm"}, {"um", "µm"}, {"mm", "mm"}, {"nm", "nm"},
	{"inch", "in"}, {"in", "in"}, {"%", "%"}, {"1/cm", "1/cm"}, {"/cm", "1/cm"}, {"1/mm", "1/mm"}, {"/mm", "1/mm"},
}

// unit reads a unit, with or without a blank before it, and returns "" when none stands there.
func (s *scanner) unit() string {
	from := s.pos
	s.blanks()
	for _, u := range units {
		start := s.pos
		if s.take(u.text) {
			if r := s.peek(0); !unicode.IsLetter(r) && !isDigit(r) {
				return u.unit
			}
			s.pos = start
		}
	}
	s.pos = from
	return ""
}

// micrometres converts a length; ok is false for a unit that is none.
func micrometres(d decimal, unit string) (v float64, ok bool) {
	switch unit {
	case "µm":
		return d.times(0), true
	case "mm":
		return d.times(3), true
	case "nm":
		return d.times(-3), true
	case "µin":
		return d.times(0) * 254 / 10000, true
	case "in":
		return d.times(0) * 25400, true
	}
	return 0, false
}

// quoted reads a text between quotation marks; the first is next.
func (s *scanner) quoted() (string, error) {
	from := s.pos
	s.pos++
	for i := s.pos; i < s.end && s.text[i] != '\n'; i++ {
		if s.text[i] == '"' {
			text := string(s.text[s.pos:i])
			s.pos = i + 1
			return text, nil
		}
	}
	return "", s.fail(from, ErrSyntax, "a quotation mark that is not closed")
}
