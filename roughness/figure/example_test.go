package figure_test

import (
	"fmt"

	"example.com/furrow/roughness/figure"
	"example.com/furrow/roughness/synth"
)

func ExampleProfilePlot() {
	z := synth.Sine{Amplitude: 1, Wavelength: 200}.Heights(8001, 0.5)
	p := figure.ProfilePlot{Letter: "R", Z: z, Spacing: 0.5, Layout: figure.Layout{Sections: 5, Length: 800}}.Draw(figure.Options{Width: 736})
	fmt.Println(p.Title)
	fmt.Println(p.Desc)
	fmt.Println(p.Caption)
	// Output:
	// Roughness profile in five sections
	// Roughness profile: from −1.00 µm at 0.15 mm to 1.00 µm at 0.05 mm; drawn from 0 to 4 mm.
	// Heights are drawn 465 times larger than lengths. Each column shows its highest and lowest point, so no peak or pit is lost.
}

// The other pictures are drawn alike: a struct, a width, and out come the drawing, its words and its numbers.
func ExampleDrawing() {
	z := synth.Sine{Amplitude: 1, Wavelength: 100}.Heights(1000, 0.5)
	for _, d := range []figure.Drawing{
		figure.Spark{Z: z, Spacing: 0.5},
		figure.Distribution{Z: z},
		figure.Decision{Symbol: "Rz", Unit: "µm", Limits: []figure.Limit{{Value: 3.2, Accept: 3.1, Reject: 3.3}}, Values: []figure.Measured{{Name: "trace 1", Value: 2.87, U: 0.1}}},
		figure.DifferenceChart{Symbol: "Rz", Unit: "µm", First: "here", Last: "there", From: 2.9, To: 3, Shares: []figure.Share{{Name: "four sections", Value: 0.1}}},
		figure.Classes{Symbol: "Rz", Unit: "µm", Limit: 3.2, Classes: []figure.Class{{Name: "Sc2", To: 0.8, Nic: 250}, {Name: "Sc3", To: 16, Nic: 800}, {Name: "Sc4", To: 80, Nic: 2500}}},
	} {
		p := d.Draw(figure.Options{Width: 350})
		fmt.Printf("%s: %d × %d, %d rows\n", p.Title, p.Width, p.Height, len(p.Table.Rows))
	}
	// Output:
	// Profile: 350 × 36, 1 rows
	// Height density: 350 × 250, 23 rows
	// Decision: 350 × 142, 3 rows
	// Where the difference comes from: 350 × 198, 3 rows
	// Setting class for Rz: 350 × 132, 3 rows
}
