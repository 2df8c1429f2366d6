package standards_test

import (
	"testing"

	"example.com/furrow/roughness/selfcheck"
)

// TestRegister: the checks from outside of tables, guard bands and budgets agree.
func TestRegister(t *testing.T) {
	for _, c := range selfcheck.Run("standards") {
		if c.Word != selfcheck.Agrees {
			t.Errorf("%s: found %.12g, want %.12g ± %g (%s) %s", c.ID, c.Found, c.Expected, c.Tolerance, c.Source, c.Fault)
		}
	}
}
