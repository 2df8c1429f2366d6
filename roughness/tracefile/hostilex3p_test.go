package tracefile_test

import (
	"archive/zip"
	"bytes"
	"encoding/binary"
	"errors"
	"fmt"
	"hash/crc32"
	"math"
	"math/rand/v2"
	"os"
	"path/filepath"
	"runtime"
	"strings"
	"testing"

	"example.com/furrow/roughness/tracefile"
)

// hostileX3P are containers made to take more memory, time or words than they are worth.
func hostileX3P(t testing.TB) []hostile {
	t.Helper()
	const head = `<p:ISO5436_2 xmlns:p="http://www.opengps.eu/2008/ISO5436_2"><Record1><FeatureType>PRF</FeatureType><Axes><CX><AxisType>I</AxisType><Increment>1e-6</Increment></CX>` +
		`<CY><AxisType>I</AxisType></CY><CZ><AxisType>A</AxisType><DataType>%s</DataType></CZ></Axes></Record1>`
	doc := func(kind, record2, size, data string) string {
		return fmt.Sprintf(head, kind) + `<Record2>` + record2 + `</Record2><Record3><MatrixDimension><SizeX>` + size + `</SizeX><SizeY>1</SizeY><SizeZ>1</SizeZ></MatrixDimension>` +
			data + `</Record3></p:ISO5436_2>`
	}
	const one = `<DataList><Datum>1e-6</Datum></DataList>`
	const link = `<DataLink><PointDataLink>data.bin</PointDataLink></DataLink>`
	rep := strings.Repeat
	// What does not pack, so that the whole stays below any ratio: a remark of random letters.
	noise := func(n int) string {
		r := rand.New(rand.NewPCG(7, 11))
		b := make([]byte, n)
		for i := range b {
			b[i] = "abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789+/"[r.IntN(64)]
		}
		return string(b)
	}
	remark := "<!--" + noise(600_000) + "-->"
	remarks := rep(remark, 2)
	long := rep("n", 200)
	deep := rep("<"+long+">", 25) + rep("<a>x</a>", 9000) + rep("</"+long+">", 25)
	main := func(text string) []byte { return pack(t, "main.xml", text) }
	return []hostile{
		{"8 million empty elements and a remark that does not pack", main(doc("D", remark+rep("<a/>", 8_000_000), "1", one)), tracefile.ErrLimit},
		{"the same element 400 000 times, with a text", main(doc("D", remark+rep("<a>b</a>", 400_000), "1", one)), tracefile.ErrLimit},
		{"1.2 million cells, empty", main(doc("D", remarks, "1200000", "<DataList>"+rep("<Datum/>", 1_200_000)+"</DataList>")), nil},
		{"half a million cells of three numbers", main(doc("D", remarks, "500000", "<DataList>"+rep("<Datum>1;1;1</Datum>", 500_000)+"</DataList>")), nil},
		{"a million cells where one is announced", main(doc("D", remarks, "1", "<DataList>"+rep("<Datum/>", 1_000_000)+"</DataList>")), nil},
		{"1.1 million cells before their number", main(strings.Replace(doc("D", remarks, "1", ""), "<Record3>", "<Record3><DataList>"+rep("<Datum/>", 1_100_000)+"</DataList>", 1)), tracefile.ErrLimit},
		{"a million numbers in one cell", main(doc("D", "", "1", "<DataList><Datum>"+rep("1;", 500_000)+"1</Datum></DataList>")), tracefile.ErrLimit},
		{"a thousand numbers in one cell", main(doc("D", "", "1", "<DataList><Datum>"+rep("1;", 1000)+"1</Datum></DataList>")), tracefile.ErrFormat},
		{"a cell of many pieces", main(doc("D", "", "1", "<DataList><Datum>"+rep("1<!-- -->", 1_000_000)+"</Datum></DataList>")), tracefile.ErrLimit},
		{"a text of 3 MB in pieces", main(doc("D", "<a>"+rep(noise(1000)+"<!-- -->", 3000)+"</a>", "1", one)), tracefile.ErrLimit},
		{"a remark of 3 MB", main(doc("D", "<!--"+noise(3<<20)+"-->", "1", one)), tracefile.ErrLimit},
		{"a million attributes", main(doc("D", "<a"+rep(" b=\"\"", 1_000_000)+"/>", "1", one)), tracefile.ErrLimit},
		{"an attribute of 3 MB", main(doc("D", "<a b=\""+rep("c", 3<<20)+"\"/>", "1", one)), tracefile.ErrLimit},
		{"an end tag of 1 MB", main("<a></" + rep("b", 1<<20) + ">"), tracefile.ErrLimit},
		{"an end tag of half a MB", main("<a></" + rep("b", 1<<19) + ">"), tracefile.ErrFormat},
		{"a start tag of half a MB", main("<" + rep("b", 1<<19) + "/>"), tracefile.ErrLimit},
		{"an entity of half a MB", main("<a>&" + rep("b", 1<<19) + ";</a>"), tracefile.ErrFormat},
		{"an encoding of half a MB", main(`<?xml version="1.0" encoding="` + rep("b", 1<<19) + `"?><a/>`), tracefile.ErrFormat},
		{"a feature type of half a MB", main(strings.Replace(doc("D", "", "1", one), "PRF", rep("b", 1<<19), 1)), tracefile.ErrFormat},
		{"a data type of half a MB", main(doc(rep("I", 1<<19), "", "1", one)), tracefile.ErrFormat},
		{"a size of half a MB", main(doc("D", "", rep("1", 1<<19), one)), tracefile.ErrFormat},
		{"a link of half a MB", main(doc("D", "", "1", "<DataLink><PointDataLink>"+rep("b", 1<<19)+"</PointDataLink></DataLink>")), tracefile.ErrFormat},
		{"a number of 4000 digits", main(doc("D", "", "1", "<DataList><Datum>"+rep("9", 4000)+"</Datum></DataList>")), tracefile.ErrNumber},
		{"a member with a name of 60 kB", pack(t, rep("b", 60_000), "", rep("b", 60_000), "", "main.xml", "<a/>"), tracefile.ErrFormat},
		{"points with a name of 60 kB that do not unpack", broken(t, doc("D", "", "1", strings.Replace(link, "data.bin", rep("b", 60_000), 1)), rep("b", 60_000)), nil},
		{"9000 elements below names of 5 kB", main(doc("D", deep, "1", one)), tracefile.ErrLimit},
		{"main.xml of 24 MB in Latin-1", main(`<?xml version="1.0" encoding="latin1"?>` + doc("D", rep("<!--\xe9-->", 3_000_000), "1", one)), tracefile.ErrLimit},
		{"32 MB of points that pack a thousand times", pack(t, "main.xml", doc("I", "", "16000000", link), "data.bin", rep("\x00", 32_000_000)), tracefile.ErrLimit},
		{"a bomb whose packed size is said to be large", lying(t, doc("I", "", "16000000", link), rep("\x00", 32_000_000)), tracefile.ErrLimit},
		{"a mask of 100 MB", pack(t, "main.xml", strings.Replace(doc("I", "", "1000000", `<DataLink><PointDataLink>data.bin</PointDataLink><ValidPointsLink>valid.bin</ValidPointsLink></DataLink>`), "<SizeY>1<", "<SizeY>100<", 1),
			"data.bin", rep("\x00", 1000), "valid.bin", rep("\xff", 100<<20)), tracefile.ErrTruncated},
		{"layers beyond all counting", main(strings.Replace(doc("D", "", "100000000", one), "<SizeZ>1<", "<SizeZ>134217728<", 1)), tracefile.ErrLimit},
	}
}

type hostile struct {
	name string
	data []byte
	want error // nil: it may be read or refused
}

// lying says in the directory of the archive that its points are packed to 1 TB.
func lying(t testing.TB, main, points string) []byte {
	t.Helper()
	data := pack(t, "main.xml", main, "data.bin", points)
	at := bytes.LastIndex(data, []byte("PK\x01\x02")) // the entry of data.bin
	binary.LittleEndian.PutUint32(data[at+20:], 0xfffffff0)
	return data
}

// broken holds points whose checksum is wrong.
func broken(t testing.TB, main, name string) []byte {
	t.Helper()
	var b bytes.Buffer
	z := zip.NewWriter(&b)
	w, err := z.Create("main.xml")
	if err == nil {
		_, err = w.Write([]byte(main))
	}
	if err == nil {
		w, err = z.CreateRaw(&zip.FileHeader{Name: name, CRC32: crc32.ChecksumIEEE([]byte("x")), CompressedSize64: 8, UncompressedSize64: 8})
	}
	if err == nil {
		_, err = w.Write(make([]byte, 8))
	}
	if err == nil {
		err = z.Close()
	}
	if err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

// A hostile container is refused, or read, with words of bounded length and for bounded memory: all that is ever allocated, which
// no peak can exceed, stays below 400 MB. Its files are written for a look from outside where the environment names a folder.
func TestHostileX3P(t *testing.T) {
	if testing.Short() {
		return // it takes long under the race detector, and nothing in it is done at the same time
	}
	for _, c := range hostileX3P(t) {
		if dir := os.Getenv("FURROW_HOSTILE"); dir != "" {
			if err := os.WriteFile(filepath.Join(dir, strings.Map(func(r rune) rune {
				if r == ' ' || r == ',' {
					return '-'
				}
				return r
			}, c.name)+".x3p"), c.data, 0o644); err != nil {
				t.Fatal(err)
			}
		}
		var before, after runtime.MemStats
		runtime.GC()
		runtime.ReadMemStats(&before)
		trace, err := tracefile.Read(c.data, &tracefile.Hints{Row: 1})
		runtime.ReadMemStats(&after)
		used := after.TotalAlloc - before.TotalAlloc
		var e *tracefile.Error
		switch {
		case c.want != nil && !errors.Is(err, c.want):
			t.Errorf("%s: %.300v, want %v", c.name, err, c.want)
		case err != nil && (!errors.As(err, &e) || len(err.Error()) > 1000 || len(e.Err.Error()) > 1000):
			t.Errorf("%s: %.300v with %d bytes", c.name, err, len(err.Error()))
		case err == nil && len(trace.Report.String()) > 2000:
			t.Errorf("%s: a report of %d bytes", c.name, len(trace.Report.String()))
		}
		if err == nil {
			for _, n := range trace.Notes {
				if len(n.Text) > 1000 {
					t.Errorf("%s: a note of %d bytes", c.name, len(n.Text))
				}
			}
		}
		if used > 400<<20 {
			t.Errorf("%s: took %d MB", c.name, used>>20)
		}
		t.Logf("%s (%d kB): at most %d MB; %.150v", c.name, len(c.data)>>10, used>>20, err)
	}
}

// A stored infinity is what some writers put for no height: a missing point, and a note.
func TestStoredInfinity(t *testing.T) {
	points := ""
	for _, v := range []float64{1e-6, math.Inf(1), math.Inf(-1), 2e-6} {
		points += string(binary.LittleEndian.AppendUint64(nil, math.Float64bits(v)))
	}
	const main = `<a><Record1><FeatureType>PRF</FeatureType><Axes><CX><AxisType>I</AxisType><Increment>1e-6</Increment></CX></Axes></Record1><Record3><MatrixDimension>` +
		`<SizeX>4</SizeX><SizeY>1</SizeY><SizeZ>1</SizeZ></MatrixDimension><DataLink><PointDataLink>data.bin</PointDataLink></DataLink></Record3></a>`
	trace, err := tracefile.Read(pack(t, "main.xml", main, "data.bin", points), nil)
	if err != nil {
		t.Fatal(err)
	}
	if got := show(trace); got != "1: 1 - - 2" || trace.Report.Invalid != 2 {
		t.Errorf("read as %s, %d invalid", got, trace.Report.Invalid)
	}
	if len(trace.Notes) != 2 || trace.Notes[0].Code != "checksum" || trace.Notes[1].Code != "infinite" || !strings.Contains(trace.Notes[1].Text, "2 heights") {
		t.Errorf("notes %+v", trace.Notes)
	}
}
