package tracefile

import (
	"bytes"
	"context"
	"encoding/binary"
	"fmt"
	"math"
	"regexp"
	"strings"
)

// The surface data file of ISO 25178-71 (SDF): a header, heights on an even grid, a trailer; as text or binary. Field order, sizes
// and type codes are those that two national laboratories publish; byte order (little-endian) and the marks of invalid points come
// from memory. One profile is one row; of an areal file any row or column is one.

var sdfVersion = regexp.MustCompile(`^[ab][A-Za-z]{2,}[A-Za-z0-9]*-[Vv]?([0-9]+)\.[0-9]+`)

const sdfHeaderSize = 81

func isSDF(data []byte) bool {
	head := bytes.TrimPrefix(data[:min(len(data), 16)], []byte("\xef\xbb\xbf"))
	if !sdfVersion.Match(head) {
		return false
	}
	if head[0] == 'b' {
		return true
	}
	_, rest, _ := bytes.Cut(data[:min(len(data), 512)], []byte("\n"))
	return len(rest) == 0 || bytes.IndexByte(rest, '=') >= 0
}

// sdfHeader holds the fields in the order of the format.
type sdfHeader struct {
	version, maker, created, modified string
	points, profiles                  int
	xScale, yScale, zScale, zRes      float64
	compression, kind, check          int
}

// Data types; the sizes are in bytes.
var sdfSizes = []int{0: 1, 1: 2, 2: 4, 3: 4, 4: 1, 5: 2, 6: 4, 7: 8}

func readSDF(_ context.Context, data []byte, hints *Hints) (*Trace, error) {
	data = bytes.TrimPrefix(data, []byte("\xef\xbb\xbf"))
	if m := sdfVersion.FindSubmatch(data[:min(len(data), 16)]); string(m[1]) != "1" {
		return nil, &Error{Line: 1, Column: 1, Err: because(ErrFormat, "SDF of a version (%s) whose layout furrow does not know", clip(string(m[0])))}
	}
	if data[0] == 'a' {
		return readSDFText(data, hints)
	}
	return readSDFBinary(data, hints)
}

func readSDFBinary(data []byte, hints *Hints) (*Trace, error) {
	if len(data) < sdfHeaderSize {
		return nil, &Error{Err: because(ErrTruncated, "the header takes %d bytes and the file has %d", sdfHeaderSize, len(data))}
	}
	text := func(from, n int) string { return strings.Trim(string(data[from:from+n]), " \x00") }
	real := func(at int) float64 { return math.Float64frombits(binary.LittleEndian.Uint64(data[at:])) }
	code := func(at int) int { // the number or its digit
		if c := data[at]; c >= '0' && c <= '9' {
			return int(c - '0')
		}
		return int(data[at])
	}
	h := sdfHeader{version: text(0, 8), maker: text(8, 10), created: text(18, 12), modified: text(30, 12),
		points: int(binary.LittleEndian.Uint16(data[42:])), profiles: int(binary.LittleEndian.Uint16(data[44:])),
		xScale: real(46), yScale: real(54), zScale: real(62), zRes: real(70),
		compression: code(78), kind: code(79), check: code(80)}
	if _, err := h.sound(); err != nil {
		return nil, &Error{Err: err}
	}
	size := sdfSizes[h.kind]
	body := data[sdfHeaderSize:]
	total := int64(h.points) * int64(h.profiles) * int64(size) // beyond an int of 32 bits
	if int64(len(body)) < total {
		return nil, &Error{Err: because(ErrTruncated, "%d bytes of heights are announced and %d follow", total, len(body))}
	}
	need := int(total)
	pick, err := pickProfile(h.points, h.profiles, hints)
	if err != nil {
		return nil, &Error{Err: err}
	}
	z := make([]float64, pick.n)
	for i := range z {
		z[i] = sdfValue(body[(pick.from+i*pick.step)*size:], h.kind)
	}
	t := &Trace{}
	t.keepSDF(&h)
	if trailer := bytes.Trim(body[need:], "\x00\r\n\x1a"); len(trailer) > 0 {
		t.keep("trailer", string(trailer))
	}
	if err := h.finish(t, z, pick, hints, "SDF, binary (ISO 25178-71)"); err != nil {
		return nil, err
	}
	return t, nil
}

// sdfValue reads one stored height; an invalid one is NaN.
func sdfValue(b []byte, kind int) float64 {
	switch kind {
	case 0:
		return float64(b[0])
	case 1:
		return float64(binary.LittleEndian.Uint16(b))
	case 2:
		return float64(binary.LittleEndian.Uint32(b))
	case 3:
		return float64(math.Float32frombits(binary.LittleEndian.Uint32(b)))
	case 4:
		return float64(int8(b[0]))
	case 5:
		if v := int16(binary.LittleEndian.Uint16(b)); v != math.MinInt16 {
			return float64(v)
		}
	case 6:
		if v := int32(binary.LittleEndian.Uint32(b)); v != math.MinInt32 {
			return float64(v)
		}
	case 7:
		return math.Float64frombits(binary.LittleEndian.Uint64(b))
	}
	return math.NaN()
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
	case h.kind < 0 || h.kind >= len(sdfSizes):
		return "datatype", because(ErrFormat, "DataType %d is not known", h.kind)
	}
	return "", nil
}

func (t *Trace) keepSDF(h *sdfHeader) {
	for _, f := range []Field{{"ManufacID", h.maker}, {"CreateDate", h.created}, {"ModDate", h.modified}} {
		if f.Value != "" {
			t.keep(f.Key, f.Value)
		}
	}
}

// finish makes the trace.
func (h *sdfHeader) finish(t *Trace, z []float64, pick picked, hints *Hints, format string) error {
	scale := h.xScale
	t.Report.SpacingBy = "Xscale"
	if pick.column {
		scale = h.yScale
		t.Report.SpacingBy = "Yscale"
	}
	t.Profile.Z, t.Profile.Spacing = z, shift10(scale, 6)
	if pick.column && (!(scale > 0) || math.IsInf(scale, 0)) {
		if hints.Spacing == 0 {
			return &Error{Err: Questions{ask("spacing", fmt.Sprintf("Yscale %g is not a distance between rows", scale))}}
		}
		t.Profile.Spacing, t.Report.SpacingBy = hints.Spacing, "hint spacing"
	}
	t.Report.Format = format
	if err := t.finish(newScaled(metres, h.zScale)); err != nil {
		return &Error{Err: err}
	}
	t.Report.ZUnit = fmt.Sprintf("steps of %s µm", number(shift10(h.zScale, 6)))
	if pick.text != "" {
		t.note("profile-of-area", pick.text)
	}
	return nil
}

// picked is one row or column of a grid.
type picked struct {
	from, step, n int
	column        bool
	text          string
}

// pickProfile chooses the row or column that the hints name. One row needs no hint.
func pickProfile(points, profiles int, hints *Hints) (picked, error) {
	for _, c := range []struct {
		key       string
		want, has int
	}{{"row", hints.Row, profiles}, {"column", hints.Column, points}} {
		if c.want > c.has {
			return picked{}, because(ErrHint, "hint %q: %d is asked for and the file has %d", c.key, c.want, c.has)
		}
	}
	switch {
	case hints.Column > 0:
		return picked{from: hints.Column - 1, step: points, n: profiles, column: true,
			text: fmt.Sprintf("Column %d of %d of an area, %s each.", hints.Column, points, plural(profiles, "point"))}, nil
	case hints.Row > 0 && profiles > 1:
		return picked{from: (hints.Row - 1) * points, step: 1, n: points,
			text: fmt.Sprintf("Row %d of %d of an area, %s each.", hints.Row, profiles, plural(points, "point"))}, nil
	case profiles == 1:
		return picked{step: 1, n: points}, nil
	case points == 1:
		return picked{step: 1, n: profiles, column: true}, nil
	}
	return picked{}, Questions{ask("row", fmt.Sprintf("the file holds an area of %d rows with %s each; which profile is meant", profiles, plural(points, "point")))}
}
