package standards_test

import (
	"errors"
	"math"
	"testing"

	"example.com/furrow/standards"
)

// want is what a reading must hold; zero entries of the settings are held too.
type want struct {
	side     standards.Side
	symbol   string
	limit    float64 // µm, or per cent
	rule     standards.Rule
	short    float64
	long     float64
	filter   string
	section  float64
	sections int
	le       float64
	a, b     float64
	open     string // keys of the open questions
}

// TestReadings holds the readings of the two notations. The first five of ISO 21920-1 are those of an Austrian school
// textbook, the others follow from the rules; those of ISO 1302 follow its Annex B, from memory, but for the motif
// example 0,008-0,5/12/R 10, which was seen.
func TestReadings(t *testing.T) {
	const up, low = standards.Upper, standards.Lower
	const max, p16, med = standards.Maximum, standards.SixteenPercent, standards.Median
	g, rc, vs := "gaussian", "two-rc", "valley-suppression"
	cases := []struct {
		text, edition string
		want          []want
	}{
		{"Rz 3,2", "iso-21920", []want{{up, "Rz", 3.2, max, 2.5, 800, g, 800, 5, 4000, 0, 0, ""}}},
		{"MRR Ra 3,2", "iso-21920", []want{{up, "Ra", 3.2, max, 8, 2500, g, 2500, 5, 12500, 0, 0, ""}}},
		{"NMR Rz 3,2", "iso-21920", []want{{up, "Rz", 3.2, max, 2.5, 800, g, 800, 5, 4000, 0, 0, ""}}},
		{"U Rz 5\nL Rz 1", "iso-21920", []want{
			{up, "Rz", 5, max, 2.5, 800, g, 800, 5, 4000, 0, 0, ""}, {low, "Rz", 1, max, 2.5, 800, g, 800, 5, 4000, 0, 0, ""}}},
		{"U Rz 5 / L Rz 0,1", "iso-21920", []want{
			{up, "Rz", 5, max, 2.5, 800, g, 800, 5, 4000, 0, 0, ""}, {low, "Rz", 0.1, max, 2.5, 800, g, 800, 5, 4000, 0, 0, ""}}},
		{`Rz 3,2 "plunge ground"`, "iso-21920", []want{{up, "Rz", 3.2, max, 2.5, 800, g, 800, 5, 4000, 0, 0, ""}}},
		{"Ra 0,8 T16%", "iso-21920", []want{{up, "Ra", 0.8, p16, 2.5, 800, g, 800, 5, 4000, 0, 0, ""}}},
		{"Rz 10 Tmed", "iso-21920", []want{{up, "Rz", 10, med, 2.5, 800, g, 800, 5, 4000, 0, 0, ""}}},
		{"RSm 0,2 Sc3", "iso-21920", []want{{up, "Rsm", math.NaN(), max, 2.5, 800, g, 800, 5, 4000, 0, 0, "unit"}}},
		{"RSm 0,2 mm Sc3", "iso-21920", []want{{up, "Rsm", 200, max, 2.5, 800, g, 800, 5, 4000, 0, 0, ""}}},
		{"RSm 0,2 mm", "iso-21920", []want{{up, "Rsm", 200, max, 0, 0, "", 0, 0, 0, 0, 0, "class"}}},
		{"Rz 12 Sc4", "iso-21920", []want{{up, "Rz", 12, max, 8, 2500, g, 2500, 5, 12500, 0, 0, ""}}},
		{"Rz 4 OR(1)", "iso-21920", []want{{up, "Rz", 4, max, 2.5, 800, g, 800, 5, 4000, 0, 0, ""}}},
		{"Rz 12", "iso-21920", []want{{up, "Rz", 12, max, 2.5, 800, g, 800, 5, 4000, 0, 0, ""}}},
		{"Rz 0.5", "iso-21920", []want{{up, "Rz", 0.5, max, 2.5, 250, g, 250, 5, 1250, 0, 0, ""}}},
		{"Rz ≤ 0,6", "iso-21920", []want{{up, "Rz", 0.6, max, 2.5, 250, g, 250, 5, 1250, 0, 0, ""}}},
		{"Rz >=1", "iso-21920", []want{{low, "Rz", 1, max, 2.5, 800, g, 800, 5, 4000, 0, 0, ""}}},
		{"Rz 0.6", "iso-21920", []want{{up, "Rz", 0.6, max, 2.5, 250, g, 250, 5, 1250, 0, 0, ""}}},
		{"U Rz 3,2 Tmax G 2,5 G 0,8 0,8 5 4", "iso-21920", []want{{up, "Rz", 3.2, max, 2.5, 800, g, 800, 5, 4000, 0, 0, ""}}},
		{"Rz 3.2 Nic=0,8 nsc=3", "iso-21920", []want{{up, "Rz", 3.2, max, 2.5, 800, g, 800, 3, 2400, 0, 0, ""}}},
		{"Ra 1,6 le=8", "iso-21920", []want{{up, "Ra", 1.6, max, 2.5, 800, g, 800, 10, 8000, 0, 0, ""}}},
		{"Rk 1,5 Sc3", "iso-21920", []want{{up, "Rk", 1.5, max, 2.5, 800, "robust-gaussian", 800, 5, 4000, 0, 0, ""}}},
		{"Pt 10", "iso-21920", []want{{up, "Pt", 10, max, 0, 0, "", 0, 0, 0, 0, 0, "short"}}},
		{"Wz 10", "iso-21920", []want{{up, "Wz", 10, max, 0, 0, "", 0, 0, 0, 0, 0, "class"}}},

		{"Rz 0,4", "iso-4287", []want{{up, "Rz", 0.4, p16, 2.5, 250, g, 250, 5, 1250, 0, 0, "cutoff"}}},
		{"Rzmax 0,2", "iso-4287", []want{{up, "Rz", 0.2, max, 2.5, 250, g, 250, 5, 1250, 0, 0, "cutoff"}}},
		{"Ra 0,7; Rz1 3,3", "iso-4287", []want{
			{up, "Ra", 0.7, p16, 2.5, 800, g, 800, 5, 4000, 0, 0, "cutoff"}, {up, "Rz", 3.3, p16, 2.5, 800, g, 800, 1, 800, 0, 0, "cutoff"}}},
		{"0,008-0,8/Ra 3,1", "iso-4287", []want{{up, "Ra", 3.1, p16, 8, 800, g, 800, 5, 4000, 0, 0, ""}}},
		{"-0,8/Ra3 1,6", "iso-4287", []want{{up, "Ra", 1.6, p16, 2.5, 800, g, 800, 3, 2400, 0, 0, ""}}},
		{"-0,8/Ra3 3,1", "iso-4287", []want{{up, "Ra", 3.1, p16, 2.5, 800, g, 800, 3, 2400, 0, 0, ""}}},
		{"-0,8/Ra3  1.6", "iso-4287", []want{{up, "Ra", 1.6, p16, 2.5, 800, g, 800, 3, 2400, 0, 0, ""}}},
		{"U Ramax 3,1 / L Ra 0,9", "iso-4287", []want{
			{up, "Ra", 3.1, max, 8, 2500, g, 2500, 5, 12500, 0, 0, "cutoff"}, {low, "Ra", 0.9, p16, 2.5, 800, g, 800, 5, 4000, 0, 0, "cutoff"}}},
		{`U "2RC" 0,008-0,8 / Rz8max 3,3`, "iso-4287", []want{{up, "Rz", 3.3, max, 8, 800, rc, 800, 8, 6400, 0, 0, ""}}},
		{"0,8-25/Wz3 10", "iso-4287", []want{{up, "Wz", 10, p16, 2.5, 800, g, 25000, 3, 75000, 0, 0, ""}}},
		{"0,008-/Ptmax 25", "iso-4287", []want{{up, "Pt", 25, max, 8, 0, "", 0, 1, 0, 0, 0, ""}}},
		{"0,0025-0,1//Rx 0,2", "iso-4287", []want{{up, "Rx", 0.2, p16, 2.5, 0, "", 3200, 1, 3200, 100, 500, ""}}},
		{"/10/R 10", "iso-4287", []want{{up, "R", 10, p16, 8, 0, "", 10000, 1, 10000, 500, 2500, ""}}},
		{"W 1", "iso-4287", []want{{up, "W", 1, p16, 8, 0, "", 16000, 1, 16000, 500, 2500, ""}}},
		{"-0,3/6/AR 0,09 mm", "iso-4287", []want{{up, "AR", 90, p16, 8, 0, "", 6000, 1, 6000, 300, 1500, ""}}},
		{"0,008-0,5/12/R 10", "iso-4287", []want{{up, "R", 10, p16, 8, 0, "", 12000, 1, 12000, 500, 2500, ""}}},
		{"-0,8/Rmr(0,5) 60", "iso-4287", []want{{up, "Rmr(0.5)", 60, p16, 2.5, 800, g, 800, 5, 4000, 0, 0, "reference side"}}},
		{"MRR Ra 0,7; Rz1 3,3", "jis-b0601-2013", []want{
			{up, "Ra", 0.7, p16, 2.5, 800, g, 800, 5, 4000, 0, 0, "cutoff"}, {up, "Rz", 3.3, p16, 2.5, 800, g, 800, 1, 800, 0, 0, "cutoff"}}},
		{"Rk8 1,2", "iso-4287", []want{{up, "Rk", 1.2, p16, 2.5, 800, vs, 800, 8, 6400, 0, 0, ""}}},

		{"63 µin", "asme-b46.1", []want{{up, "Ra", 1.6002, max, 2.5, 800, g, 800, 5, 4000, 0, 0, "cutoff"}}},
		{"125/63 uin", "asme-b46.1", []want{
			{up, "Ra", 3.175, max, 8, 2500, g, 2500, 5, 12500, 0, 0, "cutoff"}, {low, "Ra", 1.6002, max, 2.5, 800, g, 800, 5, 4000, 0, 0, "cutoff"}}},
		{"63 AA", "asme-b46.1", []want{{up, "Ra", math.NaN(), max, 2.5, 800, g, 800, 5, 4000, 0, 0, "unit cutoff"}}},
		{"Rz 250 µin cutoff=.030 in", "asme-b46.1", []want{{up, "Rz", 6.35, max, 2.5, 800, g, 800, 5, 4000, 0, 0, ""}}},
		{"Rz 250 µin cutoff=0.762", "asme-b46.1", []want{{up, "Rz", 6.35, max, 0, 0, "", 0, 0, 0, 0, 0, "lengths"}}},
		{"32 µin cutoff=0.8", "asme-b46.1", []want{{up, "Ra", 0.8128, max, 2.5, 800, g, 800, 5, 4000, 0, 0, ""}}},
		{"Rz 6,3", "jis-b0601-1994", []want{{up, "Rz", 6.3, max, 0, 800, g, 800, 5, 4000, 0, 0, "cutoff"}}},
		{"Rz 6,3", "jis-b0601-1982", []want{{up, "Rz", 6.3, max, 0, 0, "", 800, 1, 800, 0, 0, "cutoff"}}},
		{"Rmax 25 lsc=2,5", "jis-b0601-1982", []want{{up, "Rmax", 25, max, 0, 0, "", 2500, 1, 2500, 0, 0, "cutoff"}}},
		{"Ra 1,6", "jis-b0601-1982", []want{{up, "Ra", 1.6, max, 0, 800, rc, 800, 5, 4000, 0, 0, "cutoff"}}},
	}
	for _, c := range cases {
		rs, err := standards.ParseRequirement(c.text, c.edition)
		if err != nil {
			t.Errorf("%q (%s): %v", c.text, c.edition, err)
			continue
		}
		if len(rs.Items) != len(c.want) {
			t.Errorf("%q (%s): %d requirements, want %d", c.text, c.edition, len(rs.Items), len(c.want))
			continue
		}
		for i := range rs.Items {
			r, w := &rs.Items[i], c.want[i]
			open := ""
			for _, q := range r.Questions {
				if open != "" {
					open += " "
				}
				open += q.Key
			}
			s := r.Settings
			got := want{r.Side, r.Symbol, r.Limit, r.Rule, s.Short.Cutoff, s.Long.Cutoff, s.Long.Filter, s.Section, s.Sections, s.Evaluation, s.A, s.B, open}
			if math.IsNaN(got.limit) && math.IsNaN(w.limit) {
				got.limit, w.limit = 0, 0
			}
			if got != w {
				t.Errorf("%q (%s)\n got  %+v\n want %+v", c.text, c.edition, got, w)
			}
			if s.Complete {
				for _, k := range []string{"edition", "short.cutoff", "long.cutoff", "section", "sections", "evaluation"} {
					if (k == "short.cutoff" && s.Short.Filter == "") || (k == "long.cutoff" && s.Long.Filter == "") {
						continue
					}
					if o, ok := s.Origins[k]; !ok || o.Doc == "" || o.Basis == "" || o.Text == "" {
						t.Errorf("%q (%s): %s has no origin: %+v", c.text, c.edition, k, o)
					}
				}
			}
			if r.Reading() == "" {
				t.Errorf("%q: no reading", c.text)
			}
		}
	}
}

// A parameter without a default is refused when settings are wanted, at its place and with the reason.
func TestNeedClass(t *testing.T) {
	rs, err := standards.ParseRequirement("Ra 1,6; RSm 0,2", "iso-21920")
	if err != nil {
		t.Fatal(err)
	}
	if err := rs.Items[0].Err(); err != nil {
		t.Error(err)
	}
	err = rs.Items[1].Err()
	var e *standards.TextError
	if !errors.Is(err, standards.ErrNeedClass) || !errors.As(err, &e) || e.Line != 1 || e.Column != 9 {
		t.Errorf("got %v", err)
	}
}

// The class from a remembered table carries its mark to the reader.
func TestUnconfirmedReaches(t *testing.T) {
	for text, marked := range map[string]bool{"Rq 1,6": true, "Rt 12": true, "Rz 3": false, "L Rz 3": true, "Rq 1,6 Sc3": false, "Rq 1,6 Nic=0,8": false} {
		rs, err := standards.ParseRequirement(text, "")
		if err != nil {
			t.Fatal(err)
		}
		if got := rs.Items[0].Settings.Origins["section"].Unconfirmed; got != marked {
			t.Errorf("%s: unconfirmed %t", text, got)
		}
	}
}

// Every refusal has its place. The caret stands one line below, under the character.
func TestRefusals(t *testing.T) {
	cases := []struct {
		text, edition string
		line, column  int
		err           error
	}{
		{"", "", 1, 1, standards.ErrSyntax},
		{" ; \n", "", 1, 1, standards.ErrSyntax},
		{"Rz 3", "iso-1", 1, 1, standards.ErrEdition},
		{"Rz", "", 1, 3, standards.ErrNumber},
		{"Rz x", "", 1, 4, standards.ErrNumber},
		{"Rz 0", "", 1, 4, standards.ErrNumber},
		{"rz 3", "", 1, 1, standards.ErrSymbol},
		{"U Ry 3", "", 1, 3, standards.ErrSymbol},
		{"Rz 1.234,5", "", 1, 9, standards.ErrNumber},
		{"Rz 3,", "", 1, 5, standards.ErrNumber},
		{"L Rz ≤ 3", "", 1, 6, standards.ErrSyntax},
		{"Rz25", "", 1, 1, standards.ErrSymbol},
		{"Rz25", "iso-4287", 1, 5, standards.ErrNumber},
		{"furrow mark=N13", "", 1, 8, standards.ErrSyntax},
		{"Rz 3,2 Tmax Tmax", "", 1, 13, standards.ErrSyntax},
		{"Rz 3,2 max", "", 1, 8, standards.ErrSyntax},
		{"Rz 3,2 5", "", 1, 8, standards.ErrSyntax},
		{"Rz 3,2 G 0,8", "", 1, 8, standards.ErrSyntax},
		{"Rz 3,2 G 2,5 G 0,8 0,8", "", 1, 20, standards.ErrSyntax},
		{"Rz 3,2 Sc6", "", 1, 8, standards.ErrSyntax},
		{"Rz 3,2 OR(0)", "", 1, 11, standards.ErrNumber},
		{"Rz 3,2 Nic=0", "", 1, 12, standards.ErrNumber},
		{"Rz 3,2 le=1", "", 1, 8, standards.ErrSyntax},
		{"Rz 3,2 nsc=2 le=4 lsc=0,8", "", 1, 14, standards.ErrSyntax},
		{"Rz 3,2 Nis=900 µm Nic=0,8", "", 1, 8, standards.ErrSyntax},
		{"Rz 3 %", "", 1, 5, standards.ErrNumber},
		{"Ra 1,6\nRzmax 3", "", 2, 1, standards.ErrSymbol},
		{"-0,8/Ra 3", "", 1, 1, standards.ErrSyntax},
		{"Ra3,1", "iso-4287", 1, 4, standards.ErrSyntax},
		{"Ra3,1", "", 1, 3, standards.ErrSyntax},
		{"0,8/Ra 3", "iso-4287", 1, 4, standards.ErrSyntax},
		{"0,8-0,008/Ra 3", "iso-4287", 1, 1, standards.ErrNumber},
		{"-/Ra 3", "iso-4287", 1, 1, standards.ErrSyntax},
		{"-0,8//Ra 3", "iso-4287", 1, 1, standards.ErrSyntax},
		{`U "ABC" -0,8/Ra 3`, "iso-4287", 1, 3, standards.ErrSyntax},
		{`U "2RC -0,8/Ra 3`, "iso-4287", 1, 3, standards.ErrSyntax},
		{"Ra 3 Tmax", "iso-4287", 1, 6, standards.ErrSyntax},
		{"0,008-0,8/Pt 3", "iso-4287", 1, 7, standards.ErrSyntax},
		{"Rmr 60", "iso-4287", 1, 4, standards.ErrSyntax},
		{"Rmr(0,5 60", "iso-4287", 1, 9, standards.ErrSyntax},
		{"N13", "", 1, 1, standards.ErrSyntax},
		{"63/125 µin", "asme-b46.1", 1, 4, standards.ErrNumber},
		{"furrow symbol=Rz", "", 1, 7, standards.ErrSyntax},
		{"furrow symbol=Rz limit=3µm foo=1", "", 1, 28, standards.ErrSyntax},
		{"furrow edition=iso-1 symbol=Rz limit=3µm", "", 1, 8, standards.ErrEdition},
		{"MRR", "", 1, 1, standards.ErrSyntax},
	}
	for _, c := range cases {
		_, err := standards.ParseRequirement(c.text, c.edition)
		var e *standards.TextError
		if !errors.As(err, &e) {
			t.Errorf("%q (%s): got %v", c.text, c.edition, err)
			continue
		}
		if e.Line != c.line || e.Column != c.column || !errors.Is(err, c.err) || e.Reason == "" {
			t.Errorf("%q (%s): %v (%v); want line %d, column %d, %v", c.text, c.edition, err, e.Err, c.line, c.column, c.err)
		}
	}
}

// Old grades, marks and a bare number are questions with answers, and an answer gives a requirement that can be used.
func TestOldMarks(t *testing.T) {
	cases := []struct {
		text, edition, question, answer string
		symbol                          string
		limit                           float64
	}{
		{"N7", "iso-21920", "grade", "ra", "Ra", 1.6}, // ISO 1302 N grades
		{"N10", "iso-4287", "grade", "ra", "Ra", 12.5},
		{"▽▽▽", "iso-21920", "mark", "jis", "Ra", 1.6},
		{"▽▽", "iso-21920", "mark", "din-1", "Rt", 40},
		{"∇∇", "iso-4287", "mark", "din-3", "Rt", 16},
		{"3,2", "iso-4287", "symbol", "ra", "Ra", 3.2},
		{"63 µin RMS", "asme-b46.1", "rms", "rq", "Rq", 1.6002},
		{"RMS 63 µin", "asme-b46.1", "rms", "ra", "Ra", 1.6002},
		{"Rz1max 3,3", "iso-4287", "rz1max", "one-section", "Rz", 3.3},
		{"Rz1max 3,3", "iso-4287", "rz1max", "largest", "Rz1max", 3.3},
	}
	for _, c := range cases {
		rs, err := standards.ParseRequirement(c.text, c.edition)
		if err != nil {
			t.Errorf("%q: %v", c.text, err)
			continue
		}
		if err := rs.Items[0].Err(); !errors.Is(err, standards.ErrOpen) {
			t.Errorf("%q: settings without an answer: %v", c.text, err)
		}
		if _, ok := rs.Items[0].Bounded(); ok {
			t.Errorf("%q: a limit without an answer", c.text)
		}
		rs, err = rs.Answer(0, c.question, c.answer)
		if err != nil {
			t.Errorf("%q: %v", c.text, err)
			continue
		}
		b, ok := rs.Items[0].Bounded()
		if !ok || b.Symbol != c.symbol || b.Value != c.limit {
			t.Errorf("%q: %+v %t", c.text, b, ok)
		}
	}
}

// The policy for two limits can be switched.
func TestClassFromLower(t *testing.T) {
	rd := standards.Reader{ClassFromLower: true}
	rs, err := rd.Read("U Rz 20\nL Rz 10")
	if err != nil {
		t.Fatal(err)
	}
	for _, r := range rs.Items {
		if r.Settings.Long.Cutoff != 800 || !r.Settings.Origins["section"].Unconfirmed {
			t.Errorf("%+v", r.Settings)
		}
	}
}
