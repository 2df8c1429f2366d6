package tracefile

import (
	"encoding/json"
	"errors"
	"fmt"
	"slices"
	"strings"
	"unicode"
)

// What an *Error can wrap.
var (
	ErrEmpty     = errors.New("nothing in the file")
	ErrNoData    = errors.New("no row of numbers")
	ErrNumber    = errors.New("not a finite decimal number")
	ErrCells     = errors.New("wrong number of cells")
	ErrQuote     = errors.New("quoted cell not closed")
	ErrMissingX  = errors.New("no x in this row")
	ErrUneven    = errors.New("x is not evenly spaced")
	ErrRepeated  = errors.New("x is repeated")
	ErrTurns     = errors.New("x turns round")
	ErrOpen      = errors.New("the file leaves a question open")
	ErrHint      = errors.New("hint does not fit")
	ErrLimit     = errors.New("beyond the limits of the reader")
	ErrTruncated = errors.New("file ends early")
	ErrFormat    = errors.New("not as the format wants it")
	ErrForeign   = errors.New("a file of another kind") // the sentence says which; there is no place, and none of its bytes is quoted
)

// ErrSize is the [ErrLimit] of a file that is larger than can be read here: see [MaxSize].
var ErrSize = because(ErrLimit, "a file too large to be read")

// Error says what is wrong with a file, and where. Line and Column count from 1 and are 0 where there is none, as in a
// binary file; Column counts characters, not bytes, and a byte order mark is no character.
type Error struct {
	Line, Column int
	Err          error
}

func (e *Error) Error() string {
	switch {
	case e.Line > 0 && e.Column > 0:
		return fmt.Sprintf("tracefile: line %d, column %d: %v", e.Line, e.Column, e.Err)
	case e.Line > 0:
		return fmt.Sprintf("tracefile: line %d: %v", e.Line, e.Err)
	}
	return fmt.Sprintf("tracefile: %v", e.Err)
}

// Unwrap returns what is wrong.
func (e *Error) Unwrap() error { return e.Err }

// HintQuestion is one thing that a file leaves open.
type HintQuestion struct {
	Hint    string       // key of the hint that answers it: "x_unit"
	Text    string       // what is open
	Answers []HintAnswer // the readings that are possible; one of them without a Value takes a number
}

// HintAnswer is one reading: what to write for the hint, and what follows from it.
type HintAnswer struct {
	Value string // as JSON; empty where a number is to be given
	Text  string
	Hint  string // in place of the question's hint, where another one says it
	Unit  string // of the number to be given; empty for one that counts from 1
}

// asked holds every hint that a question can ask for, with the answers that hold for any file.
var asked = []struct {
	hint    string
	answers []HintAnswer
}{
	{"x_unit", answers("mm", "millimetres", "µm", "micrometres", "nm", "nanometres", "m", "metres", "in", "inches")},
	{"z_unit", answers("µm", "micrometres", "nm", "nanometres", "mm", "millimetres", "m", "metres", "µin", "microinches")},
	{"spacing", []HintAnswer{{Text: "distance between points", Unit: "µm"}}},
	{"x_column", []HintAnswer{{Text: "number of the column"}}},
	{"z_column", []HintAnswer{{Text: "number of the column"}}},
	{"decimal", answers(",", "the comma is the decimal mark", ".", "the point is the decimal mark")},
	{"delimiter", nil},
	{"heights", nil},
	{"trace", []HintAnswer{{Text: "number of the trace"}}},
	{"row", []HintAnswer{{Text: "a row, along x"}, {Hint: "column", Text: "a column, along y"}}},
	{"integrate", []HintAnswer{{Value: "true", Text: "Integrate them"}}},
}

// answers are answers of a word and what it means.
func answers(pairs ...string) []HintAnswer {
	var all []HintAnswer
	for i := 0; i < len(pairs); i += 2 {
		all = append(all, HintAnswer{Value: jsonString(pairs[i]), Text: pairs[i+1]})
	}
	return all
}

// jsonString is a text as JSON writes it.
func jsonString(s string) string {
	b, _ := json.Marshal(s) // a string always has JSON
	return string(b)
}

// Asked returns the hints that a question can ask for.
func Asked() []string {
	var hints []string
	for _, a := range asked {
		hints = append(hints, a.hint)
	}
	return hints
}

// ask makes a question with the answers that hold for any file.
func ask(hint, format string, args ...any) HintQuestion {
	i := slices.Index(Asked(), hint) // every hint that is asked for stands there
	return HintQuestion{hint, fmt.Sprintf(format, args...), slices.Clone(asked[i].answers)}
}

// most is the number of readings that a question lists one by one.
const most = 12

// with gives a question the answers for n readings, which are all that is possible unless there are more than most.
func (q HintQuestion) with(n int, answers []HintAnswer) HintQuestion {
	if n > most {
		answers = append(answers, q.Answers...)
	}
	return q.only(answers)
}

// only gives a question the answers that are all that is possible.
func (q HintQuestion) only(answers []HintAnswer) HintQuestion {
	q.Answers = answers
	return q
}

// Questions is the error of a file that can be read in more than one way: everything that is open at once.
// errors.Is(err, ErrOpen) reports it.
type Questions []HintQuestion

func (q Questions) Error() string {
	var all []string
	for _, one := range q {
		text := fmt.Sprintf("%s: give the hint %q", one.Text, one.Hint)
		for j, a := range one.Answers {
			text += [...]string{" as", " or"}[min(j, 1)]
			if a.Hint != "" {
				text += fmt.Sprintf(" the hint %q as", a.Hint)
			}
			switch {
			case a.Value != "":
				text += " " + a.Value
			case a.Unit != "":
				text += " a number of " + a.Unit
			default:
				text += " a number"
			}
			if a.Text != "" {
				text += " (" + a.Text + ")"
			}
		}
		all = append(all, text)
	}
	return strings.Join(all, "; ")
}

// Is makes errors.Is(err, ErrOpen) true.
func (q Questions) Is(target error) bool { return target == ErrOpen }

// detail is a sentinel with the particulars of one place.
type detail struct {
	text string
	err  error
}

func (d *detail) Error() string { return d.text }
func (d *detail) Unwrap() error { return d.err }

// because wraps a sentinel in a sentence of its own. A sentence that quotes another package, which may quote the file, has an end.
func because(sentinel error, format string, args ...any) error {
	return &detail{clipTo(600, fmt.Sprintf(format, args...)), sentinel}
}

func notDecimal[T ~string | ~[]byte](text T) error {
	return because(ErrNumber, "%q is not a finite decimal number", clip(string(text)))
}

// clip shortens what an error quotes from a file, which may be a number of a million digits.
func clip(s string) string { return clipTo(40, s) }

// clipLine is a line of a file as a report shows it, without a copy of the whole.
func clipLine(line []byte) string { return clip(string(line[:min(len(line), 200)])) }

// shown is a name from an archive as a message can show it.
func shown(name string) string {
	return clip(strings.Map(func(r rune) rune {
		if !unicode.IsPrint(r) {
			return '?'
		}
		return r
	}, strings.ToValidUTF8(name, "?")))
}

// clipTo shortens a text to so many characters.
func clipTo(most int, s string) string {
	if len(s) <= most {
		return s
	}
	n, last := 0, 0
	for i := range s {
		switch n++; {
		case n == most:
			last = i
		case n > most:
			return s[:last] + "…"
		}
	}
	return s
}

func plural(n int, what string) string {
	if n == 1 {
		return "1 " + what
	}
	return number(float64(n)) + " " + what + "s"
}

// IsQuestion returns the questions that an error asks, or nil.
func IsQuestion(err error) Questions {
	q, _ := errors.AsType[Questions](err)
	return q
}
