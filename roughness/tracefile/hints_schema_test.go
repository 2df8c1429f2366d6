package tracefile_test

import (
	"encoding/json"
	"os"
	"reflect"
	"strings"
	"testing"

	"example.com/furrow/roughness/tracefile"
)

// The schema names the keys that the reader takes, with values that it takes, and no others.
func TestHintsSchema(t *testing.T) {
	data, err := os.ReadFile("hints.schema.json")
	if err != nil {
		t.Fatal(err)
	}
	var schema struct {
		Properties map[string]struct {
			Type string
			Enum []string
		}
	}
	if err := json.Unmarshal(data, &schema); err != nil {
		t.Fatal(err)
	}
	fields := reflect.TypeFor[tracefile.Hints]()
	for i := range fields.NumField() {
		key, _, _ := strings.Cut(fields.Field(i).Tag.Get("json"), ",")
		if _, ok := schema.Properties[key]; !ok {
			t.Errorf("the schema lacks %s", key)
		}
	}
	if len(schema.Properties) != fields.NumField() {
		t.Errorf("the schema has %d keys, the hints %d", len(schema.Properties), fields.NumField())
	}
	for key, p := range schema.Properties {
		for _, v := range p.Enum {
			h, err := tracefile.ParseHints([]byte(`{"` + key + `": ` + string(must(json.Marshal(v))) + `}`))
			if err != nil || h == nil {
				t.Errorf("%s %q: %v", key, v, err)
			}
		}
	}
}

func must(b []byte, err error) []byte {
	if err != nil {
		panic(err)
	}
	return b
}
