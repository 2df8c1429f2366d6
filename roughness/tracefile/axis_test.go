package tracefile_test

import (
	"errors"
	"testing"

	"example.com/furrow/roughness/tracefile"
)

// A spacing that is said beside x may be 2 % of itself off the steps of x, and counts.
func TestSpacingBesideX(t *testing.T) {
	for hint, want := range map[string]string{"0.491": "0.491: 1 2 3", "0.5": "0.5: 1 2 3", "0.51": "0.51: 1 2 3", "0.49": "2:1 hint", "0.511": "2:1 hint", "50": "2:1 hint", "0.02": "2:1 hint"} {
		if got := outcome("0;1\n0.5;2\n1;3\n", `{"x_column":1,"z_column":2,"x_unit":"um","z_unit":"um","spacing":`+hint+"}"); got != want {
			t.Errorf("%s: %s, want %s", hint, got, want)
		}
	}
}

// x at the very edge of 2 % of a step counts as even, whatever its digits round to, and beyond it does not.
func TestEvenAtTheEdge(t *testing.T) {
	// The last digits of the largest x are slack, four of them: the numbers lie 2^-51 apart at 2.
	for middle, even := range map[string]bool{"1.0200000000000014": true, "0.9799999999999985": true, "1.020000000000002": false, "0.979999999999998": false} {
		if got := outcome("x [µm];z [µm]\n0;1\n"+middle+";2\n2;3\n", ""); even != (got == "1: 1 2 3") {
			t.Errorf("0, %s, 2: %s", middle, got)
		}
	}
	for middle, even := range map[string]bool{"50.02": true, "49.98": true, "50.0201": false, "49.9799": false} {
		_, err := tracefile.Read([]byte("x [µm];z [µm]\n49;1\n"+middle+";2\n51;3\n"), nil)
		if even && err != nil || !even && !errors.Is(err, tracefile.ErrUneven) {
			t.Errorf("49, %s, 51: %v", middle, err)
		}
	}
}
