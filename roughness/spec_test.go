package roughness_test

import (
	"encoding/json"
	"slices"
	"testing"

	"example.com/furrow/filter"
	"example.com/furrow/roughness"
	"example.com/furrow/roughness/record"
)

// The filters that settings can state are those that the filter room lists, and those that the schema names.
func TestFilterNames(t *testing.T) {
	var listed []string
	for _, f := range filter.All() {
		listed = append(listed, f.Key)
	}
	slices.Sort(listed)
	if names := roughness.FilterNames(); !slices.Equal(names, listed) {
		t.Errorf("settings know %v, the filters are %v", names, listed)
	}
	var schema struct {
		Defs struct {
			Filter struct {
				Properties struct {
					Filter, Ends struct{ Enum []string }
				}
			}
		} `json:"$defs"`
	}
	if err := json.Unmarshal(record.SettingsSchema, &schema); err != nil {
		t.Fatal(err)
	}
	enum := schema.Defs.Filter.Properties.Filter.Enum
	slices.Sort(enum)
	if !slices.Equal(enum, listed) {
		t.Errorf("the schema names %v, the filters are %v", enum, listed)
	}
	if ends := schema.Defs.Filter.Properties.Ends.Enum; !slices.Equal(ends, roughness.EndNames) {
		t.Errorf("the schema names the ends %v, settings %v", ends, roughness.EndNames)
	}
}
