package main

import (
	"bytes"
	"encoding/json"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"unicode/utf8"

	"example.com/furrow/examples/internal/cli"
	"example.com/furrow/roughness"
	"example.com/furrow/roughness/synth"
)

// result is the part of the result that the tests look at.
type result struct {
	Version  int `json:"furrow_result"`
	Settings json.RawMessage
	Profile  struct {
		Points, Invalid, Sections           int
		Spacing, Section, Evaluation, Start float64
	}
	Values []struct {
		Symbol, Unit, Source, Basis, Reason string
		Value                               *float64
		Sections                            []*float64
	}
	Notes []struct{ Code, Text string }
}

func (r result) value(t *testing.T, symbol string) float64 {
	t.Helper()
	for _, v := range r.Values {
		if v.Symbol == symbol {
			if v.Value == nil {
				t.Fatalf("%s is undefined: %s", symbol, v.Reason)
			}
			return *v.Value
		}
	}
	t.Fatalf("the result has no %s", symbol)
	return 0
}

// call runs the command; files are written to a new folder, and their names in args replaced by paths.
func call(t *testing.T, stdin string, files map[string]string, args ...string) (code int, out, errs string) {
	t.Helper()
	dir := t.TempDir()
	for name, text := range files {
		path := filepath.Join(dir, name)
		if err := os.WriteFile(path, []byte(text), 0o644); err != nil {
			t.Fatal(err)
		}
		for i := range args {
			if args[i] == name {
				args[i] = path
			}
		}
	}
	var o, e bytes.Buffer
	code = run(args, strings.NewReader(stdin), &o, &e)
	return code, o.String(), strings.ReplaceAll(e.String(), dir+string(filepath.Separator), "")
}

func evaluateJSON(t *testing.T, stdin string, files map[string]string, args ...string) (int, result) {
	t.Helper()
	code, out, errs := call(t, stdin, files, append([]string{"-json"}, args...)...)
	if errs != "" {
		t.Fatalf("%v: %s", args, errs)
	}
	var r result
	if err := json.Unmarshal([]byte(out), &r); err != nil {
		t.Fatalf("%v: %v in\n%s", args, err, out)
	}
	return code, r
}

func TestDemo(t *testing.T) {
	code, r := evaluateJSON(t, "", nil)
	if code != 0 || r.Version != 2 {
		t.Errorf("state %d, version %d", code, r.Version)
	}
	d := synth.Demos()[0]
	e, err := roughness.Evaluate(roughness.Profile{Z: d.Heights(), Spacing: d.Spacing}, nil)
	if err != nil {
		t.Fatal(err)
	}
	for _, v := range e.Values {
		if !math.IsNaN(v.Value) && r.value(t, v.Symbol) != v.Value {
			t.Errorf("%s: command %v, library %v", v.Symbol, r.value(t, v.Symbol), v.Value)
		}
	}
	p := r.Profile
	if p.Points != 9601 || p.Spacing != 0.5 || p.Sections != 5 || p.Section != 800 || p.Evaluation != 4000 || p.Start != 400 {
		t.Errorf("profile %+v", p)
	}
}

// The table fits a terminal of 80 columns and names every value.
func TestTable(t *testing.T) {
	code, out, errs := call(t, "", nil)
	if code != 0 || errs != "" {
		t.Fatalf("state %d: %s", code, errs)
	}
	for i, line := range strings.Split(out, "\n") {
		if n := utf8.RuneCountInString(line); n > cli.Width {
			t.Errorf("line %d has %d columns: %s", i+1, n, line)
		}
	}
	for _, want := range []string{"Ra ", "Rz ", "Rk ", "ISO 21920-2:2021", "invented", "5 sections of 800 µm", "Cut-off 0.8 mm: default class Sc3; standard, ISO 21920-3:2021, 4.4 (excerpt)."} {
		if !strings.Contains(out, want) {
			t.Errorf("the table does not have %q", want)
		}
	}
}

// A sine through the filters, needs no file: published transmission 0.5 at the cut-off (ISO 16610-21).
func TestSettingsFile(t *testing.T) {
	var b strings.Builder
	b.WriteString("x (µm);z (µm)\n")
	z := synth.Sine{Amplitude: 1, Wavelength: 800}.Heights(12001, 0.5)
	for i, v := range z {
		b.WriteString(strings.Replace(format(float64(i)*0.5)+";"+format(v), ".", ",", -1) + "\n")
	}
	files := map[string]string{"sine.csv": b.String(),
		"s.json": `{"form": {"kind": "none"}, "short": null, "parameters": ["Rq", "Ra", "Rmr(0)"]}`}
	code, r := evaluateJSON(t, "", files, "-settings", "s.json", "sine.csv")
	// Five whole periods; 2e-7 is the truncation of the kernel at one cut-off (error of the transmission 1.8e-7).
	if got, want := r.value(t, "Rq"), 0.5/math.Sqrt2; code != 0 || math.Abs(got-want) > 2e-7 {
		t.Errorf("Rq of a sine at the cut-off: %.9f, want %.9f", got, want)
	}
	if len(r.Values) != 3 || r.Values[2].Symbol != "Rmr(0)" {
		t.Errorf("values %+v", r.Values)
	}
}

func format(v float64) string { b, _ := json.Marshal(v); return string(b) }

func TestPoints(t *testing.T) {
	code, out, errs := call(t, "x/mm,z/nm\n0.003,5\n0.002,-\n0.001,7\n", nil, "-points", "-")
	if want := "0\t0.007\n1\t-\n2\t0.005\n"; code != 0 || out != want || errs != "" {
		t.Errorf("state %d, %q, want %q; %s", code, out, want, errs)
	}
}

// Every refusal is one line on standard error with its place, nothing on standard output, state 2.
func TestRefusals(t *testing.T) {
	headerOnly := "x (µm)\tz (µm)\n"
	for _, c := range []struct {
		name  string
		stdin string
		files map[string]string
		args  []string
		says  string
	}{
		{"no such file", "", nil, []string{"absent.csv"}, "evaluate: absent.csv: no such file"},
		{"unknown flag", "", nil, []string{"-colour"}, "evaluate: flag provided but not defined: -colour"},
		{"two files", "", nil, []string{"a", "b"}, "evaluate: a: no such file"},
		{"a flag behind a file", "", nil, []string{"a", "-json"}, "flags go before"},
		{"points of two", "", nil, []string{"-points", "a", "b"}, "one trace"},
		{"empty", "", nil, []string{"-"}, "evaluate: -"},
		{"letters", "x (µm),z (µm)\n0,1\n1,two\n2,3\n", nil, []string{"-"}, "evaluate: -:3:3: "},
		{"inf", "x (µm),z (µm)\n0,1\n1,inf\n2,3\n", nil, []string{"-"}, "evaluate: -:3:3: "},
		{"1e400", "x (µm),z (µm)\n0,1\n1,1e400\n2,3\n", nil, []string{"-"}, "evaluate: -:3:3: "},
		{"unit", "0;1.5\n1;2.5\n2;3.5\n", nil, []string{"-"}, "into a file and name it with -text"},
		{"repeated x", "x (µm),z (µm)\n0,1\n1,2\n1,3\n2,4\n", nil, []string{"-"}, "evaluate: -:4:1: "},
		{"header only", headerOnly, nil, []string{"-"}, "evaluate: -"},
		{"settings key", "", map[string]string{"s.json": "{\n \"cutoff\": 800}"}, []string{"-settings", "s.json"}, "evaluate: s.json:2:2: cutoff: no such key"},
		{"settings value", "", map[string]string{"s.json": "{\"long\": {\"filter\": \"gaussian\",\n \"cutoff\": 800, \"order\": 2}}"}, []string{"-settings", "s.json"},
			"evaluate: s.json:2:26: long.order: "},
		{"foreign parameter", "", map[string]string{"s.json": `{"edition": "iso-4287", "parameters": ["Ra", "Rsm"]}`}, []string{"-settings", "s.json"}, "RSm"},
		{"letter", "", map[string]string{"s.json": `{"profile": "P", "parameters": ["Ra"]}`}, []string{"-settings", "s.json"}, "Pa"},
		{"hints key", "0 1", map[string]string{"h.json": `{"unit": "mm"}`}, []string{"-text", "h.json", "-"}, "evaluate: h.json:1:"},
	} {
		code, out, errs := call(t, c.stdin, c.files, c.args...)
		if code != 2 || out != "" || strings.Count(errs, "\n") != 1 || !strings.HasPrefix(errs, "evaluate: ") || !strings.Contains(errs, c.says) {
			t.Errorf("%s: state %d, out %q, error %q, want %q", c.name, code, out, errs, c.says)
		}
	}
}

// A trace that is read but cannot be evaluated: state 1, and the result is still there with reasons.
func TestNothingToEvaluate(t *testing.T) {
	for name, text := range map[string]string{
		"one point":   "5\n",
		"too short":   strings.Repeat("1\n2\n", 50),
		"all invalid": strings.Repeat("NaN\n", 50),
		"long gap":    strings.Repeat("1\n2\n", 5000) + strings.Repeat("NaN\n", 2000) + strings.Repeat("1\n2\n", 5000),
	} {
		code, r := evaluateJSON(t, text, map[string]string{"h.json": `{"spacing": 0.5, "z_unit": "µm"}`}, "-text", "h.json", "-")
		if code != 1 || len(r.Values) == 0 || len(r.Notes) == 0 {
			t.Errorf("%s: state %d, %d values, %d notes", name, code, len(r.Values), len(r.Notes))
		}
		for _, v := range r.Values {
			if v.Value != nil || v.Reason == "" {
				t.Errorf("%s: %s has the value %v and the reason %q", name, v.Symbol, v.Value, v.Reason)
			}
		}
	}
}

// Fewer sections than asked for are said, never another cut-off.
func TestShortTrace(t *testing.T) {
	var b strings.Builder
	for _, v := range (synth.Sine{Amplitude: 1, Wavelength: 100}).Heights(5000, 0.5) {
		b.WriteString(format(v) + "\n")
	}
	code, r := evaluateJSON(t, b.String(), map[string]string{"h.json": `{"spacing": 0.5, "z_unit": "µm"}`}, "-text", "h.json", "-")
	if code != 0 || r.Profile.Sections != 3 || r.Profile.Section != 800 || r.Profile.Start != 50 {
		t.Errorf("state %d, profile %+v", code, r.Profile)
	}
	said := false
	for _, n := range r.Notes {
		said = said || n.Code == "too-short"
	}
	if !said {
		t.Errorf("notes %+v", r.Notes)
	}
}

func TestFlatProfile(t *testing.T) {
	text := strings.Repeat("3075.3\n", 10000) // needs: constant profile of one large value
	_, r := evaluateJSON(t, text, map[string]string{"h.json": `{"spacing": 0.5, "z_unit": "µm"}`}, "-text", "h.json", "-")
	if v := r.value(t, "Ra"); v > 1e-12*3075.3 {
		t.Errorf("Ra of a constant profile is %g", v)
	}
	for _, v := range r.Values {
		if (v.Symbol == "Rsk" || v.Symbol == "Rku" || v.Symbol == "Rsm") && (v.Value != nil || v.Reason == "") {
			t.Errorf("%s of a constant profile is %v (%s)", v.Symbol, v.Value, v.Reason)
		}
	}
}
