package callout_test

import (
	"errors"
	"fmt"
	"math"
	"strings"
	"testing"

	"example.com/furrow/standards"
	"example.com/furrow/standards/callout"
)

func item(t *testing.T, text string, edition standards.EditionID) *callout.Item {
	t.Helper()
	rs, err := callout.ParseRequirement(text, edition)
	if err != nil {
		t.Fatal(err)
	}
	return &rs.Items[0]
}

// Traverse lengths: half a cut-off of run-up on each side makes 0.48, 1.5, 4.8, 15 and 48 mm (common practice); a whole
// one makes 5.6 mm for 0.8 mm; two cut-offs before for 2RC; none for P-parameters and motifs.
func TestTraverse(t *testing.T) {
	for i, want := range []float64{480, 1500, 4800, 15000, 48000} {
		p, err := callout.Advise(item(t, fmt.Sprintf("Rsk 0 Sc%d", i+1), ""), callout.Surface{})
		if err != nil || !close(p.Traverse, want, 1e-12) {
			t.Errorf("Sc%d: %g, %v; want %g", i+1, p.Traverse, err, want)
		}
	}
	for _, c := range []struct {
		text     string
		edition  standards.EditionID
		s        callout.Surface
		lead, lt float64
	}{
		{"Ra 1,6", "", callout.Surface{RunUp: 1}, 800, 5600},
		{`"2RC" -0,8/Ra 1,6`, "iso-4287", callout.Surface{}, 1600, 5600},
		{"W 1", "iso-12085", callout.Surface{}, 0, 16000},
		{"0,008-/Pt 25", "iso-4287", callout.Surface{Length: 7000}, 0, 7000},
		{"0,8-25/Wz3 10", "iso-4287", callout.Surface{}, 12500, 100000},
	} {
		p, err := callout.Advise(item(t, c.text, c.edition), c.s)
		if err != nil || p.Lead != c.lead || !close(p.Traverse, c.lt, 1e-12) {
			t.Errorf("%s: lead %g, traverse %g, %v; want %g, %g", c.text, p.Lead, p.Traverse, err, c.lead, c.lt)
		}
	}
}

// Tip, spacing, cone and force are those of ISO 3274:1996, Table 1.
func TestPlanInstrument(t *testing.T) {
	p, err := callout.Advise(item(t, "Rz 6,3", ""), callout.Surface{Rz: 6.3, Spacing: 500, Soft: true})
	if err != nil || p.MaxSpacing != 0.5 || p.TipRadius != 2 || p.TipAllowed != 5 || p.Cone != 60 || p.Steepest != 60 || p.Force != 0.75 || p.SpeedTo != 500 || len(p.Notes) != 2 {
		t.Errorf("%+v %v", p, err)
	}
	if !p.Origins["tip_allowed"].Unconfirmed {
		t.Error("the relief of the tip is not confirmed for ISO 21920-3")
	}
	p, _ = callout.Advise(item(t, "Rz 60", "iso-4287"), callout.Surface{})
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
	ra := item(t, "Ra 1,6", "")
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
		p, err := callout.Advise(ra, callout.Surface{Length: c.length})
		f := p.Fit
		if err != nil || f.Fits != c.fits || f.Sections != c.with || f.SectionsNoRun != c.without || f.StatedInSymbol != c.symbol || !strings.Contains(f.Text, c.phrase) {
			t.Errorf("%g: %+v %v", c.length, f, err)
		}
	}
	if _, err := callout.Advise(item(t, "RSm 0,2 mm", ""), callout.Surface{}); !errors.Is(err, callout.ErrOpen) {
		t.Errorf("an open requirement: %v", err)
	}
	if _, err := callout.Advise(ra, callout.Surface{Length: math.NaN()}); err == nil {
		t.Error("NaN passes")
	}
}

// The consequence of the new limits: an Rz of 12 µm had 2.5 mm, and has 0.8 mm (computed from the two tables).
func TestWhatChanged(t *testing.T) {
	for _, c := range []struct{ rz, was, is float64 }{{0.12, 250, 80}, {0.5, 250, 250}, {0.6, 800, 250}, {12, 2500, 800}, {16, 2500, 800}, {60, 8000, 2500}} {
		text := fmt.Sprintf("Rz %g", c.rz)
		if was := item(t, text, "iso-4287").Settings["long.cutoff"].Number; was != c.was {
			t.Errorf("%s under ISO 4288: %g, want %g", text, was, c.was)
		}
		if is := item(t, text, "iso-21920").Settings["long.cutoff"].Number; is != c.is {
			t.Errorf("%s under ISO 21920-3: %g, want %g", text, is, c.is)
		}
	}
}

func close(got, want, tol float64) bool { return math.Abs(got-want) <= tol*math.Max(1, math.Abs(want)) }

// Speeds go with the cut-off: up to 0.08 mm, up to 0.8 mm, and above it (common practice).
func TestSpeed(t *testing.T) {
	for _, c := range []struct {
		text     string
		from, to float64
	}{
		{"0,0025-0,08/Ra 0,1", 100, 150}, {"0,0025-0,0801/Ra 0,1", 250, 500}, {"0,0025-0,8/Ra 1", 250, 500}, {"0,0025-0,8004/Ra 1", 500, 1000}, {"0,008-2,5/Ra 1", 500, 1000},
	} {
		p, err := callout.Advise(item(t, c.text, "iso-4287"), callout.Surface{})
		if err != nil || p.SpeedFrom != c.from || p.SpeedTo != c.to {
			t.Errorf("%s: from %g to %g, %v; want %g to %g", c.text, p.SpeedFrom, p.SpeedTo, err, c.from, c.to)
		}
	}
}

// An S-filter that is stated stands beside the one of a stated class, for a primary parameter too.
func TestStatedShortOfPrimary(t *testing.T) {
	for text, want := range map[string]float64{"Pa 3 Sc3": 2.5, "Pa 3 Sc4": 8, "Pa 3 Nis 8 µm": 8, "Pa 3 Sc3 Nis 8 µm": 8, "Pa 3 Sc4 Nis 2,5 µm": 2.5} {
		r := item(t, text, "iso-21920")
		if got := r.Settings["short.cutoff"]; got.Number != want || got.Origin.Text == "" || strings.Contains(got.Origin.Text, "class") == strings.Contains(text, "Nis") {
			t.Errorf("%s: %g, %q", text, got.Number, got.Origin.Text)
		}
	}
}
