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
	"example.com/furrow/standards"

	"github.com/google/go-cmp/cmp"
)

var update = flag.Bool("update", false, "rewrite settings.schema.json")

// The schema of the settings is made from the table of settings and the list of filters.
func TestSettingsSchema(t *testing.T) {
	want := settingsSchema()
	if record.SettingsSchema == want {
		return
	}
	if !*update {
		t.Fatalf("the schema is out of date: go test ./roughness/record -run SettingsSchema -update (-want +has)\n%s", cmp.Diff(want, record.SettingsSchema))
	}
	if err := os.WriteFile("settings.schema.json", []byte(want), 0o644); err != nil {
		t.Fatal(err)
	}
}

func settingsSchema() string {
	text := `{
 "$schema": "https://json-schema.org/draft/2020-12/schema",
 "$id": "https://example.com/furrow/settings.schema.json",
 "title": "furrow settings, version 1",
 "description": "How a trace is evaluated. All lengths are micrometres; every key is optional.",
 "type": "object",
 "additionalProperties": false,
 "properties": {
  "furrow_settings": {"description": "version of this shape", "type": "integer", "minimum": 1, "maximum": 1},
`
	inside := "" // of which object the row before was a member
	end := func() string { return map[string]string{"gaps": "}\n  }", "choices": "\n   }\n  }"}[inside] }
	for i, row := range roughness.Table() {
		object, key, nested := strings.Cut(row.Key, ".")
		if !nested {
			object, key = "", row.Key
		}
		switch {
		case nested && object == inside:
			text += ",\n    "
		case nested:
			text += end() + ",\n  " + list(object) + ": {\n"
			if object == "choices" {
				text += "   \"description\": \"switches where the text of a standard leaves room; the first word of each is its default\",\n"
			}
			text += "   \"type\": \"object\", \"additionalProperties\": false,\n   \"properties\": {" + map[bool]string{true: "\n    "}[object == "choices"]
		case i > 0:
			text += end() + ",\n  "
		default:
			text += "  "
		}
		inside = object
		text += list(key) + ": " + fieldSchema(&row)
	}
	return text + end() + "\n },\n \"$defs\": {\n  \"filter\": {\n" + filterSchema() + "  }\n }\n}\n"
}

// fieldSchema is the schema of one row by its kind.
func fieldSchema(row *roughness.Setting) string {
	kind := func(name, rule string) string {
		if row.Null {
			return fmt.Sprintf(`"type": [%q, "null"]%s`, name, rule)
		}
		return fmt.Sprintf(`"type": %q%s`, name, rule)
	}
	least := `, "minimum": 0`
	if row.Above {
		least = `, "exclusiveMinimum": 0`
	}
	text := ""
	switch at := row.At(&roughness.Settings{}); {
	case row.Words != nil:
		text = `"enum": ` + list(row.Words)
	default:
		switch at.(type) {
		case *string:
			text = kind("string", "")
		case *bool:
			text = kind("boolean", "")
		case *int:
			text = kind("integer", `, "minimum": 1`)
		case *float64, **float64:
			text = kind("number", least)
		case *[2]float64:
			text = kind("array", `, "items": {"type": "number"`+least+`}, "minItems": 2, "maxItems": 2`)
		case *[]string:
			text = kind("array", `, "items": {"type": "string", "minLength": 1}`)
		case *roughness.Band:
			text = `"anyOf": [{"type": "null"}, {"$ref": "#/$defs/filter"}]`
		case *[]roughness.Exclusion:
			return `{
   "type": "array",
   "items": {
    "type": "object", "additionalProperties": false, "required": ["from", "to"],
    "properties": {"from": {"type": "number"}, "to": {"type": "number"}, "reason": {"type": "string"}}
   }
  }`
		case *roughness.FormSpec:
			return `{
   "type": "object", "additionalProperties": false,
   "properties": {
    "kind": {"enum": ` + list(roughness.FormNames()) + `},
    "degree": {"type": "integer", "minimum": 0, "maximum": 20},
    "radius": {"description": "of the circle; found by the fit when absent", "type": "number"}
   }
  }`
		default:
			panic("a setting of a kind that the schema does not know: " + row.Key)
		}
	}
	if row.Says != "" {
		text = fmt.Sprintf(`"description": %q, `, row.Says) + text
	}
	return "{" + text + "}"
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
	if err := json.Unmarshal([]byte(record.SettingsSchema), &schema); err != nil {
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

// The filters that the editions name are in the list.
func TestFiltersOfEditions(t *testing.T) {
	named := 0
	for _, e := range standards.Editions() {
		for _, key := range []string{e.Short.Name, e.Long.Name, e.Stratified.Name} {
			if key != "" && filter.Find(key) == nil {
				t.Errorf("%s names the filter %q, which there is none of", e.ID, key)
			} else if key != "" {
				named++
			}
		}
	}
	if named < 10 {
		t.Errorf("the editions name %d filters", named)
	}
}
