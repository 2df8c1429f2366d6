package standards_test

import (
	"math"
	"strings"
	"testing"

	"example.com/furrow/standards"
)

// Closed at the top; the values stand at the edges of the public table of Ra and Rz limits.
func TestClass(t *testing.T) {
	cases := []struct {
		symbol string
		limit  float64
		want   string
	}{
		{"Ra", 0.02, "Sc1"}, {"Ra", 0.021, "Sc2"}, {"Ra", 0.1, "Sc2"}, {"Ra", 0.4, "Sc3"}, {"Ra", 1.6, "Sc3"},
		{"Ra", 2, "Sc3"}, {"Ra", 2.01, "Sc4"}, {"Ra", 3.2, "Sc4"}, {"Ra", 6.3, "Sc4"}, {"Ra", 10, "Sc4"}, {"Ra", 12.5, "Sc5"},
		{"Rz", 0.16, "Sc1"}, {"Rz", 0.8, "Sc2"}, {"Rz", 0.81, "Sc3"}, {"Rz", 6.3, "Sc3"}, {"Rz", 16, "Sc3"},
		{"Rz", 16.1, "Sc4"}, {"Rz", 63, "Sc4"}, {"Rz", 80, "Sc4"}, {"Rz", 100, "Sc5"},
	}
	for _, c := range cases {
		got, err := standards.Class(c.symbol, c.limit)
		if err != nil {
			t.Errorf("%s %g: %v", c.symbol, c.limit, err)
			continue
		}
		if got.Name != c.want || got.Unconfirmed {
			t.Errorf("%s %g: %s (unconfirmed %t), want %s", c.symbol, c.limit, got.Name, got.Unconfirmed, c.want)
		}
	}
}

func TestClassMarks(t *testing.T) {
	for _, s := range []string{"Rq", "Rp", "Rv", "Rzx", "Rt"} {
		if c, err := standards.Class(s, 1); err != nil || !c.Unconfirmed {
			t.Errorf("%s: %v, unconfirmed %t; want the mark", s, err, c.Unconfirmed)
		}
	}
	for _, s := range []string{"RSm", "Rk", "Rsk", "Wz", "Pt", ""} {
		if _, err := standards.Class(s, 1); err == nil {
			t.Errorf("%s: a class without a rule", s)
		}
	}
	for _, l := range []float64{0, -1, math.NaN(), math.Inf(1)} {
		if _, err := standards.Class("Rz", l); err == nil {
			t.Errorf("limit %g: no error", l)
		}
	}
}

// Each edition's table agrees with itself.
func TestEditions(t *testing.T) {
	ids := map[standards.EditionID]bool{}
	for _, e := range standards.Editions() {
		if ids[e.ID] {
			t.Errorf("%s twice", e.ID)
		}
		ids[e.ID] = true
		again, ok := standards.EditionByID(e.ID)
		if !ok || again.Title != e.Title {
			t.Errorf("%s: not found by its id", e.ID)
		}
		for i, r := range e.Rows {
			if d := r.Section*float64(r.Sections) - r.Evaluation; math.Abs(d) > 1e-9*r.Evaluation {
				t.Errorf("%s row %d: sections do not make the evaluation length", e.ID, i)
			}
			if r.Long > 0 && r.Long != r.Section {
				t.Errorf("%s row %d: section %g, cut-off %g", e.ID, i, r.Section, r.Long)
			}
			if i > 0 && r.Evaluation <= e.Rows[i-1].Evaluation {
				t.Errorf("%s row %d: not coarser than the row before", e.ID, i)
			}
		}
		for _, s := range e.Steps {
			if len(s.UpTo) != len(e.Rows) {
				t.Errorf("%s %s: %d steps for %d rows", e.ID, s.Title, len(s.UpTo), len(e.Rows))
			}
			for i := 1; i < len(s.UpTo); i++ {
				if !(s.UpTo[i] > s.UpTo[i-1]) {
					t.Errorf("%s %s: steps do not rise", e.ID, s.Title)
				}
			}
		}
		if len(e.Notes) == 0 || e.RuleSource.Doc == "" {
			t.Errorf("%s: notes or the source of its rule are missing", e.ID)
		}
		e.Rows[0].Short = -1
		if again, _ := standards.EditionByID(e.ID); again.Rows[0].Short == -1 {
			t.Errorf("%s: one caller changes another's table", e.ID)
		}
	}
	for _, id := range []standards.EditionID{"iso-21920", "iso-4287", "iso-12085", "asme-b46.1", "jis-b0601-2013", "jis-b0601-1994", "jis-b0601-1982"} {
		if !ids[id] {
			t.Errorf("no edition %s", id)
		}
	}
}

// The letter trap: Rz is the ten-point height in the older Japanese editions, and nowhere else.
func TestMeaningOfRz(t *testing.T) {
	keys := map[standards.EditionID]string{"jis-b0601-1994": "RzJIS", "jis-b0601-1982": "Rz1982", "iso-12085": ""}
	for _, e := range standards.Editions() {
		want, other := keys[e.ID]
		if !other {
			want = "Rz"
		}
		got := ""
		for _, y := range standards.Symbols(e.ID) {
			if y.Name == "Rz" {
				got += y.Key
			}
		}
		if got != want {
			t.Errorf("%s: Rz is %q", e.ID, got)
		}
	}
}

// ISO 4288:1996, Tables 1 and 2: what lies beyond the tables. Their steps stand in the check register.
func TestISO4288Steps(t *testing.T) {
	e, _ := standards.EditionByID("iso-4287")
	if _, ok := e.Steps[0].Row(0.006); ok {
		t.Error("Ra 0.006 has a row")
	}
	if _, ok := e.Steps[0].Row(math.NaN()); ok {
		t.Error("NaN has a row")
	}
	if _, ok := e.Steps[1].Row(201); ok {
		t.Error("Rz 201 has a row")
	}
}

// Exactly the editions whose documents were replaced say by what (ISO 21920-1, -2, -3:2021, forewords: they replace ISO 1302:2002,
// ISO 4287:1997 and ISO 4288:1996; JIS B 0601 replaces its own earlier years).
func TestReplaced(t *testing.T) {
	older := map[standards.EditionID]bool{"iso-4287": true, "jis-b0601-1994": true, "jis-b0601-1982": true}
	for _, e := range standards.Editions() {
		if (e.Replaced != "") != older[e.ID] {
			t.Errorf("%s: replaced by %q", e.ID, e.Replaced)
		}
	}
}

// Why a class was chosen: the row of the table of ISO 21920-3 that holds the limit, and where the table is not confirmed, that.
func TestClassReason(t *testing.T) {
	for _, c := range []struct {
		symbol string
		limit  float64
		want   string
	}{
		{"Ra", 0.02, "Sc1, from the limit of Ra (at most 0.02 µm)"}, {"Ra", 0.021, "Sc2, from the limit of Ra (above 0.02 µm, up to 0.1 µm)"},
		{"Ra", 2, "Sc3, from the limit of Ra (above 0.1 µm, up to 2 µm)"}, {"Ra", 12.5, "Sc5, from the limit of Ra (above 10 µm)"}, {"Rz", 100, "Sc5, from the limit of Rz (above 80 µm)"},
	} {
		class, err := standards.Class(c.symbol, c.limit)
		if err != nil || class.Reason(c.limit) != c.want {
			t.Errorf("%s %g: %q, %v, want %q", c.symbol, c.limit, class.Reason(c.limit), err, c.want)
		}
	}
	if class, err := standards.Class("Rt", 1); err != nil || !strings.HasSuffix(class.Reason(1), "; class from an unconfirmed table: state the class or the cut-off") {
		t.Errorf("Rt: %q, %v", class.Reason(1), err)
	}
}

// ISO 3274:1996, Table 1, in the rows of ISO 4288: each long cut-off finds its short one, the spacing and the tip, and no other.
func TestRowOfLong(t *testing.T) {
	e, _ := standards.EditionByID("iso-4287")
	for long, want := range map[float64][3]float64{80: {2.5, 0.5, 2}, 250: {2.5, 0.5, 2}, 800: {2.5, 0.5, 2}, 2500: {8, 1.5, 5}, 8000: {25, 5, 10}} {
		row, ok := e.RowOfLong(long)
		if !ok || row.Long != long || [3]float64{row.Short, row.MaxSpacing, row.TipRadius} != want {
			t.Errorf("%g µm: %+v, want %v", long, row, want)
		}
	}
	for _, long := range []float64{0, 801, 2.5, -800, math.NaN()} {
		if row, ok := e.RowOfLong(long); ok || row != (standards.TableRow{}) {
			t.Errorf("%g µm: %+v", long, row)
		}
	}
	// The rows of the motif method have no long cut-off.
	e, _ = standards.EditionByID("iso-12085")
	if row, ok := e.RowOfLong(0); ok {
		t.Errorf("%+v", row)
	}
	if e, ok := standards.EditionByID("iso-4288"); ok || e.ID != "" {
		t.Errorf("%+v", e)
	}
	for _, s := range []standards.Steps{{For: []string{"Ra", "Rq"}}, {}} {
		if s.Serves("Ra") != (s.For != nil) || s.Serves("R") || s.Serves("") {
			t.Errorf("%v", s.For)
		}
	}
}
