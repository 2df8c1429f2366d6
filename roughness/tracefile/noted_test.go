package tracefile_test

import (
	"strings"
	"testing"

	"example.com/furrow/roughness/tracefile"
)

// A hint that says nothing about a file is left out with a note, never without a word.
func TestUnusedHints(t *testing.T) {
	files := small(t)
	for _, c := range []struct{ file, hints, left string }{
		{"x3p", `{"x_unit": "mm", "decimal": ","}`, "x_unit, decimal"},
		{"smd", `{"z_column": 2, "skip_lines": 3, "missing": ["0"], "first": "spacing", "integrate": true}`, "z_column, skip_lines, missing, first, integrate"},
		{"sdf-text", `{"spacing": 3, "resample": true, "heights": "rows", "blank_lines": "skip"}`, "heights, blank_lines, spacing, resample"},
		{"sdf-binary", `{"delimiter": ";", "y_column": 3, "x_column": 1, "z_unit": "nm"}`, "z_unit, delimiter, x_column, y_column"},
		{"x3p", `{"row": 1, "trace": 1, "skip_lines": 0}`, ""},
	} {
		h, err := tracefile.ParseHints([]byte(c.hints))
		if err != nil {
			t.Fatal(err)
		}
		plain, err := tracefile.Read(files[c.file], nil)
		if err != nil {
			t.Fatal(err)
		}
		trace, err := tracefile.Read(files[c.file], h)
		if err != nil {
			t.Errorf("%s %s: %v", c.file, c.hints, err)
			continue
		}
		if show(trace) != show(plain) {
			t.Errorf("%s %s: %s, without hints %s", c.file, c.hints, show(trace), show(plain))
		}
		got := ""
		for _, n := range trace.Notes {
			if n.Code == "hints-unused" {
				got = strings.TrimSuffix(n.Text[strings.IndexByte(n.Text, ':')+2:], ".")
			}
		}
		if got != c.left {
			t.Errorf("%s %s: left out %q, want %q", c.file, c.hints, got, c.left)
		}
	}
}

// A list of missing marks has an end, for each cell is held against all of them.
func TestMissingMarks(t *testing.T) {
	for n, ok := range map[int]bool{100: true, 101: false} {
		_, err := tracefile.ParseHints([]byte(`{"missing": ["1"` + strings.Repeat(`,"1"`, n-1) + `]}`))
		if (err == nil) != ok {
			t.Errorf("%d marks: %v", n, err)
		}
	}
}

// Where blanks part the cells, a first line such as "0 rod" may be a title or a row gone wrong: it is a title, with a note.
func TestTitleLikeARow(t *testing.T) {
	um := &tracefile.Hints{XUnit: "um", ZUnit: "um"}
	for text, line := range map[string]string{
		"0 rod\n1 2\n2 3\n":                  "Line 1,",
		"some words here\n0 rod\n1 2\n2 3\n": "Line 2,",
		"rod 0\n1 2\n2 3\n":                  "",
		"0 rods of steel\n1 2\n2 3\n":        "",
		"# 0 rod\n1 2\n2 3\n":                "",
		"0 rod\nx_um z_um\n1 2\n2 3\n":       "",
		"x_um z_um\n1 2\n2 3\n":              "",
	} {
		trace, err := tracefile.Read([]byte(text), um)
		if err != nil {
			t.Errorf("%q: %v", text, err)
			continue
		}
		got := ""
		for _, n := range trace.Notes {
			if n.Code == "title" {
				got = n.Text
			}
		}
		if len(trace.Profile.Z) != 2 || !strings.HasPrefix(got, line) || line == "" && got != "" {
			t.Errorf("%q: %d points, note %q, want one for %q", text, len(trace.Profile.Z), got, line)
		}
	}
}
