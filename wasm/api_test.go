package main

import (
	"encoding/binary"
	"encoding/json"
	"errors"
	"math"
	"slices"
	"strings"
	"testing"

	"example.com/furrow/roughness"
	"example.com/furrow/roughness/synth"
)

// ask calls a function of the table as the bridge does.
func ask(t *testing.T, m *module, name, text string, data []byte) (answer, error) {
	t.Helper()
	i := slices.IndexFunc(functions, func(f function) bool { return f.name == name })
	if i < 0 {
		t.Fatalf("no function %q", name)
	}
	return functions[i].call(m, text, data)
}

func mustAsk[T any](t *testing.T, m *module, name, text string, data []byte) (T, answer) {
	t.Helper()
	a, err := ask(t, m, name, text, data)
	if err != nil {
		t.Fatalf("%s: %v", name, err)
	}
	var v T
	if err := json.Unmarshal([]byte(a.text), &v); err != nil {
		t.Fatalf("%s answers %s: %v", name, a.text, err)
	}
	return v, a
}

func floats(z []float64) []byte {
	data := make([]byte, 8*len(z))
	for i, v := range z {
		binary.LittleEndian.PutUint64(data[8*i:], math.Float64bits(v))
	}
	return data
}

// What a script gets is what the library gives, to the last bit.
func TestEvaluateIsTheLibrary(t *testing.T) {
	d := synth.Demos()[0]
	m := &module{}
	got, _ := mustAsk[evaluateAnswer](t, m, "evaluate", `{"spacing": 0.5, "settings": {"parameters": ["Ra", "Rz", "Rmr(0.5)"]}}`, floats(d.Heights()))
	want, err := roughness.Evaluate(roughness.Profile{Z: d.Heights(), Spacing: d.Spacing}, &roughness.Settings{Parameters: []string{"Ra", "Rz", "Rmr(0.5)"}})
	if err != nil {
		t.Fatal(err)
	}
	var result struct {
		Values []struct {
			Symbol string
			Value  float64
		}
	}
	if err := json.Unmarshal(got.Result, &result); err != nil {
		t.Fatal(err)
	}
	if len(result.Values) != 3 {
		t.Fatalf("%d values", len(result.Values))
	}
	for i, v := range result.Values {
		if v.Symbol != want.Values[i].Symbol || v.Value != want.Values[i].Value {
			t.Errorf("%s %v, want %s %v", v.Symbol, v.Value, want.Values[i].Symbol, want.Values[i].Value)
		}
	}
	a, err := ask(t, m, "profiles", `{"names": ["W", "R"]}`, nil)
	if err != nil || len(a.arrays) != 2 || a.arrays[1].name != "R" || !slices.Equal(a.arrays[1].z, want.Roughness) || !slices.Equal(a.arrays[0].z, want.Waviness) {
		t.Errorf("%d profiles, or others: %v", len(a.arrays), err)
	}
	if got.Sections != want.Sections || got.SectionPoints != want.SectionPoints || got.Start != want.Start {
		t.Errorf("sections %d of %d from %d, want %d of %d from %d", got.Sections, got.SectionPoints, got.Start, want.Sections, want.SectionPoints, want.Start)
	}
}

// The bow of a parabola a·t² (t from -1 to 1) is a; tilt and mean do not count.
func TestBow(t *testing.T) {
	z := make([]float64, 1001)
	for i := range z {
		x := float64(i)/500 - 1
		z[i] = 3*x*x - 7*x + 2
	}
	if got := bow(z); math.Abs(got-3) > 1e-12 {
		t.Errorf("bow %v, want 3", got)
	}
	if !math.IsNaN(bow(z[:2])) {
		t.Error("two points have a bow")
	}
}

// A trace too short for one section answers with reasons, and leaves the evaluation before it in place.
func TestTooShort(t *testing.T) {
	m := &module{}
	mustAsk[evaluateAnswer](t, m, "evaluate", `{"spacing": 0.5}`, floats(synth.Demos()[0].Heights()))
	before := m.latest
	got, _ := mustAsk[evaluateAnswer](t, m, "evaluate", `{"spacing": 0.5}`, floats(synth.Demos()[0].Heights()[:100]))
	if got.Problem == "" || !strings.Contains(string(got.Result), `"value":null`) {
		t.Errorf("problem %q", got.Problem)
	}
	if m.latest != before {
		t.Error("the evaluation before is gone")
	}
}

func TestFaults(t *testing.T) {
	z := floats(synth.Demos()[0].Heights())
	for _, c := range []struct {
		name, text string
		data       []byte
		want       fault
	}{
		{"evaluate", `{`, nil, fault{Kind: kindRequest}},
		{"evaluate", `{"spacing": 0.5}`, []byte{1, 2, 3}, fault{Kind: kindRequest}},
		{"evaluate", `{"spacing": 0.5, "settings": {"long": {"cutoff": -1}}}`, z, fault{Kind: kindSettings, Key: "long.cutoff", Line: 1, Column: 21}},
		{"evaluate", `{"spacing": 0.5, "settings": {"parameters": ["Rfoo"]}}`, z, fault{Kind: kindSettings, Key: "parameters[0]"}},
		{"evaluate", `{"spacing": 0.5, "settings": {"colour": 1}}`, z, fault{Kind: kindSettings, Key: "colour", Line: 1, Column: 2}},
		{"read", ``, []byte("z in µm\n1\nx2\n3\n"), fault{Kind: kindTrace, Line: 3, Column: 1}},
		{"read", ``, []byte("1\n2\n3\n"), fault{Kind: kindQuestion}},
		{"read", ``, []byte("%PDF-1.7\n1 2\n"), fault{Kind: kindFile}},
		{"read", `{"hints": {"colour": 1}}`, []byte("1\n"), fault{Kind: kindTrace, Line: 1}},
		{"figure", `{"name": "profile"}`, nil, fault{Kind: kindRequest}},
		{"construct", `{"symbol": "Rz"}`, nil, fault{Kind: kindRequest}},
		{"transmit", `{"wavelength": 0}`, nil, fault{Kind: kindRequest}},
		{"profiles", `{"names": ["R"]}`, nil, fault{Kind: kindRequest}},
	} {
		_, err := ask(t, &module{}, c.name, c.text, c.data)
		if err == nil {
			t.Errorf("%s %s: no error", c.name, c.text)
			continue
		}
		f := faultOf(err)
		if f.Kind != c.want.Kind || c.want.Key != "" && f.Key != c.want.Key || c.want.Line > 0 && f.Line != c.want.Line || c.want.Column > 0 && f.Column != c.want.Column {
			t.Errorf("%s %s: %+v, want %+v", c.name, c.text, *f, c.want)
		}
		if f.Message == "" || (f.Kind == kindQuestion) != (len(f.Questions) > 0) {
			t.Errorf("%s %s: %+v", c.name, c.text, *f)
		}
	}
}

func TestRead(t *testing.T) {
	got, a := mustAsk[readAnswer](t, &module{}, "read", `{"hints": {}}`, []byte("x in mm;z in µm\n0,000;1,5\n0,001;-2\n0,002;NaN\n"))
	if got.Spacing != 1 || got.Report.Points != 3 || got.Report.Invalid != 1 || got.Report.Decimal != "comma" || got.Report.XUnit != "mm" {
		t.Errorf("%+v", got)
	}
	if z := a.arrays[0].z; len(z) != 3 || z[0] != 1.5 || z[1] != -2 || !math.IsNaN(z[2]) {
		t.Errorf("heights %v", z)
	}
	if got.Results == nil || len(got.Results) != 0 {
		t.Errorf("results %v of a file that states none", got.Results)
	}
	got, _ = mustAsk[readAnswer](t, &module{}, "read", `{"hints": {}}`, []byte("Ra = 0,420 µm\nRz = 110 µin\nRsk = 1\nPt = 5\nx in mm;z in µm\n0,000;1,5\n0,001;-2\n"))
	if want := []found{{"Ra", "0.420", "R", 0.42, "µm"}, {"Rz", "110 µin", "R", 2.794, "µm"}, {"Rsk", "1", "R", 1, ""}}; !slices.Equal(got.Results, want) {
		t.Errorf("results %v", got.Results)
	}
}

// Every symbol of the catalogue has a row, and the page's class table is that of the edition.
func TestCatalogue(t *testing.T) {
	c, _ := mustAsk[catalogueAnswer](t, &module{}, "catalogue", "", nil)
	if len(c.Editions) == 0 || c.Editions[0].ID != "iso-21920" {
		t.Fatal("no editions")
	}
	for _, e := range c.Editions {
		for letter, list := range e.Symbols {
			for _, x := range list {
				p, ok := c.Parameters[x.Key]
				if !ok || p.Name == "" || p.Sentence == "" || p.Group == "" || p.On == "" || x.Source == "" || x.Over == "" {
					t.Errorf("%s %s %s: %+v %+v", e.ID, letter, x.Symbol, x, p)
				}
			}
		}
	}
	if rows := c.Editions[0].Rows; len(rows) != 5 || rows[2].Name != "Sc3" || rows[2].Long != 800 || rows[2].Short != 2.5 {
		t.Errorf("classes %+v", rows)
	}
}

// Each picture is drawn, says in words what it shows, and carries nothing that the page's policy forbids.
func TestFigures(t *testing.T) {
	m := &module{}
	mustAsk[evaluateAnswer](t, m, "evaluate", `{"spacing": 0.5}`, floats(synth.Demos()[0].Heights()))
	for name := range drawings {
		for _, width := range []string{"736", "350"} {
			f, _ := mustAsk[figureAnswer](t, m, "figure", `{"name": "`+name+`", "options": {"width": `+width+`, "id": "here", "symbol": "Rk", "wave": 250, "picked": 1}}`, nil)
			if !strings.HasPrefix(f.SVG, "<svg") || f.Title == "" || f.Desc == "" || f.Caption == "" && name != "spark" || len(f.Numbers.Rows) == 0 || len(f.Frames) == 0 {
				t.Errorf("%s at %s: title %q, caption %q, %d rows, %d frames", name, width, f.Title, f.Caption, len(f.Numbers.Rows), len(f.Frames))
			}
			if strings.Contains(f.SVG, "style=") || strings.Contains(f.SVG, "<script") || strings.Contains(f.SVG, "NaN") {
				t.Errorf("%s: %s", name, f.SVG)
			}
		}
	}
}

func TestConstruct(t *testing.T) {
	m := &module{}
	mustAsk[evaluateAnswer](t, m, "evaluate", `{"spacing": 0.5}`, floats(synth.Demos()[0].Heights()))
	c, _ := mustAsk[constructAnswer](t, m, "construct", `{"symbol": "Rz"}`, nil)
	v, _ := m.latest.Value("Rz")
	if float64(c.Result) != v.Value || len(c.Steps) != 5 || len(c.Worked) == 0 {
		t.Errorf("%+v, want %v in five steps", c, v.Value)
	}
}

// Half of a wave at the cut-off of a Gaussian goes either way (ISO 16610-21).
func TestTransmit(t *testing.T) {
	m := &module{}
	mustAsk[evaluateAnswer](t, m, "evaluate", `{"spacing": 0.5}`, floats(synth.Demos()[0].Heights()))
	got, _ := mustAsk[transmitAnswer](t, m, "transmit", `{"wavelength": 800}`, nil)
	if math.Abs(float64(got.Waviness)-50) > 1e-2 || math.Abs(float64(got.Roughness+got.Waviness+got.Short)-100) > 1e-9 {
		t.Errorf("%+v", got)
	}
}

// The demonstration traces come one by one, and whole.
func TestDemos(t *testing.T) {
	list, _ := mustAsk[[]demo](t, &module{}, "demos", "", nil)
	for i, d := range synth.Demos() {
		got, a := mustAsk[demo](t, &module{}, "demo", jsonText(demoRequest{d.Key}), nil)
		if list[i] != got || got.Key != d.Key || got.Spacing != d.Spacing || a.arrays[0].name != "z" || !slices.Equal(a.arrays[0].z, d.Heights()) {
			t.Errorf("%s differs", d.Key)
		}
		if !strings.Contains(list[i].Note, "nvented") {
			t.Errorf("%s is not called invented: %q", d.Key, d.Note)
		}
	}
	if _, err := ask(t, &module{}, "demo", `{"key": "moon"}`, nil); err == nil {
		t.Error("a demonstration came that does not exist")
	}
}

func TestNumber(t *testing.T) {
	for v, want := range map[float64]string{1.5: "1.5", math.Inf(1): "null", 0: "0"} {
		if b, err := json.Marshal(number(v)); err != nil || string(b) != want {
			t.Errorf("%v prints %s, %v", v, b, err)
		}
	}
	if b, err := json.Marshal(number(math.NaN())); err != nil || string(b) != "null" {
		t.Errorf("NaN prints %s, %v", b, err)
	}
}

func TestFaultOfPlainError(t *testing.T) {
	if f := faultOf(errors.New("broken")); f.Kind != kindTrace || f.Message != "broken" {
		t.Errorf("%+v", f)
	}
}

// What is found belongs to the trace and the settings that were sent, also where the trace before was another one.
func TestFindingsFollow(t *testing.T) {
	m := &module{}
	z := synth.Demos()[0].Heights()
	cut := slices.Clone(z)
	for i := range cut {
		cut[i] = min(cut[i], 0.4)
	}
	for i, step := range []struct {
		z    []float64
		want bool
	}{{z, false}, {cut, true}, {cut, true}, {z, false}} {
		got, _ := mustAsk[evaluateAnswer](t, m, "evaluate", `{"spacing": 0.5, "settings": {"parameters": ["Ra"]}}`, floats(step.z))
		if found := slices.ContainsFunc(got.Findings, func(f finding) bool { return f.Code == "clipped" }); found != step.want {
			t.Errorf("step %d: clipped found is %v", i, found)
		}
	}
}
