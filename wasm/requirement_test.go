package main

import (
	"bytes"
	"testing"

	"example.com/furrow/roughness"
	"example.com/furrow/roughness/record"
)

func TestRequirement(t *testing.T) {
	for _, c := range []struct {
		text, edition string
		readings      int
		settings      bool
		questions     int
		column        int // of a refusal; 0 for none
	}{
		{"Rz 3,2", "", 1, true, 0, 0},
		{"U Rz 5 / L Rz 1", "iso-21920", 2, true, 0, 0},
		{"RSm 0,2", "iso-21920", 1, false, 2, 1}, // its unit and its class are open,
		{"Rz 3,2 Sc9", "iso-21920", 0, false, 0, 8},
		{"0,008-0,8/Ra 3,1", "iso-4287", 1, true, 0, 0},
	} {
		got := readRequirement(requirementRequest{c.text, c.edition})
		column := 0
		if got.Refusal != nil {
			column = got.Refusal.Column
		}
		if len(got.Readings) != c.readings || (string(got.Settings) != "null") != c.settings || len(got.Questions) != c.questions || column != c.column {
			t.Errorf("%s: %+v", c.text, got)
		}
	}
}

// The settings that the page gets are those of the library, and limits, rule and origins with them.
func TestRequirementIsTheLibrarys(t *testing.T) {
	for _, text := range []string{"Rz 3,2", "U Rz 5 / L Rz 1", "Ra 1.6 Sc2", "Wa 3 Sc3", "Rz 3,2 Tmed"} {
		got := readRequirement(requirementRequest{text, "iso-21920"})
		want, err := roughness.ReadRequirement(text, "iso-21920")
		if err != nil {
			t.Fatal(err)
		}
		set, err := record.ParseSettings(got.Settings)
		if err != nil {
			t.Fatalf("%s: %v", text, err)
		}
		if again := record.AppendSettings(nil, set, ""); !bytes.Equal(again, record.AppendSettings(nil, want.Settings, "")) {
			t.Errorf("%s: settings %s", text, again)
		}
		if got.Rule != string(want.Rule) || len(got.Limits) != len(want.Bounds) {
			t.Fatalf("%s: rule %q, limits %v; want %q, %v", text, got.Rule, got.Limits, want.Rule, want.Bounds)
		}
		for i, b := range want.Bounds {
			if l := got.Limits[i]; l.Symbol != b.Symbol || l.Side != b.Side.String() || float64(l.Value) != b.Value {
				t.Errorf("%s: limit %v, want %v", text, l, b)
			}
		}
		for key, o := range want.Items[0].Settings.Origins {
			if g := got.Origins[key]; g.Text != o.Text || g.Unconfirmed != o.Unconfirmed || g.Basis != string(o.Basis) {
				t.Errorf("%s: %s comes from %+v, want %+v", text, key, g, o)
			}
		}
	}
}
