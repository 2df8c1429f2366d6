package tracefile

// plainRows returns a quick way to read the rows as long as they are what nearly all rows are: x and z, or z alone, and nothing
// else. It is nil where there is none. What it stops at readRow looks at.
func (r *reader) plainRows(l *layout, want cellsWanted) func(l *layout, out *rows, p, most int) int {
	switch {
	case len(r.absent.numbers) > 0 || want.y >= 0:
		return nil
	case l.cells == 2 && want.x == 0 && want.z == 1:
		return r.pairs
	case l.cells == 1 && want.x < 0 && want.z == 0:
		return r.singles
	}
	return nil
}

// singles reads rows of one plain number, at most so many, and returns where the first row begins that is anything else.
func (r *reader) singles(l *layout, out *rows, p, most int) int {
	b, decimal := r.data, l.decimal
	zs := out.z
	for range most {
		z, q, ok := plainNumber(b, p, decimal)
		if !ok {
			break
		}
		if q < len(b) && b[q] == '\r' {
			q++
		}
		if q < len(b) && b[q] != '\n' {
			break
		}
		zs = append(zs, z)
		out.lastLine = p
		if p = q + 1; p >= len(b) {
			break
		}
	}
	out.z = zs
	return p
}

// pairs reads rows of two plain numbers, at most so many, and returns where the first row begins that is anything else.
func (r *reader) pairs(l *layout, out *rows, p, most int) int {
	b, decimal, delimiter := r.data, l.decimal, l.delimiter
	blanks := delimiter == ' '
	xs, zs := out.x, out.z
	begin := p
	for range most {
		begin = p
		for p < len(b) && b[p] == ' ' {
			p++
		}
		x, q, ok := plainNumber(b, p, decimal)
		if !ok || q >= len(b) {
			break
		}
		switch {
		case b[q] == delimiter:
			q++
		case !blanks || b[q] != '\t':
			ok = false
		}
		for q < len(b) && (b[q] == ' ' || blanks && b[q] == '\t') {
			q++
		}
		if !ok {
			break
		}
		z, q, ok := plainNumber(b, q, decimal)
		if !ok {
			break
		}
		if q < len(b) && b[q] == '\r' {
			q++
		}
		if q < len(b) && b[q] != '\n' {
			break
		}
		xs, zs = append(xs, x), append(zs, z)
		out.lastLine = begin
		p = q + 1
		begin = p
		if p >= len(b) {
			break
		}
	}
	out.x, out.z = xs, zs
	return begin
}
