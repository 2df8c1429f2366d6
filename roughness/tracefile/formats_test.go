package tracefile_test

import (
	"archive/zip"
	"bytes"
	"encoding/binary"
	"errors"
	"fmt"
	"io"
	"math"
	"strings"
	"testing"

	"example.com/furrow/roughness"
	"example.com/furrow/roughness/tracefile"
)

// The rebuilt files hold z = sin(2πx/100) + ½cos(2πx/50) + 0.2 sin(2πx/2000) µm at 8001 points, 0.5 µm apart; SMD and SDF text print ten
// digits. One point of two of them is invalid.
func TestRebuilt(t *testing.T) {
	for _, c := range []struct {
		file    string
		points  int
		within  float64
		invalid int
		date    string
	}{
		{"profile.smd", 8001, 6e-10, -1, "2004-11-25"},
		{"profile-ascii.sdf", 8001, 6e-10, 100, "2004-11-25T10:57"},
		{"profile-float64.sdf", 8001, 1e-14, -1, "2004-11-25T10:57"},
		{"profile-float64.x3p", 8001, 1e-14, -1, "2004-11-25T10:57:00Z"},
		{"profile-inline.x3p", 201, 6e-10, 100, "2004-11-25T10:57:00Z"},
	} {
		t.Run(c.file, func(t *testing.T) {
			trace, err := tracefile.Read(sharedFile(t, "rebuilt/"+c.file), nil)
			if err != nil {
				t.Fatal(err)
			}
			p := trace.Profile
			if len(p.Z) != c.points || p.Spacing != 0.5 || trace.Report.Points != c.points {
				t.Fatalf("%d points at %v", len(p.Z), p.Spacing)
			}
			for i, z := range p.Z {
				switch want := height(float64(i) * 0.5); {
				case i == c.invalid:
					if !math.IsNaN(z) {
						t.Errorf("point %d: %v", i, z)
					}
				case !(math.Abs(z-want) <= c.within):
					t.Fatalf("point %d: %v, want %v", i, z, want)
				}
			}
			for _, n := range trace.Notes {
				t.Errorf("note %v", n)
			}
			if got := p.Traced.Date; got != c.date {
				t.Errorf("date %q, want %q", got, c.date)
			}
			t.Logf("\n%s%v", trace.Report, trace.Fields)
		})
	}
}

// A small open areal file, 5 by 5 points, a pyramid of 2, 6 and 10 (metres, by its own word).
func TestPyramid(t *testing.T) {
	data := sharedFile(t, "x3p/pyramid.x3p")
	_, err := tracefile.Read(data, nil)
	if q := tracefile.IsQuestion(err); len(q) != 1 || q[0].Hint != "row" {
		t.Errorf("no question about the row: %v", err)
	}
	for _, h := range []tracefile.Hints{{Row: 3}, {Column: 3}} {
		trace, err := tracefile.Read(data, &h)
		if err != nil {
			t.Fatal(err)
		}
		if got, want := show(trace), "1e+06: 2e+06 6e+06 1e+07 6e+06 2e+06"; got != want {
			t.Errorf("%+v: got %s, want %s", h, got, want)
		}
		t.Log(trace.Notes)
	}
	for _, h := range []tracefile.Hints{{Row: 6}, {Column: 6}} {
		if _, err := tracefile.Read(data, &h); !errors.Is(err, tracefile.ErrHint) {
			t.Errorf("%+v: %v", h, err)
		}
	}
}

// awkward are heights whose last bits a decimal or a product could lose.
func awkward(n int) []float64 {
	z := make([]float64, n)
	for i := range z {
		z[i] = math.Sin(float64(i)*1.1) * math.Pow(10, float64(i%9-4))
	}
	copy(z, []float64{0, math.Copysign(0, -1), math.SmallestNonzeroFloat64, 1.9999999999999998, -1.0 / 3, 1e-9, 123456.789})
	return z
}

func same(t *testing.T, got, want []float64) {
	t.Helper()
	if len(got) != len(want) {
		t.Fatalf("%d points, want %d", len(got), len(want))
	}
	for i := range want {
		if math.Float64bits(got[i]) != math.Float64bits(want[i]) && !(got[i] != got[i] && want[i] != want[i]) {
			t.Fatalf("point %d: %v, want %v", i, got[i], want[i])
		}
	}
}

// What furrow writes it reads again, to the last bit.
func TestRoundTrips(t *testing.T) {
	for _, spacing := range []float64{0.5, 0.1, 0.29064, 1.0 / 3} {
		for _, gaps := range []bool{false, true} {
			z := awkward(1000)
			if gaps {
				z[7], z[999] = math.NaN(), math.NaN()
			}
			trace := &tracefile.Trace{Profile: roughness.Profile{Z: z, Spacing: spacing, Name: "rod 7"},
				Fields: []tracefile.Field{{Key: "COMMENT", Value: "after grinding"}}}
			for name, write := range map[string]func(io.Writer, *tracefile.Trace) error{"text": tracefile.WriteText, "SMD": tracefile.WriteSMD,
				"SDF text": tracefile.WriteSDFText, "SDF binary": tracefile.WriteSDFBinary} {
				var b bytes.Buffer
				err := write(&b, trace)
				if name == "SMD" && gaps {
					if !errors.Is(err, tracefile.ErrWrite) {
						t.Errorf("SMD with a gap: %v", err)
					}
					continue
				}
				if err != nil {
					t.Fatal(name, err)
				}
				got, err := tracefile.Read(b.Bytes(), nil)
				if err != nil {
					t.Fatalf("%s: %v", name, err)
				}
				same(t, got.Profile.Z, z)
				if got.Profile.Spacing != spacing {
					t.Errorf("%s: spacing %v, want %v", name, got.Profile.Spacing, spacing)
				}
				if len(got.Notes) > 0 {
					t.Errorf("%s: %v", name, got.Notes)
				}
				if name != "text" && fmt.Sprint(got.Fields) == "[]" {
					t.Errorf("%s lost a field", name)
				}
			}
		}
	}
}

// X3P counts in metres: a file read and written again keeps every bit, and a trace in µm comes back within one unit in the last place.
func TestX3PRoundTrip(t *testing.T) {
	z := awkward(3000)
	z[5] = math.NaN()
	trace := &tracefile.Trace{Profile: roughness.Profile{Z: z, Spacing: 0.5}, Origin: 20, Fields: []tracefile.Field{
		{Key: "Record2/Creator", Value: "bench <2>"}, {Key: "VendorSpecificID", Value: "http://example.com/7"}}}
	var first, second bytes.Buffer
	if err := tracefile.WriteX3P(&first, trace); err != nil {
		t.Fatal(err)
	}
	got, err := tracefile.Read(first.Bytes(), nil)
	if err != nil {
		t.Fatal(err)
	}
	if got.Profile.Spacing != 0.5 || got.Origin != 20 || len(got.Notes) > 0 || got.Report.Invalid != 1 {
		t.Errorf("%v %v %v", got.Profile.Spacing, got.Origin, got.Notes)
	}
	off := 0
	for i, v := range z {
		g := got.Profile.Z[i]
		switch {
		case v != v && g != g || g == v:
		case g == math.Nextafter(v, math.Inf(1)) || g == math.Nextafter(v, math.Inf(-1)) || math.Abs(v) < 1e-300:
			off++
		default:
			t.Fatalf("point %d: %v, want %v", i, g, v)
		}
	}
	if off > len(z)/20 {
		t.Errorf("%d of %d heights are off in the last bit", off, len(z))
	}
	t.Logf("%d of %d heights are off in the last bit", off, len(z))
	if err := tracefile.WriteX3P(&second, got); err != nil {
		t.Fatal(err)
	}
	if !bytes.Equal(first.Bytes(), second.Bytes()) {
		t.Error("reading and writing again changed the file")
	}
}

// binarySDF builds a file with any data type, after the published field sizes.
func binarySDF(kind byte, points, profiles uint16, zScale float64, body []byte) []byte {
	b := []byte("bISO-1.0" + "bench     " + "210520051200" + "210520051200")
	b = binary.LittleEndian.AppendUint16(b, points)
	b = binary.LittleEndian.AppendUint16(b, profiles)
	for _, v := range []float64{1e-6, 2e-6, zScale, -1} {
		b = binary.LittleEndian.AppendUint64(b, math.Float64bits(v))
	}
	b = append(b, 0, kind, 0)
	return append(b, body...)
}

func TestSDFTypes(t *testing.T) {
	for _, c := range []struct {
		kind byte
		body []byte
		want string
	}{
		{0, []byte{1, 2, 255}, "1: 1 2 255"},
		{1, []byte{1, 0, 2, 0, 255, 255}, "1: 1 2 65535"},
		{2, []byte{1, 0, 0, 0, 2, 0, 0, 0, 0, 0, 1, 0}, "1: 1 2 65536"},
		{3, []byte{0, 0, 0x80, 0x3f, 0, 0, 0xc0, 0x7f, 0, 0, 0, 0x40}, "1: 1 - 2"},
		{4, []byte{1, 2, 255}, "1: 1 2 -1"},
		{5, []byte{1, 0, 0, 0x80, 255, 255}, "1: 1 - -1"},
		{'5', []byte{1, 0, 0, 0x80, 255, 255}, "1: 1 - -1"},
		{6, []byte{1, 0, 0, 0, 0, 0, 0, 0x80, 255, 255, 255, 255}, "1: 1 - -1"},
		{7, binary.LittleEndian.AppendUint64(binary.LittleEndian.AppendUint64(binary.LittleEndian.AppendUint64(nil,
			math.Float64bits(0.1)), math.Float64bits(math.NaN())), math.Float64bits(-3)), "1: 0.1 - -3"},
	} {
		trace, err := tracefile.Read(binarySDF(c.kind, 3, 1, 1e-6, c.body), nil)
		if err != nil {
			t.Errorf("type %d: %v", c.kind, err)
			continue
		}
		if got := show(trace); got != c.want {
			t.Errorf("type %d: got %s, want %s", c.kind, got, c.want)
		}
	}
	area := []byte{1, 2, 3, 4, 5, 6}
	row, err := tracefile.Read(binarySDF(0, 3, 2, 1e-6, area), &tracefile.Hints{Row: 2})
	if err != nil || show(row) != "1: 4 5 6" {
		t.Errorf("row: %v", err)
	}
	column, err := tracefile.Read(binarySDF(0, 3, 2, 1e-6, area), &tracefile.Hints{Column: 2})
	if err != nil || show(column) != "2: 2 5" {
		t.Errorf("column: %v", err)
	}
	if _, err := tracefile.Read(binarySDF(0, 3, 2, 1e-6, area), nil); !errors.Is(err, tracefile.ErrOpen) {
		t.Errorf("an area without a hint: %v", err)
	}
}

// An example that a national laboratory publishes: 8000 points, Xscale 0.5e-6, Zscale 1.0e-10, type 5, values round(10000 sin(2πi/800)),
// first 0 79 157 236 314 393 471; the value of ModDate stands in the line below its key.
func TestSDFPublishedExample(t *testing.T) {
	var b strings.Builder
	b.WriteString("aBC-1.0\nManuFacID = bench\nCreateDate = 031019971457\nModDate =\n031019971457\nNumPoints = 8000\nNumProfiles = 1\n" +
		"Xscale = 0.5e-6\nYscale = 0\nZscale = 1.0e-10\nZresolution = 0\nCompression = 0\nDataType = 5\nCheckType = 0\n*\n")
	for i := range 8000 {
		fmt.Fprintf(&b, "%d\n", int(math.Round(10000*math.Sin(2*math.Pi*float64(i)/800))))
	}
	b.WriteString("*\n*\n")
	trace, err := tracefile.Read([]byte(b.String()), nil)
	if err != nil {
		t.Fatal(err)
	}
	want := []float64{0, 0.0079, 0.0157, 0.0236, 0.0314, 0.0393, 0.0471}
	same(t, trace.Profile.Z[:7], want)
	if len(trace.Profile.Z) != 8000 || trace.Profile.Spacing != 0.5 {
		t.Errorf("%d points at %v", len(trace.Profile.Z), trace.Profile.Spacing)
	}
}

// The header of the dataset that a national laboratory prints: 22401 points of 0.25 µm are 5.6 mm.
const smdHead = "ISO 5436 - 2000 ground01meas\r\nPRF 1 ISO5436\r\nCX I %s mm 1.0e0 D 2.5e-4\r\nCZ A %s um 1.0e0 D\r\n"

func TestSMDVariants(t *testing.T) {
	head := func(n string) string { return fmt.Sprintf(smdHead, n, n) }
	const fields = "DATE 25-Nov-2004\r\nTIME 10:57\r\nPARAMETER_VALUE Ra 0 mm 0\r\n"
	for _, c := range []struct{ name, text, want, note string }{
		{"etx", head("3") + "\x03\r\n" + fields + "\x03\r\n1\r\n2\r\n3\r\n\x03\r\n", "0.25: 1 2 3", ""},
		{"empty lines end records", head("3") + "\r\n" + fields + "\r\n1\r\n2\r\n3\r\n\r\n", "0.25: 1 2 3", ""},
		{"no record 2", head("3") + "\x03\r\n1\r\n2\r\n3\r\n\x03\r\n", "0.25: 1 2 3", ""},
		{"no end at all", head("3") + "\x03\r\n" + fields + "\x03\r\n1\r\n2\r\n3", "0.25: 1 2 3", ""},
		{"capitals, float count", strings.ToUpper(head("3.000000e+000")) + "\x03\r\n\x03\r\n1\r\n2\r\n3\r\n\x03\r\n", "0.25: 1 2 3", ""},
		{"several in a line", head("3") + "\x03\r\n\x03\r\n1 2 3\r\n\x03\r\n", "0.25: 1 2 3", ""},
		{"absolute x, blocks", "ISO 5436 - 2000 a\nPRF 1 ISO5436\nCX A 3 mm 1.0e0 D\nCZ A 3 um 1.0e0 D\n\x03\n\x03\n0\n0.001\n0.002\n1\n2\n3\n\x03\n", "1: 1 2 3", ""},
		{"absolute x, pairs", "ISO 5436 - 2000 a\nPRF 1 ISO5436\nCX A 3 mm 1.0e0 D\nCZ A 3 um 1.0e0 D\n\x03\n\x03\n0 1\n0.001 2\n0.002 3\n\x03\n", "1: 1 2 3", ""},
		{"scale factor", "ISO 5436 - 2000 a\nPRF 1 ISO5436\nCX I 2 mm 1.0e0 D 1e-3\nCZ A 2 nm 1.0e2 I\n\x03\n\x03\n10\n20\n\x03\n", "1: 1 2", ""},
		{"wrong checksum", head("3") + "\x03\r\n\x03\r\n1\r\n2\r\n3\r\n\x03\r\n77\r\n\x03\r\n", "0.25: 1 2 3", "checksum"},
		{"a point too few", head("4") + "\x03\r\n\x03\r\n1\r\n2\r\n3\r\n\x03\r\n", "0.25: 1 2 3", "count-differs"},
		{"a point too many", head("2") + "\x03\r\n\x03\r\n1\r\n2\r\n3\r\n\x03\r\n", "0.25: 1 2", "count-differs"},
	} {
		trace, err := tracefile.Read([]byte(c.text), nil)
		if err != nil {
			t.Errorf("%s: %v", c.name, err)
			continue
		}
		if got := show(trace); got != c.want {
			t.Errorf("%s: got %s, want %s", c.name, got, c.want)
		}
		got := ""
		for _, n := range trace.Notes {
			got += n.Code
		}
		if got != c.note {
			t.Errorf("%s: notes %v, want %q", c.name, trace.Notes, c.note)
		}
	}
	for name, want := range map[string]string{
		head("3") + "\x03\r\n\x03\r\n1\r\nx\r\n3\r\n\x03\r\n": "8:1",
		head("3") + "\x03\r\n\x03\r\n1\r\n2\r\n":              "9:1",
		strings.Replace(head("3"), "PRF", "SUR", 1):           "2:1",
		strings.Replace(head("3"), "mm", "mile", 1):           "3:8",
		strings.Replace(head("3"), "CX I 3", "CX I 9e99", 1):  "3:1",
	} {
		var e *tracefile.Error
		if _, err := tracefile.Read([]byte(name), nil); !errors.As(err, &e) || fmt.Sprintf("%d:%d", e.Line, e.Column) != want {
			t.Errorf("%q: %v, want the place %s", name, err, want)
		}
	}
}

// pack makes a ZIP archive.
func pack(t testing.TB, members ...string) []byte {
	t.Helper()
	var b bytes.Buffer
	w := zip.NewWriter(&b)
	for i := 0; i < len(members); i += 2 {
		f, err := w.Create(members[i])
		if err == nil {
			_, err = f.Write([]byte(members[i+1]))
		}
		if err != nil {
			t.Fatal(err)
		}
	}
	if err := w.Close(); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

// The mask of a reference container: 16 points of which only point 7 is missing are the bytes 7F FF.
func TestX3PVariants(t *testing.T) {
	doc := func(axes, data string) string {
		return `<p:ISO5436_2 xmlns:p="http://www.opengps.eu/2008/ISO5436_2"><Record1><Revision>ISO5436 - 2000</Revision><FeatureType>PRF</FeatureType><Axes>` +
			axes + `</Axes></Record1><Record3>` + data + `</Record3></p:ISO5436_2>`
	}
	const even = `<CX><AxisType>I</AxisType><Increment>1E-6</Increment></CX><CY><AxisType>I</AxisType></CY>`
	var ints []byte
	for i := range 16 {
		ints = binary.LittleEndian.AppendUint16(ints, uint16(i))
	}
	link := `<MatrixDimension><SizeX>16</SizeX><SizeY>1</SizeY><SizeZ>1</SizeZ></MatrixDimension><DataLink><PointDataLink>bindata/data.bin</PointDataLink>` +
		`<ValidPointsLink>bindata/valid.bin</ValidPointsLink></DataLink>`
	for _, c := range []struct {
		name string
		data []byte
		want string
	}{
		{"int16, offset and increment, mask", pack(t, "main.xml", doc(even+`<CZ><AxisType>A</AxisType><DataType>I</DataType><Increment>1E-6</Increment><Offset>1E-6</Offset></CZ>`, link),
			"bindata/data.bin", string(ints), "bindata/valid.bin", "\x7f\xff"), "1: 1 2 3 4 5 6 7 - 9 10 11 12 13 14 15 16"},
		{"in a folder, beside what an operating system leaves", pack(t, "__MACOSX/main.xml", "x", "rod/.DS_Store", "x", "rod/main.xml",
			doc(even+`<CZ><AxisType>A</AxisType><DataType>I</DataType><Increment>1E-6</Increment></CZ>`, link),
			"rod/bindata/data.bin", string(ints), "rod/bindata/valid.bin", "\xff\xff"), "1: 0 1 2 3 4 5 6 7 8 9 10 11 12 13 14 15"},
		{"inline, one missing", pack(t, "main.xml", doc(even+`<CZ><AxisType>A</AxisType></CZ>`,
			`<MatrixDimension><SizeX>3</SizeX><SizeY>1</SizeY><SizeZ>1</SizeZ></MatrixDimension><DataList><Datum>1e-6</Datum><Datum/><Datum>3e-6</Datum></DataList>`)), "1: 1 - 3"},
		{"inline, all three", pack(t, "main.xml", doc(even+`<CZ><AxisType>A</AxisType></CZ>`,
			`<MatrixDimension><SizeX>2</SizeX><SizeY>1</SizeY><SizeZ>1</SizeZ></MatrixDimension><DataList><Datum>0;0;1e-6</Datum><Datum>1e-6;0;3e-6</Datum></DataList>`)), "1: 1 3"},
		{"inline, with an offset", pack(t, "main.xml", doc(even+`<CZ><AxisType>A</AxisType><Offset>2e-6</Offset></CZ>`,
			`<MatrixDimension><SizeX>3</SizeX><SizeY>1</SizeY><SizeZ>1</SizeZ></MatrixDimension><DataList><Datum>1e-6</Datum><Datum/><Datum>3e-6</Datum></DataList>`)), "1: 3 - 5"},
		{"falling x", pack(t, "main.xml", doc(strings.Replace(even, "1E-6", "-1E-6", 1)+`<CZ><AxisType>A</AxisType></CZ>`,
			`<MatrixDimension><SizeX>3</SizeX><SizeY>1</SizeY><SizeZ>1</SizeZ></MatrixDimension><DataList><Datum>1e-6</Datum><Datum/><Datum>3e-6</Datum></DataList>`)), "1: 3 - 1"},
		{"absolute x", pack(t, "main.xml", doc(`<CX><AxisType>A</AxisType></CX><CY><AxisType>I</AxisType></CY><CZ><AxisType>A</AxisType></CZ>`,
			`<MatrixDimension><SizeX>3</SizeX><SizeY>1</SizeY><SizeZ>1</SizeZ></MatrixDimension><DataList><Datum>0;1e-6</Datum><Datum>2e-6;2e-6</Datum><Datum>4e-6;3e-6</Datum></DataList>`)), "2: 1 2 3"},
		{"no namespace", pack(t, "main.xml", strings.NewReplacer("p:ISO5436_2", "ISO5436", "xmlns:p", "about").Replace(doc(even+`<CZ><AxisType>A</AxisType><Offset/></CZ>`,
			`<MatrixDimension><SizeX>1</SizeX><SizeY>1</SizeY><SizeZ>1</SizeZ></MatrixDimension><DataList><Datum>1e-6</Datum></DataList>`))), "1: 1"},
	} {
		trace, err := tracefile.Read(c.data, nil)
		if err != nil {
			t.Errorf("%s: %v", c.name, err)
			continue
		}
		if got := show(trace); got != c.want {
			t.Errorf("%s: got %s, want %s", c.name, got, c.want)
		}
		var b bytes.Buffer
		if err := tracefile.WriteX3P(&b, trace); err != nil {
			t.Fatal(err)
		}
		if again, err := tracefile.Read(b.Bytes(), nil); err != nil || show(again) != c.want {
			t.Errorf("%s, written again: %v, want %s", c.name, err, c.want)
		}
	}
}
