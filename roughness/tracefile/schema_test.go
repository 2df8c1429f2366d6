package tracefile_test

import (
	"encoding/json"
	"errors"
	"os"
	"slices"
	"strings"
	"testing"

	"example.com/furrow/roughness/tracefile"
)

// The schema of hints names the keys that are read, and no others.
func TestHintsSchema(t *testing.T) {
	text, err := os.ReadFile("hints.schema.json")
	if err != nil {
		t.Fatal(err)
	}
	var schema struct {
		Properties map[string]struct {
			Type    string
			Enum    []string
			Minimum float64
		}
	}
	if err := json.Unmarshal(text, &schema); err != nil {
		t.Fatal(err)
	}
	_, err = tracefile.ParseHints([]byte(`{"none":1}`))
	if err == nil {
		t.Fatal("an unknown key was taken")
	}
	_, list, _ := strings.Cut(err.Error(), "the hints are ")
	keys := strings.Split(list, ", ")
	var named []string
	for key, p := range schema.Properties {
		named = append(named, key)
		for _, v := range p.Enum {
			one, _ := json.Marshal(map[string]string{key: v})
			if _, err := tracefile.ParseHints(one); err != nil {
				t.Errorf("%s: %v", one, err)
			}
		}
		wrong := map[string]string{"integer": `"a"`, "number": `"a"`, "string": `1`, "boolean": `1`, "array": `1`, "": `"nothing of the kind"`}[p.Type]
		if _, err := tracefile.ParseHints([]byte(`{"` + key + `":` + wrong + `}`)); err == nil || !strings.Contains(err.Error(), key) {
			t.Errorf("%s as %s: %v", key, wrong, err)
		}
	}
	slices.Sort(named)
	if !slices.Equal(named, keys) {
		t.Errorf("the schema has %q, the reader %q", named, keys)
	}
}

// What is wrong with hints is told where it stands.
func TestParseHintsPlaces(t *testing.T) {
	for text, column := range map[string]int{
		`{"foo": 1}`:                                    2,
		`{"spacing": "1"}`:                              13,
		`{"spacing":1, "spacing":2}`:                    15,
		`{"x_column": 0}`:                               14,
		`{"z_unit": "µm", "spacing": -1}`:               29,
		`{"z_unit": "furlong"}`:                         12,
		`{"z_unit": "µm", "heights": "sideways"}`:       29,
		`{"x_column": 2, "z_unit": "µm", "z_column":2}`: 44,
		`[1]`:  1,
		`{} 1`: 4,
	} {
		_, err := tracefile.ParseHints([]byte(text))
		var wrong *tracefile.Error
		if !errors.As(err, &wrong) || wrong.Line != 1 || wrong.Column != column {
			t.Errorf("%s: %v, want column %d", text, err, column)
		}
	}
}
