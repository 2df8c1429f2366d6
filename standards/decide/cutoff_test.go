package decide_test

import (
	"errors"
	"fmt"
	"math"
	"testing"

	"example.com/furrow/standards"
	"example.com/furrow/standards/decide"
)

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
		f, err := decide.FindCutoff(c.e, c.by, c.estimate, surface(c.values))
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
	f, err := decide.FindCutoff(old, "Rz", 8, surface(map[float64]float64{800: 12}))
	if err == nil || len(f.Turns) != 1 {
		t.Errorf("%+v %v", f, err)
	}
	if _, err := decide.FindCutoff(old, "Rsk", 0, surface(nil)); err == nil {
		t.Error("no table by Rsk, and no error")
	}
	if _, err := decide.FindCutoff(old, "Ra", 0, surface(map[float64]float64{800: math.NaN()})); err == nil {
		t.Error("NaN passes")
	}
}
