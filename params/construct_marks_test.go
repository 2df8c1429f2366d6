package params_test

import (
	"math"
	"strings"
	"testing"

	"example.com/furrow/params"
	"example.com/furrow/standards"
)

// TestConstructionMarksItsOwnMeasure: the dimension lines of an element are widths for a spacing and heights for a height.
func TestConstructionMarksItsOwnMeasure(t *testing.T) {
	for _, c := range []struct {
		edition standards.EditionID
		letter  byte
		name    string
		level   bool // the dimension lines are level: widths
	}{
		{"iso-21920", 'R', "Rsm", true}, {"iso-21920", 'R', "Rsmx", true}, {"iso-21920", 'R', "Rpc", true},
		{"iso-4287", 'R', "RSm", true}, {"asme-b46.1", 'R', "RSm", true},
		{"iso-21920", 'R', "Rc", false}, {"iso-21920", 'R', "Rcq", false}, {"iso-4287", 'R', "Rc", false},
		{"iso-21920", 'W', "WDc", false},
	} {
		in := &params.Input{Z: cosines(4000, 20, 3), Dx: 1, Section: 800}
		got, err := params.Construct(in, lookup(t, c.edition, c.letter, c.name))
		if err != nil {
			t.Errorf("%s of %s: %v", c.name, c.edition, err)
			continue
		}
		lines := 0
		for _, s := range got.Steps {
			for _, m := range s.Marks {
				if m.Kind != params.SpanMark {
					continue
				}
				lines++
				if level := m.Points[0].Y == m.Points[1].Y; level != c.level {
					t.Errorf("%s of %s: %q has a dimension line from %v to %v", c.name, c.edition, s.Text, m.Points[0], m.Points[1])
				}
			}
		}
		if lines == 0 {
			t.Errorf("%s of %s: no dimension line in %d steps", c.name, c.edition, len(got.Steps))
		}
	}
}

// TestThirdHeightNamesItsRank: R3z marks the third-highest peak and the third-deepest valley, and says which they are.
func TestThirdHeightNamesItsRank(t *testing.T) {
	z := []float64{0, 5, -1, 4, -2, 3, -3, 2, -4, 1, -5, 0}
	got, err := params.Construct(&params.Input{Z: z, Dx: 10}, lookup(t, "iso-21920", 'R', "R3z"))
	if err != nil {
		t.Fatal(err)
	}
	if want := "peak 3 3.00 µm at 0.050 mm, valley 3 -3.00 µm at 0.060 mm"; len(got.Steps) != 1 || !strings.Contains(got.Steps[0].Text, want) || math.Abs(got.Result-6) > 1e-12 {
		t.Fatalf("R3z = %g, steps %+v", got.Result, got.Steps)
	}
	var labels []string
	for _, m := range got.Steps[0].Marks {
		if m.Kind == params.PeakMark || m.Kind == params.PitMark {
			labels = append(labels, m.Label)
		}
	}
	if strings.Join(labels, " ") != "P1 P2 P3 V1 V2 V3" {
		t.Errorf("the marks are labelled %v", labels)
	}
}

// The dimension between two local peaks stands on the higher of the two, at their places.
func TestPeakSpacingMark(t *testing.T) {
	z := []float64{0, 1, 0, 3, 0, 2, 0}
	got, err := params.Construct(&params.Input{Z: z, Dx: 10}, lookup(t, "iso-4287", 'R', "S"))
	if err != nil {
		t.Fatal(err)
	}
	marks := got.Steps[0].Marks
	if last := marks[len(marks)-1]; last.Kind != params.SpanMark || last.Points[0] != (params.Point{X: 10, Y: 3}) || last.Points[1] != (params.Point{X: 30, Y: 3}) || last.Label != "20.0 µm" {
		t.Errorf("%+v", last)
	}
}
