package figure_test

import (
	"strings"
	"testing"

	"example.com/furrow/roughness/figure"
)

// Two sides with the same value show it with three digits, not as a whole number.
func TestDifferenceOfNothing(t *testing.T) {
	d := figure.DifferenceChart{Symbol: "Rz", Unit: "µm", First: "left", Last: "right", From: 2.9197, To: 2.9197}
	if p := d.Draw(figure.Options{}); !strings.HasPrefix(p.Desc, "From 2.92 (left) to 2.92 (right).") {
		t.Errorf("%s", p.Desc)
	}
}
