package tracefile_test

import (
	"fmt"
	"strings"
	"testing"

	"example.com/furrow/roughness/tracefile"
)

// A hint that says another unit than the file is followed, and said; so is a trace that is too flat for the nanometres of its header.
func TestUnitDoubt(t *testing.T) {
	table := func(x, z string, height float64) []byte {
		var b strings.Builder
		fmt.Fprintf(&b, "x [%s];z [%s]\n", x, z)
		for i := range 200 {
			fmt.Fprintf(&b, "%g;%g\n", float64(i)/2, height*float64(i%7)/6)
		}
		return []byte(b.String())
	}
	for _, c := range []struct {
		x, z   string
		height float64
		hints  tracefile.Hints
		says   string // empty: no doubt
	}{
		{"µm", "µm", 3, tracefile.Hints{}, ""}, {"µm", "µm", 3, tracefile.Hints{ZUnit: "um", XUnit: "µm"}, ""}, {"µm", "nm", 3000, tracefile.Hints{}, ""},
		{"µm", "nm", 3000, tracefile.Hints{ZUnit: "µm"}, "By line 1 the unit of z is nm; the hint says µm, which was used."},
		{"mm", "µm", 3, tracefile.Hints{XUnit: "µm"}, "By line 1 the unit of x is mm; the hint says µm, which was used."},
		{"µm", "nm", 3.21, tracefile.Hints{}, "In nanometres (line 1) the trace is 3.21 nm high"}, {"µm", "nm", 3.21, tracefile.Hints{ZUnit: "nm"}, ""},
	} {
		trace, err := tracefile.Read(table(c.x, c.z, c.height), &c.hints)
		if err != nil {
			t.Errorf("%+v: %v", c, err)
			continue
		}
		var doubts []string
		for _, n := range trace.Notes {
			if n.Code == "unit-doubt" {
				doubts = append(doubts, n.Text)
			}
		}
		if (c.says == "") != (len(doubts) == 0) || !strings.Contains(strings.Join(doubts, " "), c.says) {
			t.Errorf("%+v: %q", c, doubts)
		}
	}
}
