package tracefile

import (
	"bytes"
	"errors"
	"slices"
	"strconv"
	"strings"
)

// attempt reports whether a line above the first row would be one, were it not for a cell that is no number here: such a line is
// an error, because a point would be lost unnoticed if the line passed as a name or a title. next reports that the rows follow it. It is one
//   - when its other cells are numbers and the odd one is a number to a programmer (inf, 1e400, 0x1p-2, 1_000), or, next to the
//     rows, what a program writes in the place of a number (null, #VALUE!, 1..5);
//   - next to the rows, when x is a number, whatever the rest is;
//   - when numbers stand before a quote that is not closed.
func (r *reader) attempt(line []byte, at int, l *layout, next bool) bool {
	if own, _ := r.nextLine(at); r.openRow(own, l) {
		return true
	}
	t := r.typed(line, l)
	if t.open || t.n != l.cells && r.hints.Heights != "rows" && (!r.named.named() || t.n < r.need()) {
		return false
	}
	x, odd, text := false, false, false
	for i, c := range t.cells {
		switch cell := c.of(line); {
		case !r.looksAt(i), c.kind == missing:
		case c.kind == counted:
			x = x || i == r.xCell()
		case programmers(cell), next && placeholder(cell):
			odd = true
		default:
			text = true
		}
	}
	return odd && !text || text && x && next && l.delimiter != ' '
}

// xCell is the cell of a row that holds x if one does.
func (r *reader) xCell() int { return max(r.named.x-1, 0) }

// almostRow reports whether a title parted by blanks could be a row gone wrong: it has as many cells, and x is a number.
func (r *reader) almostRow(line []byte, l *layout) bool {
	t := r.typed(line, l)
	return !t.open && l.delimiter == ' ' && l.cells > 1 && t.n == l.cells && r.xCell() < len(t.cells) && t.cells[r.xCell()].kind == counted
}

// programmers reports whether a cell is a number to a programmer.
func programmers(cell []byte) bool {
	text := strings.ReplaceAll(string(cell[:min(len(cell), 4000)]), "_", "")
	_, err := strconv.ParseFloat(text, 64)
	return err == nil || errors.Is(err, strconv.ErrRange)
}

// placeholder reports whether a cell is what a program writes instead of a number, or a number gone wrong: 0x5, 1.#INF, nan(1), 1..5
// and 1,2,3, but not the date 1.2.2003.
func placeholder(cell []byte) bool {
	if len(cell) > 40 {
		return false
	}
	s := strings.ToLower(string(cell))
	if slices.Contains(instead, s) || slices.Contains(sheetErrors, strings.ToUpper(s)) || strings.HasPrefix(s, "nan(") || strings.HasPrefix(s, "-nan") {
		return true
	}
	digits := strings.TrimLeft(s, "+-")
	if digits == "" || digits[0] < '0' || digits[0] > '9' {
		return false
	}
	return strings.HasPrefix(digits, "0x") || strings.Contains(s, ".#") ||
		strings.Trim(digits, "0123456789.,") == "" && (strings.Contains(s, "..") || bytes.Count(cell, []byte(",")) > 1)
}

// sheetError reports whether a line begins with one of them, and is no remark then.
func sheetError(t []byte) bool {
	for _, word := range sheetErrors {
		if len(t) >= len(word) && strings.EqualFold(string(t[:len(word)]), word) {
			return true
		}
	}
	return false
}
