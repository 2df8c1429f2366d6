package tracefile_test

import (
	"encoding/json"
	"errors"
	"flag"
	"fmt"
	"go/ast"
	"go/parser"
	"go/token"
	"os"
	"reflect"
	"strings"
	"testing"
	"unicode"
	"unicode/utf8"

	"example.com/furrow/roughness/tracefile"
)

var updateSchema = flag.Bool("update-schema", false, "write hints.schema.json anew")

// TestHintsSchema: hints.schema.json is what the type Hints and its comments make. Written anew by
// go test ./roughness/tracefile -run HintsSchema -update-schema.
func TestHintsSchema(t *testing.T) {
	want := hintsSchema(t)
	if *updateSchema {
		if err := os.WriteFile("hints.schema.json", []byte(want), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	have, err := os.ReadFile("hints.schema.json")
	if err != nil {
		t.Fatal(err)
	}
	if string(have) != want {
		t.Error("hints.schema.json is not what the type makes: go test ./roughness/tracefile -run HintsSchema -update-schema")
	}
	if !json.Valid(have) {
		t.Error("hints.schema.json is no JSON")
	}
}

func hintsSchema(t *testing.T) string {
	file, err := parser.ParseFile(token.NewFileSet(), "hints.go", nil, parser.ParseComments)
	if err != nil {
		t.Fatal(err)
	}
	var properties []string
	for _, f := range file.Scope.Lookup("Hints").Decl.(*ast.TypeSpec).Type.(*ast.StructType).Fields.List {
		field, _ := reflect.TypeFor[tracefile.Hints]().FieldByName(f.Names[0].Name)
		key, _, _ := strings.Cut(field.Tag.Get("json"), ",")
		said := strings.TrimSpace(f.Comment.Text() + f.Doc.Text())
		first, size := utf8.DecodeRuneInString(said)
		said = string(unicode.ToUpper(first)) + said[size:]
		if said == "" {
			t.Errorf("%s has no comment", field.Name)
		}
		reads := func(value any) error {
			text, _ := json.Marshal(map[string]any{key: value})
			_, err := tracefile.ParseHints(text)
			if err != nil && !strings.Contains(err.Error(), key) {
				t.Errorf("%s: %v does not name it", text, err)
			}
			return err
		}
		kind, wrong := map[reflect.Kind]string{reflect.String: `"type": "string"`, reflect.Int: `"type": "integer", "minimum": 1`, reflect.Bool: `"type": "boolean"`,
			reflect.Float64: `"type": "number", "exclusiveMinimum": 0`, reflect.Slice: `"type": "array", "items": {"type": "string"}`}[field.Type.Kind()], any("a")
		if field.Type.Kind() == reflect.String {
			wrong = 1
		}
		if field.Type.Kind() == reflect.Int && reads(0) == nil {
			kind = strings.Replace(kind, "1", "0", 1)
		}
		if words := strings.Fields(field.Tag.Get("one")); len(words) > 0 {
			list, _ := json.Marshal(words)
			kind, wrong = `"enum": `+strings.ReplaceAll(string(list), `","`, `", "`), "nothing of the kind"
			for _, w := range words {
				if err := reads(w); err != nil {
					t.Error(err)
				}
			}
		}
		if reads(wrong) == nil {
			t.Errorf("%s was taken as %v", key, wrong)
		}
		properties = append(properties, fmt.Sprintf("    %q: {%s, \"description\": %q}", key, kind, said+"."))
	}
	return `{
  "$schema": "https://json-schema.org/draft/2020-12/schema",
  "title": "Hints for a trace file",
  "description": "What a file may leave open. Every key is optional; columns, rows and lines count from 1.",
  "type": "object",
  "additionalProperties": false,
  "properties": {
` + strings.Join(properties, ",\n") + `
  }
}
`
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
