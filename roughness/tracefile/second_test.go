package tracefile_test

import (
	"encoding/csv"
	"fmt"
	"math"
	"math/rand/v2"
	"slices"
	"strconv"
	"strings"
	"testing"

	"example.com/furrow/roughness/tracefile"
)

// encoding/csv is the second opinion on quoting: what it writes and reads again as names and cells is what furrow takes them for.
func TestQuotingBesideCSV(t *testing.T) {
	pieces := []string{"way", "µ", "\"", "\"\"", ",", ";", " ", "x", "\t", "'", "7", "\n", "(", "/"}
	r := rand.New(rand.NewPCG(7, 7))
	for range 3000 {
		name := "way"
		for range r.IntN(6) {
			name += pieces[r.IntN(len(pieces))]
		}
		name += " [mm]"
		comma := []rune{',', ';', '\t'}[r.IntN(3)]
		var b strings.Builder
		w := csv.NewWriter(&b)
		w.Comma = comma
		w.Write([]string{name, "z [µm]"})
		b2 := &b
		for i := range 4 {
			w.Flush()
			cell := strconv.Itoa(i)
			if r.IntN(2) == 0 {
				cell = `"` + cell + `"`
			}
			fmt.Fprintf(b2, "%s%c\"%d.5\"\n", cell, comma, i)
		}
		reader := csv.NewReader(strings.NewReader(b.String()))
		reader.Comma = comma
		rows, err := reader.ReadAll()
		if err != nil || len(rows) != 5 {
			t.Fatalf("encoding/csv does not read %q: %v", b.String(), err)
		}
		trace, err := tracefile.Read([]byte(b.String()), nil)
		if err != nil {
			t.Fatalf("%q: %v", b.String(), err)
		}
		if got, want := show(trace), "1000: 0.5 1.5 2.5 3.5"; got != want {
			t.Errorf("%q: got %s, want %s", b.String(), got, want)
		}
		if got, want := trace.Report.XName, strings.TrimSpace(rows[0][0]); got != want {
			t.Errorf("%q: name %q, want %q", b.String(), got, want)
		}
	}
}

// strconv is the second opinion on numbers: the fast way gives the same bits, whatever the number of digits and the form.
func TestNumbersBesideStrconv(t *testing.T) {
	r := rand.New(rand.NewPCG(8, 8))
	var texts []string
	for range 30000 {
		v := math.Float64frombits(r.Uint64())
		if math.IsNaN(v) || math.IsInf(v, 0) {
			continue
		}
		form := []byte{'e', 'g', 'f'}[r.IntN(3)]
		if form == 'f' {
			v = (r.Float64() - 0.5) * math.Pow(10, float64(r.IntN(25)-8))
		}
		s := strconv.FormatFloat(v, form, []int{-1, r.IntN(25)}[r.IntN(2)], 64)
		if w, err := strconv.ParseFloat(s, 64); err != nil || math.IsInf(w, 0) {
			continue // rounded up beyond the largest
		}
		texts = append(texts, s)
	}
	// Halves between two floats, and what lies a hair beside them.
	for range 2000 {
		m := r.Uint64()>>11 | 1<<52
		s := strconv.FormatUint(m, 10) + ".5"
		texts = append(texts, s, s+"0000000000000000000001", strconv.FormatUint(m-1, 10)+".4999999999999999999")
	}
	text := "z_um\n" + strings.Join(texts, "\n") + "\n"
	trace, err := tracefile.Read([]byte(text), &tracefile.Hints{Spacing: 1, Decimal: "."})
	if err != nil {
		t.Fatal(err)
	}
	for i, s := range texts {
		want, _ := strconv.ParseFloat(s, 64)
		if got := trace.Profile.Z[i]; math.Float64bits(got) != math.Float64bits(want) {
			t.Fatalf("%s: %v, want %v", s, got, want)
		}
	}
}

func TestReadAll(t *testing.T) {
	for text, want := range map[string][]string{
		"x_um;z_um\n0;1\n1;2\n2;3\n3;4\nx_um;z_um\n0;5\n2;6\n4;7\n6;8\n":          {"1: 1 2 3 4", "2: 5 6 7 8"},
		"x_um;z_um\n0;1\n1;2\n2;3\n3;4\nx_mm;z_nm\n0;5\n2;6\n4;7\n6;8\n":          {"1: 1 2 3 4", "2000: 0.005 0.006 0.007 0.008"},
		"x_um;z_um;x_um;z_um\n0;1;0;5\n1;2;1;6\n":                                 {"1: 1 2", "1: 5 6"},
		"x_um;z_um\n0;1\n1;2\n":                                                   {"1: 1 2"},
		"x_um;z_um\n0;1\n1;2\n\n0;5\n1;6\n\n\n0;7\n1;8\n":                         {"1: 1 2", "1: 5 6", "1: 7 8"},
		"# dx [um]: 2\nz_um\n1\n2\n3\n4\n5\n# dx [um]: 3\nz_um\n6\n7\n8\n9\n10\n": {"2: 1 2 3 4 5", "3: 6 7 8 9 10"},
	} {
		all, err := tracefile.ReadAll([]byte(text), nil)
		if err != nil {
			t.Errorf("%q: %v", text, err)
			continue
		}
		var got []string
		for _, one := range all {
			got = append(got, show(one))
		}
		if !slices.Equal(got, want) {
			t.Errorf("%q: got %q, want %q", text, got, want)
		}
	}
}

// Natural cubic spline through (0, 0), (1, 1), (2, 0): the second derivative in the middle is -3, so that the value at ½ is 11/16
// (worked by hand from the definition). Straight lines stay straight; points of the trace that lie on the grid stay as they are.
func TestResample(t *testing.T) {
	for _, c := range []struct{ text, hints, want string }{
		{"x_um;z_um\n0;0\n1;1\n2;0\n", `{"resample":true,"spacing":0.5}`, "0.5: 0 0.6875 1 0.6875 0"},
		{"x_um;z_um\n0;0\n1;2\n3;6\n4;8\n", `{"resample":true,"spacing":1}`, "1: 0 2 4 6 8"},
		{"x_um;z_um\n4;8\n3;6\n1;2\n0;0\n", `{"resample":true,"spacing":2}`, "2: 0 4 8"},
		{"x_um;z_um\n0;0\n1;1\n2;NaN\n3;3\n4.5;4.5\n5;5\n", `{"resample":true,"spacing":0.5}`, "0.5: 0 0.5 1 - - - 3 3.5 4 4.5 5"},
		{"x_um;z_um\n0;0\n1;1\n1;2\n2;3\n", `{"resample":true}`, "4:1 repeated"},
		{"x_um;z_um\n0;0\n1;1\n1.5;2\n1.2;3\n4;5\n", `{"resample":true}`, "5:1 turns"},
		{"x_um;z_um\n0;0\n1;1\n3;NaN\n", `{"resample":true,"spacing":1e-30}`, "2:1 limit"},
	} {
		if got := outcome(c.text, c.hints); got != c.want {
			t.Errorf("%q with %s:\n got %s\nwant %s", c.text, c.hints, got, c.want)
		}
	}
}

func TestResampleStraight(t *testing.T) {
	trace, err := tracefile.Read([]byte("x_um;z_um\n0;0\n1;2\n2.5;5\n3;6\n4;8\n7;14\n"), &tracefile.Hints{Resample: true})
	if err != nil {
		t.Fatal(err)
	}
	if n, d := len(trace.Profile.Z), trace.Profile.Spacing; n != 6 || d != 1.4 || trace.Report.SpacingBy != "resampled" || len(trace.Notes) != 1 {
		t.Errorf("%d points at %v, %s", n, d, trace.Report)
	}
	for i, z := range trace.Profile.Z {
		if math.Abs(z-2.8*float64(i)) > 1e-12 {
			t.Errorf("point %d: %v", i, z)
		}
	}
}

// Two traces side by side, the second one shorter, with numbered names.
func TestPairs(t *testing.T) {
	const rows = "0;1;0;11\n1;2;2;12\n2;3;;\n3;4;;\n"
	for _, c := range []struct{ text, hints, want string }{
		{"x1;z1;x2;z2\n" + rows, xz, "2:1 ask trace"},
		{"x1;z1;x2;z2\n" + rows, `{"trace":1,"x_unit":"um","z_unit":"um"}`, "1: 1 2 3 4"},
		{"x1;z1;x2;z2\n" + rows, `{"trace":2,"x_unit":"um","z_unit":"um"}`, "2: 11 12"},
		{"x1 [µm];z1 [µm];x2 [µm];z2 [nm]\n" + rows, `{"trace":2}`, "2: 0.011 0.012"},
		{rows, `{"trace":2,"x_unit":"um","z_unit":"um"}`, "2: 11 12"},
		{"a;b;c;d\n" + rows, `{"trace":2,"x_unit":"um","z_unit":"um"}`, "2: 11 12"},
		{"a;b;c;height\n" + rows, `{"trace":2,"x_unit":"um","z_unit":"um"}`, "2:1 ask x_column"},
		{rows, `{"x_column":3,"z_column":4,"x_unit":"um","z_unit":"um"}`, "2: 11 12"},
		{"0;1;0;11\n1;2;;\n2;3;2;12\n", `{"trace":2,"x_unit":"um","z_unit":"um"}`, "2:5 nox"},
		{"0;1;0;11\n1;2;;12\n2;3;2;12\n", `{"trace":2,"x_unit":"um","z_unit":"um"}`, "2:5 nox"},
	} {
		if got := outcome(c.text, c.hints); got != c.want {
			t.Errorf("%q with %s:\n got %s\nwant %s", c.text, c.hints, got, c.want)
		}
	}
}
