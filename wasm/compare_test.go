package main

import (
	"encoding/json"
	"errors"
	"fmt"
	"math"
	"strings"
	"testing"
	"time"

	"example.com/furrow/roughness"
	"example.com/furrow/roughness/compare"
	"example.com/furrow/roughness/record"
	"example.com/furrow/roughness/synth"
	"example.com/furrow/standards"
)

// asked calls compare and reads its answer.
func asked(t *testing.T, m *module, request string) map[string]any {
	t.Helper()
	a, err := ask(t, m, "compare", request, nil)
	var v map[string]any
	if err == nil {
		err = json.Unmarshal([]byte(a.text), &v)
	}
	if err != nil {
		t.Fatalf("%s: %v", request, err)
	}
	return v
}

// What compare answers is the document of the library, whole.
func TestCompareAnswers(t *testing.T) {
	m := evaluated(t, `{"parameters": ["Rz", "Ra"]}`)
	d := synth.Demos()[0]
	p := roughness.Profile{Z: d.Heights(), Spacing: d.Spacing}
	against, err := record.ParseSettings([]byte(`{"sections": 3, "short": null}`))
	if err != nil {
		t.Fatal(err)
	}
	l, err := compare.Explain(t.Context(), p, &m.latest.Settings, against, "Rz")
	a, wrong := ask(t, m, "compare", `{"question": "shares", "against": {"sections": 3, "short": null}, "symbol": "Rz"}`, nil)
	if want := string(record.AppendShares(nil, "Rz", l, err)); wrong != nil || a.text != want {
		t.Errorf("%s, %v; want %s", a.text, wrong, want)
	}
	r, err := (&record.Sheet{Settings: against, Traces: []record.SheetTrace{{Profile: p}}}).Record(time.Unix(0, 0))
	if err != nil {
		t.Fatal(err)
	}
	for name, document := range map[string]string{"record": string(record.AppendRecord(nil, r)), "result": `{"furrow_result": 2, "settings": {"sections": 3, "short": null}, "values": []}`} {
		a, err := ask(t, m, "compare", `{"question": "shares", "against": `+document+`, "symbol": "Rz"}`, nil)
		if err != nil || !strings.Contains(a.text, "3 sections instead of 5") {
			t.Errorf("%s: %v, %s", name, err, a.text)
		}
	}
	for name, want := range map[string]string{"shares": "3 sections instead of 5", "steadiness": "every second point"} {
		if name == "steadiness" {
			asked(t, m, `{"question": "steadiness", "symbol": "Rz"}`)
		}
		a, err := ask(t, m, "figure", `{"name": "`+name+`"}`, nil)
		if err != nil || !strings.Contains(a.text, want) {
			t.Errorf("%s: %s, %v", name, a.text, err)
		}
	}
	e, err := compare.ByEdition(p, "Rz 12", "iso-4287", "iso-21920", nil)
	if err != nil {
		t.Fatal(err)
	}
	a, wrong = ask(t, m, "compare", `{"question": "editions", "text": "Rz 12", "a": "iso-4287", "b": "iso-21920"}`, nil)
	if want := string(record.AppendEditions(nil, e)); wrong != nil || a.text != want {
		t.Errorf("%s, %v; want %s", a.text, wrong, want)
	}
	if v := asked(t, m, `{"question": "steadiness", "symbol": "Rz"}`)["values"].([]any)[0].(map[string]any); v["digits"] != 2.0 || v["symbol"] != "Rz" {
		t.Errorf("%v", v)
	}
}

// A search goes on from step to step, tells its progress, and ends with the document; it can be dropped at any time.
func TestCompareSearch(t *testing.T) {
	m := &module{}
	z := synth.Correlated{Sigma: 0.4, Length: 9, Seed: 3}.Heights(2200, 2) // short, so that the test is
	if _, err := ask(t, m, "evaluate", jsonText(evaluateRequest{Spacing: 2, Settings: json.RawMessage(`{"parameters": ["Rz", "Ra"]}`)}), floats(z)); err != nil {
		t.Fatal(err)
	}
	three, err := roughness.Evaluate(m.trace, &roughness.Settings{Sections: 3, Parameters: []string{"Rz", "Ra"}})
	if err != nil {
		t.Fatal(err)
	}
	request := fmt.Sprintf(`{"question": "find", "printed": "Rz %.3f; Ra %.4f", "most": 5}`, three.Values[0].Value, three.Values[1].Value)
	progress := func(v map[string]any) (done, all float64) {
		p, _ := v["progress"].(map[string]any)
		if p == nil {
			return math.NaN(), math.NaN()
		}
		return p["done"].(float64), p["all"].(float64)
	}
	if done, all := progress(asked(t, m, request)); done != 0 || all < 100 {
		t.Errorf("begins with %g of %g", done, all)
	}
	last, steps := 0.0, 0
	var found map[string]any
	for found == nil {
		v := asked(t, m, `{"question": "step", "millis": 10}`)
		if done, _ := progress(v); done >= last {
			last = done
			steps++
			continue
		}
		found = v
	}
	fits := found["fits"].([]any)
	if found["furrow_finding"] != 1.0 || steps < 2 || len(fits) == 0 || len(fits) > 5 || !strings.HasPrefix(fits[0].(map[string]any)["plain"].(string), "3 sections instead of 5 gives Rz ") {
		t.Errorf("after %d steps: %v", steps, found["sentences"])
	}
	asked(t, m, request)
	asked(t, m, `{"question": "stop"}`)
	for text, kind := range map[string]string{
		`{"question": "step", "millis": 10}`: kindRequest, `{"question": "why"}`: kindRequest, `{"question": "find", "printed": "Rz"}`: kindSettings,
		`{"question": "shares", "symbol": "Rfoo"}`: kindSettings, `{"question": "shares", "symbol": "Rz", "against": {"edition": "iso-1"}}`: kindSettings,
		`{"question": "editions", "text": "Rz 3 foo", "a": "iso-4287", "b": "iso-21920"}`: kindSettings,
	} {
		_, err := ask(t, m, "compare", text, nil)
		if f := faultOf(err); err == nil || f.Kind != kind {
			t.Errorf("%s: %v", text, err)
		}
	}
	var wrong *fault
	if _, err := ask(t, &module{}, "compare", `{"question": "stop"}`, nil); !errors.As(err, &wrong) {
		t.Errorf("without an evaluation: %v", err)
	}
}

func TestInstrumentAnswers(t *testing.T) {
	m := &module{}
	picture := func(name string) string {
		t.Helper()
		a, err := ask(t, m, "figure", `{"name": "`+name+`", "options": {"width": 350}}`, nil)
		if err != nil {
			return err.Error()
		}
		return a.text
	}
	for name := range checkDrawings {
		if got := picture(name); !strings.Contains(got, "nothing yet") {
			t.Errorf("%s: %s", name, got)
		}
	}
	z := synth.Sine{Amplitude: 1.5, Wavelength: 100}.Heights(9600, 0.5)
	thrice := func(z []float64) []byte { // each at a height of its own: copies would count once
		var all []float64
		for up := range 3 {
			for _, v := range z {
				all = append(all, v+float64(up)/8)
			}
		}
		return floats(all)
	}
	three := thrice(z)
	traces := `"traces": [{"points": 9600, "spacing": 0.5}, {"points": 9600, "spacing": 0.5}, {"points": 9600, "spacing": 0.5}]`
	check := func(request string, data []byte) map[string]any {
		t.Helper()
		a, err := ask(t, m, "instrument", request, data)
		var v map[string]any
		if err == nil {
			err = json.Unmarshal([]byte(a.text), &v)
		}
		if err != nil {
			t.Fatalf("%s: %v", request, err)
		}
		return v
	}
	fine := check(`{"check": "specimen", "specimen": {"symbol": "Ra", "value": 1, "expanded": 0.01}, "tolerance": {"share": 0.01}, "session": {"date": "2026-03-02"}, `+traces+`}`, three)
	if fine["word"] != "outside" || fine["gain"] == nil || fine["date"] != "2026-03-02" || len(fine["values"].([]any)) != 3 || fine["caution"] != standards.Caution {
		t.Errorf("%v", fine)
	}
	if got := picture("allowance"); !strings.Contains(got, "from 0.9800 to 1.0200 is allowed") {
		t.Errorf("%s", got)
	}
	if v := check(`{"check": "flat", "limits": "Rz <= 3.2", `+traces+`}`, three); v["word"] != "open" || v["kind"] != "flat" {
		t.Errorf("%v", v)
	}
	if v := check(`{"check": "budget", "symbol": "Rz", "budget": {"certificate": 3, "certificateU": 0.06, "cutoffs": 0.02}, `+traces+`}`, three); v["word"] != nil || len(v["lines"].([]any)) < 5 {
		t.Errorf("%v", v)
	}
	if got := picture("budget"); !strings.Contains(got, "certificate of the specimen") {
		t.Errorf("%s", got)
	}
	groove := make([]float64, 1001)
	for i := 400; i < 600; i++ {
		groove[i] = -1.5
	}
	one := `"traces": [{"points": 1001, "spacing": 0.5}, {"points": 1001, "spacing": 0.5}, {"points": 1001, "spacing": 0.5}]`
	depth := check(`{"check": "groove", "specimen": {"value": 1.5, "expanded": 0.02}, `+one+`}`, thrice(groove))
	if got := picture("groove"); !strings.Contains(got, "The depth between the lines is 1.500 µm.") {
		t.Errorf("%s", got)
	}
	if depth["word"] != "within" {
		t.Errorf("%v", depth)
	}
	if hints := check(`{"check": "tip", "depth": `+jsonText(depth)+`, "fine": `+jsonText(fine)+`}`, nil)["hints"].([]any); len(hints) != 1 || !strings.Contains(hints[0].(string), "blunt") {
		t.Errorf("%v", hints)
	}
	if s := check(`{"check": "course", "earlier": [{"date": "a", "value": 1}, {"date": "b", "value": 1.001}, {"date": "c", "value": 0.999}, {"date": "d", "value": 1.1}]}`, nil)["sentence"]; s != "A step, not a drift: something changed after c." {
		t.Errorf("%v", s)
	}
	for text, kind := range map[string]string{
		`{"check": "what"}`: kindRequest, `{"check": "flat", "traces": [{"points": 5, "spacing": 1}]}`: kindRequest, `{"check": "tip"}`: kindRequest,
		`{"check": "specimen", "specimen": {"symbol": "Ra"}}`: kindSettings, `{"check": "flat", "limits": "Rz 3"}`: kindSettings,
	} {
		_, err := ask(t, m, "instrument", text, nil)
		if f := faultOf(err); err == nil || f.Kind != kind {
			t.Errorf("%s: %v", text, err)
		}
	}
}
