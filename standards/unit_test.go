package standards_test

import (
	"math"
	"strings"
	"testing"

	"example.com/furrow/standards"
)

// Numbers of a person, in the unit of the catalogue: lengths in µm, counts on 10 mm, densities in 1/mm.
func TestReadNumber(t *testing.T) {
	for _, c := range []struct {
		edition              standards.EditionID
		symbol, number, unit string
		want                 float64
		spelled              string
		ok                   bool
	}{
		{"", "Ra", "0,8", "", 0.8, "", true}, {"", "Ra", "63", "uin", 1.6002, "µin", true}, {"", "Rsm", "0.1", "MM", 100, "mm", true},
		{"", "Rz", "800", "nm", 0.8, "nm", true}, {"", "RPc", "5", "/mm", 50, "1/mm", true}, {"", "Rpd", "5", "/cm", 0.5, "1/cm", true},
		{"", "Rak1", "2", "µm²/mm", 0.002, "µm²/mm", true}, {"", "Rmr(1)", "50", "%", 50, "%", true},
		{"", "Ra", "1,2,3", "", 0, "", false}, {"", "Ra", "1", "%", 0, "%", false}, {"", "Rsk", "1", "µm", 0, "µm", false}, {"", "Ra", "1", "ell", 0, "ell", false},
	} {
		v, spelled, ok := standards.ReadNumber(c.edition, c.symbol, c.number, c.unit)
		if d := v - c.want; d > 1e-12 || d < -1e-12 || spelled != c.spelled || ok != c.ok {
			t.Errorf("%s %s %s: %g %q %t", c.symbol, c.number, c.unit, v, spelled, ok)
		}
	}
}

// What the limit is counted in, and back from the unit of the drawing.
func TestOwnUnit(t *testing.T) {
	for symbol, unit := range map[string]string{"Ra": "µm", "Rsk": "", "Rmr(1)": "%", "RPc": "1/cm", "Rpd": "1/mm", "Rak1": "µm", "unknown": "µm"} {
		if b := (standards.Bound{Symbol: symbol}); b.Kind().Unit() != unit || !b.OwnUnit(unit) || b.OwnUnit("mm") {
			t.Errorf("%s is counted in %q", symbol, b.Kind().Unit())
		}
	}
	b := standards.Bound{Symbol: "Ra"}
	for unit, want := range map[string]float64{"µm": 63, "": 63, "µin": 1.6002, "mm": 63000} {
		if v, ok := b.ToOwnUnit(63, unit); v != want || !ok {
			t.Errorf("63 %s are %v µm, %t", unit, v, ok)
		}
	}
	if _, ok := b.ToOwnUnit(1, "%"); ok {
		t.Error("Ra in per cent")
	}
}

func TestGradeOf(t *testing.T) {
	for limit, want := range map[float64]string{1.6: "N7", 63 * 0.0254: "N7", 0.025: "N1", 50: "N12", 1.5: "", 0: ""} {
		if got := standards.GradeOf(limit); got != want {
			t.Errorf("%g is %q", limit, got)
		}
	}
}

func TestEditionNames(t *testing.T) {
	if got := standards.EditionNames(standards.EditionIDs()[:2]); got != "iso-21920, iso-4287" {
		t.Error(got)
	}
	if y, ok := standards.FindSymbol("", "Rdq"); !ok || y.Key != "Rdq" {
		t.Errorf("%+v", y)
	}
	if y, ok := standards.FindSymbol("asme-b46.1", "Sm"); !ok || y.Key != "Rsm" || y.Name != "Sm" {
		t.Errorf("a symbol that the edition does not have is that of the first one with it: %+v", y)
	}
	if y, ok := standards.FindSymbol("iso-4287", "Rqq"); ok {
		t.Errorf("%+v", y)
	}
	if got := standards.Digits(0.123456789); got != "0.123457" {
		t.Error(got)
	}
}

// Every unit in every kind of number that has it, by the definitions of the SI prefixes and of the inch, 25.4 mm exactly (international yard
// and pound agreement, 1959); a count is on 10 mm. There and back gives the number again.
func TestUnitsByDefinition(t *testing.T) {
	const mm, in = 1e3, 25.4e3
	micrometres := map[string]float64{"µm": 1, "mm": mm, "nm": 1e-3, "in": in, "µin": in / 1e6}
	want := map[standards.Quantity]map[string]float64{
		standards.Height: micrometres, standards.Spacing: micrometres, standards.Ratio: {"%": 1}, standards.Area: {"µm": 1, "µm²/mm": 1 / mm},
		standards.PeakCount: {"1/cm": 1, "1/mm": 10, "1/in": 10 * mm / in}, standards.PerLength: {"1/mm": 1, "1/cm": 0.1, "1/in": mm / in}, standards.Number: {},
	}
	for u := range standards.Units() {
		for q, units := range want {
			own, ok := units[u.Name]
			if u.Has(q) != ok {
				t.Errorf("%s in %s: %t", q.Unit(), u.Name, u.Has(q))
			}
			in := q.In(u.Name)
			if !ok {
				if in != 0 {
					t.Errorf("%g %s make one %s", in, u.Name, q.Unit())
				}
				continue
			}
			if got := u.Own("2.5", q); math.Abs(got/(2.5*own)-1) > 1e-15 {
				t.Errorf("2.5 %s are %v %s, want %v", u.Name, got, q.Unit(), 2.5*own)
			}
			if math.Abs(in*own-1) > 1e-15 {
				t.Errorf("%v %s make one %s, want %v", in, u.Name, q.Unit(), 1/own)
			}
			for w := range u.Spellings() {
				if found, ok := standards.UnitOf(strings.ToUpper(w)); !ok || found.Name != u.Name {
					t.Errorf("%s is read as %q", w, found.Name)
				}
			}
		}
	}
}
