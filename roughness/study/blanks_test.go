package study

import (
	"strings"
	"testing"

	"example.com/furrow/params"
	"example.com/furrow/standards"
)

func blanksOf(t *testing.T, s State, level int) *BlankLines {
	t.Helper()
	r, err := (&Desk{}).Evaluate(s)
	if err != nil {
		t.Fatal(err)
	}
	b, err := r.Blanks(level)
	if err != nil {
		t.Fatal(err)
	}
	return b
}

// text is a line with the numbers in its blanks, or with signs for them.
func (b *BlankLines) text(line int, filled bool) string {
	s := ""
	for _, p := range b.Lines[line] {
		switch {
		case p.Blank < 0:
			s += p.Text
		case filled:
			s += b.Blanks[p.Blank].printed
		default:
			s += "□"
		}
	}
	return s
}

var typedHeights = []float64{3, 1, -2, 4, 0, -5, 2, 1, -1, 3, -4, 2, 0, -3, 1, -2}

// Filling every blank with the library's number is accepted at every level, for every symbol of every edition that has worked lines.
func TestBlanks(t *testing.T) {
	blanks, d := 0, &Desk{}
	for _, edition := range standards.EditionIDs() {
		for _, call := range params.Defaults(edition, 'R') {
			for _, s := range []State{
				{Symbol: call.Symbol, Edition: edition},
				{Symbol: call.Symbol, Edition: edition, Surface: Typed, Heights: typedHeights},
			} {
				r, err := d.Evaluate(s)
				if err != nil {
					t.Fatal(err)
				}
				before := -1
				for level := AllShown; level <= TermsBlank; level++ {
					b, err := r.Blanks(level)
					if err != nil {
						t.Fatal(err)
					}
					if len(b.Blanks) < before || level == AllShown && len(b.Blanks) > 0 || b.Why == "" && level == LastBlank && len(b.Blanks) != 1 {
						t.Errorf("%s %s: %d blanks at level %d, %d before", edition, call.Symbol, len(b.Blanks), level, before)
					}
					before = len(b.Blanks)
					var entries []string
					for _, k := range b.Blanks {
						entries = append(entries, k.printed)
						if k.Name == "" || strings.Contains(k.Name, "NaN") {
							t.Errorf("%s %s: name %q", edition, call.Symbol, k.Name)
						}
					}
					for i := range b.Blanks {
						blanks++
						if got, err := b.Check(entries, i, false); err != nil || !got.Goes {
							t.Errorf("%s %s level %d: %q at %s: %+v %v\n%s", edition, call.Symbol, level, entries[i], b.Blanks[i].ID, got, err, b.text(b.Blanks[i].line, true))
						}
						if got, err := b.Check(nil, i, true); err != nil || got.Value != entries[i] {
							t.Errorf("%s %s: shown %+v %v", edition, call.Symbol, got, err)
						}
						for _, k := range b.Blanks[i].slips {
							if strings.Contains(k.reply, "%!") || k.reply == "" {
								t.Errorf("%s %s: slip %q", edition, call.Symbol, k.reply)
							}
						}
					}
				}
			}
		}
	}
	t.Log(blanks, "blanks")
}

// What stands in a line is what it says with all shown.
func TestBlankLines(t *testing.T) {
	for _, c := range []struct {
		symbol string
		level  int
		typed  bool
		want   []string
	}{
		{"Ra", AllShown, true, []string{"Ra = (|3| + |1| + |−2| + … + |−2|) / 16 = 34 / 16 = 2.125 µm"}},
		{"Ra", LastBlank, true, []string{"Ra = (|3| + |1| + |−2| + … + |−2|) / 16 = 34 / 16 = □ µm"}},
		{"Ra", StepsBlank, true, []string{"Ra = (|3| + |1| + |−2| + … + |−2|) / 16 = □ / 16 = □ µm"}},
		{"Ra", TermsBlank, true, []string{"Ra = (|□| + |□| + |□| + … + |□|) / 16 = □ / 16 = □ µm"}},
		{"Rz", LastBlank, false, []string{"section 1 = 0.96 + 1.15 = 2.10 µm", "Rz = (2.10 + 3.16 + 2.60 + 3.05 + 3.69) / 5 = 14.60 / 5 = □ µm"}},
		{"Rz", StepsBlank, false, []string{"section 1 = 0.96 + 1.15 = □ µm", "Rz = (h₁ + h₂ + h₃ + h₄ + h₅) / 5 = □ / 5 = □ µm"}},
		{"Rz", TermsBlank, false, []string{"section 1 = □ + □ = □ µm"}},
		{"Rmr(0)", StepsBlank, true, []string{"Rmr(0) = 100 × □ / 1\u202f500 = □ %"}},
		{"Rpk", StepsBlank, true, []string{"Rpk = 2 × 0.01611 / 0.05469 = □ / 0.05469 = □ µm"}},
		{"Rpk", TermsBlank, true, []string{"Rpk = 2 × □ / □ = □ / the ratio = □ µm"}},
	} {
		s := State{Symbol: c.symbol}
		if c.typed {
			s.Surface, s.Heights = Typed, typedHeights
		}
		b := blanksOf(t, s, c.level)
		all := ""
		for i := range b.Lines {
			all += b.text(i, false) + "\n"
		}
		for _, w := range c.want {
			if !strings.Contains(strings.ReplaceAll(all, "≈", "="), w+"\n") {
				t.Errorf("%s level %d:\n%swant %s", c.symbol, c.level, all, w)
			}
		}
	}
}

// Each known slip gets its own reply, an entry outside gets the step, and what follows from one's own numbers goes on.
func TestSlips(t *testing.T) {
	typed := func(symbol string) State { return State{Symbol: symbol, Surface: Typed, Heights: typedHeights} }
	for _, c := range []struct {
		state    State
		level    int
		blank    string // part of its name
		entry    string
		goes     bool
		contains string
	}{
		{typed("Ra"), LastBlank, "Ra", "2,12", true, "34 / 16 = 2.125. Goes on."},
		{typed("Ra"), LastBlank, "Ra", "2.125", true, "Goes on."},
		{typed("Ra"), LastBlank, "Ra", "2.12500", true, "Three digits are enough"},
		{typed("Ra"), LastBlank, "Ra", "0", false, "Without the absolute value hills and dales cancel; the mean of z is 0."},
		{typed("Ra"), LastBlank, "Ra", "2.267", false, "Divide by 16: 2.12 µm."},
		{typed("Ra"), LastBlank, "Ra", "0.002125", false, "In micrometres: 2.12."},
		{typed("Ra"), LastBlank, "Ra", "9", false, "34 / 16 = …"},
		{typed("Ra"), LastBlank, "Ra", "two", false, "A number."},
		{typed("Rq"), LastBlank, "Rq", "6.5", false, "This is the mean square, in µm². Its root is 2.55 µm."},
		{typed("Rsk"), LastBlank, "Rsk", "-0.923", false, "Rsk divides by Rq³, not Rq²."},
		{typed("Rpk"), LastBlank, "Rpk", "0.0161", false, "This is the area. The triangle on the base 0.0547 has the height 2 × A / 0.0547."},
		{State{Symbol: "Rmr(0)"}, LastBlank, "Rmr", "0.53", false, "In percent: 53.0."},
		{State{Symbol: "Rmr(0)"}, LastBlank, "Rmr", "53.4", true, "Goes on."},
		{State{Symbol: "Rz"}, TermsBlank, "pit depth of section 2", "-2.02", false, "Depths count as positive: the pit is 2.02 below the line."},
		{State{Symbol: "Rz"}, TermsBlank, "peak height of section 2", "1.34", false, "Section 2 has its own highest point, at "},
		{State{Symbol: "Rz"}, TermsBlank, "peak height of section 2", "1.15", true, "Goes on."},
		{State{Symbol: "Rsm"}, LastBlank, "Rsm", "32.3", false, "Divide by 173: 45.4 µm."},
	} {
		b := blanksOf(t, c.state, c.level)
		at, entries := -1, make([]string, len(b.Blanks))
		for i, k := range b.Blanks {
			entries[i] = k.printed
			if strings.Contains(k.Name, c.blank) {
				at = i
			}
		}
		if at < 0 {
			t.Errorf("%s: no blank %q in %+v", c.state.Symbol, c.blank, b.Blanks)
			continue
		}
		entries[at] = c.entry
		got, err := b.Check(entries, at, false)
		if err != nil || got.Goes != c.goes || !strings.Contains(got.Reply, c.contains) {
			t.Errorf("%s %q: %+v %v, want %q", c.state.Symbol, c.entry, got, err, c.contains)
		}
	}
	// 35 in place of 34 for the sum: 35/16 = 2.19 goes on.
	b := blanksOf(t, typed("Ra"), StepsBlank)
	got, err := b.Check([]string{"36", "2.25"}, 1, false)
	if want := "Goes on. It follows from your numbers. The table gives 2.125."; err != nil || !got.Goes || got.Reply != want {
		t.Errorf("%+v %v, want %q", got, err, want)
	}
	if _, err := b.Check(nil, 7, false); err == nil {
		t.Error("a blank that is not there")
	}
	if why := blanksOf(t, State{Surface: Made, Symbol: "Rsm"}, 1).Why; why == "" {
		t.Error("no reason on a flat profile")
	}
}
