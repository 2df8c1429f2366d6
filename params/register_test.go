package params_test

import (
	"testing"

	"example.com/furrow/params"
	"example.com/furrow/roughness/selfcheck"
)

// TestRegister: the checks from outside agree, and every parameter has at least two: those of the register, and its second implementation.
func TestRegister(t *testing.T) {
	checks := map[string]int{}
	for _, c := range selfcheck.Run("params", "roughness") {
		checks[c.Subject]++
		if c.Word != selfcheck.Agrees {
			t.Errorf("%s: found %.12g, want %.12g ± %g (%s) %s", c.ID, c.Found, c.Expected, c.Tolerance, c.Source, c.Fault)
		}
	}
	for key := range secondOf {
		checks[key]++
	}
	for _, p := range params.Catalogue() {
		if checks[p.Key] < 2 {
			t.Errorf("%s has %d checks from outside, want two or more", p.Key, checks[p.Key])
		}
	}
}
