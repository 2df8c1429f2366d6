package judge_test

import (
	"example.com/furrow/roughness/judge"
	"math"
	"strings"
	"testing"

	"example.com/furrow/params"
	"example.com/furrow/roughness"
	"example.com/furrow/roughness/synth"
	"example.com/furrow/standards"
)

// Arguments in brackets go through from the text of a drawing to a value.
func TestRequirementToValue(t *testing.T) {
	d := synth.Demos()[0]
	p := roughness.Profile{Z: d.Heights(), Spacing: d.Spacing}
	for _, c := range []struct {
		text    string
		edition standards.EditionID
		symbol  string
	}{
		{"L Rmr(5;1) 70 Sc3", "iso-21920", "Rmr(5;1)"}, {"RPc(0.5;-0.5) 80 Sc3", "iso-21920", "RPc(0.5,-0.5)"}, {"-0,8/RPc(0,5;-0,5) 80", "iso-4287", "RPc(0.5,-0.5)"},
		{"L Rmr(0,5) 60 Sc3 (from the mean line)", "iso-21920", "Rmr(0.5)"}, {"L Rmr(1) 60 Sc3 (from 5 %)", "iso-21920", "Rmr(5;1)"},
		{"L Rmr(1) 60 Sc3 (from the highest peak)", "iso-21920", "Rmr(0;1)"}, {"Rdc(10,80) 1,2 Sc3", "iso-21920", "Rdc(10,80)"}, {"RPc(0,5;-0,5) 80 λc 0,8 mm", "iso-12085", "RPc(0.5,-0.5)"},
		{"L tp(1) 50 % cutoff=0.8", "asme-b46.1", "tp(1)"}, {"Wa 3 Sc2", "iso-21920", "Wa"}, {"Pq 2 Nis=2,5", "iso-21920", "Pq"},
	} {
		r, err := judge.ReadRequirement(c.text, c.edition)
		if err != nil {
			t.Errorf("%s: %v", c.text, err)
			continue
		}
		if len(r.Open()) > 0 || r.ItemSettings[0] == nil || r.Items[0].Symbol != c.symbol {
			t.Errorf("%s is read as %s, open: %v", c.text, r.Items[0].Symbol, r.Open())
			continue
		}
		e, err := roughness.Evaluate(p, r.ItemSettings[0])
		if err != nil {
			t.Errorf("%s: %v", c.text, err)
			continue
		}
		if v, ok := e.Value(c.symbol); !ok || math.IsNaN(v.Value) {
			t.Errorf("%s: no value: %+v", c.text, v)
		}
	}
}

// Each limit has its own settings, rule and questions.
func TestRequirementLimits(t *testing.T) {
	r, err := judge.ReadRequirement("Rz 3,2; Ra 0,05 Tmed; Rk 1,2", "")
	if err != nil {
		t.Fatal(err)
	}
	s := r.ItemSettings
	if len(s) != 3 || s[0] == nil || s[1] == nil || s[2] != nil || s[0].Long.Spec.Cutoff != 800 || s[1].Long.Spec.Cutoff != 250 ||
		r.Items[0].Rule != standards.Maximum || r.Items[1].Rule != standards.Median || len(r.Open()) != 1 {
		t.Errorf("%+v", r)
	}
}

// Every parameter of the catalogue can be written on a drawing of its edition, and leads to settings that ask for it.
func TestCatalogueReadable(t *testing.T) {
	written := 0
	for _, e := range standards.Editions() {
		for _, letter := range "RPW" {
			for _, call := range params.Defaults(e.ID, byte(letter)) {
				name, _, _ := strings.Cut(call.Symbol, "(")
				text := "L " + name + argumentsOf(call) + " 3" + map[params.Unit]string{params.Micrometre: " µm", params.Percent: " %", params.PerCentimetre: "/cm", params.PerMillimetre: "/mm"}[call.Parameter.Unit]
				switch {
				case letter == 'P':
					text += " λs 2,5 µm"
				case e.ID == "iso-12085" && name != "RPc":
				case letter == 'W' && e.ID != "iso-21920":
					text += " λc 0,8 mm λf 8 mm"
				default:
					text += map[bool]string{true: " Sc3", false: " λc 0,8 mm"}[e.ID == "iso-21920"]
				}
				if call.Parameter.Key == "Rmr" {
					text += " (from the mean line)"
				}
				r, err := judge.ReadRequirement(text, e.ID)
				if err != nil {
					t.Errorf("%q (%s): %v", text, e.ID, err)
					continue
				}
				if len(r.Open()) > 0 || r.ItemSettings[0] == nil || r.Items[0].Symbol[:len(name)] != name {
					t.Errorf("%q (%s) is read as %s, open: %v", text, e.ID, r.Items[0].Symbol, r.Open())
					continue
				}
				got, err := params.Lookup(e.ID, byte(letter), r.ItemSettings[0].Parameters[0])
				if err != nil || got.Parameter.Key != call.Parameter.Key {
					t.Errorf("%q (%s) asks for %s: %v", text, e.ID, r.ItemSettings[0].Parameters[0], err)
				}
				written++
			}
		}
	}
	if written < 300 {
		t.Errorf("only %d parameters", written)
	}
}

// argumentsOf writes the arguments that a symbol needs.
func argumentsOf(call params.Call) string {
	name, _, _ := strings.Cut(call.String(), "(")
	for _, s := range standards.Symbols(call.Edition) {
		switch {
		case s.Letter != call.Letter || s.Name != name || s.Max != len(call.Parameter.Args) || s.Min == 0:
		case s.Min == 2 && call.Parameter.Args[0].Unit == params.Percent && call.Parameter.Args[1].Unit == params.Percent:
			return "(10;80)"
		default:
			return "(" + strings.TrimSuffix(strings.Repeat("60;", s.Min), ";") + ")"
		}
	}
	return ""
}
