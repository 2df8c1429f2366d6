package tracefile

import (
	"bytes"
	"errors"
	"math"
)

// layout is one way to read the rows of a file.
type layout struct {
	delimiter byte
	grammar
	cells    int  // cells in a row
	trailing bool // every row ends with one more delimiter
	start    int  // where the first row begins, as an offset
	rows     int  // rows of the sample that can be read so
	fail     int  // offset of the first line that cannot, or -1
	mark     int  // offset of the first cell whose reading hangs on the mark or the delimiter, or -1
	sum      uint64
	skipped  []int // offsets of rows above the data that were taken for results
}

// columns says which cells are looked at; the others may hold anything. Both are 0 where nothing is said.
type columns struct{ x, z int }

func (c columns) need() int   { return max(c.x, c.z) }
func (c columns) named() bool { return c.z > 0 }

// sampleLines bounds how many lines decide about the layout while they suffice to.
const sampleLines = 2000

// reader holds what the steps of reading a text share.
type reader struct {
	decoded
	hints  Hints
	named  columns
	top    int // offset of the first line that is looked at
	header header
	spans  []span
	absent *absent
}

// nextLine returns the line at p without its end, and where the next one begins.
func (r *reader) nextLine(p int) (line []byte, next int) {
	next = len(r.data)
	if k := bytes.IndexByte(r.data[p:], '\n'); k >= 0 {
		next = p + k + 1
	}
	line = bytes.TrimSuffix(r.data[p:next], []byte("\n"))
	return bytes.TrimSuffix(line, []byte("\r")), next
}

// lineKind is what a line is under a layout.
type lineKind uint8

const (
	blankLine lineKind = iota
	remark
	row
	other
)

// look judges one line: its kind, its number of cells, whether the last of them is empty.
func (r *reader) look(line []byte, l *layout) (kind lineKind, cells int, lastEmpty bool) {
	if len(bytes.TrimSpace(line)) == 0 {
		return blankLine, 0, false
	}
	if _, ok := comment(line); ok {
		return remark, 0, false
	}
	spans, open := splitCells(line, l.delimiter, r.spans)
	r.spans = spans
	if open {
		return other, len(spans), false
	}
	lastEmpty = len(spans[len(spans)-1].of(line)) == 0
	filled := false
	const most = 1000 // cells of a line that are tried
	for i, c := range spans {
		t := c.of(line)
		filled = filled || len(t) > 0
		if r.named.named() && i+1 != r.named.x && i+1 != r.named.z || i > most {
			continue
		}
		if _, ok := l.wholeNumber(t); !ok && !r.absent.cell(t) {
			return other, len(spans), lastEmpty
		}
	}
	switch {
	case !filled:
		return blankLine, len(spans), false
	case len(spans) < r.named.need():
		return other, len(spans), lastEmpty
	}
	return row, len(spans), lastEmpty
}

// candidates lists the layouts that hints leave.
func (r *reader) candidates(sample []byte) []*layout {
	var delimiters []byte
	switch {
	case r.hints.Delimiter != "":
		d, _ := delimiterByte(r.hints.Delimiter)
		delimiters = []byte{d}
	default:
		for _, d := range []byte("\t;,|") {
			if bytes.IndexByte(sample, d) >= 0 {
				delimiters = append(delimiters, d)
			}
		}
		delimiters = append(delimiters, ' ')
	}
	marks := ".,"
	if r.hints.Decimal != "" {
		marks = r.hints.Decimal
	}
	quotes := bytes.IndexByte(sample, '"') >= 0
	var out []*layout
	for _, d := range delimiters {
		for _, m := range []byte(marks) {
			if d == ',' && m == ',' && !quotes {
				continue
			}
			g := grammar{decimal: m, group: '.' + ',' - m}
			if g.group == d && !quotes {
				g.group = 0
			}
			out = append(out, &layout{delimiter: d, grammar: g})
		}
	}
	if len(out) == 0 { // delimiter and decimal mark both ",", and no quotes: the rows will tell
		out = append(out, &layout{delimiter: ',', grammar: grammar{decimal: ','}})
	}
	return out
}

// try lays l over the sample [r.top, end): it finds the first row, the number of cells, and the first line behind it that
// does not fit.
func (r *reader) try(l *layout, end int) {
	type run struct{ start, rows, cells, empty int }
	var runs []run
	for p := r.top; p < end; {
		line, next := r.nextLine(p)
		kind, cells, lastEmpty := r.look(line, l)
		if r.hints.Heights == "rows" {
			cells = min(cells, 1)
		}
		switch kind {
		case row:
			if n := len(runs); n == 0 || runs[n-1].cells != cells {
				runs = append(runs, run{start: p, cells: cells})
			}
			last := &runs[len(runs)-1]
			last.rows++
			if lastEmpty {
				last.empty++
			}
		case other:
			if n := len(runs); n > 0 && runs[n-1].rows > 0 {
				runs = append(runs, run{start: p})
			}
		}
		p = next
	}
	best := -1
	for i, u := range runs {
		if u.rows > 0 && (best < 0 || u.rows > runs[best].rows) {
			best = i
		}
	}
	l.fail, l.mark = -1, -1
	if best < 0 {
		return
	}
	l.cells = runs[best].cells
	l.trailing = l.delimiter != ' ' && l.cells > 1 && runs[best].empty == runs[best].rows && !r.named.named()
	first := 0
	for runs[first].cells != l.cells || runs[first].rows == 0 {
		first++
	}
	for first < best && runs[first].rows <= 3 && r.headerBetween(l, runs[first].start, runs[first].rows, runs[best].start) {
		l.skipped = append(l.skipped, runs[first].start)
		for first++; runs[first].cells != l.cells || runs[first].rows == 0; first++ {
		}
	}
	l.start = runs[first].start
	if l.trailing {
		l.cells--
	}
	r.check(l, l.start, end)
}

// headerBetween reports whether a line of column names stands behind the rows at start, so that they are results above the
// data and not data.
func (r *reader) headerBetween(l *layout, start, rows, end int) bool {
	for p := start; p < end; {
		line, next := r.nextLine(p)
		if kind, _, _ := r.look(line, l); kind == other && rows == 0 {
			return r.isNameRow(line, l)
		} else if kind == row {
			rows--
		}
		p = next
	}
	return false
}

// check reads on with a layout from p to end and adds up what it reads, so that two layouts can be told to agree.
func (r *reader) check(l *layout, p, end int) {
	const prime = 1099511628211 // FNV-1a over the values
	if l.sum == 0 {
		l.sum = 14695981039346656037
	}
	for p < end {
		line, next := r.nextLine(p)
		kind, cells, lastEmpty := r.look(line, l)
		ok := kind == blankLine || kind == remark
		if kind == row {
			ok = cells == l.cells || r.named.named() || r.hints.Heights == "rows" || cells == l.cells+1 && lastEmpty && l.delimiter != ' '
		}
		if !ok {
			if l.fail < 0 {
				l.fail = p
			}
			return
		}
		if kind == row {
			l.rows++
			n := l.cells
			if r.named.named() || r.hints.Heights == "rows" {
				n = cells
			}
			for _, c := range r.spans[:min(n, len(r.spans), 1000)] {
				t := c.of(line)
				v, ok := l.wholeNumber(t)
				if !ok {
					v = math.NaN()
				}
				if l.mark < 0 && bytes.IndexAny(t, ".,") >= 0 {
					l.mark = p + c.start
				}
				l.sum = (l.sum ^ math.Float64bits(v)) * prime
			}
			l.sum = (l.sum ^ uint64(n)) * prime
		}
		p = next
	}
}

// settle chooses the layout of the file, or says which hint would.
func (r *reader) settle() (*layout, error) {
	end, lines := r.top, 0
	for end < len(r.data) && lines < sampleLines {
		_, end = r.nextLine(end)
		lines++
	}
	all := r.candidates(r.data[r.top:end])
	alive, best := r.sift(all, end)
	if best == nil && end < len(r.data) { // a long preamble
		end = len(r.data)
		all = r.candidates(r.data[r.top:])
		alive, best = r.sift(all, end)
	}
	switch {
	case best == nil:
		return nil, r.noRows(all)
	case len(alive) == 0:
		return best, nil // reading it will tell where it fails
	}
	if len(alive) > 1 {
		alive = r.byHeader(alive)
	}
	if len(alive) > 1 && end < len(r.data) && bytes.ContainsAny(r.data[end:], ".,") {
		var on []*layout
		for _, l := range alive {
			if r.check(l, end, len(r.data)); l.fail < 0 {
				on = append(on, l)
			}
		}
		if len(on) > 0 {
			alive = on
		}
	}
	if r.differ(alive) {
		alive = r.possible(alive)
	}
	if r.differ(alive) {
		return nil, r.ambiguous(alive)
	}
	return alive[0], nil
}

// differ reports whether layouts do not all read the same.
func (r *reader) differ(alive []*layout) bool {
	for _, l := range alive[1:] {
		if l.sum != alive[0].sum || l.start != alive[0].start {
			return true
		}
	}
	return false
}

// possible drops the readings of the decimal mark under which the file cannot be read at all, such as one that makes x uneven.
// It never drops a delimiter: a wrong x must not turn two columns into one.
func (r *reader) possible(alive []*layout) []*layout {
	var out []*layout
	for _, l := range alive {
		if l.delimiter != alive[0].delimiter {
			return alive
		}
		try := *r
		try.header = try.readHeader(l)
		if _, err := try.table(l); err == nil || errors.Is(err, ErrOpen) {
			out = append(out, l)
		}
	}
	if len(out) == 0 {
		return alive
	}
	return out
}

// noRows says why no line could be taken for a row: the first that nearly is one tells.
func (r *reader) noRows(all []*layout) error {
	if r.named.need() > 0 {
		try := *r
		try.named, try.hints = columns{}, Hints{Delimiter: r.hints.Delimiter, Decimal: r.hints.Decimal}
		if _, best := try.sift(all, len(r.data)); best != nil && best.cells < r.named.need() {
			return r.errorAt(best.start, because(ErrHint, "column %d is asked for and the rows have %s", r.named.need(), plural(best.cells, "cell")))
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
				spans, open := splitCells(line, l.delimiter, r.spans)
				r.spans = spans
				bad, numbers := -1, 0
				for i, c := range spans {
					if r.named.named() && i+1 != r.named.x && i+1 != r.named.z {
						continue
					}
					if _, ok := l.wholeNumber(c.of(line)); ok {
						numbers++
					} else if bad < 0 && !r.absent.cell(c.of(line)) {
						bad = i
					}
				}
				switch {
				case open && numbers > 0:
					return r.errorAt(p+spans[len(spans)-1].start, because(ErrQuote, "a quoted cell begins here and does not end in this line"))
				case bad >= 0 && numbers > 0:
					c := spans[bad]
					return r.errorAt(p+c.start, r.notNumber(l, p+c.start, p+c.end))
				}
			}
		}
		p = next
	}
	line, _ := r.nextLine(at)
	return r.errorAt(at, because(ErrNoData, "no row of numbers; the file begins with %q", clip(string(bytes.TrimSpace(line)))))
}

// sift tries all layouts on the sample: alive fit every line from the first row on, best is the one to blame otherwise.
func (r *reader) sift(all []*layout, end int) (alive []*layout, best *layout) {
	for _, l := range all {
		r.try(l, end)
	}
	for _, l := range all {
		if l.rows == 0 {
			continue
		}
		if l.fail < 0 && (r.hints.XColumn > 0 || r.hints.XUnit != "" && r.hints.Spacing == 0) && l.cells < 2 && r.hints.Heights != "rows" {
			continue // the hints speak of a column that this reading has not
		}
		if late := r.late(l, all); late != nil {
			if best == nil || best.rows < late.rows {
				best = late
			}
			continue
		}
		if best == nil || l.fail < 0 && best.fail >= 0 || l.fail < 0 == (best.fail < 0) && l.rows > best.rows {
			best = l
		}
		if l.fail < 0 {
			alive = append(alive, l)
		}
	}
	if best != nil && best.fail >= 0 && len(alive) > 0 {
		best = alive[0]
	}
	return alive, best
}

// late returns a layout that takes lines for rows which l takes for a preamble, where that speaks against l: the other one
// reads everything, or differs in the decimal mark only.
func (r *reader) late(l *layout, all []*layout) *layout {
	for _, c := range all {
		if c.rows > 0 && c.start < l.start && (c.fail < 0 || c.delimiter == l.delimiter && c.cells == l.cells) {
			return c
		}
	}
	return nil
}

// byHeader keeps the layouts that a header speaks for: those whose delimiter splits it into as many names as the rows have
// cells; and where it is one name, those with one cell. With the decimal mark given, grouping goes before a delimiter.
func (r *reader) byHeader(alive []*layout) []*layout {
	var several, one []*layout
	names := false
	for _, l := range alive {
		h := r.readHeader(l)
		names = names || h.nameLine > 0
		if h.nameLine > 0 && l.cells > 1 && h.delimiter == l.delimiter {
			several = append(several, l)
		}
		if l.cells == 1 {
			one = append(one, l)
		}
	}
	switch {
	case len(several) > 0:
		return several
	case names && len(one) > 0:
		return one
	}
	if r.hints.Decimal != "" {
		var kept []*layout
		for _, l := range alive {
			if l.delimiter != '.'+','-r.hints.Decimal[0] {
				kept = append(kept, l)
			}
		}
		if len(kept) > 0 {
			return kept
		}
	}
	return alive
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
	q := Question{Hint: "decimal", Text: "\"" + clip(string(bytes.TrimSpace(line))) + "\" can be read in more than one way"}
	delimiters, marks := map[byte]bool{}, map[byte]bool{}
	for _, l := range alive {
		delimiters[l.delimiter] = true
		marks[l.decimal] = true
	}
	questions := Questions{}
	if len(delimiters) > 1 {
		q.Hint = "delimiter"
		for _, d := range []byte("\t;,|") {
			if delimiters[d] {
				q.Answers = append(q.Answers, Answer{Value: "\"" + string(d) + "\"", Text: "a " + delimiterName(d) + " parts the cells"})
			}
		}
		if delimiters[' '] {
			q.Answers = append(q.Answers, Answer{Value: "\" \"", Text: "the whole is one number"})
		}
		questions = append(questions, q)
		q = Question{Hint: "decimal", Text: "the decimal mark is not certain"}
	}
	if len(marks) > 1 {
		q.Answers = nil
		q.Answers = append(q.Answers, Answer{Value: "\",\"", Text: "comma is the decimal mark"}, Answer{Value: "\".\"", Text: "point is the decimal mark"})
		questions = append(questions, q)
	}
	return r.errorAt(at, questions)
}
