package tracefile_test

import (
	"bytes"
	"encoding/binary"
	"errors"
	"fmt"
	"math"
	"strings"
	"testing"
	"unicode/utf16"

	"example.com/furrow/roughness"
	"example.com/furrow/roughness/tracefile"
)

// x in every direction and manner that the formats with absolute axes allow.
func TestAbsoluteAxes(t *testing.T) {
	smd := func(axis string, n int, data string) string {
		return fmt.Sprintf("ISO 5436 - 2000 a\nPRF 1 ISO5436\n%s\nCZ A %d um 1.0e0 D\n\x03\n\x03\n%s\x03\n", axis, n, data)
	}
	x3p := func(axes, size, data string) string {
		return string(pack(t, "main.xml", `<a><Record1><FeatureType>PRF</FeatureType><Axes>`+axes+`<CZ><AxisType>A</AxisType></CZ></Axes></Record1><Record3>`+size+
			`<DataList>`+data+`</DataList></Record3></a>`))
	}
	const absolute = `<CX><AxisType>A</AxisType></CX>`
	matrix := func(n int) string {
		return fmt.Sprintf(`<MatrixDimension><SizeX>%d</SizeX><SizeY>1</SizeY><SizeZ>1</SizeZ></MatrixDimension>`, n)
	}
	const column = `<MatrixDimension><SizeX>1</SizeX><SizeY>3</SizeY><SizeZ>1</SizeZ></MatrixDimension>`
	for _, c := range []struct{ name, text, hints, want string }{
		{"SMD, falling increment", smd("CX I 3 um 1.0e0 D -2", 3, "1\n2\n3\n"), "", "2: 3 2 1"},
		{"SMD, falling x", smd("CX A 3 um 1.0e0 D", 3, "4 1\n2 2\n0 3\n"), "", "2: 3 2 1"},
		{"SMD, uneven x", smd("CX A 4 um 1.0e0 D", 4, "0 1\n1 2\n2 3\n4 4\n"), "", "10:1 uneven"},
		{"SMD, uneven x, resampled", smd("CX A 4 um 1.0e0 D", 4, "0 0\n1 2\n2 4\n4 8\n"), `{"resample":true,"spacing":1}`, "1: 0 2 4 6 8"},
		{"SMD, repeated x, resampled", smd("CX A 4 um 1.0e0 D", 4, "0 0\n1 2\n1 4\n4 8\n"), `{"resample":true,"spacing":1}`, "9:1 repeated"},
		{"SMD, far too many", smd("CX A 4 um 1.0e0 D", 4, "0 0\n1 2\n2 4\n4 8\n"), `{"resample":true,"spacing":1e-30}`, "7:1 limit"},
		{"SMD, two x axes", smd("CX I 3 um 1.0e0 D 2\nCX I 3 um 1.0e0 D 2", 3, "1\n2\n3\n"), "", "4:1 format"},
		{"SMD, one point", smd("CX A 1 um 1.0e0 D", 1, "0 5\n"), "", "7:1 ask spacing"},
		{"SMD, one point, spacing", smd("CX A 1 um 1.0e0 D", 1, "0 5\n"), `{"spacing":3}`, "3: 5"},
		{"SMD, counts that differ", smd("CX A 2 um 1.0e0 D", 1, "0 5\n"), "", "7:1 format"},
		{"SMD, too few", smd("CX A 3 um 1.0e0 D", 3, "0 5\n1 6\n"), "", "10:1 format"},
		{"SMD, a pair for each point of an even axis", smd("CX I 2 um 1.0e0 D 1", 2, "0 5\n1 6\n"), "", "7:1 format"},
		{"SMD, invalid points by their words", smd("CX I 3 um 1.0e0 D 1", 3, "1\nNaN\nBAD\n"), "", "1: 1 - -"},
		{"X3P, falling x", x3p(absolute, matrix(3), "<Datum>4e-6;1e-6</Datum><Datum>2e-6;2e-6</Datum><Datum>0;3e-6</Datum>"), "", "2: 3 2 1"},
		{"X3P, falling increment", x3p(`<CX><AxisType>I</AxisType><Increment>-1e-6</Increment></CX>`, matrix(2), "<Datum>1e-6</Datum><Datum>2e-6</Datum>"), "", "1: 2 1"},
		{"X3P, no increment to speak of", x3p(`<CX><AxisType>I</AxisType><Increment>0</Increment></CX>`, matrix(2), "<Datum>1e-6</Datum><Datum>2e-6</Datum>"), "", "0:0 format"},
		{"X3P, uneven x", x3p(absolute, matrix(4), "<Datum>0;0</Datum><Datum>1e-6;0</Datum><Datum>2e-6;0</Datum><Datum>4e-6;0</Datum>"), "", "0:0 uneven"},
		{"X3P, a list", x3p(absolute, `<ListDimension>2</ListDimension>`, "<Datum>0;1e-6</Datum><Datum>2e-6;3e-6</Datum>"), "", "2: 1 3"},
		{"X3P, a number too many", x3p(absolute, matrix(1), "<Datum>0;0;0;1e-6</Datum>"), "", "1:255 format"},
		{"X3P, absolute x of integers", x3p(`<CX><AxisType>A</AxisType><DataType>L</DataType><Increment>1e-6</Increment><Offset>5e-6</Offset></CX>`, matrix(2),
			"<Datum>0;1e-6</Datum><Datum>3;2e-6</Datum>"), "", "3: 1 2"},
		{"X3P, all axes of each point", x3p(absolute, matrix(2), "<Datum>4e-6;7;1e-6</Datum><Datum>6e-6;9;2e-6</Datum>"), "", "2: 1 2"},
		{"X3P, all axes, none of them absolute", x3p(`<CX><AxisType>I</AxisType><Increment>3e-6</Increment></CX>`, matrix(2), "<Datum>4e-6;7;1e-6</Datum><Datum>6e-6;9;2e-6</Datum>"), "", "3: 1 2"},
		{"X3P, absolute y of a column", x3p(`<CX><AxisType>I</AxisType><Increment>1e-6</Increment></CX><CY><AxisType>A</AxisType></CY>`, column, "<Datum>1e-6;5e-6</Datum><Datum>5e-6;6e-6</Datum><Datum>9e-6;7e-6</Datum>"), `{"heights":"matrix","column":1}`, "4: 5 6 7"},
		{"X3P, all axes of a column", x3p(absolute+`<CY><AxisType>A</AxisType></CY>`, column, "<Datum>0;1e-6;5e-6</Datum><Datum>0;5e-6;6e-6</Datum><Datum>0;9e-6;7e-6</Datum>"), `{"heights":"matrix","column":1}`, "4: 5 6 7"},
		{"X3P, a point without numbers", x3p(absolute, matrix(3), "<Datum>0;1e-6</Datum><Datum></Datum><Datum>4e-6;3e-6</Datum>"), "", "0:0 nox"},
		{"X3P, too few numbers", x3p(absolute, matrix(2), "<Datum>0;1e-6</Datum><Datum>2e-6</Datum>"), "", "0:0 format"},
		{"X3P, too few points", x3p(absolute, matrix(3), "<Datum>0;1e-6</Datum><Datum>2e-6;2e-6</Datum>"), "", "tracefile: 3 points are announced and 2 stand in main.xml"},
		{"X3P, too many points", x3p(absolute, matrix(2), "<Datum>0;1e-6</Datum><Datum>2e-6;2e-6</Datum><Datum>4e-6;2e-6</Datum>"), "", "2: 1 2"},
		{"X3P, an axis of an unknown type", x3p(`<CX><AxisType>B</AxisType></CX>`, matrix(1), "<Datum>1e-6</Datum>"), "", "0:0 format"},
		{"X3P, numbers of an unknown type", x3p(`<CX><AxisType>A</AxisType><DataType>Q</DataType></CX>`, matrix(1), "<Datum>1e-6</Datum>"), "", "0:0 format"},
		{"X3P, x from its offset", x3p(`<CX><AxisType>A</AxisType><Offset>7e-6</Offset></CX>`, matrix(2), "<Datum>0;1e-6</Datum><Datum>2e-6;2e-6</Datum>"), "", "2: 1 2"},
		{"X3P, no number", x3p(absolute, matrix(1), "<Datum>0;x</Datum>"), "", "1:200 number"},
	} {
		got := outcome(c.text, c.hints)
		if strings.HasPrefix(c.want, "1:200") { // the column is that of main.xml
			got = got[strings.IndexByte(got, ' ')+1:]
			c.want = "number"
		}
		if got != c.want {
			t.Errorf("%s:\n got %s\nwant %s", c.name, got, c.want)
		}
	}
}

// Notes on what a container holds beside the profile that was read.
func TestX3PNotes(t *testing.T) {
	doc := func(more, size string) []byte {
		var b []byte
		for i := range 8 {
			b = binary.LittleEndian.AppendUint64(b, math.Float64bits(float64(i)*1e-6))
		}
		return pack(t, "main.xml", `<a><Record1><FeatureType>PRF</FeatureType><Axes><CX><AxisType>I</AxisType><Increment>1e-6</Increment></CX><CY><AxisType>I</AxisType></CY>`+
			`<CZ><AxisType>A</AxisType><DataType>D</DataType>`+more+`</Axes></Record1><Record3><MatrixDimension>`+size+
			`</MatrixDimension><DataLink><PointDataLink>data.bin</PointDataLink><MD5ChecksumPointData>00</MD5ChecksumPointData></DataLink></Record3></a>`, "data.bin", string(b))
	}
	for _, c := range []struct{ more, size, want string }{
		{"</CZ>", "<SizeX>4</SizeX><SizeY>1</SizeY><SizeZ>2</SizeZ>", "checksum layers checksum"},
		{"</CZ>", "<SizeX>4</SizeX><SizeY>1</SizeY><SizeZ>1</SizeZ>", "checksum size checksum"},
		{"<Increment>1e-6</Increment></CZ>", "<SizeX>8</SizeX><SizeY>1</SizeY><SizeZ>1</SizeZ>", "increment checksum checksum"},
		{"</CZ><Rotation><r11>0</r11></Rotation>", "<SizeX>8</SizeX><SizeY>1</SizeY><SizeZ>1</SizeZ>", "rotation checksum checksum"},
	} {
		trace, err := tracefile.Read(doc(c.more, c.size), nil)
		if err != nil {
			t.Errorf("%s: %v", c.more, err)
			continue
		}
		var got []string
		for _, n := range trace.Notes {
			got = append(got, n.Code)
		}
		if strings.Join(got, " ") != c.want {
			t.Errorf("%s %s: got %q, want %q", c.more, c.size, got, c.want)
		}
	}
}

// Characters beyond the first plane take two units of UTF-16, and a unit alone is no character.
func TestUTF16(t *testing.T) {
	for _, title := range []string{"rod 𝟕", "rod \xed\xa0\x80"} {
		units := append(utf16.Encode([]rune("\ufeff"+title+"\nx_µm;z_µm\n0;1\n1;2\n")), 0xd800)
		for _, order := range []binary.AppendByteOrder{binary.LittleEndian, binary.BigEndian} {
			var b []byte
			for _, u := range units[:len(units)-1] {
				b = order.AppendUint16(b, u)
			}
			if got, want := outcome(string(b), ""), "1: 1 2"; got != want {
				t.Errorf("%q: got %s, want %s", title, got, want)
			}
			sane(t, "half a character", order.AppendUint16(b, 0xd800), nil)
			sane(t, "an odd byte", append(b, '7'), nil)
		}
	}
}

func TestNotWritable(t *testing.T) {
	for name, p := range map[string]roughness.Profile{
		"no points":  {Spacing: 1},
		"no spacing": {Z: []float64{1}},
		"infinite":   {Z: []float64{math.Inf(1)}, Spacing: 1},
	} {
		trace := &tracefile.Trace{Profile: p}
		var b bytes.Buffer
		for _, err := range []error{tracefile.WriteText(&b, trace), tracefile.WriteSMD(&b, trace), tracefile.WriteSDFText(&b, trace), tracefile.WriteSDFBinary(&b, trace),
			tracefile.WriteX3P(&b, trace)} {
			if !errors.Is(err, tracefile.ErrWrite) {
				t.Errorf("%s: %v", name, err)
			}
		}
		if b.Len() > 0 {
			t.Errorf("%s: %d bytes were written", name, b.Len())
		}
	}
	long := &tracefile.Trace{Profile: roughness.Profile{Z: make([]float64, 65536), Spacing: 1}}
	if err := tracefile.WriteSDFBinary(&bytes.Buffer{}, long); !errors.Is(err, tracefile.ErrWrite) {
		t.Errorf("65536 points in binary SDF: %v", err)
	}
}
