package tracefile_test

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"io"
	"strings"

	"example.com/furrow/roughness"
	"example.com/furrow/roughness/tracefile"
)

// A file says all by itself, or leaves something open: then the questions name the hints that answer them.
func ExampleRead() {
	file := []byte("Rod 7; end face\nWeg [mm]; Profil\n0,000; 0,21\n0,002; -0,35\n0,004; 0,14\n")
	_, err := tracefile.Read(file, nil)
	for _, q := range tracefile.IsQuestion(err) {
		fmt.Println(q.Text, "-", q.Hint)
	}
	trace, err := tracefile.Read(file, &tracefile.Hints{ZUnit: "µm"})
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println(trace.Profile.Z, "every", trace.Profile.Spacing, "µm")
	fmt.Print(trace.Report)
	// Output:
	// the file does not say the unit of the heights - z_unit
	// [0.21 -0.35 0.14] every 2 µm
	// delimited text, ASCII, LF line ends, cells separated by semicolon, decimal comma
	// x: column 1 "Weg [mm]", mm (line 2); spacing 2 µm (x)
	// z: column 2 "Profil", µm (hint z_unit)
	// 3 points, lines 3 to 5
	// line 2, names of the columns: Weg [mm]; Profil
}

// A row that cannot be read is an error with its place.
func ExampleError() {
	_, err := tracefile.Read([]byte("x_mm;z_um\n0.000;0.21\n0.002;-0.3S\n"), nil)
	var e *tracefile.Error
	fmt.Println(errors.As(err, &e) && e.Line == 3 && e.Column == 7, errors.Is(err, tracefile.ErrNumber))
	fmt.Println(err)
	// Output:
	// true true
	// tracefile: line 3, column 7: "-0.3S" is not a finite decimal number
}

// A stream is read up to a bound; the context stops a big one.
func ExampleDecode() {
	stream := strings.NewReader("z [nm]\n210\n-350\n140\n")
	trace, err := tracefile.Decode(context.Background(), stream, &tracefile.Hints{Spacing: 0.5}, nil)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println(trace.Profile.Z)
	// Output: [0.21 -0.35 0.14]
}

// A file may hold several traces.
func ExampleReadAll() {
	all, err := tracefile.ReadAll([]byte("x_um z_um\n0 1\n1 2\nx_um z_um\n0 3\n1 4\n"), nil)
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, trace := range all {
		fmt.Println(trace.Profile.Z)
	}
	// Output:
	// [1 2]
	// [3 4]
}

// Every format that is written is read again, with every bit.
func ExampleWriteText() {
	trace := &tracefile.Trace{Profile: roughness.Profile{Z: []float64{0.21, -0.35, 0.14}, Spacing: 0.5, Name: "rod-7"}}
	for _, write := range []func(io.Writer, *tracefile.Trace) error{
		tracefile.WriteText, tracefile.WriteSMD, tracefile.WriteSDFText, tracefile.WriteSDFBinary, tracefile.WriteX3P,
	} {
		var file bytes.Buffer
		if err := write(&file, trace); err != nil {
			fmt.Println(err)
			return
		}
		back, err := tracefile.Read(file.Bytes(), nil)
		if err != nil {
			fmt.Println(err)
			return
		}
		fmt.Printf("%-28s %v every %v µm\n", back.Report.Format, back.Profile.Z, back.Profile.Spacing)
	}
	// Output:
	// delimited text               [0.21 -0.35 0.14] every 0.5 µm
	// SMD (ISO 5436-2)             [0.21 -0.35 0.14] every 0.5 µm
	// SDF, text (ISO 25178-71)     [0.21 -0.35 0.14] every 0.5 µm
	// SDF, binary (ISO 25178-71)   [0.21 -0.35 0.14] every 0.5 µm
	// X3P (ISO 25178-72)           [0.21 -0.35 0.14] every 0.5 µm
}

// The hints that a question can ask for, for a program that asks them in words of its own.
func ExampleAsked() {
	fmt.Println(strings.Join(tracefile.Asked(), " "))
	// Output: x_unit z_unit spacing x_column z_column decimal delimiter heights trace row integrate
}

// Heights as text, one a line, in blocks of two.
func ExampleLines() {
	read := tracefile.Lines(strings.NewReader("0.25\n-0.5\n\n1,5\n"))
	block := make([]float64, 2)
	for {
		n, err := read(block)
		fmt.Println(block[:n], err)
		if err != nil {
			return
		}
	}
	// Output:
	// [0.25 -0.5] <nil>
	// [NaN] tracefile: line 4: "1,5" is no number
}
