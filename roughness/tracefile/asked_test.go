package tracefile_test

import (
	"encoding/json"
	"errors"
	"fmt"
	"maps"
	"slices"
	"strings"
	"testing"

	"example.com/furrow/roughness/tracefile"
)

// open holds a file for each way of asking; what is before the colon is the hint that is asked for.
var open = map[string]string{
	"x_unit: not said":               "x;z [µm]\n0;1\n0.5;2\n1;1\n",
	"x_unit: said twice":             "x unit: mm\nx [µm];z [µm]\n0;1\n0.5;2\n1;1\n",
	"z_unit: not said":               "x [mm];z\n0;1\n0.5;2\n1;1\n",
	"spacing: not said":              "z [µm]\n1\n2\n1\n",
	"spacing: may come first":        "0.5\n2\n1\n3\n",
	"spacing: length and count":      "2.4\n3\n1\n3\n2\n",
	"spacing: one point":             "x [mm];z [µm]\n0;1\n",
	"x_column: three columns":        "a;b;z [µm]\n0;4;1\n1;3;2\n2;9;1\n",
	"z_column: three columns":        "x [mm];b;c\n0;4;1\n1;3;2\n2;9;1\n",
	"z_column: no names":             "0;4;1\n1;3;2\n2;9;1\n",
	"z_column: many columns":         strings.Repeat("1;", 13) + "2\n" + strings.Repeat("2;", 13) + "1\n",
	"decimal: thousands or decimals": "0;1,234\n1;2,345\n",
	"delimiter: comma twice":         "1,234\n2,345\n3,456\n",
	"heights: one row":               "1;2;3;4;5\n",
	"trace: behind one another":      "x [mm];z [µm]\n0;1\n1;2\n\n0;3\n1;4\n",
	"trace: side by side":            "x [mm];z [µm];x [mm];z [µm]\n0;1;0;2\n1;2;1;3\n2;1;2;4\n",
	"row: x, y and z":                "x [mm];y [mm];z [µm]\n0;0;1\n1;0;2\n0;1;3\n1;1;4\n",
	"row: SDF without Yscale": "aBCR-1.0\nManufacID = test\nCreateDate = 010120261200\nModDate = 010120261200\nNumPoints = 2\nNumProfiles = 2\n" +
		"Xscale = 0.5e-6\nYscale = 0\nZscale = 1.0e-10\nZresolution = 0\nCompression = 0\nDataType = 5\nCheckType = 0\n*\n1 2\n3 4\n*\n",
	"integrate: slopes": "x [mm];slope [mrad]\n0;1\n1;2\n2;1\n",
}

// Every question is answered to the end: at least one answer reads the file, and none is asked for again and again.
func TestQuestionsCanBeAnswered(t *testing.T) {
	seen := map[string]bool{}
	for name, text := range open {
		_, err := tracefile.Read([]byte(text), nil)
		open := tracefile.IsQuestion(err)
		if len(open) == 0 {
			t.Errorf("%s: nothing is asked: %v", name, err)
			continue
		}
		hint, _, _ := strings.Cut(name, ":")
		if !slices.ContainsFunc(open, func(q tracefile.HintQuestion) bool { return q.Hint == hint }) {
			t.Errorf("%s: asked is %v", name, err)
		}
		for _, q := range open {
			read := 0
			for k := range q.Answers {
				err := answer(text, map[string]any{}, q.Hint, k, seen, 6)
				if err == nil {
					read++
				}
				if errors.Is(err, tracefile.ErrOpen) {
					t.Errorf("%s: %s, answer %d: %v", name, q.Text, k+1, err)
				}
			}
			if read == 0 {
				t.Errorf("%s: %s: no answer reads the file", name, q.Text)
			}
		}
	}
	if want := slices.Sorted(slices.Values(tracefile.Asked())); !slices.Equal(want, slices.Sorted(maps.Keys(seen))) {
		t.Errorf("the files ask for %v, a question can ask for %v", slices.Sorted(maps.Keys(seen)), want)
	}
}

// answer answers the question for a hint with its answer k, and every other one with its first.
func answer(text string, given map[string]any, hint string, k int, seen map[string]bool, patience int) error {
	hints, err := json.Marshal(given)
	if err != nil {
		return err
	}
	h, err := tracefile.ParseHints(hints)
	if err != nil {
		return err
	}
	trace, err := tracefile.Read([]byte(text), h)
	open := tracefile.IsQuestion(err)
	if len(open) == 0 {
		if err == nil && len(trace.Profile.Z) == 0 {
			return fmt.Errorf("no heights")
		}
		return err
	}
	if patience == 0 {
		return fmt.Errorf("asked without end: %w", err)
	}
	for _, q := range open {
		seen[q.Hint] = true
		if len(q.Answers) == 0 {
			return fmt.Errorf("%s: no answers", q.Text)
		}
		a := q.Answers[0]
		if q.Hint == hint {
			a = q.Answers[k]
		}
		key := q.Hint
		if a.Hint != "" {
			key = a.Hint
		}
		var value any = 1
		if a.Value != "" {
			if err := json.Unmarshal([]byte(a.Value), &value); err != nil {
				return fmt.Errorf("%s: answer %s: %w", q.Text, a.Value, err)
			}
		}
		given[key] = value
	}
	return answer(text, given, "", 0, seen, patience-1)
}

// A column whose second number counts the points behind it may begin with the length of the trace; one where it does not may only begin
// with the spacing, and one that begins with 0 with neither.
func TestFirstNumbersAsked(t *testing.T) {
	for text, want := range map[string]string{
		"2.4\n3\n1\n4\n2\n": "spacing length-count span-count",
		"2.4\n4\n3\n1\n2\n": "spacing",
		"2.4\n1\n3\n":       "spacing",
		"0\n3\n1\n4\n2\n":   "",
	} {
		_, err := tracefile.Read([]byte(text), &tracefile.Hints{ZUnit: "um"})
		var offered []string
		for _, q := range tracefile.IsQuestion(err) {
			for _, a := range q.Answers {
				if q.Hint == "spacing" && a.Hint == "first" {
					offered = append(offered, strings.Trim(a.Value, `"`))
				}
			}
		}
		if got := strings.Join(offered, " "); got != want || !errors.Is(err, tracefile.ErrOpen) {
			t.Errorf("%q: offered %q, want %q (%v)", text, got, want, err)
		}
	}
}
