package record_test

import (
	"bytes"
	"encoding/json"
	"flag"
	"fmt"
	"os"
	"slices"
	"strings"
	"testing"

	"example.com/furrow/filter"
	"example.com/furrow/roughness"
	"example.com/furrow/roughness/record"
)

var update = flag.Bool("update", false, "rewrite the filter in settings.schema.json")

// The schema of a filter in settings is made from the list of filters.
func TestFilterSchema(t *testing.T) {
	const begin = "  \"filter\": {\n"
	before, after, ok := strings.Cut(string(record.SettingsSchema), begin)
	if !ok {
		t.Fatalf("the schema has no %q", begin)
	}
	want := before + begin + filterSchema() + "  }\n }\n}\n"
	if before+begin+after == want {
		return
	}
	if !*update {
		t.Fatalf("the schema is out of date: go test ./roughness/record -run FilterSchema -update\nit has\n%swant\n%s", after, filterSchema())
	}
	if err := os.WriteFile("settings.schema.json", []byte(want), 0o644); err != nil {
		t.Fatal(err)
	}
}

func filterSchema() string {
	var keys, ends []string
	for _, f := range filter.All() {
		keys = append(keys, f.Key)
	}
	for _, e := range filter.EndTreatments() {
		ends = append(ends, e.Key)
	}
	lines := []string{fmt.Sprintf(`"filter": {"enum": %s}`, list(keys))}
	for _, o := range filter.Options() {
		kind := "number"
		if o.Whole {
			kind = "integer"
		}
		rule := fmt.Sprintf(`"type": %q`, kind)
		switch {
		case o.Word:
			rule = `"enum": ` + list(ends)
		case o.Values != nil:
			rule = `"enum": ` + list(o.Values)
		case o.Above:
			rule += fmt.Sprintf(`, "exclusiveMinimum": %g`, o.Least)
		default:
			rule += fmt.Sprintf(`, "minimum": %g`, o.Least)
		}
		if o.Most > 0 && o.Below {
			rule += fmt.Sprintf(`, "exclusiveMaximum": %g`, o.Most)
		} else if o.Most > 0 {
			rule += fmt.Sprintf(`, "maximum": %g`, o.Most)
		}
		lines = append(lines, fmt.Sprintf(`%q: {"description": %q, %s}`, o.Key, o.Says, rule))
	}
	return "   \"type\": \"object\", \"additionalProperties\": false,\n   \"properties\": {\n    " + strings.Join(lines, ",\n    ") + "\n   }\n"
}

// list prints a list as JSON does, with blanks.
func list(v any) string {
	text, err := json.Marshal(v)
	if err != nil {
		panic(err)
	}
	return string(bytes.ReplaceAll(text, []byte(","), []byte(", ")))
}

// What the ranges refuse, the schema and the evaluation refuse, and nothing else.
func TestFilterRanges(t *testing.T) {
	var schema map[string]any
	if err := json.Unmarshal(record.SettingsSchema, &schema); err != nil {
		t.Fatal(err)
	}
	for _, f := range filter.All() {
		for _, o := range filter.Options() {
			if o.Word || o.Length() || !slices.Contains(f.Options, o.Key) {
				continue
			}
			for _, v := range []float64{-1, 0.5, 1, 1.5, 2, 4, 4.5, 50, 75, 76, 10000, 20000} {
				text := fmt.Sprintf(`{"long": {"filter": %q, %q: 800, %q: %v}}`, f.Key, f.Size(), o.Key, v)
				var value any
				if err := json.Unmarshal([]byte(text), &value); err != nil {
					t.Fatal(err)
				}
				if err := conforms(schema, schema, value, ""); (err == nil) != o.Holds(v) {
					t.Errorf("%s must be %s; the schema says of it: %v", text, o.Range(), err)
				}
				settings, err := record.ParseSettings([]byte(text))
				if err == nil {
					_, err = roughness.Complete(settings)
				}
				if (err == nil) != o.Holds(v) {
					t.Errorf("%s must be %s; the settings say: %v", text, o.Range(), err)
				}
			}
		}
	}
}
