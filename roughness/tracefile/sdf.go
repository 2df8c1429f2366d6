package tracefile

import (
	"bytes"
	"context"
	"encoding/binary"
	"fmt"
	"math"
	"regexp"
	"slices"
	"strings"
)

// The surface data file of ISO 25178-71 (SDF): a header, heights on an even grid, a trailer; as text or binary. Field order, sizes
// and type codes are those that two national laboratories publish; byte order (little-endian) and the marks of invalid points come
// from memory. One profile is one row; of an areal file any row or column is one.

var sdfVersion = regexp.MustCompile(`^[ab][A-Za-z]{2,}[A-Za-z0-9]*-[Vv]?([0-9]+)\.[0-9]+`)

const sdfHeaderSize = 81

func isSDF(data []byte) bool {
	if !sdfVersion.Match(data[:min(len(data), 16)]) {
		return false
	}
	_, rest, _ := bytes.Cut(data[:min(len(data), 512)], []byte("\n"))
	return data[0] == 'b' || len(rest) == 0 || bytes.IndexByte(rest, '=') >= 0
}

// sdfHeader is what stands above the heights.
type sdfHeader struct {
	maker, created, modified     string
	points, profiles             int
	xScale, yScale, zScale, zRes float64
	compression, kind, check     int
}

// sdfField is a field of the header as it is spelt in text, with its bytes in a binary file.
type sdfField struct {
	key   string
	size  int
	value any // *string, *float64 or *int
}

// fields are those of the header in their order, behind the version; published files spell the first one in two ways.
func (h *sdfHeader) fields() []sdfField {
	return []sdfField{{"ManufacID", 10, &h.maker}, {"CreateDate", 12, &h.created}, {"ModDate", 12, &h.modified},
		{"NumPoints", 2, &h.points}, {"NumProfiles", 2, &h.profiles},
		{"Xscale", 8, &h.xScale}, {"Yscale", 8, &h.yScale}, {"Zscale", 8, &h.zScale}, {"Zresolution", 8, &h.zRes},
		{"Compression", 1, &h.compression}, {"DataType", 1, &h.kind}, {"CheckType", 1, &h.check}}
}

// sdfKinds are the data types in the order of their codes, as storedSizes spells them.
const sdfKinds = "buvFcILD"

func readSDF(_ context.Context, data []byte, hints *Hints) (*Trace, error) {
	if m := sdfVersion.FindSubmatch(data[:min(len(data), 16)]); string(m[1]) != "1" {
		return nil, newLineReader(data).fail(0, ErrFormat, "SDF of a version (%s) whose layout furrow does not know", clip(string(m[0])))
	}
	if data[0] == 'a' {
		return newLineReader(data).sdfText(hints)
	}
	t, err := sdfBinary(data, hints)
	if err != nil {
		return nil, &Error{Err: err}
	}
	return t, nil
}

func sdfBinary(data []byte, hints *Hints) (*Trace, error) {
	if len(data) < sdfHeaderSize {
		return nil, because(ErrTruncated, "the header takes %d bytes and the file has %d", sdfHeaderSize, len(data))
	}
	var h sdfHeader
	at := 8
	for _, f := range h.fields() {
		b := data[at : at+f.size]
		switch v := f.value.(type) {
		case *string:
			*v = strings.Trim(string(b), " \x00")
		case *float64:
			*v = stored(b, 'D')
		case *int:
			switch {
			case f.size == 2:
				*v = int(stored(b, 'u'))
			case b[0] >= '0' && b[0] <= '9': // a code or its digit
				*v = int(b[0] - '0')
			default:
				*v = int(b[0])
			}
		}
		at += f.size
	}
	if _, err := h.sound(); err != nil {
		return nil, err
	}
	kind := sdfKinds[h.kind]
	size := storedSizes[kind]
	body := data[sdfHeaderSize:]
	total := int64(h.points) * int64(h.profiles) * int64(size) // beyond an int of 32 bits
	if int64(len(body)) < total {
		return nil, because(ErrTruncated, "%d bytes of heights are announced and %d follow", total, len(body))
	}
	pick, err := pickProfile(h.points, h.profiles, hints)
	if err != nil {
		return nil, err
	}
	z := make([]float64, pick.n)
	for i := range z {
		z[i] = stored(body[(pick.from+i*pick.step)*size:], kind)
		if kind == 'I' && z[i] == math.MinInt16 || kind == 'L' && z[i] == math.MinInt32 {
			z[i] = math.NaN()
		}
	}
	t := &Trace{}
	h.keep(t)
	if trailer := bytes.Trim(body[total:], "\x00\r\n\x1a"); len(trailer) > 0 {
		t.keep("trailer", string(trailer))
	}
	t.Report.Format = "SDF, binary (ISO 25178-71)"
	return t, h.finish(t, z, pick, hints)
}

// storedSizes are the bytes that a number takes as SDF and X3P store it: b uint8, c int8, u uint16, I int16, v uint32, L int32, F float32,
// D float64.
var storedSizes = map[byte]int{'b': 1, 'c': 1, 'u': 2, 'I': 2, 'v': 4, 'L': 4, 'F': 4, 'D': 8}

// stored reads such a number.
func stored(b []byte, kind byte) float64 {
	little := binary.LittleEndian
	switch kind {
	case 'b':
		return float64(b[0])
	case 'c':
		return float64(int8(b[0]))
	case 'u':
		return float64(little.Uint16(b))
	case 'I':
		return float64(int16(little.Uint16(b)))
	case 'v':
		return float64(little.Uint32(b))
	case 'L':
		return float64(int32(little.Uint32(b)))
	case 'F':
		return float64(math.Float32frombits(little.Uint32(b)))
	}
	return math.Float64frombits(little.Uint64(b))
}

// sound holds a header against what can be read. It returns the field that stands against it, as a text header spells it.
func (h *sdfHeader) sound() (field string, err error) {
	switch {
	case h.points < 1:
		return "numpoints", because(ErrFormat, "%d points in %d profiles", h.points, h.profiles)
	case h.profiles < 1:
		return "numprofiles", because(ErrFormat, "%d points in %d profiles", h.points, h.profiles)
	case !(h.xScale > 0) || math.IsInf(h.xScale, 0):
		return "xscale", because(ErrFormat, "Xscale %g is not a length above 0", h.xScale)
	case !(h.zScale != 0) || math.IsInf(h.zScale, 0) || math.IsNaN(h.zScale):
		return "zscale", because(ErrFormat, "Zscale %g is not a factor", h.zScale)
	case h.compression != 0:
		return "compression", because(ErrFormat, "compressed heights (Compression %d) are not read", h.compression)
	case h.kind < 0 || h.kind >= len(sdfKinds):
		return "datatype", because(ErrFormat, "DataType %d is not known", h.kind)
	}
	return "", nil
}

// keep stores what the header says in words.
func (h *sdfHeader) keep(t *Trace) {
	for _, f := range h.fields() {
		if v, ok := f.value.(*string); ok && *v != "" {
			t.keep(f.key, *v)
		}
	}
}

// finish makes the trace.
func (h *sdfHeader) finish(t *Trace, z []float64, pick picked, hints *Hints) error {
	scale, by := h.xScale, "Xscale"
	if pick.column {
		scale, by = h.yScale, "Yscale"
	}
	t.Profile.Z, t.Profile.Spacing, t.Report.SpacingBy = z, shift10(scale, 6), by
	if !(scale > 0) || math.IsInf(scale, 0) {
		if hints.Spacing == 0 {
			return Questions{ask("spacing", "Yscale %g is not a distance between rows", scale)}
		}
		t.Profile.Spacing, t.Report.SpacingBy = hints.Spacing, "hint spacing"
	}
	if err := t.finish(metres.times(h.zScale)); err != nil {
		return err
	}
	t.Report.ZUnit = fmt.Sprintf("steps of %s µm", number(shift10(h.zScale, 6)))
	pick.note(t)
	return nil
}

// picked is one row or column of a grid.
type picked struct {
	from, step, n int
	column        bool
	text          string
}

// note says which profile of an area it is.
func (p *picked) note(t *Trace) {
	if p.text != "" {
		t.note("profile-of-area", "%s", p.text)
	}
}

// pickProfile chooses the row or column that the hints name. One row needs no hint.
func pickProfile(points, profiles int, hints *Hints) (picked, error) {
	if err := hints.beyond(profiles, points, "file"); err != nil {
		return picked{}, err
	}
	switch {
	case hints.Column > 0:
		return picked{hints.Column - 1, points, profiles, true,
			fmt.Sprintf("Column %d of %d of an area, %s each.", hints.Column, points, plural(profiles, "point"))}, nil
	case hints.Row > 0 && profiles > 1:
		return picked{(hints.Row - 1) * points, 1, points, false,
			fmt.Sprintf("Row %d of %d of an area, %s each.", hints.Row, profiles, plural(points, "point"))}, nil
	case profiles == 1:
		return picked{step: 1, n: points}, nil
	case points == 1:
		return picked{step: 1, n: profiles, column: true}, nil
	}
	return picked{}, Questions{ask("row", "the file holds an area of %d rows with %s each; which profile is meant", profiles, plural(points, "point"))}
}

func (r *lineReader) sdfText(hints *Hints) (*Trace, error) {
	t := &Trace{}
	h, err := r.sdfHeader(t)
	if err != nil {
		return nil, err
	}
	b := r.data
	if most := int64(len(b)/2 + 1); int64(h.points)*int64(h.profiles) > most {
		return nil, r.fail(len(b), ErrTruncated, "%d times %d heights are announced, more than the file can hold", h.points, h.profiles)
	}
	pick, err := pickProfile(h.points, h.profiles, hints)
	if err != nil {
		return nil, r.errorAt(0, err)
	}
	z := make([]float64, 0, pick.n)
	total, i, first, last, ended := h.points*h.profiles, 0, -1, r.p, false
	p := r.p
	for {
		for p < len(b) && (blankByte(b[p]) || b[p] == '\n' || b[p] == 0) {
			p++
		}
		if p >= len(b) {
			break
		}
		if ended = b[p] == '*'; ended {
			p++
			break
		}
		v, end, err := r.height(p, '\n')
		if err != nil {
			return nil, r.errorAt(p, err)
		}
		if i == total {
			return nil, r.fail(p, ErrFormat, "more heights than the %d announced", total)
		}
		if last = p; first < 0 {
			first = p
		}
		if pick.wanted(int64(i)) {
			z = append(z, v)
		}
		i++
		p = end
	}
	switch {
	case i < total && !ended:
		return nil, r.fail(len(b), ErrTruncated, "%d heights are announced and the file ends after %d", total, i)
	case i < total:
		return nil, r.fail(p-1, ErrFormat, "%d heights are announced and there are %d", total, i)
	case !ended:
		t.note("no-end-mark", "The mark that ends the heights is missing.")
	}
	h.keep(t)
	for line := range strings.SplitSeq(string(b[p:]), "\n") {
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
	r.report(t, "SDF, text (ISO 25178-71)", first, last)
	if err := h.finish(t, z, pick, hints); err != nil {
		return nil, &Error{Err: err}
	}
	return t, nil
}

// sdfHeader reads "key = value" lines up to the one with an asterisk. A value may stand in the line below its key.
func (r *lineReader) sdfHeader(t *Trace) (*sdfHeader, error) {
	r.next() // the version
	h := &sdfHeader{profiles: 1}
	fields := h.fields()
	seen := map[string]int{}
	for {
		text, at, ok := r.next()
		if !ok {
			return nil, r.fail(at, ErrTruncated, "the file ends inside its header")
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
			return nil, r.fail(at, ErrFormat, "%q is no \"key = value\" of a header", clip(line))
		}
		key, value = strings.TrimSpace(key), strings.TrimSpace(value)
		if value == "" {
			if below, at, ok := r.next(); ok && !strings.Contains(below, "=") && strings.TrimSpace(below) != "*" {
				value = strings.TrimSpace(below)
			} else if ok {
				r.p = at
			}
		}
		field := strings.ToLower(key)
		i := slices.IndexFunc(fields, func(f sdfField) bool { return strings.ToLower(f.key) == field })
		_, twice := seen[field]
		switch {
		case i < 0:
			t.keep(key, value)
		case twice:
			return nil, r.fail(at, ErrFormat, "the header gives %s twice", key)
		default:
			if err := fields[i].set(key, value); err != nil {
				return nil, r.errorAt(at, err)
			}
		}
		seen[field] = at
	}
	for _, k := range []string{"numpoints", "xscale", "zscale"} {
		if _, ok := seen[k]; !ok {
			return nil, r.fail(r.p, ErrFormat, "the header has no %s", k)
		}
	}
	if field, err := h.sound(); err != nil {
		return nil, r.errorAt(seen[field], err)
	}
	return h, nil
}

// set takes the value of one field as text.
func (f *sdfField) set(key, text string) error {
	n, ok := pointNumber(text)
	switch v := f.value.(type) {
	case *string:
		*v = text
		return nil
	case *float64:
		*v = n
	case *int:
		if ok && (n != math.Trunc(n) || n < 0 || n > maxPoints) {
			return because(ErrFormat, "%s: %s is not a count from 0 to %d", key, clip(text), maxPoints)
		}
		*v = int(n)
	}
	if !ok {
		return because(ErrNumber, "%s: %v", key, notDecimal(text))
	}
	return nil
}
