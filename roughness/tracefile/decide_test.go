package tracefile_test

import (
	"errors"
	"slices"
	"strings"
	"testing"

	"example.com/furrow/roughness/tracefile"
)

// A remark among the rows is one also where nobody looks at its first cell: the number in it is no height.
func TestRemarkBesideNamedColumn(t *testing.T) {
	for _, c := range []struct{ file, hints string }{
		{"0;1;a\n1;2;b\n# 9;9;9\n2;3;c\n", `{"z_column":2,"spacing":1,"z_unit":"um"}`},
		{"a;0;1\nb;1;2\n  % 9;9;9\nc;2;3\n", `{"x_column":2,"z_column":3,"x_unit":"um","z_unit":"um"}`},
	} {
		hints, err := tracefile.ParseHints([]byte(c.hints))
		if err != nil {
			t.Fatal(err)
		}
		got, err := tracefile.Read([]byte(c.file), hints)
		if err != nil || !slices.Equal(got.Profile.Z, []float64{1, 2, 3}) {
			t.Errorf("%q: %+v, %v", c.file, got, err)
		}
		_, err = tracefile.Read([]byte(strings.Replace(c.file, "2;3", "5;3", 1)+"x\n"), hints)
		if err == nil || !strings.Contains(err.Error(), "line 5") {
			t.Errorf("%q: %v", c.file, err)
		}
	}
}

// The x of triples may only count: it is still x.
func TestTriplesWithCounter(t *testing.T) {
	got, err := tracefile.Read([]byte("nr;y;z\n0;0;1\n1;0;2\n0;1;3\n1;1;4\n"), &tracefile.Hints{Heights: "triples", Row: 2, XUnit: "um", ZUnit: "um"})
	if err != nil || !slices.Equal(got.Profile.Z, []float64{3, 4}) || got.Profile.Spacing != 1 {
		t.Errorf("%+v, %v", got, err)
	}
	_, err = tracefile.Read([]byte("nr;y;z\n0;0;1\n1;0;2\n"), &tracefile.Hints{Heights: "triples", Row: 1})
	if q := tracefile.IsQuestion(err); len(q) != 2 || q[0].Hint != "x_unit" || q[1].Hint != "z_unit" {
		t.Errorf("without units: %v", err)
	}
}

// Slopes are integrated in every arrangement: 1 mrad over 2 µm rises by 2 nm.
func TestIntegrateRows(t *testing.T) {
	for _, hints := range []tracefile.Hints{{Heights: "rows"}, {Heights: "matrix", Row: 1}} {
		hints.Spacing, hints.ZUnit, hints.Integrate = 2, "mrad", true
		got, err := tracefile.Read([]byte("1 1 1\n"), &hints)
		if err != nil || len(got.Profile.Z) != 3 || got.Profile.Z[0] != 0 || got.Profile.Z[2] < 0.00399 || got.Profile.Z[2] > 0.00401 {
			t.Errorf("%+v: %+v, %v", hints, got, err)
		}
	}
}

// The points of an area have x and y: where a spacing is given and no x asked for, there is none.
func TestTriplesWithoutX(t *testing.T) {
	got, err := tracefile.Read([]byte("0 1\n1 2\n2 3\n"), &tracefile.Hints{YColumn: 1, Row: 2, Spacing: 0.5, ZUnit: "um"})
	if !errors.Is(err, tracefile.ErrHint) {
		t.Errorf("%+v, %v", got, err)
	}
}

// A cell cannot hold x and y: the numbers of the next one do not take its place.
func TestOneCellForTwo(t *testing.T) {
	for _, y := range []int{1, 2} {
		got, err := tracefile.Read([]byte("0 1\n1 2\n2 3\n"), &tracefile.Hints{YColumn: y, XUnit: "um", ZUnit: "um"})
		if !errors.Is(err, tracefile.ErrMissingX) {
			t.Errorf("y in column %d of two: %+v, %v", y, got, err)
		}
	}
}
