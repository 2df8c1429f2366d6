package synth_test

import (
	"fmt"

	"example.com/furrow/roughness/synth"
)

func ExampleValue() {
	turned := synth.Turned{Feed: 200, Nose: 800} // 0.2 mm per revolution, 0.8 mm nose radius
	rz, _ := synth.Value(turned, "Rz")
	ra, _ := synth.Value(turned, "Ra")
	fmt.Printf("Rz %.3f µm, Ra %.3f µm\n", rz, ra)
	// Output: Rz 6.250 µm, Ra 1.604 µm
}
