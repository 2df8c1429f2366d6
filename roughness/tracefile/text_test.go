package tracefile_test

import (
	"errors"
	"math"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"example.com/furrow/roughness"
	"example.com/furrow/roughness/tracefile"
)

// layouts are the ten files in testdata/layouts. They hold, in µm, z = sin(2πx/100) + ½cos(2πx/50) + 0.2 sin(2πx/2000) at x = 0,
// 0.5 ... 200, rounded as printed.
const layouts = "../../testdata/layouts/"

func height(x float64) float64 {
	return math.Sin(2*math.Pi*x/100) + 0.5*math.Cos(2*math.Pi*x/50) + 0.2*math.Sin(2*math.Pi*x/2000)
}

func TestLayouts(t *testing.T) {
	for _, c := range []struct {
		file    string
		hints   *tracefile.Hints
		printed float64 // half of the last digit printed, µm
		offset  float64
		invalid int
	}{
		{file: "cr-only.txt", hints: &tracefile.Hints{XUnit: "µm", ZUnit: "µm"}, printed: 5e-6},
		{file: "decimal-comma-semicolon-crlf-bom.csv", printed: 5e-6},
		{file: "decimal-comma-tab-latin1.txt", printed: 5e-6},
		{file: "hash-header-space.txt", printed: 5e-7},
		{file: "index-value.csv", hints: &tracefile.Hints{Spacing: 0.5}, printed: 5e-5},
		{file: "missing-values.csv", printed: 5e-6, invalid: 8},
		{file: "one-column-spacing-first.txt", hints: &tracefile.Hints{SkipLines: 1, Spacing: 0.5, ZUnit: "um"}, printed: 5e-7},
		{file: "one-column-spacing-first.txt", hints: &tracefile.Hints{First: "spacing"}, printed: 5e-7},
		{file: "thousands-space-comma.csv", printed: 5e-5, offset: 10},
		{file: "trailing-tab-exponent.txt", hints: &tracefile.Hints{XUnit: "um", ZUnit: "m"}, printed: 5e-7},
	} {
		t.Run(c.file, func(t *testing.T) {
			trace, err := tracefile.ReadFile(filepath.FromSlash(layouts+c.file), c.hints)
			if err != nil {
				t.Fatal(err)
			}
			p := trace.Profile
			if len(p.Z) != 401 || p.Spacing != 0.5 {
				t.Fatalf("%d points at %v µm, want 401 at 0.5", len(p.Z), p.Spacing)
			}
			if p.Name != c.file { // and not the folders that it lies in
				t.Errorf("the profile is called %q", p.Name)
			}
			invalid := 0
			for i, z := range p.Z {
				if math.IsNaN(z) {
					invalid++
					if i < 50 || i > 57 {
						t.Errorf("point %d is invalid", i)
					}
					continue
				}
				if want := height(float64(i)*0.5) + c.offset; math.Abs(z-want) > c.printed*1.0001 {
					t.Fatalf("point %d: %v, want %v", i, z, want)
				}
			}
			if invalid != c.invalid || trace.Report.Invalid != c.invalid {
				t.Errorf("%d points invalid, report says %d, want %d", invalid, trace.Report.Invalid, c.invalid)
			}
			t.Logf("\n%s%v", trace.Report, trace.Notes)
		})
	}
}

// The file shifts x by 0.1 sin(1.7 i): the second step is the first that is more than 2 % off the median step.
func TestUnevenLayout(t *testing.T) {
	_, err := tracefile.ReadFile(filepath.FromSlash(layouts+"nonuniform-x.csv"), nil)
	var e *tracefile.Error
	if !errors.As(err, &e) || !errors.Is(err, tracefile.ErrUneven) || e.Line != 3 || e.Column != 1 {
		t.Fatalf("got %v", err)
	}
}

func TestOpenQuestions(t *testing.T) {
	for _, c := range []struct {
		file string
		want []string
	}{
		{"cr-only.txt", []string{"x_unit", "z_unit"}},
		{"index-value.csv", []string{"spacing"}},
		{"one-column-spacing-first.txt", []string{"spacing", "z_unit"}},
		{"trailing-tab-exponent.txt", []string{"x_unit", "z_unit"}},
	} {
		_, err := tracefile.ReadFile(filepath.FromSlash(layouts+c.file), nil)
		if !errors.Is(err, tracefile.ErrOpen) {
			t.Errorf("%s: %v is no question", c.file, err)
			continue
		}
		var got []string
		for _, q := range tracefile.IsQuestion(err) {
			got = append(got, q.Hint)
		}
		if len(got) != len(c.want) {
			t.Errorf("%s: asks for %q, want %q", c.file, got, c.want)
			continue
		}
		for i := range got {
			if got[i] != c.want[i] {
				t.Errorf("%s: asks for %q, want %q", c.file, got, c.want)
			}
		}
		t.Log(err)
	}
}

// A column that begins with its spacing, or with length and count: whoever is asked hears of the hint that says so, and a note
// tells when such numbers were taken for heights.
func TestFirstNumbers(t *testing.T) {
	_, err := tracefile.ReadFile(filepath.FromSlash(layouts+"one-column-spacing-first.txt"), nil)
	if err == nil || !strings.Contains(err.Error(), `"first"`) {
		t.Errorf("got %v", err)
	}
	for _, c := range []struct {
		text  string
		hints tracefile.Hints
		want  bool
	}{
		{"0.5\n1\n2\n3\n", tracefile.Hints{Spacing: 0.5, ZUnit: "um"}, true},
		{"# dx [um]: 0.5\n0.5\n1\n2\n3\n", tracefile.Hints{ZUnit: "um"}, true},
		{"4\n3\n1\n2\n3\n", tracefile.Hints{Spacing: 1, ZUnit: "um"}, true},
		{"0.4\n1\n2\n3\n", tracefile.Hints{Spacing: 0.5, ZUnit: "um"}, false},
		{"0.5\n1\n2\n3\n", tracefile.Hints{First: "spacing"}, false},
		{"4\n3\n1\n2\n3\n", tracefile.Hints{First: "length-count"}, false},
	} {
		trace, err := tracefile.Read([]byte(c.text), &c.hints)
		if err != nil {
			t.Errorf("%q: %v", c.text, err)
			continue
		}
		noted := slices.ContainsFunc(trace.Notes, func(n roughness.Note) bool { return n.Code == "first-numbers" })
		if noted != c.want {
			t.Errorf("%q with %+v: note %v, want %v", c.text, c.hints, noted, c.want)
		}
	}
}
