package main

import (
	"encoding/json"
	"strings"
	"testing"

	"example.com/furrow/roughness/synth"
)

func recorded(t *testing.T, m *module, sheet string, points []int, z []float64, want ...string) recordAnswer {
	t.Helper()
	a, err := ask(t, m, "record", jsonText(recordRequest{Sheet: json.RawMessage(sheet), Points: points, Want: want}), floats(z))
	if err != nil {
		t.Fatal(err)
	}
	var out recordAnswer
	if err := json.Unmarshal([]byte(a.text), &out); err != nil {
		t.Fatal(err)
	}
	return out
}

// A page makes a record of several traces, opens it from its bytes, gets back the sheet and the heights, and makes the same again.
func TestRecord(t *testing.T) {
	m := &module{}
	d := synth.Demos()
	z := append(d[0].Heights(), d[0].Heights()[:9000]...)
	sheet := `{"name": "Piston rod 7", "invented": true, "asked": {"text": "Rz 3,2", "u": "0.12"}, "typed": [{"text": "Rz 2.95", "from": "place 6"}],
		"traces": [{"name": "one.csv", "spacing": 0.5, "file": {"name": "one.csv", "size": 3, "sha256": "00"}}, {"name": "two.csv", "spacing": 0.5, "left_out": "a scratch"}],
		"blanks": {"part": "Piston rod 7"}}`
	first := recorded(t, m, sheet, []int{9601, 9000}, z, "json", "html", "article", "tsv", "csv", "table", "points")
	if first.Name != "Piston rod 7" || len(first.Forms) != 6 || len(first.Points) != 2 || len(first.Cautions) == 0 || len(first.Settings) < 8 || !strings.Contains(string(first.Verdict), `"Conforms"`) {
		t.Errorf("%s, %d forms, %d points, %v, %v, %s", first.Name, len(first.Forms), len(first.Points), first.Cautions, first.Settings, first.Verdict)
	}
	for _, form := range []string{"json", "html"} {
		a, err := ask(t, m, "reopen", "", []byte(first.Forms[form]))
		if err != nil {
			t.Fatal(err)
		}
		var o openAnswer
		if err := json.Unmarshal([]byte(a.text), &o); err != nil {
			t.Fatal(err)
		}
		if o.Word != "Conforms" || o.Made != first.Made || len(a.arrays[0].z) != len(z) {
			t.Errorf("%s: %+v, %d heights", form, o.Made, len(a.arrays[0].z))
		}
		again := recorded(t, m, string(o.Sheet), o.Points, a.arrays[0].z, "json")
		cut := func(s string) string { return s[:strings.Index(s, "\n \"made\"")] }
		if cut(again.Forms["json"]) != cut(first.Forms["json"]) {
			t.Errorf("%s: made again it differs", form)
		}
		v, err := ask(t, m, "verify", "", []byte(first.Forms[form]))
		if err != nil || !strings.Contains(v.text, `"same":true`) || !strings.Contains(v.text, `"word":"Conforms"`) {
			t.Errorf("%s: %v, %s", form, err, v.text)
		}
	}
}

// Settings that are what the requirement asks for come from where it takes them, also when a page hands them over as settings.
func TestRecordOrigins(t *testing.T) {
	d := synth.Demos()[0].Heights()
	out := recorded(t, &module{}, `{"asked": {"text": "Rz 3,2"}, "settings": {"sections": 5, "long": {"filter": "gaussian", "cutoff": 800}}, "traces": [{"spacing": 0.5}]}`, []int{9601}, d)
	from := map[string]string{}
	for _, r := range out.Settings {
		from[r.Name] = r.From
	}
	if !strings.HasPrefix(from["L-filter"], "standard, ISO 21920-3:2021, 4.4") || from["Requirement"] != "drawing" || from["Form removed"] != "set here" {
		t.Errorf("%v", from)
	}
}

func TestRecordFaults(t *testing.T) {
	m := &module{}
	d := synth.Demos()[0].Heights()
	good := recorded(t, m, `{"traces": [{"spacing": 0.5}]}`, []int{9601}, d, "json").Forms["json"]
	fault := func(err error) fault {
		t.Helper()
		if err == nil {
			t.Fatal("no error")
		}
		return *faultOf(err)
	}
	for _, c := range []struct{ sheet, kind, key, text string }{
		{`{"sheat": 1}`, "settings", "sheat", "no such key"},
		{`{"asked": {"text": "Rz 3,2", "u": "-1"}, "traces": [{"spacing": 0.5}]}`, "settings", "u", "not an uncertainty"},
		{`{"asked": {"text": "Rz 3,2", "prove": "cook", "u": "0.1"}, "traces": [{"spacing": 0.5}]}`, "settings", "prove", "who must prove"},
		{`{"asked": {"limit": "Rz < 3"}, "traces": [{"spacing": 0.5}]}`, "settings", "limit", "not a limit"},
		{`{"asked": {"text": "Rz 3,2", "rule": "most"}, "traces": [{"spacing": 0.5}]}`, "settings", "rule", "none of"},
		{`{"typed": [{"text": "Rz -1", "from": ""}], "traces": [{"spacing": 0.5}]}`, "settings", "typed", "never below"},
		{`{"settings": {"sections": 0}, "traces": [{"spacing": 0.5}]}`, "settings", "settings.sections", "whole number"},
		{`{"traces": []}`, "request", "", "1 numbers of points for 0 traces"},
	} {
		_, err := ask(t, m, "record", jsonText(recordRequest{Sheet: json.RawMessage(c.sheet), Points: []int{9601}}), floats(d))
		if f := fault(err); f.Kind != c.kind || f.Key != c.key || !strings.Contains(f.Message, c.text) {
			t.Errorf("%s: %+v", c.sheet, f)
		}
	}
	for _, points := range [][]int{{9602}, {-1}, {9000}} {
		if _, err := ask(t, m, "record", jsonText(recordRequest{Sheet: json.RawMessage(`{"traces": [{"spacing": 0.5}]}`), Points: points}), floats(d)); fault(err).Kind != "request" {
			t.Errorf("%v points: %v", points, err)
		}
	}
	for _, text := range []string{"", "<html></html>", good[:len(good)/2], strings.Replace(good, `"spacing": 0.5`, `"spacing": 0.6`, 1)} {
		_, err := ask(t, m, "reopen", "", []byte(text))
		if f := fault(err); f.Kind != "record" || f.Line < 1 {
			t.Errorf("%.20q: %+v", text, f)
		}
		if _, err := ask(t, m, "verify", "", []byte(text)); fault(err).Kind != "record" {
			t.Errorf("%.20q: %v", text, err)
		}
	}
	// SHA-256 of "abc": FIPS 180-4, first example.
	if a, err := ask(t, m, "digest", "", []byte("abc")); err != nil || a.text != `{"size":3,"sha256":"ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad"}` {
		t.Errorf("%s, %v", a.text, err)
	}
}
