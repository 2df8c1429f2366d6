package tracefile

import (
	"bytes"
	"errors"
	"slices"
	"strings"
)

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
		alive = r.byHeader(unlike(alive, true))
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
	alive = unlike(alive, false)
	if len(alive) > 1 {
		alive = r.possible(alive)
	}
	if len(alive) > 1 {
		alive = r.markByHeader(alive)
	}
	if len(alive) > 1 {
		return nil, r.ambiguous(alive)
	}
	return alive[0], nil
}

// unlike keeps the first of layouts that read the same; with marks only of those that agree in the decimal mark too.
func unlike(all []*layout, marks bool) []*layout {
	var out []*layout
	for _, l := range all {
		if !slices.ContainsFunc(out, func(o *layout) bool {
			return o.sum == l.sum && o.start == l.start && (!marks || o.decimal == l.decimal)
		}) {
			out = append(out, l)
		}
	}
	return out
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

// markByHeader lets a header that has settled the delimiter settle the decimal mark with it. Where that is a comma it is the point;
// otherwise the mark that stands in the cells is the decimal one, though every time three digits follow it. A note says so, for it
// could be grouping. It is more likely to be that where other cells of the column have three digits and no mark (998, 999, 1,000).
func (r *reader) markByHeader(alive []*layout) []*layout {
	for _, l := range alive {
		h := r.readHeader(l)
		switch {
		case l.delimiter != alive[0].delimiter || h.nameLine == 0 || l.points == l.commas,
			l.cells > 1 && !r.heads(&h, l), l.cells == 1 && !tells(h.names[0]):
			return alive
		}
	}
	for _, l := range alive {
		parts := l.delimiter == ',' && l.cells > 1
		switch {
		case parts && l.decimal == '.', !parts && l.marked&l.threes == 0 && l.points == (l.decimal == '.'):
			r.markSettled = true
			return []*layout{l}
		}
	}
	return alive
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
			// The hints speak of a column that this reading has not; where the file says a spacing there need be none.
			if h := r.readHeader(l); r.hints.XColumn > 0 || h.step.line == 0 {
				continue
			}
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
// reads everything up to a quote that is not closed, or differs in the decimal mark only.
func (r *reader) late(l *layout, all []*layout) *layout {
	for _, c := range all {
		if c.rows > 0 && c.start < l.start && (c.fail < 0 || c.quote || c.delimiter == l.delimiter && c.cells == l.cells) {
			return c
		}
	}
	return nil
}

// byHeader keeps the layouts that a header speaks for: those whose delimiter splits it into as many names as the rows have
// cells; and where it is one name, those with one cell. With the decimal mark given, grouping is preferred to a delimiter.
func (r *reader) byHeader(alive []*layout) []*layout {
	var several, one []*layout
	names := false
	for _, l := range alive {
		h := r.readHeader(l)
		names = names || l.cells == 1 && h.nameLine > 0 && tells(h.names[0]) && strings.Trim(h.nameText, "\" ") == h.names[0]
		if l.cells > 1 && r.heads(&h, l) {
			several = append(several, l)
		}
		if l.cells == 1 {
			one = append(one, l)
		}
	}
	switch {
	case len(several) > 0:
		r.plainNames = len(one) > 0 && several[0].delimiter == ',' && !allTell(r.readHeader(several[0]).names)
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
