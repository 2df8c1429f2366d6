package tracefile

import (
	"bytes"
	"iter"
	"strings"
	"unicode/utf8"
)

// The first pass over a text: bytes become lines and cells with their places. What a cell means is for the second pass, in types.go.

// nextLine returns the line at p without its end, and where the next one begins.
func (d *decoded) nextLine(p int) (line []byte, next int) {
	next = len(d.data)
	if k := bytes.IndexByte(d.data[p:], '\n'); k >= 0 {
		next = p + k + 1
	}
	line = bytes.TrimSuffix(d.data[p:next], []byte("\n"))
	return bytes.TrimSuffix(line, []byte("\r")), next
}

// lineOf is where the line begins in which p stands.
func (d *decoded) lineOf(p int) int { return bytes.LastIndexByte(d.data[:p], '\n') + 1 }

// lines goes through the lines that begin at from or behind it and before to.
func (d *decoded) lines(from, to int) iter.Seq2[int, []byte] {
	return func(yield func(int, []byte) bool) {
		for p := from; p < to; {
			line, next := d.nextLine(p)
			if !yield(p, line) {
				return
			}
			p = next
		}
	}
}

// blank reports whether a line holds nothing.
func blank(line []byte) bool { return len(bytes.TrimSpace(line)) == 0 }

// cell is a piece of a line. Its places count from where the text begins that was parted.
type cell struct {
	at, after    int  // from its first byte that is no blank to the delimiter behind it
	start, end   int  // its text, without blanks and quotes around it
	quoted, open bool // open: the quote does not end in the line
	kind         kind
	value        float64 // NaN where it is no number
}

func (c *cell) of(text []byte) []byte { return text[c.start:c.end] }

// cutter parts the text from p to end at a delimiter, or at runs of blanks when that is ' '. A cell that begins with a quote goes to
// the closing one.
type cutter struct {
	text      []byte
	p, end    int
	delimiter byte
	done      bool
}

// next finds the next cell and reports whether there is one.
func (c *cutter) next(out *cell) bool {
	if !c.more() {
		return false
	}
	b, i := c.text[:c.end], c.p
	*out = cell{at: i, start: i}
	j := i
	if i < len(b) && b[i] == '"' {
		for j = i + 1; j < len(b) && (b[j] != '"' || j+1 < len(b) && b[j+1] == '"'); j++ {
			if b[j] == '"' {
				j++
			}
		}
		j = min(j, len(b))
		out.open, out.quoted = j == len(b), true
		out.start, out.end = i+1, max(j, i+1)
		for j = min(j+1, len(b)); j < len(b) && !ends(b[j], c.delimiter); j++ {
			out.quoted = out.quoted && blankByte(b[j]) // with something behind the closing quote it is not quoted after all
		}
	} else {
		second := c.delimiter
		if second == ' ' {
			second = '\t'
		}
		for j < len(b) && b[j] != c.delimiter && b[j] != second {
			j++
		}
	}
	if !out.quoted {
		out.start, out.end = i, j
	}
	out.start, out.end = trim(b, out.start, out.end)
	out.after = j
	c.pass(j)
	return true
}

// more passes the blanks before a cell, and reports whether there is one.
func (c *cutter) more() bool {
	for c.p < c.end && blankByte(c.text[c.p]) && (c.text[c.p] != c.delimiter || c.delimiter == ' ') {
		c.p++
	}
	return !c.done && (c.p < c.end || c.delimiter != ' ')
}

// pass goes on behind the delimiter at p.
func (c *cutter) pass(p int) { c.p, c.done = p+1, p >= c.end }

// tokens are the cells of a text.
type tokens struct {
	text  []byte
	cells []cell // the first ones
	n     int    // how many there are in all
	tail  int    // how many at the end are empty
	open  bool   // the last one has a quote that does not end
}

// mostCells bounds how many cells of a line are kept; the others are counted. A line of a million cells must not take
// many times its size.
const mostCells = 4096

// cut parts a text. The cells are good until the next text is cut.
func (r *reader) cut(text []byte, delimiter byte) tokens {
	t := tokens{text: text, cells: r.cells[:0]}
	var c cell
	for cut := (cutter{text: text, end: len(text), delimiter: delimiter}); cut.next(&c); {
		if t.n++; t.n <= mostCells {
			t.cells = append(t.cells, c)
		}
		if t.tail++; c.at < c.after {
			t.tail = 0
		}
		t.open = t.open || c.open
	}
	r.cells = t.cells
	return t
}

// texts are those of the cells, with doubled quotes made single.
func (t tokens) texts() []string {
	texts := make([]string, len(t.cells))
	for i, c := range t.cells {
		texts[i] = string(c.of(t.text))
		if c.quoted {
			texts[i] = strings.ReplaceAll(texts[i], `""`, `"`)
		}
		texts[i] = strings.TrimSpace(texts[i])
	}
	return texts
}

// lineCutter parts the line of the file at p; next is where the line behind it begins.
func (r *reader) lineCutter(l *layout, p int) (_ cutter, next int) {
	line, next := r.nextLine(p)
	return cutter{text: r.data, p: p, end: p + len(line), delimiter: l.delimiter}, next
}

// cellAt is the offset of a cell, counted from 0, in the line that begins at p.
func (r *reader) cellAt(l *layout, p, index int) int {
	cut, _ := r.lineCutter(l, p)
	var c cell
	for ; cut.next(&c); index-- {
		if index == 0 {
			return c.at
		}
	}
	return cut.end
}

func blankByte(c byte) bool { return c == ' ' || c == '\t' || c == '\r' }

func ends(c, delimiter byte) bool {
	return c == delimiter || delimiter == ' ' && c == '\t'
}

// trim takes blanks off both ends, those that do not break too.
func trim(line []byte, i, j int) (int, int) {
	for i < j && blankByte(line[i]) {
		i++
	}
	for i < j && blankByte(line[j-1]) {
		j--
	}
	if i < j && (line[i] >= utf8.RuneSelf || line[j-1] >= utf8.RuneSelf) {
		const wide = " \t\u00a0\u2007\u2009\u202f\ufeff"
		left := bytes.TrimLeft(line[i:j], wide)
		i = j - len(left)
		j = i + len(bytes.TrimRight(left, wide))
	}
	return i, j
}

// glue joins what blanks have parted in a header: "Height" "(µm)" is one name, and so is "Height / µm".
func (t tokens) glue() tokens {
	kept := t.cells[:0]
	for _, c := range t.cells {
		if n := len(kept); n > 0 && c.start < c.end && !c.quoted && !kept[n-1].quoted {
			text, before := c.of(t.text), kept[n-1].of(t.text)
			if bytes.IndexByte([]byte("([{<"), text[0]) >= 0 || len(text) == 1 && bytes.IndexByte([]byte("/:="), text[0]) >= 0 ||
				len(before) > 0 && bytes.IndexByte([]byte("/:="), before[len(before)-1]) >= 0 {
				kept[n-1].end = c.end
				continue
			}
		}
		kept = append(kept, c)
	}
	t.cells = kept
	return t
}

// comment reports whether a line is a remark, and what follows its mark.
func comment(line []byte) ([]byte, bool) {
	t := bytes.TrimSpace(line)
	mark := "/ "
	switch {
	case len(t) > 1 && t[0] == '#' && sheetError(t):
		return nil, false
	case len(t) > 0 && (t[0] == '#' || t[0] == '%' || t[0] == '!'):
		mark = "#%! "
	case !bytes.HasPrefix(t, []byte("//")):
		return nil, false
	}
	return bytes.TrimSpace(bytes.TrimLeft(t, mark)), true
}
