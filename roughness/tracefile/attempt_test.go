package tracefile_test

import (
	"slices"
	"testing"

	"example.com/furrow/roughness/tracefile"
)

// A row that cannot be read is an error with its place, also where it is the first one and could pass for a line of names.
func TestFirstRowWrong(t *testing.T) {
	for _, cell := range []string{"None", "null", "#VALUE!", "#DIV/0!", "1.#INF", "0x5", "?", "1..5", "1,2,3", "nan(1)", "rod"} {
		if got := outcome("0;"+cell+"\n1;2.5\n2;3.5\n", xz); got != "1:3 number" {
			t.Errorf("%s: %s", cell, got)
		}
		if got := outcome("x;z\n0;"+cell+"\n1;2.5\n2;3.5\n", xz); got != "2:3 number" {
			t.Errorf("%s below names: %s", cell, got)
		}
		if cell == "1,2,3" { // three cells there
			continue
		}
		if got := outcome("z [µm]\n"+cell+"\n2.5\n3.5\n1\n", `{"spacing":1}`); got != "2:1 number" {
			t.Errorf("%s in one column: %s", cell, got)
		}
	}
	for _, c := range []struct{ name, text, hints, want string }{
		{"no x", "null;1.5\n1;2.5\n2;3.5\n", xz, "1:1 number"},
		{"blanks", "0 None\n1 2.5\n2 3.5\n", xz, "1:3 number"},
		{"one column, no names", "#VALUE!\n2.5\n3.5\n", z1, "1:1 number"},
		{"columns named", "0;a;None\n1;b;2.5\n2;c;3.5\n", `{"x_column":1,"z_column":3,"x_unit":"um","z_unit":"um"}`, "1:5 number"},
		{"heights in rows", "1 2 None\n3 4 5\n", `{"heights":"rows","z_unit":"um","spacing":1}`, "1:5 number"},
		{"title above heights in rows", "3 strokes of the rod\n3 4 5\n", `{"heights":"rows","z_unit":"um","spacing":1}`, "1: 3 4 5"},
		{"words below names", "x [µm];z [µm]\nrod;seven\n0;1\n1;2\n", "", "2:1 number"},
		{"unit row below names", "x;z\nµm;µm\n0;1\n1;2\n", "", "1: 1 2"},
		{"letter before a number", "z in µm\n1\nx2\n3\n", `{"spacing":1}`, "3:1 number"},
		{"sheet error among the rows", "2.5\n#DIV/0!\n3.5\n", z1, "2:1 number"},
		{"title with a unit above a title", "Unit;µm\nPart;rod\n0;1\n1;2\n", xz, "1: 1 2"},
		{"statement in cells", "Speed;3\n0;1\n1;2\n", xz, "1: 1 2"},
		{"title that begins with a number", "3 strokes\n0 1\n1 2\n", xz, "1: 1 2"},
		{"date above one column", "1.2.2003\n2.5\n3.5\n", z1, "1: 2.5 3.5"},
		{"quoted remark of two lines above", "\"rod\nseven\"\nx;z\n0;1\n1;2\n", xz, "1: 1 2"},

		{"quote open", "x [um],z [um]\n0,1.5\n1,\"2.5\n2,3\n3,4\n", "", "3:3 quote"},
		{"quote open in the first row", "x [um],z [um]\n0,\"1.5\n1,2.5\n2,3\n3,4\n", "", "2:3 quote"},
		{"quote open in the first row, no names", "0,\"1.5\n1,2.5\n2,3.5\n", xz, "1:3 quote"},
		{"quote open, one column", "z [um]\n\"1.5\n2.5\n3\n", `{"spacing":1}`, "2:1 quote"},
		{"line break in a cell", "x [µm],z [µm],remark\n0,1.5,\"a\nb\"\n1,2.5,\"c\"\n", `{"x_column":1,"z_column":2}`, "2:7 quote"},
		{"line break in a later cell", "x [µm],z [µm],remark\n0,1.5,\"a\"\n1,2.5,\"b\nc\"\n", `{"x_column":1,"z_column":2}`, "3:7 quote"},
	} {
		t.Run(c.name, func(t *testing.T) {
			if got := outcome(c.text, c.hints); got != c.want {
				t.Errorf("%q with %s:\n got %s\nwant %s", c.text, c.hints, got, c.want)
			}
		})
	}
}

// A remark, a line drawn below the names and "key = value" between names and rows are no rows gone wrong.
func TestBetweenNamesAndRows(t *testing.T) {
	for _, between := range []string{"# rod 7", "# 0 rod", "% 3,4", "// traced twice", "-----,-----", "==========", "Ra = 0.5 µm", ""} {
		got, err := tracefile.Read([]byte("x [mm],z [um]\n"+between+"\n0,1.5\n0.001,2.5\n0.002,3.5\n"), nil)
		if err != nil {
			t.Errorf("%q: %v", between, err)
			continue
		}
		if want := []float64{1.5, 2.5, 3.5}; !slices.Equal(got.Profile.Z, want) {
			t.Errorf("%q: %v", between, got.Profile.Z)
		}
	}
	for _, between := range []string{"0,rod", "?,?", "null,1"} {
		if got, err := tracefile.Read([]byte("x [mm],z [um]\n"+between+"\n0,1.5\n0.001,2.5\n0.002,3.5\n"), nil); err == nil {
			t.Errorf("%q was passed over: %v", between, got.Profile.Z)
		}
	}
}
