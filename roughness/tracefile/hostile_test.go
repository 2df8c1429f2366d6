package tracefile_test

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"math"
	"os"
	"path/filepath"
	"runtime"
	"strings"
	"testing"

	"example.com/furrow/roughness"
	"example.com/furrow/roughness/tracefile"
)

// small gives one little file of each format.
func small(t testing.TB) map[string][]byte {
	t.Helper()
	z := make([]float64, 12)
	for i := range z {
		z[i] = height(float64(i))
	}
	trace := &tracefile.Trace{Profile: roughness.Profile{Z: z, Spacing: 0.5}}
	files := map[string][]byte{}
	var text, smd, ascii, binary, x3p bytes.Buffer
	for _, err := range []error{tracefile.WriteText(&text, trace), tracefile.WriteSMD(&smd, trace), tracefile.WriteSDFText(&ascii, trace),
		tracefile.WriteSDFBinary(&binary, trace)} {
		if err != nil {
			t.Fatal(err)
		}
	}
	z[3] = math.NaN()
	if err := tracefile.WriteX3P(&x3p, trace); err != nil {
		t.Fatal(err)
	}
	files["text"], files["smd"], files["sdf-text"], files["sdf-binary"], files["x3p"] = text.Bytes(), smd.Bytes(), ascii.Bytes(), binary.Bytes(), x3p.Bytes()
	return files
}

// sane holds what any reading must be: a trace that is sound in itself, or an *Error.
func sane(t testing.TB, what string, data []byte, hints *tracefile.Hints) {
	t.Helper()
	trace, err := tracefile.Read(data, hints)
	var e *tracefile.Error
	switch {
	case err != nil && !errors.As(err, &e):
		t.Errorf("%s: %v is no *Error", what, err)
	case err != nil && (e.Line < 0 || e.Column < 0 || e.Err == nil || len(err.Error()) > 2000):
		t.Errorf("%s: %+v", what, e)
	case err == nil && (len(trace.Profile.Z) == 0 || !(trace.Profile.Spacing > 0) || math.IsInf(trace.Profile.Spacing, 0)):
		t.Errorf("%s: %d points at %v", what, len(trace.Profile.Z), trace.Profile.Spacing)
	case err == nil:
		invalid := 0
		for i, z := range trace.Profile.Z {
			if math.IsInf(z, 0) {
				t.Errorf("%s: point %d is infinite", what, i)
			}
			if z != z {
				invalid++
			}
		}
		if r := trace.Report; r.Points != len(trace.Profile.Z) || r.Invalid != invalid || r.String() == "" {
			t.Errorf("%s: the report says %d points, %d invalid; there are %d, %d", what, r.Points, r.Invalid, len(trace.Profile.Z), invalid)
		}
	}
}

// Every beginning of a file is read or refused.
func TestTruncated(t *testing.T) {
	for name, data := range small(t) {
		for n := range data {
			sane(t, fmt.Sprintf("%s, first %d bytes", name, n), data[:n], nil)
		}
	}
	for _, c := range zoo(t) {
		data, hints := zooFile(t, c)
		for n := range min(len(data), 120) {
			sane(t, fmt.Sprintf("%s, first %d bytes", c.File, n), data[:n], hints)
		}
		for n := max(0, len(data)-20); n < len(data); n++ {
			sane(t, fmt.Sprintf("%s, first %d bytes", c.File, n), data[:n], hints)
		}
	}
}

// Every single bit turned over is read or refused.
func TestBitFlips(t *testing.T) {
	for name, data := range small(t) {
		for i := range data {
			for bit := range 8 {
				data[i] ^= 1 << bit
				sane(t, fmt.Sprintf("%s, byte %d, bit %d", name, i, bit), data, nil)
				data[i] ^= 1 << bit
			}
		}
	}
}

func zooFile(t testing.TB, c zooEntry) ([]byte, *tracefile.Hints) {
	t.Helper()
	data, err := os.ReadFile(filepath.FromSlash(formats + "text/" + c.File))
	if err != nil {
		t.Fatal(err)
	}
	if c.Hints == nil {
		return data, nil
	}
	hints, err := tracefile.ParseHints(c.Hints)
	if err != nil {
		t.Fatal(err)
	}
	return data, hints
}

// What is announced costs nothing until it comes; what comes too large is refused.
func TestLimits(t *testing.T) {
	mainXML := func(size, rest string) string {
		return `<p:ISO5436_2 xmlns:p="http://www.opengps.eu/2008/ISO5436_2"><Record1><FeatureType>PRF</FeatureType><Axes><CX><AxisType>I</AxisType><Increment>1e-6</Increment></CX>` +
			`<CY><AxisType>I</AxisType></CY><CZ><AxisType>A</AxisType></CZ></Axes></Record1><Record3><MatrixDimension><SizeX>` + size +
			`</SizeX><SizeY>1</SizeY><SizeZ>1</SizeZ></MatrixDimension>` + rest + `</Record3></p:ISO5436_2>`
	}
	const link = `<DataLink><PointDataLink>data.bin</PointDataLink></DataLink>`
	zeros := strings.Repeat("\x00", 24<<20)
	many := make([]string, 0, 4000)
	for i := range 2000 {
		many = append(many, fmt.Sprint(i), "")
	}
	for _, c := range []struct {
		name string
		data []byte
		want error
	}{
		{"a number of a million digits", []byte("z_um\n" + strings.Repeat("1", 1_000_000) + "\n2\n"), tracefile.ErrNumber},
		{"an exponent of a million digits", []byte("z_um\n1e" + strings.Repeat("9", 1_000_000) + "\n2\n"), tracefile.ErrNumber},
		{"a word of a million letters", []byte("z_um\n1\n" + strings.Repeat("q", 1_000_000) + "\n"), tracefile.ErrNumber},
		{"SMD that announces 2^32 points", []byte(fmt.Sprintf(smdHead, "4294967296", "4294967296") + "\x03\r\n\x03\r\n1\r\n"), tracefile.ErrLimit},
		{"SDF that announces 2^32 points", binarySDF(7, 65535, 65535, 1e-6, make([]byte, 800)), tracefile.ErrTruncated},
		{"SDF text that announces 2^32 points", []byte("aISO-1.0\nNumPoints = 4294967296\nXscale = 1e-6\nZscale = 1e-6\n*\n1\n*\n*\n"), tracefile.ErrFormat},
		{"SDF text that announces 2^26 points", []byte("aISO-1.0\nNumPoints = 67108864\nXscale = 1e-6\nZscale = 1e-6\n*\n1\n*\n*\n"), tracefile.ErrTruncated},
		{"SDF of another version", []byte("aISO-2.0\nNumPoints = 1\n"), tracefile.ErrFormat},
		{"X3P that announces 2^32 points", pack(t, "main.xml", mainXML("4294967296", link), "data.bin", "12345678"), tracefile.ErrLimit},
		{"X3P that announces 2^26 points", pack(t, "main.xml", mainXML("67108864", link), "data.bin", "12345678"), tracefile.ErrLimit},
		{"X3P that announces 2^24 points", pack(t, "main.xml", mainXML("16777216", link), "data.bin", "12345678"), tracefile.ErrTruncated},
		{"bomb in the points", pack(t, "main.xml", mainXML("3145728", link), "data.bin", zeros), tracefile.ErrLimit},
		{"more points than announced", pack(t, "main.xml", mainXML("2", link), "data.bin", zeros), tracefile.ErrLimit},
		{"bomb in main.xml", pack(t, "main.xml", mainXML("1", "<!--"+zeros+"-->")), tracefile.ErrLimit},
		{"thousands of members", pack(t, many...), tracefile.ErrLimit},
		{"no main.xml", pack(t, "other.xml", "x"), tracefile.ErrForeign},
		{"nested a hundred deep", pack(t, "main.xml", strings.Repeat("<a>", 100)+strings.Repeat("</a>", 100)), tracefile.ErrLimit},
		{"a document type", pack(t, "main.xml", `<!DOCTYPE x [<!ENTITY e SYSTEM "file:///etc/hostname">]>`+mainXML("1", `<DataList><Datum>&e;</Datum></DataList>`)), tracefile.ErrFormat},
		{"an entity without a type", pack(t, "main.xml", mainXML("1", `<DataList><Datum>&e;</Datum></DataList>`)), tracefile.ErrFormat},
		{"a link upwards", pack(t, "main.xml", mainXML("1", `<DataLink><PointDataLink>../data.bin</PointDataLink></DataLink>`)), tracefile.ErrFormat},
		{"an absolute link", pack(t, "main.xml", mainXML("1", `<DataLink><PointDataLink>/etc/hostname</PointDataLink></DataLink>`)), tracefile.ErrFormat},
		{"a link with a scheme", pack(t, "main.xml", mainXML("1", `<DataLink><PointDataLink>file:data.bin</PointDataLink></DataLink>`)), tracefile.ErrFormat},
		{"a missing member", pack(t, "main.xml", mainXML("1", link)), tracefile.ErrFormat},
		{"an element not closed", pack(t, "main.xml", "<a><b>"), tracefile.ErrTruncated},
		{"an archive that ends early", pack(t, "main.xml", mainXML("1", link))[:60], tracefile.ErrTruncated},
		{"points in a cloud", pack(t, "main.xml", strings.Replace(mainXML("1", link), "PRF", "PCL", 1)), tracefile.ErrFormat},
	} {
		var before, after runtime.MemStats
		runtime.GC()
		runtime.ReadMemStats(&before)
		_, err := tracefile.Read(c.data, &tracefile.Hints{Spacing: 1})
		runtime.ReadMemStats(&after)
		var e *tracefile.Error
		if !errors.Is(err, c.want) || !errors.As(err, &e) || len(err.Error()) > 1000 {
			t.Errorf("%s: %v, want %v", c.name, err, c.want)
		}
		if used := after.TotalAlloc - before.TotalAlloc; used > 200<<20 {
			t.Errorf("%s: took %d MB", c.name, used>>20)
		}
	}
	if _, err := tracefile.Read([]byte("z_um\n0."+strings.Repeat("1", 1_000_000)+"\n2\n"), &tracefile.Hints{Spacing: 1}); err != nil {
		t.Errorf("a long fraction is a number: %v", err)
	}
}

// Checksums that do not fit are notes, and so are other oddities that do no harm.
func TestChecksumNotes(t *testing.T) {
	data := small(t)["smd"]
	at := bytes.LastIndex(data[:len(data)-6], []byte("\n")) + 1
	data[at] = '0' + (data[at]-'0'+1)%10
	trace, err := tracefile.Read(data, nil)
	if err != nil || len(trace.Notes) != 1 || trace.Notes[0].Code != "checksum" {
		t.Errorf("%v %v", trace, err)
	}
}

// A big file can be watched and stopped.
func TestProgressAndCancel(t *testing.T) {
	data := table(400_000)
	last, calls := 0, 0
	if _, err := tracefile.Decode(context.Background(), bytes.NewReader(data), nil, func(done, total int) {
		if done < last || total < done {
			t.Errorf("%d of %d after %d", done, total, last)
		}
		last = done
		calls++
	}); err != nil || calls < 5 {
		t.Errorf("%d calls, %v", calls, err)
	}
	ctx, cancel := context.WithCancel(context.Background())
	_, err := tracefile.Decode(ctx, bytes.NewReader(data), nil, func(int, int) { cancel() })
	if !errors.Is(err, context.Canceled) {
		t.Errorf("cancelled: %v", err)
	}
}
