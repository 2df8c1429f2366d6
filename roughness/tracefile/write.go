package tracefile

import (
	"bufio"
	"encoding/binary"
	"errors"
	"fmt"
	"io"
	"math"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"time"
)

// ErrWrite is wrapped by the errors of the writers: the trace cannot be said in that format.
var ErrWrite = errors.New("trace cannot be written in this format")

func shortest(v float64) string { return strconv.FormatFloat(v, 'g', -1, 64) }

// writable holds a trace against what every format needs.
func writable(t *Trace) error {
	switch s := t.Profile.Spacing; {
	case len(t.Profile.Z) == 0:
		return because(ErrWrite, "tracefile: a trace without points cannot be written")
	case !(s > 0) || math.IsInf(s, 0):
		return because(ErrWrite, "tracefile: the spacing %g is no length", s)
	}
	for i, v := range t.Profile.Z {
		if math.IsInf(v, 0) {
			return because(ErrWrite, "tracefile: the height at point %d is infinite", i+1)
		}
	}
	return nil
}

// WriteText writes a trace as text with x and z in µm, tabs between them: what [Read] reads without a hint, to the last bit of
// heights and spacing, and what a spreadsheet opens. An invalid point is NaN.
func WriteText(w io.Writer, t *Trace) error {
	if err := writable(t); err != nil {
		return err
	}
	b := bufio.NewWriter(w)
	if len(t.Profile.Z) > 1 {
		fmt.Fprintf(b, "# spacing [µm]: %s\nx [µm]\tz [µm]\n", shortest(t.Profile.Spacing))
	} else {
		fmt.Fprintf(b, "# spacing [µm]: %s\nz [µm]\n", shortest(t.Profile.Spacing))
	}
	var buf []byte
	for i, z := range t.Profile.Z {
		buf = buf[:0]
		if len(t.Profile.Z) > 1 {
			x := t.Origin + float64(float64(i)*t.Profile.Spacing)
			buf = strconv.AppendFloat(buf, x, 'g', 15, 64)
			buf = append(buf, '\t')
		}
		buf = strconv.AppendFloat(buf, z, 'g', -1, 64)
		b.Write(append(buf, '\n'))
	}
	return b.Flush()
}

var smdKeyword = regexp.MustCompile(`^[A-Z][A-Z_]{2,}$`)

// plainASCII makes free text fit a format of seven bits: µ becomes u, anything else foreign a question mark.
func plainASCII(s string) string {
	return strings.Map(func(r rune) rune {
		switch {
		case r == 'µ' || r == 'μ':
			return 'u'
		case r < ' ' || r > '~':
			return '?'
		}
		return r
	}, s)
}

// WriteSMD writes a trace as ISO 5436-2 requires for reference data: four records, CR LF, ETX at the end of a record, SUB at the end of the
// file, a checksum. Heights and spacing keep every bit. The format has no mark for an invalid point.
func WriteSMD(w io.Writer, t *Trace) error {
	if err := writable(t); err != nil {
		return err
	}
	for i, v := range t.Profile.Z {
		if math.IsNaN(v) {
			return because(ErrWrite, "tracefile: point %d has no height, and SMD cannot store that", i+1)
		}
	}
	name := strings.Join(strings.Fields(plainASCII(t.Profile.Name)), "_")
	if name == "" {
		name = "trace"
	}
	if i := strings.LastIndexAny(name, `/\`); i >= 0 {
		name = name[i+1:]
	}
	var b strings.Builder
	n := len(t.Profile.Z)
	fmt.Fprintf(&b, "ISO 5436 - 2000 %s\r\nPRF 1 ISO5436\r\n", name)
	fmt.Fprintf(&b, "CX I %d um 1.0e0 D %s\r\nCZ A %d um 1.0e0 D\r\n\x03\r\n", n, shortest(t.Profile.Spacing), n)
	for _, f := range t.Fields {
		if smdKeyword.MatchString(f.Key) {
			fmt.Fprintf(&b, "%s %s\r\n", f.Key, plainASCII(f.Value))
		} else {
			fmt.Fprintf(&b, "COMMENT %s = %s\r\n", plainASCII(f.Key), plainASCII(f.Value))
		}
	}
	b.WriteString("\x03\r\n")
	buf := make([]byte, 0, 32)
	for _, z := range t.Profile.Z {
		buf = strconv.AppendFloat(buf[:0], z, 'e', -1, 64)
		b.Write(append(buf, '\r', '\n'))
	}
	b.WriteString("\x03\r\n")
	sum := smdSum([]byte(b.String()))
	fmt.Fprintf(&b, "%d\r\n\x03\r\n\x1a", sum)
	_, err := io.WriteString(w, b.String())
	return err
}

// sdfOf makes the header of a trace out of its fields, and the trailer of those that have no place in it.
func sdfOf(t *Trace) (h *sdfHeader, trailer string) {
	unknown := time.Unix(0, 0).UTC().Format("020120061504")
	h = &sdfHeader{maker: "furrow", created: unknown, modified: unknown, points: len(t.Profile.Z), profiles: 1,
		xScale: shift10(t.Profile.Spacing, -6), zScale: 1e-6, zRes: -1, kind: strings.IndexByte(sdfKinds, 'D')}
	fields := h.fields()
	for _, f := range t.Fields {
		i := slices.IndexFunc(fields[:3], func(known sdfField) bool { return strings.EqualFold(f.Key, known.key) })
		if i < 0 {
			trailer += fmt.Sprintf("%s = %s\r\n", plainASCII(f.Key), plainASCII(f.Value))
		} else {
			*fields[i].value.(*string) = f.Value
		}
	}
	return h, trailer
}

// WriteSDFText writes a trace as ISO 25178-71 text: Zscale 1e-6, so that heights stand in µm and keep every bit. An invalid point is
// BAD.
func WriteSDFText(w io.Writer, t *Trace) error {
	if err := writable(t); err != nil {
		return err
	}
	h, trailer := sdfOf(t)
	b := bufio.NewWriter(w)
	b.WriteString("aISO-1.0\r\n")
	for _, f := range h.fields() {
		text := ""
		switch v := f.value.(type) {
		case *string:
			text = plainASCII(*v)
		case *int:
			text = strconv.Itoa(*v)
		case *float64:
			text = shortest(*v)
		}
		if f.key == "Zscale" {
			text = "1.0e-06"
		}
		fmt.Fprintf(b, "%-11s = %s\r\n", f.key, text)
	}
	b.WriteString("*\r\n")
	buf := make([]byte, 0, 32)
	for _, z := range t.Profile.Z {
		if math.IsNaN(z) {
			b.WriteString("BAD\r\n")
			continue
		}
		buf = strconv.AppendFloat(buf[:0], z, 'e', -1, 64)
		b.Write(append(buf, '\r', '\n'))
	}
	b.WriteString("*\r\n" + trailer + "*\r\n")
	return b.Flush()
}

// WriteSDFBinary writes a trace as ISO 25178-71 binary with 64-bit floats. Its count has 16 bits: a longer trace is refused. An
// invalid point is NaN.
func WriteSDFBinary(w io.Writer, t *Trace) error {
	if err := writable(t); err != nil {
		return err
	}
	n := len(t.Profile.Z)
	if n > math.MaxUint16 {
		return because(ErrWrite, "tracefile: %d points; binary SDF counts to %d", n, math.MaxUint16)
	}
	h, trailer := sdfOf(t)
	little := binary.LittleEndian
	head := append(make([]byte, 0, sdfHeaderSize+8*n), "bISO-1.0"...)
	for _, f := range h.fields() {
		switch v := f.value.(type) {
		case *string:
			s := plainASCII(*v)
			head = fmt.Appendf(head, "%-*s", f.size, s[:min(f.size, len(s))])
		case *float64:
			head = little.AppendUint64(head, math.Float64bits(*v))
		case *int:
			head = little.AppendUint16(head, uint16(*v))
			head = head[:len(head)-2+f.size]
		}
	}
	for _, z := range t.Profile.Z {
		head = little.AppendUint64(head, math.Float64bits(z))
	}
	_, err := w.Write(append(head, trailer...))
	return err
}
