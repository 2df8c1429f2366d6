package roughness

import (
	"math"
	"slices"
	"strings"
	"testing"
)

// What a settings file says against a requirement is told, the same filter with other ends is not.
func TestAgainst(t *testing.T) {
	band := func(name string, cutoff float64, ends string) Band {
		return Band{Spec: FilterSpec{Filter: name, Cutoff: cutoff, Ends: ends}}
	}
	asked := &Settings{Long: band("gaussian", 800, ""), Short: band("gaussian", 2.5, ""), Sections: 5, SectionLength: 800, Profile: R}
	for _, c := range []struct {
		over Settings
		want []string
	}{
		{Settings{}, nil}, {*asked, nil}, {Settings{Long: band("gaussian", 800, "retain")}, nil},
		{Settings{Long: band("gaussian", 250, "")}, []string{"the L-filter is"}}, {Settings{Long: band("spline", 800, "")}, []string{"the L-filter is"}}, {Settings{Short: Band{Off: true}}, []string{"the S-filter is"}},
		{Settings{Sections: 3, SectionLength: 250}, []string{"800 µm there and 250 µm here", "5 there and 3 here"}},
	} {
		notes := c.over.Against(asked)
		ok := len(notes) == len(c.want)
		for i := range min(len(notes), len(c.want)) {
			ok = ok && notes[i].Code == "differs-from-requirement" && strings.Contains(notes[i].Text, c.want[i])
		}
		if !ok {
			t.Errorf("%+v: %q, want %q", c.over, notes, c.want)
		}
	}
	if s := WithParameters(nil, "Rsk", "Rno"); !slices.Contains(s.Parameters, "Ra") || s.Parameters[len(s.Parameters)-1] != "Rno" {
		t.Errorf("the defaults with two more: %q", s.Parameters)
	}
}

// What is left out is told with its reason; the ends of a part belong to it, and heights that are missing already are not counted.
func TestLeftOutInWords(t *testing.T) {
	z := make([]float64, 2000)
	for i := range z {
		z[i] = math.Sin(float64(i) / 7)
	}
	z[1003] = math.NaN()
	bridge := 50.0
	e, err := Evaluate(Profile{Z: z, Spacing: 1}, &Settings{Long: Band{Spec: FilterSpec{Cutoff: 80}}, Sections: 3, Bridge: &bridge, Exclude: []Exclusion{{From: 1000, To: 1010, Reason: "scratch"}, {From: 1200, To: 1200, Reason: "pore"}, {From: 1300.2, To: 1300.8, Reason: "dust"}}})
	if err != nil {
		t.Fatal(err)
	}
	var texts []string
	for _, n := range e.Notes {
		if n.Code == "left-out" {
			texts = append(texts, n.Text)
		}
	}
	if want := []string{"10 points from 1000 to 1010 µm left out: scratch.", "1 point from 1200 to 1200 µm left out: pore.", "0 points from 1300.2 to 1300.8 µm left out: dust."}; !slices.Equal(texts, want) {
		t.Errorf("%q, want %q", texts, want)
	}
}
