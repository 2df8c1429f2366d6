package tracefile

import (
	"bytes"
	"errors"
	"math"
	"slices"
	"strings"
)

// The third pass, first question: how are the lines parted, and what is the decimal mark?

// sampleLines bounds how many lines decide about the layout while they suffice to.
const sampleLines = 500

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
	for _, narrow := range []func([]*layout) []*layout{
		func(all []*layout) []*layout { return r.byHeader(unlike(all, true)) },
		func(all []*layout) []*layout { return r.toTheEnd(all, end) },
		func(all []*layout) []*layout { return unlike(all, false) },
		r.byTrial,
		r.markByHeader,
	} {
		if len(alive) == 1 {
			break
		}
		alive = narrow(alive)
	}
	if len(alive) > 1 {
		return nil, r.ambiguous(alive)
	}
	return alive[0], nil
}

// candidates lists the layouts that hints leave.
func (r *reader) candidates(sample []byte) []*layout {
	delimiters, marks := []byte{}, ".,"
	for _, d := range []byte("\t;,|") {
		if bytes.IndexByte(sample, d) >= 0 {
			delimiters = append(delimiters, d)
		}
	}
	delimiters = append(delimiters, ' ')
	if d, ok := delimiterByte(r.hints.Delimiter); ok {
		delimiters = []byte{d}
	}
	if r.hints.Decimal != "" {
		marks = r.hints.Decimal
	}
	quotes := bytes.IndexByte(sample, '"') >= 0
	var out []*layout
	for _, d := range delimiters {
		for _, m := range []byte(marks) {
			g := grammar{decimal: m, group: '.' + ',' - m}
			switch {
			case quotes:
			case d == ',' && m == ',' && len(delimiters)+len(marks) > 2: // where both are given the rows will tell
				continue
			case d == ',':
				g.group = 0
			}
			out = append(out, &layout{delimiter: d, grammar: g})
		}
	}
	return out
}

// try lays l over the sample [r.top, end): it finds the first row, the number of cells, and the first line behind it that
// does not fit.
func (r *reader) try(l *layout, end int) {
	*l = layout{delimiter: l.delimiter, grammar: l.grammar, fail: -1, mark: -1}
	type run struct{ start, rows, cells, empty int }
	var runs []run
	for p, line := range r.lines(r.top, end) {
		kind, t := r.look(line, l)
		cells := t.n
		if r.hints.Heights == "rows" {
			cells = min(cells, 1)
		}
		n := len(runs) - 1
		switch {
		case kind == row && (n < 0 || runs[n].cells != cells):
			runs = append(runs, run{p, 1, cells, t.tail})
		case kind == row:
			runs[n].rows++
			runs[n].empty = min(runs[n].empty, t.tail)
		case kind == other && n >= 0 && runs[n].rows > 0:
			runs = append(runs, run{start: p})
		}
	}
	best := -1
	for i, u := range runs {
		if u.rows > 0 && (best < 0 || u.rows > runs[best].rows) {
			best = i
		}
	}
	if best < 0 {
		return
	}
	l.cells = runs[best].cells
	first := -1
	next := func() { // a row may have empty cells too many, also the first one alone
		for first++; !(runs[first].rows > 0 && l.fits(tokens{n: runs[first].cells, tail: runs[first].empty})); first++ {
		}
	}
	next()
	for first < best && runs[first].rows <= 3 && r.headerBetween(l, runs[first].start, runs[first].rows, runs[best].start) {
		l.skipped = append(l.skipped, runs[first].start)
		next()
	}
	l.start = runs[first].start
	for empty := runs[best].empty; !r.free() && l.trailing < empty; l.trailing++ { // as far as no name stands above it
		if names, _ := r.names(r.lastAbove(l), l); names != nil && names[l.cells-1].text != "" {
			break
		}
		l.cells--
	}
	r.check(l, l.start, end)
}

// lastAbove is the last line above the rows.
func (r *reader) lastAbove(l *layout) (last []byte) {
	r.preamble(l, func(line []byte, _, _ int, _ bool) { last = line })
	return last
}

// headerBetween reports whether a line of column names follows the rows at start, so that they are results above the
// data and not data.
func (r *reader) headerBetween(l *layout, start, rows, end int) bool {
	for _, line := range r.lines(start, end) {
		if kind, _ := r.look(line, l); kind == other && rows == 0 {
			return r.isNameRow(line, l)
		} else if kind == row {
			rows--
		}
	}
	return false
}

// check reads on with a layout from p to end and adds up what it reads, so that two layouts can be told to agree.
func (r *reader) check(l *layout, p, end int) {
	const prime = 1099511628211 // FNV-1a over the values
	if l.sum == 0 {
		l.sum = 14695981039346656037
	}
	for at, line := range r.lines(p, end) {
		if at < p { // read as the header of another trace
			continue
		}
		kind, t := r.look(line, l)
		switch {
		case kind == other, kind == row && !r.free() && !l.fits(t):
			if p = r.separator(l, at); l.rows == 0 || p < 0 {
				if l.fail < 0 {
					l.fail, l.quote = at, r.openRow(line, l)
				}
				return
			}
			continue
		case kind != row:
			continue
		}
		l.rows++
		n := l.cells
		if r.free() {
			n = t.n
		}
		for i, c := range t.cells[:min(n, len(t.cells), mostLooked)] {
			text := c.of(line)
			point, comma := bytes.IndexByte(text, '.') >= 0, bytes.IndexByte(text, ',') >= 0
			if l.mark < 0 && (point || comma) {
				l.mark = at + c.start
			}
			l.points, l.commas = l.points || point, l.commas || comma
			if point || comma {
				l.marked |= 1 << i
			} else if c.kind == counted && len(bytes.TrimLeft(text, "+-")) == 3 {
				l.threes |= 1 << i
			}
			l.sum = (l.sum ^ math.Float64bits(c.value)) * prime
		}
		l.sum = (l.sum ^ uint64(n)) * prime
	}
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
		if l.fail < 0 && l.cells < 2 && r.hints.Heights != "rows" &&
			(r.hints.XColumn > 0 || r.hints.XUnit != "" && r.hints.Spacing == 0 && r.headerOf(l).step.line == 0) {
			continue // the hints speak of a column that this reading has not; where the file says a spacing there need be none
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
	return alive, best
}

// late returns a layout that takes lines for rows which l takes for a preamble, where that speaks against l: the other one
// reads everything up to a quote that is not closed, or differs in the decimal mark only.
func (r *reader) late(l *layout, all []*layout) *layout {
	for _, c := range all {
		if c.rows > 0 && c.start < l.start && (c.fail < 0 || c.quote || c.delimiter == l.delimiter && c.cells == l.cells) {
			return c
		}
	}
	return nil
}

// unlike keeps the first of layouts that read the same; with marks only of those that agree in the decimal mark too.
func unlike(all []*layout, marks bool) []*layout {
	return keep(all, func(i int) bool {
		return !slices.ContainsFunc(all[:i], func(o *layout) bool {
			return o.sum == all[i].sum && o.start == all[i].start && (!marks || o.decimal == all[i].decimal)
		})
	})
}

// keep returns the layouts for which a rule holds, or all where it holds for none.
func keep(all []*layout, rule func(i int) bool) []*layout {
	var out []*layout
	for i, l := range all {
		if rule(i) {
			out = append(out, l)
		}
	}
	if len(out) == 0 {
		return all
	}
	return out
}

// toTheEnd keeps the layouts under which the rest of the file can be read, where a mark stands in it.
func (r *reader) toTheEnd(alive []*layout, end int) []*layout {
	if !bytes.ContainsAny(r.data[end:], ".,") {
		return alive
	}
	return keep(alive, func(i int) bool {
		r.check(alive[i], end, len(r.data))
		return alive[i].fail < 0
	})
}

// byTrial reads the whole file under each layout, and drops the decimal marks under which that fails, such as one that makes x uneven.
// What ends in a question has not failed. It never drops a delimiter: a wrong x must not turn two columns into one.
func (r *reader) byTrial(alive []*layout) []*layout {
	if !sameDelimiter(alive) {
		return alive
	}
	return keep(alive, func(i int) bool {
		trial := *r // whose header is not that of r
		trial.header = r.headerOf(alive[i])
		_, err := trial.trace(alive[i])
		return err == nil || errors.Is(err, ErrOpen)
	})
}

func sameDelimiter(all []*layout) bool {
	return !slices.ContainsFunc(all, func(l *layout) bool { return l.delimiter != all[0].delimiter })
}

// byHeader keeps the layouts that a header speaks for: those whose delimiter splits it into as many names as the rows have
// cells; and where it is one name, those with one cell. With the decimal mark given, grouping is preferred to a delimiter.
func (r *reader) byHeader(alive []*layout) []*layout {
	var several, one []*layout
	names := false
	for _, l := range alive {
		h := r.headerOf(l)
		switch {
		case l.cells == 1:
			one = append(one, l)
			names = names || h.nameLine > 0 && h.names[0].tells() && strings.Trim(h.nameText, "\" ") == h.names[0].text
		case h.heads(l):
			several = append(several, l)
		}
	}
	switch {
	case len(several) > 0:
		r.plainNames = len(one) > 0 && several[0].delimiter == ',' && !allTell(r.headerOf(several[0]).names)
		return several
	case names:
		return one
	case r.hints.Decimal == "":
		return alive
	}
	return keep(alive, func(i int) bool { return alive[i].delimiter != '.'+','-r.hints.Decimal[0] })
}

// heads reports whether the names of a header settle how the rows are split: the delimiter of the rows parts them, and they are
// names and not a title with a comma in it. That they are when each tells something, or when each is one word with no blank
// between it and the delimiter, as a program writes names: "a,b", but not "Shaft 7, ground".
func (h *header) heads(l *layout) bool {
	if h.nameLine == 0 || h.delimiter != l.delimiter || h.names[0].text == "" || h.names[len(h.names)-1].text == "" {
		return false
	}
	if !allUnits(h.names) && slices.ContainsFunc(h.names, func(n name) bool { return isUnit(n.text) }) { // one name with its unit: "Height, µm"
		return false
	}
	return allTell(h.names) || plainNames(h.names) && !strings.Contains(h.nameText, string(l.delimiter)+" ")
}

// markByHeader lets a header that has settled the delimiter settle the decimal mark with it. Where that is a comma it is the point;
// otherwise the mark that stands in the cells is the decimal one, though every time three digits follow it. A note says so, for it
// could be grouping. It is more likely to be that where other cells of the column have three digits and no mark (998, 999, 1,000).
func (r *reader) markByHeader(alive []*layout) []*layout {
	if !sameDelimiter(alive) {
		return alive
	}
	for _, l := range alive {
		h := r.headerOf(l)
		if h.nameLine == 0 || l.points == l.commas || l.cells > 1 && !h.heads(l) || l.cells == 1 && !h.names[0].tells() {
			return alive
		}
	}
	for _, l := range alive {
		parts := l.delimiter == ',' && l.cells > 1
		if parts && l.decimal == '.' || !parts && l.marked&l.threes == 0 && l.points == (l.decimal == '.') {
			r.markSettled = true
			return []*layout{l}
		}
	}
	return alive
}

// noRows says why no line could be read as a row, by the first that nearly is one.
func (r *reader) noRows(all []*layout) error {
	if need := r.need(); need > 0 {
		try := *r
		try.named, try.hints = nothing, Hints{Delimiter: r.hints.Delimiter, Decimal: r.hints.Decimal}
		if _, best := try.sift(all, len(r.data)); best != nil && best.cells < need {
			return r.fail(best.start, ErrHint, "column %d is asked for and the rows have %s", need, plural(best.cells, "cell"))
		}
	}
	first := -1
	for p, line := range r.lines(r.top, len(r.data)) {
		if first < 0 && !blank(line) {
			first = p
		}
		if _, skip := comment(line); skip {
			continue
		}
		for _, l := range all {
			t := r.typed(line, l)
			switch bad := r.odd(t); {
			case r.first(t, counted) == nil:
			case t.open:
				return r.openQuote(p + t.cells[len(t.cells)-1].at)
			case bad != nil:
				return r.errorAt(p+bad.start, l.notNumber(bad.of(line)))
			}
		}
	}
	text := "no row of numbers"
	if first < 0 {
		return r.fail(r.top, ErrNoData, "%s", text)
	}
	line, _ := r.nextLine(first)
	return r.fail(first, ErrNoData, "%s; the file begins with %q", text, clip(string(bytes.TrimSpace(line))))
}

// ambiguous makes the question out of layouts that read the same rows differently.
func (r *reader) ambiguous(alive []*layout) error {
	at := alive[0].start
	delimiters, marks := "", ""
	for _, l := range alive {
		at = max(at, l.mark)
		delimiters += string(l.delimiter)
		marks += string(l.decimal)
	}
	line, _ := r.nextLine(r.lineOf(at))
	text := "\"" + clip(string(bytes.TrimSpace(line))) + "\" can be read in more than one way"
	var questions Questions
	if !sameDelimiter(alive) {
		var what []HintAnswer
		for _, d := range "\t;,|" {
			if strings.ContainsRune(delimiters, d) {
				what = append(what, answers(string(d), "the "+delimiterName(byte(d))+" stands between the cells")...)
			}
		}
		if strings.Contains(delimiters, " ") {
			what = append(what, answers(" ", "the whole is one number")...)
		}
		questions = append(questions, ask("delimiter", "%s", text).only(what))
		text = "the decimal mark is not certain"
	}
	if strings.Trim(marks, marks[:1]) != "" {
		questions = append(questions, ask("decimal", "%s", text))
	}
	return r.open(at, questions...)
}
