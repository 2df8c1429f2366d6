package main

import (
	"bytes"
	"context"
	"encoding/json"
	"os"
	"path/filepath"
	"slices"
	"testing"
)

// The JSON has the keys that its schema names, with and without a limit: those that it requires, and no others.
func TestBatchSchema(t *testing.T) {
	data, err := os.ReadFile("batch.schema.json")
	if err != nil {
		t.Fatal(err)
	}
	type object struct {
		Required   []string
		Properties map[string]json.RawMessage
		Items      json.RawMessage
	}
	var keys func(schema json.RawMessage, v any, at string)
	keys = func(schema json.RawMessage, v any, at string) {
		var o object
		if err := json.Unmarshal(schema, &o); err != nil {
			t.Fatal(err)
		}
		list, _ := v.([]any)
		for _, item := range list {
			keys(o.Items, item, at+"[]")
		}
		members, ok := v.(map[string]any)
		if !ok || o.Properties == nil {
			return
		}
		for name, m := range members {
			if o.Properties[name] == nil {
				t.Fatalf("%s.%s is not in the schema", at, name)
			}
			keys(o.Properties[name], m, at+"."+name)
		}
		for name := range o.Properties {
			if members[name] == nil && slices.Contains(o.Required, name) && name != "mean" && name != "s" && name != "low" && name != "high" {
				t.Errorf("%s.%s is missing", at, name)
			}
		}
	}
	dir, set := folder(t, 2), filepath.Join(t.TempDir(), "s.json")
	write(t, filepath.Dir(set), "s.json", settings)
	for _, args := range [][]string{nil, {"-limit", "Rz <= 8"}} {
		var out, errs bytes.Buffer
		run(context.Background(), append(append([]string{"-json", "-settings", set}, args...), dir), &out, &errs)
		var v map[string]any
		if err := json.Unmarshal(out.Bytes(), &v); err != nil {
			t.Fatal(err, errs.String())
		}
		keys(data, v, "batch")
		if (v["verdict"] != nil) != (args != nil) || len(v["traces"].([]any)) != 3 {
			t.Errorf("%v: %v", args, v["verdict"])
		}
	}
}
