package e2e

import (
	"fmt"
	"testing"
)

// The sheets Difference and Instrument check have every part that their description names, under its id.
func TestPartsByID(t *testing.T) {
	head := []string{"brand", "kept"}
	for _, c := range []struct {
		name  string
		open  func(*testing.T, int, int) *sheet
		parts []string
	}{
		{"difference", differs, []string{"differ-demo", "printed-symbol-1", "printed-value-1", "printed-symbol-2", "printed-value-2", "printed-remove-1", "printed-more", "printed-find", "printed-found",
			"printed-next", "printed-apply", "busy-stop", "differ-picture", "differ-numbers", "differ-a", "differ-b", "differ-side", "editions", "edition-text", "edition-a", "edition-b", "edition-periodic",
			"edition-side", "edition-picture", "steady-table"}},
		{"check", checks, []string{"check-instrument", "check-tip", "check-angle", "check-skid", "check-date", "check-gain", "check-operator", "check-remarks", "specimen-number", "specimen-type", "specimen-value",
			"specimen-u", "specimen-due", "specimen-file", "specimen-traces", "specimen-outcome", "specimen-gain", "groove-file", "groove-value", "groove-u", "groove-picture", "groove-outcome", "flat-file",
			"noise-table", "noise-outcome", "check-result", "check-tip-hint", "check-earlier-list", "check-keep", "check-earlier"}},
	} {
		s := c.open(t, 1280, 900)
		for _, id := range append(head, c.parts...) {
			if !eval[bool](s, fmt.Sprintf(`!!document.getElementById(%q) || !!document.querySelector('.' + %q)`, id, id)) {
				t.Errorf("%s has no %s", c.name, id)
			}
		}
		if n := eval[int](s, `document.querySelectorAll('nav.sheets a').length`); n < 4 {
			t.Errorf("%s leads to %d sheets", c.name, n)
		}
	}
}
