package tracefile

import (
	"bytes"
	"context"
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"
	"unicode"
)

// The file of reference data of ISO 5436-2 (SMD): four records of text. Its header is confirmed by the help pages of a national
// laboratory; the marks that end the records, and the checksum, come from memory, so a reader asks little of them: an ETX byte
// or an empty line ends a record, records 2 and 4 may be missing, a wrong checksum is a note.

const etx, sub = 0x03, 0x1a

// Field is a line of a file that furrow keeps as it stands.
type Field struct{ Key, Value string }

// smdAxis is line 3 or 4: name, type, number of points, unit, scale factor, data type, increment.
type smdAxis struct {
	name      string
	absolute  bool
	points    int
	unit      unit
	scale     float64
	kind      string
	increment float64
}

func isSMD(data []byte) bool {
	head := strings.ToUpper(string(data[:min(len(data), 64)]))
	head = strings.TrimLeft(head, " \t\r\n\ufeff")
	return strings.HasPrefix(head, "ISO 5436") || strings.HasPrefix(head, "ISO5436")
}

// smdReader goes through the lines of a file.
type smdReader struct {
	decoded
	p int // start of the next line
}

// line returns the next line without its end, and where it begins; ok is false at the end of the file.
func (r *smdReader) line() (text string, at int, ok bool) {
	if r.p >= len(r.data) {
		return "", r.p, false
	}
	at = r.p
	line, next := r.nextLine(at)
	r.p = next
	return strings.TrimRight(string(line), "\r"), at, true
}

// endsRecord reports whether a line holds nothing but an end mark.
func endsRecord(text string) bool {
	return strings.TrimFunc(text, func(r rune) bool { return unicode.IsSpace(r) || r == etx || r == sub }) == ""
}

func readSMD(_ context.Context, data []byte, hints *Hints) (*Trace, error) {
	r := &smdReader{decoded: decoded{data: data, encoding: "ASCII", lineEnds: "LF"}}
	if bytes.Contains(data, []byte("\r\n")) {
		r.lineEnds = "CR LF"
	}
	r.data = bytes.TrimPrefix(data, []byte("\xef\xbb\xbf"))
	t := &Trace{}
	first, _, _ := r.line()
	revision := strings.Fields(strings.ReplaceAll(first, "-", " - "))
	name := ""
	if k := len(revision); k > 0 && strings.Contains(first, " ") {
		name = strings.TrimSpace(first[strings.LastIndexByte(strings.TrimSpace(first), ' ')+1:])
		if _, err := strconv.Atoi(name); err == nil {
			name = ""
		}
	}
	t.Profile.Name = name
	feature, at, ok := r.line()
	f := strings.Fields(feature)
	switch {
	case !ok:
		return nil, r.errorAt(at, because(ErrTruncated, "the file ends before its feature line"))
	case len(f) == 0 || !strings.EqualFold(f[0], "PRF"):
		return nil, r.errorAt(at, because(ErrFormat, "feature type %q; only profiles (PRF) are read", clip(strings.Join(f, " "))))
	}
	var x, z *smdAxis
	for x == nil || z == nil {
		text, at, ok := r.line()
		if !ok {
			return nil, r.errorAt(at, because(ErrTruncated, "the file ends before the lines of both axes"))
		}
		if endsRecord(text) {
			return nil, r.errorAt(at, because(ErrFormat, "record 1 ends before the lines of both axes"))
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
			return nil, r.errorAt(at, because(ErrFormat, "axis %q; CX and CZ are wanted", clip(a.name)))
		}
	}
	if err := r.fields(t); err != nil {
		return nil, err
	}
	values, from, to, ended, err := r.values(x, z)
	if err != nil {
		return nil, err
	}
	if err := r.build(t, x, z, values, from, ended, hints); err != nil {
		return nil, err
	}
	r.checksum(t, data)
	rep := &t.Report
	rep.Format, rep.Encoding, rep.LineEnds = "SMD (ISO 5436-2)", r.encoding, r.lineEnds
	rep.FirstLine, _ = r.place(from)
	rep.LastRow, _ = r.place(to)
	return t, nil
}

func (r *smdReader) axis(text string, at int) (*smdAxis, error) {
	f := strings.Fields(strings.Trim(text, "\x03"))
	bad := func(i int, what string) error {
		column := at + len(text)
		if i < len(f) {
			column = at + strings.Index(text, f[i])
		}
		return r.errorAt(column, because(ErrFormat, "axis line: %s", what))
	}
	if len(f) < 4 {
		return nil, bad(len(f), "name, type, number of points, unit, scale factor, data type and increment are wanted")
	}
	a := &smdAxis{name: strings.ToUpper(f[0]), scale: 1}
	switch strings.ToUpper(f[1]) {
	case "A":
		a.absolute = true
	case "I":
	default:
		return nil, bad(1, fmt.Sprintf("axis type %q is neither A nor I", clip(f[1])))
	}
	n, ok := smdNumber(f[2])
	if !ok || n != math.Trunc(n) || n < 1 {
		return nil, bad(2, fmt.Sprintf("%q is not a number of points", clip(f[2])))
	}
	if n > maxPoints {
		return nil, r.errorAt(at, because(ErrLimit, "%s points are announced; the limit is %d", number(n), maxPoints))
	}
	a.points = int(n)
	if a.unit, ok = parseUnit(f[3]); !ok || a.unit.slope {
		if a.unit, ok = parseUnit(strings.ToLower(f[3])); !ok || a.unit.slope {
			return nil, bad(3, fmt.Sprintf("%q is not a unit of length", clip(f[3])))
		}
	}
	if len(f) > 4 {
		if a.scale, ok = smdNumber(f[4]); !ok || a.scale == 0 {
			return nil, bad(4, fmt.Sprintf("%q is not a scale factor", clip(f[4])))
		}
	}
	if len(f) > 5 {
		a.kind = strings.ToUpper(f[5])
	}
	if !a.absolute {
		if len(f) < 7 {
			return nil, bad(7, "an incremental axis needs an increment")
		}
		if a.increment, ok = smdNumber(f[6]); !ok || a.increment == 0 {
			return nil, bad(6, fmt.Sprintf("%q is no increment", clip(f[6])))
		}
	}
	return a, nil
}

func smdNumber(s string) (float64, bool) { return grammar{decimal: '.'}.wholeNumber([]byte(s)) }

// fields passes the end of record 1 and keeps the lines of record 2.
func (r *smdReader) fields(t *Trace) error {
	for first := true; ; first = false {
		text, at, ok := r.line()
		switch {
		case !ok:
			return r.errorAt(at, because(ErrTruncated, "the file ends before its heights"))
		case endsRecord(text):
			if first { // the end of record 1
				continue
			}
			return nil
		}
		line := strings.TrimSpace(text)
		word := line
		if end := strings.IndexFunc(line, unicode.IsSpace); end >= 0 {
			word = line[:end]
		}
		if _, ok := smdNumber(strings.Trim(word, "\x03")); ok { // no record 2
			r.p = at
			return nil
		}
		key, value, _ := strings.Cut(line, " ")
		t.keep(key, strings.TrimSpace(value))
	}
}

// values reads record 3 up to the line that ends it.
func (r *smdReader) values(x, z *smdAxis) (v []float64, from, to int, ended bool, err error) {
	most := z.points
	if x.absolute {
		most += x.points
	}
	v = make([]float64, 0, min(most, bytes.Count(r.data[r.p:], []byte("\n"))*4+16, len(r.data)/2+1))
	from = -1
	for {
		text, at, ok := r.line()
		if !ok {
			return v, max(from, 0), to, false, nil
		}
		if endsRecord(text) {
			if len(v) == 0 {
				continue
			}
			return v, from, to, true, nil
		}
		if from < 0 {
			from = at
		}
		to = at
		for off := 0; ; {
			for off < len(text) && (blankByte(text[off]) || text[off] == etx || text[off] == sub) {
				off++
			}
			if off == len(text) {
				break
			}
			end := off
			for end < len(text) && !blankByte(text[end]) && text[end] != etx {
				end++
			}
			n, ok := smdNumber(text[off:end])
			if !ok {
				if !smdInvalid(text[off:end]) {
					return nil, 0, 0, false, r.errorAt(at+off, because(ErrNumber, "%q is not a finite decimal number", clip(text[off:end])))
				}
				n = math.NaN()
			}
			if len(v) > 2*maxPoints {
				return nil, 0, 0, false, r.errorAt(at, because(ErrLimit, "more than %d numbers", 2*maxPoints))
			}
			v = append(v, n)
			off = end
		}
	}
}

func smdInvalid(s string) bool { return strings.EqualFold(s, "nan") || strings.EqualFold(s, "bad") }

// build makes the trace out of the numbers of record 3.
func (r *smdReader) build(t *Trace, x, z *smdAxis, v []float64, from int, ended bool, hints *Hints) error {
	n := z.points
	wanted := n
	if x.absolute {
		wanted += x.points
		if x.points != z.points {
			return r.errorAt(from, because(ErrFormat, "%d points in x and %d in z", x.points, z.points))
		}
	}
	switch {
	case len(v) == 0:
		return r.errorAt(len(r.data), because(ErrTruncated, "the file ends before its heights"))
	case len(v) < wanted && !ended:
		return r.errorAt(len(r.data), because(ErrTruncated, "%d numbers are announced and the file ends after %d", wanted, len(v)))
	case len(v) < wanted && x.absolute:
		return r.errorAt(len(r.data), because(ErrFormat, "%d numbers are announced and there are %d", wanted, len(v)))
	case len(v) < wanted:
		t.note("count-differs", fmt.Sprintf("%d points are announced and %d were read.", n, len(v)))
		n = len(v)
	case len(v) == 2*n && !x.absolute:
		return r.errorAt(from, because(ErrFormat, "x is incremental and there are two numbers for each point"))
	case len(v) > wanted:
		t.note("count-differs", fmt.Sprintf("%d numbers are announced and there are %d; the first ones were used.", wanted, len(v)))
	}
	zu := newScaled(z.unit, z.scale)
	if !x.absolute {
		t.Profile.Z = v[:n]
		step := tidy(newScaled(x.unit, x.scale).value(x.increment), 0)
		t.Profile.Spacing = math.Abs(step)
		if step < 0 {
			reverse(t)
		}
		t.Report.SpacingBy = "increment of the x axis"
	} else {
		if line, _, _ := bytes.Cut(r.data[from:], []byte("\n")); len(bytes.Fields(line[:min(len(line), 4096)])) == 2 {
			part(v[:2*n])
		}
		xs, zs := v[:n], v[n:2*n]
		t.Profile.Z = zs
		if err := place(t, xs, newScaled(x.unit, x.scale), hints); err != nil {
			err.Line, _ = r.place(from)
			err.Line += max(err.Column, 1) - 1 // one point per line
			err.Column = 1
			return err
		}
	}
	if err := t.finish(zu); err != nil {
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
func (r *smdReader) checksum(t *Trace, data []byte) {
	text, at, ok := r.line()
	if !ok || endsRecord(text) {
		return
	}
	want, err := strconv.Atoi(strings.Trim(text, " \t\x03\x1a"))
	if err != nil {
		t.keep("after the data", text)
		return
	}
	if sum := smdSum(r.data[:at]); sum != want {
		t.note("checksum", fmt.Sprintf("The checksum of the file is %d and its bytes make %d: it was changed, or its writer counts differently.", want, sum))
	}
}

// smdSum is the sum of all bytes, modulo 65535 (from memory of ISO 5436-2:2001).
func smdSum(b []byte) int {
	sum := 0
	for _, c := range b {
		sum = (sum + int(c)) % 65535
	}
	return sum
}
