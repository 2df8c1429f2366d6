package record_test

import (
	"encoding/json"
	"strings"
	"testing"

	"example.com/furrow/params"
	"example.com/furrow/roughness"
	"example.com/furrow/roughness/record"
)

// Every word of every switch is read, written again and allowed by the schema, which lists those words and no others.
func TestChoices(t *testing.T) {
	var schema struct {
		Properties struct {
			Choices struct {
				Properties map[string]struct{ Enum []string }
			}
		}
	}
	if err := json.Unmarshal([]byte(record.SettingsSchema), &schema); err != nil {
		t.Fatal(err)
	}
	listed := schema.Properties.Choices.Properties
	switches := params.Switches()
	if want := len(switches) + 2; len(listed) != want { // stratified_filter and skid belong to package roughness
		t.Errorf("the schema has %d switches, want %d", len(listed), want)
	}
	for _, sw := range switches {
		if n := len(listed[sw.Key].Enum); n != len(sw.Options) {
			t.Errorf("%s: the schema has %d words, want %d", sw.Key, n, len(sw.Options))
		}
		for i, o := range sw.Options {
			text := `{"parameters": ["Rt"], "choices": {"` + sw.Key + `": "` + o.Word + `"}}`
			s, err := record.ParseSettings([]byte(text))
			if err != nil {
				t.Fatal(err)
			}
			if listed[sw.Key].Enum[i] != o.Word {
				t.Errorf("%s: the schema has %q, want %q", sw.Key, listed[sw.Key].Enum[i], o.Word)
			}
			e, err := roughness.Evaluate(demo(), s)
			if err != nil {
				t.Fatal(err)
			}
			again, err := record.ParseSettings(record.AppendSettings(nil, &e.Settings, ""))
			if err != nil || again.Choices.Get(sw.Key) != o.Word {
				t.Errorf("%s: written and read again: %+v, %v", text, again, err)
			}
		}
	}
}

// A cut-off without a kind of filter is read as that, written as that, and leaves the kind to the edition.
func TestCutoffWithoutKind(t *testing.T) {
	s, err := record.ParseSettings([]byte(`{"long": {"cutoff": 250}}`))
	if err != nil {
		t.Fatal(err)
	}
	if s.Long != (roughness.Band{Spec: roughness.FilterSpec{Cutoff: 250}}) {
		t.Errorf("read as %+v", s.Long)
	}
	if b := record.AppendSettings(nil, s, ""); !strings.Contains(string(b), `"long": {"cutoff": 250},`) {
		t.Errorf("written as %s", b)
	}
}

// The note of a value is a key of its own, and the reason is empty beside a value.
func TestValueNote(t *testing.T) {
	p := demo()
	e, err := roughness.Evaluate(p, &roughness.Settings{Parameters: []string{"RPc(0.5,-0.5)", "Ra"}})
	if err != nil {
		t.Fatal(err)
	}
	b := record.AppendResult(nil, e, nil)
	if err := validate(record.ResultSchema, b); err != nil {
		t.Error(err)
	}
	var got struct {
		Values []struct {
			Value        *float64
			Reason, Note *string
		}
	}
	if err := json.Unmarshal(b, &got); err != nil {
		t.Fatal(err)
	}
	for i, want := range []bool{true, false} {
		v := got.Values[i]
		if v.Value == nil || v.Note == nil || v.Reason == nil || *v.Reason != "" || (*v.Note != "") != want {
			t.Errorf("value %d: %+v", i, v)
		}
	}
}
