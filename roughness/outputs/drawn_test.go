package outputs

import (
	"encoding/binary"
	"fmt"
	"strconv"
	"strings"
	"testing"
	"unicode/utf16"

	"example.com/furrow/roughness/tracefile"
)

// one is an element of a list by chance.
func one[T any](s *source, list ...T) T { return list[s.upTo(len(list))] }

// often is true n times in a hundred.
func (s *source) often(n int) bool { return s.upTo(100) < n }

// drawnCells stand now and then in the place of a number.
var drawnCells = []string{"", " ", "-", "NaN", "***", "9999", "-32768", "1e400", "1.2.3", "1,500", "2.250", "1,234,567", "12", "123", "+999", "-100", "99", "1,000", "1.000", "(0.5)", "\"0.5\"", "\"0.5", "0.5 µm", "abc", "#N/A", "inf", "1e5", "007", "1 2", ".5", "5.", "0", "-0", "0x1", "null", "?", "=", "--", "µm"}

// drawnLines stand above rows, or between them.
var drawnLines = []string{"", " ", "# remark", "// 3;4", "% x;z", "-----;-----", "=====", "Part 7, lock gate", "Date;2026-03-03", "Ra;0.4", "Ra = 0,4 µm", "3;4", "x", "x;y;z", "spacing = 0.5 µm", "spacing = 0.25 µm", "spacing: 0,5", "number of points: 6", "points = 7", "length = 2.5 µm", "Z unit = nm", "unit of x: mm", "z unit = µm", "unit = µm",
	"type: slope", "mm;µm", "µm", "nm;nm;nm", "\"x [mm]\";\"z [µm]\"", "\"a;b\"", "\"a", "x;z", "x [mm];z [µm]", "x [µm];z [nm]", "z [µm]", "Height, µm", "no;x [µm];z [µm]", "x [µm];y [µm];z [µm]", "x1;z1;x2;z2", "x [µm];z1 [µm];z2 [µm]", "z [µm];x [µm]", "position;profile", "a;b;c", "A", "slope [mrad]", "x [mm];tilt [°]", "no;z [µm]", "x_mm;z_um", "x [mm];z [µm];", ";z [µm]", "Zeit;Höhe", "rod 7;rod 8", "1 st;2 nd", "null;1"}

// text draws a text of numbers: its header, columns and marks, some lines and cells that belong elsewhere.
func (s *source) table() string {
	delimiter := one(s, ";", ";", "\t", ",", ",", " ", "  ", "|", ", ", "; ", " ; ")
	mark := one(s, ".", ".", ",")
	columns := one(s, "xz", "xz", "xz", "z", "z", "xzw", "nxz", "zx", "nz", "xzxw", "zzzz", "xyz", "xxz")
	step := one(s, 1.0, 0.5, 0.25, 0.1, 10, -1, -0.5)
	decimals := one(s, 2, 1, 3, 3, 4)
	line := one(s, "\n", "\n", "\n", "\r\n", "\r", "\r\r\n")
	rows, edge := one(s, 1, 2, 3, 4, 5, 6, 7, 12), one(s, "", "", "", "", "", delimiter, delimiter+delimiter)
	var b strings.Builder
	put := func(text string) {
		b.WriteString(strings.ReplaceAll(text, ";", strings.TrimSpace(delimiter+" ")) + line)
	}
	if strings.TrimSpace(delimiter) == "" {
		put = func(text string) { b.WriteString(strings.ReplaceAll(text, ";", delimiter) + line) }
	}
	for range one(s, 0, 0, 0, 0, 1, 1, 1, 2, 5) {
		put(one(s, drawnLines...))
	}
	if s.often(50) { // a header that fits
		var names []string
		for i, c := range columns {
			names = append(names, map[rune]string{'x': "x [µm]", 'y': "y [µm]", 'z': one(s, "z [µm]", "z [nm]"), 'w': "Ra", 'n': "no"}[c]+one(s, "", "", "", strconv.Itoa(i)))
		}
		put(strings.Join(names, ";"))
	}
	places, off := one(s, 0, 1, 2, 3), one(s, 0, 0, 0, 0, 0, 0, 0.02, 0.0201, 0.01, 1, 0.5, -1)
	for i := range rows {
		if s.often(2) {
			put(one(s, drawnLines...))
		}
		var cells []string
		for _, c := range columns {
			v := 0.001 * float64(s.upTo(5000)-2500)
			switch c {
			case 'x':
				if v = step * float64(i); i == places {
					v += step * off
				}
			case 'y':
				v = float64(i / 3)
			case 'n':
				v = float64(i + 1)
			}
			cell := strconv.FormatFloat(v, 'f', decimals, 64)
			if c == 'n' {
				cell = strconv.Itoa(i + 1)
			}
			if s.often(1) {
				cell = one(s, drawnCells...)
			}
			cells = append(cells, strings.Replace(cell, ".", mark, 1))
		}
		if s.often(1) {
			cells = cells[1:]
		}
		b.WriteString(strings.Join(cells, delimiter) + edge + line)
	}
	if s.often(20) {
		return strings.TrimSuffix(b.String(), line)
	}
	return b.String()
}

// hints draws some answers.
func (s *source) hints() *tracefile.Hints {
	if s.often(35) {
		return nil
	}
	var h tracefile.Hints
	if s.often(60) {
		h.XUnit, h.ZUnit = one(s, "", "µm", "mm"), one(s, "µm", "nm")
	}
	for range 1 + s.upTo(3) {
		switch s.upTo(17) {
		case 0:
			h.XUnit = one(s, "mm", "µm", "nm", "in")
		case 1, 2:
			h.ZUnit = one(s, "µm", "nm", "mm", "µin")
		case 3:
			h.Decimal = one(s, ".", ",")
		case 4:
			h.Delimiter = one(s, ";", ",", "tab", "blank", "|")
		case 5:
			h.XColumn = 1 + s.upTo(3)
		case 6:
			h.ZColumn = 1 + s.upTo(4)
		case 7:
			h.YColumn = 1 + s.upTo(3)
		case 8:
			h.SkipLines = s.upTo(4)
		case 9:
			h.Missing = []string{one(s, "9999", "0", "123", "abc", "-1")}
		case 10:
			h.Heights, h.Spacing = one(s, "column", "rows", "matrix", "triples"), one(s, 0, 1.0)
		case 11:
			h.First = one(s, "spacing", "length-count", "span-count")
		case 12:
			h.Integrate, h.BlankLines = s.often(50), one(s, "", "missing", "skip")
		case 13:
			h.Resample = true
		case 14, 15:
			h.Spacing = one(s, 0.5, 1, 0.25, 0.51, 0.49, 0.505, 3)
		default:
			h.Trace, h.Row, h.Column = one(s, 0, 1, 2), one(s, 0, 0, 1, 2), one(s, 0, 0, 1, 2)
		}
	}
	return &h
}

// Files drawn from short lists of round numbers, so that borders are met exactly.
func TestTextsDrawn(t *testing.T) {
	keep(t, "drawn-texts", func(p *page) {
		for i := range 60 {
			s := source(i)
			var d digest
			for k := range 300 {
				text, hints := s.table(), s.hints()
				if k%10 == 9 {
					order := one[binary.AppendByteOrder](&s, binary.LittleEndian, binary.BigEndian)
					b := order.AppendUint16(nil, 0xfeff)
					for _, u := range utf16.Encode([]rune(text + one(&s, "", "😀"))) {
						b = order.AppendUint16(b, u)
					}
					text = string(b[:len(b)-one(&s, 0, 0, 1, 2)])
				}
				d.read(text, hints, k%3/2)
			}
			p.digest(fmt.Sprint("texts ", i+1), &d)
		}
	})
}
