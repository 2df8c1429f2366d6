package roughness_test

import (
	"math"
	"os"
	"testing"

	"example.com/furrow/roughness"
	"example.com/furrow/roughness/tracefile"
)

// Files nobody here wrote: residual heights of the open metrology bank for X-ray mirrors (M. Sanchez del Rio et al., J. Synchrotron Rad. 23
// (2016) 665). Their headers publish the standard deviation with divisor n-1 in nanometres, from columns with more digits than
// printed: the deviation of the last digits is the tolerance.
func TestMirrorBank(t *testing.T) {
	for _, c := range []struct {
		file      string
		n         int
		published float64 // divisor n-1
		want      map[string]float64
	}{
		{"dabam-012", 443, 2.5052773, map[string]float64{"Pa": 2.122247, "Pq": 2.502310, "Psk": -0.064732, "Pku": 2.227052, "Pt": 11.6}},
		{"dabam-014", 241, 15.372782, map[string]float64{"Pq": 15.340603}},
		{"dabam-015", 801, 97.355965, map[string]float64{"Pa": 74.292714, "Pq": 97.295245, "Psk": 0.934486, "Pku": 4.417059, "Pt": 552.233}},
		{"dabam-010", 435, 3.048414, map[string]float64{"Pq": 3.044792}},
	} {
		data, err := os.ReadFile("../../shared/data/dabam/" + c.file + ".dat")
		if err != nil {
			t.Skip("shared data not present")
		}
		trace, err := tracefile.Read(data, &tracefile.Hints{XColumn: 1, ZColumn: 3, XUnit: "mm", ZUnit: "nm"})
		if err != nil {
			t.Errorf("%s: %v", c.file, err)
			continue
		}
		e, err := roughness.Evaluate(trace.Profile, &roughness.Settings{Profile: roughness.P, Form: roughness.FormSpec{Kind: "mean"}, Short: off()})
		if err != nil {
			t.Errorf("%s: %v", c.file, err)
			continue
		}
		if e.Points != c.n {
			t.Errorf("%s: %d points, want %d", c.file, e.Points, c.n)
		}
		pq := value(t, e, "Pq") / roughness.Nanometre
		near(t, c.file+": published standard deviation", pq*math.Sqrt(float64(c.n)/float64(c.n-1)), c.published, 2e-4*c.published)
		for symbol, want := range c.want {
			got := value(t, e, symbol)
			if symbol != "Psk" && symbol != "Pku" {
				got /= roughness.Nanometre
			}
			near(t, c.file+" "+symbol, got, want, 6e-7*(1+math.Abs(want)))
		}
	}
}
