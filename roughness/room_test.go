package roughness_test

import (
	"errors"
	"math"
	"testing"

	"example.com/furrow/roughness"
	"example.com/furrow/roughness/synth"
)

// fewer sections and keeps the cut-off.
func TestRoomFor(t *testing.T) {
	discard := gaussian(800)
	discard.Spec.Ends = "discard"
	start := 1000.0
	invalid := sine(1, 100, 4800, 1)
	for i := range 900 {
		invalid.Z[i] = math.NaN()
	}
	for _, c := range []struct {
		name      string
		p         roughness.Profile
		set       *roughness.Settings
		whole     int
		withRunUp int
		missing   float64
		section   float64
	}{
		{"4.8 mm", sine(1, 100, 4800, 1), nil, 5, 5, 0, 800},
		{"4.8 mm, ends cut", sine(1, 100, 4800, 1), &roughness.Settings{Long: discard}, 5, 5, 0, 800},
		{"4 mm", sine(1, 100, 4000, 1), nil, 5, 4, 0, 800},
		{"4 mm, ends cut", sine(1, 100, 4000, 1), &roughness.Settings{Long: discard}, 4, 4, 800, 800},
		{"2 mm", sine(1, 100, 2000, 1), nil, 2, 1, 2000, 800},
		{"0.7 mm", sine(1, 100, 700, 1), nil, 0, 0, 3300, 800},
		{"from 1 mm on", sine(1, 100, 4800, 1), &roughness.Settings{Start: &start}, 4, 4, 200, 800},
		{"invalid start", invalid, nil, 4, 3, 100, 800},
		{"P", sine(1, 100, 700, 1), &roughness.Settings{Profile: roughness.P}, 1, 1, 0, 700},
	} {
		r, err := roughness.RoomFor(c.p, c.set)
		if err != nil {
			t.Errorf("%s: %v", c.name, err)
			continue
		}
		if r.Whole != c.whole || r.WithRunUp != c.withRunUp || r.Wanted != map[bool]int{true: 1, false: 5}[c.name == "P"] {
			t.Errorf("%s: %+v", c.name, r)
		}
		near(t, c.name+": missing", r.Missing, c.missing, 1e-9)
		near(t, c.name+": section", r.Section, c.section, 1e-9)
		e, err := roughness.Evaluate(c.p, c.set)
		if sections := c.whole; (sections == 0) != errors.Is(err, roughness.ErrTooShort) || sections > 0 && e.Sections != sections {
			t.Errorf("%s: the evaluation holds %d sections, error %v", c.name, e.Sections, err)
		}
	}
	if _, err := roughness.RoomFor(roughness.Profile{Spacing: 1}, nil); err == nil {
		t.Error("no trace, no room")
	}
}

// Points and tip that go with a cut-off: ISO 3274:1996, Table 1 (confirmed by neutral copies).
func TestRoomForNotes(t *testing.T) {
	for _, c := range []struct {
		cutoff, spacing, tip float64
		notes                int
	}{
		{800, 0.5, 2, 0}, {800, 0.6, 2, 1}, {800, 0.5, 5, 1}, {800, 0.6, 5, 2}, {2500, 1.5, 5, 0}, {2500, 1.6, 5, 1}, {2500, 1.5, 6, 1},
		{8000, 5, 10, 0}, {8000, 5.1, 10.1, 2}, {250, 0.5, 2, 0}, {80, 0.5, 0, 0}, {80, 0.51, 0, 1}, {500, 9, 9, 0},
	} {
		p := sine(1, 100, 5000, c.spacing)
		p.Traced.TipRadius = c.tip
		r, err := roughness.RoomFor(p, &roughness.Settings{Edition: "iso-4287", Long: gaussian(c.cutoff)})
		if err != nil || len(r.Notes) != c.notes {
			t.Errorf("%+v: %q, %v", c, r.Notes, err)
		}
	}
}

func sine(height, wavelength, length, spacing float64) roughness.Profile {
	z := synth.Sine{Amplitude: height / 2, Wavelength: wavelength}.Heights(int(length/spacing), spacing)
	return roughness.Profile{Z: z, Spacing: spacing}
}
