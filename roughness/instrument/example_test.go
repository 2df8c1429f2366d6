package instrument_test

import (
	"context"
	"fmt"

	"example.com/furrow/roughness"
	"example.com/furrow/roughness/instrument"
	"example.com/furrow/roughness/synth"
)

// Rq of a fine surface with the noise of the instrument taken out in quadrature; the value that was shown stays as it is.
func ExampleNoiseCheck_Correct() {
	set := &roughness.Settings{Parameters: []string{"Rq"}}
	var flats []roughness.Profile
	for i := range 5 {
		flats = append(flats, roughness.Profile{Z: synth.Noise{Sigma: 0.02, Seed: uint64(100 + i)}.Heights(9600, 0.5), Spacing: 0.5})
	}
	n, err := instrument.CheckNoise(context.Background(), flats, set, nil, instrument.Session{})
	if err != nil {
		fmt.Println(err)
		return
	}
	fine := roughness.Profile{Z: synth.Sine{Amplitude: 0.05, Wavelength: 100}.Heights(9600, 0.5), Spacing: 0.5}
	e, err := roughness.Evaluate(fine, set)
	if err != nil {
		fmt.Println(err)
		return
	}
	c, err := n.Correct(e, "Rq")
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%.4f µm shown, %.4f µm of noise: %.4f µm\n", c.Shown, c.Noise, c.Corrected)
	// Output: 0.0353 µm shown, 0.0110 µm of noise: 0.0336 µm
}
