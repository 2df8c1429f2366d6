package tracefile

import (
	"errors"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
)

// What blanks have parted in a header: a bracket belongs to the name before it, a sign of its own to both sides; a letter, or a word that only
// begins with such a sign, is a cell of its own.
func TestGlue(t *testing.T) {
	for text, want := range map[string][]string{
		"x z":                   {"x", "z"},
		"Height (µm)":           {"Height (µm)"},
		"Way [mm] Height {µm}":  {"Way [mm]", "Height {µm}"},
		"Height / µm":           {"Height / µm"},
		"Way : mm Height = µm":  {"Way : mm", "Height = µm"},
		"Height/ µm":            {"Height/ µm"},
		"Height /µm":            {"Height", "/µm"},
		"Height < µm":           {"Height <", "µm"},
		"a b (c) d":             {"a", "b (c)", "d"},
		"(a) b":                 {"(a)", "b"},
		`"Height" "(µm)" (µm)`:  {"Height", "(µm)", "(µm)"},
		"Lot 7 : a":             {"Lot", "7 : a"},
		"x=1 y":                 {"x=1", "y"},
		"Height (µm) / profile": {"Height (µm) / profile"},
	} {
		r := &reader{}
		cut := r.cut([]byte(text), ' ')
		got := []string{}
		for _, c := range cut.glue().cells {
			got = append(got, string(c.of(cut.text)))
		}
		if !slices.Equal(got, want) {
			t.Errorf("%q: %q, want %q", text, got, want)
		}
	}
}

// The axes of an SMD file: CX and CZ in either order, each once (ISO 5436-2:2012, record 1, from memory).
func TestAxesOfSMD(t *testing.T) {
	data, err := os.ReadFile(filepath.Join("..", "..", "testdata", "tracefile", "written", "trace.smd"))
	if err != nil {
		t.Fatal(err)
	}
	lines := strings.SplitAfter(string(data), "\n")
	join := func(axes ...string) string {
		return strings.Join(append(append(slices.Clone(lines[:2]), axes...), lines[4:]...), "")
	}
	x, z := lines[2], lines[3]
	if x[:2] != "CX" || z[:2] != "CZ" {
		t.Fatalf("axes %q and %q", x, z)
	}
	whole, err := Read([]byte(join(x, z)), nil)
	if err != nil {
		t.Fatal(err)
	}
	turned, err := Read([]byte(join(z, x)), nil)
	if err != nil || !slices.Equal(turned.Profile.Z, whole.Profile.Z) || turned.Profile.Spacing != whole.Profile.Spacing {
		t.Errorf("CZ before CX: %v", err)
	}
	for _, axes := range [][]string{{x, x}, {z, z}, {z, z, x}, {x, x, z}, {strings.Replace(x, "CX", "CQ", 1), z}} {
		_, err := Read([]byte(join(axes...)), nil)
		var place *Error
		if !errors.As(err, &place) || !errors.Is(err, ErrFormat) || place.Line < 3 || place.Line > 5 {
			t.Errorf("axes %.20q: %v", axes, err)
		}
	}
}
