package tracefile

import "bytes"

// plainRows reads rows that are what nearly all rows are, x and z or z alone as plain numbers beside cells that nobody looks at: up to
// progressEvery of them. It returns where the first row begins that is anything else, which readRow looks at.
func (r *reader) plainRows(l *layout, want columns, out *rows, p int) int {
	b, decimal, delimiter, second := r.data, l.decimal, l.delimiter, l.delimiter
	if delimiter == ' ' {
		second = '\t'
	}
	named, pairs := r.named.z >= 0, want.x >= 0
	begin, n := p, len(out.z)
	if !pairs && !named { // one column, so that a row is one number
		begin = plainNumbers(b, p, decimal, '\n', &out.z)
		if len(out.z) > n {
			out.lastLine = r.lineOf(begin - 1)
		}
		return begin
	}
	firsts, lasts := out.x, out.z // the numbers in the order of their columns
	lead, between := want.z, 0
	if pairs {
		lead, between = min(want.x, want.z), max(want.x, want.z)-min(want.x, want.z)-1
		if want.z < want.x {
			firsts, lasts = lasts, firsts
		}
	}
	for most := progressEvery; most > 0 && p < len(b); most-- {
		if lead > 0 {
			if p = skipCells(b, p, lead, delimiter, second); p < 0 || mayBeRemark(b[skipBlanks(b, begin, delimiter, second)]) {
				break
			}
		}
		if pairs {
			v, q, ok := plainNumber(b, skipBlanks(b, p, delimiter, second), decimal)
			if !ok || q >= len(b) || b[q] != delimiter && b[q] != second {
				break
			}
			firsts = append(firsts, v)
			p = q + 1
			if between > 0 {
				if p = skipCells(b, p, between, delimiter, second); p < 0 {
					break
				}
			}
		}
		v, q, ok := plainNumber(b, skipBlanks(b, p, delimiter, second), decimal)
		if !ok {
			break
		}
		if q < len(b) && b[q] != '\n' {
			if named && (b[q] == delimiter || b[q] == second) {
				line, _ := r.nextLine(q)
				if bytes.IndexByte(line, '"') >= 0 {
					break
				}
				q += len(line)
			}
			if q < len(b) && b[q] == '\r' {
				q++
			}
			if q < len(b) && b[q] != '\n' {
				break
			}
		}
		lasts = append(lasts, v)
		p = q + 1
		begin = p
	}
	if len(lasts) > n {
		out.lastLine = r.lineOf(begin - 1)
	}
	if pairs {
		firsts = firsts[:len(lasts)]
		if want.z < want.x {
			firsts, lasts = lasts, firsts
		}
		out.x = firsts
	}
	out.z = lasts
	return begin
}

// plainNumbers appends plain numbers that each end at a delimiter or with their line, up to progressEvery of them. It returns where the
// first cell begins that is anything else.
func plainNumbers(b []byte, p int, decimal, delimiter byte, to *[]float64) int {
	second := delimiter
	if delimiter == ' ' {
		second = '\t'
	}
	z := *to
	for most := progressEvery; most > 0 && p < len(b); most-- {
		v, q, ok := plainNumber(b, skipBlanks(b, p, delimiter, second), decimal)
		if ok && q < len(b) && b[q] == '\r' {
			q++
		}
		if !ok || q < len(b) && b[q] != '\n' && b[q] != delimiter && b[q] != second {
			break
		}
		z = append(z, v)
		p = q + 1
	}
	*to = z
	return p
}

// skipBlanks passes the blanks before a cell.
func skipBlanks(b []byte, p int, delimiter, second byte) int {
	for p < len(b) && b[p] <= ' ' && (b[p] == ' ' || b[p] == second && second != delimiter) {
		p++
	}
	return p
}

// skipCells passes cells of a line, and returns -1 where there are not so many or one has a quote.
func skipCells(b []byte, p, n int, delimiter, second byte) int {
	for ; n > 0; n-- {
		if p = skipBlanks(b, p, delimiter, second); p < len(b) && b[p] == '"' {
			return -1
		}
		for p < len(b) && b[p] != delimiter && b[p] != second && b[p] != '\n' {
			p++
		}
		if p >= len(b) || b[p] == '\n' {
			return -1
		}
		p++
	}
	return p
}
