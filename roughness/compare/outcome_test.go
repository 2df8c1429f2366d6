package compare_test

import (
	"strings"
	"testing"

	"example.com/furrow/roughness/compare"
)

// What a search comes to, and how much it says it is worth.
func TestOutcomes(t *testing.T) {
	for _, c := range []struct {
		printed string
		fits    []compare.Fit
		want    compare.Outcome
		says    []string
	}{
		{"Rz 1", nil, compare.None, []string{"No combination gives the printed value.", "One value fits many settings. Add a second value."}},
		{"Rz 1; Ra 2", []compare.Fit{{Changes: 0}}, compare.Same, []string{"The usual settings give the same values."}},
		{"Rz 1; Ra 2", []compare.Fit{{Changes: 1, Plain: "no S-filter"}}, compare.One, []string{"These settings give both printed values: no S-filter.", "a possible explanation, not a proof"}},
		{"Rz 1; Ra 2; Rq 3", []compare.Fit{{Changes: 1, Plain: "no S-filter"}}, compare.One, []string{"These settings give all 3 printed values: no S-filter."}},
		{"Rz 1", []compare.Fit{{Changes: 1, Plain: "no S-filter"}, {Changes: 2}}, compare.Many, []string{"The simplest explanation: no S-filter.", "7 of 40 combinations give the printed value to the last digit, with 2 different sets of values.", "Add a second value."}},
	} {
		printed, err := compare.ParsePrinted(c.printed)
		if err != nil {
			t.Fatal(err)
		}
		f := &compare.Finding{Printed: printed, Fits: c.fits, Fitting: 7, Tried: 40}
		said := strings.Join(f.Sentences(), " ")
		if f.Outcome() != c.want {
			t.Errorf("%s, %d fits: %v, want %v", c.printed, len(c.fits), f.Outcome(), c.want)
		}
		for _, want := range c.says {
			if !strings.Contains(said, want) {
				t.Errorf("%s, %d fits: %q without %q", c.printed, len(c.fits), said, want)
			}
		}
		if strings.Contains(said, "second value") != (len(printed) == 1) {
			t.Errorf("%s: %q", c.printed, said)
		}
	}
}
