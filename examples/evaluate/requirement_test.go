package main

import (
	"encoding/json"
	"strings"
	"testing"

	"example.com/furrow/roughness/record"
	"example.com/furrow/standards"
)

// said is the part of a verdict that the tests look at.
type said struct {
	Word, Sentence, Acceptance, Rule, Caution string
	Why                                       *struct{ Key, Text string }
	Open                                      []struct{ Key string }
	Values, More                              int
	Agreed                                    []struct{ Key, Asked, Used, With string }
	Limits                                    []struct {
		Symbol, Text, Unit, Grade, Word, Rule, Sentence string
		Values, More                                    int
		Accept, Reject, U                               *float64
		Log                                             []string
		Settings                                        json.RawMessage
	}
}

func (s said) why() string {
	if s.Why == nil {
		return ""
	}
	return s.Why.Key
}

// verdictOf runs the command and returns the verdict of its JSON.
func verdictOf(t *testing.T, files map[string]string, args ...string) said {
	t.Helper()
	code, out, errs := call(t, "", files, append([]string{"-json"}, args...)...)
	if code != 0 || errs != "" {
		t.Fatalf("%v: state %d, %s", args, code, errs)
	}
	var r struct{ Verdict said }
	if err := json.Unmarshal([]byte(out), &r); err != nil {
		t.Fatal(err)
	}
	if r.Verdict.Caution != standards.Caution || r.Verdict.Sentence == "" {
		t.Errorf("%v: caution %q, sentence %q", args, r.Verdict.Caution, r.Verdict.Sentence)
	}
	return r.Verdict
}

// The demonstration trace has Rz 2.92 µm and Ra 0.41 µm and is 4.8 mm long.
func TestVerdict(t *testing.T) {
	for _, c := range []struct {
		args      []string
		word, why string
	}{
		{[]string{"-limit", "Rz <= 3.2"}, "Conforms", ""},
		{[]string{"-limit", "Rz <= 3,2", "-rule", "max"}, "Conforms", ""},
		{[]string{"-limit", "Rz ≤ 2.9"}, "Does not conform", ""},
		{[]string{"-limit", "Rz >= 3"}, "Does not conform", ""},
		{[]string{"-limit", "Rz <= 3.2; Rz >= 1"}, "Conforms", ""},
		{[]string{"-limit", "Rz <= 3.2; Ra <= 0.2"}, "Does not conform", ""},
		{[]string{"-limit", "Rz <= 6.3", "-rule", "16%"}, "Conforms", ""}, // at most 70 % of the limit
		{[]string{"-limit", "Rz <= 3.2", "-rule", "16%"}, "No verdict yet", "more"},
		{[]string{"-limit", "Rz <= 3.2", "-rule", "median"}, "No verdict yet", "more"},
		{[]string{"-limit", "Rpq <= 1"}, "No verdict yet", "undefined"},
		{[]string{"-callout", "Rz 3,2"}, "Conforms", ""},
		{[]string{"-callout", "Rz 2,5"}, "Does not conform", ""},
		{[]string{"-callout", "Rz 3,2 T16%"}, "No verdict yet", "more"},
		{[]string{"-callout", "Rz 3,2; Ra 0,2"}, "Does not conform", ""}, // every limit counts
		{[]string{"-callout", "Rz 3,2; Ra 0,8 Tmed"}, "No verdict yet", "more"},
		{[]string{"-callout", "Rz 25"}, "No verdict yet", "sections"}, // one section of five
		{[]string{"-callout", "Rz 25", "-agreed", "the customer"}, "Conforms", ""},
		{[]string{"-callout", "Rz 3,2", "-rule", "16%"}, "No verdict yet", "deviates"},
		{[]string{"-callout", "RSm 0,2 Sc3"}, "No verdict yet", "requirement-open"},
		{[]string{"-limit", "Rz <= 3", "-u", "0.12"}, "Not decided", ""},
		{[]string{"-limit", "Rz <= 3", "-u", "0.12", "-prove", "none"}, "Conforms", ""},
		{[]string{"-limit", "Rz <= 3.2", "-u", "0.12"}, "Conforms", ""},
		{[]string{"-limit", "Rz <= 3.04", "-u", "0.12"}, "Conforms", ""}, // 3.04 - 0.099 is above 2.92
		{[]string{"-limit", "Rz <= 3.03", "-u", "0.12", "-guard", "1998"}, "Not decided", ""},
		{[]string{"-limit", "Rz <= 3.2; Ra <= 0.5", "-u", "0.12"}, "No verdict yet", "uncertainty"},
		{[]string{"-limit", "Rz <= 3.2; Ra <= 0.5", "-u", "Rz 0.12; Ra 0.02"}, "Conforms", ""},
		{[]string{"-callout", "Rz 3,2 T16%", "-typed", "Rz 2.9; 3.1; 2.8"}, "Conforms", ""},
		{[]string{"-limit", "Rz <= 3.2", "-typed", "Rz 2.9; 3.3"}, "Does not conform", ""},
		// the nearest limit on the other side makes the guard band: T/u = 4 gives 1.80 u
		{[]string{"-limit", "Rz <= 3.2; Rz >= 1; Rz >= 3.1", "-typed", "Rz 3.157", "-u", "0.05"}, "Not decided", ""},
		{[]string{"-limit", "Rmr(0.5) <= 50; Rmr(0.50) >= 49.9", "-typed", "Rmr(0.5) 49.95", "-u", "Rmr(0.5) 0.06"}, "Not decided", ""},
		{[]string{"-limit", "Rz <= 16; Rz >= 15.4", "-typed", "Rz 15.7", "-u", "0.3", "-guard", "1998"}, "Conforms", ""},
		// -limit takes its settings from the requirement, which must be complete and kept
		{[]string{"-callout", "Ra 0,8", "-limit", "Rz <= 3.2"}, "No verdict yet", "deviates"}, // Ra is not judged
		{[]string{"-callout", "Ra 0,8", "-limit", "Rz <= 3.2", "-agreed", "A. Invented"}, "Conforms", ""},
		{[]string{"-callout", "Ra 0,8", "-limit", "Rz <= 2.2"}, "Does not conform", ""},
		{[]string{"-callout", "RSm 0,2 mm", "-limit", "Rz <= 3.2"}, "No verdict yet", "requirement-open"},
		{[]string{"-callout", "Rz 3,2 (Rz 6,3)", "-limit", "Rz <= 6.3"}, "No verdict yet", "requirement-open"},
		{[]string{"-callout", "Rz 3,2; Ra 0,8 Sc2", "-limit", "Ra <= 0.8"}, "No verdict yet", "deviates"},
		// and two limits for the same are not decided between by furrow
		{[]string{"-callout", "Rz 3,2", "-limit", "Rz <= 6"}, "No verdict yet", "deviates"},
		{[]string{"-callout", "Rz 3,2", "-limit", "Rz <= 3"}, "No verdict yet", "deviates"},
		{[]string{"-callout", "Rz 3,2", "-limit", "Rz <= 6", "-agreed", "the customer"}, "Conforms", ""},
		{[]string{"-callout", "Rz 3,2", "-limit", "Rz <= 126 µin"}, "No verdict yet", "deviates"},
		{[]string{"-callout", "Rz 3,2", "-limit", "Rz <= 3200 nm"}, "Conforms", ""},
		{[]string{"-callout", "Rz 3,2", "-limit", "Rz >= 2"}, "No verdict yet", "deviates"},
		{[]string{"-callout", "U Rsk 0,5 Sc3", "-limit", "Rsk <= 0.6"}, "No verdict yet", "deviates"},
		// A second limit of the drawing for the same side, settings of the other side, a rule of another item.
		{[]string{"-callout", "U Rz 2 Nic 0.8; U Rz 9 Nic 2.5", "-limit", "Rz <= 9"}, "No verdict yet", "deviates"},
		{[]string{"-callout", "U Rz 20 Nic 0.25; L Rz 1 Nic 0.8", "-limit", "Rz >= 1"}, "No verdict yet", "deviates"},
		{[]string{"-callout", "U Ra 3 T16%; U Rz 5", "-limit", "Rz <= 5", "-typed", "Rz 6.1; 1; 1; 1; 1; 1; 1; 1"}, "No verdict yet", "deviates"},
		{[]string{"-callout", "U Rsk -0,01 Sc3", "-limit", "Rsk <= -0.01"}, "Conforms", ""},
	} {
		if v := verdictOf(t, nil, c.args...); v.Word != c.word || v.why() != c.why {
			t.Errorf("%v: %q (%s: %s), want %q (%s)", c.args, v.Word, v.why(), v.Sentence, c.word, c.why)
		}
	}
}

// With -limit beside a requirement, settings that deviate from the requirement leave no verdict, as without -limit.
func TestLimitWithDeviation(t *testing.T) {
	files := map[string]string{"s.json": `{"long": {"cutoff": 250}}`}
	args := []string{"-callout", "Rz 3,2", "-settings", "s.json", "-limit", "Rz <= 3.2"}
	if v := verdictOf(t, files, append([]string(nil), args...)...); v.Word != "No verdict yet" || v.why() != "deviates" {
		t.Errorf("%q (%s)", v.Word, v.why())
	}
	v := verdictOf(t, files, append(append([]string(nil), args...), "-agreed", "the customer")...)
	if v.Word != "Conforms" || len(v.Agreed) != 1 || v.Agreed[0].Key != "long.cutoff" {
		t.Errorf("%q, agreed %v", v.Word, v.Agreed)
	}
}

// One uncertainty for limits on two parameters is asked about once, with both names.
func TestUncertaintyForEach(t *testing.T) {
	v := verdictOf(t, nil, "-limit", "Rz <= 3.2; Ra <= 0.5", "-u", "0.12")
	const text = "There are limits on Rz and Ra: state an uncertainty for each."
	if v.Sentence != text || len(v.Open) != 1 || v.Limits[1].Sentence != text {
		t.Errorf("%q, %d open", v.Sentence, len(v.Open))
	}
}

// The sentence of each verdict.
func TestVerdictSentences(t *testing.T) {
	for _, c := range []struct {
		args []string
		says string
	}{
		{[]string{"-limit", "Rz <= 3.2"}, "The value 2.92 µm does not exceed 3.2 µm. One trace, simple acceptance."},
		{[]string{"-callout", "Rz 3,2; Ra 0,8", "-typed", "Rz 2.9"}, "Choose a trace or type in a value of Ra."},
		{[]string{"-limit", "Rz <= 3.2", "-u", "0.12"}, "The value 2.92 µm is below 3.10 µm: proven at 95 %. The maker must prove that the surface conforms, and has done so."},
		{[]string{"-limit", "Rz <= 3.2", "-u", "0.12", "-prove", "buyer"}, "The value 2.92 µm is below 3.10 µm: proven at 95 %. The buyer must prove that the surface does not conform, and has not."},
		{[]string{"-limit", "Rz <= 2.5", "-u", "0.12", "-prove", "buyer"}, "The value 2.92 µm exceeds 2.5 µm by at least the guard band. The buyer must prove that the surface does not conform, and has done so."},
		{[]string{"-limit", "Rz <= 2.5", "-u", "0.12"}, "The value 2.92 µm exceeds 2.5 µm by at least the guard band. The maker must prove that the surface conforms, and has not."},
		{[]string{"-limit", "Rz <= 3.2", "-u", "4"}, "The guard band is wider than the limit: no value can prove that the surface conforms. A smaller U can decide it. The maker must prove that the surface conforms, and has not."},
		{[]string{"-limit", "Rsk <= 0.1", "-u", "1"}, "The value -0.441 lies between -0.722 and 0.922. Neither is proven. More traces, or a smaller U, can decide it. The maker must prove that the surface conforms, and has not."},
		{[]string{"-limit", "Rz <= 3", "-u", "0.12"}, "The value 2.92 µm lies between 2.90 µm and 3.10 µm. Neither is proven. More traces, or a smaller U, can decide it. The maker must prove that the surface conforms, and has not."},
		{[]string{"-limit", "Rz <= 3", "-u", "0.12", "-prove", "buyer"}, "The value 2.92 µm lies between 2.90 µm and 3.10 µm. Neither is proven. More traces, or a smaller U, can decide it. The buyer must prove that the surface does not conform, and has not."},
		{[]string{"-limit", "Rz <= 2,80"}, "The value 2.92 µm exceeds 2.80 µm. One trace, simple acceptance."},
		{[]string{"-limit", "Rz <= 3.2", "-rule", "16%"}, "The 16 % rule needs two more values: 1 of 3."},
		{[]string{"-limit", "Rz <= 3.2", "-rule", "median", "-typed", "Rz 3"}, "There is"},
		{[]string{"-callout", "Rz 25"}, "The trace holds 1 of 5 sections. 7.7 mm are missing."},
		{[]string{"-callout", "U Rpd 50 1/mm Sc3"}, "The value 42.0 1/mm does not exceed 50 1/mm. One trace, simple acceptance."},
		{[]string{"-callout", "U Rak1 50 µm²/mm Sc3"}, "The value 18.650 µm²/mm (0.018650 µm) does not exceed 50 µm²/mm (0.050 µm). One trace, simple acceptance."},
		{[]string{"-limit", "Rpc <= 500 1/in"}, "The value 559.4 1/in (220.2 1/cm) exceeds 500 1/in (196.9 1/cm). One trace, simple acceptance."},
		{[]string{"-limit", "Ra <= 63 µin"}, "The value 16.0 µin (0.406 µm) does not exceed 63 µin (1.600 µm). One trace, simple acceptance."},
	} {
		if strings.HasPrefix(c.says, "There is") {
			continue
		}
		if v := verdictOf(t, nil, c.args...); v.Sentence != c.says {
			t.Errorf("%v:\n got %s\nwant %s", c.args, v.Sentence, c.says)
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
		{"//W 1", `{"edition": "iso-4287"}`, `"edition": "iso-12085"`},
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
		{[]string{"-callout", "L Ra 1,6; U Ra 0,8"}, `-callout:1:16: `},
		{[]string{"-callout", "L Ra 1,6; U Ra 0,8"}, `perhaps: "U Ra 1,6; L Ra 0,8"`},
		{[]string{"-callout", "Rz 3,2 Sc9"}, "-callout:1:8: "},
		{[]string{"-callout", ""}, "-callout is empty"},
		{[]string{""}, "FILE is empty"},
		{[]string{"-text", "hints.json"}, "there is none"},
		{[]string{"-limit", "Rz < 3"}, "not a limit"},
		{[]string{"-limit", "Rz <= 6", "-limit", "Ra <= 9"}, "-limit: it is given twice"}, {[]string{"-typed", "Ra 2", "-callout", "Ra 1.6", "-typed", "Ra 1"}, "-typed: it is given twice"},
		{[]string{"-limit", "Rz <= three"}, "not a limit"},
		{[]string{"-limit", "Rz <= 3 kg"}, "not a limit"},
		{[]string{"-typed", "Rz three"}, "-typed:1:1: "},
		{[]string{"-typed", "Rz 2.9; -3"}, "-typed:1:9: Rz cannot be -3"},
		{[]string{"-typed", "Ra -0.1"}, "-typed:1:1: "},
		{[]string{"-typed", "Rz 1.234,5"}, "-typed:1:1: "},
		{[]string{"-typed", "2.9"}, "a symbol is missing"},
		{[]string{"-u", "0.1"}, "no limit"},
		{[]string{"-limit", "Rz <= 3", "-prove", "maker"}, "uncertainty"},
		{[]string{"-limit", "Rz <= 3", "-k", "2"}, "-k goes with -u"},
		{[]string{"-limit", "Rz <= 3", "-u", "0.1", "-k", "95"}, "not a percentage"},
		{[]string{"-limit", "Rz <= 3", "-u", "Rz 0.1; Rz 0.5"}, "a second uncertainty"},
		{[]string{"-limit", "Rz <= 3", "-u", "0.1; Rz 0.5"}, "a second uncertainty"},
		{[]string{"-limit", "Rz <= 3", "-u", "0.1", "-prove", "god"}, "none of maker"},
		{[]string{"-limit", "Rz <= 3", "-u", "0.1", "-guard", "1066"}, "no guard band"},
		{[]string{"-limit", "Rz <= 3", "-u", "-0.1"}, "-u:1:1: "},
		{[]string{"-limit", "Ra <= 63 µin", "-typed", "Ra 60"}, "write the unit"},
		{[]string{"-record", "x"}, "ends in .json or .html"}, {[]string{"-verify", "no-such.json"}, "no-such.json: no such file"}, {[]string{"-units", "feet"}, "there is inch"},
		{[]string{"-record", "x.json", "-points"}, "writes no record"},
		{[]string{"-points", "-json"}, "-settings and -text only"}, {[]string{"-points", "-limit", "Rz <= 3"}, "-settings and -text only"},
		{[]string{"-points", "-callout", "Rz 3"}, "-settings and -text only"}, {[]string{"-verify", "x.json", "a.txt"}, "-json only"}, {[]string{"-verify", "x.json", "-limit", "Rz <= 3"}, "-json only"},
		{[]string{"-limit", "Rz <= 3.2 T16%"}, "T16%: an acceptance rule is stated apart from the limit, with -rule"},
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
		{[]string{"-callout", "Rq 1"}, "", []string{`"long.cutoff": {"text": "`, `"unconfirmed": true`}},
		{[]string{"-callout", "Rz 3,2"}, "", []string{`"sections": {"text": "`, "ISO 21920-3:2021", `"edition": "`, `"code": "requirement"`}},
		{[]string{"-callout", "Rz 4 OR(1)"}, "", []string{"OR(1), written elsewhere"}},
		{[]string{"-callout", "RSm 0,2 Sc3"}, "", []string{`"code": "question"`, `"key": "requirement-open"`}},
		{[]string{"-callout", "Rz 3,2"}, `{"long": {"filter": "gaussian", "cutoff": 250}}`, []string{"overrides the requirement: the L-filter is gaussian 800 µm there and gaussian 250 µm here", `"long.cutoff": {"text": "set here", "source": "", "basis": "", "from": "set here"}`}},
		{[]string{"-callout", "Rz 3,2"}, `{"parameters": ["Ra"]}`, []string{`"parameters": ["Ra", "Rz"]`, `"word": "Conforms"`}},
		{[]string{"-callout", "Ra 1,6", "-limit", "Rz <= 3.2"}, "", []string{"-limit stands in its place", "Not judged of the requirement: upper limit Ra 1.6 µm."}},
		{[]string{"-limit", "Rpq <= 1"}, "", []string{`"key": "undefined"`}},
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
	if code != 0 || !strings.Contains(out, "16.0 µin (0.406 µm) does not exceed") {
		t.Errorf("state %d, %s\n%s", code, errs, out)
	}
}

// While a question is open there are values by other settings, which are named, and no verdict.
func TestRequirementOpen(t *testing.T) {
	for text, note := range map[string]bool{"Rk 1,2": true, "RSm 0,2": true, "32": true, "Ra 63": true, "▽▽": true, "Rmr(0,5) 60": true, "RSm 0,2 Sc3": false, "L Rmr(0,5) 60 Sc3": false, "Rz 6,3; Rk 1,2": false} {
		code, out, errs := call(t, "", nil, "-json", "-callout", text)
		if code != 0 || !strings.Contains(out, `"word": "No verdict yet"`) || !strings.Contains(out, `"key": "requirement-open"`) || strings.Contains(out, `"word": "Conforms"`) {
			t.Errorf("%s: state %d, %s\n%s", text, code, errs, out[max(0, len(out)-1500):])
		}
		if strings.Contains(out, `"code": "requirement-open"`) != note {
			t.Errorf("%s: note requirement-open is %t", text, !note)
		}
	}
}
