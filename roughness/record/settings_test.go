package record_test

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"reflect"
	"strings"
	"testing"

	"example.com/furrow/roughness"
	"example.com/furrow/roughness/record"
	"example.com/furrow/roughness/synth"

	"github.com/google/go-cmp/cmp"
	"github.com/google/go-cmp/cmp/cmpopts"
)

// Every key of the contract, as a reader would write them.
const full = `{
 "furrow_settings": 1,
 "name": "rod 7",
 "edition": "iso-21920",
 "profile": "R",
 "input": "raw",
 "invert": true, "crop": [100, 0],
 "exclude": [{"from": 1200, "to": 1230, "reason": "pore"}],
 "gaps": {"bridge": 10},
 "form": {"kind": "polynomial", "degree": 2},
 "short": {"filter": "gaussian", "cutoff": 2.5},
 "long":  {"filter": "gaussian", "cutoff": 800, "ends": "discard", "discard_length": 300},
 "waviness_limit": null,
 "sections": 4, "section": 800, "start": 600,
 "choices": {"rsm_threshold": "rp-rv"},
 "parameters": ["Ra", "Rz", "Rmr(0.5)"]
}`

func TestParseSettings(t *testing.T) {
	s, err := record.ParseSettings([]byte(full))
	if err != nil {
		t.Fatal(err)
	}
	bridge, start := 10.0, 600.0
	want := &roughness.Settings{
		Name: "rod 7", Edition: "iso-21920", Profile: roughness.R, Invert: true, Crop: [2]float64{100, 0},
		Exclude: []roughness.Exclusion{{From: 1200, To: 1230, Reason: "pore"}}, Bridge: &bridge,
		Form:     roughness.FormSpec{Kind: "polynomial", Degree: 2},
		Short:    roughness.Band{Spec: roughness.FilterSpec{Filter: "gaussian", Cutoff: 2.5}},
		Long:     roughness.Band{Spec: roughness.FilterSpec{Filter: "gaussian", Cutoff: 800, Ends: "discard", DiscardLength: 300}},
		Sections: 4, SectionLength: 800, Start: &start, Parameters: []string{"Ra", "Rz", "Rmr(0.5)"},
	}
	if d := cmp.Diff(want, s); d != "" {
		t.Errorf("settings differ (-want +got):\n%s", d)
	}
	if s, err := record.ParseSettings([]byte("{}")); err != nil || !reflect.DeepEqual(s, &roughness.Settings{}) {
		t.Errorf("an empty object gives %+v, %v", s, err)
	}
}

// The spot of each fault is marked by ‹ in the text, which is taken out before parsing.
func TestParseSettingsErrors(t *testing.T) {
	for _, c := range []struct{ text, key, says string }{
		{"{\n ‹\"cutoff\": 5}", "cutoff", "no such key"},
		{`{"long": {"filter": "gaussian", ‹"cut": 800}}`, "long.cut", "no such key"},
		{`{"profile": ‹"S"}`, "profile", "must be"},
		{"{\n \"name\": \"é\", \"sections\": ‹2.5}", "sections", "whole number"},
		{`{"sections": ‹0}`, "sections", "1 or more"},
		{`{"section": ‹-3}`, "section", "above 0"},
		{`{"section": ‹1e400}`, "section", "out of range"},
		{`{"crop": ‹[1]}`, "crop", "two lengths"},
		{`{"exclude": [‹{"from": 1, "reason": "pore"}]}`, "exclude[0]", "the key to is missing"},
		{`{"parameters": ["Ra", ‹5]}`, "parameters[1]", "name in quotes"},
		{`{"input": ‹"cooked"}`, "input", "raw"},
		{`{"furrow_settings": ‹2}`, "furrow_settings", "version 2"},
		{`{"choices": {"rsm_threshold": ‹"round"}}`, "choices.rsm_threshold", "rsm_threshold"},
		{`{"choices": {"nothing": ‹"x"}}`, "choices.nothing", "nothing"},
		{`{"name": "a", ‹"name": "b"}`, "name", "twice"},
		{`{"name": "a"} ‹{}`, "", "after the end"},
		{`{"name": "a"‹`, "", "too early"},
		{"{\n\"name\": ‹tru}", "", "invalid"},
		{`‹[]`, "", "object"},
		{`‹`, "", "too early"},
	} {
		mark := strings.Index(c.text, "‹")
		line := 1 + strings.Count(c.text[:mark], "\n")
		column := 1 + len([]rune(c.text[strings.LastIndex(c.text[:mark], "\n")+1:mark]))
		_, err := record.ParseSettings([]byte(strings.Replace(c.text, "‹", "", 1)))
		var e *record.DocumentError
		if !errors.As(err, &e) {
			t.Errorf("%s: error %v", c.text, err)
			continue
		}
		// A syntax error is found at the character that ends the word.
		near := e.Column == column || c.says == "invalid" && e.Column >= column-1 && e.Column <= column+3
		if e.Line != line || !near || e.Key != c.key || !strings.Contains(e.Error(), c.says) {
			t.Errorf("%s: %q at %d:%d, want %q with %q at %d:%d", c.text, e, e.Line, e.Column, c.key, c.says, line, column)
		}
	}
}

// A document is as long and as deep as it may be, or it is refused.
func TestDocumentBounds(t *testing.T) {
	for _, c := range []struct {
		most       int
		text, says string // with % where a number of signs stands
	}{
		{100, `{"%": 1}`, "a key of more than 100 characters"}, {1000, `{"name": "%"}`, "a text of more than 1000 characters"}, {400, `{"sections": %}`, "a number of more than 400 characters"},
		{1 << 20, "%", "the document has more than 1048576 bytes"},
	} {
		for n := c.most - 1; n <= c.most+1; n++ {
			text := strings.Replace(c.text, "%", strings.Repeat("1", n), 1)
			if c.text == "%" {
				text = "{}" + strings.Repeat(" ", n-2)
			}
			if _, err := record.ParseSettings([]byte(text)); n > c.most != (err != nil && strings.Contains(err.Error(), c.says)) {
				t.Errorf("%d signs in %s: %.80s", n, c.text, fmt.Sprint(err))
			}
		}
	}
	for depth := 30; depth < 36; depth++ {
		_, err := record.ParseSettings([]byte(`{"name": ` + strings.Repeat("[", depth-1) + strings.Repeat("]", depth-1) + "}"))
		if deep := err != nil && strings.Contains(err.Error(), "nested too deeply"); deep != (depth > 33) {
			t.Errorf("depth %d: %v", depth, err)
		}
	}
}

func demo() roughness.Profile {
	d := synth.Demos()[0]
	return roughness.Profile{Z: d.Heights(), Spacing: d.Spacing, Name: d.Title}
}

// The settings of a result are complete and valid, give the same result again, and stay the same byte for byte.
func TestResultReproduces(t *testing.T) {
	for _, text := range []string{`{}`, full, `{"profile": "P"}`, `{"profile": "W", "waviness_limit": 2500}`, `{"input": "filtered", "sections": 3}`,
		`{"edition": "iso-4287"}`, `{"edition": "jis-b0601-1982"}`, `{"edition": "iso-12085"}`, `{"long": null}`,
		`{"long": {"filter": "spline", "cutoff": 800}}`, `{"choices": {"stratified_filter": "long"}}`} {
		s, err := record.ParseSettings([]byte(text))
		if err != nil {
			t.Fatal(err)
		}
		e, err := roughness.Evaluate(demo(), s)
		if err != nil {
			t.Errorf("%s: %v", text, err)
			continue
		}
		first := record.AppendResult(nil, e, nil)
		if err := validate(record.ResultSchema, first); err != nil {
			t.Errorf("%s: result: %v", text, err)
		}
		complete := record.AppendSettings(nil, &e.Settings, "")
		if err := validate(record.SettingsSchema, complete); err != nil {
			t.Errorf("%s: settings: %v", text, err)
		}
		again, err := record.ParseSettings(complete)
		if err != nil {
			t.Errorf("%s: its own settings: %v\n%s", text, err, complete)
			continue
		}
		e2, err := roughness.Evaluate(demo(), again)
		if err != nil {
			t.Errorf("%s: again: %v", text, err)
			continue
		}
		second := record.AppendResult(nil, e2, nil)
		cut := func(b []byte) []byte {
			return b[bytes.Index(b, []byte("\n \"profile\": {\n")):bytes.Index(b, []byte(`"notes"`))]
		}
		if d := cmp.Diff(string(cut(first)), string(cut(second))); d != "" {
			t.Errorf("%s: the result's own settings give another result (-first +second):\n%s", text, d)
		}
	}
}

// What is known of the tracing stands in the result, and what is not known does not.
func TestResultTraced(t *testing.T) {
	for _, c := range []struct {
		traced roughness.Traced
		want   string
	}{
		{roughness.Traced{}, "null"},
		{roughness.Traced{Skid: roughness.WithoutSkid, TipRadius: 2}, `{"skid": "without", "tip_radius": 2}`},
		{roughness.Traced{Instrument: "bench 3", Skid: roughness.WithSkid, TipRadius: 5, ConeAngle: 90, Force: 0.75, Speed: 0.5, Direction: "across", Place: "rod, 200 mm from the eye", Date: "2026-03-02"},
			`{"instrument": "bench 3", "skid": "with", "tip_radius": 5, "cone_angle": 90, "force": 0.75, "speed": 0.5, "direction": "across", "place": "rod, 200 mm from the eye", "date": "2026-03-02"}`},
	} {
		p := demo()
		p.Traced = c.traced
		e, err := roughness.Evaluate(p, nil)
		if err != nil {
			t.Fatal(err)
		}
		b := record.AppendResult(nil, e, nil)
		if err := validate(record.ResultSchema, b); err != nil {
			t.Error(err)
		}
		var got struct{ Traced any }
		var want any
		if err := errors.Join(json.Unmarshal(b, &got), json.Unmarshal([]byte(c.want), &want)); err != nil {
			t.Fatal(err)
		}
		if d := cmp.Diff(want, got.Traced); d != "" {
			t.Errorf("%+v (-want +got):\n%s", c.traced, d)
		}
	}
}

// Whatever stands in a settings file: it is read, or refused with a place and in few words. What was read is the
// same when it is read again; and the complete settings that an evaluation makes of it are written, read back and written as the same.
func FuzzSettings(f *testing.F) {
	f.Add([]byte(full))
	for _, text := range []string{
		`{"long": null, "short": {"filter": "spline", "cutoff": 3}}`,
		`{"edition": "iso-12085", "profile": "P", "sections": 3, "section": 800, "start": 0}`,
		`{"long": {"cutoff": 800, "ends": "discard", "discard_length": 400}, "waviness_limit": 8000, "choices": {"rsm_threshold": "rp-rv"}}`,
		`{"form": {"kind": "circle", "radius": 5000}, "exclude": [{"from": 1, "to": 2, "reason": "pore"}], "gaps": {"bridge": 10}, "crop": [0, 1]}`,
		`{"parameters": ["Ra", "Rmr(0.5)", "Rdc(2,50)", "RPc(0.5,-0.5)"], "invert": true, "input": "filtered"}`,
		`{"form": {"kind": "polynomial", "degree": 3}, "long": {"filter": "robust-gaussian", "order": 2, "tolerance": 1e-6, "passes": 20, "cutoff": 1e300}}`,
	} {
		f.Add([]byte(text))
	}
	f.Fuzz(func(t *testing.T, data []byte) {
		s, err := record.ParseSettings(data)
		if err != nil {
			var e *record.DocumentError
			if !errors.As(err, &e) || e.Line < 1 || e.Column < 1 || e.Line > 1+bytes.Count(data, []byte("\n")) {
				t.Errorf("error without a place: %v", err)
			}
			if len(err.Error()) > 2000 {
				t.Errorf("error of %d bytes: %.200v", len(err.Error()), err)
			}
			return
		}
		if same, err := record.ParseSettings(data); err != nil || cmp.Diff(s, same, cmpopts.EquateEmpty()) != "" {
			t.Errorf("%q read twice: %v", data, err)
		}
		e, _ := roughness.Evaluate(roughness.Profile{Spacing: 1}, s) // an empty trace has no values, but complete settings
		if e == nil {
			return // settings that contradict each other
		}
		written := record.AppendSettings(nil, &e.Settings, "")
		again, err := record.ParseSettings(written)
		if err != nil {
			t.Fatalf("%q was written as %s: %v", data, written, err)
		}
		if d := cmp.Diff(&e.Settings, again, cmpopts.EquateEmpty()); d != "" {
			t.Errorf("%q was written as %s and came back as another (-written +read):\n%s", data, written, d)
		}
		if twice := record.AppendSettings(nil, again, ""); !bytes.Equal(written, twice) {
			t.Errorf("written as %s and then as %s", written, twice)
		}
	})
}

// A record whose limits have settings of their own gives those of the limit that is asked for, and refuses where two limits of it differ.
func TestSettingsOfALimit(t *testing.T) {
	limit := func(text string) []byte {
		s := rod()
		s.Settings, s.Asked, s.Budget = nil, record.Asked{Text: text, Edition: "iso-4287"}, nil
		return record.AppendRecord(nil, made(t, s))
	}
	data := limit("-0,8/Ra 1,6; -0,25/Rz 6,3")
	for symbol, want := range map[string]float64{"Ra": 800, "Rz": 250, "Rq": 800} {
		s, err := record.SettingsFor(data, symbol)
		if err != nil || s.Long.Spec.Cutoff != want {
			t.Errorf("%s: %+v, %v", symbol, s, err)
		}
	}
	data = limit("U -0,8/Rz 6,3; U -0,25/Rz 3,2; -0,8/Ra 1,6")
	_, err := record.SettingsFor(data, "Rz")
	if e, ok := errors.AsType[*record.DocumentError](err); !ok || e.Key != "verdict" || !strings.Contains(err.Error(), "the limits of Rz") {
		t.Errorf("two limits of Rz with different settings: %v", err)
	}
	if s, err := record.SettingsFor(data, "Ra"); err != nil || s.Long.Spec.Cutoff != 800 {
		t.Errorf("Ra: %+v, %v", s, err)
	}
	if s, err := record.SettingsFor([]byte(`{"long": {"cutoff": 250}}`), "Ra"); err != nil || s.Long.Spec.Cutoff != 250 {
		t.Errorf("a settings file: %+v, %v", s, err)
	}
	if _, err := record.SettingsFor([]byte(`{"lang": 1}`), "Ra"); err == nil {
		t.Error("an unknown key is read")
	}
}

// A document of endless keys, texts, numbers or length is refused in few words.
func TestEndlessSettings(t *testing.T) {
	long := strings.Repeat("b", 1<<19)
	deep := strings.Repeat(`{"`+strings.Repeat("k", 100)+`":`, 40)
	for _, text := range []string{
		`{"` + long + `": 1}`, `{"long": {"` + long + `": 1}}`, `{"choices": {"` + long + `": "x"}}`, deep,
		`{"edition": "` + long + `"}`, `{"parameters": ["` + long + `"]}`, `{"choices": {"rsm_threshold": "` + long + `"}}`,
		`{"long": {"filter": "` + long + `"}}`, `{"sections": ` + strings.Repeat("1", 1<<19) + `}`,
		`{"name": "` + long + long + `"}`, strings.Repeat(" ", 1<<20) + "{}", strings.Repeat("[", 1<<19), long,
	} {
		_, err := record.ParseSettings([]byte(text))
		var e *record.DocumentError
		if !errors.As(err, &e) || len(err.Error()) > 5000 {
			t.Errorf("%.40q: %.200v", text, err)
		}
	}
	if _, err := record.ParseSettings([]byte(`{"name": "` + strings.Repeat("ä", 1000) + `"}`)); err != nil {
		t.Errorf("a name of 1000 letters: %v", err)
	}
}
