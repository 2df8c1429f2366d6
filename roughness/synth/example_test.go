package synth_test

import (
	"fmt"
	"math"

	"example.com/furrow/roughness/synth"
)

func ExampleValue() {
	turned := synth.Turned{Feed: 200, Nose: 800} // 0.2 mm per revolution, 0.8 mm nose radius
	rz, _ := synth.Value(turned, "Rz")
	ra, _ := synth.Value(turned, "Ra")
	fmt.Printf("Rz %.3f µm, Ra %.3f µm\n", rz, ra)
	// Output: Rz 6.250 µm, Ra 1.604 µm
}

// Every shape says what a correct evaluation has to find.
func ExampleShape() {
	for _, s := range []synth.Shape{
		synth.Sine{Amplitude: 1, Wavelength: 100},
		synth.Triangle{Amplitude: 1, Wavelength: 100},
		synth.Sawtooth{Amplitude: 1, Wavelength: 100, Rise: 0.8},
		synth.Rectified{Height: 1, Wavelength: 100},
		synth.Sines{{Amplitude: 1, Wavelength: 100}, {Amplitude: 0.5, Wavelength: 25}},
		synth.NormalSet{Sigma: 1, Seed: 1},
	} {
		rq, _ := synth.Value(s, "Rq")
		square := 0.0
		for _, z := range s.Heights(100000, 0.01) {
			square += z * z / 100000
		}
		fmt.Printf("%T: Rq %.3f, of the heights %.3f\n", s, rq, math.Sqrt(square))
	}
	// Output:
	// synth.Sine: Rq 0.707, of the heights 0.707
	// synth.Triangle: Rq 0.577, of the heights 0.577
	// synth.Sawtooth: Rq 0.577, of the heights 0.577
	// synth.Rectified: Rq 0.308, of the heights 0.308
	// synth.Sines: Rq 0.791, of the heights 0.791
	// synth.NormalSet: Rq 1.000, of the heights 1.000
}
