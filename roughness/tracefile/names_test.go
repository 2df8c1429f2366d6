package tracefile_test

import "testing"

// What a line above the rows may settle, and what it may not: a comma in a title or in a value says nothing about the rows.
func TestNames(t *testing.T) {
	for _, c := range []struct{ name, text, hints, want string }{
		{"title with a comma", "Shaft 7, ground\n1,5\n2,25\n3,75\n", z1, "2:1 ask delimiter decimal"},
		{"title without", "Shaft 7 ground\n1,5\n2,25\n3,75\n", z1, "2:1 ask delimiter decimal"},
		{"title with a word that columns have", "Profile 7, ground\n1,5\n2,25\n", z1, "2:1 ask delimiter decimal"},
		{"title with a length", "Length 100 mm, height 20 mm\n1,5\n2,25\n", z1, "2:1 ask delimiter decimal"},
		{"title of one name", "Rod profile 3\n0,50\n1,53\n", z1, "2:1 ask delimiter decimal"},
		{"statement with a comma", "Part = shaft, ground\nSpacing = 1 µm\nZ unit = µm\n1,5\n2,5\n3,5\n", "", "4:1 ask delimiter decimal"},
		{"value with a decimal comma", "Spacing = 0,5 µm\n1,5\n2,5\n", z1, "2:1 ask delimiter decimal"},
		{"value with a decimal comma, unit of x", "Spacing = 0,5 µm\n1,5\n2,7\n3,1\n", xz, "2:1 ask delimiter decimal"},
		{"title over grouping or mark", "Shaft 7; ground\n0;1,234\n1;2,345\n", xz, "2:3 ask decimal"},
		{"names with units", "x [µm],z [µm]\n1,5\n2,25\n", "", "1: 5 25"},
		{"names", "x,z\n1,5\n2,25\n", xz, "1: 5 25"},
		{"names in words", "pos,height\n1,5\n2,25\n", xz, "1: 5 25"},
		{"names with a blank", "pos, height\n1,5\n2,25\n", xz, "1: 5 25"},
		{"names round an empty column", "x [µm];;z [µm]\n0;;1,234\n1;;2,345\n", "", "1: 1.234 2.345"},
		{"title with a comma behind it", "Profile,\n1,5\n2,25\n", z1, "2:1 ask delimiter decimal"},
		{"a name and its unit", "Height, µm\n1,5\n2,25\n", `{"spacing":1}`, "1: 1.5 2.25"},
		{"units alone", "µm,µm\n1,5\n2,25\n", "", "1: 5 25"},
		{"plain names", "a,b\n1,5\n2,25\n", xz, "1: 5 25"},

		{"decimal comma stated above one name", "Spacing = 0,5 µm\nz [µm]\n1,5\n2,5\n3,5\n", "", "0.5: 1.5 2.5 3.5"},
		{"result with a decimal comma", "Rz = 0,5 µm\nz [µm]\n1,5\n2,5\n3,5\n", `{"spacing":1}`, "1: 1.5 2.5 3.5"},
		{"feed with a decimal comma", "Vorschub 0,1 mm\nz [µm]\n1,5\n2,5\n3,5\n", `{"spacing":1}`, "1: 1.5 2.5 3.5"},
		{"statements in cells", "Spacing;0,5 µm\nPoints;3\nz [µm]\n1,5\n2,5\n3,5\n", "", "0.5: 1.5 2.5 3.5"},
	} {
		t.Run(c.name, func(t *testing.T) {
			if got := outcome(c.text, c.hints); got != c.want {
				t.Errorf("%q with %s:\n got %s\nwant %s", c.text, c.hints, got, c.want)
			}
		})
	}
}
