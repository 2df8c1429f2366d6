package main

import (
	"encoding/json"
	"strings"
	"testing"

	"example.com/furrow/roughness"
	"example.com/furrow/roughness/record"
	"example.com/furrow/standards"
)

// verdictOf runs the command and returns the verdict of its JSON.
func verdictOf(t *testing.T, args ...string) (word, rule string, log []string) {
	t.Helper()
	code, out, errs := call(t, "", nil, append([]string{"-json"}, args...)...)
	if code != 0 {
		t.Fatalf("%v: state %d, %s", args, code, errs)
	}
	var r struct {
		Verdict struct {
			Word, Rule string
			Log        []struct{ Text string }
		}
	}
	if err := json.Unmarshal([]byte(out), &r); err != nil {
		t.Fatal(err)
	}
	for _, l := range r.Verdict.Log {
		log = append(log, l.Text)
	}
	return r.Verdict.Word, r.Verdict.Rule, log
}

// The demonstration trace has Rz 2.92 µm.
func TestLimit(t *testing.T) {
	for _, c := range []struct {
		args []string
		word string
		rule string
	}{
		{[]string{"-limit", "Rz <= 3.2"}, "Conforms", "max"},
		{[]string{"-limit", "Rz <= 3,2", "-rule", "max"}, "Conforms", "max"},
		{[]string{"-limit", "Rz ≤ 2.9"}, "Does not conform", "max"},
		{[]string{"-limit", "Rz >= 3"}, "Does not conform", "max"},
		{[]string{"-limit", "Rz <= 3.2; Rz >= 1"}, "Conforms", "max"},
		{[]string{"-limit", "Rz <= 6.3", "-rule", "16%"}, "Conforms", "16%"},    // at most 70 % of the limit: accepted at the first value
		{[]string{"-limit", "Rz <= 3.2", "-rule", "16%"}, "Not decided", "16%"}, // above 70 %: three are needed
		{[]string{"-limit", "Rz <= 3.2", "-rule", "median"}, "Not decided", "median"},
		{[]string{"-callout", "Rz 3,2"}, "Conforms", "max"},
		{[]string{"-callout", "Rz 2,5"}, "Does not conform", "max"},
		{[]string{"-callout", "Rz 3,2 T16%"}, "Not decided", "16%"},
	} {
		word, rule, log := verdictOf(t, c.args...)
		if word != c.word || rule != c.rule || len(log) == 0 {
			t.Errorf("%v: %q by %q, want %q by %q; log %q", c.args, word, rule, c.word, c.rule, log)
		}
	}
}

// The verdict is the library's.
func TestLimitAsLibrary(t *testing.T) {
	trace, err := readTrace(&options{}, nil)
	if err != nil {
		t.Fatal(err)
	}
	e, err := roughness.Evaluate(trace.Profile, nil)
	if err != nil {
		t.Fatal(err)
	}
	v, _ := e.Value("Rz")
	bounds, err := roughness.ParseLimits("Rz <= 3.2")
	if err != nil {
		t.Fatal(err)
	}
	for _, rule := range []standards.Rule{standards.Maximum, standards.SixteenPercent, standards.Median} {
		want, err := roughness.Judge([]roughness.Value{v}, bounds, rule, standards.Guard{})
		if err != nil {
			t.Fatal(err)
		}
		word, _, log := verdictOf(t, "-limit", "Rz <= 3.2", "-rule", string(rule))
		if word != string(want.Word) || len(log) != len(want.Log) || log[0] != want.Log[0].Text {
			t.Errorf("%s: command %q %q, library %+v", rule, word, log, want)
		}
	}
}

func TestCalloutSettings(t *testing.T) {
	for _, c := range []struct{ callout, settings, want string }{
		{"Rz 3,2", `{}`, `"long": {"filter": "gaussian", "cutoff": 800`},
		{"Ra 0,05", `{}`, `"long": {"filter": "gaussian", "cutoff": 250`},
		{"Rz 0,5", `{}`, `"section": 250`},
		{"Rz 3,2", `{"long": {"filter": "gaussian", "cutoff": 250}, "section": 250}`, `"long": {"filter": "gaussian", "cutoff": 250`},
		{"RSm 0,2 Sc3", `{}`, `"parameters": ["Rsm"]`},
		{"Rz 3,2; Ra 0,4", `{}`, `"parameters": ["Rz", "Ra"]`},
		{"-0,8/Ra3 1,6", `{"edition": "iso-4287"}`, `"sections": 3`},
		{"-0,3/6/AR 0,09", `{"edition": "iso-4287"}`, `"parameters": ["AR(300)"]`},
		{"W 1", `{"edition": "iso-4287"}`, `"edition": "iso-12085"`},
	} {
		code, out, errs := call(t, "", map[string]string{"s.json": c.settings}, "-json", "-callout", c.callout, "-settings", "s.json")
		if code == 2 || !strings.Contains(out, c.want) { // 1: the trace is shorter than some ask for
			t.Errorf("%s with %s: state %d, %s; no %s in\n%s", c.callout, c.settings, code, errs, c.want, out[:min(len(out), 1200)])
			continue
		}
		if _, err := record.ParseSettings([]byte(out[strings.Index(out, `"settings": {`)+len(`"settings": `) : strings.Index(out, ",\n \"origins\"")])); err != nil {
			t.Errorf("%s: the result's settings: %v", c.callout, err)
		}
	}
}

func TestRequirementRefusals(t *testing.T) {
	for _, c := range []struct {
		args []string
		says string
	}{
		{[]string{"-callout", "RSm 0,2"}, "-callout:1:1: "},
		{[]string{"-callout", "Rz 3,2 Sc9"}, "-callout:1:8: "},
		{[]string{"-callout", "Rz 3,2; Ra 0,05"}, "other settings"},
		{[]string{"-callout", ""}, "-callout is empty"},
		{[]string{""}, "FILE is empty"},
		{[]string{"-text", "hints.json"}, "there is none"},
		{[]string{"-limit", "Rz < 3"}, "not a limit"},
		{[]string{"-limit", "Rz <= three"}, "not a limit"},
		{[]string{"-limit", "Rz <= 3; Ra <= 1"}, "-limit: "},
		{[]string{"-limit", "Rxy <= 3"}, "Rxy"},
		{[]string{"-rule", "max"}, "no limit"},
		{[]string{"-limit", "Rz <= 3", "-rule", "mean"}, "none of"},
	} {
		code, out, errs := call(t, "", nil, c.args...)
		if c.says == "" {
			if code != 0 {
				t.Errorf("%v: state %d, %s", c.args, code, errs)
			}
			continue
		}
		if code != 2 || out != "" || strings.Count(errs, "\n") != 1 || !strings.Contains(errs, c.says) {
			t.Errorf("%v: state %d, %q, want %q", c.args, code, errs, c.says)
		}
	}
}

// What a requirement led to, what it leaves open and what overrides it stand in the result.
func TestRequirementInResult(t *testing.T) {
	for _, c := range []struct {
		args     []string
		settings string
		want     []string
	}{
		{[]string{"-callout", "Rq 1"}, "", []string{"class from an unconfirmed table: state the class or the cut-off", `"long.cutoff": "`}},
		{[]string{"-callout", "Rz 3,2"}, "", []string{`"sections": "`, "ISO 21920-3:2021", `"edition": "`, `"code": "requirement"`}},
		{[]string{"-callout", "Rz 4 OR(1)"}, "", []string{"OR(1), written elsewhere"}},
		{[]string{"-callout", "RSm 0,2 Sc3"}, "", []string{`"code": "question"`, `"code": "not-judged"`}},
		{[]string{"-callout", "Rz 3,2"}, `{"long": {"filter": "gaussian", "cutoff": 250}}`, []string{"overrides the requirement: the L-filter is gaussian 800 µm there and gaussian 250 µm here", `"long.cutoff": "given"`}},
		{[]string{"-callout", "Rz 3,2"}, `{"parameters": ["Ra"]}`, []string{`"parameters": ["Ra", "Rz"]`, `"word": "Conforms"`}},
		{[]string{"-callout", "Ra 1,6", "-limit", "Rz <= 3.2"}, "", []string{"-limit stands in its place"}},
		{[]string{"-limit", "Rpq <= 1"}, "", []string{`"code": "not-judged"`}},
		{[]string{"-limit", "Rmr(0.5) >= 10"}, "", []string{`"symbol": "Rmr(0.5)"`, `"word": "Conforms"`}},
	} {
		files := map[string]string{}
		args := append([]string{"-json"}, c.args...)
		if c.settings != "" {
			files["s.json"] = c.settings
			args = append(args, "-settings", "s.json")
		}
		code, out, errs := call(t, "", files, args...)
		if code != 0 {
			t.Errorf("%v: state %d, %s", c.args, code, errs)
		}
		for _, w := range c.want {
			if !strings.Contains(out, w) {
				t.Errorf("%v: no %s in\n%s", c.args, w, out[strings.Index(out, `"origins"`):min(len(out), 5000)])
			}
		}
		if err := json.Unmarshal([]byte(out), new(any)); err != nil {
			t.Errorf("%v: %v", c.args, err)
		}
	}
}

// A value is shown in the unit that the drawing writes: 0.406 µm is 16.0 µin (1 µin is 0.0254 µm).
func TestShownInUnitOfDrawing(t *testing.T) {
	code, out, errs := call(t, "", map[string]string{"s.json": `{"edition": "asme-b46.1"}`}, "-settings", "s.json", "-callout", "63 µin")
	if code != 0 || !strings.Contains(out, "Ra 16.0, at most 63.0 µin.") {
		t.Errorf("state %d, %s\n%s", code, errs, out)
	}
}
