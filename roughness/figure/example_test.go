package figure_test

import (
	"fmt"

	"example.com/furrow/roughness/figure"
	"example.com/furrow/roughness/synth"
)

func ExampleProfile() {
	z := synth.Sine{Amplitude: 1, Wavelength: 200}.Heights(8001, 0.5)
	p := figure.Profile{Letter: "R", Z: z, Spacing: 0.5, Layout: figure.Layout{Sections: 5, Length: 800}}.Draw(figure.Options{Width: 736})
	fmt.Println(p.Title)
	fmt.Println(p.Desc)
	fmt.Println(p.Caption)
	// Output:
	// Roughness profile in five sections
	// Roughness profile: from −1.00 µm at 0.15 mm to 1.00 µm at 0.05 mm; drawn from 0 to 4 mm.
	// Heights are drawn 465 times larger than lengths. Each column shows its highest and lowest point, so no peak or pit is lost.
}
