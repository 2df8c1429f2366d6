package callout

import (
	"fmt"
	"math"
	"strconv"
	"strings"
	"unicode"
)

// scanner walks over the characters of a requirement. Characters that look alike are made one, without changing how many
// there are, so that a place in text is a place in raw, the text as written.
type scanner struct {
	raw, text []rune
	pos, end  int
}

// span is a part of the text: from its first character to the one behind its last.
type span struct{ from, to int }

// maxText is more than any drawing says, and little enough to read without delay.
const maxText = 2000

func newScanner(text string) *scanner {
	s := &scanner{raw: []rune(text)}
	s.text = make([]rune, len(s.raw))
	for i, r := range s.raw {
		s.text[i] = alike(r)
	}
	s.end = len(s.text)
	return s
}

// likeness says what other characters stand for: the first of each group is the one that is read.
var likeness = func() map[rune]rune {
	m := map[rune]rune{}
	for _, group := range []string{
		" \t\r\u00a0\u2000\u2001\u2002\u2003\u2004\u2005\u2006\u2007\u2008\u2009\u200a\u202f\u205f\u3000", "µμ", "-−–‐‑—", "Δ∆", "⟂⊥",
		"▽∇", "\"“”„‟«»", "~～∼", "≤≦⩽", "≥≧⩾", "/⁄∕", "×✕", "\n\u2028\u2029\v\f",
		"aₐ", "eₑ", "oₒ", "xₓ", "hₕ", "kₖ", "lₗ", "mₘ", "nₙ", "pₚ", "sₛ", "tₜ", "vᵥ", "rᵣ", "c꜀", "iᵢ",
		"0₀", "1₁", "2₂", "3₃", "4₄", "5₅", "6₆", "7₇", "8₈", "9₉",
	} {
		first := []rune(group)[0]
		for _, r := range group {
			m[r] = first
		}
	}
	return m
}()

func alike(r rune) rune {
	if r > 0xff00 && r < 0xff5f { // full-width forms
		r -= 0xfee0
	}
	if to, ok := likeness[r]; ok {
		return to
	}
	return r
}

// turnsDirection tells whether a character changes the direction of text: what is seen is then not what is stored.
func turnsDirection(r rune) bool {
	return r >= 0x202a && r <= 0x202e || r >= 0x2066 && r <= 0x2069 || r == 0x200e || r == 0x200f || r == 0x061c
}

// refuse gives the text up, with the place and the reason: it panics with a *TextError, which [attempt] takes. Nothing read so far is used.
func (s *scanner) refuse(err error, at int, format string, args ...any) {
	panic(s.refusal(err, at, fmt.Sprintf(format, args...)))
}

func (s *scanner) refusal(err error, at int, reason string) *TextError {
	line, column := s.place(at)
	return &TextError{Line: line, Column: column, Reason: reason, Err: err, at: at}
}

// bad refuses what stands at a place.
func (s *scanner) bad(at int, format string, args ...any) { s.refuse(ErrSyntax, at, format, args...) }

// badNumber refuses the number at a place.
func (s *scanner) badNumber(at int, format string, args ...any) {
	s.refuse(ErrNumber, at, format, args...)
}

// attempt reads, and returns the refusal if there was one.
func attempt(read func()) (refused *TextError) {
	defer func() {
		switch e := recover().(type) {
		case nil:
		case *TextError:
			refused = e
		default:
			panic(e)
		}
	}()
	read()
	return nil
}

// place returns line and column, from 1, of a character.
func (s *scanner) place(at int) (line, column int) {
	line, column = 1, 1
	for i := 0; i < at && i < len(s.text); i++ {
		if column++; s.text[i] == '\n' {
			line, column = line+1, 1
		}
	}
	return line, column
}

// peek returns the character k places on, and 0 at the end.
func (s *scanner) peek(k int) rune {
	if s.pos+k >= s.end || s.pos+k < 0 {
		return 0
	}
	return s.text[s.pos+k]
}

func isBlank(r rune) bool { return r == ' ' || r == '\n' }

func (s *scanner) blanks() {
	for s.pos < s.end && isBlank(s.text[s.pos]) {
		s.pos++
	}
}

func (s *scanner) done() bool { s.blanks(); return s.pos >= s.end }

// last returns the place behind the last character that is no blank.
func (s *scanner) last() int {
	end := s.end
	for end > 0 && isBlank(s.text[end-1]) {
		end--
	}
	return end
}

// word returns the place of the next blank.
func (s *scanner) word() int {
	i := s.pos
	for i < s.end && !isBlank(s.text[i]) {
		i++
	}
	return i
}

// rest returns what stands next, up to a blank, for a message.
func (s *scanner) rest() string {
	to := min(s.word(), s.pos+40)
	if to == s.pos {
		return "the end"
	}
	return strconv.Quote(s.source(span{s.pos, to}))
}

// fold makes letters that differ in case only one, and the Greek deltas d.
func fold(r rune) rune {
	if r == 'Δ' || r == 'δ' {
		return 'd'
	}
	return unicode.ToLower(r)
}

// at returns how many characters of the text at a place spell a word, in any case; 0 when they do not. A blank in the word stands for any
// number of them. A letter at the end of the word is not followed by another one.
func (s *scanner) at(at int, word string) int {
	i := at
	for _, r := range word {
		if r == ' ' {
			for i < s.end && isBlank(s.text[i]) {
				i++
			}
			continue
		}
		if i >= s.end || fold(s.text[i]) != fold(r) {
			return 0
		}
		i++
	}
	if i > at && i < s.end && unicode.IsLetter(s.text[i-1]) && unicode.IsLetter(s.text[i]) {
		return 0
	}
	return i - at
}

// taken moves past the first of the words that comes next, in any case, and returns it.
func (s *scanner) taken(words ...string) string {
	for _, w := range words {
		if n := s.at(s.pos, w); n > 0 {
			s.pos += n
			return w
		}
	}
	return ""
}

// take moves past a word, in any case, if it comes next.
func (s *scanner) take(words ...string) bool { return s.taken(words...) != "" }

func isDigit(r rune) bool { return r >= '0' && r <= '9' }

func isMark(r rune) bool { return r == '.' || r == ',' }

// digits moves past digits, and returns how many.
func (s *scanner) digits() int {
	from := s.pos
	for isDigit(s.peek(0)) {
		s.pos++
	}
	return s.pos - from
}

// atNumber tells whether an unsigned number comes next.
func (s *scanner) atNumber() bool {
	return isDigit(s.peek(0)) || (isMark(s.peek(0)) && isDigit(s.peek(1)))
}

// decimal is a number as written, kept as text so that a change of unit by a power of ten is exact.
type decimal struct {
	span
	text  string // with a point
	comma bool   // its decimal mark was a comma
}

// times returns the number times a power of ten.
func (d decimal) times(exponent int) float64 {
	v, _ := strconv.ParseFloat(d.text+"e"+strconv.Itoa(exponent), 64)
	return v
}

// decimal reads a number with at most one decimal mark, point or comma; no grouping, no exponent.
func (s *scanner) decimal() (d decimal) {
	d.from = s.pos
	for marks := 0; ; s.pos++ {
		r := s.peek(0)
		if isMark(r) && isDigit(s.peek(1)) {
			if marks++; marks > 1 {
				s.badNumber(s.pos, "a second decimal mark: write the number without groups of thousands")
			}
			if d.text == "" {
				d.text = "0"
			}
			d.comma = r == ','
			r = '.'
		} else if !isDigit(r) {
			break
		}
		d.text += string(r)
	}
	d.to = s.pos
	switch {
	case d.text == "":
		s.badNumber(d.from, "a number is expected here, not %s", s.rest())
	case len(d.text) > 1 && d.text[0] == '0' && isDigit(rune(d.text[1])):
		s.badNumber(d.from+1, "a digit behind a leading 0: a decimal mark may be missing")
	case len(d.text) > 30 || math.IsInf(d.times(3), 0):
		s.badNumber(d.from, "a number of more than 30 digits")
	}
	return d
}

// integer reads a whole number between 1 and 1000.
func (s *scanner) integer() int {
	d := s.decimal()
	n, err := strconv.Atoi(d.text)
	if err != nil || n < 1 || n > 1000 {
		s.badNumber(d.from, "%s is not a whole number from 1 to 1000", d.text)
	}
	return n
}

// quoted reads a text between quotation marks; the first is next.
func (s *scanner) quoted() string {
	from := s.pos
	for i := from + 1; i < s.end && s.text[i] != '\n'; i++ {
		if s.text[i] == '"' {
			s.pos = i + 1
			return strings.TrimSpace(s.source(span{from + 1, i}))
		}
	}
	s.bad(from, "the second quotation mark is missing")
	return ""
}

// closing returns the place of the bracket that closes the one at a place, and -1 when there is none.
func (s *scanner) closing(at int) int {
	depth, quote := 0, false
	for i := at; i < s.end && s.text[i] != '\n'; i++ {
		switch r := s.text[i]; {
		case r == '"':
			quote = !quote
		case quote:
		case r == '(' || r == '[':
			depth++
		case r == ')' || r == ']':
			if depth--; depth == 0 {
				return i
			}
		}
	}
	return -1
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
