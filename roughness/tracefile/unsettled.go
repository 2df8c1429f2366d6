package tracefile

import (
	"bytes"
	"encoding/json"
)

// noRows says why no line could be read as a row, by the first that nearly is one.
func (r *reader) noRows(all []*layout) error {
	if r.need() > 0 {
		try := *r
		try.named, try.hints = columns{}, Hints{Delimiter: r.hints.Delimiter, Decimal: r.hints.Decimal}
		if _, best := try.sift(all, len(r.data)); best != nil && best.cells < r.need() {
			return r.errorAt(best.start, because(ErrHint, "column %d is asked for and the rows have %s", r.need(), plural(best.cells, "cell")))
		}
	}
	at := -1
	for p := r.top; p < len(r.data); {
		line, next := r.nextLine(p)
		if kind := bytes.TrimSpace(line); len(kind) > 0 && at < 0 {
			at = p
		}
		if _, skip := comment(line); !skip {
			for _, l := range all {
				t := r.typed(line, l)
				numbers := 0
				for i, c := range t.cells {
					if r.looksAt(i) && c.kind == counted {
						numbers++
					}
				}
				switch bad := r.odd(t); {
				case numbers == 0:
				case t.open:
					return r.openQuote(p + t.cells[len(t.cells)-1].at)
				case bad != nil:
					return r.errorAt(p+bad.start, r.notNumber(l, bad.of(line)))
				}
			}
		}
		p = next
	}
	if at < 0 {
		return r.errorAt(r.top, because(ErrNoData, "no row of numbers"))
	}
	line, _ := r.nextLine(at)
	return r.errorAt(at, because(ErrNoData, "no row of numbers; the file begins with %q", clip(string(bytes.TrimSpace(line)))))
}

// ambiguous makes the question out of layouts that read the same rows differently.
func (r *reader) ambiguous(alive []*layout) error {
	at := alive[0].start
	for _, l := range alive {
		if l.mark >= 0 {
			at = max(at, l.mark)
		}
	}
	line, next := r.nextLine(alive[0].start)
	if at >= next {
		line, _ = r.nextLine(bytes.LastIndexByte(r.data[:at], '\n') + 1)
	}
	text := "\"" + clip(string(bytes.TrimSpace(line))) + "\" can be read in more than one way"
	delimiters, marks := map[byte]bool{}, map[byte]bool{}
	for _, l := range alive {
		delimiters[l.delimiter] = true
		marks[l.decimal] = true
	}
	questions := Questions{}
	if len(delimiters) > 1 {
		var answers []Answer
		for _, d := range []byte("\t;,|") {
			if delimiters[d] {
				answers = append(answers, Answer{Value: jsonString(string(d)), Text: "the " + delimiterName(d) + " stands between the cells"})
			}
		}
		if delimiters[' '] {
			answers = append(answers, Answer{Value: jsonString(" "), Text: "the whole is one number"})
		}
		questions = append(questions, askFor("delimiter", text, answers))
		text = "the decimal mark is not certain"
	}
	if len(marks) > 1 {
		questions = append(questions, ask("decimal", text))
	}
	return r.errorAt(at, questions)
}

// wrongRow says what is wrong with the line at p, which has to be a row.
func (r *reader) wrongRow(l *layout, p int) error {
	line, _ := r.nextLine(p)
	t := r.typed(line, l)
	at := p
	switch bad := r.odd(t); {
	case t.open && r.openRow(line, l):
		return r.openQuote(p + t.cells[len(t.cells)-1].at)
	case bad != nil:
		return r.errorAt(p+bad.start, r.notNumber(l, bad.of(line)))
	case t.n > l.cells:
		at = r.cellAt(l, p, l.cells)
	}
	return r.errorAt(at, because(ErrCells, "%s where the rows have %d; if this line is not a row, skip it with the hint \"skip_lines\"", plural(t.n, "cell"), l.cells))
}

// jsonString is a text as JSON writes it.
func jsonString(s string) string {
	b, _ := json.Marshal(s) // a string always has JSON
	return string(b)
}
