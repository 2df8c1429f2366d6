package tracefile_test

import (
	"bytes"
	"encoding/csv"
	"fmt"
	"io"
	"strconv"
	"testing"

	"example.com/furrow/roughness"
	"example.com/furrow/roughness/tracefile"
)

// table makes n rows "x,z" as a program would print them.
func table(n int) []byte {
	var b bytes.Buffer
	b.WriteString("x_mm,z_um\n")
	for i := range n {
		x := float64(i) * 0.0005
		fmt.Fprintf(&b, "%.4f,%.5f\n", x, height(x*1000))
	}
	return b.Bytes()
}

func BenchmarkReadText(b *testing.B) {
	data := table(500_000)
	b.SetBytes(int64(len(data)))
	for b.Loop() {
		if _, err := tracefile.Read(data, nil); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkReadOneColumn(b *testing.B) {
	var t bytes.Buffer
	t.WriteString("z_um\n")
	for i := range 1_000_000 {
		fmt.Fprintf(&t, "%.5f\n", height(float64(i)))
	}
	b.SetBytes(int64(t.Len()))
	for b.Loop() {
		if _, err := tracefile.Read(t.Bytes(), &tracefile.Hints{Spacing: 0.5}); err != nil {
			b.Fatal(err)
		}
	}
}

// Decimal commas, tabs, blanks before the numbers: what the quick way does not take.
func BenchmarkReadUnusual(b *testing.B) {
	data := append([]byte("x_mm\tz_um\n"), bytes.ReplaceAll(bytes.ReplaceAll(table(500_000)[len("x_mm,z_um\n"):], []byte(","), []byte("\t ")), []byte("."), []byte(","))...)
	b.SetBytes(int64(len(data)))
	for b.Loop() {
		if _, err := tracefile.Read(data, nil); err != nil {
			b.Fatal(err)
		}
	}
}

// What a program without this package would do: the same file through encoding/csv and strconv.
func BenchmarkReadCSVAndStrconv(b *testing.B) {
	data := table(500_000)
	b.SetBytes(int64(len(data)))
	for b.Loop() {
		r := csv.NewReader(bytes.NewReader(data))
		r.ReuseRecord = true
		var x, z []float64
		for line := 0; ; line++ {
			rec, err := r.Read()
			if err == io.EOF {
				break
			}
			if err != nil {
				b.Fatal(err)
			}
			if line == 0 {
				continue
			}
			xv, err := strconv.ParseFloat(rec[0], 64)
			if err != nil {
				b.Fatal(err)
			}
			zv, err := strconv.ParseFloat(rec[1], 64)
			if err != nil {
				b.Fatal(err)
			}
			x, z = append(x, xv), append(z, zv)
		}
		if len(x) != 500_000 || len(z) != 500_000 {
			b.Fatal(len(x))
		}
	}
}

// The open formats, 200 000 points each (binary SDF counts to 65 535).
func BenchmarkReadFormats(b *testing.B) {
	z := make([]float64, 200_000)
	for i := range z {
		z[i] = height(float64(i) / 2)
	}
	for _, c := range []struct {
		name   string
		points int
		write  func(io.Writer, *tracefile.Trace) error
	}{{"SMD", 200_000, tracefile.WriteSMD}, {"SDF-text", 200_000, tracefile.WriteSDFText}, {"SDF-binary", 65_535, tracefile.WriteSDFBinary}, {"X3P", 200_000, tracefile.WriteX3P}} {
		var file bytes.Buffer
		if err := c.write(&file, &tracefile.Trace{Profile: roughness.Profile{Z: z[:c.points], Spacing: 0.5}}); err != nil {
			b.Fatal(err)
		}
		b.Run(c.name, func(b *testing.B) {
			b.SetBytes(int64(file.Len()))
			for b.Loop() {
				if _, err := tracefile.Read(file.Bytes(), nil); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}
