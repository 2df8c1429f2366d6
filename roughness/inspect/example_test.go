package inspect_test

import (
	"fmt"
	"math"

	"example.com/furrow/roughness"
	"example.com/furrow/roughness/inspect"
)

// A trace whose heights end at 1 µm, for the range of the instrument did, and that has a short gap.
func ExampleLook() {
	z := make([]float64, 1000)
	for i := range z {
		z[i] = min(1, math.Sin(float64(i)/30)+0.5*math.Sin(float64(i)/7))
	}
	z[500], z[501] = math.NaN(), math.NaN()
	for _, f := range inspect.Look(roughness.Profile{Z: z, Spacing: 0.5}, inspect.Conditions{Short: 2.5, Long: 800}) {
		fmt.Println(f.Code, "-", f.Text)
	}
	// Output:
	// gaps - 2 of 1000 points without a height, in 1 gap; the longest is 1 µm, at 0.25 mm (point 501).
	// clipped - 133 points are at the highest value 1 µm, 20 of them in a row at 0.111 mm (point 223): the range of the instrument seems to end there.
	// periodic - One wave of 94 µm and its overtones hold 98 % of the power: the surface is periodic.
}
