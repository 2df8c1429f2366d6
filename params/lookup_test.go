package params_test

import (
	"errors"
	"slices"
	"strings"
	"testing"

	"example.com/furrow/params"
	"example.com/furrow/standards"
)

func TestLookup(t *testing.T) {
	for _, c := range []struct {
		edition standards.EditionID
		letter  byte
		name    string
		key     string
		args    []float64
		printed string
	}{
		{"iso-21920", 'R', "Ra", "Ra", nil, "Ra"},
		{"iso-21920", 'P', "Pq", "Rq", nil, "Pq"},
		{"iso-21920", 'W', "Wsm", "Rsm", nil, "Wsm"},
		{"iso-21920", 'R', "Rmr(0.5)", "Rmr", []float64{0.5}, "Rmr(0.5)"},
		{"iso-21920", 'P', "Pmr(-1e-1)", "Rmr", []float64{-0.1}, "Pmr(-0.1)"},
		{"iso-21920", 'R', "Rmr(5, 1)", "RmrFrom", []float64{5, 1}, "Rmr(5;1)"},
		{"iso-21920", 'R', "Rdc(10,80)", "Rdc", []float64{10, 80}, "Rdc(10,80)"},
		{"iso-21920", 'R', "Rzx(800)", "Rzx", []float64{800}, "Rzx(800)"},
		{"iso-21920", 'R', "Rvmc(10)", "Rvmc", []float64{10, 80}, "Rvmc"},
		{"iso-21920", 'R', "RPc(0.5,-0.5)", "RPcBand", []float64{0.5, -0.5}, "RPc(0.5,-0.5)"},
		{"iso-21920", 'R', "RPc(0,5; −0,5)", "RPcBand", []float64{0.5, -0.5}, "RPc(0.5,-0.5)"},
		{"iso-4287", 'R', "RPc(1,-1)", "RPcBand", []float64{1, -1}, "RPc(1,-1)"},
		{"iso-21920", 'R', "RPc", "Rpc", nil, "Rpc"},
		{"iso-4287", 'R', "RPc", "Rpc", nil, "RPc"},
		{"iso-4287", 'R', "RSm", "Rsm", nil, "RSm"},
		{"iso-4287", 'P', "PSm", "Rsm", nil, "PSm"},
		{"iso-4287", 'R', "RΔq", "Rdq", nil, "RΔq"},
		{"iso-4287", 'R', "RDq", "Rdq", nil, "RΔq"},
		{"iso-4287", 'R', "Rdc(10,80)", "Rdc", []float64{10, 80}, "Rδc(10,80)"},
		{"iso-4287", 'R', "Mr1", "Rmrk1", nil, "Mr1"},
		{"asme-b46.1", 'R', "Rp", "Rpt", nil, "Rp"},
		{"jis-b0601-1982", 'R', "Ra", "Ra", nil, "Ra"},
		{"jis-b0601-1994", 'R', "Sm", "Rsm", nil, "Sm"},
		{"iso-12085", 'W', "AW", "AW", []float64{500, 2500}, "AW"},
	} {
		call, err := params.Lookup(c.edition, c.letter, c.name)
		if err != nil {
			t.Errorf("%s %s: %v", c.edition, c.name, err)
			continue
		}
		if call.Parameter.Key != c.key || !slices.Equal(call.Args, c.args) || call.Symbol != c.name || call.String() != c.printed {
			t.Errorf("%s %s: row %s, arguments %v, symbol %s, printed %s", c.edition, c.name, call.Parameter.Key, call.Args, call.Symbol, call)
		}
	}
}

func TestLookupRefuses(t *testing.T) {
	for _, c := range []struct {
		edition standards.EditionID
		letter  byte
		name    string
		says    []string
		column  int
	}{
		{"iso-21920", 'R', "RSm", []string{"spells it Rsm"}, 0},
		{"iso-4287", 'R', "Rsm", []string{"spells it RSm"}, 0},
		{"iso-21920", 'R', "Mr1", []string{"spells it Rmrk1"}, 0},
		{"iso-21920", 'R', "Pq", []string{"profile P", "profile R"}, 0},
		{"iso-21920", 'R', "Rxyz", []string{"unknown", "iso-21920 has for profile R", "Ra", "Rmr(0)", "R10z"}, 0},
		{"iso-12085", 'R', "Rku", []string{"iso-12085 does not have it", "iso-21920", "AR"}, 0},
		{"iso-21920", 'R', "Rmax", []string{"different things", "Rzx of iso-21920", "Rmax of asme-b46.1", "Rmax of jis-b0601-1982"}, 0},
		{"iso-12085", 'R', "Rz", []string{"ten-point", "Rz of iso-21920", "Rz of jis-b0601-1994"}, 0},
		{"iso-21920", 'R', "Ry", []string{"by which edition", "Rz of iso-21920", "Ry of jis-b0601-1994"}, 0},
		{"iso-21920", 'R', "CLA", []string{"stands for", "Ra of iso-21920"}, 0},
		{"iso-21920", 'R', "AA", []string{"stands for", "Ra of iso-21920"}, 0},
		{"iso-21920", 'R', "RMS", []string{"different things", "Rq of", "Ra of"}, 0},
		{"iso-12085", 'R', "Rt", []string{"Rt of iso-21920"}, 0},
		{"iso-21920", 'R', "Rmr", []string{"needs its arguments", "Rmr(c)"}, 0},
		{"iso-21920", 'R', "Rdc(80,10)", []string{"below the second"}, 0},
		{"iso-21920", 'R', "Rmc(101)", []string{"from 0 to 100"}, 0},
		{"iso-21920", 'R', "Ra(1)", []string{"takes no arguments"}, 0},
		{"iso-21920", 'R', "Rdc(10,80,90)", []string{"takes 2 arguments, not 3"}, 0},
		{"iso-21920", 'R', "Rzx(0)", []string{"above zero"}, 0},
		{"iso-21920", 'R', "RPc(-0.5,0.5)", []string{"upper level"}, 0},
		{"iso-21920", 'R', "Rmr(x)", []string{"not a number"}, 5},
		{"iso-21920", 'R', "Rdc(10,)", []string{"not a number"}, 8},
		{"iso-21920", 'R', "Rmr(NaN)", []string{"not a number"}, 5},
		{"iso-21920", 'R', "Rmr(Inf)", []string{"not a number"}, 5},
		{"iso-21920", 'R', "Rmr(1", []string{"bracket"}, 6},
		{"iso-4287", 'R', "Rδc(10,x)", []string{"not a number"}, 8},
		{"iso-21920", 'R', "", []string{"no symbol"}, 1},
		{"iso-9999", 'R', "Ra", []string{"no edition", "iso-21920", "iso-4287"}, 0},
	} {
		_, err := params.Lookup(c.edition, c.letter, c.name)
		var e *params.NameError
		if !errors.As(err, &e) {
			t.Errorf("%s %q: error %v", c.edition, c.name, err)
			continue
		}
		for _, s := range c.says {
			if !strings.Contains(err.Error(), s) {
				t.Errorf("%s %q: %v\ndoes not say %q", c.edition, c.name, err, s)
			}
		}
		if e.Column != c.column {
			t.Errorf("%s %q: column %d, want %d", c.edition, c.name, e.Column, c.column)
		}
	}
}

// TestSynonyms: every reading of the table can be asked for, a name with several readings has a question, and no name
// is asked about in an edition that spells it itself.
func TestSynonyms(t *testing.T) {
	for _, s := range params.Synonyms() {
		if len(s.Readings) == 0 || len(s.Readings) > 1 && s.Question == "" {
			t.Errorf("%s: %d readings, question %q", s.Name, len(s.Readings), s.Question)
		}
		for _, r := range s.Readings {
			if _, err := params.Lookup(r.Edition, r.Letter, r.Symbol); err != nil {
				t.Errorf("%s: %v", s.Name, err)
			}
		}
	}
}

// TestDefaults: every default call of every edition and profile is found again by its own symbol, no two alike.
func TestDefaults(t *testing.T) {
	for _, edition := range standards.EditionIDs() {
		total := 0
		for _, letter := range []byte("PRW") {
			seen := map[string]bool{}
			for _, c := range params.Defaults(edition, letter) {
				total++
				if seen[c.Symbol] {
					t.Errorf("%s, profile %c: %s twice", edition, letter, c.Symbol)
				}
				seen[c.Symbol] = true
				again, err := params.Lookup(edition, letter, c.Symbol)
				if err != nil {
					t.Errorf("%s: %v", edition, err)
				} else if again.Parameter != c.Parameter {
					t.Errorf("%s: %s finds the row %s, not %s", edition, c.Symbol, again.Parameter.Key, c.Parameter.Key)
				}
			}
		}
		if total == 0 {
			t.Errorf("%s has nothing", edition)
		}
	}
}

func TestSwitches(t *testing.T) {
	var c params.Choices
	for _, s := range params.Switches() {
		if c.Get(s.Key) != s.Options[0].Word || s.Basis == "" || s.Why == "" {
			t.Errorf("%s: default %q, get %q", s.Key, s.Options[0].Word, c.Get(s.Key))
		}
		for _, o := range s.Options {
			if err := c.Set(s.Key, o.Word); err != nil || c.Get(s.Key) != o.Word || o.Effect == "" {
				t.Errorf("%s = %s: %v, get %q", s.Key, o.Word, err, c.Get(s.Key))
			}
		}
		if err := c.Set(s.Key, "no such word"); err == nil || !strings.Contains(err.Error(), s.Options[1].Word) {
			t.Errorf("%s: error %v", s.Key, err)
		}
	}
	if err := c.Set("rsm", "rz"); err == nil || !strings.Contains(err.Error(), "rsm_threshold") {
		t.Errorf("unknown switch: error %v", err)
	}
}

// A comma in Rmr may be a decimal mark: two readings, so neither is taken.
func TestLookupAmbiguousRatio(t *testing.T) {
	for _, name := range []string{"Rmr(0,5)", "Rmr(-0,5)", "Rmr(5,1)"} {
		if c, err := params.Lookup("iso-21920", 'R', name); err == nil || !strings.Contains(err.Error(), "two ways") {
			t.Errorf("%s: %v, %v", name, c.Args, err)
		}
	}
	for _, name := range []string{"Rmr(0.5)", "Rmr(5;1)", "Rmr(5, 1)", "Rmr(5.0,1)", "Rdc(10,80)"} {
		if _, err := params.Lookup("iso-21920", 'R', name); err != nil {
			t.Errorf("%s: %v", name, err)
		}
	}
}
