package standards_test

import (
	"errors"
	"fmt"
	"math"
	"strings"
	"testing"

	"example.com/furrow/standards"
)

func settings(t *testing.T, text, edition string) standards.Settings {
	t.Helper()
	rs, err := standards.ParseRequirement(text, edition)
	if err != nil {
		t.Fatal(err)
	}
	return rs.Items[0].Settings
}

// Traverse lengths: half a cut-off of run-up on each side makes 0.48, 1.5, 4.8, 15 and 48 mm (common practice); a whole
// one makes 5.6 mm for 0.8 mm; two cut-offs before for 2RC; none for P-parameters and motifs.
func TestTraverse(t *testing.T) {
	for i, want := range []float64{480, 1500, 4800, 15000, 48000} {
		p, err := standards.Advise(settings(t, fmt.Sprintf("Rsk 0 Sc%d", i+1), ""), standards.Surface{})
		if err != nil || !close(p.Traverse, want, 1e-12) {
			t.Errorf("Sc%d: %g, %v; want %g", i+1, p.Traverse, err, want)
		}
	}
	for _, c := range []struct {
		text, edition string
		s             standards.Surface
		lead, lt      float64
	}{
		{"Ra 1,6", "", standards.Surface{RunUp: 1}, 800, 5600},
		{`"2RC" -0,8/Ra 1,6`, "iso-4287", standards.Surface{}, 1600, 5600},
		{"W 1", "iso-12085", standards.Surface{}, 0, 16000},
		{"0,008-/Pt 25", "iso-4287", standards.Surface{Length: 7000}, 0, 7000},
		{"0,8-25/Wz3 10", "iso-4287", standards.Surface{}, 12500, 100000},
	} {
		p, err := standards.Advise(settings(t, c.text, c.edition), c.s)
		if err != nil || p.Lead != c.lead || !close(p.Traverse, c.lt, 1e-12) {
			t.Errorf("%s: lead %g, traverse %g, %v; want %g, %g", c.text, p.Lead, p.Traverse, err, c.lead, c.lt)
		}
	}
}

// Tip, spacing, cone and force are those of ISO 3274:1996, Table 1.
func TestPlanInstrument(t *testing.T) {
	p, err := standards.Advise(settings(t, "Rz 6,3", ""), standards.Surface{Rz: 6.3, Spacing: 500, Soft: true})
	if err != nil || p.MaxSpacing != 0.5 || p.TipRadius != 2 || p.TipAllowed != 5 || p.Cone != 60 || p.Steepest != 60 || p.Force != 0.75 || p.SpeedTo != 500 || len(p.Notes) != 2 {
		t.Errorf("%+v %v", p, err)
	}
	if !p.Origins["tip_allowed"].Unconfirmed {
		t.Error("the relief of the tip is not confirmed for ISO 21920-3")
	}
	p, _ = standards.Advise(settings(t, "Rz 60", "iso-4287"), standards.Surface{})
	if p.MaxSpacing != 5 || p.TipRadius != 10 || p.TipAllowed != 0 {
		t.Errorf("%+v", p)
	}
	for key, o := range p.Origins {
		if o.Text == "" || o.Doc == "" {
			t.Errorf("%s has no origin: %+v", key, o)
		}
	}
}

// A short surface gets fewer sections, stated; never another cut-off.
func TestFit(t *testing.T) {
	ra := settings(t, "Ra 1,6", "")
	for _, c := range []struct {
		length         float64
		fits           bool
		with, without  int
		symbol, phrase string
	}{
		{0, false, 0, 0, "", "not known"},
		{4800, true, 5, 5, "", "fits"},
		{4799, false, 4, 5, "Ra4", "cut-off stays"},
		{3200, false, 3, 4, "Ra3", "Three sections fit"},
		{1600, false, 1, 2, "Ra1", "One section fits"},
		{900, false, 0, 1, "Ra1", "No section fits with run-up"},
		{700, false, 0, 0, "", "agree and state"},
	} {
		p, err := standards.Advise(ra, standards.Surface{Length: c.length})
		f := p.Fit
		if err != nil || f.Fits != c.fits || f.Sections != c.with || f.SectionsNoRun != c.without || f.StatedInSymbol != c.symbol || !strings.Contains(f.Text, c.phrase) {
			t.Errorf("%g: %+v %v", c.length, f, err)
		}
	}
	if _, err := standards.Advise(settings(t, "RSm 0,2 mm", ""), standards.Surface{}); !errors.Is(err, standards.ErrOpen) {
		t.Errorf("an open requirement: %v", err)
	}
	if _, err := standards.Advise(ra, standards.Surface{Length: math.NaN()}); err == nil {
		t.Error("NaN passes")
	}
}

// surface gives a value for each cut-off.
func surface(values map[float64]float64) func(float64) (float64, error) {
	return func(cutoff float64) (float64, error) {
		v, ok := values[cutoff]
		if !ok {
			return 0, errors.New("trace too short")
		}
		return v, nil
	}
}

func TestFindCutoff(t *testing.T) {
	old, _ := standards.EditionByID("iso-4287")
	now, _ := standards.EditionByID("iso-21920")
	cases := []struct {
		name     string
		e        standards.Edition
		by       string
		estimate float64
		values   map[float64]float64
		want     float64
		turns    string
		stable   bool
	}{
		{"agrees at once, shorter does not", old, "Ra", 1, map[float64]float64{800: 0.9, 250: 0.5}, 800, "800 250", true},
		{"shorter agrees too and wins", old, "Ra", 0, map[float64]float64{800: 0.12, 250: 0.09}, 250, "800 250", true},
		{"one step longer", old, "Rz", 8, map[float64]float64{800: 12, 2500: 14}, 2500, "800 2500", true},
		{"two steps", old, "Rz", 0.3, map[float64]float64{250: 0.8, 800: 11, 2500: 15}, 2500, "250 800 2500", true},
		{"to and fro", old, "Rz", 8, map[float64]float64{800: 12, 2500: 9}, 2500, "800 2500", false},
		{"periodic", old, "RSm", 100, map[float64]float64{250: 150, 800: 155}, 800, "250 800", true},
		{"periodic agrees", old, "RSm", 300, map[float64]float64{800: 310}, 800, "800", true},
		{"no shorter try under ISO 21920-3", now, "Ra", 0, map[float64]float64{800: 0.12, 250: 0.09}, 800, "800", true},
		{"above the table", old, "Ra", 100, map[float64]float64{8000: 100, 2500: 50}, 8000, "8000 2500", true},
	}
	for _, c := range cases {
		f, err := standards.FindCutoff(c.e, c.by, c.estimate, surface(c.values))
		turns := ""
		for _, turn := range f.Turns {
			turns += fmt.Sprintf(" %g", turn.Cutoff)
			if turn.Text == "" || turn.Value != c.values[turn.Cutoff] {
				t.Errorf("%s: turn %+v", c.name, turn)
			}
		}
		if err != nil || f.Cutoff != c.want || turns != " "+c.turns || f.Stable != c.stable || f.Value != c.values[c.want] {
			t.Errorf("%s: %+v %v", c.name, f, err)
		}
	}
	// A trace that is too short for a cut-off ends the search and keeps what was seen.
	f, err := standards.FindCutoff(old, "Rz", 8, surface(map[float64]float64{800: 12}))
	if err == nil || len(f.Turns) != 1 {
		t.Errorf("%+v %v", f, err)
	}
	if _, err := standards.FindCutoff(old, "Rsk", 0, surface(nil)); err == nil {
		t.Error("no table by Rsk, and no error")
	}
	if _, err := standards.FindCutoff(old, "Ra", 0, surface(map[float64]float64{800: math.NaN()})); err == nil {
		t.Error("NaN passes")
	}
}

// The consequence of the new limits: an Rz of 12 µm had 2.5 mm, and has 0.8 mm (computed from the two tables).
func TestWhatChanged(t *testing.T) {
	for _, c := range []struct{ rz, was, is float64 }{{0.12, 250, 80}, {0.5, 250, 250}, {0.6, 800, 250}, {12, 2500, 800}, {16, 2500, 800}, {60, 8000, 2500}} {
		text := fmt.Sprintf("Rz %g", c.rz)
		if was := settings(t, text, "iso-4287").Long.Cutoff; was != c.was {
			t.Errorf("%s under ISO 4288: %g, want %g", text, was, c.was)
		}
		if is := settings(t, text, "iso-21920").Long.Cutoff; is != c.is {
			t.Errorf("%s under ISO 21920-3: %g, want %g", text, is, c.is)
		}
	}
}
