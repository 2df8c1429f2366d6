package tracefile

import (
	"bytes"
	"math"
	"slices"
	"strings"
)

// sdfKeys are the fields of a text header in their order; published files spell the first one in two ways.
var sdfKeys = []string{"manufacid", "createdate", "moddate", "numpoints", "numprofiles", "xscale", "yscale", "zscale",
	"zresolution", "compression", "datatype", "checktype"}

func readSDFText(data []byte, hints *Hints) (*Trace, error) {
	r := &smdReader{decoded: decoded{data: data, encoding: "ASCII", lineEnds: "LF"}}
	if bytes.Contains(data, []byte("\r\n")) {
		r.lineEnds = "CR LF"
	}
	t := &Trace{}
	h, err := r.sdfHeader(t)
	if err != nil {
		return nil, err
	}
	if most := int64(len(data)/2 + 1); int64(h.points)*int64(h.profiles) > most {
		return nil, r.errorAt(len(data), because(ErrTruncated, "%d times %d heights are announced, more than the file can hold", h.points, h.profiles))
	}
	total := h.points * h.profiles
	pick, err := pickProfile(h.points, h.profiles, hints)
	if err != nil {
		return nil, &Error{Line: 1, Column: 1, Err: err}
	}
	z := make([]float64, 0, pick.n)
	b := r.data
	p, i := r.p, 0
	first, last := -1, p
	ended := false
	for p < len(b) {
		for p < len(b) && (blankByte(b[p]) || b[p] == '\n' || b[p] == 0) {
			p++
		}
		if p >= len(b) {
			break
		}
		v, q, ok := plainNumber(b, p, '.')
		if !ok || q < len(b) && !blankByte(b[q]) && b[q] != '\n' {
			for q = p; q < len(b) && !blankByte(b[q]) && b[q] != '\n'; q++ {
			}
			word := b[p:q]
			if word[0] == '*' {
				p, ended = p+1, true
				break
			}
			switch v, ok = smdNumber(string(word)); {
			case ok:
			case smdInvalid(string(word)):
				v = math.NaN()
			default:
				return nil, r.errorAt(p, because(ErrNumber, "%q is not a finite decimal number", clip(string(word))))
			}
		}
		if i == total {
			return nil, r.errorAt(p, because(ErrFormat, "more heights than the %d announced", total))
		}
		if first < 0 {
			first = p
		}
		last = p
		if j := i - pick.from; j >= 0 && j%pick.step == 0 && len(z) < pick.n {
			z = append(z, v)
		}
		i++
		p = q
	}
	switch {
	case i < total && !ended:
		return nil, r.errorAt(len(data), because(ErrTruncated, "%d heights are announced and the file ends after %d", total, i))
	case i < total:
		return nil, r.errorAt(p-1, because(ErrFormat, "%d heights are announced and there are %d", total, i))
	case !ended:
		t.note("no-end-mark", "The mark that ends the heights is missing.")
	}
	t.keepSDF(h)
	for line := range strings.SplitSeq(string(b[min(p, len(b)):]), "\n") {
		line = strings.Trim(line, " \t\r\x00\x1a")
		if line == "" || line == "*" {
			continue
		}
		if key, value, ok := strings.Cut(line, "="); ok {
			t.keep(strings.TrimSpace(key), strings.TrimSpace(value))
		} else {
			t.keep("trailer", line)
		}
	}
	if err := h.finish(t, z, pick, hints, "SDF, text (ISO 25178-71)"); err != nil {
		return nil, err
	}
	t.Report.Encoding, t.Report.LineEnds = r.encoding, r.lineEnds
	t.Report.FirstLine, _ = r.place(first)
	t.Report.LastRow, _ = r.place(last)
	return t, nil
}

// sdfHeader reads "key = value" lines up to the one with an asterisk. A value may stand in the line below its key.
func (r *smdReader) sdfHeader(t *Trace) (*sdfHeader, error) {
	version, _, _ := r.line()
	h := &sdfHeader{version: version, profiles: 1}
	seen := map[string]int{}
	for {
		text, at, ok := r.line()
		if !ok {
			return nil, r.errorAt(at, because(ErrTruncated, "the file ends inside its header"))
		}
		line := strings.TrimSpace(text)
		if line == "" {
			continue
		}
		if line[0] == '*' {
			break
		}
		key, value, ok := strings.Cut(line, "=")
		if !ok {
			return nil, r.errorAt(at, because(ErrFormat, "%q is no \"key = value\" of a header", clip(line)))
		}
		key, value = strings.TrimSpace(key), strings.TrimSpace(value)
		if value == "" {
			if below, at, ok := r.line(); ok && !strings.Contains(below, "=") && strings.TrimSpace(below) != "*" {
				value = strings.TrimSpace(below)
			} else if ok {
				r.p = at
			}
		}
		field := strings.ToLower(key)
		if _, twice := seen[field]; twice && slices.Contains(sdfKeys, field) {
			return nil, r.errorAt(at, because(ErrFormat, "the header gives %s twice", key))
		}
		if err := h.set(t, key, value); err != nil {
			return nil, r.errorAt(at, err)
		}
		seen[field] = at
	}
	for _, k := range []string{"numpoints", "xscale", "zscale"} {
		if _, ok := seen[k]; !ok {
			return nil, r.errorAt(r.p, because(ErrFormat, "the header has no %s", k))
		}
	}
	if field, err := h.sound(); err != nil {
		return nil, r.errorAt(seen[field], err)
	}
	return h, nil
}

// set takes one field; what is not known is kept.
func (h *sdfHeader) set(t *Trace, key, value string) error {
	real := func(to *float64) error {
		v, ok := smdNumber(value)
		if !ok {
			return because(ErrNumber, "%s: %q is not a finite decimal number", key, clip(value))
		}
		*to = v
		return nil
	}
	whole := func(to *int) error {
		var v float64
		if err := real(&v); err != nil {
			return err
		}
		if v != math.Trunc(v) || v < 0 || v > maxPoints {
			return because(ErrFormat, "%s: %s is not a count from 0 to %d", key, clip(value), maxPoints)
		}
		*to = int(v)
		return nil
	}
	switch strings.ToLower(key) {
	case sdfKeys[0]:
		h.maker = value
	case sdfKeys[1]:
		h.created = value
	case sdfKeys[2]:
		h.modified = value
	case sdfKeys[3]:
		return whole(&h.points)
	case sdfKeys[4]:
		return whole(&h.profiles)
	case sdfKeys[5]:
		return real(&h.xScale)
	case sdfKeys[6]:
		return real(&h.yScale)
	case sdfKeys[7]:
		return real(&h.zScale)
	case sdfKeys[8]:
		return real(&h.zRes)
	case sdfKeys[9]:
		return whole(&h.compression)
	case sdfKeys[10]:
		return whole(&h.kind)
	case sdfKeys[11]:
		return whole(&h.check)
	default:
		t.keep(key, value)
	}
	return nil
}
