package tracefile_test

import (
	"bytes"
	"encoding/binary"
	"errors"
	"math"
	"slices"
	"strings"
	"testing"

	"example.com/furrow/roughness"
	"example.com/furrow/roughness/tracefile"
)

// What is seldom in a file is read all the same, or refused at its place.
func TestSeldom(t *testing.T) {
	zeros := func(n int) string { return strings.Repeat("0", n) }
	for _, c := range []struct{ name, text, hints, want string }{
		{"heights in the first of three columns", "z [µm];Ra;x [µm]\n1;9;0\n2;9;1\n", "", "1: 1 2"},
		{"x in the first of three columns", "x [µm];Ra;z [µm]\n0;9;1\n1;9;2\n", "", "1: 1 2"},
		{"one number and a zero byte", "1\x00", z1, "1:2 format"},
		{"two letters of UTF-16 without a mark", "1\x00\n\x00", z1, "1: 1"},
		{"two letters of UTF-16 the other way", "\x001\x00\n", z1, "1: 1"},
		{"falling x, a slope missing", "x [mm];slope [mrad]\n3;1\n2;\n1;2\n0;1\n", `{"integrate":true}`, "3:1 number"},
		{"rising x, a slope missing", "x [mm];slope [mrad]\n0;1\n1;2\n2;\n3;1\n", `{"integrate":true}`, "4:1 number"},
		{"steps beyond what can be counted", "x [m];z [µm]\n0;1\n1e303;2\n", "", "2:1 number"},
		{"a place beyond what can be counted", "x [m];z [µm]\n1e303;1\n1.1e303;2\n", "", "2:1 number"},
		{"a spacing of a hundred signs", "Spacing = 0.5" + zeros(97) + " µm\nz [µm]\n1\n2\n", "", "0.5: 1 2"},
		{"a spacing of too many signs", "Spacing = 0.5" + zeros(98) + " µm\nz [µm]\n1\n2\n", "", "3:1 ask spacing"},
		{"profiles of one point each", strings.NewReplacer("NumPoints = 4", "NumPoints = 1", "NumProfiles = 1", "NumProfiles = 4", "Yscale = 0", "Yscale = 2e-6").Replace(sdfText), "", "2: 0.001 0.002 0.003 0.004"},
		{"a factor without end", strings.Replace(sdfText, "Zscale = 1e-9", "Zscale = 1", 1), "", "0.5: 1e+06 2e+06 3e+06 4e+06"},
	} {
		t.Run(c.name, func(t *testing.T) {
			if got := outcome(c.text, c.hints); got != c.want {
				t.Errorf("%q with %s:\n got %s\nwant %s", c.text, c.hints, got, c.want)
			}
		})
	}
	trace := &tracefile.Trace{Profile: roughness.Profile{Z: []float64{1, 2, 4}, Spacing: 0.5}}
	var b bytes.Buffer
	if err := tracefile.WriteSDFBinary(&b, trace); err != nil {
		t.Fatal(err)
	}
	const zScale = 8 + 10 + 2*12 + 2*2 + 2*8 // bytes before it: version, maker, times, points and profiles, scales along x and y
	for _, v := range []float64{math.Inf(1), math.Inf(-1), math.NaN(), 0} {
		data := bytes.Clone(b.Bytes())
		binary.LittleEndian.PutUint64(data[zScale:], math.Float64bits(v))
		if _, err := tracefile.Read(data, nil); !errors.Is(err, tracefile.ErrFormat) {
			t.Errorf("factor %g: %v", v, err)
		}
	}
	binary.LittleEndian.PutUint64(b.Bytes()[zScale:], math.Float64bits(-1e-6))
	if again, err := tracefile.Read(b.Bytes(), nil); err != nil || show(again) != "0.5: -1 -2 -4" {
		t.Errorf("a factor below 0: %v, %v", again, err)
	}
}

// What is packed may be larger than a megabyte, as much as the points take.
func TestManyPackedPoints(t *testing.T) {
	trace := &tracefile.Trace{Profile: roughness.Profile{Z: make([]float64, 200_000), Spacing: 0.5}}
	for i := range trace.Profile.Z {
		trace.Profile.Z[i] = math.Sin(float64(i) * float64(i))
	}
	var b bytes.Buffer
	if err := tracefile.WriteX3P(&b, trace); err != nil {
		t.Fatal(err)
	}
	again, err := tracefile.Read(b.Bytes(), nil)
	if err != nil || !slices.EqualFunc(again.Profile.Z, trace.Profile.Z, func(a, b float64) bool { return math.Abs(a-b) <= 1e-15 }) {
		t.Error("other points, ", err)
	}
}

// Names and fields in formats of seven bits: what is foreign is a question mark, µ is u, and SMD has the name of the file alone.
func TestWriteForeignLetters(t *testing.T) {
	trace := &tracefile.Trace{Profile: roughness.Profile{Z: []float64{1, 2}, Spacing: 0.5, Name: `works\lock/rød µ~ 7`}, Fields: []tracefile.Field{{Key: "ManufacID", Value: "shop"}, {Key: "LOT", Value: "é\x01 "}, {Key: "lö", Value: "7"}}}
	for n, want := range []string{1: "# spacing [µm]: 0.5\nz [µm]\n1\n", 2: "# spacing [µm]: 0.5\nx [µm]\tz [µm]\n0\t1\n0.5\t2\n"} {
		few := *trace
		few.Profile.Z = trace.Profile.Z[:n]
		var b bytes.Buffer
		if err := tracefile.WriteText(&b, &few); n > 0 && (err != nil || b.String() != want) {
			t.Errorf("%d points: %q, %v", n, b.String(), err)
		}
	}
	for format, c := range map[string]struct {
		write func(b *bytes.Buffer) error
		want  []string
	}{
		"SMD": {func(b *bytes.Buffer) error { return tracefile.WriteSMD(b, trace) }, []string{"2000 r?d_u~_7\r\n", "LOT ?? \r\n", "COMMENT l? = 7\r\n", "COMMENT ManufacID = shop\r\n"}},
		"SDF": {func(b *bytes.Buffer) error { return tracefile.WriteSDFText(b, trace) }, []string{"ManufacID", "= shop", "LOT = ?? \r\n", "l? = 7\r\n"}},
	} {
		var b bytes.Buffer
		if err := c.write(&b); err != nil {
			t.Fatal(err)
		}
		for _, want := range c.want {
			if !strings.Contains(b.String(), want) {
				t.Errorf("%s: %q without %q", format, b.String(), want)
			}
		}
	}
}
