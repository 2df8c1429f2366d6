package tracefile_test

import (
	"errors"
	"testing"

	"example.com/furrow/roughness/tracefile"
)

// x at the very edge of 2 % of a step counts as even, whatever its digits round to, and beyond it does not.
func TestEvenAtTheEdge(t *testing.T) {
	for middle, even := range map[string]bool{"50.02": true, "49.98": true, "50.0201": false, "49.9799": false} {
		_, err := tracefile.Read([]byte("x [µm];z [µm]\n49;1\n"+middle+";2\n51;3\n"), nil)
		if even && err != nil || !even && !errors.Is(err, tracefile.ErrUneven) {
			t.Errorf("49, %s, 51: %v", middle, err)
		}
	}
}
