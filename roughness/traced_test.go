package roughness_test

import (
	"math"
	"testing"

	"example.com/furrow/roughness"
	"example.com/furrow/roughness/synth"
)

// With a skid, which is a mechanical high-pass, P, W and the Rk family are refused with the reason (ISO 3274:1996 deals with instruments
// without one; common practice); Ra, Rz and the other roughness parameters are given.
func TestSkid(t *testing.T) {
	d, _ := synth.FindDemo("ground-rod")
	for _, c := range []struct {
		profile   roughness.Letter
		parameter string
		refused   bool
	}{
		{roughness.R, "Ra", false}, {roughness.R, "Rz", false}, {roughness.R, "Rsm", false}, {roughness.R, "Rmr(0.5)", false},
		{roughness.R, "Rk", true}, {roughness.R, "Rvk", true}, {roughness.R, "Rpk", true},
		{roughness.P, "Pt", true}, {roughness.W, "Wt", true},
	} {
		for _, skid := range []roughness.SkidUse{roughness.SkidUnknown, roughness.WithoutSkid, roughness.WithSkid} {
			for _, insist := range []bool{false, true} {
				p := roughness.Profile{Z: d.Heights(), Spacing: d.Spacing, Traced: roughness.Traced{Skid: skid}}
				e, err := roughness.Evaluate(p, &roughness.Settings{Profile: c.profile, InsistOnSkid: insist, Parameters: []string{c.parameter}})
				if err != nil {
					t.Fatal(err)
				}
				v := e.Values[0]
				refuse := c.refused && skid == roughness.WithSkid && !insist
				if math.IsNaN(v.Value) != refuse || refuse && v.Reason == "" {
					t.Errorf("%s, skid %d, insisting %t: %g, %q", c.parameter, skid, insist, v.Value, v.Reason)
				}
				if noted := hasNote(e, "skid"); noted != (c.refused && skid == roughness.WithSkid && insist) {
					t.Errorf("%s, skid %d, insisting %t: noted %t", c.parameter, skid, insist, noted)
				}
			}
		}
	}
}
