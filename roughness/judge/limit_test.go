package judge_test

import (
	"encoding/json"
	"errors"
	"os"
	"reflect"
	"slices"
	"testing"

	"example.com/furrow/roughness"
	"example.com/furrow/roughness/judge"
	"example.com/furrow/standards"
	"example.com/furrow/standards/callout"
)

func TestParseLimits(t *testing.T) {
	upper := func(s string, v float64) standards.Bound {
		return standards.Bound{Symbol: s, Side: standards.Upper, Value: v, Edition: "iso-21920"}
	}
	lower := func(s string, v float64) standards.Bound {
		return standards.Bound{Symbol: s, Side: standards.Lower, Value: v, Edition: "iso-21920"}
	}
	for text, want := range map[string][]standards.Bound{
		"Rz <= 3.2":               {upper("Rz", 3.2)},
		" Rz<=3,2 ":               {upper("Rz", 3.2)},
		"Rz ≤ 3.2 µm":             {upper("Rz", 3.2)}, // U+00B5
		"Rz ≤ 3.2 μm":             {upper("Rz", 3.2)}, // U+03BC
		"Rz ≤ 0.0032 mm":          {upper("Rz", 3.2)},
		"Rz ≤ 1000 nm":            {upper("Rz", 1)},
		"Rmr(0.5) >= 60 %":        {lower("Rmr(0.5)", 60)},
		"Ra ≥ 0,2":                {lower("Ra", 0.2)},
		"Ra <= 0.8; Ra >= 0.2":    {upper("Ra", 0.8), lower("Ra", 0.2)},
		"Rmr(5;1) >= 60; Rz <= 4": {lower("Rmr(5;1)", 60), upper("Rz", 4)},
		"Ra <= 63 uin":            {upper("Ra", 1.6002)},
		"Rsk <= -0.5":             {upper("Rsk", -0.5)},
		"Rpd <= 5 1/cm":           {upper("Rpd", 0.5)},
		"Rpc <= 6 1/mm":           {upper("Rpc", 60)},
		"Rak1 <= 50 µm²/mm":       {upper("Rak1", 0.05)},
	} {
		if got, err := judge.ParseLimits(text, ""); err != nil || !reflect.DeepEqual(got, want) {
			t.Errorf("%q: %v, %v, want %v", text, got, err, want)
		}
	}
	for _, text := range []string{"", "Rz", "Rz 3.2", "Rz = 3.2", "<= 3.2", "Rz <=", "Rz <= x", "Rz <= 1e3x", "Rz <= 0x1p2", "Rz <= 1_000", "Rz <= inf", "Rz <= NaN",
		"Rz <= 1,000.5", "Ra <= 0.8;", "Rz <= 3.2 km",
		// a unit or a value that the parameter cannot have
		"Rmr(0.5) <= 0.5 mm", "Rmr(0.5) >= 10 µin", "Rsk <= 1 mm", "Ra <= 3.2 %", "Ra <= 3.2 1/cm", "Rdq <= 1 mm", "Rpd <= 1 mm", "Rpc <= 1 mm",
		"Rz >= -3.2", "Rmr(0.5) <= 101", "Rz <= 99999999999999999999999999", "Rxy <= 3"} {
		if b, err := judge.ParseLimits(text, ""); err == nil {
			t.Errorf("%q is read as %v", text, b)
		}
	}
	for _, c := range []struct {
		text    string
		edition standards.EditionID
	}{{"Ra >= 1,000", "asme-b46.1"}, {"RDq <= 0.1 mm", "iso-4287"}, {"Pc <= 1 mm", "asme-b46.1"}} {
		if b, err := judge.ParseLimits(c.text, c.edition); err == nil {
			t.Errorf("%s: %q is read as %v", c.edition, c.text, b)
		}
	}
}

// Readings of ISO 1302:2002 text (Annex B style) and of ISO 21920-1:2021 text (a textbook's examples) as settings, in µm.
func TestSettingsForReadings(t *testing.T) {
	for _, c := range []struct {
		text               string
		edition            standards.EditionID
		symbol             string
		profile            roughness.Letter
		short, long, limit float64
		filter             string
		section            float64
		sections           int
	}{
		{"Rz 3,2", "iso-21920", "Rz", 'R', 2.5, 800, 0, "gaussian", 800, 5},
		{"Ra 3,2", "iso-21920", "Ra", 'R', 8, 2500, 0, "gaussian", 2500, 5},
		{"Rz 12 Sc4", "iso-21920", "Rz", 'R', 8, 2500, 0, "gaussian", 2500, 5},
		{"0,008-0,8/Ra 3,1", "iso-4287", "Ra", 'R', 8, 800, 0, "gaussian", 800, 5},
		{"-0,8/Ra3 1,6", "iso-4287", "Ra", 'R', 2.5, 800, 0, "gaussian", 800, 3},
		{`U "2RC" 0,008-0,8 / Rz8max 3,3`, "iso-4287", "Rz", 'R', 8, 800, 0, "two-rc", 800, 8},
		{"0,8-25/Wz3 10", "iso-4287", "Wz", 'W', 2.5, 800, 25000, "gaussian", 25000, 3},
		{"0,008-/Ptmax 25", "iso-4287", "Pt", 'P', 8, 0, 0, "", 0, 1},
		{"Rk 1,5", "iso-4287", "Rk", 'R', 2.5, 800, 0, "valley-suppression", 800, 5},
	} {
		rs, err := callout.ParseRequirement(c.text, c.edition)
		if err != nil {
			t.Errorf("%s: %v", c.text, err)
			continue
		}
		s, err := judge.SettingsFor(&rs.Items[0])
		if err != nil {
			t.Errorf("%s: %v", c.text, err)
			continue
		}
		if s.Edition != c.edition || s.Profile != c.profile || s.Short.Spec.Cutoff != c.short || s.Long.Spec.Cutoff != c.long || s.Long.Spec.Filter != c.filter ||
			s.Long.Off != (c.long == 0) || s.WavinessLimit != c.limit || s.SectionLength != c.section || s.Sections != c.sections || !reflect.DeepEqual(s.Parameters, []string{c.symbol}) {
			t.Errorf("%s: %+v", c.text, s)
		}
		// The settings can be followed.
		p := sine(2, 60, max(5000, float64(c.sections)*max(c.section, 100)+200), 2)
		if _, err := roughness.Evaluate(p, s); err != nil {
			t.Errorf("%s: %v", c.text, err)
		}
	}
	rs, err := callout.ParseRequirement("RSm 0,2", "iso-21920")
	if err != nil {
		t.Fatal(err)
	}
	if s, err := judge.SettingsFor(&rs.Items[0]); s != nil || !errors.Is(err, standards.ErrNeedClass) { // ISO 21920-3, 4.4: no default
		t.Errorf("RSm without a class: %v, %v", s, err)
	}
}

// The settings of a drawing are derived once: an evaluation changes none that the requirement gives, and says of each that it comes from there.
func TestSettingsDerivedOnce(t *testing.T) {
	data, err := os.ReadFile("../../testdata/callouts/callouts.json")
	if err != nil {
		t.Fatal(err)
	}
	var texts []struct {
		Text    string
		Edition standards.EditionID
	}
	if err := json.Unmarshal(data, &texts); err != nil {
		t.Fatal(err)
	}
	compared := 0
	for _, c := range texts {
		rs, err := callout.ParseRequirement(c.Text, c.Edition)
		if err != nil {
			continue
		}
		for i := range rs.Items {
			s, err := judge.SettingsFor(&rs.Items[i])
			if err != nil {
				continue
			}
			full, err := roughness.Complete(s)
			if err != nil {
				t.Errorf("%s: %v", c.Text, err)
				continue
			}
			for _, row := range roughness.Table() {
				var filled roughness.Settings
				row.Copy(&filled, s)
				if !row.Stated(&filled) {
					if slices.Contains([]string{"edition", "profile", "form", "short", "long", "sections", "parameters"}, row.Key) {
						t.Errorf("%s: the requirement leaves %s to be derived again", c.Text, row.Key)
					}
				} else {
					compared++
					if row.Key == "short" || row.Key == "long" { // the numbers that the kind of filter brings are no part of a requirement
						s.Short.Spec, s.Long.Spec = s.Short.Spec.Complete(), s.Long.Spec.Complete()
					}
					if got, want := reflect.ValueOf(row.At(full)).Elem().Interface(), reflect.ValueOf(row.At(s)).Elem().Interface(); !reflect.DeepEqual(got, want) {
						t.Errorf("%s: %s is %v, and by the requirement %v", c.Text, row.Key, got, want)
					}
				}
			}
		}
	}
	if compared < 1000 {
		t.Errorf("compared %d settings", compared)
	}
}

// Every stated setting of the second lies over the first, and nothing else.
func TestMerge(t *testing.T) {
	start := 5.0
	base := &roughness.Settings{Edition: "iso-4287", Long: gaussian(800), Sections: 5, Parameters: []string{"Ra"}}
	if got := roughness.Merge(base, &roughness.Settings{}); !reflect.DeepEqual(got, base) {
		t.Errorf("nothing over it: %+v", got)
	}
	over := &roughness.Settings{
		Name: "n", Edition: "iso-21920", Profile: roughness.W, Input: roughness.Levelled, Invert: true, Crop: [2]float64{1, 2},
		Exclude: []roughness.Exclusion{{From: 1, To: 2, Reason: "pore"}}, Bridge: &start, Form: roughness.FormSpec{Kind: "mean"}, Short: off(), Long: gaussian(250),
		WavinessLimit: 3000, Sections: 3, SectionLength: 100, Start: &start, Stratified: roughness.StratifiedByLong, InsistOnSkid: true, Parameters: []string{"Wz"},
		From: map[string]callout.Origin{"long.cutoff": {Text: "somewhere"}},
	}
	over.Choices.SpacingMode = 1
	v := reflect.ValueOf(*over)
	for i := range v.NumField() {
		if v.Field(i).IsZero() {
			t.Errorf("the test does not state %s", v.Type().Field(i).Name)
		}
	}
	if got := roughness.Merge(base, over); !reflect.DeepEqual(got, over) {
		t.Errorf("all of it over it: %+v", got)
	}
	if base.Edition != "iso-4287" || base.Sections != 5 {
		t.Error("the settings beneath were changed")
	}
}
