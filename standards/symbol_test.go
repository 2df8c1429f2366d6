package standards_test

import (
	"slices"
	"testing"

	"example.com/furrow/standards"
)

// TestSymbols: every edition has its symbols, no name of an edition and profile means two things, and no name is
// another spelling of a different parameter.
func TestSymbols(t *testing.T) {
	ids := standards.EditionIDs()
	for i, e := range standards.Editions() {
		if i >= len(ids) || ids[i] != e.ID {
			t.Errorf("the list of symbols has %v, the editions have %s in place %d", ids, e.ID, i+1)
		}
		list := standards.Symbols(e.ID)
		if len(list) == 0 {
			t.Errorf("%s has no symbols", e.ID)
		}
		type call struct {
			name   string
			letter byte
			args   int
		}
		keys := map[call]string{}
		for _, s := range list {
			if s.Key == "" || s.Name == "" || s.Min > s.Max || !slices.Contains([]byte("PRW"), s.Letter) {
				t.Errorf("%s: %+v", e.ID, s)
			}
			for n := s.Min; n <= s.Max; n++ {
				for _, name := range append([]string{s.Name}, s.Also...) {
					if other := keys[call{name, s.Letter, n}]; other != "" {
						t.Errorf("%s: %s with %d arguments is %s and %s", e.ID, name, n, other, s.Key)
					}
					keys[call{name, s.Letter, n}] = s.Key
				}
			}
			if !s.Is(s.Name) || s.Is(s.Name+"?") {
				t.Errorf("%s: %s does not know itself", e.ID, s.Name)
			}
		}
	}
	if list := standards.Symbols("iso-9999"); list != nil {
		t.Errorf("an edition that does not exist has %v", list)
	}
}

// TestSymbolSpellings holds some spellings against the documents that define them: the titles of ISO 21920-2, 4 and 5 in
// its public contents list, ISO 4287:1997, 4 and ISO 13565-2:1996, 4 as textbooks print them.
func TestSymbolSpellings(t *testing.T) {
	for _, c := range []struct {
		edition  standards.EditionID
		word     string
		letter   byte
		key      string
		quantity standards.Quantity
		min, max int
	}{
		{"iso-21920", "Rsm", 'R', "Rsm", standards.Spacing, 0, 0},
		{"iso-4287", "RSm", 'R', "Rsm", standards.Spacing, 0, 0},
		{"iso-4287", "PSm", 'P', "Rsm", standards.Spacing, 0, 0},
		{"jis-b0601-1994", "Sm", 'R', "Rsm", standards.Spacing, 0, 0},
		{"iso-4287", "RΔq", 'R', "Rdq", standards.Number, 0, 0},
		{"iso-4287", "R∆q", 'R', "Rdq", standards.Number, 0, 0}, // U+2206, the mathematical sign
		{"iso-4287", "RDq", 'R', "Rdq", standards.Number, 0, 0},
		{"iso-4287", "Wδc", 'W', "Rdc", standards.Height, 2, 2},
		{"iso-4287", "Mr1", 'R', "Rmrk1", standards.Ratio, 0, 0},
		{"iso-4287", "A1", 'R', "Rak1", standards.Area, 0, 0},
		{"iso-4287", "lambdaa", 'R', "LambdaA", standards.Spacing, 0, 0},
		{"iso-21920", "WDc", 'W', "WDc", standards.Height, 0, 0},
		{"iso-21920", "Rvmp", 'R', "Rvmp", standards.Height, 0, 1},
		{"iso-21920", "Rpd", 'R', "Rpd", standards.PerLength, 0, 0},
		{"iso-21920", "RPc", 'R', "Rpc", standards.PeakCount, 0, 0},
		{"iso-12085", "AW", 'W', "AW", standards.Spacing, 0, 2},
		{"asme-b46.1", "Rp", 'R', "Rpt", standards.Height, 0, 0},
		{"jis-b0601-1982", "Rz", 'R', "Rz1982", standards.Height, 0, 0},
		{"iso-4287", "Rsm", 'R', "", 0, 0, 0},
		{"iso-21920", "Rmax", 'R', "", 0, 0, 0},
		{"iso-4287", "Wk", 'W', "", 0, 0, 0},
	} {
		var found *standards.Symbol
		for _, s := range standards.Symbols(c.edition) {
			if s.Letter == c.letter && s.Is(c.word) {
				found = &s
				break
			}
		}
		switch {
		case found == nil && c.key == "":
		case found == nil || found.Key != c.key || found.Quantity != c.quantity || found.Min != c.min || found.Max != c.max:
			t.Errorf("%s of %s: %+v", c.word, c.edition, found)
		}
	}
	for _, edition := range []standards.EditionID{"iso-21920", "iso-4287", "iso-12085", "asme-b46.1", "jis-b0601-2013", "jis-b0601-1994", "jis-b0601-1982"} {
		if !slices.ContainsFunc(standards.Symbols(edition), func(s standards.Symbol) bool { return s.Name == "RPc" && s.Min == 2 && s.Max == 2 }) {
			t.Errorf("%s has no peak count in a band", edition)
		}
	}
}

// A symbol is looked for in its edition first, in any spelling, then in all, by its name before another spelling: Pc is a height in one
// edition and a count in another.
func TestFindSymbol(t *testing.T) {
	for _, c := range []struct {
		edition      standards.EditionID
		symbol, name string
		quantity     standards.Quantity
	}{
		{"", "Rz", "Rz", standards.Height}, {"iso-4287", "Rsm", "Rsm", standards.Spacing}, {"iso-4287", "Rdc", "Rδc", standards.Height}, {"", "Rdc", "Rdc", standards.Height}, {"", "RSm", "RSm", standards.Spacing}, {"", "Rsm", "Rsm", standards.Spacing},
		{"iso-21920", "Pc", "Pc", standards.Height}, {"iso-21920", "Rmr(5;1)", "Rmr", standards.Ratio}, {"iso-9999", "Ra", "Ra", standards.Height},
	} {
		y, ok := standards.FindSymbol(c.edition, c.symbol)
		if !ok || y.Name != c.name || y.Quantity != c.quantity {
			t.Errorf("%s %s: %+v", c.edition, c.symbol, y)
		}
	}
	for _, symbol := range []string{"", "(", "Xyz", "Ra5"} {
		if y, ok := standards.FindSymbol("", symbol); ok || y.Name != "" {
			t.Errorf("%s: %+v", symbol, y)
		}
	}
}
