package tracefile

import (
	"archive/zip"
	"encoding/binary"
	"encoding/xml"
	"fmt"
	"io"
	"math"
	"regexp"
	"strings"

	"example.com/furrow/roughness/internal/checksum"
)

// WriteX3P writes a trace as an ISO 25178-72 container with binary 64-bit heights, valid under both editions of the schema (2007 and
// 2020): every element that one of them requires is there, in order. Invalid points are NaN and 0 in bindata/valid.bin.
//
// The format counts in metres. A trace that was read from such a file keeps every bit; one in µm keeps it where a number of metres
// exists that reads as the same number of micrometres, and else comes back as its neighbour.
func WriteX3P(w io.Writer, t *Trace) error {
	if err := writable(t); err != nil {
		return err
	}
	z := t.Profile.Z
	points := make([]byte, 0, 8*len(z))
	valid := make([]byte, (len(z)+7)/8)
	for i := range valid {
		valid[i] = 0xff
	}
	all := true
	for i, v := range z {
		points = binary.LittleEndian.AppendUint64(points, math.Float64bits(t.metres(i)))
		if math.IsNaN(v) {
			valid[i/8] &^= 1 << (i % 8)
			all = false
		}
	}
	var b strings.Builder
	b.WriteString("<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n<p:ISO5436_2 xmlns:p=\"http://www.opengps.eu/2008/ISO5436_2\">\n")
	b.WriteString("<Record1><Revision>ISO5436 - 2000</Revision><FeatureType>PRF</FeatureType><Axes>\n")
	for _, a := range []struct {
		name, kind        string
		increment, offset float64
	}{{"CX", "I", shift10(t.Profile.Spacing, -6), shift10(t.Origin, -6)}, {"CY", "I", 1, 0}, {"CZ", "A", 1, 0}} {
		fmt.Fprintf(&b, "<%s><AxisType>%s</AxisType><DataType>D</DataType><Increment>%s</Increment><Offset>%s</Offset></%s>\n",
			a.name, a.kind, shortest(a.increment), shortest(a.offset), a.name)
	}
	b.WriteString("</Axes></Record1>\n")
	t.record2(&b)
	fmt.Fprintf(&b, "<Record3><MatrixDimension><SizeX>%d</SizeX><SizeY>1</SizeY><SizeZ>1</SizeZ></MatrixDimension>\n<DataLink>", len(z))
	fmt.Fprintf(&b, "<PointDataLink>bindata/data.bin</PointDataLink><MD5ChecksumPointData>%x</MD5ChecksumPointData>", checksum.Of(checksum.MD5(), points))
	if !all {
		fmt.Fprintf(&b, "<ValidPointsLink>bindata/valid.bin</ValidPointsLink><MD5ChecksumValidPoints>%x</MD5ChecksumValidPoints>", checksum.Of(checksum.MD5(), valid))
	}
	b.WriteString("</DataLink></Record3>\n<Record4><ChecksumFile>md5checksum.hex</ChecksumFile></Record4>\n")
	if v := t.field("VendorSpecificID"); v != "" {
		element(&b, "VendorSpecificID", v)
	}
	b.WriteString("</p:ISO5436_2>\n")

	main := []byte(b.String())
	out := zip.NewWriter(w)
	members := []struct {
		name string
		data []byte
	}{{"main.xml", main}, {"md5checksum.hex", fmt.Appendf(nil, "%x *main.xml\n", checksum.Of(checksum.MD5(), main))}, {"bindata/data.bin", points}}
	if !all {
		members = append(members, struct {
			name string
			data []byte
		}{"bindata/valid.bin", valid})
	}
	for _, m := range members {
		f, err := out.Create(m.name)
		if err != nil {
			return err
		}
		if _, err := f.Write(m.data); err != nil {
			return err
		}
	}
	return out.Close()
}

// metres is the height of point i as the file stores it.
func (t *Trace) metres(i int) float64 {
	v := t.Profile.Z[i]
	same := func(m float64) bool { return math.Float64bits(m*1e6) == math.Float64bits(v) }
	if len(t.stored) == len(t.Profile.Z) && (same(t.stored[i]) || v != v) {
		return t.stored[i]
	}
	m := v / 1e6
	for _, try := range []float64{m, math.Nextafter(m, math.Inf(1)), math.Nextafter(m, math.Inf(-1))} {
		if same(try) {
			return try
		}
	}
	return m
}

func element(b *strings.Builder, name, text string) {
	fmt.Fprintf(b, "<%s>", name)
	xml.EscapeText(b, []byte(text))
	fmt.Fprintf(b, "</%s>", name)
}

var dateTime = regexp.MustCompile(`^-?\d{4,}-\d\d-\d\dT\d\d:\d\d:\d\d(\.\d+)?(Z|[+-]\d\d:\d\d)?$`)

// record2 writes what is known about the measurement. What the schema requires and the file does not give is "unknown"; an unknown date
// is the start of 1970.
func (t *Trace) record2(b *strings.Builder) {
	text := func(key, otherwise string) string {
		if v := t.field("Record2/" + key); v != "" {
			return v
		}
		return otherwise
	}
	date := func(key string) string {
		if v := text(key, ""); dateTime.MatchString(v) {
			return v
		}
		return "1970-01-01T00:00:00Z"
	}
	b.WriteString("<Record2>")
	element(b, "Date", date("Date"))
	element(b, "Creator", text("Creator", "furrow"))
	b.WriteString("<Instrument>")
	for _, k := range []string{"Manufacturer", "Model", "Serial", "Version"} {
		element(b, k, text("Instrument/"+k, "unknown"))
	}
	b.WriteString("</Instrument>")
	element(b, "CalibrationDate", date("CalibrationDate"))
	kind := text("ProbingSystem/Type", "Software")
	if kind != "Contacting" && kind != "NonContacting" {
		kind = "Software"
	}
	b.WriteString("<ProbingSystem>")
	element(b, "Type", kind)
	element(b, "Identification", text("ProbingSystem/Identification", "unknown"))
	b.WriteString("</ProbingSystem>")
	comment := text("Comment", "")
	for _, f := range t.Fields {
		if !strings.HasPrefix(f.Key, "Record2/") && f.Key != "VendorSpecificID" {
			comment = strings.TrimSpace(comment + "\n" + f.Key + " = " + f.Value)
		}
	}
	if comment != "" {
		element(b, "Comment", comment)
	}
	b.WriteString("</Record2>\n")
}
