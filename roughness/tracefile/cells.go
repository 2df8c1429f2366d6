package tracefile

import (
	"bytes"
	"strings"
	"unicode/utf8"
)

// span is a cell within a line: its text without blanks and quotes around it.
type span struct {
	start, end int
	quoted     bool
}

func (s span) of(line []byte) []byte { return line[s.start:s.end] }

// name is a cell's text with doubled quotes made single.
func (s span) name(line []byte) string {
	t := string(s.of(line))
	if s.quoted {
		t = strings.ReplaceAll(t, `""`, `"`)
	}
	return strings.TrimSpace(t)
}

// mostSpans bounds how many cells of a line are kept; the others are counted. A line of a million cells must not take
// many times its size.
const mostSpans = 4096

// splitCells parts a line at a delimiter, or at runs of blanks when that is ' '. A cell that begins with a quote goes to the
// closing one; open reports that there is none. n counts all cells, of which the first ones are returned.
func splitCells(line []byte, delimiter byte, cells []span) (_ []span, n int, open bool) {
	cells = cells[:0]
	add := func(c span) {
		if n++; n <= mostSpans {
			c.start, c.end = trim(line, c.start, c.end)
			cells = append(cells, c)
		}
	}
	for i := 0; ; {
		for i < len(line) && blankByte(line[i]) && line[i] != delimiterOf(delimiter) {
			i++
		}
		if delimiter == ' ' && i == len(line) {
			return cells, n, open
		}
		if i < len(line) && line[i] == '"' {
			j := i + 1
			for j < len(line) && (line[j] != '"' || j+1 < len(line) && line[j+1] == '"') {
				if line[j] == '"' {
					j++
				}
				j++
			}
			if j >= len(line) {
				j, open = len(line), true
			}
			c := span{i + 1, max(j, i+1), true}
			for j++; j < len(line) && !ends(line[j], delimiter); j++ {
				if !blankByte(line[j]) { // something behind the closing quote: the cell is not quoted after all
					c = span{i, 0, false}
				}
			}
			j = min(j, len(line))
			if !c.quoted {
				c.end = j
			}
			add(c)
			i = j
		} else {
			j := i
			for j < len(line) && !ends(line[j], delimiter) {
				j++
			}
			add(span{start: i, end: j})
			i = j
		}
		if i >= len(line) {
			return cells, n, open
		}
		i++ // the delimiter
	}
}

// delimiterOf is the delimiter as a byte that blanks before a cell must not swallow.
func delimiterOf(d byte) byte {
	if d == ' ' {
		return 0
	}
	return d
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
		left := bytes.TrimLeftFunc(line[i:j], isWide)
		i = j - len(left)
		j = i + len(bytes.TrimRightFunc(left, isWide))
	}
	return i, j
}

func isWide(r rune) bool {
	return r == ' ' || r == '\t' || r == '\u00a0' || r == '\u2007' || r == '\u2009' || r == '\u202f' || r == '\ufeff'
}

// glue joins what blanks have parted in a header: "Height" "(µm)" is one name, and so is "Height / µm".
func glue(line []byte, cells []span) []span {
	out := make([]span, 0, len(cells))
	for _, c := range cells {
		t := c.of(line)
		if n := len(out); n > 0 && len(t) > 0 && !c.quoted && !out[n-1].quoted {
			before := out[n-1].of(line)
			if strings.IndexByte("([{<", t[0]) >= 0 || len(t) == 1 && strings.IndexByte("/:=", t[0]) >= 0 ||
				len(before) > 0 && strings.IndexByte("/:=", before[len(before)-1]) >= 0 {
				out[n-1].end = c.end
				continue
			}
		}
		out = append(out, c)
	}
	return out
}

// comment reports whether a line is a remark, and what follows its mark.
func comment(line []byte) ([]byte, bool) {
	t := bytes.TrimSpace(line)
	switch {
	case len(t) > 1 && t[0] == '#' && sheetError(t):
		return nil, false
	case len(t) > 0 && (t[0] == '#' || t[0] == '%' || t[0] == '!'):
		return bytes.TrimSpace(bytes.TrimLeft(t, "#%! ")), true
	case bytes.HasPrefix(t, []byte("//")):
		return bytes.TrimSpace(bytes.TrimLeft(t, "/ ")), true
	}
	return nil, false
}

// sheetErrors are what a spreadsheet shows where it has no value. The first is a mark of an invalid point, the others are errors.
var sheetErrors = []string{"#N/A", "#VALUE!", "#DIV/0!", "#REF!", "#NUM!", "#NAME?", "#NULL!"}

// sheetError reports whether a line begins with one of them, and is no remark then.
func sheetError(t []byte) bool {
	for _, word := range sheetErrors {
		if len(t) >= len(word) && strings.EqualFold(string(t[:len(word)]), word) {
			return true
		}
	}
	return false
}

// emptyTail counts the empty cells at the end of a line.
func emptyTail(line []byte, delimiter byte) int {
	if delimiter == ' ' {
		return 0
	}
	n := 0
	for e := len(line); ; e-- {
		for e > 0 && blankByte(line[e-1]) && line[e-1] != delimiter {
			e--
		}
		if e == 0 {
			return n + 1
		}
		if line[e-1] != delimiter {
			return n
		}
		n++
	}
}
