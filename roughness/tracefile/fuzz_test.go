package tracefile_test

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"math"
	"os"
	"path/filepath"
	"testing"

	"example.com/furrow/roughness/inspect"
	"example.com/furrow/roughness/tracefile"

	"github.com/google/go-cmp/cmp"
	"github.com/google/go-cmp/cmp/cmpopts"
)

// Seeds are the little files of every format and layout.
func seedFiles(f *testing.F, add func(data []byte, hints string)) {
	f.Helper()
	for _, c := range zoo(f) {
		data, err := os.ReadFile(filepath.FromSlash(formats + "text/" + c.File))
		if err != nil {
			f.Fatal(err)
		}
		add(data, string(c.Hints))
	}
	files, err := filepath.Glob(filepath.FromSlash(layouts + "*.[ct]*"))
	if err != nil {
		f.Fatal(err)
	}
	for _, name := range files {
		data, err := os.ReadFile(name)
		if err != nil {
			f.Fatal(err)
		}
		add(data[:min(len(data), 600)], `{"x_unit":"um","z_unit":"um"}`)
	}
}

// again holds what was read against reading it once more after writing: text keeps every bit.
func again(t *testing.T, data []byte, hints *tracefile.Hints) {
	t.Helper()
	sane(t, "fuzz", data, hints)
	trace, err := tracefile.Read(data, hints)
	if err != nil {
		return
	}
	inspect.Look(trace.Profile, inspect.Conditions{Short: 2.5, Long: 800, Section: 800, Sections: 5})
	if len(trace.Profile.Z) < 2 || trace.Profile.Spacing < 1e-6 || trace.Profile.Spacing > 1e9 || math.Abs(trace.Origin) > 1e6*trace.Profile.Spacing ||
		len(trace.Profile.Z) > 100_000 {
		return // x of the written text could not tell the points apart
	}
	var b bytes.Buffer
	if err := tracefile.WriteText(&b, trace); err != nil {
		t.Fatal(err)
	}
	back, err := tracefile.Read(b.Bytes(), nil)
	if err != nil {
		t.Fatalf("%q became %q: %v", data, b.Bytes(), err)
	}
	same(t, back.Profile.Z, trace.Profile.Z)
	if math.Abs(back.Profile.Spacing-trace.Profile.Spacing) > 1e-9*trace.Profile.Spacing {
		t.Fatalf("spacing %v became %v", trace.Profile.Spacing, back.Profile.Spacing)
	}
}

func FuzzText(f *testing.F) {
	seedFiles(f, func(data []byte, hints string) { f.Add(data, hints) })
	f.Fuzz(func(t *testing.T, data []byte, hints string) {
		if len(data) > 1<<16 {
			return
		}
		h, err := tracefile.ParseHints([]byte(hints))
		if err != nil {
			h = nil
		}
		again(t, data, h)
	})
}

// FuzzHints reads a fixed little table under any hints. Hints that were read are written as JSON and come back as the same, and the
// outcome under them is the same; a refusal has a place and few words.
func FuzzHints(f *testing.F) {
	seedFiles(f, func(_ []byte, hints string) { f.Add([]byte(hints)) })
	f.Add([]byte(`{"x_unit":"mm","z_unit":"µm","decimal":",","delimiter":";","x_column":1,"z_column":2,"spacing":0.5,"skip_lines":3,"missing":["NA"],"heights":"column"}`))
	table := []byte("rod\nx_um;y_um;z_um;w\n0;0;1,5;a\n1;0;2,5;b\n2;0;NA;c\n0;1;4,5;d\n1;1;5,5;e\n")
	f.Fuzz(func(t *testing.T, hints []byte) {
		h, err := tracefile.ParseHints(hints)
		if err != nil {
			var e *tracefile.Error
			if !errors.As(err, &e) || e.Line < 1 || e.Column < 1 || e.Line > 1+bytes.Count(hints, []byte("\n")) || len(err.Error()) > 1000 {
				t.Errorf("%q: %.300v", hints, err)
			}
			return
		}
		sane(t, string(hints), table, h)
		sane(t, string(hints), small(t)["x3p"], h)
		written, err := json.Marshal(h)
		if err != nil {
			t.Fatal(err)
		}
		again, err := tracefile.ParseHints(written)
		if err != nil {
			t.Fatalf("%q was written as %s: %v", hints, written, err)
		}
		if d := cmp.Diff(h, again, cmpopts.EquateEmpty()); d != "" {
			t.Errorf("%q was written as %s and came back as another:\n%s", hints, written, d)
		}
		one, err1 := tracefile.Read(table, h)
		two, err2 := tracefile.Read(table, again)
		if fmt.Sprint(err1) != fmt.Sprint(err2) {
			t.Errorf("%q: %v and then %v", hints, err1, err2)
		}
		if err1 == nil {
			same(t, one.Profile.Z, two.Profile.Z)
		}
	})
}

func FuzzSMD(f *testing.F) {
	data := small(f)["smd"]
	f.Add(data)
	f.Add([]byte("ISO 5436 - 2000 a\nPRF 1 ISO5436\nCX A 3 mm 1.0e0 D\nCZ A 3 um 1.0e0 D\n\x03\n\x03\n0 1\n0.001 2\n0.002 3\n\x03\n"))
	f.Fuzz(func(t *testing.T, data []byte) {
		if len(data) <= 1<<16 {
			sane(t, "fuzz", data, nil)
			sane(t, "fuzz", append([]byte("ISO 5436"), data...), &tracefile.Hints{Resample: true})
		}
	})
}

func FuzzSDF(f *testing.F) {
	files := small(f)
	f.Add(files["sdf-text"], 0, 0)
	f.Add(files["sdf-binary"], 1, 0)
	f.Add(binarySDF(0, 3, 2, 1e-6, []byte{1, 2, 3, 4, 5, 6}), 0, 2)
	f.Fuzz(func(t *testing.T, data []byte, row, column int) {
		if len(data) <= 1<<16 {
			sane(t, "fuzz", data, &tracefile.Hints{Row: max(row, 0), Column: max(column, 0)})
		}
	})
}

// FuzzX3P fuzzes what is in the container; the container is made around it.
func FuzzX3P(f *testing.F) {
	const doc = `<p:ISO5436_2 xmlns:p="http://www.opengps.eu/2008/ISO5436_2"><Record1><FeatureType>SUR</FeatureType><Axes><CX><AxisType>I</AxisType><Increment>1e-6</Increment></CX>` +
		`<CY><AxisType>I</AxisType><Increment>1e-6</Increment></CY><CZ><AxisType>A</AxisType><DataType>I</DataType><Increment>1e-6</Increment></CZ></Axes></Record1><Record3><MatrixDimension>` +
		`<SizeX>2</SizeX><SizeY>2</SizeY><SizeZ>1</SizeZ></MatrixDimension><DataLink><PointDataLink>data.bin</PointDataLink><ValidPointsLink>valid.bin</ValidPointsLink></DataLink></Record3></p:ISO5436_2>`
	f.Add([]byte(doc), []byte("\x01\x00\x02\x00\x03\x00\x04\x00"), []byte{0xf7}, 1, 0)
	f.Add([]byte(`<a><Record1><Axes><CX><AxisType>A</AxisType></CX></Axes></Record1><Record3><ListDimension>2</ListDimension><DataList><Datum>0;1</Datum><Datum>1;2</Datum></DataList></Record3></a>`), []byte{}, []byte{}, 0, 1)
	f.Fuzz(func(t *testing.T, main, data, valid []byte, row, column int) {
		if len(main)+len(data)+len(valid) <= 1<<16 {
			sane(t, "fuzz", pack(t, "main.xml", string(main), "data.bin", string(data), "valid.bin", string(valid)), &tracefile.Hints{Row: max(row, 0), Column: max(column, 0)})
		}
	})
}

// FuzzZIP fuzzes the container itself.
func FuzzZIP(f *testing.F) {
	f.Add(small(f)["x3p"])
	f.Fuzz(func(t *testing.T, data []byte) {
		if len(data) <= 1<<16 {
			sane(t, "fuzz", data, nil)
		}
	})
}
