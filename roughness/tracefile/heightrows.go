package tracefile

import (
	"bytes"
	"fmt"
)

// heightRows takes every number, row by row, for a height.
func (r *reader) heightRows(l *layout) (*Trace, error) {
	b := r.data
	out := &rows{start: l.start, z: make([]float64, 0, r.countCells(l))}
	for p := l.start; p < len(b); {
		line, next := r.nextLine(p)
		if _, skip := comment(line); skip || len(bytes.TrimSpace(line)) == 0 {
			p = next
			continue
		}
		out.lastLine = p
		for end := p + len(line); p < end; {
			for p < end && blankByte(b[p]) && b[p] != delimiterOf(l.delimiter) {
				p++
			}
			if p == end {
				break
			}
			v, q, ok := plainNumber(b, p, l.decimal)
			if !ok || q < end && !ends(b[q], l.delimiter) {
				var state cellState
				switch v, q, state = r.oddCell(l, p); state {
				case openQuote:
					return nil, r.openQuote(p)
				case strange:
					return nil, r.errorAt(p, r.notNumber(l, p, q))
				}
			}
			v = r.absent.value(v)
			if v != v {
				out.missing++
			}
			out.z = append(out.z, v)
			p = q + 1
		}
		p = next
	}
	plan := plan{x: -1, y: -1, z: 0, counterCol: -1}
	if r.hints.Spacing > 0 {
		plan.spacing, plan.spacingBy = r.hints.Spacing, "hint spacing"
	}
	if err := r.ask(l, &plan, out, 0); err != nil {
		return nil, err
	}
	t := &Trace{}
	t.Profile.Z, t.Profile.Spacing = out.z, plan.spacing
	for i, v := range out.z {
		out.z[i] = plan.zUnit.value(v)
	}
	if err := r.finite(t, l); err != nil {
		return nil, err
	}
	r.fill(t, l, &plan, out)
	t.Report.SpacingBy = plan.spacingBy
	t.Report.ZColumn, t.Report.ZName = 0, ""
	t.note("rows", fmt.Sprintf("Every number, row by row, was read as a height (%d).", len(out.z)))
	return t, nil
}

// countCells bounds how many numbers the rows hold, so that memory is taken once.
func (r *reader) countCells(l *layout) int {
	if l.delimiter != ' ' {
		return bytes.Count(r.data[l.start:], []byte{l.delimiter}) + bytes.Count(r.data[l.start:], []byte("\n")) + 1
	}
	n, before := 0, byte(' ')
	for _, c := range r.data[l.start:] {
		if c > ' ' && before <= ' ' {
			n++
		}
		before = c
	}
	return n
}
