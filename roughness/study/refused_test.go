package study

import (
	"errors"
	"math"
	"strings"
	"testing"

	"example.com/furrow/roughness"
	"example.com/furrow/roughness/synth"
)

// What cannot be in an exercise is refused with its field and its reason.
func TestRefused(t *testing.T) {
	made := State{Surface: Made, Length: 1, Spacing: 5, Symbol: "Ra", Parts: []Part{{"noise", []float64{0.3, 6, 17}}}}
	desk := &Desk{}
	set := func(id string, v float64) func() error {
		return func() error {
			r, err := desk.Evaluate(made)
			if err == nil {
				_, err = r.Set(id, v)
			}
			return err
		}
	}
	state := func(change func(s *State)) func() error {
		return func() error {
			s := made
			change(&s)
			_, err := desk.Evaluate(s)
			return err
		}
	}
	reply := func(letter string, option int) func() error {
		return func() error {
			_, err := desk.Reply(State{}, letter, option)
			return err
		}
	}
	long := State{Surface: Typed, Line: "line"}
	for range 64 {
		long.Heights = append(long.Heights, -123456789012345.6)
	}
	for i := range 8 {
		long.Moved = append(long.Moved, MovedPoint{i + 1, 123456789012345.6, 1})
	}
	for _, c := range []struct {
		do       func() error
		id, says string
	}{
		{state(func(s *State) { s.Line = "x" }), "hand-line", `"x"`}, {state(func(s *State) { s.Surface = Sheet }), "study-surface", "no trace"},
		{state(func(s *State) { s.Parts = []Part{{"noise", []float64{1, 2}}} }), "surface-add", "has 3 values, not 2"},
		{state(func(s *State) { s.Letter = "P" }), "study-letter", "need filters"}, {state(func(s *State) { s.Filter = Removal{Kind: "class", Class: "Sc9"} }), "study-class", "Sc9"},
		{set("no-such", 1), "no-such", "Nothing here"}, {set("noise-such", 1), "noise-such", "Nothing here"}, {set("sine1-height", 1e9), "sine1-height", "From"}, {set("cut-level", 1), "cut-level", "no such argument"}, {set("made-length", math.NaN()), "made-length", "A number."},
		{reply("z", 0), "predict-question", `no question "z"`}, {reply("k", -2), "predict-options", "no such option"}, {reply("k", 99), "predict-options", "no such option"},
		{func() error { _, err := desk.Reply(made, "i", 0); return err }, "predict-question", "not asked here"},
		{func() error { s := made; s.Edition = "a~b"; _, err := s.Link(); return err }, "study-link", "cannot stand in a link"},
		{func() error { _, err := long.Link(); return err }, "study-link", "heights"},
		{func() error { _, err := desk.SameRa(State{Surface: Typed, Heights: make([]float64, 4)}); return err }, "same-ra", "flat"},
		{func() error {
			s := made
			s.Letter, s.Symbol, s.Filter = "W", "Wz", Removal{Kind: "own", Long: 0.08}
			_, err := desk.SameRa(s)
			return err
		}, "same-ra", "Only a roughness profile"},
	} {
		var refused *RefusedError
		if err := c.do(); !errors.As(err, &refused) || refused.ID != c.id || !strings.Contains(refused.Text, c.says) {
			t.Errorf("%v, want %q at %s", err, c.says, c.id)
		}
	}
	for text, ok := range map[string]bool{"1_2": true, "1000000000": true, "1000000001": false, "1.5": false, "-7": true, "": false, "1e3": false} {
		if list, err := wholes(text, 1, 2); (err == nil) != ok {
			t.Errorf("%q: %v, %v", text, list, err)
		}
	}
}

// What was taken away before the evaluation stands in words.
func TestRemovedInWords(t *testing.T) {
	trace := &roughness.Profile{Z: synth.Sine{Amplitude: 1, Wavelength: 60}.Heights(2000, 0.5), Spacing: 0.5}
	for _, c := range []struct {
		state State
		want  string
	}{
		{State{Surface: Typed, Heights: []float64{1, -1, 2, -2}}, "Removed: nothing."},
		{State{Surface: Made, Length: 1, Spacing: 5, Parts: []Part{{"tilt", []float64{2}}}}, "Removed: nothing. Tilt and bow are in the values."},
		{State{Surface: Made, Length: 1, Spacing: 5, Parts: []Part{{"bow", []float64{-2}}}}, "Removed: nothing. Tilt and bow are in the values."},
		{State{Surface: Made, Length: 1, Spacing: 5, Parts: []Part{{"tilt", []float64{0}}}}, "Removed: nothing."},
		{State{Surface: Sheet, Filter: Removal{Kind: "own", Long: 0.08, Short: 2.5}}, "Removed: straight line, waves under 2.5 µm, waves over 0.08 mm."},
		{State{Surface: Sheet, Filter: Removal{Kind: "own", Long: 0.25}}, "Removed: straight line, waves over 0.25 mm."},
		{State{Surface: Sheet, Letter: "P", Symbol: "Pt", Filter: Removal{Kind: "own", Short: 8}}, "Removed: straight line, waves under 8 µm."},
	} {
		r, err := (&Desk{Trace: trace}).Evaluate(c.state)
		if err != nil {
			t.Fatal(err)
		}
		if got := r.Removed(); got != c.want {
			t.Errorf("%+v: %q, want %q", c.state, got, c.want)
		}
	}
}
