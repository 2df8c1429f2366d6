package tracefile_test

import (
	"bytes"
	"encoding/binary"
	"errors"
	"fmt"
	"io"
	"math"
	"slices"
	"strings"
	"testing"
	"testing/iotest"

	"example.com/furrow/roughness/tracefile"
)

// all reads to the end in blocks of three.
func all(read func([]float64) (int, error)) (z []float64, err error) {
	block := make([]float64, 3)
	for {
		n, err := read(block)
		z = append(z, block[:n]...)
		if err != nil {
			return z, err
		}
	}
}

func TestFloats(t *testing.T) {
	for _, n := range []int{0, 1, 3, 4, 10} {
		want := make([]float64, n)
		for i := range want {
			want[i] = float64(i) / 7
		}
		var data bytes.Buffer
		binary.Write(&data, binary.LittleEndian, want)
		got, err := all(tracefile.Floats(iotest.OneByteReader(bytes.NewReader(data.Bytes()))))
		if err != io.EOF || !slices.Equal(got, want) {
			t.Errorf("%v, %v; not %v", got, err, want)
		}
		data.WriteByte(1)
		if got, err = all(tracefile.Floats(&data)); err != io.ErrUnexpectedEOF || !slices.Equal(got, want) {
			t.Errorf("a byte too many: %v, %v", got, err)
		}
	}
}

func TestLines(t *testing.T) {
	got, err := all(tracefile.Lines(strings.NewReader("1\n -2.5e-1 \r\n\nnan\n+4")))
	if want := "[1 -0.25 NaN NaN 4]"; err != io.EOF || fmt.Sprint(got) != want {
		t.Errorf("%v, %v; not %s", got, err, want)
	}
	for _, text := range []string{"1,5", "0x1p3", "1_0", "1 2", "height", "1e999", "inf"} {
		got, err := all(tracefile.Lines(strings.NewReader("1\n" + text + "\n3")))
		var line *tracefile.LineError
		if !errors.As(err, &line) || line.Line != 2 || line.Text != text || len(got) != 1 || math.IsNaN(got[0]) {
			t.Errorf("%q: %v, %v", text, got, err)
		}
	}
	if _, err := all(tracefile.Lines(strings.NewReader("1\n" + strings.Repeat("2", 100000)))); err == nil || !strings.Contains(err.Error(), "line 2") {
		t.Errorf("a line without end: %v", err)
	}
}
