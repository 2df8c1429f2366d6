package tracefile

import (
	"bytes"
	"context"
	"math"
	"slices"
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"
)

// The file of reference data of ISO 5436-2 (SMD): four records of text. Its header is confirmed by the help pages of a national
// laboratory; the marks that end the records, and the checksum, come from memory, so a reader asks little of them: an ETX byte
// or an empty line ends a record, records 2 and 4 may be missing, a wrong checksum is a note.

const etx, sub = 0x03, 0x1a

// maxPoints bounds what a header may announce.
const maxPoints = 1 << 27

// smdAxis is line 3 or 4: name, type, number of points, unit, scale factor, data type, increment.
type smdAxis struct {
	name      string
	absolute  bool
	points    int
	unit      unit // with its scale factor
	increment float64
}

func isSMD(data []byte) bool {
	head := strings.ToUpper(string(data[:min(len(data), 64)]))
	head = strings.TrimLeft(head, " \t\r\n\ufeff")
	return strings.HasPrefix(head, "ISO 5436") || strings.HasPrefix(head, "ISO5436")
}

// lineReader goes through the lines of a file that has a form of its own.
type lineReader struct {
	decoded
	p int // start of the next line
}

func newLineReader(data []byte) *lineReader {
	r := &lineReader{decoded: decoded{data: data, encoding: "ASCII", lineEnds: "LF"}}
	if bytes.Contains(data, []byte("\r\n")) {
		r.lineEnds = "CR LF"
	}
	return r
}

// report says how the lines from the first height to the last were read.
func (r *lineReader) report(t *Trace, format string, first, last int) {
	rep := &t.Report
	rep.Format, rep.Encoding, rep.LineEnds = format, r.encoding, r.lineEnds
	rep.FirstLine, rep.LastRow = r.line(first), r.line(last)
}

// next returns the next line without its end, and where it begins; ok is false at the end of the file.
func (r *lineReader) next() (text string, at int, ok bool) {
	at = r.p
	if at >= len(r.data) {
		return "", at, false
	}
	line, next := r.nextLine(at)
	r.p = next
	return strings.TrimRight(string(line), "\r"), at, true
}

// height reads the stored number at p, which goes to a blank, a line end or the mark.
func (r *lineReader) height(p int, mark byte) (v float64, end int, err error) {
	b := r.data
	stops := func(q int) bool { return q >= len(b) || blankByte(b[q]) || b[q] == '\n' || b[q] == mark }
	v, end, ok := plainNumber(b, p, '.')
	if ok && stops(end) {
		return v, end, nil
	}
	for end = p; !stops(end); end++ {
	}
	v, err = storedNumber(string(b[p:end]))
	return v, end, err
}

// storedNumber reads a number, or a word for a missing one.
func storedNumber(s string) (float64, error) {
	if v, ok := pointNumber(s); ok {
		return v, nil
	}
	if strings.EqualFold(s, "nan") || strings.EqualFold(s, "bad") {
		return math.NaN(), nil
	}
	return 0, notDecimal(s)
}

// pointNumber reads a number with a decimal point.
func pointNumber(s string) (float64, bool) { return grammar{decimal: '.'}.wholeNumber([]byte(s)) }

// endsRecord reports whether a line holds nothing but an end mark.
func endsRecord(text string) bool {
	return strings.TrimFunc(text, func(r rune) bool { return unicode.IsSpace(r) || r == etx || r == sub }) == ""
}

func readSMD(_ context.Context, data []byte, hints *Hints) (*Trace, error) {
	r := newLineReader(data)
	t := &Trace{}
	first, _, _ := r.next()
	if first = strings.TrimSpace(first); strings.Contains(first, " ") {
		t.Profile.Name = first[strings.LastIndexByte(first, ' ')+1:]
		if _, err := strconv.Atoi(t.Profile.Name); err == nil {
			t.Profile.Name = ""
		}
	}
	feature, at, ok := r.next()
	f := strings.Fields(feature)
	switch {
	case !ok:
		return nil, r.fail(at, ErrTruncated, "the file ends before its feature line")
	case len(f) == 0 || !strings.EqualFold(f[0], "PRF"):
		return nil, r.fail(at, ErrFormat, "feature type %q; only profiles (PRF) are read", clip(strings.Join(f, " ")))
	}
	var x, z *smdAxis
	for x == nil || z == nil {
		text, at, ok := r.next()
		if !ok {
			return nil, r.fail(at, ErrTruncated, "the file ends before the lines of both axes")
		}
		if endsRecord(text) {
			return nil, r.fail(at, ErrFormat, "record 1 ends before the lines of both axes")
		}
		a, err := r.axis(text, at)
		if err != nil {
			return nil, err
		}
		switch {
		case a.name == "CX" && x == nil:
			x = a
		case a.name == "CZ" && z == nil:
			z = a
		case a.name == "CY":
			t.keep("axis", text)
		default:
			return nil, r.fail(at, ErrFormat, "axis %q; CX and CZ are wanted", clip(a.name))
		}
	}
	if err := r.fields(t); err != nil {
		return nil, err
	}
	most := z.points
	if x.absolute {
		most += x.points
	}
	v, from, to, ended, err := r.values(most)
	if err != nil {
		return nil, err
	}
	if err := r.build(t, x, z, v, from, ended, hints); err != nil {
		return nil, err
	}
	r.checksum(t)
	r.report(t, "SMD (ISO 5436-2)", from, to)
	return t, nil
}

func (r *lineReader) axis(text string, at int) (*smdAxis, error) {
	f := strings.Fields(strings.Trim(text, "\x03"))
	bad := func(i int, format string, args ...any) error {
		column := at + len(text)
		if i < len(f) {
			column = at + strings.Index(text, f[i])
			args = append(args, clip(f[i]))
		}
		return r.fail(column, ErrFormat, "axis line: "+format, args...)
	}
	if len(f) < 4 {
		return nil, bad(len(f), "name, type, number of points, unit, scale factor, data type and increment are wanted")
	}
	a := &smdAxis{name: strings.ToUpper(f[0]), absolute: strings.EqualFold(f[1], "A")}
	if !a.absolute && !strings.EqualFold(f[1], "I") {
		return nil, bad(1, "axis type %q is neither A nor I")
	}
	n, ok := pointNumber(f[2])
	if !ok || n != math.Trunc(n) || n < 1 {
		return nil, bad(2, "%q is not a number of points")
	}
	if n > maxPoints {
		return nil, r.fail(at, ErrLimit, "%s points are announced; the limit is %d", number(n), maxPoints)
	}
	a.points = int(n)
	if a.unit, ok = parseUnit(f[3]); !ok || a.unit.slope {
		if a.unit, ok = parseUnit(strings.ToLower(f[3])); !ok || a.unit.slope {
			return nil, bad(3, "%q is not a unit of length")
		}
	}
	if len(f) > 4 {
		scale, ok := pointNumber(f[4])
		if !ok || scale == 0 {
			return nil, bad(4, "%q is not a scale factor")
		}
		a.unit = a.unit.times(scale)
	}
	if !a.absolute {
		if len(f) < 7 {
			return nil, bad(7, "an incremental axis needs an increment")
		}
		if a.increment, ok = pointNumber(f[6]); !ok || a.increment == 0 {
			return nil, bad(6, "%q is no increment")
		}
	}
	return a, nil
}

// fields passes the end of record 1 and keeps the lines of record 2.
func (r *lineReader) fields(t *Trace) error {
	for first := true; ; first = false {
		text, at, ok := r.next()
		switch {
		case !ok:
			return r.fail(at, ErrTruncated, "the file ends before its heights")
		case endsRecord(text) && first: // the end of record 1
			continue
		case endsRecord(text):
			return nil
		}
		if _, ok := pointNumber(strings.Trim(strings.Fields(text)[0], "\x03")); ok { // no record 2
			r.p = at
			return nil
		}
		key, value, _ := strings.Cut(strings.TrimSpace(text), " ")
		t.keep(key, strings.TrimSpace(value))
	}
}

// values reads record 3 up to the line that ends it: at most so many numbers are expected.
func (r *lineReader) values(most int) (v []float64, from, to int, ended bool, err error) {
	v = make([]float64, 0, min(most, bytes.Count(r.data[r.p:], []byte("\n"))*4+16, len(r.data)/2+1))
	for at, line := range r.lines(r.p, len(r.data)) {
		if len(line) == 0 || (line[0] <= ' ' || line[0] >= utf8.RuneSelf) && endsRecord(string(line)) {
			if len(v) > 0 {
				_, r.p = r.nextLine(at)
				return v, from, to, true, nil
			}
			continue
		}
		if to = at; len(v) == 0 {
			from = at
		}
		for p := at; ; {
			for p < at+len(line) && (blankByte(r.data[p]) || r.data[p] == etx || r.data[p] == sub) {
				p++
			}
			if p >= at+len(line) {
				break
			}
			n, end, err := r.height(p, etx)
			switch {
			case err != nil:
				return nil, 0, 0, false, r.errorAt(p, err)
			case len(v) > 2*maxPoints:
				return nil, 0, 0, false, r.fail(at, ErrLimit, "more than %d numbers", 2*maxPoints)
			}
			v = append(v, n)
			p = end
		}
	}
	r.p = len(r.data)
	return v, from, to, false, nil
}

// build makes the trace out of the numbers of record 3.
func (r *lineReader) build(t *Trace, x, z *smdAxis, v []float64, from int, ended bool, hints *Hints) error {
	n := z.points
	wanted := n
	if x.absolute {
		wanted += x.points
		if x.points != z.points {
			return r.fail(from, ErrFormat, "%d points in x and %d in z", x.points, z.points)
		}
	}
	switch {
	case len(v) == 0:
		return r.fail(len(r.data), ErrTruncated, "the file ends before its heights")
	case len(v) < wanted && !ended:
		return r.fail(len(r.data), ErrTruncated, "%d numbers are announced and the file ends after %d", wanted, len(v))
	case len(v) < wanted && x.absolute:
		return r.fail(len(r.data), ErrFormat, "%d numbers are announced and there are %d", wanted, len(v))
	case len(v) < wanted:
		t.note("count-differs", "%d points are announced and %d were read.", n, len(v))
		n = len(v)
	case len(v) == 2*n && !x.absolute:
		return r.fail(from, ErrFormat, "x is incremental and there are two numbers for each point")
	case len(v) > wanted:
		t.note("count-differs", "%d numbers are announced and there are %d; the first ones were used.", wanted, len(v))
	}
	if !x.absolute {
		t.Profile.Z = v[:n]
		stepped(t, tidy(x.unit.value(x.increment), 0), "increment of the x axis")
	} else {
		if line, _, _ := bytes.Cut(r.data[from:], []byte("\n")); len(bytes.Fields(line[:min(len(line), 4096)])) == 2 {
			part(v[:2*n])
		}
		xs, zs := v[:n], v[n:2*n]
		t.Profile.Z = zs
		if bad, err := place(t, xs, x.unit, hints); err != nil { // one point per line
			return &Error{Line: r.line(from) + max(bad, 1) - 1, Column: 1, Err: err}
		}
	}
	if err := t.finish(z.unit); err != nil {
		return r.errorAt(from, err)
	}
	return nil
}

// part turns pairs x z x z into all x and then all z, in the memory they have: it parts both halves and turns what lies between.
func part(v []float64) {
	n := len(v) / 2
	if n < 2 {
		return
	}
	h := n / 2
	part(v[:2*h])
	part(v[2*h:])
	turn := v[h : h+n] // the z of the first half and the x of the second
	slices.Reverse(turn[:h])
	slices.Reverse(turn[h:])
	slices.Reverse(turn)
}

// checksum holds record 4 against the bytes before it.
func (r *lineReader) checksum(t *Trace) {
	text, at, ok := r.next()
	if !ok || endsRecord(text) {
		return
	}
	want, err := strconv.Atoi(strings.Trim(text, " \t\x03\x1a"))
	sum := smdSum(r.data[:at])
	switch {
	case err != nil:
		t.keep("after the data", text)
	case sum != want:
		t.note("checksum", "The checksum of the file is %d and its bytes make %d: it was changed, or its writer counts differently.", want, sum)
	}
}

// smdSum is the sum of all bytes, modulo 65535 (from memory of ISO 5436-2:2001).
func smdSum(b []byte) int {
	sum := uint64(0)
	for _, c := range b {
		sum += uint64(c)
	}
	return int(sum % 65535)
}
