package study

import (
	"fmt"
	"math"
	"regexp"
	"slices"
	"strconv"
	"strings"

	"example.com/furrow/params"
)

// The levels of a worked line with blanks: all shown, the result blank, the results of the single steps blank too, the terms blank too.
const (
	AllShown = iota
	LastBlank
	StepsBlank
	TermsBlank
)

// A Blank is one number of a worked line that is left to the student.
type Blank struct {
	ID, Name string
	Unit     string
	Decimals int
	Step     int // of the construction, from 1; 0 none

	value   float64
	printed string
	kind    byte    // W worked, X read from the picture, C counted, % a ratio, S a pure number
	axis    float64 // length of the axis it is read from
	line    int     // it stands in
	part    int     // of the line; the last one is the result
	slips   []slip
}

// A slip is a known way to another number.
type slip struct {
	value float64
	reply string
}

// BlankLines are worked lines with blanks. A part of a line is text, or "" where the blank of the next number stands.
type BlankLines struct {
	Symbol string
	Level  int
	Why    string // there are none
	Lines  [][]Piece
	Blanks []Blank

	lines  []params.Arithmetic
	digits int
}

// A Piece of a worked line is text, or a blank by its index.
type Piece struct {
	Text  string
	Blank int // -1 for text
}

// workedDigits is how many digits worked lines have.
func (r *Result) workedDigits() int {
	if r.State.Surface == Typed {
		return typedDigits
	}
	return 3
}

// Blanks makes the worked lines of the result with the blanks of a level.
func (r *Result) Blanks(level int) (*BlankLines, error) {
	b := &BlankLines{Symbol: r.Call.Symbol, Level: max(AllShown, min(TermsBlank, level)), digits: r.workedDigits()}
	if r.Input == nil {
		b.Why = r.Value.Reason
		return b, nil
	}
	c, err := params.Construct(r.Input, r.Call)
	if err != nil {
		b.Why = r.Value.Reason
		return b, nil
	}
	b.lines = c.Worked
	sections := r.sectionLines(&c)
	if len(sections) > 0 {
		b.lines = append(sections, b.lines...)
	}
	if len(b.lines) == 0 {
		b.Why = "There is no worked line for " + r.Call.Symbol + "."
		return b, nil
	}
	for i, w := range b.lines {
		b.add(r, &c, i, w, i < len(sections), len(sections) > 0)
	}
	return b, nil
}

// sectionLines are the lines "peak + pit" of the sections, where the result is made of both.
func (r *Result) sectionLines(c *params.Construction) []params.Arithmetic {
	if r.Call.Parameter.Key != "Rz" {
		return nil
	}
	n := r.Input.Section
	if n == 0 {
		n = len(r.Input.Z)
	}
	var lines []params.Arithmetic
	for k := 0; (k+1)*n <= len(r.Input.Z); k++ {
		z := r.Input.Z[k*n : (k+1)*n]
		peak, pit := slices.Max(z), -slices.Min(z)
		lines = append(lines, params.Arithmetic{Symbol: fmt.Sprintf("section %d", k+1), Form: "{1} + {2}", Terms: []float64{peak, pit}, Result: peak + pit, Unit: c.Unit})
	}
	if len(lines) == 1 {
		return nil
	}
	return lines
}

var placeholder = regexp.MustCompile(`\{(\d+)\}`)

// A number printed in a part of a line.
type printedNumber struct {
	text string
	term int // index of the term it is; -1 for text
}

// align finds the terms of a form in the part that was printed from it.
func align(form, part string) []printedNumber {
	var list []printedNumber
	terms := placeholder.FindAllStringSubmatch(form, -1)
	for i, literal := range placeholder.Split(form, -1) {
		literal = dressed(literal)
		end := len(part)
		if at := strings.Index(part, literal); at >= 0 && (literal != "" || i == 0) {
			end = at
		}
		if i > 0 {
			term, _ := strconv.Atoi(terms[i-1][1])
			list = append(list, printedNumber{part[:end], term - 1})
		}
		list = append(list, printedNumber{part[end:min(len(part), end+len(literal))], -1})
		part = part[min(len(part), end+len(literal)):]
	}
	return list
}

// dressed is the text between two terms as worked lines print it.
func dressed(literal string) string {
	return strings.Join(params.Arithmetic{Form: literal, Result: 1}.Work(1).Parts, " = ")
}

// add appends a worked line.
func (b *BlankLines) add(r *Result, c *params.Construction, number int, w params.Arithmetic, section, bySections bool) {
	printed := w.Work(b.digits)
	forms := strings.Split(w.Form, " = ")
	last := number == len(b.lines)-1
	left := strings.Contains(w.Form, "…")
	typed := r.State.Surface == Typed
	var line []Piece
	text := func(s string) {
		if n := len(line); n > 0 && line[n-1].Blank < 0 {
			line[n-1].Text += s
		} else if s != "" {
			line = append(line, Piece{s, -1})
		}
	}
	blank := func(part int, s string, v float64, k Blank) {
		k.line, k.part, k.value, k.printed = number, part, v, strings.Trim(s, "()")
		k.ID, k.Decimals = fmt.Sprintf("blank-%d", len(b.Blanks)+1), decimalsOf(k.printed)
		b.Blanks = append(b.Blanks, k)
		line = append(line, Piece{"", len(b.Blanks) - 1})
	}
	text(w.Symbol + " = ")
	for i, part := range printed.Parts {
		if i > 0 {
			text(" = ")
		}
		if i >= len(forms) { // the sum of a mean, with its count
			sum, count, _ := strings.Cut(part, " / ")
			if b.Level >= StepsBlank {
				total, _ := params.WorkedLine{Parts: []string{sum}}.Value()
				blank(i, sum, total, r.middle(w, total))
			} else {
				text(sum)
			}
			text(" / " + count)
			continue
		}
		pieces := align(forms[i], part)
		for k, p := range pieces {
			before := ""
			if k > 0 {
				before = pieces[k-1].text
			}
			switch {
			case p.term < 0 || p.term >= len(w.Terms):
				text(p.text)
			case bySections && last && i == 0 && b.Level >= StepsBlank: // the lines above have it
				text("h" + subscript(p.term+1))
			case counted(w, p.term, before):
				text(p.text)
			case i > 0: // the sum that stands for the terms
				if b.Level >= StepsBlank && (typed || !left) {
					blank(i, p.text, w.Terms[p.term], r.middle(w, w.Terms[p.term]))
				} else {
					text(p.text)
				}
			case b.Level >= TermsBlank || b.Level == StepsBlank && r.Call.Parameter.Group == params.GroupRatio && strings.HasPrefix(w.Form, "100 · {1} / "):
				blank(i, p.text, w.Terms[p.term], r.term(c, w, number, p.term, section))
			default:
				text(p.text)
			}
		}
	}
	if strings.HasPrefix(w.Form, "2 · {1} / {2}") { // the triangle of the peaks or dales, step by step
		text(" = ")
		double := printedTo(2*w.Terms[0], b.digits)
		if b.Level >= StepsBlank {
			blank(1, double, 2*w.Terms[0], r.middle(w, 2*w.Terms[0]))
		} else {
			text(double)
		}
		text(" / ")
		base := align(forms[0], printed.Parts[0])
		if b.Level >= TermsBlank {
			text("the ratio")
		} else {
			text(base[3].text)
		}
	}
	text(" " + printed.Sign + " ")
	if b.Level >= StepsBlank || b.Level >= LastBlank && last {
		blank(len(printed.Parts), printed.Result, w.Result, r.resultBlank(w, last))
	} else {
		text(printed.Result)
	}
	if w.Unit != params.None {
		text(" " + string(w.Unit))
	}
	b.Lines = append(b.Lines, line)
}

func subscript(n int) string {
	var s strings.Builder
	for _, d := range strconv.Itoa(n) {
		s.WriteRune('₀' + d - '0')
	}
	return s.String()
}

// counted tells whether a term is a number of points, or a length that is divided by: it is always given.
func counted(w params.Arithmetic, term int, before string) bool {
	v := w.Terms[term]
	return (strings.HasSuffix(before, "/ ") || strings.HasSuffix(before, "/ (")) && v == math.Trunc(v) && v > 1 && !strings.HasPrefix(w.Form, "2 · ")
}

func decimalsOf(s string) int {
	_, decimals, _ := strings.Cut(s, ".")
	return len(decimals)
}

func unitWords(unit params.Unit) string {
	if unit == params.None {
		return ""
	}
	return ", in " + spokenUnit(string(unit))
}

// resultBlank is the blank of a result.
func (r *Result) resultBlank(w params.Arithmetic, last bool) Blank {
	b := Blank{Name: w.Symbol + unitWords(w.Unit), Unit: string(w.Unit), kind: 'W'}
	switch {
	case w.Unit == params.Percent:
		b.kind = '%'
	case last && (r.Call.Parameter.Key == "Rsk" || r.Call.Parameter.Key == "Rku"):
		b.kind = 'S'
	case w.Unit == params.None && w.Form == "{1}" && w.Result == math.Trunc(w.Result):
		b.kind = 'C'
	}
	b.slips = r.slipsOf(w)
	return b
}

// middle is the blank of a sum.
func (r *Result) middle(w params.Arithmetic, v float64) Blank {
	b := Blank{Name: "the sum, before it is divided", kind: 'W'}
	b.slips = append(b.slips, unitSlips(v, string(w.Unit))...)
	if strings.HasPrefix(w.Form, "(|{") {
		total := 0.0
		for _, z := range r.Input.Z {
			total += z
		}
		b.slips = append(b.slips, slip{total, "Without the absolute value hills and dales cancel; the sum of z is " + plainly(total, 4) + "."})
	}
	return b
}

// term is the blank of a term.
func (r *Result) term(c *params.Construction, w params.Arithmetic, number, term int, section bool) Blank {
	b := Blank{Name: fmt.Sprintf("term %d of %s%s", term+1, w.Symbol, unitWords(w.Unit)), kind: 'W'}
	low, high := r.Extent()
	v := w.Terms[term]
	p := r.Call.Parameter
	if r.State.Surface != Typed {
		b.kind, b.axis = 'X', high-low
		switch {
		case p.Group == params.GroupSpacing && w.Unit == params.Micrometre && !strings.HasPrefix(p.Key, "Rc"), p.Group == params.GroupRatio && w.Unit == params.Percent:
			b.axis = float64(len(r.Input.Z)) * r.Input.Dx
		case p.Group == params.GroupGradient, p.Group == params.GroupSpatial, p.Group == params.GroupVolume, strings.HasPrefix(w.Form, "2 · "):
			b.kind = 'W'
		case v == math.Trunc(v):
			b.kind = 'C'
		}
	}
	b.slips = append(b.slips, unitSlips(v, string(w.Unit))...)
	for i, s := range c.Steps {
		if s.Value == v || section && s.Section == number+1 || s.Section == term+1 {
			b.Step = i + 1
			break
		}
	}
	if section {
		n := r.Input.Section
		z := r.Input.Z[number*n : (number+1)*n]
		what, whole, at := "highest", high, slices.Index(z, slices.Max(z))
		b.Name = fmt.Sprintf("peak height of section %d%s", number+1, unitWords(w.Unit))
		if term == 1 {
			what, whole, at = "lowest", -low, slices.Index(z, slices.Min(z))
			b.Name = fmt.Sprintf("pit depth of section %d%s", number+1, unitWords(w.Unit))
		}
		place := Printed((r.Evaluation.StartLength() + float64(number*n+at)*r.Input.Dx) / millimetre)
		if whole != v {
			b.slips = append(b.slips, slip{whole, fmt.Sprintf("Section %d has its own %s point, at %s mm.", number+1, what, place)})
		}
	}
	if section && term == 1 {
		b.slips = append(b.slips, slip{-v, "Depths count as positive: the pit is " + Printed(v) + " below the line."})
	} else {
		b.slips = append(b.slips, slip{-v, "The sign is the other one: " + Printed(v) + "."})
	}
	return b
}

func unitSlips(v float64, unit string) []slip {
	say := map[string]string{"µm": "In micrometres: ", "%": "In percent: "}[unit]
	if say == "" || v == 0 {
		return nil
	}
	list := []slip{{1000 * v, say + Printed(v) + "."}, {v / 1000, say + Printed(v) + "."}}
	if unit == "%" {
		list = append(list, slip{v / 100, say + Printed(v) + "."})
	}
	return list
}

// slipsOf are the known ways to another result.
func (r *Result) slipsOf(w params.Arithmetic) []slip {
	v, p := w.Result, r.Call.Parameter
	var list []slip
	add := func(value float64, format string, args ...any) {
		list = append(list, slip{value, fmt.Sprintf(format, args...)})
	}
	if strings.HasPrefix(w.Form, "(|{") {
		mean := 0.0
		for _, z := range r.Input.Z {
			mean += z / float64(len(r.Input.Z))
		}
		add(mean, "Without the absolute value hills and dales cancel; the mean of z is %s.", plainly(mean, 3))
	}
	if strings.HasPrefix(w.Form, "√(") {
		add(v*v, "This is the mean square, in %s². Its root is %s.", w.Unit, withUnit(v, w.Unit))
	}
	rq := params.Rq(r.Input.Z)
	switch p.Key {
	case "Rsk":
		add(v*rq, "%s divides by Rq³, not Rq².", p.Symbol)
	case "Rku":
		add(v*rq*rq, "%s divides by Rq⁴, not Rq².", p.Symbol)
	}
	if strings.HasPrefix(w.Form, "2 · {1} / {2}") {
		add(w.Terms[0], "This is the area. The triangle on the base %s has the height 2 × A / %[1]s.", Printed(w.Terms[1]))
		add(v/2, "This is area over base. The triangle on the base %s has the height 2 × A / %[1]s.", Printed(w.Terms[1]))
	}
	if n, ok := divisor(w); ok {
		_, crossings := crossed(r.Input.Z)
		root := func(f float64) float64 {
			if strings.HasPrefix(w.Form, "√(") {
				return math.Sqrt(f)
			}
			return f
		}
		for _, other := range []int{n - 1, crossings, r.Evaluation.Sections} {
			if other > 0 && other != n {
				add(v*root(float64(n)/float64(other)), "Divide by %s: %s.", whole(n), withUnit(v, w.Unit))
			}
		}
	}
	list = append(list, unitSlips(v, string(w.Unit))...)
	if v != 0 {
		add(-v, "The sign is the other one: %s.", Printed(v))
	}
	return list
}

var dividedBy = regexp.MustCompile(`\) / (\{?\d+)`)

// divisor is the number that a mean is divided by.
func divisor(w params.Arithmetic) (int, bool) {
	m := dividedBy.FindStringSubmatch(w.Form)
	if m == nil {
		return 0, false
	}
	n, _ := strconv.Atoi(strings.TrimPrefix(m[1], "{"))
	if strings.HasPrefix(m[1], "{") {
		n = int(w.Terms[n-1])
	}
	return n, n > 1
}
