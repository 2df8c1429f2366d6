package compare

import (
	"testing"

	"example.com/furrow/roughness"
)

// Three digits of the difference, at least those of the value and at most six decimals; two at most from 100 on.
func TestShow(t *testing.T) {
	for _, c := range []struct {
		a, b float64
		want string
	}{{1, 1, "1.235"}, {1, 1.5, "1.235"}, {1, 1.005, "1.23457"}, {1, 1.0001, "1.234568"}, {99.5, 99.9, "1.235"}, {100, 100.2, "1.23"}, {100.5, 100.51, "1.23"}, {-100.5, -90, "1.23"}, {250, 300, "1.23"}} {
		l := &Ledger{A: roughness.Value{Value: c.a}, B: roughness.Value{Value: c.b}}
		if got := l.Show(1.23456789); got != c.want {
			t.Errorf("%g and %g: %s, want %s", c.a, c.b, got, c.want)
		}
	}
}
