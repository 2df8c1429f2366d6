package callout

import (
	"testing"

	"example.com/furrow/standards"
)

// What contradicts itself is refused or asked about, never settled silently.
func TestContradictions(t *testing.T) {
	for _, c := range []struct {
		edition   standards.EditionID
		text, key string
	}{ // key "": refused
		{"iso-21920", "U L Rz 3,2", ""},
		{"iso-21920", "U U Rz 3,2", ""},
		{"iso-21920", "min U Rz 3,2", ""},
		{"iso-21920", "max L Rz 3,2", ""},
		{"iso-21920", "Ra 0,8 Nic 0,25 Sc3", ""},
		{"iso-21920", "Ra 0,8 Sc3 λc 0,25", ""},
		{"iso-21920", "Ra 1,6 ± 10 %", ""},
		{"iso-4287", "Ra max 1,6 16%", ""},
		{"iso-21920", "Rz => 3,2", ""}, // an arrow, or a lower limit
		{"iso-21920", "Rz = > 3,2", ""},
		{"iso-21920", `Rz 3,2 "Ra 0,8"`, ""},
		{"iso-21920", "Rz 3,2 “min”", ""},
		{"iso-21920", `Rz 3,2 "T16%"`, ""},
		{"iso-21920", `Rz 3,2 «Sc2»`, ""},
		{"iso-4287", `Ra 3,2 "λc 2,5"`, ""},
		{"iso-12085", `R 3 "Rx 5"`, ""},
		{"iso-21920", "Rz 10 max 16%", "rule"},
		{"iso-21920", "max Rz 10 T16%", "rule"},
		{"iso-21920", "Rz 10 Tmed max", "rule"},
		{"iso-4287", "Ra 1,6 max 16%", "rule"},
		{"iso-21920", "Ra 63µin/1,6µm", "pair"},
		{"iso-21920", "Ra 1.6µm/63µin", "pair"},
		{"iso-21920", "Ra 1.6/63 µin", "pair"},
		{"asme-b46.1", "Ra 1.6 µm/63", "pair"},
		{"iso-21920", "Rmr(5,1) 70 Sc3", "number"},
		{"iso-21920", "Ra 63", "unit"}, // a number of inch drawings: 63 µm would accept what 63 µin refuses
		{"iso-4287", "Ra 125", "unit"},
		{"jis-b0601-2013", "Ra 63/32", "unit"},
	} {
		rs, err := ParseRequirement(c.text, c.edition)
		if c.key == "" {
			if err == nil {
				t.Errorf("%q is read as %s %s %s", c.text, rs.Items[0].Side, rs.Items[0].Symbol, rs.Items[0].LimitText)
			}
			continue
		}
		if err != nil {
			t.Errorf("%q: %v", c.text, err)
			continue
		}
		if open := rs.Open(); len(open) == 0 || open[0].Key != c.key {
			t.Errorf("%q asks %v, want %s", c.text, open, c.key)
			continue
		}
		for _, a := range rs.Open()[0].Answers {
			next, err := ParseRequirement(a.Then, c.edition)
			if err != nil {
				t.Errorf("%q, answer %q: %v", c.text, a.Then, err)
				continue
			}
			for _, q := range next.Open() {
				if q.Key == c.key && q.Text == rs.Open()[0].Text {
					t.Errorf("%q, answer %q: asks %s again", c.text, a.Then, q.Key)
				}
			}
		}
	}
	// Both sides named, the class that has the cut-off, quotation marks between blanks: nothing contradicts.
	for _, text := range []string{"Ra min 0,2 max 0,8 16%", "Ra 0,8 Nic 0,8 Sc3", "Rz 10 max Tmax", "U Rz max 10", "L Rz 1; U Rz 5", " \"Rz 3,2\" "} {
		rs, err := ParseRequirement(text, "iso-21920")
		if err != nil || len(rs.Open()) > 0 {
			t.Errorf("%q: %v, open %v", text, err, rs)
		}
	}
}

// A sampling length that is written is the cut-off, where the edition would look for one (ISO 4288:1996, 7.1; memory). ISO 21920 has two entries,
// and the heights of JIS B 0601:1982 no cut-off.
func TestSamplingLength(t *testing.T) {
	for _, c := range []struct {
		edition, text                  string
		cutoff, section, sections, has float64
	}{
		{"iso-4287", "Ra 1,6 lr 2,5", 2500, 2500, 5, 12500},
		{"iso-4287", "Ra3 1,6 ln 0,75", 250, 250, 3, 750},
		{"jis-b0601-1982", "Ra 1,6 lr 2,5", 2500, 2500, 5, 12500},
		{"jis-b0601-1982", "Rmax 25 lr 2,5", 0, 2500, 1, 2500},
		{"asme-b46.1", "Ra 1,6 µm lr 0,25", 250, 250, 5, 1250},
		{"iso-21920", "Ra 1,6 lsc 2,5", 800, 2500, 5, 12500},
		{"jis-b0601-2013", "-0,8/RzJIS94 6,3", 800, 800, 5, 4000}, // no 94 sampling lengths
	} {
		rs, err := ParseRequirement(c.text, standards.EditionID(c.edition))
		if err != nil || len(rs.Open()) > 0 {
			t.Errorf("%q: %v, %v", c.text, rs, err)
			continue
		}
		s := rs.Items[0].Settings
		for key, want := range map[string]float64{"long.cutoff": c.cutoff, "section": c.section, "sections": c.sections, "evaluation": c.has} {
			if s[key].Number != want || key == "long.cutoff" && s[key].Provisional {
				t.Errorf("%q: %s %g, want %g", c.text, key, s[key].Number, want)
			}
		}
	}
}
