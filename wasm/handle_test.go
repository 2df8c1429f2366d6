package main

import (
	"encoding/json"
	"fmt"
	"slices"
	"testing"

	"example.com/furrow/roughness/synth"
)

// through calls a function of the table for the evaluation with a handle, as the bridge does.
func through(m *module, handle int, name, text string, data []byte) (answer, error) {
	i := slices.IndexFunc(functions, func(f function) bool { return f.name == name })
	return m.call(functions[i], handle, text, data)
}

// result is the result document that an evaluation with a handle answers with.
func result(t *testing.T, m *module, handle int, settings string, data []byte) string {
	t.Helper()
	a, err := through(m, handle, "evaluate", `{"spacing": 0.5, "settings": `+settings+`}`, data)
	if err != nil {
		t.Fatal(err)
	}
	var got evaluateAnswer
	if err := json.Unmarshal([]byte(a.text), &got); err != nil {
		t.Fatal(err)
	}
	return string(got.Result)
}

// Two evaluations with handles do not know of each other: each answers as it does alone.
func TestHandles(t *testing.T) {
	first, second := floats(synth.Demos()[0].Heights()), floats(synth.Demos()[1].Heights())
	calls := []struct{ name, text string }{
		{"construct", `{"symbol": "Rz"}`}, {"figure", `{"name": "profile"}`}, {"judge", `{"text": "Rz 3.2"}`}, {"transmit", `{"wavelength": 100}`},
		{"compare", `{"question": "shares", "symbol": "Rz", "settings": {"long": {"cutoff": 250}}}`}, {"figure", `{"name": "shares"}`}, {"figure", `{"name": "decision"}`},
	}
	said := func(m *module, handle int) []string {
		var list []string
		for _, c := range calls {
			a, err := through(m, handle, c.name, c.text, nil)
			if err != nil {
				t.Fatalf("%s: %v", c.name, err)
			}
			list = append(list, a.text)
		}
		a, err := through(m, handle, "profiles", `{}`, nil)
		if err != nil {
			t.Fatal(err)
		}
		return append(list, fmt.Sprint(a.arrays))
	}
	alone := func(data []byte, settings string) (string, []string) {
		m := &module{}
		return result(t, m, 1, settings, data), said(m, 1)
	}
	oneResult, one := alone(first, `{"parameters": ["Rz"]}`)
	twoResult, two := alone(second, `{"parameters": ["Rz"], "form": {"kind": "mean"}}`)
	m := &module{}
	if got := result(t, m, 1, `{"parameters": ["Rz"]}`, first); got != oneResult {
		t.Errorf("first result %s, alone %s", got, oneResult)
	}
	if got := result(t, m, 2, `{"parameters": ["Rz"], "form": {"kind": "mean"}}`, second); got != twoResult {
		t.Errorf("second result %s, alone %s", got, twoResult)
	}
	if oneResult == twoResult || slices.Equal(one, two) {
		t.Fatal("both evaluations say the same, so that the test sees nothing")
	}
	if got := said(m, 1); !slices.Equal(got, one) {
		t.Error("the first evaluation answers otherwise beside a second one")
	}
	if got := said(m, 2); !slices.Equal(got, two) {
		t.Error("the second evaluation answers otherwise beside a first one")
	}
	if _, err := through(m, 0, "close", `{"handle": 1}`, nil); err != nil {
		t.Fatal(err)
	}
	if _, err := through(m, 1, "construct", `{"symbol": "Rz"}`, nil); err == nil || faultOf(err).Kind != kindGone {
		t.Errorf("a closed evaluation: %v", err)
	}
	if got := said(m, 2); !slices.Equal(got, two) {
		t.Error("the second evaluation answers otherwise after the end of the first")
	}
}

// What was used last stays, and no more heights than the module has room for; one trace alone may have any number.
func TestHandlesMakeRoom(t *testing.T) {
	defer func(most int) { mostHeights = most }(mostHeights)
	mostHeights = 8000
	z := floats(make([]float64, mostHeights/4))
	set := `{"parameters": ["Ra"], "short": null, "form": {"kind": "none"}}`
	m := &module{}
	for handle := 1; handle <= 4; handle++ {
		result(t, m, handle, set, z)
	}
	if _, err := through(m, 1, "profiles", `{"names": ["P"]}`, nil); err != nil {
		t.Fatal(err)
	}
	result(t, m, 5, set, z)
	if want := []int{3, 4, 1, 5}; !slices.Equal(m.used, want) || len(m.open) != 4 || m.points != mostHeights {
		t.Errorf("%v with %d heights are here, want %v", m.used, m.points, want)
	}
	result(t, m, 6, set, floats(make([]float64, mostHeights+1)))
	if !slices.Equal(m.used, []int{6}) || len(m.open) != 1 || m.points != mostHeights+1 {
		t.Errorf("%v with %d heights are here, want the long trace alone", m.used, m.points)
	}
	result(t, m, 6, set, z)
	if m.points != mostHeights/4 {
		t.Errorf("%d heights after a handle was given anew", m.points)
	}
	if _, err := through(m, 7, "evaluate", `{"spacing": 0.5, "settings": {"long": {"cutoff": -1}}}`, z); err == nil || m.open[7] != nil {
		t.Errorf("an evaluation that failed is here: %v", err)
	}
}
